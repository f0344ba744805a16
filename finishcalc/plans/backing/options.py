"""The backings worth weighing: for every number of seams the one that buys least, with what each takes."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import MM_PER, ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import half_up
from finishcalc.model.materials import Fabric
from finishcalc.model.project import BackingWishes, Sewing
from finishcalc.plans.backing.grid import Grid
from finishcalc.plans.backing.layout import Cut, Layout, Leftover, Row, cut_steps, cut_steps_on_new_bolt
from finishcalc.plans.backing.search import MOST_SEAMS, Candidate, SearchSpace, candidates, row_of
from finishcalc.plans.cloth import CutLength, fill_lengths, lengths_to_buy, usable_width, washed_length


class Cloth(NamedTuple):
    """One bought length once it is squared and washed: the pieces and leftovers on it, each from its own start."""

    length: Length
    cuts: tuple[Cut, ...]
    leftover: tuple[Leftover, ...]


class BackingOption(NamedTuple):
    """A layout with what it takes: cloth to buy for the backing alone, as one length or, past the bolt's end,
    several; minutes at the seams; and what both cost."""

    layout: Layout
    lengths: tuple[Length, ...]
    cloth_cost: Money
    seam_minutes: Fraction
    seam_cost: Money
    clear: bool
    fabric: Fabric

    @property
    def cut_lengths(self) -> tuple[CutLength, ...]:
        """The rows of pieces on the cloth, between which it may be cut apart."""
        return cut_lengths_of(self.layout.row, self.layout.grid, self.fabric)

    @property
    def amount(self) -> Length:
        """All the cloth to buy for the backing alone."""
        return sum(self.lengths, ZERO)

    @property
    def total_cost(self) -> Money:
        """Cloth and seams."""
        return self.cloth_cost + self.seam_cost

    @property
    def cloths(self) -> tuple[Cloth, ...]:
        """Each length that is bought, with what lies on it."""
        return tuple(_cloths(self))

    @property
    def leftover(self) -> tuple[Leftover, ...]:
        """What of the bought cloth is not needed, as rectangles; of several lengths, one after the other."""
        return tuple(left for cloth in self.cloths for left in cloth.leftover)


def best_options(
    width: Length, length: Length, wishes: BackingWishes, sewing: Sewing, currency: Currency
) -> tuple[BackingOption, ...]:
    """For every number of seams from the fewest to MOST_SEAMS, the option that buys least, without turned pieces
    and with; and full panels either way, to compare with. Ties go to the shorter seams, then to the shorter cut."""
    fabric, usable = wishes.fabric, usable_width(wishes.fabric)
    end = max(sewing.shortest_piece, wishes.overage + sewing.clear_edge + wishes.seam_allowance)
    sizes = (wishes.seam_allowance, wishes.overage, sewing.clear_edge, end, fabric.repeat)
    grid = Grid.of(width, length, usable, *sizes)
    steps = tuple(grid.whole(size) for size in sizes)
    wide, long, cloth = grid.whole(width), grid.whole(length), grid.whole(usable)
    spaces = [SearchSpace(False, wide, long, cloth, *steps), SearchSpace(True, long, wide, cloth, *steps)]
    best: dict[tuple[int, bool], tuple[tuple[int, int, int], Candidate]] = {}
    plain: list[Candidate] = []
    prices = _Prices(wishes, sewing, grid, currency)
    for found in _family(spaces, wishes):
        key = (found.seams, found.turned > 0)
        rank = (prices.bought(found), found.seam_length, found.cut_length)
        if key not in best or rank < best[key][0]:
            best[key] = (rank, found)
        if not found.pieced:
            plain.append(found)
    most = max(MOST_SEAMS, min(seams for seams, _ in best))
    kept = dict.fromkeys([found for (seams, _), (_, found) in best.items() if seams <= most] + plain)
    return tuple(sorted((prices.option(found) for found in kept), key=cheapest))


def cheapest(option: BackingOption) -> tuple[int, int, Length]:
    """What options are compared by: what they cost in all, then seams, then how long those are."""
    return option.total_cost.minor, option.layout.seams, option.layout.seam_length


def _family(spaces: list[SearchSpace], wishes: BackingWishes) -> list[Candidate]:
    """All that may be considered: cloth with a direction or a nap runs down the quilt, and neither it nor a print
    that must meet is turned; no band is pieced in plush or in a print that must meet."""
    fabric = wishes.fabric
    one_way = fabric.directional or fabric.nap
    pieced = not fabric.nap and not fabric.repeat
    centred = wishes.centre == "panel"
    return [
        found
        for space in spaces
        if not (space.crosswise and one_way)
        for found in candidates(space, pieced, pieced and not one_way, centred)
        if wishes.seams in ("any", _runs(found)) or not found.seams
    ]


def _runs(found: Candidate) -> Literal["lengthwise", "crosswise"]:
    """Which way the seams run: those between panels decide, and in a backing of strips those between them."""
    return "crosswise" if found.space.crosswise == (found.lengths > 0) else "lengthwise"


class _Prices:
    """What a candidate costs, with all that is the same for every candidate worked out once."""

    def __init__(self, wishes: BackingWishes, sewing: Sewing, grid: Grid, currency: Currency) -> None:
        fabric, minor = wishes.fabric, 10**currency.digits
        each = 1 / (fabric.step.mm * (1 - fabric.shrink_along) * grid.steps)
        once = fabric.straighten / fabric.step
        self.steps_each = each.numerator * once.denominator
        self.steps_once = once.numerator * each.denominator
        self.steps_divisor = each.denominator * once.denominator
        self.step_cost = fabric.step.to(fabric.per) * fabric.price * minor
        self.minutes_each = sewing.minutes_each
        self.minutes_along = sewing.minutes_along / (MM_PER[sewing.per] * grid.steps)
        self.minute_cost = sewing.wage * minor / 60
        self.wishes, self.grid, self.currency = wishes, grid, currency

    def steps(self, cut_length: int) -> int:
        """How many steps of the fabric a cut length takes to buy as one length, in whole numbers throughout."""
        return -(-(cut_length * self.steps_each + self.steps_once) // self.steps_divisor)

    def bought(self, found: Candidate) -> int:
        """How many steps a candidate takes to buy: as one length, or where a bolt is shorter, from several."""
        steps = self.steps(found.cut_length)
        bolt = self.wishes.fabric.bolt
        if not bolt or self.wishes.fabric.step * steps <= bolt:
            return steps
        return int(sum(self._lengths(row_of(found)), ZERO) / self.wishes.fabric.step)

    def _lengths(self, row: Row) -> tuple[Length, ...]:
        return lengths_to_buy(self.wishes.fabric, cut_lengths_of(row, self.grid, self.wishes.fabric))

    def option(self, found: Candidate) -> BackingOption:
        """The candidate with its layout and its costs."""
        fabric, row = self.wishes.fabric, row_of(found)
        layout = Layout(self.grid, row, found.seams, _runs(found) if found.seams else "none")
        steps = self.bought(found)
        lengths = self._lengths(row) if fabric.bolt else (fabric.step * steps,)
        minutes = found.seams * self.minutes_each + found.seam_length * self.minutes_along
        return BackingOption(
            layout,
            lengths,
            Money(half_up(steps * self.step_cost), self.currency),
            minutes,
            Money(half_up(minutes * self.minute_cost), self.currency),
            _is_clear(found.space, row),
            fabric,
        )


def _is_clear(space: SearchSpace, row: Row) -> bool:
    """Whether no seam lies within `seam_clearance` of where the quilt will be trimmed, on any side."""
    along = (_keeps_clear(space, element.pieces, row.along) for element in row.elements)
    return _keeps_clear(space, tuple(element.shown for element in row.elements), row.across) and all(along)


def _keeps_clear(space: SearchSpace, shown: tuple[int, ...], whole: int) -> bool:
    place = 0
    for each in shown[:-1]:
        place += each
        if (
            abs(place - space.overage) < space.seam_clearance
            or abs(whole - space.overage - place) < space.seam_clearance
        ):
            return False
    return True


def choose(options: tuple[BackingOption, ...], sewing: Sewing) -> BackingOption:
    """The option to make: see `plan_backing`."""
    allowed = [option for option in options if option.layout.seams <= sewing.most_seams]
    whole = [option for option in allowed if not option.layout.turned]
    if not whole:
        return min(options, key=lambda option: (option.layout.seams, option.layout.turned, option.total_cost.minor))
    best = min([option for option in whole if option.clear] or whole, key=cheapest)
    worth = [
        option
        for option in allowed
        if option.layout.turned and option.clear and best.amount - option.amount >= sewing.worth_turning
    ]
    return min([best, *worth], key=cheapest)


def cut_lengths_of(row: Row, grid: Grid, fabric: Fabric) -> tuple[CutLength, ...]:
    """The cut_lengths of a row as lengths."""
    repeat = grid.whole(fabric.repeat) if fabric.repeat else 0
    pairs = zip(cut_steps(row), cut_steps_on_new_bolt(row, repeat), strict=True)
    return tuple(CutLength(grid.length(steps), grid.length(on_new_bolt)) for steps, on_new_bolt in pairs)


def _cloths(option: BackingOption) -> Iterator[Cloth]:
    """Cut the one long plan apart where a bolt ends; on a later bolt the first panel loses a repeat before it."""
    every, cuts = option.cut_lengths, option.layout.cuts
    usable = option.layout.grid.length(option.layout.row.usable)
    ends = [sum((each.length for each in every[: n + 1]), ZERO) for n in range(len(every))]
    for place, numbers in enumerate(fill_lengths(option.fabric, every)):
        first, last = numbers[0], numbers[-1]
        before = ends[first - 1] if first else ZERO
        shift = (every[first].length_on_new_bolt - every[first].length if place else ZERO) - before
        here = tuple(cut._replace(y=cut.y + shift) for cut in cuts if before < cut.y + cut.length <= ends[last])
        washed = washed_length(option.fabric, option.lengths[place])
        yield Cloth(washed, here, tuple(_leftovers(here, usable, washed)))


def _leftovers(cuts: tuple[Cut, ...], usable: Length, washed: Length) -> Iterator[Leftover]:
    """Beside the pieces of each row on a length, before and between rows, and at its end."""
    done = ZERO
    for start in sorted({cut.y for cut in cuts}):
        row = [cut for cut in cuts if cut.y == start]
        right, bottom = max(cut.x + cut.width for cut in row), max(cut.y + cut.length for cut in row)
        if start > done:
            yield Leftover(ZERO, done, usable, start - done)
        if right < usable:
            yield Leftover(right, start, usable - right, bottom - start)
        done = bottom
    if washed > done:
        yield Leftover(ZERO, done, usable, washed - done)
