"""Makes the cover that a table describes, and derives the shape and the use of the top."""

from finishcalc.model.cover import Bed, Cover, Covers, Table
from finishcalc.model.keys import Outline, Use
from finishcalc.model.section import given


def cover_of(covers: Covers, shape: Outline) -> Cover | None:
    """The cover of a bed or a table for a top of some shape; None where nothing is covered, or where its size or the
    drop is not given."""
    thing = _bed(covers.bed) if covers.bed else _table(covers.table, shape) if covers.table else None
    if thing is None or given(covers.drop) is None:
        return None
    foot_drop = covers.drop if covers.foot_drop is None else covers.foot_drop
    return Cover(thing, covers.drop, foot_drop, covers.pillow_tuck, covers.draw_up)


def _bed(bed: Bed) -> Bed | None:
    return None if None in (given(bed.width), given(bed.length)) else bed


def _table(table: Table, shape: Outline) -> Table | None:
    """The table with a width and a length, both its diameter where it has one, in the shape of the top."""
    width, length = (given(side) if table.diameter is None else table.diameter for side in (table.width, table.length))
    return None if None in (width, length) else table.replace(shape=shape, width=width, length=length)


def table_shape(table: Table) -> Outline | None:
    """The shape of a table: the one it gives, or round where it has a diameter, or None."""
    return given(table.shape) or ("round" if table.diameter is not None else None)


def cover_shape(covers: Covers) -> Outline | None:
    """The shape that follows from the bed or table: a rectangle for a bed."""
    return "rectangle" if covers.bed or not covers.table else table_shape(covers.table)


def cover_use(covers: Covers) -> Use:
    """The use that follows from the bed or table: a bed no larger than a crib is a crib."""
    if not covers.bed:
        return "tablecloth"
    bed = _bed(covers.bed)
    return "crib" if bed and bed.is_crib else "bed"
