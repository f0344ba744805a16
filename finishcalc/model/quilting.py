"""Quilting that is chosen by name: styles, and methods with the stages of their work."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import model_validator

from finishcalc.measures.length import Length
from finishcalc.measures.numbers import MeasureError
from finishcalc.model import keys as k
from finishcalc.model.marks import IN_HOUSE, most
from finishcalc.model.materials import ByName
from finishcalc.model.reading import refusal, whole_number
from finishcalc.model.section import FigureOf, Material, Section
from finishcalc.problems import ProblemCode

StitchedLines = Literal["pattern", "channels", "grid", "parallel", "crosshatch", "echo", "ties"]


class AnyStyle(Material):
    """The keys that a shop may also give for every style that has none of its own. `worked` is the way a pattern is
    worked; `draw_up` is the share of each side that the quilting takes."""

    lines: StitchedLines
    worked: k.WorkedAs
    run_off: k.Margin
    stitch_length: k.StitchLength
    draw_up: k.DrawUp
    may_turn: k.Flag


class Style(AnyStyle):
    """A quilting style. `lines` is the kind of stitching: a curved pattern, or lines that lie `line_spacing` apart.

    The `line_spacing` of a pattern is area / stitched length, `widest` its widest distance between lines,
    `pattern_height` the height that the throat must reach over, and `motif` the side of the square that one motif
    fills. One without `row_pitch` is custom work that is not sewn in rows. Straight lines run at `angle` degrees to the
    side-to-side direction. A backing has the `overage` of the style on every side, where nobody states another.
    """

    name: k.Line
    rate_class: k.Line
    line_spacing: Annotated[Length, k.length("0.05 in", "20 ft")]
    pattern_height: k.Pitch | None = None
    row_pitch: Annotated[Length, k.length("1/4 in", "10 ft")] | None = None
    widest: k.Pitch | None = None
    motif: k.Pitch | None = None
    overage: k.Margin | None = None
    angle: Annotated[int, whole_number(0, 179)] | None = None

    @property
    def widest_distance(self) -> Length:
        """The widest distance between quilting lines; for straight lines, the distance between them."""
        return self.line_spacing if self.widest is None else self.widest

    @property
    def as_stitched(self) -> "Style":
        """The style without the keys that only a pattern has, unless it is one, because a preset below may give
        them. Lines are ruler work."""
        if self.lines == "pattern":
            return self
        return self.replace(pattern_height=None, row_pitch=None, widest=None, motif=None, worked="ruler-work")


class NamedStyle(ByName, Style):
    """A style as a project or shop names it."""


class Stage(Section, whole=True):
    """A stage of the work, in minutes for `each` thing it is done for: the quilt, a `design` (each style that is worked
    motif by motif), a pass, a row, a bobbin, a colour or a tie, a motif, or a `ruler-move` for `every` so much of ruler
    work.

    A stage for the quilt or a design may take `more` minutes `per` unit of the quilt's edge, or of its area. The three
    figures of one for the `stitching` are speeds in `speed` lengths a minute. It is for the styles that are `worked` in
    the ways it names; one that names none is for all ways that have no speed of their own.
    """

    name: k.Line
    each: Literal["quilt", "design", "pass", "row", "bobbin", "colour", "tie", "motif", "ruler-move", "stitching"]
    low: k.Minutes
    likely: k.Minutes
    high: k.Minutes
    attended: k.Share
    more: k.Spans | None = None
    per: k.GrowsWith | None = None
    every: k.Pitch | None = None
    worked: k.Ways | None = None
    speed: k.Pitch | None = None
    on_frame: k.Flag | None = None

    @model_validator(mode="after")
    def _in_order(self) -> "Stage":
        """Minutes rise from low to high; speeds, which the stitching has, fall."""
        if self.each == "stitching":
            if self.speed is None:
                hint = "add the unit its figures count: speed = 1 for 1 a minute"
                raise refusal(MeasureError(ProblemCode.STAGE_WITHOUT_SPEED, "has no speed", hint))
            if not self.low >= self.likely >= self.high > 0:
                hint = "low is the quickest, high the slowest, all above 0"
                raise refusal(MeasureError(ProblemCode.SPEEDS_OUT_OF_ORDER, "its speeds are out of order", hint))
        elif not self.low <= self.likely <= self.high:
            hint = "low is the least, high the most"
            raise refusal(MeasureError(ProblemCode.MINUTES_OUT_OF_ORDER, "its minutes are out of order", hint))
        return self

    @model_validator(mode="after")
    def _has_what_it_uses(self) -> "Stage":
        """A key that only some stages have a use for stands in those alone, and in each that needs it."""
        wrong = next(self._misplaced(), None)
        if wrong:
            raise refusal(MeasureError(ProblemCode.STAGE_KEY_MISPLACED, *wrong))
        return self

    def _misplaced(self) -> Iterator[tuple[str, str]]:
        of_one = self.each in ("quilt", "design")
        if self.more and not of_one:
            yield "takes more as the quilt grows, yet is done many times", 'leave `more` out, or use each = "quilt"'
        if self.more and not self.per:
            yield "takes more minutes, but does not say for what", 'add per = "in" of the edge, or "sq yd" of the area'
        if self.per and not self.more:
            yield "has a unit and no minutes for it", "add more = { low = 1, likely = 2, high = 3 }, or leave `per` out"
        if (self.every is not None) != (self.each == "ruler-move"):
            yield '`every` and each = "ruler-move" go together', "write every = 10, or leave both out"
        for key in ("worked", "speed"):
            if getattr(self, key) is not None and self.each != "stitching":
                yield f"has `{key}`, which only the stitching has", f'leave `{key}` out, or use each = "stitching"'


class AnyMethod(Material):
    """The keys that a shop may also give for every method that has none of its own. `frame` puts the quilt on the
    frame; `stitch` is the kind of stitch."""

    frame: k.Flag
    stitch: Literal["lockstitch", "running", "tie"]


class Method(AnyMethod):
    """A way of quilting, as its stages in the order they are done. One with a `rate_class` is charged at that whatever
    the style, and one with a `stitch_length` stitches that whatever the style. Its `bobbin` stands over the shop's."""

    name: k.Line
    stages: Annotated[FigureOf[Annotated[tuple[Stage, ...], most(100)]], IN_HOUSE]
    rate_class: k.Line | None = None
    stitch_length: k.StitchLength | None = None
    bobbin: FigureOf[k.Wound] | None = None


class NamedMethod(ByName, Method):
    """A method as a project or shop names it."""
