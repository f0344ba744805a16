"""The backings that are worth weighing against each other: of which overages, and which of them may be made."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import product

from finishcalc.measures.length import Length, Overage
from finishcalc.measures.money import Currency
from finishcalc.model.project import Backing
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.options import BackingOption, best_options
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.top.outline import Shape


def options_of_every_overage(
    shape: Shape, spec: Backing, sewing: Sewing, currency: Currency, finest: Length
) -> tuple[BackingOption, ...]:
    """Give the options with the overage that is wanted, then those with each of `overages_that_save_a_panel`."""
    wanted = best_options(*shape.with_overage(spec.overage), spec, sewing, currency)
    others = [
        option
        for overage in overages_that_save_a_panel(shape, spec, sewing, finest)
        for option in best_options(*shape.with_overage(overage), spec.replace(overage=overage), sewing, currency)
    ]
    return (*wanted, *others)


def options_for_brought_cloth(
    shape: Shape, spec: Backing, sewing: Sewing, currency: Currency, finest: Length
) -> tuple[BackingOption, ...]:
    """Give the options for cloth that is there already and may be short either way: at the sides and at the ends with
    the overage that is wanted, with one that saves a panel, and with the least that will do."""
    saving = list(overages_that_save_a_panel(shape, spec, sewing, finest))
    least = spec.overage.at_most(Overage.all_round(sewing.cloth.least_overage))
    pairs = product(*(dict.fromkeys(along) for along in zip(spec.overage, *saving, least, strict=True)))
    return tuple(
        option
        for overage in (Overage(*pair) for pair in pairs)
        for option in best_options(*shape.with_overage(overage), spec.replace(overage=overage), sewing, currency)
    )


def overages_that_save_a_panel(shape: Shape, spec: Backing, sewing: Sewing, finest: Length) -> Iterator[Overage]:
    """Give the largest overage at the sides, and at the ends, with which one panel less reaches across than with the
    one that is wanted, down to the least that will do.

    n panels of usable width u, joined with seam allowances s, reach n x u - 2 s (n - 1); what that is more than the top
    is shared by two edges, down to a step that a ruler shows.
    """
    usable, allowance = usable_width_of(spec.fabric), spec.seam_allowance
    for name, side in (("sides", shape.width), ("ends", shape.length)):
        wanted: Length = getattr(spec.overage, name)
        one_less = -(-(side + wanted * 2 - allowance * 2) // (usable - allowance * 2)) - 1
        room = usable * one_less - allowance * (2 * (one_less - 1)) - side
        overage = finest * (room // (finest * 2))
        if one_less and sewing.cloth.least_overage <= overage < wanted:
            yield spec.overage._replace(**{name: overage})


def eligible(options: Sequence[BackingOption], spec: Backing, sewing: Sewing) -> list[BackingOption]:
    """Keep the options that may lead: those that may be made and do not break the pile of a nap. One that `seam_count`
    picks leads even so."""
    if spec.seam_count is not None and any(is_picked(option, spec) for option in options):
        return within_limits(options, spec, sewing)
    unbroken = [option for option in options if not option.breaks_pile]
    return may_be_made(unbroken or options, spec, sewing)


def may_be_made(options: Sequence[BackingOption], spec: Backing, sewing: Sewing) -> list[BackingOption]:
    """Keep the options within the limits, and where any of these has no seam near the trimmed edge, only such."""
    allowed = within_limits(options, spec, sewing)
    return [option for option in allowed if option.clear] or allowed


def within_limits(options: Sequence[BackingOption], spec: Backing, sewing: Sewing) -> list[BackingOption]:
    """Keep the options that `seam_count` and `turned` pick, where any is. Without a count, those within the limit of
    seams, or with the fewest where all have more."""
    picked = [option for option in options if is_picked(option, spec)]
    if spec.seam_count is not None and picked:
        return picked
    most = sewing.cloth.most_seams if spec.most_seams is None else spec.most_seams
    within = max(most, min(option.layout.seams for option in picked or options))
    return [option for option in picked or options if option.layout.seams <= within]


def is_picked(option: BackingOption, spec: Backing) -> bool:
    """Tell an option that `seam_count` and `turned` pick, or allow."""
    count, turned = spec.seam_count, spec.turned
    return count in (None, option.layout.seams) and turned in (None, option.layout.turned > 0)


def worth_weighing(options: Iterable[BackingOption], by_length: bool = False) -> list[BackingOption]:
    """Leave out each option that another of its kind betters or equals in seams, in the minutes at them, and in cloth;
    and in the length of the seams, where that is charged: it cannot be the cheaper, whatever the prices are. Kinds are
    with turned pieces and without, with seams clear of the edge and not, with the pile of a nap broken and not, of each
    overage."""
    kept: list[tuple[BackingOption, tuple[bool, bool, bool, Overage]]] = []
    for option in sorted(options, key=lambda option: (option.layout.seams, option.amount, option.seam_minutes)):
        kind = _kind(option)
        alike = (other for other, other_kind in kept if other_kind == kind)
        if not any(_is_no_worse(other, option, by_length) for other in alike):
            kept.append((option, kind))
    return [option for option, _ in kept]


def _is_no_worse(option: BackingOption, other: BackingOption, by_length: bool) -> bool:
    """Compare two options of which the first has no more seams."""
    if by_length and option.layout.seam_length > other.layout.seam_length:
        return False
    return option.amount <= other.amount and option.seam_minutes <= other.seam_minutes


def _kind(option: BackingOption) -> tuple[bool, bool, bool, Overage]:
    return option.layout.turned > 0, option.clear, option.breaks_pile, option.overage


def choose(options: Sequence[BackingOption], spec: Backing, sewing: Sewing) -> BackingOption:
    """Choose by cloth and minutes alone, before anything is priced, with the overage that is wanted; of two that cost
    the same, the first, because `best_options` gives the cheapest first."""
    allowed = eligible([option for option in options if option.overage == spec.overage], spec, sewing)
    return min(allowed, key=lambda option: _cost(option, sewing))


def _cost(option: BackingOption, sewing: Sewing) -> Fraction:
    """Give the studio's cost of cloth and seams, and for turned pieces of the cloth that they must save."""
    fabric, cost = option.fabric, option.total_cost.major
    return cost + sewing.cloth.worth_turning.to(fabric.per) * fabric.price.value if option.layout.turned else cost
