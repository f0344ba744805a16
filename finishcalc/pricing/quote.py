"""The quote: lines, tax, total, deposit and balance. The total is the sum of what is printed."""

from fractions import Fraction
from typing import NamedTuple, get_args

from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import half_up
from finishcalc.model.project import Charges, Project
from finishcalc.model.shop import Deposit, Shop
from finishcalc.plans.cautions import TAX, Caution, caution
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, LineClass
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
    working: tuple[Said, ...]

    @property
    def figures(self) -> frozenset[str]:
        """The key paths of the rates that the total rests on."""
        rates = {path for line in self.lines if line.kind == "item" for path in line.figures}
        return frozenset(rates | ({"tax"} if self.taxes else set()))


def make_quote(project: Project, shop: Shop, plans: Plans) -> Quote:
    """Price the plans with the shop's rates."""
    currency = project.currency
    lines = with_changes(item_lines(project, shop, plans), project.charges, currency)
    subtotal = total((line.amount for line in lines), currency)
    taxes = taxes_on(lines, shop.taxes, currency)
    before_cash = subtotal + added(taxes, currency)
    cash = _cash_rounding(before_cash, shop.money.cash_rounding)
    whole = before_cash + cash
    deposit = deposit_of(shop.deposit, lines, whole)
    return Quote(
        currency, tuple(lines), subtotal,
        total((line.amount for line in lines if line.kind == "discount"), currency),
        taxes, cash, whole, deposit, _deposit_of(shop.deposit), _share_of_total(shop.deposit), whole - deposit,
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


def _change(kind: str, line_class: str, share: Fraction, lines: list[Line], currency: Currency) -> list[Line]:
    base = total((line.amount for line in lines if line.line_class == line_class), currency)
    if not base:
        return []
    label = say(f"{kind.capitalize()}, {{share}} of {line_class}", share=Share(abs(share)))
    amount = currency.round(base.major * share)
    figure = (f"charges.{kind}",)
    return [Line(label, line_class, base.major, currency.code, share, amount, figure, None, kind)]  # type: ignore[arg-type]


def deposit_of(deposit: Deposit, lines: list[Line], whole: Money) -> Money:
    """The amount asked, or the share of the total; of some classes only, or with a share for each class, of their lines
    before tax."""
    if deposit.amount is not None:
        asked = deposit.amount
    elif deposit.shares:
        parts = (class_total(name, lines, whole).major * share for name, share in deposit.shares.items())
        asked = whole.currency.round(sum(parts, Fraction(0)))
    else:
        asked = whole.currency.round(_deposit_base(deposit, lines, whole).major * (deposit.percent or Fraction(0)))
    return min(asked, whole)


def class_total(line_class: str, lines: list[Line], whole: Money) -> Money:
    """What the lines of a class come to."""
    return total((line.amount for line in lines if line.line_class == line_class), whole.currency)


def _deposit_of(deposit: Deposit) -> Said:
    """What the deposit is called."""
    if deposit.amount is not None or _share_of_total(deposit) is not None:
        return say("Deposit")
    shares = deposit.shares or dict.fromkeys(deposit.classes, deposit.percent or Fraction(0))
    parts = " and ".join(f"{{{name}}} of {name}" for name in shares)
    return say(f"Deposit, {parts}", **{name: Share(share) for name, share in shares.items()})


def _share_of_total(deposit: Deposit) -> Fraction | None:
    """The deposit's share, where it is one of the whole total."""
    return deposit.percent if set(deposit.classes) >= ALL_CLASSES and not deposit.shares else None


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
                "Some sample prices were set in {theirs} and stand here as {ours}: put your own in a shop file.",
                theirs=" and ".join(sorted(foreign)), ours=quote.currency.code,
            )
        )  # fmt: skip
    return found


def _working(lines: list[Line], taxes: tuple[TaxAmount, ...], shop: Shop, deposit: Money, whole: Money) -> list[Said]:
    told = [line.said for line in lines if line.said]
    told += [_material_said(line, shop.rates.markup) for line in lines if line.cost is not None]
    told += [_change_said(line, lines) for line in lines if line.kind != "item"]
    told += [_tax_said(tax) for tax in taxes]
    if shop.deposit.shares:
        told.append(_shared_deposit_said(shop.deposit, lines, deposit, whole))
    elif shop.deposit.amount is None and shop.deposit.percent is not None:
        told.append(
            say("Deposit: {share} of {base} = {deposit}, rounded", share=Share(shop.deposit.percent),
                base=_deposit_base(shop.deposit, lines, whole), deposit=deposit)
        )  # fmt: skip
    return told


def _shared_deposit_said(asked: Deposit, lines: list[Line], deposit: Money, whole: Money) -> Said:
    parts, values = [], dict[str, Value]()
    for name, share in asked.shares.items():
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
    by_markup = "rates.markup" in line.figures
    return say_in_house(
        "{label}: bought for {cost}, sold at {rate} {unit}, "
        + ("{markup} above cost" if by_markup else "its own price"),
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
