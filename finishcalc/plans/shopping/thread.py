"""The thread of several projects by the cone: lengths of one thread are added up before they go up to whole cones."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Money
from finishcalc.measures.rounding import up
from finishcalc.plans.shopping.wants import ShoppingProject, ThreadWanted
from finishcalc.wording.sentence import Long, Sentence, Value, say


class ThreadToBuy(NamedTuple):
    """So many cones of a thread. `name` is what the jobs say of it, empty where one says nothing: it is then that
    project's alone. `cost` is None where nobody gives the price of a cone."""

    name: str
    colours: int
    cone: Length
    cones: int
    projects: tuple[tuple[str, Length], ...]
    cost: Money | None
    working: Sentence


def plan_thread(projects: Sequence[ShoppingProject]) -> Iterator[ThreadToBuy]:
    """Buy each thread once for all projects that name it alike, in as many colours, on the same cones at one price."""
    grouped: dict[tuple[str, ...], list[tuple[ShoppingProject, ThreadWanted]]] = {}
    for project in projects:
        if thread := project.thread:
            name = " ".join(thread.name.split())
            terms = (str(thread.colours), str(thread.cone), str(thread.price), project.currency.code)
            key = (name.casefold(), "" if name else project.label, "" if name else project.key, *terms)
            grouped.setdefault(key, []).append((project, thread))
    for _, wanting in sorted(grouped.items()):
        yield _thread_to_buy(wanting)


def _thread_to_buy(wanting: Sequence[tuple[ShoppingProject, ThreadWanted]]) -> ThreadToBuy:
    (project, thread), lengths = wanting[0], [(each.label, wanted.length) for each, wanted in wanting]
    length = sum((length for _, length in lengths), ZERO)
    cones = thread.colours * up(length / thread.colours / thread.cone)
    cost = None if thread.price is None else project.currency.round(cones * thread.price)
    working = _working(thread, lengths, cones)
    return ThreadToBuy(thread.name, thread.colours, thread.cone, cones, tuple(lengths), cost, working)


def _working(thread: ThreadWanted, lengths: Sequence[tuple[str, Length]], cones: int) -> Sentence:
    values: dict[str, Value] = {}
    for n, (label, length) in enumerate(lengths):
        values |= {f"label{n}": label, f"length{n}": Long(length)}
    terms = " + ".join(f"{{length{n}}} for {{label{n}}}" for n in range(len(lengths)))
    each = Fraction(sum((length for _, length in lengths), ZERO) / thread.cone)
    in_colours = " in each of {colours} colours" if thread.colours > 1 else ""
    text = f"Cones: ({terms}) / {{cone}} on a cone = {{exact}}, rounded up{in_colours}: {{cones}}"
    return say(text, cone=Long(thread.cone), exact=each, colours=thread.colours, cones=cones, **values)
