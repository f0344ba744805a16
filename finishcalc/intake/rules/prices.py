"""The rules about money, charges and dates."""

from fractions import Fraction
from typing import Any

from finishcalc.intake.named_materials import styles_of
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.measures.money import Currency
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.shop import Extra
from finishcalc.problems import ProblemCode
from finishcalc.wording.words import did_you_mean, in_words, one_of


def money_can_be_written(check: Check) -> None:
    """A currency with its minor unit, and two signs that can be told apart."""
    code = check.layers.get("money", "currency")
    try:
        currency = Currency.of(code)
    except MeasureError as error:
        check.wrong(error.code, [("money", "currency")], str(error), error.hint)
        return
    for path in (("money", "cash_rounding"), ("rates", "minimum"), ("deposit", "amount")):
        amount: Fraction | None = check.layers.get(*path)
        if amount is not None and not currency.holds(amount):
            decimals = f"{currency.digits} decimals" if currency.digits else "no decimals"
            check.wrong(
                ProblemCode.NOT_PAYABLE, [path], f"{code} has {decimals}", "round the amount to what can be paid"
            )
    signs = [("money", "decimal"), ("money", "group")]
    if check.layers.get(*signs[0]) == check.layers.get(*signs[1]):
        check.wrong(
            ProblemCode.SAME_SIGNS,
            list(signs),
            "the decimal sign and the group sign are the same",
            'use "." and ",", or group = ""',
        )


def deposit_is_one_thing(check: Check) -> None:
    """A share, an amount, or a share of each class."""
    places = {"percent": ("deposit", "percent"), "amount": ("deposit", "amount")} | {
        "shares": ("deposit", "shares", "labour")
    }
    given = [name for name, path in places.items() if check.layers.get(*path) is not None]
    if len(given) > 1:
        paths: list[Path] = [places[name] for name in given[1:]]
        what = "a share and an amount" if "amount" in given else "two shares"
        check.wrong(ProblemCode.DEPOSIT_TWICE, paths, f"the deposit is {what}", f"keep {in_words(given, 'or')}")


def rates_are_whole(check: Check) -> None:
    """A class of quilting has a price or steps of size, and steps rise, with a rate for what is beyond the last."""
    layers = check.layers
    for name in layers.names("rates", "quilting"):
        path: Path = ("rates", "quilting", name)
        price, per, steps = (layers.get(*path, key) for key in ("price", "per", "steps"))
        if price is not None and steps is not None:
            check.wrong(
                ProblemCode.PRICE_AND_STEPS,
                [(*path, "price"), (*path, "steps")],
                "has a price and steps of size too",
                "keep one of them",
            )
        if steps is None and layers.get(*path, "more") is not None:
            check.wrong(
                ProblemCode.MORE_WITHOUT_STEPS,
                [(*path, "more")],
                "there are no steps of size to go beyond",
                "add steps, or leave it out",
            )
        if steps is None and (price is None or per == "size"):
            given = [key for key in layers.values if key[:3] == path]
            hint = 'give a price, or steps = [{ name = "throw", up_to = 3600, price = 110 }]'
            check.wrong(
                ProblemCode.NO_PRICE_NOR_STEPS, given, "says neither a price nor steps of size", hint, table=True
            )
        if steps is not None:
            _check_steps(check, path, steps)


def rates_suit_the_work(check: Check) -> None:
    """Ties are counted where there are some, and what is flat or goes by size is for a whole top."""
    layers, areas = check.layers, check.layers.rows("quilting", "areas")
    own = layers.get("quilting", "method", "rate_class")
    for style in styles_of(layers):
        name = own or layers.get(*style, "rate_class")
        path: Path = ("rates", "quilting", str(name))
        per = layers.get(*path, "per")
        flat = per == "quilt" or layers.get(*path, "steps") is not None
        if flat and areas:
            hint = "give it a price by area, by the hour or by length"
            check.wrong(
                ProblemCode.WHOLE_PRICE_FOR_AREAS,
                [(*path, "per"), (*path, "steps")],
                "is for a whole top, and this one has areas",
                hint,
            )
        if per == "tie" and layers.get(*style, "lines") not in (None, "ties"):
            check.wrong(
                ProblemCode.PRICE_OF_NO_TIES,
                [(*path, "per")],
                "there are no ties to count",
                "use another unit, or a style of ties",
            )


def _check_steps(check: Check, path: Path, steps: list[dict[str, Any]]) -> None:
    sizes = [step["up_to"] for step in steps]
    if not steps or sizes != sorted(set(sizes)):
        check.wrong(
            ProblemCode.STEPS_DO_NOT_RISE,
            [(*path, "steps")],
            "its sizes do not rise",
            "give the smallest first, each larger than the last",
        )
    missing = [key for key in ("more", "each") if check.layers.get(*path, key) is None]
    if missing:
        hint = "say what is charged beyond the last: more = 20, each = 500"
        verb = "is" if len(missing) == 1 else "are"
        check.wrong(ProblemCode.STEPS_WITHOUT_MORE, [(*path, "steps")], f"{in_words(missing)} {verb} missing", hint)


def offers_are_known(check: Check) -> None:
    """What a quote may offer stands among the extras."""
    known = check.layers.names("extras")
    for offered in check.layers.get("offers", "extras") or ():
        if offered["name"] not in known:
            hint = did_you_mean(offered["name"], known) or one_of(known)
            check.wrong(
                ProblemCode.UNKNOWN_EXTRA, [("offers", "extras")], f'there is no extra "{offered["name"]}"', hint
            )


def tax_is_added_or_included(check: Check) -> None:
    """A price that holds one tax and has another added is no price anyone could check."""
    ways: dict[str, set[bool]] = {}
    for tax in check.layers.get("tax"):
        included = tax.get("included", check.layers.get("taxing", "included"))
        for line_class in tax.get("classes", check.layers.get("taxing", "classes")):
            ways.setdefault(line_class, set()).add(included)
    for line_class, found in ways.items():
        if len(found) > 1:
            check.wrong(
                ProblemCode.TAX_ADDED_AND_INCLUDED,
                [("tax",), ("taxing", "included")],
                f"one tax on {line_class} is included in the price and another is added to it",
                "make all taxes on a class of lines either included or added",
            )


def extras_are_known(check: Check) -> None:
    """Every extra that is asked for stands in the shop file, and whole."""
    known = check.layers.names("extras")
    for wish in check.layers.get("charges", "extras"):
        if wish["name"] not in known:
            hint = did_you_mean(wish["name"], known) or one_of(known)
            check.wrong(ProblemCode.UNKNOWN_EXTRA, [("charges", "extras")], f'there is no extra "{wish["name"]}"', hint)
    for name in known:
        check.missing(ProblemCode.INCOMPLETE_EXTRA, ("extras", name), Extra._fields, "an extra needs it")


def quilting_has_a_rate(check: Check) -> None:
    """The class of every style, and of a method that has one, has a price."""
    known = check.layers.names("rates", "quilting")
    for path in [*styles_of(check.layers), ("quilting", "method")]:
        rate_class = check.layers.get(*path, "rate_class")
        if rate_class is not None and rate_class not in known:
            hint = did_you_mean(rate_class, known) or f"add it under [rates.quilting], or {one_of(known)}"
            check.wrong(
                ProblemCode.UNKNOWN_RATE_CLASS,
                [(*path, "rate_class")],
                f'there is no rate for quilting of class "{rate_class}"',
                hint,
            )


def due_comes_after_the_date(check: Check) -> None:
    """Work is due after it was agreed."""
    date, due = check.layers.get("job", "date"), check.layers.get("job", "due")
    if date and due and due < date:
        check.wrong(
            ProblemCode.DUE_BEFORE_DATE, [("job", "due")], "is before the date of the job", "give a day after it"
        )
