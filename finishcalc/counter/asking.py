"""The questions of a new project as one page: each with its usual answer, its choices, and a mistake in the answer that
was given. The answers make the very file that `finishcalc new` writes."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from finishcalc.intake.questions.choices import choices_of
from finishcalc.intake.questions.interview import Interview, Topic
from finishcalc.intake.questions.question import Kind, Question
from finishcalc.intake.questions.seen import is_asked
from finishcalc.measures.numbers import MeasureError
from finishcalc.rendering.pages.questions import refusal_text

Answers = Mapping[str, str]
"""The texts of answers by the names of their questions; nothing for the usual answer."""

LONGEST_LINE = 10_000
"""A line of a refusal is as long as it likes, because the page breaks it."""
LIMITED = {"length": "for a top whose width alone is given", "drop": "for the cover of a bed or table"}
"""The questions that are on the page though they go with some answers only, each with those it goes with."""
SHOWN_FIGURES = {"backing": "Width", "style": "Price", "edge": "Price"}
"""The one figure of a choice that is shown. The price of cloth is what it costs the studio."""
LISTED: tuple[Kind, ...] = ("preset",)
"""The sorts of answers whose choices are too many for rows."""


class AnswerChoice(NamedTuple):
    """A choice: its `value` in the form, empty for the usual one; its name in words; and a figure."""

    value: str
    name: str
    figure: str
    chosen: bool


class ShownQuestion(NamedTuple):
    """A question as it stands on the page, with what was answered, the usual answer in words, and a mistake in the
    answer. One that goes with some answers only says so."""

    question: Question
    asks: str
    text: str
    usual: str
    choices: tuple[AnswerChoice, ...]
    mistake: str
    limited: str = ""

    @property
    def sort(self) -> str:
        """The sort of its fields: `rows` of which one is chosen, `boxes`, a `list`, or a `line` to type in."""
        if self.question.kind == "parts":
            return "boxes"
        if not self.choices:
            return "line"
        return "list" if self.question.kind in LISTED else "rows"

    @property
    def example(self) -> str:
        """The answers that a line may have, as examples."""
        return ", ".join(self.question.told) or self.question.example.strip('"')


class Asked(NamedTuple):
    """The questions of the page, and the interview that their answers make."""

    interview: Interview
    questions: tuple[ShownQuestion, ...]

    @property
    def has_mistakes(self) -> bool:
        """Tell answers from which no file can be made yet."""
        return any(each.mistake for each in self.questions)

    def without_mistakes(self) -> "Asked":
        """The same page before anything was answered wrongly."""
        return self._replace(questions=tuple(each._replace(mistake="") for each in self.questions))

    def with_mistake(self, name: str, text: str) -> "Asked":
        """The page with a mistake at one question."""
        marked = (each._replace(mistake=text) if each.question.name == name else each for each in self.questions)
        return self._replace(questions=tuple(marked))


def asked(topic: Topic, answers: Answers) -> Asked:
    """Answer all questions of a topic, each over those before it. Raises ProblemsFound where the shop file has any."""
    interview, shown = Interview(topic), list[ShownQuestion]()
    for question in topic.questions:
        text = answers.get(question.name, "").strip()
        before, is_sound = interview, not any(each.mistake for each in shown)
        interview, mistake = _answered(interview, question, text, is_sound)
        if text or question.name in LIMITED or is_asked(question, before.seen):
            shown.append(_shown(before, question, text, mistake))
    return Asked(interview, tuple(shown))


def _answered(interview: Interview, question: Question, text: str, is_sound: bool) -> tuple[Interview, str]:
    """Take an answer, and say why where it cannot be taken. After another mistake nobody can tell what is asked."""
    if not is_asked(question, interview.seen):
        return interview, f"It has no place here: {_goes_with(question)}." if text and is_sound else ""
    if question.kind == "parts":
        text = _parts(interview, question, text)
    try:
        return interview.take(question, text), ""
    except MeasureError as error:
        return interview, refusal_text(error, LONGEST_LINE).strip()


def _goes_with(question: Question) -> str:
    """Say what a question goes with, which `new` says by its options."""
    return f"it is {LIMITED[question.name]}" if question.name in LIMITED else question.is_asked


def _parts(interview: Interview, question: Question, text: str) -> str:
    """Give boxes that are ticked as an answer; nothing where those are that usually are."""
    return "" if set(_words(text)) == set(_words(interview.default(question).shown)) else text


def _words(text: str) -> Iterable[str]:
    return (word for word in text.replace(",", " ").split() if word != "nothing")


def _shown(interview: Interview, question: Question, text: str, mistake: str) -> ShownQuestion:
    words = interview.asked(question)
    usual = words.default or ("nothing" if words.optional else "")
    choices = tuple(_choices(interview, question, text, words.default))
    if choices and question.kind != "parts":
        usual = next((each.name for each in choices if not each.value), usual)
    asks = words.asks.partition(" (several")[0] if question.kind == "parts" else words.asks
    return ShownQuestion(question, asks, text, usual, choices, mistake, LIMITED.get(question.name, ""))


def _choices(interview: Interview, question: Question, text: str, usual: str) -> Iterator[AnswerChoice]:
    """List the choices of a question that has some. An answer that is none of them comes first."""
    if question.kind not in ("choice", "preset", "parts"):
        return
    found = [each for each in choices_of(question, interview.seen) if each.word != "nothing"]
    if question.kind == "parts":
        ticked = set(_words(text or usual))
        yield from (AnswerChoice(each.word, each.meaning, "", each.word in ticked) for each in found)
        return
    if text and text not in {each.word for each in found}:
        yield AnswerChoice(text, text, "", True)
    for each in found:
        value = "" if each.word == usual else each.word
        name = (
            each.meaning if question.kind == "preset" or each.word in each.meaning else f"{each.word}: {each.meaning}"
        )
        yield AnswerChoice(value, name, _figure(question, each.figures), text in (value, each.word))


def _figure(question: Question, figures: Mapping[str, str]) -> str:
    return figures.get(SHOWN_FIGURES.get(question.name, ""), "")
