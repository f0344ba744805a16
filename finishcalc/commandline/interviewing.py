"""Holds an interview: asks on a terminal, or takes options and defaults where there is none, and writes the file."""

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple, NoReturn

import typer

from finishcalc.commandline.files import refuse_existing, write_all
from finishcalc.commandline.outputs import as_folder
from finishcalc.commandline.prompting import ask, begin, end_line, is_terminal
from finishcalc.commandline.stopping import write_line
from finishcalc.commandline.terminal import report_problems, width, write, written_lines
from finishcalc.intake.questions.choices import choices_of
from finishcalc.intake.questions.interview import Interview
from finishcalc.intake.questions.question import Question
from finishcalc.measures.numbers import MeasureError
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.rendering.pages.questions import choices_text, paragraph, prompt_text, refusal_text

INTRODUCTION = (
    "Enter takes the answer in [brackets], ? lists the choices, back goes one question back, and Ctrl-C leaves with "
    "nothing written."
)

LastPage = tuple[str, str]
"""The last page of an interview, and what to do next."""


class Given(NamedTuple):
    """The answers that options give, by the names of their questions; and the option of a question that was answered by
    another than its own."""

    answers: dict[str, str]
    options: dict[str, str]

    def option(self, question: Question) -> str:
        """The option that answers a question."""
        return self.options.get(question.name, question.option)


def hold(
    file: str, force: bool, start: Callable[[], Interview], given: Given, last_page: Callable[[Interview], LastPage]
) -> None:
    """Hold an interview, write its file, and print its last page and what to do next. A file that cannot be written is
    refused before the first question."""
    try:
        folder, contents = as_folder(_named(file), "")
        interview = start()
        sources = _shops_file(interview)
        _refuse_in_the_way(file, force, sources)
        interview = _asked(interview, given) if is_terminal() else _unasked(interview, given)
        page, next_steps = last_page(interview)
        paths = write_all([(folder, dict.fromkeys(contents, interview.text))], force, sources=sources)
    except ProblemsFound as error:
        report_problems(error, False)
        raise typer.Exit(1) from None
    write(f"\n{page}" if is_terminal() else page)
    write(f"\n{written_lines(paths)}{next_steps}")


def _named(file: str) -> str:
    if file.strip() in ("", "-"):
        raise typer.BadParameter("it has to be a file: name one, as in quilt.toml", param_hint="FILE")
    return file


def _refuse_in_the_way(file: str, force: bool, sources: Sequence[os.stat_result]) -> None:
    """Refuse a file that could not be written. Raises ProblemsFound."""
    target = Path(file)
    refuse_existing([target], force, sources)
    parent = next(parent for parent in target.parents if os.path.lexists(parent))
    if not parent.is_dir() or not os.access(parent, os.W_OK):
        hint = f"{parent} is not a folder that you may write in"
        raise ProblemsFound([Problem(ProblemCode.CANNOT_BE_WRITTEN, file, 0, 0, "", "cannot be written", hint)])


def _shops_file(interview: Interview) -> list[os.stat_result]:
    """The shop file that a project is quoted with, which is never written over."""
    shop = interview.resolved.shop_file
    read = interview.topic.is_project and shop is not None and shop.source is not None
    return [os.stat(shop.source.name)] if read and shop and shop.source else []


# --- without a terminal ------------------------------------------------------------------------------------------


def _unasked(interview: Interview, given: Given) -> Interview:
    """Answer every question by its option or its default. Raises BadParameter."""
    while question := interview.next:
        try:
            interview = interview.take(question, given.answers.get(question.name, ""))
        except MeasureError as error:
            _refuse_option(question, given, error)
    _refuse_unused(interview, given)
    return interview


def _refuse_option(question: Question, given: Given, error: MeasureError) -> NoReturn:
    option = given.option(question)
    if question.name not in given.answers:
        also = ", or --as SIZE" if question.kind == "size" else ""
        message = f"there is no terminal to ask on, and it has no default: give {option} {question.example}{also}"
        raise typer.BadParameter(message, param_hint=option)
    raise typer.BadParameter(f"{error}: {error.hint}" if error.hint else str(error), param_hint=option)


def _refuse_unused(interview: Interview, given: Given) -> None:
    for question in _unused(interview, given):
        raise typer.BadParameter(f"it has no place here: {question.is_asked}", param_hint=question.option)


def _unused(interview: Interview, given: Given) -> list[Question]:
    """The questions that were not asked though an option answers them."""
    answered = {answer.question.name for answer in interview.answers}
    return [each for each in interview.topic.questions if each.name in given.answers and each.name not in answered]


# --- on a terminal -----------------------------------------------------------------------------------------------


def _asked(interview: Interview, given: Given) -> Interview:
    """Ask every question that no option answers. Ends the process where the input ends."""
    begin()
    show(paragraph(INTRODUCTION, width()))
    open_options, last_shown = dict(given.answers), ""
    while question := interview.next:
        option = open_options.get(question.name)
        try:
            if option is not None:
                interview = interview.take(question, option, by_option=True)
                continue
            if question.name != last_shown:
                show("\n" + paragraph(interview.asked(question).asks, width()))
            last_shown = question.name
            interview = _answered(interview, question)
        except MeasureError as error:
            if open_options.pop(question.name, None) is not None:
                show(f"\n{given.option(question)}: ")
            show(refusal_text(error, width()))
        except EOFError:
            end_line()
            write_line("the input ended; nothing was written")
            raise typer.Exit(1) from None
    for question in _unused(interview, given):
        show(paragraph(f"{question.option} is left out: {question.is_asked}.", width()))
    return interview


def _answered(interview: Interview, question: Question) -> Interview:
    """Ask one question until it is answered. Raises MeasureError for an answer that cannot be taken."""
    asked, choices = interview.asked(question), choices_of(question, interview.seen)
    while True:
        try:
            text = ask(prompt_text(asked), [choice.word for choice in choices])
        except UnicodeDecodeError:
            raise MeasureError(
                ProblemCode.UNWRITABLE_CHARACTERS, "the answer has a character that cannot be read", "type it again"
            ) from None
        if text.strip() in ("?", "help"):
            show(choices_text(choices, question.example, width()))
        elif text.strip().lower() == "back":
            return interview.back()
        else:
            answered = interview.take(question, text)
            if answered.taken_as:
                show(f'Taken as "{answered.taken_as}".\n')
            return answered


def show(text: str) -> None:
    """Write what goes with a question, which is no result."""
    sys.stdout.flush()
    write(text, passing=True)
