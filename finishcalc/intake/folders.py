"""The files of a run over several projects: those that are named, and the project files of folders, each once."""

import os
import re
from collections.abc import Iterator, Sequence
from pathlib import Path as FilePath
from typing import Literal, NamedTuple

from finishcalc.intake.source import read
from finishcalc.model.files import OnHandFile, ProjectFile, ShopFile
from finishcalc.model.section import specs
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

OtherKind = Literal["shop file", "on-hand file", "draft"]

_SHARED = set(specs(OnHandFile))
_OF_PROJECTS = set(specs(ProjectFile)) - _SHARED
_OF_SHOPS = set(specs(ShopFile)) - _SHARED
_NOT_OF_PROJECTS = re.compile(rf"^[ \t]*\[*[ \t]*[\"']?(?:on_hand|{'|'.join(sorted(_OF_SHOPS))})\b", re.MULTILINE)
"""A line that may begin a table that a project file does not have. Only a file with such a line is parsed twice."""
_DRAFT = re.compile(r"(?:^|[^a-z])drafts?(?:[^a-z]|$)", re.IGNORECASE)


class Skipped(NamedTuple):
    """A file of a folder that is no project to work out."""

    file: str
    kind: OtherKind


class FilesGiven(NamedTuple):
    """The project files of a run in their order; the files that were `skipped`; and those that were named before, each
    `twice` with the name that it had first."""

    files: tuple[str, ...]
    skipped: tuple[Skipped, ...]
    twice: tuple[tuple[str, str], ...]


def files_given(names: Sequence[str]) -> FilesGiven:
    """Give the files that are named, as they are, and of each folder the `*.toml` that lie directly in it, by their
    names. A file given twice counts once.

    A file that is named by itself is a project, whatever it looks like, and one that cannot be read is told when it is
    read. Raises ProblemsFound for folders that cannot be looked into, and for those without a project file.
    """
    files, skipped, twice = dict[str | tuple[int, int], str](), list[Skipped](), list[tuple[str, str]]()
    problems = list[Problem]()
    for name in names:
        try:
            found, others = _in_folder(name) if name and name != "-" and os.path.isdir(name) else ([name], [])
        except ProblemsFound as error:
            problems += error.problems
            continue
        skipped += [each for each in others if each not in skipped]
        for file in found:
            identity = _identity(file)
            if identity in files:
                twice.append((file, files[identity]))
            else:
                files[identity] = file
    if problems:
        raise ProblemsFound(problems)
    return FilesGiven(tuple(files.values()), tuple(skipped), tuple(twice))


def _identity(name: str) -> str | tuple[int, int]:
    """Tell a file from every other, whatever it is called here; one that is not there by its name alone."""
    try:
        status = os.stat(name)
    except (OSError, ValueError):
        return name
    return status.st_dev, status.st_ino


def _in_folder(folder: str) -> tuple[list[str], list[Skipped]]:
    """Give the project files of a folder, and its other files of this kind. Raises ProblemsFound."""
    try:
        names = sorted(each.name for each in os.scandir(folder) if each.name.endswith(".toml") and each.is_file())
    except OSError as error:
        code = ProblemCode.READING_NOT_ALLOWED if isinstance(error, PermissionError) else ProblemCode.CANNOT_BE_READ
        hint = plain(error.strerror or str(error))
        raise ProblemsFound([Problem(code, folder, 0, 0, "", "cannot be looked into", hint)]) from None
    paths = [str(FilePath(folder, name)) for name in names]
    kinds = {path: kind_of(path) for path in paths}
    found = [path for path in paths if kinds[path] is None]
    if not found:
        message, hint = "holds no project file", "name a folder with *.toml files of projects directly in it"
        raise ProblemsFound([Problem(ProblemCode.NO_PROJECT_IN_FOLDER, folder, 0, 0, "", message, hint)])
    return found, list(_skipped(kinds))


def _skipped(kinds: dict[str, OtherKind | None]) -> Iterator[Skipped]:
    yield from (Skipped(path, kind) for path, kind in kinds.items() if kind)


def kind_of(path: str) -> OtherKind | None:
    """Tell what a file is, by its name and the tables that it has; None for a project, and for a file that cannot be
    read, because its problems are to be told. A draft is hidden, or has the word in its name: "runner-draft.toml"."""
    name = FilePath(path).name
    if name.startswith(".") or _DRAFT.search(FilePath(path).stem):
        return "draft"
    try:
        source = read(path)
        if not _NOT_OF_PROJECTS.search(source.text):
            return None
        keys = set(source.table)
    except ProblemsFound:
        return None
    if keys & _OF_PROJECTS:
        return None
    if keys & _OF_SHOPS:
        return "shop file"
    return "on-hand file" if "on_hand" in keys else None
