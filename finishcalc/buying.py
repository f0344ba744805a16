"""The story of a shopping list: finished projects are put together, with the shelves of all their files."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from finishcalc.intake.on_hand import OnHandFrom, all_on_hand
from finishcalc.measures.rounding import FINEST
from finishcalc.pipeline import Finishing
from finishcalc.plans.shopping.together import ShoppingList, shopping_list
from finishcalc.plans.shopping.wants import ShoppingProject, project_to_shop_for


def shop_for(results: Sequence[tuple[str, Finishing]], units: str, shelves: Iterable[OnHandFrom] = ()) -> ShoppingList:
    """Make one list of finished projects, each with the name of its file, in these units. The shelves of the projects
    and of their shop files are used, besides those of files of their own."""
    on_hand = [shelf for _, result in results for shelf in result.resolved.on_hand]
    projects = [_to_shop_for(name, result) for name, result in results]
    return shopping_list(projects, all_on_hand([*on_hand, *shelves]), FINEST[units])


def _to_shop_for(name: str, result: Finishing) -> ShoppingProject:
    project, own_names = result.resolved.project, result.resolved.namesakes.own_names
    return project_to_shop_for(name, project.title, project, result.plans, own_names, _cone_price(result))


def _cone_price(result: Finishing) -> Fraction | None:
    """The price of a cone to the studio, where its thread is charged by the cone."""
    thread = result.resolved.shop.rates.thread
    return thread.cost.value if thread.per == "cone" and thread.cost is not None else None
