"""Pages that hold every block, made by hand: for the tests of writers, and to be looked at."""

import zlib
from datetime import date

from finishcalc.measures.length import ZERO, Length
from finishcalc.pipeline import finish_file
from finishcalc.rendering.pages.cut import cutting_diagrams
from finishcalc.rendering.pages.page import (
    BlankLines,
    Drawing,
    Fact,
    Fields,
    Format,
    Head,
    Heading,
    Line,
    Logo,
    Page,
    Paragraph,
    Part,
    PriceRow,
    Prices,
    Table,
    sentences,
    steps,
)
from finishcalc.rendering.pictures.picture import Outline, Picture, Tile
from finishcalc.rendering.writers.html import pages_html
from finishcalc.rendering.writers.typst import pages_pdf
from finishcalc.wording.notation import Notation
from tests.builders import PROJECTS


def inches(amount: int) -> Length:
    return Length.of(amount, "in")


def png(width: int = 120, height: int = 40) -> bytes:
    """A picture in two greys, written as the PNG standard says."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return len(content).to_bytes(4) + kind + content + zlib.crc32(kind + content).to_bytes(4)

    rows = b"".join(b"\0" + bytes(40 if (x // 10 + y // 10) % 2 else 160 for x in range(width)) for y in range(height))
    size = width.to_bytes(4) + height.to_bytes(4)
    header = chunk(b"IHDR", size + b"\x08\x00\x00\x00\x00")
    return b"\x89PNG\r\n\x1a\n" + header + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


BACKING = Drawing(
    "backing",
    Picture(
        "Backing",
        "2 pieces make a backing of 68 x 92 in",
        inches(68),
        inches(92),
        (
            Tile(ZERO, ZERO, inches(34), inches(92), "A", "34 x 92 in", "down"),
            Tile(inches(34), ZERO, inches(34), inches(92), "B", "34 x 92 in", "down"),
        ),
        Outline(inches(4), inches(4), inches(60), inches(84), False, ZERO),
    ),
    Notation("in"),
)


def cloth_drawing() -> Drawing:
    """The first cloth of a sample, as it is cut."""
    project = next(path for path in PROJECTS if path.stem == "boathouse-supper-cloth")
    return Drawing("cloth", next(iter(cutting_diagrams(finish_file(str(project))).values())), Notation("in"))


PRICES = Prices(
    (
        PriceRow("Quilting, medium pantograph", "5,124", "sq in", "0.03", True, "153.72"),
        PriceRow("Quilting cotton, 44 in wide, for backing and binding", "5\u00a03/4", "yd", "15.40", True, "88.55"),
        PriceRow("Backing seams sewn", "1", "each", "20.00", True, "20.00"),
        PriceRow("Binding sewn on, the back by hand", "289", "in", "0.40", False, "115.60"),
        PriceRow("Discount, 5 % of labour", "289.32", "USD", "-5\u00a0%", False, "-14.47"),
        PriceRow("Subtotal", "", "", "", False, "363.40", "sum"),
        PriceRow("Sales tax", "88.55", "USD", "5\u00a0%", True, "4.43", "sum"),
        PriceRow("Total, USD", "", "", "", False, "367.83", "total"),
        PriceRow("Deposit", "", "", "50\u00a0%", True, "183.92", "sum"),
        PriceRow("Balance", "", "", "", False, "183.91", "sum"),
    ),
    "USD",
)

SIZES = Table(
    ["", "crib", "throw", "twin", "queen", "king", "round 70"],
    "lllllll",
    [
        ["Top", "36 x 52 in", "54 x 72 in", "70 x 90 in", "90 x 95 in", "108 x 98 in", "70 in across"],
        ["Backing", "1 3/4 yd", "3 1/2 yd", "5 1/2 yd", "8 yd", "9 yd, 3 panels", "4 yd"],
        ["Binding", "1/2 yd", "1/2 yd", "5/8 yd", "3/4 yd", "7/8 yd", "1/2 yd, cut on the bias"],
    ],
    caption="Sizes",
    by_columns=True,
)
SIZES = SIZES._replace(
    rows=[[cell.replace(" x ", "\u00a0x\u00a0").replace(" in", "\u00a0in") for cell in row] for row in SIZES.rows]
)

MINUTES = Table(
    ["Minutes", "low", "likely", "high", "planned"],
    "lrrrr",
    [
        ["Loading", "20", "30", "40", "30"],
        ["Stitching", "200", "240", "300", "243"],
        ["Trimming", "10", "15", "20", "15"],
        ["All", "230", "285", "360", "288"],
    ],
    summed=True,
    fill_in=("took",),
)

ARRIVALS = Table(
    ["Arrived", "As agreed"],
    "ll",
    [["Top", "60 1/2 x 84 in"], ["Backing", "68 1/2 x 92 in"], ["Thread", "cream, top and bobbin"]],
    fill_in=("As taped", "Left over"),
)


def quote_page(**changes: object) -> Page:
    """A quote to hand over: every block but the drawings."""
    head = Head(
        kind="Quote 2026-014",
        title="Supper cloth for the boathouse",
        customer="Marit of the boathouse",
        studio="Sample studio",
        contact=("Upper lane 4, by the mill", "Tuesday to Friday, 9 to 5"),
        facts=(Fact("Date", "May 4, 2026"), Fact("Ready by", "June 1, 2026"), Fact("Holds until", "")),
        notes=("Leftover cloth goes back to you.",),
    )
    groups = (
        (sentences("Top", ["60 1/2 x 84 in, raw edge to raw edge; area 5,082 sq in", "finished about 59 x 81 in"]),),
        (sentences("Backing", ["68 1/2 x 92 in needed, 4 in more than the top on every side"]),),
        (sentences("Binding", ["8 strips 2 1/2 in wide across the cloth, joined on the diagonal, folded double"]),),
        (PRICES, Paragraph("* based on a sample rate, not the studio's own yet: the price may change.", small=True)),
        (
            sentences(
                "Options", ["The backing in wide cotton, 108 in: $22.49 less *", "No label: $8.00 less"], "on paper"
            ),
        ),
        (
            sentences(
                "You bring", ["The top pressed, loose threads clipped", "Backing square, selvages on"], "on paper"
            ),
        ),
        (sentences("Terms", ["This quote holds until June 3, 2026."]),),
        (
            Fields("Agreed", (Fact("Pattern", "medium pantograph"), Fact("Thread", ""), Fact("Batting", "none"))),
            Fields("Accepted", (Fact("Date", ""), Fact("Signature", ""))),
        ),
    )
    return Page(head, groups, Format(fitted=True), date(2026, 5, 4))._replace(**changes)


def work_page() -> Page:
    """A work order: provisional, with steps, drawings, tables to fill in and lines to write on."""
    head = quote_page().head._replace(
        kind="Work order 2026-014",
        logo=Logo("png", png()),
        unsettled=("The backing is 3 in too narrow for the frame: piece it, or take a wider cloth.", "No thread yet."),
    )
    load = "load it upright, 68 1/2 in of backing along the rollers; its seams run square to the rollers"
    both = (Line("as agreed"), Line("cut", 4, "everywhere"), Line("sew", 5), Line("press", tick="on paper"))
    groups = (
        (Paragraph("Print on both sides."), ARRIVALS),
        (Heading("Order of work"),),
        (
            steps("Frame", [load, "7 rows in 7 passes, 84 in down", "wind 2 bobbins"], "on paper"),
            steps("Edge", ["trim", "bind"]),
            Part("Both", both),
            sentences("Nothing", []),
        ),
        (Heading("Cloth and backing"), cloth_drawing(), BACKING),
        (Heading("Afterwards"), MINUTES),
        (SIZES,),
        (BlankLines("Seen on the way", 4),),
    )
    return Page(head, groups, Format("A4"), date(2026, 5, 4))


def bench_page() -> Page:
    """A cutting page, in large letters across a sheet."""
    groups = (
        (cloth_drawing(),),
        (steps("Cut", ["2 pieces of 34 1/4 x 92 in: A, B", "8 strips 2 1/2 in wide"], "everywhere"),),
    )
    return Page(Head("To cut", "Supper cloth"), groups, Format(landscape=True, bench=True))


def page_html(page: Page) -> str:
    """One page as an HTML document."""
    return pages_html([page])


def page_pdf(page: Page) -> bytes:
    """One page as a PDF file."""
    return pages_pdf([page])
