"""Guards over the source: who may import what, no float where figures are exact, no default in Python.

Each guard is a function from a source text to what it objects to, and is shown to bite on a small bad text.
"""

import ast
import re
from collections import Counter
from collections.abc import Callable, Iterator
from importlib import import_module
from inspect import get_annotations
from pathlib import Path

import pytest
from pydantic import ValidationError

import finishcalc
from finishcalc.model.section import Section

PACKAGE = Path(finishcalc.__file__).parent
CONTRACTS = ("model.cover", "model.files", "model.materials", "model.pieced", "model.project", "model.shop")
COMMAND_LINE = ("commandline", "__main__")
EXACT = ("measures", "plans", "pricing")
PURE = ("plans", "pricing")

INEXACT = {"math", "cmath", "statistics", "random", "numpy"}
OUTSIDE = {
    "pathlib", "os", "sys", "io", "shutil", "tempfile", "subprocess", "socket", "tomllib", "tomli_w", "typer", "click",
    "datetime", "time", "calendar", "zoneinfo", "logging", "importlib",
}  # fmt: skip
FILES = {"pathlib", "os", "shutil", "tempfile", "subprocess", "socket", "tomllib", "sys", "importlib"}
WRITES = {"print", "input", "open", "exec", "eval", "__import__"}
OPENS = {"open", "write_text", "write_bytes", "read_text", "read_bytes", "input", "print", "__import__"}
DOORS = {"read", "parse", "load", "resolve", "finish_file", "check", "Source"}
HABITS = {"EdgeTime", "EdgeWork", "Frame", "Measuring", "Seaming", "Sewing", "Thread"}
DECLARES = {
    "finishcalc.model.keys", "finishcalc.model.section", "finishcalc.problems.ProblemCode", "pydantic.model_validator",
}  # fmt: skip
STANDARD = {"dataclasses", "datetime", "fractions", "typing", "collections"}
MAY_BE_LEFT_OUT = {
    "Bed.depth", "Bed.name",
    "Table.height", "Table.name",
    "Fabric.selling",
    "Package.selling",
    "ByName.preset", "Table.diameter",
    "Covers.bed", "Covers.foot_drop", "Covers.table",
    "Deposit.amount", "Deposit.percent", "Deposit.shares",
    "Job.date", "Job.due", "Measured.diagonals", "MoneySigns.symbol", "Quilting.areas", "QuiltingRate.steps",
    "Top.blocks", "Top.borders", "Top.centre", "Top.corner_radius", "Top.diameter", "Top.length", "Top.measured",
    "Top.sashing", "Top.scallop", "Top.width",
    "Roll.selling",
    "Style.pattern_height", "Style.row_pitch", "Style.widest", "Style.angle",
    "Stage.speed", "Stage.on_frame",
    "Method.rate_class", "Method.stitch_length",
    "Blocks.inner",
    "PiecedTop.blocks", "PiecedTop.sashing", "PiecedTop.centre",
    "TopSpec.corner_radius", "TopSpec.scallop", "TopSpec.measured", "TopSpec.pieced", "TopSpec.covers",
    "Backing.have", "Backing.sewn",
    "Binding.strip_width", "Binding.finished",
    "Area.share", "Area.part",
    "QuiltingRate.price", "QuiltingRate.more", "QuiltingRate.each",
}  # fmt: skip

NO_POLICY = {
    "Length.parse('45 in')": "the packaged crib size, below which safe sleep is said",
    "Length.parse('60 in')": "the packaged crib size, below which safe sleep is said",
    "Length.parse('12 in')": "a fire department's distance from a candle",
    "MOST_SEAMS": "how far the search for backings goes; the shop's own limit is cloth.most_seams",
    "MOST_WEIGHED": "how far the search for a top's cloth goes",
    "MOST_LENGTHWISE": "a top has four sides",
    "GRAIN": "the grid that holds every length exactly",
    "PARTS_OF_A_MM": "how near a bound of a curve's length is",
    "STEPS": "how near a bound of a curve's length is",
    "MIDDLE": "geometry",
}
"""What stands in the source of plans and pricing though it is a figure, and why no studio would set it."""

Guard = Callable[[str], list[str]]


# ---- what a text imports, calls and defaults ----------------------------------------------------------------


def imports(text: str) -> Iterator[str]:
    """Every module and every name out of a module, dotted, wherever in the text it is imported."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            home = "." * node.level + (node.module or "")
            yield from (f"{home}.{alias.name}" for alias in node.names)


def calls(text: str) -> Iterator[str]:
    """The last name of everything that is called: open for open(...) and for path.open(...)."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call):
            found = node.func
            yield found.id if isinstance(found, ast.Name) else found.attr if isinstance(found, ast.Attribute) else ""


def within(name: str, homes: set[str]) -> bool:
    return any(name == home or name.startswith(home + ".") for home in homes)


def of_package(*folders: str) -> set[str]:
    return {f"finishcalc.{folder}" for folder in folders}


# ---- the guards ---------------------------------------------------------------------------------------------


def inexact(text: str) -> list[str]:
    """Float and complex literals, the name `float`, and modules that reckon in floats; a whole root is exact."""
    found = [name for name in imports(text) if within(name, INEXACT) and name != "math.isqrt"]
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant) and isinstance(node.value, (float, complex)):
            found.append(repr(node.value))
        if isinstance(node, ast.Name) and node.id in ("float", "complex"):
            found.append(node.id)
    return found


def relative(text: str) -> list[str]:
    """Imports by dots, which the other guards could not place."""
    return [name for name in imports(text) if name.startswith(".")]


def impure(text: str) -> list[str]:
    """What plans and pricing never touch: files, clock, terminal, and the layers around them."""
    forbidden = OUTSIDE | of_package("intake", "rendering", "comparing", "pipeline", *COMMAND_LINE)
    return [name for name in imports(text) if within(name, forbidden)] + [
        name for name in calls(text) if name in WRITES
    ]


def pricing_in_plans(text: str) -> list[str]:
    """Plans never see the rate card: of a shop they read its frame, its times and its habits."""
    found = [name for name in imports(text) if within(name, of_package("pricing", "model.shop"))]
    return [name for name in found if name.removeprefix("finishcalc.model.shop.") not in HABITS]


def above_measures(text: str) -> list[str]:
    """Of the package, measures know measures, how text is made safe to show, and the codes of what is wrong."""
    ours = [name for name in imports(text) if within(name, {"finishcalc"})]
    return [name for name in ours if not within(name, of_package("measures", "wording.plain", "problems"))]


def beyond_contract(text: str) -> list[str]:
    """The contracts import measures, each other, how a key is declared, and the standard library's plain types only;
    pydantic only where an order between keys is checked."""
    return [
        name for name in imports(text) if not within(name, STANDARD | DECLARES | of_package("measures", *CONTRACTS))
    ]


def reading_or_writing(text: str) -> list[str]:
    """Rendering opens nothing, reads no project, and knows nothing of the command line."""
    found = [name for name in imports(text) if within(name, FILES | of_package(*COMMAND_LINE))]
    found += [name for name in imports(text) if within(name, of_package("intake", "pipeline")) and is_door(name)]
    return found + [name for name in calls(text) if name in OPENS]


def is_door(name: str) -> bool:
    """A name through which text is read, or a whole module with such a name in it."""
    return name.rpartition(".")[2] in DOORS | {"intake", "source", "pipeline", "*"}


def outward(text: str) -> list[str]:
    """Intake knows nothing of plans, prices, pages and the command line."""
    return [
        name
        for name in imports(text)
        if within(name, of_package("plans", "pricing", "rendering", "pipeline", "comparing", *COMMAND_LINE))
    ]


def printing(text: str) -> list[str]:
    """Only the command line prints."""
    return [name for name in calls(text) if name in ("print", "input")]


def policies(text: str) -> list[str]:
    """Lengths and counts that are written into the source: what a studio may see otherwise belongs in its shop file."""
    lengths = [
        ast.unparse(node)
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call)
        and ast.unparse(node.func) in ("Length.of", "Length.parse")
        and not any(isinstance(part, ast.Name) and part.id not in ("Length", "Fraction") for part in ast.walk(node))
    ]
    counts = [
        target.id
        for node in ast.parse(text).body
        if isinstance(node, ast.Assign) and ast.unparse(node.value).replace("_", "").isdigit()
        for target in node.targets
        if isinstance(target, ast.Name)
    ]
    return [each for each in lengths + counts if each not in NO_POLICY]


def defaults(text: str) -> list[str]:
    """Fields of classes with a default that may not have one."""
    classes = [node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.ClassDef)]
    given = [
        f"{found.name}.{ast.unparse(node.target)}"
        for found in classes
        for node in found.body
        if isinstance(node, ast.AnnAssign) and node.value
    ]
    return [field for field in given if field not in MAY_BE_LEFT_OUT]


def defined(text: str) -> Iterator[str]:
    """Every public function, class, constant and field that a text defines."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)):
            names = [node.name]
        elif isinstance(node, (ast.Assign, ast.AnnAssign)):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            names = [target.id for target in targets if isinstance(target, ast.Name)]
        else:
            names = []
        yield from (name for name in names if not name.startswith("_"))


def unused(texts: list[str]) -> list[str]:
    """The public names that stand nowhere but where they are defined; a command is called by its decorator,
    and pydantic reads `model_config`."""
    told = Counter(word for text in texts for word in re.findall(r"\w+", text))
    times = Counter(name for text in texts for name in defined(text) if name != "model_config")
    return sorted(name for name, count in times.items() if told[name] <= count)


# ---- the guards over the source -----------------------------------------------------------------------------


def modules(*folders: str) -> list[Path]:
    return sorted(path for folder in folders for path in (PACKAGE / folder).rglob("*.py"))


def objections(guard: Guard, paths: list[Path]) -> dict[str, list[str]]:
    texts = {str(path.relative_to(PACKAGE)): path.read_text(encoding="utf-8") for path in paths}
    return {name: found for name, text in texts.items() if (found := guard(text))}


@pytest.mark.parametrize("folder", ["measures", "plans", "pricing", "intake", "rendering"])
def test_there_is_something_to_guard(folder):
    assert len(modules(folder)) > 1


def test_no_float_in_measures_plans_and_pricing():
    assert objections(inexact, modules(*EXACT)) == {}


def test_no_import_by_dots_anywhere():
    assert objections(relative, modules("")) == {}


def test_plans_and_pricing_touch_no_file_clock_or_terminal():
    assert objections(impure, modules(*PURE)) == {}


def test_plans_never_see_the_rate_card():
    assert objections(pricing_in_plans, modules("plans")) == {}


def test_measures_know_nothing_of_what_is_built_on_them():
    assert objections(above_measures, modules("measures")) == {}


def test_measures_touch_no_file_clock_or_terminal():
    assert objections(impure, modules("measures")) == {}


def test_rendering_reads_nothing_and_opens_nothing():
    assert objections(reading_or_writing, modules("rendering")) == {}


def test_intake_knows_nothing_of_what_comes_after_it():
    assert objections(outward, modules("intake")) == {}


@pytest.mark.parametrize("folder", ["intake", "comparing"])
def test_only_the_command_line_prints(folder: str):
    assert objections(printing, modules(folder)) == {}


def test_the_contracts_import_measures_and_plain_types_only():
    assert objections(beyond_contract, contract_modules()) == {}


def test_no_policy_of_a_studio_is_written_into_plans_and_pricing():
    assert objections(policies, modules(*PURE)) == {}


def test_nothing_is_defined_that_nothing_uses():
    """Whoever reads a name may trust that something needs it."""
    assert unused([path.read_text(encoding="utf-8") for path in modules("")]) == []


def test_an_unused_name_is_found():
    used = "A = 1\nclass C:\n    field: int\n    def told(self):\n        return A + self.field\nC(1).told()"
    assert unused([used]) == []
    assert unused([used, "B = 2\ndef alone():\n    pass\n"]) == ["B", "alone"]


def test_no_default_in_the_contracts():
    """A value comes from a file, and intake knows which: what is named here may be left out, nothing else."""
    assert objections(defaults, contract_modules()) == {}


def contract_modules() -> list[Path]:
    return [path for path in modules("model") if f"model.{path.stem}" in CONTRACTS]


def contracts() -> list[type]:
    return [
        made
        for home in map(import_module, (f"finishcalc.{name}" for name in CONTRACTS))
        for made in vars(home).values()
        if is_ours(made, home.__name__)
    ]


def is_ours(made: object, home: str) -> bool:
    is_record = isinstance(made, type) and (hasattr(made, "_fields") or issubclass(made, Section))
    return is_record and made.__module__ == home


def left_out(made) -> dict[str, object]:
    """What each key that may be left out then is, by the class that declares it."""
    if not issubclass(made, Section):
        return {f"{made.__name__}.{name}": default for name, default in made._field_defaults.items()}
    homes = {name: base.__name__ for base in reversed(made.__mro__) for name in get_annotations(base)}
    keys = made.model_fields.items()
    return {f"{homes[name]}.{name}": key.default for name, key in keys if name not in made.required}


@pytest.mark.parametrize("made", contracts(), ids=lambda made: made.__name__)
def test_the_classes_as_they_run_have_no_default_either(made):
    """Where a key may be left out, leaving it out means nothing: a policy would be a default of ours."""
    assert left_out(made).keys() <= MAY_BE_LEFT_OUT
    assert all(default is None or default == () for default in left_out(made).values())


@pytest.mark.parametrize("made", contracts(), ids=lambda made: made.__name__)
def test_the_contracts_are_frozen(made):
    """A record and a section refuse to be changed, and take no attribute that they do not name."""
    is_section = issubclass(made, Section)
    record = made.new() if is_section else made(*[None] * len(made._fields))
    for name in (next(iter(made.model_fields if is_section else made._fields)), "another"):
        with pytest.raises(ValidationError if is_section else AttributeError):
            setattr(record, name, 1)


def test_what_may_be_left_out_is_still_there():
    assert {key for made in contracts() for key in left_out(made)} == MAY_BE_LEFT_OUT


# ---- the guards bite ----------------------------------------------------------------------------------------

BAD = [
    (inexact, "x = 0.1", "0.1"),
    (inexact, "x = -1e3", "1000.0"),
    (inexact, "x = 2j", "2j"),
    (inexact, "def f():\n    return float(1)", "float"),
    (inexact, "x = list(map(float, y))", "float"),
    (inexact, "import math", "math"),
    (inexact, "import math as m", "math"),
    (inexact, "from math import sqrt", "math.sqrt"),
    (inexact, "def f():\n    from statistics import mean", "statistics.mean"),
    (relative, "from . import money", "..money"),
    (relative, "from ..intake import fields", "..intake.fields"),
    (impure, "import pathlib", "pathlib"),
    (impure, "from finishcalc.comparing.design import Design", "finishcalc.comparing.design.Design"),
    (impure, "from pathlib import Path", "pathlib.Path"),
    (impure, "import os.path", "os.path"),
    (impure, "import sys", "sys"),
    (impure, "import typer", "typer"),
    (impure, "import tomllib", "tomllib"),
    (impure, "from datetime import date", "datetime.date"),
    (impure, "def f():\n    import time", "time"),
    (impure, "print('x')", "print"),
    (impure, "open('x')", "open"),
    (impure, "x.open()", "open"),
    (impure, "__import__('os')", "__import__"),
    (impure, "from finishcalc.intake.layers import Layers", "finishcalc.intake.layers.Layers"),
    (impure, "from finishcalc import intake", "finishcalc.intake"),
    (impure, "import finishcalc.rendering.pages.page", "finishcalc.rendering.pages.page"),
    (impure, "from finishcalc.commandline.app import app", "finishcalc.commandline.app.app"),
    (pricing_in_plans, "from finishcalc.pricing.lines import Line", "finishcalc.pricing.lines.Line"),
    (pricing_in_plans, "from finishcalc.model.shop import Rates", "finishcalc.model.shop.Rates"),
    (above_measures, "from finishcalc.plans.top.plan import TopPlan", "finishcalc.plans.top.plan.TopPlan"),
    (above_measures, "from finishcalc import model", "finishcalc.model"),
    (above_measures, "import finishcalc.pricing.tax", "finishcalc.pricing.tax"),
    (above_measures, "from finishcalc.rendering.pages.page import wrap", "finishcalc.rendering.pages.page.wrap"),
    (above_measures, "from finishcalc.intake.fields import Share", "finishcalc.intake.fields.Share"),
    (beyond_contract, "import pydantic", "pydantic"),
    (beyond_contract, "from finishcalc.intake.fields import Share", "finishcalc.intake.fields.Share"),
    (beyond_contract, "from finishcalc.plans.top.outline import Shape", "finishcalc.plans.top.outline.Shape"),
    (reading_or_writing, "from pathlib import Path", "pathlib.Path"),
    (reading_or_writing, "import os", "os"),
    (reading_or_writing, "open('x', 'w')", "open"),
    (reading_or_writing, "p.write_text('x')", "write_text"),
    (reading_or_writing, "print('x')", "print"),
    (reading_or_writing, "from finishcalc.intake.source import read", "finishcalc.intake.source.read"),
    (reading_or_writing, "from finishcalc.intake import source", "finishcalc.intake.source"),
    (reading_or_writing, "from finishcalc.intake.resolve import load", "finishcalc.intake.resolve.load"),
    (reading_or_writing, "from finishcalc.pipeline import finish_file", "finishcalc.pipeline.finish_file"),
    (reading_or_writing, "from finishcalc.commandline.app import app", "finishcalc.commandline.app.app"),
    (outward, "from finishcalc.rendering.pages.page import wrap", "finishcalc.rendering.pages.page.wrap"),
    (outward, "import finishcalc.commandline.app", "finishcalc.commandline.app"),
    (outward, "from finishcalc.plans.top.plan import plan_top", "finishcalc.plans.top.plan.plan_top"),
    (printing, "print('x')", "print"),
    (policies, "HIGH = Length.parse('28 in')", "Length.parse('28 in')"),
    (policies, "def f():\n    return Length.of(Fraction(1, 2), 'yd')", "Length.of(Fraction(1, 2), 'yd')"),
    (policies, "WORTH_IT = 2", "WORTH_IT"),
    (defaults, "class A:\n    width: int = 3", "A.width"),
    (defaults, "class A:\n    width: int = field(default=3)", "A.width"),
    (defaults, "class A:\n    width: int | None = None", "A.width"),
    (defaults, "class Extra:\n    price: Fraction | None = None", "Extra.price"),
]

GOOD = [
    (inexact, "from fractions import Fraction\nx = Fraction('0.1') * 3  # not 0.1"),
    (relative, "from finishcalc.measures.money import Money"),
    (impure, "from finishcalc.measures.money import Money\nfrom dataclasses import dataclass"),
    (impure, "from finishcalc.measures.rounding import printed\nprinted(1, 'in')"),
    (pricing_in_plans, "from finishcalc.model.project import Project"),
    (
        above_measures,
        "from finishcalc.wording.plain import plain\nfrom finishcalc.problems import ProblemCode\nimport re",
    ),
    (beyond_contract, "import datetime\nfrom finishcalc.measures.money import Currency"),
    (reading_or_writing, "from finishcalc.intake.layers import Layers\nfrom finishcalc.pipeline import Finishing"),
    (outward, "from finishcalc.model.project import Project"),
    (printing, "'print'"),
    (policies, "GRAIN = 120\nfar = Length.parse('12 in')\nwhole = Length.of(1, units)\nfirst, *rest = 1, 2"),
    (defaults, "class Stage:\n    width: int\n    on_frame: int | None = None\n    speed: int | None = None"),
]


@pytest.mark.parametrize(("guard", "text", "named"), BAD)
def test_a_guard_objects_to_a_bad_text_and_names_what_is_wrong(guard, text, named):
    assert guard(text) == [named]


@pytest.mark.parametrize(("guard", "text"), GOOD)
def test_a_guard_lets_a_good_text_pass(guard, text):
    assert guard(text) == []


def test_every_guard_is_shown_to_bite():
    assert {guard for guard, *_ in BAD} == {guard for guard, _ in GOOD}
    guards = {inexact, relative, impure, pricing_in_plans, above_measures, beyond_contract, reading_or_writing}
    assert guards | {outward, printing, policies, defaults} == {guard for guard, *_ in BAD}
