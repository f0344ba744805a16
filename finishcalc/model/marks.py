"""The marks on the line of a key, which say more of it than its type."""

from typing import Any, Literal, NamedTuple

from pydantic import BeforeValidator, Field


def most(count: int) -> Any:
    """Mark a list, or a table of names, that holds at most `count` items."""
    return Field(max_length=count)


def limit_of(mark: Any) -> int | None:
    """The most items that a mark allows: pydantic keeps `most` as it is, or as the constraint it makes of it."""
    inner = getattr(mark, "metadata", ())
    limit: int | None = getattr(mark, "max_length", None) or next(filter(None, map(limit_of, inner)), None)
    return limit


class Per(NamedTuple):
    """Marks a figure with the places of its unit: keys beside it, or dotted paths from the top of the file. The first
    that is given counts."""

    keys: tuple[str, ...]


class Mark(NamedTuple):
    """Marks a key: `in_house` is the studio's alone; `rows` are tables in a list, each with its own layers; `at_root`
    puts the keys of a table at the top."""

    name: Literal["in_house", "rows", "at_root"]


IN_HOUSE = Mark("in_house")
ROWS = Mark("rows")
AT_ROOT = Mark("at_root")


def _as_list(value: Any) -> Any:
    return [value] if isinstance(value, (str, dict)) else value


ONE_OR_SEVERAL = BeforeValidator(_as_list)
"""Marks a list of tables, or of names that stand for them, of which a file may give one alone, without brackets."""


def _table_as_list(value: Any) -> Any:
    return [value] if isinstance(value, dict) else value


ONE_TABLE_OR_SEVERAL = BeforeValidator(_table_as_list)
"""Marks a list of tables alone of which a file may give one without brackets."""
