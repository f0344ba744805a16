"""The review of a file: its problems, or all that a careful person would still look at."""

from typing import NamedTuple

from finishcalc.intake.keypaths import TomlTable
from finishcalc.intake.presets import SYSTEMS
from finishcalc.intake.resolve import folder_of, resolve
from finishcalc.intake.source import Source, read
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.section import specs
from finishcalc.pipeline import Finishing, finish
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.reviewing.measuring import ToMeasure, still_to_measure
from finishcalc.reviewing.sensitivity import Influence, influences
from finishcalc.reviewing.yours import Yours, perhaps_yours

PLAIN_TOP = 'units = "{units}"\n[top]\nwidth = "40 in"\nlength = "40 in"\n'
"""A project that says nothing but a size, with which a shop file is tried by itself."""


class Review(NamedTuple):
    """A file and its `problems`; where it has none, the `result` of a project, the samples and the defaults that it
    rests on, what is still to measure, the name of its `shop` file, and the figures of that which are the sample's
    too."""

    file: str
    problems: tuple[Problem, ...] = ()
    result: Finishing | None = None
    influences: tuple[Influence, ...] = ()
    to_measure: tuple[ToMeasure, ...] = ()
    shop: str | None = None
    yours: tuple[Yours, ...] = ()

    @property
    def samples(self) -> tuple[Influence, ...]:
        """The sample prices, shares and times that the quote rests on."""
        return tuple(each for each in self.influences if each.figure)

    @property
    def defaults(self) -> tuple[Influence, ...]:
        """The other values that nobody gave for this studio."""
        return tuple(each for each in self.influences if not each.figure)


def review_file(name: str, shop: str | None = None) -> Review:
    """Review a project file, over a shop file where one is named; or a shop file by itself."""
    try:
        source = read(name)
        if is_shop_file(source.table):
            return _of_shop(name, source)
        result = finish(resolve(source, shop, folder_of(name)))
    except ProblemsFound as error:
        return Review(name, problems=error.problems)
    in_use = result.resolved.shop_file
    file = in_use.source if in_use else None
    yours = perhaps_yours(file, _units(file, result.resolved.project.units)) if file else ()
    named = file.name if file else None
    return Review(name, (), result, influences(result), still_to_measure(result), named, yours)


def is_shop_file(table: TomlTable) -> bool:
    """Tell a file by keys that only a shop file has, or only a project; one with both is taken for a project."""
    project, shop = specs(ProjectFile).keys(), specs(ShopFile).keys()
    return bool(table.keys() & (shop - project)) and not table.keys() & (project - shop)


def _of_shop(name: str, source: Source) -> Review:
    """Review a shop file by the rules for a plain top that it would quote."""
    units = _units(source, "in")
    plain_top = Source(name, PLAIN_TOP.format(units=units))
    resolve(plain_top, name, folder_of(name), reader=lambda _: source)
    return Review(name, shop=name, yours=perhaps_yours(source, units))


def _units(source: Source, units: str) -> str:
    given = source.table.get("units")
    return given if isinstance(given, str) and given in SYSTEMS else units
