"""Ends in good order when asked to stop: by Ctrl-C, by a terminal that closes, or by `kill`."""

import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import Any

STOPS = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]
"""The signals that ask a process to stop and can be answered."""

_done: list[str] = []


class Stopped(BaseException):
    """A signal has asked to stop."""


def note(done: str) -> None:
    """Remember something that was written, so that a later stop does not deny it."""
    if done not in _done:
        _done.append(done)


def say(text: str) -> None:
    """Write one line on standard error, if there is one. A signal may come at any moment, and a stream that is in the
    midst of writing cannot be written to again, so this goes past it."""
    if sys.stderr is not None:
        with suppress(OSError, ValueError):
            os.write(sys.stderr.fileno(), f"finishcalc: {text}\n".encode("utf-8", "backslashreplace"))


def listen() -> None:
    """From here on, a signal to stop ends the process with one line and 128 and the signal's number as exit code."""
    _answer_with(_end)


@contextmanager
def held() -> Iterator[Callable[[], None]]:
    """Inside, a signal to stop waits, and the function that is given raises Stopped where one has come. Afterwards the
    signal is sent again, to whatever answered it before."""
    came: list[int] = []

    def stop_if_asked() -> None:
        if came:
            raise Stopped

    before = _answer_with(lambda number, _: came.append(number))
    try:
        yield stop_if_asked
    finally:
        for number, answer in before.items():
            signal.signal(number, answer)
        if came:
            signal.raise_signal(came[0])


def _answer_with(answer: Callable[[int, FrameType | None], None]) -> dict[int, Any]:
    """Answer every stop in this way, but those that are ignored, as under nohup. Gives the answers before. Only the
    main thread may do this; another is not interrupted anyway."""
    before: dict[int, Any] = {}
    for number in STOPS:
        was = signal.getsignal(number)
        if was not in (signal.SIG_IGN, None):
            with suppress(ValueError):
                signal.signal(number, answer)
                before[number] = was
    return before


def _end(number: int, _: FrameType | None) -> None:
    """End at once. An exception would not do, because Python drops those raised in callbacks, which imports have."""
    say("; ".join(["stopped", *(_done or ["nothing was written"])]))
    os._exit(128 + number)
