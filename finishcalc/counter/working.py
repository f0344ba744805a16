"""Works a draft out: its table, what is wrong with it, and the quote that it comes to, or the last that it came to."""

from pathlib import PurePath
from typing import NamedTuple

from finishcalc.counter.folder.drafts import Draft
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.form.table import change_between, table_after
from finishcalc.counter.form.usual import UsualValues, usual_values
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import TomlTable
from finishcalc.intake.resolve import Resolved, resolve
from finishcalc.pipeline import Finishing, finish
from finishcalc.problems import Problem, ProblemsFound


class Worked(NamedTuple):
    """A draft worked out: the `table` of the project as it stands, the problems with it, and the quote. Where there are
    problems, the quote is `stale`: the last that the draft came to; None where it never came to one. `by_edits` are
    problems with keys that the form has not changed, which were none before it changed others."""

    draft: Draft
    table: TomlTable
    problems: tuple[Problem, ...]
    result: Finishing | None
    by_edits: frozenset[Problem] = frozenset()

    @property
    def stale(self) -> bool:
        """Tell a quote that does not say what is in the form."""
        return bool(self.problems)


def usual_for(projects: Projects, draft: Draft) -> UsualValues:
    """Find the usual values of the project of a draft. Raises ProblemsFound."""
    table = table_of(draft)
    return usual_values(draft.name, table, projects.shop, PurePath(projects.path), projects.reader)


def table_of(draft: Draft, at: int | None = None) -> TomlTable:
    """Give the table of a draft as it stands, or in another of its states. Raises ProblemsFound, where the file that it
    began from is not TOML."""
    return table_after(draft.source.table, draft.puts(at))


def table_seen(draft: Draft, mark: str, page: str) -> TomlTable:
    """Give the table that a page has in its fields, which last saw a mark. Raises ProblemsFound as above."""
    return table_after(draft.source.table, draft.fields(mark, page) or ())


def change_of(draft: Draft, at: int | None = None) -> Change:
    """Give the change that a draft makes to its file. Raises ProblemsFound, where that is not TOML."""
    return change_between(draft.source.table, table_of(draft, at))


def resolve_draft(projects: Projects, draft: Draft, at: int | None = None) -> Resolved:
    """Resolve the project of a draft. Raises ProblemsFound."""
    return resolve(draft.source, projects.shop, PurePath(projects.path), change_of(draft, at), projects.reader)


def work_out(projects: Projects, draft: Draft) -> Worked:
    """Work out a draft, and where it has mistakes, the last state of it that had none. Raises ProblemsFound, where the
    file that it began from is not TOML."""
    table = table_of(draft)
    try:
        return Worked(draft, table, (), finish(resolve_draft(projects, draft)))
    except ProblemsFound as found:
        last, by_edits = _last_sound(projects, draft), _by_edits(projects, draft, found.problems)
        return Worked(draft, table, found.problems, last, by_edits)


def _by_edits(projects: Projects, draft: Draft, problems: tuple[Problem, ...]) -> frozenset[Problem]:
    of_file = {problem for problem in problems if problem.file == draft.source.name}
    if not of_file or not draft.at:
        return frozenset()
    try:
        resolve_draft(projects, draft, 0)
    except ProblemsFound as found:
        return frozenset(of_file - set(found.problems))
    return frozenset(of_file)


def _last_sound(projects: Projects, draft: Draft) -> Finishing | None:
    try:
        return finish(resolve_draft(projects, draft, draft.last_sound))
    except ProblemsFound:
        return None
