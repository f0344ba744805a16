"""A cover of a bed or a table: how its size comes about, how it hangs, and what to be careful of."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.cover import Bed, Cover, Table
from finishcalc.plans.cautions import Caution, caution
from finishcalc.wording.said import NoLess, Said, Share, say


def cover_said(covers: Cover, square: bool) -> Iterator[Said]:
    """The size as a person adds it up, first as it must be once quilted, then as the top is made for it. `square`
    says whether the cover's corners are."""
    what, drop, quilted, size = covers.what, covers.drop, covers.quilted, covers.size
    if isinstance(what, Bed):
        yield say("Width: {bed} + 2 x {drop} drop = {width}", bed=what.width, drop=drop, width=quilted.width)
        yield say(
            "Length: {bed} + {foot} drop at the foot + {tuck} pillow tuck = {length}",
            bed=what.length,
            foot=covers.foot_drop,
            tuck=covers.pillow_tuck,
            length=quilted.length,
        )
    elif what.shape == "round":
        yield say("Across: {table} + 2 x {drop} drop = {width}", table=what.width, drop=drop, width=quilted.width)
    else:
        yield say("Width: {table} + 2 x {drop} drop = {width}", table=what.width, drop=drop, width=quilted.width)
        yield say("Length: {table} + 2 x {drop} drop = {length}", table=what.length, drop=drop, length=quilted.length)
    if covers.draw_up and covers.shape == "round":
        yield say(
            "Drawn up by quilting: {w} / (1 - {share}) = {width}",
            w=quilted.width,
            share=Share(covers.draw_up),
            width=size.width,
        )
    elif covers.draw_up:
        yield say(
            "Drawn up by quilting: {w} / (1 - {share}) = {width}, {l} / (1 - {share}) = {length}",
            w=quilted.width,
            l=quilted.length,
            share=Share(covers.draw_up),
            width=size.width,
            length=size.length,
        )
    if covers.shape == "rectangle" and square:
        yield say(
            "A square corner hangs root ({drop} x {drop} + {foot} x {foot}) = {hang}",
            drop=drop,
            foot=covers.foot_drop,
            hang=covers.corner_hang(ZERO),
        )


def cover_cautions(covers: Cover, finished: Cover, corner: Length, usual_table: Length) -> Iterator[Caution]:
    """What trips as the top comes, and what shows once it is `finished`, for quilting draws it up. `corner` is the
    radius of the cover's corners, 0 where they are square; a table is as high as a `usual_table` where its own
    height is not known."""
    if isinstance(covers.what, Bed):
        yield from _mattress_shows(finished, covers.what)
    else:
        yield from _reaches_the_floor(covers, covers.what, corner, usual_table)


def _mattress_shows(covers: Cover, bed: Bed) -> Iterator[Caution]:
    short = min(covers.drop, covers.foot_drop)
    if bed.depth and short < bed.depth:
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
            "The cloth hangs {drop} and {known} {height} high: what reaches the floor trips people. "
            "Keep it off the ground wherever anyone walks; follow your local rules for public rooms.",
            drop=covers.drop,
            known=known,
            height=height,
        )
    elif table.shape == "rectangle" and covers.corner_hang(corner) >= height:
        yield caution(
            "corners-reach-the-floor",
            "The corners hang {hang} and {known} {height} high: what reaches the floor trips people. "
            "Round the corners, or hang it less; follow your local rules for public rooms.",
            hang=covers.corner_hang(corner),
            known=known,
            height=height,
        )
