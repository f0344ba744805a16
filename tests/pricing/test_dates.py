"""A job's dates: its lead, its own work, the rush that is proposed and never charged, and the day of the deposit.

May 4, 2026 is a Monday, March 2, 2026 too; the studio works from Monday to Friday.
"""

import json
import re
from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.commandline.views import quote_document
from finishcalc.pipeline import Finishing
from finishcalc.rendering.writing import notation_of
from tests.builders import CLOTH, OUTPUT, TOP, in_shop, quote_text, quoted, tried

WEEK = "[week]\nattended = { monday = 4, tuesday = 4, wednesday = 4, thursday = 4, friday = 4 }\n"
LEAD = "[studio]\nlead = '3 weeks'\n" + WEEK
RUSH = LEAD + ("[[rush]]\nwithin_days = 10\nshare = '25 %'\n[[rush]]\nwithin_days = 3\nshare = '50 %'\n")
"""The longer band first, because their order says nothing."""


def job(date: str = "2026-05-04", due: str = "", more: str = "") -> str:
    lines = f"date = {date}\n" * bool(date) + f"due = {due}\n" * bool(due)
    return f"{TOP}[job]\n{lines}{more}"


def unbroken(page: str) -> str:
    """A page as one line."""
    return " ".join(page.split())


def told(result: Finishing) -> dict[str, str]:
    """The studio's cautions about dates, by their codes."""
    codes = ("due-before-lead", "work-past-due", "due-on-closed-day")
    notation = notation_of(result, "studio")
    return {
        each.code: notation.write(each.sentence).replace("\u00a0", " ")
        for each in result.cautions
        if each.code in codes
    }


@pytest.mark.parametrize(
    ("due", "late"),
    [("2026-05-22", True), ("2026-05-24", True), ("2026-05-25", False), ("2026-06-01", False)],
)
def test_a_due_date_before_the_lead_is_over_is_a_caution(tmp_path: Path, due: str, late: bool):
    """May 4 and 21 days is May 25, which reaches a due date of that very day."""
    assert ("due-before-lead" in told(in_shop(tmp_path, LEAD, job(due=due)))) is late


def test_a_closed_day_moves_the_end_of_the_lead(tmp_path: Path):
    shut = LEAD + "closed = [2026-05-25]\n"
    result = in_shop(tmp_path, shut, job(due="2026-05-25"))
    assert told(result)["due-before-lead"].startswith(
        "It is due May 25, 2026, 14 open days after May 4, 2026, but your lead of 3 weeks runs to May 26, 2026."
    )
    page = unbroken(quote_text(result, "studio"))
    assert "Dates a lead of 3 weeks from May 4, 2026: May 25, 2026 is closed, so May 26, 2026 the work alone" in page


def test_without_a_date_or_a_lead_nothing_is_said(tmp_path: Path):
    for result in (
        in_shop(tmp_path, LEAD, job(date="", due="2026-05-06")),
        in_shop(tmp_path, LEAD, TOP),
    ):
        assert not told(result)
        assert result.dates is None
        assert "\nDates " not in quote_text(result, "studio")
        assert json.loads(quote_document(result))["dates"] is None
    without_lead = in_shop(tmp_path, "[studio]\nlead = '0 days'\n" + WEEK, job(due="2026-05-15"))
    assert not told(without_lead)
    assert "a lead of" not in unbroken(quote_text(without_lead, "studio"))


@pytest.mark.parametrize(
    ("due", "share"),
    [
        ("2026-05-07", "50 %"),  # 5, 6, 7: 3 open days
        ("2026-05-08", "25 %"),  # 4
        ("2026-05-18", "25 %"),  # 10
        ("2026-05-19", None),  # 11: no band is so long
        ("2026-05-25", None),  # the lead reaches it
    ],
)
def test_the_shortest_band_that_holds_the_days_is_proposed(tmp_path: Path, due: str, share: str | None):
    result = in_shop(tmp_path, RUSH, job(due=due))
    (proposed,) = [each.take for each in result.cautions if each.code == "due-before-lead"] or [{}]
    assert proposed == ({"charges.rush": share} if share else {})
    assert (f"is {share}; none is charged." in told(result).get("due-before-lead", "")) is (share is not None)


def test_a_value_to_copy_from_the_page_stays_on_one_line(tmp_path: Path):
    result = in_shop(tmp_path, RUSH, job(due="2026-05-07"))
    for width in range(40, 90):
        assert 'charges.rush="50 %"' in quote_text(result, "studio", width=width)


def test_a_rush_is_charged_only_once_the_project_takes_it(tmp_path: Path):
    """By what the page says to write: 50 % of the labour, and the caution then says that it is charged."""
    result = in_shop(tmp_path, RUSH, job(due="2026-05-07"))
    assert not [line for line in result.quote.lines if line.kind == "rush"]
    assert 'To take it: charges.rush="50 %"' in unbroken(quote_text(result, "studio"))
    labour = sum(line.amount.minor for line in result.quote.lines if line.line_class == "labour")

    taken = in_shop(tmp_path, RUSH, job(due="2026-05-07") + "[charges]\nrush = '50 %'\n")
    (rush,) = (line for line in taken.quote.lines if line.kind == "rush")
    assert rush.amount.minor == (labour + 1) // 2
    assert told(taken)["due-before-lead"].endswith(" A rush of 50 % is charged.")
    assert "To take it:" not in unbroken(quote_text(taken, "studio"))


@pytest.mark.parametrize(("share", "written"), [("12.5 %", "12 1/2 %"), ("33.333 %", "33 333/1000 %")])
def test_a_share_that_is_not_whole_is_taken_as_it_is_written(tmp_path: Path, share: str, written: str):
    shop = LEAD + f"[[rush]]\nwithin_days = 5\nshare = '{share}'\n"
    result = in_shop(tmp_path, shop, job(due="2026-05-07"))
    (proposed,) = (each.take for each in result.cautions if each.code == "due-before-lead")
    assert proposed == {"charges.rush": written}
    taken = in_shop(tmp_path, shop, job(due="2026-05-07") + f"[charges]\nrush = '{written}'\n")
    assert taken.resolved.project.charges.rush == Fraction(share.removesuffix(" %")) / 100


def test_a_smaller_rush_than_the_band_s_is_said_to_be_one(tmp_path: Path):
    result = in_shop(tmp_path, RUSH, job(due="2026-05-07") + "[charges]\nrush = '10 %'\n")
    assert told(result)["due-before-lead"].endswith("Your rush charge within 3 open days is 50 %; 10 % is charged.")


def test_work_that_cannot_be_done_by_its_due_date_is_a_caution_of_its_own(tmp_path: Path):
    """Two days of 4 h hold 8 h; the quilt takes more than an hour, which one of 1/2 h a day does not."""
    enough = in_shop(tmp_path, LEAD, job(due="2026-05-06"))
    assert 60 < enough.plans.hours.attended <= 480
    assert "work-past-due" not in told(enough)
    slow = LEAD.replace("= 4", "= 0.5")
    late = in_shop(tmp_path, slow, job(due="2026-05-06"))
    half_hours = -(-enough.plans.hours.attended // 30)
    assert half_hours > 2
    assert "The work alone takes until " in told(late)["work-past-due"]
    assert "it is due May 6, 2026." in told(late)["work-past-due"]


def test_work_for_a_frame_that_is_never_free_takes_years(tmp_path: Path):
    result = in_shop(tmp_path, LEAD + "frame = { monday = 0 }\n", job(due="2026-06-05"))
    assert told(result) == {
        "work-past-due": "The work alone takes years, with nothing else in hand, at the week's hours: "
        "it is due June 5, 2026."
    }
    assert "at the week's hours: years from now" in unbroken(quote_text(result, "studio"))


def test_a_due_date_on_a_closed_day_is_a_caution(tmp_path: Path):
    """June 6, 2026 is a Saturday."""
    result = in_shop(tmp_path, LEAD, job(due="2026-06-06"))
    assert told(result) == {
        "due-on-closed-day": "The studio is closed on June 6, 2026, when it is due: "
        "the last open day before that is June 5, 2026."
    }


def test_weekdays_that_are_not_named_are_closed(tmp_path: Path):
    """A shop that names two days has no third one from the sample: 10 open days are five weeks."""
    two_days = "[studio]\nlead = '10 days'\n[week]\nattended = { monday = 5, thursday = 5 }\n"
    result = in_shop(tmp_path, two_days, job())
    assert result.dates
    assert result.dates.ready.isoformat() == "2026-06-08"  # May 7, 11, 14, 18, 21, 25, 28, June 1, 4, 8


def test_one_day_of_the_week_is_tried_and_the_others_stay():
    (result,) = tried(CLOTH, "week.attended.monday=2")
    assert [int(hours) for hours in result.resolved.project.week.attended.by_weekday] == [2, 6, 6, 6, 6, 0, 0]


def test_the_cautions_about_dates_are_the_studio_s_alone(tmp_path: Path):
    result = in_shop(tmp_path, RUSH, job(due="2026-05-06"))
    assert told(result)
    page = quote_text(result, "customer", explain=True, defaults=True)
    document = quote_document(result, "customer")
    for word in ("studio.lead", "a lead", "rush[", "your rush", "within_days", "week", "open day"):
        assert word not in unbroken(page).lower()
    assert not {"dates", "notes_studio"} & json.loads(document).keys()


def test_the_studio_s_document_holds_the_dates(tmp_path: Path):
    result = in_shop(tmp_path, RUSH, job(due="2026-05-07"))
    document = json.loads(quote_document(result))
    assert document["dates"] == {
        "lead": "3 weeks",
        "ready": "2026-05-25",
        "work_ends": document["dates"]["work_ends"],
        "open_days_until_due": 3,
        "rush": {"within_days": 3, "percent": "50", "take": {"charges.rush": "50 %"}},
    }


def test_a_lead_and_a_rush_of_the_sample_are_named_as_samples(tmp_path: Path):
    assert {"studio.lead", "rush"} <= set(json.loads(quote_document(quoted(job(due="2026-05-06"))))["samples"])
    own = json.loads(quote_document(in_shop(tmp_path, RUSH, job(due="2026-05-06"))))["samples"]
    assert not {"studio.lead", "rush"} & set(own)


# ---- the deposit --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("days", "dates", "due"),
    [
        (7, job(), "2026-05-11"),
        (0, job(), "2026-05-04"),
        (7, job(due="2026-05-08"), "2026-05-08"),  # never after the work is
        (7, job(date=""), None),
    ],
)
def test_a_deposit_is_due_so_many_days_after_the_date(tmp_path: Path, days: int, dates: str, due: str | None):
    result = in_shop(tmp_path, f"[deposit]\npercent = '50 %'\ndue_days = {days}\n", dates)
    for reader in ("customer", "studio"):
        assert json.loads(quote_document(result, reader))["quote"]["deposit_due"] == due  # type: ignore[arg-type]
        assert ("The deposit is due by May " in quote_text(result, reader)) is (due is not None)  # type: ignore[arg-type]


def test_a_quote_without_a_deposit_says_nothing_of_one(tmp_path: Path):
    assert "deposit" not in quote_text(in_shop(tmp_path, "[deposit]\npercent = '0 %'\n", job()), "customer").lower()


# ---- notes for the studio alone -----------------------------------------------------------------------------


def test_notes_for_the_studio_are_on_its_work_order_and_nowhere_else(tmp_path: Path):
    secret = "She never pays on time."
    result = in_shop(
        tmp_path, RUSH, job(due="2026-05-07", more=f"notes = 'Mind the cat.'\nnotes_studio = '{secret}'\n")
    )
    holding = [name for name, output in OUTPUT.items() if secret in " ".join(output(result).split())]
    assert holding == ["studio", "studio, explained", "narrow", "studio's document"]
    assert f"Work order  {secret}\n            1. load it" in quote_text(result, "studio")
    assert secret not in quote_text(result, "customer", explain=True, defaults=True)
    shop_s = in_shop(tmp_path, f"[usual.job]\nnotes_studio = '{secret}'\n")
    assert secret not in quote_text(shop_s, "customer", defaults=True)
    assert secret in " ".join(quote_text(shop_s, "studio", defaults=True).split())


def test_what_is_ordered_takes_its_days_too(tmp_path: Path):
    """Ten ordered hours at 4 open hours a day end later than the same work without them (derived)."""
    extra = "[extras]\ncare = { label = 'Mended', price = 1, per = 'each', line_class = 'labour', minutes = 600 }\n"
    plain, ordered = (in_shop(tmp_path, LEAD + extra, job() + more) for more in ("", "[charges]\nextras = ['care']\n"))
    assert plain.dates
    assert ordered.dates
    assert (ordered.dates.work_ends - plain.dates.work_ends).days >= 2


def test_the_days_of_the_work_are_told_with_the_hours_that_make_them(tmp_path: Path):
    """The same job with ten hours of mending ordered says 600 min more, and the rest of the page agrees with it."""
    extra = "[extras]\ncare = { label = 'Mended', price = 1, per = 'each', line_class = 'labour', minutes = 600 }\n"
    attended = []
    for more in ("", "[charges]\nextras = ['care']\n"):
        page = unbroken(quote_text(in_shop(tmp_path, LEAD + extra, job() + more), "studio").replace("\u00a0", " "))
        found = re.search(r"the work alone, (\d+) h (?:(\d+) min )?attended", page)
        assert found
        attended.append(int(found[1]) * 60 + int(found[2] or 0))
    assert attended[1] - attended[0] == 600


def test_the_frame_is_free_when_somebody_works(tmp_path: Path):
    """A studio that works at weekends alone has no frame hours of the sample's Monday to Friday: 12 h a week."""
    weekend = "[studio]\nlead = '3 weeks'\n[week]\nattended = { saturday = 6, sunday = 6 }\n"
    result = in_shop(tmp_path, weekend, job())
    assert result.dates
    assert result.dates.work_ends
    assert result.dates.work_ends.weekday() in (5, 6)
    assert (result.dates.work_ends - result.dates.date).days <= 14


def test_a_rush_on_no_class_of_lines_is_not_told_as_charged(tmp_path: Path):
    rush = "[charges]\nrush = '25 %'\nrush_classes = []\n"
    late = told(in_shop(tmp_path, RUSH, job(due="2026-05-06") + rush))["due-before-lead"]
    assert late.endswith("Your rush charge within 3 open days is 50 %; none is charged.")
