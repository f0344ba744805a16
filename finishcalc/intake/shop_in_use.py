"""The shop file of a project, and who names it: `--shop`, the project, the environment, or the user's settings file.

The first that names one counts. A project may come from anyone, so it names a file of its own folder; the others are
the user's own words, so theirs may lie anywhere, and one shop file serves all folders.
"""

import os
from collections.abc import Callable
from pathlib import Path as FilePath
from pathlib import PurePath
from typing import Literal, NamedTuple

from finishcalc.intake.checking import check
from finishcalc.intake.shop_name import name_refused
from finishcalc.intake.source import Source
from finishcalc.model.files import SettingsFile
from finishcalc.problems import Problem, ProblemsFound

VARIABLE = "FINISHCALC_SHOP"
"""The variable of the environment that names the user's own shop file."""
SETTINGS = "settings.toml"
"""The file in the user's settings folder that names it where the variable does not."""
SAMPLES = "none"
"""The name that stands for the sample shop, whatever is named further down the list."""

NamedBy = Literal["option", "project", "environment", "settings"]

Reader = Callable[[str], Source]
"""Reads a file by its name. Raises ProblemsFound."""


class ShopInUse(NamedTuple):
    """The shop file of a run: its `file` as it is named, None for the sample shop; who names it, and `where`; and its
    text, None where there is none to read."""

    file: str | None
    named_by: NamedBy
    where: str
    source: Source | None = None


def shop_in_use(
    option: str | None, named: str | None, folder: PurePath, project: Source, reader: Reader
) -> tuple[ShopInUse | None, list[Problem]]:
    """Find the shop file and read it: the one given as an `option`, the one `named` by the project in its `folder`, or
    the user's own; None where nobody names one.

    The project's name for it must be right all the same, because whoever saves the project saves its shop under it.
    """
    if named is not None and (refused := name_refused(named, folder, project.name)):
        code, message, hint = refused
        return None, [project.problem(code, ("shop",), message, hint)]
    if option is not None:
        return _read(ShopInUse(option, "option", "--shop"), option, reader)
    if named is not None:
        return _read(ShopInUse(named, "project", project.name), str(folder / named), reader, project)
    return own_shop(reader)


def folder_of_shop(shop: ShopInUse | None, folder: PurePath) -> PurePath:
    """The folder in which what a shop names lies: that of its file, or the project's `folder` where it has none."""
    return PurePath(shop.source.name).parent if shop and shop.source else folder


def own_shop(reader: Reader) -> tuple[ShopInUse | None, list[Problem]]:
    """The user's own shop file: the one that the environment names, or the settings file."""
    if named := os.environ.get(VARIABLE, "").strip():
        return _read(ShopInUse(named, "environment", VARIABLE), os.path.expanduser(named), reader)
    from platformdirs import user_config_path  # a run whose shop is named needs no folder of settings

    path = user_config_path("finishcalc", appauthor=False) / SETTINGS
    if not os.path.lexists(path):
        return None, []
    try:
        settings = reader(str(path))
        values, problems, _ = check(SettingsFile, dict(settings.table), settings, "in")
    except ProblemsFound as found:
        return None, list(found.problems)
    if problems or not values.shop:
        return None, problems
    file = str(FilePath(path.parent, os.path.expanduser(values.shop)))
    return _read(ShopInUse(values.shop, "settings", str(path)), file, reader, settings)


def _read(
    shop: ShopInUse, path: str, reader: Reader, naming: Source | None = None
) -> tuple[ShopInUse | None, list[Problem]]:
    """Read a shop file; where that fails, blame the key `shop` of the file that names it, or the variable."""
    if shop.file == SAMPLES and shop.named_by != "project":
        return shop._replace(file=None), []
    try:
        return shop._replace(source=reader(path)), []
    except ProblemsFound as found:
        if shop.named_by == "option":
            return None, list(found.problems)
        (problem, *_), hint = found.problems, _mend(shop)
        message = f"{path}: {problem.message}"
        if naming:
            return None, [naming.problem(problem.code, ("shop",), message, hint or problem.hint)]
        return None, [Problem(problem.code, shop.where, 0, 0, "", message, hint)]


def _mend(shop: ShopInUse) -> str:
    """The mend for a shop file of the user's own that cannot be read; a project's has that of the reading."""
    if shop.named_by == "project":
        return ""
    place = "in the environment" if shop.named_by == "environment" else "here"
    return f"name your shop file {place}, or give --shop FILE; --shop {SAMPLES} is the sample shop"
