"""The rules about quilting: styles that say what they stitch, methods that suit them, areas that make up the top."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.named_materials import METHOD, style_paths
from finishcalc.intake.rules.check import Check
from finishcalc.measures.length import Length
from finishcalc.model.project import Area
from finishcalc.model.quilting import Method, Style
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation

ANGLED = ("channels", "parallel", "crosshatch")
AREAS: KeyPath = ("quilting", "areas")

LEAST_DEPTH = Length.parse("1 in")
"""The least that is stitched in one pass: no machine is so small, and the largest top then takes 240 passes."""


def _styles(check: Check) -> list[tuple[KeyPath, Style]]:
    """Each style with the path that names it."""
    quilting = check.tables.quilting
    styles = [quilting.style, *(area.style for area in quilting.areas)]
    return list(zip(style_paths(quilting), styles, strict=True))


def styles_say_their_lines(check: Check) -> None:
    """A pattern has a height and a widest distance, lines that run somewhere have an angle."""
    for path, style in _styles(check):
        if given(style.lines) is None or _is_refused(check, path):
            continue
        needs = ["angle"] if style.lines in ANGLED else []
        needs = ["pattern_height", "widest"] if style.lines == "pattern" else needs
        check.missing(ProblemCode.INCOMPLETE_STYLE, path, needs, f'lines = "{style.lines}" needs it')
        if style.lines == "pattern" and style.worked == "motifs":
            check.missing(ProblemCode.INCOMPLETE_STYLE, path, ["motif"], 'worked = "motifs" needs it')
        at: KeyPath = (*path, "angle")
        if style.lines == "crosshatch" and style.angle in (0, *range(90, 180)):
            message = "the two sets of crosshatch lines slant opposite ways"
            check.wrong(ProblemCode.CROSSHATCH_ANGLE, [at], message, 'use an angle from 1 to 89, or lines = "grid"')
        if style.lines == "channels" and style.angle not in (None, 0, 90):
            message = "channels run side to side or top to bottom"
            hint = 'use angle = 0, angle = 90, or lines = "parallel"'
            check.wrong(ProblemCode.CHANNEL_ANGLE, [at], message, hint)


def ties_are_tied(check: Check) -> None:
    """A tied quilt has a style of ties, and only that, and no other method makes them."""
    stitch = given(check.tables.quilting.method.stitch)
    for path, style in _styles(check):
        lines = given(style.lines)
        if None in (lines, stitch) or _is_refused(check, path) or _is_refused(check, METHOD):
            continue
        if (lines == "ties") != (stitch == "tie"):
            places: list[KeyPath] = [(*path, "preset"), (*path, "lines"), (*METHOD, "preset")]
            message = "this method makes no ties" if lines == "ties" else "this method makes only ties"
            hint = 'use method = "tied" with style = "ties-4", or neither'
            check.wrong(ProblemCode.TIES_AGAINST_METHOD, places, message, hint)


def methods_take_their_time(check: Check) -> None:
    """Every kind of stage is one that the method has a use for, and no work is left without its time."""
    method = check.tables.quilting.method
    if given(method.stages) is None or _is_refused(check, METHOD):
        return
    wrong = next(_untimely(method), None)
    if wrong:
        code, message = wrong
        check.wrong(code, [(*METHOD, "stages")], message, "see presets/methods for the stages of each method")


def _untimely(method: Method) -> Iterator[tuple[ProblemCode, str]]:
    """Find stages that the method has nothing for, and work that has no stage."""
    kinds = {stage.each for stage in method.stages.value}
    ties = method.stitch == "tie"
    if not kinds:
        yield ProblemCode.NO_STAGE, "there is no stage, so the work would take no time"
    if kinds & {"pass", "row"} and method.frame is False:
        yield ProblemCode.PASSES_OFF_THE_FRAME, "a quilt that is not on the frame has no passes and no rows"
    if "tie" in kinds and not ties:
        yield ProblemCode.TIE_STAGE_WITHOUT_TIES, "this method makes no ties"
    if "bobbin" in kinds and method.stitch in ("running", "tie"):
        yield ProblemCode.BOBBIN_STAGE_WITHOUT_BOBBINS, "this method has no bobbins"
    if ties and not kinds & {"tie", "quilt"}:
        yield ProblemCode.TIES_WITHOUT_STAGE, "ties have no stage"
    if ties and kinds & {"motif", "design", "ruler-move", "stitching"}:
        yield ProblemCode.STITCHING_STAGE_OF_TIES, "this method makes only ties, and stitches nothing between them"
    if not ties and not kinds & {"stitching", "quilt"}:
        yield ProblemCode.STITCHING_WITHOUT_STAGE, "stitching has no stage"
    stitching = [stage for stage in method.stages.value if stage.each == "stitching"]
    ways = [way or "all other ways" for stage in stitching for way in stage.worked or (None,)]
    if twice := next((way for way in ways if ways.count(way) > 1), None):
        yield ProblemCode.STITCHED_TWICE, f"has two speeds for {twice}, and only the first would count"


def throat_leaves_a_depth(check: Check) -> None:
    """Take-up and margin leave a part of the throat to stitch in."""
    frame = check.tables.frame
    if frame.depth >= LEAST_DEPTH:
        return
    show = Notation(check.units).show
    places: list[KeyPath] = [("frame", key) for key in ("throat", "take_up", "margin")]
    took = f"take_up, {show(frame.take_up)}, and margin, {show(frame.margin)}"
    message = f"{took}, leave less than 1 in of a throat of {show(frame.throat)} to stitch in"
    hint = "where throat is the depth that you stitch, set take_up = 0 and margin = 0"
    check.wrong(ProblemCode.THROAT_WITHOUT_DEPTH, places, message, hint)


def areas_make_the_top(check: Check) -> None:
    """Each area is a share or a part of a pieced top, and together they are no more than the whole."""
    areas = check.tables.quilting.areas
    if AREAS in check.faulty or any(check.is_faulty((*AREAS, number)) for number in range(len(areas))):
        return
    parts: set[str] = set()
    for number, area in enumerate(areas):
        _check_extent(check, (*AREAS, number), area, parts)
    shares = sum((area.share or Fraction(0) for area in areas), Fraction(0))
    if shares > 1:
        last: KeyPath = (*AREAS, len(areas) - 1, "share")
        message = f"the areas come to {Notation(check.units).show(shares * 100)} % of the top"
        check.wrong(ProblemCode.AREAS_OVER_THE_WHOLE, [last], message, "give at most 100 % in all")
    if shares and parts:
        places: list[KeyPath] = [(*AREAS, 0, "part"), (*AREAS, 0, "share")]
        message = "some areas are shares and some are parts"
        check.wrong(ProblemCode.SHARES_AND_PARTS, places, message, "give all as shares, or all as parts")


def _check_extent(check: Check, path: KeyPath, area: Area, parts: set[str]) -> None:
    """One area is a share or a part; `parts` are those of the areas before it."""
    places: list[KeyPath] = [(*path, "style", "preset"), (*path, "share"), (*path, "part")]
    hint = 'give share = "40 %" or part = "borders"'
    if area.share is None and area.part is None:
        message = "gives neither a share nor a part of the top"
        check.wrong(ProblemCode.AREA_WITHOUT_EXTENT, places, message, hint, table=True)
    elif area.share is not None and area.part is not None:
        check.wrong(ProblemCode.AREA_TWO_WAYS, places, "gives both a share and a part", hint, table=True)
    elif area.part is not None:
        _check_part(check, (*path, "part"), area.part, parts)
    if area.share == 0:
        check.wrong(ProblemCode.AREA_OF_NOTHING, [(*path, "share")], "covers none of the top", "leave the area out")


def _check_part(check: Check, path: KeyPath, part: str, parts: set[str]) -> None:
    """A part is one that the pieced top has, and once only."""
    top = check.tables.top
    exists = {"blocks": bool(top.blocks), "sashing": bool(top.sashing), "borders": bool(top.borders)}
    setting = (given(top.blocks.setting) if top.blocks else None) or top.piecing.setting
    if not top.is_pieced or not exists[part]:
        hint = "give a share instead, or describe them under [top]"
        check.wrong(ProblemCode.NO_SUCH_PART, [path], f"the top has no {part}", hint)
    elif part == "sashing" and setting == "on-point":
        message = "on point, sashing is not counted apart from triangles"
        check.wrong(ProblemCode.SASHING_AREA_ON_POINT, [path], message, "give a share instead")
    elif part in parts:
        check.wrong(ProblemCode.PART_TWICE, [path], f"the {part} have a style already", "keep one of them")
    parts.add(part)


def _is_refused(check: Check, path: KeyPath) -> bool:
    """Tell a material for which a problem was reported already: a value that was refused, or an unknown name."""
    return check.is_unknown(path) or any(
        starts_with(reported, path) or starts_with(path, reported) for reported in check.faulty
    )
