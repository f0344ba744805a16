"""Cautions: brief, with their source, deferring to local codes and licensed practice."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.model.cover import Bed
from finishcalc.model.project import Job, TopSpec
from finishcalc.wording.sentence import NoLess, Sentence, Value, say, say_in_house

CRIB_QUILT = (Length.parse("45 in"), Length.parse("60 in"))
"""The packaged crib size; any quilt that fits in it may end in a crib."""


class Caution(NamedTuple):
    """A caution: a stable `code`, a sentence with its audience, and its source, empty for our own arithmetic. The work
    cannot be done as planned where one is `blocking`; `take` are the keys that take what it proposes to the studio."""

    code: str
    sentence: Sentence
    source: str = ""
    blocking: bool = False
    take: Mapping[str, object] = MappingProxyType({})


def caution(code: str, text: str, /, **values: Value) -> Caution:
    """Make a caution that rests on a plan's own arithmetic."""
    return Caution(code, say(text, **values))


def blocking_caution(code: str, text: str, /, **values: Value) -> Caution:
    """Make a caution that the work cannot be done as it is planned."""
    return Caution(code, say(text, **values), blocking=True)


def caution_in_house(code: str, text: str, /, **values: Value) -> Caution:
    """Make a caution for the studio, which the customer need not read."""
    return Caution(code, say_in_house(text, **values))


SAFE_SLEEP = Caution(
    "safe-sleep",
    say(
        "Safe sleep: no quilt or other soft bedding in the sleep space of a child under 12 months. "
        "For play or display, never in the crib; ask the child's doctor."
    ),
    "American Academy of Pediatrics, Pediatrics 150(1) e2022057990, 2022; CPSC release of 8 April 1999",
)
CANDLES = Caution(
    "candles",
    say(
        "Candles: keep them at least {far} from the cloth; follow your local fire code: your fire service may ask for "
        "more.",
        far=NoLess(Length.parse("12 in")),
    ),
    "a city fire department's candle sheet",
)
LABEL_LAW = Caution(
    "label-law",
    say(
        "Selling: a label must give fibre content, country of origin and maker; some places also want a licence "
        "and a law label for stuffed bedding. Ask your own authority."
    ),
    "FTC, Threading Your Way; Utah HB 314 of 2016; Ohio OAC 4101:6-1-02; California BPC 19080",
)
CUTTER = Caution(
    "rotary-cutter",
    say("Rotary cutter: close the blade, cut away from the body, keep fingers off the ruler's edge."),
    "a 4-H safety guide",
)
TAX = Caution(
    "tax",
    say_in_house("Tax on work on a customer's own goods differs by place: ask your own tax authority."),
    "California Regulation 1526; COMAR 03.06.01.30",
)


def use_cautions(top: TopSpec, job: Job) -> list[Caution]:
    """Warn of dangers in the use of the top."""
    cautions = []
    if may_be_for_a_crib(top):
        cautions.append(SAFE_SLEEP)
    if top.use == "tablecloth":
        cautions.append(CANDLES)
    if job.for_sale:
        cautions.append(LABEL_LAW)
    return cautions


def may_be_for_a_crib(top: TopSpec) -> bool:
    """Tell a crib quilt. One that fits the crib size either way counts as one, and so does a cover of a bed as small,
    whatever its use is called."""
    short, long = sorted((top.width, top.length))
    small = short <= CRIB_QUILT[0] and long <= CRIB_QUILT[1] and top.use not in ("tablecloth", "wall")
    on_crib = top.covers is not None and isinstance(top.covers.what, Bed) and top.covers.what.is_crib
    return top.use == "crib" or small or on_crib
