"""Problems as text for a person, or as records for a program."""

from collections.abc import Iterable

from finishcalc.problems import Problem
from finishcalc.rendering.documents.writing import safe_json
from finishcalc.rendering.wrapping import display_width
from finishcalc.wording.notation import plain_blanks
from finishcalc.wording.plain import plain

LONGEST_EXCERPT = 100


def problems_text(problems: Iterable[Problem]) -> str:
    """Write each problem with its place, its line and its mend."""
    return plain_blanks("".join(_text(problem) for problem in problems))


def problems_json(problems: Iterable[Problem], skipped: Iterable[tuple[str, str]] = ()) -> str:
    """Write the problems as one JSON document: {"problems": [...]}, before them the files that were `skipped`, each
    with the reason, if there are any."""
    records = [
        problem._replace(message=plain_blanks(problem.message), hint=plain_blanks(problem.hint))._asdict()
        for problem in problems
    ]
    files = [{"file": file, "reason": reason} for file, reason in skipped]
    return safe_json(({"skipped": files} if files else {}) | {"problems": records})


def _text(problem: Problem) -> str:
    where = plain(problem.file) + (f":{problem.line}" if problem.line else "")
    path = f"{problem.path}: " if problem.path else ""
    lines = [f"{where}: {path}{plain(problem.message)}"]
    if problem.excerpt.strip():
        lines += _excerpt(problem)
    if problem.hint:
        lines.append(f"    {plain(problem.hint)}")
    return "\n".join(lines) + "\n"


def _excerpt(problem: Problem) -> list[str]:
    """Underline the value in its line; control characters are shown, and a long line is cut around the value."""
    start = max(problem.column - problem.start, 0)
    first = max(start - LONGEST_EXCERPT // 2, 0)
    before = plain(problem.excerpt[first:start])
    marked = plain(problem.excerpt[start : start + problem.width])[:LONGEST_EXCERPT]
    after = plain(problem.excerpt[start + problem.width :])[:LONGEST_EXCERPT]
    number = str(problem.line).rjust(6)
    indent = " " * len(number)
    return [
        f"{number} | {before}{marked}{after}"[: LONGEST_EXCERPT + 9].rstrip(),
        f"{indent} | {' ' * display_width(before)}{'^' * max(display_width(marked), 1)}",
    ]
