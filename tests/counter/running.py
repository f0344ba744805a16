"""Runs a coroutine to its end in a thread of its own, because a browser's tests leave a loop running in theirs."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

R = TypeVar("R")


def run(coroutine: Coroutine[Any, Any, R]) -> R:
    """Give what a coroutine gives. Raises what it raises."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(asyncio.run, coroutine).result()
