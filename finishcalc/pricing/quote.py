"""The quote: lines, tax, total, deposit and balance. The total is the sum of what is printed."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.money import Currency, Money, share_out, total
from finishcalc.measures.rounding import half_up
from finishcalc.model.charges import Charges
from finishcalc.model.keys import Day
from finishcalc.model.prices import Shop
from finishcalc.model.project import Project
from finishcalc.plans.cautions import TAX, Caution, caution
from finishcalc.plans.hours import Hours, in_order_of_work
from finishcalc.plans.together import Plans
from finishcalc.pricing.deposit import (
    deposit_amount,
    deposit_due,
    deposit_figures,
    deposit_label,
    deposit_working,
    share_of_total,
    total_of_class,
)
from finishcalc.pricing.line import Line
from finishcalc.pricing.lines import LinesByPart, lines_by_part
from finishcalc.pricing.postage import postage_cautions
from finishcalc.pricing.tax import TaxAmount, added, taxes_on
from finishcalc.pricing.thread import thread_cautions
from finishcalc.wording.sentence import Price, Sentence, Share, Value, WhenRead, say, say_in_house


class Quote(NamedTuple):
    """A price for finishing a top. `lines` are those `by_part`, then rush and discount. `discount` is part of the
    subtotal already; `total` = subtotal + added tax + cash rounding; `balance` = total - deposit. `deposit_share` is
    the deposit's share of the total, None where it is set in another way; `deposit_due` is None for a job without a
    date."""

    currency: Currency
    by_part: LinesByPart
    lines: tuple[Line, ...]
    subtotal: Money
    discount: Money
    taxes: tuple[TaxAmount, ...]
    cash_rounding: Money
    total: Money
    deposit: Money
    deposit_label: Sentence
    deposit_share: Fraction | None
    deposit_due: Day | None
    balance: Money
    deposit_rests_on_sample: bool
    cautions: tuple[Caution, ...]
    working: Sequence[Sentence]

    def hours_with(self, planned: Hours) -> Hours:
        """The stages of the plans, and those of what is ordered besides."""
        ordered = [line.stage for line in self.lines if line.stage and line.stage.high]
        return Hours(tuple(in_order_of_work([*planned.stages, *ordered]))) if ordered else planned

    @property
    def charges_work(self) -> bool:
        """True where any work has a price: a maker who only buys has none."""
        return any(line.line_class == "labour" for line in self.lines)

    @property
    def rests_on_sample(self) -> bool:
        """True where the total rests on a figure that is not the studio's own."""
        return any(line.rests_on_sample for line in self.lines) or any(tax.rests_on_sample for tax in self.taxes)


def make_quote(project: Project, shop: Shop, plans: Plans, before: Quote | None = None) -> Quote:
    """Price the plans with the shop's rates. A quote `before` is of plans that differ in cloth and seams alone."""
    currency = project.currency
    by_part = lines_by_part(project, shop, plans, before.by_part if before else ())
    lines = with_changes([line for part in by_part for line in part], project.charges, currency)
    subtotal = total((line.amount for line in lines), currency)
    taxes = taxes_on(lines, shop.taxes, currency)
    before_cash = subtotal + added(taxes, currency)
    cash_rounding = _cash_rounding(before_cash, currency.round(shop.money.cash_rounding))
    grand_total = before_cash + cash_rounding
    deposit = deposit_amount(shop.deposit, lines, grand_total)
    return Quote(
        currency=currency,
        by_part=by_part,
        lines=tuple(lines),
        subtotal=subtotal,
        discount=total((line.amount for line in lines if line.kind == "discount"), currency),
        taxes=taxes,
        cash_rounding=cash_rounding,
        total=grand_total,
        deposit=deposit,
        deposit_due=deposit_due(shop.deposit, project.job),
        deposit_label=deposit_label(shop.deposit, lines),
        deposit_share=share_of_total(shop.deposit, lines),
        balance=grand_total - deposit,
        deposit_rests_on_sample=any(figure.sample for figure in deposit_figures(shop.deposit)),
        cautions=(*thread_cautions(plans, shop.rates), *postage_cautions(project, shop, plans)),
        working=WhenRead(lambda: _working(lines, taxes, shop, grand_total, deposit)),
    )


def with_changes(items: list[Line], charges: Charges, currency: Currency) -> list[Line]:
    """Add a rush line and a discount line for each class that has them. Discount is taken after rush."""
    lines = list(items)
    for line_class in charges.rush_classes if charges.rush else ():
        lines += _change("rush", line_class, charges.rush, lines, currency)
    if charges.discount:
        for line_class in charges.discount_classes:
            lines += _change("discount", line_class, -charges.discount, lines, currency)
    if charges.discount_amount:
        lines += _amount_off(currency.round(charges.discount_amount), charges.discount_classes, lines, currency)
    return lines


def _amount_off(amount: Money, classes: Iterable[str], lines: list[Line], currency: Currency) -> Iterator[Line]:
    """Take an amount off some classes, and no more than they come to: each bears it in proportion to its lines."""
    sums = {name: base for name in sorted(classes) if (base := total_of_class(name, lines, currency.zero))}
    taken = min(amount, total(sums.values(), currency))
    shares = share_out(taken, [base.minor for base in sums.values()])
    for (name, base), share in zip(sums.items(), shares, strict=True):
        if not share:
            continue
        text = "{label}: {amount} of {all}, of which {base} is {name}, in proportion: {share}"
        label = say("Discount, {amount} off {name}", amount=share, name=name)
        values: dict[str, Value] = {
            "label": label,
            "amount": taken,
            "all": total(sums.values(), currency),
            "base": base,
        }
        yield Line(
            label=label,
            line_class=name,
            quantity=Fraction(1),
            unit="each",
            rate=-share.major,
            amount=-share,
            kind="discount",
            working=say(text, **values, name=name, share=share),
        )


def _change(
    kind: Literal["rush", "discount"], line_class: str, share: Fraction, lines: list[Line], currency: Currency
) -> list[Line]:
    base = total_of_class(line_class, lines, currency.zero)
    if not base:
        return []
    label = say(f"{kind.capitalize()}, {{share}} of {line_class}", share=Share(abs(share)))
    return [
        Line(
            label=label,
            line_class=line_class,
            quantity=base.major,
            unit=currency.code,
            rate=share,
            amount=currency.round(base.major * share),
            kind=kind,
        )
    ]


def _cash_rounding(amount: Money, coin: Money) -> Money:
    """Give the difference to the nearest multiple of the least coin, half up."""
    if not coin:
        return coin
    return Money(half_up(Fraction(amount.minor, coin.minor)) * coin.minor - amount.minor, coin.currency)


def quote_cautions(quote: Quote, foreign: frozenset[str]) -> list[Caution]:
    """Warn of what the price leaves out, of the tax, and of sample prices in `foreign` currencies, which are not the
    quote's own."""
    cautions = [*quote.cautions, *([TAX] if quote.taxes else [])]
    if foreign:
        text = "Some sample prices were set in {theirs} and are used here as {ours}: put your own in a shop file."
        theirs = " and ".join(sorted(foreign))
        cautions.append(caution("sample-currency", text, theirs=theirs, ours=quote.currency.code))
    return cautions


def _working(
    lines: list[Line], taxes: tuple[TaxAmount, ...], shop: Shop, grand_total: Money, deposit: Money
) -> Iterator[Sentence]:
    """Write out the arithmetic of the quantities, the materials, rush and discount, the taxes, and the deposit."""
    yield from (line.working for line in lines if line.working)
    yield from (_cost_working(line, shop.rates.markup.value) for line in lines if line.cost is not None)
    yield from (_change_working(line, lines) for line in lines if line.is_share)
    yield from (_tax_working(tax) for tax in taxes)
    if in_deposit := deposit_working(shop.deposit, lines, grand_total, deposit):
        yield in_deposit


def _change_working(change: Line, lines: list[Line]) -> Sentence:
    """Add up the lines of its class that stand before it, and take its share of them."""
    before = lines[: lines.index(change)]
    base = [line.amount for line in before if line.line_class == change.line_class]
    values: dict[str, Value] = {f"amount{n}": amount for n, amount in enumerate(base)}
    return Sentence(
        "{label}: " + " + ".join(f"{{{name}}}" for name in values) + " = {base}, x {share} = {change}, rounded",
        values
        | {
            "label": change.label,
            "base": change.amount.currency.round(change.quantity),
            "share": Share(change.rate),
            "change": change.amount,
        },
    )


def _cost_working(line: Line, markup: Fraction) -> Sentence:
    """Write out a material's cost, and its price by the markup or as the shop sells it."""
    if line.ordered or line.about == "thread":
        return say_in_house("{label}: costs {cost}", label=line.label, cost=line.cost or line.amount.currency.zero)
    return say_in_house(
        "{label}: bought for {cost}, sold at {rate} {unit}, "
        + ("{markup} above cost" if line.markup is not None else "its own price"),
        label=line.label,
        cost=line.cost or line.amount.currency.zero,
        rate=Price(line.rate),
        unit=line.unit if line.unit == "each" else f"per {line.unit}",
        markup=Share(markup),
    )


def _tax_working(tax: TaxAmount) -> Sentence:
    share = ": {share}"
    if tax.included:
        one_divisor = len(tax.included_shares) == 1
        share = " held in the price: {share} / (1 + {held})" if one_divisor else " held in the price, by class:"
    return say(
        "{label}" + share + (" of each item in" if tax.by == "item" else " of") + " {base} = {amount}, rounded",
        label=tax.label,
        share=Share(tax.percent),
        held=Share(next(iter(tax.included_shares), tax.percent)),
        base=tax.base,
        amount=tax.amount,
    )
