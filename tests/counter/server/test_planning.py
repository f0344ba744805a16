"""One edit at a time is worked out, and of the waiting edits of a page only the newest."""

import asyncio
import threading
import time

import pytest

from finishcalc.counter.server.planning import Planning
from tests.counter.running import run


class Worker:
    """Work that waits until it is let go on, and remembers what it did."""

    def __init__(self) -> None:
        self.done, self.threads = list[str](), set[int]()
        self.go_on = threading.Event()

    def work(self, name: str) -> str:
        assert self.go_on.wait(10)
        self.done.append(name)
        self.threads.add(threading.get_ident())
        return name.upper()


async def begun(planning: Planning, worker: Worker, *edits: tuple[str, str]) -> list[asyncio.Task[str | None]]:
    """Edits of pages, one after the other, each begun before the next comes."""
    tasks = []
    for page, name in edits:
        tasks.append(asyncio.create_task(planning.run(page, worker.work, name)))
        await asyncio.sleep(0)
    await asyncio.sleep(0.05)
    return tasks


def test_of_the_edits_of_a_page_that_wait_only_the_newest_is_worked_out():
    """The first is at work already, so it is finished."""
    worker = Worker()

    async def story() -> list[str | None]:
        tasks = await begun(Planning(), worker, ("one", "a"), ("one", "b"), ("one", "c"), ("one", "d"))
        worker.go_on.set()
        return await asyncio.gather(*tasks)

    assert run(story()) == ["A", None, None, "D"]
    assert worker.done == ["a", "d"]


def test_pages_do_not_put_each_other_off_and_take_turns_in_one_thread():
    worker = Worker()

    async def story() -> list[str | None]:
        tasks = await begun(Planning(), worker, ("one", "a"), ("two", "b"), ("one", "c"), ("three", "d"), ("two", "e"))
        worker.go_on.set()
        return await asyncio.gather(*tasks)

    assert run(story()) == ["A", None, "C", "D", "E"]
    assert worker.done == ["a", "c", "d", "e"]
    assert len(worker.threads) == 1


def test_what_needs_no_planning_is_served_while_something_is_worked_out():
    """The loop turns on: a hundred turns of a millisecond end while the work still waits for them."""
    worker = Worker()

    async def story() -> str | None:
        (task,) = await begun(Planning(), worker, ("one", "a"))
        for _ in range(100):
            await asyncio.sleep(0.001)
        assert worker.done == []
        worker.go_on.set()
        return await task

    assert run(story()) == "A"


def test_a_mistake_reaches_its_own_page_and_the_next_edit_is_worked_out():
    def broken() -> None:
        time.sleep(0.01)
        raise ZeroDivisionError

    async def story() -> int | None:
        planning = Planning()
        first, second = asyncio.create_task(planning.run("one", broken)), planning.run("one", int, "3")
        await asyncio.sleep(0)
        answer = await second
        with pytest.raises(ZeroDivisionError):
            await first
        return answer

    assert run(story()) == 3


def test_nothing_is_kept_for_pages_that_are_gone():
    """Neither of pages that were answered, nor of those whose edits gave way, failed or were called off."""
    worker = Worker()

    def broken() -> None:
        raise ZeroDivisionError

    async def story() -> Planning:
        planning = Planning()
        tasks = await begun(planning, worker, *[(f"page {number % 50}", "edit") for number in range(200)])
        called_off = asyncio.create_task(planning.run("called off", worker.work, "never"))
        failing = asyncio.create_task(planning.run("failing", broken))
        await asyncio.sleep(0)
        called_off.cancel()
        worker.go_on.set()
        await asyncio.gather(*tasks, failing, return_exceptions=True)
        return planning

    assert run(story())._newest == {}
    assert "never" not in worker.done


@pytest.mark.slow
def test_many_pages_that_are_typed_in_get_their_newest_answer_soon():
    """4 pages of 10 edits 30 ms apart, each 20 ms of work. All of them would take 40 x 20 = 800 ms after 300 ms of
    typing; an edit waits for at most the one at work and one of each other page: 4 x 20 = 80 ms, and here five times
    that for a busy machine."""

    async def story() -> list[float]:
        planning, late = Planning(), []

        async def edit(page: str, is_last: bool) -> None:
            began = time.monotonic()
            if await planning.run(page, time.sleep, 0.02) is None and is_last:
                late.append(time.monotonic() - began)

        async def typed(page: str) -> None:
            edits = []
            for number in range(10):
                edits.append(asyncio.create_task(edit(page, number == 9)))
                await asyncio.sleep(0.03)
            await asyncio.gather(*edits)

        await asyncio.gather(*(typed(str(number)) for number in range(4)))
        return late

    late = run(story())
    assert len(late) == 4
    assert max(late) < 0.4
