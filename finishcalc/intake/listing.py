"""Lists the presets by kind, with their key figures, and gives each as TOML to paste into a project.

Things that a shop file names of a kind stand first. The TOML of a preset is its file's own text, because the comments
tell the source of each figure.
"""

import re
from collections.abc import Iterable, Iterator
from decimal import Decimal
from pathlib import PurePath
from typing import Any, NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.shop_in_use import shop_in_use
from finishcalc.intake.shop_layers import checked_shop
from finishcalc.intake.source import Source, read
from finishcalc.intake.words import hint_for, understood
from finishcalc.measures.length import Length
from finishcalc.model.files import MATERIALS, ShopFile
from finishcalc.model.listed import ListedPreset, PresetDetail
from finishcalc.model.section import Section
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.notation import Notation, plain_blanks
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import counted

PLACES = {
    "fabrics": "backing.fabric",
    "battings": "batting.product",
    "styles": "quilting.style",
    "methods": "quilting.method",
    "beds": "top.covers.bed",
    "tables": "top.covers.table",
}
"""The table of a project that names a thing of each kind; a fabric's is one of several."""


class Known(NamedTuple):
    """The presets for projects in `units`, and the things that a shop file names, with its text; none without one."""

    units: str
    shop: ShopFile | None = None
    shop_text: Source | None = None

    @property
    def notation(self) -> Notation:
        """The way figures are written here."""
        return Notation(self.units)

    def own(self, kind: str) -> dict[str, Section]:
        """The shop's own things of a kind, or its changes to presets, by name."""
        return getattr(self.shop, kind, None) or {}

    def names(self, kind: str) -> list[str]:
        """The names of a kind: the shop's own first, then the presets of these units."""
        return list(dict.fromkeys([*self.own(kind), *presets.own_names(kind, self.units)]))


def known_presets(shop: str | None = None, units: str | None = None) -> Known:
    """Find the shop file as a quote would, and the presets for its units, or for others. Raises ProblemsFound."""
    in_use, problems = shop_in_use(shop, None, PurePath(), Source("", ""), read)
    source = in_use.source if in_use else None
    shop_file, shop_problems = checked_shop(source, units or "in") if source else (None, [])
    if problems or shop_problems:
        raise ProblemsFound([*problems, *shop_problems])
    return Known(units or (shop_file and shop_file.units) or "in", shop_file, source)


def kind_meant(word: str) -> str:
    """Give the kind of presets that a word means. Raises ProblemsFound."""
    return understood(word, MATERIALS) or _unknown(word, f'there is no kind of presets "{word}"', [list(MATERIALS)])


def listed(kind: str, known: Known) -> list[ListedPreset]:
    """List every thing of a kind with its key figures."""
    return [_listed(kind, name, known) for name in known.names(kind)]


def detail(kind: str, word: str, known: Known) -> PresetDetail:
    """Give one preset in full, by its name or by a word for it. Raises ProblemsFound."""
    tiers = [known.names(kind), [*known.own(kind), *presets.names(kind, known.units)]]
    name = understood(word, *tiers) or _unknown(word, f'{kind} have no preset "{word}"', tiers)
    preset = presets.find(kind, name, known.units)
    record = _listed(kind, name, known)
    if name in known.own(kind) and known.shop_text:
        return _own_detail(record, preset, known)
    if preset is None:
        raise AssertionError(f"{name} is neither the shop's nor a preset")
    units = str(preset.source.table["units"])
    lines = _lines_of(preset)
    toml = "\n".join([f'[{PLACES[kind]}]{" " * 4}# in a project with units = "{units}"', *lines])
    values = _raw(preset.source.table[name])
    return PresetDetail(record, units, values, dict(_sources(lines)), _notes(preset.source), toml + "\n")


def _unknown(word: str, message: str, tiers: Iterable[Iterable[str]]) -> str:
    """Refuse a word that is no name, with what it may mean."""
    problem = Problem(ProblemCode.UNKNOWN_PRESET, "presets", 0, 0, "", message, hint_for(word, *tiers))
    raise ProblemsFound([problem])


def _listed(kind: str, name: str, known: Known) -> ListedPreset:
    preset, own = presets.find(kind, name, known.units), known.own(kind).get(name)
    values = own.filled_from(preset.values) if own and preset else own or (preset and preset.values)
    if values is None:
        raise AssertionError(f"{name} is neither the shop's nor a preset")
    source, path = (known.shop_text, (kind, name)) if own else (preset and preset.source, (name,))
    currency = _currency(own, preset, known)
    figures = {heading: plain_blanks(text) for heading, text in FIGURES[kind](values, known.notation, currency)}
    place = f"{source.name}:{source.line_of(path)}" if source else ""
    return ListedPreset(kind, name, getattr(values, "name", None) or name, figures, place, own is not None)


def _currency(own: Section | None, preset: presets.Preset | None, known: Known) -> str:
    """The currency that a price is in: the shop's for its own."""
    is_own = own is not None and getattr(own, "price", None) is not None
    if is_own and known.shop and known.shop.money and known.shop.money.currency:
        return str(known.shop.money.currency)
    return preset.currency if preset and not is_own else presets.sample_shop(known.units)[0].money.currency


# --- key figures -------------------------------------------------------------------------------------------------

Figures = Iterator[tuple[str, str]]


def _fabric(fabric: Any, notation: Notation, currency: str) -> Figures:
    yield "Width", _length(fabric.width, notation)
    price = fabric.price or fabric.selling
    yield "Price", f"{notation.price(price.value)} {currency} a {fabric.per or 'unit'}" if price else ""
    per = fabric.per or notation.units
    yield "Cut by", notation.show(InUnit(fabric.step, per)) if fabric.step is not None else ""
    yield "One-way", "yes" if fabric.directional or fabric.nap else ""


def _batting(batting: Any, notation: Notation, currency: str) -> Figures:
    packages = batting.packages.value if batting.packages else ()
    yield "Packages", " to ".join(dict.fromkeys(each.size for each in (*packages[:1], *packages[-1:])))
    rolls = batting.rolls.value if batting.rolls else ()
    yield "Rolls", ", ".join(_length(each.width, notation) for each in rolls)
    yield "Lines at most", _length(batting.widest, notation)
    yield "Shrinks", f"{notation.quantity(batting.shrink * 100)} %" if batting.shrink is not None else ""


def _style(style: Any, notation: Notation, currency: str) -> Figures:
    yield "Lines", style.lines or ""
    yield "Spacing", _length(style.line_spacing, notation)
    yield "Row pitch", _length(style.row_pitch, notation)
    yield "Rate class", style.rate_class or ""


def _method(method: Any, notation: Notation, currency: str) -> Figures:
    yield "On the frame", "yes" if method.frame else "no"
    yield "Stitch", method.stitch or ""
    yield "Work", counted(len(method.stages.value), "stage") if method.stages else ""


def _bed(bed: Any, notation: Notation, currency: str) -> Figures:
    yield "Mattress", _size(bed, notation)
    yield "Depth", _length(bed.depth, notation)


def _table(table: Any, notation: Notation, currency: str) -> Figures:
    yield "Shape", table.shape or ""
    yield "Top", _length(table.diameter, notation) + " across" if table.diameter else _size(table, notation)
    yield "Height", _length(table.height, notation)


FIGURES = {
    "fabrics": _fabric,
    "battings": _batting,
    "styles": _style,
    "methods": _method,
    "beds": _bed,
    "tables": _table,
}
"""The key figures of each kind, a heading and a text each; a figure that is not given has an empty text."""


def _length(length: Length | None, notation: Notation) -> str:
    return "" if length is None else notation.show(length)


def _size(thing: Any, notation: Notation) -> str:
    return "" if None in (thing.width, thing.length) else notation.size(thing.width, thing.length)


# --- as TOML -----------------------------------------------------------------------------------------------------


def _lines_of(preset: presets.Preset) -> list[str]:
    """The lines of a preset's table in its file, with their comments, without its head."""
    _, _, rest = preset.source.text.partition(f"\n[{preset.name}]\n")
    return re.split(r"\n+(?=\[[^\]\n]+\]\s*(?:#.*)?(?:\n|$))|\Z", rest, maxsplit=1)[0].rstrip("\n").split("\n")


def _sources(lines: list[str]) -> Iterator[tuple[str, str]]:
    """The comment of each key that has one on its line; an indented line is within a key's value."""
    for line in lines:
        if match := re.match(r"(\w+) = [^#]*# (.+)$", line):
            yield match[1], match[2]


def _notes(source: Source) -> tuple[str, ...]:
    """The notes below the keys in the head of a presets' file: those that hold for all of its figures."""
    head = re.match(r"(?:#.*\n)+", source.text)
    lines = [line.removeprefix("#") for line in head[0].splitlines()] if head else []
    last_key = max((n for n, line in enumerate(lines) if line.startswith("  ")), default=len(lines))
    return (" ".join(line.strip() for line in lines[last_key + 1 :]),) if lines[last_key + 1 :] else ()


def _own_detail(record: ListedPreset, preset: presets.Preset | None, known: Known) -> PresetDetail:
    """The shop's own thing: its keys, with those of the preset of its name that it leaves as they are."""
    if known.shop_text is None:
        raise AssertionError("the shop has no text")
    table: Any = known.shop_text.table[record.kind]
    values = (_raw(preset.source.table[record.name]) if preset else {}) | _raw(table[record.name])
    units = str((known.shop and known.shop.units) or known.units)
    import tomlkit  # only a thing of the shop's own is written anew

    body = tomlkit.dumps(values)
    toml = f'[{PLACES[record.kind]}]{" " * 4}# in a project with units = "{units}"\n{body}'
    return PresetDetail(record, units, values, {}, (), toml)


def _raw(value: Any) -> Any:
    """A value as TOML has it, decimals as the text that keeps them exact."""
    if isinstance(value, dict):
        return {key: _raw(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_raw(item) for item in value]
    return str(value) if isinstance(value, Decimal) else value
