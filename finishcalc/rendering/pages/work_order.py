"""The studio's work order on paper: what to do in order, with room for what was found and how long it took."""

from collections.abc import Iterator

from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.cut import cut_groups
from finishcalc.rendering.pages.page import (
    BlankLines,
    Fact,
    Fields,
    Format,
    Group,
    Heading,
    Page,
    Paragraph,
    sentences,
)
from finishcalc.rendering.pages.quote import quote_head, work_parts
from finishcalc.rendering.pages.studio import minutes_table, planned_words, work_order_part
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.passes import passes_picture
from finishcalc.rendering.writing import hours_words, notation_of
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain


def work_order_sheet(result: Finishing) -> Page:
    """Make the work order: the arrival list, the work in its order with its pictures, and the minutes."""
    notation, project = notation_of(result, "studio"), result.resolved.project
    groups = [
        *_arrival(result, notation),
        *((part,) for part in work_parts(result, {}, "studio")),
        *cut_groups(result),
        *_quilting(result, notation),
        *_minutes(result, notation),
    ]
    head = quote_head(result, "studio")
    planned = Fact("Planned", hours_words(result.hours.planned))
    kind = f"Work order {plain(project.job.number)}" if project.job.number else "Work order"
    page_format = Format(result.resolved.shop.studio.paper)
    return Page(head._replace(kind=kind, facts=(*head.facts, planned)), tuple(groups), page_format, project.job.date)


def _arrival(result: Finishing, notation: Notation) -> Iterator[Group]:
    """List what to look at when the top arrives, and what to measure."""
    checks = [notation.write(check.sentence) for check in result.arrival]
    measured = ["Top, width", "Top, length"]
    measured += ["Backing, width", "Backing, length"] if result.plans.backing else []
    fields = Fields("As measured", tuple(Fact(name, "") for name in measured))
    yield sentences("On arrival", checks, "everywhere"), fields


def _quilting(result: Finishing, notation: Notation) -> Iterator[Group]:
    yield (Heading("Quilting"),)
    order = work_order_part(result, notation)
    yield (
        order._replace(
            lines=tuple(line._replace(tick="on paper" if line.number else "nowhere") for line in order.lines)
        ),
    )
    if picture := passes_picture(result.plans, notation):
        yield (Drawing("passes", picture, notation),)


def _minutes(result: Finishing, notation: Notation) -> Iterator[Group]:
    """Set the minutes with a column to write in what each stage took."""
    table = minutes_table(result.hours, notation)._replace(fill_in=("took",))
    yield (Heading("What it took"),)
    assumed = [notation.write(sentence) for sentence in result.plans.quilting.assumed]
    yield table, *(Paragraph(text, small=True) for text in (planned_words(result.hours), *assumed))
    yield (BlankLines("Seen on the way", 4),)
