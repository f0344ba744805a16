"""The figures of a shop file that equal the sample's: copied with it, or her own?"""

from functools import cache
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues, LayerName
from finishcalc.intake.source import Source, dotted
from finishcalc.model.files import MATERIALS, ShopFile
from finishcalc.model.section import Figure
from finishcalc.reviewing.moving import as_written, moves


class Yours(NamedTuple):
    """A figure of the shop file that is the sample's too: its key, its value as a file writes it, and its line."""

    key: str
    value: object
    line: int


def perhaps_yours(source: Source, units: str) -> tuple[Yours, ...]:
    """List the figures of a shop file in these units that equal those of the sample shop, or of a preset of that name,
    in the order of their lines. Words, counts and zeros are no figures to have copied."""
    shop, _, _ = check(ShopFile, source.table, source, units)
    found = [
        Yours(dotted(sourced.origin.at), as_written(sourced, units), sourced.origin.line)
        for sourced in _laid(shop, source, "shop file").values.values()
        if moves(sourced, units) and sourced.value == _sample_of(sourced.origin.at, units)
    ]
    return tuple(sorted(found, key=lambda each: (each.line, each.key)))


def _laid(shop: ShopFile, source: Source, layer: LayerName) -> LayeredValues:
    layers = LayeredValues()
    layers.lay(shop, layer, source)
    return layers


def _sample_of(at: KeyPath, units: str) -> object:
    """The sample's value under a key of a shop file; None where it has none."""
    if at[0] not in MATERIALS or len(at) != 3:
        return _samples(units).get(at)
    preset = presets.find(str(at[0]), str(at[1]), units)
    value = getattr(preset.values, str(at[2]), None) if preset else None
    return value.value if isinstance(value, Figure) else value


@cache
def _samples(units: str) -> dict[KeyPath, object]:
    shop, source = presets.sample_shop(units)
    return {sourced.origin.at: sourced.value for sourced in _laid(shop, source, "sample shop").values.values()}
