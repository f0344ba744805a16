"""How much is stitched and how much thread that takes: of patterns by area, of lines by their exact length."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Area, Length
from finishcalc.measures.rounding import up
from finishcalc.model.materials import Method, Style
from finishcalc.model.pieced import PiecedTop
from finishcalc.model.project import QuiltingWishes, Thread
from finishcalc.plans.quilting.lines import channels, echoes, parallels, ties
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import FINE, Long, Said, Share, Value, say

NOTHING = Fraction(1, 10_000)
"""A rest as small as what three shares of 33.333 % leave belongs to the last of them."""
PIECED_PARTS = ("blocks", "sashing", "borders")
"""The parts of a pieced top that a style may be for."""


class Part(NamedTuple):
    """A share of the top in one style: what the style would stitch on the `whole`, what is stitched of it, the ties,
    and the thread that takes. `straight` says whether it is stitched in straight runs: lines are, and echoes of a
    straight edge; patterns and ties are not."""

    style: Style
    share: Fraction
    what: str
    whole: Length
    stitched: Length
    ties: int
    thread: Length
    straight: bool


class Threads(NamedTuple):
    """Thread with waste: on top and on the bobbin, bobbins to wind, cones to have at hand; none of a bobbin where one
    thread makes the stitch."""

    top: Length
    bobbin: Length
    bobbins: int
    cones: int

    @property
    def whole(self) -> Length:
        """All of it."""
        return self.top + self.bobbin


def parts_of(
    shape: Shape, pieced: PiecedTop | None, wishes: QuiltingWishes, thickness: Length, thread: Thread
) -> tuple[Part, ...]:
    """The top in its styles: the areas that have one of their own, and the rest."""
    shares: list[tuple[Style, Fraction, str]] = [
        (area.style, _share(area.share, area.part, shape, pieced), area.part or "area") for area in wishes.areas
    ]
    rest = 1 - sum((share for _, share, _ in shares), Fraction(0))
    if shares and 0 < rest <= NOTHING:
        style, share, what = shares.pop()
        shares.append((style, share + rest, what))
    elif rest > 0:
        shares.append((wishes.style, rest, "rest" if shares else "whole"))
    whole = len(shares) == 1
    return tuple(
        _part(style, share, what, shape, wishes.method, thickness, thread, whole) for style, share, what in shares
    )


def _share(share: Fraction | None, part: str | None, shape: Shape, pieced: PiecedTop | None) -> Fraction:
    """The share that is given, or that the blocks, the sashing or the borders have of the top."""
    if share is not None or pieced is None or part is None:
        return share or Fraction(0)
    return pieced.area_of(part).mm2 / (shape.width * shape.length).mm2


def _part(
    style: Style,
    share: Fraction,
    what: str,
    shape: Shape,
    method: Method,
    thickness: Length,
    thread: Thread,
    whole: bool,
) -> Part:
    """An area within the top ends at its seams: its pattern does not run off."""
    if style.lines == "ties":
        count = up(ties(shape, style.line_spacing) * share)
        return Part(style, share, what, ZERO, ZERO, count, thread.tie * count * (1 + thread.waste), straight=False)
    length = stitched_length(shape, style, style.run_off if whole else ZERO)
    stitched, stitch = length * share, method.stitch_length or style.stitch_length
    each = thread_per_length(thickness, stitch, method.stitch)
    straight = style.lines != "pattern" and (style.lines != "echo" or not shape.curved)
    return Part(style, share, what, length, stitched, 0, stitched * each * (1 + thread.waste), straight)


def stitched_length(shape: Shape, style: Style, run_off: Length) -> Length:
    """Of lines their length on the shape; of a pattern area over effective line spacing, `run_off` beyond every side.
    Ties stitch nothing."""
    distance = style.line_spacing
    match style.lines:
        case "channels":
            return channels(shape, distance, style.angle or 0)
        case "grid":
            return channels(shape, distance, 0) + channels(shape, distance, 90)
        case "parallel":
            return parallels(shape, distance, style.angle or 0)
        case "crosshatch":
            return parallels(shape, distance, style.angle or 0) * 2
        case "echo":
            return echoes(shape, distance)
        case "ties":
            return ZERO
    return (shape.width + run_off * 2) * (shape.length + run_off * 2) / distance


def thread_per_length(thickness: Length, stitch_length: Length, stitch: str = "lockstitch") -> Fraction:
    """Thread for each length of seam, with T the thickness and S the stitches for a length.

    Lockstitch: C = 2 + 2TS, needle and bobbin half each; stitch type 301 of ISO 4915 (textile-engineering teaching
    note, 2015). Running stitch by hand: one thread, down and up once a stitch, so 1 + 2TS (derived).
    """
    return (2 if stitch == "lockstitch" else 1) + 2 * (thickness / stitch_length)


def threads_of(parts: tuple[Part, ...], method: Method, colours: int, thread: Thread) -> Threads:
    """Bobbins and cones are counted for each colour, for every colour is wound and bought on its own."""
    whole = sum((part.thread for part in parts), ZERO)
    bobbin = whole / 2 if method.stitch == "lockstitch" else ZERO
    top = whole - bobbin
    bobbins = colours * up(bobbin / colours / thread.bobbin)
    return Threads(top, bobbin, bobbins, colours * up(top / colours / thread.cone))


def stitching_said(parts: tuple[Part, ...], shape: Shape) -> Iterator[Said]:
    """What is stitched, part by part."""
    for part in parts:
        if part.what in PIECED_PARTS:
            yield _share_said(part, shape)
        yield from _part_said(part, shape, len(parts) > 1)
    if len(parts) > 1:
        stitched = sum((part.stitched for part in parts), ZERO)
        yield say("Stitched in all: {stitched}", stitched=Long(stitched, FINE))


def _share_said(part: Part, shape: Shape) -> Said:
    top = shape.width * shape.length
    area = Area(top.mm2 * part.share)
    return say(
        "Share of the {part}: {area} / {top} = {share}", part=part.what, area=area, top=top, share=Share(part.share)
    )


def _part_said(part: Part, shape: Shape, several: bool) -> Iterator[Said]:
    style, where = part.style, say("{name}, {share} of the top: ", name=part.style.name, share=Share(part.share))
    values: dict[str, Value] = {
        "w": shape.width,
        "l": shape.length,
        "d": style.line_spacing,
        "whole": part.whole,
        "long": Long(part.stitched, FINE),
    }
    lead, share = ("{where}", " x {share} = {long}") if several else ("Stitched: ", " = {long}")
    if style.lines == "ties":
        yield say(
            "{where}{ties} ties, {d} apart, none on the edge",
            where=where if several else say("Ties: "),
            ties=part.ties,
            d=style.line_spacing,
        )
        return
    text = {
        "pattern": "({w} + 2 x {off}) x ({l} + 2 x {off}) / {d} between lines = {whole}",
        "channels": "lines {d} apart, the first {d} in from the edge = {whole}",
        "grid": "lines {d} apart both ways, the first {d} in from the edge = {whole}",
        "parallel": "lines {d} apart at {angle} degrees, one through the middle = {whole}",
        "crosshatch": "lines {d} apart at {angle} degrees both ways, one each through the middle = {whole}",
        "echo": "the outline repeated every {d}, the first {d} in from the edge = {whole}",
    }[style.lines]
    off = ZERO if several else style.run_off
    yield say(lead + text + share, where=where, off=off, angle=style.angle or 0, share=Share(part.share), **values)


def thread_said(
    parts: tuple[Part, ...], found: Threads, thickness: Length, method: Method, colours: int, thread: Thread
) -> Iterator[Said]:
    """Thread, bobbins and cones."""
    base = 2 if method.stitch == "lockstitch" else 1
    values: dict[str, Value] = {"thick": thickness, "waste": Share(thread.waste)}
    for part in parts:
        stitch = method.stitch_length or part.style.stitch_length
        if part.ties:
            yield say(
                "Thread: {ties} ties x {tie} x (1 + {waste} waste) = {whole}",
                ties=part.ties,
                tie=thread.tie,
                waste=Share(thread.waste),
                whole=Long(part.thread, FINE),
            )
        else:
            yield say(
                "Thread: {stitched} x ({base} + 2 x {thick} / {stitch} a stitch) x (1 + {waste} waste) = {whole}",
                stitched=Long(part.stitched, FINE),
                base=base,
                stitch=stitch,
                whole=Long(part.thread, FINE),
                **values,
            )
    in_colours = "" if colours == 1 else " in {colours} colours, each"
    if found.bobbin:
        yield say(
            "Bobbins: {whole} / 2 / {each} on a bobbin" + in_colours + ", rounded up: {bobbins}",
            whole=Long(found.whole, FINE),
            each=Long(thread.bobbin),
            bobbins=found.bobbins,
            colours=colours,
        )
    yield say(
        "Cones: {top} on top / {each} on a cone" + in_colours + ", rounded up: {cones}",
        top=Long(found.top, FINE),
        each=Long(thread.cone),
        cones=found.cones,
        colours=colours,
    )
