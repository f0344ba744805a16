"""Work that tests of views share: one file is shown in many ways, and worked out for the first of them only.

Only the work is shared, by all that it is made from; each view is asked for through the command line as ever.
"""

from collections.abc import Callable, Hashable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from finishcalc import pipeline
from finishcalc.commandline import views
from finishcalc.comparing import cloths, sizes
from finishcalc.comparing.design import Design

_done: dict[Hashable, tuple[Any, object]] = {}
"""What was worked out, each with what it was made from, which therefore keeps its place in memory."""


def _file(name: str, shop: str | None = None, change: object = None) -> Hashable:
    return name, Path(name).read_bytes(), _shop(shop), repr(change)


def _design(design: Design, *lists: Iterable[str] | None) -> Hashable:
    asked = _shop(design.shop), design.folder, design.widen, repr(design.tried), repr(lists)
    return design.source.name, design.source.text, *asked


def _shop(shop: str | None) -> Hashable:
    return shop and (shop, Path(shop).read_bytes())


Shared = tuple[tuple[Any, str, Callable[..., Hashable]], ...]
"""Functions, each with the key of all that its result depends on."""

RESULTS: Shared = (
    (pipeline, "try_file", _file),
    (pipeline, "finish_file", _file),
    (sizes, "compare_sizes", _design),
    (cloths, "compare_sizes", _design),
    (cloths, "compare_cloths", _design),
)
ALTERNATIVES: Shared = ((views, "alternatives_of", id), (views, "in_house", id))


@contextmanager
def shared_work() -> Iterator[None]:
    """Let each of these functions give what it gave before for the same."""
    with _shared((*RESULTS, *ALTERNATIVES), _done):
        yield


@contextmanager
def shared_alternatives() -> Iterator[None]:
    """Let the alternatives to one result be worked out for the first of its views here."""
    with _shared(ALTERNATIVES, {}):
        yield


@contextmanager
def _shared(functions: Shared, done: dict[Hashable, tuple[Any, object]]) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        for module, name, key in functions:
            patch.setattr(module, name, _once(name, getattr(module, name), key, done))
        yield


def _once(
    name: str, work: Callable[..., Any], key: Callable[..., Hashable], done: dict[Hashable, tuple[Any, object]]
) -> Callable[..., Any]:
    def known(*given: Any) -> Any:
        made_from = name, key(*given)
        if made_from not in done:
            done[made_from] = work(*given), given
        return done[made_from][0]

    return known
