"""The cutting of a pieced top's cloth: strips across it, pieces along it, and strips from the offcut beside these.

Each cloth is planned as a whole: every part that may be cut on either grain is weighed on both together with the
others, and the cutting that buys least is taken.
"""

from collections.abc import Sequence
from functools import cache
from itertools import product
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import PiecedTop
from finishcalc.plans.cloth import CutLength, length_to_buy, unmatched_cut_lengths, usable_width_of
from finishcalc.plans.pieced.part_cuts import CuttingRules, PartCut, TopPart, part_cuts, too_wide
from finishcalc.plans.pieced.strips import (
    Alike,
    LengthwiseCut,
    LengthwisePiece,
    StripDemand,
    StripGroup,
    StripPiece,
    fill_offcut,
    lengthwise_cuts,
    strip_group,
    strip_groups,
)

MOST_WEIGHED = 6
"""Parts of one cloth that are weighed together on both grains, 2 to the 6th cuttings; each further one is weighed
alone."""


class TopCloth(NamedTuple):
    """One cloth of the top as it is cut: first the pieces along it, then the strips across it, the widest first."""

    fabrics: tuple[Fabric, ...]
    uses: tuple[str, ...]
    lengthwise: tuple[LengthwiseCut, ...]
    crosswise: tuple[StripGroup, ...]
    joins: int

    @property
    def fabric(self) -> Fabric:
        """The cloth."""
        return self.fabrics[0]

    @property
    def cut_lengths(self) -> tuple[CutLength, ...]:
        """The lengths of cloth that may be cut apart."""
        strips = [group.width for group in self.crosswise for _ in group.strips]
        return unmatched_cut_lengths(*(cut.length for cut in self.lengthwise), *strips)

    @property
    def cut_length(self) -> Length:
        """The length of washed cloth that is cut."""
        strips = (group.width * len(group.strips) for group in self.crosswise)
        return sum((*(cut.length for cut in self.lengthwise), *strips), ZERO)


def plan_top_cloths(top: PiecedTop, parts: Sequence[TopPart], shortest: Length, finest: Length) -> tuple[TopCloth, ...]:
    """Plan one cutting for each cloth. What is wider than the cloth either way is left out: see `too_wide`."""
    groups: dict[Fabric, list[TopPart]] = {}
    for part in parts:
        if part.cloth.fabric and not too_wide(part):
            groups.setdefault(part.cloth.fabric, []).append(part)
    rules = CuttingRules(top.seam, top.most_joins, shortest, finest)
    return tuple(_best_cutting(fabric, group, rules) for fabric, group in groups.items())


def _best_cutting(fabric: Fabric, parts: Sequence[TopPart], rules: CuttingRules) -> TopCloth:
    """Weigh every combination of grains, first with nothing cut from offcuts, then with all that they hold."""
    packing = _Packing(fabric)
    choices = list(product(*_grains_to_weigh(packing, parts, rules)))
    plans = [packing.without_offcuts(choice) for choice in choices]
    best = min(plans, key=packing.weight)
    for plan, choice in zip(plans, choices, strict=True):
        # Offcuts take nothing from the longest piece along the cloth: where it alone buys more, they cannot help.
        if plan.lengthwise and packing.bought(plan.lengthwise[0].length) <= packing.bought(best.cut_length):
            best = min(best, packing.with_offcuts(plan, choice), key=packing.weight)
    return best


def _grains_to_weigh(packing: "_Packing", parts: Sequence[TopPart], rules: CuttingRules) -> list[tuple[PartCut, ...]]:
    """The cuts of each part. All but the largest parts that are free to turn keep the grain that is better alone."""
    cuts = [part_cuts(part, packing.usable, rules) for part in parts]
    free = sorted((n for n, either in enumerate(cuts) if len(either) > 1), key=lambda n: -parts[n].area)
    for n in free[MOST_WEIGHED:]:
        cuts[n] = (min(cuts[n], key=lambda cut: packing.weight(packing.without_offcuts((cut,)))),)
    return cuts


class _Packing:
    """Lays the cuts of parts on one cloth. Many combinations share the same cuts, so what they come to is kept."""

    def __init__(self, fabric: Fabric) -> None:
        self.fabric, self.usable = fabric, usable_width_of(fabric)
        self._rows = cache(self._work_out_rows)
        self._group = cache(self._work_out_group)

    def bought(self, cut_length: Length) -> Length:
        return length_to_buy(self.fabric, cut_length)

    def weight(self, plan: TopCloth) -> tuple[Length, int, Length]:
        """Less to buy is better, then fewer joins, then less that is cut."""
        cut_length = plan.cut_length
        return self.bought(cut_length), plan.joins, cut_length

    def without_offcuts(self, cuts: Sequence[PartCut]) -> TopCloth:
        """Lay out cuts with nothing taken from the offcuts beside long pieces."""
        parts = [cut.part for cut in cuts]
        return TopCloth(
            fabrics=tuple({cloth.price.key: cloth for part in parts if (cloth := part.cloth.fabric)}.values()),
            uses=tuple(dict.fromkeys(part.use for part in parts)),
            lengthwise=self._rows(tuple(cut for cut in cuts if cut.lengthwise)),
            crosswise=self._groups(cuts),
            joins=sum(cut.joins for cut in cuts),
        )

    def with_offcuts(self, plan: TopCloth, cuts: Sequence[PartCut]) -> TopCloth:
        """Lay the longest pieces along the cloth, all others in the offcuts beside them as far as these go, and what
        is then left as it would be without."""
        pieces = [piece for cut in cuts for piece in cut.lengthwise]
        half = max(piece.length for piece, _ in pieces) / 2
        demands = [demand for cut in cuts for demand in cut.crosswise]
        demands += [_as_demand(*alike) for alike in pieces if alike[0].length <= half]
        rows = []
        for row in lengthwise_cuts([alike for alike in pieces if alike[0].length > half], self.usable):
            filled, demands = fill_offcut(row, self.usable, demands)
            rows.append(filled)
        left_along = [_as_piece(demand) for demand in demands if "across" not in demand.grains]
        left_across = [demand for demand in demands if "across" in demand.grains]
        return plan._replace(
            lengthwise=(*rows, *lengthwise_cuts(left_along, self.usable)),
            crosswise=strip_groups(left_across, self.usable),
        )

    def _groups(self, cuts: Sequence[PartCut]) -> tuple[StripGroup, ...]:
        """Strips across the cloth, the widest first."""
        widths: dict[Length, dict[PartCut, None]] = {}
        for cut in cuts:
            for demand in cut.crosswise:
                widths.setdefault(demand.width, {})[cut] = None
        return tuple(self._group(width, tuple(widths[width])) for width in sorted(widths, reverse=True))

    def _work_out_rows(self, cuts: tuple[PartCut, ...]) -> tuple[LengthwiseCut, ...]:
        return lengthwise_cuts([piece for cut in cuts for piece in cut.lengthwise], self.usable)

    def _work_out_group(self, width: Length, cuts: tuple[PartCut, ...]) -> StripGroup:
        demands = [demand for cut in cuts for demand in cut.crosswise if demand.width == width]
        return strip_group(width, demands, self.usable)


def _as_demand(piece: LengthwisePiece, number: int) -> StripDemand:
    """Treat a piece along the cloth as one on a strip along an offcut, where it may lie end to end with others."""
    return StripDemand(piece.width, StripPiece(piece.use, piece.length, piece.length), number, ("along",))


def _as_piece(demand: StripDemand) -> Alike[LengthwisePiece]:
    """Turn such a demand back into a piece along the cloth."""
    return LengthwisePiece(demand.piece.use, demand.width, demand.piece.length), demand.number
