"""The measures that a careful person would still take before she relies on a quote, each with the reason.

A measure is still to take where the plans rest on one that nobody took: a preset's or the sample shop's, or one that
was worked out. Nothing here changes the quote.
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import SAMPLE_LAYERS
from finishcalc.model.cover import Table
from finishcalc.model.section import given
from finishcalc.pipeline import Finishing
from finishcalc.wording.sentence import Sentence, say


class ToMeasure(NamedTuple):
    """A measure to take: `what` it is, the `key` that takes it, and the reason."""

    what: Sentence
    key: str
    why: Sentence


def still_to_measure(result: Finishing) -> tuple[ToMeasure, ...]:
    """List what is still to measure, from the top outward."""
    steps = (_top, _cover, _backing, _batting, _edge, _quilting, _parcel)
    return tuple(each for step in steps for each in step(result))


def _is_sample(result: Finishing, *path: str | int) -> bool:
    """Tell a value of a preset or the sample shop, which nobody measured here."""
    key: KeyPath = path
    sourced = result.resolved.layers.values.get(key)
    return sourced is not None and sourced.origin.layer in SAMPLE_LAYERS


def _top(result: Finishing) -> Iterator[ToMeasure]:
    top = result.resolved.project.top
    if top.pieced or top.covers:
        why = say("its size, {w} x {l}, follows from its parts, and no tape was laid on it", w=top.width, l=top.length)
        yield ToMeasure(say("the top itself, in three places each way, once it is sewn"), "top.measured", why)
    elif not top.measured and top.shape != "round":
        why = say("one width and one length are given, and the sides of a top are seldom alike")
        yield ToMeasure(say("the top in three places each way"), "top.measured", why)
    if top.shape == "rectangle" and not (top.measured and top.measured.diagonals):
        why = say("diagonals that differ show a top that is out of square, which sides that are alike do not")
        yield ToMeasure(say("both diagonals of the top"), "top.measured.diagonals", why)
    if not top.cloth.weight_is_stated and not top.pieced and _is_sample(result, "top", "weight"):
        why = say("its cloth is weighed by {each}, a usual weight", each=top.cloth.weight)
        yield ToMeasure(say("the weight of the top, on a kitchen scale, by its area"), "top.weight", why)


def _cover(result: Finishing) -> Iterator[ToMeasure]:
    cover = result.resolved.project.top.covers
    if cover is None:
        return
    if isinstance(cover.what, Table):
        if given(cover.what.height) is None or _is_sample(result, "top", "covers", "table", "height"):
            why = say(
                "the drop is {drop}; where the table is lower than it is taken to be, a long drop trails",
                drop=cover.drop,
            )
            yield ToMeasure(say("the height of the table from the floor"), "top.covers.table.height", why)
        if _is_sample(result, "top", "covers", "table", "width"):
            why = say("{w} x {l} are a usual table's", w=cover.what.width, l=cover.what.length)
            yield ToMeasure(say("the top of the table"), "top.covers.table.width", why)
    elif _is_sample(result, "top", "covers", "bed", "width") or given(cover.what.depth) is None:
        depth = say(" and {d} deep", d=cover.what.depth) if cover.what.depth else say("")
        why = say("{w} x {l}{depth} are a usual bed's", w=cover.what.width, l=cover.what.length, depth=depth)
        yield ToMeasure(say("the mattress, with its topper"), "top.covers.bed.depth", why)


def _backing(result: Finishing) -> Iterator[ToMeasure]:
    backing = result.plans.backing
    if backing is None:
        return
    fabric = backing.fabric
    if backing.customer_supplied:
        why = say("it is planned with as it is said, and slanting ends and wide selvages make it smaller")
        yield ToMeasure(
            say("what the customer brings for the backing, once it lies on your table"), "backing.have", why
        )
    if _is_sample(result, "backing", "fabric", "width") or _is_sample(result, "backing", "fabric", "selvage"):
        usable = fabric.width - fabric.selvage * 2
        text = "{all} less two selvages of {s} leave {usable}, and the panels lie side by side in that"
        why = say(text, all=fabric.width, s=fabric.selvage, usable=usable)
        yield ToMeasure(
            say("the usable width of {name}, between its selvages", name=fabric.name), "backing.fabric.width", why
        )
    shrinks = fabric.shrink_along or fabric.shrink_across or fabric.prewashed
    if not shrinks and _is_sample(result, "backing", "fabric", "shrink_along"):
        why = say("none is planned with; wash a square and measure it both ways")
        yield ToMeasure(say("the shrinkage of {name}", name=fabric.name), "backing.fabric.shrink_along", why)
    if fabric.directional and not fabric.repeat:
        why = say("it has a direction, and no repeat is given, so that the panels may not match")
        yield ToMeasure(say("the repeat of the print of {name}", name=fabric.name), "backing.fabric.repeat", why)


def _batting(result: Finishing) -> Iterator[ToMeasure]:
    batting = result.resolved.project.batting
    if batting is None:
        return
    product = batting.product
    if _is_sample(result, "batting", "product", "thickness"):
        why = say("the thread in a stitch goes through {thick} of quilt, a usual thickness", thick=product.thickness)
        yield ToMeasure(
            say("the thickness of a stitched scrap with {name}", name=product.name), "batting.product.thickness", why
        )
    if _is_sample(result, "batting", "product", "shrink"):
        why = say("the size once it is washed rests on a usual shrinkage; read the label, or wash a square")
        yield ToMeasure(say("the shrinkage of {name}", name=product.name), "batting.product.shrink", why)


def _edge(result: Finishing) -> Iterator[ToMeasure]:
    binding = result.resolved.project.binding
    if binding and given(binding.finished) is not None and _is_sample(result, "binding", "loft"):
        why = say("the strips are as wide as an edge of {loft} needs them", loft=binding.loft)
        yield ToMeasure(say("the thickness of the quilt's edge"), "binding.loft", why)
    if (
        result.plans.binding
        and _is_sample(result, "binding", "fabric", "width")
        and not result.resolved.project.binding_is_of_backing
    ):
        fabric = result.plans.binding.fabric
        why = say("strips are as long as the cloth is wide, {all} less its selvages", all=fabric.width)
        yield ToMeasure(
            say("the usable width of {name} for the binding", name=fabric.name), "binding.fabric.width", why
        )


def _quilting(result: Finishing) -> Iterator[ToMeasure]:
    project = result.resolved.project
    style = project.quilting.style
    if _is_sample(result, "quilting", "style", "line_spacing") and style.lines == "pattern":
        why = say("stitching and thread go by lines {apart} apart, a usual pattern's", apart=style.line_spacing)
        yield ToMeasure(say("the stitching in one square of your pattern"), "quilting.style.line_spacing", why)
    if _is_sample(result, "quilting", "method", "stages"):
        why = say("the hours rest on samples; time one quilt from loading to the last thread")
        yield ToMeasure(say("your own minutes, stage by stage"), "quilting.method.stages", why)
    if result.plans.quilting.loading and _is_sample(result, "frame", "throat"):
        depth = project.frame.depth
        why = say("a pass is planned {deep} deep; passes and rows go by it", deep=depth)
        yield ToMeasure(say("the throat of your machine, and what the rolled quilt takes of it"), "frame.throat", why)


def _parcel(result: Finishing) -> Iterator[ToMeasure]:
    if result.resolved.project.charges.postage:
        why = say("postage goes by a weight that is worked out from its layers")
        yield ToMeasure(say("the weight of the packed quilt"), "parcel.packing", why)
