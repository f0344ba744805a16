"""The quilting in words: the customer's lines about it, and the studio's work order."""

from collections.abc import Iterator

from finishcalc.measures.length import Size
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.quilting.frame import Loading
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.quilting.rows import WholeRows
from finishcalc.plans.quilting.stitching import PIECED_PARTS, StitchedArea
from finishcalc.plans.top.plan import TopPlan
from finishcalc.rendering.pages.cover import finished_hang
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Covering, Long, Share
from finishcalc.wording.words import counted

LINES = {
    "channels": "lines {runs}, {d} apart",
    "grid": "lines {d} apart both ways",
    "parallel": "lines at {angle} degrees, {d} apart",
    "crosshatch": "lines at {angle} degrees both ways, {d} apart",
    "echo": "the outline repeated every {d}",
    "ties": "a tie every {d}",
}


def quilting_words(plan: QuiltingPlan, notation: Notation) -> list[str]:
    """Say the styles, rows and passes, and the thread, without minutes, which are the studio's."""
    done = f"; {_rows_and_passes(plan.loading)}" if plan.loading else ""
    return [styles_words(plan, notation) + done, _thread(plan, notation)]


def styles_words(plan: QuiltingPlan, notation: Notation) -> str:
    """Say the styles, each with its place where there are several, and the method."""
    names = ", ".join(_area(area, len(plan.areas) > 1, notation) for area in plan.areas)
    return f"{names}, {notation.show(plan.method.name)}"


def finished_words(plan: QuiltingPlan, top: TopPlan, notation: Notation) -> list[str]:
    """Say the size once quilted and washed, and how a cover then hangs."""
    round_top = top.shape.name == "round"
    quilted = _about(plan.quilted, plan.quilted, round_top, notation)
    washed = _about(plan.washed.smallest, plan.washed.largest, round_top, notation)
    sizes = f"finished about {quilted}" + (f", washed about {washed}" if plan.washed.most else "")
    return [sizes, *_cover_shrinks(plan, top, notation)]


def _about(smallest: Size, largest: Size, round_top: bool, notation: Notation) -> str:
    """Write a size, or a range of sizes, to the nearest whole unit: "84-87 x 93-97 in"."""
    ranges = zip(smallest, largest, strict=True)
    width, length = ("-".join(dict.fromkeys(notation.nearest_number(each) for each in sides)) for sides in ranges)
    size = [width, notation.units, "across"] if round_top else [width, "x", length, notation.units]
    return NO_BREAK.join(size)


def _cover_shrinks(plan: QuiltingPlan, top: TopPlan, notation: Notation) -> list[str]:
    """Say where a cover falls short of its drop because its size leaves nothing for quilting to draw up."""
    finished = finished_hang(top.covers, plan, Size(top.shape.width, top.shape.length), notation)
    return [f"{finished}; a top made larger for the draw-up would hang as asked"] if finished else []


def _area(area: StitchedArea, several: bool, notation: Notation) -> str:
    share = f" on {_where(area, notation)}" if several else ""
    name = notation.show(area.style.name)
    if area.style.lines == "pattern":
        return name + share
    return f"{name} ({line_words(area, notation)}){share}"


def _where(area: StitchedArea, notation: Notation) -> str:
    return f"the {area.name}" if area.name in PIECED_PARTS else f"{notation.show(Share(area.share))} of the top"


def line_words(area: StitchedArea, notation: Notation) -> str:
    """Describe the lines that a style stitches."""
    style = area.style
    runs = "top to bottom" if style.angle else "side to side"
    return LINES[style.lines].format(d=notation.exactly().show(style.line_spacing), angle=style.angle, runs=runs)


def _rows_and_passes(loading: Loading) -> str:
    rows = f"{counted(loading.rows, 'row')} in " if loading.rows is not None else ""
    return rows + _passes(loading.passes)


def _passes(number: int) -> str:
    return f"1{NO_BREAK}pass" if number == 1 else f"{number}{NO_BREAK}passes"


def _thread(plan: QuiltingPlan, notation: Notation) -> str:
    show, threads = notation.show, plan.threads
    done = [f"{show(Long(plan.stitched_length))} of stitching"] if plan.stitched_length else []
    done += [counted(plan.ties, "tie")] if plan.ties else []
    done += [counted(plan.motifs, "motif")] if plan.motifs else []
    done.append(f"{show(Long(threads.total))} of thread")
    done += [counted(threads.bobbins, "bobbin")] if threads.bobbins else []
    colours = f" in {plan.colours} colours" if plan.colours > 1 else ""
    return ", ".join(done) + colours


def work_order(plan: QuiltingPlan, backing: BackingPlan | None, notation: Notation) -> Iterator[str]:
    """Give the quilting step by step, for the one who does it."""
    show, threads = notation.show, plan.threads
    if plan.loading:
        yield from _loaded(plan.loading, plan, backing, notation)
    if threads.bobbins:
        wound = f"wind {counted(threads.bobbins, 'bobbin')}"
        top, low = show(Long(threads.top)), show(Long(threads.bobbin))
        yield f"{wound}; {top} of thread on top and {low} below, {counted(threads.cones, 'cone')}"
    else:
        cones = f", {counted(threads.cones, 'cone')}" if threads.cones else ""
        yield f"have {show(Long(threads.top))} of thread on hand{cones}"
    for area in plan.areas:
        yield _stitched(area, plan, notation)
    changes = {"the bobbin": plan.changes.bobbins, "the colour": plan.changes.colours}
    if done := [f"change {what} {_times(number)}" for what, number in changes.items() if number]:
        yield f"along the way, {' and '.join(done)}"


def _uneven(plan: QuiltingPlan, notation: Notation) -> str:
    """Say how much shows of a partial last row, and both pitches that would make rows come out even."""
    uneven = plan.uneven
    if not uneven:
        return ""
    pitch = notation.exactly().show(uneven.pattern.pitch)
    ways = "".join(f"; {_whole_rows(way, notation)}" for way in uneven.ways if way.passes or way.paper_passes)
    return f"; partial row at the bottom: {notation.show(uneven.partial)} of {pitch}{ways}"


def _whole_rows(way: WholeRows, notation: Notation) -> str:
    """Say the pitch, the rows and the passes, how a digital pattern is scaled, and how rows of a paper one then lie."""
    digital, paper = _digital(way), _paper(way, notation)
    passes = {number for number in (way.passes, way.paper_passes) if number}
    if len(passes) > 1:
        digital, paper = f"{digital} ({_passes(way.passes or 0)})", f"{paper} ({_passes(way.paper_passes or 0)})"
    together = f" in {_passes(passes.pop())}" if len(passes) == 1 else ""
    made = f"a pitch of {notation.show(Covering(way.pitch))} makes {counted(way.rows, 'whole row')}{together}"
    return f"{made}: {digital}, {paper}"


def _digital(way: WholeRows) -> str:
    scale = f"{way.scale}{NO_BREAK}%"
    if way.passes is None:
        return f"a digital pattern at {scale} would be too high for the throat"
    return f"a digital pattern at {scale}"


def _paper(way: WholeRows, notation: Notation) -> str:
    if way.gap is None:
        return "but no paper one, because its rows would overlap"
    if way.gap.mm < 0:
        return f"a paper one with rows that overlap by {notation.show(Covering(-way.gap))}"
    if way.gap.mm == 0:
        return "a paper one with rows that touch"
    return f"a paper one with {notation.show(way.gap)} between its rows"


def _times(number: int) -> str:
    return "once" if number == 1 else f"{number}{NO_BREAK}times"


def _loaded(loading: Loading, plan: QuiltingPlan, backing: BackingPlan | None, notation: Notation) -> Iterator[str]:
    seams = ""
    if backing and backing.chosen and backing.chosen.layout.seams:
        runs_down = backing.chosen.layout.runs == "lengthwise"
        across = runs_down == (loading.way == "upright")
        seams = f"; its seams run {'square to' if across else 'along'} the rollers"
    fits = _does_not_fit(loading)
    other = notation.write(plan.otherwise) if plan.otherwise else ""
    other = f"; {other[0].lower()}{other[1:]}" if other else ""
    yield f"load it {loading.way}, {notation.show(loading.along)} of backing along the rollers{seams}{fits}{other}"
    yield f"{_rows_and_passes(loading)}, {notation.show(loading.down)} down{_uneven(plan, notation)}"


def _does_not_fit(loading: Loading) -> str:
    """Say whether it is the frame that will not do, the throat, or both."""
    faults = [] if loading.holds else ["it does not fit this frame"]
    faults += [] if loading.reaches else ["the throat does not reach over the pattern"]
    return " - " + ", and ".join(faults) if faults else ""


def _stitched(area: StitchedArea, plan: QuiltingPlan, notation: Notation) -> str:
    where = "all over" if area.share == 1 else f"on {_where(area, notation)}"
    name, setting = notation.show(area.style.name), notation.exactly()
    if area.ties:
        return f"tie {counted(area.ties, 'knot')}, {setting.show(area.style.line_spacing)} apart, none on the edge"
    lines = f", {line_words(area, notation)}" if area.style.lines != "pattern" else ""
    stitch = plan.method.stitch_length or area.style.stitch_length
    motifs = f", {counted(area.motifs, 'motif')} each started and tied off" if area.motifs else ""
    return (
        f"stitch {name} {where}{lines}: {notation.show(Long(area.stitched))}, {setting.show(stitch)} a stitch{motifs}"
    )
