"""The dates of a job in words, for the studio."""

from finishcalc.plans.hours import Hours
from finishcalc.pricing.dates import Dates
from finishcalc.rendering.writing import hours_words
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import counted


def dates_words(dates: Dates, hours: Hours, notation: Notation) -> list[str]:
    """Say when the lead is over, when the work alone could be done, and when it is due, each as it is counted."""
    show = notation.show
    lines = [_lead(dates, notation)] if dates.lead.number else []
    frame = f" and {hours_words(hours.frame)} on the frame" if hours.frame else ""
    ends = f"{show(dates.work_ends)} at the earliest" if dates.work_ends else "years from now"
    lines.append(f"the work alone, {hours_words(hours.attended)} attended{frame} at the week's hours: {ends}")
    if dates.due and dates.open_days is not None:
        lines.append(f"due {show(dates.due)}, {counted(dates.open_days, 'open day')} after {show(dates.date)}")
    return lines


def _lead(dates: Dates, notation: Notation) -> str:
    """Say the day on which the lead is over, and the open one after it where that is closed."""
    show = notation.show
    lead = counted(dates.lead.number, "open day") if dates.lead.unit == "day" else str(dates.lead)
    ready = show(dates.ready)
    if dates.lead_ends != dates.ready:
        ready = f"{show(dates.lead_ends)} is closed, so {ready}"
    return f"a lead of {lead} from {show(dates.date)}: {ready}"
