"""What a table of a file may hold: its keys, each with the function that takes its value.

A table is described once. From the description comes the check of a file (through pydantic's validator), the
nearest key to a misspelt one, and who may see a value.
"""

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any, NamedTuple, Union, cast

from pydantic_core import CoreSchema, PydanticCustomError, SchemaValidator, core_schema

from finishcalc.intake.fields import Reading, Take
from finishcalc.measures.numbers import MeasureError


class Key(NamedTuple):
    """A key with a value of its own. A `figure` is a price, a share or minutes: a sample is marked as one wherever
    it prints. What is `in_house` the customer's page never shows."""

    take: Take
    figure: bool = False
    in_house: bool = False


class ListOf(NamedTuple):
    """A key with a list of tables, `most` of them at most, each of which must be whole."""

    table: "Table"
    most: int
    figure: bool = False
    in_house: bool = False


class Rows(NamedTuple):
    """A key with a list of tables, each of which is laid on its own under its place in the list: what one leaves
    out may stand elsewhere. The list of a later layer takes the place of an earlier one. It has `most` at most."""

    each: "Table"
    most: int


class Named(NamedTuple):
    """A key with tables, or values, under names of the file's own, `most` of them at most."""

    each: "Key | Table"
    most: int


Kind = Union[Key, ListOf, Rows, Named, "Table"]


class Table:
    """The keys of a table. In a sparse one every key may be left out; in a whole one only the `optional` may.

    `shorthand` turns a value that stands for a table into that table; `last` checks a table that is otherwise
    right. `takes_away` are keys that make others void in the layers below. The tables of `at_root` are laid
    where a project file has them, not under their own name.
    """

    def __init__(
        self,
        keys: Mapping[str, Kind],
        *,
        whole: bool = False,
        optional: tuple[str, ...] = (),
        shorthand: Callable[[Any], Any] | None = None,
        last: Callable[[dict[str, Any]], None] | None = None,
        takes_away: Mapping[str, tuple[str, ...]] | None = None,
        at_root: tuple[str, ...] = (),
    ) -> None:
        self.keys = dict(keys)
        self.whole = whole
        self.optional = optional
        self.shorthand = shorthand
        self.last = last
        self.takes_away = dict(takes_away or {})
        self.at_root = at_root

    @cached_property
    def validator(self) -> SchemaValidator:
        """Checks a TOML table; its context is a Reading. Raises pydantic's ValidationError."""
        return SchemaValidator(self.schema)

    @cached_property
    def schema(self) -> CoreSchema:
        """The table in pydantic's own terms. Written out as plain dictionaries: the functions that make them are
        slow, and a quote at the counter waits for them."""
        fields = {name: self._field(name, _schema(kind)) for name, kind in self.keys.items()}
        schema: Any = {"type": "typed-dict", "fields": fields, "extra_behavior": "forbid"}
        if self.last:
            function = {"type": "no-info", "function": _checked(self.last)}
            schema = {"type": "function-after", "function": function, "schema": schema}
        if self.shorthand:
            function = {"type": "no-info", "function": self.shorthand}
            schema = {"type": "function-before", "function": function, "schema": schema}
        return cast(CoreSchema, schema)

    def _field(self, name: str, schema: Any) -> Any:
        required = self.whole and name not in self.optional
        return {"type": "typed-dict-field", "schema": schema, "required": required}


def _schema(kind: Kind) -> Any:
    if isinstance(kind, Table):
        return kind.schema
    if isinstance(kind, ListOf):
        return {"type": "list", "items_schema": kind.table.schema, "strict": True, "max_length": kind.most}
    if isinstance(kind, Rows):
        return {"type": "list", "items_schema": kind.each.schema, "strict": True, "max_length": kind.most}
    if isinstance(kind, Named):
        each: Any = {"keys_schema": {"type": "str"}, "values_schema": _schema(kind.each)}
        return {"type": "dict", **each, "strict": True, "max_length": kind.most}
    return {"type": "function-plain", "function": {"type": "with-info", "function": _guarded(kind.take)}}


def _guarded(take: Take) -> Callable[[object, core_schema.ValidationInfo[Reading]], Any]:
    def validate(value: object, info: core_schema.ValidationInfo[Reading]) -> Any:
        try:
            return take(value, info.context)
        except MeasureError as error:
            raise _refusal(error) from None

    return validate


def _checked(last: Callable[[dict[str, Any]], None]) -> Callable[[dict[str, Any]], dict[str, Any]]:
    def validate(found: dict[str, Any]) -> dict[str, Any]:
        try:
            last(found)
        except MeasureError as error:
            raise _refusal(error) from None
        return found

    return validate


def _refusal(error: MeasureError) -> PydanticCustomError:
    return PydanticCustomError("refused", "{message}", {"code": error.code, "message": str(error), "hint": error.hint})


def within(kind: Kind | None, step: str | int) -> Kind | None:
    """The kind of what stands at a step of a table, of its names, or of a list; None for no key that is known."""
    if isinstance(kind, Table):
        return kind.keys.get(str(step))
    if isinstance(kind, (ListOf, Rows)):
        return (kind.table if isinstance(kind, ListOf) else kind.each) if isinstance(step, int) else None
    return kind.each if isinstance(kind, Named) else None
