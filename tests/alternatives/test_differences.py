"""The difference that each value of a choice makes to the total."""

from collections.abc import Iterator

import pytest

from finishcalc.alternatives.differences import differences_of
from finishcalc.intake import presets
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import KeyPath
from finishcalc.pipeline import Finishing, finish, finish_file
from finishcalc.problems import ProblemsFound
from tests.builders import BARE, CLOTH, METRIC, quoted, sample

CHOICES: dict[KeyPath, str] = {
    ("backing", "fabric"): "fabrics",
    ("batting", "product"): "battings",
    ("quilting", "style"): "styles",
    ("quilting", "method"): "methods",
}


def by_value(result: Finishing, path: KeyPath, *values: object) -> dict[object, int | None]:
    return {value: None if adds is None else adds.minor for value, adds in differences_of(result, path, values)}


def test_each_style_is_told_by_its_rate():
    """60 x 80 = 4,800 sq in at 0.03 edge to edge, 0.045 dense and 0.08 custom: 144.00, 216.00 and 384.00."""
    found = by_value(quoted(BARE), ("quilting", "style"), "open-meander", "dense-pantograph", "custom")
    assert found == {"open-meander": 0, "dense-pantograph": 7200, "custom": 24000}


def test_a_value_with_which_the_project_does_not_work_out_has_no_difference():
    """Ties need a method that ties, and nobody knows the last style."""
    found = by_value(quoted(BARE), ("quilting", "style"), "ties-4", "dense-pantograph", "no-such-style")
    assert found == {"ties-4": None, "dense-pantograph": 7200, "no-such-style": None}


def test_a_value_that_changes_the_top_is_planned_from_that_top():
    """50 x 80 = 4,000 sq in at 0.03 = 120.00, 24.00 less."""
    assert by_value(quoted(BARE), ("top", "width"), 50) == {50: -2400}


def test_the_values_after_one_that_was_enough_are_not_worked_out():
    def values() -> Iterator[str]:
        yield "custom"
        raise AssertionError("worked out a value that nobody asked for")

    value, adds = next(differences_of(quoted(BARE), ("quilting", "style"), values()))
    assert adds is not None
    assert (value, adds.minor) == ("custom", 24000)


@pytest.mark.parametrize("file", [CLOTH, METRIC, sample("lighthouse-bed-quilt.toml")], ids=lambda file: file.stem)
@pytest.mark.parametrize("path", [*CHOICES, ("binding", "attach")], ids=".".join)
def test_each_difference_is_that_of_the_file_with_that_value(file, path: KeyPath):
    result = finish_file(str(file))
    names = presets.own_names(CHOICES[path], result.resolved.project.units)[:4] if path in CHOICES else ["hand", "none"]
    for name, adds in differences_of(result, path, names):
        try:
            total = finish(result.resolved.changed(Change("", (), ((path, name),)))).quote.total
        except ProblemsFound:
            assert adds is None
        else:
            assert adds == total - result.quote.total
