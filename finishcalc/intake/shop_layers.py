"""Lays a shop file over the sample shop of its units, with the values that are tried on it."""

from functools import cache, lru_cache

from finishcalc.intake import presets
from finishcalc.intake.changes.change import Change, TriedSource
from finishcalc.intake.changes.shop_values import shop_values
from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import TomlTable
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.source import Source
from finishcalc.intake.words import understood
from finishcalc.model.files import ShopFile
from finishcalc.problems import Problem, ProblemsFound


def lay_shop(change: Change | None, source: Source | None, units: str) -> tuple[LayeredValues, list[Problem]]:
    """The shop file over the sample shop of its units, with the values that are tried on it, and the problems."""
    below_project, shop_problems = _shop_layers(source, units) if source else (_samples(units), ())
    layers, problems = LayeredValues(below_project), [*shop_problems]
    if change and change.shop_puts:
        below = [shop_text.table for shop_text in (source, presets.sample_shop(units)[1]) if shop_text]
        values, tried_problems = shop_values(change, below, units)
        layers.lay(values, "shop file", TriedSource(change.name, ""))
        problems += tried_problems
    return layers, problems


@lru_cache(maxsize=16)
def _shop_layers(source: Source, units: str) -> tuple[LayeredValues, tuple[Problem, ...]]:
    """A shop file over the sample shop, and its problems, worked out once for all projects that one reading serves."""
    shop, problems = checked_shop(source, units)
    layers = LayeredValues(_samples((shop and shop.units) or units))
    if shop:
        layers.lay(shop, "shop file", source)
    return layers, tuple(problems)


def checked_shop(source: Source, units: str) -> tuple[ShopFile | None, list[Problem]]:
    """Check a shop file. Gives what is right in it, and the problems."""
    try:
        data = source.table
    except ProblemsFound as found:
        return None, list(found.problems)
    shop, problems, _ = check(ShopFile, data, source, units_of(data, units))
    return shop, problems


def units_of(data: TomlTable, units: str) -> str:
    """Give the units that a file names, or those that hold where it names none."""
    given = data.get("units")
    return (understood(given, presets.SYSTEMS) if isinstance(given, str) else None) or units


@cache
def _samples(units: str) -> LayeredValues:
    layers = LayeredValues()
    shop, source = presets.sample_shop(units)
    layers.lay(shop, "sample shop", source)
    return layers
