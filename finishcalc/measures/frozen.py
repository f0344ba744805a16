"""The ground of values that must not be mixed: immutable, equal only to their own kind.

A dataclass would do the same and write six functions for each class while the program starts.
"""

from typing import Any


class Frozen:
    """A value whose parts are its `__slots__`, given in that order, once."""

    __slots__: tuple[str, ...] = ()

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} cannot be changed")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{type(self).__name__} cannot be changed")

    def _parts(self) -> tuple[Any, ...]:
        return tuple(getattr(self, name) for name in type(self).__slots__)

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self._parts() == other._parts()

    def __hash__(self) -> int:
        return hash((type(self), *self._parts()))

    def __repr__(self) -> str:
        parts = ", ".join(f"{name}={getattr(self, name)!r}" for name in type(self).__slots__)
        return f"{type(self).__name__}({parts})"

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), self._parts()
