"""The rules about money, charges and dates."""

from collections.abc import Iterable

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.named_materials import BACKING_FABRIC, BINDING_FABRIC, METHOD, style_paths
from finishcalc.intake.rules.check import Check
from finishcalc.intake.words import hint_for
from finishcalc.measures.length import MM_PER
from finishcalc.measures.money import Currency
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.extra_cuts import QUILT_CLOTHS
from finishcalc.model.prices import Extra, QuiltingRate, SeamRate
from finishcalc.model.section import given, specs
from finishcalc.problems import ProblemCode
from finishcalc.wording.words import in_words, one_of

QUILTING_RATES: KeyPath = ("rates", "quilting")


def money_can_be_written(check: Check) -> None:
    """A currency with its minor unit, and two signs that can be told apart."""
    money, rates, deposit = check.tables.money, check.tables.rates, check.tables.deposit
    try:
        currency = Currency.of(money.currency)
    except MeasureError as error:
        check.wrong(error.code, [("money", "currency")], str(error), error.hint)
        return
    off = check.tables.charges.discount_amount
    amounts: dict[KeyPath, object] = {
        ("charges", "discount_amount"): off is None or currency.holds(off),
        ("money", "cash_rounding"): currency.holds(money.cash_rounding),
        ("rates", "minimum"): currency.holds(rates.minimum.value),
        ("deposit", "amount"): deposit.amount is None or currency.holds(deposit.amount.value),
    }
    decimals = f"{currency.digits} decimals" if currency.digits else "no decimals"
    for path in (path for path, payable in amounts.items() if not payable):
        message = f"{currency.code} has {decimals}"
        check.wrong(ProblemCode.NOT_PAYABLE, [path], message, "round the amount to that")
    if money.decimal == money.group:
        signs: list[KeyPath] = [("money", "decimal"), ("money", "group")]
        message = "the decimal sign and the group sign are the same"
        check.wrong(ProblemCode.SAME_SIGNS, signs, message, 'use "." and ",", or group = ""')


def deposit_is_one_thing(check: Check) -> None:
    """A share, an amount, or a share of each class."""
    deposit = check.tables.deposit
    places: dict[str, KeyPath] = {}
    places |= {"percent": ("deposit", "percent")} if deposit.percent is not None else {}
    places |= {"amount": ("deposit", "amount")} if deposit.amount is not None else {}
    places |= {"shares": ("deposit", "shares", "labour")} if deposit.shares is not None else {}
    if len(places) > 1:
        parts = "a share and an amount" if "amount" in places else "two shares"
        later, hint = list(places.values())[1:], f"keep {in_words(list(places), 'or')}"
        check.wrong(ProblemCode.DEPOSIT_TWICE, later, f"the deposit is {parts}", hint)


def discount_is_one_thing(check: Check) -> None:
    """A share, or an amount."""
    charges = check.tables.charges
    if charges.discount is not None and charges.discount_amount is not None:
        places: list[KeyPath] = [("charges", "discount_amount")]
        message, hint = "the discount is a share and an amount", "keep discount or discount_amount"
        check.wrong(ProblemCode.DISCOUNT_TWICE, places, message, hint)


def rates_are_whole(check: Check) -> None:
    """A class of quilting has a price or steps of size, and steps rise, with a rate for what is beyond the last."""
    for name, rate in check.tables.rates.quilting.items():
        path: KeyPath = (*QUILTING_RATES, name)
        if rate.price is not None and rate.steps is not None:
            both: list[KeyPath] = [(*path, "price"), (*path, "steps")]
            check.wrong(ProblemCode.PRICE_AND_STEPS, both, "has both a price and steps of size", "keep one of them")
        if rate.steps is None and rate.more is not None:
            message = "there are no steps of size to go beyond"
            check.wrong(ProblemCode.MORE_WITHOUT_STEPS, [(*path, "more")], message, "add steps, or leave it out")
        if rate.steps is None and (rate.price is None or rate.per == "size"):
            hint = 'give a price, or steps = [{ name = "throw", up_to = 3600, price = 110 }]'
            message = "has neither a price nor steps of size"
            check.wrong(ProblemCode.NO_PRICE_NOR_STEPS, check.given_under(path), message, hint, table=True)
        if rate.steps is not None:
            _check_steps(check, (*path, "steps"), rate)


def _check_steps(check: Check, path: KeyPath, rate: QuiltingRate) -> None:
    sizes = [step.up_to for step in (rate.steps.value if rate.steps else ())]
    prices = [step.price for step in (rate.steps.value if rate.steps else ())]
    if not sizes or sizes != sorted(set(sizes)):
        hint = "give the smallest first, each larger than the last"
        check.wrong(ProblemCode.STEPS_DO_NOT_RISE, [path], "its sizes do not rise", hint)
    elif prices != sorted(prices):
        hint = "give a larger size at least the price of the one before"
        check.wrong(ProblemCode.STEPS_DO_NOT_RISE, [path], "its prices fall", hint)
    missing = [name for name, value in (("more", rate.more), ("each", rate.each)) if value is None]
    if missing:
        hint = "give the charge beyond the last: more = 20, each = 500"
        verb = "is" if len(missing) == 1 else "are"
        check.wrong(ProblemCode.STEPS_WITHOUT_MORE, [path], f"{in_words(missing)} {verb} missing", hint)


def seams_have_their_unit(check: Check) -> None:
    """A price along the seams is for a unit of length."""
    for key in ("seam", "batting_seam"):
        rate: SeamRate = getattr(check.tables.rates, key)
        if rate.along is not None and rate.per is None:
            along: KeyPath = ("rates", key, "along")
            message, hint = "is for no unit of length", 'say which: { each = 10, along = "0.10", per = "in" }'
            check.wrong(ProblemCode.MISSING_KEY, [along], message, hint)


def rates_suit_the_work(check: Check) -> None:
    """Ties are counted where there are some."""
    quilting, rates = check.tables.quilting, check.tables.rates.quilting
    for style in (quilting.style, *(area.style for area in quilting.areas)):
        name = str(quilting.method.rate_class or style.rate_class)
        path: KeyPath = (*QUILTING_RATES, name)
        rate = rates.get(name)
        if rate and rate.per == "tie" and given(style.lines) not in (None, "ties"):
            hint = "use another unit, or a style of ties"
            check.wrong(ProblemCode.PRICE_OF_NO_TIES, [(*path, "per")], "there are no ties to count", hint)


def piecing_has_its_blocks(check: Check) -> None:
    """Piecing that a project asks for is of a pieced top, and by the hour or the block of one with pieced blocks."""
    top, per = check.tables.top, check.tables.rates.piecing.per
    if not check.tables.charges.piecing or not check.by_the_project("charges", "piecing"):
        return
    path: list[KeyPath] = [("charges", "piecing")]
    hint = "describe the top under [top.blocks], or charge it with a line of its own"
    by_area = per not in ("hour", "block")
    if not top.is_pieced or not (by_area or (top.blocks and given(top.blocks.plain) != "all")):
        what = (
            "the top is not described by its parts"
            if not top.is_pieced
            else f'there are no pieced blocks to go by the "{per}"'
        )
        check.wrong(ProblemCode.NO_PIECING, path, what, hint)


def tax_is_added_or_included(check: Check) -> None:
    """A price that holds one tax and has another added is no price anyone could check."""
    included_by_class: dict[str, set[bool]] = {}
    for tax in check.tables.tax.value:
        complete = tax.filled_from(check.tables.taxing)
        for line_class in complete.classes:
            included_by_class.setdefault(line_class, set()).add(complete.included)
    for taxed in (line_class for line_class, included in included_by_class.items() if len(included) > 1):
        message = f"one tax on {taxed} is included in the price and another is added to it"
        hint = "make all taxes on a class of lines either included or added"
        check.wrong(ProblemCode.TAX_ADDED_AND_INCLUDED, [("tax",), ("taxing", "included")], message, hint)


def offers_are_known(check: Check) -> None:
    """Extras that a quote may offer are among the shop's."""
    _check_extras(check, ("offers", "extras"), (offered.name for offered in check.tables.offers.extras))


def extras_are_known(check: Check) -> None:
    """Every extra that is asked for is in the shop file, and whole."""
    _check_extras(check, ("charges", "extras"), (ordered.name for ordered in check.tables.charges.extras))
    needs = [name for name in specs(Extra) if name in Extra.required]
    for name in check.tables.extras:
        check.missing(ProblemCode.INCOMPLETE_EXTRA, ("extras", name), needs, "an extra needs it")


def extras_can_be_cut(check: Check) -> None:
    """A piece that is cut for an extra has its width, its cloth and whoever supplies that; it is so much less than a
    side of the top."""
    for name, extra in check.tables.extras.items():
        at: KeyPath = ("extras", name, "cut")
        if not (cut := extra.cut):
            continue
        needs = ["width"] if cut.fabric.is_given else ["width", "fabric"]
        check.missing(ProblemCode.INCOMPLETE_EXTRA, at, needs, "a piece that is cut for an extra needs it")
        if cut.fabric.is_given and cut.fabric.preset not in (*QUILT_CLOTHS, "none"):
            why = "a cut of a cloth of its own needs it beside its fabric"
            check.missing(ProblemCode.INCOMPLETE_EXTRA, at, ["supplied_by"], why)
        if cut.less is not None and cut.of is None:
            message = "the piece goes by no side of the top, so nothing is taken off one"
            check.wrong(ProblemCode.MEASURE_OF_NOTHING, [(*at, "less")], message, 'add of = "width", or leave it out')


def ordered_extras_have_their_cloth(check: Check) -> None:
    """An order that names the cloth of an extra is of one that is cut from cloth, and of a cloth that there is."""
    is_there = {"backing": not check.is_none(BACKING_FABRIC), "binding": not check.is_none(BINDING_FABRIC)}
    for number, ordered in enumerate(check.tables.charges.extras):
        extra = check.tables.extras.get(ordered.name)
        if not ordered.fabric or not extra:
            continue
        message, hint = "", "leave it out"
        if not extra.cut:
            message = f'nothing is cut for the extra "{ordered.name}"'
        elif not is_there.get(ordered.fabric, True):
            message, hint = f"the quilt has no {ordered.fabric} to cut it from", 'name the other, or use "none"'
        if message:
            within: KeyPath = (number, "fabric")
            check.wrong(ProblemCode.EXTRA_WITHOUT_CLOTH, [("charges", "extras")], message, hint, within=within)


def measures_are_of_lengths(check: Check) -> None:
    """Only what is sold or timed by length goes by a side or the perimeter of the top, and not what has a quantity."""
    for name, extra in check.tables.extras.items():
        if extra.of and (per := given(extra.per)) and not {per, extra.minutes_per} & MM_PER.keys():
            _no_measure(check, ("extras", name, "of"), (), per)
    for number, one_off in enumerate(check.tables.charges.lines.value):
        at: KeyPath = (number, "of")
        if one_off.of and not {one_off.per, one_off.minutes_per} & MM_PER.keys():
            _no_measure(check, ("charges", "lines"), at, one_off.per)
        elif one_off.of and one_off.quantity is not None and one_off.minutes_per not in MM_PER:
            message = "the line has a quantity, so it does not go by a measure of the top"
            check.wrong(ProblemCode.MEASURE_OF_NOTHING, [("charges", "lines")], message, "keep one of them", within=at)


def hours_are_said(check: Check) -> None:
    """Work that is sold by the hour has hours, or minutes from which they follow; minutes by a measure are given."""
    for name, extra in check.tables.extras.items():
        if extra.minutes_per and not extra.minutes:
            _no_minutes(check, ("extras", name, "minutes_per"), ())
    for number, one_off in enumerate(check.tables.charges.lines.value):
        if one_off.minutes_per and one_off.minutes is None:
            _no_minutes(check, ("charges", "lines"), (number, "minutes_per"))
        if one_off.per == "hour" and one_off.quantity is None and one_off.minutes is None:
            _no_hours(check, ("charges", "lines"), (number,), "add quantity = 1")
    for number, ordered in enumerate(check.tables.charges.extras):
        known = check.tables.extras.get(ordered.name)
        if known and known.per == "hour" and ordered.quantity is None and not known.minutes:
            hint = f'write {{ name = "{ordered.name}", quantity = 1 }}, or give the extra its minutes in the shop file'
            _no_hours(check, ("charges", "extras"), (number,), hint)


def _no_minutes(check: Check, path: KeyPath, within: KeyPath) -> None:
    hint = "give the minutes too, or leave it out"
    check.wrong(ProblemCode.MEASURE_OF_NOTHING, [path], "there are no minutes to count by it", hint, within=within)


def _no_hours(check: Check, path: KeyPath, within: KeyPath, hint: str) -> None:
    message = "is sold by the hour, and neither hours nor minutes are given"
    check.wrong(ProblemCode.HOURS_NOT_SAID, [path], message, hint, within=within)


def _no_measure(check: Check, path: KeyPath, within: KeyPath, per: str) -> None:
    message = f'what is sold by "{per}" has no side or perimeter of the top to go by'
    hint = "give a unit of length, or leave it out"
    check.wrong(ProblemCode.MEASURE_OF_NOTHING, [path], message, hint, within=within)


def _check_extras(check: Check, path: KeyPath, names: Iterable[str]) -> None:
    known = list(check.tables.extras)
    for name in names:
        if name not in known:
            hint = hint_for(name, known)
            check.wrong(ProblemCode.UNKNOWN_EXTRA, [path], f'there is no extra "{name}"', hint)


def quilting_has_a_rate(check: Check) -> None:
    """The class of every style, and of a method that has one, has a price."""
    quilting, known = check.tables.quilting, list(check.tables.rates.quilting)
    classes = [quilting.style.rate_class, *(area.style.rate_class for area in quilting.areas)]
    places = [*style_paths(quilting), METHOD]
    for path, rate_class in zip(places, [*classes, quilting.method.rate_class], strict=True):
        if rate_class is not None and rate_class not in known:
            hint = hint_for(rate_class, known, otherwise=f"add it under [rates.quilting], or {one_of(known)}")
            message = f'there is no rate for quilting of class "{rate_class}"'
            check.wrong(ProblemCode.UNKNOWN_RATE_CLASS, [(*path, "rate_class")], message, hint)


def rush_bands_differ(check: Check) -> None:
    """Work due within so many days has one share for a rush."""
    within = [band.within_days for band in check.tables.rush.value]
    for number, days in enumerate(within):
        if days in within[:number]:
            message = f"there is a band within {days} days already"
            at: KeyPath = (number, "within_days")
            check.wrong(ProblemCode.RUSH_BAND_TWICE, [("rush",)], message, "keep one of them", within=at)


def due_comes_after_the_date(check: Check) -> None:
    """Work is due after it was agreed."""
    job = check.tables.job
    if job.date and job.due and job.due < job.date:
        hint = "give a day after it"
        check.wrong(ProblemCode.DUE_BEFORE_DATE, [("job", "due")], "is before the date of the job", hint)
