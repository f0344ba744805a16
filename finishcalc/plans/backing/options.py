"""The options for the backing: for every number of seams the layout that buys least, with its cloth and its costs."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import accumulate
from typing import Literal, NamedTuple

from finishcalc.measures.length import MM_PER, ZERO, Length, Overage
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import half_up
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Backing
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.candidate import Candidate, SearchSpace, row_of
from finishcalc.plans.backing.layout import CutPiece, Layout, Leftover, PanelRow, cut_steps, cut_steps_on_new_bolt
from finishcalc.plans.backing.search import MOST_SEAMS, candidates
from finishcalc.plans.cloth import CutLength, fill_lengths, lengths_to_buy, usable_width_of, washed_length
from finishcalc.plans.grid import Grid


class BoughtLength(NamedTuple):
    """One bought length once it is squared and washed: the pieces and leftovers on it, each from its own start."""

    length: Length
    cuts: tuple[CutPiece, ...]
    leftover: tuple[Leftover, ...]


class BackingOption(NamedTuple):
    """A layout with the cloth to buy for the backing alone, as one length or, past the bolt's end, several, and their
    `amount`; the minutes at its seams; and the cost of both. `clear` says that no seam lies near the trimmed edge."""

    overage: Overage
    layout: Layout
    lengths: tuple[Length, ...]
    amount: Length
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
    def total_cost(self) -> Money:
        """The cost of cloth and seams."""
        return self.cloth_cost + self.seam_cost

    @property
    def breaks_pile(self) -> bool:
        """True where pieces of a cloth with a nap are joined end to end: there is bulk in the seam, and the join shows,
        because the pile is broken."""
        band = self.layout.band
        return self.fabric.nap and band is not None and len(band.visible_lengths) > 1

    @property
    def bought_lengths(self) -> tuple[BoughtLength, ...]:
        """Each length that is bought, with the pieces that lie on it."""
        return tuple(_bought_lengths(self))

    @property
    def leftover(self) -> tuple[Leftover, ...]:
        """The bought cloth that is not needed, as rectangles, one length after the other."""
        return tuple(left for bought in self.bought_lengths for left in bought.leftover)


def best_options(
    width: Length, length: Length, spec: Backing, sewing: Sewing, currency: Currency
) -> tuple[BackingOption, ...]:
    """For every number of seams from the fewest to MOST_SEAMS, keep the option that buys least, without turned pieces
    and with, for seams each way, and in cloth with a nap without a band and with; and full panels, to compare with.
    Ties go to the shorter seams, then to the shorter cut.

    The options come cheapest first.
    """
    grid, spaces = _search_spaces(width, length, spec, sewing)
    prices = _Prices(spec, sewing, grid, currency)
    best: dict[tuple[int, bool, str, bool], tuple[tuple[int, int, int], Candidate]] = {}
    full_panels: list[Candidate] = []
    for candidate in _allowed(spaces, spec):
        band_of_nap = spec.fabric.nap and candidate.strips > 0
        key = (candidate.seams, candidate.turned > 0, _runs(candidate), band_of_nap)
        rank = (prices.steps_to_buy(candidate), candidate.seam_length, candidate.cut_length)
        if key not in best or rank < best[key][0]:
            best[key] = (rank, candidate)
        if not candidate.pieced:
            full_panels.append(candidate)
    most_seams = max(MOST_SEAMS, min(seams for seams, *_ in best))
    kept = [candidate for (seams, *_), (_, candidate) in best.items() if seams <= most_seams]
    options = [prices.option(candidate) for candidate in dict.fromkeys([*kept, *full_panels])]
    return tuple(sorted(options, key=cheapest))


def _search_spaces(
    width: Length, length: Length, spec: Backing, sewing: Sewing
) -> tuple[Grid, tuple[SearchSpace, SearchSpace]]:
    """Put every length in hand on one grid; elements may lie side by side across the quilt or down it."""
    fabric, seam_allowance = spec.fabric, spec.seam_allowance
    usable_width = usable_width_of(fabric)
    clear_edge, (sides, ends) = sewing.cloth.clear_edge, spec.overage
    shortest = [max(sewing.cloth.shortest_piece, along + clear_edge + seam_allowance) for along in (ends, sides)]
    grid = Grid.of(width, length, usable_width, seam_allowance, sides, ends, clear_edge, *shortest, fabric.repeat)
    limits = {
        "usable_width": grid.whole(usable_width),
        "seam_allowance": grid.whole(seam_allowance),
        "seam_clearance": grid.whole(clear_edge),
        "repeat": grid.whole(fabric.repeat),
    }
    (across, sides_in), (down, ends_in) = (map(grid.whole, pair) for pair in ((width, sides), (length, ends)))
    lengthwise, crosswise = (grid.whole(piece) for piece in shortest)
    return grid, (
        SearchSpace(
            False, across, down, overage_across=sides_in, overage_along=ends_in, shortest_piece=lengthwise, **limits
        ),
        SearchSpace(
            True, down, across, overage_across=ends_in, overage_along=sides_in, shortest_piece=crosswise, **limits
        ),
    )


def cheapest(option: BackingOption) -> tuple[int, int, Length]:
    """Compare options by total cost, then by the number of seams, then by their length."""
    return option.total_cost.minor, option.layout.seams, option.layout.seam_length


def _allowed(spaces: tuple[SearchSpace, ...], spec: Backing) -> list[Candidate]:
    """Search for every layout the cloth allows: cloth with a direction or a nap runs down the quilt, and neither it nor
    a print that must meet is turned; no band is pieced in a print that must meet."""
    fabric = spec.fabric
    one_way = fabric.directional or fabric.nap
    pieced = not fabric.repeat
    centred = spec.centre == "panel"
    return [
        candidate
        for space in spaces
        if not (space.crosswise and one_way)
        for candidate in candidates(space, pieced, pieced and not one_way, centred)
        if spec.seams in ("any", _runs(candidate)) or not candidate.seams
    ]


def _runs(candidate: Candidate) -> Literal["lengthwise", "crosswise"]:
    """Give the direction of the seams between panels, or in a backing of strips alone of those between strips."""
    return "crosswise" if candidate.space.crosswise == (candidate.panels > 0) else "lengthwise"


class _Prices:
    """The cost of a candidate. All that is the same for every candidate is worked out once.

    To buy is ceil(((cut / (1 - s)) + w) / step) steps of the fabric, where s is the shrinkage and w what squaring the
    end loses: the identity of `length_to_buy`. A cut is counted in steps of the grid, so

        cut / (1 - s) / step + w / step  =  cut x (a / b) + c / d  =  (cut x a x d + c x b) / (b x d)

    which whole numbers divide upwards without making a Fraction for every candidate.
    """

    def __init__(self, spec: Backing, sewing: Sewing, grid: Grid, currency: Currency) -> None:
        fabric, minor = spec.fabric, 10**currency.digits
        of_cut = 1 / (fabric.step.mm * (1 - fabric.shrink_along) * grid.steps)
        of_squaring = fabric.straighten / fabric.step
        self.cut_factor = of_cut.numerator * of_squaring.denominator
        self.squaring_term = of_squaring.numerator * of_cut.denominator
        self.divisor = of_cut.denominator * of_squaring.denominator
        self.step_cost = fabric.step.to(fabric.per) * fabric.price.value * minor
        self.minutes_each = sewing.seaming.minutes_each.value
        self.minutes_along = sewing.seaming.minutes_along.value / (MM_PER[sewing.seaming.per] * grid.steps)
        self.minute_cost = sewing.wage.value * minor / 60
        self.fabric, self.overage, self.grid, self.currency = fabric, spec.overage, grid, currency

    def steps_to_buy(self, candidate: Candidate) -> int:
        """Count the steps of the fabric to buy: as one length, or where a bolt is shorter, as several."""
        steps = -(-(candidate.cut_length * self.cut_factor + self.squaring_term) // self.divisor)
        bolt = self.fabric.bolt
        if not bolt or self.fabric.step * steps <= bolt:
            return steps
        return sum(self._lengths(row_of(candidate)), ZERO) // self.fabric.step

    def _lengths(self, row: PanelRow) -> tuple[Length, ...]:
        return lengths_to_buy(self.fabric, cut_lengths_of(row, self.grid, self.fabric))

    def option(self, candidate: Candidate) -> BackingOption:
        """Make the candidate's layout and its costs."""
        row, steps = row_of(candidate), self.steps_to_buy(candidate)
        amount = self.fabric.step * steps
        minutes = candidate.seams * self.minutes_each + candidate.seam_length * self.minutes_along
        return BackingOption(
            overage=self.overage,
            layout=Layout(self.grid, row, candidate.seams, _runs(candidate) if candidate.seams else "none"),
            lengths=self._lengths(row) if self.fabric.bolt else (amount,),
            amount=amount,
            cloth_cost=Money(half_up(steps * self.step_cost), self.currency),
            seam_minutes=minutes,
            seam_cost=Money(half_up(minutes * self.minute_cost), self.currency),
            clear=_is_clear(candidate.space, row),
            fabric=self.fabric,
        )


def _is_clear(space: SearchSpace, row: PanelRow) -> bool:
    """Check that no seam lies within `seam_clearance` of the line where the quilt will be trimmed, on any side."""
    clear, along = space.seam_clearance, space.overage_along
    widths = tuple(element.visible_width for element in row.elements)
    return _keeps_clear(widths, row.across, space.overage_across, clear) and all(
        _keeps_clear(element.visible_lengths, row.along, along, clear) for element in row.elements
    )


def _keeps_clear(visible: tuple[int, ...], whole: int, overage: int, clear: int) -> bool:
    """Check the seams between parts in a line; the trimmed edges lie the overage inside its ends."""
    near, far = overage, whole - overage
    return all(abs(seam - near) >= clear and abs(far - seam) >= clear for seam in accumulate(visible[:-1]))


def cut_lengths_of(row: PanelRow, grid: Grid, fabric: Fabric) -> tuple[CutLength, ...]:
    """Give the cut lengths of a row as lengths."""
    repeat = grid.whole(fabric.repeat) if fabric.repeat else 0
    pairs = zip(cut_steps(row), cut_steps_on_new_bolt(row, repeat), strict=True)
    return tuple(CutLength(grid.length(steps), grid.length(on_new_bolt)) for steps, on_new_bolt in pairs)


def _bought_lengths(option: BackingOption) -> Iterator[BoughtLength]:
    """Cut the one long plan apart where a bolt ends, and shift the pieces of each bolt to its own start.

    the plan     |  A  |  |  B  |  |  C  |     A, B, C: panels whose print must meet, lost cloth between them
    first bolt   |  A  |  |  B  |
    second bolt  |    |  C  |                  a whole repeat is lost before C
    """
    layout, cut_lengths = option.layout, option.cut_lengths
    starts = [ZERO, *accumulate(cut.length for cut in cut_lengths)]
    for bolt, numbers in enumerate(fill_lengths(option.fabric, cut_lengths)):
        first, start, end = cut_lengths[numbers[0]], starts[numbers[0]], starts[numbers[-1] + 1]
        lost_on_new_bolt = first.length_on_new_bolt - first.length if bolt else ZERO
        bolt_shift = lost_on_new_bolt - start
        pieces = tuple(cut._replace(y=cut.y + bolt_shift) for cut in layout.cuts if start < cut.y + cut.length <= end)
        washed = washed_length(option.fabric, option.lengths[bolt])
        yield BoughtLength(washed, pieces, tuple(_leftovers(pieces, layout.usable_width, washed)))


def _leftovers(pieces: tuple[CutPiece, ...], usable_width: Length, washed: Length) -> Iterator[Leftover]:
    """Give the cloth beside the pieces of each row on a length, before and between rows, and at its end."""
    done = ZERO
    for start in sorted({cut.y for cut in pieces}):
        row = [cut for cut in pieces if cut.y == start]
        right, bottom = max(cut.x + cut.width for cut in row), max(cut.y + cut.length for cut in row)
        if start > done:
            yield Leftover(ZERO, done, usable_width, start - done)
        if right < usable_width:
            yield Leftover(right, start, usable_width - right, bottom - start)
        done = bottom
    if washed > done:
        yield Leftover(ZERO, done, usable_width, washed - done)
