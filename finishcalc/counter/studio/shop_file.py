"""The user's own shop file on the disk: the one that the project in view is quoted with. It is found by the server's
setting, the project or the user's settings, never by an address."""

import os
from pathlib import Path, PurePath
from typing import NamedTuple

from finishcalc.counter.folder.contained import Contained
from finishcalc.counter.folder.drafts import hash_of
from finishcalc.counter.folder.saving import ChangedMeanwhile, encoded, replace
from finishcalc.intake.shop_in_use import NamedBy, ShopInUse
from finishcalc.intake.source import LARGEST, Source, source_of, unreadable
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.storing.placing import unwritable

NAMED_BY: dict[NamedBy, str] = {
    "option": "named by --shop",
    "project": "named by the project, in its folder",
    "environment": "named by FINISHCALC_SHOP",
    "settings": "named by your settings",
}
"""The words for who names a shop file."""


class ShopOnDisk(NamedTuple):
    """A shop file: its `path`, and who names it. One that a project names lies in the `folder`, and is never reached by
    a link."""

    path: str
    named_by: NamedBy
    folder: str

    @property
    def told(self) -> str:
        """The file and who names it, in words."""
        return f"{PurePath(self.path).name}, {NAMED_BY[self.named_by]}"

    def read(self) -> bytes:
        """Read the file. Raises ProblemsFound."""
        try:
            return self._bytes()
        except (OSError, ValueError) as error:
            code, message, hint = unreadable(error)
            raise ProblemsFound([Problem(code, self.path, 0, 0, "", message, hint)]) from None

    def save(self, text: str, expected: bytes) -> bool:
        """Write the file whole, with its line ends. Gives false, with nothing written, where it is not as `expected`.

        Raises ProblemsFound where it cannot be written.
        """
        data = encoded(self.path, text, expected.decode("utf-8"))
        target = self.path if self.named_by == "project" else os.path.realpath(self.path)
        try:
            replace(target, data, self._found, hash_of(expected))
        except ChangedMeanwhile:
            return False
        except OSError as error:
            raise ProblemsFound([unwritable(Path(self.path), error)]) from None
        return True

    def _bytes(self) -> bytes:
        if self.named_by != "project":
            with open(self.path, "rb") as file:
                return file.read(LARGEST + 1)
        folder = Contained(self.folder)
        try:
            return folder.read(PurePath(self.path).relative_to(self.folder).as_posix(), LARGEST)
        finally:
            folder.close()

    def _found(self) -> bytes | None:
        try:
            return self._bytes()
        except OSError:
            return None


def shop_on_disk(in_use: ShopInUse | None, folder: str) -> ShopOnDisk | None:
    """Find the file of the shop in use of a project in a folder; None where it is the sample shop."""
    if in_use is None or in_use.source is None:
        return None
    return ShopOnDisk(in_use.source.name, in_use.named_by, folder)


def source_in(shop: ShopOnDisk, data: bytes) -> Source:
    """The text of a shop file. Raises ProblemsFound."""
    return source_of(shop.path, data)
