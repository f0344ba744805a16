"""The rule that a figure is for the unit it was given for.

A price or a time is of so much a unit. Whoever gives another unit over it gives the figure too: else a price a yard
would be charged for each inch.
"""

from collections.abc import Iterator
from typing import Any, NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.changes.change import TriedSource
from finishcalc.intake.layers import RANKS, SAMPLE_LAYERS, Laid
from finishcalc.intake.named_materials import styles_of
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.problems import ProblemCode
from finishcalc.wording.words import in_words

SEWN_ON = ("make", "front", "machine", "hand")
"""The work at a binding that a quote charges or offers."""


class Pair(NamedTuple):
    """Figures, and where their unit stands: at the first of `units` that is given. `preset` is the kind and the name
    of the material that they belong to."""

    units: tuple[Path, ...]
    figures: tuple[Path, ...]
    preset: tuple[str, str] | None = None


def figures_keep_their_units(check: Check) -> None:
    """Where a unit was given for a figure and another unit stands over it, the figure is missing."""
    values = check.layers.values
    for pair in _pairs(check):
        unit = next((values[path] for path in pair.units if path in values), None)
        found = {path: values[path] for path in pair.figures if unit and path in values}
        below = {path: laid for path, laid in found.items() if unit and _height(laid) < _height(unit)}
        own = {path: _own_unit(check, pair, path, laid) for path, laid in below.items()}
        stale = {path: told for path, told in own.items() if unit and told not in (None, unit.value)}
        if stale:
            _tell(check, pair, stale)


def _height(laid: Laid) -> tuple[int, bool]:
    """What stands over what; a value that is tried over the shop's own."""
    return RANKS[laid.origin.layer], isinstance(laid.origin.source, TriedSource)


def _tell(check: Check, pair: Pair, stale: dict[Path, str]) -> None:
    first = check.layers.values[next(iter(stale))].origin
    sample = first.layer in SAMPLE_LAYERS
    names = in_words([str(path[-1]) for path in stale])
    what = "a sample figure" if sample else f"the figure in {first.source.name}"
    message = f"is a unit of your own for {what}, which is one for each {next(iter(stale.values()))}"
    check.wrong(ProblemCode.UNIT_WITHOUT_FIGURE, list(pair.units), message, f"give {names} for it too")


def _own_unit(check: Check, pair: Pair, path: Path, laid: Laid) -> Any:
    """The unit that a figure was given for: the one beside it in its text, or beneath that text."""
    at = laid.origin.at
    for unit in pair.units:
        beside = (*at[: len(at) - 1], unit[-1]) if unit[:-1] == path[:-1] else unit
        if (told := _value_at(laid.origin.source.table, beside)) is not None:
            return told
    if pair.preset:
        preset = presets.find(*pair.preset, check.units)
        return preset.values.get(str(pair.units[0][-1])) if preset else None
    samples = next(each.origin.source for each in check.layers.values.values() if each.origin.layer == "sample shop")
    return next((told for unit in pair.units if (told := _value_at(samples.table, unit)) is not None), None)


def _value_at(table: Any, path: Path) -> Any:
    for step in path:
        table = table.get(step) if isinstance(table, dict) else None
    return table


def _pairs(check: Check) -> Iterator[Pair]:
    layers = check.layers
    own = layers.get("quilting", "method", "rate_class")
    for name in {str(own or layers.get(*style, "rate_class")): None for style in styles_of(layers)}:
        rate: Path = ("rates", "quilting", name)
        yield Pair(((*rate, "per"), ("rates", "quilting_per")), ((*rate, "price"),))
    attach = layers.get("binding", "attach")
    edge = (attach,) if attach in ("faced", "hem") else SEWN_ON if attach != "none" else ()
    yield Pair((("rates", "binding_per"),), tuple(("rates", "binding", name) for name in edge))
    yield Pair((("edge_time", "per"),), tuple(("edge_time", name) for name in edge))
    yield Pair((("seaming", "per"),), (("seaming", "minutes_along"),))
    for path, named in check.wanted.items():
        if named.kind == "fabrics":
            name = str(layers.get(*path, "preset"))
            yield Pair(((*path, "per"),), ((*path, "price"), (*path, "selling")), ("fabrics", name))
    for name in layers.names("extras"):
        yield Pair((("extras", name, "per"),), (("extras", name, "price"),))
