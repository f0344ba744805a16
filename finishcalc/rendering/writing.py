"""The shared ground of all outputs: the signs they write with, the mark of samples, sizes to cut."""

from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import half_up
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.layout import CutPiece
from finishcalc.plans.backing.options import BoughtLength
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Audience
from finishcalc.wording.words import capital

SAMPLE_MARK = "*"
"""Stands beside every price that rests on a sample shop's figures instead of the studio's own."""


class Contents(NamedTuple):
    """The contents of a comparison, for its `reader`, with `prices` or without. A size chart may give every amount in
    `both_units`, yards and metres, and tell the `cuts` of each cloth."""

    reader: Audience
    prices: bool = True
    both_units: bool = False
    cuts: bool = False


def sample_note(rates: str, audience: Audience) -> str:
    """Explain the mark. A quote marks lines, each with "a sample rate"; a comparison totals, with "sample rates". The
    studio reads where such rates stand."""
    where = ": see presets/shops." if audience == "studio" else " yet: the price may change."
    return f"{SAMPLE_MARK} based on {rates}, not the studio's own{where}"


def is_provisional(result: Finishing) -> bool:
    """Tell a quote for work that cannot be made as specified: its total holds only once that is mended."""
    return any(caution.blocking for caution in result.cautions)


def notation_of(result: Finishing, audience: Audience = "customer") -> Notation:
    """Write in the project's units with the shop's signs, lengths as a ruler shows them. The studio reads the names of
    cloths that are told apart by their price with the price that it pays."""
    money, units = result.resolved.shop.money, result.resolved.project.units
    in_house = result.resolved.namesakes.in_house_names if audience == "studio" else {}
    names = dict(in_house) | {capital(name): capital(own) for name, own in in_house.items()}
    symbol, order = money.symbol or "", money.date_order
    return Notation(units, money.decimal, money.group, symbol, money.symbol_place, True, names, order)


def notation_for(result: Finishing, contents: Contents) -> Notation:
    """Write as `notation_of` does; where no prices are told, none is told in the names of cloths either."""
    notation = notation_of(result)
    if contents.prices:
        return notation
    names = result.resolved.namesakes.unpriced_names
    return notation._replace(names=dict(names) | {capital(name): capital(bare) for name, bare in names.items()})


def hours_words(minutes: Fraction) -> str:
    """Write minutes as hours and minutes: "4 h 40 min", "4 h"."""
    hours, rest = divmod(half_up(minutes), 60)
    if hours and not rest:
        return f"{hours}{NO_BREAK}h"
    return f"{hours}{NO_BREAK}h{NO_BREAK}{rest}{NO_BREAK}min"


def size_to_cut(cut: CutPiece, cloth: BoughtLength, usable: Length, notation: Notation) -> tuple[Length, Length]:
    """Round a piece's width and length up to a step that a tape shows.

    A side stays exact where it would no longer fit: the pieces beside it or the rows along the cloth are rounded up
    too, and all of them together must still lie on the cloth.
    """
    beside = sum((notation.measurable(other.width) for other in cloth.cuts if other.y == cut.y), ZERO)
    rows = {other.y: notation.measurable(other.length) for other in cloth.cuts}
    gaps = sum((left.length for left in cloth.leftover if not left.x and left.y + left.length < cloth.length), ZERO)
    width = notation.measurable(cut.width) if beside <= usable else cut.width
    length = notation.measurable(cut.length) if sum(rows.values(), gaps) <= cloth.length else cut.length
    return width, length
