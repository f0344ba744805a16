"""The keys of what is bought or chosen by name: fabrics, battings, quilting styles and methods, beds and tables.

Each may be a name of a preset, a preset with some keys changed, or a whole table with its own `name`.
"""

from typing import Any

from finishcalc.intake import fields as f
from finishcalc.intake.table import Key, Kind, ListOf, Table
from finishcalc.measures.numbers import MeasureError
from finishcalc.problems import ProblemCode


def own(material: Table) -> Table:
    """A material as a preset file or a shop file gives it under a name: there it names no other preset."""
    return Table({key: kind for key, kind in material.keys.items() if key != "preset"})


def _material(keys: dict[str, Kind]) -> Table:
    """A preset's name on its own stands for the table `{ preset = "name" }`."""
    named: dict[str, Kind] = {"preset": Key(f.LINE), "name": Key(f.LINE)}
    return Table(named | keys, shorthand=lambda value: {"preset": value} if isinstance(value, str) else value)


ANY_CLOTH: dict[str, Kind] = {
    "step": Key(f.STEP),
    "straighten": Key(f.MARGIN),
    "selvage": Key(f.MARGIN),
    "shrink_across": Key(f.SHRINKAGE),
    "shrink_along": Key(f.SHRINKAGE),
    "directional": Key(f.FLAG),
    "nap": Key(f.FLAG),
    "repeat": Key(f.REPEAT),
    "bolt": Key(f.BOLT),
}
"""What a shop may also say of any cloth that does not say it itself."""

FABRIC = _material(
    {
        "width": Key(f.CLOTH_WIDTH),
        "price": Key(f.PRICE, figure=True, in_house=True),
        "selling": Key(f.PRICE, figure=True),
        "per": Key(f.LENGTH_UNIT),
        **ANY_CLOTH,
    }
)

PACKAGE = Table(
    {
        "size": Key(f.LINE),
        "width": Key(f.CLOTH_WIDTH),
        "length": Key(f.CLOTH_WIDTH),
        "price": Key(f.PRICE),
        "selling": Key(f.PRICE),
    },
    whole=True,
    optional=("selling",),
)
ROLL = Table(
    {
        "width": Key(f.CLOTH_WIDTH),
        "price": Key(f.PRICE),
        "selling": Key(f.PRICE),
        "per": Key(f.LENGTH_UNIT),
        "step": Key(f.STEP),
    },
    whole=True,
    optional=("selling",),
)

ANY_BATTING: dict[str, Kind] = {
    "packages": ListOf(PACKAGE, most=100, figure=True, in_house=True),
    "rolls": ListOf(ROLL, most=100, figure=True, in_house=True),
    "thickness": Key(f.THICKNESS),
    "widest": Key(f.PITCH),
    "shrink": Key(f.SHRINKAGE),
}
"""What a shop may also say of any batting that does not say it itself."""

BATTING = _material(ANY_BATTING)

ANY_STYLE: dict[str, Kind] = {
    "lines": Key(f.choice("pattern", "channels", "grid", "parallel", "crosshatch", "echo", "ties")),
    "run_off": Key(f.MARGIN),
    "stitch_length": Key(f.STITCH),
    "draw_up": Key(f.DRAW_UP),
    "may_turn": Key(f.FLAG),
}
"""What a shop may also say of any style that does not say it itself."""

STYLE = _material(
    {
        "rate_class": Key(f.LINE),
        "line_spacing": Key(f.length("0.05 in", "20 ft")),
        "pattern_height": Key(f.PITCH),
        "row_pitch": Key(f.length("1/4 in", "10 ft")),
        "widest": Key(f.PITCH),
        "angle": Key(f.whole_number(0, 179)),
        **ANY_STYLE,
    }
)


def _in_order(stage: dict[str, Any]) -> None:
    """Minutes rise from low to high; speeds, which the stitching has, fall."""
    low, likely, high = stage["low"], stage["likely"], stage["high"]
    if stage["each"] in ("stitching", "straight"):
        if "speed" not in stage:
            raise MeasureError(
                ProblemCode.STAGE_WITHOUT_SPEED,
                "has no speed",
                "say what its figures count: speed = 1 for lengths of 1 a minute",
            )
        if not low >= likely >= high > 0:
            raise MeasureError(
                ProblemCode.SPEEDS_OUT_OF_ORDER,
                "its speeds are out of order",
                "low is the quickest, high the slowest, all above 0",
            )
    elif not low <= likely <= high:
        raise MeasureError(
            ProblemCode.MINUTES_OUT_OF_ORDER, "its minutes are out of order", "low is the least, high the most"
        )


STAGE = Table(
    {
        "name": Key(f.LINE),
        "each": Key(f.choice("quilt", "pass", "bobbin", "stitching", "straight", "tie")),
        "low": Key(f.MINUTES),
        "likely": Key(f.MINUTES),
        "high": Key(f.MINUTES),
        "attended": Key(f.SHARE),
        "speed": Key(f.PITCH),
        "on_frame": Key(f.FLAG),
    },
    whole=True,
    optional=("speed", "on_frame"),
    last=_in_order,
)

ANY_METHOD: dict[str, Kind] = {"frame": Key(f.FLAG), "stitch": Key(f.choice("lockstitch", "running", "tie"))}
"""What a shop may also say of any method that does not say it itself."""

METHOD = _material(
    {
        "stages": ListOf(STAGE, most=100, figure=True, in_house=True),
        "rate_class": Key(f.LINE),
        "stitch_length": Key(f.STITCH),
        **ANY_METHOD,
    }
)

BED = _material({"width": Key(f.SIDE), "length": Key(f.SIDE), "depth": Key(f.MARGIN)})
TABLE_TOP = _material(
    {
        "shape": Key(f.SHAPE),
        "width": Key(f.SIDE),
        "length": Key(f.SIDE),
        "diameter": Key(f.SIDE),
        "height": Key(f.length("6 in", "6 ft")),
    }
)
