"""The rules about covers: one thing that is covered, with a size, and what hangs over it."""

from finishcalc.intake.building.cover import BED, COVERS, TABLE, cover_given, covered, table_shape
from finishcalc.intake.fields import SIDE_LIMIT
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation


def covers_one_thing(check: Check) -> None:
    """A bed or a table, and what is said of the cover suits it."""
    if COVERS in check.faulty or {path[:3] for path in check.faulty} & {BED, TABLE}:
        return
    given = {path[2]: path for path in cover_given(check.layers)}
    if {"bed", "table"} <= given.keys():
        check.wrong(
            ProblemCode.BED_AND_TABLE,
            [given["table"]],
            "the cover is for a bed and for a table",
            "keep bed or table",
            table=True,
        )
    elif given and not given.keys() & {"bed", "table"}:
        check.wrong(
            ProblemCode.NOTHING_TO_COVER,
            list(given.values()),
            "there is neither a bed nor a table to cover",
            'add bed = "queen", for one',
        )
    for key in ("foot_drop", "pillow_tuck"):
        if key in given and covered(check.layers) == TABLE:
            check.wrong(
                ProblemCode.FOOT_OF_A_TABLE,
                [given[key]],
                "only a bed has a foot and pillows",
                "leave it out: drop goes all round a table",
            )


def table_has_its_size(check: Check) -> None:
    """A round table has a diameter, every other a width and a length; the cover has the table's shape."""
    layers = check.layers
    if not layers.names(*TABLE) or any(path[:3] == TABLE for path in check.faulty) or _unknown(check):
        return
    at: Path = next(path for path in layers.values if path[:3] == TABLE)
    diameter, own = layers.get(*TABLE, "diameter"), layers.get(*TABLE, "shape")
    sides = [side for side in ("width", "length") if layers.get(*TABLE, side) is not None]
    if diameter is not None and (sides or own in ("rectangle", "oval")):
        hint = "keep the diameter for a round table, or width and length for any other"
        check.wrong(
            ProblemCode.TABLE_SIZED_TWICE, [(*TABLE, "diameter"), at], "a table has a diameter or two sides", hint
        )
    elif diameter is None and own == "round":
        check.wrong(
            ProblemCode.TABLE_WITHOUT_SIZE,
            [at],
            "diameter is missing: a round table has one",
            "add diameter = ...",
            table=True,
        )
    elif diameter is None and len(sides) < 2:
        missing = " and ".join(side for side in ("width", "length") if side not in sides)
        verb = "are" if not sides else "is"
        hint = "add width and length, or diameter"
        check.wrong(
            ProblemCode.TABLE_WITHOUT_SIZE, [at], f"{missing} {verb} missing: no preset gives it", hint, table=True
        )


def _unknown(check: Check) -> bool:
    """Whether the table is named and no preset gives anything for that name, which is told elsewhere."""
    return set(check.layers.names(*TABLE)) == {"preset"}


def cover_has_that_shape(check: Check) -> None:
    """A bed's cover is a rectangle, a table's has the shape of the table."""
    layers, path = check.layers, covered(check.layers)
    shape = layers.values.get(("top", "shape"))
    if path is None or shape is None:
        return
    own = table_shape(layers.get(*TABLE, "shape"), layers.get(*TABLE, "diameter"))
    asked = "rectangle" if path == BED else own
    if asked and shape.value != asked:
        what = "a bed" if path == BED else "this table"
        hint = f"use {asked}, or give the size of the top itself"
        check.wrong(
            ProblemCode.COVER_OF_ANOTHER_SHAPE,
            [("top", "shape")],
            f"the cover of {what} is {_said(asked)}, not {_said(shape.value)}",
            hint,
        )


def _said(shape: str) -> str:
    return "a rectangle" if shape == "rectangle" else shape


def cover_is_not_too_large(check: Check) -> None:
    """A cover is at most as large as a top may be."""
    path, limit = covered(check.layers), Length.parse(SIDE_LIMIT)
    sides = [side for side in check.size if side is not None]
    if path is not None and any(side > limit for side in sides):
        show = Notation(check.units)
        comes = show.size(*(up_to_step(side, FINEST[check.units]) for side in sides))
        check.wrong(
            ProblemCode.TOP_TOO_LARGE,
            [(*COVERS, "drop")],
            f"the top comes to {comes}",
            f"at most {show.show(limit)} a side",
        )
