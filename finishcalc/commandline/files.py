"""Writes a set of files whole or not at all, and never over another without being asked. Only the command line uses it.

Contents are first written into a passing folder, hidden beside their places. With `force` the old files are kept there
too, until the whole set is in place. An error or a signal puts everything back as it was. After a sudden death (kill
-9, a power cut) each file is the old or the new one, and the next run clears the passing folder.
"""

import os
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from finishcalc.commandline import stopping
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.storing.passing import PassingFolder, clear_leftovers
from finishcalc.storing.placing import keep, name_anew, take_rights, unwritable
from finishcalc.wording.plain import plain

Content = str | bytes
"""A text, which is written as UTF-8, or bytes."""
FilesIn = tuple[str, Mapping[str, Content]]
"""A folder, and the contents of the files to write in it by name."""


def write_all(
    folders: Sequence[FilesIn],
    force: bool = False,
    shared: Sequence[FilesIn] = (),
    sources: Sequence[os.stat_result] = (),
) -> list[str]:
    """Write each file under its name in its folder, which is made if it is not there. Gives the paths written.

    Raises ProblemsFound, with nothing of it left behind, where a file is there already and `force` is not given, where
    it is one of the `sources` of what is written, or where it cannot be written. A signal to stop waits until nothing
    is left behind either, or everything is in place. A `shared` file that is there already, word for word, is left as
    it is.
    """
    _refuse_leading_out([*folders, *shared])
    _refuse_twice([*folders, *shared])
    targets = _targets(folders)
    targets |= {target: content for target, content in _targets(shared).items() if not _holds(target, content)}
    for folder in {target.parent for target in targets}:
        clear_leftovers(folder)
    refuse_existing(targets, force, sources)
    with stopping.signals_deferred() as stop_if_asked:
        _write_set(targets, force, stop_if_asked)
        if targets:
            stopping.note("the files were written")
    return [str(target) for target in targets]


def _refuse_leading_out(folders: Iterable[FilesIn]) -> None:
    """Refuse to write outside the folders that were asked for, be it by a name or by a link in them."""
    named = [(Path(folder), Path(folder) / name) for folder, files in folders for name in files]
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


def _targets(folders: Iterable[FilesIn]) -> dict[Path, Content]:
    return {Path(folder) / name: content for folder, files in folders for name, content in files.items()}


def _write_set(targets: dict[Path, Content], force: bool, stop_if_asked: Callable[[], None]) -> None:
    """Write every file beside its place, then put all in place; undo it all where anything goes wrong."""
    files = _Set(targets)
    try:
        for target, content in targets.items():
            files.write_beside(target, content)
            stop_if_asked()
        for target in targets:
            files.put_in_place(target, force)
            stop_if_asked()
    except BaseException as error:
        problems = files.undo()
        if isinstance(error, (OSError, UnicodeEncodeError)):
            raise ProblemsFound([unwritable(files.at, error), *problems]) from None
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

    def write_beside(self, target: Path, content: Content) -> None:
        """Write a file under a passing name, with the rights that it will have in its place."""
        self.at = target.parent
        waiting = self._waiting[target] = self._beside(target).path / f"new-{len(self._waiting)}"
        self.at = target
        with waiting.open("xb") as file:
            file.write(_bytes(content))
            file.flush()
            os.fsync(file.fileno())
        take_rights(waiting, target)

    def put_in_place(self, target: Path, force: bool) -> None:
        """Give a file its name. Without `force`, a name that has appeared since is not taken."""
        self.at = target
        waiting = self._waiting[target]
        self._old[target] = None
        if not force:
            name_anew(waiting, target)
            return
        if os.path.lexists(target):  # its name is never free in between
            old = waiting.with_name(waiting.name.replace("new", "old"))
            keep(target, old)
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


def _bytes(content: Content) -> bytes:
    return content if isinstance(content, bytes) else content.encode("utf-8")


def _holds(target: Path, content: Content) -> bool:
    """True where a file is there and holds just this."""
    try:
        if isinstance(content, bytes):
            return target.read_bytes() == content
        return target.read_text(encoding="utf-8-sig").replace("\r\n", "\n") == content
    except (OSError, UnicodeDecodeError):
        return False


# --- problems ----------------------------------------------------------------------------------------------------


def refuse_existing(targets: Iterable[Path], force: bool, sources: Sequence[os.stat_result]) -> None:
    """Refuse to write over folders, devices and sources, and over files unless that is asked for."""
    problems = [problem for target in targets if (problem := _in_the_way(target, force, sources))]
    if problems:
        problems.sort(key=lambda problem: problem.code is not ProblemCode.FOLDER_IN_THE_WAY)
        raise ProblemsFound(problems)


def _in_the_way(target: Path, force: bool, sources: Sequence[os.stat_result]) -> Problem | None:
    """The problem with what bears a file's name already."""
    if not os.path.lexists(target):
        return None
    if os.path.isdir(target):
        hint = "nothing was written: move it, or name another place"
        return _refused(ProblemCode.FOLDER_IN_THE_WAY, target, "is a folder", hint)
    is_file = os.path.isfile(target)
    if os.path.exists(target) and not is_file:
        message, hint = "is a device or a pipe, not a file", "nothing was written: name a file"
        return _refused(ProblemCode.DEVICE_IN_THE_WAY, target, message, hint)
    if is_file and any(os.path.samestat(target.stat(), source) for source in sources):
        message, hint = "is one of the files that this is worked out from", "nothing was written: name another file"
        return _refused(ProblemCode.WRITES_OVER_SOURCE, target, message, hint)
    if force:
        return None
    hint = "nothing was written: name another place, or give --force to overwrite it"
    return _refused(ProblemCode.FILE_EXISTS, target, "already exists", hint)


def _refuse_twice(folders: Iterable[FilesIn]) -> None:
    """Refuse two results for one file, in whatever spelling."""
    paths = [Path(folder) / name for folder, files in folders for name in files]
    spelt = Counter(_real(path.parent) / path.name for path in paths)
    twice = [path for path in paths if spelt[_real(path.parent) / path.name] > 1]
    if twice:
        hint = "nothing was written: name another file or folder"
        problem = _refused(ProblemCode.WRITTEN_TWICE, twice[0], "would be written twice", hint)
        raise ProblemsFound([problem])


def _refused(code: ProblemCode, target: Path, message: str, hint: str) -> Problem:
    return Problem(code, str(target), 0, 0, "", message, hint)


def _not_put_back(target: Path, old: Path | None, error: OSError) -> Problem:
    """Tell of a file that stays the new one; its old text is kept under a name that no later run clears."""
    hint = f"it now holds the new text ({error.strerror})"
    if old:
        with suppress(OSError):
            hint += f"; the old text is in {old.rename(old.with_name(target.name))}"
    return Problem(ProblemCode.NOT_PUT_BACK, str(target), 0, 0, "", "could not be put back", hint)


# --- one file ----------------------------------------------------------------------------------------------------


def _is_in_place(waiting: Path, target: Path) -> bool:
    """Recognise a file that has its final name: once renamed it has lost the passing one, once linked it has both."""
    try:
        return os.path.samestat(waiting.lstat(), target.lstat())
    except FileNotFoundError:
        return not os.path.lexists(waiting)
