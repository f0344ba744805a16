"""The arithmetic of a backing, line by line, as a person would redo it on paper."""

from collections.abc import Iterator

from finishcalc.measures.length import Length
from finishcalc.model.project import BackingWishes, Sewing
from finishcalc.plans.backing.layout import Element, Layout
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cloth import buying_lengths, usable_said, usable_width
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import Said, Value, say, say_in_house


def working_of(shape: Shape, wishes: BackingWishes, chosen: BackingOption, sewing: Sewing) -> tuple[Said, ...]:
    """From the size needed to the cloth bought and the minutes at the seams."""
    layout = chosen.layout
    width, length = shape.width + wishes.overage * 2, shape.length + wishes.overage * 2
    told = [
        say(
            "Needed: {w} + 2 x {o} = {nw} wide, {l} + 2 x {o} = {nl} long",
            w=shape.width, l=shape.length, o=wishes.overage, nw=width, nl=length,
        ),
        usable_said(wishes.fabric, usable_width(wishes.fabric)),
        *_covering(layout, wishes.seam_allowance),
        _cutting(layout, wishes),
        *buying_lengths(wishes.fabric, layout.cut_length, chosen.lengths),
    ]  # fmt: skip
    if layout.seams:
        told.append(_seaming(chosen, sewing))
    return tuple(told)


def _covering(layout: Layout, seam: Length) -> Iterator[Said]:
    """How the elements add up to what is needed across, and the pieces of a band along it."""
    to, row = layout.grid.length, layout.row
    if layout.band is None and layout.seams:
        count = len(row.elements)
        joined = to(row.usable) * layout.lengths_across - seam * (2 * layout.seams)
        yield say(
            "Panels: {n} x {u} - {hidden} x {s} in seams = {joined}, enough for {across}",
            n=layout.lengths_across, u=to(row.usable), hidden=2 * (count - 1), s=seam, joined=joined,
            across=to(row.across),
        )  # fmt: skip
    if layout.band:
        yield from _banding(layout, layout.band, seam)


def _banding(layout: Layout, band: Element, seam: Length) -> Iterator[Said]:
    to, row = layout.grid.length, layout.row
    sewn = min(layout.panels, 2)
    cut = to(band.shown) + seam * sewn
    if layout.panels:
        yield say(
            "Band: {across} - {panels} shown by the panels = {shown}, cut {cut} wide with its seam allowances",
            across=to(row.across), panels=to(row.across - band.shown), shown=to(band.shown), cut=cut,
        )  # fmt: skip
    pieces = len(band.pieces)
    if pieces > 1:
        yield say(
            "Band: {along} long and {hidden} x {s} in joins = {long}, from {n} pieces",
            along=to(row.along), hidden=2 * (pieces - 1), s=seam, long=to(row.along) + seam * (2 * (pieces - 1)),
            n=pieces,
        )  # fmt: skip


def _cutting(layout: Layout, wishes: BackingWishes) -> Said:
    """Add up the cut lengths of cloth."""
    to, row = layout.grid.length, layout.row
    parts: list[tuple[int, Length]] = []
    for steps in layout.cut_steps:
        if parts and parts[-1][1] == to(steps):
            parts[-1] = (parts[-1][0] + 1, parts[-1][1])
        else:
            parts.append((1, to(steps)))
    values: dict[str, Value] = {"cut": layout.cut_length, "repeat": wishes.fabric.repeat, "along": to(row.along)}
    for n, (count, length) in enumerate(parts):
        values |= {f"n{n}": count, f"l{n}": length}
    text = " + ".join(f"{{n{n}}} x {{l{n}}}" for n in range(len(parts)))
    if wishes.fabric.repeat and layout.seams:
        text += " ({along} up to a whole repeat of {repeat}, the last without)"
    return Said("Cut: " + text + " = {cut}", values)


def _seaming(chosen: BackingOption, sewing: Sewing) -> Said:
    return say_in_house(
        "Seams: {n} x {each} min + {long} x {along} min per {per} = {minutes} min, at the wage {cost}",
        n=chosen.layout.seams, each=sewing.minutes_each, long=chosen.layout.seam_length,
        along=sewing.minutes_along, per=sewing.per, minutes=chosen.seam_minutes, cost=chosen.seam_cost,
    )  # fmt: skip
