"""Days as a file writes them: a lead, days that the studio is closed, and the readers of both."""

import re
from datetime import date, timedelta
from typing import Literal, NamedTuple

from finishcalc.measures.numbers import MeasureError
from finishcalc.model.reading import FileUnits, take_date
from finishcalc.problems import ProblemCode
from finishcalc.wording.words import counted

LEAD = re.compile(r"([0-9]{1,3}) *(day|week)s?", re.ASCII)
LONGEST_LEAD = {"day": 730, "week": 104}
"""The longest lead, two years of either unit."""
LONGEST_CLOSED = timedelta(days=366)
"""The longest that a studio is closed at a stretch."""


class Lead(NamedTuple):
    """The time from the day a job is agreed to the day it is done: so many open days, or weeks of the calendar."""

    number: int
    unit: Literal["day", "week"]

    def __str__(self) -> str:
        """Write it as a file does: "3 weeks"."""
        return counted(self.number, self.unit)


class ClosedDays(NamedTuple):
    """Days on which the studio is closed, from the first to the last of them."""

    first: date
    last: date


def take_lead(value: object, _: FileUnits) -> Lead:
    """A lead such as "3 weeks" or "10 days". Months are refused, because they differ in length."""
    match = LEAD.fullmatch(value.strip()) if isinstance(value, str) else None
    if not match:
        hint = 'write days or weeks in quotes: "3 weeks", "10 days"'
        raise MeasureError(ProblemCode.NOT_A_LEAD, "is not a lead", hint)
    lead = Lead(int(match[1]), "day" if match[2] == "day" else "week")
    if lead.number > LONGEST_LEAD[lead.unit]:
        hint = f"it must be from 0 to {LONGEST_LEAD[lead.unit]} {lead.unit}s"
        raise MeasureError(ProblemCode.OUT_OF_BOUNDS, f"{value} is out of bounds", hint)
    return lead


def take_closed_days(value: object, reading: FileUnits) -> ClosedDays:
    """A day, or the first and the last of several: "2026-12-24..2027-01-02"."""
    if isinstance(value, str):
        first, dots, last = (part.strip() for part in value.partition(".."))
        days = ClosedDays(_written_day(first, reading), _written_day(last if dots else first, reading))
    else:
        days = ClosedDays(*[take_date(value, reading)] * 2)
    if days.last < days.first:
        hint = "write the first day first"
        raise MeasureError(ProblemCode.CLOSED_BACKWARDS, "ends before it begins", hint)
    if days.last - days.first > LONGEST_CLOSED:
        raise MeasureError(ProblemCode.OUT_OF_BOUNDS, "is longer than a year", "write a stretch for each year")
    return days


def _written_day(text: str, reading: FileUnits) -> date:
    try:
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text, re.ASCII):
            raise ValueError
        day = date.fromisoformat(text)
    except ValueError:
        hint = 'write a day as 2026-05-25, several as "2026-12-24..2027-01-02"'
        raise MeasureError(ProblemCode.NOT_A_DATE, "is not a day that the calendar has", hint) from None
    return take_date(day, reading)
