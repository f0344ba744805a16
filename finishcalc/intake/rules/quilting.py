"""The rules about quilting: styles that say what they stitch, methods that suit them, areas that make up the top."""

from fractions import Fraction

from finishcalc.intake import presets
from finishcalc.intake.named_materials import is_pieced, styles_of
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation

ANGLED = ("channels", "parallel", "crosshatch")
AREAS = ("quilting", "areas")


def styles_say_their_lines(check: Check) -> None:
    """A pattern has a height and a widest distance, lines that run somewhere have an angle."""
    for path in styles_of(check.layers):
        lines, angle = (check.layers.get(*path, key) for key in ("lines", "angle"))
        if lines is None or _refused(check, path):
            continue
        needs = ("pattern_height", "widest") if lines == "pattern" else ("angle",) if lines in ANGLED else ()
        check.missing(ProblemCode.INCOMPLETE_STYLE, path, needs, f'lines = "{lines}" needs it')
        if lines == "crosshatch" and angle in (0, *range(90, 180)):
            hint = 'use an angle from 1 to 89, or lines = "grid"'
            check.wrong(
                ProblemCode.CROSSHATCH_ANGLE, [(*path, "angle")], "the two sets of a crosshatch slant both ways", hint
            )
        if lines == "channels" and angle not in (None, 0, 90):
            hint = 'use angle = 0, angle = 90, or lines = "parallel"'
            check.wrong(
                ProblemCode.CHANNEL_ANGLE, [(*path, "angle")], "channels run side to side or top to bottom", hint
            )


def ties_are_tied(check: Check) -> None:
    """A tied quilt has a style of ties, and only that, and no other method makes them."""
    stitch = check.layers.get("quilting", "method", "stitch")
    for path in styles_of(check.layers):
        lines = check.layers.get(*path, "lines")
        if None in (lines, stitch) or _refused(check, path) or _refused(check, ("quilting", "method")):
            continue
        places = [(*path, "preset"), (*path, "lines"), ("quilting", "method", "preset")]
        if (lines == "ties") != (stitch == "tie"):
            message = "ties are not made by this method" if lines == "ties" else "this method makes ties"
            hint = 'use method = "tied" with style = "ties-4", or neither'
            check.wrong(ProblemCode.TIES_AGAINST_METHOD, places, message, hint)


def methods_take_their_time(check: Check) -> None:
    """Every kind of stage is one that the method has a use for, and no work is left without its time."""
    path: Path = ("quilting", "method")
    stages, frame, stitch = (check.layers.get(*path, key) for key in ("stages", "frame", "stitch"))
    if stages is None or _refused(check, path):
        return
    kinds = {stage["each"] for stage in stages}
    wrong: tuple[ProblemCode, str] | None = None
    if not kinds:
        wrong = ProblemCode.NO_STAGE, "there is no stage, so the work would take no time"
    elif "straight" in kinds and "stitching" not in kinds:
        wrong = ProblemCode.STITCHING_WITHOUT_STAGE, "straight lines have a stage and other stitching has none"
    elif "pass" in kinds and frame is False:
        wrong = ProblemCode.PASSES_OFF_THE_FRAME, "a quilt that is not on the frame has no passes"
    elif "tie" in kinds and stitch != "tie":
        wrong = ProblemCode.TIE_STAGE_WITHOUT_TIES, "this method makes no ties"
    elif stitch == "tie" and not kinds & {"tie", "quilt"}:
        wrong = ProblemCode.TIES_WITHOUT_STAGE, "ties have no stage"
    if wrong:
        code, message = wrong
        check.wrong(code, [(*path, "stages")], message, "see presets/methods for the stages of each method")


def areas_make_the_top(check: Check) -> None:
    """Each area is a share or a part of a pieced top, and together they are no more than the whole."""
    layers, whole, parts = check.layers, Fraction(0), set[str]()
    for area in layers.rows(*AREAS):
        share, part = layers.get(*area, "share"), layers.get(*area, "part")
        if any(told[: len(area)] == area or told == AREAS for told in check.faulty):
            return
        here: list[Path] = [(*area, "style", "preset"), (*area, "share"), (*area, "part")]
        if (share is None) == (part is None):
            hint = 'give share = "40 %" or part = "borders"'
            if part is None:
                message = "says neither a share nor a part of the top"
                check.wrong(ProblemCode.AREA_WITHOUT_EXTENT, here, message, hint, table=True)
            else:
                check.wrong(ProblemCode.AREA_TWO_WAYS, here, "says a share and a part", hint, table=True)
        elif part is not None:
            _check_part(check, area, part, parts)
        if share == 0:
            check.wrong(ProblemCode.AREA_OF_NOTHING, [(*area, "share")], "is nothing of the top", "leave the area out")
        whole += share or Fraction(0)
    if whole > 1:
        show = Notation(check.units).show
        shares: list[Path] = [(*area, "share") for area in layers.rows(*AREAS)]
        check.wrong(
            ProblemCode.AREAS_OVER_THE_WHOLE,
            shares[-1:],
            f"the areas come to {show(whole * 100)} % of the top",
            "give at most 100 % in all",
        )
    if whole and parts:
        check.wrong(
            ProblemCode.SHARES_AND_PARTS,
            [(*AREAS, 0, "part"), (*AREAS, 0, "share")],
            "some areas are shares and some are parts",
            "give all as shares, or all as parts",
        )


def _check_part(check: Check, area: Path, part: str, parts: set[str]) -> None:
    """A part that the pieced top has, and once only."""
    layers, path = check.layers, (*area, "part")
    there = {
        "blocks": bool(layers.names("top", "blocks")),
        "sashing": bool(layers.names("top", "sashing")),
        "borders": bool(layers.rows("top", "borders")),
    }
    on_point = layers.get("top", "blocks", "setting") or layers.get("top", "piecing", "setting")
    if not is_pieced(layers) or not there[part]:
        check.wrong(
            ProblemCode.NO_SUCH_PART,
            [path],
            f"the top has no {part}",
            "give a share instead, or tell of them under [top]",
        )
    elif part == "sashing" and on_point == "on-point":
        check.wrong(
            ProblemCode.SASHING_AREA_ON_POINT,
            [path],
            "on point, sashing is not told apart from the triangles",
            "give a share instead",
        )
    elif part in parts:
        check.wrong(ProblemCode.PART_TWICE, [path], f"the {part} have a style already", "keep one of them")
    parts.add(part)


def _refused(check: Check, path: Path) -> bool:
    """Whether something was told of it already: a value that was refused, or a name that no preset has."""
    kind, name = check.wanted[path].kind, check.layers.get(*path, "preset")
    unknown = name and not presets.find(kind, name, check.units) and name not in check.layers.names(kind)
    return bool(unknown) or any(told[: len(path)] == path or path[: len(told)] == told for told in check.faulty)
