"""Saves a draft, and where its file has changed meanwhile shows both side by side: nothing is overwritten unasked."""

import os
from typing import NamedTuple

from finishcalc.counter.folder.drafts import Draft, hash_of
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.folder.saving import Conflict, Saved
from finishcalc.counter.fragments import title_of
from finishcalc.counter.pages import page
from finishcalc.counter.routes.troubles import ShownProblem, shown_problems
from finishcalc.counter.shown_text import shown_lines
from finishcalc.counter.side_by_side import Row, rows_of
from finishcalc.counter.working import Worked, change_of, table_of, work_out
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.source import Source
from finishcalc.problems import ProblemsFound


def save(projects: Projects, name: str) -> Saved | Conflict:
    """Save a draft as it stands. Raises ProblemsFound, with nothing written, where it has mistakes."""
    return projects.save(name, lambda draft: text_to_save(projects, draft))


def text_to_save(projects: Projects, draft: Draft) -> str:
    """Give the text of a draft as its file would have it. Raises ProblemsFound where it has mistakes."""
    if problems := work_out(projects, draft).problems:
        raise ProblemsFound(problems)
    return text_of_draft(draft)


def text_of_draft(draft: Draft) -> str:
    """Give the text of a draft, be it sound or not. Raises ProblemsFound where its file is not TOML."""
    return project_toml(draft.source, change_of(draft)).replace("\r\n", "\n")


class Meeting(NamedTuple):
    """A draft that meets a file it was not begun on: the file as it is now, None where it is gone; what would be saved,
    None where the file cannot be read as TOML; and the mistakes that this would have."""

    draft: Draft
    now: Source | None
    merged: Worked | None
    problems: tuple[ShownProblem, ...] = ()


def meeting_of(projects: Projects, draft: Draft) -> Meeting:
    """Look at the file of a draft as it is now. Raises ProblemsFound for one that cannot be read at all."""
    now = file_now(projects, draft.name)
    if now is None:
        return Meeting(draft, None, None)
    try:
        merged = work_out(projects, draft.rebased(now.text, draft.on_disk))
    except ProblemsFound as found:
        return Meeting(draft, now, None, tuple(shown_problems(found.problems, draft.name)))
    return Meeting(draft, now, merged, tuple(shown_problems(merged.problems, draft.name)))


def file_now(projects: Projects, name: str) -> Source | None:
    """Read the file of a project as it is on the disk; None where it is gone, or something else has its name."""
    try:
        return Source(name, projects.reader(os.path.join(projects.path, name)).text)
    except ProblemsFound:
        return None


def mark_of(now: Source | None) -> str:
    """Name a file's text, for the page to say later which one it has shown; nothing for a file that is gone."""
    return hash_of(now.text.encode("utf-8")) if now else ""


def conflict_page(projects: Projects, draft: Draft, told: str = "") -> str:
    """Fill in the page that asks what to do about a file that changed while a draft was open."""
    meeting = meeting_of(projects, draft)
    return page(
        "conflict.html",
        title=title_of(Worked(draft, table_of(draft), (), None)),
        draft=draft,
        gone=meeting.now is None,
        mark=mark_of(meeting.now),
        rows=_rows(meeting),
        can_merge=meeting.merged is not None,
        problems=meeting.problems,
        told=told,
    )


def _rows(meeting: Meeting) -> list[Row]:
    """Set the file beside what would be saved; none where either cannot be read."""
    if meeting.now is None or meeting.merged is None:
        return []
    saved = Source(meeting.draft.name, text_of_draft(meeting.merged.draft))
    return rows_of(shown_lines(meeting.now), shown_lines(saved))
