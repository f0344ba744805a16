"""Writes files whole or not at all, and never over another without being asked. Only the command line uses it."""

import os
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from finishcalc.problems import Problem, ProblemCode, ProblemsFound

Texts = tuple[str, dict[str, str]]
"""A folder, and the texts to write in it by name."""


def write_all(folders: list[Texts], force: bool = False, shared: Iterable[Texts] = ()) -> list[str]:
    """Write each text under its name in its folder, which is made if it is not there. Gives the paths written.

    All the texts are first written beside their places under passing names. Raises ProblemsFound, with nothing
    of it left behind, where a file is there already and `force` is not given, or where it cannot be written. A
    `shared` text that is there already, word for word, is left as it is.
    """
    shared = list(shared)
    _refuse_leading_out([*folders, *shared])
    places = {Path(folder) / name: text for folder, texts in folders for name, text in texts.items()}
    others = {Path(folder) / name: text for folder, texts in shared for name, text in texts.items()}
    places |= {place: text for place, text in others.items() if not _says(place, text)}
    _refuse_existing(places, force)
    waiting: dict[Path, Path] = {}
    made = _missing_folders(places)
    try:
        for place, text in places.items():
            place.parent.mkdir(parents=True, exist_ok=True)
            waiting[place] = _write_beside(place, text)
        _put_in_place(waiting, force)
    except (OSError, UnicodeEncodeError) as error:
        _take_away(waiting, made)
        raise ProblemsFound([_unwritable(error, folders[0][0])]) from None
    finally:
        for beside in waiting.values():
            beside.unlink(missing_ok=True)
    return [str(place) for place in places]


def _refuse_leading_out(folders: Iterable[Texts]) -> None:
    """Nothing is written outside the folders that were asked for, be it by a name or by a link in them."""
    places = [(Path(folder), Path(folder) / name) for folder, texts in folders for name in texts]
    outside = [place for folder, place in places if not _real(place.parent).is_relative_to(_real(folder))]
    hint = "nothing was written: name another folder"
    problems = [
        Problem(ProblemCode.WRITING_OUTSIDE_FOLDER, str(place), 0, 0, "", "leads out of the folder to write to", hint)
        for place in outside
    ]
    if problems:
        raise ProblemsFound(problems)


def _real(folder: Path) -> Path:
    return Path(os.path.realpath(folder))


def _unwritable(error: OSError | UnicodeEncodeError, folder: str) -> Problem:
    if isinstance(error, UnicodeEncodeError):
        hint = "a text holds characters that no file in UTF-8 has"
        return Problem(ProblemCode.UNWRITABLE_CHARACTERS, folder, 0, 0, "", "cannot be written", hint)
    hint = error.strerror or "check the folder and what you may write"
    name = str(error.filename2 or error.filename or folder)
    return Problem(ProblemCode.CANNOT_BE_WRITTEN, name, 0, 0, "", "cannot be written", hint)


def _missing_folders(places: Iterable[Path]) -> list[Path]:
    """The folders that are to be made, the innermost first."""
    folders = {parent for place in places for parent in place.parents if not os.path.lexists(parent)}
    return sorted(folders, key=lambda folder: len(folder.parts), reverse=True)


def _take_away(waiting: dict[Path, Path], made: list[Path]) -> None:
    """Leave nothing behind: neither texts under passing names nor folders that were made for them."""
    for beside in waiting.values():
        beside.unlink(missing_ok=True)
    for folder in made:
        with suppress(OSError):
            folder.rmdir()


def _says(place: Path, text: str) -> bool:
    """Whether a file is there and says just this."""
    try:
        return place.read_text(encoding="utf-8-sig").replace("\r\n", "\n") == text
    except (OSError, UnicodeDecodeError):
        return False


def _refuse_existing(places: dict[Path, str], force: bool) -> None:
    """Folders are never written over; files only where that is asked for."""
    folders = [place for place in places if place.is_dir()]
    there = [] if force else [place for place in places if os.path.lexists(place) and place not in folders]
    hint = "nothing was written: name another folder, or give --force to write over it"
    problems = [
        Problem(ProblemCode.FOLDER_IN_THE_WAY, str(place), 0, 0, "", "is a folder", "nothing was written: move it")
        for place in folders
    ]
    problems += [Problem(ProblemCode.FILE_EXISTS, str(place), 0, 0, "", "is there already", hint) for place in there]
    if problems:
        raise ProblemsFound(problems)


def _write_beside(place: Path, text: str) -> Path:
    handle, name = tempfile.mkstemp(dir=place.parent, prefix=f".{place.name}.")
    beside = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(0o666 & ~_umask())
    except (OSError, UnicodeEncodeError):
        beside.unlink(missing_ok=True)
        raise
    return beside


def _umask() -> int:
    """The rights that new files are made without; it can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _put_in_place(waiting: dict[Path, Path], force: bool) -> None:
    """Give every file its name. Without `force` a name that has appeared since is not taken: what was put in place
    is taken away again."""
    done: list[Path] = []
    try:
        for place, beside in waiting.items():
            if force:
                beside.replace(place)
            else:
                os.link(beside, place)
                done.append(place)
    except OSError:
        for place in done:
            place.unlink(missing_ok=True)
        raise
