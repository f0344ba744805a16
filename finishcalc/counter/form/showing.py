"""The form as a page shows it: each field with its value, its usual value, its choices, and notes beside it."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from finishcalc.counter.form.choice_words import USES
from finishcalc.counter.form.editing import field_value, ordered
from finishcalc.counter.form.field import Field, FormPart
from finishcalc.counter.form.fields import FIELDS, TOP
from finishcalc.counter.form.usual import FROM, Usual, UsualValues, usual_of
from finishcalc.counter.form.values import YES, at, is_kept_back, shown
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.keypaths import KeyPath, TomlTable
from finishcalc.intake.named_materials import ALWAYS, COVERED_BED, COVERED_TABLE, OF_THE_BACKING
from finishcalc.intake.questions.seen import a_unit
from finishcalc.intake.source import dotted
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.layers import outline_words
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import Notation, plain_blanks

KINDS = {path: named.kind for path, named in ALWAYS.items()} | {COVERED_BED: "beds", COVERED_TABLE: "tables"}
"""The kinds of presets of materials; all others are fabrics."""
SIDES = ("top.width", "top.length")
"""The sides of a top."""
MAY_BE_NONE = {path for path, named in ALWAYS.items() if named.may_be_none}


class ShownChoice(NamedTuple):
    """A choice of a field: its `value` in the form, its name, and whether it is the one chosen."""

    value: str
    name: str
    chosen: bool


class ShownField(NamedTuple):
    """A field with what stands in it, the choices that it has, and the unit of its figure."""

    field: Field
    value: str
    choices: tuple[ShownChoice, ...] = ()
    unit: str = ""

    @property
    def ticked(self) -> bool:
        """Tell a box that is ticked."""
        return self.value == YES


class ShownExtra(NamedTuple):
    """An extra of the shop's list, its price in words, and the number that is ordered of it."""

    name: str
    label: str
    price: str
    chosen: bool
    number: str


class Kept(NamedTuple):
    """A key of the file that the form does not ask for, with its value."""

    key: str
    value: str


class Desk(NamedTuple):
    """A project's table with the usual values, and its quote, by which a field shows what holds where it is empty."""

    table: TomlTable
    usual: UsualValues
    result: Finishing | None

    @property
    def units(self) -> str:
        """The units of the project."""
        given = self.table.get("units")
        return str(given) if given in ("in", "cm") else str(self.usual.resolved.project.units)

    @property
    def notation(self) -> Notation:
        """The way figures are written in the form."""
        return Notation(self.units)


def shown_field(desk: Desk, field: Field) -> ShownField:
    """Show a field."""
    value = field_value(desk.table, field, desk.usual)
    choices = tuple(_choices(desk, field, value)) if field.sort in ("choice", "material") else ()
    return ShownField(field, value, choices, unit_of(desk, field))


def unit_of(desk: Desk, field: Field) -> str:
    """Give the unit that stands in a field."""
    if field.unit == "units":
        return desk.units
    return str(desk.usual.resolved.tables.money.currency) if field.unit == "money" else field.unit


def usual_words(desk: Desk, field: Field) -> str:
    """Say what holds where a field is left empty, and where that comes from."""
    if of_parts := _of_parts(desk, field):
        return of_parts
    usual = _usual(desk, field)
    if usual is None or field.sort in ("flag", "extras") or not usual.text or usual.text == "none":
        return ""
    name = _names(desk, field).get(usual.value, usual.text) if field.sort in ("choice", "material") else usual.text
    return f"usual: {name}, {usual.origin}" if name else ""


def _of_parts(desk: Desk, field: Field) -> str:
    """Say the side of a top whose size follows from its blocks and borders, or from the bed or table that it covers."""
    if not desk.result or field.key not in SIDES or shown(at(desk.table, key_path(field.key))):
        return ""
    top, plan = desk.result.resolved.project.top, desk.result.plans.top
    by = "its blocks and borders" if top.pieced else "the bed or table" if top.covers else ""
    side = plan.shape.width if field.key == SIDES[0] else plan.shape.length
    return f"by {by}: {plain_blanks(desk.notation.show(side))}" if by else ""


def _usual(desk: Desk, field: Field) -> Usual | None:
    """Find the usual value: of this very project, where its file gives none, because another answer may set it."""
    path = key_path(field.key)
    sourced = desk.result.resolved.layers.values.get(path) if desk.result else None
    if sourced and field.sort not in ("choice", "material") and FROM[sourced.origin.layer]:
        return usual_of(sourced, desk.notation)
    return desk.usual.by_key.get(field.key)


def _choices(desk: Desk, field: Field, value: str) -> Iterator[ShownChoice]:
    """List the choices. The usual one stands for an empty field; a value that is none of them comes first."""
    usual, names = desk.usual.value(field.key), _names(desk, field)
    if value and value not in names:
        yield ShownChoice(value, value, True)
    if usual not in names:
        yield ShownChoice("", _nothing(field), not value)
    for name, label in names.items():
        stands_for = "" if name == usual else name
        yield ShownChoice(stands_for, label, stands_for == value)


def _nothing(field: Field) -> str:
    """Name the choice of none of a list, where no value is usual."""
    return "as the rest" if field.key.startswith(("top.borders", "top.sashing")) else "none"


def _names(desk: Desk, field: Field) -> Mapping[str, str]:
    """Give the choices of a field: their values, each with its name in words."""
    if field.sort == "choice":
        return field.told
    path = key_path(field.priced_key)
    names: Mapping[str, str] = desk.usual.names(KINDS.get(path, "fabrics"), desk.units)
    if path == ("binding", "fabric"):
        names = {OF_THE_BACKING: "the backing's cloth", **names}
    return {**names, "none": "none"} if path in MAY_BE_NONE else names


def shown_extras(desk: Desk) -> list[ShownExtra]:
    """List the shop's extras, those that are ordered ticked, and those ordered that the shop does not have."""
    wanted, resolved = ordered(desk.table), desk.usual.resolved
    currency, shop = resolved.tables.money.currency, resolved.tables.extras
    listed_extras = [
        ShownExtra(
            name,
            extra.label,
            f"{desk.notation.price(extra.price.value)} {currency} {_each(extra.per)}",
            name in wanted,
            wanted.get(name, ""),
        )
        for name, extra in shop.items()
    ]
    unknown = [ShownExtra(name, name, "", True, number) for name, number in wanted.items() if name not in shop]
    return [*listed_extras, *unknown]


def _each(unit: str) -> str:
    """Say the unit of a price: "an hour", "a square inch", "each"."""
    return unit if unit == "each" else a_unit(unit)


def answer_words(desk: Desk, part: FormPart) -> str:
    """Say in a line what a part holds, for when it is shut."""
    if part is TOP and desk.result:
        use = USES.get(str(at(desk.table, ("top", "use"))), "")
        return ", ".join(filter(None, (outline_words(desk.result.plans.top.shape, desk.notation), use)))
    return "; ".join(words for field in part.fields if (words := _answer(desk, field)))


def _answer(desk: Desk, field: Field) -> str:
    """Say what the file gives for a field; nothing where it leaves it to what is usual."""
    if field.sort == "extras":
        return ", ".join(each.label for each in shown_extras(desk) if each.chosen)
    value = at(desk.table, key_path(field.key))
    is_day = isinstance(value, date) and desk.result is not None
    text = notation_of(desk.result).day(value) if is_day else shown(value)  # type: ignore[arg-type]
    if not text:
        return ""
    if field.sort == "flag":
        return field.label[0].lower() + field.label[1:]
    if field.sort in ("choice", "material"):
        return _names(desk, field).get(text, text)
    unit = unit_of(desk, field) if text[-1:].isdigit() and not is_day else ""
    name = "" if field.sort in ("line", "notes", "percent") else f"{field.label[0].lower()}{field.label[1:]} "
    return f"{name}{text}{' ' if unit else ''}{unit}"


def kept_keys(table: TomlTable, *, in_house: bool = False) -> list[Kept]:
    """List what the file gives and the form does not ask for; what is kept back only for the studio."""
    return [
        Kept(dotted(path), _written(value))
        for path, value in _leaves(table, ())
        if not _is_asked(path, value) and (in_house or not is_kept_back(path, value))
    ]


def _leaves(value: object, path: KeyPath) -> Iterator[tuple[KeyPath, object]]:
    """Give all values of a table, and of the tables in its lists."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield from _leaves(item, (*path, key))
    elif isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
        for number, item in enumerate(value):
            yield from _leaves(item, (*path, number))
    else:
        yield path, value


def _is_asked(path: KeyPath, value: object) -> bool:
    """Tell a value that a field shows."""
    key = dotted(path)
    if key.startswith("charges.extras"):
        return True
    scalar = not isinstance(value, dict | list)
    return scalar and (key in FIELDS or f"{key}.preset" in FIELDS)


def _written(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(map(_written, value))
    return str(value)
