"""Lays the layers: sample shop, shop file, project file, and the presets under what they name."""

from collections.abc import Callable
from functools import cache, cached_property
from pathlib import PurePath
from typing import Any

from finishcalc.intake import presets
from finishcalc.intake.building.cover import lay_what_follows
from finishcalc.intake.building.project import build_project, build_shop
from finishcalc.intake.changes.change import Change, ChangedSource, TriedSource, changed
from finishcalc.intake.changes.shop_values import shop_values
from finishcalc.intake.checking import check
from finishcalc.intake.layers import SAMPLE_LAYERS, Laid, Layers, Values
from finishcalc.intake.named_materials import wanted
from finishcalc.intake.positions import Path
from finishcalc.intake.project_file import PROJECT_FILE
from finishcalc.intake.rules.check import Check
from finishcalc.intake.rules.every import apply
from finishcalc.intake.shop_file import SHOP_FILE
from finishcalc.intake.shop_name import name_refused
from finishcalc.intake.source import STANDARD_INPUT, Source, dotted, read
from finishcalc.intake.table import Table
from finishcalc.model.project import Project
from finishcalc.model.shop import Shop
from finishcalc.problems import Problem, ProblemsFound

Reading = Callable[[str], Source]
"""Reads the file of a name. Raises ProblemsFound."""

FOR_ANY = {"fabrics": "cloth", "battings": "any_batting", "styles": "any_style", "methods": "any_method"}
"""The shop's table that holds for any material that does not say it itself."""


Again = Callable[[Change], "Resolved"]
"""Resolves the same file with a change more. Raises ProblemsFound."""


class Resolved:
    """A project and its shop, every value laid in `layers`, with where each came from. They are made when they are
    asked for.

    `foreign_samples` are the currencies of sample prices that are used beside the shop's own currency.
    """

    def __init__(self, layers: Layers, title: str, units: str, foreign_samples: frozenset[str], again: "Again") -> None:
        self.layers, self.foreign_samples, self._again = layers, foreign_samples, again
        self._title, self._units = title, units

    def changed(self, change: Change) -> "Resolved":
        """The same file with a change more. Raises ProblemsFound."""
        return self._again(change)

    @cached_property
    def styles_by_class(self) -> dict[str, str]:
        """The first stitched style of each class of rates, by the class: of the presets, else of the shop's own."""
        get, found = self.layers.get, dict(presets.styles_by_class(self._units))
        for name in self.layers.names("styles"):
            if get("styles", name, "lines") != "ties" and get("styles", name, "rate_class"):
                found.setdefault(get("styles", name, "rate_class"), name)
        return found

    @cached_property
    def project(self) -> Project:
        """The project, in the shape the plans read."""
        return build_project(self.layers, self._title, self._units)

    @cached_property
    def shop(self) -> Shop:
        """The shop, in the shape pricing reads."""
        return build_shop(self.layers, self._units)

    @cached_property
    def samples(self) -> frozenset[str]:
        """The key paths of all figures that are samples, used or not."""
        return frozenset(dotted(path) for path, laid in self.layers.values.items() if _is_sample(laid))


def load(name: str, shop: str | None = None, change: Change | None = None) -> Resolved:
    """Read a project file ("-" is standard input) and the shop file it names, or `shop` in its place; `change` is tried
    on it.

    Raises ProblemsFound with every problem of both files, in file order.
    """
    return resolve(read(name), shop, folder_of(name), change)


def folder_of(name: str) -> PurePath:
    """The folder in which, or below which, the shop file of a project lies."""
    return PurePath(name).parent if name != "-" else PurePath()


def resolve(
    source: Source,
    shop: str | None = None,
    folder: PurePath | None = None,
    change: Change | None = None,
    reading: Reading = read,
) -> Resolved:
    """Resolve a project's text, with a change to it if there is one; a shop file it names lies in `folder` or below,
    and is read by `reading`.

    Raises ProblemsFound.
    """
    data, nowhere, given = source.table, list[Problem](), source
    if change:
        data, nowhere = changed(data, change)
        source = ChangedSource(source, change)
    units = _units_of(data, "in")
    project, problems, faulty = check(PROJECT_FILE, data, source, units)
    problems += nowhere
    shop_source, shop_problems = _shop_source(project, source, shop, folder or PurePath(), reading)
    problems += shop_problems
    shop_model = None
    if shop_source:
        shop_model, shop_problems = _check_shop(shop_source, units)
        problems += shop_problems
    layers = _lay_shop(shop_model, shop_source, units)
    if change and change.shop_puts:
        below = [each.table for each in (shop_source, presets.sample_shop(units)[1]) if each]
        values, tried_problems = shop_values(change, below, units)
        layers.lay(SHOP_FILE, values, "shop file", TriedSource(change.name, ""))
        problems += tried_problems
    layers.lay(PROJECT_FILE, project, "project file", source)
    currencies = _lay_materials(layers, units)
    problems += apply(Check(layers, source, units, faulty))
    if problems:
        raise ProblemsFound(_in_file_order(problems, source))
    title = project.get("title") or _title_of(source)
    foreign = frozenset(currencies - {layers.get("money", "currency"), ""})
    return Resolved(
        layers, title, units, foreign, lambda more: resolve(given, shop, folder, more.over(change or more), reading)
    )


def _shop_source(
    project: Values, source: Source, shop: str | None, folder: PurePath, reading: Reading
) -> tuple[Source | None, list[Problem]]:
    """The shop file's text: the one asked for stands over the one the project names, which must be right all the same:
    whoever saves the project saves its shop under that name."""
    asked = shop is not None
    named = project.get("shop")
    if named is not None and (refused := name_refused(named, folder, source.name)):
        code, message, hint = refused
        return None, [source.problem(code, ("shop",), message, hint)]
    if shop is None:
        if named is None:
            return None, []
        shop = str(folder / named)
    try:
        return reading(shop), []
    except ProblemsFound as found:
        return None, list(found.problems) if asked else [_blamed(source, shop, found.problems[0])]


def _blamed(source: Source, shop: str, found: Problem) -> Problem:
    """A shop file that cannot be read is told of where the project names it."""
    return source.problem(found.code, ("shop",), f"{shop}: {found.message}", found.hint)


def _check_shop(source: Source, units: str) -> tuple[Values | None, list[Problem]]:
    try:
        data = source.table
    except ProblemsFound as found:
        return None, list(found.problems)
    model, problems, _ = check(SHOP_FILE, data, source, _units_of(data, units))
    return model, problems


def _units_of(data: dict[str, Any], units: str) -> str:
    given = data.get("units")
    return given if isinstance(given, str) and given in presets.SYSTEMS else units


def _lay_shop(shop: Values | None, shop_source: Source | None, units: str) -> Layers:
    layers = Layers(_samples((shop or {}).get("units", units)))
    if shop is not None and shop_source:
        layers.lay(SHOP_FILE, shop, "shop file", shop_source)
    return layers


@cache
def _samples(units: str) -> dict[Path, Laid]:
    layers = Layers()
    values, source = presets.sample_shop(units)
    layers.lay(SHOP_FILE, values, "sample shop", source)
    return layers.values


def _lay_materials(layers: Layers, units: str) -> set[str]:
    """Put under each material the shop's own preset, the preset, and what the shop says of any cloth.

    Gives the currencies that the sample prices in use are meant in.
    """
    currencies = {_sample_currency(layers)}
    for path, (kind, *_) in wanted(layers).items():
        name = layers.get(*path, "preset")
        if name not in (None, "none"):
            table = presets.KINDS[kind]
            _fill_from_shop(layers, table, (kind, name), path)
            preset = presets.find(kind, name, units)
            if preset:
                layers.fill(table, preset.values, "preset", preset.source, (name,), path)
                currencies.add(preset.currency if _priced_by_preset(layers, table, path) else "")
        if kind in FOR_ANY and name != "none":
            _fill_from_shop(layers, presets.KINDS[kind], (FOR_ANY[kind],), path)
    lay_what_follows(layers)
    return currencies


def _fill_from_shop(layers: Layers, table: Table, at: Path, path: Path) -> None:
    """Values that the layers already hold at `at` hold at `path` too, where nothing stands there."""
    for key in table.keys:
        laid = layers.values.get((*at, "unit" if (key, at) == ("per", ("cloth",)) else key))
        if laid and key != "preset" and (*path, key) not in layers.values:
            layers.put((*path, key), laid)


def _priced_by_preset(layers: Layers, table: Table, path: Path) -> bool:
    """Whether a price of this material is still the preset's."""
    return any(
        laid.figure and laid.origin.layer == "preset" for key in table.keys if (laid := layers.values.get((*path, key)))
    )


def _sample_currency(layers: Layers) -> str:
    """The currency of the sample shop that lies beneath, where any of its rates is still in use."""
    shops = [laid for path, laid in layers.values.items() if path[0] == "rates" and _is_sample(laid)]
    return next((str(laid.origin.source.table["money"]["currency"]) for laid in shops), "")


def _is_sample(laid: Laid) -> bool:
    return laid.figure and laid.origin.layer in SAMPLE_LAYERS


def _in_file_order(problems: list[Problem], source: Source) -> list[Problem]:
    """The project's own problems first, each file's from its first line on, and none told twice."""
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda found: (found.file != source.name, found.file, found.line, found.column))


def _title_of(source: Source) -> str:
    return "Quilt top" if source.name == STANDARD_INPUT else PurePath(source.name).stem
