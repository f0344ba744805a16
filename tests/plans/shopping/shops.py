"""Projects for the tests of shopping lists, from the text of their files."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.model.on_hand import OnHandPieces
from finishcalc.plans.shopping.together import ShoppingList, shopping_list
from finishcalc.plans.shopping.wants import ShoppingProject, project_to_shop_for
from finishcalc.plans.together import make_plans
from tests.builders import inches

PLAIN = '[batting]\nproduct = "none"\n[binding]\nattach = "none"\n'
"""Neither batting nor binding."""


def dyed(name: str, more: str = "") -> str:
    """Quilting cotton of a colour: usable 40 in wide, by the eighth of a yard, 1 in to square the end, 11 a yard."""
    return f'{{ preset = "cotton-44", name = "{name}"{more} }}'


def runner(name: str = "harbour blue", width: str = "12", length: str = "60", more: str = "") -> str:
    """A top with a backing 2 in over on every side, and no more."""
    backing = f'[backing]\nfabric = {dyed(name, more)}\noverage = 2\nseams = "lengthwise"\n'
    return f'[top]\nwidth = "{width}"\nlength = "{length}"\n{backing}{PLAIN}'


def wants(label: str, text: str, cone_price: Fraction | None = None, key: str = "") -> ShoppingProject:
    """A project by its label, as its file says it."""
    resolved = resolve(Source(label, text))
    project = resolved.project
    names = resolved.namesakes.own_names
    return project_to_shop_for(key or label, label, project, make_plans(project), names, cone_price)


def on_hand(kind: str, name: str, width: str, length: str, number: int = 1) -> OnHandPieces:
    """Pieces on the shelf, by their sides in inches."""
    sides = {"width": inches(width), "length": inches(length)}
    return OnHandPieces.new(kind=kind, name=name, number=number, **sides)


def listed(projects: Iterable[ShoppingProject], shelf: Sequence[OnHandPieces] = ()) -> ShoppingList:
    """The list of projects, what is left down to the eighth of an inch."""
    return shopping_list(projects, shelf, inches("1/8"))
