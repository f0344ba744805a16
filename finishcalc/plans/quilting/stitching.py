"""The length that is stitched and the thread it takes: patterns by their area, lines by their exact length."""

from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up
from finishcalc.model.keys import WorkedAs
from finishcalc.model.pieced import PiecedTop
from finishcalc.model.project import Quilting
from finishcalc.model.quilting import Method, Style
from finishcalc.model.section import Figure
from finishcalc.model.shop import Thread
from finishcalc.plans.quilting.lines import channels, echoes, parallels, ties
from finishcalc.plans.top.outline import Shape

NOTHING = Fraction(1, 10_000)
"""A share left over that is no larger, as three of 33.333 % leave, goes to the last area."""
PIECED_PARTS = ("blocks", "sashing", "borders")
"""The parts of a pieced top that a style may be for."""


class StitchedArea(NamedTuple):
    """A share of the top in one style. `name` is the part of the top it covers, `all_over` the length its style would
    stitch over the whole top, `stitched` the length in the area, `worked` the way of working that its speed goes by,
    and `motifs` the number of them that are started and tied off. A part of a pieced top is `by_area`."""

    style: Style
    share: Fraction
    name: str
    all_over: Length
    stitched: Length
    ties: int
    thread: Length
    worked: WorkedAs
    motifs: int = 0
    by_area: bool = False


class Threads(NamedTuple):
    """Thread with its waste, on top and on the bobbin, with bobbins to wind and cones to have at hand. Nothing is on a
    bobbin where one thread makes the stitch."""

    top: Length
    bobbin: Length
    bobbins: int
    cones: int

    @property
    def total(self) -> Length:
        """All of the thread."""
        return self.top + self.bobbin


class _Sewing(NamedTuple):
    """The shape and the means that all areas of a quilt share, and the `parts` of it that are areas of their own."""

    shape: Shape
    pieced: PiecedTop | None
    method: Method
    thickness: Length
    thread: Thread
    parts: frozenset[str | None]

    @property
    def in_parts(self) -> bool:
        """Tell a top whose areas are parts of its piecing from one whose areas are shares of it."""
        return bool(self.parts) and None not in self.parts


def stitched_areas(
    shape: Shape, pieced: PiecedTop | None, spec: Quilting, thickness: Length, thread: Thread
) -> tuple[StitchedArea, ...]:
    """Divide the top into its styles: the areas that have one of their own, and the rest."""
    shares: list[tuple[Style, Fraction, str]] = [
        (area.style, _share(area.share, area.part, shape, pieced), area.part or "area") for area in spec.areas
    ]
    rest = 1 - sum((share for _, share, _ in shares), Fraction(0))
    if shares and 0 < rest <= NOTHING:
        style, share, name = shares.pop()
        shares.append((style, share + rest, name))
    elif rest > 0:
        shares.append((spec.style, rest, "rest" if shares else "whole"))
    sewing = _Sewing(shape, pieced, spec.method, thickness, thread, frozenset(area.part for area in spec.areas))
    if len(shares) == 1:
        return (_area(*shares[0], sewing, runs_off=True),)
    return tuple(_area(style, share, name, sewing, runs_off=False) for style, share, name in shares)


def _share(share: Fraction | None, part: str | None, shape: Shape, pieced: PiecedTop | None) -> Fraction:
    """Take the share that is given, or the one that the blocks, the sashing or the borders have of the top."""
    if share is not None or pieced is None or part is None:
        return share or Fraction(0)
    return pieced.area_of(part).mm2 / (shape.width * shape.length).mm2


def _area(style: Style, share: Fraction, name: str, sewing: _Sewing, runs_off: bool) -> StitchedArea:
    """Count what is stitched in an area. Its pattern runs off the edge only where one style covers the whole top,
    because an area within the top ends at its seams."""
    if style.lines == "ties":
        return _tied_area(style, share, name, sewing)
    run_off = style.run_off if runs_off else ZERO
    all_over = (length_by_area if sewing.in_parts else stitched_length)(sewing.shape, style, run_off)
    stitch = sewing.method.stitch_length or style.stitch_length
    per_length = thread_per_length(sewing.thickness, stitch, sewing.method.stitch)
    return StitchedArea(
        style=style,
        share=share,
        name=name,
        all_over=all_over,
        stitched=all_over * share,
        ties=0,
        thread=all_over * share * per_length * (1 + sewing.thread.waste),
        worked=_worked(style, sewing.shape),
        motifs=_motifs(style.motif, share, name, sewing) if style.motif and style.worked == "motifs" else 0,
        by_area=sewing.in_parts,
    )


def _worked(style: Style, shape: Shape) -> WorkedAs:
    """No ruler follows a curved edge: an echo of one is stitched freely, as a pattern is."""
    return "edge-to-edge" if style.lines == "echo" and shape.curved else style.worked


def _motifs(side: Length, share: Fraction, name: str, sewing: _Sewing) -> int:
    """Count the motifs of an area: each block is one, and beside the blocks each square of that side."""
    shape, pieced, square = sewing.shape, sewing.pieced, (side * side).mm2
    others = name in ("sashing", "borders") or (name == "rest" and "blocks" in sewing.parts)
    if others or not pieced or not pieced.blocks:
        return up(shape.area.mm2 * share / square)
    blocks = pieced.blocks.number
    if name == "blocks":
        return blocks
    of_rest = name == "rest" and sewing.in_parts
    beside = max(shape.area.mm2 * (share if of_rest else 1) - pieced.area_of("blocks").mm2, Fraction(0))
    return up((blocks + beside / square) * (1 if of_rest else share))


def _tied_area(style: Style, share: Fraction, name: str, sewing: _Sewing) -> StitchedArea:
    square = (style.line_spacing * style.line_spacing).mm2
    all_over = sewing.shape.area.mm2 / square if sewing.in_parts else ties(sewing.shape, style.line_spacing)
    count = up(all_over * share)
    return StitchedArea(
        style=style,
        share=share,
        name=name,
        all_over=ZERO,
        stitched=ZERO,
        ties=count,
        thread=sewing.thread.tie.value * count * (1 + sewing.thread.waste),
        worked="edge-to-edge",
        by_area=sewing.in_parts,
    )


def stitched_length(shape: Shape, style: Style, run_off: Length) -> Length:
    """Measure lines along their length on the shape, a pattern as its area over its effective line spacing, with
    `run_off` beyond every side. Ties stitch nothing."""
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


BOTH_WAYS = ("grid", "crosshatch")
"""The styles that stitch two sets of lines."""


def length_by_area(shape: Shape, style: Style, run_off: Length) -> Length:
    """Measure lines by the area they lie in, as a pattern is: in a part of a top, lines some way apart come to its area
    over that distance on the average, wherever the first of them lies (integral geometry; derived)."""
    area = (shape.width + run_off * 2) * (shape.length + run_off * 2)
    return area / style.line_spacing * (2 if style.lines in BOTH_WAYS else 1)


def thread_per_length(thickness: Length, stitch_length: Length, stitch: str = "lockstitch") -> Fraction:
    """Work out the thread for each length of seam, with T the thickness and S the stitches for a length.

    Lockstitch: C = 2 + 2TS, needle and bobbin half each; stitch type 301 of ISO 4915 (textile-engineering teaching
    note, 2015). Running stitch by hand: one thread, down and up once a stitch, so 1 + 2TS (derived).
    """
    return (2 if stitch == "lockstitch" else 1) + 2 * (thickness / stitch_length)


def threads_of(areas: tuple[StitchedArea, ...], method: Method, colours: int, thread: Thread) -> Threads:
    """Count bobbins and cones for each colour, because every colour is wound and bought on its own. Ties are made with
    thread or yarn from a ball or a card, not from a cone."""
    total = sum((area.thread for area in areas), ZERO)
    bobbin = total / 2 if method.stitch == "lockstitch" else ZERO
    top = total - bobbin
    bobbins = colours * up(bobbin / colours / wound(method, thread).value)
    cones = 0 if method.stitch == "tie" else colours * up(top / colours / thread.cone.value)
    return Threads(top, bobbin, bobbins, cones)


def wound(method: Method, thread: Thread) -> Figure[Length]:
    """Give the thread on a bobbin: the method's, or the shop's."""
    return method.bobbin or thread.bobbin
