"""The arithmetic of a backing, line by line, as a person would redo it on paper."""

from collections.abc import Iterator
from itertools import groupby

from finishcalc.measures.length import Length
from finishcalc.model.project import Backing
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.layout import Element, Layout
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cloth import buying_lengths, usable_width_of, usable_working
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import Sentence, Value, say, say_in_house


def working_of(shape: Shape, spec: Backing, chosen: BackingOption, sewing: Sewing) -> tuple[Sentence, ...]:
    """Write out the way from the size needed to the cloth bought and the minutes at the seams."""
    layout = chosen.layout
    return (
        shape.overage_working(chosen.overage),
        usable_working(spec.fabric, usable_width_of(spec.fabric)),
        *_covering(layout, spec.seam_allowance),
        _cutting(layout, spec),
        *buying_lengths(spec.fabric, layout.cut_length, chosen.lengths),
        *_seaming(chosen, sewing),
    )


def _covering(layout: Layout, seam_allowance: Length) -> Iterator[Sentence]:
    """Add up the elements to the width needed, and the pieces of a band to its length."""
    if layout.band:
        yield from _band_covering(layout, layout.band, seam_allowance)
    elif layout.seams:
        panels = layout.panel_lengths
        yield say(
            "Panels: {n} x {u} - {hidden} x {s} in seams = {joined}, enough for {across}",
            n=panels,
            u=layout.usable_width,
            hidden=2 * layout.seams,
            s=seam_allowance,
            joined=layout.usable_width * panels - seam_allowance * (2 * layout.seams),
            across=layout.grid.length(layout.row.across),
        )


def _band_covering(layout: Layout, band: Element, seam_allowance: Length) -> Iterator[Sentence]:
    to, row = layout.grid.length, layout.row
    if layout.panels:
        sewn_edges = min(layout.panels, 2)
        yield say(
            "Band: {across} - {panels} shown by the panels = {shown}, cut {cut} wide with its seam allowances",
            across=to(row.across),
            panels=to(row.across - band.visible_width),
            shown=to(band.visible_width),
            cut=to(band.visible_width) + seam_allowance * sewn_edges,
        )
    pieces = len(band.visible_lengths)
    if pieces > 1:
        hidden = 2 * (pieces - 1)
        yield say(
            "Band: {along} long and {hidden} x {s} in joins = {long}, from {n} pieces",
            along=to(row.along),
            hidden=hidden,
            s=seam_allowance,
            long=to(row.along) + seam_allowance * hidden,
            n=pieces,
        )


def _cutting(layout: Layout, spec: Backing) -> Sentence:
    """Add up the cut lengths, equal ones that follow each other together."""
    to = layout.grid.length
    values: dict[str, Value] = {
        "cut": layout.cut_length,
        "repeat": spec.fabric.repeat,
        "along": to(layout.row.along),
    }
    terms = []
    for n, (steps, equal) in enumerate(groupby(layout.cut_steps)):
        values |= {f"n{n}": len(list(equal)), f"l{n}": to(steps)}
        terms.append(f"{{n{n}}} x {{l{n}}}")
    text = " + ".join(terms)
    if spec.fabric.repeat and layout.seams:
        text += " ({along} up to a whole repeat of {repeat}, the last without)"
    return Sentence("Cut: " + text + " = {cut}", values)


def _seaming(chosen: BackingOption, sewing: Sewing) -> Iterator[Sentence]:
    if chosen.layout.seams:
        yield say_in_house(
            "Seams: {n} x {each} min + {long} x {along} min per {per} = {minutes} min, at the wage {cost}",
            n=chosen.layout.seams,
            each=sewing.seaming.minutes_each.value,
            long=chosen.layout.seam_length,
            along=sewing.seaming.minutes_along.value,
            per=sewing.seaming.per,
            minutes=chosen.seam_minutes,
            cost=chosen.seam_cost,
        )
