"""The rules about pieced tops: blocks, sashing and borders that can be sewn together."""

from finishcalc.intake.building.pieced import completed
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.rules.check import Check
from finishcalc.intake.rules.top import SHAPE
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.model.keys import SIDE_LIMIT
from finishcalc.model.pieced import framed_square, square_to_frame
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation

BLOCKS: KeyPath = ("top", "blocks")
SASHING: KeyPath = ("top", "sashing")
BORDERS: KeyPath = ("top", "borders")
CENTRE: KeyPath = ("top", "centre")
PIECING: KeyPath = ("top", "piecing")


def blocks_have_a_size(check: Check) -> None:
    """A finished size, or the inner square that it follows from; where both are given they agree."""
    blocks, finest = check.tables.top.blocks, FINEST[check.units]
    if blocks is None or {(*BLOCKS, "size"), (*BLOCKS, "inner")} & check.faulty:
        return
    size, inner, seam = given(blocks.size), blocks.inner, check.tables.top.piecing.seam_allowance
    if size is None and inner is None:
        hint = "add the finished size of a block: size = 12"
        check.wrong(ProblemCode.BLOCKS_WITHOUT_SIZE, [(*BLOCKS, "across")], "size is missing", hint, table=True)
        return
    if inner is None:
        return
    show = Notation(check.units).show
    if inner <= seam * 2:
        hint = "give the cut size of the inner square"
        check.wrong(ProblemCode.INNER_SQUARE_TOO_SMALL, [(*BLOCKS, "inner")], "is all seam allowance", hint)
    elif size is not None and abs((size - framed_square(inner, seam, finest)).mm) > finest.mm:
        makes, right = framed_square(inner, seam, finest), square_to_frame(size, seam, finest)
        check.wrong(
            ProblemCode.BLOCK_SIZES_DISAGREE,
            [(*BLOCKS, "size"), (*BLOCKS, "inner")],
            f"a square cut {show(inner)} and framed makes a block of {show(makes)}, not {show(size)}",
            f"leave size out, or use inner = {_quoted(right, check.units)}",
        )


def _quoted(length: Length, units: str) -> str:
    return f'"{Notation(units).number(length.to(units), units)}"'


def parts_go_together(check: Check) -> None:
    """Sashing lies between blocks; borders go round blocks or a centre."""
    top, refused = check.tables.top, {path[1] for path in check.faulty if path[0] == "top" and len(path) > 1}
    if top.sashing and not top.blocks and "blocks" not in refused:
        message = "there are no blocks for sashing to lie between"
        check.wrong(ProblemCode.SASHING_WITHOUT_BLOCKS, [(*SASHING, "width")], message, "add [top.blocks]")
    if top.borders and not top.blocks and not top.centre and not refused & {"blocks", "centre"}:
        hint = "add [top.blocks], or give their centre a width and length under [top.centre]"
        message = "there is nothing for borders to go round"
        check.wrong(ProblemCode.BORDERS_ROUND_NOTHING, [(*BORDERS, 0, "cut")], message, hint)


def sashing_on_point_has_its_place(check: Check) -> None:
    """Sashing on point that does not go all round needs two rows: blocks of one row only meet at their points."""
    top = check.tables.top
    if not top.blocks or not top.sashing or completed(top.blocks, top).setting != "on-point":
        return
    counts = given(top.blocks.across), given(top.blocks.down)
    if 1 in counts and not completed(top.sashing, top).outer:
        message = "on point, no two blocks of a single row lie side by side for sashing to lie between"
        hint = "add outer = true, or leave the sashing out"
        check.wrong(ProblemCode.SASHING_OF_ONE_ROW, [(*SASHING, "width")], message, hint, table=True)


def piecing_is_of_a_pieced_top(check: Check) -> None:
    """Keys for all parts are given only where there are parts."""
    given_keys = check.given_under(PIECING, by_the_project=True)
    if given_keys and not check.tables.top.is_pieced and not check.is_faulty(("top",)):
        hint = "add [top.blocks] or [top.centre], or leave [top.piecing] out"
        check.wrong(ProblemCode.PIECING_OF_A_PLAIN_TOP, given_keys[:1], "the top is not pieced", hint)


def borders_leave_something(check: Check) -> None:
    """A border is cut wider than its two seam allowances."""
    seam = check.tables.top.piecing.seam_allowance
    for number, border in enumerate(check.tables.top.borders):
        if border.cut <= seam * 2:
            message = f"leaves nothing after two seam allowances of {Notation(check.units).show(seam)}"
            hint = "give the cut width of the strips, not the finished width"
            check.wrong(ProblemCode.BORDER_TOO_NARROW, [(*BORDERS, number, "cut")], message, hint)


def cornerstones_have_their_cloth(check: Check) -> None:
    """A cloth for cornerstones is only given where there are some."""
    top = check.tables.top
    own = check.given_under((*SASHING, "corner_fabric"))
    if own and top.sashing and not completed(top.sashing, top).cornerstones:
        hint = "add cornerstones = true, or leave it out"
        check.wrong(ProblemCode.NO_CORNERSTONES, own, "the sashing has no cornerstones", hint, table=True)
    for number, border in enumerate(top.borders):
        own, corners = check.given_under((*BORDERS, number, "corner_fabric")), completed(border, top).corners
        if own and corners != "cornerstones":
            hint = 'add corners = "cornerstones", or leave it out'
            message = f"a border with {corners} corners has no cornerstones"
            check.wrong(ProblemCode.NO_CORNERSTONES, own, message, hint, table=True)


def first_pair_is_butted(check: Check) -> None:
    """A first pair is only named where a border has one."""
    top = check.tables.top
    for number, border in enumerate(top.borders):
        if given(border.first) is not None and completed(border, top).corners != "butted":
            message = "only a butted border has a pair sewn on first"
            hint = 'use corners = "butted", or leave it out'
            check.wrong(ProblemCode.NO_FIRST_PAIR, [(*BORDERS, number, "first")], message, hint)


def pieced_top_is_a_rectangle(check: Check) -> None:
    """Blocks and borders make a rectangle, and one that a top can be."""
    top = check.tables.top
    if not top.blocks and not top.centre:
        return
    if top.shape != "rectangle":
        message = f"blocks and borders make a rectangle, not {top.shape}"
        hint = "give the width and length, or the diameter, after it is cut to shape"
        check.wrong(ProblemCode.PIECED_IS_A_RECTANGLE, [SHAPE], message, hint)
    sides, limit = [side for side in check.size if side is not None], Length.parse(SIDE_LIMIT)
    if any(side > limit for side in sides):
        show = Notation(check.units)
        pieces = [path for path in check.layers.values if path[:2] in (BLOCKS, CENTRE)]
        comes = show.size(*(up_to_step(side, FINEST[check.units]) for side in sides))
        message, hint = f"the top comes to {comes}", f"at most {show.show(limit)} a side"
        check.wrong(ProblemCode.TOP_TOO_LARGE, pieces[:1], message, hint, table=True)
