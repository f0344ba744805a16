"""Which backings there are: full panels either way, and at most one pieced band across the rest.

The band is one turned piece; or strips cut side by side from one length and joined end to end; or pieces turned
so that their length is the cloth's width; or turned pieces and strips together. This module counts in steps of a
grid, tries them all, and keeps for every number of seams the one that takes least cloth.
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.plans.backing.layout import Element, Row

MOST_SEAMS = 4
"""Backings with more seams are looked at only where nothing takes fewer."""


class SearchSpace(NamedTuple):
    """What is to be covered, in steps of the grid: `across` by elements side by side, each `along` long. A seam
    keeps `seam_clearance` off the trimmed edge, which is `overage` in; a piece joined end to end is cut no shorter than
    `shortest_piece`."""

    crosswise: bool
    across: int
    along: int
    usable_width: int
    seam_allowance: int
    overage: int
    seam_clearance: int
    shortest_piece: int
    repeat: int

    @property
    def panel_visible_width(self) -> int:
        """What a panel with a seam on both sides shows."""
        return self.usable_width - 2 * self.seam_allowance

    @property
    def pitch(self) -> int:
        """From panel to panel on the cloth, so that a print with a repeat meets."""
        return -(-self.along // self.repeat) * self.repeat if self.repeat else self.along

    @property
    def min_outer_width(self) -> int:
        """The least an outer element shows, for its seam to keep clear of the trimmed edge."""
        return self.overage + self.seam_clearance


class Candidate(NamedTuple):
    """A backing that would do: `lengths` panels' lengths and, at the most, a band `shown` wide of `turned` turned
    pieces and `strips` strips. `halves` says that one panel is cut in two for the sides."""

    space: SearchSpace
    cut_length: int
    seams: int
    seam_length: int
    lengths: int
    shown: int = 0
    turned: int = 0
    strips: int = 0
    halves: bool = False

    @property
    def pieced(self) -> bool:
        """Whether it is anything but full panels."""
        return self.turned + self.strips > 0 or self.halves


def candidates(space: SearchSpace, pieced: bool, may_turn: bool, centred: bool) -> Iterator[Candidate]:
    """Every backing of the family on this space; with `centred`, none with a long seam near the middle line."""
    fewest = panels_needed(space.across, space.usable_width, space.seam_allowance)
    if not centred or fewest % 2:
        yield _panels(space, fewest)
    else:
        yield _panels(space, fewest + 1)
        yield from _with_halves(space, fewest)
    if pieced:
        for lengths, shown, cut in _bands(space):
            band = Candidate(space, 0, lengths, lengths * space.along, lengths, shown)
            for found in _pieced(band, cut, may_turn):
                if not centred or not _seam_in_the_middle(found):
                    yield found


def panels_needed(across: int, usable: int, seam: int) -> int:
    """The fewest panels that cover `across`: n of them join to n x usable - 2 x seam x (n - 1)."""
    return 1 if across <= usable else -(-(across - 2 * seam) // (usable - 2 * seam))


def _panels(space: SearchSpace, count: int) -> Candidate:
    """Full panels alone. An odd number has a panel in the middle."""
    cut = space.pitch * (count - 1) + space.along
    return Candidate(space, cut, count - 1, (count - 1) * space.along, count)


def _with_halves(space: SearchSpace, count: int) -> Iterator[Candidate]:
    """A full panel in the middle and a halved one at the sides, in place of an even number of panels."""
    outer = space.across - (count - 1) * space.panel_visible_width
    if 2 * space.min_outer_width <= outer <= space.panel_visible_width and not space.repeat:
        yield Candidate(space, count * space.along, count, count * space.along, count, halves=True)


def _bands(space: SearchSpace) -> Iterator[tuple[int, int, int]]:
    """For each number of panels that do not cover alone: what the band must show across, and be cut."""
    yield 0, space.across, space.across
    for lengths in range(1, MOST_SEAMS + 1):
        rest = space.across - lengths * space.panel_visible_width
        if rest <= 2 * space.seam_allowance:
            return
        if lengths == 1:
            shown = max(rest - space.seam_allowance, space.min_outer_width)
            if space.across - shown >= space.min_outer_width:
                yield lengths, shown, shown + space.seam_allowance
        else:
            shown = max(rest - 2 * space.seam_allowance, space.seam_clearance)
            if _outer(space, lengths, shown) >= space.min_outer_width:
                yield lengths, shown, shown + 2 * space.seam_allowance


def _outer(space: SearchSpace, lengths: int, shown: int) -> int:
    """What each of the two outer panels shows, trimmed alike, with the band between panels."""
    return (space.across - shown - (lengths - 2) * space.panel_visible_width) // 2


def _pieced(band: Candidate, cut: int, may_turn: bool) -> Iterator[Candidate]:
    """The ways to piece a band that is cut `cut` wide, within the most seams."""
    space, covered = band.space, False
    for pieces in range(1, MOST_SEAMS - band.seams + 2):
        long = space.along + 2 * space.seam_allowance * (pieces - 1)
        if pieces > 1 and pieces * cut <= space.usable_width and long >= pieces * space.shortest_piece:
            yield _sewn(band, long // pieces, strips=pieces)
        if not may_turn:
            continue
        if band.lengths and not covered and pieces * space.usable_width >= long:
            covered = True
            if pieces == 1 or long >= pieces * space.shortest_piece:
                yield _sewn(band, pieces * cut, turned=pieces)
        for turned in range(1, pieces):
            strip = _strip(space, long, turned, pieces - turned)
            if strip and (pieces - turned) * cut <= space.usable_width:
                yield _sewn(band, turned * cut + strip, turned, pieces - turned)


def _strip(space: SearchSpace, long: int, turned: int, strips: int) -> int:
    """How long the strips beside full turned pieces are cut; 0 where those would cover without them."""
    rest = long - turned * space.usable_width
    if rest <= 0:
        return 0
    strip = max(rest // strips, space.shortest_piece)
    return strip if long - strips * strip >= turned * space.shortest_piece else 0


def _sewn(band: Candidate, cloth: int, turned: int = 0, strips: int = 0) -> Candidate:
    joins = turned + strips - 1
    return band._replace(
        cut_length=band.lengths * band.space.along + cloth,
        seams=band.seams + joins,
        seam_length=band.seam_length + joins * band.shown,
        turned=turned,
        strips=strips,
    )


def row_of(found: Candidate) -> Row:
    """The candidate as elements side by side, outer panels trimmed alike."""
    space = found.space
    return Row(
        space.crosswise, space.across, space.along, space.usable_width, space.seam_allowance, space.pitch,
        tuple(_elements(found)),
    )  # fmt: skip


def _elements(found: Candidate) -> list[Element]:
    space, whole = found.space, (found.space.along,)
    inner = Element("panel", space.panel_visible_width, whole)
    if found.turned + found.strips == 0:
        if found.lengths == 1:
            return [Element("panel", space.across, whole)]
        inside = found.lengths - 1 if found.halves else found.lengths - 2
        outer = (space.across - inside * space.panel_visible_width) // 2
        side = Element("half" if found.halves else "panel", outer, whole)
        return [side, *[inner] * inside, side]
    band = Element("band", found.shown, _piece_lengths(found), found.turned)
    if not found.lengths:
        return [band]
    if found.lengths == 1:
        return [Element("panel", space.across - found.shown, whole), band]
    outer_panel = Element("panel", _outer(space, found.lengths, found.shown), whole)
    return [outer_panel, band, *[inner] * (found.lengths - 2), outer_panel]


def _piece_lengths(found: Candidate) -> tuple[int, ...]:
    """What each piece of the band shows along: turned ones alike, then strips alike, allowances hidden."""
    space, pieces = found.space, found.turned + found.strips
    long = space.along + 2 * space.seam_allowance * (pieces - 1)
    if not found.turned or not found.strips:
        cut = [long // pieces] * pieces
    else:
        strip = _strip(space, long, found.turned, found.strips)
        cut = [(long - found.strips * strip) // found.turned] * found.turned + [strip] * found.strips
    sewn = [space.seam_allowance * ((n > 0) + (n < pieces - 1)) for n in range(pieces)]
    return tuple(each - hidden for each, hidden in zip(cut, sewn, strict=True))


def _seam_in_the_middle(found: Candidate) -> bool:
    """Tell a seam from edge to edge that lies within `seam_clearance` of the middle line: one between elements, or in
    a backing of strips alone one between those."""
    space, elements = found.space, _elements(found)
    if found.lengths:
        shown, whole = tuple(element.shown for element in elements), space.across
    else:
        shown, whole = elements[0].pieces, space.along
    place = 0
    for each in shown[:-1]:
        place += each
        if abs(2 * place - whole) < 2 * space.seam_clearance:
            return True
    return False
