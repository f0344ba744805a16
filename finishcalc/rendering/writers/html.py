"""Pages as one HTML file: nothing fetched, good on a telephone and on paper; no script, but in a page that keeps ticks.

`sheet.html` says which element each block becomes, and `sheet.css` how it looks; both are read and compiled once. Here
stands what neither can say: levels of headings, the foot of a printed page, and text that HTML cannot hold.
"""

import re
from base64 import b64encode
from collections.abc import Iterator, Sequence
from functools import cache
from hashlib import sha256
from itertools import count, groupby
from typing import TYPE_CHECKING, NamedTuple

from finishcalc.rendering.pages.page import (
    Block,
    Fact,
    Group,
    Head,
    Heading,
    Line,
    Page,
    Part,
    Prices,
    Table,
    Verbatim,
)
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.writers.html_drawings import SetDrawing, set_drawing
from finishcalc.rendering.writers.html_fit import closeness, flows
from finishcalc.rendering.writers.html_tables import SetPrice, SetTable, set_prices, set_tables
from finishcalc.rendering.writers.templates import template
from finishcalc.wording.notation import NO_BREAK

if TYPE_CHECKING:
    from jinja2 import Template

UNHOLDABLE = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff"
    + "".join(f"{chr(plane + 0xFFFE)}{chr(plane + 0xFFFF)}" for plane in range(0x10000, 0x110000, 0x10000))
    + "]"
)
"""Matches what no HTML file may hold: controls, halves of pairs, and places that no character has."""
FOOT = 70
"""The foot of a printed page names it in at most so many characters."""


class Placed(NamedTuple):
    """A block in its place: its `kind`, the `level` of its heading, the `name` of a table without a caption, and its
    tables, rows of the price or drawing as they are set. In one that `keeps_ticks` the boxes of lines can be ticked."""

    kind: str
    block: Block
    level: int
    name: str
    tables: tuple[SetTable, ...] = ()
    rows: tuple[SetPrice, ...] = ()
    drawing: SetDrawing | None = None
    keeps_ticks: bool = False


class PlacedGroup(NamedTuple):
    """The blocks of a group in their places; one that `flows` is too long to be kept on one sheet of paper."""

    blocks: list[Placed]
    flows: bool


class Sheet(NamedTuple):
    """A page with its blocks in their places, its logo as a data: URI, and the facts of its head."""

    head: Head
    logo: str
    facts: list[Fact]
    groups: list[PlacedGroup]


class Document(NamedTuple):
    """Pages in one document: its text, and its Content-Security-Policy, which admits its own style and script."""

    text: str
    policy: str


def pages_html(pages: Sequence[Page]) -> str:
    """Write pages in one document that ends with a line feed, each on paper of its own. UTF-8 can hold all of it."""
    return html_document(pages).text


def html_document(pages: Sequence[Page]) -> Document:
    """Write pages in one document, for whoever sends it: a server that has a policy of its own must send this one."""
    style, numbers = _style(pages), count(1)
    script = template("ticks.js") if any(page.format.keeps_ticks for page in pages) else ""
    policy = _policy(style, script)
    document = _compiled().render(
        title=", ".join(dict.fromkeys(_title(page.head) for page in pages)),
        look=_look(pages[0]),
        style=style,
        policy=policy,
        script=script,
        ticks_key=_ticks_key(pages),
        sheets=[Sheet(page.head, _logo(page.head), _facts(page.head), list(_placed(page, numbers))) for page in pages],
    )
    return Document(holdable(document.strip()) + "\n", policy)


def _policy(style: str, script: str) -> str:
    """Admit a style sheet and a script by what they say, pictures within the document, and nothing else."""
    scripts = f"script-src '{_source_hash(script)}'; " if script else ""
    styles = f"style-src '{_source_hash(style)}'; "
    return f"default-src 'none'; {styles}{scripts}img-src data:; base-uri 'none'; form-action 'none'"


def _source_hash(text: str) -> str:
    """Name a style sheet or a script as a Content-Security-Policy does."""
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


def _ticks_key(pages: Sequence[Page]) -> str:
    """Name the place where ticks are kept after all that is said in the parts of pages, so that no other list, and no
    later state of this one, is ticked by them."""
    parts = (block for page in pages for group in page.groups for block in group if isinstance(block, Part))
    said = repr([page.head.full_title for page in pages] + [(part.label, part.lines) for part in parts])
    return f"finishcalc-{sha256(said.encode('utf-8', 'surrogatepass')).hexdigest()[:24]}"


def holdable(text: str) -> str:
    """Show what HTML cannot hold, as pages show controls, and keep figures with their units."""
    escapes = {
        ord(char): _escape(char) for char in set(text) if UNHOLDABLE.match(char)
    }  # a text has few different signs
    spaced = text.replace(NO_BREAK, "\u00a0")
    return spaced.translate(escapes) if escapes else spaced


def _escape(char: str) -> str:
    code = ord(char)
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


@cache
def _compiled() -> "Template":
    from jinja2 import DictLoader, Environment, StrictUndefined  # loaded once a sheet is wanted

    environment = Environment(
        loader=DictLoader({"sheet.html": template("sheet.html")}),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["runs"] = runs
    return environment.get_template("sheet.html")


def runs(lines: tuple[Line, ...]) -> list[tuple[bool, list[Line]]]:
    """Part the steps of a part from its other sentences, and those with a box from those without."""
    runs = groupby(lines, key=lambda line: (line.number > 0, line.tick != "nowhere"))
    return [(numbered, list(alike)) for (numbered, _), alike in runs]


def _look(page: Page) -> str:
    """Name the classes by which the style sheet knows how a page is set."""
    formats = (name for name in ("landscape", "bench") if getattr(page.format, name))
    return " ".join(filter(None, (*formats, closeness(page))))


def _title(head: Head) -> str:
    return f"{head.full_title} (provisional)" if head.unsettled else head.full_title


def _logo(head: Head) -> str:
    return f"data:image/{head.logo.kind};base64,{b64encode(head.logo.content).decode()}" if head.logo else ""


def _facts(head: Head) -> list[Fact]:
    """Give the facts of the head, first whom the page is for."""
    return [Fact("For", head.customer), *head.facts] if head.customer else list(head.facts)


def _style(pages: Sequence[Page]) -> str:
    """Give the style sheet with the size of each page, and a foot that names it on every sheet of paper."""
    rules = [template("sheet.css")]
    if any(page.format.keeps_ticks for page in pages):
        rules.append(template("ticks.css"))
    for number, page in enumerate(pages, start=1):
        size = f"{page.format.paper} {'landscape' if page.format.landscape else 'portrait'}"
        foot = f"@bottom-left {{ content: {_css_text(_foot(page.head))}; }}"
        rules.append(f".sheet-{number} {{ page: sheet-{number}; }}\n@page sheet-{number} {{ size: {size}; {foot} }}\n")
    return "".join(rules)


def _foot(head: Head) -> str:
    end = " · provisional" if head.unsettled else ""
    room = FOOT - len(end)
    return (head.full_title if len(head.full_title) <= room else f"{head.full_title[: room - 1]}…") + end


def _css_text(text: str) -> str:
    """Write a text as a string of a style sheet, every sign in it by its number, so that nothing in it is obeyed."""
    signs = (char if char.isascii() and char.isalnum() else f"\\{ord(char):x} " for char in holdable(text))
    return f'"{"".join(signs)}"'


def _placed(page: Page, numbers: Iterator[int]) -> Iterator[PlacedGroup]:
    """Place the blocks of every group: what follows a heading is one level below it. A part without sentences has no
    place."""
    level, name = 2, page.head.full_title
    for group in page.groups:
        placed = []
        for block in _said_blocks(group):
            if isinstance(block, Heading):
                level, name = 2, block.text
            name = getattr(block, "label", "") or name
            placed.append(_place(block, level, name, page, numbers))
            level = 3 if isinstance(block, Heading) else level
        if placed:
            yield PlacedGroup(placed, flows(group))


def _said_blocks(group: Group) -> Iterator[Block]:
    """The blocks that are written: none without lines, and no lines to paste."""
    return (
        block
        for block in group
        if not isinstance(block, Verbatim) and not (isinstance(block, Part) and not block.lines)
    )


def _place(block: Block, level: int, name: str, page: Page, numbers: Iterator[int]) -> Placed:
    placed = Placed(type(block).__name__, block, level, name, keeps_ticks=page.format.keeps_ticks)
    match block:
        case Table():
            return placed._replace(tables=tuple(set_tables(block, name)))
        case Prices():
            return placed._replace(rows=tuple(set_prices(block)))
        case Drawing():
            return placed._replace(drawing=set_drawing(block, page.format, next(numbers)))
    return placed
