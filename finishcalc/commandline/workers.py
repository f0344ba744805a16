"""Works items out in several processes and gives the results in the order of the items.

No more than a window of results waits for a slow one before it, so memory stays flat however many items there are. A
worker takes no signal to stop: the command ends its workers when it ends, and a worker whose command is gone finds its
pipe closed. Each has a few items beforehand, so that it never waits while results are written.
"""

import os
import signal
import sys
import threading
import traceback
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from heapq import heappop, heappush
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Any, Generic, Literal, TypeVar

from finishcalc.commandline.stopping import STOPS, stopped_too

Item = TypeVar("Item")
Result = TypeVar("Result")
StartMethod = Literal["fork", "spawn"]

AHEAD = 2
"""The chunks that a worker has at a time."""
CHUNK = 8
"""The most items that go to a worker and come back together."""
MOST_DEATHS = 20
"""So many workers die before any has given a result: then none will."""
WINDOW = 256
"""The most items between the one that is given next and the one that is worked out farthest ahead."""


def in_order(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    jobs: int,
    lost: Callable[[Item], Result],
    method: StartMethod | None = None,
) -> Iterator[Result]:
    """Work out every item in so many processes. Where a process dies over one, the result is what `lost` makes of it;
    an exception of the work is raised here."""
    pool = _Pool(work, items, lost, method or start_method())
    try:
        with stopped_too(pool.end):
            yield from pool.run(min(jobs, len(items)))
    finally:
        pool.finish()


def start_method() -> StartMethod:
    """Fork where that is safe and shares what is loaded already: on Linux, in a process without other threads."""
    return "fork" if sys.platform == "linux" and threading.active_count() == 1 else "spawn"


class _Worker(Generic[Item, Result]):
    """A process with its pipe, and the chunks that it has, by the numbers of their items, the one at work first."""

    def __init__(self, work: Callable[[Item], Result], others: Sequence[Connection], method: StartMethod) -> None:
        context = get_context("fork") if method == "fork" else get_context("spawn")
        self.pipe, theirs = context.Pipe()
        inherited = (*others, self.pipe) if method == "fork" else ()
        self.process: BaseProcess = context.Process(target=_serve, args=(theirs, inherited, work), daemon=True)
        self.has = deque[range]()
        with _stops_blocked():
            self.process.start()
        theirs.close()


class _Pool(Generic[Item, Result]):
    """The workers of a run, the chunks of items that are left, and the results that wait for their turn."""

    def __init__(
        self,
        work: Callable[[Item], Result],
        items: Sequence[Item],
        lost: Callable[[Item], Result],
        method: StartMethod,
    ) -> None:
        self._work, self._items, self._lost, self._method = work, items, lost, method
        self._workers = list[_Worker[Item, Result]]()
        self._left, self._waiting, self._next = list[tuple[int, range]](), dict[int, Result](), 0
        self._deaths, self._has_given = 0, False

    def run(self, jobs: int) -> Iterator[Result]:
        """Give the results in order. Where the system starts no other process, all is worked out in this one; where
        every worker has died, this one does not follow them, and the rest is lost."""
        number = len(self._items)
        size = min(CHUNK, -(-number // (4 * jobs)))  # so that all end at about one time
        for start in range(0, number, size):
            self._put_back(range(start, min(start + size, number)))
        for _ in range(jobs):
            self._start_worker()
        while self._next < len(self._items):
            self._hand_out()
            if self._workers:
                self._collect()
            else:
                _, chunk = heappop(self._left)
                here = self._lost if self._deaths else self._work
                self._waiting |= {number: here(self._items[number]) for number in chunk}
            while self._next in self._waiting:
                yield self._waiting.pop(self._next)
                self._next += 1

    def end(self) -> None:
        """End every worker at once: nothing that they do is kept."""
        for worker in self._workers:
            with suppress(OSError, ValueError):
                worker.process.kill()

    def finish(self) -> None:
        """End every worker and see it gone."""
        self.end()
        for worker in self._workers:
            worker.process.join()
        self._workers.clear()

    def _start_worker(self) -> None:
        others = [worker.pipe for worker in self._workers]
        with suppress(OSError):  # there are too many processes already
            self._workers.append(_Worker(self._work, others, self._method))

    def _hand_out(self) -> None:
        """Give each worker chunks until it has enough, the earliest to the one with the fewest."""
        for enough in range(1, AHEAD + 1):
            for worker in self._workers:
                if len(worker.has) < enough and self._left and self._left[0][0] < self._next + WINDOW:
                    _, chunk = heappop(self._left)
                    worker.has.append(chunk)
                    with suppress(OSError):  # it has died, which is noticed where its results are read
                        worker.pipe.send([self._items[number] for number in chunk])

    def _collect(self) -> None:
        """Take what has been worked out, and notice who has died."""
        ready = wait([worker.pipe for worker in self._workers])
        for worker in [worker for worker in self._workers if worker.pipe in ready]:
            try:
                results, failure = worker.pipe.recv()
            except (EOFError, OSError):
                self._bury(worker)
                continue
            if failure is not None:
                raise failure
            self._has_given = True
            self._waiting |= zip(worker.has.popleft(), results, strict=True)

    def _bury(self, worker: _Worker[Item, Result]) -> None:
        """Take back the chunks of a dead worker, and put another in its place. An item that it was at alone is lost;
        those of a chunk are tried again one by one, to find the one that ends the process."""
        self._deaths += 1
        self._workers.remove(worker)
        worker.pipe.close()
        worker.process.join()
        if worker.has:
            first = worker.has.popleft()
            for number in first if len(first) > 1 else ():
                self._put_back(range(number, number + 1))
            if len(first) == 1:
                self._waiting[first[0]] = self._lost(self._items[first[0]])
        for chunk in worker.has:
            self._put_back(chunk)
        if self._left and (self._has_given or self._deaths < MOST_DEATHS):
            self._start_worker()

    def _put_back(self, chunk: range) -> None:
        heappush(self._left, (chunk.start, chunk))


def _serve(pipe: Connection, inherited: Sequence[Connection], work: Callable[[Any], Any]) -> None:
    """Work out what comes through the pipe until it is closed. What a fork has inherited of other pipes is closed, so
    that theirs end with the command too."""
    for number in STOPS:
        signal.signal(number, signal.SIG_IGN)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)
    for other in inherited:
        other.close()
    with suppress(EOFError, OSError):
        while True:
            items = pipe.recv()
            answer: tuple[Any, Exception | None]
            try:
                answer = [work(item) for item in items], None
            except Exception as error:
                error.add_note(traceback.format_exc())
                answer = None, error
            pipe.send(answer)
    os._exit(0)


@contextmanager
def _stops_blocked() -> Iterator[None]:
    """Hold signals to stop back while a process starts, which would answer them as the command does."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
