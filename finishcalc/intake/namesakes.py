"""Tells cloths of one name apart, whose figures differ: they are two cloths, and bought apart.

The name of each is followed by what differs: its width, else the price it is sold at, else another figure.
"""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.intake.building.cloths import identity_of
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.named_materials import WIDER_FABRICS
from finishcalc.intake.rules.check import Check
from finishcalc.intake.source import dotted
from finishcalc.measures.money import Currency
from finishcalc.model.materials import Fabric, NamedFabric
from finishcalc.model.section import specs
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import InUnit, Sentence, Share, say_in_house
from finishcalc.wording.words import in_words

ONE = {"in": "an inch", "ft": "a foot", "yd": "a yard", "mm": "a millimetre", "cm": "a centimetre", "m": "a metre"}
NUMBERS = {2: "Two", 3: "Three", 4: "Four"}

MOST_TOLD = 2
"""The most figures that the studio is told of: a width and a price are enough to see a slip of the pen."""


class _Cloth(NamedTuple):
    """A cloth, and the key paths at which it is used."""

    fabric: Fabric
    paths: list[KeyPath]


class _Words(NamedTuple):
    """Puts figures of a cloth into words that follow its name."""

    notation: Notation
    currency: Currency
    markup: Fraction

    def of(self, key: str, fabric: Fabric) -> str:
        """Say a figure of a cloth: ", 44 in wide" or " at $9.00 a yard"."""
        return WORDS[key](self, fabric).replace(NO_BREAK, " ")

    def at(self, price: Fraction, fabric: Fabric) -> str:
        """Say a price: " at $9.00 a yard"."""
        return f" at {self.notation.rate(price, self.currency)} {ONE[fabric.per]}"

    def show(self, value: InUnit | Share) -> str:
        """Write a value."""
        return self.notation.show(value)


WORDS: dict[str, Callable[[_Words, Fabric], str]] = {
    "width": lambda words, fabric: f", {words.notation.show(fabric.width)} wide",
    "sold": lambda words, fabric: words.at(fabric.selling_price(words.markup), fabric),
    "price": lambda words, fabric: words.at(fabric.price.value, fabric),
    "directional": lambda _, fabric: ", one-way" if fabric.directional else ", not one-way",
    "nap": lambda _, fabric: ", with a nap" if fabric.nap else ", without a nap",
    "repeat": lambda words, fabric: (
        f", repeat of {words.notation.show(fabric.repeat)}" if fabric.repeat else ", without a repeat"
    ),
    "shrink_along": lambda words, fabric: f", {words.show(Share(fabric.shrink_along))} shrinkage along",
    "shrink_across": lambda words, fabric: f", {words.show(Share(fabric.shrink_across))} shrinkage across",
    "selvage": lambda words, fabric: f", with selvages of {words.notation.show(fabric.selvage)}",
    "step": lambda words, fabric: f", sold by {words.show(InUnit(fabric.step, fabric.per))}",
    "bolt": lambda words, fabric: f", in bolts of {words.show(InUnit(fabric.bolt, fabric.per))}",
    "weight": lambda words, fabric: (
        f", {words.notation.show(fabric.weight) if fabric.weight else 'of no known weight'}"
    ),
    "prewashed": lambda _, fabric: ", prewashed" if fabric.prewashed else ", not prewashed",
    "straighten": lambda words, fabric: f", {words.notation.show(fabric.straighten)} to square the end",
}
"""The figures in which cloths may differ, in the order in which they tell them apart. They are
"sold" at a price that the customer reads; the `price` they cost is the studio's alone."""


class Namesakes(NamedTuple):
    """Cloths that bear one name: a sentence for the studio about each such name; and by the name of each cloth, that
    which the studio reads, with the price it costs where the other has the price it is sold at, one without any price,
    which may leave two of them alike, and the name that its file gives it."""

    sentences: tuple[Sentence, ...]
    in_house_names: Mapping[str, str]
    unpriced_names: Mapping[str, str]
    own_names: Mapping[str, str]


def tell_namesakes_apart(check: Check) -> Namesakes:
    """Put what differs after the name of each of several cloths, and say for the studio that they bear one name."""
    money, rates = check.tables.money, check.tables.rates
    notation = Notation(check.units, money.decimal, money.group, money.symbol or "", money.symbol_place, ruler=True)
    words = _Words(notation, Currency.of(money.currency), rates.markup.value)
    namesakes = [cloths for cloths in _by_identity(check).values() if len(cloths) > 1]
    sentences = tuple(_sentence(cloths, words) for cloths in namesakes)
    in_house_names: dict[str, str] = {}
    unpriced_names: dict[str, str] = {}
    own_names: dict[str, str] = {}
    for cloths in namesakes:
        names = _names(cloths, words, without=["price"])
        unpriced_names |= dict(zip(names, _names(cloths, words, without=["price", "sold"]), strict=True))
        if len(set(names)) == len(names):
            in_house_names |= dict(zip(names, _names(cloths, words, without=["sold"]), strict=True))
        own_names |= {name: cloth.fabric.name for cloth, name in zip(cloths, names, strict=True)}
        for cloth, name in zip(cloths, names, strict=True):
            for at in ((*path, "name") for path in cloth.paths):
                check.layers.put(at, check.layers.values[at]._replace(value=name))
    return Namesakes(sentences, in_house_names, unpriced_names, own_names)


def _by_identity(check: Check) -> dict[str, list[_Cloth]]:
    """Gather the cloths that are planned with by their identity; uses of equal figures are of one cloth."""
    found: dict[str, list[_Cloth]] = {}
    for path in check.cloths:
        if starts_with(path, WIDER_FABRICS) or check.is_none(path):
            continue
        named = check.layers.section(NamedFabric, *path)
        fabric = Fabric.of(named)
        cloths = found.setdefault(identity_of(check.layers, path), [])
        alike = next((cloth for cloth in cloths if _figures(cloth.fabric) == _figures(fabric)), None)
        if alike:
            alike.paths.append(path)
        else:
            cloths.append(_Cloth(fabric, [path]))
    return found


def _figures(fabric: Fabric) -> list[object]:
    return [getattr(fabric, key) for key in specs(Fabric) if key != "name"]


def _names(cloths: Sequence[_Cloth], words: _Words, without: Sequence[str]) -> list[str]:
    """Give each cloth its name and the first of its figures that differ, until no two names are alike; `without` one of
    the two prices or both."""
    names = [cloth.fabric.name for cloth in cloths]
    for key in WORDS:
        if key in without or len(set(names)) == len(names):
            continue
        longer = [name + words.of(key, cloth.fabric) for name, cloth in zip(names, cloths, strict=True)]
        told = set(zip(names, longer, strict=True))
        tells = {name for name in names if sum(one == name for one, _ in told) > 1}
        names = [more if name in tells else name for name, more in zip(names, longer, strict=True)]
    return names


def _sentence(cloths: Sequence[_Cloth], words: _Words) -> Sentence:
    """Say which cloths bear one name, where they stand in the files, and the first figures in which they differ."""
    differ = [key for key in WORDS if len({words.of(key, cloth.fabric) for cloth in cloths}) > 1]
    differ = [key for key in differ if key != "sold" or "price" not in differ]
    differ = differ[:MOST_TOLD]
    each = "; ".join(
        in_words([dotted(path) for path in cloth.paths]) + "".join(words.of(key, cloth.fabric) for key in differ)
        for cloth in cloths
    )
    text = "{count} cloths are named {name}, and are bought apart: {each}. If that is a slip of the pen, mend it."
    return say_in_house(text, count=NUMBERS.get(len(cloths), str(len(cloths))), name=cloths[0].fabric.name, each=each)
