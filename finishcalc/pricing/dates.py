"""The dates of a job: when its lead is over, when its work alone could be done, and the rush that is due sooner."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from finishcalc.model.days import Lead
from finishcalc.model.keys import Day
from finishcalc.model.prices import RushBand, Shop
from finishcalc.model.project import Project
from finishcalc.model.section import Figure
from finishcalc.plans.calendar import (
    add_lead,
    after,
    last_open_day,
    open_days_until,
    work_ends,
)
from finishcalc.plans.cautions import Caution, caution_in_house
from finishcalc.plans.hours import Hours
from finishcalc.wording.sentence import Share, Value
from finishcalc.wording.words import counted


class Dates(NamedTuple):
    """The days of a job from its `date`. By the `lead`, which ends on `lead_ends`, it is `ready`: the same day, or the
    next open one; a lead of none says nothing. Its work alone could be done on `work_ends`, None where that is years
    away. It is `due` after so many `open_days`, or at no certain time; `last_day` is the last open one until then. The
    `band` is the rush that is proposed for it, and `figures` are those that this rests on."""

    date: Day
    due: Day | None
    lead: Lead
    lead_ends: Day
    ready: Day
    work_ends: Day | None
    open_days: int | None
    last_day: Day | None
    band: RushBand | None
    figures: tuple[Figure[Any], ...]

    @property
    def is_late(self) -> bool:
        """Tell a due date that the lead does not reach."""
        return self.due is not None and bool(self.lead.number) and self.due < self.ready


def job_dates(project: Project, shop: Shop, hours: Hours) -> Dates | None:
    """Work out the dates of a job; None for one that has no date."""
    job, week, lead = project.job, project.week, shop.studio.lead
    if job.date is None:
        return None
    ready = add_lead(week, job.date, lead.value)
    dates = Dates(
        date=job.date,
        due=job.due,
        lead=lead.value,
        lead_ends=after(job.date, 7 * lead.value.number) if lead.value.unit == "week" else ready,
        ready=ready,
        work_ends=work_ends(week, job.date, hours.attended, hours.frame),
        open_days=open_days_until(week, job.date, job.due) if job.due else None,
        last_day=last_open_day(week, job.due) if job.due else None,
        band=None,
        figures=(lead,) if lead.value.number else (),
    )
    if not dates.is_late or not (band := _band(shop.rush.value, dates.open_days or 0)):
        return dates
    return dates._replace(band=band, figures=(*dates.figures, shop.rush))


def _band(bands: tuple[RushBand, ...], days: int) -> RushBand | None:
    """Give the shortest band that holds so many open days."""
    holding = [band for band in bands if days <= band.within_days]
    return min(holding, key=lambda band: band.within_days, default=None)


def date_cautions(dates: Dates, project: Project, take_rush: Mapping[str, object]) -> Iterator[Caution]:
    """Warn the studio of a due date that comes before the lead is over or the work can be done, or on a closed day.
    `take_rush` are the keys that charge the rush of the band."""
    if dates.due is None:
        return
    if dates.is_late:
        yield _late(dates, project, take_rush)
    if dates.work_ends is None or dates.due < dates.work_ends:
        ends = "takes until {ends}" if dates.work_ends else "takes years"
        text = "The work alone " + ends + ", with nothing else in hand, at the week's hours: it is due {due}."
        yield caution_in_house("work-past-due", text, due=dates.due, **_known("ends", dates.work_ends))
    if dates.last_day != dates.due:
        text = "The studio is closed on {due}, when it is due: the last open day before that is {last}."
        yield caution_in_house("due-on-closed-day", text, due=dates.due, **_known("last", dates.last_day))


def _late(dates: Dates, project: Project, take_rush: Mapping[str, object]) -> Caution:
    text = "It is due {due}, {days} after {date}, but your lead of {lead} runs to {ready}."
    charged = project.charges.rush if project.charges.rush_classes else Fraction(0)
    band = dates.band
    more: dict[str, Value] = {}
    if band and charged < band.share:
        text += " Your rush charge within {within} is {share}; " + ("{charged}" if charged else "none") + " is charged."
        more = {"share": Share(band.share), "within": counted(band.within_days, "open day"), "charged": Share(charged)}
    elif charged:
        text += " A rush of {charged} is charged."
        more = {"charged": Share(charged)}
    found = caution_in_house(
        "due-before-lead",
        text,
        due=dates.due or dates.ready,
        days=counted(dates.open_days or 0, "open day"),
        date=dates.date,
        lead=str(dates.lead),
        ready=dates.ready,
        **more,
    )
    return found._replace(take=take_rush) if "share" in more else found


def _known(name: str, day: Day | None) -> dict[str, Value]:
    return {name: day} if day else {}
