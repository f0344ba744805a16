"""Days counted over a calendar that hangs beside these tests.

     May 2026                   June 2026
Mo Tu We Th Fr Sa Su       Mo Tu We Th Fr Sa Su
             1  2  3        1  2  3  4  5  6  7
 4  5  6  7  8  9 10        8  9 10 11 12 13 14
11 12 13 14 15 16 17
18 19 20 21 22 23 24
25 26 27 28 29 30 31
"""

from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.model.days import ClosedDays, Lead
from finishcalc.model.shop import AttendedHours, DayHours, Week
from finishcalc.plans.calendar import (
    add_lead,
    add_open_days,
    first_open_day,
    last_open_day,
    open_days_until,
    work_ends,
)

DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
OFFICE = DAYS[:5]


def week(*days: str, hours: int = 6, frame: dict[str, int] | None = None, closed: tuple[ClosedDays, ...] = ()) -> Week:
    """A week with so many hours on these days, on the frame as well unless it is said otherwise."""
    attended = {name: Fraction(hours) for name in days or OFFICE}
    free = attended if frame is None else {name: Fraction(number) for name, number in frame.items()}
    return Week.new(attended=AttendedHours.new(**attended), frame=DayHours.new(**free), closed=closed)


def may(day: int) -> date:
    return date(2026, 5, day)


def june(day: int) -> date:
    return date(2026, 6, day)


def closed(first: date, last: date | None = None) -> tuple[ClosedDays, ...]:
    return (ClosedDays(first, last or first),)


@pytest.mark.parametrize(
    ("start", "weeks", "shut", "done"),
    [
        (may(4), 3, (), may(25)),  # Monday and 21 days
        (may(4), 3, closed(may(25)), may(26)),  # a holiday: the Tuesday
        (may(4), 3, closed(may(25), may(29)), june(1)),  # the whole week: the next Monday
        (may(9), 1, (), may(18)),  # Saturday and 7 days is a Saturday: the Monday
        (may(9), 0, (), may(11)),  # no lead: the next open day
        (may(8), 0, (), may(8)),
    ],
)
def test_weeks_of_a_lead_are_the_calendar_s_and_end_on_an_open_day(start, weeks, shut, done):
    assert add_lead(week(closed=shut), start, Lead(weeks, "week")) == done


@pytest.mark.parametrize(
    ("start", "days", "of", "shut", "done"),
    [
        (may(4), 10, OFFICE, (), may(18)),  # 5-8 are four, 11-15 nine, 18 the tenth
        (may(4), 10, OFFICE, closed(may(15)), may(19)),  # 11-14 make eight, so 18 is the ninth
        (may(4), 10, DAYS[:4], (), may(20)),  # 5-7 three, 11-14 seven, 18, 19, 20
        (may(9), 10, OFFICE, (), may(22)),  # from a Saturday: 11-15 and 18-22
        (may(4), 1, ("saturday",), (), may(9)),
        (may(4), 2, ("saturday",), closed(may(9), may(16)), may(30)),  # 9 and 16 closed: 23, 30
    ],
)
def test_days_of_a_lead_are_open_days(start, days, of, shut, done):
    assert add_lead(week(*of, closed=shut), start, Lead(days, "day")) == done


def test_open_days_are_counted_to_the_last_one():
    """5-8, 11-15, 18-22, 25-29 and June 1: 4 + 5 + 5 + 5 + 1."""
    assert open_days_until(week(), may(4), june(1)) == 20
    assert open_days_until(week(closed=closed(may(25))), may(4), june(1)) == 19
    assert open_days_until(week(), may(8), may(10)) == 0


def test_the_last_open_day_is_the_day_itself_or_one_before_it():
    assert last_open_day(week(), may(8)) == may(8)
    assert last_open_day(week(), may(10)) == may(8)
    assert last_open_day(week(closed=closed(may(7), may(8))), may(10)) == may(6)


@pytest.mark.parametrize(
    ("attended", "frame", "frame_hours", "done"),
    [
        (360, 0, None, may(5)),  # the 6 h of the day after
        (361, 0, None, may(6)),
        (360, 300, {"monday": 2, "tuesday": 2, "wednesday": 2, "thursday": 2}, may(7)),  # 5 h at 2 h a day: 5, 6, 7
        (60, 420, {"tuesday": 6}, may(12)),  # 7 h on a frame that is free on Tuesdays: 5 and 12
        (1900, 0, None, may(12)),  # 31 h 40 min: 5-8 give 24 h, 11 is 30, 12 is 36
    ],
)
def test_work_ends_once_the_hours_of_hands_and_frame_are_both_enough(attended, frame, frame_hours, done):
    assert work_ends(week(frame=frame_hours), may(4), Fraction(attended), Fraction(frame)) == done


def test_work_for_a_frame_that_is_never_free_has_no_end():
    assert work_ends(week(frame={}), may(4), Fraction(60), Fraction(1)) is None
    assert work_ends(week(frame={}), may(4), Fraction(60), Fraction(0)) == may(5)


@given(
    start=st.dates(date(2020, 1, 1), date(2030, 1, 1)),
    number=st.integers(1, 60),
    names=st.sets(st.sampled_from(DAYS), min_size=1),
    shut=st.integers(0, 20),
)
def test_days_that_are_added_are_counted_again(start, number, names, shut):
    """The n-th open day after a day is open, and is the n-th."""
    around = week(*names, closed=closed(start + timedelta(days=3), start + timedelta(days=3 + shut)))
    done = add_open_days(around, start, number)
    assert first_open_day(around, done) == done
    assert open_days_until(around, start, done) == number
