"""The list that is gone through when a top arrives: the studio's own checks, then those that the job itself asks for.

One list for every place that prints it. Its lines are the studio's alone: common practice at a longarm's counter.
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.model.materials import Fabric
from finishcalc.model.project import Job, Project
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.cautions import may_be_for_a_crib
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.quilting.frame import Loading
from finishcalc.plans.together import Plans
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import InUnit, Sentence, Value, say_in_house
from finishcalc.wording.words import in_words

FACTS = {
    "embellishments": "buttons, beads and the like are off, or marked to be quilted round",
    "vinyl": "vinyl and other prints: no iron on them, and every needle hole stays, so mark where to go round",
    "t_shirts": "each T-shirt has a fusible stabiliser behind it, and none ripples",
    "dense_seams": "dense seams are pressed flat, and marked where the needle must go slowly",
}
"""The line for each fact that `[job]` may tell of a top, by its key."""


class ArrivalCheck(NamedTuple):
    """A line of the list: the `key` of what it is about, "studio" for the studio's own, and what should be so."""

    key: str
    sentence: Sentence


def arrival_checks(project: Project, plans: Plans) -> Iterator[ArrivalCheck]:
    """Give the list for a job: the shop's own lines, then those of the top, of what is brought, and of the loading."""
    for line in project.arrival.checks:
        yield _check("studio", "{line}", line=line)
    yield _measured(plans.top.shape)
    yield from _of_the_top(project)
    yield from _brought(plans)
    backing = plans.backing
    if backing and backing.fabric.is_one_way:
        yield _check("direction", "the top edge is marked, because the backing has an up and a down")
    if backing and backing.fabric.stretch != "none":
        yield _stretch(backing, backing.fabric, plans.quilting.loading)


def _check(key: str, text: str, /, **values: Value) -> ArrivalCheck:
    return ArrivalCheck(key, say_in_house(text, **values))


def _measured(shape: Shape) -> ArrivalCheck:
    """Measure again: the quote holds for the size that was told."""
    if shape.name == "round":
        return _check("size", "the top measures {width} across, as quoted", width=shape.width)
    text = "the top measures {width} x {length}, as quoted"
    return _check("size", text, width=shape.width, length=shape.length)


def _of_the_top(project: Project) -> Iterator[ArrivalCheck]:
    told = _facts(project.job)
    yield from (_check(key, text) for key, text in FACTS.items() if told[key])
    if may_be_for_a_crib(project.top):
        yield _check("crib", "for a small child: nothing on it comes off, and no pin is left in it")


def _facts(job: Job) -> dict[str, bool]:
    return {
        "embellishments": job.embellishments,
        "vinyl": job.vinyl,
        "t_shirts": job.t_shirts,
        "dense_seams": job.dense_seams,
    }


def _brought(plans: Plans) -> Iterator[ArrivalCheck]:
    """Look at what the customer brings: a sewn backing, lengths of cloth, batting."""
    backing, spec = plans.backing, plans.backing.inputs.spec if plans.backing else None
    if spec and spec.sewn:
        text = "the backing that is sewn measures {width} x {length}, and is square"
        yield _check("backing", text, width=spec.sewn.width, length=spec.sewn.length)
    if backing and spec and spec.have:
        yield _lengths(backing.fabric, spec.have)
    for purchase in plans.cloth:
        told = spec and spec.have and "backing" in purchase.uses
        if purchase.supplied_by == "customer" and not told and not purchase.is_all_on_hand:
            text = "{amount} of {name} is here, for {uses}"
            amount = InUnit(purchase.amount, purchase.fabric.per)
            name = purchase.fabric.name
            yield _check("cloth", text, amount=amount, name=name, uses=uses_words(purchase.uses))
    if plans.batting and plans.batting.supplied_by == "customer":
        yield _batting(plans.batting)


def _lengths(fabric: Fabric, lengths: tuple[InUnit, ...]) -> ArrivalCheck:
    """Measure the cloth that is brought for the backing, whose lengths the plan rests on."""
    values: dict[str, Value] = {f"length_{number}": each for number, each in enumerate(lengths)}
    text = " + ".join(f"{{{name}}}" for name in values) + " of {name} measured, for the backing"
    return _check("backing", text, name=fabric.name, **values)


def _batting(batting: BattingPlan) -> ArrivalCheck:
    """Measure the batting that is brought: each piece of one that is joined first."""
    if batting.brought and batting.joined:
        pieces = batting.brought.pieces
        values: dict[str, Value] = {f"w{n}": piece.width for n, piece in enumerate(pieces)}
        values |= {f"l{n}": piece.length for n, piece in enumerate(pieces)}
        sizes = in_words([f"{{w{n}}} x {{l{n}}}" for n in range(len(pieces))])
        return _check("batting", f"the batting to be joined measures {sizes}", **values)
    text = "the batting measures {width} x {length} at least"
    return _check("batting", text, width=batting.width, length=batting.length)


def _stretch(backing: BackingPlan, fabric: Fabric, loading: Loading | None) -> ArrivalCheck:
    """Load a cloth that stretches with its stretch along the rollers, because the rollers pull the other way."""
    if loading is None:
        return _check("stretch", "{name}, which stretches: it is basted closely, and not pulled", name=fabric.name)
    text = "{name}, which stretches: load it with the stretch along the rollers"
    ways = {_stretches_across(fabric, turned) for turned in _turned(backing)}
    wanted = {"upright": True, "sideways": False}[loading.way]
    if ways == {wanted}:
        text += ", as it is planned"
    elif ways == {not wanted}:
        text += "; as it is planned, {way}, the stretch would run between them"
    return _check("stretch", text, name=fabric.name, way=loading.way)


def _stretches_across(fabric: Fabric, turned: bool) -> bool:
    """Tell a piece that stretches across the top: cloth that lies along the quilt stretches there if it does across."""
    return (fabric.stretch == "across") != turned


def _turned(backing: BackingPlan) -> set[bool]:
    """Tell whether pieces lie along the quilt, across it, or both; nothing of a backing that somebody else sewed."""
    return {piece.turned for piece in backing.chosen.layout.assembly} if backing.chosen else set()
