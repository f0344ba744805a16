"""Several trials of one project side by side, as columns of a page or as records of one document."""

from finishcalc.alternatives.choices import Alternatives
from finishcalc.alternatives.in_house import InHouse
from finishcalc.intake.changes.settings import Trial
from finishcalc.intake.source import dotted
from finishcalc.measures.money import Money, total
from finishcalc.model.materials import Batting, Fabric
from finishcalc.pipeline import Finishing
from finishcalc.pricing.line import Line
from finishcalc.pricing.profit import Profitability
from finishcalc.rendering.documents.quote import quote_record
from finishcalc.rendering.documents.writing import SCHEMA_VERSION, safe_json
from finishcalc.rendering.pages.batting import batting_cell
from finishcalc.rendering.pages.page import Group, Head, Page, Paragraph, Table, sentences
from finishcalc.rendering.tables.compare import backing_cell, binding_cell, cautions_by_name, size_words
from finishcalc.rendering.writing import SAMPLE_MARK, hours_words, notation_of, sample_note
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import Audience

Tried = list[tuple[Trial, Finishing]]


def choices_json(tried: Tried, beside: list[tuple[Alternatives, InHouse | None]], audience: Audience) -> str:
    """Write one document: `choices` holds the whole document of each, with the values that were set. `beside` has the
    alternatives of each, and for the studio its own view."""
    choices = [
        {"set": trial.words(audience), **quote_record(result, others, house)}
        for (trial, result), (others, house) in zip(tried, beside, strict=True)
    ]
    return safe_json({"schema_version": SCHEMA_VERSION, "for": audience, "choices": choices})


def choices_page(tried: Tried, profits: list[Profitability]) -> Page:
    """Make a page with a column for each choice: what is made, the lines of the price, the total; for the studio, for
    whom there are `profits`, what each earns."""
    audience: Audience = "studio" if profits else "customer"
    first = tried[0][1]
    notation = notation_of(first)
    head = _head(tried, audience, notation)
    named = [(name, result.cautions) for name, (_, result) in zip(head[1:], tried, strict=True)]
    results = [result for _, result in tried]
    parts = _part_rows(results, audience)
    rows = [*(row for row in parts if len(set(row[1:])) > 1), *_price_rows(results)]
    rows += _profitability_rows(results, profits) if profits else []
    same = [f"{row[0]}: {row[1]}" for row in parts if len(set(row[1:])) == 1]
    sampled = any(result.priced_on_samples for result in results)
    groups: list[Group] = [
        (Table(head, "l" + "r" * len(tried), rows),),
        (sentences("Unchanged", same),),
        *[(Paragraph(sample_note("sample rates", audience), small=True),)] * sampled,
        (sentences("Please note", cautions_by_name(named, audience, notation)),),
    ]
    title = f"Choices for {plain(first.resolved.project.title)}"
    return Page(Head("", title), tuple(groups), made=first.resolved.project.job.date)


def _head(tried: Tried, audience: Audience, notation: Notation) -> list[str]:
    """Head the columns with the key and its values; where it is the studio's own, the customer reads only numbers."""
    choices = [trial.choice for trial, _ in tried]
    if audience == "customer" and any(choice and choice.in_house for choice in choices):
        return ["", *(f"choice {number}" for number in range(1, len(tried) + 1))]
    key = dotted(choices[0].path) if choices[0] else ""
    return [key, *(notation.show(choice.text) if choice else "" for choice in choices)]


def _part_rows(results: list[Finishing], audience: Audience) -> list[list[str]]:
    """Set a row for each part of the quilt, with the name of its material where the choices differ in it."""
    columns, rows = [_parts(result, audience) for result in results], []
    for kind in columns[0]:
        cells = [parts[kind] for parts in columns]
        named = len({name for _, name in cells}) > 1
        rows.append([kind, *(f"{text}, {name}" if named and name else text for text, name in cells)])
    return rows


def _parts(result: Finishing, audience: Audience) -> dict[str, tuple[str, str]]:
    """Describe each part of the quilt in the choice's own units, and name its material."""
    notation, plans = notation_of(result), result.plans
    parts = {
        "Top": (f"{size_words(plans.top.shape, notation)} {notation.units}", ""),
        "Backing": (backing_cell(result, notation), _name(plans.backing.fabric if plans.backing else None)),
        "Batting": (batting_cell(plans.batting, notation), _name(plans.batting.product if plans.batting else None)),
        "Binding": (_binding(result, notation), _name(plans.binding.fabric if plans.binding else None)),
    }
    return parts if audience == "customer" else parts | {"Planned": (hours_words(result.hours.planned), "")}


def _name(what: Fabric | Batting | None) -> str:
    return plain(what.name) if what else ""


FINISHED = {
    "front": "its back left to finish",
    "machine": "sewn on by machine",
    "hand": "its back by hand",
    "faced": "faced",
}
"""The finish of the edge, written after the cloth for its binding."""


def _binding(result: Finishing, notation: Notation) -> str:
    plan, cell = result.plans.binding, binding_cell(result, notation)
    return f"{cell}, {FINISHED[plan.attach]}" if plan else cell


def _price_rows(results: list[Finishing]) -> list[list[str]]:
    """Set a row for each kind of line that any choice has, then the sums as on a quote."""
    kinds = list(dict.fromkeys(_kind(line, notation_of(result)) for result in results for line in result.quote.lines))
    rows = [[kind, *(_sum(result, _amounts_of(kind, result)) for result in results)] for kind in kinds]
    rows.append(["Subtotal", *(_sum(result, [result.quote.subtotal]) for result in results)])
    rows += _tax_rows(results, included=False)
    if any(result.quote.cash_rounding for result in results):
        rows.append(["Rounded for cash", *(_sum(result, [result.quote.cash_rounding]) for result in results)])
    rows.append(["Total", *(_total(result) for result in results)])
    rows += _tax_rows(results, included=True)
    if any(result.quote.deposit for result in results):
        rows.append(["Deposit", *(_sum(result, [result.quote.deposit]) for result in results)])
    return rows


def _tax_rows(results: list[Finishing], included: bool) -> list[list[str]]:
    """Set a row for each tax: those that are added, or those that the total includes."""
    labels = dict.fromkeys(tax.label for result in results for tax in result.quote.taxes if tax.included == included)
    rows = []
    for label in labels:
        if not any(amount.minor for result in results for amount in _taxes_of(result, label, included)):
            continue
        name = notation_of(results[0]).show(label)
        amounts = [_sum(result, _taxes_of(result, label, included)) for result in results]
        rows.append([f"of which {name}" if included else name, *amounts])
    return rows


def _taxes_of(result: Finishing, label: str, included: bool) -> list[Money]:
    return [tax.amount for tax in result.quote.taxes if (tax.label, tax.included) == (label, included)]


KINDS = {
    "quilting": "Quilting",
    "batting": "Batting bought",
    "binding made": "Binding made",
    "edge finished": "Binding sewn on",
    "postage": "Postage",
}
"""The name of a row, by what its lines are about: quilting is one row whatever its style."""


def _kind(line: Line, notation: Notation) -> str:
    """Name the row that a line belongs to in all columns."""
    return KINDS.get(line.about) or notation.write(line.label)


def _amounts_of(kind: str, result: Finishing) -> list[Money]:
    return [line.amount for line in result.quote.lines if _kind(line, notation_of(result)) == kind]


def _sum(result: Finishing, amounts: list[Money]) -> str:
    return notation_of(result).bare_money(total(amounts, result.quote.currency)) if amounts else ""


def _total(result: Finishing) -> str:
    mark = f"{NO_BREAK}{SAMPLE_MARK}" if result.priced_on_samples else ""
    return f"{result.quote.currency.code}{NO_BREAK}{notation_of(result).bare_money(result.quote.total)}{mark}"


def _profitability_rows(results: list[Finishing], profits: list[Profitability]) -> list[list[str]]:
    """Set the rows about earnings: an attended hour, the wage, and the prices that would pay."""
    paired = list(zip(results, profits, strict=True))
    return [
        [
            "Earned an attended hour",
            *(_sum(result, [profit.hourly] if profit.hourly is not None else []) for result, profit in paired),
        ],
        ["Wage", *(_sum(result, [profit.wage]) for result, profit in paired)],
        ["Break-even with the wage", *(_sum(result, [profit.price_at_wage]) for result, profit in paired)],
        ["Materials, other costs", *(_sum(result, [profit.break_even]) for result, profit in paired)],
    ]
