"""Checks a table against its model and turns everything wrong with it into problems.

Wrong values are taken out and the rest is checked again, so that the rules between keys still see all that is right,
and one run reports every mistake.
"""

from typing import TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from finishcalc.intake.keypaths import KeyPath, replace_at, starts_with, take_out
from finishcalc.intake.source import Source
from finishcalc.intake.words import hint_for, understood
from finishcalc.measures.numbers import shorten
from finishcalc.model.reading import FileUnits
from finishcalc.model.section import KeySpec, Section, specs, table_spec, within
from finishcalc.problems import Problem, ProblemCode
from finishcalc.wording.words import in_words, nearest, one_of

S = TypeVar("S", bound=Section)
MOST_PROBLEMS = 200
"""The most problems of one run, because no one mends more at a time; the next run reports the rest."""


def check(
    section: type[S], data: object, source: Source, units: str, at: KeyPath = ()
) -> tuple[S, list[Problem], set[KeyPath]]:
    """Check `data`, which stands at the path `at` of `source`.

    Gives the values that are right, the problems, and the paths of those that were taken out. Unknown keys are among
    these only where they are reported, because each of them is compared with known ones. `data` is changed.
    """
    problems: list[Problem] = []
    faulty: set[KeyPath] = set()
    while True:
        try:
            return section.model_validate(data, context=FileUnits(units)), problems, faulty
        except ValidationError as error:
            details = error.errors(include_url=False)
            taken = [detail for detail in details if _taken(detail, section, data)]
            if taken:
                continue
            new = [detail for detail in details if not _follows(detail["type"], at + detail["loc"], faulty)]
            reported = new[: MOST_PROBLEMS - len(problems)]
            for detail in reported:
                code, message, hint = _words(detail, section)
                problems.append(source.problem(code, at + detail["loc"], message, hint))
            known = [detail for detail in details if detail["type"] != "extra_forbidden"]
            faulty |= {at + detail["loc"] for detail in known + reported}
            data = _without(data, [detail["loc"] for detail in details])


def _follows(kind: str, path: KeyPath, faulty: set[KeyPath]) -> bool:
    """Tell an error that only follows from what was taken out: a key that is missing now, or a table that without some
    of its keys is refused as a whole."""
    if kind == "missing":
        return path in faulty
    return kind == "refused" and any(starts_with(taken_out, path) and taken_out != path for taken_out in faulty)


def _words(detail: ErrorDetails, section: type[Section]) -> tuple[ProblemCode, str, str]:
    """The code, the message and the hint of one validation error."""
    kind, context = detail["type"], detail.get("ctx", {})
    if kind == "refused":
        return context["code"], context["message"], context["hint"]
    if kind == "literal_error":
        return ProblemCode.NOT_A_CHOICE, *_choice_words(detail, section)
    if kind == "extra_forbidden":
        return ProblemCode.UNKNOWN_KEY, "unknown key", _known(section, detail["loc"])
    if kind == "missing":
        return ProblemCode.MISSING_KEY, "is missing", f"add {detail['loc'][-1]} = ..."
    if kind in ("model_type", "dict_type"):
        last = detail["loc"][-1] if detail["loc"] else 0
        keys = "{ ... }" if isinstance(last, int) else f"[{last}]"
        return ProblemCode.NOT_A_TABLE, "is not a table", f"give it keys of its own: {keys}"
    if kind == "tuple_type":
        return ProblemCode.NOT_A_LIST, "is not a list", "write it in brackets: [ ... ]"
    if kind == "too_long":
        message = "has too many names" if context["field_type"] == "Dictionary" else "has too many items"
        return ProblemCode.LIST_TOO_LONG, message, f"give at most {context['max_length']}"
    raise AssertionError(f"no words for {kind}")


def _choice_words(detail: ErrorDetails, section: type[Section]) -> tuple[str, str]:
    """The message and the hint for a word that is none of the choices: the nearest choice, or all."""
    choices, word = _spec_at(section, detail["loc"]).choices, detail["input"]
    if not isinstance(word, str):
        return "that is not a choice here", one_of(choices)
    return f'"{shorten(word)}" is not a choice here', hint_for(shorten(word), choices)


def _taken(detail: ErrorDetails, section: type[Section], data: object) -> bool:
    """Tell a word that means exactly one of the choices, and put that in its place; in a list, each such word."""
    kind, loc, value = detail["type"], detail["loc"], detail["input"]
    if kind == "literal_error" and isinstance(value, str):
        meant: object = understood(value, _spec_at(section, loc).choices)
    elif kind == "refused" and detail["ctx"]["code"] == ProblemCode.NOT_A_CHOICE and isinstance(value, list):
        key = _spec_at(section, loc).key
        choices = key.choices if key else ()
        meant = [(understood(word, choices) if isinstance(word, str) else None) or word for word in value]
    else:
        return False
    return meant not in (None, value) and replace_at(data, loc, meant)


def _known(section: type[Section], loc: tuple[int | str, ...]) -> str:
    """The table in which this very key belongs, or the nearest key that would be known here."""
    around = _spec_at(section, loc[:-1]).section
    if around is None:
        raise AssertionError(f"no table at {loc}")
    word = str(loc[-1])
    tables = {name: spec.section for name, spec in specs(section).items() if spec.kind == "table" and spec.section}
    homes = [f"[{name}]" for name, table in tables.items() if word in specs(table)]
    if homes:
        return "it belongs in " + in_words(homes, "or")
    return hint_for(word, specs(around), otherwise="known here: " + ", ".join(specs(around)))


def _spec_at(section: type[Section], loc: tuple[int | str, ...]) -> KeySpec:
    """The spec of a known key, by its path through tables, lists and names."""
    spec: KeySpec | None = table_spec(section)
    for step in loc:
        spec = within(spec, step)
    if spec is None:
        raise AssertionError(f"no key at {loc}")
    return spec


def _without(data: object, locs: list[tuple[int | str, ...]]) -> object:
    """The data without the values at `locs`. A list goes whole, because removing an item would renumber the rest."""
    for steps in {_table_steps(data, loc) for loc in locs}:
        if not steps:
            return {}
        take_out(data, steps)
    return data


def _table_steps(data: object, loc: tuple[int | str, ...]) -> tuple[str, ...]:
    """The first steps of a path, as far as they lead through tables to a key that exists."""
    steps: list[str] = []
    for step in loc:
        if not isinstance(data, dict) or step not in data:
            break
        steps.append(str(step))
        data = data[step]
    return tuple(steps)


def misspelt(paths: set[KeyPath], key: str) -> bool:
    """Tell a key that one of the unknown keys probably meant, so that it is not reported as missing too."""
    return any(isinstance(path[-1], str) and nearest(path[-1], [key]) for path in paths)
