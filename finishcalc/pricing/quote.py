"""The quote: lines, tax, total, deposit and balance. The total is the sum of what is printed."""

from fractions import Fraction
from typing import Literal, NamedTuple, get_args

from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import half_up
from finishcalc.model.keys import LineClass
from finishcalc.model.prices import Deposit, Shop
from finishcalc.model.project import Charges, Project
from finishcalc.model.section import Figure
from finishcalc.plans.cautions import TAX, Caution, caution
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line
from finishcalc.pricing.lines import item_lines
from finishcalc.pricing.tax import TaxAmount, added, taxes_on
from finishcalc.wording.said import Price, Said, Share, Value, say, say_in_house

ALL_CLASSES = frozenset(get_args(LineClass))


class Quote(NamedTuple):
    """A price for finishing a top. `discount` is part of the subtotal already; `total` = subtotal + added tax +
    cash rounding; `balance` = total - deposit. `deposit_of` says of what the deposit is a share, and `deposit_share` is
    None where it is none of the total."""

    currency: Currency
    lines: tuple[Line, ...]
    subtotal: Money
    discount: Money
    taxes: tuple[TaxAmount, ...]
    cash_rounding: Money
    total: Money
    deposit: Money
    deposit_of: Said
    deposit_share: Fraction | None
    balance: Money
    deposit_rests_on_sample: bool
    working: tuple[Said, ...]

    @property
    def rests_on_sample(self) -> bool:
        """Tell a total that rests on a figure which is not the studio's own."""
        return any(line.rests_on_sample for line in self.lines) or any(tax.rests_on_sample for tax in self.taxes)


def make_quote(project: Project, shop: Shop, plans: Plans) -> Quote:
    """Price the plans with the shop's rates."""
    currency = project.currency
    lines = with_changes(item_lines(project, shop, plans), project.charges, currency)
    subtotal = total((line.amount for line in lines), currency)
    taxes = taxes_on(lines, shop.taxes, currency)
    before_cash = subtotal + added(taxes, currency)
    cash = _cash_rounding(before_cash, currency.round(shop.money.cash_rounding))
    whole = before_cash + cash
    deposit = deposit_of(shop.deposit, lines, whole)
    return Quote(
        currency, tuple(lines), subtotal,
        total((line.amount for line in lines if line.kind == "discount"), currency),
        taxes, cash, whole, deposit, _deposit_of(shop.deposit), _share_of_total(shop.deposit), whole - deposit,
        any(figure.sample for figure in deposit_figures(shop.deposit)),
        tuple(_working(lines, taxes, shop, deposit, whole)),
    )  # fmt: skip


def with_changes(items: list[Line], charges: Charges, currency: Currency) -> list[Line]:
    """The items, then a rush line and a discount line for each class that has them. Discount is taken after rush."""
    lines = list(items)
    for line_class in charges.rush_classes if charges.rush else ():
        lines += _change("rush", line_class, charges.rush, lines, currency)
    for line_class in charges.discount_classes if charges.discount else ():
        lines += _change("discount", line_class, -charges.discount, lines, currency)
    return lines


def _change(
    kind: Literal["rush", "discount"], line_class: str, share: Fraction, lines: list[Line], currency: Currency
) -> list[Line]:
    base = total((line.amount for line in lines if line.line_class == line_class), currency)
    if not base:
        return []
    label = say(f"{kind.capitalize()}, {{share}} of {line_class}", share=Share(abs(share)))
    amount = currency.round(base.major * share)
    return [Line(label, line_class, base.major, currency.code, share, amount, kind=kind)]


def deposit_of(deposit: Deposit, lines: list[Line], whole: Money) -> Money:
    """The amount asked, or the share of the total; of some classes only, or with a share for each class, of their lines
    before tax."""
    if deposit.amount:
        asked = deposit.amount.value
    elif shares := _shares(deposit):
        parts = (class_total(name, lines, whole).major * share for name, share in shares.items())
        asked = sum(parts, Fraction(0))
    else:
        asked = _deposit_base(deposit, lines, whole).major * _percent(deposit)
    return min(whole.currency.round(asked), whole)


def _percent(deposit: Deposit) -> Fraction:
    return deposit.percent.value if deposit.percent else Fraction(0)


def _shares(deposit: Deposit) -> dict[LineClass, Fraction]:
    """The deposit's share of each class, where each has one of its own."""
    shares = deposit.shares
    return {"labour": shares.labour.value, "material": shares.material.value} if shares else {}


def deposit_figures(deposit: Deposit) -> list[Figure[Fraction]]:
    """The figures that a deposit rests on, whichever way it is asked."""
    shares = [deposit.shares.labour, deposit.shares.material] if deposit.shares else []
    return [figure for figure in (deposit.percent, deposit.amount, *shares) if figure]


def class_total(line_class: str, lines: list[Line], whole: Money) -> Money:
    """What the lines of a class come to."""
    return total((line.amount for line in lines if line.line_class == line_class), whole.currency)


def _deposit_of(deposit: Deposit) -> Said:
    """What the deposit is called."""
    if deposit.amount is not None or _share_of_total(deposit) is not None:
        return say("Deposit")
    shares = _shares(deposit) or dict.fromkeys(deposit.classes, _percent(deposit))
    parts = " and ".join(f"{{{name}}} of {name}" for name in shares)
    return say(f"Deposit, {parts}", **{name: Share(share) for name, share in shares.items()})


def _share_of_total(deposit: Deposit) -> Fraction | None:
    """The deposit's share, where it is one of the whole total."""
    of_total = deposit.percent and set(deposit.classes) >= ALL_CLASSES and not deposit.shares
    return _percent(deposit) if of_total else None


def _cash_rounding(amount: Money, coin: Money) -> Money:
    """What brings the amount to the nearest multiple of the least coin, half up."""
    if not coin:
        return coin
    return Money(half_up(Fraction(amount.minor, coin.minor)) * coin.minor - amount.minor, coin.currency)


def quote_cautions(quote: Quote, foreign: frozenset[str]) -> list[Caution]:
    """What to be careful of in the price. `foreign` are currencies of sample prices that are not the quote's own."""
    found = [TAX] if quote.taxes else []
    if foreign:
        found.append(
            caution(
                "sample-currency",
                "Some sample prices were set in {theirs} and are used here as {ours}: put your own in a shop file.",
                theirs=" and ".join(sorted(foreign)), ours=quote.currency.code,
            )
        )  # fmt: skip
    return found


def _working(lines: list[Line], taxes: tuple[TaxAmount, ...], shop: Shop, deposit: Money, whole: Money) -> list[Said]:
    told = [line.said for line in lines if line.said]
    told += [_material_said(line, shop.rates.markup.value) for line in lines if line.cost is not None]
    told += [_change_said(line, lines) for line in lines if line.kind != "item"]
    told += [_tax_said(tax) for tax in taxes]
    if shop.deposit.shares:
        told.append(_shared_deposit_said(shop.deposit, lines, deposit, whole))
    elif shop.deposit.amount is None and shop.deposit.percent is not None:
        told.append(
            say("Deposit: {share} of {base} = {deposit}, rounded", share=Share(shop.deposit.percent.value),
                base=_deposit_base(shop.deposit, lines, whole), deposit=deposit)
        )  # fmt: skip
    return told


def _shared_deposit_said(asked: Deposit, lines: list[Line], deposit: Money, whole: Money) -> Said:
    parts, values = [], dict[str, Value]()
    for name, share in _shares(asked).items():
        parts.append(f"{{share_{name}}} of {name} {{base_{name}}}")
        values |= {f"share_{name}": Share(share), f"base_{name}": class_total(name, lines, whole)}
    return Said("Deposit: " + " + ".join(parts) + " = {deposit}, rounded", values | {"deposit": deposit})


def _change_said(change: Line, lines: list[Line]) -> Said:
    """The lines of its class that stand before it, added up, and its share of them."""
    before = lines[: lines.index(change)]
    base = [line.amount for line in before if line.line_class == change.line_class]
    values: dict[str, Value] = {f"amount{n}": amount for n, amount in enumerate(base)}
    return Said(
        "{label}: " + " + ".join(f"{{{name}}}" for name in values) + " = {base}, x {share} = {change}, rounded",
        values
        | {
            "label": change.label,
            "base": change.amount.currency.round(change.quantity),
            "share": Share(change.rate),
            "change": change.amount,
        },
    )


def _material_said(line: Line, markup: Fraction) -> Said:
    """What it cost and how its price came about: by the markup, or as the shop sells it."""
    return say_in_house(
        "{label}: bought for {cost}, sold at {rate} {unit}, "
        + ("{markup} above cost" if line.markup is not None else "its own price"),
        label=line.label,
        cost=line.cost or line.amount.currency.zero,
        rate=Price(line.rate),
        unit=line.unit if line.unit == "each" else f"per {line.unit}",
        markup=Share(markup),
    )


def _tax_said(tax: TaxAmount) -> Said:
    how = ": {share}"
    if tax.included:
        how = " held in the price: {share} / (1 + {held})" if len(tax.held) == 1 else " held in the price, by class:"
    text = "{label}" + how + (" of each item in" if tax.by == "item" else " of") + " {base} = {amount}, rounded"
    held = Share(next(iter(tax.held), tax.percent))
    return say(text, label=tax.label, share=Share(tax.percent), held=held, base=tax.base, amount=tax.amount)


def _deposit_base(deposit: Deposit, lines: list[Line], whole: Money) -> Money:
    if _share_of_total(deposit) is not None:
        return whole
    return total((line.amount for line in lines if line.line_class in deposit.classes), whole.currency)
