"""The plan of the backing: its size, every option worth weighing, and the one to make."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Overage
from finishcalc.measures.money import Currency
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Backing, Sewn
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.customer_cloth import BindingFromBrought, BroughtCloth
from finishcalc.plans.backing.options import BackingOption, best_options
from finishcalc.plans.backing.sewn_backing import check_supplied_backing
from finishcalc.plans.backing.supplied import ExtensionStrip, SuppliedCloth
from finishcalc.plans.backing.weighing import (
    choose,
    is_picked,
    options_for_brought_cloth,
    options_of_every_overage,
    within_limits,
)
from finishcalc.plans.backing.working import working_of
from finishcalc.plans.cautions import Caution, caution, caution_in_house
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import InUnit, Sentence, WhenRead


class BackingInputs(NamedTuple):
    """Everything a backing is planned from. `finest` is the finest step that a ruler shows."""

    shape: Shape
    spec: Backing
    sewing: Sewing
    currency: Currency
    finest: Length


class BackingPlan(NamedTuple):
    """The backing. `options` are those of every overage that is weighed, or of cloth that is brought those of the
    overage that is wanted and of the chosen one. `chosen` is one of them, or None where the customer supplies a backing
    that is sewn already. `width` and `length`, with the `overage`, are what is needed, `on_frame` what is loaded."""

    width: Length
    length: Length
    overage: Overage
    fabric: Fabric
    chosen: BackingOption | None
    options: tuple[BackingOption, ...]
    customer_supplied: SuppliedCloth | None
    on_frame: tuple[Length, Length]
    inputs: BackingInputs
    working: Sequence[Sentence]
    cautions: Sequence[Caution]

    def with_option(self, option: BackingOption) -> "BackingPlan":
        """The same backing made by another of its options."""
        return _with_chosen(self.inputs, self.options, option, self.customer_supplied)

    @property
    def seams(self) -> int:
        """The number of seams that the shop sews: those of the chosen option, or of strips that are added."""
        return self.chosen.layout.seams if self.chosen else sum(strip.seams for strip in self.strips)

    @property
    def seam_length(self) -> Length:
        """The length of the seams that the shop sews, all together."""
        if self.chosen:
            return self.chosen.layout.seam_length
        return sum((strip.seam_length for strip in self.strips), ZERO)

    @property
    def strips(self) -> tuple[ExtensionStrip, ...]:
        """The strips that are added to the customer's sewn backing."""
        return self.customer_supplied.strips if self.customer_supplied else ()

    @property
    def seam_minutes(self) -> Fraction:
        """Minutes at the seams that the shop sews."""
        if self.chosen:
            return self.chosen.seam_minutes
        seaming = self.inputs.sewing.seaming
        return sum((strip.minutes(seaming) for strip in self.strips), Fraction(0))


def plan_backing(
    shape: Shape,
    spec: Backing,
    sewing: Sewing,
    currency: Currency,
    finest: Length,
    binding: BindingFromBrought | None = None,
) -> BackingPlan:
    """Plan a backing that covers the shape with its overage.

    It is the option that takes least cloth and time: see `choose`; once the options are priced, another may be better.
    The customer's own cloth is pieced with the fewest seams it is enough for, and the `binding` may be cut from it.
    """
    inputs = BackingInputs(shape, spec, sewing, currency, finest)
    if spec.sewn:
        return _sewn_already(spec.sewn, inputs)
    if spec.have:
        options = options_for_brought_cloth(shape, spec, sewing, currency, finest)
        unbroken = [option for option in options if not option.breaks_pile]
        brought = BroughtCloth(spec, spec.have, binding, finest)
        chosen, supplied = brought.choose(within_limits(unbroken, spec, sewing))
        compared = tuple(option for option in options if option.overage in (spec.overage, chosen.overage))
        return _with_chosen(inputs, compared, chosen, supplied)
    options = options_of_every_overage(shape, spec, sewing, currency, finest)
    return _with_chosen(inputs, options, choose(options, spec, sewing), None)


def _with_chosen(
    inputs: BackingInputs, options: tuple[BackingOption, ...], chosen: BackingOption, supplied: SuppliedCloth | None
) -> BackingPlan:
    shape, spec, sewing, *_ = inputs
    needed = shape.with_overage(chosen.overage)
    return BackingPlan(
        width=needed.width,
        length=needed.length,
        overage=chosen.overage,
        fabric=spec.fabric,
        chosen=chosen,
        options=options,
        customer_supplied=supplied,
        on_frame=needed,
        inputs=inputs,
        working=WhenRead(lambda: working_of(shape, spec, chosen, sewing)),
        cautions=WhenRead(lambda: (*_supplied_cautions(supplied), *_cautions(chosen, inputs))),
    )


def _sewn_already(sewn: Sewn, inputs: BackingInputs) -> BackingPlan:
    """Need what would be made; load what the customer supplies, with its strips, unless it is refused."""
    supplied = check_supplied_backing(inputs.shape, sewn, inputs.spec, inputs.sewing, inputs.finest)
    needed = inputs.shape.with_overage(inputs.spec.overage)
    on_frame: tuple[Length, Length] = needed if supplied.verdict == "refused" else (sewn.width, sewn.length)
    for strip in supplied.strips:
        on_frame = strip.extend(on_frame)
    return BackingPlan(
        width=needed.width,
        length=needed.length,
        overage=inputs.spec.overage,
        fabric=inputs.spec.fabric,
        chosen=None,
        options=(),
        customer_supplied=supplied,
        on_frame=on_frame,
        inputs=inputs,
        working=(supplied.sentence, *supplied.working),
        cautions=tuple(_supplied_cautions(supplied)),
    )


def _supplied_cautions(supplied: SuppliedCloth | None) -> Iterator[Caution]:
    """Warn of cloth that is short, and of a sewn backing that is not good as it is."""
    if supplied and supplied.verdict not in ("enough", "accepted"):
        yield Caution(
            f"backing-{supplied.verdict}", supplied.sentence, blocking=supplied.verdict in ("short", "refused")
        )


def _cautions(chosen: BackingOption, inputs: BackingInputs) -> Iterator[Caution]:
    if not is_picked(chosen, inputs.spec):
        text = "No backing of this size is as backing.seam_count and backing.turned ask: it is planned without them."
        yield caution_in_house("not-as-picked", text)
    yield from _overage_cautions(inputs)
    yield from _one_way_cautions(inputs.spec.fabric)
    yield from _seam_cautions(chosen, inputs.sewing)
    yield from _centre_cautions(chosen, inputs)


def _overage_cautions(inputs: BackingInputs) -> Iterator[Caution]:
    overage, least = min(inputs.spec.overage), inputs.sewing.cloth.least_overage
    if overage < least:
        text = "{overage} on each side is less than the {least} that the frame needs."
        yield caution("small-overage", text, overage=overage, least=least)


def _one_way_cautions(fabric: Fabric) -> Iterator[Caution]:
    if fabric.nap or fabric.directional:
        what = "nap runs" if fabric.nap else "print runs"
        yield caution("one-way", f"The {what} one way: lay every backing piece with it running down the quilt.")
    if fabric.nap:
        yield caution("no-iron", "Plush: keep the iron off the pile, and follow the maker's label.")


def _seam_cautions(chosen: BackingOption, sewing: Sewing) -> Iterator[Caution]:
    if chosen.layout.seams > sewing.cloth.most_seams:
        text = "The backing needs {seams} seams, more than the shop's limit of {most}: consider a wider cloth."
        yield caution("many-seams", text, seams=chosen.layout.seams, most=sewing.cloth.most_seams)
    if chosen.breaks_pile:
        text = "A strip of the backing is joined end to end: there is bulk in the seam, and the pile is broken there."
        yield caution("broken-pile", text)
    if not chosen.clear:
        text = "A backing seam is within {clear} of the trimmed edge, in the way of clamps and binding."
        yield caution("seam-near-edge", text, clear=sewing.cloth.clear_edge)


def _centre_cautions(chosen: BackingOption, inputs: BackingInputs) -> Iterator[Caution]:
    """Say how much more cloth `centre = "panel"` takes, unless the customer supplies the cloth."""
    shape, spec, sewing, currency, _ = inputs
    if spec.centre == "any" or spec.have:
        return
    anywhere = best_options(*shape.with_overage(spec.overage), spec.replace(centre="any"), sewing, currency)
    more = chosen.amount - choose(anywhere, spec, sewing).amount
    if more > ZERO:
        text = "Keeping seams off the middle line needs {more} more cloth than the best layout with one there."
        yield caution("centre-panel", text, more=InUnit(more, spec.fabric.per))
