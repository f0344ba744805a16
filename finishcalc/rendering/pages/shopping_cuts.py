"""The cutting of a shopping list: each length of a cloth that several projects share, or that is cut from the shelf."""

from collections.abc import Iterator

from finishcalc.plans.shopping.cloth import ClothToBuy
from finishcalc.plans.shopping.together import ShoppingList
from finishcalc.rendering.pages.page import Group, Heading, Paragraph
from finishcalc.rendering.pictures.cutting import cutting_picture
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.wording.notation import Notation

DRAWN = "Cut each piece as the cut list of its project says; the letters are those of this list."


def cutting_groups(shopping: ShoppingList, notation: Notation) -> Iterator[Group]:
    """Draw the lengths, each piece with its project. A cloth of one project is cut as its own cut list says."""
    drawn = [each for each in shopping.cloth if len(each.projects) > 1 or each.taken_down]
    if drawn:
        yield (Heading("Cutting"),)
    explained: Group = (Paragraph(DRAWN, small=True),)
    for number, cloth in enumerate(drawn, start=1):
        for place in range(len(cloth.purchase.layouts)):
            yield (*explained, _drawing(cloth, place, f"cloth-{number}-{place + 1}", notation))
            explained = ()


def _drawing(cloth: ClothToBuy, place: int, name: str, notation: Notation) -> Drawing:
    """Draw a length. Its uses are in the list, so that only its size and its place in the purchase are told."""
    purchase = cloth.purchase
    picture = cutting_picture(purchase, place, notation)
    used = picture.facts[1]
    if purchase.is_at_hand(place):
        taken = cloth.taken_down[place]
        source = f"{notation.exactly().size(*taken.written)} on hand"
        if taken.usable == taken.written:
            used = f"{notation.show(taken.layout.length)} of its length is cut"
    else:
        source = f"{notation.show(purchase.cut_from[place])} to buy"
    count = len(purchase.layouts)
    which = f", length {place + 1} of {count}" if count > 1 else ""
    return Drawing(name, picture._replace(facts=(f"{source}{which}", used)), notation)
