"""The rules about pieced tops: blocks, sashing and borders that can be sewn together."""

from finishcalc.intake.building.pieced import said
from finishcalc.intake.fields import SIDE_LIMIT
from finishcalc.intake.named_materials import is_pieced
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.model.pieced import framed_square, square_to_frame
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation

BLOCKS: Path = ("top", "blocks")
SASHING: Path = ("top", "sashing")


def blocks_have_a_size(check: Check) -> None:
    """A finished size, or the inner square that it follows from; where both are given they agree."""
    layers, finest = check.layers, FINEST[check.units]
    if not layers.names(*BLOCKS) or {(*BLOCKS, "size"), (*BLOCKS, "inner")} & check.faulty:
        return
    size, inner = layers.get(*BLOCKS, "size"), layers.get(*BLOCKS, "inner")
    seam: Length = layers.get("top", "piecing", "seam_allowance")
    if size is None and inner is None:
        hint = "add the finished size of a block: size = 12"
        check.wrong(ProblemCode.BLOCKS_WITHOUT_SIZE, [(*BLOCKS, "across")], "size is missing", hint, table=True)
        return
    if inner is None:
        return
    show = Notation(check.units).show
    if inner <= seam * 2:
        check.wrong(
            ProblemCode.INNER_SQUARE_TOO_SMALL,
            [(*BLOCKS, "inner")],
            "is nothing but seam allowance",
            "give the size the inner square is cut",
        )
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
    """Sashing lies between blocks; borders go round blocks or a centre; on point, sashing goes all round."""
    layers = check.layers
    blocks, centre = bool(layers.names(*BLOCKS)), bool(layers.names("top", "centre"))
    refused = {path[1] for path in check.faulty if path[0] == "top" and len(path) > 1}
    sashed = bool(layers.names(*SASHING))
    if sashed and not blocks and "blocks" not in refused:
        check.wrong(
            ProblemCode.SASHING_WITHOUT_BLOCKS,
            [(*SASHING, "width")],
            "there are no blocks for sashing to lie between",
            "add [top.blocks]",
        )
    borders = layers.rows("top", "borders")
    if borders and not blocks and not centre and not refused & {"blocks", "centre"}:
        hint = "add [top.blocks], or put the width and length of what they go round under [top.centre]"
        check.wrong(
            ProblemCode.BORDERS_ROUND_NOTHING, [(*borders[0], "cut")], "there is nothing for borders to go round", hint
        )
    on_point = blocks and sashed and said(layers, BLOCKS, "setting") == "on-point"
    if on_point and not (said(layers, SASHING, "outer") and said(layers, SASHING, "cornerstones")):
        check.wrong(
            ProblemCode.SASHING_ON_POINT,
            [(*SASHING, "width")],
            "sashing of blocks on point goes round every block and meets in cornerstones",
            "add outer = true and cornerstones = true, or leave the sashing out",
            table=True,
        )


def piecing_is_of_a_pieced_top(check: Check) -> None:
    """What is said for all parts is for something."""
    given = [
        path
        for path, laid in check.layers.values.items()
        if path[:2] == ("top", "piecing") and laid.origin.layer == "project file"
    ]
    refused = any(path[:1] == ("top",) for path in check.faulty)
    if given and not is_pieced(check.layers) and not refused:
        check.wrong(
            ProblemCode.PIECING_OF_A_PLAIN_TOP,
            given[:1],
            "the top is not pieced",
            "add [top.blocks] or [top.centre], or leave [top.piecing] out",
        )


def borders_leave_something(check: Check) -> None:
    """A border is cut wider than its two seam allowances."""
    seam: Length = check.layers.get("top", "piecing", "seam_allowance")
    for border in check.layers.rows("top", "borders"):
        if check.layers.get(*border, "cut") <= seam * 2:
            show = Notation(check.units).show
            hint = "give the width the strips are cut, not the width that shows"
            check.wrong(
                ProblemCode.BORDER_TOO_NARROW,
                [(*border, "cut")],
                f"leaves nothing after two seam allowances of {show(seam)}",
                hint,
            )


def corners_are_there(check: Check) -> None:
    """A cloth for cornerstones is only given where there are some, and a first pair only where there is one."""
    layers = check.layers
    if layers.names(*SASHING, "corner_fabric") and not said(layers, SASHING, "cornerstones"):
        paths: list[Path] = [(*SASHING, "corner_fabric", key) for key in layers.names(*SASHING, "corner_fabric")]
        check.wrong(
            ProblemCode.NO_CORNERSTONES,
            paths,
            "the sashing has no cornerstones",
            "add cornerstones = true, or leave it out",
            table=True,
        )
    for border in layers.rows("top", "borders"):
        corners, own = said(layers, border, "corners"), layers.names(*border, "corner_fabric")
        if own and corners != "cornerstones":
            paths = [(*border, "corner_fabric", key) for key in own]
            hint = 'add corners = "cornerstones", or leave it out'
            check.wrong(
                ProblemCode.NO_CORNERSTONES,
                paths,
                f"a border with {corners} corners has no cornerstones",
                hint,
                table=True,
            )
        if layers.get(*border, "first") is not None and corners != "butted":
            hint = 'use corners = "butted", or leave it out'
            check.wrong(
                ProblemCode.NO_FIRST_PAIR,
                [(*border, "first")],
                "only a butted border has a pair that is sewn on first",
                hint,
            )


def pieced_top_is_a_rectangle(check: Check) -> None:
    """Blocks and borders make a rectangle, and one that a top can be."""
    if not check.layers.names(*BLOCKS) and not check.layers.names("top", "centre"):
        return
    shape = check.layers.get("top", "shape")
    if shape != "rectangle":
        hint = "give the width and length, or the diameter, that is left once it is cut to shape"
        check.wrong(
            ProblemCode.PIECED_IS_A_RECTANGLE,
            [("top", "shape")],
            f"blocks and borders make a rectangle, not {shape}",
            hint,
        )
    sides, limit = [side for side in check.size if side is not None], Length.parse(SIDE_LIMIT)
    if any(side > limit for side in sides):
        show = Notation(check.units)
        pieces = [path for path in check.layers.values if path[:2] in (BLOCKS, ("top", "centre"))]
        comes = show.size(*(up_to_step(side, FINEST[check.units]) for side in sides))
        check.wrong(
            ProblemCode.TOP_TOO_LARGE,
            pieces[:1],
            f"the top comes to {comes}",
            f"at most {show.show(limit)} a side",
            table=True,
        )
