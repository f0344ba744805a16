"""The keys to write in a project file to take an option: key paths with their new values, None to take a key out.

Lists are given whole, and lengths with their unit, so that the same text means the same in any file.
"""

from collections.abc import Mapping
from fractions import Fraction

from finishcalc.intake.layers import LayeredValues
from finishcalc.measures.length import Length, mixed
from finishcalc.measures.weight import AreaWeight
from finishcalc.model.charges import OrderedExtra
from finishcalc.model.materials import NamedFabric
from finishcalc.model.prices import RushBand
from finishcalc.model.project import Project
from finishcalc.model.section import KeySpec, specs
from finishcalc.plans.backing.options import BackingOption

Take = Mapping[str, object]


def take_backing(option: BackingOption) -> Take:
    """Write the keys that pick an option for the backing."""
    layout, (sides, ends) = option.layout, option.overage
    overage = str(sides) if option.overage.is_all_round else {"sides": str(sides), "ends": str(ends)}
    seams = {"backing.seams": layout.runs} if layout.seams else {}
    return {
        "backing.seam_count": layout.seams,
        "backing.turned": layout.turned > 0,
        **seams,
        "backing.overage": overage,
    }


def take_rush(band: RushBand | None) -> Take:
    """Write the key that charges the rush of a band."""
    return {"charges.rush": _per_cent(band.share)} if band else {}


def take_strips(strips: Mapping[str, str]) -> Take:
    """Write the keys that cut the strips of parts of a top one way: of the sashing, or of a border by its number."""
    keys = {part: "top.sashing" if part == "sashing" else f"top.borders[{part.split()[-1]}]" for part in strips}
    return {f"{keys[part]}.strips": way for part, way in strips.items()}


def take_project(project: Project, offered: Project, layers: LayeredValues) -> Take:
    """Write the keys in which an offered project differs from the project."""
    take: dict[str, object] = {}
    if project.backing and offered.backing:
        if project.backing.supplied_by != offered.backing.supplied_by:
            take |= {"backing.supplied_by": "shop", "backing.have": None, "backing.sewn": None}
        if project.backing.fabric != offered.backing.fabric:
            wider = [cloth.wanted for cloth in project.sewing.cloth.wider]
            take["backing.fabric"] = _wider_cloth(layers, wider.index(offered.backing.fabric))
    if project.binding and offered.binding and project.binding.attach != offered.binding.attach:
        take["binding.attach"] = offered.binding.attach
    if project.charges.extras != offered.charges.extras:
        take["charges.extras"] = [_extra(ordered) for ordered in offered.charges.extras]
    return take


def _extra(ordered: OrderedExtra) -> object:
    quantity = {} if ordered.quantity is None else {"quantity": mixed(ordered.quantity)}
    fabric = {} if ordered.fabric is None else {"fabric": ordered.fabric}
    return {"name": ordered.name, **quantity, **fabric} if quantity or fabric else ordered.name


def _wider_cloth(layers: LayeredValues, number: int) -> object:
    """Write one of the shop's wider cloths: by its name, with the keys that the shop changes or gives it alone."""
    own = {
        name: _written(sourced.value, spec)
        for name, spec in specs(NamedFabric).items()
        if (sourced := layers.values.get(("cloth", "wider", number, name)))
        and sourced.origin.at[:2] == ("cloth", "wider")
    }
    return own["preset"] if own.keys() == {"preset"} else own


def _written(value: object, spec: KeySpec) -> object:
    if isinstance(value, Fraction):
        return _per_cent(value) if spec.key and spec.key.per_cent else mixed(value)
    return str(value) if isinstance(value, (Length, AreaWeight)) else value


def _per_cent(share: Fraction) -> str:
    return f"{mixed(share * 100)} %"
