"""The answers so far, put together: the layers over which a question finds its default, and its state."""

from collections.abc import Callable
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.building.cover import cover_use
from finishcalc.intake.keypaths import KeyPath, value_at
from finishcalc.intake.layers import Sourced
from finishcalc.intake.questions.question import Question, When
from finishcalc.intake.resolve import Resolved
from finishcalc.wording.notation import Notation, plain_blanks

PARTS = {"backing": ("backing", "fabric"), "batting": ("batting", "product"), "binding": ("binding", "fabric")}
"""The parts that a customer may bring, each with the key path of its material."""

Puts = dict[KeyPath, object]
"""Values by the key paths at which a file gives them."""

A_LENGTH = {"in": "an inch", "ft": "a foot", "yd": "a yard", "cm": "a centimetre", "m": "a metre", "mm": "a millimetre"}
"""The units of length, as prices name them."""


def sample_value(units: str, path: KeyPath) -> object:
    """The value of the sample shop for projects in these units, as its file has it."""
    return value_at(presets.sample_shop(units)[1].table, path)


def a_unit(unit: str) -> str:
    """Say a unit as a price does: "an inch", "a square foot", "an hour"."""
    if unit.startswith("sq "):
        return f"a square {A_LENGTH[unit[3:]].split()[-1]}"
    return A_LENGTH.get(unit) or (f"an {unit}" if unit == "hour" else f"a {unit}")


class Answer(NamedTuple):
    """An answer: its `text`, empty where Enter took the default, and the values that it `puts` in the file. One that is
    `kept` leaves a sample, or a usual value of the shop's own, as it is: its values are written as a comment. `drops`
    are key paths of earlier answers that it stands in for; `by_option` tells one that nobody was asked for."""

    question: Question
    text: str
    puts: Puts
    kept: bool = False
    drops: tuple[KeyPath, ...] = ()
    by_option: bool = False


class Seen(NamedTuple):
    """The answers so far, the values that they put into the file `puts`, and all layers with them."""

    answers: tuple[Answer, ...]
    puts: Puts
    resolved: Resolved
    file: str

    @property
    def units(self) -> str:
        """The units of the file."""
        return str(self.puts["units",]) if ("units",) in self.puts else self.notation.units

    @property
    def notation(self) -> Notation:
        """The way figures are written."""
        return Notation(self.resolved.project.units)

    def sourced(self, path: KeyPath) -> Sourced | None:
        """The value at a key path, with its origin."""
        return self.resolved.layers.values.get(path)

    def text_of(self, name: str) -> str:
        """The answer to a question, as it was typed; empty where it has none of its own."""
        return next((answer.text for answer in self.answers if answer.question.name == name), "")

    def as_given(self, path: KeyPath) -> object:
        """The value at a key path as the file of its layer has it."""
        sourced = self.sourced(path)
        if sourced is None:
            return None
        table, steps = sourced.origin.source.table, sourced.origin.at
        for depth in range(len(steps), 0, -1):
            if (value := value_at(table, steps[:depth])) is not None:
                return value
        return None

    def length(self, path: KeyPath) -> str:
        """The length at a key path in the units of the project, empty where there is none."""
        sourced = self.sourced(path)
        return plain_blanks(self.notation.show(sourced.value)) if sourced else ""

    @property
    def charges(self) -> bool:
        """True in a shop that charges for quilting."""
        rates = self.resolved.tables.rates.quilting.values()
        return any(rate.steps or (rate.price and rate.price.value) for rate in rates)

    @property
    def parts(self) -> list[str]:
        """The parts of the quilt that somebody has to supply."""
        tables = self.resolved.tables
        there = {
            "backing": tables.backing.fabric.preset != "none",
            "batting": tables.batting.product.preset != "none",
            "binding": tables.binding.takes_strips,
        }
        return [part for part, is_there in there.items() if is_there]

    @property
    def samples_currency(self) -> object:
        """The currency of the sample shop."""
        return sample_value(self.resolved.project.units, ("money", "currency"))

    @property
    def samples_edge_unit(self) -> object:
        """The unit of the sample shop's prices of edges."""
        return sample_value(self.resolved.project.units, ("rates", "binding_per"))

    @property
    def edge_unit(self) -> str:
        """The unit of the prices of edges."""
        return str(self.resolved.tables.rates.binding_per)


def _is_covered(seen: Seen) -> bool:
    covers = seen.resolved.tables.top.covers
    has_cover = any(path[:2] == ("top", "covers") for path in seen.puts)
    return has_cover and ("top", "covers", "drop") not in seen.puts and cover_use(covers) != "crib"


TESTS: dict[When, Callable[[Seen], bool]] = {
    "always": lambda _: True,
    "no length yet": lambda seen: ("top", "width") in seen.puts and ("top", "length") not in seen.puts,
    "covered": _is_covered,
    "charged": lambda seen: seen.charges,
    "brought": lambda seen: seen.charges and bool(seen.parts),
    "other currency": lambda seen: seen.resolved.tables.money.currency != seen.samples_currency,
    "other edge unit": lambda seen: seen.charges and seen.edge_unit != seen.samples_edge_unit,
    "taxed": lambda seen: bool(seen.puts.get(("tax",))),
}
"""The test of each state in which a question is asked."""


def is_asked(question: Question, seen: Seen) -> bool:
    """Tell a question that goes with the answers so far."""
    return TESTS[question.when](seen)
