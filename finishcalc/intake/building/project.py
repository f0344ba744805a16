"""Makes the project and the shop from complete tables."""

from dataclasses import replace

from finishcalc.intake.building.cover import cover_of
from finishcalc.intake.building.pieced import pieced_top
from finishcalc.intake.layers import LayeredValues
from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.model.cover import Cover
from finishcalc.model.files import Everything
from finishcalc.model.materials import Batting, Fabric, Method, Style
from finishcalc.model.pieced import PiecedTop
from finishcalc.model.prices import QuiltingRate, Rates, Shop, Tax
from finishcalc.model.project import Backing, BattingLayer, Binding, Project, Quilting, Top, TopSpec
from finishcalc.model.section import Figure, given, missing_value, whole
from finishcalc.model.shop import Sewing

Sides = tuple[Length | None, Length | None]


def top_size(top: Top, units: str) -> Sides:
    """The width and length that are given, or that follow from a pieced top or a cover; None for an unknown side."""
    return _size(top, pieced_top(top, units) or cover_of(top.covers, top.shape))


def _size(top: Top, described: PiecedTop | Cover | None) -> Sides:
    return described.size if described else (top.width, top.length)


def build_project(layers: LayeredValues, title: str, units: str) -> Project:
    """The project, in the shape the plans read. Raises MissingValue for a key that no layer gives."""
    tables = layers.section(Everything)
    return Project(
        title=title,
        units=units,  # type: ignore[arg-type]
        currency=Currency.of(tables.money.currency),
        customer=whole(tables.customer, "customer"),
        job=whole(tables.job, "job"),
        top=_top(tables.top, units),
        measuring=whole(tables.measuring, "measuring"),
        backing=_backing(tables.backing),
        overage_is_fixed=layers.is_own("backing", "overage"),
        batting=_batting(tables.batting),
        binding=_binding(tables, layers),
        hem=tables.binding.hem if tables.binding.attach == "hem" else None,
        quilting=_quilting(tables.quilting),
        charges=whole(tables.charges, "charges"),
        sewing=Sewing(whole(tables.seaming, "seaming"), whole(tables.cloth, "cloth"), tables.rates.wage),
        edge_time=whole(tables.edge_time, "edge_time"),
        thread=whole(tables.thread, "thread"),
        frame=whole(tables.frame, "frame"),
    )


def build_shop(layers: LayeredValues) -> Shop:
    """The shop, in the shape pricing reads. Raises MissingValue for a key that no layer gives."""
    tables = layers.section(Everything)
    rates = {name: _quilting_rate(rate, tables.rates) for name, rate in tables.rates.quilting.items()}
    return Shop(
        studio=whole(tables.studio, "studio"),
        money=whole(tables.money, "money"),
        currency=Currency.of(tables.money.currency),
        rates=whole(tables.rates.replace(quilting=rates), "rates"),
        extras=tables.extras,
        taxes=_taxes(tables),
        deposit=whole(tables.deposit, "deposit"),
        offers=whole(tables.offers, "offers"),
    )


def _taxes(tables: Everything) -> Figure[tuple[Tax, ...]]:
    """The taxes, each with the values of `[taxing]` where it gives none of its own."""
    if given(tables.tax) is None:
        raise missing_value("tax")
    taxing = whole(tables.taxing, "taxing")
    return replace(tables.tax, value=tuple(whole(tax.filled_from(taxing), "tax") for tax in tables.tax.value))


def _top(top: Top, units: str) -> TopSpec:
    """The top, with its width and length from its one description: both are the diameter, or the largest measures, or
    the size of the parts of a pieced top, or that of a cover."""
    if top.is_pieced:
        whole(top.piecing, "top.piecing")
    if top.covers.bed or top.covers.table:
        whole(top.covers.replace(bed=None, table=None), "top.covers")
    pieced, cover = pieced_top(top, units), cover_of(top.covers, top.shape)
    width, length = _size(top, pieced or cover)
    if top.measured:
        width, length = max(top.measured.widths), max(top.measured.lengths)
    elif top.diameter is not None:
        width = length = top.diameter
    if width is None or length is None:
        raise AssertionError("the rules let no top pass without its size")
    return TopSpec(
        shape="round" if top.diameter is not None else top.shape,
        use=top.use,
        width=width,
        length=length,
        corner_radius=top.corner_radius,
        scallop=top.scallop,
        measured=top.measured,
        pieced=pieced,
        covers=cover,
    )


def _backing(backing: Backing) -> Backing | None:
    """The backing, or None where the project wants none. The customer supplies the cloth that she brings."""
    if backing.fabric.is_none:
        return None
    customer_brings = backing.have is not None or backing.sewn is not None
    supplier = "customer" if customer_brings else backing.supplied_by
    return whole(backing.replace(fabric=Fabric.of(backing.fabric), supplied_by=supplier), "backing")


def _batting(batting: BattingLayer) -> BattingLayer | None:
    if batting.product.is_none:
        return None
    return whole(batting.replace(product=Batting.of(batting.product)), "batting")


def _binding(tables: Everything, layers: LayeredValues) -> Binding | None:
    """The binding, or None for an edge that takes no strips. A curved edge takes bias, unless the project itself asks
    for another cut."""
    binding = tables.binding
    if not binding.takes_strips:
        return None
    complete = whole(binding.replace(fabric=Fabric.of(binding.fabric)), "binding")
    own = layers.values["binding", "cut"].origin.layer == "project file"
    return complete.replace(cut="bias") if tables.top.is_curved and not own else complete


def _quilting(quilting: Quilting) -> Quilting:
    areas = tuple(area.replace(style=Style.of(area.style).as_stitched) for area in quilting.areas)
    style, method = Style.of(quilting.style).as_stitched, Method.of(quilting.method)
    return whole(quilting.replace(style=style, method=method, areas=areas), "quilting")


def _quilting_rate(rate: QuiltingRate, rates: Rates) -> QuiltingRate:
    """A rate of a class of quilting, by `quilting_per` where it gives no unit of its own."""
    return rate.replace(per="size" if rate.steps else given(rate.per) or rates.quilting_per)
