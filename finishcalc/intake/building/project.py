"""Makes the project and the shop from complete tables."""

from dataclasses import replace
from typing import TypeVar

from finishcalc.intake.building.cloths import bought_fabric, with_cloths
from finishcalc.intake.building.cover import cover_of
from finishcalc.intake.building.pieced import pieced_top
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.named_materials import (
    BACKING_FABRIC,
    BINDING_FABRIC,
    cloths_of_extras,
    is_of_backing,
)
from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.model.cover import Cover
from finishcalc.model.extra_cuts import ExtraCuts
from finishcalc.model.files import Everything
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import Batting, Fabric
from finishcalc.model.ordering import cut_extras
from finishcalc.model.pieced import PiecedTop
from finishcalc.model.prices import PostageBand, QuiltingRate, Rates, Shop, Tax
from finishcalc.model.project import Backing, BattingLayer, Binding, Project, Quilting, Top, TopCloth, TopSpec
from finishcalc.model.quilting import Method, Style
from finishcalc.model.section import Figure, given, missing_value, whole
from finishcalc.model.shop import Sewing

Sides = tuple[Length | None, Length | None]
Listed = TypeVar("Listed")


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
        top=_top(tables.top, units, layers),
        measuring=whole(tables.measuring, "measuring"),
        backing=_backing(tables.backing, layers),
        overage_is_fixed=layers.is_own("backing", "overage"),
        batting=_batting(tables.batting),
        binding=_binding(tables, layers),
        cut_is_fixed=_is_stated(layers, "binding", "cut"),
        binding_is_of_backing=is_of_backing(layers),
        hem=tables.binding.hem if tables.binding.attach == "hem" else None,
        quilting=_quilting(tables.quilting),
        charges=whole(tables.charges, "charges"),
        extra_cuts=_extra_cuts(tables, layers),
        sewing=Sewing(
            seaming=whole(tables.seaming, "seaming"),
            batting_seam=whole(tables.batting_seam, "batting_seam"),
            piecing=whole(tables.piecing, "piecing"),
            cloth=whole(tables.cloth, "cloth"),
            wage=tables.rates.wage,
            markup=tables.rates.markup,
        ),
        edge_time=whole(tables.edge_time, "edge_time"),
        thread=whole(tables.thread, "thread"),
        frame=whole(tables.frame, "frame"),
        washing=whole(tables.washing, "washing"),
        week=whole(tables.week, "week"),
        arrival=whole(tables.arrival, "arrival"),
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
        extra_cloths=_extra_cloths(tables, layers),
        taxes=_taxes(tables),
        deposit=whole(tables.deposit, "deposit"),
        rush=_given(tables.rush, "rush"),
        offers=whole(tables.offers, "offers"),
        packing=whole(tables.parcel, "parcel").packing,
        postage=_postage(tables),
    )


def _extra_cuts(tables: Everything, layers: LayeredValues) -> ExtraCuts:
    """The ordered extras that are cut from cloth, sewn with the seam allowance of a pieced top."""
    cut = cut_extras(tables.charges.extras, tables.extras, _extra_cloths(tables, layers))
    return ExtraCuts(tuple(cut), tables.top.piecing.seam_allowance)


def _extra_cloths(tables: Everything, layers: LayeredValues) -> dict[str, Fabric]:
    """The cloths of extras that have one of their own, by the names of the extras that are ordered or offered."""
    own = {path[1]: path for path in cloths_of_extras(layers)}
    cuts = {name: extra.cut for name, extra in tables.extras.items() if name in own and extra.cut}
    return {name: bought_fabric(layers, own[name]) for name, cut in cuts.items() if not cut.fabric.is_none}


def _taxes(tables: Everything) -> Figure[tuple[Tax, ...]]:
    """The taxes, each with the values of `[taxing]` where it gives none of its own."""
    taxes, taxing = _given(tables.tax, "tax"), whole(tables.taxing, "taxing")
    return replace(taxes, value=tuple(whole(tax.filled_from(taxing), "tax") for tax in taxes.value))


def _given(value: Listed, path: str) -> Listed:
    """A list of the shop's, which may be empty. Raises MissingValue where no layer gives it."""
    if given(value) is None:
        raise missing_value(path)
    return value


def _postage(tables: Everything) -> Figure[tuple[PostageBand, ...]]:
    if given(tables.postage) is None:
        raise missing_value("postage")
    return tables.postage


def _top(top: Top, units: str, layers: LayeredValues) -> TopSpec:
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
        cloth=_top_cloth(top, layers),
        corner_radius=top.corner_radius,
        scallop=top.scallop,
        measured=top.measured,
        pieced=with_cloths(pieced, layers) if pieced else None,
        covers=cover,
    )


def _top_cloth(top: Top, layers: LayeredValues) -> TopCloth:
    """The cloth of the top as far as its pieces do not tell it. Raises MissingValue."""
    if given(top.piecing.seam_allowance) is None:
        raise missing_value("top.piecing.seam_allowance")
    for name in ("patch", "weight", "prewashed"):
        if given(getattr(top, name)) is None:
            raise missing_value(f"top.{name}")
    return TopCloth(
        patch=top.patch,
        seam=top.piecing.seam_allowance,
        weight=top.weight,
        weight_is_stated=_is_stated(layers, "top", "weight"),
        prewashed=top.prewashed,
    )


def _backing(backing: Backing, layers: LayeredValues) -> Backing | None:
    """The backing, or None where the project wants none. The customer supplies the cloth that she brings."""
    if backing.fabric.is_none:
        return None
    fabric = bought_fabric(layers, BACKING_FABRIC)
    return whole(backing.replace(fabric=fabric, supplied_by=_backing_supplier(backing)), "backing")


def _backing_supplier(backing: Backing) -> Supplier:
    customer_brings = backing.have is not None or backing.sewn is not None
    return "customer" if customer_brings else backing.supplied_by


def _batting(batting: BattingLayer) -> BattingLayer | None:
    """The batting, or None where the project wants none. The customer supplies the pieces that she brings."""
    if batting.product.is_none:
        return None
    supplier: Supplier = "customer" if batting.have else batting.supplied_by
    return whole(batting.replace(product=Batting.of(batting.product), supplied_by=supplier), "batting")


def _binding(tables: Everything, layers: LayeredValues) -> Binding | None:
    """The binding, or None for an edge that takes no strips. Who supplies the backing supplies a binding of its cloth,
    and a curved edge takes bias, unless the project itself says otherwise."""
    binding = tables.binding
    if not binding.takes_strips:
        return None
    if is_of_backing(layers) and not _is_stated(layers, "binding", "supplied_by"):
        binding = binding.replace(supplied_by=_backing_supplier(tables.backing))
    if tables.top.is_curved and not _is_stated(layers, "binding", "cut"):
        binding = binding.replace(cut="bias")
    return whole(binding.replace(fabric=bought_fabric(layers, BINDING_FABRIC)), "binding")


def _is_stated(layers: LayeredValues, *path: str) -> bool:
    """Tell a value that the project itself gives."""
    sourced = layers.values.get(path)
    return sourced is not None and sourced.origin.layer == "project file"


def _quilting(quilting: Quilting) -> Quilting:
    areas = tuple(area.replace(style=Style.of(area.style).as_stitched) for area in quilting.areas)
    style, method = Style.of(quilting.style).as_stitched, Method.of(quilting.method)
    return whole(quilting.replace(style=style, method=method, areas=areas), "quilting")


def _quilting_rate(rate: QuiltingRate, rates: Rates) -> QuiltingRate:
    """A rate of a class of quilting, by `quilting_per` where it gives no unit of its own."""
    return rate.replace(per="size" if rate.steps else given(rate.per) or rates.quilting_per)
