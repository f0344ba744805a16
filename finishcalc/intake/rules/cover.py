"""The rules about covers: one thing that is covered, with a size, and how far the cover hangs over it."""

from finishcalc.intake.building.cover import cover_shape
from finishcalc.intake.named_materials import COVERED_BED, COVERED_TABLE
from finishcalc.intake.rules.check import Check
from finishcalc.intake.rules.top import COVERS, SHAPE
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.model.keys import SIDE_LIMIT
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation


def covers_one_thing(check: Check) -> None:
    """A bed or a table, and keys that suit it."""
    if COVERS in check.faulty or check.is_faulty(COVERED_BED) or check.is_faulty(COVERED_TABLE):
        return
    given_keys = {str(path[2]): path for path in check.given_under(COVERS, by_the_project=True)}
    if {"bed", "table"} <= given_keys.keys():
        message = "the cover is for both a bed and a table"
        check.wrong(ProblemCode.BED_AND_TABLE, [given_keys["table"]], message, "keep bed or table", table=True)
    elif given_keys and not given_keys.keys() & {"bed", "table"}:
        message = "there is neither a bed nor a table to cover"
        check.wrong(ProblemCode.NOTHING_TO_COVER, list(given_keys.values()), message, 'add bed = "queen", for example')
    covers = check.tables.top.covers
    for key in ("foot_drop", "pillow_tuck"):
        if key in given_keys and covers.table and not covers.bed:
            hint = "leave it out: drop goes all round a table"
            check.wrong(ProblemCode.FOOT_OF_A_TABLE, [given_keys[key]], "only a bed has a foot and pillows", hint)


def table_has_its_size(check: Check) -> None:
    """A round table has a diameter, every other a width and a length."""
    table = check.tables.top.covers.table
    if table is None or check.is_faulty(COVERED_TABLE):
        return
    at = check.given_under(COVERED_TABLE)[0]
    if set(check.layers.names(*COVERED_TABLE)) == {"preset"}:
        return  # no preset gives anything for that name, which another rule reports
    sides = [name for name, side in (("width", table.width), ("length", table.length)) if given(side) is not None]
    if table.diameter is not None and (sides or table.shape in ("rectangle", "oval")):
        hint = "keep the diameter for a round table, or width and length for any other"
        places = [(*COVERED_TABLE, "diameter"), at]
        check.wrong(ProblemCode.TABLE_SIZED_TWICE, places, "a table has a diameter or two sides", hint)
    elif table.diameter is None and table.shape == "round":
        message = "diameter is missing: a round table has one"
        check.wrong(ProblemCode.TABLE_WITHOUT_SIZE, [at], message, "add diameter = ...", table=True)
    elif table.diameter is None and len(sides) < 2:
        missing = " and ".join(side for side in ("width", "length") if side not in sides)
        message = f"{missing} {'is' if sides else 'are'} missing: no preset gives it"
        check.wrong(ProblemCode.TABLE_WITHOUT_SIZE, [at], message, "add width and length, or diameter", table=True)


def cover_has_that_shape(check: Check) -> None:
    """A bed's cover is a rectangle, a table's has the shape of the table."""
    covers, shape = check.tables.top.covers, check.tables.top.shape
    needed = cover_shape(covers) if covers.bed or covers.table else None
    if needed and shape != needed:
        thing = "a bed" if covers.bed else "this table"
        hint = f"use {needed}, or give the size of the top itself"
        message = f"the cover of {thing} is {_shape_words(needed)}, not {_shape_words(shape)}"
        check.wrong(ProblemCode.COVER_OF_ANOTHER_SHAPE, [SHAPE], message, hint)


def _shape_words(shape: str) -> str:
    return "a rectangle" if shape == "rectangle" else shape


def cover_is_not_too_large(check: Check) -> None:
    """A cover is at most as large as a top may be."""
    covers, limit = check.tables.top.covers, Length.parse(SIDE_LIMIT)
    sides = [side for side in check.size if side is not None]
    if (covers.bed or covers.table) and any(side > limit for side in sides):
        show = Notation(check.units)
        comes = show.size(*(up_to_step(side, FINEST[check.units]) for side in sides))
        message, hint = f"the top comes to {comes}", f"at most {show.show(limit)} a side"
        check.wrong(ProblemCode.TOP_TOO_LARGE, [(*COVERS, "drop")], message, hint)
