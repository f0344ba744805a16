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


class Ground(NamedTuple):
    """What is to be covered, in steps of the grid: `across` by elements side by side, each `along` long. A seam
    keeps `clear` off the trimmed edge, which is `overage` in; a piece joined end to end is cut no shorter than
    `shortest`."""

    crosswise: bool
    across: int
    along: int
    usable: int
    seam: int
    overage: int
    clear: int
    shortest: int
    repeat: int

    @property
    def inner(self) -> int:
        """What a panel with a seam on both sides shows."""
        return self.usable - 2 * self.seam

    @property
    def pitch(self) -> int:
        """From panel to panel on the cloth, so that a print with a repeat meets."""
        return -(-self.along // self.repeat) * self.repeat if self.repeat else self.along

    @property
    def least_edge(self) -> int:
        """The least an outer element shows, for its seam to keep clear of the trimmed edge."""
        return self.overage + self.clear


class Candidate(NamedTuple):
    """A backing that would do: `lengths` panels' lengths and, at the most, a band `shown` wide of `turned` turned
    pieces and `strips` strips. `halves` says that one panel is cut in two for the sides."""

    ground: Ground
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


def candidates(ground: Ground, pieced: bool, may_turn: bool, centred: bool) -> Iterator[Candidate]:
    """Every backing of the family on this ground; with `centred`, none with a long seam near the middle line."""
    fewest = panels_needed(ground.across, ground.usable, ground.seam)
    if not centred or fewest % 2:
        yield _panels(ground, fewest)
    else:
        yield _panels(ground, fewest + 1)
        yield from _with_halves(ground, fewest)
    if pieced:
        for lengths, shown, cut in _bands(ground):
            band = Candidate(ground, 0, lengths, lengths * ground.along, lengths, shown)
            for found in _pieced(band, cut, may_turn):
                if not centred or not _seam_in_the_middle(found):
                    yield found


def panels_needed(across: int, usable: int, seam: int) -> int:
    """The fewest panels that cover `across`: n of them join to n x usable - 2 x seam x (n - 1)."""
    return 1 if across <= usable else -(-(across - 2 * seam) // (usable - 2 * seam))


def _panels(ground: Ground, count: int) -> Candidate:
    """Full panels alone. An odd number has a panel in the middle."""
    cut = ground.pitch * (count - 1) + ground.along
    return Candidate(ground, cut, count - 1, (count - 1) * ground.along, count)


def _with_halves(ground: Ground, count: int) -> Iterator[Candidate]:
    """A full panel in the middle and a halved one at the sides, in place of an even number of panels."""
    outer = ground.across - (count - 1) * ground.inner
    if 2 * ground.least_edge <= outer <= ground.inner and not ground.repeat:
        yield Candidate(ground, count * ground.along, count, count * ground.along, count, halves=True)


def _bands(ground: Ground) -> Iterator[tuple[int, int, int]]:
    """For each number of panels that do not cover alone: what the band must show across, and be cut."""
    yield 0, ground.across, ground.across
    for lengths in range(1, MOST_SEAMS + 1):
        rest = ground.across - lengths * ground.inner
        if rest <= 2 * ground.seam:
            return
        if lengths == 1:
            shown = max(rest - ground.seam, ground.least_edge)
            if ground.across - shown >= ground.least_edge:
                yield lengths, shown, shown + ground.seam
        else:
            shown = max(rest - 2 * ground.seam, ground.clear)
            if _outer(ground, lengths, shown) >= ground.least_edge:
                yield lengths, shown, shown + 2 * ground.seam


def _outer(ground: Ground, lengths: int, shown: int) -> int:
    """What each of the two outer panels shows, trimmed alike, with the band between panels."""
    return (ground.across - shown - (lengths - 2) * ground.inner) // 2


def _pieced(band: Candidate, cut: int, may_turn: bool) -> Iterator[Candidate]:
    """The ways to piece a band that is cut `cut` wide, within the most seams."""
    ground, covered = band.ground, False
    for pieces in range(1, MOST_SEAMS - band.seams + 2):
        long = ground.along + 2 * ground.seam * (pieces - 1)
        if pieces > 1 and pieces * cut <= ground.usable and long >= pieces * ground.shortest:
            yield _sewn(band, long // pieces, strips=pieces)
        if not may_turn:
            continue
        if band.lengths and not covered and pieces * ground.usable >= long:
            covered = True
            if pieces == 1 or long >= pieces * ground.shortest:
                yield _sewn(band, pieces * cut, turned=pieces)
        for turned in range(1, pieces):
            strip = _strip(ground, long, turned, pieces - turned)
            if strip and (pieces - turned) * cut <= ground.usable:
                yield _sewn(band, turned * cut + strip, turned, pieces - turned)


def _strip(ground: Ground, long: int, turned: int, strips: int) -> int:
    """How long the strips beside full turned pieces are cut; 0 where those would cover without them."""
    rest = long - turned * ground.usable
    if rest <= 0:
        return 0
    strip = max(rest // strips, ground.shortest)
    return strip if long - strips * strip >= turned * ground.shortest else 0


def _sewn(band: Candidate, cloth: int, turned: int = 0, strips: int = 0) -> Candidate:
    joins = turned + strips - 1
    return band._replace(
        cut_length=band.lengths * band.ground.along + cloth,
        seams=band.seams + joins,
        seam_length=band.seam_length + joins * band.shown,
        turned=turned,
        strips=strips,
    )


def row_of(found: Candidate) -> Row:
    """The candidate as elements side by side, outer panels trimmed alike."""
    ground = found.ground
    return Row(
        ground.crosswise, ground.across, ground.along, ground.usable, ground.seam, ground.pitch,
        tuple(_elements(found)),
    )  # fmt: skip


def _elements(found: Candidate) -> list[Element]:
    ground, whole = found.ground, (found.ground.along,)
    inner = Element("panel", ground.inner, whole)
    if found.turned + found.strips == 0:
        if found.lengths == 1:
            return [Element("panel", ground.across, whole)]
        inside = found.lengths - 1 if found.halves else found.lengths - 2
        outer = (ground.across - inside * ground.inner) // 2
        side = Element("half" if found.halves else "panel", outer, whole)
        return [side, *[inner] * inside, side]
    band = Element("band", found.shown, _piece_lengths(found), found.turned)
    if not found.lengths:
        return [band]
    if found.lengths == 1:
        return [Element("panel", ground.across - found.shown, whole), band]
    outer_panel = Element("panel", _outer(ground, found.lengths, found.shown), whole)
    return [outer_panel, band, *[inner] * (found.lengths - 2), outer_panel]


def _piece_lengths(found: Candidate) -> tuple[int, ...]:
    """What each piece of the band shows along: turned ones alike, then strips alike, allowances hidden."""
    ground, pieces = found.ground, found.turned + found.strips
    long = ground.along + 2 * ground.seam * (pieces - 1)
    if not found.turned or not found.strips:
        cut = [long // pieces] * pieces
    else:
        strip = _strip(ground, long, found.turned, found.strips)
        cut = [(long - found.strips * strip) // found.turned] * found.turned + [strip] * found.strips
    sewn = [ground.seam * ((n > 0) + (n < pieces - 1)) for n in range(pieces)]
    return tuple(each - hidden for each, hidden in zip(cut, sewn, strict=True))


def _seam_in_the_middle(found: Candidate) -> bool:
    """Whether a seam that runs from edge to edge lies within `clear` of the middle line: one between elements, or
    in a backing of strips alone one between those."""
    ground, elements = found.ground, _elements(found)
    if found.lengths:
        shown, whole = tuple(element.shown for element in elements), ground.across
    else:
        shown, whole = elements[0].pieces, ground.along
    place = 0
    for each in shown[:-1]:
        place += each
        if abs(2 * place - whole) < 2 * ground.clear:
            return True
    return False
