"""A value that is set is written into the file's own text: all the rest of it stays as it was, byte for byte."""

import re
import tomllib
from difflib import unified_diff
from pathlib import Path

import pytest
from typer.testing import CliRunner

from finishcalc.commandline.app import app
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.source import Source
from tests.builders import PROJECTS

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


# --- no more is changed than must be ---------------------------------------------------------------------------------


def lines_changed(old: str, new: str) -> tuple[list[str], list[str]]:
    """The lines that are gone, and those that are new."""
    differences = [*unified_diff(old.split("\n"), new.split("\n"), lineterm="", n=0)][2:]
    return tuple([line[1:] for line in differences if line[0] == sign] for sign in "-+")  # type: ignore[return-value]


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_key_of_a_section_that_a_sample_lacks_adds_three_lines_and_keeps_all_others(path: Path):
    text = path.read_text(encoding="utf-8")
    gone, new = lines_changed(text, written(text, "backing.overage=3"))
    has_overage, has_section = "overage = { sides = 3, ends = 4 }" in text, re.search(r"^\[backing\]", text, re.M)
    if has_overage or "overage = 4  " in text:
        assert (len(gone), len(new)) == (1, 1)
    else:
        assert gone == []
        assert sorted(new) == sorted(["overage = 3"] if has_section else ["", "[backing]", "overage = 3"])


@pytest.mark.parametrize("tried", ["top.covers.drop=3", "top.sashing.width=2", "top.blocks.size=9"])
def test_a_table_between_others_stands_apart_from_both(tried: str):
    key, _, value = tried.rpartition("=")
    table, _, name = key.rpartition(".")
    text = "[top]\nwidth = 60 # w\n\n[binding]\nextra = 4\n"
    assert written(text, tried) == f"[top]\nwidth = 60 # w\n\n[{table}]\n{name} = {value}\n\n[binding]\nextra = 4\n"


def test_a_table_is_set_apart_from_the_comment_above_the_next():
    text = "[top]\nwidth = 60\n# of the edge\n[binding]\nextra = 4\n"
    assert written(text, "top.covers.drop=3") == (
        "[top]\nwidth = 60\n\n[top.covers]\ndrop = 3\n\n# of the edge\n[binding]\nextra = 4\n"
    )


def test_a_key_goes_above_the_comment_of_the_next_table():
    text = "[backing]\nseams = 'any'\n\n# of the edge\n# and its cloth\n[binding]\nextra = 4\n"
    assert written(text, "backing.overage=3") == text.replace("'any'\n", "'any'\noverage = 3\n")


def test_comments_that_say_the_same_each_stay_above_their_own_table():
    text = "[backing]\nseams = 'any'\n\n# cut\n[binding]\nextra = 4\n\n# cut\n[quilting]\ncolours = 2\n"
    assert written(text, "binding.join=straight") == text.replace("extra = 4\n", 'extra = 4\njoin = "straight"\n')


BORDER = "[[top.borders]]\ncut = 3 # as cut\n"


@pytest.mark.parametrize("borders", [0, 1, 2])
def test_a_border_that_is_added_is_a_table_after_the_others(borders: int):
    text = "[top]\nuse = 'bed' # u\n\n" + f"{BORDER}\n" * borders + "[binding]\nextra = 4\n"
    new = f"top.borders[{borders + 1}]"
    found = written(
        text, f"{new}.cut=4", f"{new}.corners=mitred", f"{new}.fabric={{ preset = 'cotton-44', name = 'x' }}"
    )
    fabric = 'fabric = {preset = "cotton-44", name = "x"}'
    added = f'[[top.borders]]\ncut = 4\ncorners = "mitred"\n{fabric}\n\n'
    assert found == text.replace("[binding]", f"{added}[binding]")


def test_a_whole_list_of_borders_is_written_as_tables_with_their_cloths_within_braces():
    text = "[top]\nuse = 'bed'\n\n[binding]\nextra = 4\n"
    cloth = {"preset": "cotton-44", "name": "x"}
    change = Change("", (), ((("top", "borders"), [{"cut": 4}, {"cut": 2, "fabric": cloth}]),))
    assert project_toml(Source("top.toml", text), change) == (
        "[top]\nuse = 'bed'\n\n[[top.borders]]\ncut = 4\n\n[[top.borders]]\ncut = 2\n"
        'fabric = {preset = "cotton-44", name = "x"}\n\n[binding]\nextra = 4\n'
    )


def test_a_list_within_braces_stays_within_braces():
    text = "[top]\nuse = 'bed'\nborders = [{ cut = 3 }]\n"
    change = Change("", (), ((("top", "borders"), [{"cut": 4}, {"cut": 2}]),))
    found = project_toml(Source("top.toml", text), change)
    assert "[[" not in found
    assert tomllib.loads(found)["top"]["borders"] == [{"cut": 4}, {"cut": 2}]


@pytest.mark.parametrize("comment", ["", " # as cut", "   # cm # really"])
@pytest.mark.parametrize("after", ["", "\n[binding]\nextra = 4\n", "\n# of the edge\n[binding]\nextra = 4\n"])
def test_the_last_key_of_a_section_leaves_no_litter_when_it_is_taken_out_and_put_in_again(comment: str, after: str):
    text = f"[top]\nwidth = 60\n\n[backing]\noverage = 4{comment}\n{after}"
    gone = written(text, "backing.overage=null")
    assert tomllib.loads(gone).get("backing", {}) == {}
    assert written(gone, "backing.overage=4") == text


def test_a_key_that_was_taken_out_comes_back_with_its_comment_and_another_value():
    text = "[backing]\n# overage = 4  # each side\nseams = 'any'\n"
    assert written(text, "backing.overage=3") == "[backing]\noverage = 3  # each side\nseams = 'any'\n"


@pytest.mark.parametrize(
    "remark",
    ["# overage = 4", "# overage of 4  # each side", "# seams = 'any'  # or lengthwise", "# [backing.sewn]  # x"],
)
def test_a_remark_that_is_no_key_with_a_comment_of_its_own_stays(remark: str):
    text = f"[backing]\n{remark}\n"
    assert written(text, "backing.overage=3") == f"{text}overage = 3\n"


def test_a_key_of_another_table_does_not_come_back():
    text = "[batting]\n# overage = 4  # of the batting\nproduct = 'none'\n\n[backing]\nseams = 'any'\n"
    assert written(text, "backing.overage=3") == f"{text}overage = 3\n"
