"""A new project: the questions of `finishcalc new` on one page, and the file that their answers make."""

import os
from contextlib import suppress

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter.answers import form_of, to_project
from finishcalc.counter.asking import Answers, Asked, asked
from finishcalc.counter.folder.names import file_name
from finishcalc.counter.pages import page
from finishcalc.counter.state import Counter
from finishcalc.intake.questions.interview import Interview, Topic, project_topic
from finishcalc.pipeline import finish
from finishcalc.problems import ProblemCode, ProblemsFound
from finishcalc.rendering.pages.problems import problems_text

MOST_NUMBERED = 1000
"""The most projects without a title of their own that are numbered."""


class NewRoutes:
    """The page of a new project."""

    def __init__(self, counter: Counter) -> None:
        self._projects, self._alone = counter.projects, counter.alone

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their addresses."""
        return [
            Route("/new", self.show, methods=["GET"]),
            Route("/new", self.answer, methods=["POST"]),
        ]

    async def show(self, request: Request) -> Response:
        """Ask the questions, in the units that the address may name."""
        answers = {"units": request.query_params.get("units", "")}
        return HTMLResponse(await self._alone(self._page, answers))

    async def answer(self, request: Request) -> Response:
        """Make the project, or say what is wrong with the answers; where only other units are chosen, ask again."""
        form = await form_of(request)
        answers = {"brings": "nothing"} | {name: ", ".join(texts) for name, texts in form.items()}
        if "look" in request.query_params:
            return HTMLResponse(await self._alone(self._page, answers))
        return await self._alone(self._made, answers)

    def _page(self, answers: Answers) -> str:
        name, _ = self._name(answers, 1)
        return _filled_in(asked(self._topic(name), answers).without_mistakes())

    def _made(self, answers: Answers) -> Response:
        """Write the project. Where it has no title of its own, it gets the next name that is free."""
        for number in range(1, MOST_NUMBERED + 1):
            name, is_own = self._name(answers, number)
            found = asked(self._topic(name), answers)
            if found.has_mistakes:
                return HTMLResponse(_filled_in(found), status_code=422)
            try:
                finish(found.interview.resolved)
                return to_project(self._projects.create(name, found.interview.text))
            except ProblemsFound as error:
                is_taken = error.problems[0].code == ProblemCode.FILE_EXISTS
                if not is_taken or is_own or number == MOST_NUMBERED:
                    return HTMLResponse(_refused(found, error, is_taken), status_code=422)
        raise AssertionError("the last number is answered too")

    def _topic(self, name: str) -> Topic:
        return project_topic(os.path.join(self._projects.path, name), self._projects.shop)

    def _name(self, answers: Answers, number: int) -> tuple[str, bool]:
        """Name the file after the title; without one after what it will be, with a number where that is taken. Tells
        whether it is the title's."""
        title = answers.get("title", "").strip()
        with suppress(ProblemsFound):  # a title of signs alone names no file
            if title:
                return file_name(title), True
        word = answers.get("use", "").strip() or self._usual_use()
        word = word if word.isalpha() else "quilt"
        return file_name(word if number == 1 else f"{word} {number}"), False

    def _usual_use(self) -> str:
        interview = Interview(self._topic("quilt.toml"))
        return next(interview.default(each).shown for each in interview.topic.questions if each.name == "use")


def _refused(found: Asked, error: ProblemsFound, is_taken: bool) -> str:
    if is_taken:
        problem = error.problems[0]
        return _filled_in(found.with_mistake("title", f"{problem.file} {problem.message}: {problem.hint}"))
    return _filled_in(found, problems_text(error.problems).splitlines())


def _filled_in(found: Asked, told: list[str] | None = None) -> str:
    wrong = next((each.question.name for each in found.questions if each.mistake), "")
    first = wrong or found.questions[0].question.name
    return page("new.html", questions=found.questions, first=first, told=told or [])
