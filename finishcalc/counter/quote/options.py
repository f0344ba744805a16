"""The options of a quote: other ways and things, other patterns, other sizes, and what each choice would change.

Each is a plan of its own, so they are worked out after the quote, a few at a time."""

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import chain
from types import MappingProxyType
from typing import NamedTuple

from markupsafe import Markup

from finishcalc.alternatives.choices import Alternatives, alternatives_of
from finishcalc.alternatives.differences import differences_of
from finishcalc.alternatives.styles import OtherStyle, styles_of
from finishcalc.comparing.beside import OtherSize, RefusedSize, sizes_beside
from finishcalc.counter.form.field import Field
from finishcalc.counter.form.fields import FIELDS
from finishcalc.counter.form.showing import Desk, shown_field
from finishcalc.counter.form.usual import UsualValues
from finishcalc.counter.fragments import Fragments, problem_words
from finishcalc.counter.pages import piece, text
from finishcalc.counter.quote.customer import amount_words
from finishcalc.counter.working import Worked
from finishcalc.intake.changes.settings import key_path
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing
from finishcalc.pricing.offers import differs_by_sample
from finishcalc.rendering.pages.layers import outline_words
from finishcalc.rendering.pages.options import backing_words, binding_words, cutting_words
from finishcalc.rendering.writing import SAMPLE_MARK, notation_of
from finishcalc.taking import Take
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain

PRICED = tuple(field for field in FIELDS.values() if field.priced)
"""The fields whose choices stand with what each would change."""


MOST_SIZES = 3
"""The sizes that stand beside the one that is quoted."""


Work = Callable[[], Fragments]
"""A piece of work that gives pieces of the page."""


class Option(NamedTuple):
    """An option of a quote: its name, its amount, what is told below, and what is written to take it. The `present` one
    is the quote as it stands."""

    name: str
    amount: str
    told: tuple[str, ...]
    take: Take = MappingProxyType({})
    present: bool = False

    @property
    def id(self) -> str:
        """The id by which a button asks for it; nothing for one that cannot be taken."""
        return _id(self.take) if self.take else ""


def _id(take: Take) -> str:
    return hashlib.sha256(json.dumps(dict(take), sort_keys=True).encode()).hexdigest()[:16]


# --- what is taken -----------------------------------------------------------------------------------------------


def option_taken(worked: Worked, id_: str, sizes: Sequence[str] = ()) -> Take:
    """Find what is written to take an option of a quote, with the sizes that are asked for; nothing where it is no
    longer one of them."""
    result = worked.result
    if result is None or worked.stale:
        return {}
    takes = chain(_single_takes(result), _style_takes(result), _size_takes(result, sizes))
    return next((take for take in takes if take and _id(take) == id_), {})


def _single_takes(result: Finishing) -> Iterator[Take]:
    return (option.take for option in single_options(result, alternatives_of(result)))


def _style_takes(result: Finishing) -> Iterator[Take]:
    return (style.take for style in styles_of(result))


def _size_takes(result: Finishing, sizes: Sequence[str]) -> Iterator[Take]:
    return (size.take for size in sizes_beside(result, MOST_SIZES, sizes) if isinstance(size, OtherSize))


# --- in words ----------------------------------------------------------------------------------------------------


def single_options(result: Finishing, others: Alternatives) -> Iterator[Option]:
    """Give the options that change one thing, in the order of the customer's sheet."""
    notation, now = notation_of(result), result.quote.total
    for backing in others.backings:
        yield _option(backing_words(backing, notation), backing.total, now, notation, take=backing.take)
    if other := others.binding:
        yield _option(binding_words(other, notation), other.total, now, notation, take=other.take)
    for cutting in others.cuttings:
        yield _option(cutting_words(cutting, notation), cutting.total, now, notation, take=cutting.take)
    for offer in others.offers:
        name = notation.write(offer.label)
        yield _option(name, offer.total, now, notation, marked=offer.rests_on_sample, take=offer.take)


def _option(
    name: str, total: Money, now: Money, notation: Notation, *, marked: bool = False, take: Take | None = None
) -> Option:
    """Set an option with the change of the total, and the total that it comes to."""
    mark = f"{NO_BREAK}{SAMPLE_MARK}" if marked else ""
    return Option(name, change_words(total - now, notation) + mark, (f"comes to {notation.show(total)}",), take or {})


def change_words(adds: Money, notation: Notation) -> str:
    """Write a change of the total as it stands beside a choice: "22.49 less", "no change"."""
    if not adds.minor:
        return "no change"
    bare = notation.bare_money(-adds if adds.minor < 0 else adds)
    return f"{bare} {'less' if adds.minor < 0 else 'more'}"


def style_columns(result: Finishing, styles: Iterable[OtherStyle]) -> list[Option]:
    """Set the pattern as it is quoted beside others, the cheapest first."""
    notation, quote = notation_of(result), result.quote
    areas = dict.fromkeys(notation.show(area.style.name) for area in result.plans.quilting.areas)
    present = Option(", ".join(areas), notation.show(quote.total), (), present=True)
    columns = [(quote.total, present)]
    for style in styles:
        mark = f"{NO_BREAK}{SAMPLE_MARK}" if style.rests_on_sample else ""
        told = (change_words(style.adds, notation), notation.write(style.lines))
        amount = notation.show(style.total) + mark
        columns.append((style.total, Option(notation.show(style.name), amount, told, style.take)))
    return [option for _, option in sorted(columns, key=lambda column: column[0].minor)]


def size_columns(result: Finishing, sizes: Iterable[OtherSize | RefusedSize]) -> list[Option]:
    """Set the size as it is quoted beside others."""
    notation = notation_of(result)
    outline = outline_words(result.plans.top.shape, notation)
    told = tuple(filter(None, (amount_words(result),)))
    columns = [Option(outline, notation.show(result.quote.total), told, present=True)]
    for size in sizes:
        if isinstance(size, RefusedSize):
            columns.append(Option(size.text, "", tuple(problem_words(problem) for problem in size.problems)))
            continue
        other = size.row.result
        told = (outline_words(other.plans.top.shape, notation), change_words(size.adds, notation), amount_words(other))
        mark = f"{NO_BREAK}{SAMPLE_MARK}" if differs_by_sample(other.quote, result.quote) else ""
        amount = notation.show(size.total) + mark
        columns.append(Option(_size_name(size), amount, tuple(filter(None, told)), size.take))
    return columns


def _size_name(size: OtherSize) -> str:
    """Name a size by the bed or table that it covers, else as it was asked for."""
    covers = size.row.result.resolved.project.top.covers
    return plain(covers.what.name if covers and covers.what.name else size.row.name)


# --- as pieces of the page ---------------------------------------------------------------------------------------


def later_parts(worked: Worked, usual: UsualValues, sizes: Sequence[str] = ()) -> list[Iterable[Work]]:
    """Give the parts of the page that come after a quote, in their order, each as pieces of work that may be done one
    after another. The `sizes` that are asked for come first among the others."""
    result, name = worked.result, worked.draft.name
    if result is None or worked.stale:
        return [[lambda: _waiting(name)]]
    desk = Desk(worked.table, usual, result)
    return [
        [lambda: _single_pieces(result, name)],
        [lambda: _style_pieces(result, name), lambda: _size_pieces(result, name, sizes)],
        *(_figures(desk, result, field) for field in PRICED),
    ]


def _waiting(name: str) -> Fragments:
    """Say that nothing can be taken while the form has mistakes."""
    empty = piece("pieces.html", "waiting_options")
    return {"options": empty, "styles": text(""), "sizes": text("")}


def _single_pieces(result: Finishing, name: str) -> Fragments:
    offered = list(single_options(result, alternatives_of(result)))
    return {"options": piece("pieces.html", "options", offered, name)}


def _style_pieces(result: Finishing, name: str) -> Fragments:
    columns = style_columns(result, styles_of(result))
    told = "The same cloth and batting, quilted otherwise."
    return {"styles": _columns("In another pattern", told, columns, name)}


def _size_pieces(result: Finishing, name: str, sizes: Sequence[str]) -> Fragments:
    columns = size_columns(result, sizes_beside(result, MOST_SIZES, sizes))
    return {"sizes": _columns("In another size", "All else as it is asked for.", columns, name)}


def _columns(heading: str, told: str, columns: list[Option], name: str) -> Markup:
    return piece("pieces.html", "columns", heading, told, columns, name) if len(columns) > 1 else text("")


def _figures(desk: Desk, result: Finishing, field: Field) -> Iterator[Work]:
    """Write beside each choice of a field what it would change, one choice after another."""
    shown, notation, usual = shown_field(desk, field), notation_of(result), desk.usual.value(field.key)
    ids = {choice.value or usual: f"{field.id}-fig-{number}" for number, choice in enumerate(shown.choices, start=1)}
    chosen = [choice.value or usual for choice in shown.choices if choice.chosen]
    yield lambda: {ids[value]: text("as quoted") for value in chosen}
    others = [value for value in ids if value and value not in chosen]
    differences = differences_of(result, key_path(field.priced_key), others)

    def following() -> Fragments:
        value, adds = next(differences)
        return {ids[value]: text("" if adds is None else change_words(adds, notation))}

    yield from (following for _ in others)
