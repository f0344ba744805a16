"""An interview: the next question for the answers so far, a check of each answer, and the text of the file.

It asks nobody and prints nothing, so that a terminal and a page can both hold it. Each answer is written into the
file's text, and that text is read as any file is: an answer is refused in the words of the file's own problems, and
what the interview shows is what the file says.
"""

import os
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import product
from pathlib import PurePath
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.questions import project, shop
from finishcalc.intake.questions.defaults import NO_DEFAULT, Default, default_of
from finishcalc.intake.questions.question import Question
from finishcalc.intake.questions.reading import YES_AND_NO, cloth_of, read
from finishcalc.intake.questions.seen import Answer, Puts, Seen, a_unit, is_asked, sample_value
from finishcalc.intake.questions.writing import Entry, as_toml, entries, entries_of, file_text
from finishcalc.intake.resolve import Resolved, resolve
from finishcalc.intake.shop_name import name_refused
from finishcalc.intake.source import Source, dotted, presets_folder
from finishcalc.measures.numbers import MeasureError, shorten
from finishcalc.model.asked import Asked
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.problems import ProblemCode, ProblemsFound

STAND_INS: tuple[Puts, ...] = (
    {("top", "width"): "1 yd", ("top", "length"): "1 yd"},
    {("top", "diameter"): "1 yd"},
)
"""Sizes that a top has until its own is known, because a shop's usual values are read for a top of some size."""

EDGE_RATES = ("rates", "binding")
"""The table of the prices of edges."""
EDGE_UNIT = ("rates", "binding_per")
"""The key of their unit."""
AROUND_A_SHOP = "a project of this shop"
"""The name of the project that a shop file is read for."""
PROJECT_HEAD = (
    "A project of finishcalc. Its quote: finishcalc quote {name}",
    "Fractions and words stand in quotes. Change what you like; what is left out has its usual value, which",
    "finishcalc quote {name} --defaults lists.",
)
SHOP_HEAD = (
    "A shop file of finishcalc. Quote with it: finishcalc quote PROJECT.toml --shop {name}",
    'A line marked "sample: replace" still has the sample\'s figure: put your own in, and take the # before it away.',
    "What is left out is the sample's too, and quotes mark every price that rests on a sample.",
)


class Topic(NamedTuple):
    """The subject of an interview: its questions, the file that is written, and the shop file that a project
    is quoted with, as `--shop` names it."""

    questions: tuple[Question, ...]
    file: str
    shop: str | None = None

    @property
    def is_project(self) -> bool:
        """Tell a project from a shop."""
        return self.questions is project.QUESTIONS

    @property
    def shop_in_folder(self) -> str | None:
        """The name by which a project can name the shop file, where that lies in its folder or below."""
        if not self.shop or self.shop == "none":
            return None
        folder = PurePath(self.file).parent
        name = os.path.relpath(self.shop, folder)
        return None if name_refused(name, folder, self.file) else PurePath(name).as_posix()


def project_topic(file: str, shop_file: str | None = None) -> Topic:
    """A project that is to be written to this file."""
    return Topic(project.QUESTIONS, file, shop_file)


def shop_topic(file: str) -> Topic:
    """A shop file that is to be written."""
    return Topic(shop.QUESTIONS, file)


class Interview:
    """The answers so far, and what follows from them. It never changes: an answer makes another one."""

    def __init__(self, topic: Topic, answers: tuple[Answer, ...] = ()) -> None:
        """Take the answers. Raises ProblemsFound where the file would have any."""
        self.topic, self.answers = topic, answers
        self.puts = _puts(answers)
        self.resolved = self._resolve()
        self.seen = Seen(answers, self.puts, self.resolved, topic.file)

    # --- asking --------------------------------------------------------------------------------------------------

    @property
    def next(self) -> Question | None:
        """The next question; None where all are answered."""
        answered = {answer.question.name for answer in self.answers}
        open_questions = (question for question in self.topic.questions if question.name not in answered)
        return next((question for question in open_questions if is_asked(question, self.seen)), None)

    def asked(self, question: Question) -> Asked:
        """Put a question into words, with its default."""
        default = self.default(question)
        return Asked(question.label, in_words(question, self.seen), default.shown, default.sample, question.optional)

    @property
    def taken_as(self) -> str:
        """The word of ours that the last answer was taken for; empty where it is the very word."""
        last = self.answers[-1]
        taken = last.puts.get(last.question.path)
        is_word = last.question.kind in ("choice", "preset") and bool(last.text)
        return str(taken) if is_word and isinstance(taken, str) and taken != last.text else ""

    def default(self, question: Question) -> Default:
        """Give the answer that Enter gives."""
        return default_of(question, self.seen)

    # --- answering -----------------------------------------------------------------------------------------------

    def take(self, question: Question, text: str, by_option: bool = False) -> "Interview":
        """Answer a question. Raises MeasureError, with a hint, for an answer that cannot be taken."""
        if text.strip():
            try:
                answer = read(question, text, self.seen)
            except MeasureError as error:
                raise with_subject(error, text) from None
        else:
            default = self.default(question)
            if default == NO_DEFAULT and not question.optional:
                raise MeasureError(ProblemCode.MISSING_KEY, "this has no default", f"give it as in {question.example}")
            answer = Answer(question, "", dict(default.puts), default.kept)
        return self._with(answer._replace(by_option=by_option))

    def _with(self, answer: Answer) -> "Interview":
        """The interview with one more answer. Raises MeasureError in the words of the file's first problem."""
        try:
            return Interview(self.topic, (*self.answers, answer))
        except ProblemsFound as found:
            problem = found.problems[0]
            raise with_subject(MeasureError(problem.code, problem.message, problem.hint), answer.text) from None

    def back(self) -> "Interview":
        """Take the last answer away that was asked for, with all that options gave after it. Raises MeasureError where
        there is none."""
        answers = list(self.answers)
        while answers and answers[-1].by_option:
            answers.pop()
        if not answers:
            raise MeasureError(ProblemCode.MISSING_KEY, "this is the first question", "Ctrl-C leaves the interview")
        return Interview(self.topic, tuple(answers[:-1]))

    # --- the file ------------------------------------------------------------------------------------------------

    @property
    def text(self) -> str:
        """The text of the file."""
        return self._written({})

    @property
    def samples_left(self) -> list[str]:
        """The keys of the figures that are still the sample's."""
        kept = [answer for answer in self.answers if answer.kept and answer.question.sample]
        return [dotted(path) for answer in kept for path in answer.puts]

    def _written(self, stand_ins: Puts) -> str:
        return file_text(self._head, self._entries(stand_ins), ProjectFile if self.topic.is_project else ShopFile)

    @property
    def _head(self) -> list[str]:
        name = PurePath(self.topic.file).name
        return [line.format(name=name) for line in (PROJECT_HEAD if self.topic.is_project else SHOP_HEAD)]

    def _entries(self, stand_ins: Puts) -> list[Entry]:
        """The lines of the file. `stand_ins` are values without which the answers so far would not make one."""
        below = self._shop_named() if self.topic.is_project else self._of_a_maker()
        lines = {entry.path: entry for entry in below}
        beside = {path: entry.comment for path, entry in lines.items()}
        lines |= {entry.path: entry for entry in entries(self.answers, beside)}
        lines |= {path: Entry(path, as_toml(value), "") for path, value in stand_ins.items()}
        return list(lines.values())

    def _shop_named(self) -> list[Entry]:
        """The key by which a project names a shop file that lies beside it."""
        name = self.topic.shop_in_folder
        return [Entry(("shop",), as_toml(name), "your shop file, in this folder or below")] if name else []

    def _of_a_maker(self) -> list[Entry]:
        """The values of a shop that charges nothing, for one who only buys; her wage is asked for."""
        if not _only_buys(self.answers):
            return []
        text = (presets_folder() / "shops" / f"maker-{presets.SYSTEMS[_units(self.puts)]}.toml").read_text("utf-8")
        return [entry for entry in entries_of(text) if entry.path != ("rates", "wage")]

    # --- reading it ----------------------------------------------------------------------------------------------

    def _resolve(self) -> Resolved:
        """Read the file as far as it goes. Raises ProblemsFound, with those of the first of all stand-ins."""
        problems: ProblemsFound | None = None
        for stand_ins in self._stand_ins():
            try:
                return self._resolve_with(stand_ins)
            except ProblemsFound as found:
                problems = problems or found
        raise problems or AssertionError("there is always something to try")

    def _resolve_with(self, stand_ins: Puts) -> Resolved:
        text, file = self._written(stand_ins), self.topic.file
        if self.topic.is_project:
            named = None if self.topic.shop_in_folder else self.topic.shop
            return resolve(Source(file, text), named, PurePath(file).parent)
        around: Puts = {("units",): _units(self.puts), **STAND_INS[0]}
        project_text = file_text([], [Entry(path, as_toml(value), "") for path, value in around.items()], ProjectFile)
        return resolve(Source(AROUND_A_SHOP, project_text), file, reader=lambda name: Source(name, text))

    def _stand_ins(self) -> Iterator[Puts]:
        """Values of questions to come: a size, the method that a style of ties needs, and for edges that are priced by
        another unit their prices."""
        sizes: tuple[Puts, ...] = ({},)
        if self.topic.is_project:
            width = self.puts.get(("top", "width"))
            if not any(path[0] == "top" and path != ("top", "use") for path in self.puts):
                sizes = STAND_INS
            elif width is not None and ("top", "length") not in self.puts:
                sizes = ({("top", "length"): width},)
        else:
            edge_rates = [question.path for question in self.topic.questions if question.path[:2] == EDGE_RATES]
            is_stale = self.puts.get(EDGE_UNIT) not in (None, sample_value(_units(self.puts), EDGE_UNIT))
            sizes = ({path: 0 for path in edge_rates if is_stale and path not in self.puts},)
        answered = {answer.question.name for answer in self.answers}
        methods: tuple[Puts, ...] = ({},)
        if "style" in answered and "method" not in answered:
            methods = ({}, {("quilting", "method"): tying_method(_units(self.puts))})
        for size, method in product(sizes, methods):
            yield size | method


def in_words(question: Question, seen: Seen) -> str:
    """Put a question into words, with the unit that is asked for, and the cloth."""
    text = question.asks
    if question.kind == "size":
        return project.SIZE_BY_USE.get(str(seen.puts.get(("top", "use"))), text)
    if question.kind == "rate":
        unit = seen.text_of("quilting-by") or str(seen.resolved.tables.rates.quilting_per)
        return f"{text} ({a_unit(unit)})"
    if question.path[:2] == ("rates", "binding"):
        return f"{text} ({a_unit(seen.edge_unit)})"
    cloth = cloth_of(question, seen) if question.kind == "cloth price" else None
    if cloth is None:
        return text
    values = seen.resolved.layers.values
    name, per = (str(values[*cloth[0], key].value) for key in ("name", "per"))
    return text.format(cloth=name, a_unit=a_unit(per))


def with_subject(error: MeasureError, text: str) -> MeasureError:
    """The same error, which names the answer where its sentence has no subject because a file names the key."""
    starts_bare = str(error).startswith(("is ", "has ", "gives ", "runs "))
    return MeasureError(error.code, f'"{shorten(text.strip())}" {error}' if starts_bare else str(error), error.hint)


def _puts(answers: Iterable[Answer]) -> Puts:
    """The values that answers put into the file, without those that are kept as they are."""
    puts: Puts = {}
    for answer in answers:
        puts = {path: value for path, value in puts.items() if path not in answer.drops}
        puts |= {} if answer.kept else answer.puts
    return puts


def _units(puts: Puts) -> str:
    return str(puts.get(("units",), "in"))


def _only_buys(answers: Iterable[Answer]) -> bool:
    text = next((answer.text for answer in answers if answer.question.name == "charges"), "")
    return bool(text) and not YES_AND_NO[text.lower()]


@cache
def tying_method(units: str) -> str:
    """The first of the methods that ties."""
    found = ((name, presets.find("methods", name, units)) for name in presets.own_names("methods", units))
    return next(name for name, preset in found if preset and getattr(preset.values, "stitch", "") == "tie")
