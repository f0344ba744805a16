"""The terminal: its width, and everything that is written to it."""

import sys
from errno import EBADF
from typing import Any

import typer

from finishcalc.commandline.stopping import note
from finishcalc.problems import ProblemsFound


def written_lines(paths: list[str]) -> str:
    """Name each file that was written, a line each."""
    from finishcalc.wording.plain import plain

    return "".join(f"wrote {plain(path)}\n" for path in paths)


def width() -> int:
    """Give the terminal's columns, from 40 to 80; 80 where there is no terminal and COLUMNS is not set."""
    from shutil import get_terminal_size

    return max(min(get_terminal_size((80, 24)).columns, 80), 40)


def is_terminal() -> bool:
    """Tell a terminal on standard output."""
    try:
        return sys.stdout is not None and sys.stdout.isatty()
    except ValueError:  # it is closed
        return False


def report_problems(error: ProblemsFound, as_json: bool) -> None:
    """Write every problem on standard error, as text or as records."""
    from finishcalc.rendering.pages.problems import problems_json, problems_text

    write(problems_json(error.problems) if as_json else problems_text(error.problems), error=True)


def write(content: str | bytes, error: bool = False, passing: bool = False) -> None:
    """Write bytes as they are, and text as UTF-8, whatever the locale is, or in a terminal as that can show it. Stops
    quietly where the reader has gone. What is only `passing` is no result, so that a stop need not speak of it."""
    if not content:
        return
    stream = sys.stderr if error else sys.stdout
    if not error and not passing:
        note("the output may be incomplete")
    try:
        if stream is None:
            raise OSError(EBADF, "standard output is closed")
        stream.buffer.write(content if isinstance(content, bytes) else _encoded(content, stream))
        stream.buffer.flush()
    except BrokenPipeError:
        raise typer.Exit(1) from None
    except OSError as failure:
        if not error:
            write(f"cannot write the result: {failure.strerror}\n", error=True)
        raise typer.Exit(1) from None


def _encoded(text: str, stream: Any) -> bytes:
    if text.isascii():
        return text.encode()
    from finishcalc.commandline.encoding import encoded  # most texts hold no other characters

    return encoded(text, stream)
