"""Works quotes out one after the other, and of one page's waiting edits only the newest."""

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")


class Planning:
    """One thread for all pages, because with several the interpreter's lock makes each answer late and none sooner. The
    event loop stays free to serve what needs no planning."""

    def __init__(self) -> None:
        self._thread = ThreadPoolExecutor(1, thread_name_prefix="planning")
        self._free = asyncio.Lock()  # takes turns in the order of asking
        self._newest: dict[str, object] = {}

    async def run(self, page: str, work: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R | None:
        """Give what the work gives, or None where a newer edit of the same page came while this one waited. Once begun
        it is finished. Raises what the work raises."""
        mine = self._newest[page] = object()
        try:
            async with self._free:
                if self._newest.get(page) is not mine:
                    return None
                return await asyncio.get_running_loop().run_in_executor(self._thread, lambda: work(*args, **kwargs))
        finally:
            if self._newest.get(page) is mine:  # nothing is kept for a page that is gone
                del self._newest[page]
