"""The rates of a shop file as a form: the questions of `new-shop` with the answers that the file gives, and the text of
the file with others. Comments and all other keys of the file stay as they are."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.questions.interview import AROUND_A_SHOP, STAND_INS, in_words, with_subject
from finishcalc.intake.questions.question import Question
from finishcalc.intake.questions.reading import ALL_CLASSES, cloth_of, read
from finishcalc.intake.questions.seen import Puts, Seen, is_asked
from finishcalc.intake.questions.shop import QUESTIONS
from finishcalc.intake.questions.writing import SAMPLE, Entry, as_toml, file_text
from finishcalc.intake.resolve import resolve
from finishcalc.intake.shop_in_use import Reader
from finishcalc.intake.shop_layers import units_of
from finishcalc.intake.source import Source
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.rendering.pages.questions import refusal

NOT_OF_A_FILE = ("charges", "quilting-by")
"""The questions that ask what file is to be written. Here each price is given with its unit."""
UNITS_STAY = "in the file: every bare number in it is in these units"
SEVERAL = "in the file, which gives more than one figure for it"
"""The reasons why an answer is changed in the file alone."""


class Rate(NamedTuple):
    """A question with the answer that the file gives, as people type it; `sample` marks one that is not the studio's
    own. A `fixed` one is changed in the file alone, and says why. `path` leads to the value in the shop file."""

    question: Question
    asks: str
    text: str
    path: KeyPath
    sample: bool = False
    fixed: str = ""
    mistake: str = ""

    @property
    def choices(self) -> Mapping[str, str]:
        """The words of which one is chosen, each with its meaning."""
        if self.question.kind == "flag" or (self.question.kind == "choice" and self.question.key):
            return self.question.told
        return {}


class Rewritten(NamedTuple):
    """The text of a file with other answers; while there are mistakes, those at the questions by their names, and those
    of no question."""

    text: str
    mistakes: Mapping[str, str] = MappingProxyType({})
    elsewhere: tuple[Problem, ...] = ()

    @property
    def is_sound(self) -> bool:
        """Tell a text that a shop can be run by."""
        return not self.mistakes and not self.elsewhere


class Rates:
    """The answers of a shop file. Raises ProblemsFound for one with mistakes."""

    def __init__(self, source: Source, reader: Reader) -> None:
        self._source, self._reader = source, reader
        units = units_of(source.table, "in")
        around: Puts = {("units",): units, **STAND_INS[0]}
        text = file_text([], [Entry(path, as_toml(value), "") for path, value in around.items()], ProjectFile)
        resolved = resolve(Source(AROUND_A_SHOP, text), source.name, reader=self._read)
        puts: Puts = {(key,): value for key, value in source.table.items()}
        self._seen = Seen((), {("units",): units, **puts}, resolved, source.name)

    def _read(self, name: str) -> Source:
        return self._source if name == self._source.name else self._reader(name)

    @property
    def rates(self) -> tuple[Rate, ...]:
        """The questions that go with the file."""
        return tuple(self._rates())

    def _rates(self) -> Iterator[Rate]:
        for question in QUESTIONS:
            if question.name not in NOT_OF_A_FILE and is_asked(question, self._seen):
                path = self._path(question)
                if path:
                    yield self._rate(question, path)

    def _path(self, question: Question) -> KeyPath:
        """The path of an answer in a shop file; empty for a cloth that the shop does not have."""
        if question.kind != "cloth price":
            return question.path
        cloth = cloth_of(question, self._seen)
        return ("fabrics", cloth[1], "price") if cloth else ()

    def _rate(self, question: Question, path: KeyPath) -> Rate:
        text, fixed = self._text(question), UNITS_STAY if question.name == "units" else ""
        sourced = self._seen.sourced(self._laid(question))
        sample = question.sample and sourced is not None and sourced.origin.layer != "shop file"
        asks = in_words(question, self._seen)
        if text is None:
            return Rate(question, asks, "", path, sample, SEVERAL)
        return Rate(question, asks, text, path, sample, fixed)

    def _laid(self, question: Question) -> KeyPath:
        """The path at which the layers hold an answer."""
        cloth = cloth_of(question, self._seen) if question.kind == "cloth price" else None
        if cloth:
            return (*cloth[0], "price")
        return (*question.path, "price") if question.kind == "rate" else question.path

    def _text(self, question: Question) -> str | None:
        """The answer as it would be typed; None where it is more than one answer."""
        value = self._seen.as_given(self._laid(question))
        if question.kind == "tax":
            return _tax_text(value)
        if question.name == "taxed":
            return next((word for word, classes in ALL_CLASSES.items() if classes == value), None)
        if isinstance(value, bool):
            return "yes" if value else "no"
        if question.kind == "lines" and isinstance(value, list):
            return ", ".join(map(str, value))
        if question.kind == "rate":
            per = self._seen.sourced((*question.path, "per"))
            unit = str(per.value) if per else str(self._seen.resolved.tables.rates.quilting_per)
            return f"{value}/{unit}" if _is_single(value) else None
        return str(value) if _is_single(value) else "" if value is None else None

    # --- other answers -------------------------------------------------------------------------------------------

    def rewritten(self, typed: Mapping[str, str]) -> Rewritten:
        """The text of the file with the answers that were `typed` and differ, by the names of their questions."""
        mistakes, drops, puts = dict[str, str](), list[KeyPath](), dict[KeyPath, object]()
        for rate in self.changed(typed):
            text = typed[rate.question.name].strip()
            try:
                if text:
                    puts |= self._puts(rate, text)
                elif rate.question.sample or rate.question.optional:
                    drops.append(rate.path)
                else:
                    mistakes[rate.question.name] = f"It has no default: give it as in {rate.question.example}."
            except MeasureError as error:
                mistakes[rate.question.name] = refusal(with_subject(error, text))
        change = Change(self._source.name, tuple(drops), tuple(puts.items()))
        rewritten = _without_marks(project_toml(self._source, change, ShopFile), puts)
        checked = self._checked(rewritten, typed)
        return checked._replace(mistakes={**checked.mistakes, **mistakes})

    def changed(self, typed: Mapping[str, str]) -> Iterator[Rate]:
        """The questions whose answers differ from the file's."""
        for rate in self.rates:
            text = typed.get(rate.question.name)
            if text is not None and text.strip() != rate.text and not rate.fixed:
                yield rate

    def _puts(self, rate: Rate, text: str) -> Puts:
        """Read an answer. A tax keeps its own name."""
        puts = read(rate.question, text, self._seen).puts
        own, given = self._source.table.get("tax"), puts.get(("tax",))
        if own and isinstance(own, list) and isinstance(given, list) and given:
            return {("tax", 0, "percent"): given[0]["percent"]}
        return puts

    def _checked(self, text: str, typed: Mapping[str, str]) -> Rewritten:
        """Read the new text as any shop file is read, and tell its problems at the questions that they are about."""
        try:
            Rates(Source(self._source.name, text), self._reader)
        except ProblemsFound as found:
            mistakes, elsewhere = dict[str, str](), list[Problem]()
            for problem in found.problems:
                rate = self._about(problem)
                if rate:
                    mistakes.setdefault(rate.question.name, _words(problem, typed.get(rate.question.name, rate.text)))
                else:
                    elsewhere.append(problem)
            return Rewritten(text, mistakes, tuple(elsewhere))
        return Rewritten(text)

    def _about(self, problem: Problem) -> Rate | None:
        if problem.file != self._source.name or not problem.path:
            return None
        path = key_path(problem.path)
        return next((rate for rate in self.rates if starts_with(path, rate.path)), None)


def _is_single(value: object) -> bool:
    return value is not None and not isinstance(value, dict | list)


def _tax_text(value: object) -> str | None:
    """The share of the one tax of a shop; None where there are several."""
    if not isinstance(value, list):
        return None
    if len(value) > 1:
        return None
    return str(value[0].get("percent", "")) if value else "0 %"


def _words(problem: Problem, text: str) -> str:
    """Say a problem with an answer as the interview does."""
    return refusal(with_subject(MeasureError(problem.code, problem.message, problem.hint), text))


def _without_marks(text: str, puts: Puts) -> str:
    """The text in which no value that was given is still marked as a sample's."""
    source, lines = Source("", text), text.split("\n")
    for number in {source.line_of(path) - 1 for path in puts if source.holds(path)}:
        lines[number] = lines[number].replace(f"# {SAMPLE}; ", "# ").replace(f"# {SAMPLE}", "#")
    return "\n".join(lines)
