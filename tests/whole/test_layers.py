"""Guards over the source that no tool has: no float where figures are exact, no default in Python, no stray print.

Each guard is a function from a source text to what it objects to, and is shown to bite on a small bad text. Which layer
may import which is guarded by the contracts of import-linter in pyproject.toml, and imports by dots by ruff.
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
CONTRACTS = (
    "model.cover",
    "model.extra_cuts",
    "model.files",
    "model.charges",
    "model.materials",
    "model.on_hand",
    "model.quilting",
    "model.pieced",
    "model.prices",
    "model.project",
    "model.shop",
)
EXACT = ("measures", "plans", "pricing", "reviewing")
PURE = ("plans", "pricing")

INEXACT = {"math", "cmath", "statistics", "random", "numpy"}
TALKS = {"print", "input"}
OPENS = TALKS | {"open", "write_text", "write_bytes", "read_text", "read_bytes", "exec", "eval", "__import__"}
DOORS = {"read", "parse", "load", "resolve", "finish_file", "check", "Source"}
MAY_ASK = {"capital", "uses_words", "usable_width_of", "top_layout"}
"""The functions of plans that rendering calls: words, the width of a cloth, and where the pieces of a top lie."""
DECLARES = {
    "finishcalc.model.keys",
    "finishcalc.model.marks",
    "finishcalc.model.reading",
    "finishcalc.model.section",
    "finishcalc.problems.ProblemCode",
    "pydantic.model_validator",
}
STANDARD = {"dataclasses", "datetime", "fractions", "typing", "collections"}
MAY_BE_LEFT_OUT = {
    "Bed.depth", "Bed.name",
    "Table.height", "Table.name",
    "Fabric.selling", "Fabric.weight", "Batting.weight",
    "Package.selling",
    "ByName.preset", "Table.diameter",
    "Covers.bed", "Covers.foot_drop", "Covers.table",
    "ClassShares.pass_through", "Deposit.amount", "Deposit.percent", "Deposit.shares",
    "Job.date", "Job.due", "Measured.diagonals", "MoneySigns.symbol", "Quilting.areas", "QuiltingRate.steps",
    "Top.blocks", "Top.borders", "Top.centre", "Top.corner_radius", "Top.diameter", "Top.length", "Top.measured",
    "Top.sashing", "Top.scallop", "Top.width",
    "Roll.selling", "Roll.charge", "BattingLayer.have", "SeamRate.along", "SeamRate.per", "ThreadRate.cost",
    "Style.pattern_height", "Style.row_pitch", "Style.widest", "Style.motif", "Style.angle", "Style.overage",
    "Stage.speed", "Stage.on_frame", "Stage.more", "Stage.per", "Stage.every", "Stage.worked",
    "Method.rate_class", "Method.stitch_length", "Method.bobbin",
    "Blocks.inner", "Blocks.patches", "Piecing.most_joins",
    "NamedFabric.have",
    "SettingsFile.shop", "Week.frame",
    "DayHours.monday", "DayHours.tuesday", "DayHours.wednesday", "DayHours.thursday", "DayHours.friday",
    "DayHours.saturday", "DayHours.sunday",
    "Patch.length", "Patch.triangles",
    "PiecedTop.blocks", "PiecedTop.sashing", "PiecedTop.centre",
    "TopSpec.corner_radius", "TopSpec.scallop", "TopSpec.measured", "TopSpec.pieced", "TopSpec.covers",
    "Backing.have", "Backing.sewn", "Backing.seam_count", "Backing.most_seams", "Backing.turned",
    "Binding.strip_width", "Binding.finished", "Binding.offcut",
    "Area.share", "Area.part", "Charges.discount", "Charges.discount_amount",
    "Extra.minutes", "Extra.minutes_per", "Extra.cost", "OneOff.minutes", "OneOff.minutes_per", "OneOff.cost",
    "Extra.of", "OneOff.of", "OneOff.quantity", "OrderedExtra.quantity",
    "Extra.cut", "ExtraCut.length", "ExtraCut.of", "ExtraCut.less", "ExtraCut.supplied_by", "OrderedExtra.fabric",
    "QuiltingRate.price", "QuiltingRate.more", "QuiltingRate.each",
    "OnHandPieces.number",
}  # fmt: skip

NO_POLICY = {
    "Length.parse('45 in')": "the packaged crib size, below which safe sleep is said",
    "Length.parse('60 in')": "the packaged crib size, below which safe sleep is said",
    "Length.parse('12 in')": "a fire department's distance from a candle",
    "MOST_SEAMS": "how far the search for backings goes; the shop's own limit is cloth.most_seams",
    "MOST_TRIED": "how far the search for a joined batting goes",
    "MOST_WEIGHED": "how far the search for a top's cloth goes",
    "OPENERS": "how far the search for a top's cloth goes",
    "MOST_BEHIND": "how far the search for a top's cloth goes",
    "MOST_TURNED": "how far the search for the cloth of several projects goes",
    "MOST_LENGTHWISE": "a top has four sides",
    "RECTANGLE_STEPS": "marks of a ruler between those for a square",
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


def working_out(text: str) -> list[str]:
    """Rendering plans nothing and prices nothing: of plans, prices and stories it takes records and constants, no
    function and no whole module."""
    homes = of_package("plans", "pricing", "pipeline", "alternatives", "comparing", "reviewing")
    return [name for name in imports(text) if within(name, homes) and (is_module(name) or not is_record(name))]


def is_record(name: str) -> bool:
    """A class or a constant, by its capital letter, or one of the few functions that rendering may call."""
    last = name.rpartition(".")[2]
    return last[0].isupper() or last in MAY_ASK


def is_module(name: str) -> bool:
    path = PACKAGE.parent.joinpath(*name.split("."))
    return path.is_dir() or path.with_suffix(".py").exists()


def beyond_contract(text: str) -> list[str]:
    """The contracts import measures, each other, how a key is declared, and the standard library's plain types only;
    pydantic only where an order between keys is checked."""
    return [
        name for name in imports(text) if not within(name, STANDARD | DECLARES | of_package("measures", *CONTRACTS))
    ]


def opening(text: str) -> list[str]:
    """Calls that read, write, print, or import behind the back of the contracts between layers."""
    return [name for name in calls(text) if name in OPENS]


def printing(text: str) -> list[str]:
    """Only the command line prints."""
    return [name for name in calls(text) if name in TALKS]


def doors(text: str) -> list[str]:
    """Names of intake and the pipeline through which a file is read, or a whole module with such a name in it."""
    ours = [name for name in imports(text) if within(name, of_package("intake", "pipeline"))]
    return [name for name in ours if name.rpartition(".")[2] in DOORS | {"intake", "source", "pipeline", "*"}]


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


LIBRARIES_READ = {"model_config", "collect_usage_pieces", "format_commands", "format_options"}
LIBRARIES_READ |= {
    "resolve_command",
    "capture_signals",
    "connection_made",
    "connection_lost",
    "send_400_response",
    "shutdown",
}
"""Names that pydantic, typer and uvicorn read of a class of theirs that is ours."""


def unused(texts: list[str]) -> list[str]:
    """The public names that stand nowhere but where they are defined; a command is called by its decorator, and
    libraries read what is theirs."""
    told = Counter(word for text in texts for word in re.findall(r"\w+", text))
    times = Counter(name for text in texts for name in defined(text) if name not in LIBRARIES_READ)
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


@pytest.mark.parametrize("folder", ["measures", "plans", "pricing", "rendering"])
def test_what_works_out_and_what_arranges_opens_nothing(folder: str):
    """Only the templates of sheets are read, which are part of the package as its code is."""
    assert set(objections(opening, modules(folder))) <= {"rendering/writers/templates.py"}


def test_rendering_imports_nothing_that_reads_a_file():
    assert objections(doors, modules("rendering")) == {}


@pytest.mark.parametrize("folder", ["intake", "comparing", "reviewing"])
def test_only_the_command_line_prints(folder: str):
    assert objections(printing, modules(folder)) == {}


def test_rendering_plans_nothing_and_prices_nothing():
    assert objections(working_out, modules("rendering")) == {}


def test_the_contracts_import_measures_and_plain_types_only():
    assert objections(beyond_contract, contract_modules()) == {}


def test_no_policy_of_a_studio_is_written_into_plans_and_pricing():
    assert objections(policies, modules(*PURE)) == {}


def test_nothing_is_defined_that_nothing_uses():
    """Whoever reads a name may trust that something needs it: a module, or a template that is filled in with it."""
    templates = "".join(path.read_text(encoding="utf-8") for path in sorted(PACKAGE.rglob("*.html")))
    in_templates = set(re.findall(r"\.(\w+)", " ".join(re.findall(r"\{[{%].*?[%}]\}", templates, re.DOTALL))))
    names = unused([path.read_text(encoding="utf-8") for path in modules("")])
    assert [name for name in names if name not in in_templates] == []


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
    (opening, "print('x')", "print"),
    (opening, "open('x', 'w')", "open"),
    (opening, "x.open()", "open"),
    (opening, "p.write_text('x')", "write_text"),
    (opening, "__import__('os')", "__import__"),
    (printing, "print('x')", "print"),
    (doors, "from finishcalc.intake.source import read", "finishcalc.intake.source.read"),
    (doors, "from finishcalc.intake import source", "finishcalc.intake.source"),
    (doors, "from finishcalc.intake.resolve import load", "finishcalc.intake.resolve.load"),
    (doors, "from finishcalc.pipeline import finish_file", "finishcalc.pipeline.finish_file"),
    (beyond_contract, "import pydantic", "pydantic"),
    (beyond_contract, "from finishcalc.intake.fields import Share", "finishcalc.intake.fields.Share"),
    (beyond_contract, "from finishcalc.plans.top.outline import Shape", "finishcalc.plans.top.outline.Shape"),
    (policies, "HIGH = Length.parse('28 in')", "Length.parse('28 in')"),
    (policies, "def f():\n    return Length.of(Fraction(1, 2), 'yd')", "Length.of(Fraction(1, 2), 'yd')"),
    (policies, "WORTH_IT = 2", "WORTH_IT"),
    (defaults, "class A:\n    width: int = 3", "A.width"),
    (defaults, "class A:\n    width: int = field(default=3)", "A.width"),
    (defaults, "class A:\n    width: int | None = None", "A.width"),
    (defaults, "class Extra:\n    price: Fraction | None = None", "Extra.price"),
    (working_out, "from finishcalc.pipeline import finish", "finishcalc.pipeline.finish"),
    (working_out, "from finishcalc import pipeline", "finishcalc.pipeline"),
    (
        working_out,
        "from finishcalc.alternatives.choices import offers_of",
        "finishcalc.alternatives.choices.offers_of",
    ),
    (working_out, "import finishcalc.alternatives", "finishcalc.alternatives"),
    (working_out, "from finishcalc.plans.cloth import plan_cloth", "finishcalc.plans.cloth.plan_cloth"),
    (working_out, "from finishcalc.plans.backing import savings", "finishcalc.plans.backing.savings"),
    (working_out, "from finishcalc.plans.backing.options import choose", "finishcalc.plans.backing.options.choose"),
    (working_out, "from finishcalc.comparing.sizes import compare_sizes", "finishcalc.comparing.sizes.compare_sizes"),
    (working_out, "from finishcalc.pricing.quote import make_quote", "finishcalc.pricing.quote.make_quote"),
    (working_out, "from finishcalc.pricing.profit import *", "finishcalc.pricing.profit.*"),
]

GOOD = [
    (inexact, "from fractions import Fraction\nx = Fraction('0.1') * 3  # not 0.1"),
    (opening, "re.compile('open')"),
    (printing, "'print'"),
    (doors, "from finishcalc.intake.layers import Layers\nfrom finishcalc.pipeline import Finishing"),
    (beyond_contract, "import datetime\nfrom finishcalc.measures.money import Currency"),
    (policies, "GRAIN = 120\nfar = Length.parse('12 in')\nwhole = Length.of(1, units)\nfirst, *rest = 1, 2"),
    (defaults, "class Stage:\n    width: int\n    on_frame: int | None = None\n    speed: int | None = None"),
    (
        working_out,
        "from finishcalc.pipeline import Finishing\nfrom finishcalc.alternatives.choices import Alternatives",
    ),
]


@pytest.mark.parametrize(("guard", "text", "named"), BAD)
def test_a_guard_objects_to_a_bad_text_and_names_what_is_wrong(guard, text, named):
    assert guard(text) == [named]


@pytest.mark.parametrize(("guard", "text"), GOOD)
def test_a_guard_lets_a_good_text_pass(guard, text):
    assert guard(text) == []


def test_every_guard_is_shown_to_bite():
    assert {guard for guard, *_ in BAD} == {guard for guard, _ in GOOD}
    assert {inexact, opening, printing, doors, working_out, beyond_contract, policies, defaults} == {
        guard for guard, *_ in BAD
    }
