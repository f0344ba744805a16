"""Sizes from the command line to compare a design in: "queen", "60x84", "round 70", "table 36x72 drop 10".

A requested size becomes a change to the project: it takes the place of the project's own description of its size.
"""

import re
from decimal import Decimal
from typing import NamedTuple, TypeVar

from finishcalc.intake import presets
from finishcalc.intake.building.cover import cover_use, table_shape
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import KeyPath, TomlTable, value_at
from finishcalc.intake.resolve import Resolved
from finishcalc.intake.words import hint_for, understood
from finishcalc.measures.length import METRIC, Length
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.cover import Bed, Table
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode

USES = ("tablecloth", "throw", "wall")
"""The uses that may stand before a plain size. A bed, a table and a crib are not among them: they are covered."""
COVERED = {"bed": "beds", "table": "tables"}
"""The things that may be covered, each with the kind of presets that has its names."""
COVER_OPTIONS = {"drop": "drop", "foot": "foot_drop", "tuck": "pillow_tuck", "draw-up": "draw_up"}
"""The words that may follow a bed or a table, each with its key in `[top.covers]`."""
BEFORE_OPTION = r" (?=(?:drop|tuck|draw-up)(?: |$)|foot [0-9½¼¾])"
"""Finds the blank before one of those words. A foot that no number follows is a unit."""
ROUND_SHAPES = ("round", "oval")
"""The shapes that may stand before a size. Any other size is that of a rectangle."""
MEASURED = re.compile(r"(round|oval) |.*\d\W*(x|×|by )")
"""Finds a size that is told by its measures, and so by no name."""
OTHER_UNIT = re.compile(r"[^a-z\"'′″]+ x [^a-z\"'′″]+?\s*([a-z]+|[\"'′″])", re.IGNORECASE)
"""Finds the unit of a size where it stands after the second side alone."""
FORMS = 'a bed or table by its name, or as in "60x84", "round 70", "throw 50x65", "table 36x72 drop 10"'
SIZE_KEYS: tuple[KeyPath, ...] = tuple(
    ("top", key)
    for key in (
        *("width", "length", "diameter", "measured", "shape"),
        *("covers", "blocks", "sashing", "borders", "centre", "piecing"),
    )
)
"""The keys by which a project says how large its top is, and in what shape."""
STRAIGHT_KEYS: tuple[KeyPath, ...] = (("top", "corner_radius"), ("top", "scallop"), ("binding", "cut"))
"""The keys that a round or oval top cannot have, or can have one value of."""


class RequestedSize(NamedTuple):
    """A size from the command line: its text, and the change that makes it the size of the project."""

    text: str
    change: Change


class Target(NamedTuple):
    """The top that a text describes: its outline, the keys that give it, and whether its use is among them."""

    shape: str
    puts: dict[KeyPath, object]
    gives_use: bool


class SizeContext(NamedTuple):
    """The project that a requested size changes: as it is, its units, and the table of its own file."""

    resolved: Resolved
    units: str
    table: TomlTable

    @property
    def top(self) -> TomlTable:
        """The `[top]` of the project's own file."""
        return _table_at(self.table, ("top",))

    @property
    def covers(self) -> TomlTable:
        """The `[top.covers]` of the project's own file."""
        return _table_at(self.table, ("top", "covers"))

    def names(self, kind: str) -> tuple[list[str], list[str]]:
        """The shop's own names of a kind, and those of the presets of these units; and then those of all presets."""
        own = self.resolved.layers.names(kind)
        return own + presets.own_names(kind, self.units), own + presets.names(kind, self.units)


def _table_at(table: TomlTable, path: KeyPath) -> TomlTable:
    found = value_at(table, path)
    return found if isinstance(found, dict) else {}


def requested_size(argument: str, context: SizeContext) -> RequestedSize:
    """Read one size from the command line. Raises MeasureError with the nearest name."""
    text = " ".join(argument.split())
    head, *rest = re.split(BEFORE_OPTION, text)
    options = dict(_option(part, context.units) for part in rest)
    if len(options) < len(rest):
        raise MeasureError(ProblemCode.SAID_TWICE, "gives one word twice", "keep the one you mean")
    target = _cover(head, options, context) or _plain(head, options, context)
    drops = (
        SIZE_KEYS
        + ((("top", "use"),) if target.gives_use else ())
        + (STRAIGHT_KEYS if target.shape != "rectangle" else ())
    )
    return RequestedSize(text, Change(f'--as "{argument}"', drops, tuple(target.puts.items())))


def _option(part: str, units: str) -> tuple[str, str]:
    """The key and the text of a length that hangs over the edge, or of the draw-up."""
    word, _, value = part.partition(" ")
    if not value.strip():
        raise MeasureError(
            ProblemCode.AMOUNT_NOT_SAID, f"gives no amount for {word}", f'write it as in "queen {word} 12"'
        )
    if word != "draw-up":
        Length.parse(value.strip(), units)
    return COVER_OPTIONS[word], value.strip()


def _cover(head: str, options: dict[str, str], context: SizeContext) -> Target | None:
    """A bed or a table by its name or its size, or None where none is meant."""
    word, _, tail = head.partition(" ")
    for key, kind in COVERED.items():
        text = (tail if word == key else head.removesuffix(f" {key}")).strip()
        name = None if MEASURED.match(text) else understood(text, *context.names(kind))
        if name:
            return _covering(key, name, _shape_of(kind, name, context), options, context)
    if word not in COVERED or not tail:
        return None
    shape, sides = _outline(tail, context)
    if word == "bed" and shape != "rectangle":
        raise MeasureError(ProblemCode.BED_IS_A_RECTANGLE, "a bed is a rectangle", 'write it as in "bed 60x80"')
    thing = sides if word == "bed" else {"shape": shape, **sides}
    return _covering(word, thing, shape, options, context)


def _covering(key: str, thing: object, shape: str, options: dict[str, str], context: SizeContext) -> Target:
    """A top that covers a bed or a table. It keeps the lengths of the project's own cover if that is of the same kind,
    and its draw-up in any case. A crib is not of the kind of a larger bed, whose drop it has no room for."""
    own = context.covers
    was_crib = cover_use(context.resolved.tables.top.covers) == "crib"
    same = key in own and was_crib == (key == "bed" and _is_crib(thing, context))
    kept = {name: own[name] for name in COVER_OPTIONS.values() if name in own and (same or name == "draw_up")}
    texts = {name: str(value) if isinstance(value, Decimal) else value for name, value in kept.items()}
    return Target(shape, {("top", "covers"): {key: thing, **texts, **options}}, gives_use=True)


def _is_crib(thing: object, context: SizeContext) -> bool:
    """Tell a crib among the beds, by its name or by its sides."""
    if isinstance(thing, dict):
        width, length = (Length.parse(str(thing[side]), context.units) for side in ("width", "length"))
        return Bed.new(width=width, length=length).is_crib
    bed = _by_name(Bed, "beds", str(thing), context)
    return None not in (given(bed.width), given(bed.length)) and bed.is_crib


def _shape_of(kind: str, name: str, context: SizeContext) -> str:
    """The shape of a bed or a table by its name."""
    return "rectangle" if kind == "beds" else table_shape(_by_name(Table, kind, name, context)) or "rectangle"


Thing = TypeVar("Thing", Bed, Table)


def _by_name(thing: type[Thing], kind: str, name: str, context: SizeContext) -> Thing:
    """A bed or a table by its name: the shop's own values override the preset's."""
    own: Thing = getattr(context.resolved.tables, kind).get(name, thing.new())
    preset = presets.find(kind, name, context.units)
    return own.filled_from(preset.values) if preset and isinstance(preset.values, thing) else own


def _plain(head: str, options: dict[str, str], context: SizeContext) -> Target:
    """A size of the top itself, which may be called by its use."""
    named, tail = _use(head)
    shape, sides = _outline(tail, context)
    if options:
        raise MeasureError(
            ProblemCode.NOTHING_TO_COVER,
            "only the cover of a bed or table has a drop",
            'name the table or bed, as in "table 36x72 drop 10"',
        )
    use = named or _use_of_the_cover(context)
    puts: dict[KeyPath, object] = {("top", "use"): use} if use else {}
    return Target(
        shape, puts | _shape_key(shape, context) | {("top", side): value for side, value in sides.items()}, bool(use)
    )


def _use(head: str) -> tuple[str, str]:
    """The use that a size is called by, and the size: ("throw", "round 60") of "lap circle 60"."""
    words, tail = re.fullmatch(r"([^\d½¼¾]*)(.*)", head).groups()  # type: ignore[union-attr]
    *first, last = words.split() or [""]
    shape = understood(last, ROUND_SHAPES)
    named = " ".join(first if shape else [*first, last])
    use = understood(named, USES)
    if not use and (named or not tail):
        return "", head
    if not tail:
        hint = f'a {use} has no size of its own: write it as in "{use} 50x65"'
        raise MeasureError(ProblemCode.UNKNOWN_SIZE, "is not a known bed, table or size", hint)
    return use or "", f"{shape} {tail}" if shape else tail


def _shape_key(shape: str, context: SizeContext) -> dict[KeyPath, object]:
    """The shape's key, if the shop's usual shape would not do."""
    usual = context.resolved.layers.values["top", "shape"]
    will_do = ("rectangle", "round") if shape == "round" else (shape,)
    if usual.origin.layer != "project file" and usual.value in will_do:
        return {}
    return {("top", "shape"): shape}


def _use_of_the_cover(context: SizeContext) -> str:
    """The use that follows from the project's cover, to be kept when the cover gives way to a size."""
    top = context.top
    return context.resolved.tables.top.use if "covers" in top and "use" not in top else ""


def _outline(text: str, context: SizeContext) -> tuple[str, dict[str, int | str]]:
    """The shape and the sides, as keys of a file, of "60x84", "round 70" or "oval 60x84".

    Raises MeasureError with the nearest name.
    """
    shape, _, tail = text.strip().partition(" ")
    sides = re.split(r"\s*[x×]\s*|\s+by\s+", tail if shape in ROUND_SHAPES else text.strip(), maxsplit=1)
    if shape == "round" and tail:
        return shape, {"diameter": _side(tail, context.units)}
    if len(sides) != 2 or not all(sides):
        tiers = [first + more for first, more in zip(*(context.names(kind) for kind in COVERED.values()), strict=True)]
        hint = hint_for(text, *tiers, otherwise="give " + FORMS)
        raise MeasureError(ProblemCode.UNKNOWN_SIZE, "is not a known bed, table or size", hint)
    width, length = (_side(side, context.units) for side in _with_one_unit(sides, context.units))
    return "oval" if shape == "oval" else "rectangle", {"width": width, "length": length}


def _with_one_unit(sides: list[str], units: str) -> list[str]:
    """Give both sides the unit that stands after the second alone, as in "150x180 cm" among inches. One of the same
    system stays with its side, as in a table of "36 x 6 ft"."""
    unit = OTHER_UNIT.fullmatch(" x ".join(sides))
    if not unit or (unit[1] in METRIC) == (units in METRIC):
        return sides
    return [f"{sides[0]} {unit[1]}", sides[1]]


def _side(text: str, units: str) -> int | str:
    """A length as it was written, once it can be read: a whole number bare, all else as text."""
    text = text.strip()
    if first := re.match(r"[^\W\d]{3,} ", text):
        hint = hint_for(first[0].strip(), [*COVERED, *ROUND_SHAPES, *USES], otherwise="give " + FORMS)
        raise MeasureError(ProblemCode.UNKNOWN_SIZE, "is not a known bed, table or size", hint)
    Length.parse(text, units)
    return int(text) if text.isascii() and text.isdigit() else text
