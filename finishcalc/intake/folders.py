"""Finds the project files of a run: each file once, and of a folder the project files directly in it.

A studio keeps projects, shop files and what is on hand in one folder, so the others are told apart by what they hold
and are named. A file that cannot be read, or that is no TOML, counts as a project, so that its problem is told.
"""

import os
import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from functools import cache
from pathlib import Path as FilePath
from typing import Literal, NamedTuple

from finishcalc.intake.source import LARGEST, Source, unreadable
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.section import specs
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

ON_HAND = "on_hand"
"""The list of what is on hand, in a project, a shop file or a file of its own."""
DRAFT = ".draft.toml"
"""A draft's name ends so, or begins with a dot, as hidden files do."""
SUFFIX = ".toml"
"""The name of every file of a folder that is looked at ends so."""

Reason = Literal["a shop file", "an on-hand file", "a draft", "given twice"]

_TOP = re.compile(rb"^[ \t]*\[[ \t]*top[ \t]*[].]", re.MULTILINE)
"""The head of a table that describes a top, which only projects have. A key `top` may be one of a shop's prices."""
_SHOP = re.compile(rb"""^[ \t]*shop[ \t]*=[ \t]*(?:"([^"\\\n]*)"|'([^'\n]*)')""", re.MULTILINE)
"""A line by which a project names its shop file."""


class Skipped(NamedTuple):
    """A file that is no project of the run, or is given once more, and why."""

    file: str
    reason: Reason

    @property
    def said(self) -> str:
        """The file and the reason, as a sentence for a terminal."""
        if self.reason == "given twice":
            return f"{plain(self.file)}: is given twice, and counted once"
        return f"{plain(self.file)}: skipped, because it is {self.reason}"


class ProjectFiles(NamedTuple):
    """The names of the `files` of a run, in order; those that were `skipped`; and the `problems` of folders."""

    files: tuple[str, ...]
    skipped: tuple[Skipped, ...]
    problems: tuple[Problem, ...]


def project_files(names: Iterable[str], shop: str | None = None, on_hand: Iterable[str] = ()) -> ProjectFiles:
    """Find the project files that are named, and those of the folders that are named, in name order. The `shop` and the
    `on_hand` files of the run count as such whatever they hold, where they lie in one of the folders."""
    others: dict[object, Reason] = {}
    if shop:
        others[identity(shop)] = "a shop file"
    others |= {identity(name): "an on-hand file" for name in on_hand}
    found = _Found(others)
    for name in names:
        if name != "-" and os.path.isdir(name):
            found.add_folder(name)
        else:
            found.add(name)
    return ProjectFiles(tuple(found.files), tuple(found.skipped), tuple(found.problems))


class _Found:
    """The files that are found, one after another, each known by its place on the disk."""

    def __init__(self, others: Mapping[object, Reason]) -> None:
        self.files, self.skipped, self.problems = list[str](), list[Skipped](), list[Problem]()
        self._known = set[object]()
        self._others = others

    def add(self, name: str) -> None:
        place = identity(name)
        if place in self._known:
            self.skipped.append(Skipped(name, "given twice"))
        else:
            self._known.add(place)
            self.files.append(name)

    def add_folder(self, folder: str) -> None:
        try:
            looked_at = [_look_into(os.path.join(folder, name)) for name in _toml_files(folder)]
        except OSError as error:
            code, message, hint = unreadable(error)
            self.problems.append(Problem(code, folder, 0, 0, "", message, hint))
            return
        skipped = {each.file: each for each in told_apart(looked_at, self._others)}
        for look in looked_at:
            if look.file in skipped:
                self.skipped.append(skipped[look.file])
            else:
                self.add(look.file)
        if len(skipped) == len(looked_at):
            hint = f"put the projects in it, each a file that ends in {SUFFIX}"
            self.problems.append(Problem(ProblemCode.NO_PROJECT_IN_FOLDER, folder, 0, 0, "", "has no project", hint))


def _toml_files(folder: str) -> list[str]:
    """Name the TOML files of a folder, in name order. A link that leads nowhere counts, so that it is told; a pipe does
    not, because reading it may never end."""
    with os.scandir(folder) as entries:
        files = [entry for entry in entries if entry.name.lower().endswith(SUFFIX)]
        names = [entry.name for entry in files if entry.is_file() or _leads_nowhere(entry)]
    return sorted(names, key=lambda name: (name.casefold(), name))


def _leads_nowhere(entry: "os.DirEntry[str]") -> bool:
    return entry.is_symlink() and not os.path.exists(entry.path)


class Look(NamedTuple):
    """A look at a file of a folder: the reason to skip it, if there is one; True where it describes a top; and the shop
    files that it names."""

    file: str
    reason: Reason | None = None
    has_top: bool = False
    shops: tuple[str, ...] = ()


def _look_into(file: str) -> Look:
    """Read a file of a folder, so far as that can be done, and look at it."""
    data = b""
    if not is_draft(file):
        with suppress(OSError, ValueError), FilePath(file).open("rb") as opened:
            data = opened.read(LARGEST)
    return look_at(file, data)


def is_draft(file: str) -> bool:
    """Tell a draft by its name."""
    name = os.path.basename(file).lower()
    return name.startswith(".") or name.endswith(DRAFT)


def look_at(file: str, data: bytes) -> Look:
    """Look at what a file holds as closely as is needed. The head of a top's table tells a project; any other file is
    parsed."""
    if is_draft(file):
        return Look(file, "a draft")
    keys = {"top"} if _TOP.search(data) else _keys(data)
    if "top" not in keys:
        return Look(file, _reason(keys))
    named = (double or single for double, single in _SHOP.findall(data))
    return Look(file, None, True, tuple(name.decode("utf-8", "replace") for name in named))


def told_apart(looks: Iterable[Look], others: Mapping[object, Reason]) -> list[Skipped]:
    """Find the files of one folder that are no projects: drafts, the `others` by their identity, and those that hold
    something else or are named as a shop file."""
    looks = list(looks)
    shops = {os.path.normpath(os.path.join(os.path.dirname(look.file), shop)) for look in looks for shop in look.shops}
    skipped = list[Skipped]()
    for look in looks:
        is_named = not look.has_top and os.path.normpath(look.file) in shops
        reason = others.get(identity(look.file)) or look.reason or ("a shop file" if is_named else None)
        skipped += [Skipped(look.file, reason)] if reason else []
    return skipped


def _keys(data: bytes) -> set[str]:
    """Give the keys and tables that a file has; none where it cannot be parsed."""
    try:
        return set(Source("", data.decode("utf-8-sig").replace("\r\n", "\n")).table)
    except (UnicodeDecodeError, ProblemsFound):
        return set()


def _reason(keys: set[str]) -> Reason | None:
    """Give the reason to skip a file that describes no top: it holds what only shop files or on-hand files hold."""
    if ON_HAND in keys and keys <= {ON_HAND, "units"}:
        return "an on-hand file"
    return "a shop file" if keys & _of_shops() else None


@cache
def _of_shops() -> frozenset[str]:
    """The tables that a shop file has and a project has not."""
    return frozenset((*specs(ShopFile), "usual")) - frozenset(specs(ProjectFile))


def identity(name: str) -> object:
    """Give what is the same for all names of one file: its place on the disk, or its path where it has none."""
    if name in ("-", ""):
        return name
    try:
        status = os.stat(FilePath(name))  # as it is read, which a slash at its end does not keep it from
    except (OSError, ValueError):
        return os.path.normpath(name)
    return status.st_dev, status.st_ino
