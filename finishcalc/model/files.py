"""The two files as a whole: a project file, and a shop file with its usual projects."""

from typing import Annotated

from finishcalc.model import keys as k
from finishcalc.model.cover import Bed, Table
from finishcalc.model.materials import AnyBatting, AnyMethod, AnyStyle, Batting, Fabric, Method, Style
from finishcalc.model.prices import Deposit, Extra, MoneySigns, Offers, Parcel, PostageBand, Rates, Studio, Tax, Taxing
from finishcalc.model.project import ProjectTables
from finishcalc.model.section import AT_ROOT, FigureOf, Section, most
from finishcalc.model.shop import Cloth, EdgeTime, Frame, Measuring, Piecing, Seaming, Thread, Washing

MOST_NAMED = 500
"""The most fabrics a shop has, and the most of each other kind of thing that it names."""


class ProjectFile(ProjectTables):
    """A project file."""

    title: k.Line
    units: k.Units
    shop: k.Line


class ShopTables(Section):
    """The tables that only a shop file has."""

    studio: Studio
    money: MoneySigns
    cloth: Cloth
    measuring: Measuring
    any_batting: AnyBatting
    any_style: AnyStyle
    any_method: AnyMethod
    seaming: Seaming
    piecing: Piecing
    edge_time: EdgeTime
    rates: Rates
    thread: Thread
    taxing: Taxing
    tax: FigureOf[Annotated[tuple[Tax, ...], most(20)]]
    deposit: Deposit
    offers: Offers
    parcel: Parcel
    postage: FigureOf[Annotated[tuple[PostageBand, ...], most(50)]]
    frame: Frame
    washing: Washing
    extras: Annotated[dict[str, Extra], most(100)]
    fabrics: Annotated[dict[str, Fabric], most(MOST_NAMED)]
    battings: Annotated[dict[str, Batting], most(MOST_NAMED)]
    styles: Annotated[dict[str, Style], most(MOST_NAMED)]
    methods: Annotated[dict[str, Method], most(MOST_NAMED)]
    beds: Annotated[dict[str, Bed], most(MOST_NAMED)]
    tables: Annotated[dict[str, Table], most(MOST_NAMED)]


class UsualProject(Section):
    """`[usual]`: the values of a project file that the shop's projects have unless they give others."""

    usual: Annotated[ProjectTables, AT_ROOT]


class ShopFile(ShopTables, UsualProject):
    """A shop file."""

    units: k.Units


MATERIALS: dict[str, type[Section]] = {
    "fabrics": Fabric,
    "battings": Batting,
    "styles": Style,
    "methods": Method,
    "beds": Bed,
    "tables": Table,
}
"""The kinds of things that are chosen by name, with the keys of each."""


class Everything(ProjectTables, ShopTables):
    """All tables of all layers: the project's and the shop's."""
