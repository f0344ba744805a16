"""The values that rules between keys look at, and their way to report a problem."""

from functools import cached_property

from finishcalc.intake import presets
from finishcalc.intake.building.project import Sides, top_size
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.layers import RANKS, LayeredValues
from finishcalc.intake.named_materials import BINDING_FABRIC, NamedMaterial, is_of_backing
from finishcalc.intake.source import Source
from finishcalc.model.files import Everything
from finishcalc.problems import Problem, ProblemCode
from finishcalc.wording.words import in_words

EXAMPLES = {
    "width": "width = 44",
    "price": 'price = "11"',
    "percent": 'percent = "50 %"',
    "supplied_by": 'supplied_by = "shop"',
}
PARTS_OF_THE_SIZE = ("covers", "blocks", "sashing", "borders", "centre", "piecing")
"""The keys of the top from which its size follows."""


class Check:
    """The values that the rules look at, and the problems they find. `faulty` are paths of the project for which a
    problem was reported already."""

    def __init__(
        self,
        layers: LayeredValues,
        source: Source,
        units: str,
        faulty: set[KeyPath],
        materials: dict[KeyPath, NamedMaterial],
    ) -> None:
        self.layers = layers
        self.tables = layers.section(Everything)
        self.source = source
        self.units = units
        self.faulty = faulty
        self.materials = materials
        self.problems: list[Problem] = []

    def wrong(
        self,
        code: ProblemCode,
        paths: list[KeyPath],
        message: str,
        hint: str = "",
        table: bool = False,
        within: KeyPath = (),
    ) -> None:
        """Report a problem at the one of `paths` that the latest layer gave, at the table around it, or at a place
        `within` its value."""
        origins = [sourced.origin for path in paths if (sourced := self.layers.values.get(path))]
        if not origins:
            self.problems.append(self.source.problem(code, paths[0], message, hint))
            return
        origin = max(origins, key=lambda origin: RANKS[origin.layer])
        at = origin.at
        if table or (at[-1] == "preset" and not origin.source.holds(at)):
            at = at[:-1]
        at = (*at, *within)
        self.problems.append(origin.source.problem(code, at, message, hint))

    def given_under(self, path: KeyPath, by_the_project: bool = False) -> list[KeyPath]:
        """The key paths at or under a path that have a value, or that the project file itself gives one."""
        return [
            key
            for key in self.layers.paths(path)
            if not by_the_project or self.layers.values[key].origin.layer == "project file"
        ]

    def by_the_project(self, *path: str) -> bool:
        """Tell a key that the project file itself gives."""
        sourced = self.layers.values.get(path)
        return sourced is not None and sourced.origin.layer == "project file"

    def is_faulty(self, path: KeyPath) -> bool:
        """Tell a path under which a problem was reported already."""
        return any(starts_with(reported, path) for reported in self.faulty)

    @property
    def cloths(self) -> dict[KeyPath, str]:
        """Each cloth that is planned with, and the part of the quilt it is for."""
        return {path: named.part for path, named in self.materials.items() if named.part}

    def is_none(self, path: KeyPath) -> bool:
        """Tell a material that the project wants none of."""
        if path == BINDING_FABRIC and not self.tables.binding.takes_strips:
            return True
        named = self.materials.get(path)
        return bool(named and named.may_be_none) and self.preset(path) == "none"

    def preset(self, path: KeyPath) -> str | None:
        """The name of the preset that a material names."""
        sourced = self.layers.values.get((*path, "preset"))
        return str(sourced.value) if sourced else None

    def is_of_backing(self, path: KeyPath) -> bool:
        """Tell the cloth of a binding that is of the backing's cloth."""
        return path == BINDING_FABRIC and is_of_backing(self.layers)

    def is_unknown(self, path: KeyPath) -> bool:
        """Tell a material whose name no preset has."""
        kind, name = self.materials[path].kind, self.preset(path)
        known = name is None or presets.find(kind, name, self.units) or name in self.layers.names(kind)
        return not known

    @cached_property
    def size(self) -> Sides:
        """The top's width and length; None for a side that is not known, or cannot be because a part of the top was
        refused."""
        refused = any(path[:1] == ("top",) and path[1:2] and path[1] in PARTS_OF_THE_SIZE for path in self.faulty)
        return (None, None) if refused else top_size(self.tables.top, self.units)

    def missing(self, code: ProblemCode, path: KeyPath, needs: list[str], why: str) -> None:
        """Report one problem for all the keys that a material or an extra still needs."""
        missing = [name for name in needs if (*path, name) not in self.layers.values]
        if missing:
            examples = ", ".join(EXAMPLES.get(name, f"{name} = ...") for name in missing)
            verb = "is" if len(missing) == 1 else "are"
            message = f"{in_words(missing)} {verb} missing: {why}"
            self.wrong(code, self.given_under(path) or [path], message, f"add {examples}", table=True)
