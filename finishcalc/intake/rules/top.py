"""The rules about the top: one size, a shape that fits it, an edge that suits it."""

from finishcalc.intake.building.cover import BED, TABLE, cover_given, covered
from finishcalc.intake.building.project import UNBOUND, is_curved
from finishcalc.intake.checking import misspelt
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.problems import ProblemCode

DESCRIPTIONS: dict[str, tuple[Path, ...]] = {
    "width and length": (("top", "width"), ("top", "length")),
    "diameter": (("top", "diameter"),),
    "measures": (("top", "measured"),),
    "blocks": (("top", "blocks"),),
    "a centre": (("top", "centre"),),
    "what it covers": (BED, TABLE),
}
"""The ways to say how large the top is, by the keys that say it."""


EXAMPLES_OF_A_TOP = {"width": 'width = "60 1/2"', "length": "length = 84"}
EXAMPLE_OF_A_ROUND_ONE = {"diameter": "diameter = 70"}


def top_has_one_size(check: Check) -> None:
    """Width and length, a diameter, measures, blocks, a centre, or what it covers: exactly one of them."""
    if ("top",) in check.faulty:
        return
    given = [name for name in DESCRIPTIONS if any(_stands(check, path) for path in DESCRIPTIONS[name])]
    for second in given[1:]:
        first = next(path for path in DESCRIPTIONS[given[0]] if _stands(check, path))
        origin = check.layers.values[_standing(check, first)].origin
        where = origin.source.where(origin.at)
        here = [_standing(check, path) for path in DESCRIPTIONS[second] if _stands(check, path)]
        check.wrong(
            ProblemCode.SIZE_TWICE, here, f"the size is given twice: as {given[0]} {where} too", "keep the one you mean"
        )
    if check.layers.get("top", "shape") == "round":
        if not given:
            _tell_missing(check, EXAMPLE_OF_A_ROUND_ONE)
    elif not given or given == ["width and length"]:
        _tell_missing(check, EXAMPLES_OF_A_TOP)


def _standing(check: Check, at: Path) -> Path:
    """The first path at or under one of the top's that a layer gives."""
    return next((path for path in check.layers.values if path[: len(at)] == at), at)


def _stands(check: Check, path: Path) -> bool:
    return path in check.layers.values or bool(check.layers.names(*path))


def _tell_missing(check: Check, examples: dict[str, str]) -> None:
    """A problem for each key that a top like the examples has and this one has not."""
    told = {path for path in check.faulty if path[0] == "top"}
    others = {str(path[1]) for paths in DESCRIPTIONS.values() for path in paths} - examples.keys()
    if any(path[1] in others for path in told if len(path) > 1) or any(misspelt(told, key) for key in others):
        return
    if cover_given(check.layers):
        return
    for side, example in examples.items():
        if not _stands(check, ("top", side)) and ("top", side) not in told and not misspelt(told, side):
            hint = f"add the top's {side} under [top]: {example}"
            check.problems.append(check.source.problem(ProblemCode.MISSING_KEY, ("top", side), "is missing", hint))


def shape_fits_its_size(check: Check) -> None:
    """An oval has two axes, and a round top a diameter."""
    shape, diameter = check.layers.get("top", "shape"), check.layers.get("top", "diameter")
    at: list[Path] = [("top", "shape")]
    if diameter is not None and shape == "oval":
        hint = 'give width and length, or shape = "round"'
        check.wrong(ProblemCode.OVAL_WITH_DIAMETER, at, "an oval has two axes", hint)
    if shape == "round" and diameter is None and any(check.size) and not covered(check.layers):
        hint = "give diameter in place of width and length"
        check.wrong(ProblemCode.ROUND_WITHOUT_DIAMETER, at, "a round top has a diameter", hint)


def edge_suits_its_shape(check: Check) -> None:
    """Only a rectangle has round corners or scallops, and one of them."""
    layers = check.layers
    shaped: list[Path] = [("top", "corner_radius"), ("top", "scallop", "chord")]
    shaped = [path for path in shaped if layers.get(*path) is not None]
    if shaped and (layers.get("top", "shape") != "rectangle" or layers.get("top", "diameter") is not None):
        message = "only a rectangle has corners and sides to shape"
        check.wrong(ProblemCode.SHAPED_EDGE_OF_NO_RECTANGLE, shaped, message, "leave it out")
    if len(shaped) == 2:
        message = "an edge is rounded at the corners or scalloped"
        check.wrong(ProblemCode.ROUNDED_AND_SCALLOPED, shaped, message, "keep one of them")


def edge_leaves_the_rest(check: Check) -> None:
    """Round corners fit on the shorter side, and so do scallops, no deeper than half their chord."""
    radius, chord = check.layers.get("top", "corner_radius"), check.layers.get("top", "scallop", "chord")
    depth, shorter = check.layers.get("top", "scallop", "depth"), min(filter(None, check.size), default=None)
    if radius is not None and shorter and radius * 2 > shorter:
        at: Path = ("top", "corner_radius")
        check.wrong(ProblemCode.CORNER_TOO_ROUND, [at], "is more than half the shorter side", "give a smaller radius")
    if chord is not None and depth is not None:
        if depth * 2 > chord:
            at = ("top", "scallop", "depth")
            check.wrong(ProblemCode.SCALLOP_TOO_DEEP, [at], "is more than half the chord", "give a smaller depth")
        if shorter and chord + depth * 2 > shorter:
            at = ("top", "scallop", "chord")
            check.wrong(ProblemCode.SCALLOP_TOO_WIDE, [at], "does not fit on the shorter side", "give a smaller chord")


def curves_take_bias(check: Check) -> None:
    """A straight-grain cut that the project itself asks for is refused on a curve."""
    cut = check.layers.values.get(("binding", "cut"))
    asked = cut and cut.value != "bias" and cut.origin.layer == "project file"
    if asked and is_curved(check.layers) and check.layers.get("binding", "attach") not in UNBOUND:
        message, hint = (
            "strips on the straight grain do not bend round a curved edge",
            'use cut = "bias", or leave it out',
        )
        check.wrong(ProblemCode.STRAIGHT_STRIPS_ON_CURVE, [("binding", "cut")], message, hint)


def hem_leaves_something(check: Check) -> None:
    """A hem takes two allowances of each side."""
    hem = check.layers.get("binding", "hem")
    sides = [check.layers.get("top", "diameter"), *check.size]
    if check.layers.get("binding", "attach") == "hem" and any(side and hem * 2 >= side for side in sides):
        check.wrong(ProblemCode.HEM_TAKES_THE_TOP, [("binding", "hem")], "takes the whole top", "give a smaller hem")
