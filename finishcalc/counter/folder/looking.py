"""Looks at the files of a folder: which of them are projects, what they hold, and the shop files that they name."""

import os
from pathlib import PurePath

from finishcalc.counter.folder.contained import Contained
from finishcalc.counter.folder.drafts import hash_of
from finishcalc.counter.folder.refusing import reading
from finishcalc.intake.folders import Reason, identity, look_at, told_apart
from finishcalc.intake.shop_in_use import own_shop
from finishcalc.intake.shop_name import BESIDE
from finishcalc.intake.source import LARGEST, Source, read, source_of
from finishcalc.problems import Problem, ProblemCode, ProblemsFound


class FolderFiles:
    """The files of a folder, with the user's own `shop` file where the server was given one."""

    def __init__(self, folder: Contained, shop: str | None) -> None:
        self._folder, self._shop, self.path = folder, shop, folder.path

    def projects(self) -> list[str]:
        """The plain files of the folder that are projects."""
        names = {os.path.join(self.path, name): name for name in self._folder.names()}
        looks = [look_at(file, self.bytes_of(name) or b"") for file, name in names.items()]
        skipped = {each.file for each in told_apart(looks, self._others())}
        return [name for file, name in names.items() if file not in skipped]

    def _others(self) -> dict[object, Reason]:
        return {identity(name): "a shop file" for name in self._own_files()}

    def is_project(self, name: str) -> bool:
        """Tell a project's file. One that describes a top needs no look at the others."""
        if name not in self._folder.names():
            return False
        look = look_at(os.path.join(self.path, name), self.bytes_of(name) or b"")
        return (look.has_top and identity(look.file) not in self._others()) or name in self.projects()

    def reader(self, name: str) -> Source:
        """Read a file of the folder or below it, or one of the user's own, which may lie anywhere: the shop file that
        the server was given or the settings name."""
        if name in self._own_files():
            return read(name)
        path = PurePath(os.path.join(self.path, name))
        if ".." in path.parts or not path.is_relative_to(self.path):
            message = "is outside the project's folder"
            raise ProblemsFound([Problem(ProblemCode.SHOP_OUTSIDE_FOLDER, name, 0, 0, "", message, BESIDE)])
        with reading(name):
            return source_of(name, self._folder.read(path.relative_to(self.path).as_posix(), LARGEST))

    def _own_files(self) -> list[str]:
        """The names under which the user's own shop file and settings are read."""
        if self._shop is not None:
            return [self._shop]
        names = list[str]()

        def noted(name: str) -> Source:
            names.append(name)
            return read(name)

        own_shop(noted)
        return names

    def bytes_of(self, name: str) -> bytes | None:
        """The bytes of a file, None where it is gone."""
        try:
            return self._folder.read(name, LARGEST)
        except FileNotFoundError:
            return None

    def hash_on_disk(self, name: str) -> str | None:
        """The hash of a file as it is now; None for one that cannot be read."""
        try:
            return hash_of(self._folder.read(name, LARGEST))
        except OSError:
            return None
