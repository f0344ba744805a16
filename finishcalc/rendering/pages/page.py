"""The model of a page: a head and blocks, each of which every writer sets in its own way.

A page is made once from the result. `rendering/writers` writes it as text for a terminal, as Markdown for a message, as
HTML, or for typst, which makes a PDF of it. So a word is changed in one place, and nothing is told on paper that the
terminal does not know. Text is ready to read: figures have their units and signs, and nothing in it is markup.
"""

from datetime import date
from typing import Literal, NamedTuple

from finishcalc.model.logo import Logo as Logo
from finishcalc.rendering.pictures.drawing import Drawing

Tick = Literal["nowhere", "on paper", "everywhere"]
"""The outputs in which a line has a box to tick. A terminal's page has them only where they belong to the words."""


class Fact(NamedTuple):
    """A fact of the head: on a sheet a `name` over its `value`, which may be empty to be filled in by hand; in running
    text as it is `said`, or left out where that is empty."""

    name: str
    value: str
    said: str = ""


class Head(NamedTuple):
    """The head of a page: its `kind` ("Quote 2026-014"), its `title`, whom it is for and from, the facts agreed, the
    wishes noted, and `unsettled`, all that cannot be made as specified: a page with any is provisional."""

    kind: str
    title: str
    customer: str = ""
    studio: str = ""
    contact: tuple[str, ...] = ()
    logo: Logo | None = None
    facts: tuple[Fact, ...] = ()
    notes: tuple[str, ...] = ()
    unsettled: tuple[str, ...] = ()

    @property
    def full_title(self) -> str:
        """The kind and the title in one line."""
        return f"{self.kind}: {self.title}" if self.kind else self.title


class Line(NamedTuple):
    """A sentence of a part, with its number where it is a step, and a box to tick where it has one. Its `details` are
    further sentences that stand below it."""

    text: str
    number: int = 0
    tick: Tick = "nowhere"
    details: tuple[str, ...] = ()


class Part(NamedTuple):
    """A label with the sentences that belong to it, each on lines of its own. Without sentences it is not written."""

    label: str
    lines: tuple[Line, ...]


class Heading(NamedTuple):
    """The heading of all groups until the next one."""

    text: str


class Paragraph(NamedTuple):
    """A sentence right across the page; a `small` one explains what stands above it."""

    text: str
    small: bool = False


class Table(NamedTuple):
    """A head and rows of texts; `align` has an l or an r for each column. `by_columns` tells a table whose columns are
    what is compared: where there is no room for all, they are written in several blocks. The last row of a table that
    is `summed` holds its totals. Words of the columns `cut_in` may be cut where there is little room. On paper,
    `fill_in` heads empty columns to write in."""

    head: list[str]
    align: str
    rows: list[list[str]]
    caption: str = ""
    by_columns: bool = False
    summed: bool = False
    cut_in: tuple[int, ...] = ()
    fill_in: tuple[str, ...] = ()


class PriceRow(NamedTuple):
    """A row of the price: quantity x rate = amount, or a sum. `marked` tells a rate that rests on a sample."""

    label: str
    quantity: str
    unit: str
    rate: str
    marked: bool
    amount: str
    kind: Literal["line", "sum", "total"] = "line"


class Prices(NamedTuple):
    """The table of the price, in `currency` (ISO 4217), its figures with the shop's `decimal` sign. Its printed amounts
    add up as they stand."""

    rows: tuple[PriceRow, ...]
    currency: str
    decimal: str = "."


class Fields(NamedTuple):
    """Fields of a sheet on paper under a label: names with their values, the empty ones to be filled in by hand."""

    label: str
    facts: tuple[Fact, ...]


class BlankLines(NamedTuple):
    """So many lines to write on, on paper, under a label."""

    label: str
    number: int


class Verbatim(NamedTuple):
    """Lines of a file, to be pasted as they stand: they are never broken."""

    lines: tuple[str, ...]


Block = Part | Heading | Paragraph | Table | Prices | Drawing | Fields | BlankLines | Verbatim
Group = tuple[Block, ...]
"""Blocks that belong together: in text without an empty line between them, on paper on one sheet where they fit."""


class Format(NamedTuple):
    """The format of a page on paper. A `fitted` page is set closer where it is then one sheet, and one for the `bench`
    is set in large letters, to be read across a cutting table. A page that `keeps_ticks` is for a telephone: its boxes
    can be ticked there, and stay so."""

    paper: Literal["letter", "A4"] = "letter"
    landscape: bool = False
    fitted: bool = False
    bench: bool = False
    keeps_ticks: bool = False


class Page(NamedTuple):
    """A page: its head, its groups of blocks, its format, and the day it was made, if the job has one."""

    head: Head
    groups: tuple[Group, ...]
    format: Format = Format()
    made: date | None = None


def sentences(label: str, texts: list[str], tick: Tick = "nowhere") -> Part:
    """Make a part of plain sentences."""
    return Part(label, tuple(Line(text, tick=tick) for text in texts))


def steps(label: str, texts: list[str], tick: Tick = "nowhere") -> Part:
    """Make a part of numbered steps."""
    return Part(label, tuple(Line(text, number, tick) for number, text in enumerate(texts, start=1)))
