"""Strips and what is cut from them: across the cloth, along it, and from the offcut beside what lies along it.

Everything is packed by first-fit decreasing: the longest piece first, each into the first place with room. It takes
at most 11/9 of the fewest places and one more (Dosa, 'The tight bound of first fit decreasing bin-packing
algorithm', 2007), it is how a person lays pieces out by eye, and a top has few enough lengths that a better search
rarely saves a strip.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Generic, Literal, NamedTuple, TypeVar

from finishcalc.measures.length import ZERO, Length

Item = TypeVar("Item")
Alike = tuple[Item, int]
"""An item, and how many of it there are."""
Grain = Literal["across", "along"]


class StripPiece(NamedTuple):
    """A length cut from a strip: a whole piece, or a part that is joined to others to make `piece_length`."""

    use: str
    length: Length
    piece_length: Length

    @property
    def joined(self) -> bool:
        """True where it is sewn to other parts of its piece."""
        return self.length != self.piece_length


class StripGroup(NamedTuple):
    """Strips of one width, each with the pieces that are cut from it."""

    width: Length
    strips: tuple[tuple[StripPiece, ...], ...]


class StripDemand(NamedTuple):
    """So many alike pieces of strips of one width, and the grains they may be cut on."""

    width: Length
    piece: StripPiece
    number: int
    grains: tuple[Grain, ...]


class OffcutStrips(NamedTuple):
    """Strips from an offcut, each as long as the offcut is in the direction of their grain."""

    grain: Grain
    length: Length
    cut: StripGroup


class LengthwisePiece(NamedTuple):
    """A piece cut along the cloth."""

    use: str
    width: Length
    length: Length


class LengthwiseCut(NamedTuple):
    """Pieces cut side by side from one length of the cloth, and the strips cut from the offcut beside them."""

    length: Length
    pieces: tuple[LengthwisePiece, ...]
    offcut_strips: tuple[OffcutStrips, ...] = ()


class Bin(Generic[Item]):
    """A place of limited size that items are packed into, such as a strip or the width of the cloth."""

    def __init__(self, capacity: Length) -> None:
        self.items: list[Item] = []
        self.room = capacity

    def take(self, item: Item, size: Length, number: int) -> int:
        """Take as many of `number` alike items as there is room for, and say how many. An empty bin takes one in any
        case."""
        if self.items and self.room < size:
            return 0
        taken = min(number, max(self.room // size, 1))
        self.items += [item] * taken
        self.room -= size * taken
        return taken


def first_fit_decreasing(
    items: Sequence[Alike[Item]],
    capacity: Length,
    size: Callable[[Item], Length],
    order: Callable[[Item], Length],
    most: int | None = None,
) -> tuple[list[list[Item]], list[Alike[Item]]]:
    """Pack items into bins, those of the largest `order` first. Gives what lies in each bin, and what `most` bins have
    no room for. An item larger than a bin gets one of its own."""
    bins: list[Bin[Item]] = []
    left: list[Alike[Item]] = []
    for item, number in sorted(items, key=lambda alike: order(alike[0]), reverse=True):
        needs = size(item)
        for each in bins:
            if not number:
                break
            number -= each.take(item, needs, number)
        while number and len(bins) != most:
            bins.append(Bin(capacity))
            number -= bins[-1].take(item, needs, number)
        if number:
            left.append((item, number))
    return [each.items for each in bins], left


def strip_groups(demands: Sequence[StripDemand], usable: Length) -> tuple[StripGroup, ...]:
    """Pack all demands into strips across the whole cloth, the widest first."""
    widths = sorted({demand.width for demand in demands}, reverse=True)
    return tuple(strip_group(width, _of_width(demands, width), usable) for width in widths)


def strip_group(width: Length, demands: Sequence[StripDemand], usable: Length) -> StripGroup:
    """Pack demands of one width into strips across the whole cloth."""
    strips, _ = _strips_of(demands, usable)
    return StripGroup(width, strips)


def lengthwise_cuts(pieces: Sequence[Alike[LengthwisePiece]], usable: Length) -> tuple[LengthwiseCut, ...]:
    """Pack pieces side by side along the cloth, as many as its width holds.

    The longest go first, so that pieces side by side are of about one length and the first sets how much is cut.
    """
    rows, _ = first_fit_decreasing(pieces, usable, lambda piece: piece.width, lambda piece: piece.length)
    return tuple(LengthwiseCut(row[0].length, tuple(row)) for row in rows)


def fill_offcut(
    cut: LengthwiseCut, usable: Length, demands: Sequence[StripDemand]
) -> tuple[LengthwiseCut, list[StripDemand]]:
    """Cut strips from the offcut beside lengthwise pieces. Gives the cut with them, and the demands that are left.

    The widest strips go first, each width on the grain that uses more of what is left of the offcut::

        |<------ usable width ------>|
        +--------+--------+----------+
        |        |        |==========|  strips across the offcut shorten it,
        | piece  | piece  |==========|
        |        |        |   |  |   |  strips along it narrow it
        |        +--------+   |  |   |
        +--------+        +---+--+---+
    """
    width, length = usable - sum((piece.width for piece in cut.pieces), ZERO), cut.length
    taken, left = list[OffcutStrips](), list[StripDemand]()
    for strip_width in sorted({demand.width for demand in demands}, reverse=True):
        alike = _of_width(demands, strip_width)
        across = _offcut_strips(alike, "across", width, most=length // strip_width)
        along = _offcut_strips(alike, "along", length, most=width // strip_width)
        strips, still = max(across, along, key=lambda trial: _used(trial[0]))
        left += still
        if strips.cut.strips:
            taken.append(strips)
            used = strip_width * len(strips.cut.strips)
            width, length = (width, length - used) if strips.grain == "across" else (width - used, length)
    return cut._replace(offcut_strips=tuple(taken)), left


def _offcut_strips(
    demands: Sequence[StripDemand], grain: Grain, length: Length, most: int
) -> tuple[OffcutStrips, list[StripDemand]]:
    """Pack demands of one width into at most so many strips of an offcut: those that may lie on this grain and are not
    too long for it."""
    fits = [demand for demand in demands if grain in demand.grains and demand.piece.length <= length]
    strips, over = _strips_of(fits, length, most)
    left = [demand for demand in demands if demand not in fits] + over
    return OffcutStrips(grain, length, StripGroup(demands[0].width, strips)), left


def _strips_of(
    demands: Sequence[StripDemand], length: Length, most: int | None = None
) -> tuple[tuple[tuple[StripPiece, ...], ...], list[StripDemand]]:
    """Pack demands of one width into strips of one length, and give the demands that are left."""
    alike = [(demand, demand.number) for demand in demands]
    strips, over = first_fit_decreasing(alike, length, _piece_length, _piece_length, most)
    pieces = tuple(tuple(demand.piece for demand in strip) for strip in strips)
    return pieces, [demand._replace(number=number) for demand, number in over]


def _of_width(demands: Sequence[StripDemand], width: Length) -> list[StripDemand]:
    return [demand for demand in demands if demand.width == width]


def _piece_length(demand: StripDemand) -> Length:
    return demand.piece.length


def _used(strips: OffcutStrips) -> Fraction:
    """Add up the lengths that are cut from strips of one width, in millimetres."""
    return sum((piece.length.mm for strip in strips.cut.strips for piece in strip), Fraction(0))
