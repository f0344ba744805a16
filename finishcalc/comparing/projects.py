"""Each size of a comparison as a project file of its own."""

import re
from collections.abc import Iterable
from os.path import normpath
from pathlib import PurePath

from finishcalc.comparing.sizes import Comparison
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.source import STANDARD_INPUT


def project_files(comparison: Comparison, taken: Iterable[str] = ()) -> dict[str, str]:
    """Each size as a project file of its own, by a file name that is not taken; the design as it is has one already."""
    name = comparison.source.name
    stem = "quilt-top" if name == STANDARD_INPUT else PurePath(name).stem
    texts: dict[str, str] = {}
    others = {_plain(each) for each in taken}
    for row in comparison.rows:
        if row.change:
            texts[_unused(f"{stem}-{_in_a_name(row.name)}", {*map(_plain, texts), *others})] = project_toml(
                comparison.source, row.change
            )
    return texts


def _plain(path: str) -> str:
    """One spelling for each file, also where small and large letters are the same."""
    return normpath(path).casefold()


def _in_a_name(text: str) -> str:
    """A size as part of a file's name."""
    return re.sub(r"[^a-z0-9.]+", "-", text.lower()).strip("-.") or "size"


def _unused(stem: str, taken: set[str]) -> str:
    """The first name for a stem whose plain spelling is not taken."""
    names = (f"{stem}.toml", *(f"{stem}-{number}.toml" for number in range(2, len(taken) + 3)))
    return next(name for name in names if _plain(name) not in taken)
