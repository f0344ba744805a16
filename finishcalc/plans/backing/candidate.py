"""A candidate for the backing: the space to cover, the counts of pieces that cover it, and the row they make."""

from typing import NamedTuple

from finishcalc.plans.backing.layout import Element, PanelRow, sewn_edges


class SearchSpace(NamedTuple):
    """The area to cover, in steps of the grid: `across` by elements side by side, each `along` long. A seam keeps
    `seam_clearance` off the trimmed edge, which is `overage_across` or `overage_along` in; a piece joined end to end is
    cut no shorter than `shortest_piece`."""

    crosswise: bool
    across: int
    along: int
    usable_width: int
    seam_allowance: int
    overage_across: int
    overage_along: int
    seam_clearance: int
    shortest_piece: int
    repeat: int

    @property
    def panel_visible_width(self) -> int:
        """The visible width of a panel with a seam on both sides."""
        return self.usable_width - 2 * self.seam_allowance

    @property
    def pitch(self) -> int:
        """The distance from panel to panel on the cloth: up to a whole repeat, so that a print meets."""
        return -(-self.along // self.repeat) * self.repeat if self.repeat else self.along

    @property
    def min_outer_width(self) -> int:
        """The least visible width of an outer element, so that its seam keeps clear of the trimmed edge."""
        return self.overage_across + self.seam_clearance


class Candidate(NamedTuple):
    """A backing that would do, in steps of the grid: `panels` full panels (with `halves`, one of them is cut in two for
    the sides) and at most a band of `turned` pieces cut `turned_length` long and `strips` cut `strip_length` long."""

    space: SearchSpace
    cut_length: int
    seams: int
    seam_length: int
    panels: int
    band_visible_width: int = 0
    turned: int = 0
    turned_length: int = 0
    strips: int = 0
    strip_length: int = 0
    halves: bool = False

    @property
    def pieced(self) -> bool:
        """True for anything but full panels."""
        return self.turned + self.strips > 0 or self.halves


def outer_panel_visible_width(space: SearchSpace, panels: int, band: int) -> int:
    """Share what the inner panels and the band leave between the two outer panels, trimmed alike."""
    return (space.across - band - (panels - 2) * space.panel_visible_width) // 2


def row_of(candidate: Candidate) -> PanelRow:
    """Lay the candidate out as elements side by side, outer panels trimmed alike."""
    space = candidate.space
    return PanelRow(
        crosswise=space.crosswise,
        across=space.across,
        along=space.along,
        usable_width=space.usable_width,
        seam_allowance=space.seam_allowance,
        pitch=space.pitch,
        elements=tuple(elements_of(candidate)),
    )


def elements_of(candidate: Candidate) -> list[Element]:
    """List the elements from one side of the row to the other."""
    space, panels, along = candidate.space, candidate.panels, (candidate.space.along,)
    inner = Element("panel", space.panel_visible_width, along)
    if candidate.turned + candidate.strips == 0:
        if panels == 1:
            return [Element("panel", space.across, along)]
        inside = panels - 1 if candidate.halves else panels - 2
        outer_width = (space.across - inside * space.panel_visible_width) // 2
        side = Element("half" if candidate.halves else "panel", outer_width, along)
        return [side, *[inner] * inside, side]
    band = Element("band", candidate.band_visible_width, _band_visible_lengths(candidate), candidate.turned)
    if panels == 0:
        return [band]
    if panels == 1:
        return [Element("panel", space.across - band.visible_width, along), band]
    outer = Element("panel", outer_panel_visible_width(space, panels, band.visible_width), along)
    return [outer, band, *[inner] * (panels - 2), outer]


def _band_visible_lengths(candidate: Candidate) -> tuple[int, ...]:
    """Take the seam allowances off the pieces of the band: turned ones come first, then strips."""
    cut = [candidate.turned_length] * candidate.turned + [candidate.strip_length] * candidate.strips
    seam_allowance = candidate.space.seam_allowance
    return tuple(length - seam_allowance * sewn for length, sewn in zip(cut, sewn_edges(len(cut)), strict=True))
