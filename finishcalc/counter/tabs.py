"""The pages that are open in browsers, each with what it was sent, so that an answer holds only what differs."""

import secrets
from collections import OrderedDict

from finishcalc.counter.folder.drafts import Draft
from finishcalc.counter.form.usual import UsualValues
from finishcalc.counter.fragments import Fragments

MOST_TABS = 64
"""The pages that are remembered; one that is forgotten is sent everything again."""


class Sent:
    """The pieces that a page was sent, answer by answer. An answer may be lost on the way, so the page tells the last
    that it has, and only what came with this or an earlier one counts."""

    def __init__(self) -> None:
        self._number = 0
        self._has: dict[str, int] = {}
        self._under_way: dict[int, dict[str, int]] = {}

    def answer(self, pieces: Fragments, has: int) -> tuple[int, Fragments]:
        """Number the next answer to a page that `has` one, and give the pieces for it: those that differ there."""
        for number in sorted(self._under_way):
            arrived = self._under_way.pop(number)
            self._has |= arrived if number <= has else {}
        differing = {name: piece for name, piece in pieces.items() if self._has.get(name) != hash(piece)}
        self._number += 1
        self._under_way[self._number] = {name: hash(piece) for name, piece in differing.items()}
        return self._number, differing


class Tab:
    """A page that is open: its `name` in forms, the file it shows, the usual values that its choices rest on, the draft
    that it was shown last, and the pieces it was sent with the quote and after it."""

    def __init__(self, name: str, file: str, usual: UsualValues) -> None:
        self.name, self.file, self.usual = name, file, usual
        self.draft: Draft | None = None
        self.quote, self.more = Sent(), Sent()
        self._asked = 0

    def asked_for_more(self) -> int:
        """Number the question for what comes after the quote."""
        self._asked += 1
        return self._asked

    def still_asks(self, number: int) -> bool:
        """Tell a question that the page has not asked anew."""
        return number == self._asked


class Tabs:
    """All pages that are open, as far as they are remembered."""

    def __init__(self) -> None:
        self._tabs: OrderedDict[str, Tab] = OrderedDict()

    def open(self, file: str, usual: UsualValues, name: str = "") -> Tab:
        """Remember a page, under its `name` where it was open before this program began."""
        tab = Tab(name or secrets.token_urlsafe(9), file, usual)
        self._tabs[tab.name] = tab
        while len(self._tabs) > MOST_TABS:
            self._tabs.popitem(last=False)
        return tab

    def find(self, name: str, file: str) -> Tab | None:
        """Find a page of a file."""
        tab = self._tabs.get(name)
        if tab is None or tab.file != file:
            return None
        self._tabs.move_to_end(name)
        return tab
