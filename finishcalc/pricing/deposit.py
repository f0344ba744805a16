"""The deposit: an amount, a share of the total, of the lines of some classes, or a share for each class."""

from collections.abc import Iterable
from fractions import Fraction

from finishcalc.measures.money import Money, total
from finishcalc.model.keys import LineClass
from finishcalc.model.prices import Deposit
from finishcalc.model.section import Figure
from finishcalc.pricing.line import Line
from finishcalc.wording.sentence import Sentence, Share, Value, say
from finishcalc.wording.words import in_words

OF_ALL_QUOTES = frozenset[LineClass](("labour", "material"))
"""The classes that a deposit of the total must name in any quote; where something is passed through, that class too."""


def deposit_amount(deposit: Deposit, lines: list[Line], grand_total: Money) -> Money:
    """Work out the deposit, which is never more than the total. Shares of classes are of their lines before tax."""
    if deposit.amount:
        amount = deposit.amount.value
    elif shares := _class_shares(deposit):
        parts = (total_of_class(name, lines, grand_total).major * share for name, share in shares.items())
        amount = sum(parts, Fraction(0))
    else:
        amount = _deposit_base(deposit, lines, grand_total).major * _percent(deposit)
    return min(grand_total.currency.round(amount), grand_total)


def deposit_figures(deposit: Deposit) -> list[Figure[Fraction]]:
    """Give the figures that a deposit rests on, whichever way the shop sets it."""
    return [figure for figure in (deposit.percent, deposit.amount, *_shares_by_class(deposit).values()) if figure]


def deposit_label(deposit: Deposit, lines: list[Line]) -> Sentence:
    """Name the deposit with the classes it is a share of, where it is not one of the total."""
    if deposit.amount is not None or share_of_total(deposit, lines) is not None:
        return say("Deposit")
    shares = _class_shares(deposit) or dict.fromkeys(deposit.classes, _percent(deposit))
    there_are = OF_ALL_QUOTES.union(line.line_class for line in lines)
    shares = {name: share for name, share in shares.items() if name in there_are}
    parts = in_words([f"{{{name}}} of {name}" for name in shares])
    return say("Deposit" + ", " * bool(parts) + parts, **{name: Share(share) for name, share in shares.items()})


def share_of_total(deposit: Deposit, lines: list[Line]) -> Fraction | None:
    """Give the deposit's share, where it is one of the total with tax: where its classes are all that there are."""
    classes = OF_ALL_QUOTES.union(line.line_class for line in lines)
    of_total = deposit.percent and classes.issubset(deposit.classes) and not deposit.shares
    return _percent(deposit) if of_total else None


def deposit_working(deposit: Deposit, lines: list[Line], grand_total: Money, amount: Money) -> Sentence | None:
    """Write out the arithmetic of the deposit; an amount has none."""
    if deposit.shares:
        return _class_shares_working(deposit, lines, amount)
    if deposit.amount is None and deposit.percent is not None:
        base = _deposit_base(deposit, lines, grand_total)
        text = "Deposit: {share} of {base} = {deposit}, rounded"
        return say(text, share=Share(deposit.percent.value), base=base, deposit=amount)
    return None


def total_of_class(line_class: str, lines: Iterable[Line], like: Money) -> Money:
    """Add up the lines of a class, in the currency of another amount."""
    return total((line.amount for line in lines if line.line_class == line_class), like.currency)


def _class_shares_working(deposit: Deposit, lines: list[Line], amount: Money) -> Sentence:
    parts, values = [], dict[str, Value]()
    for name, share in _class_shares(deposit).items():
        parts.append(f"{{share_{name}}} of {name} {{base_{name}}}")
        values |= {f"share_{name}": Share(share), f"base_{name}": total_of_class(name, lines, amount)}
    return Sentence("Deposit: " + " + ".join(parts) + " = {deposit}, rounded", values | {"deposit": amount})


def _deposit_base(deposit: Deposit, lines: list[Line], grand_total: Money) -> Money:
    if share_of_total(deposit, lines) is not None:
        return grand_total
    return total((line.amount for line in lines if line.line_class in deposit.classes), grand_total.currency)


def _percent(deposit: Deposit) -> Fraction:
    return deposit.percent.value if deposit.percent else Fraction(0)


def _class_shares(deposit: Deposit) -> dict[LineClass, Fraction]:
    """Give the deposit's share of each class, where each has one of its own."""
    return {name: share.value for name, share in _shares_by_class(deposit).items()}


def _shares_by_class(deposit: Deposit) -> dict[LineClass, Figure[Fraction]]:
    if not (shares := deposit.shares):
        return {}
    given: dict[LineClass, Figure[Fraction]] = {"labour": shares.labour, "material": shares.material}
    return given | {"pass-through": shares.pass_through} if shares.pass_through else given
