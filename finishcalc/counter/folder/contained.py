"""A folder held open, of which only plain files are read: no `..`, no link in any part, no pipe, no device.

On POSIX a name is opened part by part from the folder's own handle, so that nothing that is renamed or put in its place
meanwhile leads elsewhere. Where a system has no such handles, each part is looked at before it is opened.
"""

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any

from finishcalc.intake.folders import SUFFIX

HAS_HANDLES = os.open in os.supports_dir_fd and os.scandir in os.supports_fd
"""True where a file is opened from the handle of its folder."""

_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_NO_WAIT = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)
_FOLDER = os.O_RDONLY | getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_CLOEXEC", 0)


class Contained:
    """The folder at `path`. All methods raise OSError for what is not plainly in it or below it."""

    def __init__(self, path: str, handle: int | None = None) -> None:
        self.path = os.path.abspath(path)
        self.handle = os.open(self.path, _FOLDER) if HAS_HANDLES and handle is None else handle
        if not os.path.isdir(self.path):
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), path)

    def close(self) -> None:
        """Let go of the folder."""
        if self.handle is not None:
            os.close(self.handle)
            self.handle = None

    def names(self) -> list[str]:
        """The plain files in the folder whose names end as those of projects do, in name order. No other name may be
        asked for. One that is not UTF-8 cannot stand in an address, and is left out."""
        with os.scandir(self.path if self.handle is None else self.handle) as entries:
            files = [entry.name for entry in entries if entry.is_file(follow_symlinks=False)]
        return sorted(filter(is_plain_name, files), key=lambda name: (name.casefold(), name))

    def all_names(self) -> list[str]:
        """Everything in the folder, of whatever kind."""
        return os.listdir(self.path if self.handle is None else self.handle)

    def read(self, name: str, most: int) -> bytes:
        """At most `most` + 1 bytes of a plain file in the folder or, with slashes in its name, below it."""
        *folders, last = _parts(name)
        with self._folder_of(folders) as folder, os.fdopen(folder._open(last, os.O_RDONLY), "rb") as file:
            return file.read(most + 1)

    def status(self, name: str) -> os.stat_result:
        """The status of what bears a name directly in the folder, a link's own where it is one."""
        return os.stat(self.named(name), follow_symlinks=False, **self.within)

    def inner(self, name: str, make: bool = False) -> "Contained":
        """A folder directly in this one, never by a link. One that is missing is made if that is asked for."""
        if make:
            with suppress(FileExistsError):
                os.mkdir(self.named(name), 0o700, **self.within)
        path = os.path.join(self.path, name)
        if not stat.S_ISDIR(self.status(name).st_mode):
            raise _not_plain(self.status(name).st_mode, path)
        return Contained(path, os.open(name, _FOLDER | _NO_LINK, **self.within) if HAS_HANDLES else None)

    def write_new(self, name: str, data: bytes) -> None:
        """Write a new file that only its owner may read."""
        with os.fdopen(self._open(name, os.O_WRONLY | os.O_CREAT | os.O_EXCL), "wb") as file:
            file.write(data)

    def replace(self, old: str, new: str) -> None:
        """Give a file another name, in place of what has that name."""
        from_here = {"src_dir_fd": self.handle, "dst_dir_fd": self.handle} if HAS_HANDLES else {}
        os.replace(self.named(old), self.named(new), **from_here)

    def remove(self, name: str) -> None:
        """Take a file away, if it is there."""
        with suppress(FileNotFoundError):
            os.unlink(self.named(name), **self.within)

    def named(self, name: str) -> str:
        """A name as the system's calls take it together with `within`."""
        return os.path.join(self.path, name) if self.handle is None else name

    @property
    def within(self) -> dict[str, Any]:
        """The argument of the system's calls that makes a name one of this folder."""
        return {} if self.handle is None else {"dir_fd": self.handle}

    @contextmanager
    def _folder_of(self, folders: list[str]) -> Iterator["Contained"]:
        """The folder that some names lead to, one by one."""
        if not folders:
            yield self
            return
        inner = self.inner(folders[0])
        try:
            with inner._folder_of(folders[1:]) as folder:
                yield folder
        finally:
            inner.close()

    def _open(self, name: str, flags: int) -> int:
        """Open a plain file. A pipe without a writer would wait for ever, so nothing is waited for."""
        if self.handle is None and not flags & os.O_CREAT and not stat.S_ISREG(self.status(name).st_mode):
            raise _not_plain(self.status(name).st_mode, name)
        try:
            handle = os.open(self.named(name), flags | _NO_LINK | _NO_WAIT, 0o600, **self.within)
        except OSError as error:
            raise (_not_plain(stat.S_IFLNK, name) if error.errno == errno.ELOOP else error) from None
        mode = os.fstat(handle).st_mode
        if not stat.S_ISREG(mode):
            os.close(handle)
            raise _not_plain(mode, name)
        return handle


def _parts(name: str) -> list[str]:
    parts = name.split("/")
    strange = {"\0", os.sep} & {*name} - {"/"}
    if strange or not _is_utf_8(name) or {"", ".", ".."} & {*parts}:
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), name)
    return parts


def is_plain_name(name: str) -> bool:
    """Tell a name that a project may have: it leads into no folder, ends as it should and is UTF-8."""
    return name.lower().endswith(SUFFIX) and not {"/", "\0", os.sep} & {*name} and _is_utf_8(name)


def _is_utf_8(name: str) -> bool:
    try:
        name.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _not_plain(mode: int, name: str) -> OSError:
    """The error for what is no plain file or folder."""
    if stat.S_ISDIR(mode):
        return IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), name)
    if stat.S_ISLNK(mode):
        return OSError(errno.ELOOP, "it is a link, and links are not followed here", name)
    if stat.S_ISREG(mode):
        return NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), name)
    return OSError(errno.EINVAL, "it is a pipe or a device, not a file", name)
