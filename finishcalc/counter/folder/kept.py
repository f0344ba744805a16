"""Keeps drafts in a folder's own `.finishcalc/`, under a lock that no two servers hold at once.

A link that somebody has put in its place is never followed. All is written by replacing, so that a draft is the old or
the new one however a process ends; what a dead one leaves is cleared by the next that starts.
"""

import os
import re
import stat
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from finishcalc.counter.folder.contained import Contained, is_plain_name
from finishcalc.counter.folder.drafts import Draft, NotADraft

FOLDER = ".finishcalc"
"""The folder of the drafts."""
ENDING = ".json"
"""A draft's name is its project's and this."""
MOST = 64 * 1024 * 1024
"""The most bytes that are read of a draft."""

_LEFTOVER = re.compile(r"new-[0-9a-f]{16}")


class KeptDrafts:
    """The drafts of a folder. All methods raise OSError where they cannot be read or written."""

    def __init__(self, folder: Contained) -> None:
        self._folder = folder
        self._lock = threading.RLock()
        self._depth = 0
        self._last: dict[str, tuple[bytes, Draft]] = {}

    @contextmanager
    def locked(self) -> Iterator[None]:
        """Hold all drafts of the folder against other threads and other servers. Where nothing may be written, or where
        the system locks nothing, other servers are not waited for."""
        with self._lock:
            held = None if self._depth else self._held()
            self._depth += 1
            try:
                yield
            finally:
                self._depth -= 1
                if held:
                    held.close()

    def read(self, name: str) -> Draft | None:
        """The draft of a project, None where there is none. What is no draft of it is set aside under another name."""
        if not self._has_folder() or not is_plain_name(name):
            return None
        try:
            with self._opened(make=False) as drafts:
                data = drafts.read(name + ENDING, MOST)
        except FileNotFoundError:
            return None
        except OSError:
            if not self._is_in_the_way(name):
                raise
            data = b""
        last, draft = self._last.get(name, (b"", None))
        if data and data == last:
            return draft
        try:
            draft = Draft.from_json(name, data)
        except NotADraft:
            self._set_aside(name)
            return None
        self._last[name] = data, draft
        return draft

    def names(self) -> list[str]:
        """The names of the projects that have a draft."""
        try:
            with self._opened(make=False) as drafts:
                names = [name.removesuffix(ENDING) for name in drafts.all_names() if name.endswith(ENDING)]
                return sorted(filter(is_plain_name, names))
        except OSError:
            return []

    def write(self, draft: Draft) -> None:
        """Keep a draft in place of the one before."""
        passing, data = f"new-{os.urandom(8).hex()}", draft.to_json().encode("utf-8")
        with self._opened(make=True) as drafts:
            try:
                drafts.write_new(passing, data)
                drafts.replace(passing, draft.name + ENDING)
            except BaseException:
                with suppress(OSError):
                    drafts.remove(passing)
                raise

    def remove(self, name: str) -> None:
        """Take a project's draft away, if it has one."""
        with suppress(FileNotFoundError), self._opened(make=False) as drafts:
            drafts.remove(name + ENDING)

    def clear_leftovers(self) -> None:
        """Take away what dead processes left. It has to be locked, so that no living one is writing."""
        with suppress(OSError), self._opened(make=False) as drafts:
            for name in drafts.all_names():
                if _LEFTOVER.fullmatch(name):
                    drafts.remove(name)

    def _held(self) -> Contained | None:
        """The folder of the drafts, locked until it is closed; None where there can be none. One that was taken away
        before it was locked is made again."""
        while True:
            try:
                drafts = self._folder.inner(FOLDER, make=True)
            except OSError:
                return None
            _lock(drafts)
            with suppress(FileNotFoundError):
                if drafts.handle is None or os.path.samestat(os.fstat(drafts.handle), self._folder.status(FOLDER)):
                    return drafts
            drafts.close()

    @contextmanager
    def _opened(self, make: bool) -> Iterator[Contained]:
        drafts = self._folder.inner(FOLDER, make)
        try:
            yield drafts
        finally:
            drafts.close()

    def _has_folder(self) -> bool:
        """Tell a folder of drafts that is one, and no link."""
        try:
            return stat.S_ISDIR(self._folder.status(FOLDER).st_mode)
        except FileNotFoundError:
            return False

    def _is_in_the_way(self, name: str) -> bool:
        """Tell something that has a draft's name and is no plain file."""
        try:
            with self._opened(make=False) as drafts:
                return not stat.S_ISREG(drafts.status(name + ENDING).st_mode)
        except OSError:
            return False

    def _set_aside(self, name: str) -> None:
        with self._opened(make=False) as drafts:
            drafts.replace(name + ENDING, f"{name}{ENDING}.set-aside-{os.urandom(4).hex()}")


def _lock(drafts: Contained) -> None:
    """Wait for the lock of a folder, where the system has such."""
    if sys.platform == "win32" or drafts.handle is None:
        return
    import fcntl

    with suppress(OSError):
        fcntl.flock(drafts.handle, fcntl.LOCK_EX)
