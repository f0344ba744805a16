"""Presets as pages: the kinds with their numbers, one kind as a table, one preset in full with its text to paste."""

from collections.abc import Mapping

from finishcalc.model.listed import ListedPreset, PresetDetail
from finishcalc.rendering.documents.writing import Record, safe_json
from finishcalc.rendering.pages.page import Group, Head, Page, Paragraph, Table, Verbatim, sentences
from finishcalc.wording.plain import plain
from finishcalc.wording.words import capital

PURPOSES = {
    "fabrics": "cloth for backings, bindings and tops",
    "battings": "battings, in packages and off the roll",
    "styles": "quilting styles",
    "methods": "ways of quilting, with the minutes of their work",
    "beds": "mattresses, for a quilt that covers one",
    "tables": "tables, for a cloth that covers one",
}
"""The use of each kind."""
EXAMPLES = {
    "fabrics": 'fabric = "{}" under [backing] or [binding]',
    "battings": 'product = "{}" under [batting]',
    "styles": 'style = "{}" under [quilting]',
    "methods": 'method = "{}" under [quilting]',
    "beds": 'bed = "{}" under [top.covers], or --as {}',
    "tables": 'table = "{}" under [top.covers], or --as {}',
}
"""The ways in which a thing of each kind is named."""
UNITS = {"in": "inches", "cm": "centimetres"}
"""The units of projects, as they are spoken."""


def kinds_page(counts: Mapping[str, int], units: str) -> Page:
    """List the kinds with the number of their presets."""
    rows = [[kind, str(count), PURPOSES[kind]] for kind, count in counts.items()]
    table = Table(["Kind", "Number", "Use"], "lrl", rows)
    more = f"finishcalc presets KIND lists one, and finishcalc presets KIND NAME shows a preset. {_others(units)}"
    return Page(Head("", f"Presets for projects in {UNITS[units]}"), ((table,), (Paragraph(more, small=True),)))


def _others(units: str) -> str:
    (other,) = UNITS.keys() - {units}
    return f"Those for projects in {UNITS[other]}: --units {other}. Any project may name them too."


def kind_page(presets: list[ListedPreset], units: str) -> Page:
    """List the presets of a kind with their key figures; the shop's own are marked."""
    headings, kind = list(presets[0].figures), presets[0].kind
    rows = [
        [plain(each.name), plain(each.label), *map(plain, (each.figures[name] for name in headings)), _own(each)]
        for each in presets
    ]
    head, width = ["Name", "Called", *headings], len(headings) + 2
    if any(each.is_own for each in presets):
        head, width = [*head, ""], width + 1
    table = Table(head, "l" * width, [row[:width] for row in rows])
    name = presets[0].name
    more = f"Name one with {EXAMPLES[kind].format(name, name)}. {_prices(headings)}{_others(units)}"
    return Page(Head("", capital(kind)), ((table,), (Paragraph(plain(more), small=True),)))


def _prices(headings: list[str]) -> str:
    return "Prices are what a shop pays. " if "Price" in headings else ""


def _own(preset: ListedPreset) -> str:
    return "yours" if preset.is_own else ""


def preset_page(detail: PresetDetail) -> Page:
    """Show a preset: its key figures, where it stands, how to change it, and its text to paste."""
    preset = detail.listed
    name = plain(preset.name)
    figures = [f"{heading}: {text}" for heading, text in preset.figures.items() if text]
    change = [
        f"name it as {EXAMPLES[preset.kind].format(name, name)}",
        "in a project, paste the lines below and change what differs",
        f"for every project, put the keys that differ into your shop file, under [{preset.kind}.{name}]",
    ]
    groups: list[Group] = [
        (sentences("Figures", [plain(text) for text in figures]),),
        (sentences("From", [plain(preset.place), *map(plain, detail.notes)]),),
        (sentences("To change", [plain(text) for text in change]),),
        (Verbatim(tuple(plain(line) for line in detail.toml.rstrip("\n").split("\n"))),),
    ]
    return Page(Head(name, plain(preset.label)), tuple(groups))


def kinds_json(counts: Mapping[str, int], units: str) -> str:
    """Write the kinds with the number of their presets as a JSON document."""
    kinds = [{"kind": kind, "count": count, "use": PURPOSES[kind]} for kind, count in counts.items()]
    return safe_json({"units": units, "kinds": kinds})


def kind_json(presets: list[ListedPreset], units: str) -> str:
    """Write the presets of a kind as a JSON document."""
    return safe_json({"units": units, "presets": [_record(each) for each in presets]})


def preset_json(detail: PresetDetail) -> str:
    """Write one preset in full as a JSON document."""
    more = {"values": detail.values, "sources": detail.sources, "notes": list(detail.notes), "toml": detail.toml}
    return safe_json({"units": detail.units, "preset": _record(detail.listed) | more})


def _record(preset: ListedPreset) -> Record:
    figures = {heading.lower(): text for heading, text in preset.figures.items()}
    names = {"kind": preset.kind, "name": preset.name, "label": preset.label}
    return names | {"figures": figures, "place": preset.place, "own": preset.is_own}
