"""A cover of a bed or a table: the arithmetic of its size, the way it hangs, and what to be careful of."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.cover import Bed, Cover, Table
from finishcalc.plans.cautions import Caution, caution
from finishcalc.wording.sentence import NoLess, Sentence, Share, say


def cover_working(covers: Cover, square: bool) -> Iterator[Sentence]:
    """The size as a person adds it up, first as it must be once quilted, then as the top is made for it. `square` is
    True where the cover has square corners."""
    if isinstance(covers.what, Bed):
        yield from _bed_working(covers, covers.what)
    else:
        yield from _table_working(covers, covers.what)
    if covers.draw_up:
        yield _draw_up_working(covers)
    if covers.shape == "rectangle" and square and (covers.drop or covers.foot_drop):
        text = "A square corner hangs root ({drop} x {drop} + {foot} x {foot}) = {hang}"
        yield say(text, drop=covers.drop, foot=covers.foot_drop, hang=covers.corner_hang(ZERO))


def _bed_working(covers: Cover, bed: Bed) -> Iterator[Sentence]:
    quilted = covers.quilted
    yield say("Width: {bed} + 2 x {drop} drop = {width}", bed=bed.width, drop=covers.drop, width=quilted.width)
    yield say(
        "Length: {bed} + {foot} drop at the foot + {tuck} pillow tuck = {length}",
        bed=bed.length,
        foot=covers.foot_drop,
        tuck=covers.pillow_tuck,
        length=quilted.length,
    )


def _table_working(covers: Cover, table: Table) -> Iterator[Sentence]:
    sides = [("Width", table.width, covers.quilted.width), ("Length", table.length, covers.quilted.length)]
    if table.shape == "round":
        sides = [("Across", table.width, covers.quilted.width)]
    for name, side, quilted in sides:
        yield say(name + ": {table} + 2 x {drop} drop = {side}", table=side, drop=covers.drop, side=quilted)


def _draw_up_working(covers: Cover) -> Sentence:
    quilted, size = covers.quilted, covers.size
    text = "Drawn up by quilting: {w} / (1 - {share}) = {width}"
    if covers.shape != "round":
        text += ", {l} / (1 - {share}) = {length}"
    return say(
        text, w=quilted.width, l=quilted.length, share=Share(covers.draw_up), width=size.width, length=size.length
    )


def cover_cautions(covers: Cover, finished: Cover, corner: Length, usual_table: Length) -> Iterator[Caution]:
    """Warn of what trips people before quilting draws the top up, and of what shows once it is `finished`. `corner` is
    the radius of the cover's corners, 0 where they are square; a table is as high as a `usual_table` where its own
    height is not known."""
    if isinstance(covers.what, Bed) and covers.what.is_crib:
        yield from _hangs_in_a_crib(covers)
    elif isinstance(covers.what, Bed):
        yield from _mattress_shows(finished, covers.what)
    else:
        yield from _reaches_the_floor(covers, covers.what, corner, usual_table)


def _hangs_in_a_crib(covers: Cover) -> Iterator[Caution]:
    """Warn of a cover that is larger than a crib's mattress, which fills the crib from side to side."""
    hangs = max(covers.drop, covers.foot_drop)
    if hangs:
        yield caution(
            "crib-drop",
            "A crib has no room for a drop: a cover that reaches {hangs} past the mattress folds up inside. It is "
            "usually as large as the mattress.",
            hangs=hangs,
        )


def _mattress_shows(covers: Cover, bed: Bed) -> Iterator[Caution]:
    short = min(covers.drop, covers.foot_drop)
    if bed.depth and covers.mattress_shows:
        yield caution(
            "mattress-shows",
            "The mattress is {depth} deep and the cover hangs less once finished: up to {rest} of it shows.",
            depth=bed.depth,
            rest=NoLess(bed.depth - short),
        )


def _reaches_the_floor(covers: Cover, table: Table, corner: Length, usual: Length) -> Iterator[Caution]:
    height, known = table.height or usual, "the table is" if table.height else "tables are usually"
    if covers.drop >= height:
        yield caution(
            "reaches-the-floor",
            "The cloth hangs {drop} and {known} {height} high: cloth on the floor trips people. "
            "Keep it off the ground wherever anyone walks; follow your local rules for public rooms.",
            drop=covers.drop,
            known=known,
            height=height,
        )
    elif table.shape == "rectangle" and covers.corner_hang(corner) >= height:
        yield caution(
            "corners-reach-the-floor",
            "The corners hang {hang} and {known} {height} high: cloth on the floor trips people. "
            "Round the corners, or shorten the drop; follow your local rules for public rooms.",
            hang=covers.corner_hang(corner),
            known=known,
            height=height,
        )
