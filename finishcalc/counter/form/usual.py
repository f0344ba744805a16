"""The values that a project has where its file gives none: each with the layer that it comes from."""

from collections.abc import Mapping
from pathlib import PurePath
from typing import NamedTuple

from finishcalc.counter.form.fields import FIELDS
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.keypaths import KeyPath, TomlTable
from finishcalc.intake.layers import LayerName, Sourced
from finishcalc.intake.listing import Known, listed
from finishcalc.intake.resolve import Resolved, resolve
from finishcalc.intake.shop_in_use import Reader
from finishcalc.intake.shop_layers import checked_shop
from finishcalc.intake.source import Source
from finishcalc.model.listed import ListedPreset
from finishcalc.rendering.pages.defaults import written
from finishcalc.wording.notation import Notation, plain_blanks

FROM: Mapping[LayerName, str] = {
    "preset": "from the preset",
    "sample shop": "from the sample shop",
    "shop file": "from your shop file",
    "project file": "",
}
"""The words for the layers that a value may come from."""
ANY_TOP: tuple[tuple[KeyPath, object], ...] = ((("top", "width"), "60 in"), (("top", "length"), "80 in"))
"""A size that lets a project be read; no usual value depends on it."""


PIECED: dict[str, int] = {"blocks": 2, "sashing": 2, "borders": 3}
"""The parts of a pieced top, each with the steps of a key path that lead into one."""


class Usual(NamedTuple):
    """A usual value: as the form's fields hold it, as it is read, and where it comes from."""

    value: str
    text: str
    origin: str


class UsualValues:
    """The usual values by key, and the project without a value of its own that they come from."""

    def __init__(self, by_key: Mapping[str, Usual], resolved: Resolved) -> None:
        self.by_key, self.resolved = by_key, resolved
        self._names: dict[tuple[str, str], dict[str, str]] = {}

    def names(self, kind: str, units: str) -> dict[str, str]:
        """Give the names of a kind of materials, the shop's own first, each with what papers call it."""
        if (kind, units) not in self._names:
            in_use = self.resolved.shop_file
            source = in_use.source if in_use else None
            known = Known(units, checked_shop(source, units)[0] if source else None, source)
            self._names[kind, units] = {each.name: _label(each) for each in listed(kind, known)}
        return self._names[kind, units]

    def value(self, key: str) -> str:
        """Give the usual value of a field as it holds it; nothing where there is none."""
        return self.by_key[key].value if key in self.by_key else ""


def usual_values(name: str, table: TomlTable, shop: str | None, folder: PurePath, reader: Reader) -> UsualValues:
    """Find the usual values of a project with the units and the shop of a table. Raises ProblemsFound, where its shop
    file has mistakes."""
    kept = [((key,), table[key]) for key in ("units", "shop") if key in table]
    change = Change("the form", puts=(*kept, *ANY_TOP))
    resolved = resolve(Source(name, ""), shop, folder, change, reader)
    values, notation = resolved.layers.values, Notation(resolved.project.units)
    sourced = {key: _first_of(values, key_path(key)) for key in FIELDS}
    usual = {key: usual_of(each, notation) for key, each in sourced.items() if each}
    usual["units"] = Usual(resolved.project.units, resolved.project.units, "where the file names none")
    return UsualValues({key: each for key, each in usual.items() if each.origin}, resolved)


def _first_of(values: Mapping[KeyPath, Sourced], path: KeyPath) -> Sourced | None:
    """Find the value of a key; that of a part of a pieced top may stand for all parts, in `[top.piecing]`."""
    steps = PIECED.get(str(path[1])) if path[0] == "top" and len(path) > 1 else None
    return values.get(path) or (values.get(("top", "piecing", *path[steps:])) if steps else None)


def _label(preset: ListedPreset) -> str:
    """Name a preset with its width, by which cloths are told apart at a counter."""
    width = preset.figures.get("Width", "")
    return f"{preset.label}, {width} wide" if width and width not in preset.label else preset.label


def usual_of(sourced: Sourced, notation: Notation) -> Usual:
    """Write a value with its origin."""
    value = sourced.value
    held = ("yes" if value else "") if isinstance(value, bool) else str(value) if isinstance(value, str) else ""
    return Usual(held, plain_blanks(written(sourced, notation)), FROM[sourced.origin.layer])
