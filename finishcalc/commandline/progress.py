"""A progress bar on a terminal's standard error, for work that takes longer than a second."""

import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import suppress
from time import monotonic
from typing import TYPE_CHECKING, TypeVar

from finishcalc.commandline.stopping import stopped_too

if TYPE_CHECKING:
    from rich.progress import Progress

T = TypeVar("T")

PATIENCE = 1
"""The seconds before a bar is shown."""
BETWEEN = 0.1
"""The least seconds between two looks of it."""
CLEARED = b"\r\x1b[2K\x1b[?25h"
"""Clears the line that the cursor is in, and shows the cursor again (ECMA-48, and DEC's private mode 25)."""


def with_progress(results: Iterable[T], number: int, done: int, wanted: bool) -> Iterator[T]:
    """Pass results on, and show how many of their number are `done` by now, with those that were before. A bar on a
    terminal that cannot move its cursor, or beside results that are written to the same terminal, would only be in the
    way."""
    if not (wanted and _is_terminal()):
        yield from results
        return
    bar = _Bar(number, done)
    with stopped_too(bar.drop):
        try:
            for result in results:
                yield result
                bar.step()
        finally:
            bar.take_away()


def _is_terminal() -> bool:
    """Tell a terminal on standard error that can move its cursor."""
    try:
        return sys.stderr is not None and sys.stderr.isatty() and os.environ.get("TERM", "") not in ("", "dumb")
    except ValueError:  # it is closed
        return False


class _Bar:
    """A bar that comes late and moves now and then, in this thread, because a process with threads cannot be forked."""

    def __init__(self, number: int, done: int) -> None:
        self._number, self._done = number, done
        self._shown: Progress | None = None
        self._looks_at = monotonic() + PATIENCE

    def step(self) -> None:
        self._done += 1
        if monotonic() < self._looks_at:
            return
        with suppress(OSError):
            shown = self._shown or self._show()
            shown.update(shown.task_ids[0], completed=self._done, refresh=True)
        self._looks_at = monotonic() + BETWEEN

    def _show(self) -> "Progress":
        from rich.console import Console  # only a long run on a terminal needs it
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

        columns = (BarColumn(), MofNCompleteColumn(" of "), TextColumn("projects"), TimeRemainingColumn())
        self._shown = Progress(
            *columns,
            console=Console(stderr=True),
            auto_refresh=False,
            transient=True,
            redirect_stdout=False,
            redirect_stderr=False,
        )
        self._shown.add_task("", total=self._number, completed=self._done)
        self._shown.start()
        return self._shown

    def take_away(self) -> None:
        """Clear the bar's line, with the cursor back in it."""
        if self._shown:
            with suppress(OSError):
                self._shown.stop()
            self._shown = None

    def drop(self) -> None:
        """Clear it in the midst of whatever it does, past its stream, because the process ends."""
        if self._shown:
            os.write(sys.stderr.fileno(), CLEARED)
