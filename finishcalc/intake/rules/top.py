"""The rules about the top: one size, a shape that fits it, an edge that suits it."""

from finishcalc.intake.checking import misspelt
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.named_materials import COVERED_BED, COVERED_TABLE
from finishcalc.intake.rules.check import Check
from finishcalc.problems import ProblemCode

SHAPE: KeyPath = ("top", "shape")
COVERS: KeyPath = ("top", "covers")
DESCRIPTIONS: dict[str, tuple[KeyPath, ...]] = {
    "width and length": (("top", "width"), ("top", "length")),
    "diameter": (("top", "diameter"),),
    "measures": (("top", "measured"),),
    "blocks": (("top", "blocks"),),
    "a centre": (("top", "centre"),),
    "what it covers": (COVERED_BED, COVERED_TABLE),
}
"""The ways to say how large the top is, by the keys that say it."""

EXAMPLES_OF_A_TOP = {"width": 'width = "60 1/2"', "length": "length = 84"}
EXAMPLE_OF_A_ROUND_ONE = {"diameter": "diameter = 70"}


def top_has_one_size(check: Check) -> None:
    """Width and length, a diameter, measures, blocks, a centre, or a bed or table: exactly one of them."""
    if ("top",) in check.faulty:
        return
    given = [name for name in DESCRIPTIONS if _given(check, name)]
    for second in given[1:]:
        origin = check.layers.values[_given(check, given[0])[0]].origin
        where = origin.source.where(origin.at)
        message = f"the size is given twice: also as {given[0]} {where}"
        check.wrong(ProblemCode.SIZE_TWICE, _given(check, second), message, "keep the one you mean")
    if check.tables.top.shape == "round":
        if not given:
            _report_missing(check, EXAMPLE_OF_A_ROUND_ONE)
    elif not given or given == ["width and length"]:
        _report_missing(check, EXAMPLES_OF_A_TOP)


def _given(check: Check, description: str) -> list[KeyPath]:
    """The first key that is given of each path of a description."""
    first_keys = [check.given_under(path)[:1] for path in DESCRIPTIONS[description]]
    return [path for paths in first_keys for path in paths]


def _report_missing(check: Check, examples: dict[str, str]) -> None:
    """Report each key of the examples that this top lacks."""
    faulty = {path for path in check.faulty if path[0] == "top"}
    others = {str(path[1]) for paths in DESCRIPTIONS.values() for path in paths} - examples.keys()
    if any(path[1] in others for path in faulty if len(path) > 1) or any(misspelt(faulty, key) for key in others):
        return
    if check.given_under(COVERS, by_the_project=True):
        return
    for side, example in examples.items():
        path: KeyPath = ("top", side)
        if not check.given_under(path) and path not in faulty and not misspelt(faulty, side):
            hint = f"add the top's {side} under [top]: {example}"
            check.problems.append(check.source.problem(ProblemCode.MISSING_KEY, path, "is missing", hint))


def shape_fits_its_size(check: Check) -> None:
    """An oval has two axes, and a round top a diameter."""
    top = check.tables.top
    if top.diameter is not None and top.shape == "oval":
        hint = 'give width and length, or shape = "round"'
        check.wrong(ProblemCode.OVAL_WITH_DIAMETER, [SHAPE], "an oval has two axes", hint)
    covered = top.covers.bed or top.covers.table
    if top.shape == "round" and top.diameter is None and any(check.size) and not covered:
        hint = "give diameter instead of width and length"
        check.wrong(ProblemCode.ROUND_WITHOUT_DIAMETER, [SHAPE], "a round top has a diameter", hint)


def edge_suits_its_shape(check: Check) -> None:
    """Only a rectangle has round corners or scallops, and one of them."""
    top = check.tables.top
    shaped: list[KeyPath] = [("top", "corner_radius")] if top.corner_radius is not None else []
    shaped += [("top", "scallop", "chord")] if top.scallop else []
    if shaped and (top.shape != "rectangle" or top.diameter is not None):
        message = "only a rectangle has corners and sides to shape"
        check.wrong(ProblemCode.SHAPED_EDGE_OF_NO_RECTANGLE, shaped, message, "leave it out")
    if len(shaped) == 2:
        message = "an edge has rounded corners or scallops, not both"
        check.wrong(ProblemCode.ROUNDED_AND_SCALLOPED, shaped, message, "keep one of them")


def edge_leaves_the_rest(check: Check) -> None:
    """Round corners fit on the shorter side, and so do scallops, no deeper than half their chord."""
    radius, scallop = check.tables.top.corner_radius, check.tables.top.scallop
    shorter = min(filter(None, check.size), default=None)
    if radius is not None and shorter and radius * 2 > shorter:
        at: KeyPath = ("top", "corner_radius")
        check.wrong(ProblemCode.CORNER_TOO_ROUND, [at], "is more than half the shorter side", "give a smaller radius")
    if scallop and scallop.depth * 2 > scallop.chord:
        at = ("top", "scallop", "depth")
        check.wrong(ProblemCode.SCALLOP_TOO_DEEP, [at], "is more than half the chord", "give a smaller depth")
    if scallop and shorter and scallop.chord + scallop.depth * 2 > shorter:
        at = ("top", "scallop", "chord")
        check.wrong(ProblemCode.SCALLOP_TOO_WIDE, [at], "does not fit on the shorter side", "give a smaller chord")


def curves_take_bias(check: Check) -> None:
    """A straight-grain cut that the project itself asks for is refused on a curve."""
    binding = check.tables.binding
    straight = binding.cut != "bias" and check.by_the_project("binding", "cut")
    if straight and check.tables.top.is_curved and binding.takes_strips:
        message = "strips on the straight grain do not bend round a curved edge"
        hint = 'use cut = "bias", or leave it out'
        check.wrong(ProblemCode.STRAIGHT_STRIPS_ON_CURVE, [("binding", "cut")], message, hint)


def hem_leaves_something(check: Check) -> None:
    """A hem takes two allowances of each side."""
    binding, sides = check.tables.binding, [check.tables.top.diameter, *check.size]
    if binding.attach == "hem" and any(side and binding.hem * 2 >= side for side in sides):
        check.wrong(ProblemCode.HEM_TAKES_THE_TOP, [("binding", "hem")], "uses up the whole top", "give a smaller hem")
