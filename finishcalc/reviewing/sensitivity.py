"""The samples and the defaults that a quote rests on, each with what a tenth more or less of it makes of the total.

Each is one whole quote more, of the same file with that one value tried in place of the shop's, as `--set` tries it. So
whoever writes the value into her shop file gets the same total.
"""

from contextlib import suppress
from fractions import Fraction
from typing import NamedTuple

from finishcalc.alternatives.differences import total_with
from finishcalc.alternatives.in_house import samples_of
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.settings import NAME
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import SAMPLE_LAYERS, Sourced
from finishcalc.intake.named_materials import WIDER_FABRICS
from finishcalc.intake.presets import kind_of
from finishcalc.intake.resolve import FOR_ANY
from finishcalc.intake.source import dotted
from finishcalc.measures.money import Money
from finishcalc.model.files import MATERIALS
from finishcalc.model.section import specs
from finishcalc.pipeline import Finishing
from finishcalc.problems import ProblemsFound
from finishcalc.reviewing.moving import as_written, moved, moves

TENTH = Fraction(1, 10)
UNPRICED = ("week", "arrival", "washing", "measuring")
"""The tables that give days, cautions and the size once it is washed, and no price."""


class Tried(NamedTuple):
    """A value that is tried: as a file writes it, the total of the quote with it, and the amount that this adds."""

    value: object
    total: Money
    adds: Money


class Influence(NamedTuple):
    """A value that nobody gave for this studio: its key in a shop file, its value, and the quote with a tenth `more` of
    it and a tenth `less`; None where that much is more, or less, than such a value can be. `figure` tells a sample of a
    price, a share or a time from a default."""

    key: str
    path: KeyPath
    value: object
    figure: bool
    more: Tried | None
    less: Tried | None

    @property
    def most(self) -> int:
        """The most by which the total moves either way, in minor units."""
        return max((abs(tried.adds.minor) for tried in (self.more, self.less) if tried), default=0)


def influences(result: Finishing) -> tuple[Influence, ...]:
    """Try each sample and each default that the file rests on; the one that moves the total most is first, and those
    of one effect are in the order of their keys."""
    tried = [_influence(result, path, sourced) for path, sourced in _untold(result).items()]
    return tuple(sorted(tried, key=lambda each: (-each.most, each.key)))


def _untold(result: Finishing) -> dict[KeyPath, Sourced]:
    """Every number of a preset or the sample shop that the quote rests on, by its key in a shop file."""
    used = samples_of(result) | {result.resolved.shop.rates.minimum.key}
    by_path: dict[KeyPath, Sourced] = {}
    for path, sourced in result.resolved.defaults():
        rests_on = dotted(path) in used if sourced.spec.figure else _is_planned_with(path, result)
        own_key = path[-1] == sourced.origin.at[-1]
        if rests_on and own_key and sourced.origin.layer in SAMPLE_LAYERS and moves(sourced):
            by_path.setdefault(_in_shop_file(sourced), sourced)
    return by_path


def _is_planned_with(path: KeyPath, result: Finishing) -> bool:
    """Tell a key of what is planned and priced. Wider cloths, and extras that nobody ordered, are only offered; what
    holds for any material is tried where a material takes it."""
    table, key = str(path[0]), str(path[-1])
    if table == "extras":
        return path[1] in {extra.name for extra in result.resolved.project.charges.extras}
    for_any = next((kind for kind, home in FOR_ANY.items() if home == table), None)
    taken = for_any is not None and key in specs(MATERIALS[for_any])
    return table not in UNPRICED and path[:2] != WIDER_FABRICS and not taken


def _in_shop_file(sourced: Sourced) -> KeyPath:
    """The key under which a shop file gives a value that a preset or the sample shop gives now."""
    origin = sourced.origin
    return (kind_of(origin.source), *origin.at) if origin.layer == "preset" else origin.at


def _influence(result: Finishing, path: KeyPath, sourced: Sourced) -> Influence:
    more, less = (_tried(result, path, moved(sourced, 1 + sign * TENTH)) for sign in (1, -1))
    return Influence(dotted(path), path, as_written(sourced), sourced.spec.figure, more, less)


def _tried(result: Finishing, path: KeyPath, value: object) -> Tried | None:
    """The quote with another value; None where there can be none."""
    with suppress(ProblemsFound):
        total = total_with(result, result.resolved.changed(Change(NAME, shop_puts=((path, value),))))
        return Tried(value, total, total - result.quote.total)
    return None
