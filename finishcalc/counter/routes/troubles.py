"""Errors as pages, each with a way back: no such address or project, files with mistakes.

A customer may look at them. So of a shop file, and of what the studio keeps to itself in a project, only the file's
name and the line are told: a problem with a wage or a margin names its value.
"""

from collections.abc import Iterable
from http import HTTPStatus
from pathlib import PurePath
from typing import NamedTuple

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from finishcalc.counter.form.table import NAME
from finishcalc.counter.pages import page
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.changes.shop_values import is_in_house
from finishcalc.model.files import ProjectFile
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

ABSENT = (ProblemCode.NO_SUCH_FILE, ProblemCode.NO_FILE_NAMED)
"""The problems of a name that no project has."""


class ShownProblem(NamedTuple):
    """A problem as a page shows it: its place, and what is wrong with its mend. The line itself is not shown, because
    what the studio keeps to itself may be in it."""

    place: str
    words: str


def shown_problems(problems: Iterable[Problem], name: str) -> list[ShownProblem]:
    """Show the problems of a project, those of other files once for each line."""
    return list(dict.fromkeys(_shown(problem, name) for problem in problems))


def _shown(problem: Problem, name: str) -> ShownProblem:
    line = f", line {problem.line}" if problem.line else ""
    if problem.file not in (name, NAME) or is_in_house(ProjectFile, key_path(problem.path), None):
        mend = f"finishcalc check {name}" if name else "finishcalc check"
        return ShownProblem(plain(PurePath(problem.file).name) + line, f"a mistake, which {plain(mend)} tells")
    words = ": ".join(filter(None, (problem.path, problem.message, problem.hint)))
    file = name if problem.file == NAME and name else problem.file
    return ShownProblem(plain(file) + line, plain(words))


async def on_problems(request: Request, error: Exception) -> Response:
    """Answer with the problems of a file."""
    assert isinstance(error, ProblemsFound)
    name = request.path_params.get("name", "")
    problems = shown_problems(error.problems, name)
    if name and error.problems[0].file == name and error.problems[0].code in ABSENT:
        told = f"There is no project {plain(name)} in this folder. It may have another name now, or be gone."
        return _page("No such project", told, 404, request)
    told = "This cannot be worked out before its file is mended, which any editor of text does:"
    if request.method == "POST":
        told = "That was not done. What you changed before is kept."
    return _page(plain(name) or "A file with mistakes", told, 422, request, problems)


async def on_http(request: Request, error: Exception) -> Response:
    """Answer an address or a method that is none here."""
    assert isinstance(error, HTTPException)
    told = {404: "There is no page at this address.", 405: "This address is for a form of the page alone."}
    phrase = HTTPStatus(error.status_code).phrase.capitalize()
    return _page(phrase, told.get(error.status_code, f"{phrase}."), error.status_code, request)


HANDLERS = {ProblemsFound: on_problems, HTTPException: on_http}
"""The pages of errors, for the application."""


def _page(heading: str, told: str, status: int, request: Request, problems: Iterable[ShownProblem] = ()) -> Response:
    again = request.url.path if problems and request.method == "GET" else ""
    context = {"heading": heading, "told": told, "problems": list(problems), "again": again}
    return HTMLResponse(page("trouble.html", **context), status_code=status)
