"""The studio's calendar: which days are open, and how days are counted over them. No day here is today's.

An open day is one on which somebody works by the hours of its weekday, and that is not closed. A job's first day of
work is the one after its date.
"""

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from fractions import Fraction
from functools import cache
from itertools import islice, takewhile

from finishcalc.model.days import ClosedDays, Lead
from finishcalc.model.shop import Week

DAY = timedelta(days=1)
TOO_FAR = timedelta(days=3650)
"""The end of a search for hours: whoever has a minute a day free would not be told of the next century."""


def open_days(week: Week, first: date) -> Iterator[date]:
    """Give the open days from `first` on, itself included, without end."""
    day, opens = first, _opening(week)
    while True:
        if opens(day):
            yield day
        day += DAY


def first_open_day(week: Week, day: date) -> date:
    """Give the day itself, or the next one that is open."""
    return next(open_days(week, day))


def last_open_day(week: Week, day: date) -> date:
    """Give the day itself, or the last one before it that is open."""
    opens = _opening(week)
    while not opens(day):
        day -= DAY
    return day


def add_open_days(week: Week, day: date, number: int) -> date:
    """Give the open day that comes so many after a day. For none, it is the day itself, or the next that is open."""
    return next(islice(open_days(week, day + DAY), number - 1, None)) if number else first_open_day(week, day)


def open_days_until(week: Week, day: date, last: date) -> int:
    """Count the open days after a day, up to the last."""
    return sum(1 for _ in takewhile(lambda each: each <= last, open_days(week, day + DAY)))


def add_lead(week: Week, day: date, lead: Lead) -> date:
    """Give the open day on which a job is done by a lead: weeks are of the calendar, and days are open days."""
    if lead.unit == "day":
        return add_open_days(week, day, lead.number)
    return first_open_day(week, after(day, 7 * lead.number))


def after(day: date, number: int) -> date:
    """Give the day that comes so many days of the calendar after a day."""
    return day + number * DAY


def work_ends(week: Week, day: date, attended: Fraction, frame: Fraction) -> date | None:
    """Give the open day after `day` on which so many minutes of work, and so many on the frame, are done with nothing
    else in hand; None where that is years away."""
    hands, rollers = week.attended.by_weekday, (week.frame or week.attended).by_weekday
    for each in takewhile(lambda each: each - day <= TOO_FAR, open_days(week, day + DAY)):
        attended -= 60 * hands[each.weekday()]
        frame -= 60 * rollers[each.weekday()]
        if attended <= 0 and frame <= 0:
            return each
    return None


def _opening(week: Week) -> Callable[[date], bool]:
    """Give the test for an open day, with what it looks up made once."""
    weekdays, closed = tuple(map(bool, week.attended.by_weekday)), _closed(week.closed)
    return lambda day: weekdays[day.weekday()] and day not in closed


@cache
def _closed(stretches: tuple[ClosedDays, ...]) -> frozenset[date]:
    """Gather the single days that are closed."""
    return frozenset(first + number * DAY for first, last in stretches for number in range((last - first).days + 1))
