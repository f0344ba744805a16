"""The rules between keys: what each value is right for on its own, but not together.

Every rule looks at whatever stands, says all that is wrong, and never stops another rule.
"""

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from finishcalc.intake import presets
from finishcalc.intake.build import UNBOUND, is_curved
from finishcalc.intake.checking import misspelt
from finishcalc.intake.layers import Layers
from finishcalc.intake.nearest import did_you_mean, in_words, one_of
from finishcalc.intake.positions import Path
from finishcalc.intake.reading import Source
from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.measures.notation import Notation
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.rounding import PRINTED_STEP
from finishcalc.problems import Problem
from finishcalc.project import BattingProduct, Fabric, Method, Style
from finishcalc.shop import Extra

Record = type[Fabric] | type[BattingProduct] | type[Style] | type[Method] | type[Extra]

MATERIALS: dict[Path, tuple[str, Record]] = {
    ("backing", "fabric"): ("fabrics", Fabric),
    ("batting", "product"): ("battings", BattingProduct),
    ("binding", "fabric"): ("fabrics", Fabric),
    ("cloth", "wider"): ("fabrics", Fabric),
    ("quilting", "style"): ("styles", Style),
    ("quilting", "method"): ("methods", Method),
}
"""Where a project names a material: the kind of preset, and what it becomes."""

CLOTHS: dict[Path, str] = {
    ("backing", "fabric"): "backing",
    ("binding", "fabric"): "binding",
    ("cloth", "wider"): "backing",
}
"""Each cloth that is planned with, and the part of the quilt it is for."""

MAY_BE_NONE = {("backing", "fabric"), ("batting", "product"), ("cloth", "wider")}
DESCRIPTIONS = {"width and length": ("width", "length"), "diameter": ("diameter",), "measures": ("measured",)}
"""The ways to say how large the top is, by the keys that say it."""
EXAMPLES_OF_A_TOP = {"width": 'width = "60 1/2"', "length": "length = 84"}
MAY_BE_LEFT_OUT = {"row_pitch"}
EXAMPLES = {"width": "width = 44", "price": 'price = "11"', "percent": 'percent = "50 %"'}


class Check:
    """What the rules look at and what they found. `faulty` are paths of the project that were already told of."""

    def __init__(self, layers: Layers, source: Source, units: str, faulty: set[Path]) -> None:
        self.layers = layers
        self.source = source
        self.units = units
        self.faulty = faulty
        self.problems: list[Problem] = []

    def wrong(self, paths: list[Path], message: str, hint: str = "", table: bool = False) -> None:
        """Tell of a problem at the one of `paths` that the latest layer gave, or at the table around it."""
        ranks = {"preset": 0, "sample shop": 1, "shop file": 2, "project file": 3}
        origins = [laid.origin for path in paths if (laid := self.layers.values.get(path))]
        if not origins:
            self.problems.append(self.source.problem(paths[0], message, hint))
            return
        origin = max(origins, key=lambda found: ranks[found.layer])
        at = origin.at
        if table or (at[-1] == "preset" and not origin.source.holds(at)):
            at = at[:-1]
        self.problems.append(origin.source.problem(at, message, hint))

    def is_none(self, path: Path) -> bool:
        """Whether the project wants none of this material."""
        if path[0] == "binding" and self.layers.get("binding", "attach") in UNBOUND:
            return True
        return (
            path in MAY_BE_NONE and self.layers.values[(*path, "preset")].value == "none"
            if ((*path, "preset") in self.layers.values)
            else False
        )


def apply(check: Check) -> list[Problem]:
    """Every problem the rules find."""
    for rule in RULES:
        rule(check)
    return check.problems


def _top_has_one_size(check: Check) -> None:
    """Width and length, or a diameter, or measures: exactly one of them."""
    if ("top",) in check.faulty:
        return
    given = [name for name in DESCRIPTIONS if any(_stands(check, key) for key in DESCRIPTIONS[name])]
    for second in given[1:]:
        first = next(key for key in DESCRIPTIONS[given[0]] if _stands(check, key))
        line = check.layers.values[_standing(check, first)].origin.line
        here = [_standing(check, key) for key in DESCRIPTIONS[second] if _stands(check, key)]
        check.wrong(here, f"the size is given twice: as {given[0]} on line {line} too", "keep the one you mean")
    if not given or given == ["width and length"]:
        _tell_missing_sides(check)


def _standing(check: Check, key: str) -> Path:
    """The first path under a key of the top that a layer gives."""
    return next((path for path in check.layers.values if path[:2] == ("top", key)), ("top", key))


def _stands(check: Check, key: str) -> bool:
    return _standing(check, key) in check.layers.values


def _tell_missing_sides(check: Check) -> None:
    told = {path for path in check.faulty if path[0] == "top"}
    if any(path[1:2] in (("diameter",), ("measured",)) for path in told):
        return
    for side in ("width", "length"):
        if not _stands(check, side) and ("top", side) not in told and not misspelt(told, side):
            hint = f"add the top's {side} under [top]: {EXAMPLES_OF_A_TOP[side]}"
            check.problems.append(check.source.problem(("top", side), "is missing", hint))


def _shape_fits_its_size(check: Check) -> None:
    shape, diameter = check.layers.get("top", "shape"), check.layers.get("top", "diameter")
    width, length = check.layers.get("top", "width"), check.layers.get("top", "length")
    radius, chord = check.layers.get("top", "corner_radius"), check.layers.get("top", "scallop", "chord")
    depth = check.layers.get("top", "scallop", "depth")
    if diameter is not None and shape == "oval":
        check.wrong([("top", "shape")], "an oval has two axes", 'give width and length, or shape = "round"')
    if shape == "round" and diameter is None and (width or length):
        check.wrong([("top", "shape")], "a round top has a diameter", "give diameter in place of width and length")
    shaped: list[Path] = [("top", "corner_radius")] * (radius is not None) + [("top", "scallop", "chord")] * (
        chord is not None
    )
    if shaped and (shape != "rectangle" or diameter is not None):
        check.wrong(shaped, "only a rectangle has corners and sides to shape", "leave it out")
    if len(shaped) == 2:
        check.wrong(shaped, "an edge is rounded at the corners or scalloped", "keep one of them")
    sides = [side for side in (width, length) if side is not None]
    if radius is not None and sides and radius * 2 > min(sides):
        check.wrong([("top", "corner_radius")], "is more than half the shorter side", "give a smaller radius")
    if chord is not None and depth is not None:
        if depth * 2 > chord:
            check.wrong([("top", "scallop", "depth")], "is more than half the chord", "give a smaller depth")
        if sides and chord + depth * 2 > min(sides):
            check.wrong([("top", "scallop", "chord")], "does not fit on the shorter side", "give a smaller chord")


def _materials_are_whole(check: Check) -> None:
    for path, (kind, becomes) in MATERIALS.items():
        if check.is_none(path) or any(told[: len(path)] == path for told in check.faulty):
            continue
        if check.layers.get(*map(str, path), "preset") is None:
            _tell_missing(check, path, becomes, "no preset gives it")
            continue
        name = check.layers.get(*map(str, path), "preset")
        if presets.find(kind, name, check.units) or name in check.layers.names(kind):
            _tell_missing(check, path, becomes, f"{name} does not give it")
        else:
            none = ["none"] if path in MAY_BE_NONE else []
            known = check.layers.names(kind) + presets.names(kind, check.units) + none
            check.wrong([(*path, "preset")], f'there is no preset "{name}"', did_you_mean(name, known) or one_of(known))


def _tell_missing(check: Check, path: Path, becomes: Record, why: str) -> None:
    """One problem for all the keys that a material or an extra still needs."""
    needed = [name for name in becomes._fields if name not in MAY_BE_LEFT_OUT]
    missing = [name for name in needed if (*path, name) not in check.layers.values]
    if missing:
        given = [key for key in check.layers.values if key[: len(path)] == path]
        examples = ", ".join(EXAMPLES.get(name, f"{name} = ...") for name in missing)
        verb = "is" if len(missing) == 1 else "are"
        check.wrong(given or [path], f"{in_words(missing)} {verb} missing: {why}", f"add {examples}", table=True)


def _cloth_is_wide_enough(check: Check) -> None:
    for path, part in CLOTHS.items():
        names = ("width", "selvage", "shrink_across")
        found = [check.layers.get(*map(str, path), name) for name in names]
        if check.is_none(path) or None in found:
            continue
        width, selvage, shrink = found
        paths: list[Path] = [(*path, name) for name in names]
        show = Notation(check.units).show
        usable: Length = (width - selvage * 2) * (1 - shrink)
        least = _least_usable(check, part)
        if usable.mm <= 0:
            check.wrong(
                paths,
                f"the cloth is {show(width)} wide and its two selvages take {show(selvage * 2)}",
                "give the width as sold and one selvage as it is cut off each side",
            )
        elif least and usable < least:
            check.wrong(
                paths,
                f"only {show(usable)} of the cloth can be used after selvages and shrinkage",
                f"the {part} needs at least {show(least)}: take a wider cloth",
            )


def _steps_can_be_written(check: Check) -> None:
    """What is bought is printed in the unit it is priced in, and must not be printed short."""
    for path in CLOTHS:
        step, per = (check.layers.get(*map(str, path), name) for name in ("step", "per"))
        if check.is_none(path) or step is None or per is None:
            continue
        if (step.to(per) / PRINTED_STEP[per]).denominator != 1:
            paths: list[Path] = [(*path, "step"), (*path, "per")]
            show = Notation(check.units).show
            check.wrong(paths, f"steps of {show(step)} cannot be written in {per}", "give a step in the unit of `per`")


def _backing_is_brought_one_way(check: Check) -> None:
    """Cloth, or a sewn backing, or no backing; and what is brought is not the shop's to supply."""
    have = ("backing", "have") in check.layers.values
    sewn = bool(check.layers.names("backing", "sewn"))
    given: list[Path] = [("backing", "have")] * have + [("backing", "sewn", "width")] * sewn
    if have and sewn:
        check.wrong(given, "cloth is brought and a sewn backing too", "keep have or sewn")
    if given and check.is_none(("backing", "fabric")):
        check.wrong(given, 'a backing is brought, and fabric = "none" wants no backing', "keep one of them")
    supplier = check.layers.values.get(("backing", "supplied_by"))
    if given and supplier and supplier.value == "shop" and supplier.origin.layer == "project file":
        check.wrong([("backing", "supplied_by")], "the customer brings it, so it is not the shop's", "leave it out")


def _least_usable(check: Check, part: str) -> Length | None:
    """The least width that can be worked with: a shortest piece with its seams, or two strips and a join."""
    seam: Length | None = check.layers.get(part, "seam_allowance")
    if part == "backing":
        shortest: Length | None = check.layers.get("cloth", "shortest_piece")
        return shortest + seam * 2 if shortest is not None and seam is not None else None
    strip: Length | None = check.layers.get("binding", "strip_width") or check.layers.get("binding", "least_strip")
    return strip * 2 + seam * 2 if strip is not None and seam is not None else None


def _one_way_cloth_runs_down(check: Check) -> None:
    fabric = [
        ("backing", "fabric", way) for way in ("directional", "nap") if check.layers.get("backing", "fabric", way)
    ]
    if fabric and check.layers.get("backing", "seams") == "crosswise" and not check.is_none(("backing", "fabric")):
        check.wrong(
            [("backing", "seams"), *fabric],
            "cloth with a direction or a nap runs down the quilt, so its seams cannot run crosswise",
            'use seams = "lengthwise", or cloth without a direction',
        )


def _curves_take_bias(check: Check) -> None:
    cut = check.layers.values.get(("binding", "cut"))
    asked = cut and cut.value != "bias" and cut.origin.layer == "project file"
    if asked and is_curved(check.layers) and check.layers.get("binding", "attach") not in UNBOUND:
        hint = 'use cut = "bias", or leave it out'
        check.wrong([("binding", "cut")], "strips on the straight grain do not bend round a curved edge", hint)


def _hem_leaves_something(check: Check) -> None:
    hem = check.layers.get("binding", "hem")
    sides = [check.layers.get("top", key) for key in ("width", "length", "diameter")]
    if check.layers.get("binding", "attach") == "hem" and any(side and hem * 2 >= side for side in sides):
        check.wrong([("binding", "hem")], "takes the whole top", "give a smaller hem")


def _money_can_be_written(check: Check) -> None:
    code = check.layers.get("money", "currency")
    try:
        currency = Currency.of(code)
    except MeasureError as error:
        check.wrong([("money", "currency")], str(error), error.hint)
        return
    for path in (("money", "cash_rounding"), ("rates", "minimum"), ("deposit", "amount")):
        amount: Fraction | None = check.layers.get(*path)
        if amount is not None and not currency.holds(amount):
            decimals = f"{currency.digits} decimals" if currency.digits else "no decimals"
            check.wrong([path], f"{code} has {decimals}", "round the amount to what can be paid")
    signs = [("money", "decimal"), ("money", "group")]
    if check.layers.get(*signs[0]) == check.layers.get(*signs[1]):
        check.wrong(list(signs), "the decimal sign and the group sign are the same", 'use "." and ",", or group = ""')


def _deposit_is_one_thing(check: Check) -> None:
    if check.layers.get("deposit", "percent") is not None and check.layers.get("deposit", "amount") is not None:
        check.wrong([("deposit", "amount")], "the deposit is a share and an amount", "keep percent or amount")


def _tax_is_added_or_included(check: Check) -> None:
    """A price that holds one tax and has another added is no price anyone could check."""
    ways: dict[str, set[bool]] = {}
    for tax in check.layers.get("tax"):
        included = tax.get("included", check.layers.get("taxing", "included"))
        for line_class in tax.get("classes", check.layers.get("taxing", "classes")):
            ways.setdefault(line_class, set()).add(included)
    for line_class, found in ways.items():
        if len(found) > 1:
            check.wrong(
                [("tax",), ("taxing", "included")],
                f"one tax on {line_class} is included in the price and another is added to it",
                "make all taxes on a class of lines either included or added",
            )


def _extras_are_known(check: Check) -> None:
    known = check.layers.names("extras")
    for wish in check.layers.get("charges", "extras"):
        if wish["name"] not in known:
            hint = did_you_mean(wish["name"], known) or one_of(known)
            check.wrong([("charges", "extras")], f'there is no extra "{wish["name"]}"', hint)
    for name in known:
        _tell_missing(check, ("extras", name), Extra, "an extra needs it")


def _style_has_a_rate(check: Check) -> None:
    rate_class = check.layers.get("quilting", "style", "rate_class")
    known = check.layers.names("rates", "quilting")
    if rate_class is not None and rate_class not in known:
        hint = did_you_mean(rate_class, known) or f"add it under [rates.quilting], or {one_of(known)}"
        path = ("quilting", "style", "rate_class")
        check.wrong([path], f'there is no rate for quilting of class "{rate_class}"', hint)


def _due_comes_after_the_date(check: Check) -> None:
    date, due = check.layers.get("job", "date"), check.layers.get("job", "due")
    if date and due and due < date:
        check.wrong([("job", "due")], "is before the date of the job", "give a day after it")


RULES: tuple[Callable[[Check], Any], ...] = (
    _top_has_one_size,
    _shape_fits_its_size,
    _materials_are_whole,
    _cloth_is_wide_enough,
    _steps_can_be_written,
    _backing_is_brought_one_way,
    _one_way_cloth_runs_down,
    _curves_take_bias,
    _hem_leaves_something,
    _money_can_be_written,
    _deposit_is_one_thing,
    _tax_is_added_or_included,
    _extras_are_known,
    _style_has_a_rate,
    _due_comes_after_the_date,
)
