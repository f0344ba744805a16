"""Checks a table against its keys and turns everything wrong with it into problems.

What is wrong is taken out and the rest is checked again, so that the rules between keys still see all that
stands, and one run tells of every mistake.
"""

from typing import Any

from pydantic_core import ErrorDetails, ValidationError

from finishcalc.intake.fields import Reading
from finishcalc.intake.positions import Path
from finishcalc.intake.source import Source
from finishcalc.intake.table import Kind, ListOf, Named, Rows, Table
from finishcalc.problems import Problem, ProblemCode
from finishcalc.wording.words import did_you_mean, in_words, nearest

MOST_PROBLEMS = 200
"""No one mends more at a time; what is wrong beyond them is told by the next run."""


def check(
    table: Table, data: Any, source: Source, units: str, at: Path = ()
) -> tuple[dict[str, Any], list[Problem], set[Path]]:
    """Check `data`, which stands at the path `at` of `source`.

    Gives the values of all that is right, the problems, and the paths of what was taken out; an unknown key is among
    them where it is told, so that no one looks for the meaning of thousands. `data` is changed.
    """
    problems: list[Problem] = []
    faulty: set[Path] = set()
    while True:
        try:
            return table.validator.validate_python(data, context=Reading(units)), problems, faulty
        except ValidationError as error:
            details = error.errors(include_url=False, include_input=False)
            told = [each for each in details if each["type"] != "missing" or at + each["loc"] not in faulty]
            told = told[: MOST_PROBLEMS - len(problems)]
            for detail in told:
                code, message, hint = _words(detail, table)
                problems.append(source.problem(code, at + detail["loc"], message, hint))
            known = [each for each in details if each["type"] != "extra_forbidden"]
            faulty |= {at + detail["loc"] for detail in known + told}
            data = _without(data, [detail["loc"] for detail in details])


def _words(detail: ErrorDetails, table: Table) -> tuple[ProblemCode, str, str]:
    """The kind of mistake, what is wrong, and what would be right."""
    kind, context = detail["type"], detail.get("ctx", {})
    if kind == "refused":
        return context["code"], context["message"], context["hint"]
    if kind == "extra_forbidden":
        return ProblemCode.UNKNOWN_KEY, "unknown key", _known(table, detail["loc"])
    if kind == "missing":
        return ProblemCode.MISSING_KEY, "is missing", f"add {detail['loc'][-1]} = ..."
    if kind == "dict_type":
        last = detail["loc"][-1] if detail["loc"] else 0
        keys = "{ ... }" if isinstance(last, int) else f"[{last}]"
        return ProblemCode.NOT_A_TABLE, "is not a table", f"give it keys of its own: {keys}"
    if kind == "list_type":
        return ProblemCode.NOT_A_LIST, "is not a list", "write it in brackets: [ ... ]"
    if kind == "too_long":
        what = "is too long a list" if context["field_type"] == "List" else "has too many names"
        return ProblemCode.LIST_TOO_LONG, what, f"give at most {context['max_length']}"
    raise AssertionError(f"no words for {kind}")


def _known(table: Table, loc: tuple[int | str, ...]) -> str:
    """The table in which this very key belongs, or the nearest key that would be known here."""
    around = _table_at(table, loc[:-1])
    word = str(loc[-1])
    homes = [name for name, kind in table.keys.items() if isinstance(kind, Table) and word in kind.keys]
    if homes:
        return "it belongs in " + in_words([f"[{home}]" for home in homes], "or")
    return did_you_mean(word, around.keys) or "known here: " + ", ".join(around.keys)


def _table_at(table: Table, loc: tuple[int | str, ...]) -> Table:
    """The table that a path leads into, through lists and names of the file's own."""
    found: Kind = table
    for step in loc:
        if isinstance(found, ListOf):
            found = found.table
        elif isinstance(found, (Named, Rows)):
            found = found.each
        elif isinstance(found, Table):
            found = found.keys[str(step)]
    if not isinstance(found, Table):
        raise AssertionError(f"no table at {loc}")
    return found


def _without(data: Any, locs: list[tuple[int | str, ...]]) -> Any:
    """The data without what stands at `locs`; a list goes whole, for its items are counted."""
    for steps in {_place(data, loc) for loc in locs}:
        if not steps:
            return {}
        holder = data
        for step in steps[:-1]:
            holder = holder.get(step, {})
        holder.pop(steps[-1], None)
    return data


def _place(data: Any, loc: tuple[int | str, ...]) -> tuple[str, ...]:
    """The steps of a path that lead through tables to a key that is there."""
    steps: list[str] = []
    for step in loc:
        if not isinstance(data, dict) or step not in data:
            break
        steps.append(str(step))
        data = data[step]
    return tuple(steps)


def misspelt(paths: set[Path], key: str) -> bool:
    """Whether one of the unknown keys was probably meant to be `key`: then it is not also called missing."""
    return any(isinstance(path[-1], str) and nearest(path[-1], [key]) for path in paths)
