"""Each caution is told beside the field that it is about, or with the whole quote."""

import ast
from collections.abc import Iterator
from typing import get_args, get_type_hints

import pytest

from finishcalc.counter.quote.cautions import KEYS, key_of_caution
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.changes.shop_values import spec_at
from finishcalc.model.files import ProjectFile
from finishcalc.plans.backing.supplied import SuppliedCloth
from finishcalc.plans.batting.brought import BroughtBatting
from tests.builders import ROOT

MAKERS = {"Caution", "caution", "blocking_caution", "caution_in_house"}
VERDICTS = {"supplied.verdict": SuppliedCloth, "brought.verdict": BroughtBatting}
"""The records whose verdict is part of a code."""


def codes(text: str) -> Iterator[str]:
    """The code of each caution that a text makes; a code with a verdict in it once for each verdict there may be."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in MAKERS:
            code = node.args[0]
            if isinstance(code, ast.Constant):
                yield str(code.value)
            elif isinstance(code, ast.JoinedStr):
                start, verdict = code.values
                assert isinstance(start, ast.Constant)
                assert isinstance(verdict, ast.FormattedValue)
                record = VERDICTS[ast.unparse(verdict.value)]
                yield from (f"{start.value}{each}" for each in get_args(get_type_hints(record)["verdict"]))
            else:
                assert ast.unparse(code) == "code", f"a caution whose code is {ast.unparse(code)}"


def test_every_code_that_the_program_can_give_has_its_key_or_is_of_the_whole_quote():
    paths = (ROOT / "finishcalc").rglob("*.py")
    given = {code for path in paths for code in codes(path.read_text(encoding="utf-8"))}
    assert len(given) > 50
    assert given == KEYS.keys()


@pytest.mark.parametrize(
    "text", ['caution("a", "b")', 'yield Caution("a", say("b"), "c")', 'x = caution_in_house("a")']
)
def test_a_code_is_found_wherever_a_caution_is_made(text: str):
    body = f"def f():\n    {text}\n"
    assert list(codes(body)) == ["a"]


@pytest.mark.parametrize("key", sorted(set(KEYS.values()) - {""}))
def test_each_of_these_keys_is_one_of_a_project_file(key: str):
    assert spec_at(ProjectFile, key_path(key)) is not None


def test_a_caution_of_the_whole_quote_is_about_no_key():
    assert [key_of_caution(code) for code in ("tax", "candles")] == ["", "top.use"]
