"""The part that `--explain` adds: the arithmetic of each figure, and the place of each default."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from finishcalc.intake.building.cover import COVERS, covered
from finishcalc.intake.layers import Laid, Layers
from finishcalc.intake.named_materials import is_pieced
from finishcalc.intake.positions import Path
from finishcalc.intake.source import dotted
from finishcalc.model.project import Span
from finishcalc.pipeline import Finishing
from finishcalc.plans.cloth import Purchase
from finishcalc.pricing.profit import Worth
from finishcalc.rendering.pages.page import columns, wrap
from finishcalc.wording.notation import Notation
from finishcalc.wording.said import Audience, Said


class Default(NamedTuple):
    """A value that the project file does not give, and the place it comes from instead."""

    key: str
    value: str
    layer: str
    file: str
    line: int


class Arithmetic(NamedTuple):
    """The sentences of one part's arithmetic: its `key` in the document, its `heading` on the page."""

    key: str
    heading: str
    sentences: list[Said]


def arithmetic(result: Finishing, audience: Audience, worth: Worth | None) -> list[Arithmetic]:
    """Give every part's arithmetic that this reader may see, empty for a part that is not wanted.

    The page and the document both read this list, so that neither can forget a part. `worth` is None where the reader
    is the customer, who sees neither the hours nor the worth.
    """
    plans, quote = result.plans, result.quote
    parts: list[tuple[str, str, Iterable[Said]]] = [
        ("top", "Top", plans.top.working),
        ("piecing", "Piecing", plans.pieced.working if plans.pieced else ()),
        ("backing", "Backing", plans.backing.working if plans.backing else ()),
        ("batting", "Batting", plans.batting.working if plans.batting else ()),
        ("binding", "Binding", plans.binding.working if plans.binding else ()),
        ("hem", "Edge", plans.hem.working if plans.hem else ()),
        ("quilting", "Quilting", plans.quilting.working),
        ("buy", "To buy", _together(each for each in plans.cloth if each.supplied_by == "shop")),
        ("buy", "Of yours", _together(each for each in plans.cloth if each.supplied_by == "customer")),
    ]
    if worth:
        parts += [("hours", "Minutes", plans.hours.working)]
    parts += [("quote", "Price", quote.working)]
    if worth:
        parts += [("studio", "Worth", worth.working)]
    return [
        Arithmetic(key, heading, [said for said in said_of if said.is_for(audience)]) for key, heading, said_of in parts
    ]


def _together(cloth: Iterable[Purchase]) -> Iterator[Said]:
    """Give the arithmetic of cloth that several parts share; the arithmetic of a single part ends with its own."""
    return (said for purchase in cloth if len(purchase.uses) > 1 for said in purchase.working)


def defaults(layers: Layers, notation: Notation, audience: Audience) -> list[Default]:
    """List by key every value behind the result that the project file does not give."""
    listed = []
    unused: set[Path] = {("fabrics",), ("battings",), ("styles",), ("methods",), ("beds",), ("tables",)}
    unused |= set() if is_pieced(layers) else {("top", "piecing")}
    unused |= set() if covered(layers) else {COVERS}
    for path, laid in layers.values.items():
        hidden = audience == "customer" and laid.audience == "studio"
        if laid.origin.layer != "project file" and not hidden and not unused & {path[:1], path[:2]}:
            origin = laid.origin
            listed.append(Default(dotted(path), written(laid, notation), origin.layer, origin.source.name, origin.line))
    return listed


def written(laid: Laid, notation: Notation) -> str:
    """Write a value in the project's notation."""
    return _written(laid.value, notation)


def default_lines(listed: list[Default], width: int) -> list[str]:
    """Write the defaults as a table, or key by key where the terminal is narrow."""
    sources = [f"{default.file}:{default.line}" if default.line else default.file for default in listed]
    room = min(width - max(map(len, sources)) - max(len(default.key) for default in listed) - 4, 24)
    if room < 12:
        wrapped = [
            wrap(f"{default.key} = {default.value} ({where})", width - 2)
            for default, where in zip(listed, sources, strict=True)
        ]
        return [line for first, *more in wrapped for line in (first, *(f"  {later}" for later in more))]
    rows = [[[default.key], wrap(default.value, room), [where]] for default, where in zip(listed, sources, strict=True)]
    return columns(rows, "lll")


def _written(value: Any, notation: Notation) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Span):
        return " / ".join(dict.fromkeys(_written(minutes, notation) for minutes in value))
    if type(value) in (tuple, list):
        return ", ".join(_written(item, notation) for item in value) or "none"
    if isinstance(value, dict):
        return _written(next(iter(value.values())), notation)
    if isinstance(value, str) and not value:
        return "none"
    return notation.price(value, 0) if isinstance(value, Fraction) else notation.show(value)
