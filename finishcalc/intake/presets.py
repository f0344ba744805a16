"""The presets: fabrics, battings, styles, methods, beds, tables, usual sizes and sample shops, read once and kept."""

import tomllib
from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import TomlTable, value_at
from finishcalc.intake.source import Source, parse, presets_folder, read
from finishcalc.model.files import MATERIALS, ShopFile
from finishcalc.model.section import Section
from finishcalc.problems import ProblemsFound

SYSTEMS = {"in": "inch", "cm": "metric"}
"""The file of each kind that holds the presets for projects in inches or centimetres."""


class Preset(NamedTuple):
    """A preset by its name, with the text it stands in and the currency its sample prices are meant in."""

    name: str
    values: Section
    source: Source
    currency: str


@cache
def find(kind: str, name: str, units: str) -> Preset | None:
    """The preset of a kind by its name; where both systems have one, that of the project's units."""
    for system in _own_first(units):
        source, currency, tables = _preset_file(kind, system)
        if name in tables:
            values, problems, _ = check(MATERIALS[kind], tables[name], source, system, at=(name,))
            if problems:
                raise ProblemsFound(problems)
            return Preset(name, values, source, currency)
    return None


def names(kind: str, units: str) -> list[str]:
    """The names of a kind's presets, those for the project's units first."""
    return list(dict.fromkeys(name for system in _own_first(units) for name in _preset_file(kind, system)[2]))


def own_names(kind: str, units: str) -> list[str]:
    """The names of the presets of a kind that are made for projects in these units."""
    return list(_preset_file(kind, units)[2])


def kind_of(source: Source) -> str:
    """The kind of the things that a file of presets holds."""
    return source.name.split("/")[1]


@cache
def styles_by_class(units: str) -> dict[str, str]:
    """The first stitched style of each rate class, by the class."""
    by_class: dict[str, str] = {}
    styles = _preset_file("styles", units)[2]
    for name in styles:
        if value_at(styles, (name, "lines")) != "ties":
            by_class.setdefault(str(value_at(styles, (name, "rate_class"))), name)
    return by_class


def usual_sizes(use: str, shape: str, units: str) -> list[str]:
    """The sizes that tops of a use and an outline usually have, the smallest first, as texts that ask for them."""
    found = value_at(_preset_file("sizes", units)[2], (use, shape))
    return [str(text) for text in found] if isinstance(found, list) else []


@cache
def sample_shop(units: str) -> tuple[ShopFile, Source]:
    """The sample shop for projects in these units: it holds every key a shop file may hold."""
    source = _source("shops", units)
    shop, problems, _ = check(ShopFile, source.table, source, units)
    if problems:
        raise ProblemsFound(problems)
    return shop, source


@cache
def key_sentences() -> dict[str, dict[str, dict[str, str]]]:
    """A sentence for each key that a file may hold, by the module and the class that declare it."""
    return tomllib.loads(read(str(presets_folder() / "keys.toml")).text)


@cache
def _preset_file(kind: str, units: str) -> tuple[Source, str, TomlTable]:
    """A file of presets: its text, the currency of its sample prices, and its tables, which `find` checks."""
    source = _source(kind, units)
    data = parse(source)
    if data.pop("units", None) != units:
        raise AssertionError(f"{source.name} must open with its units")
    return source, str(data.pop("currency", "")), data


def _source(kind: str, units: str) -> Source:
    name = f"{kind}/{SYSTEMS[units]}.toml"
    return Source(f"presets/{name}", read(str(presets_folder() / name)).text, ours=True)


def _own_first(units: str) -> Iterable[str]:
    return sorted(SYSTEMS, key=lambda system: system != units)
