"""Questions as text: what is asked, the choices of "?", and the reason why an answer is refused."""

import re
from collections.abc import Sequence

from finishcalc.measures.numbers import MeasureError
from finishcalc.model.asked import Asked, Choice
from finishcalc.rendering.pages.page import Table
from finishcalc.rendering.wrapping import wrap
from finishcalc.rendering.writers.text_tables import table_lines
from finishcalc.wording.notation import NO_BREAK, plain_blanks
from finishcalc.wording.plain import plain
from finishcalc.wording.words import capital

HELD_TOGETHER = re.compile(r"(?<=\d) (?=\d+/\d|%)|(?<=\bsq) ")
"""Finds the blanks at which no line ends: in "60 1/2", "5 %" and "sq in"."""


def prompt_text(asked: Asked) -> str:
    """Write the prompt: the label, and the answer that Enter gives."""
    if asked.default:
        return f"{asked.label} [{plain(asked.default)}{', sample' if asked.sample else ''}]: "
    return f"{asked.label} [skip]: " if asked.optional else f"{asked.label}: "


def choices_text(choices: Sequence[Choice], example: str, width: int) -> str:
    """Write the choices with their figures, or an example where any text will do."""
    if not choices:
        return paragraph(f"For example: {example}", width)
    rows = [[plain(choice.word), plain(_meaning(choice))] for choice in choices]
    return plain_blanks("\n".join(table_lines(Table(["Answer", "Meaning"], "ll", rows), width))) + "\n"


def _meaning(choice: Choice) -> str:
    """Say what a choice means, with its figures."""
    return "; ".join([choice.meaning, *(f"{name.lower()} {text}".rstrip() for name, text in choice.figures.items())])


def refusal_text(error: MeasureError, width: int) -> str:
    """Say why an answer is refused, and what would be right, in lines that fit."""
    return paragraph(refusal(error), width)


def refusal(error: MeasureError) -> str:
    """Say why an answer is refused, and what would be right."""
    message, hint = capital(plain(str(error))), plain(error.hint)
    return f"{message}: {hint}" + "." * (not hint.endswith("?")) if hint else f"{message}."


def paragraph(text: str, width: int) -> str:
    """Write a text in lines that fit."""
    return plain_blanks("\n".join(wrap(HELD_TOGETHER.sub(NO_BREAK, text), width))) + "\n"
