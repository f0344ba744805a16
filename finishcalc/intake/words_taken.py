"""Takes words for the names of ours that they mean, where materials, extras and rate classes are named.

The value at the key is then our name, and its origin tells the word that the file has.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.named_materials import (
    BINDING_FABRIC,
    METHOD,
    OF_THE_BACKING,
    NamedMaterial,
    named_materials,
    style_paths,
)
from finishcalc.intake.source import dotted
from finishcalc.intake.words import understood
from finishcalc.model.extra_cuts import QUILT_CLOTHS
from finishcalc.model.project import Quilting
from finishcalc.wording.sentence import Sentence, say_in_house

EXTRAS: tuple[KeyPath, ...] = (("charges", "extras"), ("offers", "extras"))
"""The lists of extras that are ordered or offered."""


class TakenWord(NamedTuple):
    """A word at a key path, and the name that it is taken for."""

    path: KeyPath
    word: str
    name: str

    @property
    def sentence(self) -> Sentence:
        """Say for the studio which name was taken."""
        text = '{key}: "{word}" is taken as {name}.'
        return say_in_house(text, key=dotted(self.path), word=self.word, name=self.name)


def known_names(layers: LayeredValues, path: KeyPath, named: NamedMaterial, units: str) -> tuple[list[str], list[str]]:
    """Give the names that a material may have: the shop's own and the presets of these units, and then all others."""
    words = ["none"] if named.may_be_none else []
    words += [OF_THE_BACKING] if path == BINDING_FABRIC else [*QUILT_CLOTHS] if named.part == "extra" else []
    own = layers.names(named.kind)
    return [*own, *presets.own_names(named.kind, units), *words], [*own, *presets.names(named.kind, units), *words]


def take_names(layers: LayeredValues, units: str) -> tuple[dict[KeyPath, NamedMaterial], list[TakenWord]]:
    """Take words for the names of extras and of materials. Gives the materials that are named, and the words."""
    taken = list(_take_extras(layers))
    materials = named_materials(layers)
    taken_as_materials = list(_take_materials(layers, materials, units))
    return named_materials(layers) if taken_as_materials else materials, taken + taken_as_materials


def _take_materials(layers: LayeredValues, materials: dict[KeyPath, NamedMaterial], units: str) -> Iterator[TakenWord]:
    """Put the name of a preset in place of each word that means exactly one."""
    for path, named in materials.items():
        sourced = layers.values.get((*path, "preset"))
        if sourced and sourced.value != "none" and not presets.find(named.kind, str(sourced.value), units):
            yield from _take(layers, (*path, "preset"), known_names(layers, path, named, units))


def _take_extras(layers: LayeredValues) -> Iterator[TakenWord]:
    """Put the name of an extra in place of each word that means exactly one."""
    known = layers.names("extras")
    for path in EXTRAS:
        sourced = layers.values.get(path)
        if sourced is None or all(extra.name in known for extra in sourced.value):
            continue
        taken = {extra.name: understood(extra.name, known) or extra.name for extra in sourced.value}
        extras = tuple(extra.replace(name=taken[extra.name]) for extra in sourced.value)
        layers.put(path, sourced._replace(value=extras))
        yield from (TakenWord(path, word, name) for word, name in taken.items() if word != name)


def take_rate_classes(layers: LayeredValues) -> Iterator[TakenWord]:
    """Put the name of a class of rates in place of each word that means exactly one."""
    known = layers.names("rates", "quilting")
    for path in [*style_paths(layers.section(Quilting, "quilting")), METHOD]:
        yield from _take(layers, (*path, "rate_class"), [known])


def _take(layers: LayeredValues, path: KeyPath, known: Iterable[Iterable[str]]) -> Iterator[TakenWord]:
    sourced = layers.values.get(path)
    name = understood(str(sourced.value), *known) if sourced else None
    if sourced and name and name != sourced.value:
        word = str(sourced.value)
        layers.put(path, sourced._replace(value=name, origin=sourced.origin._replace(word=word)))
        yield TakenWord(path[:-1] if path[-1] == "preset" else path, word, name)
