"""The logo that a shop file names. A shop file may come from anyone, so its logo lies in its own folder or below."""

import stat
from functools import lru_cache
from pathlib import Path as FilePath
from pathlib import PurePath
from typing import Literal

from finishcalc.intake.layers import Sourced
from finishcalc.intake.logo import jpeg, png
from finishcalc.intake.logo.refused import NAME_ONE, PictureRefused
from finishcalc.intake.source import LARGEST, leads_out, unreadable
from finishcalc.model.logo import Logo
from finishcalc.problems import Problem, ProblemCode

EXAMPLE = 'logo = "logo.png"'


def read_logo(named: Sourced, folder: PurePath) -> tuple[Logo | None, list[Problem]]:
    """Read the logo that the shop names, in its `folder` or below; where that cannot be done, give the problem."""
    try:
        return logo_at(named.value, folder), []
    except PictureRefused as refused:
        return None, [named.origin.source.problem(refused.code, named.origin.at, str(refused), refused.hint)]


def logo_at(name: str, folder: PurePath) -> Logo:
    """Read the picture of that name in or below a folder. Raises PictureRefused."""
    _refuse_name(name, folder)
    path = FilePath(folder, name)
    try:
        content = _read(path)
        return Logo(kind_of_picture(content), content)
    except PictureRefused as refused:
        raise PictureRefused(refused.code, f"{path}: {refused}", refused.hint) from None


def _refuse_name(name: str, folder: PurePath) -> None:
    """Refuse a name that leads out of the folder, by itself or by a link. Raises PictureRefused."""
    path = PurePath(name)
    if not name.strip() or not path.parts:
        raise PictureRefused(ProblemCode.NO_FILE_NAMED, "names no file", f'write {EXAMPLE}, or logo = "" for none')
    if path.anchor or ".." in path.parts:
        hint = f"put the logo beside the shop file or below it: {EXAMPLE}"
        raise PictureRefused(ProblemCode.LOGO_OUTSIDE_FOLDER, "is outside the shop file's folder", hint)
    if leads_out(folder, name):
        hint = "put a copy of the logo in its place"
        message = "is a link to a file outside the shop file's folder"
        raise PictureRefused(ProblemCode.LOGO_OUTSIDE_FOLDER, message, hint)


def _read(path: FilePath) -> bytes:
    """Read a file of at most 1 MiB; a pipe or a device, which may never end, is not opened. Raises PictureRefused."""
    try:
        kind = path.stat().st_mode
        if not stat.S_ISREG(kind) and not stat.S_ISDIR(kind):
            raise PictureRefused(ProblemCode.NOT_A_PICTURE, "is a pipe or a device, not a picture", NAME_ONE)
        with path.open("rb") as file:
            content = file.read(LARGEST + 1)
    except FileNotFoundError:
        hint = f'put it beside the shop file or below it: {EXAMPLE}; logo = "" is for none'
        raise PictureRefused(ProblemCode.NO_SUCH_FILE, "no such file", hint) from None
    except (OSError, ValueError) as error:
        code, message, hint = unreadable(error)
        raise PictureRefused(code, message, hint) from None
    if len(content) > LARGEST:
        raise PictureRefused(ProblemCode.FILE_TOO_LARGE, "is larger than 1 MiB", "save a smaller copy of it")
    return content


@lru_cache(maxsize=8)
def kind_of_picture(content: bytes) -> Literal["png", "jpeg"]:
    """Give the kind of a picture that is whole and of a sensible size. Raises PictureRefused."""
    if content.startswith(png.SIGNATURE):
        png.check_png(content)
        return "png"
    if content.startswith(jpeg.SIGNATURE):
        jpeg.check_jpeg(content)
        return "jpeg"
    raise PictureRefused(ProblemCode.NOT_A_PICTURE, "is neither a PNG nor a JPEG picture", NAME_ONE)
