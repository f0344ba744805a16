"""A sentence with exact values in it, not yet written in anyone's units.

Plans and pricing explain their figures as `Sentence`; rendering writes it in the project's units and signs. So a
plan needs no units, and each figure keeps the arithmetic that leads to it.

The kinds of value are dataclasses, because two kinds that hold the same number must not be equal: a share of 1/4 is
not a price of 1/4.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal, NamedTuple, TypeVar

from finishcalc.measures.length import Area, Length
from finishcalc.measures.money import Money
from finishcalc.measures.weight import AreaWeight, Weight

Audience = Literal["customer", "studio"]
Item = TypeVar("Item", covariant=True)


@dataclass(frozen=True, slots=True)
class InUnit:
    """A length to be written in the unit in which it is sold or was written, whatever the project's units are."""

    length: Length
    unit: str


@dataclass(frozen=True, slots=True)
class Long:
    """A length of thread or stitching, to be written in yards or metres with at most `places` decimals."""

    length: Length
    places: int = 1


FINE = 3
"""The decimals of a length that further arithmetic on paper starts from."""


@dataclass(frozen=True, slots=True)
class NoLess:
    """A distance to keep, to be written up to the next whole unit."""

    length: Length


@dataclass(frozen=True, slots=True)
class Spare:
    """A length that somebody has over, to be written down to a step of a ruler: nobody is promised more."""

    length: Length


@dataclass(frozen=True, slots=True)
class ClothArea:
    """An area of cloth, to be written in square yards or metres, by which its weight goes."""

    area: Area


@dataclass(frozen=True, slots=True)
class Heavy:
    """A weight to be written in pounds or kilograms, unless it is less than one."""

    weight: Weight


@dataclass(frozen=True, slots=True)
class Covering:
    """A length to set a machine to, whose repeats must cover another: it is written up to the next hundredth, where it
    is no fraction of a ruler."""

    length: Length


@dataclass(frozen=True, slots=True)
class Share:
    """A share, to be written in per cent: Share(1/4) is "25 %"."""

    part: Fraction


@dataclass(frozen=True, slots=True)
class Price:
    """An exact price in the currency's main unit, not rounded to the minor unit."""

    major: Fraction


@dataclass(frozen=True, slots=True)
class Factor:
    """A number that is multiplied by, written with every decimal it has."""

    number: Fraction


ROOT_2 = Factor(Fraction(141421, 100000))
"""The square root of 2 as arithmetic shows it; plans use closer bounds."""


class Sentence(NamedTuple):
    """A sentence: `text` with {names} that stand for `values`, and who may read it."""

    text: str
    values: "dict[str, Value]"
    audience: Audience = "customer"

    def is_for(self, reader: Audience) -> bool:
        """Tell a sentence that this reader may see: the studio sees all, the customer what is not in house."""
        return reader == "studio" or self.audience == "customer"


Value = (
    str
    | int
    | Fraction
    | Length
    | Area
    | Weight
    | AreaWeight
    | Money
    | InUnit
    | Long
    | NoLess
    | Spare
    | ClothArea
    | Heavy
    | Covering
    | Share
    | Price
    | Factor
    | date
    | Sentence
)


def say(text: str, /, **values: Value) -> Sentence:
    """Make a sentence for everyone."""
    return Sentence(text, values)


def say_in_house(text: str, /, **values: Value) -> Sentence:
    """Make a sentence for the studio alone, because it gives away cost, wage or minutes."""
    return Sentence(text, values, "studio")


class WhenRead(Sequence[Item]):
    """Sentences or cautions that are worked out when they are first read, because most plans and quotes are made to be
    compared, and nobody reads their arithmetic."""

    def __init__(self, work_out: Callable[[], Iterable[Item]]) -> None:
        self._work_out = work_out

    @cached_property
    def _items(self) -> tuple[Item, ...]:
        return tuple(self._work_out())

    def __getitem__(self, index: Any) -> Any:
        return self._items[index]

    def __len__(self) -> int:
        return len(self._items)

    def __iter__(self) -> Iterator[Item]:
        return iter(self._items)

    def __eq__(self, other: object) -> bool:
        return tuple(other) == self._items if isinstance(other, (tuple, WhenRead)) else NotImplemented

    def __hash__(self) -> int:
        return hash(self._items)
