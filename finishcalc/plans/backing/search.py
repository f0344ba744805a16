"""The search for layouts of the backing: exhaustive over a small family, in whole steps of a grid.

The family: full panels either way, and at most one band across what they leave. The band stands beside a lone panel,
between the first two of several, or is the whole backing. Across the elements (the seams run down the page):

    +------+------+    +------+----+    +-----+--+------+-----+    +----------+
    |panel |panel |    |panel |band|    |panel|b.|panel |panel|    |   band   |
    +------+------+    +------+----+    +-----+--+------+-----+    +----------+

A band is pieced in one of four ways: see `_one_turned_piece`, `_strips_side_by_side`, `_turned_pieces` and
`_turned_pieces_and_strips`. For each, the least cloth is known outright, so nothing better in the family is missed.
"""

from collections.abc import Iterator
from itertools import accumulate
from typing import NamedTuple

from finishcalc.plans.backing.candidate import Candidate, SearchSpace, elements_of, outer_panel_visible_width

MOST_SEAMS = 4
"""Backings with more seams are looked at only where nothing takes fewer."""


class Band(NamedTuple):
    """A band beside or between so many full panels, still to be pieced."""

    space: SearchSpace
    panels: int
    visible_width: int
    cut_width: int

    @property
    def most_pieces(self) -> int:
        """The most pieces within MOST_SEAMS: each panel brings a long seam, and n pieces have n - 1 joins."""
        return MOST_SEAMS - self.panels + 1

    def length_of(self, pieces: int) -> int:
        """Add up the cut lengths of so many pieces joined end to end: every join hides two seam allowances."""
        return self.space.along + 2 * self.space.seam_allowance * (pieces - 1)

    def pieced_from(
        self, cloth: int, *, turned: int = 0, turned_length: int = 0, strips: int = 0, strip_length: int = 0
    ) -> Candidate:
        """Complete the backing with pieces that take `cloth` along the cloth."""
        space, joins = self.space, turned + strips - 1
        return Candidate(
            space=space,
            cut_length=self.panels * space.along + cloth,
            seams=self.panels + joins,
            seam_length=self.panels * space.along + joins * self.visible_width,
            panels=self.panels,
            band_visible_width=self.visible_width,
            turned=turned,
            turned_length=turned_length,
            strips=strips,
            strip_length=strip_length,
        )


def candidates(space: SearchSpace, pieced: bool, may_turn: bool, centred: bool) -> Iterator[Candidate]:
    """Give every backing of the family in this space; with `centred`, none with a long seam near the middle line."""
    fewest = panels_needed(space.across, space.usable_width, space.seam_allowance)
    if centred and fewest % 2 == 0:
        yield _full_panels(space, fewest + 1)
        yield from _panels_with_halves(space, fewest)
    else:
        yield _full_panels(space, fewest)
    if pieced:
        for candidate in _with_band(space, may_turn):
            if not (centred and _has_seam_near_middle(candidate)):
                yield candidate


def panels_needed(across: int, usable_width: int, seam_allowance: int) -> int:
    """Count the fewest panels that cover `across`: n of them join to n x usable - 2 x seam x (n - 1)."""
    if across <= usable_width:
        return 1
    return -(-(across - 2 * seam_allowance) // (usable_width - 2 * seam_allowance))


def _full_panels(space: SearchSpace, panels: int) -> Candidate:
    """Lay full panels alone, outer ones trimmed alike, so that an odd number has a panel in the middle."""
    cut_length = space.pitch * (panels - 1) + space.along
    return Candidate(space, cut_length, panels - 1, (panels - 1) * space.along, panels)


def _panels_with_halves(space: SearchSpace, panels: int) -> Iterator[Candidate]:
    """Halve one of an even number of panels for the sides, so that no seam runs down the middle:

    +----+--------+----+
    |half| panel  |half|
    +----+--------+----+
    """
    outer = space.across - (panels - 1) * space.panel_visible_width
    if 2 * space.min_outer_width <= outer <= space.panel_visible_width and not space.repeat:
        yield Candidate(space, panels * space.along, panels, panels * space.along, panels, halves=True)


def _with_band(space: SearchSpace, may_turn: bool) -> Iterator[Candidate]:
    for band in _bands(space):
        yield from _strips_side_by_side(band)
        if may_turn:
            yield from _one_turned_piece(band)
            yield from _turned_pieces(band)
            yield from _turned_pieces_and_strips(band)


def _bands(space: SearchSpace) -> Iterator[Band]:
    """Size the band for each number of panels that do not cover alone; without a panel it is the whole backing."""
    yield Band(space, 0, space.across, space.across)
    for panels in range(1, MOST_SEAMS + 1):
        rest = space.across - panels * space.panel_visible_width
        if rest <= 2 * space.seam_allowance:
            return
        band = _band_between_panels(space, panels, rest) if panels > 1 else _band_beside_panel(space, rest)
        if band:
            yield band


def _band_beside_panel(space: SearchSpace, rest: int) -> Band | None:
    """Size a band beside a lone panel: one seam joins them, and both keep it clear of their trimmed edges."""
    visible = max(rest - space.seam_allowance, space.min_outer_width)
    if space.across - visible < space.min_outer_width:
        return None
    return Band(space, 1, visible, visible + space.seam_allowance)


def _band_between_panels(space: SearchSpace, panels: int, rest: int) -> Band | None:
    """Size a band between the first two panels: its two seams lie at least the clearance apart."""
    visible = max(rest - 2 * space.seam_allowance, space.seam_clearance)
    if outer_panel_visible_width(space, panels, visible) < space.min_outer_width:
        return None
    return Band(space, panels, visible, visible + 2 * space.seam_allowance)


def _one_turned_piece(band: Band) -> Iterator[Candidate]:
    """Cut the band as one piece whose length is the cloth's width. Without a panel it would be a panel itself.

    on the cloth, y ->  | panel | panel |band|
                        |       |       |    |   the band's length lies across the cloth
    """
    if band.panels and band.most_pieces >= 1 and band.length_of(1) <= band.space.usable_width:
        yield band.pieced_from(band.cut_width, turned=1, turned_length=band.length_of(1))


def _strips_side_by_side(band: Band) -> Iterator[Candidate]:
    """Cut equal strips side by side from one length of the cloth, and join them end to end.

        on the cloth, y ->  | panel | panel | strip |
                            |       |       | strip |   n strips: n x width of the band fits the cloth

    They take one strip's length of cloth, which is least where all are equal.
    """
    space = band.space
    for strips in range(2, band.most_pieces + 1):
        length = band.length_of(strips)
        if strips * band.cut_width <= space.usable_width and length >= strips * space.shortest_piece:
            yield band.pieced_from(length // strips, strips=strips, strip_length=length // strips)


def _turned_pieces(band: Band) -> Iterator[Candidate]:
    """Turn as few equal pieces as are long enough together, two at the least.

        on the cloth, y ->  | panel | panel |band|band|
                            |       |       |    |    |

    Each takes the band's width of cloth however long it is, so the fewest take least. Without a panel they would be
    the full panels of the other direction.
    """
    if not band.panels:
        return
    space = band.space
    pieces = panels_needed(space.along, space.usable_width, space.seam_allowance)
    if 1 < pieces <= band.most_pieces and band.length_of(pieces) >= pieces * space.shortest_piece:
        yield band.pieced_from(pieces * band.cut_width, turned=pieces, turned_length=band.length_of(pieces) // pieces)


def _turned_pieces_and_strips(band: Band) -> Iterator[Candidate]:
    """Make part of the band of turned pieces and the rest of strips that lie side by side.

    on the cloth, y ->  | panel | panel |band| strip |
                        |       |       |    | strip |
    """
    for pieces in range(2, band.most_pieces + 1):
        length = band.length_of(pieces)
        for turned in range(1, pieces):
            strips = pieces - turned
            strip_length = _strip_length(band.space, length, turned, strips)
            if strip_length and strips * band.cut_width <= band.space.usable_width:
                yield band.pieced_from(
                    turned * band.cut_width + strip_length,
                    turned=turned,
                    turned_length=(length - strips * strip_length) // turned,
                    strips=strips,
                    strip_length=strip_length,
                )


def _strip_length(space: SearchSpace, length: int, turned: int, strips: int) -> int:
    """Find the least length of strips beside turned pieces, 0 where there is none.

    Turned pieces cost the same cloth however long they are, so they are as long as the cloth is wide and the strips
    make up the rest; then both give way to `shortest_piece`.
    """
    rest = length - turned * space.usable_width
    if rest <= 0:
        return 0
    strip = max(rest // strips, space.shortest_piece)
    return strip if length - strips * strip >= turned * space.shortest_piece else 0


def _has_seam_near_middle(candidate: Candidate) -> bool:
    """Look for a seam from edge to edge within `seam_clearance` of the middle line: between elements, or in a backing
    of strips alone between those."""
    space, elements = candidate.space, elements_of(candidate)
    if candidate.panels:
        visible, whole = tuple(element.visible_width for element in elements), space.across
    else:
        visible, whole = elements[0].visible_lengths, space.along
    return any(abs(2 * seam - whole) < 2 * space.seam_clearance for seam in accumulate(visible[:-1]))
