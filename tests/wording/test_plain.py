"""Text from a file is shown, never obeyed: no character may move the cursor, turn the line or hide."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain, plain_lines

# The characters of each family and how they must stand, from the Unicode Character Database.
CONTROL = [("\x00", "\\u0000"), ("\x07", "\\u0007"), ("\x1b", "\\u001b"), ("\t", "\\u0009"), ("\n", "\\u000a"),
           ("\r", "\\u000d"), ("\x7f", "\\u007f"), ("\x85", "\\u0085"), ("\x9b", "\\u009b")]  # fmt: skip
BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
LINE_ENDS = "\n\r\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029"
INVISIBLE = "\u00ad\u180e\u200b\u2060\u2061\u2064\ufeff\ufff9\U000e0001\U000e0041"
INVISIBLE_LETTERS = (
    "\u034f\u115f\u1160\u3164\uffa0"  # Default_Ignorable_Code_Point, though letters or marks by category
)
NOT_TEXT = "\ud800\udfff\ue000\ufffe\uffff\U0010ffff"


@pytest.mark.parametrize(("char", "shown"), CONTROL)
def test_control_characters_are_shown(char, shown):
    assert plain(f"a{char}b") == f"a{shown}b"


@pytest.mark.parametrize("char", BIDI, ids=ascii)
def test_direction_marks_are_shown(char):
    """All of Bidi_Control: UAX 9, Explicit Directional Embedding, Override and Isolate Formatting Characters."""
    assert plain(f"a{char}b") == f"a\\u{ord(char):04x}b"


@pytest.mark.parametrize("char", INVISIBLE, ids=ascii)
def test_invisible_characters_are_shown(char):
    assert plain(char).isascii()
    assert plain(char).startswith(("\\u", "\\U"))


@pytest.mark.parametrize("char", INVISIBLE_LETTERS, ids=ascii)
def test_letters_and_marks_that_print_nothing_are_shown(char):
    """A name of nothing but fillers would look like no name at all."""
    assert plain(char).isascii()


@pytest.mark.parametrize("char", NOT_TEXT, ids=ascii)
def test_what_is_no_text_is_shown_so_that_it_can_be_written(char):
    assert plain(char).isascii()
    assert plain(char).encode("utf-8")


def test_a_terminal_command_in_a_name_stays_text():
    assert plain("\x1b[2JEve\x1b]0;owned\x07") == "\\u001b[2JEve\\u001b]0;owned\\u0007"


def test_characters_beyond_four_digits_have_eight():
    assert plain("\U000e0041") == "\\U000e0041"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Grandmother's garden",
        "Größe ½ × 3 €",
        "キルト",
        "שמיכה",
        "رضائی",
        "क्षि",
        "a\u200cb",
        "👩\u200d👧",
        "é",
        "e\u0301",
    ],
)
def test_text_in_any_script_is_left_alone(text):
    """Joiners belong to the spelling of some scripts and to emoji."""
    assert plain(text) == text


@pytest.mark.parametrize("end", LINE_ENDS, ids=ascii)
def test_one_line_stays_one_line(end):
    assert len(plain(f"a{end}b").splitlines()) == 1


def test_a_text_of_several_lines_keeps_its_line_feeds_and_nothing_else():
    assert plain_lines("a\r\nb\nc") == "a\nb\nc"
    assert plain_lines("a\rb\x1b") == "a\\u000db\\u001b"


@given(st.text(alphabet=st.characters()))
def test_any_text_becomes_one_line_that_can_be_written(text):
    shown = plain(text)
    assert len(shown.splitlines()) <= 1
    assert shown.encode("utf-8").decode("utf-8") == shown
    assert not {unicodedata.category(char) for char in shown} & {"Cc", "Zl", "Zp", "Cs", "Co"}
    assert not set(BIDI) & set(shown)


@given(st.text(alphabet=st.characters()))
def test_what_is_shown_once_is_not_shown_again(text):
    assert plain(plain(text)) == plain(text)


@given(st.text(alphabet=st.characters()))
def test_a_text_of_lines_has_as_many_as_its_line_feeds(text):
    assert plain_lines(text).count("\n") == text.count("\n")


def test_a_name_in_a_sentence_is_shown_too():
    assert Notation("in").show("Eve\x1b[0m\u202e") == "Eve\\u001b[0m\\u202e"
