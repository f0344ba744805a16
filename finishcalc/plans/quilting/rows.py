"""The rows of a pattern: those that one pass reaches over, and those that come out even.

The last row may show only a part of the pattern. Rows are whole where the pitch goes up, so that there is one fewer, or
down, so that the last one is whole too. A digital pattern is scaled with its pitch; one on paper keeps its height::

    partial       pitch up, scaled    pitch up, on paper
    +-------+     +-------+           +-------+
    | row 1 |     | row 1 |           | row 1 |
    +-------+     |       |           +-------+
    | row 2 |     +-------+             gap
    +-------+     | row 2 |           +-------+
    | 3     |     |       |           | row 2 |
    +-------+     +-------+           +-------+
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up
from finishcalc.wording.sentence import Covering, Sentence, say


class Pattern(NamedTuple):
    """A pattern that is sewn in rows: from row to row its `pitch`, and its `height`."""

    pitch: Length
    height: Length

    def scaled(self, percent: int) -> "Pattern":
        """The pattern enlarged or reduced."""
        return Pattern(self.pitch * percent / 100, self.height * percent / 100)

    @property
    def least_pitch(self) -> Length:
        """The least pitch at which its rows run into each other no more than they do anyway."""
        return min(self.pitch, self.height)


class WholeRows(NamedTuple):
    """Rows that fill the length, `pitch` apart.

    A digital pattern is enlarged or reduced to `scale` per cent, a whole number that covers the length, and takes
    `passes`; None where it is then higher than the depth that is stitched. A pattern on paper has its own height in
    `paper_passes`, None where that does not do; `gap` lies between its rows, less than nothing where they reach into
    each other, and is None where they would run into each other.
    """

    rows: int
    pitch: Length
    scale: int
    passes: int | None
    gap: Length | None
    paper_passes: int | None


class UnevenRows(NamedTuple):
    """Rows that do not come out even: the last one shows a `partial` height of the pattern. `pitch_up` is the way with
    one row fewer, None where there is only one; `pitch_down` that with the last one whole."""

    partial: Length
    pitch_up: WholeRows | None
    pitch_down: WholeRows
    pattern: Pattern

    @property
    def ways(self) -> tuple[WholeRows, ...]:
        """The ways to whole rows."""
        return (self.pitch_up, self.pitch_down) if self.pitch_up else (self.pitch_down,)

    @property
    def nearest(self) -> WholeRows | None:
        """The way whose pitch is nearest to the pattern's, of those that also do on paper; None where none does."""
        ways = [way for way in self.ways if way.paper_passes]
        return min(ways, key=lambda way: abs((way.pitch - self.pattern.pitch).mm), default=None)


def rows_a_pass(pattern: Pattern, depth: Length) -> int:
    """Count the whole rows that a pass reaches over, and one in any case. Rows that are higher than their pitch reach
    into each other, so that n of them are (n - 1) x pitch + height high."""
    return max(1, min(int(depth / pattern.pitch), 1 + int((depth - pattern.height) / pattern.pitch)))


def uneven_rows(pattern: Pattern, rows: int, down: Length, depth: Length) -> UnevenRows | None:
    """Find the partial row at the bottom, and the ways to whole rows; None where rows come out even."""
    if pattern.pitch * rows == down:
        return None
    pitch_up = _whole_rows(pattern, rows - 1, down, depth) if rows > 1 else None
    return UnevenRows(down - pattern.pitch * (rows - 1), pitch_up, _whole_rows(pattern, rows, down, depth), pattern)


def _whole_rows(pattern: Pattern, rows: int, down: Length, depth: Length) -> WholeRows:
    pitch = down / rows
    scale = up(pitch / pattern.pitch * 100)
    digital, paper = pattern.scaled(scale), Pattern(pitch, pattern.height)
    apart = pitch >= pattern.least_pitch
    return WholeRows(
        rows=rows,
        pitch=pitch,
        scale=scale,
        passes=_passes(rows, digital, depth),
        gap=pitch - pattern.height if apart else None,
        paper_passes=_passes(rows, paper, depth) if apart else None,
    )


def _passes(rows: int, pattern: Pattern, depth: Length) -> int | None:
    """Count the passes; None where the pattern is higher than the depth that is stitched."""
    return up(Fraction(rows, rows_a_pass(pattern, depth))) if pattern.height <= depth else None


def uneven_working(uneven: UnevenRows, rows: int, down: Length) -> Iterator[Sentence]:
    """The arithmetic of the last row, and of both ways to whole rows."""
    pitch, height = uneven.pattern
    yield say(
        "Last row: {down} - {whole} x {pitch} = {partial}",
        down=down,
        whole=rows - 1,
        pitch=pitch,
        partial=uneven.partial,
    )
    for way in uneven.ways:
        up_or_down = "down" if way is uneven.pitch_down else "up"
        yield say(
            "Whole rows, pitch {way}: {down} / {rows} = {at}; scale: {at} / {pitch}, rounded up: {scale} %",
            way=up_or_down,
            down=down,
            rows=way.rows,
            at=Covering(way.pitch),
            pitch=pitch,
            scale=way.scale,
        )
        if way.gap is not None and way.gap.mm > 0:
            yield say(
                "Between rows on paper: {at} - {height} high = {gap}",
                at=Covering(way.pitch),
                height=height,
                gap=Covering(way.gap),
            )
