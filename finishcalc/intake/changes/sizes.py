"""The sizes a design may be compared in, as they are said: "queen", "60x84", "round 70", "table 36x72 drop 10".

What is said becomes a change to the project: its own description of its size gives way to the one asked for.
"""

import re
from decimal import Decimal
from typing import Any, NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.building.cover import table_shape
from finishcalc.intake.changes.change import Change
from finishcalc.intake.positions import KeyPath
from finishcalc.intake.resolve import Resolved
from finishcalc.measures.length import Length
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.cover import Table
from finishcalc.problems import ProblemCode
from finishcalc.wording.words import did_you_mean

USES = ("tablecloth", "throw", "wall")
"""What a plain size may be called: it says the use of the top. A bed, a table and a crib are things to cover."""
COVERED = {"bed": "beds", "table": "tables"}
"""What may be covered, with the kind of presets that have its names."""
SAID_AFTER = {"drop": "drop", "foot": "foot_drop", "tuck": "pillow_tuck", "draw-up": "draw_up"}
AFTER = r" (?=(?:drop|tuck|draw-up)(?: |$)|foot [0-9½¼¾])"
"""Where those words begin. A foot that no number follows is a unit."""
FORMS = 'a bed or table by its name, or as in "60x84", "round 70", "throw 50x65", "table 36x72 drop 10"'
SIZES: tuple[KeyPath, ...] = tuple(
    ("top", key)
    for key in (
        *("width", "length", "diameter", "measured", "shape"),
        *("covers", "blocks", "sashing", "borders", "centre", "piecing"),
    )
)
"""The keys by which a project says how large its top is, and in what shape."""
CURVED: tuple[KeyPath, ...] = (("top", "corner_radius"), ("top", "scallop"), ("binding", "cut"))
"""What a round or oval top has not, or has only one way."""


class Asked(NamedTuple):
    """A size that is asked for: the text as it was said, and the change that makes it the size of the project."""

    text: str
    change: Change


class Target(NamedTuple):
    """What is meant: its outline, the keys of the top that say it, and whether they tell of its use as well."""

    shape: str
    puts: dict[KeyPath, Any]
    has_use: bool


class Catalogue(NamedTuple):
    """The project as it is, its units, and the data of its own file."""

    resolved: Resolved
    units: str
    data: dict[str, Any]

    @property
    def top(self) -> dict[str, Any]:
        """What the file says of its top."""
        return self.data.get("top") or {}

    def names(self, kind: str) -> list[str]:
        """The shop's own names of a kind, and those of the presets."""
        return self.resolved.layers.names(kind) + presets.names(kind, self.units)


def asked(text: str, known: Catalogue) -> Asked:
    """What one size asks of a project. Raises MeasureError with the nearest name."""
    said, text = text, " ".join(text.split())
    head, *rest = re.split(AFTER, text)
    options = dict(_option(part, known.units) for part in rest)
    if len(options) < len(rest):
        raise MeasureError(ProblemCode.SAID_TWICE, "gives one word twice", "keep the one you mean")
    target = _cover(head, options, known) or _plain(head, options, known)
    drops = SIZES + ((("top", "use"),) if target.has_use else ()) + (CURVED if target.shape != "rectangle" else ())
    return Asked(text, Change(f'--as "{said}"', drops, tuple(target.puts.items())))


def _option(part: str, units: str) -> tuple[str, str]:
    """One of the lengths that hang over the edge, or the draw-up, under its key."""
    word, _, value = part.partition(" ")
    if not value.strip():
        raise MeasureError(
            ProblemCode.AMOUNT_NOT_SAID, f"gives no amount for {word}", f'write it as in "queen {word} 12"'
        )
    if word != "draw-up":
        Length.parse(value.strip(), units)
    return SAID_AFTER[word], value.strip()


def _cover(head: str, options: dict[str, str], known: Catalogue) -> Target | None:
    """A bed or a table by its name or its size, or None where none is meant."""
    word, _, tail = head.partition(" ")
    for key, kind in COVERED.items():
        said = (tail if word == key else head.removesuffix(f" {key}")).strip()
        name = next((name for name in (said, said.lower()) if name in known.names(kind)), None)
        if name:
            return _covering(key, name, _shape_of(kind, name, known), options, known)
    if word not in COVERED or not tail:
        return None
    shape, sides = _outline(tail, known)
    if word == "bed" and shape != "rectangle":
        raise MeasureError(ProblemCode.BED_IS_A_RECTANGLE, "a bed is a rectangle", 'write it as in "bed 60x80"')
    what = sides if word == "bed" else {"shape": shape, **sides}
    return _covering(word, what, shape, options, known)


def _covering(key: str, what: str | dict[str, Any], shape: str, options: dict[str, str], known: Catalogue) -> Target:
    """What the project says of its own cover holds for another of its kind; its draw-up holds for any."""
    own = known.top.get("covers") or {}
    kept = {name: own[name] for name in SAID_AFTER.values() if name in own and (key in own or name == "draw_up")}
    kept = {name: str(value) if isinstance(value, Decimal) else value for name, value in kept.items()}
    return Target(shape, {("top", "covers"): {key: what, **kept, **options}}, has_use=True)


def _shape_of(kind: str, name: str, known: Catalogue) -> str:
    """The shape of a table by its name: the shop's own word stands over the preset's."""
    if kind == "beds":
        return "rectangle"
    preset = presets.find(kind, name, known.units)
    table = known.resolved.tables.tables.get(name, Table.new())
    if preset and isinstance(preset.values, Table):
        table = table.filled_from(preset.values)
    return table_shape(table) or "rectangle"


def _plain(head: str, options: dict[str, str], known: Catalogue) -> Target:
    """A size of the top itself, which may be called by its use."""
    word, _, tail = head.partition(" ")
    named = word if word in USES else ""
    shape, sides = _outline(tail if named else head, known)
    if options:
        raise MeasureError(
            ProblemCode.NOTHING_TO_COVER,
            "only the cover of a bed or table has a drop",
            'name the table or bed, as in "table 36x72 drop 10"',
        )
    use = named or _use_of_the_cover(known)
    puts: dict[KeyPath, Any] = {("top", "use"): use} if use else {}
    return Target(
        shape, puts | _shape_put(shape, known) | {("top", side): value for side, value in sides.items()}, bool(use)
    )


def _shape_put(shape: str, known: Catalogue) -> dict[KeyPath, Any]:
    """The shape, unless it is what a top has in this shop anyhow."""
    usual = known.resolved.layers.values["top", "shape"]
    enough = ("rectangle", "round") if shape == "round" else (shape,)
    if usual.origin.layer != "project file" and usual.value in enough:
        return {}
    return {("top", "shape"): shape}


def _use_of_the_cover(known: Catalogue) -> str:
    """The use that follows from what the project covers: it stays when that gives way to a size."""
    top = known.top
    return known.resolved.tables.top.use if "covers" in top and "use" not in top else ""


def _outline(text: str, known: Catalogue) -> tuple[str, dict[str, Any]]:
    """The shape and the sides, as keys of a file, of "60x84", "round 70" or "oval 60x84".

    Raises MeasureError with the nearest name.
    """
    shape, _, tail = text.strip().partition(" ")
    sides = re.split(r"\s*[x×]\s*|\s+by\s+", tail if shape in ("round", "oval") else text.strip(), maxsplit=1)
    if shape == "round" and tail:
        return shape, {"diameter": _side(tail, known.units)}
    if len(sides) != 2 or not all(sides):
        names = [name for kind in COVERED.values() for name in known.names(kind)]
        raise MeasureError(
            ProblemCode.UNKNOWN_SIZE,
            "is not a known bed, table or size",
            did_you_mean(text, names) or "give " + FORMS,
        )
    width, length = (_side(side, known.units) for side in sides)
    return "oval" if shape == "oval" else "rectangle", {"width": width, "length": length}


def _side(text: str, units: str) -> int | str:
    """A length as it was written, once it can be read: a whole number bare, all else as text."""
    text = text.strip()
    if first := re.match(r"[^\W\d]{3,} ", text):
        hint = did_you_mean(first[0].strip(), [*COVERED, "round", "oval", *USES]) or "give " + FORMS
        raise MeasureError(ProblemCode.UNKNOWN_SIZE, "is not a known bed, table or size", hint)
    Length.parse(text, units)
    return int(text) if text.isascii() and text.isdigit() else text
