"""The cut list of one cloth, as a pattern prints it: totals first, then the cuts in order with the letters of the
pieces, the squares that become triangles, and the strips that are joined."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.cloth import USE_WORDS, uses_words
from finishcalc.plans.cutting.layout import Band, ClothLayout, LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.extras import ExtraPlan
from finishcalc.plans.pieced.pieces import TopPieces
from finishcalc.rendering.lettering import PieceKind, kind_of, lettering_of, pieces_of
from finishcalc.rendering.pages.page import Line
from finishcalc.rendering.pages.pieced import TRIANGLES
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Spare
from finishcalc.wording.words import capital, counted, in_words

THINGS = {"sashing": "sashing strip", "cornerstones": "cornerstone", "binding": "binding strip"}
"""The pieces of parts that have a word for them."""


Strip = tuple[Length, tuple[LaidPiece, ...]]
"""A strip by its width, and the pieces that come of it."""


class ClothCuts:
    """The list of one purchase. `pieces` are those of a pieced top, which say how many joined strips and how many
    triangles are needed; those of `extras` may be joined too."""

    def __init__(
        self, purchase: Purchase, pieces: TopPieces | None, notation: Notation, extras: Sequence[ExtraPlan] = ()
    ) -> None:
        self.purchase, self.fabric = purchase, purchase.fabric
        self.lettering = lettering_of(purchase, notation)
        self.pieces, self.extras, self.notation = pieces, extras, notation
        self._named: set[str] = set()

    def heading(self) -> str:
        """Name the cloth with the lengths that are bought, brought or at hand, and its parts."""
        show = self.notation.show
        amount = " + ".join(self._length(number) for number in range(len(self.purchase.cut_from)))
        brought = "" if self.purchase.supplied_by == "shop" else " from the customer"
        return f"{capital(show(self.fabric.name))}, {amount}{brought}, for {uses_words(self.purchase.uses)}"

    def _length(self, number: int) -> str:
        at_hand = " at hand" if self.purchase.is_at_hand(number) else ""
        return f"{self.notation.show(self.purchase.cut_from[number])}{at_hand}"

    # --- totals ----------------------------------------------------------------------------------------------------

    def totals(self) -> list[str]:
        """Count everything that this cloth gives, sewn together where it is joined."""
        groups = Counter((piece.use, piece.wanted.width, piece.wanted.joined_to) for piece in self._pieces())
        return [in_words([self._total(*group, number) for group, number in groups.items()])] if groups else []

    def _total(self, use: str, width: Length, length: Length, cut: int) -> str:
        joined = any(piece.wanted.joined for piece in self._group(use, width, length))
        finished = self._finished(use, width, length) if joined else cut
        if not finished:
            return f"{counted(cut, 'part')} of strips {self.notation.size(width, length)} for {USE_WORDS.get(use, use)}"
        thing, after = THINGS.get(use, "strip" if use.startswith("border ") else "piece"), ", joined" if joined else ""
        size = self.notation.size(width, length)
        if width == length and use != "backing":
            thing, size = (thing if use == "cornerstones" else "square"), self.notation.show(width)
        of_use = "" if use in THINGS and thing != "square" else f" for {USE_WORDS.get(use, use)}"
        return f"{counted(finished, thing)} {size}{of_use}{after}"

    def _group(self, use: str, width: Length, joined_to: Length) -> list[LaidPiece]:
        key = (use, width, joined_to)
        return [piece for piece in self._pieces() if (piece.use, piece.wanted.width, piece.wanted.joined_to) == key]

    def _finished(self, use: str, width: Length, length: Length) -> int:
        """Count the strips of a part that are joined to a length; 0 where nothing says it."""
        if extra := next((each for each in self.extras if each.use == use and each.is_of(width, length)), None):
            return extra.number
        if not self.pieces:
            return 0
        parts = self.pieces.sashing if use == "sashing" else ()
        if (number := use.removeprefix("border ")).isdecimal():
            parts = self.pieces.rounds[int(number) - 1].strips
        measured = self.notation.measurable
        return sum(part.number for part in parts if part.width == width and measured(part.length) == measured(length))

    # --- cuts ------------------------------------------------------------------------------------------------------

    def steps(self) -> list[Line]:
        """Number the cuts, the first of each length first, each with a box to tick on paper."""
        lines = [Line(text) for text in self._preparing()]
        number, several = 0, len(self.purchase.layouts) > 1
        for place, layout in enumerate(self.purchase.layouts):
            if several:
                lines.append(Line(f"from length {place + 1}, {self._length(place)}:"))
            for step in self._of_layout(layout):
                number += 1
                lines.append(Line(step, number, "on paper"))
        return lines

    def _of_layout(self, layout: ClothLayout) -> Iterator[str]:
        """Write the cuts of one length of cloth; bands that run along it come from one length."""
        if layout.turned:
            strips = [(band.length, tuple(pieces_of(band))) for band in layout.bands]
            contents = self._contents(strips, "from it", "", long=True)
            yield "; ".join([f"cut a length of {self.notation.measured_length(layout.length)}", *contents])
            return
        start = ZERO
        for step in _steps(layout.bands):
            start += step[0].gap
            where = f"from {self.notation.show(start)} on so that the print matches, " if step[0].gap else ""
            yield f"{where}{self._step(step, layout.usable)}"
            start += sum((band.length for band in step), ZERO)

    def _preparing(self) -> Iterator[str]:
        fabric, show = self.fabric, self.notation.show
        if fabric.shrink_along or fabric.shrink_across:
            yield "wash and dry the cloth first: the sizes below are for washed cloth"
        ready = []
        if fabric.straighten:
            of_each = " of each length" if len(self.purchase.layouts) > 1 else ""
            ready.append(f"square the end{of_each}, allowing up to {show(fabric.straighten)} for it")
        if fabric.selvage and self.purchase.layouts:
            ready.append(f"trim the selvages; planned on {show(self.purchase.layouts[0].usable)} of usable width")
        if ready:
            yield "; ".join(ready)

    def _step(self, bands: Sequence[Band], usable: Length) -> str:
        """Write bands of one length that follow each other: strips across the cloth, or a length cut along it."""
        size, number = self.notation.measured_length(bands[0].length), len(bands)
        long = bands[0].length >= usable or _is_named(bands[0])
        lengths = f"a length of {size}" if number == 1 else f"{number} lengths of {size}"
        parts = [f"cut {lengths}" if long else f"cut {counted(number, 'strip')} {size} x width of cloth"]
        alike = [(_strips(run[0]), len(run)) for run in (list(run) for _, run in groupby(bands, key=_kinds))]
        for strips, times in alike:
            of_them = "one of them" if times == 1 else f"{times} of them"
            of_all = "it" if number == 1 else "each"
            (_, pieces) = strips[0]
            if len(strips) == len(pieces) == 1 and pieces[0].across == usable:
                subject = of_them if len(alike) > 1 else "it" if number == 1 else "they"
                verb = "is" if times == 1 else "are"
                parts.append(f"{subject} {verb} {self._lettered(kind_of(pieces[0]), '')}")
            else:
                each = " each" if times > 1 and len(alike) > 1 else ""
                parts += self._contents(strips, f"from {of_them if len(alike) > 1 else of_all}", each, long)
        return "; ".join([*parts, *self._left_for_matching(bands, usable)])

    def _left_for_matching(self, bands: Sequence[Band], usable: Length) -> Iterator[str]:
        """Say that what is free beside a panel of a print that must meet stays on it, so that it may be shifted."""
        named = {piece.wanted.name for piece in self._pieces() if piece.wanted.name}
        spare = usable - bands[0].width
        if self.fabric.repeat and len(named) > 1 and spare > ZERO and _is_named(bands[0]):
            letters = in_words(sorted({piece.wanted.name for piece in pieces_of(bands[0]) if piece.wanted.name}))
            width = self.notation.show(Spare(spare))
            yield f"leave the {width} of width that is free on {letters} until the print is matched, then trim it off"

    def _contents(self, strips: Sequence[Strip], source: str, each: str, long: bool) -> Iterator[str]:
        """Say what is cut from a length: first the pieces as long as it, then what comes of the strips beside them."""
        whole = [piece for _, pieces in strips if len(pieces) == 1 for piece in pieces]
        if whole:
            yield f"{source}{', along the cloth,' if long else ''} {self._counted(map(kind_of, whole))}{each}"
        where = "beside that, " if whole else f"{source}{each}, "
        thing, way = ("strip", " along the cloth") if long else ("piece", "")
        stacked = (strip for strip in strips if len(strip[1]) > 1)
        for (width, kinds), run in groupby(stacked, key=lambda strip: _kinds_in(*strip)):
            number, words = len(list(run)), self._counted(kinds)
            wide = f"{self.notation.measured_length(width)} wide{way}"
            several = f"{number} {thing}s {wide}: {words} from each"
            yield where + (f"a {thing} {wide}: {words}" if number == 1 else several)
            where, way = "", ""

    def _counted(self, kinds: Iterable[PieceKind]) -> str:
        """Count pieces by letter: "3 A (sashing, 2 1/2 x 12 1/2 in)"."""
        numbers = Counter(kinds)
        return in_words([self._lettered(kind, "" if kind.name else f"{n}{NO_BREAK}") for kind, n in numbers.items()])

    def _lettered(self, kind: PieceKind, number: str) -> str:
        """Write a letter, and what it stands for where it is new."""
        lettered = self.lettering[kind]
        if lettered.letter in self._named:
            return f"{number}{lettered.letter}"
        self._named.add(lettered.letter)
        use = USE_WORDS.get(kind.use, kind.use)
        return f"{number}{lettered.letter} ({use}, {lettered.words(self.notation)})"

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
        return [*lines, *self._triangle_patches()]

    def _triangle_patches(self) -> Iterator[str]:
        for each in self.pieces.patches if self.pieces else ():
            patch, squares = each.patch, each.pieces
            lettered = self.lettering.get(PieceKind("blocks", squares.width, squares.length))
            if patch.triangles and patch.fabric.wanted == self.fabric and lettered:
                cut, made = counted(squares.number, "square"), squares.number * patch.from_one
                of_them = f"cut {cut} {patch.triangles} corner to corner"
                yield f"{lettered.letter}: {of_them}: {made} triangles, {each.number} needed for the blocks"

    def joins(self) -> list[str]:
        """Say into what the parts of joined strips are sewn."""
        groups: dict[tuple[str, Length, Length], Counter[str]] = {}
        for piece in self._pieces():
            if piece.wanted.joined and piece.use != "binding":
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
    """Take bands of one length that follow each other together; a print that must meet, or a piece with a name of its
    own, begins anew."""
    step: list[Band] = []
    for band in bands:
        if step and (band.length != step[0].length or band.gap or _is_named(band)):
            yield step
            step = []
        step.append(band)
    if step:
        yield step


def _is_named(band: Band) -> bool:
    """True where a band has pieces with names of their own, as those of a backing have."""
    return any(piece.wanted.name for piece in pieces_of(band))


def _strips(band: Band) -> list[Strip]:
    return [(column.width, column.pieces) for column in band.columns]


def _kinds(band: Band) -> list[tuple[Length, tuple[PieceKind, ...]]]:
    """Give what bands are alike in: their pieces, and not what these are joined to."""
    return [_kinds_in(*strip) for strip in _strips(band)]


def _kinds_in(width: Length, pieces: Sequence[LaidPiece]) -> tuple[Length, tuple[PieceKind, ...]]:
    return width, tuple(map(kind_of, pieces))
