"""The rates of the shop as a page of the studio's view: shown, saved, and never over what somebody else wrote."""

import os
import re
from html import unescape
from pathlib import Path

import pytest

from tests.counter.studio.asking import Asking, Browser, folder_with
from tests.counter.visiting import Response

NAME = "boathouse-supper-cloth.toml"
SHOP = """\
units = "in"   # ours

[rates]
wage = 42      # agreed with Jo
minimum = 80
"""


@pytest.fixture
def asking(tmp_path: Path) -> Asking:
    return Asking(folder_with(tmp_path, "boathouse-supper-cloth", shop=SHOP), None)


def in_view(asking: Asking) -> Browser:
    browser = asking.browser()
    browser.open_view(NAME)
    return browser


def fields(answer: Response) -> dict[str, str]:
    """The fields of the form of rates, as a browser would post them; of a choice the one that is selected."""
    form = re.search(r'<form method="post" action="/shop".*?</form>', answer.text, re.DOTALL)
    assert form, answer.text
    found = dict(re.findall(r'<input[^>]* name="([^"]+)"[^>]* value="([^"]*)"', form[0]))
    for name, options in re.findall(r'<select[^>]* name="([^"]+)".*?>(.*?)</select>', form[0], re.DOTALL):
        for value in re.findall(r'<option value="([^"]*)" selected>', options):
            found[name] = value
    return {unescape(name): unescape(value) for name, value in found.items()}


def post(browser: Browser, form: dict[str, str], **changes: str) -> Response:
    return browser.post("/shop", {name: [text] for name, text in {**form, **changes}.items()})


def test_there_are_no_rates_without_an_open_view(asking: Asking) -> None:
    browser = asking.browser()
    assert browser.get("/shop").headers["location"] == "/"
    assert post(browser, {"mark": "", "was:wage": "42", "wage": "1"}).headers["location"] == "/"
    assert (asking.folder / "shop.toml").read_text("utf-8") == SHOP


def test_rates_name_the_file_and_mark_the_samples(asking: Asking) -> None:
    answer = in_view(asking).get("/shop")
    assert "shop.toml, named by the project, in its folder" in unescape(answer.text)
    form = fields(answer)
    assert (form["wage"], form["minimum"], form["markup"]) == ("42", "80", "40 %")
    marks = dict(re.findall(r'id="rate-([a-z-]+)-usual">(.*?)</small>', answer.text))
    assert "sample" in marks["markup"]
    assert "sample" not in marks["wage"]


def test_saved_rates_keep_all_else_and_are_seen_in_the_view(asking: Asking) -> None:
    browser = in_view(asking)
    answer = post(browser, fields(browser.get("/shop")), wage="45")
    assert (answer.status, answer.headers["location"]) == (303, f"/p/{NAME}")
    assert (asking.folder / "shop.toml").read_text("utf-8") == SHOP.replace("wage = 42 ", "wage = 45 ")
    assert "the wage of $45.00" in browser.show(NAME).text


def test_form_posted_as_it_was_writes_nothing(asking: Asking) -> None:
    browser, file = in_view(asking), asking.folder / "shop.toml"
    before = file.stat().st_mtime_ns
    assert post(browser, fields(browser.get("/shop"))).status == 303
    assert file.stat().st_mtime_ns == before


def test_mistakes_stand_beside_their_questions_and_nothing_is_written(asking: Asking) -> None:
    browser = in_view(asking)
    answer = post(browser, fields(browser.get("/shop")), wage="a lot", deposit="200 %")
    assert answer.status == 422
    notes = dict(re.findall(r'id="rate-([a-z-]+)-note">(.*?)</p>', answer.text))
    assert "is not a number" in notes["wage"]
    assert "100 %" in notes["deposit"]
    assert not notes["minimum"]
    assert fields(answer)["wage"] == "a lot"
    assert (asking.folder / "shop.toml").read_text("utf-8") == SHOP


def test_file_that_changed_meanwhile_is_shown_beside_and_not_written_over(asking: Asking) -> None:
    browser, file = in_view(asking), asking.folder / "shop.toml"
    form = fields(browser.get("/shop"))
    theirs = SHOP.replace("minimum = 80", "minimum = 95")
    file.write_text(theirs, "utf-8")
    answer = post(browser, form, wage="45")
    assert answer.status == 409
    assert file.read_text("utf-8") == theirs
    assert "wage = 42" in answer.text
    assert "wage = 45" in answer.text
    assert "differs" in answer.text
    assert post(browser, fields(answer)).status == 303
    assert file.read_text("utf-8") == theirs.replace("wage = 42 ", "wage = 45 "), "their minimum stays"


def test_lines_of_windows_and_its_mark_come_back_as_they_were(asking: Asking) -> None:
    file = asking.folder / "shop.toml"
    file.write_bytes(b"\xef\xbb\xbf" + SHOP.replace("\n", "\r\n").encode())
    browser = in_view(asking)
    assert post(browser, fields(browser.get("/shop")), wage="45").status == 303
    assert (
        file.read_bytes() == b"\xef\xbb\xbf" + SHOP.replace("wage = 42 ", "wage = 45 ").replace("\n", "\r\n").encode()
    )


def test_users_own_shop_file_may_lie_anywhere_and_behind_a_link(tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    real, link = tmp_path / "kept.toml", tmp_path / "own.toml"
    real.write_text(SHOP, "utf-8")
    real.chmod(0o640)
    link.symlink_to(real)
    asking = Asking(folder_with(tmp_path / "jobs", "boathouse-supper-cloth"), str(link))
    browser = in_view(asking)
    answer = browser.get("/shop")
    assert "own.toml, named by --shop" in answer.text
    assert post(browser, fields(answer), wage="45").status == 303
    assert link.is_symlink()
    assert real.read_text("utf-8") == SHOP.replace("wage = 42 ", "wage = 45 ")
    assert real.stat().st_mode & 0o777 == 0o640


def test_no_address_and_no_field_names_another_file(asking: Asking, tmp_path: Path) -> None:
    other = tmp_path / "other.toml"
    other.write_text(SHOP, "utf-8")
    browser = in_view(asking)
    form = fields(browser.get("/shop?file=other.toml&shop=other.toml"))
    post(browser, form, wage="45", file=str(other), shop=str(other))
    assert other.read_text("utf-8") == SHOP
    assert "wage = 45" in (asking.folder / "shop.toml").read_text("utf-8")


def test_without_a_shop_file_it_says_how_to_make_one(tmp_path: Path) -> None:
    browser = in_view(Asking(folder_with(tmp_path, "boathouse-supper-cloth")))
    text = browser.get("/shop").text
    assert "finishcalc new-shop my-studio.toml" in text
    assert "<input" not in text
    assert sorted(os.listdir(tmp_path))[-1] == NAME


def test_file_that_cannot_be_written_is_left_and_told(asking: Asking, monkeypatch: pytest.MonkeyPatch) -> None:
    browser = in_view(asking)
    form = fields(browser.get("/shop"))

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("finishcalc.counter.studio.shop_file.replace", full)
    answer = post(browser, form, wage="45")
    assert answer.status == 422
    assert "45" not in (asking.folder / "shop.toml").read_text("utf-8")
