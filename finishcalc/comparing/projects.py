"""Each size of a comparison as a project file of its own."""

import re
from collections.abc import Iterable
from os.path import normpath
from pathlib import PurePath

from finishcalc.comparing.sizes import Comparison
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.source import STANDARD_INPUT


def project_files(comparison: Comparison, taken: Iterable[str] = ()) -> dict[str, str]:
    """Write each size as a project file of its own, under a file name that is not taken; the design as it is has a file
    already."""
    name = comparison.source.name
    stem = "quilt-top" if name == STANDARD_INPUT else PurePath(name).stem
    texts: dict[str, str] = {}
    used = {_one_spelling(path) for path in taken}
    for row in comparison.rows:
        if row.change:
            file_name = _unused(f"{stem}-{_in_file_name(row.name)}", used)
            used.add(_one_spelling(file_name))
            texts[file_name] = project_toml(comparison.source, row.change)
    return texts


def _one_spelling(path: str) -> str:
    """Spell a path the one way that is the same for each file, also where small and large letters are the same."""
    return normpath(path).casefold()


def _in_file_name(text: str) -> str:
    """Spell a size as part of a file's name."""
    return re.sub(r"[^a-z0-9.]+", "-", text.lower()).strip("-.") or "size"


def _unused(stem: str, used: set[str]) -> str:
    """Give the first file name for a stem that is not used."""
    names = (f"{stem}.toml", *(f"{stem}-{number}.toml" for number in range(2, len(used) + 3)))
    return next(name for name in names if _one_spelling(name) not in used)
