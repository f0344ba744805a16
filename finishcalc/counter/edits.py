"""Does to a draft as a posted form says: an edit of its fields, an option that is taken, a part that is taken out, undo
and redo. Each is told back as the pieces of the page that it changes."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from finishcalc.counter.folder.drafts import Draft
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.form.editing import Form, Values, edit_of, field_values, posted_values
from finishcalc.counter.form.fields import PARTS
from finishcalc.counter.form.places import field_at
from finishcalc.counter.form.table import table_after
from finishcalc.counter.fragments import Fragments, fragments_of
from finishcalc.counter.quote.options import option_taken
from finishcalc.counter.tabs import Tab
from finishcalc.counter.working import Worked, table_of, table_seen, work_out

Action = Literal["edit", "undo", "redo", "take", "out"]


CHANGED = "The file was changed by another program since this page was opened: the form has its values now, and yours."
"""Tells of a file that had no unsaved work and has changed on the disk."""
TAKEN_AWAY = {group.taken_away for part in PARTS for group in part.groups if group.taken_away}
"""The tables that a button takes out of the file."""
OF_NO_PAGE = ""
"""The page of steps that no field was typed in for: until its answer arrives, the page does not hold what they put."""


class Posted(NamedTuple):
    """A posted form: the `page` it came from, the mark of the state that it has `seen` and the number of the answer
    that it `has`, the key that is being typed in, and what is to be done beside the edit, with the option or the table
    that this is about."""

    form: Form
    page: str
    seen: str
    has: int
    typing: str = ""
    action: Action = "edit"
    about: str = ""


class Outdated(Exception):
    """Tells a page whose fields cannot be compared any more, because its file has changed and nobody remembers it."""


class Answer(NamedTuple):
    """The answer to a form: the draft worked out, the pieces of the page that differ, and what fields must be made to
    hold, because something else than the form has changed them."""

    worked: Worked
    pieces: Fragments
    fields: Values


def posted(form: Form, typing: str = "") -> Posted:
    """Read a posted form."""
    first = {name: values[0] for name, values in form.items() if values}
    action: Action = "edit"
    about = ""
    if "take" in first:
        action, about = "take", first["take"]
    elif "out" in first:
        action, about = "out", first["out"]
    elif first.get("do") == "undo":
        action = "undo"
    elif first.get("do") == "redo":
        action = "redo"
    has = number_of(first.get("has", ""))
    return Posted(form, first.get("page", ""), first.get("seen", ""), has, typing, action, about)


def sizes_asked(form: Form) -> list[str]:
    """Read the size that somebody typed to see beside the quote."""
    return [text.strip() for text in form.get("size", ())[:1] if text.strip()]


def number_of(text: str) -> int:
    """Read the number of an answer; 0 for any other text."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 9 else 0


def take_in(projects: Projects, tab: Tab, given: Posted) -> Answer | None:
    """Do what a posted form says, and answer it. Gives None while a value is typed that is not one yet.

    Raises ProblemsFound, where the project's file cannot be read, and Outdated for a page that has to be loaded anew.
    """
    draft = projects.draft(tab.file)
    seen = next((each for each in (draft, tab.draft) if each and each.state(given.seen) is not None), None)
    if seen is None:
        raise Outdated
    before = field_values(table_seen(seen, given.seen, given.page), tab.usual)
    after = posted_values(given.form, before)
    table = table_of(draft)
    edit, still_new = (edit_of(each, after, table, tab.usual) for each in (before, field_values(table, tab.usual)))
    puts = {key: value for key, value in edit.items() if key in still_new}  # an answer to it may have been lost
    changes = table_after(table, [puts]) != table  # as "10 %" does not, where the field holds 10
    worked = _edited(projects, draft, puts if changes else {}, given)
    if worked is None:
        return None
    worked = _acted(projects, worked, given)
    changed_on_disk = seen.base != draft.base
    return _answer(tab, worked, after, given, CHANGED if changed_on_disk else "")


def _edited(projects: Projects, draft: Draft, puts: Mapping[str, object], given: Posted) -> Worked | None:
    if not puts:
        return work_out(projects, draft)
    worked = work_out(projects, draft.with_step(puts, given.page, sound=False))
    if given.typing and _only_about(worked, given.typing):
        return None
    return _kept(projects, draft, worked, puts, given.page, joins=bool(given.typing))


def _kept(
    projects: Projects, draft: Draft, worked: Worked, puts: Mapping[str, object], page: str, *, joins: bool = False
) -> Worked:
    """Keep a step that was worked out. Where another server has changed the draft meanwhile, it is worked out again:
    a page that is told of a state must be shown all of it, or its next edit would take the other's back."""

    def step(now: Draft) -> Draft:
        return now.with_step(puts, page, sound=not worked.stale, joins=joins)

    kept = projects.change(draft.name, step)
    return worked._replace(draft=kept) if kept == step(draft) else work_out(projects, kept)


def _only_about(worked: Worked, key: str) -> bool:
    """Tell a draft of which nothing is wrong but the field that is being typed in."""
    fields = [field_at(problem.path) for problem in worked.problems]
    return bool(fields) and all(field is not None and field.key == key for field in fields)


def _acted(projects: Projects, worked: Worked, given: Posted) -> Worked:
    """Do what was asked for beside the edit."""
    name = worked.draft.name
    if given.action == "undo":
        return work_out(projects, projects.change(name, lambda now: now.undone()))
    if given.action == "redo":
        return work_out(projects, projects.change(name, lambda now: now.redone()))
    is_out = given.action == "out" and given.about in TAKEN_AWAY
    puts: Mapping[str, object] = {given.about: None} if is_out else {}
    if given.action == "take" and worked.result and not worked.stale:
        puts = option_taken(worked, given.about, sizes_asked(given.form))
    if not puts:
        return worked
    again = work_out(projects, worked.draft.with_step(puts, OF_NO_PAGE, sound=True))
    return _kept(projects, worked.draft, again, puts, OF_NO_PAGE)


def _answer(tab: Tab, worked: Worked, after: Values, given: Posted, told: str) -> Answer:
    """Give the pieces that differ from what the page has, and the fields that something else has changed."""
    tab.draft = worked.draft
    number, pieces = tab.quote.answer(fragments_of(worked, tab.usual, told), given.has)
    now = field_values(worked.table, tab.usual)
    names = {**now, **after}
    changed = {name: now.get(name, "") for name in names if now.get(name, "") != after.get(name, "")}
    return Answer(worked, pieces, {**changed, "has": str(number), "seen": worked.draft.mark})
