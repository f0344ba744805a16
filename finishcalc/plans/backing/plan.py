"""The backing: how big, from which pieces, with which seams, and which way costs least."""

from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency
from finishcalc.model.materials import Fabric
from finishcalc.model.project import BackingWishes, Sewing, Sewn
from finishcalc.plans.backing.customer_cloth import Brought, Strip, cloth_brought, from_what_is_brought, sewn_brought
from finishcalc.plans.backing.options import BackingOption, best_options, choose
from finishcalc.plans.backing.savings import BackingInputs, Saving, savings
from finishcalc.plans.backing.working import working_of
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import InUnit, Said


class BackingPlan(NamedTuple):
    """The backing. `options` are those of `best_options`, cheapest first; `chosen` is one of them, or None where the
    customer brings a backing that is sewn already. `width` and `length` are what is needed, `on_frame` what is loaded;
    minutes and cost are those of the seams the shop sews."""

    width: Length
    length: Length
    fabric: Fabric
    chosen: BackingOption | None
    options: tuple[BackingOption, ...]
    brought: Brought | None
    on_frame: tuple[Length, Length]
    inputs: BackingInputs
    working: tuple[Said, ...]
    cautions: tuple[Caution, ...]

    @property
    def nudges(self) -> tuple[Saving, ...]:
        """What a small change would save of the shop's cloth. Each is a plan of its own, made only when it is read."""
        if not self.chosen or self.inputs.wishes.supplied_by == "customer":
            return ()
        return savings(self.inputs, self.chosen, self.options)

    @property
    def neighbours(self) -> tuple[BackingOption, ...]:
        """The best with one seam less, and with one more where that takes less cloth; of cloth that is there already,
        none."""
        if not self.chosen or self.inputs.wishes.have:
            return ()
        found = []
        for seams in (self.chosen.layout.seams - 1, self.chosen.layout.seams + 1):
            same = [option for option in self.options if option.layout.seams == seams]
            best = min(same, key=lambda option: (option.amount, option.layout.turned), default=None)
            if best and (seams < self.chosen.layout.seams or best.amount < self.chosen.amount):
                found.append(best)
        return tuple(found)

    @property
    def seams(self) -> int:
        """How many seams the shop sews: those of the chosen way, or of a strip that is added."""
        if self.chosen:
            return self.chosen.layout.seams
        return self.strip.seams if self.strip else 0

    @property
    def strip(self) -> Strip | None:
        """The strip that is added to a brought backing."""
        return self.brought.strip if self.brought else None

    @property
    def seam_minutes(self) -> Fraction:
        """Minutes at those seams."""
        if self.chosen:
            return self.chosen.seam_minutes
        sewing = self.inputs.sewing
        if not self.strip:
            return Fraction(0)
        return self.strip.seams * sewing.minutes_each + self.strip.seam_length.to(sewing.per) * sewing.minutes_along


def plan_backing(
    shape: Shape, wishes: BackingWishes, sewing: Sewing, currency: Currency, beside: Length = ZERO
) -> BackingPlan:
    """Plan a backing that covers the shape with its overage on every side. `beside` is what else the customer's own
    cloth is for, washed.

    Chosen is the least total cost (cloth and seams) among those with at most `most_seams`; turned pieces only
    where they save `worth_turning` of cloth against the best without. Where even the fewest seams are too many,
    the fewest, with a caution. Cloth that the customer brings is pieced with the fewest seams it is enough for.
    """
    if wishes.sewn:
        return _sewn_already(wishes.sewn, BackingInputs(shape, wishes, sewing, currency))
    width, length = shape.width + wishes.overage * 2, shape.length + wishes.overage * 2
    options = best_options(width, length, wishes, sewing, currency)
    have = wishes.have
    chosen = (have and from_what_is_brought(have, options, wishes, sewing, beside)) or choose(options, sewing)
    brought = cloth_brought(have, wishes, chosen, options, beside) if have else None
    return BackingPlan(
        width, length, wishes.fabric, chosen, options, brought, (width, length),
        BackingInputs(shape, wishes, sewing, currency),
        working_of(shape, wishes, chosen, sewing),
        (
            *_told(brought),
            *_cautions(chosen, wishes, sewing),
            *_centred(chosen, width, length, wishes, sewing, currency),
        ),
    )  # fmt: skip


def _sewn_already(sewn: Sewn, inputs: BackingInputs) -> BackingPlan:
    """Needed is what would be made; on the frame goes what is brought, with its strip, if it will do."""
    shape, wishes = inputs.shape, inputs.wishes
    brought = sewn_brought(shape, sewn, wishes, inputs.sewing)
    needed = shape.width + wishes.overage * 2, shape.length + wishes.overage * 2
    on_frame = needed if brought.verdict == "refused" else (sewn.width, sewn.length)
    if brought.strip:
        on_frame = brought.strip.adds_to(sewn)
    return BackingPlan(
        *needed, wishes.fabric, None, (), brought, on_frame, inputs, (brought.said,), tuple(_told(brought))
    )


def _told(brought: Brought | None) -> list[Caution]:
    """Cloth that is short, and a backing that is not good as it is, are to be spoken of."""
    if brought is None or brought.verdict in ("enough", "accepted"):
        return []
    return [Caution(f"backing-{brought.verdict}", brought.said, hinders=brought.verdict != "strip")]


def _centred(
    chosen: BackingOption, width: Length, length: Length, wishes: BackingWishes, sewing: Sewing, currency: Currency
) -> list[Caution]:
    """What it costs in cloth to keep a seam off the middle line; of cloth that is there already, nothing."""
    if wishes.centre == "any" or wishes.have:
        return []
    free = choose(best_options(width, length, wishes._replace(centre="any"), sewing, currency), sewing)
    more = chosen.amount - free.amount
    if more <= ZERO:
        return []
    told = caution(
        "centre-panel",
        "Keeping a seam off the middle line takes {more} more cloth than the best way with one there.",
        more=InUnit(more, wishes.fabric.per),
    )
    return [told]


def _cautions(chosen: BackingOption, wishes: BackingWishes, sewing: Sewing) -> list[Caution]:
    return [*_cloth_cautions(wishes, sewing), *_seam_cautions(chosen, sewing)]


def _cloth_cautions(wishes: BackingWishes, sewing: Sewing) -> list[Caution]:
    found = []
    if wishes.overage < sewing.least_overage:
        found.append(
            caution(
                "small-overage",
                "{overage} on each side is less than the {least} that the frame needs.",
                overage=wishes.overage, least=sewing.least_overage,
            )
        )  # fmt: skip
    if wishes.fabric.nap or wishes.fabric.directional:
        what = "nap strokes" if wishes.fabric.nap else "print runs"
        found.append(caution("one-way", f"The {what} one way: lay every piece of the backing with it down the quilt."))
    if wishes.fabric.nap:
        found.append(caution("no-iron", "Plush: keep the iron off the pile, and follow the maker's label."))
    return found


def _seam_cautions(chosen: BackingOption, sewing: Sewing) -> list[Caution]:
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
