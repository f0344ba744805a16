"""One file on its way to its place: the rights it takes over, a name that is free, and the problem where it fails."""

import errno
import os
import shutil
import stat
from contextlib import suppress
from pathlib import Path

from finishcalc.problems import Problem, ProblemCode

NO_LINKS = {errno.EPERM, errno.EACCES, errno.EMLINK, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP}
"""The errors of file systems that give no file a second name."""


def take_rights(waiting: Path, target: Path) -> None:
    """Take the owner and mode of a file that is to be replaced, so far as that is allowed."""
    try:
        old = target.lstat()
    except FileNotFoundError:
        return
    if stat.S_ISREG(old.st_mode):
        for owner, group in ((-1, old.st_gid), (old.st_uid, -1)):
            with suppress(OSError, AttributeError):  # somebody else's; a system without owners
                os.chown(waiting, owner, group)
        with suppress(OSError):
            waiting.chmod(stat.S_IMODE(old.st_mode))


def keep(target: Path, old: Path) -> None:
    """Give a file a second name, or copy it where there are no second names. A link is kept, not its target."""
    try:
        os.link(target, old, follow_symlinks=False)
    except OSError as error:
        if error.errno not in NO_LINKS:
            raise
        shutil.copy2(target, old, follow_symlinks=False)


def name_anew(waiting: Path, target: Path) -> None:
    """Give a file a name that is free. Where there are no second names, a file that appears between the look and the
    renaming is lost; the other way, to make it empty first, could leave it so."""
    try:
        os.link(waiting, target)
    except OSError as error:
        if error.errno not in NO_LINKS:
            raise
        if os.path.lexists(target):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target)) from None
        waiting.rename(target)


def unwritable(at: Path, error: OSError | UnicodeEncodeError) -> Problem:
    """The problem with a file or folder that cannot be written."""
    if isinstance(error, UnicodeEncodeError):
        hint = "a text has characters that UTF-8 cannot hold"
        return Problem(ProblemCode.UNWRITABLE_CHARACTERS, str(at), 0, 0, "", "cannot be written", hint)
    hint = error.strerror or "check the folder and your right to write in it"
    return Problem(ProblemCode.CANNOT_BE_WRITTEN, str(at), 0, 0, "", "cannot be written", hint)
