"""Lays the layers: sample shop, shop file, project file, and the presets under the materials that are named."""

from collections.abc import Iterator
from functools import cached_property
from pathlib import PurePath
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.building.project import build_project, build_shop
from finishcalc.intake.changes.change import Change, ChangedSource, changed
from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import KeyPath, value_at
from finishcalc.intake.layers import LayeredValues, Sourced
from finishcalc.intake.named_materials import (
    BACKING_FABRIC,
    BINDING_FABRIC,
    NamedMaterial,
    is_of_backing,
)
from finishcalc.intake.namesakes import Namesakes, tell_namesakes_apart
from finishcalc.intake.new_meanings import throat_is_nominal
from finishcalc.intake.on_hand import ON_HAND, OnHandFrom, on_hand_of
from finishcalc.intake.rules.check import Check
from finishcalc.intake.rules.every import apply
from finishcalc.intake.shop_in_use import Reader, ShopInUse, folder_of_shop, shop_in_use
from finishcalc.intake.shop_layers import lay_shop, units_of
from finishcalc.intake.source import STANDARD_INPUT, Source, read
from finishcalc.intake.what_follows import lay_what_follows, style_that_sets_overage
from finishcalc.intake.words_taken import TakenWord, take_names, take_rate_classes
from finishcalc.model.files import MATERIALS, Everything, ProjectFile
from finishcalc.model.logo import Logo
from finishcalc.model.prices import Shop
from finishcalc.model.project import Project
from finishcalc.model.section import specs
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.wording.sentence import Sentence

FOR_ANY = {"fabrics": "cloth", "battings": "any_batting", "styles": "any_style", "methods": "any_method"}
"""The shop's table of values for every material of a kind that gives none of its own."""

LOGO: KeyPath = ("studio", "logo")


class Run(NamedTuple):
    """A project's text with all that resolving it needs: a `shop` file in place of any that is named elsewhere, the
    `folder` in or below which the named one lies, the reader of files, and a change to the project."""

    source: Source
    shop: str | None = None
    folder: PurePath = PurePath()
    reader: Reader = read
    change: Change | None = None

    def with_change(self, change: Change) -> "Run":
        """The same run with a change, made after the one it has."""
        return self._replace(change=change.over(self.change or change))


class Resolved:
    """A project and its shop, the values of all layers in `layers`. The records of the model are made when they are
    first read.

    `foreign_samples` are the currencies of sample prices that are used beside the shop's own currency; `namesakes`
    tells of cloths that bear one name; `shop_file` is the shop file in use, None where nobody names one; `logo` is the
    studio's, if it has one; `taken_words` are those that were taken for names of ours; `on_hand` is the shelf of the
    shop file, and that of the project; `run` is all that it was resolved from.
    """

    def __init__(
        self,
        layers: LayeredValues,
        title: str,
        units: str,
        foreign_samples: frozenset[str],
        namesakes: Namesakes,
        run: Run,
        shop_file: ShopInUse | None = None,
        logo: Logo | None = None,
        taken_words: tuple[TakenWord, ...] = (),
        on_hand: tuple[OnHandFrom, ...] = (),
    ) -> None:
        self.layers, self.foreign_samples, self.namesakes = layers, foreign_samples, namesakes
        self.shop_file, self.logo, self.taken_words, self.on_hand = shop_file, logo, taken_words, on_hand
        self._title, self._units, self.run = title, units, run

    @property
    def files(self) -> list[str]:
        """The names of the files that it was read from: the project's, its shop file's and its logo's, and that of the
        settings where they name the shop."""
        names, shop = [self.run.source.name], self.shop_file
        if shop and shop.source:
            names += [shop.source.name, shop.where] if shop.named_by == "settings" else [shop.source.name]
        if self.logo:
            names.append(str(folder_of_shop(shop, self.run.folder) / self.tables.studio.logo))
        return names

    def changed(self, change: Change) -> "Resolved":
        """The same file with one more change. Raises ProblemsFound."""
        return resolve_run(self.run.with_change(change))

    @cached_property
    def tables(self) -> Everything:
        """All tables, as the layers hold them."""
        return self.layers.section(Everything)

    @cached_property
    def styles_by_class(self) -> dict[str, str]:
        """The first stitched style of each class of rates, by the class: of the presets, else of the shop's own."""
        by_class = dict(presets.styles_by_class(self._units))
        for name, style in self.tables.styles.items():
            if style.lines != "ties" and style.rate_class:
                by_class.setdefault(style.rate_class, name)
        return by_class

    @cached_property
    def project(self) -> Project:
        """The project, in the shape the plans read."""
        return build_project(self.layers, self._title, self._units)

    @property
    def new_throat(self) -> Sentence | None:
        """A sentence for the studio about a throat in its shop file that was once the depth stitched."""
        return throat_is_nominal(self.layers)

    @property
    def style_of_overage(self) -> str | None:
        """The name of the style that needs the overage of the backing; None for an overage that is stated."""
        return style_that_sets_overage(self.layers)

    @cached_property
    def shop(self) -> Shop:
        """The shop, in the shape pricing reads."""
        return build_shop(self.layers)

    def defaults(self) -> Iterator[tuple[KeyPath, Sourced]]:
        """Every value behind the result that the project file does not give, by its key path."""
        top = self.tables.top
        unused: set[KeyPath] = {ON_HAND, ("counter",), *((kind,) for kind in MATERIALS)}
        unused |= set() if top.is_pieced else {("top", "piecing")}
        unused |= set() if top.covers.bed or top.covers.table else {("top", "covers")}
        for path, sourced in self.layers.values.items():
            if sourced.origin.layer != "project file" and not unused & {path[:1], path[:2]}:
                yield path, sourced


def load(name: str, shop: str | None = None, change: Change | None = None) -> Resolved:
    """Read a project file ("-" is standard input) and its shop file: `shop`, the one it names, or the user's own;
    `change` is tried on it.

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
    reader: Reader = read,
) -> Resolved:
    """Resolve a project's text, with the parameters of `Run`. Raises ProblemsFound."""
    return resolve_run(Run(source, shop, folder or PurePath(), reader, change))


def resolve_run(run: Run) -> Resolved:
    """Check the project and its shop, lay them over presets and samples, and apply the rules between keys.

    Raises ProblemsFound with every problem.
    """
    data, problems, source = run.source.table, list[Problem](), run.source
    if run.change:
        data, problems = changed(data, run.change)
        source = ChangedSource(source, run.change)
    units = units_of(data, "in")
    project, project_problems, faulty = check(ProjectFile, data, source, units)
    shop, shop_problems = shop_in_use(run.shop, project.shop, run.folder, source, run.reader)
    layers, tried_problems = lay_shop(run.change, shop.source if shop else None, units)
    problems = [*problems, *project_problems, *shop_problems, *tried_problems]
    on_hand = [on_hand_of(layers)]
    layers.lay(project, "project file", source)
    on_hand.append(on_hand_of(layers))
    materials, taken_words = take_names(layers, units)
    currencies = _lay_materials(layers, materials, units)
    taken_words += take_rate_classes(layers)
    lay_what_follows(layers)
    all_values = Check(layers, source, units, faulty, materials)
    problems += apply(all_values)
    logo, logo_problems = _logo(layers, folder_of_shop(shop, run.folder))
    problems += logo_problems
    if problems:
        raise ProblemsFound(_in_file_order(problems, source))
    own = layers.section(Everything).money.currency
    foreign_samples, namesakes = frozenset(currencies - {own, ""}), tell_namesakes_apart(all_values)
    title, shelves = project.title or _title_of(source), tuple(dict.fromkeys(each for each in on_hand if each.rows))
    return Resolved(layers, title, units, foreign_samples, namesakes, run, shop, logo, tuple(taken_words), shelves)


def _logo(layers: LayeredValues, folder: PurePath) -> tuple[Logo | None, list[Problem]]:
    """The studio's logo, which is named from the shop's folder, and the problem with it."""
    named = layers.values.get(LOGO)
    if not named or not named.value:
        return None, []
    from finishcalc.intake.logo.reading import read_logo  # a studio without a logo starts without it

    return read_logo(named, folder)


def _lay_materials(layers: LayeredValues, materials: dict[KeyPath, NamedMaterial], units: str) -> set[str]:
    """Fill in each material from the shop's own preset, the program's preset, and the shop's values for its kind.

    Returns the currencies of the sample prices in use.
    """
    currencies = {_sample_currency(layers)}
    for path, (kind, *_) in materials.items():
        named = layers.values.get((*path, "preset"))
        name = str(named.value) if named else ""
        if path == BINDING_FABRIC and is_of_backing(layers):
            _fill_from(layers, kind, BACKING_FABRIC, path)
        elif name and name != "none":
            _fill_from(layers, kind, (kind, name), path)
            preset = presets.find(kind, name, units)
            if preset:
                layers.fill(preset.values, "preset", preset.source, (name,), path)
                currencies.add(preset.currency if _priced_by_preset(layers, kind, path) else "")
        if kind in FOR_ANY and name != "none":
            _fill_from(layers, kind, (FOR_ANY[kind],), path)
    return currencies


def _fill_from(layers: LayeredValues, kind: str, at: KeyPath, path: KeyPath) -> None:
    """Copy the values at `at` to the keys at `path` that have none."""
    for key in specs(MATERIALS[kind]):
        sourced = layers.values.get((*at, "unit" if (key, at) == ("per", ("cloth",)) else key))
        if sourced and (*path, key) not in layers.values:
            layers.put((*path, key), sourced)


def _priced_by_preset(layers: LayeredValues, kind: str, path: KeyPath) -> bool:
    """Tell a material whose price is still the preset's."""
    sourced = [layers.values.get((*path, key)) for key in specs(MATERIALS[kind])]
    return any(value.is_sample and value.origin.layer == "preset" for value in sourced if value)


def _sample_currency(layers: LayeredValues) -> str:
    """The currency of the sample shop, where any of its rates is still in use."""
    rates = [sourced for path, sourced in layers.values.items() if path[0] == "rates" and sourced.is_sample]
    return next((str(value_at(sourced.origin.source.table, ("money", "currency"))) for sourced in rates), "")


def _in_file_order(problems: list[Problem], source: Source) -> list[Problem]:
    """The project's own problems first, each file's from its first line on, and none twice."""
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda problem: (problem.file != source.name, problem.file, problem.line, problem.column))


def _title_of(source: Source) -> str:
    return "Quilt top" if source.name == STANDARD_INPUT else PurePath(source.name).stem
