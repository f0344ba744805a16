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
_at_stop: list[Callable[[], None]] = []


class Stopped(BaseException):
    """A signal has asked to stop."""


def note(done: str) -> None:
    """Remember something that was written, so that a later stop does not deny it."""
    if done not in _done:
        _done.append(done)


@contextmanager
def stopped_too(end: Callable[[], None]) -> Iterator[None]:
    """Have a stop in the block end something else too, such as processes that work for this one."""
    before_end(end)
    try:
        yield
    finally:
        _at_stop.remove(end)


def before_end(undo: Callable[[], None]) -> None:
    """Do this before a stop ends the process, because nothing else is done then."""
    _at_stop.append(undo)


def write_line(text: str) -> None:
    """Write one line on standard error, if there is one. A signal may come at any moment, and a stream that is in the
    midst of writing cannot be written to again, so this goes past it."""
    if sys.stderr is not None:
        with suppress(OSError, ValueError):
            os.write(sys.stderr.fileno(), f"finishcalc: {text}\n".encode("utf-8", "backslashreplace"))


def listen() -> None:
    """End at a signal to stop, from here on, with one line, and with 128 and the signal's number as exit code."""
    _handle_stops(_end)


@contextmanager
def signals_deferred() -> Iterator[Callable[[], None]]:
    """Make a signal to stop wait until the end of the block, and give a function that raises Stopped where one has
    come. Afterwards the signal is sent again, to its usual handler."""
    received: list[int] = []

    def stop_if_asked() -> None:
        if received:
            raise Stopped

    try:
        with _handled(lambda number, _: received.append(number)):
            yield stop_if_asked
    finally:
        if received:
            signal.raise_signal(received[0])


@contextmanager
def stops_end(end: Callable[[], None]) -> Iterator[None]:
    """Have a signal to stop do this and nothing else in the block, where a stop is the usual end."""
    with _handled(lambda *_: end()):
        yield


@contextmanager
def _handled(handler: Callable[[int, FrameType | None], None]) -> Iterator[None]:
    """Handle every stop in this way in the block."""
    usual_handlers = _handle_stops(handler)
    try:
        yield
    finally:
        for number, usual in usual_handlers.items():
            signal.signal(number, usual)


def _handle_stops(handler: Callable[[int, FrameType | None], None]) -> dict[int, Any]:
    """Set the handler of every stop but those that are ignored, as under nohup. Gives the handlers before. Only the
    main thread may do this; another is not interrupted anyway."""
    handlers: dict[int, Any] = {}
    for number in STOPS:
        usual = signal.getsignal(number)
        if usual not in (signal.SIG_IGN, None):
            with suppress(ValueError):
                signal.signal(number, handler)
                handlers[number] = usual
    return handlers


def _end(number: int, _: FrameType | None) -> None:
    """End at once. An exception would not do, because Python drops those raised in callbacks, which imports have."""
    for end in reversed(_at_stop):
        with suppress(Exception):
            end()
    write_line("; ".join(["stopped", *(_done or ["nothing was written"])]))
    os._exit(128 + number)
