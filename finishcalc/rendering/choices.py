"""Several trials of one project side by side, as columns of a page or as records of one document."""

from finishcalc.intake.settings import Trial
from finishcalc.measures.money import Money, total
from finishcalc.measures.notation import NO_BREAK, Notation
from finishcalc.measures.said import Audience
from finishcalc.pipeline import Finishing
from finishcalc.plain import plain
from finishcalc.pricing.line import Line
from finishcalc.rendering.compare_table import backing_cell, batting_cell, binding_cell, cautions_by_name, size_words
from finishcalc.rendering.compare_text import SAMPLES
from finishcalc.rendering.json_text import safe_json
from finishcalc.rendering.page import block, wrap
from finishcalc.rendering.price_table import SAMPLE_MARK
from finishcalc.rendering.quote_json import SCHEMA_VERSION, quote_record
from finishcalc.rendering.quote_text import notation_of
from finishcalc.rendering.table import Table, table_lines
from finishcalc.rendering.words import hours_words

Tried = list[tuple[Trial, Finishing]]


def choices_json(tried: Tried, audience: Audience) -> str:
    """One document: `choices` holds the whole document of each, with the values that were set."""
    choices = [{"set": trial.words, **quote_record(result, audience)} for trial, result in tried]
    return safe_json({"schema_version": SCHEMA_VERSION, "for": audience, "choices": choices})


def choices_text(tried: Tried, audience: Audience, width: int) -> str:
    """A column for each choice: what is made, the lines of the price, the total."""
    first = tried[0][1]
    notation = notation_of(first)
    table = _table(tried, audience, notation)
    marked = any(result.samples for _, result in tried)
    named = [(notation.show(trial.choice), result.cautions) for trial, result in tried]
    parts = [
        wrap(f"Choices for {plain(first.asked.project.title)}", width),
        table_lines(table, width),
        wrap(SAMPLES, width) if marked else [],
        block("Careful", cautions_by_name(named, notation), width),
    ]
    text = "\n\n".join("\n".join(part) for part in parts if part) + "\n"
    return text.replace(NO_BREAK, " ")


def _table(tried: Tried, audience: Audience, notation: Notation) -> Table:
    results = [result for _, result in tried]
    key = list(tried[0][0].words)[-1]
    head = [notation.show(key), *(notation.show(trial.choice) for trial, _ in tried)]
    rows = [
        [f"Top, {notation.units}", *(size_words(result.plans.top.shape, notation) for result in results)],
        ["Backing", *(backing_cell(result, notation) for result in results)],
        ["Batting", *(batting_cell(result, notation) for result in results)],
        ["Binding", *(binding_cell(result, notation) for result in results)],
    ]
    if audience == "studio":
        rows.append(["Planned", *(hours_words(result.plans.hours.planned) for result in results)])
    rows += _price_rows(results, notation)
    return Table(head, "l" + "r" * len(tried), rows)


def _price_rows(results: list[Finishing], notation: Notation) -> list[list[str]]:
    """A row for each kind of line that any of them has, then the sums."""
    currency = results[0].quote.currency
    kinds = list(dict.fromkeys(_kind(line, notation) for result in results for line in result.quote.lines))
    rows = [[kind, *(_sum(result, kind, notation) for result in results)] for kind in kinds]
    taxes = dict.fromkeys(tax.label for result in results for tax in result.quote.taxes)
    rows.append(["Subtotal", *(notation.bare_money(result.quote.subtotal) for result in results)])
    for label in taxes:
        amounts = [
            total((tax.amount for tax in result.quote.taxes if tax.label == label), currency) for result in results
        ]
        rows.append([notation.show(label), *(notation.bare_money(amount) for amount in amounts)])
    rows.append([f"Total, {currency.code}", *(_total(result, notation) for result in results)])
    rows.append(["Deposit", *(notation.bare_money(result.quote.deposit) for result in results)])
    return rows


def _kind(line: Line, notation: Notation) -> str:
    """What a line is called in all columns: quilting is quilting whatever its style."""
    quilted = any(path.startswith("rates.quilting.") for path in line.figures)
    return "Quilting" if quilted else notation.say(line.label)


def _sum(result: Finishing, kind: str, notation: Notation) -> str:
    amounts: list[Money] = [line.amount for line in result.quote.lines if _kind(line, notation) == kind]
    return notation.bare_money(total(amounts, result.quote.currency)) if amounts else ""


def _total(result: Finishing, notation: Notation) -> str:
    mark = f" {SAMPLE_MARK}" if result.samples else ""
    return notation.bare_money(result.quote.total) + mark
