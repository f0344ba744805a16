"""Strips and what is cut from them: across the cloth, along it, and from what is left beside what lies along it."""

from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple, TypeVar

from finishcalc.measures.length import ZERO, Length

Item = TypeVar("Item")
Alike = tuple[Item, int]
"""So many of one thing."""
Way = Literal["across", "along"]


class Bit(NamedTuple):
    """A piece on a strip, or a part of one: `of` is the whole piece's length."""

    use: str
    length: Length
    of: Length

    @property
    def joined(self) -> bool:
        """Whether it is sewn to another bit."""
        return self.length != self.of


class Strips(NamedTuple):
    """Strips of one width, each with the bits that are cut from it."""

    width: Length
    strips: tuple[tuple[Bit, ...], ...]


class Beside(NamedTuple):
    """Strips from what is left beside the pieces of a cut length, across it or along it, each as long as the rest is
    that way. They take their width of the rest one after the other."""

    way: Way
    length: Length
    cut: Strips


class Column(NamedTuple):
    """A piece cut along the cloth, from a column as wide as it is."""

    use: str
    width: Length
    length: Length


class Along(NamedTuple):
    """Pieces cut side by side along the cloth, from one length of it, and what is cut from the rest beside them."""

    length: Length
    pieces: tuple[Column, ...]
    beside: tuple[Beside, ...] = ()


class Wanted(NamedTuple):
    """So many bits of strips so wide, and which ways they may lie."""

    width: Length
    bit: Bit
    number: int
    ways: tuple[Way, ...]


def filled(
    pieces: Sequence[Alike[Item]],
    whole: Length,
    taken: Callable[[Item], Length],
    order: Callable[[Item], Length],
    most: int | None = None,
) -> tuple[list[list[Item]], list[Alike[Item]]]:
    """The longest first, as many as have room in each place of a `whole` width in turn, then in new places, `most` at
    the most; and what has none. What is too long for any has one of its own."""
    places: list[list[Item]] = []
    room: list[Length] = []
    rest: list[Alike[Item]] = []
    for piece, number in sorted(pieces, key=lambda alike: order(alike[0]), reverse=True):
        takes, place = taken(piece), 0
        while number and place < len(room):
            if room[place] >= takes:
                fitting = min(number, int(room[place] / takes))
                places[place] += [piece] * fitting
                room[place] -= takes * fitting
                number -= fitting
            place += 1
        each = max(int(whole / takes), 1)
        while number and place != most:
            fitting = min(number, each)
            alike = number // fitting if most is None else min(number // fitting, most - place)
            places += [[piece] * fitting for _ in range(alike)]
            room += [whole - takes * fitting] * alike
            number, place = number - fitting * alike, place + alike
        rest += [(piece, number)] * bool(number)
    return places, rest


def laid_beside(row: Along, usable: Length, wanted: Sequence[Wanted]) -> tuple[Along, list[Wanted]]:
    """Use what is left beside a cut length for strips, the widest first, each width the way that takes more of it.
    Gives the cut length with them, and what is still wanted."""
    wide, long = usable - sum((piece.width for piece in row.pieces), ZERO), row.length
    found, still = list[Beside](), list[Wanted]()
    for width in sorted({each.width for each in wanted}, reverse=True):
        here = [each for each in wanted if each.width == width]
        trials = [_laid(here, "across", wide, int(long / width)), _laid(here, "along", long, int(wide / width))]
        beside, left = max(trials, key=lambda trial: _used(trial[0]))
        still += left
        if beside.cut.strips:
            taken = width * len(beside.cut.strips)
            wide, long = (wide, long - taken) if beside.way == "across" else (wide - taken, long)
            found.append(beside)
    return row._replace(beside=tuple(found)), still


def _laid(wanted: list[Wanted], way: Way, whole: Length, most: int) -> tuple[Beside, list[Wanted]]:
    """Strips of one width in a rest: what may lie this way and is not too long for it."""
    fits = [each for each in wanted if way in each.ways and each.bit.length <= whole]
    places, over = filled([(each, each.number) for each in fits], whole, _bit_length, _bit_length, most)
    strips = tuple(tuple(each.bit for each in place) for place in places)
    still = [each for each in wanted if each not in fits] + [each._replace(number=number) for each, number in over]
    return Beside(way, whole, Strips(wanted[0].width, strips)), still


def _used(beside: Beside) -> Length:
    return sum((bit.length for strip in beside.cut.strips for bit in strip), ZERO)


def _bit_length(each: Wanted) -> Length:
    return each.bit.length


def _length(bit: Bit) -> Length:
    return bit.length


def strips_across(width: Length, bits: Sequence[Alike[Bit]], usable: Length) -> Strips:
    """Strips of one width across the whole cloth."""
    places, _ = filled(bits, usable, _length, _length)
    return Strips(width, tuple(map(tuple, places)))


def lengths_along(columns: Sequence[Alike[Column]], usable: Length) -> tuple[Along, ...]:
    """Pieces side by side along the cloth, as many as its width holds, the longest first."""
    rows, _ = filled(columns, usable, lambda piece: piece.width, lambda piece: piece.length)
    return tuple(Along(row[0].length, tuple(row)) for row in rows)
