"""Checks a table against its keys and turns everything wrong with it into problems.

What is wrong is taken out and the rest is checked again, so that the rules between keys still see all that
stands, and one run tells of every mistake.
"""

from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from finishcalc.intake.fields import Reading
from finishcalc.intake.nearest import did_you_mean, nearest
from finishcalc.intake.positions import Path
from finishcalc.intake.reading import Source
from finishcalc.problems import Problem

Model = TypeVar("Model", bound=BaseModel)


def check(
    model: type[Model], data: Any, source: Source, units: str, at: Path = ()
) -> tuple[Model, list[Problem], set[Path]]:
    """Check `data`, which stands at the path `at` of `source`.

    Gives the model of all that is right, the problems, and the paths of what was taken out. `data` is changed.
    """
    problems: list[Problem] = []
    faulty: set[Path] = set()
    while True:
        try:
            return model.model_validate(data, context=Reading(units)), problems, faulty
        except ValidationError as error:
            for detail in error.errors(include_url=False, include_input=False):
                path = at + detail["loc"]
                problems.append(source.problem(path, *_words(detail, model)))
                faulty.add(path)
                data = _without(data, detail["loc"])


def _words(detail: ErrorDetails, model: type[BaseModel]) -> tuple[str, str]:
    """What is wrong, and what would be right."""
    kind, context = detail["type"], detail.get("ctx", {})
    if kind == "refused":
        return context["message"], context["hint"]
    if kind == "extra_forbidden":
        return "unknown key", _known(model, detail["loc"])
    if kind == "missing":
        return "is missing", f"add {detail['loc'][-1]} = ..."
    if kind == "model_type":
        return (
            "is not a table",
            f"give it keys of its own: [{detail['loc'][-1] if detail['loc'] else 'table'}]",
        )
    if kind == "dict_type":
        return "is not a table", "give it keys of its own"
    if kind == "tuple_type":
        return "is not a list", "write it in brackets: [ ... ]"
    raise AssertionError(f"no words for {kind}")


def _known(model: type[BaseModel], loc: tuple[int | str, ...]) -> str:
    """The nearest key that would be known here, or the table in which this key belongs."""
    table = _table_at(model, loc[:-1])
    word = str(loc[-1])
    keys = list(table.model_fields) if table else []
    if hint := did_you_mean(word, keys):
        return hint
    homes = [name for name, field in model.model_fields.items() if word in _keys_of(field.annotation)]
    if homes:
        return "it belongs in " + " or ".join(f"[{home}]" for home in homes)
    return "known here: " + ", ".join(keys) if keys else ""


def _table_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> type[BaseModel] | None:
    table: type[BaseModel] | None = model
    for step in loc:
        if table is None or step not in table.model_fields:
            continue
        table = _model_in(table.model_fields[str(step)].annotation)
    return table


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """The table inside `X | None`, `tuple[X, ...]` or `dict[str, X]`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _model_in(part))), None)


def _keys_of(annotation: Any) -> list[str]:
    table = _model_in(annotation)
    return list(table.model_fields) if table else []


def _without(data: Any, loc: tuple[int | str, ...]) -> Any:
    """The data without what stands at `loc`; a list goes whole, for its items are counted."""
    steps: list[int | str] = []
    found = data
    for step in loc:
        if not isinstance(found, dict) or step not in found:
            break
        steps.append(step)
        found = found[step]
    if not steps:
        return {}
    holder = data
    for step in steps[:-1]:
        holder = holder[step]
    del holder[steps[-1]]
    return data


def misspelt(paths: set[Path], key: str) -> bool:
    """Whether one of the unknown keys was probably meant to be `key`: then it is not also called missing."""
    return any(isinstance(path[-1], str) and nearest(path[-1], [key]) for path in paths)
