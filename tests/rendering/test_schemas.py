"""The schemas: that they take what we take, refuse what they can refuse, and describe every key."""

import json
import re
import tomllib
from collections.abc import Iterator
from datetime import date, time
from decimal import Decimal
from functools import cache
from inspect import get_annotations
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from finishcalc.intake.presets import key_sentences
from finishcalc.intake.resolve import load
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.reading import FileUnits, Key
from finishcalc.model.section import Section, specs
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.rendering.schemas.files import home_of, tables_of
from tests.builders import GOLDEN, MISTAKES, PRESETS, PROJECTS, SHOPS, run
from tests.schemas import FOLDER, schema_files

FILES: dict[str, type[Section]] = {"project": ProjectFile, "shop": ShopFile}
GOOD = [*PROJECTS, *SHOPS, *sorted(GOLDEN.glob("*.toml"))]
REFUSED = {
    "unknown-key", "not-a-choice", "not-a-table", "not-a-list", "not-a-list-of-lengths", "not-text",
    "not-true-or-false", "not-a-date", "not-a-number", "not-a-length", "not-a-share", "not-a-count", "not-a-weight",
    "not-a-lead", "not-an-overage", "not-minutes", "unknown-length-unit",
}  # fmt: skip
"""The kinds of mistakes that a schema can name: unknown keys, wrong types and texts, wrong choices."""


BEYOND = {("mistaken-dates.toml", "week.closed[2]"), ("not-a-date.toml", "job.date")}
"""Mistakes that no pattern knows, that February has no 30th day; and that JSON cannot tell, that a day is in quotes (an
editor of TOML can: tests/proof/test_editor.py)."""


def as_json(value: Any) -> Any:
    """A value of TOML as an editor hands it to a schema: dates are texts."""
    if isinstance(value, dict):
        return {key: as_json(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_json(item) for item in value]
    if isinstance(value, Decimal):
        return float(value)
    return value.isoformat() if isinstance(value, (date, time)) else value


@cache
def validator(name: str) -> Draft202012Validator:
    schema = json.loads(schema_files()[f"{name}.schema.json"])
    return Draft202012Validator(schema, format_checker=FormatChecker())


def kind_of(path: Path) -> str:
    return "shop" if path.name.endswith(".shop.toml") or path.parent.name == "shops" else "project"


def table(path: Path) -> Any:
    return as_json(tomllib.loads(path.read_text(encoding="utf-8")))


@pytest.mark.parametrize("file", schema_files())
def test_each_schema_is_one_of_its_dialect(file: str):
    schema = json.loads(schema_files()[file])
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("file", schema_files())
def test_an_identifier_names_no_host_and_no_place_of_a_machine(file: str):
    identifier = json.loads(schema_files()[file])["$id"]
    assert re.fullmatch(r"urn:finishcalc:schema:[a-z]+:1", identifier)


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.name)
def test_every_sample_and_golden_file_is_taken(path: Path):
    assert [error.message for error in validator(kind_of(path)).iter_errors(table(path))] == []


def mistakes() -> Iterator[tuple[str, Problem]]:
    """Each mistake of the catalogue that a schema can name."""
    for mistake in MISTAKES:
        with pytest.raises(ProblemsFound) as found:
            load(str(mistake))
        yield from ((problem.file, problem) for problem in found.value.problems if problem.code in REFUSED)


def places_of(problem: Problem) -> tuple[str, list[str | int]]:
    """The sort of error that a schema has for a problem, and its place: that of the table where a key is unknown. Items
    count from 1 with us and from 0 in a schema."""
    steps = [int(step) - 1 if step.isdigit() else step for step in re.findall(r"[^.\[\]\"]+", problem.path)]
    return ("additionalProperties", steps[:-1]) if problem.code == "unknown-key" else ("", steps)


def test_every_mistake_that_a_schema_can_name_is_refused_at_its_key():
    missed, tried = [], 0
    for file, problem in mistakes():
        path = Path(file)
        if not path.exists() or not problem.line or (path.name, problem.path) in BEYOND:
            continue
        errors = list(validator(kind_of(path)).iter_errors(table(path)))
        sort, steps = places_of(problem)
        tried += 1
        if not any(
            list(error.absolute_path)[: len(steps)] == steps and (not sort or error.validator == sort)
            for error in errors
        ):
            missed.append((problem.code.value, path.name, problem.path))
    assert missed == []
    assert tried >= 70


VALUES: list[object] = [
    *(0, 1, 2, 60, 500, -3, 10**10, Decimal("0.5"), Decimal("1.25"), Decimal("0.000001")),
    *("60 1/2", "60½", "½", "1/8", "60-1/2", " 7 ", ".5", "60.5", "1 1/4 yd", "5 ft 2 in", '6"', "5' 6\""),
    *("152 cm", "0.1 mm", "2 inches", "1 yd 3 in", "12 oz", "2 lb 8 oz", "1.5 kg", "3 lbs", "4.3 oz/sq yd"),
    *("145 g/m²", "145 gsm", "25 %", "33.333%", "0 %", "1000 %", "3 weeks", "10 days", "1 day"),
    *("2026-12-24..2027-01-02", "2026-05-25", date(2026, 5, 4), True, False, "", "a word", "two\nlines"),
    *([], ["a"], ["labour"], ["labour", "material"], ["wall", "bed"], ["fill"], [60, "60 1/4"], ["1 yd"], [{}], [1, 2]),
    *({}, {"sides": 3, "ends": "4 in"}, {"low": 1, "likely": "2 1/2", "high": 3}),
]
"""Values as a file may write them, right for some keys and wrong for others."""


def plain_keys() -> Iterator[tuple[type[Section], str, Key]]:
    """Every key of every table that has one plain value."""
    for table_of_file in dict.fromkeys(table for file in FILES.values() for table in tables_of(file)):
        for name, spec in specs(table_of_file).items():
            if spec.key and not spec.most:
                yield table_of_file, name, spec.key


def takes(key: Key, value: object, units: str) -> bool:
    try:
        key.take(value, FileUnits(units))
    except MeasureError:
        return False
    return True


def test_a_key_s_schema_takes_every_value_that_the_key_takes():
    """Whatever the units of the file, because a schema does not know them."""
    refused, taken = [], 0
    for owner, name, key in plain_keys():
        check = of_key(owner, name)
        for value in VALUES:
            if any(takes(key, value, units) for units in ("in", "cm")):
                taken += 1
                if not check.is_valid(as_json(value)):
                    refused.append((owner.__name__, name, value))
    assert refused == []
    assert taken > 1000


def test_a_key_s_schema_refuses_values_of_another_type():
    """True is no number, a bare number no share, a list no length: what a type can tell, the schema tells."""
    others: list[object] = [True, 3, "a word", [], {}, [{}], Decimal("1.5")]
    wrong = [
        (owner.__name__, name, value)
        for owner, name, key in plain_keys()
        for value in others
        if not any(takes(key, value, units) for units in ("in", "cm"))
        and of_key(owner, name).is_valid(as_json(value))
        and not is_matter_of_bounds(key, value)
    ]
    assert wrong == []


def is_matter_of_bounds(key: Key, value: object) -> bool:
    """A number that is in the bounds of one unit alone, or a currency's code."""
    return isinstance(value, (int, Decimal)) and not isinstance(value, bool) and key.form.kind == "length"


def of_key(owner: type[Section], name: str) -> Draft202012Validator:
    """The schema of one key, from that of whichever file holds its table."""
    label = f"{owner.__module__.rpartition('.')[2]}.{owner.__name__}"
    for file, root in FILES.items():
        schema: Any = validator(file).schema
        own = schema if owner is root else schema["$defs"].get(label)
        if own:
            return Draft202012Validator(
                {**own["properties"][name], "$defs": schema["$defs"]}, format_checker=FormatChecker()
            )
    raise AssertionError(label)


def test_every_key_has_its_sentence_and_every_sentence_its_key():
    """The class that declares a key describes it, for all tables that have it."""
    declared = {
        (*home_of(owner, name), name) for file in FILES.values() for owner in tables_of(file) for name in specs(owner)
    }
    described = {
        (module, home, name)
        for module, homes in key_sentences().items()
        for home, keys in homes.items()
        for name in keys
    }
    assert described == declared


def test_every_sentence_is_one():
    for homes in key_sentences().values():
        for keys in homes.values():
            for sentence in keys.values():
                assert re.fullmatch(r"[A-Z].*[^.]\.", sentence)


def test_a_description_says_the_unit_and_who_may_see_it():
    """`[seaming]` minutes_along: minutes for each `per`, and in house."""
    properties: Any = validator("shop").schema["$defs"]["shop.Seaming"]["properties"]
    assert properties["minutes_along"]["description"] == (
        "The minutes along each `per` of its length. Minutes, for each `per`. The studio's alone: no customer sees it."
    )
    assert (
        "A length; a bare number is in the file's `units`."
        in (validator("project").schema["$defs"]["project.Backing"]["properties"]["overage"]["description"])
    )


def test_an_editor_may_propose_the_names_of_presets_and_takes_others():
    """Both systems' fabrics; a name of the shop's own is as good."""
    fabric: Any = validator("project").schema["$defs"]["materials.NamedFabric"]
    assert {"cotton-44", "cotton-wide-270"} <= set(fabric["examples"])
    assert "medium-pantograph" in validator("project").schema["$defs"]["quilting.NamedStyle"]["examples"]
    assert validator("project").is_valid({"backing": {"fabric": "my-own-linen"}})


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("project", {"backing": {"overge": 4}}),
        ("project", {"backing": {"fabric": {"preset": "cotton-44", "prise": 4}}}),
        ("project", {"backing": {"seams": "across"}}),
        ("project", {"backing": {"fabric": 4}}),
        ("project", {"batting": {"have": "7 yd"}}),
        ("project", {"top": {"borders": [{"corners": "mitred"}]}}),
        ("project", {"charges": {"extras": [4]}}),
        ("project", {"job": {"date": 20260504}}),
        ("shop", {"rates": {"quilting": {"dense": {"prise": 1}}}}),
        ("shop", {"rates": {"seam": {"along": 1, "per": "in"}}}),
        ("shop", {"tax": [{"label": "VAT", "percent": 19}]}),
        ("shop", {"title": "a project's key"}),
    ],
)  # fmt: skip
def test_what_is_wrong_is_refused(name: str, wrong: Any):
    assert not validator(name).is_valid(wrong)


@pytest.mark.parametrize(
    ("name", "right"),
    [
        ("project", {}),
        ("project", {"backing": {"fabric": "none", "overage": {"sides": 3, "ends": "4 1/2"}}}),
        ("project", {"batting": {"have": {"width": 72, "length": 90}}}),
        ("project", {"batting": {"have": [{"width": 72, "length": "2 1/2 yd"}]}}),
        ("project", {"charges": {"lines": [{"label": "Mending", "price": 12}]}}),
        ("project", {"backing": {"have": ["7 yd", "1 yd 3 in"]}}),
        ("shop", {"rates": {"quilting": {"dense": "0.045", "throws": {"price": 45, "per": "hour"}}, "seam": 20}}),
        ("shop", {"cloth": {"wider": "none"}}),
        ("shop", {"cloth": {"wider": ["cotton-wide-108", {"preset": "cotton-wide-118", "price": 20}]}}),
        ("shop", {"offers": {"extras": ["label", {"name": "sleeve", "uses": ["wall"]}]}}),
        ("shop", {"week": {"closed": ["2026-05-25", "2026-12-24..2027-01-02"]}}),
        ("shop", {"usual": {"backing": {"overage": 3}}}),
    ],
)  # fmt: skip
def test_what_is_right_is_taken(name: str, right: Any):
    assert validator(name).is_valid(right)


def test_a_table_that_must_be_whole_names_what_it_needs():
    """Of a package, all but a selling price; of a line of one project, its label and price."""
    schema: Any = validator("project").schema
    assert schema["$defs"]["materials.Package"]["required"] == ["size", "width", "length", "price"]
    assert schema["$defs"]["charges.OneOff"]["required"] == ["label", "price"]
    assert "required" not in schema["$defs"]["project.Backing"]


def test_the_files_beside_the_presets_are_up_to_date():
    """Else: python -m tests.schemas."""
    assert {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.json")} == schema_files()


@pytest.mark.parametrize("path", [*PROJECTS, *SHOPS], ids=lambda path: path.name)
def test_every_sample_begins_with_its_schema(path: Path):
    first, *_ = path.read_text(encoding="utf-8").splitlines()
    named = re.fullmatch(r"#:schema (\S+)", first)
    assert named
    assert (path.parent / named[1]).resolve() == PRESETS / "schemas" / f"{kind_of(path)}.schema.json"


@pytest.mark.parametrize("name", ["project", "shop"])
def test_the_command_prints_the_schema(name: str):
    assert run("schema", name).stdout == schema_files()[f"{name}.schema.json"]


def test_a_schema_that_there_is_not_is_a_usage_error_that_names_those_that_are():
    result = run("schema", "quote")
    assert result.exit_code == 2
    assert "project" in result.stderr


def test_every_declared_key_of_a_section_is_in_its_schema():
    for file, root in FILES.items():
        schema: Any = validator(file).schema
        for owner in tables_of(root):
            own = (
                schema if owner is root else schema["$defs"][f"{owner.__module__.rpartition('.')[2]}.{owner.__name__}"]
            )
            names = {name for base in owner.__mro__ for name in get_annotations(base) if name in owner.model_fields}
            assert set(own["properties"]) == names
