"""The keys of a shop file: what the studio charges, its frame, and what its projects usually want."""

from fractions import Fraction
from typing import Any

from finishcalc.intake import fields as f
from finishcalc.intake.materials import (
    ANY_BATTING,
    ANY_CLOTH,
    ANY_METHOD,
    ANY_STYLE,
    BATTING,
    BED,
    FABRIC,
    METHOD,
    STYLE,
    TABLE_TOP,
    own,
)
from finishcalc.intake.project_file import SECTIONS
from finishcalc.intake.table import Key, Kind, ListOf, Named, Table

RATE = Key(f.PRICE, figure=True)
MOST_NAMED = 500
"""The most fabrics a shop has, and the most of each other kind of thing that it names."""
EDGE_WORK = ("make", "front", "machine", "hand", "faced", "hem")
"""The kinds of work at an edge, each with its time and its rate."""
HANDLED = ("top", "backing", "batting", "binding")
"""The parts that a customer may bring, each with a charge for its handling."""

TAX_RULES: dict[str, Kind] = {
    "classes": Key(f.CLASSES),
    "included": Key(f.FLAG),
    "by": Key(f.choice("invoice", "item")),
}
"""What a tax says, or `[taxing]` says for any tax that does not."""

TAX = Table({"label": Key(f.LINE), "percent": Key(f.SHARE), **TAX_RULES}, whole=True, optional=tuple(TAX_RULES))

EXTRA = Table(
    {
        "label": Key(f.LINE),
        "price": RATE,
        "per": Key(f.SOLD_BY),
        "line_class": Key(f.LINE_CLASS),
    }
)


def _for_all(value: Any) -> Any:
    """An extra that is only named is offered for tops of all uses."""
    return value if isinstance(value, dict) else {"name": value, "uses": list(f.TOP_USES)}


OFFERED_EXTRA = Table({"name": Key(f.LINE), "uses": Key(f.USES)}, whole=True, shorthand=_for_all)

SIZE_STEP = Table(
    {"name": Key(f.LINE), "up_to": Key(f.number(Fraction(0), Fraction(10**9))), "price": Key(f.PRICE)}, whole=True
)


def _a_price(value: Any) -> Any:
    """A price on its own is one for each `quilting_per`."""
    return value if isinstance(value, dict) else {"price": value}


QUILTING_RATE = Table(
    {
        "price": RATE,
        "per": Key(f.CHARGED_BY),
        "steps": ListOf(SIZE_STEP, most=100, figure=True),
        "more": RATE,
        "each": Key(f.number(Fraction(1), Fraction(10**9))),
    },
    shorthand=_a_price,
    takes_away={"price": ("steps", "more", "each", "per"), "steps": ("price", "per")},
)

SHOP_FILE = Table(
    {
        "units": Key(f.UNITS),
        "studio": Table(
            {
                "name": Key(f.LINE),
                "contact": Key(f.LINES),
                "place": Key(f.LINE),
                "terms": Key(f.NOTES),
                "days_valid": Key(f.whole_number(0, 3650)),
                "paper": Key(f.choice("letter", "A4")),
            }
        ),
        "money": Table(
            {
                "currency": Key(f.LINE),
                "symbol": Key(f.LINE),
                "symbol_place": Key(f.choice("before", "after")),
                "decimal": Key(f.choice(".", ",")),
                "group": Key(f.choice(".", ",", "'", " ", "\u00a0", "\u202f", "")),
                "date_order": Key(f.choice("year-month-day", "day-month-year", "month-day-year")),
                "cash_rounding": Key(f.PRICE),
            },
            takes_away={"currency": ("symbol",)},
        ),
        "cloth": Table(
            {
                "unit": Key(f.LENGTH_UNIT),
                **ANY_CLOTH,
                "wider": FABRIC,
                "most_seams": Key(f.whole_number(0, 100)),
                "shortest_piece": Key(f.length("1 in", "10 ft")),
                "clear_edge": Key(f.MARGIN),
                "worth_turning": Key(f.length("0 in", "100 yd")),
                "least_overage": Key(f.MARGIN),
                "worth_saying": Key(f.length("0 in", "100 yd")),
            }
        ),
        "measuring": Table(
            {
                "spread": Key(f.MARGIN),
                "spread_long": Key(f.MARGIN),
                "long": Key(f.SIDE),
                "skew": Key(f.MARGIN),
                "bill": Key(f.choice("largest", "mean")),
                "table_height": Key(f.length("1 in", "6 ft")),
            }
        ),
        "any_batting": Table(ANY_BATTING),
        "any_style": Table(ANY_STYLE),
        "any_method": Table(ANY_METHOD),
        "seaming": Table(
            {
                "minutes_each": Key(f.MINUTES, figure=True, in_house=True),
                "minutes_along": Key(f.MINUTES, figure=True, in_house=True),
                "per": Key(f.LENGTH_UNIT, in_house=True),
            }
        ),
        "edge_time": Table(
            {
                "per": Key(f.LENGTH_UNIT, in_house=True),
                **dict.fromkeys(EDGE_WORK, Key(f.SPAN, figure=True, in_house=True)),
            }
        ),
        "rates": Table(
            {
                "quilting": Named(QUILTING_RATE, most=100),
                "quilting_per": Key(f.AREA_UNIT),
                "shaped": Key(f.choice("bounding", "area")),
                "minimum": RATE,
                "binding": Table(dict.fromkeys(EDGE_WORK, RATE)),
                "binding_per": Key(f.LENGTH_UNIT),
                "seam": RATE,
                "handling": Table(dict.fromkeys(HANDLED, RATE)),
                "overhead": Key(f.PRICE, figure=True, in_house=True),
                "wage": Key(f.PRICE, figure=True, in_house=True),
                "markup": Key(f.MARKUP, figure=True, in_house=True),
            }
        ),
        "thread": Table(
            {
                "bobbin": Key(f.length("1 yd", "5000 yd"), figure=True),
                "cone": Key(f.length("1 yd", "50000 yd"), figure=True),
                "tie": Key(f.length("1/2 in", "1 yd"), figure=True),
                "waste": Key(f.SHARE),
                "thickness_bare": Key(f.THICKNESS),
            }
        ),
        "taxing": Table(TAX_RULES),
        "tax": ListOf(TAX, most=20, figure=True),
        "deposit": Table(
            {
                "percent": Key(f.SHARE, figure=True),
                "amount": RATE,
                "shares": Table(dict.fromkeys(f.LINE_CLASSES, Key(f.SHARE, figure=True)), whole=True),
                "classes": Key(f.CLASSES),
            },
            takes_away={
                "percent": ("amount", "shares"),
                "amount": ("percent", "shares"),
                "shares": ("percent", "amount"),
            },
        ),
        "offers": Table(
            {
                "backing": Key(f.FLAG),
                "by_hand": Key(f.FLAG),
                "extras": ListOf(OFFERED_EXTRA, most=100),
            }
        ),
        "frame": Table(
            {
                "widest": Key(f.length("12 in", "40 ft")),
                "throat": Key(f.length("4 in", "10 ft")),
                "worth_sideways": Key(f.whole_number(1, 100)),
            }
        ),
        "extras": Named(EXTRA, most=100),
        "fabrics": Named(own(FABRIC), most=MOST_NAMED),
        "battings": Named(own(BATTING), most=MOST_NAMED),
        "styles": Named(own(STYLE), most=MOST_NAMED),
        "methods": Named(own(METHOD), most=MOST_NAMED),
        "beds": Named(own(BED), most=MOST_NAMED),
        "tables": Named(own(TABLE_TOP), most=MOST_NAMED),
        "usual": Table(SECTIONS),
    },
    at_root=("usual",),
)
