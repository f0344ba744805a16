"""The completions that a shell proposes: names of presets, sizes, readers, and the project files that are at hand.

Each takes the word that is begun. Nothing here may fail, because a shell shows nothing of it but rubbish.
"""

import os
from contextlib import suppress

from finishcalc.problems import ProblemsFound


def toml_files(incomplete: str) -> list[str]:
    """Propose the files that end in .toml, and the folders in which some may be."""
    return _paths(incomplete, ".toml")


def folders(incomplete: str) -> list[str]:
    """Propose folders."""
    return _paths(incomplete)


def _paths(incomplete: str, *endings: str) -> list[str]:
    """Give the files with one of these endings, and the folders."""
    folder, begun = os.path.split(incomplete)
    found = list[str]()
    with suppress(OSError, ValueError):
        for entry in sorted(os.scandir(folder or "."), key=lambda entry: entry.name):
            if entry.name.startswith(begun) and not (entry.name.startswith(".") and not begun):
                path = os.path.join(folder, entry.name)
                found += [path + os.sep] if entry.is_dir() else [path] if entry.name.endswith(endings) else []
    return found


def sizes(incomplete: str) -> list[str]:
    """Propose beds and tables by their names, and the beginnings of other sizes."""
    return _beginning(incomplete, [*_names("beds"), *_names("tables"), "round", "oval", "throw", "wall", "tablecloth"])


def fabrics(incomplete: str) -> list[str]:
    """Propose fabrics by their names."""
    return _beginning(incomplete, _names("fabrics"))


def readers(incomplete: str) -> list[str]:
    """Propose who may read a quote."""
    return _beginning(incomplete, ["customer", "studio"])


def units(incomplete: str) -> list[str]:
    """Propose the units of projects."""
    return _beginning(incomplete, ["in", "cm"])


def kinds(incomplete: str) -> list[str]:
    """Propose the kinds of presets."""
    from finishcalc.model.files import MATERIALS

    return _beginning(incomplete, list(MATERIALS))


def presets_of(kind: str | None, incomplete: str) -> list[str]:
    """Propose the presets of a kind that is named already."""
    from finishcalc.intake.words import understood
    from finishcalc.model.files import MATERIALS

    meant = understood(kind or "", MATERIALS)
    return _beginning(incomplete, _names(meant)) if meant else []


def _names(kind: str) -> list[str]:
    """The names of a kind: the user's own shop's first, if it can be read; then those of both units."""
    from finishcalc.intake import presets
    from finishcalc.intake.listing import known_presets

    own = list[str]()
    with suppress(ProblemsFound):
        own = list(known_presets().own(kind))
    return list(dict.fromkeys([*own, *presets.names(kind, "in")]))


def _beginning(incomplete: str, names: list[str]) -> list[str]:
    return [name for name in names if name.startswith(incomplete)]
