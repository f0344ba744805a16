"""Several processes give the same as one: in order, whoever dies, and never more at a time than a window."""

import os
import signal
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from finishcalc.commandline.workers import WINDOW, StartMethod, in_order

pytestmark = pytest.mark.slow


def squared(item: int) -> tuple[int, int]:
    """The square, with the process that worked it out. The first of many is slow."""
    if item == 0:
        time.sleep(0.2)
    return item * item, os.getpid()


def lost(item: int) -> tuple[int, int]:
    return -item, 0


def run(work: Callable[[int], tuple[int, int]], number: int, jobs: int, method: StartMethod) -> list[tuple[int, int]]:
    return list(in_order(work, range(number), jobs, lost, method))


@pytest.mark.parametrize(
    ("number", "jobs", "method"), [(1, 1, "fork"), (7, 3, "fork"), (100, 2, "fork"), (3, 9, "fork"), (7, 2, "spawn")]
)
def test_results_come_in_the_order_of_the_items_from_other_processes(number: int, jobs: int, method: StartMethod):
    results = run(squared, number, jobs, method)
    assert [square for square, _ in results] == [item * item for item in range(number)]
    processes = {process for _, process in results}
    assert os.getpid() not in processes
    assert len(processes) <= jobs


def noted(folder: Path, item: int) -> tuple[int, int]:
    """Leave a file named for the item; the first waits until it has been alone for a while."""
    (folder / str(item)).touch()
    if item == 0:
        time.sleep(1)
    return item, 0


def test_no_more_than_a_window_waits_for_a_slow_result(tmp_path: Path):
    results = in_order(partial(noted, tmp_path), range(1000), 2, lost, "fork")
    assert next(results) == (0, 0)
    assert len(list(tmp_path.iterdir())) <= WINDOW + 8  # and the chunk that was begun before the window's end
    results.close()  # type: ignore[attr-defined]


def dies_at(items: set[int], item: int) -> tuple[int, int]:
    if item in items:
        os.kill(os.getpid(), signal.SIGKILL)
    return item, os.getpid()


@pytest.mark.parametrize(("method", "fatal"), [("fork", {3, 6}), ("spawn", {3})])
def test_a_worker_that_dies_loses_the_one_item_it_was_at(method: StartMethod, fatal: set[int]):
    results = run(partial(dies_at, fatal), 9, 2, method)
    assert [item for item, _ in results] == [-item if item in fatal else item for item in range(9)]


def test_workers_that_all_die_at_once_are_replaced():
    results = run(partial(dies_at, {0, 1, 2}), 30, 3, "fork")
    assert [item for item, _ in results] == [0, -1, -2, *range(3, 30)]


def test_where_no_worker_ever_gives_anything_all_is_lost_and_soon():
    """This process does not try what has ended every other."""
    results = run(partial(dies_at, set(range(5000))), 5000, 2, "fork")
    assert results == [(-item, 0) for item in range(5000)]


def test_where_no_process_can_be_started_all_is_worked_out_here(monkeypatch: pytest.MonkeyPatch):
    def refused(*_: object) -> None:
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr("multiprocessing.process.BaseProcess.start", refused)
    assert run(squared, 20, 2, "fork") == [(item * item, os.getpid()) for item in range(20)]


def fails(item: int) -> tuple[int, int]:
    return 1 // (item - 5), 0


def test_a_mistake_of_ours_in_a_worker_is_raised_with_its_own_traceback():
    with pytest.raises(ZeroDivisionError) as raised:
        run(fails, 20, 2, "fork")
    assert "in fails" in "".join(raised.value.__notes__)


def sleeps(folder: Path, item: int) -> tuple[int, int]:
    (folder / str(os.getpid())).touch()
    time.sleep(60 if item else 0)
    return item, 0


def is_alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return not Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].strip().startswith("Z")


def test_workers_end_with_whoever_takes_their_results(tmp_path: Path):
    results = in_order(partial(sleeps, tmp_path), range(8), 2, lost, "fork")  # few enough to come one by one
    assert next(results) == (0, 0)
    workers = [int(path.name) for path in tmp_path.iterdir()]
    assert workers
    results.close()  # type: ignore[attr-defined]
    until = time.monotonic() + 5
    while any(map(is_alive, workers)) and time.monotonic() < until:
        time.sleep(0.02)
    assert not any(map(is_alive, workers))
