"""The quilting and the hours as records of the whole document."""

from collections.abc import Callable
from fractions import Fraction

from finishcalc.measures.length import Length, Size
from finishcalc.plans.hours import Hours
from finishcalc.plans.quilting.frame import Loading
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.quilting.rows import UnevenRows, WholeRows
from finishcalc.plans.quilting.stitching import StitchedArea
from finishcalc.rendering.documents.writing import Record, number

Write = Callable[[Length], int | float]


def quilting_record(plan: QuiltingPlan, length: Write) -> Record:
    """Write the quilting alone, without its minutes; off the frame it has no loading, rows or passes."""
    threads = plan.threads
    return {
        "method": plan.method.name,
        "parts": [_area(area, length) for area in plan.areas],
        "stitched_length": length(plan.stitched_length),
        "ties": plan.ties,
        "thread_length": length(threads.total),
        "thread_top": length(threads.top),
        "thread_bobbin": length(threads.bobbin),
        "bobbins": threads.bobbins,
        "cones": threads.cones,
        "colours": plan.colours,
        "changes": plan.changes.total,
        "motifs": plan.motifs,
        "rows": plan.rows,
        "passes": plan.passes,
        "loaded": _loading(plan.loading, length) if plan.loading else None,
        "other": _loading(plan.other, length) if plan.other else None,
        "partial_row": _uneven(plan.uneven, length) if plan.uneven else None,
        "quilted": _size(plan.quilted, length),
        "washed": _size(plan.washed.largest, length),
        "washed_smallest": _size(plan.washed.smallest, length),
        "fits": plan.fits,
    }


def hours_record(hours: Hours) -> Record:
    """Minutes stage by stage, and in all."""
    names = ("low", "likely", "high", "planned", "attended", "frame")
    return {
        "minutes": {
            stage: {name: number(_together(hours, stage, name)) for name in ("low", "likely", "high")}
            for stage in dict.fromkeys(each.name for each in hours.stages)
        },
        "total_minutes": {name: number(getattr(hours, name)) for name in names},
    }


def _together(hours: Hours, stage: str, name: str) -> Fraction:
    """Stages that have one name are told together."""
    return sum((getattr(each, name) for each in hours.stages if each.name == stage), Fraction(0))


def _area(area: StitchedArea, length: Write) -> Record:
    return {
        "style": area.style.name,
        "lines": area.style.lines,
        "share": number(area.share * 100),
        "stitched_length": length(area.stitched),
        "ties": area.ties,
        "widest": length(area.style.widest_distance),
    }


def _size(size: Size, length: Write) -> Record:
    return {"width": length(size.width), "length": length(size.length)}


def _loading(loading: Loading, length: Write) -> Record:
    return {
        "way": loading.way,
        "along": length(loading.along),
        "down": length(loading.down),
        "rows": loading.rows,
        "passes": loading.passes,
        "fits": loading.fits,
        "fits_frame": loading.holds,
        "fits_throat": loading.reaches,
    }


def _uneven(uneven: UnevenRows, length: Write) -> Record:
    nearest = uneven.nearest
    return {
        "shows": length(uneven.partial),
        "even_rows": nearest.rows if nearest else None,
        "even_pitch": length(nearest.pitch) if nearest else None,
        "even_passes": nearest.paper_passes if nearest else None,
        "pitch_up": _whole_rows(uneven.pitch_up, length) if uneven.pitch_up else None,
        "pitch_down": _whole_rows(uneven.pitch_down, length),
    }


def _whole_rows(way: WholeRows, length: Write) -> Record:
    """Write one way to whole rows: a digital pattern is scaled, a paper one leaves a gap."""
    return {
        "rows": way.rows,
        "pitch": length(way.pitch),
        "scale_percent": way.scale,
        "passes": way.passes,
        "paper_gap": length(way.gap) if way.gap is not None else None,
        "paper_passes": way.paper_passes,
    }
