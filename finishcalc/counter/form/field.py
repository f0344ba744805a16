"""A field of the form as data: the key that it edits, its label, and the sort of value it holds."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

Sort = Literal["line", "notes", "measure", "count", "percent", "amount", "day", "flag", "choice", "material", "extras"]
"""The sorts of fields: text, figures, a day, yes or no, one of a few words, a material by its name, ordered extras."""


class Field(NamedTuple):
    """A field of the form. `key` is the key path that it edits, in dotted notation; a material's ends with `.preset`.

    The choices of a word are `told` in words. A `listed` one is a list that folds out; all others stand in rows, each
    with what it would change where the field is `priced`. `unit` stands in a field after its figure, "units" for the
    project's own; `tip` says what is typed."""

    key: str
    label: str
    sort: Sort
    told: Mapping[str, str] = MappingProxyType({})
    unit: str = ""
    tip: str = ""
    listed: bool = False
    priced: bool = False

    @property
    def id(self) -> str:
        """The id of the field in the page."""
        return self.key.replace("[", "-").replace("]", "").replace(".", "-").replace("_", "-")

    @property
    def priced_key(self) -> str:
        """The key whose values are compared: of a material, the one that may hold its name alone."""
        return self.key.removesuffix(".preset")


class Group(NamedTuple):
    """Fields that stand together under a `heading`, which may be empty. Where the file has the table `taken_away`, a
    button takes all of it out."""

    fields: tuple[Field, ...]
    heading: str = ""
    taken_away: str = ""


class FormPart(NamedTuple):
    """A part of the talk: a fold with its `name`, its `title`, and its groups of fields."""

    name: str
    title: str
    groups: tuple[Group, ...]
    opened: bool = False

    @property
    def fields(self) -> tuple[Field, ...]:
        """All fields of the part."""
        return tuple(field for group in self.groups for field in group.fields)
