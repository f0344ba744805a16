"""Passing folders: hidden beside the places of files on their way, and cleared by the next run if theirs dies.

A passing folder is locked while its process lives. That is surer than the process's number in the name: the system
lets go of a lock however the process ends, numbers are used again, and they say nothing to another container or
machine that shares the folder. Where nothing can be locked, a leftover stays until somebody takes it away.
"""

import os
import re
import sys
from contextlib import suppress
from pathlib import Path

NAME = ".finishcalc-"
"""A passing folder's name begins so; 16 random hexadecimal digits follow."""


class PassingFolder:
    """A new hidden folder, locked. It holds new texts as `new-1` and old files as `old-1`. Raises OSError."""

    def __init__(self, beside: Path) -> None:
        while True:
            self.path = beside / f"{NAME}{os.urandom(8).hex()}"
            self.path.mkdir(mode=0o700)
            self._lock = _lock(self.path, wait=True)
            if self.path.is_dir():
                return
            _unlock(self._lock)  # before it was locked, another run has taken it for a leftover

    def take_away(self) -> None:
        """Remove the folder with what it holds. A file under another name, and so the folder, is left."""
        _remove(self.path)
        _unlock(self._lock)


def clear_leftovers(beside: Path) -> None:
    """Remove the passing folders of runs that have died. Anything else is left, whatever its name."""
    with suppress(OSError):
        for path in beside.glob(f"{NAME}*"):
            if _is_passing(path) and (lock := _lock(path, wait=False)) is not None:
                _remove(path)
                _unlock(lock)


def _is_passing(path: Path) -> bool:
    """Recognise a passing folder by its name and by its files, which are all named as in such a folder."""
    named = re.fullmatch(re.escape(NAME) + "[0-9a-f]{16}", path.name)
    return bool(named) and path.is_dir() and not path.is_symlink() and all(map(_is_passing_file, os.listdir(path)))


def _is_passing_file(name: str) -> bool:
    return re.fullmatch("(new|old)-[0-9]+", name) is not None


def _remove(path: Path) -> None:
    with suppress(OSError):
        for name in filter(_is_passing_file, os.listdir(path)):
            (path / name).unlink()
        path.rmdir()


def _lock(path: Path, wait: bool) -> int | None:
    """Lock a folder. Gives None where another process has done so, or where it cannot be done."""
    if sys.platform == "win32":
        return None
    import fcntl

    handle = None
    try:
        handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW)
        fcntl.flock(handle, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except OSError:
        _unlock(handle)
        return None
    return handle


def _unlock(handle: int | None) -> None:
    if handle is not None:
        os.close(handle)
