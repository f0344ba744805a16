"""The projects of the folder as the list shows them: what they are called, how they stand, and what they come to."""

import os
from collections.abc import Iterable
from typing import NamedTuple

from finishcalc.counter.folder.drafts import Draft
from finishcalc.counter.folder.projects import ListedFile, Projects
from finishcalc.counter.form.values import at, shown
from finishcalc.counter.routes.troubles import shown_problems
from finishcalc.counter.working import Worked, table_of, work_out
from finishcalc.intake.keypaths import TomlTable
from finishcalc.intake.shop_in_use import ShopInUse, own_shop
from finishcalc.pipeline import Finishing
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.rendering.writing import SAMPLE_MARK, notation_of
from finishcalc.wording.plain import plain


class Worth(NamedTuple):
    """A project's total with tax, marked where it rests on sample figures; or the reason why it has none."""

    total: str = ""
    is_sample: bool = False
    reason: str = ""


class State(NamedTuple):
    """A state of a project in words; a mistake is `wrong`."""

    text: str
    wrong: bool = False


class Card(NamedTuple):
    """A project in the list, from its draft where it has one. `worth` is None until it is worked out."""

    name: str
    title: str
    customer: str
    number: str
    due: str
    states: tuple[State, ...]
    worth: Worth | None

    def holds(self, words: list[str]) -> bool:
        """Tell a project that has all of the words in its title, its customer, its number, or the name of its file."""
        text = "\n".join((self.title, self.customer, self.number, self.name)).casefold()
        return all(word in text for word in words)


class _Seen(NamedTuple):
    """The findings about a draft; its `text` is that of the file it was begun on."""

    draft: Draft
    text: str
    table: TomlTable
    worth: Worth | None = None
    shop: ShopInUse | None = None


class Cards:
    """The cards of all projects. What was found out of a draft is kept for as long as the draft, its file and the shop
    file stay as they are."""

    def __init__(self, projects: Projects) -> None:
        self._projects = projects
        self._seen: dict[str, _Seen] = {}

    def names(self) -> list[ListedFile]:
        """List the projects. What is kept of those that are gone is forgotten."""
        listed = self._projects.listed()
        names = {each.name for each in listed}
        self._seen = {name: seen for name, seen in self._seen.items() if name in names}
        return listed

    def cards(self, listed: Iterable[ListedFile]) -> list[Card]:
        """Give the cards of projects, each with its total if that is known."""
        return [self._card(each) for each in listed]

    def _card(self, listed: ListedFile) -> Card:
        try:
            seen = self._look_at(listed)
        except ProblemsFound as found:
            title = plain(listed.name.removesuffix(".toml"))
            return Card(listed.name, title, "", "", "", _states(listed), _unworkable(found.problems, listed.name))
        worth = seen.worth if seen.worth and self._has_shop(seen) else None
        return _card(listed, seen.table, worth)

    def worth(self, name: str) -> Worth:
        """Work a project out, unless its total is known."""
        try:
            seen = self._look(name)
            if seen.worth and self._has_shop(seen):
                return seen.worth
            worked = work_out(self._projects, seen.draft)
        except ProblemsFound as found:
            return _unworkable(found.problems, name)
        worth = _worth(worked)
        if worked.result:
            self._seen[name] = seen._replace(worth=worth, shop=worked.result.resolved.shop_file)
        return worth

    def _look_at(self, listed: ListedFile) -> _Seen:
        """Look at a project of the list. A search looks at all of them, so a file that was seen and has no unsaved work
        is only read. Raises ProblemsFound."""
        seen = self._seen.get(listed.name)
        if seen is None or listed.has_unsaved or seen.draft.has_unsaved:
            return self._look(listed.name)
        text = self._projects.reader(os.path.join(self._projects.path, listed.name)).text
        return seen if text == seen.text else self._look(listed.name)

    def _look(self, name: str) -> _Seen:
        """Read the table of a draft, unless it was read before. Raises ProblemsFound."""
        draft, seen = self._projects.draft(name), self._seen.get(name)
        if seen is None or seen.draft != draft:
            seen = self._seen[name] = _Seen(draft, draft.source.text, table_of(draft))
        return seen

    def _has_shop(self, seen: _Seen) -> bool:
        """Tell a total that was worked out with the shop file as it is now."""
        shop = seen.shop
        try:
            if shop is None or shop.named_by in ("environment", "settings"):
                return _text(own_shop(self._projects.reader)[0]) == _text(shop)
            if shop.source is None:
                return True
            return self._projects.reader(shop.source.name).text == shop.source.text
        except ProblemsFound:
            return False


def _text(shop: ShopInUse | None) -> tuple[str, str] | None:
    return (shop.source.name, shop.source.text) if shop and shop.source else None


def _card(listed: ListedFile, table: TomlTable, worth: Worth | None) -> Card:
    def said(*path: str) -> str:
        return plain(shown(at(table, path)))

    title = said("title") or plain(listed.name.removesuffix(".toml"))
    states = _states(listed)
    return Card(listed.name, title, said("customer", "name"), said("job", "number"), said("job", "due"), states, worth)


def _states(listed: ListedFile) -> tuple[State, ...]:
    states = [State("a mistake in the draft", wrong=True)] if not listed.sound else []
    states += [State("draft not saved")] if listed.has_unsaved and listed.sound else []
    return (*states, *([State("changed on disk since")] if listed.changed else []))


def _worth(worked: Worked) -> Worth:
    """Give the total; of a draft with mistakes the last that it came to."""
    result: Finishing | None = worked.result
    if result is None:
        return _unworkable(worked.problems, worked.draft.name)
    mark = f" {SAMPLE_MARK}" if result.priced_on_samples else ""
    return Worth(notation_of(result).money(result.quote.total) + mark, result.priced_on_samples)


def _unworkable(problems: tuple[Problem, ...], name: str) -> Worth:
    """Give the first reason why a project cannot be worked out, and how many there are besides."""
    first, *others = shown_problems(problems, name)
    more = f" (and {len(others)} more)" if others else ""
    return Worth(reason=f"{first.place}: {first.words}{more}")
