"""An estimate of the height of a printed page, because HTML cannot ask how high it will be.

It counts the lines of a page in ordinary letters, and finds how closely they have to be set to fit on one sheet. Where
it is wrong, the page is set a little closer than it need be, or flows on to a second sheet.
"""

from typing import Literal

from finishcalc.rendering.pages.page import (
    BlankLines,
    Block,
    Fact,
    Fields,
    Group,
    Head,
    Heading,
    Page,
    Paragraph,
    Part,
    Prices,
    Table,
)
from finishcalc.rendering.wrapping import display_width

Closeness = Literal["", "fitted", "close"]

ROOM = {"letter": 53.5, "A4": 57.2}
"""The lines of ordinary letters that a sheet holds between its margins."""
CLOSER = {"fitted": 0.92, "close": 0.82}
"""The height of a page that is set closer, as a share of its height in ordinary letters (measured in a browser)."""
DOUBT = 1.06
"""A page is set as closely as can be where it may be this much too long by the estimate."""
ACROSS, BESIDE = 100, 76
"""The letters in a line right across the page, and beside a label."""
DRAWING = 22.0
"""The lines that a drawing takes, about."""
FLOWING = 40.0
"""A group of so many lines begins where the one before it ends, because half a sheet would stay empty otherwise."""
GAP = 0.65
"""The lines between two groups."""


def closeness(page: Page) -> Closeness:
    """Give how closely a page that should be one sheet is set: not at all where it is too long for any."""
    if not page.format.fitted:
        return ""
    lines = _head(page.head) + sum(map(_group, page.groups))
    room = ROOM[page.format.paper]
    if lines <= room or lines * CLOSER["close"] > room * DOUBT:
        return ""
    return "fitted" if lines * CLOSER["fitted"] <= room else "close"


def flows(group: Group) -> bool:
    """Tell a group that is too long to be kept on one sheet of paper."""
    return _group(group) > FLOWING


def _head(head: Head) -> float:
    notes = sum(_wrapped(text, BESIDE) for text in (*head.notes, *head.unsettled))
    logo = 3.0 if head.logo else 1.0
    return logo + 3.5 + _wrapped(head.title, 55) + _facts(head.facts) + notes + (2 * GAP if notes else 0)


def _group(group: Group) -> float:
    lines = [_block(block) for block in group if not isinstance(block, Part) or block.lines]
    return sum(lines) + GAP + 0.4 * (len(lines) - 1) if lines else 0.0


def _block(block: Block) -> float:
    match block:
        case Part(_, lines):
            return sum(_wrapped(text, BESIDE) + 0.1 for line in lines for text in (line.text, *line.details))
        case Heading(text) | Paragraph(text):
            return _wrapped(text, ACROSS)
        case Prices(rows):
            return 1.4 + sum(_wrapped(row.label, ACROSS // 2) + 0.26 for row in rows)
        case Table(head, _, rows):
            return 1.4 + sum(max(_wrapped(cell, ACROSS // len(head)) for cell in row) + 0.26 for row in rows)
        case Fields(_, facts):
            return _facts(facts)
        case BlankLines(_, number):
            return 1.6 * number
    return DRAWING


def _facts(facts: tuple[Fact, ...]) -> float:
    """Estimate facts four beside each other, the empty ones high enough to write in."""
    rows = [facts[n : n + 4] for n in range(0, len(facts), 4)]
    return sum(1.0 + max(1.2 if fact.value else 1.6 for fact in row) + 0.3 for row in rows)


def _wrapped(text: str, width: int) -> float:
    return 1.0 + display_width(text) // (width + 1)
