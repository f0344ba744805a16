"""What a rule between keys looks at, and how it tells of what is wrong."""

from functools import cached_property

from finishcalc.intake.building.project import UNBOUND
from finishcalc.intake.building.top_size import PARTS, Sides, size_of
from finishcalc.intake.layers import RANKS, Layers
from finishcalc.intake.named_materials import wanted
from finishcalc.intake.positions import Path
from finishcalc.intake.source import Source
from finishcalc.problems import Problem, ProblemCode
from finishcalc.wording.words import in_words

EXAMPLES = {"width": "width = 44", "price": 'price = "11"', "percent": 'percent = "50 %"'}


class Check:
    """What the rules look at and what they found. `faulty` are paths of the project that were already told of."""

    def __init__(self, layers: Layers, source: Source, units: str, faulty: set[Path]) -> None:
        self.layers = layers
        self.source = source
        self.units = units
        self.faulty = faulty
        self.wanted = wanted(layers)
        self.problems: list[Problem] = []

    def wrong(self, code: ProblemCode, paths: list[Path], message: str, hint: str = "", table: bool = False) -> None:
        """Tell of a problem at the one of `paths` that the latest layer gave, or at the table around it."""
        origins = [laid.origin for path in paths if (laid := self.layers.values.get(path))]
        if not origins:
            self.problems.append(self.source.problem(code, paths[0], message, hint))
            return
        origin = max(origins, key=lambda found: RANKS[found.layer])
        at = origin.at
        if table or (at[-1] == "preset" and not origin.source.holds(at)):
            at = at[:-1]
        self.problems.append(origin.source.problem(code, at, message, hint))

    @property
    def cloths(self) -> dict[Path, str]:
        """Each cloth that is planned with, and the part of the quilt it is for."""
        return {path: named.part for path, named in self.wanted.items() if named.part}

    def is_none(self, path: Path) -> bool:
        """Whether the project wants none of this material."""
        if path[0] == "binding" and self.layers.get("binding", "attach") in UNBOUND:
            return True
        named = self.wanted.get(path)
        return bool(named and named.may_be_none) and self.layers.get(*path, "preset") == "none"

    @cached_property
    def size(self) -> Sides:
        """The top's width and length; None for what is not known, or cannot be because a part of it was refused."""
        refused = any(path[:1] == ("top",) and path[1:2] and path[1] in PARTS for path in self.faulty)
        return (None, None) if refused else self.layers.once(size_of, self.units)

    def missing(self, code: ProblemCode, path: Path, needs: tuple[str, ...], why: str) -> None:
        """One problem for all the keys that a material or an extra still needs."""
        missing = [name for name in needs if (*path, name) not in self.layers.values]
        if missing:
            given = [key for key in self.layers.values if key[: len(path)] == path]
            examples = ", ".join(EXAMPLES.get(name, f"{name} = ...") for name in missing)
            verb = "is" if len(missing) == 1 else "are"
            self.wrong(
                code, given or [path], f"{in_words(missing)} {verb} missing: {why}", f"add {examples}", table=True
            )
