"""The arithmetic of the stitching, of its thread, bobbins and cones."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Area, Length
from finishcalc.model.project import Quilting
from finishcalc.model.quilting import Method
from finishcalc.model.shop import Thread
from finishcalc.plans.quilting.stitching import BOTH_WAYS, PIECED_PARTS, StitchedArea, Threads, wound
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import FINE, Long, Sentence, Share, say


def stitching_working(areas: tuple[StitchedArea, ...], shape: Shape) -> Iterator[Sentence]:
    """The arithmetic of what is stitched, area by area."""
    several = len(areas) > 1
    for area in areas:
        if area.name in PIECED_PARTS:
            yield _share_working(area, shape)
        yield _ties_working(area, several) if area.style.lines == "ties" else _lines_working(area, shape, several)
    if several:
        stitched = sum((area.stitched for area in areas), ZERO)
        yield say("Stitched in all: {stitched}", stitched=Long(stitched, FINE))


def _share_working(area: StitchedArea, shape: Shape) -> Sentence:
    top = shape.width * shape.length
    covered = Area(top.mm2 * area.share)
    text = "Share of the {part}: {area} / {top} = {share}"
    return say(text, part=area.name, area=covered, top=top, share=Share(area.share))


def _where_sentence(area: StitchedArea) -> Sentence:
    return say("{name}, {share} of the top: ", name=area.style.name, share=Share(area.share))


def _ties_working(area: StitchedArea, several: bool) -> Sentence:
    where = _where_sentence(area) if several else say("Ties: ")
    text = "{where}{ties} ties, {d} apart, none on the edge"
    return say(text, where=where, ties=area.ties, d=area.style.line_spacing)


_BY_AREA = "{w} x {l} / {d} between lines = {whole}"
_LINES_SAID = {
    "pattern": "({w} + 2 x {off}) x ({l} + 2 x {off}) / {d} between lines = {whole}",
    "channels": "lines {d} apart, the first {d} in from the edge = {whole}",
    "grid": "lines {d} apart both ways, the first {d} in from the edge = {whole}",
    "parallel": "lines {d} apart at {angle} degrees, one through the middle = {whole}",
    "crosshatch": "lines {d} apart at {angle} degrees both ways, one each through the middle = {whole}",
    "echo": "the outline repeated every {d}, the first {d} in from the edge = {whole}",
}


def _lines_working(area: StitchedArea, shape: Shape, several: bool) -> Sentence:
    style = area.style
    lead, share = ("{where}", " x {share} = {long}") if several else ("Stitched: ", " = {long}")
    by_area = _BY_AREA.replace("lines", "lines x 2, both ways,") if style.lines in BOTH_WAYS else _BY_AREA
    return say(
        lead + (by_area if area.by_area else _LINES_SAID[style.lines]) + share,
        where=_where_sentence(area),
        w=shape.width,
        l=shape.length,
        d=style.line_spacing,
        off=ZERO if several else style.run_off,
        angle=style.angle or 0,
        whole=area.all_over,
        share=Share(area.share),
        long=Long(area.stitched, FINE),
    )


def thread_working(
    areas: tuple[StitchedArea, ...], threads: Threads, thickness: Length, spec: Quilting, thread: Thread
) -> Iterator[Sentence]:
    """The arithmetic of thread, bobbins and cones."""
    for area in areas:
        yield (
            _tie_thread_working(area, thread)
            if area.ties
            else _line_thread_working(area, thickness, spec.method, thread)
        )
    in_colours = "" if spec.colours == 1 else " in {colours} colours, each"
    if threads.bobbin:
        yield say(
            "Bobbins: {whole} / 2 / {each} on a bobbin" + in_colours + ", rounded up: {bobbins}",
            whole=Long(threads.total, FINE),
            each=Long(wound(spec.method, thread).value),
            bobbins=threads.bobbins,
            colours=spec.colours,
        )
    if threads.cones:
        yield _cones_working(threads, in_colours, spec, thread)


def _cones_working(threads: Threads, in_colours: str, spec: Quilting, thread: Thread) -> Sentence:
    return say(
        "Cones: {top} on top / {each} on a cone" + in_colours + ", rounded up: {cones}",
        top=Long(threads.top, FINE),
        each=Long(thread.cone.value),
        cones=threads.cones,
        colours=spec.colours,
    )


def _tie_thread_working(area: StitchedArea, thread: Thread) -> Sentence:
    return say(
        "Thread: {ties} ties x {tie} x (1 + {waste} waste) = {whole}",
        ties=area.ties,
        tie=thread.tie.value,
        waste=Share(thread.waste),
        whole=Long(area.thread, FINE),
    )


def _line_thread_working(area: StitchedArea, thickness: Length, method: Method, thread: Thread) -> Sentence:
    return say(
        "Thread: {stitched} x ({base} + 2 x {thick} / {stitch} a stitch) x (1 + {waste} waste) = {whole}",
        stitched=Long(area.stitched, FINE),
        base=2 if method.stitch == "lockstitch" else 1,
        thick=thickness,
        stitch=method.stitch_length or area.style.stitch_length,
        waste=Share(thread.waste),
        whole=Long(area.thread, FINE),
    )
