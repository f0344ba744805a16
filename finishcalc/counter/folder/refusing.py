"""Errors of the system told as problems, in plain words."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from finishcalc.intake.source import unreadable
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.storing.placing import unwritable


def taken(name: str) -> Problem:
    """The problem with a name that something else has already."""
    return Problem(ProblemCode.FILE_EXISTS, name, 0, 0, "", "already exists", "nothing was written: give another name")


@contextmanager
def reading(name: str) -> Iterator[None]:
    """Tell of a file that cannot be read as a problem."""
    try:
        yield
    except OSError as error:
        code, message, hint = unreadable(error)
        raise ProblemsFound([Problem(code, name, 0, 0, "", message, hint)]) from None


@contextmanager
def writing(name: str) -> Iterator[None]:
    """Tell of a file that cannot be written as a problem."""
    try:
        yield
    except FileExistsError:
        raise ProblemsFound([taken(name)]) from None
    except (OSError, UnicodeEncodeError) as error:
        raise ProblemsFound([unwritable(Path(name), error)]) from None
