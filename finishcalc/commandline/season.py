"""Tallies projects: the first in this process, the others in worker processes, and each row is written as it comes.

The first one says the list's units and signs, and loads what the workers then share. A page is made at the end, from
rows of words, because a column is as wide as its widest cell.
"""

import gc
import os
from collections.abc import Generator, Iterator, Sequence
from contextlib import closing
from typing import Literal, NamedTuple

import typer

from finishcalc.commandline.outputs import Output, deliver
from finishcalc.commandline.progress import with_progress
from finishcalc.commandline.terminal import is_terminal, width, write
from finishcalc.intake.folders import ProjectFiles, project_files
from finishcalc.intake.source import STANDARD_INPUT, Source, read
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.rendering.tables.tally import TallyRow, csv_head, list_notation, tally_csv, tally_row
from finishcalc.tallying import Project, Tallier
from finishcalc.wording.notation import Notation

MOST_PROBLEMS = 2000
"""The most problems that a run keeps; of files after these it keeps the first one each."""
FEW = 4
"""So few projects are worked out sooner than processes start."""


class Asked(NamedTuple):
    """A tally as it is asked for: files and folders, and the options."""

    files: list[str]
    output: Output
    units: str | None
    jobs: int | None
    force: bool
    shop: str | None


class Failed(NamedTuple):
    """A file that could not be worked out, and why."""

    file: str
    problems: tuple[Problem, ...]


Item = str | Source | Failed
"""A file's name, or the text of standard input, or its failure: no other process has our standard input."""
Outcome = str | TallyRow | Failed


class Work(NamedTuple):
    """The work at each project: a row of the list, in its format and its notation."""

    tallier: Tallier
    form: Literal["csv", "json", "page"]
    notation: Notation

    def outcome(self, item: Item) -> Outcome:
        """Work a project out, and write its row."""
        project = _tried(self.tallier, item)
        return project if isinstance(project, Failed) else self.row(project)

    def row(self, project: Project) -> str | TallyRow:
        """Write the row of a project."""
        if self.form == "json":
            from finishcalc.rendering.documents.tally import tally_json

            return tally_json(project, self.notation)
        return tally_csv(project, self.notation) if self.form == "csv" else tally_row(project, self.notation)


class _Failures:
    """The files that are left out, each problem once, because a mistake in a shop file is that of many projects."""

    def __init__(self, found: ProjectFiles) -> None:
        self.skipped = found.skipped
        self.files, self.dropped = list[str](), 0
        self.problems: dict[Problem, None] = dict.fromkeys(found.problems)

    def add(self, failed: Failed) -> None:
        self.files.append(failed.file)
        kept = failed.problems if len(self.problems) < MOST_PROBLEMS else failed.problems[:1]
        self.dropped += len(failed.problems) - len(kept)
        self.problems |= dict.fromkeys(kept)

    def report(self, as_json: bool) -> None:
        """Name on standard error what was skipped, and tell every problem."""
        from finishcalc.rendering.pages.problems import problems_json, problems_text

        skipped = [(each.file, each.reason) for each in self.skipped]
        if as_json:
            write(problems_json(self.problems, skipped) if skipped or self.problems else "", error=True)
            return
        write("".join(f"{each.said}\n" for each in self.skipped) + problems_text(self.problems), error=True)
        if self.dropped:
            write(f"and {self.dropped} more: mend these first\n", error=True)


def tally_files(asked: Asked) -> None:
    """Write the tally, name what was skipped, and tell every problem. Raises Exit where a project is left out."""
    found = project_files(asked.files, asked.shop)
    failures, tallier, output = _Failures(found), Tallier(asked.shop), asked.output
    items = iter([_item(name) for name in found.files])
    for item in items:
        first = _tried(tallier, item)
        if isinstance(first, Project):
            work = Work(tallier, _form(output), list_notation(first.result, asked.units))
            with closing(_rows(work, first, list(items), asked, failures)) as rows:
                _write_rows(rows, work, asked, failures)
            break
        failures.add(first)
    failures.report(output.as_json)
    if failures.problems:
        raise typer.Exit(1)


def _form(output: Output) -> Literal["csv", "json", "page"]:
    return output.form if output.form in ("csv", "json") else "page"


def _item(name: str) -> Item:
    """Read standard input beforehand; files are read by those who work them out."""
    if name != "-":
        return name
    try:
        return read(name)
    except ProblemsFound as found:
        return Failed(STANDARD_INPUT, found.problems)


def _tried(tallier: Tallier, item: Item) -> Project | Failed:
    if isinstance(item, Failed):
        return item
    try:
        return tallier.project(item)
    except ProblemsFound as found:
        return Failed(_name(item), found.problems)


def _name(item: Item) -> str:
    return item if isinstance(item, str) else item.name if isinstance(item, Source) else item.file


def _rows(
    work: Work, first: Project, items: Sequence[Item], asked: Asked, failures: _Failures
) -> Generator[str | TallyRow, None, None]:
    """Give the rows in the order of the files, with a progress bar, and put aside what fails."""
    yield work.row(first)
    streamed = work.form != "page" and is_terminal()
    with closing(_outcomes(work, items, asked.jobs or cores())) as outcomes:
        done = len(failures.files) + 1
        for outcome in with_progress(outcomes, done + len(items), done, wanted=not streamed):
            if isinstance(outcome, Failed):
                failures.add(outcome)
            else:
                yield outcome


def _outcomes(work: Work, items: Sequence[Item], jobs: int) -> Generator[Outcome, None, None]:
    if min(jobs, len(items)) == 1 or len(items) <= FEW:
        yield from map(work.outcome, items)
        return
    from finishcalc.commandline.workers import in_order  # one process needs none of it

    gc.collect()
    gc.freeze()  # what is loaded stays to the end, and is shared with the workers as long as nobody marks it
    yield from in_order(work.outcome, items, jobs, _lost)


def cores() -> int:
    """Give the number of processors that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _lost(item: Item) -> Outcome:
    """Tell that a project's process has died, as for want of memory."""
    file, hint = _name(item), "try it alone, or with --jobs 1: there may be too little memory"
    message = "the process that worked it out has died"
    return Failed(file, (Problem(ProblemCode.WORKER_DIED, file, 0, 0, "", message, hint),))


def _write_rows(rows: Iterator[str | TallyRow], work: Work, asked: Asked, failures: _Failures) -> None:
    """Write lines as they come; a page of all rows at the end. Raises ProblemsFound where it cannot be written."""
    if work.form == "page":
        _write_page([row for row in rows if isinstance(row, TallyRow)], work, asked, failures)
        return
    write(csv_head() if work.form == "csv" else "")
    for line in rows:
        write(str(line))


def _write_page(rows: list[TallyRow], work: Work, asked: Asked, failures: _Failures) -> None:
    from finishcalc.commandline.views import written
    from finishcalc.rendering.pages.tally import tally_page

    form = asked.output.form
    page = tally_page(rows, failures.files, work.notation, whole=form == "markdown")
    deliver(asked.output, written([page], form, width()), rows, force=asked.force)
