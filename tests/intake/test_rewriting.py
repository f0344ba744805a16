"""A value that is set is written into the file's own text: all the rest of it stays as it was, byte for byte."""

import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner

from finishcalc.commandline.app import app
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.source import Source

LAYOUTS = {
    "headers": "# a cloth\n\n[top]   # the top\nwidth = 60 # w\n\nlength   =  80\n",
    "blank lines at the end": "[top]\nwidth = 60\nlength = 80\n\n\n# the end\n\n",
    "dotted keys": "title = 'x'\ntop.width = 60 # w\n# between\ntop.length = 80\n# the end\n",
    "braces": "# first\ntop = { width = 60,   length = 80 } # the top\n\n# the end\n",
    "headers out of order": '[job]\nnumber = "1"\n\n[top.scallop]\nchord = 4\ndepth = 1 # d\n\n[customer]\nname = "A"\n'
    "# last\n[top]\nwidth=60\nlength=80\n",
    "a list of tables": "[top]\nwidth = 60\nlength = 80\n[[charges.lines]]\nlabel = 'a'\nprice = 3 # p\n",
    "text of several lines": "[job]\nnotes = '''\n[backing]\n# no comment\n'''\n[top]\nwidth = 60\nlength = 80\n",
}


def written(text: str, *tried: str) -> str:
    (trial,) = trials(list(tried))
    return project_toml(Source("top.toml", text), trial.change)


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize(
    ("tried", "added"),
    [
        (["backing.overage=3"], "[backing]\noverage = 3\n"),
        (["batting.overage=3", "batting.supplied_by=customer"], '[batting]\noverage = 3\nsupplied_by = "customer"\n'),
        (["backing.fabric.width=108"], "[backing.fabric]\nwidth = 108\n"),
        (
            ["quilting.style.angle=30", "quilting.colours=2"],
            "[quilting]\ncolours = 2\n\n[quilting.style]\nangle = 30\n",
        ),
    ],
)
def test_a_section_that_is_missing_is_added_at_the_end(layout: str, tried: list[str], added: str):
    text = LAYOUTS[layout]
    assert written(text, *tried) in (text + added, f"{text}\n{added}")


@pytest.mark.parametrize("layout", LAYOUTS)
def test_two_sections_that_are_missing_are_both_added(layout: str):
    text = LAYOUTS[layout]
    found = written(text, "backing.overage=3", "binding.extra=4")
    assert found.startswith(text)
    assert found[len(text) :].split() == ["[backing]", "overage", "=", "3", "[binding]", "extra", "=", "4"]


def test_a_text_without_its_last_line_end_gets_one():
    assert written("[top]\nwidth = 60\nlength = 80", "backing.overage=3") == (
        "[top]\nwidth = 60\nlength = 80\n\n[backing]\noverage = 3\n"
    )


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "[top]\nwidth = 60 # w\nlength = 80\n# next\n[backing]\noverage = 4\n",
            "[top]\nwidth = 60 # w\nlength = 80\n# next\n[top.covers]\ndrop = 3\n[backing]\noverage = 4\n",
        ),
        ("top = { width = 60 } # t\n# end\n", "top = { width = 60, covers = {drop = 3}} # t\n# end\n"),
        ("top.width = 60 # w\ntop.length = 80\n# end\n", None),
        ('[job]\nnumber = "1" # one\n\n[top.covers]\nbed = "queen"\n\n[customer]\n# last\n[top]\nuse = "bed"\n', None),
    ],
    ids=["headers", "braces", "dotted keys", "out of order"],
)  # fmt: skip
def test_a_table_within_a_section_is_put_where_the_section_is(text: str, expected: str | None):
    found = written(text, "top.covers.drop=3")
    kept = [line for line in found.splitlines() if "drop" not in line and line not in ("", "[top.covers]")]
    lines = [
        line for line in (expected or text).splitlines() if "drop" not in line and line not in ("", "[top.covers]")
    ]
    assert kept == lines
    assert tomllib.loads(found)["top"]["covers"]["drop"] == 3


@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["unix", "windows"])
def test_a_saved_size_keeps_the_line_ends_of_its_file(tmp_path: Path, end: str):
    lines = ["# a cloth", "", "[top]  # t", "width = 60", "length = 80", ""]
    (tmp_path / "top.toml").write_bytes(end.join(lines).encode())
    arguments = ["compare", str(tmp_path / "top.toml"), "--as", "50x70", "--set", "backing.overage=3"]
    assert CliRunner().invoke(app, [*arguments, "--write", str(tmp_path / "new")]).exit_code == 0
    (saved,) = (tmp_path / "new").iterdir()
    text = saved.read_bytes().decode()
    assert text.count("\n") == text.count(end)
    said = ["", "[top]  # t", "width = 50", "length = 70", "", "[backing]", "overage = 3", ""]
    assert text == end.join(["# a cloth", 'title = "top, 50x70"', *said])
