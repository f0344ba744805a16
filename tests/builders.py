"""Small helpers for the tests: cloths, specs and projects, whole results and pages, and the command line."""

import os
import re
import subprocess
import sys
from collections.abc import Callable
from copy import copy
from fractions import Fraction
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, TypeVar

import pytest
import typer
from typer.testing import CliRunner, Result

import finishcalc
from finishcalc.commandline.app import app
from finishcalc.commandline.views import More, cut_view, quote_document, quote_view
from finishcalc.comparing.design import Design
from finishcalc.comparing.sizes import Comparison, compare_sizes
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues, Sourced
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import ZERO, Length, Overage
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Bed, Table
from finishcalc.model.keys import Outline
from finishcalc.model.materials import Batting, Fabric, NamedFabric, Package, Roll
from finishcalc.model.project import Project
from finishcalc.model.section import Figure, Section, specs
from finishcalc.model.shop import Sewing
from finishcalc.pipeline import Finishing, finish, finish_file, try_file
from finishcalc.plans.backing.plan import BackingPlan, plan_backing
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.together import Plans, make_plans
from finishcalc.plans.top.plan import plan_top
from finishcalc.rendering.pages.cut import picture_files
from finishcalc.wording.sentence import Audience, InUnit
from tests.shared import shared_alternatives

ROOT = Path(__file__).parent.parent
PRESETS = ROOT / "presets"
PROJECTS = sorted((PRESETS / "projects").glob("*.toml"))
AT_ONCE = {"boathouse-supper-cloth", "every-key", "harbour-check-cloth", "queen-bed-quilt-cm"}
"""A cloth, a project with every key, a pieced one and a metric one."""
EACH_PROJECT = [path if path.stem in AT_ONCE else pytest.param(path, marks=pytest.mark.slow) for path in PROJECTS]
"""Every sample, for a test of many views of each: the quick run keeps to these four, the gate tries them all."""
SHOPS = sorted((PRESETS / "shops").glob("*.toml"))
GOLDEN = ROOT / "tests" / "golden"
MISTAKES = sorted((ROOT / "tests" / "mistakes").glob("*.toml"))
README = (ROOT / "README.md").read_text(encoding="utf-8")

TOP = "[top]\nwidth = 60\nlength = 80\n"
CM_TOP = "units = 'cm'\n[top]\nwidth = 152\nlength = 203\n"
LAP = "[top]\nwidth = 60\nlength = '81 1/2'\n"
"""A lap quilt, billed 60 x 82 = 4,920 sq in."""

BARE = """[top]
width = 60
length = 80
[backing]
fabric = "none"
[batting]
product = "none"
[binding]
attach = "none"
"""
"""A top of 60 x 80 = 4,800 sq in that is quilted, and nothing else."""

STEPS = """[rates]
minimum = 0
[rates.quilting.edge-to-edge]
steps = [{ name = "lap", up_to = 2400, price = 80 }, { name = "throw", up_to = 4200, price = 120 }]
more = 15
each = 500
"""
"""Quilting by size classes."""

Amount = int | str | Fraction
NONE = Fraction(0)

TRADE_PACKAGES = (
    ("crib", 45, 60), ("throw", 60, 60), ("twin", 72, 90), ("full", 81, 96), ("queen", 90, 108), ("king", 120, 120),
)  # fmt: skip
"""Packaged battings, inches (common practice)."""


S = TypeVar("S", bound=Section)


def figured(section: type[Section], values: dict[str, Any]) -> dict[str, Any]:
    """Values of a section's keys, a figure made of each that the section wants as one."""
    keys = specs(section)
    bare = {name for name, value in values.items() if value is not None and not isinstance(value, Figure)}
    return {name: Figure(value) if name in bare and keys[name].figure else value for name, value in values.items()}


def section(kind: type[S], **values: Any) -> S:
    """A section of values that no file gives; a plain value stands for a figure."""
    return kind.new(**figured(kind, values))


def replace(record: Any, **changes: Any) -> Any:
    """A record with some of its fields changed, whichever way it is made; a plain value stands for a figure."""
    if isinstance(record, Sewing):
        return _sewing(record, changes)
    if isinstance(record, Section):
        return record.replace(**figured(type(record), changes))
    if isinstance(record, tuple):
        return record._replace(**changes)
    changed = copy(record)
    vars(changed).update(changes)
    return changed


def _sewing(record: Sewing, changes: dict[str, Any]) -> Sewing:
    """The way backings are sewn, each change in that one of its tables which has the key."""
    for name, value in changes.items():
        if name == "wider":
            record = record._replace(
                cloth=record.cloth.replace(wider=tuple(map(_named, [value] if not isinstance(value, tuple) else value)))
            )
        elif name == "wage":
            record = record._replace(wage=value if isinstance(value, Figure) else Figure(Fraction(value)))
        elif name in specs(type(record.seaming)):
            record = record._replace(seaming=replace(record.seaming, **{name: value}))
        else:
            record = record._replace(cloth=replace(record.cloth, **{name: value}))
    return record


def _named(fabric: Fabric | None) -> NamedFabric:
    """A cloth as a shop names it, or none."""
    return NamedFabric.new(**vars(fabric)) if fabric else NamedFabric.new(preset="none")


def inches(amount: Amount) -> Length:
    """So many inches: 4, "2 1/2" or a Fraction."""
    return Length.parse(amount, "in") if isinstance(amount, str) else Length.of(amount, "in")


def yards(amount: Amount) -> Length:
    """So many yards: 4, "2 1/2" or a Fraction."""
    return Length.parse(amount, "yd") if isinstance(amount, str) else Length.of(amount, "yd")


def layered(values: dict[KeyPath, Sourced]) -> LayeredValues:
    """Layers that hold just these values."""
    layers = LayeredValues()
    for path, sourced in values.items():
        layers.put(path, sourced)
    return layers


@cache
def sample_project(lines: str = "") -> Project:
    """A project read from text, where the tests do not say otherwise, with the sample shop under it."""
    return resolve(Source("sample", f"[top]\nwidth = 60\nlength = 80\n{lines}")).project


def cloth(usable: Amount = 40, /, *, name: str = "test cloth", **changes: Any) -> Fabric:
    """A cloth that is usable from edge to edge, 10 a yard by the eighth; it loses nothing unless `changes` say so."""
    plain = {
        "name": name, "width": inches(usable), "selvage": ZERO, "price": Fraction(10), "selling": None, "per": "yd",
        "step": yards("1/8"), "straighten": ZERO, "shrink_across": NONE, "shrink_along": NONE,
        "directional": False, "nap": False, "repeat": ZERO,
    }  # fmt: skip
    backing = sample_project().backing
    assert backing
    return replace(backing.fabric, **(plain | changes))


def package(size: str, width: Amount, length: Amount, price: Amount, selling: Amount | None = None) -> Package:
    """A batting sold ready cut, by its sides in inches."""
    asked = None if selling is None else Fraction(selling)
    return section(Package, size=size, width=inches(width), length=inches(length), price=Fraction(price), selling=asked)


def roll(
    width: Amount, price: Amount = 1, per: str = "yd", step: Length | None = None, selling: Amount | None = None
) -> Roll:
    """A batting sold by the yard and cut by the eighth of one, or as said, so many inches wide."""
    asked, cut = None if selling is None else Fraction(selling), yards("1/8") if step is None else step
    return section(Roll, width=inches(width), price=Fraction(price), per=per, step=cut, selling=asked)


def mattress(width: Amount, length: Amount) -> Bed:
    """A mattress, by its sides in inches."""
    return section(Bed, width=inches(width), length=inches(length))


def table_top(width: Amount, length: Amount, shape: Outline = "rectangle") -> Table:
    """A table top, by its sides in inches."""
    return section(Table, shape=shape, width=inches(width), length=inches(length))


def batting(*packages: Package, rolls: tuple[Roll, ...] = ()) -> Batting:
    """A batting that is sold in these forms only."""
    spec = sample_project().batting
    assert spec
    return replace(spec.product, name="test batting", packages=packages, rolls=rolls)


def trade_packages() -> tuple[Package, ...]:
    """The packaged sizes of the trade, the larger the dearer."""
    return tuple(
        package(size, width, length, 10 * number)
        for number, (size, width, length) in enumerate(TRADE_PACKAGES, start=1)
    )


def project(width: Amount, length: Amount, **parts: dict[str, Any]) -> Project:
    """The sample project with a top of this size; `parts` change keys of its sections, as in backing={...}."""
    sample = sample_project()
    size = {"width": inches(width), "length": inches(length)}
    backing = parts.get("backing", {})
    if isinstance(backing.get("overage"), Length):
        backing["overage"] = Overage.all_round(backing["overage"])
    have = backing.get("have")
    if isinstance(have, (Length, list)):
        backing["have"] = tuple(InUnit(each, "in") for each in (have if isinstance(have, list) else [have]))
    sections = {name: replace(getattr(sample, name), **changes) for name, changes in parts.items()}
    return replace(sample, top=replace(sample.top, **size), **sections)


def plans(width: Amount, length: Amount, **parts: dict[str, Any]) -> Plans:
    """All plans of a top; `parts` are those of `project`."""
    return make_plans(project(width, length, **parts))


def backing_of(width: Amount, length: Amount, sewing: dict[str, Any] | None = None, **spec: Any) -> BackingPlan:
    """The backing of a top, overage 4 and seam allowance 1/2 on test cloth unless `spec` says otherwise, and no smaller
    overage weighed unless `sewing` says so; a `wider` cloth in `spec` is the shop's to compare with."""
    told = {name: spec.pop(name) for name in ("wider",) if name in spec}
    usual = {"fabric": cloth(), "overage": inches(4), "seam_allowance": inches("1/2"), "seams": "any"}
    wanted = usual | spec
    only = {"least_overage": wanted["overage"]} if isinstance(wanted["overage"], Length) else {}
    parts = {"backing": wanted, "sewing": only | (sewing or {}) | told}
    if wanted.get("have") or wanted.get("sewn"):
        found = plans(width, length, **parts).backing
        assert found
        return found
    asked = project(width, length, **parts)
    assert asked.backing
    shape = plan_top(asked.top, asked.measuring, asked.units).shape
    return plan_backing(shape, asked.backing, asked.sewing, asked.currency, FINEST[asked.units])


def batting_of(width: Amount, length: Amount, product: Batting, overage: Amount = 4) -> BattingPlan:
    """The batting of a top."""
    found = plans(width, length, batting={"product": product, "overage": inches(overage)}).batting
    assert found
    return found


def binding_of(width: Amount, length: Amount, **spec: Any) -> BindingPlan:
    """The binding of a top, strips of 2 1/2 joined on the diagonal, extra 10, unless `spec` says otherwise."""
    usual = {"fabric": cloth(), "strip_width": inches("2 1/2"), "extra": inches(10), "join": "diagonal"}
    found = plans(width, length, binding=usual | spec).binding
    assert found
    return found


def quilting_of(
    width: Amount,
    length: Amount,
    *,
    thickness: Amount = "0.05",
    overage: Amount = 4,
    thread: dict[str, Any] | None = None,
    frame: dict[str, Any] | None = None,
    **style: Any,
) -> QuiltingPlan:
    """The quilting of a top; `style` changes keys of the sample style, with no run-off and no turning unless it
    says so. A throat that is given without its take-up is itself the depth stitched."""
    sample = sample_project()
    assert sample.batting
    told = replace(
        sample.quilting.style, **({"run_off": ZERO, "stitch_length": inches("0.1"), "may_turn": False} | style)
    )
    return plans(
        width,
        length,
        backing={"overage": inches(overage)},
        batting={"product": replace(sample.batting.product, thickness=inches(thickness), widest=inches(8))},
        quilting={"style": told},
        thread=thread or {},
        frame=({"take_up": ZERO, "margin": ZERO} if frame and "throat" in frame else {}) | (frame or {}),
    ).quilting


# --- whole results ---------------------------------------------------------------------------------------------------


def sample(name: str) -> Path:
    """The file of a sample project."""
    return PRESETS / "projects" / name


CLOTH = sample("boathouse-supper-cloth.toml")
PIECED = sample("harbour-check-cloth.toml")
METRIC = sample("queen-bed-quilt-cm.toml")


def quoted(text: str, shop: Path | str | None = None) -> Finishing:
    """A whole result from a project file's text, over a shop's file if one is named."""
    return finish(resolve(Source("t.toml", text), str(shop))) if shop else _quoted(text)


@lru_cache(maxsize=100)
def _quoted(text: str) -> Finishing:
    return finish(resolve(Source("t.toml", text)))


def with_top(top: str, rest: str = "") -> Finishing:
    """A whole result from the lines of a top's table, and the tables that come after it."""
    return quoted(f"[top]\n{top}\n{rest}")


def in_shop(folder: Path, shop: str, text: str = TOP) -> Finishing:
    """A whole result in a shop whose file holds `shop`; the file is left in the folder."""
    path = folder / "shop.toml"
    path.write_text(shop, encoding="utf-8")
    return quoted(text, path)


def page(
    text: str,
    audience: Audience = "customer",
    explain: bool = False,
    shop: Path | None = None,
    width: int = 80,
) -> str:
    """The quote's page for a project file's text."""
    return quote_text(quoted(text, shop), audience, explain, width)


def quote_text(
    result: Finishing, reader: Audience, explain: bool = False, width: int = 80, *, defaults: bool = False
) -> str:
    """A quote as its page in a terminal."""
    return str(quote_view(result, reader, "text", width, More(explain, defaults)))


def cut_text(result: Finishing, width: int = 80) -> str:
    """A cut list as its page in a terminal."""
    return str(cut_view([result], "text", width))


OUTPUT: dict[str, Callable[[Finishing], str]] = {
    "customer": lambda result: quote_text(result, "customer"),
    "customer, explained": lambda result: quote_text(result, "customer", True),
    "studio": lambda result: quote_text(result, "studio"),
    "studio, explained": lambda result: quote_text(result, "studio", True),
    "narrow": lambda result: quote_text(result, "studio", True, 40),
    "studio's document": quote_document,
    "customer's document": lambda result: quote_document(result, "customer"),
    "cutting list": cut_text,
    "pictures": lambda result: "".join(picture_files(result).values()) + "\n",
}
"""Every way a result is printed."""


def everything(result: Finishing) -> list[str]:
    """All that is ever printed of a result."""
    with shared_alternatives():
        return [output(result) for output in OUTPUT.values()]


def labels(result: Finishing) -> list[str]:
    """The label of each line of a quote, filled in."""
    return [
        re.sub(r"\{label\}", str(line.label.values.get("label", "")), line.label.text) for line in result.quote.lines
    ]


def line(result: Finishing, text: str) -> tuple[Fraction, str, str]:
    """Quantity, unit and amount of the line whose label holds this text."""
    found = next(each for each, label in zip(result.quote.lines, labels(result), strict=True) if text in label)
    return found.quantity, found.unit, str(found.amount)


def tried(path: Path, *texts: str) -> list[Finishing]:
    """A result for each value that is tried over a file."""
    return list(try_file(str(path), None, trials(list(texts))))


@cache
def finished(path: Path) -> Finishing:
    """The whole result of a file that stays as it is, worked out once."""
    return finish_file(str(path))


def sized(path: Path, *sizes: str, widen: bool = True) -> Comparison:
    """A file's design in these sizes; that of a sample is worked out once."""
    work = _sample_sized if path.is_relative_to(PRESETS) else _sized
    return work(path, sizes, widen)


def _sized(path: Path, sizes: tuple[str, ...], widen: bool) -> Comparison:
    return compare_sizes(Design.of_file(str(path), widen=widen), sizes)


_sample_sized = cache(_sized)


def in_file(text: str, folder: Path) -> Path:
    """A project's file in this folder."""
    path = folder / "top.toml"
    path.write_text(text)
    return path


# --- the command line ------------------------------------------------------------------------------------------------


typer.testing._get_command = cache(typer.main.get_command)
"""Made once of the app, which stays as it is: to make all commands for each call takes three times as long as to refuse
a file."""


def run(*arguments: str, stdin: str | bytes | None = None, columns: int = 80) -> Result:
    """The command in this process: what it prints, and its exit code."""
    return CliRunner(env={"COLUMNS": str(columns)}).invoke(app, list(arguments), input=stdin)


def outside(*arguments: str, **more: Any) -> subprocess.CompletedProcess[bytes]:
    """The command in a process of its own, which finds this very package whatever folder it runs in."""
    home = {"PYTHONPATH": str(Path(finishcalc.__file__).parent.parent)}
    env = {**os.environ, **home, **more.pop("env", {})}
    how = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "timeout": 60} | more
    return subprocess.run([sys.executable, "-m", "finishcalc", *arguments], env=env, check=False, **how)
