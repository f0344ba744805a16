"""A table of a file as a class, a line a key.

A key's line says its type, its bounds and its marks. From it follow the check of a file, the values that plans and
pricing read, the choices, and who may see a value. A section from one file is sparse: a key that is not given
reads None. With all layers it is complete, and `whole` makes sure of that or names the key that no layer gives.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from inspect import get_annotations
from typing import Annotated, Any, ClassVar, Generic, Literal, NamedTuple, Self, TypeVar, get_args, get_origin

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, model_validator
from pydantic_core import CoreSchema, core_schema

from finishcalc.model.marks import AT_ROOT, IN_HOUSE, ONE_OR_SEVERAL, ONE_TABLE_OR_SEVERAL, ROWS, Per, limit_of
from finishcalc.model.reading import Key

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class Figure(Generic[Value]):
    """A price, a share, minutes or a measure that a studio sets: its value, the unit it is `per`, the key that gives
    it, and whether it is a sample. Two figures are equal whatever key they come from."""

    value: Value
    per: str = ""
    key: str = field(default="", compare=False)
    sample: bool = field(default=False, compare=False)


class _Wrapped:
    """Checks the value of a figure, and wraps it in one."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        (value,) = get_args(source)
        return core_schema.no_info_after_validator_function(Figure, handler.generate_schema(value))


FigureOf = Annotated[Figure[Value], _Wrapped()]
"""A key that holds a figure of some type."""


class Section(BaseModel):
    """A table of a file.

    As class arguments: a `whole` table, as an item of a list, must give every key that has no default; any other only
    the keys in `needs`. `takes_away` maps a key to those that it makes void in the layers below. A plain value may
    stand for a table of the key `short` alone; a table is `filled` with values where a file gives none.
    """

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True, protected_namespaces=()
    )

    required: ClassVar[frozenset[str]] = frozenset()
    """The keys that some layer must give."""
    must_give: ClassVar[frozenset[str]] = frozenset()
    """The keys that a file must give with the table."""
    takes_away: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    """The keys that a key makes void in the layers below."""
    short: ClassVar[str] = ""
    """The key of which a plain value may stand for the table."""
    filled: ClassVar[Mapping[str, str]] = {}
    """The values of keys that a file may leave out of a table that must be whole."""

    def __init_subclass__(cls, **kwargs: Any) -> None:
        """Take the class arguments; `__pydantic_init_subclass__` uses them once the keys are known."""
        super().__init_subclass__()

    @classmethod
    def __pydantic_init_subclass__(
        cls,
        *,
        whole: bool = False,
        needs: tuple[str, ...] = (),
        takes_away: Mapping[str, tuple[str, ...]] | None = None,
        short: str = "",
        filled: Mapping[str, str] | None = None,
        **kwargs: Any,
    ) -> None:
        """Note which keys are required; let a file leave out those that another layer may give."""
        own = {name for name, key in cls.model_fields.items() if key.is_required()}
        inherited = {name for base in cls.__mro__[1:] if issubclass(base, Section) for name in base.required}
        cls.required = frozenset(own | inherited)
        cls.must_give = cls.required if whole else frozenset(needs)
        cls.takes_away = takes_away or cls.takes_away
        cls.short, cls.filled = short or cls.short, filled or cls.filled
        for name in cls.required - cls.must_give:
            cls.model_fields[name].default = None

    @classmethod
    def shorthand(cls, value: Any) -> Any:
        """The table that a value stands for, as a preset's name does; any other value as it is."""
        if isinstance(value, dict):
            return {**cls.filled, **value}
        key = specs(cls)[cls.short].key if cls.short else None
        stands = cls.short and (isinstance(value, str) or not (key and key.text))
        return {cls.short: value} if stands else value

    @classmethod
    def of_values(cls, values: dict[str, Any]) -> Self:
        """A section of values that were checked before, one for every key. It is made without pydantic's look at
        aliases and defaults, because every quote makes a hundred of them."""
        section = cls.__new__(cls)
        object.__setattr__(section, "__dict__", values)
        object.__setattr__(section, "__pydantic_fields_set__", set(values))
        object.__setattr__(section, "__pydantic_extra__", None)
        object.__setattr__(section, "__pydantic_private__", None)
        return section

    @classmethod
    def new(cls, **values: Any) -> Self:
        """A section of values that need no check; a key that is left out has no value."""
        return cls.of_values(dict.fromkeys(specs(cls)) | values)

    @property
    def is_given(self) -> bool:
        """Tell a table of which any key has a value."""
        return any(value is not None for value in self.__dict__.values())

    def replace(self, **changes: Any) -> Self:
        """The same section with other values."""
        return self.of_values(self.__dict__ | changes)

    def filled_from(self, other: "Section") -> Self:
        """The same section, with its missing values taken from the keys of the same name in another."""
        theirs = other.__dict__
        return self.replace(
            **{name: theirs[name] for name, own in self.__dict__.items() if own is None and name in theirs}
        )

    def missing(self) -> Iterator[str]:
        """The required keys without a value, those of tables and rows within too, in dotted notation."""
        for name, spec in specs(type(self)).items():
            value = getattr(self, name)
            if value is None and name in self.required:
                yield name
            elif spec.kind == "table" and value is not None:
                yield from (f"{name}.{key}" for key in value.missing())
            elif spec.kind == "rows" and value is not None:
                for number, row in enumerate(value, start=1):
                    yield from (f"{name}[{number}].{key}" for key in row.missing())


class MissingValue(AssertionError):
    """A required key that no layer gives: a fault of the sample shop, not of a file."""


S = TypeVar("S", bound=Section)


def whole(section: S, at: str) -> S:
    """The section itself, if every required key has a value. Raises MissingValue with the key path."""
    for name in section.missing():
        raise missing_value(f"{at}.{name}")
    return section


def missing_value(path: str) -> MissingValue:
    """The error for a key that no layer gives, with its mend."""
    return MissingValue(f"no layer gives {path}: add it to presets/shops")


def given(value: Value) -> Value | None:
    """The value of a key that may be None, because the section may be sparse."""
    return value


class Shorthand(Section):
    """A table that a plain value may stand for."""

    @model_validator(mode="before")
    @classmethod
    def _from_shorthand(cls, value: Any) -> Any:
        return cls.shorthand(value)


class Material(Section):
    """A table whose keys a larger table has too: a material, beside the table that may name its preset."""

    @classmethod
    def of(cls, section: Section) -> Self:
        """Keep the keys of this class from a section that has more."""
        return cls.of_values({name: getattr(section, name) for name in specs(cls)})


Kind = Literal["value", "table", "entries", "rows", "named"]


class KeySpec(NamedTuple):
    """The meaning of a key's line: its `kind`; the `section` of a table, or of each in a list or under a name; whether
    it is `optional`, that is, may have no value in the end; its marks; the `choices` of a word; the `per` of a
    figure; the `most` items of a list or names of a table; whether one item may stand without brackets. The `key` of a
    list of values is that of each."""

    kind: Kind
    section: type[Section] | None
    optional: bool
    figure: bool
    in_house: bool
    at_root: bool
    key: Key | None
    choices: tuple[str, ...]
    per: Per | None
    most: int | None = None
    one_or_several: bool = False


@cache
def specs(section: type[Section]) -> dict[str, KeySpec]:
    """The specs of a section's keys: its own first, then those it inherits."""
    bases = (base for base in section.__mro__ if _is_section(base))
    own_first = dict.fromkeys(name for base in bases for name in get_annotations(base))
    keys = section.model_fields
    return {name: _spec(keys[name].annotation, list(keys[name].metadata)) for name in own_first if name in keys}


def _spec(annotation: Any, marks: list[Any]) -> KeySpec:
    figure, optional, section = False, False, None
    kind: Kind = "value"
    while True:
        origin, arguments = get_origin(annotation), get_args(annotation)
        if hasattr(annotation, "__metadata__"):
            marks += annotation.__metadata__
            annotation = annotation.__origin__
        elif origin is Figure:
            figure, annotation = True, arguments[0]
        elif type(None) in arguments:
            optional = True
            (annotation,) = (argument for argument in arguments if argument is not type(None))
        elif origin is tuple and _is_section(arguments[0]):
            kind, section = ("rows" if ROWS in marks else "entries"), arguments[0]
            break
        elif origin is dict:
            kind, section = "named", arguments[1]
            break
        elif origin is tuple and hasattr(arguments[0], "__metadata__"):
            marks += arguments[0].__metadata__
            break
        else:
            break
    if _is_section(annotation):
        kind, section = "table", annotation
    return KeySpec(
        kind=kind,
        section=section,
        optional=optional,
        figure=figure,
        in_house=IN_HOUSE in marks,
        at_root=AT_ROOT in marks,
        key=next((mark for mark in marks if isinstance(mark, Key)), None),
        choices=tuple(arguments) if origin is Literal else (),
        per=next((mark for mark in marks if isinstance(mark, Per)), None),
        most=next((limit for mark in marks if (limit := limit_of(mark)) is not None), None),
        one_or_several=ONE_OR_SEVERAL in marks or ONE_TABLE_OR_SEVERAL in marks,
    )


def _is_section(annotation: Any) -> bool:
    return isinstance(annotation, type) and Section in annotation.__mro__


def within(spec: KeySpec | None, step: str | int) -> KeySpec | None:
    """The key at a step of a table, of names, or of a list; None where no key is known."""
    if spec is None or spec.section is None:
        return None
    if spec.kind == "table":
        return specs(spec.section).get(str(step))
    wants = int if spec.kind in ("entries", "rows") else str
    return table_spec(spec.section) if isinstance(step, wants) else None


def table_spec(section: type[Section]) -> KeySpec:
    """A section as if a key held it."""
    return KeySpec("table", section, False, False, False, False, None, (), None)
