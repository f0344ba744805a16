"""Writes a set of files whole or not at all, and never over another without being asked. Only the command line uses it.

Texts are first written into a passing folder, hidden beside their places. With `force` the old files are kept there
too, until the whole set is in place. An error or a signal puts everything back as it was. After a sudden death (kill
-9, a power cut) each file is the old or the new one, and the next run clears the passing folder.
"""

import errno
import os
import shutil
import stat
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path

from finishcalc.commandline import stopping
from finishcalc.commandline.passing import PassingFolder, clear_leftovers
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

Texts = tuple[str, dict[str, str]]
"""A folder, and the texts to write in it by name."""

NO_LINKS = {errno.EPERM, errno.EACCES, errno.EMLINK, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP}
"""The errors of file systems that give no file a second name."""


def write_all(folders: list[Texts], force: bool = False, shared: Iterable[Texts] = ()) -> list[str]:
    """Write each text under its name in its folder, which is made if it is not there. Gives the paths written.

    Raises ProblemsFound, with nothing of it left behind, where a file is there already and `force` is not given, or
    where it cannot be written. A signal to stop waits until nothing is left behind either, or everything is in place.
    A `shared` text that is there already, word for word, is left as it is.
    """
    shared = list(shared)
    _refuse_leading_out([*folders, *shared])
    targets = _targets(folders)
    targets |= {target: text for target, text in _targets(shared).items() if not _holds(target, text)}
    for folder in {target.parent for target in targets}:
        clear_leftovers(folder)
    _refuse_existing(targets, force)
    with stopping.signals_deferred() as stop_if_asked:
        _write_set(targets, force, stop_if_asked)
        if targets:
            stopping.note("the files were written")
    return [str(target) for target in targets]


def _refuse_leading_out(folders: Iterable[Texts]) -> None:
    """Refuse to write outside the folders that were asked for, be it by a name or by a link in them."""
    named = [(Path(folder), Path(folder) / name) for folder, texts in folders for name in texts]
    outside = [target for folder, target in named if not _real(target.parent).is_relative_to(_real(folder))]
    hint = "nothing was written: name another folder"
    problems = [
        Problem(ProblemCode.WRITING_OUTSIDE_FOLDER, str(target), 0, 0, "", "is outside the folder to write to", hint)
        for target in outside
    ]
    if problems:
        raise ProblemsFound(problems)


def _real(folder: Path) -> Path:
    return Path(os.path.realpath(folder))


def _targets(folders: Iterable[Texts]) -> dict[Path, str]:
    return {Path(folder) / name: text for folder, texts in folders for name, text in texts.items()}


def _write_set(targets: dict[Path, str], force: bool, stop_if_asked: Callable[[], None]) -> None:
    """Write every text beside its place, then put all in place; undo it all where anything goes wrong."""
    files = _Set(targets)
    try:
        for target, text in targets.items():
            files.write_beside(target, text)
            stop_if_asked()
        for target in targets:
            files.put_in_place(target, force)
            stop_if_asked()
    except BaseException as error:
        problems = files.undo()
        if isinstance(error, (OSError, UnicodeEncodeError)):
            raise ProblemsFound([_unwritable(files.at, error), *problems]) from None
        raise
    finally:
        files.clear()


class _Set:
    """Files on their way to their targets, with the old ones to go back to. `at` is the path in hand."""

    def __init__(self, targets: Iterable[Path]) -> None:
        self.at = Path()
        self._made = _missing_folders(targets)
        self._passing: dict[Path, PassingFolder] = {}
        self._waiting: dict[Path, Path] = {}
        self._old: dict[Path, Path | None] = {}

    def write_beside(self, target: Path, text: str) -> None:
        """Write a text under a passing name, with the rights that it will have in its place."""
        self.at = target.parent
        waiting = self._waiting[target] = self._beside(target).path / f"new-{len(self._waiting)}"
        self.at = target
        with waiting.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        _take_rights(waiting, target)

    def put_in_place(self, target: Path, force: bool) -> None:
        """Give a file its name. Without `force`, a name that has appeared since is not taken."""
        self.at = target
        waiting = self._waiting[target]
        self._old[target] = None
        if not force:
            _name_anew(waiting, target)
            return
        if os.path.lexists(target):  # its name is never free in between
            old = waiting.with_name(waiting.name.replace("new", "old"))
            _keep(target, old)
            self._old[target] = old
        os.replace(waiting, target)

    def undo(self) -> list[Problem]:
        """Put the old files back, and take the new ones and their folders away. Gives a problem for each file that
        could not be put back."""
        problems = []
        for target, old in reversed(self._old.items()):
            try:
                if not _is_in_place(self._waiting[target], target):
                    continue
                if old:
                    os.replace(old, target)
                else:
                    target.unlink(missing_ok=True)
            except OSError as error:
                problems.append(_not_put_back(target, old, error))
                stopping.note(f"{plain(str(target))} could not be put back")
        self.clear()
        for folder in self._made:
            with suppress(OSError):
                folder.rmdir()
        return problems

    def clear(self) -> None:
        """Take the passing folders away."""
        while self._passing:
            self._passing.popitem()[1].take_away()

    def _beside(self, target: Path) -> PassingFolder:
        if target.parent not in self._passing:
            target.parent.mkdir(parents=True, exist_ok=True)
            self._passing[target.parent] = PassingFolder(target.parent)
        return self._passing[target.parent]


def _missing_folders(targets: Iterable[Path]) -> list[Path]:
    """List the folders that are to be made, the innermost first."""
    folders = {parent for target in targets for parent in target.parents if not os.path.lexists(parent)}
    return sorted(folders, key=lambda folder: len(folder.parts), reverse=True)


def _holds(target: Path, text: str) -> bool:
    """True where a file is there and holds just this text."""
    try:
        return target.read_text(encoding="utf-8-sig").replace("\r\n", "\n") == text
    except (OSError, UnicodeDecodeError):
        return False


# --- problems ----------------------------------------------------------------------------------------------------


def _refuse_existing(targets: dict[Path, str], force: bool) -> None:
    """Refuse to write over folders, and over files unless that is asked for."""
    folders = [target for target in targets if target.is_dir()]
    existing = [] if force else [target for target in targets if os.path.lexists(target) and target not in folders]
    hint = "nothing was written: name another folder, or give --force to overwrite it"
    problems = [
        Problem(ProblemCode.FOLDER_IN_THE_WAY, str(target), 0, 0, "", "is a folder", "nothing was written: move it")
        for target in folders
    ]
    problems += [Problem(ProblemCode.FILE_EXISTS, str(target), 0, 0, "", "already exists", hint) for target in existing]
    if problems:
        raise ProblemsFound(problems)


def _unwritable(at: Path, error: OSError | UnicodeEncodeError) -> Problem:
    if isinstance(error, UnicodeEncodeError):
        hint = "a text has characters that UTF-8 cannot hold"
        return Problem(ProblemCode.UNWRITABLE_CHARACTERS, str(at), 0, 0, "", "cannot be written", hint)
    hint = error.strerror or "check the folder and your right to write in it"
    return Problem(ProblemCode.CANNOT_BE_WRITTEN, str(at), 0, 0, "", "cannot be written", hint)


def _not_put_back(target: Path, old: Path | None, error: OSError) -> Problem:
    """Tell of a file that stays the new one; its old text is kept under a name that no later run clears."""
    hint = f"it now holds the new text ({error.strerror})"
    if old:
        with suppress(OSError):
            hint += f"; the old text is in {old.rename(old.with_name(target.name))}"
    return Problem(ProblemCode.NOT_PUT_BACK, str(target), 0, 0, "", "could not be put back", hint)


# --- one file ----------------------------------------------------------------------------------------------------


def _take_rights(waiting: Path, target: Path) -> None:
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


def _keep(target: Path, old: Path) -> None:
    """Give a file a second name, or copy it where there are no second names. A link is kept, not its target."""
    try:
        os.link(target, old, follow_symlinks=False)
    except OSError as error:
        if error.errno not in NO_LINKS:
            raise
        shutil.copy2(target, old, follow_symlinks=False)


def _name_anew(waiting: Path, target: Path) -> None:
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


def _is_in_place(waiting: Path, target: Path) -> bool:
    """Recognise a file that has its final name: once renamed it has lost the passing one, once linked it has both."""
    try:
        return os.path.samestat(waiting.lstat(), target.lstat())
    except FileNotFoundError:
        return not os.path.lexists(waiting)
