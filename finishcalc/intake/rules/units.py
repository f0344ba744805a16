"""The rule that a figure is for the unit it was given for.

A price or a time is meant for one unit. A layer that gives another unit must give the figure too; otherwise a price a
yard would be charged for each inch.
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.changes.change import TriedSource
from finishcalc.intake.keypaths import KeyPath, value_at
from finishcalc.intake.layers import RANKS, SAMPLE_LAYERS, Sourced
from finishcalc.intake.rules.check import Check
from finishcalc.problems import ProblemCode
from finishcalc.wording.words import in_words

SEWN_ON = ("make", "front", "machine", "hand")
"""The work at a binding that a quote charges or offers."""


class Pair(NamedTuple):
    """Figures and their unit, which is the first of `units` that is given. `preset` is the kind and the name of the
    material that they belong to."""

    units: tuple[KeyPath, ...]
    figures: tuple[KeyPath, ...]
    preset: tuple[str, str] | None = None


def figures_keep_their_units(check: Check) -> None:
    """A figure is missing where a higher layer changes the unit that it was given for."""
    values = check.layers.values
    for pair in _pairs(check):
        unit = next((values[path] for path in pair.units if path in values), None)
        if unit is None:
            continue
        below = [path for path in pair.figures if path in values and _height(values[path]) < _height(unit)]
        given_for = {path: _unit_given_for(check, pair, path) for path in below}
        stale = {path: own for path, own in given_for.items() if own not in (None, unit.value)}
        if stale:
            _report(check, pair, stale)


def _height(sourced: Sourced) -> tuple[int, bool]:
    """The rank of a value's layer; a value that is tried overrides the shop's own."""
    return RANKS[sourced.origin.layer], isinstance(sourced.origin.source, TriedSource)


def _report(check: Check, pair: Pair, stale: dict[KeyPath, object]) -> None:
    first = check.layers.values[next(iter(stale))].origin
    names = in_words([str(path[-1]) for path in stale])
    figure = "a sample figure" if first.layer in SAMPLE_LAYERS else f"the figure in {first.source.name}"
    message = f"changes the unit of {figure}, which is per {next(iter(stale.values()))}"
    check.wrong(ProblemCode.UNIT_WITHOUT_FIGURE, list(pair.units), message, f"give {names} for it too")


def _unit_given_for(check: Check, pair: Pair, path: KeyPath) -> object:
    """The unit that a figure was given for: the one beside it in its text, or beneath that text."""
    origin = check.layers.values[path].origin
    for unit in pair.units:
        beside = (*origin.at[:-1], unit[-1]) if unit[:-1] == path[:-1] else unit
        if (own_unit := value_at(origin.source.table, beside)) is not None:
            return own_unit
    if pair.preset:
        preset = presets.find(*pair.preset, check.units)
        return getattr(preset.values, str(pair.units[0][-1])) if preset else None
    samples = next(value.origin.source for value in check.layers.values.values() if value.origin.layer == "sample shop")
    return next((own for unit in pair.units if (own := value_at(samples.table, unit)) is not None), None)


def _pairs(check: Check) -> Iterator[Pair]:
    """The figures that the quote may use, with their units."""
    quilting, attach = check.tables.quilting, check.tables.binding.attach
    styles = [quilting.style, *(area.style for area in quilting.areas)]
    for name in dict.fromkeys(str(quilting.method.rate_class or style.rate_class) for style in styles):
        rate: KeyPath = ("rates", "quilting", name)
        yield Pair(((*rate, "per"), ("rates", "quilting_per")), ((*rate, "price"),))
    edge = (attach,) if attach in ("faced", "hem") else SEWN_ON if attach != "none" else ()
    yield Pair((("rates", "binding_per"),), tuple(("rates", "binding", name) for name in edge))
    yield Pair((("edge_time", "per"),), tuple(("edge_time", name) for name in edge))
    yield Pair((("seaming", "per"),), (("seaming", "minutes_along"),))
    yield Pair((("batting_seam", "per"),), (("batting_seam", "minutes_along"),))
    yield Pair((("rates", "seam", "per"),), (("rates", "seam", "along"),))
    yield Pair((("rates", "piecing", "per"),), (("rates", "piecing", "price"),))
    yield Pair((("rates", "thread", "per"),), (("rates", "thread", "price"), ("rates", "thread", "cost")))
    yield Pair((("rates", "batting_seam", "per"),), (("rates", "batting_seam", "along"),))
    for path, named in check.materials.items():
        if named.kind == "fabrics":
            preset = ("fabrics", str(check.preset(path)))
            yield Pair(((*path, "per"),), ((*path, "price"), (*path, "selling")), preset)
    for name, extra in check.tables.extras.items():
        of_unit = ["price", "cost"] if extra.minutes_per else ["price", "cost", "minutes"]
        yield Pair((("extras", name, "per"),), tuple(("extras", name, figure) for figure in of_unit))
        if extra.minutes_per:
            yield Pair((("extras", name, "minutes_per"), ("extras", name, "per")), (("extras", name, "minutes"),))
