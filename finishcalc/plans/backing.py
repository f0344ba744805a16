"""The backing: how big, from which panels, with which seams, and which way costs least."""

from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.said import Said, say, say_in_house
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.cloth import buying, cost_of, length_to_buy, usable_said, usable_width, washed_length
from finishcalc.plans.layout import Layout, Leftover
from finishcalc.plans.panels import panel_layouts
from finishcalc.plans.shape import Shape
from finishcalc.project import BackingWishes, Fabric, Sewing


class BackingOption(NamedTuple):
    """A layout with what it takes: cloth to buy for the backing alone, minutes at the seams, and their cost."""

    layout: Layout
    amount: Length
    cloth_cost: Money
    seam_minutes: Fraction
    seam_cost: Money
    total_cost: Money
    leftover: tuple[Leftover, ...]
    clear: bool


class BackingPlan(NamedTuple):
    """The backing. `options` come cheapest first; `chosen` is one of them."""

    width: Length
    length: Length
    fabric: Fabric
    chosen: BackingOption
    options: tuple[BackingOption, ...]
    working: tuple[Said, ...]
    cautions: tuple[Caution, ...]


def plan_backing(shape: Shape, wishes: BackingWishes, sewing: Sewing, currency: Currency) -> BackingPlan:
    """Plan a backing that covers the shape with its overage on every side.

    Every option is kept. Chosen is the least total cost (cloth and seams) among those whose seams keep clear
    of the trimmed edge and are not too many; where there is none, the fewest seams, with a caution.
    """
    width, length = shape.width + wishes.overage * 2, shape.length + wishes.overage * 2
    usable = usable_width(wishes.fabric)
    layouts = panel_layouts(width, length, usable, wishes.seam_allowance, wishes.fabric.repeat, _ways(wishes))
    options = sorted(
        (_option(layout, wishes, sewing, currency, usable) for layout in layouts if _runs_as_asked(layout, wishes)),
        key=lambda option: (option.total_cost.minor, option.layout.seams, option.layout.seam_length),
    )
    chosen = _choose(options, sewing.most_seams)
    return BackingPlan(
        width, length, wishes.fabric, chosen, tuple(options),
        tuple(_working(shape, wishes, usable, chosen, sewing)),
        tuple(_cautions(chosen, sewing)),
    )  # fmt: skip


def _ways(wishes: BackingWishes) -> tuple[str, ...]:
    """Which way the cloth may run: one with a direction or a nap runs down the quilt."""
    return ("lengthwise",) if wishes.fabric.directional or wishes.fabric.nap else ("lengthwise", "crosswise")


def _runs_as_asked(layout: Layout, wishes: BackingWishes) -> bool:
    """A backing in one piece has no seam to run the wrong way."""
    return wishes.seams in ("any", layout.runs) or not layout.seams


def _option(layout: Layout, wishes: BackingWishes, sewing: Sewing, currency: Currency, usable: Length) -> BackingOption:
    amount = length_to_buy(wishes.fabric, layout.cut_length)
    cloth_cost = cost_of(wishes.fabric, amount, currency)
    minutes = layout.seams * sewing.minutes_each + layout.seam_length.to(sewing.per) * sewing.minutes_along
    seam_cost = currency.round(minutes / 60 * sewing.wage)
    return BackingOption(
        layout, amount, cloth_cost, minutes, seam_cost, cloth_cost + seam_cost,
        tuple(_leftovers(layout, usable, washed_length(wishes.fabric, amount))),
        _is_clear(layout, wishes.overage, sewing.clear_edge),
    )  # fmt: skip


def _choose(options: list[BackingOption], most_seams: int) -> BackingOption:
    good = [option for option in options if option.layout.seams <= most_seams]
    clear = [option for option in good if option.clear]
    if clear or good:
        return (clear or good)[0]
    return min(options, key=lambda option: option.layout.seams)


def _is_clear(layout: Layout, overage: Length, clear_edge: Length) -> bool:
    """Whether no seam lies within `clear_edge` of where the quilt will be trimmed."""
    right = max(shown.x + shown.width for shown in layout.assembly)
    bottom = max(shown.y + shown.length for shown in layout.assembly)
    across = [(shown.x, right) for shown in layout.assembly if shown.x]
    down = [(shown.y, bottom) for shown in layout.assembly if shown.y]
    return all(
        abs(seam.mm - edge.mm) >= clear_edge.mm for seam, far in across + down for edge in (overage, far - overage)
    )


def _leftovers(layout: Layout, usable: Length, washed: Length) -> list[Leftover]:
    """Beside each piece that is narrower than the cloth, between repeats, and at the end of the length."""
    found = []
    for cut, following in zip(layout.cuts, [*(cut.y for cut in layout.cuts[1:]), layout.cut_length], strict=True):
        if cut.width < usable:
            found.append(Leftover(cut.width, cut.y, usable - cut.width, cut.length))
        if cut.y + cut.length < following:
            found.append(Leftover(ZERO, cut.y + cut.length, usable, following - cut.y - cut.length))
    if washed > layout.cut_length:
        found.append(Leftover(ZERO, layout.cut_length, usable, washed - layout.cut_length))
    return found


def _working(shape: Shape, wishes: BackingWishes, usable: Length, chosen: BackingOption, sewing: Sewing) -> list[Said]:
    layout, seam = chosen.layout, wishes.seam_allowance
    turned = layout.assembly[0].turned
    across, along = (shape.length, shape.width) if turned else (shape.width, shape.length)
    across, along = across + wishes.overage * 2, along + wishes.overage * 2
    told = [
        say(
            "Needed: {w} + 2 x {o} = {nw} wide, {l} + 2 x {o} = {nl} long",
            w=shape.width, l=shape.length, o=wishes.overage,
            nw=shape.width + wishes.overage * 2, nl=shape.length + wishes.overage * 2,
        ),
        usable_said(wishes.fabric, usable),
    ]  # fmt: skip
    if layout.seams:
        told.append(
            say(
                "Panels: {n} x {u} - {hidden} x {s} in seams = {joined}, enough for {across}",
                n=layout.panels, u=usable, hidden=2 * layout.seams, s=seam,
                joined=usable * layout.panels - seam * (2 * layout.seams), across=across,
            )
        )  # fmt: skip
    told += [_cutting(layout, along, wishes), buying(wishes.fabric, layout.cut_length, chosen.amount)]
    if layout.seams:
        told.append(_seaming(chosen, sewing))
    return told


def _cutting(layout: Layout, along: Length, wishes: BackingWishes) -> Said:
    if wishes.fabric.repeat and layout.seams:
        return say(
            "Cut: {n} x {pitch}, up to a whole repeat of {repeat}, + {along} = {cut}",
            n=layout.panels - 1, pitch=layout.cuts[1].y, repeat=wishes.fabric.repeat, along=along,
            cut=layout.cut_length,
        )  # fmt: skip
    return say("Cut: {n} x {along} = {cut}", n=layout.panels, along=along, cut=layout.cut_length)


def _seaming(chosen: BackingOption, sewing: Sewing) -> Said:
    return say_in_house(
        "Seams: {n} x {each} min + {long} x {along} min per {per} = {minutes} min, at the wage {cost}",
        n=chosen.layout.seams, each=sewing.minutes_each, long=chosen.layout.seam_length,
        along=sewing.minutes_along, per=sewing.per, minutes=chosen.seam_minutes, cost=chosen.seam_cost,
    )  # fmt: skip


def _cautions(chosen: BackingOption, sewing: Sewing) -> list[Caution]:
    found = []
    if chosen.layout.seams > sewing.most_seams:
        found.append(
            caution(
                "many-seams",
                "The backing takes {seams} seams, more than the {most} the shop likes to sew: think of a wider cloth.",
                seams=chosen.layout.seams, most=sewing.most_seams,
            )
        )  # fmt: skip
    if not chosen.clear:
        found.append(
            caution(
                "seam-near-edge",
                "A backing seam lies within {clear} of the trimmed edge, where clamps and binding want none.",
                clear=sewing.clear_edge,
            )
        )
    return found
