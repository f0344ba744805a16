"""The materials that one project wants bought, taken from its plans, and what its customer brings."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length, Size
from finishcalc.measures.money import Currency
from finishcalc.model.materials import BoughtFabric
from finishcalc.model.project import Project
from finishcalc.model.section import Figure, Section, specs
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.cutting.layout import ClothLayout, LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.shopping.pieces import with_pieces
from finishcalc.plans.together import Plans
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import InUnit


class ClothWanted(NamedTuple):
    """A cloth that a project buys. `own_name` is the one that its file gives it, without what is added to tell it from
    a namesake; None for a preset's cloth, whose colour nobody knows."""

    purchase: Purchase
    own_name: str | None

    @property
    def layouts(self) -> tuple[ClothLayout, ...]:
        """The layouts of the lengths that are bought, without those that are at hand already."""
        return self.purchase.layouts[len(self.purchase.layouts) - len(self.purchase.lengths) :]


class ThreadWanted(NamedTuple):
    """The thread on top of a quilt, in so many `colours`: its `length` of all of them, and the length on a `cone`. Its
    `name` is what the job says of it; `price` is that of a cone to the studio, None where nobody gives it."""

    name: str
    colours: int
    length: Length
    cone: Length
    price: Fraction | None


class Brings(NamedTuple):
    """A material that a customer supplies for a project: cloth in the `lengths` that her plan takes; or pieces of a
    batting, a package, a length off a roll or a sewn backing in their `sizes`, so many of each."""

    what: Literal["cloth", "batting", "backing"]
    name: str
    uses: tuple[str, ...]
    lengths: tuple[InUnit, ...] = ()
    sizes: tuple[Size, ...] = ()


class ShoppingProject(NamedTuple):
    """A project as a shopping list reads it. `key` tells it from every other, as its file does, and `label` names it on
    the list. Nothing narrower than `least_cloth`, or than `least_batting`, is worth keeping when it is left over."""

    key: str
    label: str
    customer: str
    currency: Currency
    cloth: tuple[ClothWanted, ...]
    batting: BattingPlan | None
    thread: ThreadWanted | None
    brings: tuple[Brings, ...]
    least_cloth: Length
    least_batting: Length


def project_to_shop_for(
    key: str,
    label: str,
    project: Project,
    plans: Plans,
    own_names: Mapping[str, str] | None = None,
    cone_price: Fraction | None = None,
) -> ShoppingProject:
    """Take from the plans of a project all that is to be had for it. `own_names` gives the name in the file of each
    cloth that bears more words, to tell it from a namesake."""
    bought = (each for each in plans.cloth if each.supplied_by == "shop" and each.lengths)
    return ShoppingProject(
        key=key,
        label=plain(label),
        customer=project.customer.name,
        currency=project.currency,
        cloth=tuple(ClothWanted(each, _own_name(each, own_names or {})) for each in bought),
        batting=plans.batting if plans.batting and plans.batting.supplied_by == "shop" else None,
        thread=_thread(project, plans, cone_price),
        brings=tuple(_brings(project, plans)),
        least_cloth=project.sewing.cloth.shortest_piece,
        least_batting=project.sewing.batting_seam.least_piece,
    )


def _own_name(purchase: Purchase, own_names: Mapping[str, str]) -> str | None:
    fabric = purchase.fabric
    name = fabric.own_name if isinstance(fabric, BoughtFabric) else None
    return own_names.get(name, name) if name else None


def _thread(project: Project, plans: Plans, price: Fraction | None) -> ThreadWanted | None:
    quilting = plans.quilting
    if not quilting.threads.cones:
        return None
    length, cone = quilting.threads.top, project.thread.cone.value
    return ThreadWanted(project.job.thread, quilting.colours, length, cone, price)


def _brings(project: Project, plans: Plans) -> Iterator[Brings]:
    """List what the customer brings. A sewn backing needs no cloth of its own; a batting she has is in her pieces, and
    one that she is to buy is the one that her plan chose."""
    for purchase in plans.cloth:
        if purchase.supplied_by == "customer" and purchase.lengths:
            lengths = tuple(InUnit(length, purchase.fabric.per) for length in purchase.lengths)
            yield Brings("cloth", purchase.fabric.name, purchase.uses, lengths)
    sewn = project.backing.sewn if project.backing else None
    if sewn:
        yield Brings("backing", "", ("backing",), sizes=(Size(sewn.width, sewn.length),))
    batting = plans.batting
    if batting and batting.supplied_by == "customer":
        chosen = batting.chosen
        sizes = (
            (Size(chosen.width, chosen.length),) * (chosen.number if chosen.form == "packaged" else 1) if chosen else ()
        )
        pieces = batting.brought.pieces if batting.brought else sizes
        yield Brings("batting", batting.product.name, ("batting",), sizes=pieces)


def figures_of(material: Section, keys: type[Section]) -> str:
    """Write out the whole table of a material but its name, each figure without the key that gives it: two are the same
    where this is."""
    values = ((key, getattr(material, key)) for key in specs(keys) if key != "name")
    return str([(key, (value.value, value.per) if isinstance(value, Figure) else value) for key, value in values])


def marked(piece: LaidPiece, label: str) -> LaidPiece:
    """Mark a piece with its project. It is wanted as large as it is cut, because a backing's is cut up to a step of a
    ruler, and its letter is given up, because another project has a piece of that letter."""
    wanted = piece.wanted
    lies_along = piece.along == wanted.length or not wanted.across
    width, length = (piece.across, piece.along) if lies_along else (piece.along, piece.across)
    use = f"{label}: {uses_words((wanted.use,))}"
    joined_to = wanted.joined_to if wanted.joined else length
    anew = wanted._replace(use=use, width=width, length=length, number=1, joined_to=joined_to, name="", project=label)
    return piece._replace(wanted=anew)


def with_marks(layout: ClothLayout, label: str) -> ClothLayout:
    """Mark every piece of a layout with its project."""
    return with_pieces(layout, lambda piece: marked(piece, label))
