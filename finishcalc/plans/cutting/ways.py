"""Weighs the ways to cut the parts of a top: joined strips across the cloth, or lengths along it without joins.

Each part may be cut in its own way. The score of a cutting is the money of its cloth at the selling price and of its
joins at the wage; a cutting with joins pays the price of `worth_no_joins` too, so that it leads only where it saves at
least that. Money is reckoned in lengths of the cloth itself, because all of one cutting is of one cloth.
"""

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import StripGrain
from finishcalc.model.shop import Sewing
from finishcalc.plans.cloth import length_to_buy
from finishcalc.plans.cutting.layout import Band, ClothLayout, Wanted
from finishcalc.plans.cutting.packing import lay_out, least_length
from finishcalc.wording.sentence import Sentence, say_in_house

MOST_WEIGHED = 6
"""Parts of one cloth that are weighed together both ways, 2 to the 6th cuttings; each further one is weighed alone."""


class Way(NamedTuple):
    """One part cut in one way: its pieces, and the joins in its strips. `strips` is the value of the part's key that
    takes this way, where it is one of two."""

    part: str
    strips: StripGrain
    wanted: tuple[Wanted, ...]
    joins: int
    is_one_of_two: bool = False


class Cutting(NamedTuple):
    """All parts of one cloth, each in a way of its own, laid together."""

    ways: tuple[Way, ...]
    layout: ClothLayout
    amount: Length
    score: Length

    @property
    def joins(self) -> int:
        """The joins in all strips."""
        return sum(way.joins for way in self.ways)


class Weighed(NamedTuple):
    """The cutting that leads, and the best of the other kind: without joins where it has some, and with where it has
    none. There is no other where each part can be cut in one way only."""

    lead: Cutting
    other: Cutting | None

    def working(self, sewing: Sewing) -> Sentence:
        """Write out what the joined way must save, in lengths of the cloth itself; only where there is another."""
        if not self.other:
            raise AssertionError("one way has nothing to be weighed against")
        whole, joined = sorted((self.lead, self.other), key=lambda cutting: cutting.joins)
        piecing = sewing.piecing
        return say_in_house(
            "Ways: {whole} without joins; {amount} joined, + {n} joins x {minutes} min at the wage, worth {joins} of "
            "this cloth, + {worth} that joining must save = {sum}; the less is taken",
            whole=whole.amount,
            amount=joined.amount,
            n=joined.joins,
            minutes=piecing.join_minutes.value,
            joins=joined.score - joined.amount - piecing.worth_no_joins,
            worth=piecing.worth_no_joins,
            sum=joined.score,
        )


def weigh_cuttings(
    fabric: Fabric, parts: Sequence[tuple[Way, ...]], bands: tuple[Band, ...], after: Length, sewing: Sewing
) -> Weighed:
    """Choose a way for each part. All pieces are laid beside the `bands` that lie on the cloth already and before those
    that come `after`, which leave nothing free."""
    weighing = _Weighing(fabric, bands, after, sewing)
    ways = list(product(*_worth_weighing(weighing, parts)))
    by_joins = [[way for way in ways if bool(_joins(way)) is joined] for joined in (False, True)]
    whole, joined = (weighing.best(each) for each in by_joins)
    if not whole or not joined:
        lead = whole or joined
        if not lead:
            raise AssertionError("a part without a way to cut it")
        return Weighed(lead, None)
    saves = whole.score - joined.score + weighing.worth_no_joins
    joined_leads = saves > ZERO and saves >= weighing.worth_no_joins
    return Weighed(joined, whole) if joined_leads else Weighed(whole, joined)


def _worth_weighing(weighing: "_Weighing", parts: Sequence[tuple[Way, ...]]) -> Iterator[tuple[Way, ...]]:
    """Give the ways of each part; past MOST_WEIGHED, only the one that is better by itself."""
    free = sorted((part for part in parts if len(part) > 1), key=lambda part: -_area(part))
    alone = free[MOST_WEIGHED:]
    for part in parts:
        if part in alone:
            cutting = weighing.best([(way,) for way in part])
            yield cutting.ways if cutting else part
        else:
            yield part


def _area(part: tuple[Way, ...]) -> int:
    return sum(int((each.width * each.length).mm2) * each.number for each in part[-1].wanted)


def _joins(ways: Sequence[Way]) -> int:
    return sum(way.joins for way in ways)


class _Weighing:
    """Scores cuttings of one cloth."""

    def __init__(self, fabric: Fabric, bands: tuple[Band, ...], after: Length, sewing: Sewing) -> None:
        self.fabric, self.bands, self.after = fabric, bands, after
        self.worth_no_joins = sewing.piecing.worth_no_joins
        price = fabric.selling_price(sewing.markup.value)
        join = sewing.piecing.join_minutes.value * sewing.wage.value / 60
        # where the cloth costs nothing, a join is weighed by `worth_no_joins` alone
        self.join = Length.of(join / price, fabric.per) if price else ZERO

    def best(self, choices: Sequence[tuple[Way, ...]]) -> Cutting | None:
        """Give the choice of ways with the least score; of equal ones that with fewer joins, then the shorter. A choice
        that cannot do better than the best so far, by the least length its pieces take, is not laid out."""
        best: Cutting | None = None
        for least, choice in sorted(((self._least(each), each) for each in choices), key=lambda pair: pair[0]):
            if best and least > best.score:
                break
            cutting = self._cutting(choice)
            if not best or _rank(cutting) < _rank(best):
                best = cutting
        return best

    def _cutting(self, ways: tuple[Way, ...]) -> Cutting:
        layout = lay_out(self.fabric, _wanted(ways), self.bands, self.after)
        amount = length_to_buy(self.fabric, layout.length + self.after)
        return Cutting(ways, layout, amount, amount + self._worth(ways))

    def _least(self, ways: tuple[Way, ...]) -> Length:
        least = least_length(self.fabric, _wanted(ways), self.bands) + self.after
        return length_to_buy(self.fabric, least) + self._worth(ways)

    def _worth(self, ways: tuple[Way, ...]) -> Length:
        joins = _joins(ways)
        return self.join * joins + self.worth_no_joins if joins else ZERO


def _wanted(ways: Sequence[Way]) -> tuple[Wanted, ...]:
    return tuple(each for way in ways for each in way.wanted)


def _rank(cutting: Cutting) -> tuple[Length, int, Length]:
    return cutting.score, cutting.joins, cutting.layout.length
