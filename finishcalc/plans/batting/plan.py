"""The plan of the batting: the cheapest package or length off a roll that covers the top, in one piece where there is
one and else joined edge to edge; or the pieces that the customer brings."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length, Overage, Size
from finishcalc.measures.money import Currency
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import Batting
from finishcalc.model.project import BattingLayer
from finishcalc.model.shop import BattingSeam, Sewing
from finishcalc.plans.batting.brought import BroughtBatting, check_brought
from finishcalc.plans.batting.joining import Joined
from finishcalc.plans.batting.sold import BattingOption, joined_options, options_in_one_piece
from finishcalc.plans.cautions import Caution, blocking_caution
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import InUnit, Sentence, Value, say, say_in_house


class BattingPlan(NamedTuple):
    """The batting. `chosen` is None where nothing that is sold covers, and where the customer brings her own; `options`
    come cheapest first. Where it is joined, `joined` says of which pieces, and `seam_minutes` how long that takes."""

    width: Length
    length: Length
    product: Batting
    supplied_by: Supplier
    chosen: BattingOption | None
    options: tuple[BattingOption, ...]
    brought: BroughtBatting | None
    joined: Joined | None
    seam_minutes: Fraction
    working: tuple[Sentence, ...]
    cautions: tuple[Caution, ...]

    @property
    def seams(self) -> int:
        """The number of seams at which it is joined."""
        return self.joined.seams if self.joined else 0

    def supply(self, supplier: Supplier) -> BattingOption | None:
        """The chosen batting, where this supplier is the one who buys it."""
        return self.chosen if self.supplied_by == supplier else None


def plan_batting(
    shape: Shape,
    spec: BattingLayer,
    sewing: Sewing,
    currency: Currency,
    finest: Length,
    backing: Overage | None = None,
) -> BattingPlan:
    """Plan a batting that covers the shape with its overage on every side, and never reaches beyond a `backing` of
    another overage."""
    overage = Overage.all_round(spec.overage)
    overage = overage.at_most(backing) if backing else overage
    needed, product, seam = shape.with_overage(overage), spec.product, sewing.batting_seam
    brought = check_brought(shape, spec, overage, seam, finest) if spec.have else None
    options = () if brought else _options(product, needed, sewing, currency)
    chosen = options[0] if options else None
    joined = brought.joined if brought else chosen.joined if chosen else None
    minutes = seam_minutes(joined, seam)
    cautions = _brought_cautions(brought) if brought else () if chosen else (_nothing_covers(product, needed),)
    return BattingPlan(
        width=needed.width,
        length=needed.length,
        product=product,
        supplied_by=spec.supplied_by,
        chosen=chosen,
        options=options,
        brought=brought,
        joined=joined if joined and joined.seams else None,
        seam_minutes=minutes,
        working=(
            shape.overage_working(overage),
            *(_cheapest_working(chosen) if chosen else ()),
            *([brought.sentence] if brought else ()),
            *_seam_working(joined, seam, minutes),
        ),
        cautions=tuple(cautions),
    )


def _options(product: Batting, needed: Size, sewing: Sewing, currency: Currency) -> tuple[BattingOption, ...]:
    """List what covers in one piece, else what covers joined; the cheapest first, with the time of its seams."""
    options = options_in_one_piece(product, needed, sewing.batting_seam, currency)
    if not options and product.joinable:
        options = joined_options(product, needed, sewing.batting_seam, currency)

    def cost(option: BattingOption) -> tuple[Fraction, Fraction]:
        wage = seam_minutes(option.joined, sewing.batting_seam) * sewing.wage.value / 60
        return option.cost.major + wage, (option.width * option.length).mm2 * option.number

    return tuple(sorted(options, key=cost))


def seam_minutes(joined: Joined | None, seam: BattingSeam) -> Fraction:
    """Give the minutes at the seams of a batting."""
    if not joined:
        return Fraction(0)
    return joined.seams * seam.minutes_each.value + joined.seam_length.to(seam.per) * seam.minutes_along.value


def _seam_working(joined: Joined | None, seam: BattingSeam, minutes: Fraction) -> Iterator[Sentence]:
    if joined and joined.seams:
        yield say_in_house(
            "Seams of the batting: {n} x {each} min + {length} x {along} min per {unit} = {minutes} min",
            n=joined.seams,
            each=seam.minutes_each.value,
            length=joined.seam_length,
            along=seam.minutes_along.value,
            unit=seam.per,
            minutes=minutes,
        )


def _cheapest_working(chosen: BattingOption) -> Iterator[Sentence]:
    """Say the cheapest batting, and of a roll that is not charged in its whole width what is."""
    values: dict[str, Value] = {"number": chosen.number, "size": chosen.size, "w": chosen.width, "l": chosen.length}
    several = chosen.number > 1
    if chosen.form == "packaged":
        what = "{number} packages of {size}, {w} x {l} each, joined" if several else "{size}, {w} x {l}"
    else:
        values |= {"length": InUnit(chosen.length, chosen.length_unit)}
        what = "{length} off a roll {w} wide" + (", {number} lengths joined side by side" if several else "")
    yield say("Cheapest that covers: " + what, **values)
    yield from _charged_working(chosen)


def _charged_working(chosen: BattingOption) -> Iterator[Sentence]:
    if chosen.charge == "area":
        yield say("Charged by the area of the batting: {area} {unit}", area=chosen.quantity, unit=chosen.unit)
    elif chosen.charge == "half-width":
        yield say("Charged in half the roll's width: {length}", length=_charged_length(chosen))


def _charged_length(chosen: BattingOption) -> InUnit:
    return InUnit(Length.of(chosen.quantity, chosen.unit), chosen.unit)


def _brought_cautions(brought: BroughtBatting) -> Sequence[Caution]:
    if brought.verdict in ("enough", "joined"):
        return ()
    return (Caution(f"batting-{brought.verdict}", brought.sentence, blocking=True),)


def _nothing_covers(product: Batting, needed: Size) -> Caution:
    if product.joinable:
        text = "No size of {name} covers {w} x {l}, not even joined: use another batting, or reduce the overage. "
    else:
        text = (
            "No size of {name} covers {w} x {l}, and it cannot be joined, because its edge does not hold: use another "
        )
        text += "batting, or reduce the overage. "
    text += "The price excludes batting."
    return blocking_caution("batting-too-small", text, name=product.name, w=needed.width, l=needed.length)
