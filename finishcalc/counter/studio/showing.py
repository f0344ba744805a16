"""The content of the studio's view of a project: what it earns, and all that the studio's own page of a quote tells."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup

from finishcalc.alternatives.in_house import in_house
from finishcalc.counter.form.showing import Kept, kept_keys
from finishcalc.counter.fragments import title_of
from finishcalc.counter.pages import page
from finishcalc.counter.papers import HAS_PDF
from finishcalc.counter.studio.views import View
from finishcalc.counter.working import Worked
from finishcalc.pipeline import Finishing
from finishcalc.pricing.profit import Profitability
from finishcalc.rendering.pages.page import Block, Heading, Part, Table
from finishcalc.rendering.pages.quote import quote_head
from finishcalc.rendering.pages.studio import against_wage, decimal_hours, studio_groups
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.drawn import drawing_svg, drawing_words
from finishcalc.rendering.pictures.size import SCREEN
from finishcalc.rendering.writers.html_tables import set_tables
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import Notation

NAMES = {"Line": "Cost and margin", "Minutes": "Minutes"}
"""The names of the tables of the view, by the head of their first column."""


class Tile(NamedTuple):
    """A figure on its own: its label, the amount, and what it is made of."""

    label: str
    amount: str
    told: str


class Shown(NamedTuple):
    """A block as the page sets it: its `kind`, and what its template needs."""

    kind: str
    block: object
    name: str = ""


class StudioSheet(NamedTuple):
    """The view of a quote: its total with its sign, the tiles, and the blocks in two columns."""

    sign: str
    total: str
    tiles: tuple[Tile, ...]
    wide: tuple[Shown, ...]
    beside: tuple[Shown, ...]


def studio_page(worked: Worked, view: View) -> str:
    """Fill in the page of an open view."""
    sheet = studio_sheet(worked.result) if worked.result else None
    said = quote_head(worked.result, "studio") if worked.result else None
    return page(
        "studio.html",
        title=title_of(worked),
        customer=said.customer if said else "",
        number=said.kind if said and said.kind != "Quote" else "",
        unsettled=said.unsettled if said else (),
        sheet=sheet,
        stale=worked.stale,
        has_pdf=HAS_PDF,
        project=view.project,
        seconds=view.seconds,
        kept=kept_in_house(worked),
    )


def kept_in_house(worked: Worked) -> list[Kept]:
    """List what the project file sets for the studio alone, which the customer's page leaves out."""
    shown = set(kept_keys(worked.table))
    return [each for each in kept_keys(worked.table, in_house=True) if each not in shown]


def studio_sheet(result: Finishing) -> StudioSheet:
    """Put the studio's side of a quote into figures and blocks."""
    house, notation = in_house(result), notation_of(result, "studio")
    quote = result.quote
    blocks = [block for group in studio_groups(result, house, {}, notation) for block in group]
    shown = [(each, _goes_beside(block)) for block in blocks for each in _shown(block)]
    return StudioSheet(
        sign=result.resolved.shop.money.symbol or quote.currency.code,
        total=notation.bare_money(quote.total),
        tiles=tuple(_tiles(result, house.profit, notation)),
        wide=tuple(each for each, beside in shown if not beside),
        beside=tuple(each for each, beside in shown if beside),
    )


def _goes_beside(block: Block) -> bool:
    """Tell what stands at the frame: the passes, and the steps in their order."""
    return isinstance(block, Drawing) or (isinstance(block, Part) and any(line.number for line in block.lines))


def _shown(block: Block) -> Iterator[Shown]:
    """Set a block. The page has a heading of its own, and a part without sentences is not written."""
    match block:
        case Heading():
            return
        case Part():
            if block.lines:
                yield Shown("part", block)
        case Table():
            name = NAMES.get(block.head[0], block.head[0])
            yield from (Shown("table", each, name) for each in set_tables(block, name))
        case Drawing():
            yield Shown("drawing", (Markup(drawing_svg(block, SCREEN, bare=True)), drawing_words(block)))
        case _:
            yield Shown("paragraph", block)


def _tiles(result: Finishing, profit: Profitability, notation: Notation) -> Iterator[Tile]:
    """Give the figures by which a studio judges a quote."""
    bare, earned = notation.bare_money, profit.earned
    if profit.hourly is not None:
        hours = decimal_hours(earned.hours, notation)
        told = f"over {hours}: {against_wage(profit.hourly, profit.wage, notation)}"
        yield Tile("An attended hour earns", bare(profit.hourly), told)
    if profit.frame_hourly is not None:
        told = f"over {decimal_hours(profit.frame_hours, notation)}"
        yield Tile("An hour on the frame", bare(profit.frame_hourly), told)
    yield Tile("Earned", bare(earned.left), "before tax, less materials and other costs")
    told = f"before tax; quoted {bare(earned.net)}"
    yield Tile("Meets the wage at", bare(profit.price_at_wage), told)
    yield Tile("Breaks even at", bare(profit.break_even), "without any wage")
