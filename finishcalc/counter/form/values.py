"""Values of keys as a form shows them, and as they are read from what is typed. The file's own readers check them."""

from collections.abc import Iterable
from datetime import date, datetime
from decimal import Decimal

from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.changes.shop_values import is_in_house, spec_at
from finishcalc.intake.keypaths import KeyPath, TomlTable, put_at, take_out
from finishcalc.intake.questions.reading import per_cent, whole_or_text
from finishcalc.intake.words import understood
from finishcalc.model.files import ProjectFile
from finishcalc.model.reading import FormKind
from finishcalc.model.section import KeySpec

YES = "yes"
"""The value of a box that is ticked."""
AS_TYPED: tuple[FormKind, ...] = ("text", "notes", "weight", "area weight", "lead")
"""The forms of values that a file holds as text, whatever is typed."""


def at(table: object, path: KeyPath) -> object:
    """Give the value at a path of tables and lists; of a material that stands as a name alone, that is its preset. None
    where there is none."""
    for depth, step in enumerate(path):
        if isinstance(table, str) and path[depth:] == ("preset",):
            return table
        if isinstance(table, list) and isinstance(step, int):
            table = table[step] if step < len(table) else None
        else:
            table = table.get(step) if isinstance(table, dict) else None
    return table


def shown(value: object) -> str:
    """Write a value as a field shows it: several with commas, those of a table each after its name. Nothing for no
    value, and for tables and lists that hold others."""
    if isinstance(value, list):
        return ", ".join(map(shown, value)) if all(map(_is_plain, value)) else ""
    if isinstance(value, dict):
        is_flat = all(map(_is_plain, value.values()))
        return ", ".join(f"{name} {shown(item)}" for name, item in value.items()) if is_flat else ""
    if isinstance(value, bool):
        return YES if value else ""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value.isoformat()
    return str(value) if isinstance(value, str | int | Decimal) else ""


def _is_plain(value: object) -> bool:
    return isinstance(value, str | int | Decimal | date)


def is_kept_back(path: KeyPath, value: object) -> bool:
    """Tell a value of a project that no customer is shown: it is the studio's alone, or its key is none that a project
    has, because that may be one of the shop's, such as the wage."""
    return spec_at(ProjectFile, path) is None or is_in_house(ProjectFile, path, value)


def read(text: str, spec: KeySpec | None) -> object:
    """Read what is typed as the value that a file would have. What cannot be read stays as it is typed."""
    if spec and spec.choices:
        return understood(text, spec.choices) or text
    kind = spec.key.form.kind if spec and spec.key else "text"
    if kind == "flag":
        return text == YES
    if kind == "day":
        return _day(text)
    if kind == "share":
        return per_cent(text.strip())
    if kind == "one or several" and "," in text:
        return [whole_or_text(each.strip()) for each in text.split(",") if each.strip()]
    if kind == "one or parts" and spec and spec.key:
        return _parts(text, spec.key.form.words) or whole_or_text(text.strip())
    return text if kind in AS_TYPED else whole_or_text(text.strip())


def _parts(text: str, names: tuple[str, ...]) -> dict[str, object]:
    """Read "sides 4, ends 3 1/2"; nothing for a text that does not name its parts."""
    named = [each.strip().partition(" ") for each in text.split(",")]
    is_named = all(name in names and value.strip() for name, _, value in named)
    return {name: whole_or_text(value.strip()) for name, _, value in named} if is_named else {}


def _day(text: str) -> object:
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        return text


def with_puts(table: TomlTable, puts: Iterable[tuple[str, object]]) -> None:
    """Put values into a table at their keys, in dotted notation: a text as it is read, None to take the key out. A
    place that the table does not have is left out."""
    for key, value in puts:
        path = key_path(key)
        if value is None:
            _take(table, path)
            continue
        read_value = read(value, spec_at(ProjectFile, path)) if isinstance(value, str) else value
        try:
            _put(table, path, read_value)
        except (TypeError, LookupError, AttributeError):
            continue


def _take(table: TomlTable, path: KeyPath) -> None:
    """Take a value out, and each table that it leaves empty. The preset of a material is all of it."""
    if path[-1:] == ("preset",):
        path = path[:-1]
    take_out(table, path)
    for depth in range(len(path) - 1, 0, -1):
        if at(table, path[:depth]) != {}:
            return
        take_out(table, path[:depth])


def _put(table: TomlTable, path: KeyPath, value: object) -> None:
    """Put a value in. Another material brings its own figures, so only what it is called stays with it."""
    if path[-1] != "preset":
        put_at(table, path, value, ProjectFile)
        return
    material = at(table, path[:-1])
    called = material.get("name") if isinstance(material, dict) else None
    put_at(table, path[:-1], {"preset": value, "name": called} if called else value, ProjectFile)
