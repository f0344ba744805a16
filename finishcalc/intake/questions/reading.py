"""Reads an answer as the values that it puts into a file. The file's own readers check them afterwards."""

import re
from collections.abc import Callable
from typing import get_args

from finishcalc.intake import presets
from finishcalc.intake.changes.sizes import SizeContext, requested_size
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.named_materials import ALWAYS
from finishcalc.intake.questions.question import Kind, Question
from finishcalc.intake.questions.seen import PARTS, Answer, Puts, Seen, sample_value
from finishcalc.intake.words import hint_for, understood
from finishcalc.intake.words_taken import known_names
from finishcalc.measures.length import Length
from finishcalc.measures.numbers import MeasureError, exact, shorten
from finishcalc.model.keys import ChargedBy
from finishcalc.problems import ProblemCode

YES_AND_NO = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}
"""The words for yes and no."""
PER = re.compile(r"(?P<price>.*?[\d½¼¾])\s*(?:/|per\b|an?\b|by the\b)?\s*(?P<unit>[a-z][a-z ]*)?", re.IGNORECASE)
"""Finds a price and its unit: "0.03", "4 a sq ft", "45/hour"."""
SIGN = ("money", "symbol")
"""The key of the sign at an amount."""
ALL_CLASSES = {"material": ["material"], "all": ["labour", "material"]}
"""The classes of lines that a word for what is taxed stands for."""


def read(question: Question, text: str, seen: Seen) -> Answer:
    """Read an answer. Raises MeasureError with a hint for one that cannot be taken."""
    text = _unquoted(text.strip())
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        message, hint = "has a character that cannot be read", "type it again"
        raise MeasureError(ProblemCode.UNWRITABLE_CHARACTERS, message, hint) from None
    if question.kind == "size":
        return _size(question, text, seen)
    if question.kind == "choice" and not question.key:
        _choice(question, text, seen)
        return Answer(question, understood(text, question.told) or text, {})
    return Answer(question, text, READERS[question.kind](question, text, seen))


def _unquoted(text: str) -> str:
    return text[1:-1].strip() if len(text) > 2 and text[0] == text[-1] and text[0] in "\"'" else text


def _size(question: Question, text: str, seen: Seen) -> Answer:
    """A width alone, a size, or a bed or a table to cover."""
    try:
        Length.parse(text, seen.units)
    except MeasureError as error:
        if error.code is ProblemCode.DIVIDES_BY_ZERO:
            raise
    else:
        sides: Puts = {("top", "shape"): "rectangle"} if seen.resolved.tables.top.shape == "round" else {}
        return Answer(question, text, sides | {("top", "width"): whole_or_text(text)})
    try:
        change = requested_size(text, SizeContext(seen.resolved, seen.units, {})).change
    except MeasureError as error:
        if error.code is ProblemCode.NOT_A_LENGTH and not any(map(str.isdigit, text)):
            message = f'"{shorten(text)}" is not a known bed, table or size'
            hint = hint_for(text, seen_names(seen), otherwise='give it as in "60 1/2", "60x84" or "queen"')
            raise MeasureError(ProblemCode.UNKNOWN_SIZE, message, hint) from None
        raise
    puts: Puts = {}
    for path, value in change.puts:
        cover = value if path == ("top", "covers") and isinstance(value, dict) else None
        for steps, item in {(*path, key): item for key, item in cover.items()}.items() if cover else [(path, value)]:
            puts[steps] = _sides(item)
    return Answer(question, text, puts, drops=(("top", "use"),) if cover_is_in(puts) else ())


def seen_names(seen: Seen) -> list[str]:
    """Give the names of the beds and tables."""
    return [name for kind in ("beds", "tables") for name in presets.names(kind, seen.units)]


def cover_is_in(puts: Puts) -> bool:
    """Tell values that make the top the cover of a bed or a table."""
    return any(path[:2] == ("top", "covers") for path in puts)


def _sides(item: object) -> object:
    if isinstance(item, dict):
        return {key: _sides(side) for key, side in item.items()}
    return whole_or_text(item) if isinstance(item, str) else item


def whole_or_text(text: str) -> int | str:
    """A whole number bare, all else as text, as people write them in a file."""
    return int(text) if re.fullmatch(r"[0-9]{1,9}", text) else text


def _choice(question: Question, text: str, seen: Seen) -> Puts:
    word = understood(text, question.told)
    if question.name == "use" and not word:
        word = understood(text.removesuffix(" quilt"), question.told)
    if not word:
        message = f'"{shorten(text)}" is not a choice here'
        raise MeasureError(ProblemCode.NOT_A_CHOICE, message, hint_for(text, question.told))
    if question.name == "taxed":
        return {question.path: ALL_CLASSES[word]}
    return {question.path: word} if question.key else {}


def _preset(question: Question, text: str, seen: Seen) -> Puts:
    named = ALWAYS[question.path]
    tiers = known_names(seen.resolved.layers, question.path, named, seen.units)
    name = understood(text, *tiers)
    if not name:
        message = f'"{shorten(text)}" is not one of the {named.kind}'
        raise MeasureError(ProblemCode.UNKNOWN_PRESET, message, hint_for(shorten(text), *tiers))
    return {question.path: name}


def _parts(question: Question, text: str, seen: Seen) -> Puts:
    words = [word.strip() for word in re.split(r",|\band\b|\+", text) if word.strip()]
    parts = [understood(word, [*seen.parts, "none"]) or ("none" if word == "nothing" else word) for word in words]
    unknown = [part for part in parts if part not in (*seen.parts, "none")]
    if unknown:
        message = f'"{shorten(unknown[0])}" is not part of this quilt'
        if unknown[0] in PARTS:
            message = f"there is no {unknown[0]} to bring"
        raise MeasureError(ProblemCode.NOT_A_CHOICE, message, hint_for(unknown[0], [*seen.parts, "nothing"]))
    return {(part, "supplied_by"): "customer" if part in parts else "shop" for part in seen.parts}


def _line(question: Question, text: str, seen: Seen) -> Puts:
    return {question.path: text}


def _lines(question: Question, text: str, seen: Seen) -> Puts:
    return {question.path: [line.strip() for line in text.split(",") if line.strip()]}


def _flag(question: Question, text: str, seen: Seen) -> Puts:
    if text.lower() not in YES_AND_NO:
        raise MeasureError(ProblemCode.NOT_TRUE_OR_FALSE, f'"{shorten(text)}" is neither yes nor no', "use yes or no")
    return {question.path: YES_AND_NO[text.lower()]} if question.key else {}


def _length(question: Question, text: str, seen: Seen) -> Puts:
    return {question.path: whole_or_text(text)}


def _currency(question: Question, text: str, seen: Seen) -> Puts:
    """A currency; the sample's with its sign, because a currency that is given makes the sign below it void."""
    code = text.upper()
    sign: Puts = {SIGN: sample_value(seen.units, SIGN)} if code == seen.samples_currency else {}
    return {question.path: code, **sign}


def _price(question: Question, text: str, seen: Seen) -> Puts:
    return {question.path: _amount(text, seen)}


def _amount(text: str, seen: Seen) -> int | str:
    """An amount without the sign or the letters of its currency."""
    money = seen.resolved.tables.money
    for sign in filter(None, (money.symbol, money.currency)):
        text = text.removeprefix(sign).removesuffix(sign).strip()
    return whole_or_text(text)


def _rate(question: Question, text: str, seen: Seen) -> Puts:
    """A price, for the unit that comes with it, or that quilting is charged by."""
    match = PER.fullmatch(text)
    usual = str(seen.resolved.tables.rates.quilting_per)
    named = match["unit"] if match else None
    unit = (understood(named, get_args(ChargedBy)) or named) if named else seen.text_of("quilting-by") or usual
    amount = _amount(match["price"] if match else text, seen)
    return {question.path: amount if unit == usual else {"price": amount, "per": unit}}


def _share(question: Question, text: str, seen: Seen) -> Puts:
    return {question.path: per_cent(text)}


def per_cent(text: str) -> str:
    """A percentage with its sign. A bare number is one too, unless it is likely to be meant as a fraction of one."""
    try:
        number = exact(text)
    except MeasureError:
        return text
    return f"{text} %" if number == 0 or number >= 1 else text


def _tax(question: Question, text: str, seen: Seen) -> Puts:
    """A tax of this share under the sample's name; none for nothing."""
    percent = per_cent(text)
    if re.fullmatch(r"[0.]+\s*%", percent):
        return {question.path: []}
    (label,) = (tax.label for tax in presets.sample_shop(seen.units)[0].tax.value)
    return {question.path: [{"label": label, "percent": percent}]}


def cloth_of(question: Question, seen: Seen) -> tuple[KeyPath, str] | None:
    """The path of the cloth whose price is asked, and its name; None where the shop names none."""
    path: KeyPath = (*question.path, 0) if question.key == "cloth.wider" else question.path
    sourced = seen.sourced((*path, "preset"))
    return (path, str(sourced.value)) if sourced and sourced.value != "none" else None


def _cloth_price(question: Question, text: str, seen: Seen) -> Puts:
    cloth = cloth_of(question, seen)
    return {("fabrics", cloth[1], "price"): _amount(text, seen)} if cloth else {}


READERS: dict[Kind, Callable[[Question, str, Seen], Puts]] = {
    "length": _length,
    "choice": _choice,
    "preset": _preset,
    "parts": _parts,
    "line": _line,
    "lines": _lines,
    "flag": _flag,
    "currency": _currency,
    "price": _price,
    "rate": _rate,
    "share": _share,
    "tax": _tax,
    "cloth price": _cloth_price,
}
"""The reader of each sort of answer."""
