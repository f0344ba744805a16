"""The files as a whole: a project file, a shop file with its usual projects, the shelf, and the user's settings."""

from typing import Annotated

from finishcalc.model import keys as k
from finishcalc.model.cover import Bed, Table
from finishcalc.model.marks import AT_ROOT, IN_HOUSE, most
from finishcalc.model.materials import AnyBatting, Batting, Fabric, NamedFabric
from finishcalc.model.on_hand import OnHandRows
from finishcalc.model.prices import (
    Deposit,
    Extra,
    MoneySigns,
    Offers,
    Parcel,
    PostageBand,
    Rates,
    RushBand,
    Studio,
    Tax,
    Taxing,
)
from finishcalc.model.project import ProjectTables
from finishcalc.model.quilting import AnyMethod, AnyStyle, Method, Style
from finishcalc.model.section import FigureOf, Section, specs
from finishcalc.model.shop import (
    Arrival,
    BattingSeam,
    Cloth,
    CounterPage,
    EdgeTime,
    Frame,
    Measuring,
    Piecing,
    Seaming,
    Thread,
    Washing,
    Week,
)

MOST_NAMED = 500
"""The most fabrics a shop has, and the most of each other kind of thing that it names."""


class ProjectFile(ProjectTables):
    """A project file."""

    title: k.Line
    units: k.Units
    shop: k.Line
    on_hand: OnHandRows


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
    batting_seam: BattingSeam
    piecing: Piecing
    edge_time: EdgeTime
    rates: Rates
    thread: Thread
    taxing: Taxing
    tax: FigureOf[Annotated[tuple[Tax, ...], most(20)]]
    deposit: Deposit
    week: Week
    arrival: Arrival
    counter: CounterPage
    rush: Annotated[FigureOf[Annotated[tuple[RushBand, ...], most(20)]], IN_HOUSE]
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
    on_hand: OnHandRows


class UsualProject(Section):
    """`[usual]`: the values of a project file that the shop's projects have unless they give others."""

    usual: Annotated[ProjectTables, AT_ROOT]


class ShopFile(ShopTables, UsualProject):
    """A shop file."""

    units: k.Units


class OnHandFile(Section):
    """A file of what is on hand, and of nothing else."""

    units: k.Units
    on_hand: OnHandRows


class SettingsFile(Section):
    """The user's settings file: the `shop` file of projects that name none, in any folder. A path that is not whole
    begins at the settings file."""

    shop: k.Line | None = None


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


_HELD_BY_SEVERAL: list[type[Section]] = [NamedFabric, *MATERIALS.values()]
_HELD_BY_SEVERAL += [spec.section for spec in specs(ProjectTables).values() if spec.section]
for _table in _HELD_BY_SEVERAL:
    _table.model_rebuild()  # at once, and so only once
