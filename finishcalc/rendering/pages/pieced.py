"""A pieced top in words: its parts, the cutting of its cloth, and the order of sewing."""

from collections.abc import Iterator

from finishcalc.measures.length import Length
from finishcalc.model.pieced import Blocks, PiecedTop, Sashing
from finishcalc.plans.pieced.pieces import Pieces, Round, Triangles
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.rendering.pages.blocks import block_sizes, direction_words, patches_words
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import counted, in_words

TRIANGLES = {"side": "side triangles", "corner": "corner triangles", "block": "block corners"}


def piecing_words(plan: PiecedPlan, notation: Notation) -> list[str]:
    """Say the centre, its pieces, and each border with the size of the top once it is on."""
    top, pieces = plan.top, plan.pieces
    centre = notation.size(*plan.centre)
    lines = [setting_words(plan, notation) + (f": {centre}" if top.blocks else "")]
    if top.blocks and pieces.block:
        lines.append(block_sizes(top.blocks, notation.size(*[pieces.block] * 2)))
    lines += patches_words(plan, notation)
    small = [
        f"{counted(part.number, 'sashing strip')} of {notation.measured(part.width, part.length)}"
        for part in pieces.sashing
    ]
    if pieces.cornerstones:
        stone = notation.measured_length(pieces.cornerstones.width)
        small.append(f"{counted(pieces.cornerstones.number, 'cornerstone')} of {stone}")
    lines += [", ".join(small)] if small else []
    lines += [_triangles(part, notation) for part in pieces.triangles]
    lines += [border_words(number, part, notation) for number, part in enumerate(pieces.rounds, start=1)]
    return lines + direction_words(plan)


def setting_words(plan: PiecedPlan, notation: Notation) -> str:
    """Say the blocks and their setting, or the centre."""
    top = plan.top
    return _blocks(top.blocks, _sashing(plan), notation) if top.blocks else f"a centre of {notation.size(*plan.centre)}"


def _sashing(plan: PiecedPlan) -> Sashing | None:
    """The sashing, without cornerstones where it has no place for them, because no two strips of it cross."""
    sashing = plan.top.sashing
    return sashing.replace(cornerstones=False) if sashing and not plan.pieces.cornerstones else sashing


def _blocks(blocks: Blocks, sashing: Sashing | None, notation: Notation) -> str:
    setting = "on point" if blocks.setting == "on-point" else "side by side"
    text = f"{blocks.across} x {blocks.down} blocks of {notation.show(blocks.size)} finished, {setting}"
    if not sashing:
        return text
    where = "between them and all round" if sashing.outer else "between them"
    stones = ", with cornerstones" if sashing.cornerstones else ""
    return f"{text}, sashing of {notation.show(sashing.width)} {where}{stones}"


def _triangles(triangles: Triangles, notation: Notation) -> str:
    times = "cut twice" if triangles.cuts == 2 else "cut once"
    square = notation.show(triangles.square)
    squares = f"{counted(triangles.squares, 'square')} of {square}"
    return f"{triangles.number} {TRIANGLES[triangles.use]} from {squares}, {times} corner to corner"


def border_words(number: int, border_round: Round, notation: Notation) -> str:
    """Say the strips of a border, and the size once it is on."""
    cut_pieces = [_strips(pieces, notation) for pieces in _merged(border_round.strips)]
    if border_round.corner_squares:
        cut_pieces.append(f"4 squares of {notation.show(border_round.border.cut)}")
    mitred = ", mitred" if border_round.border.corners == "mitred" else ""
    cut, size = notation.show(border_round.border.cut), notation.size(*border_round.after)
    return f"border {number}, cut {cut}{mitred}: {in_words(cut_pieces)}; the top is then {size}"


def _strips(pieces: Pieces, notation: Notation) -> str:
    return f"{pieces.number} of {notation.measured_length(pieces.length)}"


def _merged(pairs: tuple[Pieces, Pieces]) -> list[Pieces]:
    """Merge two pairs of the same length into four strips."""
    first, second = pairs
    return [first._replace(number=4)] if first == second else [first, second]


def top_sewing(plan: PiecedPlan, notation: Notation) -> list[str]:
    """Give the steps of sewing and pressing."""
    top, pieces = plan.top, plan.pieces
    steps = list(_setting(top, _sashing(plan), plan.trimmed_beyond, notation)) if top.blocks else []
    if top.blocks:
        steps.append(f"the centre is {notation.size(*plan.centre)}, unfinished size: square it")
    if pieces.rounds:
        steps.append(_measuring(top, notation))
    return steps + [
        line
        for number, border_round in enumerate(pieces.rounds, start=1)
        for line in _border_steps(number, border_round, notation)
    ]


def _measuring(top: PiecedTop, notation: Notation) -> str:
    """Write the step that measures for borders: mitred strips are cut longer than the side they go on."""
    step = (
        "measure through the middle before cutting each pair of border strips: if it differs, cut to what the tape says"
    )
    if any(border.corners == "mitred" for border in top.borders):
        repeats = any(map(top.matching, top.borders))
        more = ", and by a repeat where its print is to meet" if repeats else ""
        step += f", a mitred strip longer by twice its width and {notation.show(top.mitre_extra)}{more}"
    return step


def _setting(top: PiecedTop, sashing: Sashing | None, margin: Length, notation: Notation) -> Iterator[str]:
    blocks = top.blocks
    if blocks is None:
        return
    size = notation.measured_length(blocks.size + top.seam * 2)
    if blocks.inner:
        inner, past = notation.show(blocks.inner), notation.show(top.seam)
        yield (
            f"frame each square of {inner} with four triangles, two opposite sides first; press towards the triangles; "
            f"trim to {size}, about {past} beyond each point"
        )
    if blocks.plain == "alternate":
        yield "lay pieced and plain blocks by turns, a pieced one in the first corner"
    if blocks.setting == "on-point":
        yield from _on_point(blocks, sashing, notation, margin)
    elif sashing:
        yield from _sashed(blocks, sashing)
    else:
        if blocks.across > 1:
            turns = "; press each row the other way" if blocks.down > 1 else ""
            yield f"sew the blocks into {counted(blocks.down, 'row')} of {blocks.across}{turns}"
        if blocks.down > 1:
            yield "sew the rows together"


def _sashed(blocks: Blocks, sashing: Sashing) -> Iterator[str]:
    rows, between = counted(blocks.down, "row"), blocks.down + (1 if sashing.outer else -1)
    if blocks.across > 1 or sashing.outer:
        where = " and ".join(["between them"] * (blocks.across > 1) + ["at both ends"] * sashing.outer)
        yield f"sew {rows} of {counted(blocks.across, 'block')} with a short strip {where}; press towards the sashing"
    if not between:
        return
    if sashing.cornerstones:
        yield f"sew {counted(between, 'row')} of strips and cornerstones; press towards the strips"
    places = ["between them"] * (blocks.down > 1) + ["at the top and at the bottom"] * sashing.outer
    kind = "row of strips" if sashing.cornerstones else "long strip"
    yield f"sew the rows together with a {kind} {', '.join(places)}; press towards the sashing"


def _on_point(blocks: Blocks, sashing: Sashing | None, notation: Notation, margin: Length) -> Iterator[str]:
    rows = "lay the blocks in diagonal rows"
    if blocks.plain == "setting":
        rows += ", the setting blocks between the pieced ones"
    if blocks.across + blocks.down > 2:
        rows += ", a side triangle at each end of a row but at the corners of the top"
    beyond = "the points of the blocks"
    if not sashing:
        yield f"{rows}; sew the rows, press towards the triangles, and sew the rows together"
    elif sashing.outer:
        yield f"{rows}, strips of sashing between the blocks and at the ends; press towards the sashing"
        yield from _rows_all_round(sashing)
        beyond = "the middle of the outer cornerstones" if sashing.cornerstones else beyond
    else:
        yield from _rows_with_strips(blocks, sashing)
    yield f"sew the corner triangles on last, and trim {notation.show(margin)} beyond {beyond}"


def _rows_all_round(sashing: Sashing) -> Iterator[str]:
    """Write the step that joins rows with strips that run through to the edges."""
    if sashing.cornerstones:
        yield "sew diagonal rows of strips and cornerstones, and the rows together with these between them"
        return
    yield (
        "sew the rows together with a long strip between them, and one before the first row and after the last: each "
        "reaches over both edges of the top; press towards the sashing"
    )


def _rows_with_strips(blocks: Blocks, sashing: Sashing) -> Iterator[str]:
    """Write the steps for sashing that is not all round. A side triangle lies along a block and the end of a strip, so
    the strip goes on before it does. Rows of one length are shifted by a block, and the strip between two has a
    triangle of either row at its ends: one of these is set in last."""
    strip, shifted = "long strip", abs(blocks.across - blocks.down)
    yield (
        "lay the blocks in diagonal rows, and sew each row with a short strip between the blocks; press towards the "
        "sashing"
    )
    if sashing.cornerstones:
        strip = "row of strips and cornerstones"
        yield "sew diagonal rows of strips with a cornerstone between two; press towards the strips"
    evenly = " and between rows of one length to the lower one" if shifted else ""
    yield f"sew a {strip} to each row, on the side of the longer row next to it{evenly}; press towards the sashing"
    yield (
        "sew a side triangle to each end of a row but at the corners of the top, along the end of the row and of its "
        "strip; sew the rows together"
    )
    if shifted:
        them = "1 triangle is left: set it in" if shifted == 1 else f"{shifted} triangles are left: set each in"
        yield f"{them}, one side along a row and the end of a strip, the other along a block of the next row"


def _border_steps(number: int, border_round: Round, notation: Notation) -> Iterator[str]:
    border, first, second = border_round.border, *border_round.strips
    size = notation.size(*border_round.after)
    name = f"border {number}, cut {notation.show(border.cut)}"
    one, other = notation.measured_length(first.length), notation.measured_length(second.length)
    press = "press towards the border"
    if border.corners == "mitred":
        yield (
            f"{name}: 2 of {one} to the sides and 2 of {other} to top and bottom, middle to middle; stop each seam a "
            "seam allowance from the corner"
        )
        yield f"mitre the corners at 45 degrees and trim; {press}; the top is {size}"
    elif border.corners == "cornerstones":
        yield (
            f"{name}: 2 of {one} to the sides; a corner square at both ends of 2 of {other}, and these to top and "
            f"bottom; {press}; the top is {size}"
        )
    else:
        places = ("the sides", "top and bottom") if border.first == "sides" else ("top and bottom", "the sides")
        yield f"{name}: 2 of {one} to {places[0]}, then 2 of {other} to {places[1]}; {press}; the top is {size}"
