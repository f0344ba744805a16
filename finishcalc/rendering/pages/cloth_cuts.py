"""The cut list of one cloth, as a pattern prints it: totals first, then the cuts in order with the letters of the
pieces, the squares that become triangles, and the strips that are joined."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from finishcalc.measures.length import Length
from finishcalc.plans.cloth import USE_WORDS, Purchase, uses_words
from finishcalc.plans.cutting.layout import Band, Column, LaidPiece
from finishcalc.plans.pieced.pieces import TopPieces
from finishcalc.rendering.lettering import Lettered, Lettering, PieceKind, kind_of, pieces_of
from finishcalc.rendering.pages.pieced import TRIANGLES
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import capital, counted, in_words


class ClothCuts:
    """The list of one purchase. `pieces` are those of a pieced top, which say how many joined strips and how many
    triangles are needed."""

    def __init__(self, purchase: Purchase, lettering: Lettering, pieces: TopPieces | None, notation: Notation) -> None:
        self.purchase, self.fabric, self.lettering = purchase, purchase.fabric, lettering
        self.pieces, self.notation = pieces, notation
        self._named: set[str] = set()

    def heading(self) -> str:
        """Name the cloth with the length that is bought or brought, and its parts."""
        show, lengths = self.notation.show, self.purchase.lengths
        amount = " + ".join(show(InUnit(length, self.fabric.per)) for length in lengths)
        brought = "" if self.purchase.supplied_by == "shop" else " from the customer"
        return f"{capital(show(self.fabric.name))}, {amount}{brought}, for {uses_words(self.purchase.uses)}"

    # --- totals ----------------------------------------------------------------------------------------------------

    def totals(self) -> list[str]:
        """Count everything that this cloth gives, sewn together where it is joined."""
        groups = Counter(
            (piece.use, piece.wanted.width, piece.wanted.joined_to) for piece in self._pieces() if piece.use != "binding"
        )
        lines = [self._total(use, width, length, number) for (use, width, length), number in groups.items()]
        binding = Counter(kind_of(piece) for piece in self._pieces() if piece.use == "binding")
        lines += [f"{number} of {self.lettering[kind].size(self.notation)} for binding" for kind, number in binding.items()]
        return [", ".join(lines)] if lines else []

    def _total(self, use: str, width: Length, length: Length, cut: int) -> str:
        joined = any(piece.joined for piece in self._group(use, width, length))
        number = (self._finished(use, width, length) or cut) if joined else cut
        lettered = Lettered("", PieceKind(use, width, length), number, scant=False)
        size = lettered.size(self.notation)
        if joined and not self._finished(use, width, length):
            return f"{cut} parts of strips {size} for {USE_WORDS.get(use, use)}"
        after = ", joined" if joined else ""
        if use == "sashing":
            return f"{counted(number, 'sashing strip')} {size}{after}"
        if use == "cornerstones":
            return f"{counted(number, 'cornerstone')} {size}"
        if width == length:
            return f"{counted(number, 'square')} {self.notation.show(width)} for {USE_WORDS.get(use, use)}"
        thing = "strip" if use.startswith("border") else "piece"
        return f"{counted(number, thing)} {size} for {USE_WORDS.get(use, use)}{after}"

    def _group(self, use: str, width: Length, joined_to: Length) -> list[LaidPiece]:
        key = (use, width, joined_to)
        return [piece for piece in self._pieces() if (piece.use, piece.wanted.width, piece.wanted.joined_to) == key]

    def _finished(self, use: str, width: Length, length: Length) -> int:
        """Count the strips of a part that are joined to a length; 0 where the top does not say."""
        if not self.pieces:
            return 0
        parts = self.pieces.sashing if use == "sashing" else ()
        if use.startswith("border "):
            parts = self.pieces.rounds[int(use.removeprefix("border ")) - 1].strips
        measured = self.notation.measurable
        return sum(part.number for part in parts if part.width == width and measured(part.length) == measured(length))

    # --- cuts ------------------------------------------------------------------------------------------------------

    def steps(self) -> list[str]:
        """Number the cuts, the first of each length first."""
        lines = list(self._preparing())
        number, several = 0, len(self.purchase.layouts) > 1
        for place, layout in enumerate(self.purchase.layouts):
            if several:
                bought = self.notation.show(InUnit(self.purchase.lengths[place], self.fabric.per))
                lines.append(f"from length {place + 1}, {bought}:")
            start = layout.length * 0
            for step in _steps(layout.bands):
                start += step[0].gap
                where = f"from {self.notation.show(start)} on, so that the print meets, " if step[0].gap else ""
                number += 1
                lines.append(f"{number}. {where}{self._step(step, layout.usable)}")
                start += sum((band.length for band in step), layout.length * 0)
        return lines

    def _preparing(self) -> Iterator[str]:
        fabric, show = self.fabric, self.notation.show
        if fabric.shrink_along or fabric.shrink_across:
            yield "wash and dry the cloth first: the sizes below are for washed cloth"
        ready = []
        if fabric.straighten:
            of_each = " of each length" if len(self.purchase.layouts) > 1 else ""
            ready.append(f"square the end{of_each}; it may take {show(fabric.straighten)}")
        if fabric.selvage and self.purchase.layouts:
            ready.append(f"trim the selvages; planned on {show(self.purchase.layouts[0].usable)} of usable width")
        if ready:
            yield "; ".join(ready)

    def _step(self, bands: Sequence[Band], usable: Length) -> str:
        """Write bands of one length that follow each other: strips across the cloth, or a length cut along it."""
        length = bands[0].length
        long = length >= usable
        size = self.notation.measured_length(length)
        if long:
            cut = f"cut a length of {size}" if len(bands) == 1 else f"cut {len(bands)} lengths of {size}"
        else:
            cut = f"cut {counted(len(bands), 'strip')} {size} x width of cloth"
        alike = [(band, len(list(run))) for band, run in groupby(bands, key=lambda band: band.columns)]
        contents = []
        for columns, number in alike:
            source = "from it" if len(bands) == 1 else "from each" if len(alike) == 1 else f"from {number} of them"
            each = " each" if number > 1 and len(alike) > 1 else ""
            contents.append(self._contents(columns, length, usable, number, source, each))
        return f"{cut}{'; ' if contents else ''}{'; '.join(contents)}"

    def _contents(
        self, columns: Sequence[Column], length: Length, usable: Length, times: int, source: str, each: str
    ) -> str:
        """Say what is cut from a band: what is as long as it first, then what comes of the rest beside it."""
        whole = [column for column in columns if len(column.pieces) == 1]
        stacked = [column for column in columns if len(column.pieces) > 1]
        if len(columns) == 1 and whole and whole[0].width == usable:
            return f"these are {self._counted(whole[0].pieces, times)}" if times > 1 else f"it is {self._counted(whole[0].pieces)}"
        along = ", along the cloth," if length >= usable else ""
        parts = []
        if whole:
            pieces = [piece for column in whole for piece in column.pieces]
            parts.append(f"{source}{along} {self._counted(pieces)}{each}")
        for column, run in groupby(stacked):
            number = len(list(run))
            strips = counted(number, "strip")
            where = "from what is left of it" if whole else source
            lengthwise = self.notation.measured_length(column.width)
            pieces = self._counted(column.pieces, number)
            parts.append(f"{where}{each}, {strips} {lengthwise} wide along the cloth, and from {'these' if number > 1 else 'this'} {pieces}")
        return "; ".join(parts)

    def _counted(self, pieces: Sequence[LaidPiece], times: int = 1) -> str:
        """Count pieces by letter: "3 A (sashing, 2 1/2 x 12 1/2 in)"; the size is given where a letter is new."""
        return in_words(
            [self._letter(kind, number * times) for kind, number in Counter(kind_of(piece) for piece in pieces).items()]
        )

    def _letter(self, kind: PieceKind, number: int) -> str:
        lettered = self.lettering[kind]
        words = f"{number}{NO_BREAK}{lettered.letter}"
        if lettered.letter in self._named:
            return words
        self._named.add(lettered.letter)
        return f"{words} ({USE_WORDS.get(kind.use, kind.use)}, {lettered.size(self.notation)})"

    # --- what becomes of the pieces --------------------------------------------------------------------------------

    def triangles(self) -> list[str]:
        """Say how squares are cut corner to corner, how many triangles that makes, and how many are needed."""
        lines = []
        for each in self.pieces.triangles if self.pieces else ():
            lettered = self.lettering.get(PieceKind("triangles", each.square, each.square))
            if lettered:
                times, made = ("twice", each.squares * 4) if each.cuts == 2 else ("once", each.squares * 2)
                squares = "it" if each.squares == 1 else f"the {each.squares}"
                needed = f"{made} triangles, {each.number} needed as {TRIANGLES[each.use]}"
                lines.append(f"{lettered.letter}: cut {squares} {times} corner to corner: {needed}")
        return lines

    def joins(self) -> list[str]:
        """Say into what the parts of joined strips are sewn."""
        groups: dict[tuple[str, Length, Length], Counter[str]] = {}
        for piece in self._pieces():
            if piece.joined_piece if False else piece.wanted.joined and piece.use != "binding":
                key = (piece.use, piece.wanted.width, piece.wanted.joined_to)
                groups.setdefault(key, Counter())[self.lettering[kind_of(piece)].letter] += 1
        return [self._join(*key, letters) for key, letters in groups.items()]

    def _join(self, use: str, width: Length, length: Length, letters: Counter[str]) -> str:
        """Share the parts out among the strips where they come out even, which they do but for a part cut anew."""
        finished, size = self._finished(use, width, length), self.notation.size(width, length)
        for_use = USE_WORDS.get(use, use)
        if finished and all(number % finished == 0 for number in letters.values()):
            parts = in_words([f"{number // finished}{NO_BREAK}{letter}" for letter, number in letters.items()])
            return f"for {for_use}, join {parts} end to end to make {size}; make {finished} of these"
        parts = in_words([f"{number}{NO_BREAK}{letter}" for letter, number in letters.items()])
        return f"for {for_use}, join {parts} end to end into strips of {size}"

    def _pieces(self) -> Iterator[LaidPiece]:
        for layout in self.purchase.layouts:
            for band in layout.bands:
                yield from pieces_of(band)


def _steps(bands: Sequence[Band]) -> Iterator[list[Band]]:
    """Take bands of one length that follow each other together; one with a gap before it begins anew."""
    step: list[Band] = []
    for band in bands:
        if step and (band.length != step[0].length or band.gap):
            yield step
            step = []
        step.append(band)
    if step:
        yield step
