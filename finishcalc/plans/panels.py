"""Backings of full-width panels: one piece, or panels side by side with their seams all one way."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.plans.layout import Cut, Layout, Shown

NAMES = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def panel_layouts(
    width: Length, length: Length, usable: Length, seam: Length, repeat: Length, ways: tuple[str, ...]
) -> Iterator[Layout]:
    """The plain layouts that cover `width` x `length` with panels of `usable` washed width.

    `ways` are those of "lengthwise" (the cloth runs down the top) and "crosswise" (across it) that are wanted.
    Panels after the first start at a whole `repeat`, where the print has one, so that it meets.
    """
    if "lengthwise" in ways:
        yield _panels(width, length, usable, seam, repeat, turned=False)
    if "crosswise" in ways:
        yield _panels(length, width, usable, seam, repeat, turned=True)


def panels_needed(across: Length, usable: Length, seam: Length) -> int:
    """The fewest panels that cover `across`: n of them join to n x usable - 2 x seam x (n - 1)."""
    if across <= usable:
        return 1
    return up((across - seam * 2) / (usable - seam * 2))


def _panels(across: Length, along: Length, usable: Length, seam: Length, repeat: Length, turned: bool) -> Layout:
    """Panels side by side over `across`, each `along` long on the cloth."""
    count = panels_needed(across, usable, seam)
    shown = _shown_widths(across, usable, seam, count)
    pitch = up_to_step(along, repeat) if repeat else along
    cuts, assembly = [], []
    place = ZERO
    for number, showing in enumerate(shown):
        name = piece_name(number)
        sewn_edges = (number > 0) + (number < count - 1)
        cuts.append(Cut(name, ZERO, pitch * number, showing + seam * sewn_edges, along))
        assembly.append(_show(name, place, showing, along, turned))
        place += showing
    return Layout(
        name="one-piece" if count == 1 else "panels",
        runs="none" if count == 1 else "crosswise" if turned else "lengthwise",
        panels=count,
        seams=count - 1,
        seam_length=along * (count - 1),
        turned=False,
        cut_length=pitch * (count - 1) + along,
        cuts=tuple(cuts),
        assembly=tuple(assembly),
    )


def _shown_widths(across: Length, usable: Length, seam: Length, count: int) -> list[Length]:
    """Full panels inside and two outer ones trimmed alike, so that seams lie as far from the edge as they can."""
    if count == 1:
        return [across]
    inner = usable - seam * 2
    outer = (across - inner * (count - 2)) / 2
    return [outer, *[inner] * (count - 2), outer]


def _show(name: str, place: Length, showing: Length, along: Length, turned: bool) -> Shown:
    if turned:
        return Shown(name, ZERO, place, along, showing, turned)
    return Shown(name, place, ZERO, showing, along, turned)


def piece_name(number: int) -> str:
    """A, B, C ... Z, A2, B2 ..."""
    round_of, letter = divmod(number, len(NAMES))
    return NAMES[letter] + (str(round_of + 1) if round_of else "")
