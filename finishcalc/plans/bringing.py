"""The list of what a customer brings, and how: the top, and the cloth and the batting that are her own.

The studio's list of what to look at when it arrives is in `arrival`. Common practice at a longarm's counter.
"""

from collections.abc import Iterator

from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.together import Plans
from finishcalc.wording.sentence import InUnit, Sentence, Value, say
from finishcalc.wording.words import in_words


def things_to_bring(plans: Plans, top_is_pieced_here: bool) -> Iterator[Sentence]:
    """List what the customer brings, each with the size that it must have at least and the state it should be in. A top
    that the studio pieces is nobody's to bring."""
    if not top_is_pieced_here:
        yield say("the top: pressed, no pins in it, loose threads clipped, its top side marked")
    if backing := plans.backing:
        yield from _backing(backing)
    told = bool(plans.backing and plans.backing.inputs.spec.have)
    for purchase in plans.cloth:
        is_told = told and "backing" in purchase.uses
        if purchase.supplied_by == "customer" and not is_told and not purchase.is_all_on_hand:
            yield _cloth(purchase, plans.backing)
    if plans.batting and plans.batting.supplied_by == "customer":
        yield _batting(plans.batting)


def _backing(backing: BackingPlan) -> Iterator[Sentence]:
    """Ask for a backing that is sewn already, or for the lengths of cloth that the plan rests on."""
    spec = backing.inputs.spec
    if spec.sewn or (spec.supplied_by == "customer" and not backing.chosen):
        text = "the backing: {width} x {length} at least, square, pressed, its seams pressed open"
        yield say(text, width=backing.width, length=backing.length)
    elif spec.have:
        values: dict[str, Value] = {f"length_{number}": each for number, each in enumerate(spec.have)}
        lengths = " + ".join(f"{{{name}}}" for name in values)
        yield say(lengths + " of {name}, for the backing, pressed", name=backing.fabric.name, **values)


def _cloth(purchase: Purchase, backing: BackingPlan | None) -> Sentence:
    """Ask for cloth by its amount; a backing may be sewn already."""
    text = "{amount} of {name}, for {uses}, pressed"
    values: dict[str, Value] = {
        "amount": InUnit(purchase.amount, purchase.fabric.per),
        "name": purchase.fabric.name,
        "uses": uses_words(purchase.uses),
    }
    if backing and purchase.uses == ("backing",):
        text += "; or a backing that is sewn already, {width} x {length} at least, and square"
        values |= {"width": backing.width, "length": backing.length}
    return say(text, **values)


def _batting(batting: BattingPlan) -> Sentence:
    """Ask for batting by its size; one that is joined from pieces by the size of each."""
    if batting.brought and batting.joined:
        pieces = batting.brought.pieces
        values: dict[str, Value] = {f"w{n}": piece.width for n, piece in enumerate(pieces)}
        values |= {f"l{n}": piece.length for n, piece in enumerate(pieces)}
        sizes = in_words([f"{{w{n}}} x {{l{n}}}" for n in range(len(pieces))])
        return say("{name} in pieces of " + sizes + ", to be joined", name=batting.product.name, **values)
    text = "{name}: {width} x {length} at least, in one piece"
    return say(text, name=batting.product.name, width=batting.width, length=batting.length)
