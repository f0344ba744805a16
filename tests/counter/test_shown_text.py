"""The text of a file as a customer may read it."""

from finishcalc.counter.shown_text import LEFT_OUT, shown_lines
from finishcalc.intake.source import Source


def shown(text: str) -> list[str]:
    return shown_lines(Source("quilt.toml", text))


def test_a_file_without_anything_of_the_studios_is_shown_as_it_is() -> None:
    lines = ['title = "x # 1"', "shop = 'a # b'", "", "[top]", "width = 60", "[[top.borders]]", "cut = 3"]
    assert shown("\n".join(lines) + "\n") == lines


def test_the_words_of_a_comment_are_left_out_because_they_may_say_anything() -> None:
    text = "# my wage is 30\ntitle = \"x # 1\"  # not this 30\n[top]\nwidth = '60' # 30\n"
    assert shown(text) == ["# …", 'title = "x # 1"  # …', "[top]", "width = '60' # …"]


def test_a_price_of_cloth_is_left_out_with_its_line() -> None:
    text = '[backing]\nfabric = { preset = "cotton-44", price = 11 }\noverage = 4\n'
    assert shown(text) == ["[backing]", f"fabric = {LEFT_OUT}", "overage = 4"]


def test_a_note_of_several_lines_is_left_out_whole() -> None:
    text = "[job]\nnotes_studio = '''\n# a\n[top]\nwidth = 61\n'''\nnumber = 'x'\n[top]\nwidth = 60\n"
    assert shown(text) == ["[job]", f"notes_studio = {LEFT_OUT}", "number = 'x'", "[top]", "width = 60"]


def test_what_is_on_hand_is_left_out() -> None:
    text = '[[on_hand]]\nname = "blue"\nlength = 77\n\n[top]\nwidth = 60\n'
    assert shown(text) == ["[[on_hand]]", f"name = {LEFT_OUT}", f"length = {LEFT_OUT}", "[top]", "width = 60"]


def test_controls_and_directions_are_shown_as_what_they_are() -> None:
    assert shown("title = '\u202ex'\n") == ["title = '\\u202ex'"]
