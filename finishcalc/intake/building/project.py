"""Makes the project and the shop from layers in which nothing is missing any more."""

from fractions import Fraction
from functools import partial
from typing import Any

from finishcalc.intake.building.cover import covers
from finishcalc.intake.building.made import Made, given, made
from finishcalc.intake.building.pieced import pieced_top
from finishcalc.intake.building.top_size import size_of
from finishcalc.intake.layers import Layers, Values, bare
from finishcalc.intake.shop_file import EDGE_WORK, HANDLED, TAX_RULES
from finishcalc.measures.money import Currency, Money
from finishcalc.model.materials import BattingProduct, Fabric, Method, Package, Roll, Stage, Style
from finishcalc.model.project import (
    BackingWishes,
    BattingWishes,
    BindingWishes,
    Charges,
    EdgeTime,
    ExtraWish,
    Frame,
    HemWishes,
    Job,
    Measured,
    Measuring,
    OneOff,
    Project,
    QuiltedArea,
    QuiltingWishes,
    Scallop,
    Sewing,
    Sewn,
    Thread,
    TopWishes,
)
from finishcalc.model.shop import (
    Deposit,
    Extra,
    MoneySigns,
    OfferedExtra,
    Offers,
    QuiltingRate,
    Rates,
    Shop,
    SizeStep,
    Studio,
    Tax,
)

UNBOUND = ("hem", "none")
"""What an edge may say that takes no strips."""


def build_project(layers: Layers, title: str, units: str) -> Project:
    """The project, in the shape the plans read. Raises MissingValue where no layer gives what they need."""
    get = partial(given, layers)
    return Project(
        title=title,
        units=units,  # type: ignore[arg-type]
        currency=Currency.of(get("money", "currency")),
        customer=get("customer", "name"),
        job=made(Job, layers, "job", date=layers.get("job", "date"), due=layers.get("job", "due")),
        top=_top(layers, units),
        measuring=made(Measuring, layers, "measuring"),
        backing=_backing(layers),
        batting=_batting(layers),
        binding=_binding(layers),
        hem=_hem(layers),
        quilting=QuiltingWishes(
            _style(layers, "quilting", "style"), _areas(layers), _method(layers), get("quilting", "colours")
        ),
        charges=made(Charges, layers, "charges", extras=_extra_wishes(layers), lines=_one_offs(layers)),
        sewing=Sewing(
            minutes_each=get("seaming", "minutes_each"),
            minutes_along=get("seaming", "minutes_along"),
            per=get("seaming", "per"),
            wage=get("rates", "wage"),
            clear_edge=get("cloth", "clear_edge"),
            most_seams=get("cloth", "most_seams"),
            shortest_piece=get("cloth", "shortest_piece"),
            worth_turning=get("cloth", "worth_turning"),
            least_overage=get("cloth", "least_overage"),
            worth_saying=get("cloth", "worth_saying"),
        ),
        edge_time=made(EdgeTime, layers, "edge_time"),
        thread=made(Thread, layers, "thread"),
        frame=made(Frame, layers, "frame"),
    )


def build_shop(layers: Layers, units: str) -> Shop:
    """The shop, in the shape pricing reads. Raises MissingValue where no layer gives what it needs."""
    get = partial(given, layers)
    currency = Currency.of(get("money", "currency"))
    return Shop(
        studio=made(Studio, layers, "studio"),
        money=made(
            MoneySigns, layers, "money",
            currency=currency,
            symbol=layers.get("money", "symbol") or "",
            cash_rounding=currency.round(get("money", "cash_rounding")),
        ),
        rates=made(
            Rates, layers, "rates",
            quilting={name: _quilting_rate(layers, name) for name in layers.names("rates", "quilting")},
            binding={work: get("rates", "binding", work) for work in EDGE_WORK},
            handling={part: get("rates", "handling", part) for part in HANDLED},
            minimum=currency.round(get("rates", "minimum")),
        ),
        extras={name: made(Extra, layers, "extras", name) for name in layers.names("extras")},
        taxes=tuple(_tax(layers, tax) for tax in get("tax")),
        deposit=Deposit(
            layers.get("deposit", "percent"),
            _amount(layers.get("deposit", "amount"), currency),
            get("deposit", "classes"),
            _table(layers, "deposit", "shares"),
        ),
        offers=made(
            Offers, layers, "offers",
            extras=tuple(OfferedExtra(**_values(table)) for table in get("offers", "extras")),
        ),
    )  # fmt: skip


def _top(layers: Layers, units: str) -> TopWishes:
    """One description of the top becomes its width and length: a diameter both, measures the largest of each, the
    parts of a pieced top what they come to."""
    measured = _measured(layers)
    diameter = layers.get("top", "diameter")
    width, length = layers.once(size_of, units)
    if measured:
        width, length = max(measured.widths), max(measured.lengths)
    elif diameter is not None:
        width = length = diameter
    shape = "round" if diameter is not None else layers.get("top", "shape")
    return made(
        TopWishes, layers, "top",
        shape=shape, width=width, length=length, measured=measured,
        scallop=_optional(Scallop, layers, "top", "scallop"), pieced=layers.once(pieced_top, units),
        covers=layers.once(covers),
    )  # fmt: skip


def _measured(layers: Layers) -> Measured | None:
    """The measures of a top, whose diagonals may be left out."""
    if not layers.names("top", "measured"):
        return None
    return made(Measured, layers, "top", "measured", diagonals=layers.get("top", "measured", "diagonals") or ())


def _optional(record: type[Made], layers: Layers, *path: str) -> Made | None:
    """One record, or None where no layer gives any of it."""
    return made(record, layers, *path) if layers.names(*path) else None


def _table(layers: Layers, *path: str) -> dict[str, Any]:
    return {name: layers.get(*path, name) for name in layers.names(*path)}


def _amount(major: Fraction | None, currency: Currency) -> Money | None:
    return None if major is None else currency.round(major)


def _backing(layers: Layers) -> BackingWishes | None:
    if layers.get("backing", "fabric", "preset") == "none":
        return None
    brought = layers.get("backing", "have") is not None or layers.get("backing", "sewn", "width") is not None
    return made(
        BackingWishes, layers, "backing",
        fabric=made(Fabric, layers, "backing", "fabric"),
        sewn=_optional(Sewn, layers, "backing", "sewn"),
        wider=_wider(layers),
        supplied_by="customer" if brought else given(layers, "backing", "supplied_by"),
    )  # fmt: skip


def _wider(layers: Layers) -> Fabric | None:
    none = layers.get("cloth", "wider", "preset") == "none"
    return None if none else made(Fabric, layers, "cloth", "wider")


def _batting(layers: Layers) -> BattingWishes | None:
    if layers.get("batting", "product", "preset") == "none":
        return None
    product = made(
        BattingProduct, layers, "batting", "product",
        packages=tuple(Package(**_values(table)) for table in given(layers, "batting", "product", "packages")),
        rolls=tuple(Roll(**_values(table)) for table in given(layers, "batting", "product", "rolls")),
    )  # fmt: skip
    return made(BattingWishes, layers, "batting", product=product)


def _binding(layers: Layers) -> BindingWishes | None:
    if layers.get("binding", "attach") in UNBOUND:
        return None
    fabric = made(Fabric, layers, "binding", "fabric")
    return made(BindingWishes, layers, "binding", fabric=fabric, cut=_cut(layers))


def _cut(layers: Layers) -> str:
    """Bias for a curved edge, unless the project itself asks for another cut."""
    cut, asked = given(layers, "binding", "cut"), layers.values["binding", "cut"]
    return "bias" if is_curved(layers) and asked.origin.layer != "project file" else str(cut)


def is_curved(layers: Layers) -> bool:
    """Whether the top's edge curves anywhere."""
    round_or_oval = layers.get("top", "shape") in ("round", "oval") or layers.get("top", "diameter") is not None
    return round_or_oval or bool(layers.get("top", "corner_radius")) or bool(layers.names("top", "scallop"))


def _hem(layers: Layers) -> HemWishes | None:
    hemmed = layers.get("binding", "attach") == "hem"
    return HemWishes(given(layers, "binding", "hem")) if hemmed else None


def _style(layers: Layers, *path: str | int) -> Style:
    """A style; what only a pattern has is left out of lines, though a preset below may give it."""
    style = made(Style, layers, *path)
    return style if style.lines == "pattern" else style._replace(pattern_height=None, row_pitch=None, widest=None)


def _areas(layers: Layers) -> tuple[QuiltedArea, ...]:
    return tuple(
        made(QuiltedArea, layers, *area, style=_style(layers, *area, "style"))
        for area in layers.rows("quilting", "areas")
    )


def _method(layers: Layers) -> Method:
    stages = tuple(Stage(**_values(table)) for table in given(layers, "quilting", "method", "stages"))
    return made(Method, layers, "quilting", "method", stages=stages)


def _extra_wishes(layers: Layers) -> tuple[ExtraWish, ...]:
    return tuple(ExtraWish(**_values(table)) for table in given(layers, "charges", "extras"))


def _quilting_rate(layers: Layers, name: str) -> QuiltingRate:
    """A rate of a class of quilting, for each unit of area where it says no other."""
    get = layers.get
    steps = tuple(SizeStep(**_values(table)) for table in get("rates", "quilting", name, "steps") or ())
    per = "size" if steps else get("rates", "quilting", name, "per") or given(layers, "rates", "quilting_per")
    return made(QuiltingRate, layers, "rates", "quilting", name, per=per, steps=steps)


def _one_offs(layers: Layers) -> tuple[OneOff, ...]:
    return tuple(OneOff(**_values(table)) for table in given(layers, "charges", "lines"))


def _tax(layers: Layers, table: Values) -> Tax:
    """A tax, with what the shop says of any tax where this one does not say it."""
    usual = {key: given(layers, "taxing", key) for key in TAX_RULES}
    return Tax(**(usual | _values(table)))


def _values(table: Values) -> dict[str, Any]:
    return {key: bare(value) for key, value in table.items()}
