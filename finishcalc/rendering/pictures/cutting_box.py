"""A cutting diagram for the terminal: the cloth's length runs down, band by band, and every piece shows its letter."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.rendering.pages.page import display_width, wrap
from finishcalc.rendering.pictures.characters import CharacterSheet
from finishcalc.rendering.pictures.cutting import CuttingPicture, DrawnBand
from finishcalc.wording.notation import Notation, plain_blanks

LEFT_OVER = "░"
MOST_LINES = 40
"""Where the whole cloth would take more lines, alike bands that follow each other are drawn once."""
TALLEST_BAND = 8
MOST_STACKED = 3
"""More alike pieces behind each other are drawn as one."""


class _Stretch(NamedTuple):
    """Alike pieces behind each other in a column, drawn as one of them with their `number`; cloth that is left has no
    letter."""

    letter: str
    along: Length
    number: int = 1

    @property
    def label(self) -> str:
        return self.letter if self.number == 1 else f"{self.letter} x {self.number}"


class _Stack(NamedTuple):
    """A column of a band, so many `times` side by side."""

    across: Length
    stretches: tuple[_Stretch, ...]
    times: int = 1

    @property
    def labels(self) -> list[str]:
        several = f"{self.times} x " if self.times > 1 else ""
        return [f"{several}{stretch.label}" if stretch.letter else "" for stretch in self.stretches]

    @property
    def least(self) -> int:
        """The cells that its labels need."""
        return max(1, *map(len, self.labels))

    @property
    def lines(self) -> int:
        """The lines that it needs, with those between its stretches."""
        return 2 * len(self.stretches) - 1


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
    drawn = [_fit(stacks, length, 1, inner, picture.usable) for stacks, length, times in runs for _ in range(times)]
    if sum(band.height + 1 for band in drawn) > MOST_LINES:
        drawn = [_fit(stacks, length, times, inner, picture.usable) for stacks, length, times in runs]
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
        if band.times > 1 or any(
            stack.times > 1 or any(s.number > 1 for s in stack.stretches) for stack in band.stacks
        ):
            return False
        if abs(band.height + 1 - _lines_to_scale(band.length, picture.usable, inner)) > 1:
            return False
        for stack, cells in zip(band.stacks, band.widths, strict=True):
            if abs(cells + 1 - stack.across / picture.usable * (inner + 1)) > 1:
                return False
    return True


# --- from bands to stacks -----------------------------------------------------------------------------------------


def _runs(picture: CuttingPicture) -> Iterator[tuple[tuple[_Stack, ...], Length, int]]:
    """Give bands that are alike and follow each other together, and the cloth that is left between and behind bands."""
    places: list[tuple[Length, tuple[_Stack, ...], Length]] = [
        (band.x, tuple(_stacks(band)), band.length) for band in picture.bands
    ]
    places += [(rest.x, (_Stack(rest.across, (_Stretch("", rest.along),)),), rest.along) for rest in picture.rests]
    for (stacks, length), run in groupby(sorted(places, key=lambda place: place[0]), key=lambda place: place[1:]):
        yield stacks, length, len(list(run))


def _stacks(band: DrawnBand) -> Iterator[_Stack]:
    """Give the columns of a band from one selvage on, each from its first cut on."""
    drawn = [(piece.y, piece.x, piece.across, piece.along, piece.letter) for piece in band.pieces]
    drawn += [(rest.y, rest.x, rest.across, rest.along, "") for rest in band.rests]
    for _, column in groupby(sorted(drawn), key=lambda each: each[0]):
        members = list(column)
        yield _Stack(members[0][2], tuple(_stretches([(letter, along) for *_, along, letter in members])))


def _stretches(members: Sequence[tuple[str, Length]]) -> Iterator[_Stretch]:
    for (letter, along), run in groupby(members):
        number = len(list(run))
        if number > MOST_STACKED:
            yield _Stretch(letter, along * number, number)
        else:
            yield from [_Stretch(letter, along)] * number


# --- cells ---------------------------------------------------------------------------------------------------------


def _fit(stacks: tuple[_Stack, ...], length: Length, times: int, inner: int, usable: Length) -> _Drawn:
    """Share the cells of a line out among columns. Alike ones side by side become one where there are too few, and
    where there still are, one column lists them all."""
    if not _have_room(stacks, inner):
        stacks = tuple(_merged(stacks))
    if not _have_room(stacks, inner):
        stacks = (_listed(stacks, inner, usable),)
    height = max(stack.lines for stack in stacks)
    height = max(height, min(_lines_to_scale(length, usable, inner) - 1, TALLEST_BAND))
    return _Drawn(length, times, stacks, _widths(stacks, inner, usable), height)


def _have_room(stacks: tuple[_Stack, ...], inner: int) -> bool:
    return sum(stack.least + 1 for stack in stacks) - 1 <= inner


def _merged(stacks: tuple[_Stack, ...]) -> Iterator[_Stack]:
    for stack, run in groupby(stacks):
        number = len(list(run))
        yield stack._replace(across=stack.across * number, times=number)


def _listed(stacks: tuple[_Stack, ...], inner: int, usable: Length) -> _Stack:
    """List the labels of all columns in one, on as many lines as they take."""
    labels = [label for stack in stacks for label in stack.labels if label]
    lines = wrap(", ".join(label.replace(" ", "\u00a0") for label in labels), inner)
    return _Stack(usable, tuple(_Stretch(plain_blanks(line), ZERO) for line in lines))


def _lines_to_scale(length: Length, usable: Length, inner: int) -> int:
    """The lines that a length of cloth takes; a cell is about twice as high as it is wide."""
    return max(2, round(length / usable * (inner + 1) / 2))


def _widths(stacks: tuple[_Stack, ...], inner: int, usable: Length) -> tuple[int, ...]:
    """Give each column its share of the cells, and at least what its labels need."""
    cells = inner - (len(stacks) - 1)
    least = [stack.least for stack in stacks]
    exact = [stack.across / usable * (inner + 1) - 1 for stack in stacks]
    widths = [max(need, round(share)) for need, share in zip(least, exact, strict=True)]
    while sum(widths) != cells:
        more = sum(widths) < cells
        spare = [n for n in range(len(stacks)) if more or widths[n] > least[n]]
        n = max(spare, key=lambda n: (exact[n] - widths[n]) * (1 if more else -1))
        widths[n] += 1 if more else -1
    return tuple(widths)


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
        for stretch, label, lines in zip(stack.stretches, stack.labels, _heights(stack, band.height), strict=True):
            sheet.frame(left, row, left + cells + 1, row + lines + 1)
            for line in range(row + 1, row + lines + 1) if not stretch.letter else ():
                sheet.write(line, left + 1, LEFT_OVER * cells)
            sheet.write(row + (lines + 1) // 2, left + 1 + (cells - len(label)) // 2, label)
            row += lines + 1
        left += cells + 1


def _heights(stack: _Stack, height: int) -> list[int]:
    """Share the lines of a band out among the stretches of one column, one at least for each."""
    whole = sum((stretch.along.mm for stretch in stack.stretches), ZERO.mm)
    room = height - (len(stack.stretches) - 1)
    exact = [stretch.along.mm / whole * room if whole else 1 for stretch in stack.stretches]
    lines = [max(1, round(share)) for share in exact]
    while sum(lines) != room:
        more = sum(lines) < room
        spare = [n for n in range(len(lines)) if more or lines[n] > 1]
        n = max(spare, key=lambda n: (exact[n] - lines[n]) * (1 if more else -1))
        lines[n] += 1 if more else -1
    return lines


def _beside(length: Length, times: int, notation: Notation) -> str:
    several = f"{times} x " if times > 1 else ""
    return f"{several}{plain_blanks(notation.show(length))}"
