"""Makes a shopping list of the projects that are named. One bad file stops it, because a list that misses a quilt does
harm; so the problems of all files are told."""

from collections.abc import Iterator
from typing import NamedTuple

import typer

from finishcalc.buying import shop_for
from finishcalc.commandline.files import FilesIn
from finishcalc.commandline.outputs import Output, as_folder, deliver
from finishcalc.commandline.terminal import width, write
from finishcalc.commandline.views import shopping_view
from finishcalc.intake.changes.settings import Trial
from finishcalc.intake.folders import ProjectFiles, project_files
from finishcalc.intake.on_hand import OnHandFrom, on_hand_toml, read_on_hand
from finishcalc.pipeline import Finishing, finish_files
from finishcalc.plans.shopping.together import ShoppingList
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.rendering.pages.problems import problems_json, problems_text
from finishcalc.rendering.pages.shopping import shopping_notation
from finishcalc.wording.plain import plain


class Asked(NamedTuple):
    """A list as it is asked for: files and folders, and the options."""

    files: list[str]
    output: Output
    trial: Trial
    shop: str | None
    on_hand: tuple[str, ...]
    write_left: str | None
    units: str | None
    prices: bool
    force: bool


class _Read(NamedTuple):
    """The projects by their files, and the shelves of files of their own."""

    projects: list[tuple[str, Finishing]]
    shelves: list[OnHandFrom]

    @property
    def files(self) -> list[str]:
        """The names of all files that were read."""
        names = [name for _, result in self.projects for name in result.resolved.files]
        return [*names, *(shelf.file for shelf in self.shelves)]


def buy_for(asked: Asked) -> None:
    """Write the list, and name what was skipped. Raises Exit where anything is wrong, after telling all of it."""
    found, problems = project_files(asked.files, asked.shop, asked.on_hand), tuple[Problem, ...]()
    said = list[str]()
    try:
        said += _deliver(_all_read(found, asked), asked)
    except ProblemsFound as error:
        problems = error.problems
    _report(found, problems, said, asked.output.as_json)
    if problems:
        raise typer.Exit(1)


def _all_read(found: ProjectFiles, asked: Asked) -> _Read:
    """Read and work out every file. Raises ProblemsFound with the problems of all."""
    problems = dict.fromkeys(found.problems)
    results, shelves = list[Finishing](), list[OnHandFrom]()
    try:
        results = finish_files([*found.files], asked.shop, asked.trial.change)
    except ProblemsFound as error:
        problems |= dict.fromkeys(error.problems)
    units = asked.units or (results[0].resolved.project.units if results else "in")
    for name in asked.on_hand:
        try:
            shelves.append(read_on_hand(name, units))
        except ProblemsFound as error:
            problems |= dict.fromkeys(error.problems)
    if problems:
        raise ProblemsFound(list(problems))
    return _Read(list(zip(found.files, results, strict=True)), shelves)


def _deliver(read: _Read, asked: Asked) -> Iterator[str]:
    """Write the list, and what is left beside it. Gives what is to be said of that."""
    results = [result for _, result in read.projects]
    notation = shopping_notation(results, asked.units)
    shopping = shop_for(read.projects, notation.units, read.shelves)
    content = shopping_view(shopping, results, notation, asked.output.form, width(), asked.prices)
    deliver(asked.output, content, [read], _left(shopping, asked, notation.units), asked.force)
    if asked.write_left:
        shelves = [shelf.file for result in results for shelf in result.resolved.on_hand if shelf.rows]
        for name in dict.fromkeys(shelves):
            yield f"{plain(name)}: what it has on hand is counted in {plain(asked.write_left)} too: take it out of one"


def _left(shopping: ShoppingList, asked: Asked, units: str) -> list[FilesIn]:
    if not asked.write_left:
        return []
    return [as_folder(asked.write_left, on_hand_toml(shopping.left, units))]


def _report(found: ProjectFiles, problems: tuple[Problem, ...], said: list[str], as_json: bool) -> None:
    """Name on standard error what was skipped, and tell every problem."""
    skipped = [(each.file, each.reason) for each in found.skipped]
    if as_json:
        write(problems_json(problems, skipped) if skipped or problems else "", error=True)
        return
    lines = [each.said for each in found.skipped] + said
    write("".join(f"{line}\n" for line in lines) + problems_text(problems), error=True)
