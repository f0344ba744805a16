"""A cutting diagram for the terminal: the cloth's length runs down, band by band, and every piece shows its letter."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.rendering.pictures.characters import CharacterSheet
from finishcalc.rendering.pictures.cutting import CuttingPicture, DrawnCell, DrawnColumn
from finishcalc.rendering.wrapping import display_width, wrap
from finishcalc.wording.notation import Notation, plain_blanks

LEFT_OVER = "░"
MOST_LINES = 40
"""The most lines of a drawing before alike bands that follow each other are drawn once."""
TALLEST_BAND = 8
MOST_STACKED = 3
"""More alike pieces behind each other are drawn as one."""


class _Stretch(NamedTuple):
    """A stretch of a column, with its label; without one it is left over."""

    label: str
    along: Length

    @property
    def rows(self) -> list[str]:
        return self.label.split("\n")


class _Stack(NamedTuple):
    """A column of a band as it is drawn. In one that is `joined`, several stretches or columns are drawn as one."""

    across: Length
    stretches: tuple[_Stretch, ...]
    joined: bool = False

    @property
    def least(self) -> int:
        """The cells that its labels need."""
        return max(1, *(len(row) for stretch in self.stretches for row in stretch.rows))

    @property
    def lines(self) -> int:
        """The lines that it needs, with those between its stretches."""
        return sum(len(stretch.rows) + 1 for stretch in self.stretches) - 1


class _Drawn(NamedTuple):
    """A band as it is drawn: so many `times` over, its columns, and the cells that each of them has."""

    length: Length
    times: int
    stacks: tuple[_Stack, ...]
    widths: tuple[int, ...]
    height: int


def cutting_box(picture: CuttingPicture, notation: Notation, width: int) -> list[str]:
    """Draw the diagram with its title and its key, at most `width` columns wide."""
    runs = list(_runs(picture))
    beside = max(display_width(_beside(length, times, notation)) for _, length, times in runs) + 1
    inner = width - beside - 2
    each = [(_fit(stacks, length, 1, inner, picture.usable), times) for stacks, length, times in runs]
    drawn = [band for band, times in each for _ in range(times)]
    if sum(band.height + 1 for band in drawn) > MOST_LINES:
        drawn = [band._replace(times=times) for band, times in each]
    lines = wrap("; ".join([picture.title, *picture.facts]), width)
    lines.append(_ruler(picture, notation, inner))
    lines += _sheet(drawn, inner, notation)
    lines += wrap(_grain(picture, drawn, inner), width)
    lines += [part for line in picture.key for part in wrap(line, width)]
    lines += wrap(f"{LEFT_OVER} {picture.rest_words}", width) if picture.has_rest else []
    return [plain_blanks(line).rstrip() for line in lines]


def _ruler(picture: CuttingPicture, notation: Notation, inner: int) -> str:
    """Name the selvages above the drawing, and the width between them."""
    usable = plain_blanks(notation.show(picture.usable))
    room = inner + 2 - 2 * len("selvage")
    return f"selvage{usable.center(room)}selvage" if len(usable) + 2 <= room else usable.center(inner + 2)


def _grain(picture: CuttingPicture, drawn: Sequence[_Drawn], inner: int) -> str:
    way = "↓ one way, from the first cut to the end of the bolt" if picture.one_way else "↕ grain, along the selvages"
    return way if _to_scale(picture, drawn, inner) else f"{way}; not to scale"


def _to_scale(picture: CuttingPicture, drawn: Sequence[_Drawn], inner: int) -> bool:
    """True where everything has the place that it takes, to the nearest cell and line."""
    for band in drawn:
        if band.times > 1 or any(stack.joined for stack in band.stacks):
            return False
        if abs(band.height + 1 - _lines_to_scale(band.length, picture.usable, inner)) > 1:
            return False
        for stack, cells in zip(band.stacks, band.widths, strict=True):
            if abs(cells + 1 - stack.across / picture.usable * (inner + 1)) > 1:
                return False
    return True


# --- from bands to stacks -----------------------------------------------------------------------------------------


def _runs(picture: CuttingPicture) -> Iterator[tuple[tuple[DrawnColumn, ...], Length, int]]:
    """Give bands that are alike and follow each other together, and the cloth that is left between and behind bands."""
    places = [(band.x, band.columns, band.length) for band in picture.bands]
    places += [
        (rest.x, (DrawnColumn(rest.across, (DrawnCell(rest.along, ()),)),), rest.along) for rest in picture.rests
    ]
    for (columns, length), run in groupby(sorted(places, key=lambda place: place[0]), key=lambda place: place[1:]):
        yield columns, length, len(list(run))


def _stack(columns: Sequence[DrawnColumn]) -> _Stack:
    """Draw alike columns as one: a stretch for each cell, or for many alike cells that follow each other."""
    stretches, joined = list[_Stretch](), len(columns) > 1
    for letters, run in groupby(columns[0].cells, key=lambda cell: cell.letters):
        cells = list(run)
        parts = [[cell] for cell in cells] if len(cells) <= MOST_STACKED else [cells]
        joined = joined or len(parts) < len(cells) or len(letters) > 1
        stretches += [_Stretch(_label(letters, len(part) * len(columns)), _along(part)) for part in parts]
    return _Stack(sum((column.across for column in columns), ZERO), tuple(stretches), joined)


def _along(cells: Sequence[DrawnCell]) -> Length:
    return sum((cell.along for cell in cells), ZERO)


def _label(letters: Sequence[str], times: int) -> str:
    """Name pieces, alike ones by their number: "A", "3 x B", "2 x B, C"."""
    counts = Counter(letters)
    return ", ".join(f"{n * times} x {letter}" if n * times > 1 else letter for letter, n in counts.items())


# --- cells ---------------------------------------------------------------------------------------------------------


def _fit(columns: tuple[DrawnColumn, ...], length: Length, times: int, inner: int, usable: Length) -> _Drawn:
    """Share the cells of a line out among columns. Alike ones side by side become one where there are too few, and
    where there still are, one column lists them all."""
    stacks = [_stack([column]) for column in columns]
    if not _have_room(stacks, inner):
        stacks = [_stack(list(run)) for _, run in groupby(columns)]
    if not _have_room(stacks, inner):
        stacks = [_listed(stacks, length, inner)]
    height = max(stack.lines for stack in stacks)
    height = max(height, min(_lines_to_scale(length, usable, inner) - 1, TALLEST_BAND))
    return _Drawn(length, times, tuple(stacks), _widths(stacks, inner, usable), height)


def _have_room(stacks: Sequence[_Stack], inner: int) -> bool:
    return sum(stack.least + 1 for stack in stacks) - 1 <= inner


def _listed(stacks: Sequence[_Stack], length: Length, inner: int) -> _Stack:
    """List the labels of all columns in one, on as many lines as they take."""
    labels = [stretch.label for stack in stacks for stretch in stack.stretches if stretch.label]
    lines = wrap("; ".join(label.replace(" ", "\u00a0") for label in labels), inner)
    across = sum((stack.across for stack in stacks), ZERO)
    return _Stack(across, (_Stretch(plain_blanks("\n".join(lines)), length),), joined=True)


def _lines_to_scale(length: Length, usable: Length, inner: int) -> int:
    """The lines that a length of cloth takes; a cell is about twice as high as it is wide."""
    return max(2, round(length / usable * (inner + 1) / 2))


def _widths(stacks: Sequence[_Stack], inner: int, usable: Length) -> tuple[int, ...]:
    """Give each column its share of the cells, and at least what its labels need."""
    exact = [stack.across / usable * (inner + 1) - 1 for stack in stacks]
    return tuple(_shared(exact, [stack.least for stack in stacks], inner - (len(stacks) - 1)))


# --- drawing -------------------------------------------------------------------------------------------------------


def _sheet(drawn: Sequence[_Drawn], inner: int, notation: Notation) -> list[str]:
    sheet = CharacterSheet(inner + 1, sum(band.height + 1 for band in drawn))
    top, beside = 0, dict[int, str]()
    for band in drawn:
        _draw(sheet, band, top)
        beside[top + (band.height + 1) // 2] = _beside(band.length, band.times, notation)
        top += band.height + 1
    return [f"{line} {beside.get(row, '')}".rstrip() for row, line in enumerate(sheet.drawn())]


def _draw(sheet: CharacterSheet, band: _Drawn, top: int) -> None:
    left = 0
    for stack, cells in zip(band.stacks, band.widths, strict=True):
        row = top
        for stretch, lines in zip(stack.stretches, _heights(stack, band.height), strict=True):
            sheet.frame(left, row, left + cells + 1, row + lines + 1)
            labels = stretch.rows if stretch.label else [LEFT_OVER * cells] * lines
            for line, label in enumerate(labels, row + 1 + (lines - len(labels)) // 2):
                sheet.write(line, left + 1 + (cells - len(label)) // 2, label)
            row += lines + 1
        left += cells + 1


def _heights(stack: _Stack, height: int) -> list[int]:
    """Share the lines of a band out among the stretches of one column, at least what the label of each needs."""
    whole = sum((stretch.along.mm for stretch in stack.stretches), ZERO.mm)
    room = height - (len(stack.stretches) - 1)
    exact = [stretch.along.mm / whole * room for stretch in stack.stretches]
    return _shared(exact, [len(stretch.rows) for stretch in stack.stretches], room)


def _shared(exact: Sequence[Fraction], least: Sequence[int], whole: int) -> list[int]:
    """Round shares so that they come to the whole, none below its least."""
    shares = [max(need, round(share)) for need, share in zip(least, exact, strict=True)]
    while sum(shares) != whole:
        step = 1 if sum(shares) < whole else -1
        free = [n for n in range(len(shares)) if step > 0 or shares[n] > least[n]]
        n = max(free, key=lambda n: (exact[n] - shares[n]) * step)
        shares[n] += step
    return shares


def _beside(length: Length, times: int, notation: Notation) -> str:
    several = f"{times} x " if times > 1 else ""
    return f"{several}{plain_blanks(notation.show(length))}"
