"""The keys of a project file."""

from typing import Any

from finishcalc.intake import fields as f
from finishcalc.intake.materials import BATTING, BED, FABRIC, METHOD, STYLE, TABLE_TOP
from finishcalc.intake.table import Key, Kind, ListOf, Rows, Table

SUPPLIER = Key(f.choice("shop", "customer"))


def _one(value: Any) -> Any:
    """An extra's name on its own stands for one of it, and so does a table that says no quantity."""
    if isinstance(value, str):
        return {"name": value, "quantity": 1}
    return {"quantity": 1, **value} if isinstance(value, dict) else value


def _one_off(value: Any) -> Any:
    """A line that says neither how many nor of what is one piece of work."""
    return {"quantity": 1, "per": "each", "line_class": "labour", **value} if isinstance(value, dict) else value


ONE_OFF = Table(
    {
        "label": Key(f.LINE),
        "price": Key(f.PRICE),
        "quantity": Key(f.COUNT),
        "per": Key(f.SOLD_BY),
        "line_class": Key(f.LINE_CLASS),
    },
    whole=True,
    shorthand=_one_off,
)
EXTRA_WISH = Table({"name": Key(f.LINE), "quantity": Key(f.COUNT)}, whole=True, shorthand=_one)

PIECES: dict[str, Kind] = {
    "fabric": FABRIC,
    "strips": Key(f.choice("any", "crosswise", "lengthwise")),
    "join": Key(f.choice("diagonal", "straight")),
}
"""What a part of a pieced top may say of its cloth."""
SETTING = Key(f.choice("straight", "on-point"))
CORNERS = Key(f.choice("butted", "cornerstones", "mitred"))
FIRST = Key(f.choice("top-and-bottom", "sides"))

BLOCKS = {"across": Key(f.BLOCKS), "down": Key(f.BLOCKS), "size": Key(f.BLOCK), "inner": Key(f.BLOCK)}
SASHING = {"width": Key(f.STRIP), "outer": Key(f.FLAG), "cornerstones": Key(f.FLAG), "corner_fabric": FABRIC, **PIECES}
BORDER = {"cut": Key(f.STRIP), "corners": CORNERS, "first": FIRST, "corner_fabric": FABRIC, **PIECES}


def _whole(keys: dict[str, Kind], *needed: str) -> Table:
    """A table in which only some keys are needed."""
    return Table(keys, whole=True, optional=tuple(key for key in keys if key not in needed))


PIECING = Table(
    {
        "seam_allowance": Key(f.SEAM_ALLOWANCE),
        "mitre_extra": Key(f.MARGIN),
        "most_joins": Key(f.whole_number(0, 20)),
        "setting": SETTING,
        "outer": Key(f.FLAG),
        "cornerstones": Key(f.FLAG),
        "corners": CORNERS,
        "first": FIRST,
        "supplied_by": SUPPLIER,
        **PIECES,
    }
)
"""What is said for every part of a pieced top that does not say it itself."""

PIECED: dict[str, Kind] = {
    "blocks": _whole({**BLOCKS, "setting": SETTING, "fabric": FABRIC}, "across", "down"),
    "sashing": _whole(SASHING, "width"),
    "borders": Rows(_whole(BORDER, "cut"), most=100),
    "centre": Table({"width": Key(f.SIDE), "length": Key(f.SIDE)}, whole=True),
    "piecing": PIECING,
}
"""The parts of a pieced top."""

COVERS = Table(
    {
        "bed": BED,
        "table": TABLE_TOP,
        "drop": Key(f.DROP),
        "foot_drop": Key(f.DROP),
        "pillow_tuck": Key(f.DROP),
        "draw_up": Key(f.DRAW_UP),
    }
)

SECTIONS: dict[str, Kind] = {
    "customer": Table({"name": Key(f.LINE)}),
    "job": Table(
        {
            "number": Key(f.LINE),
            "date": Key(f.DAY),
            "due": Key(f.DAY),
            "thread": Key(f.LINE),
            "keep_leftovers": Key(f.FLAG),
            "for_sale": Key(f.FLAG),
            "notes": Key(f.NOTES),
        }
    ),
    "top": Table(
        {
            "shape": Key(f.SHAPE),
            "use": Key(f.USE),
            "width": Key(f.SIDE),
            "length": Key(f.SIDE),
            "diameter": Key(f.SIDE),
            "measured": Table(
                {"widths": Key(f.SIDES), "lengths": Key(f.SIDES), "diagonals": Key(f.DIAGONALS)},
                whole=True,
                optional=("diagonals",),
            ),
            "corner_radius": Key(f.length("0 in", "10 ft")),
            "scallop": Table(
                {"chord": Key(f.length("1 in", "10 ft")), "depth": Key(f.length("1/8 in", "5 ft"))}, whole=True
            ),
            "covers": COVERS,
            **PIECED,
        }
    ),
    "backing": Table(
        {
            "fabric": FABRIC,
            "overage": Key(f.MARGIN),
            "seam_allowance": Key(f.SEAM_ALLOWANCE),
            "seams": Key(f.choice("any", "lengthwise", "crosswise")),
            "centre": Key(f.choice("any", "panel")),
            "have": Key(f.length("1 in", "100 yd")),
            "sewn": Table(
                {"width": Key(f.length("1 in", "30 ft")), "length": Key(f.length("1 in", "30 ft"))}, whole=True
            ),
            "supplied_by": SUPPLIER,
        },
        takes_away={"have": ("sewn",), "sewn": ("have",)},
    ),
    "batting": Table({"product": BATTING, "overage": Key(f.MARGIN), "supplied_by": SUPPLIER}),
    "binding": Table(
        {
            "fabric": FABRIC,
            "strip_width": Key(f.length("1 in", "12 in")),
            "extra": Key(f.MARGIN),
            "finished": Key(f.length("1/8 in", "3 in")),
            "fold": Key(f.choice("double", "single")),
            "loft": Key(f.length("0 in", "2 in")),
            "least_strip": Key(f.length("1/2 in", "12 in")),
            "hem": Key(f.length("1/4 in", "12 in")),
            "cut": Key(f.choice("crosswise", "lengthwise", "bias", "leftover")),
            "join": Key(f.choice("diagonal", "straight")),
            "seam_allowance": Key(f.SEAM_ALLOWANCE),
            "attach": Key(f.choice("front", "machine", "hand", "faced", "hem", "none")),
            "supplied_by": SUPPLIER,
        },
        takes_away={"finished": ("strip_width",), "strip_width": ("finished",)},
    ),
    "quilting": Table(
        {
            "style": STYLE,
            "method": METHOD,
            "colours": Key(f.whole_number(1, 20)),
            "areas": Rows(
                _whole(
                    {
                        "style": STYLE,
                        "share": Key(f.SHARE),
                        "part": Key(f.choice("blocks", "sashing", "borders")),
                    },
                    "style",
                ),
                most=100,
            ),
        }
    ),
    "charges": Table(
        {
            "rush": Key(f.MARKUP),
            "rush_classes": Key(f.CLASSES),
            "discount": Key(f.SHARE),
            "discount_classes": Key(f.CLASSES),
            "extras": ListOf(EXTRA_WISH, most=100),
            "lines": ListOf(ONE_OFF, most=100),
        }
    ),
}
"""The sections that a project file and a shop's `usual` have in common."""

PROJECT_FILE = Table({"title": Key(f.LINE), "units": Key(f.UNITS), "shop": Key(f.LINE), **SECTIONS})
