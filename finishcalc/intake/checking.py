"""Checks a table against its model and turns everything wrong with it into problems.

What is wrong is taken out and the rest is checked again, so that the rules between keys still see all that
stands, and one run tells of every mistake.
"""

from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from finishcalc.intake.positions import KeyPath
from finishcalc.intake.source import Source
from finishcalc.measures.numbers import shorten
from finishcalc.model.section import FileUnits, KeySpec, Section, specs, table_spec, within
from finishcalc.problems import Problem, ProblemCode
from finishcalc.wording.words import did_you_mean, in_words, nearest, one_of

S = TypeVar("S", bound=Section)
MOST_PROBLEMS = 200
"""No one mends more at a time; what is wrong beyond them is told by the next run."""


def check(
    section: type[S], data: Any, source: Source, units: str, at: KeyPath = ()
) -> tuple[S, list[Problem], set[KeyPath]]:
    """Check `data`, which stands at the path `at` of `source`.

    Gives the values of all that is right, the problems, and the paths of what was taken out; an unknown key is among
    them where it is reported, so that no one looks for the meaning of thousands. `data` is changed.
    """
    problems: list[Problem] = []
    faulty: set[KeyPath] = set()
    while True:
        try:
            return section.model_validate(data, context=FileUnits(units)), problems, faulty
        except ValidationError as error:
            details = error.errors(include_url=False)
            new = [each for each in details if each["type"] != "missing" or at + each["loc"] not in faulty]
            reported = new[: MOST_PROBLEMS - len(problems)]
            for detail in reported:
                code, message, hint = _words(detail, section)
                problems.append(source.problem(code, at + detail["loc"], message, hint))
            known = [each for each in details if each["type"] != "extra_forbidden"]
            faulty |= {at + detail["loc"] for detail in known + reported}
            data = _without(data, [detail["loc"] for detail in details])


def _words(detail: ErrorDetails, section: type[Section]) -> tuple[ProblemCode, str, str]:
    """The kind of mistake, what is wrong, and what would be right."""
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
        what = "has too many names" if context["field_type"] == "Dictionary" else "has too many items"
        return ProblemCode.LIST_TOO_LONG, what, f"give at most {context['max_length']}"
    raise AssertionError(f"no words for {kind}")


def _choice_words(detail: ErrorDetails, section: type[Section]) -> tuple[str, str]:
    """A word that is none of the choices, and the nearest of them or all."""
    choices, word = _spec_at(section, detail["loc"]).choices, detail["input"]
    shown = f'"{shorten(word)}"' if isinstance(word, str) else "that"
    near = did_you_mean(word, choices) if isinstance(word, str) else ""
    return f"{shown} is not a choice here", near or one_of(choices)


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
    return did_you_mean(word, specs(around)) or "known here: " + ", ".join(specs(around))


def _spec_at(section: type[Section], loc: tuple[int | str, ...]) -> KeySpec:
    """What the model says at a path through tables, lists and names of the file's own."""
    spec: KeySpec | None = table_spec(section)
    for step in loc:
        spec = within(spec, step)
    if spec is None:
        raise AssertionError(f"no key at {loc}")
    return spec


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


def misspelt(paths: set[KeyPath], key: str) -> bool:
    """Tell a key that one of the unknown keys was probably meant to be: then it is not also called missing."""
    return any(isinstance(path[-1], str) and nearest(path[-1], [key]) for path in paths)
