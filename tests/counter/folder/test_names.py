"""Names of files made of what people type."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.counter.folder.contained import is_plain_name
from finishcalc.counter.folder.names import file_name
from finishcalc.intake.folders import is_draft
from finishcalc.problems import ProblemCode, ProblemsFound


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("Supper cloth", "Supper-cloth.toml"),
        ("  supper.toml ", "supper.toml"),
        ("supper.TOML", "supper.toml"),
        ("Überwurf für Ann", "Überwurf-für-Ann.toml"),
        ("U\u0308berwurf", "Überwurf.toml"),
        ("60 x 70, 2nd try", "60-x-70,-2nd-try.toml"),
        ("../../etc/passwd", "etc-passwd.toml"),
        ("C:\\quilts\\lap", "C-quilts-lap.toml"),
        (".hidden", "hidden.toml"),
        (".finishcalc", "finishcalc.toml"),
        ("a\0b\nc", "a-b-c.toml"),
        ("nul", "quilt-nul.toml"),
        ("Con.toml", "quilt-Con.toml"),
        ("aux.old", "quilt-aux.old.toml"),
        ("COM\u00b9", "quilt-COM¹.toml"),
        ("console", "console.toml"),
        ("lap.draft", "lap-draft.toml"),
        ("lap.DRAFT.toml", "lap-draft.toml"),
        ("left\u202eright\u200b", "leftright.toml"),
        ('what? "why" <now>|*', "what-why-now.toml"),
        ("ends with dots...", "ends-with-dots.toml"),
        ("half \ud800 of one", "half-of-one.toml"),
    ],
)
def test_a_name_is_made_of_what_was_typed(typed: str, name: str):
    assert file_name(typed) == name


@pytest.mark.parametrize("typed", ["", " ", ".", "..", "/", ".toml", "\0", "\u202e", "-. -"])
def test_a_name_of_which_nothing_is_left_is_refused(typed: str):
    with pytest.raises(ProblemsFound) as found:
        file_name(typed)
    assert found.value.problems[0].code == ProblemCode.NO_FILE_NAMED


def test_a_long_name_is_cut_between_characters():
    # 195 bytes are left beside ".toml": 97 letters of two bytes each
    assert file_name("ü" * 300) == "ü" * 97 + ".toml"


@given(st.text() | st.text("./\\ \0ab-con.drftml", max_size=20) | st.text("é.", min_size=150))
def test_every_name_is_safe_and_made_again_of_itself(typed: str):
    try:
        name = file_name(typed)
    except ProblemsFound:
        return
    assert is_plain_name(name)
    assert not is_draft(name)
    assert len(name.encode()) <= 200
    assert not re.search(r'[\x00-\x20/\\:*?"<>|\x7f]', name)
    assert not re.fullmatch(r"(?i)(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", name)
    assert name.endswith(".toml")
    assert not name.startswith((".", "-"))
    assert file_name(name) == name
