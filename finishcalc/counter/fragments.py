"""The page of a project in pieces, each under the id of the element that holds it. A page has all of them; after an
edit only those that differ are sent."""

from datetime import date
from typing import NamedTuple

from markupsafe import Markup

from finishcalc.counter.form.field import Field
from finishcalc.counter.form.fields import FIELDS, NAMED, PARTS
from finishcalc.counter.form.places import field_at
from finishcalc.counter.form.showing import Desk, answer_words, kept_keys, unit_of, usual_words
from finishcalc.counter.form.table import NAME
from finishcalc.counter.form.usual import UsualValues
from finishcalc.counter.pages import piece, text
from finishcalc.counter.quote.customer import CustomerQuote, cautions_by_field, customer_quote
from finishcalc.counter.quote.pictures import customer_pictures
from finishcalc.counter.working import Worked
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.changes.shop_values import is_in_house
from finishcalc.model.files import ProjectFile
from finishcalc.problems import Problem
from finishcalc.rendering.pictures.drawn import drawing_svg, drawing_words
from finishcalc.rendering.pictures.size import PAGE
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.plain import plain

Fragments = dict[str, Markup]
"""Pieces of a page, by the ids of the elements that hold them."""


UNSAID = "a mistake; finishcalc check tells what is wrong"
"""Stands in place of a problem that names something of the studio's."""


class Note(NamedTuple):
    """A note beside a field: a mistake, or a caution."""

    wrong: bool
    text: str


def fragments_of(worked: Worked, usual: UsualValues, told: str = "") -> Fragments:
    """Give the pieces of the page of a draft: what is `told` on top of it, its form, and its quote."""
    desk = Desk(worked.table, usual, worked.result)
    notes, elsewhere = notes_by_field(worked)
    pieces = _form(desk, notes)
    pieces["told"] = text(told)
    pieces["trouble"] = piece("pieces.html", "trouble", elsewhere)
    pieces["kept"] = piece("pieces.html", "kept", kept_keys(worked.table))
    pieces["kept-answer"] = text(_kept_answer(desk))
    state = "not saved yet" if worked.draft.has_unsaved else "saved"
    pieces["heading"] = piece("pieces.html", "heading", title_of(worked), _of_job(worked), state)
    pieces["doing"] = piece("pieces.html", "doing", worked.draft)
    return pieces | _quote(worked, notes)


def _form(desk: Desk, notes: dict[str, list[Note]]) -> Fragments:
    pieces: Fragments = {}
    for part in PARTS:
        marks = [note for field in part.fields for note in notes.get(field.key, ())]
        pieces[f"{part.name}-mark"] = piece("pieces.html", "mark", marks)
        pieces[f"{part.name}-answer"] = text(plain(answer_words(desk, part)))
        for field in part.fields:
            pieces |= _field(desk, field, notes.get(field.key, []))
    return pieces


def _field(desk: Desk, field: Field, notes: list[Note]) -> Fragments:
    pieces = {f"{field.id}-note": piece("pieces.html", "notes", notes) if notes else Markup()}
    if field.sort not in ("flag", "extras"):  # empty too, because another answer may have taken it away
        pieces[f"{field.id}-usual"] = text(plain(usual_words(desk, field)))
    if field.unit == "units":
        pieces[f"{field.id}-unit"] = text(unit_of(desk, field))
    return pieces


def notes_by_field(worked: Worked) -> tuple[dict[str, list[Note]], list[str]]:
    """Give the notes of each field, its mistakes before its cautions, and the mistakes of no field."""
    notes, elsewhere = dict[str, list[Note]](), list[str]()
    for problem in worked.problems:
        field = _field_of(problem, worked)
        if field:
            notes.setdefault(field.key, []).append(Note(True, problem_words(problem)))
        else:
            elsewhere.append(_with_place(problem, worked))
    if worked.result and not worked.stale:
        for key, cautions in cautions_by_field(worked.result).items():
            notes.setdefault(key, []).extend(Note(False, caution) for caution in cautions)
    return notes, elsewhere


def _field_of(problem: Problem, worked: Worked) -> Field | None:
    """Find the field that a problem is about. One between several, as of a size that is given twice, is told at the one
    that was edited last."""
    if problem.file not in (NAME, worked.draft.source.name):
        return None
    last = worked.draft.last_edited if problem in worked.by_edits else None
    return (field_at(last) if last else None) or field_at(problem.path)


def problem_words(problem: Problem) -> str:
    """Say a problem in the words of the command line, with its mend. One with a value that is the studio's alone would
    name it, and the customer reads it too, so it is only said to be there."""
    if is_in_house(ProjectFile, key_path(problem.path), None):
        return UNSAID
    return plain(f"{problem.message}: {problem.hint}" if problem.hint else problem.message)


def _with_place(problem: Problem, worked: Worked) -> str:
    """Say a problem with its place in the file; of another file only where it is, because the customer reads it."""
    if problem.file not in (NAME, worked.draft.source.name):
        line = f", line {problem.line}" if problem.line else ""
        return f"{plain(problem.file)}{line}: {UNSAID}"
    line = f"line {problem.line}: " if problem.line else ""
    return f"{line}{plain(problem.path)} {problem_words(problem)}"


def title_of(worked: Worked) -> str:
    """Give the title of the project, else the name of its file."""
    title = worked.table.get("title")
    return plain(title) if isinstance(title, str) and title else worked.draft.name.removesuffix(".toml")


def _of_job(worked: Worked) -> str:
    """Say whom it is for, and the number and the days of the job, as the form has them."""
    customer, job = worked.table.get("customer"), worked.table.get("job")
    customer, job = (each if isinstance(each, dict) else {} for each in (customer, job))
    said = [("for", customer.get("name")), ("quote", job.get("number")), ("", job.get("date")), ("due", job.get("due"))]
    return ", ".join(f"{word} {_day_or_words(value, worked)}".strip() for word, value in said if value)


def _day_or_words(value: object, worked: Worked) -> str:
    is_day = isinstance(value, date) and worked.result is not None
    return notation_of(worked.result).day(value) if is_day else plain(str(value))  # type: ignore[arg-type]


def _kept_answer(desk: Desk) -> str:
    number = len(kept_keys(desk.table))
    return (
        "nothing else" if not number else "1 key, kept as it is" if number == 1 else f"{number} keys, kept as they are"
    )


def _quote(worked: Worked, notes: dict[str, list[Note]]) -> Fragments:
    """Give the pieces of the quote: of the last good one, where the form has mistakes."""
    waiting = _waiting(worked, notes)
    if worked.result is None:
        empty = dict.fromkeys(("sum", "parts", "takes", "pictures", "ending"), Markup())
        return empty | {
            "says": piece("pieces.html", "says_nothing", waiting),
            "lines": piece("pieces.html", "no_lines"),
        }
    quote = customer_quote(worked.result)
    return {
        "says": piece("pieces.html", "says", quote.saying, waiting, worked.stale, f"{quote.sign}{quote.total}"),
        "sum": piece("pieces.html", "sum", quote),
        "parts": text(quote.parts_of_total),
        "lines": piece("pieces.html", "lines", quote),
        "takes": piece("pieces.html", "takes", quote.takes),
        "pictures": pictures_of(worked),
        "ending": _ending(quote),
    }


def _ending(quote: CustomerQuote) -> Markup:
    return piece("pieces.html", "ending", quote)


def _waiting(worked: Worked, notes: dict[str, list[Note]]) -> list[tuple[str, str]]:
    """Give the ids and the names of the fields that a good quote waits for."""
    if not worked.stale:
        return []
    waiting = [field for field in FIELDS.values() if any(note.wrong for note in notes.get(field.key, ()))]
    return [(field.id, NAMED[field.key]) for field in waiting]


def pictures_of(worked: Worked) -> Markup:
    """Draw the top, the backing and the cloth."""
    if worked.result is None:
        return Markup()
    drawings = customer_pictures(worked.result)
    drawn = [(Markup(drawing_svg(drawing, PAGE, bare=True)), drawing_words(drawing)) for drawing in drawings]
    return piece("pieces.html", "pictures", drawn)
