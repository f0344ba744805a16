"""Drafts: the unsaved work on a project, as steps that can be undone and redone. Pure.

Several tabs work on one draft. Each step has a number that is never given again, and says after which it was made, so
that the steps are a tree:

    0 -- 1 -- 2 -- 3          undone to 1, then a new step:  0 -- 1 -- 4, and 2 and 3 are out of reach of redo;
          `-- 4               a tab that last saw 3 can still be told from one that saw 4.

A state is known by its number: 0 is the file as it was opened, any other the one after the step of that number.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from finishcalc.counter.folder.puts import Puts, condensed
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.nesting import MOST_LEVELS, MOST_PARTS
from finishcalc.intake.source import LARGEST, Source, source_of
from finishcalc.problems import ProblemsFound

MOST_STEPS = 1000
"""The most steps a draft keeps; the oldest are then put together."""
MOST_TEXT = 2 * LARGEST
"""The most characters that the texts of its steps have together."""
VERSION = 1
"""The form of a draft's file. A file of another form is foreign."""


class NotADraft(ValueError):
    """Says that a text is no draft, or not the draft of that file."""


class Step(NamedTuple):
    """The `puts` of one edit, made by the tab `page` in the state `after`; `sound` where the whole project worked out
    with it. Older steps that were put into it have their puts in `earlier`."""

    number: int
    after: int
    puts: Puts
    page: str
    sound: bool
    earlier: tuple[Puts, ...] = ()

    @property
    def all_puts(self) -> tuple[Puts, ...]:
        """Its puts and the earlier ones, in order."""
        return (*self.earlier, self.puts)


class Draft(NamedTuple):
    """The unsaved work on the file `name`.

    `base` is its text as it was opened, with its line ends and byte order mark; `on_disk` the SHA-256 of the bytes that
    are expected on the disk. `at` is the state that stands, `tip` the one that redo leads to, and `saved` the one that
    the file has.
    """

    name: str
    base: str
    on_disk: str
    steps: tuple[Step, ...] = ()
    at: int = 0
    saved: int = 0
    tip: int = 0

    @property
    def source(self) -> Source:
        """The file as it was opened."""
        return source_of(self.name, self.base.encode("utf-8"))

    @property
    def mark(self) -> str:
        """The state that stands and the last step that was made, for a tab to say later that it has seen them. It holds
        for this base alone."""
        return f"{self._key}-{self.at}-{self._last}"

    def state(self, mark: str) -> int | None:
        """The number of a state by its mark; None where it is of another base, or too old to be known."""
        seen = self._seen(mark)
        return seen[0] if seen else None

    def puts(self, at: int | None = None) -> list[Puts]:
        """The puts of a state, the standing one unless another is named, to be made one after another. Raises KeyError
        for a state that is not known."""
        return [puts for step in self._line(self.at if at is None else at) for puts in step.all_puts]

    def fields(self, mark: str, page: str) -> list[Puts] | None:
        """The puts that the tab `page` has in its fields, which last saw a mark: those of that state, and of its own
        later steps, whether they stand or not. None where the mark says no state."""
        seen = self._seen(mark)
        if seen is None:
            return None
        state, last = seen
        own = (step for step in self.steps if step.page == page and step.number > last)
        return [*self.puts(state), *(puts for step in own for puts in step.all_puts)]

    def _seen(self, mark: str) -> tuple[int, int] | None:
        """The state and the last step of a mark; None where it is of another base, or too old to be known."""
        key, _, numbers = mark.partition("-")
        state, _, last = numbers.partition("-")
        if key != self._key or not all(number.isascii() and number.isdigit() for number in (state, last)):
            return None
        if max(len(state), len(last)) > 9 or int(last) > self._last or int(state) > int(last):
            return None
        return (int(state), int(last)) if int(state) in {0, *self._by_number} else None

    @property
    def _last(self) -> int:
        return self.steps[-1].number if self.steps else 0

    @property
    def last_edited(self) -> str | None:
        """The key of the last standing step; None where it has several."""
        keys = list(self._by_number[self.at].puts) if self.at else []
        return keys[0] if len(keys) == 1 else None

    def with_step(self, puts: Puts, page: str, sound: bool, joins: bool = False) -> "Draft":
        """The draft after one more edit. Where it `joins`, and the step before is the same tab's and of the same single
        key, both are undone as one. Redo ends."""
        last = self._by_number.get(self.at)
        after = last.after if last and joins and self._may_join(last, puts, page) else self.at
        number = self._last + 1
        step = Step(number, after, dict(puts), page, sound)
        return self._replace(steps=(*self.steps, step), at=number, tip=number)._bounded()

    def undone(self) -> "Draft":
        """The draft without its last standing step; the same where none stands."""
        return self._replace(at=self._by_number[self.at].after) if self.can_undo else self

    def redone(self) -> "Draft":
        """The draft with the step again that was undone last; the same where none was."""
        following = [step.number for step in self._line(self.tip) if step.after == self.at]
        return self._replace(at=following[0]) if self.can_redo else self

    @property
    def can_undo(self) -> bool:
        """Tell a draft with a step that stands."""
        return self.at != 0

    @property
    def can_redo(self) -> bool:
        """Tell a draft with a step that was undone."""
        return self.at != self.tip

    @property
    def has_unsaved(self) -> bool:
        """Tell a draft that says more, or other, than the file."""
        return self.at != self.saved and condensed(self.puts()) != condensed(self.puts(self.saved))

    @property
    def sound(self) -> bool:
        """Tell a standing state that worked out. The file as it was opened counts as such."""
        return self.at == self.last_sound

    @property
    def last_sound(self) -> int:
        """The latest state up to the standing one that worked out; 0 where none did."""
        return next((step.number for step in reversed(self._line(self.at)) if step.sound), 0)

    def with_saved(self, on_disk: str, state: int | None = None) -> "Draft":
        """The draft after a state of it was written to the file, the standing one unless another is named."""
        return self._replace(on_disk=on_disk, saved=self.at if state is None else state)

    def rebased(self, base: str, on_disk: str, page: str = "", sound: bool = False) -> "Draft":
        """All that stands, step by step, on the file as it is now. Steps that were put together are made in few."""
        draft = Draft(self.name, base, on_disk)
        for puts in self.puts():
            draft = draft.with_step(puts, page, sound)
        return draft

    @property
    def _by_number(self) -> Mapping[int, Step]:
        return {step.number: step for step in self.steps}

    @property
    def _key(self) -> str:
        return hash_of(self.base.encode("utf-8"))[:12]

    def _line(self, state: int) -> list[Step]:
        """The steps that lead from the file to a state."""
        by_number, line = self._by_number, list[Step]()
        while state:
            line.append(by_number[state])
            state = line[-1].after
        return line[::-1]

    def _may_join(self, last: Step, puts: Puts, page: str) -> bool:
        """Tell a step that goes on with the last one. A saved state stays one that undo can reach."""
        is_free = self.at == self.tip and self.at != self.saved
        return is_free and last.page == page and len(puts) == 1 and list(puts) == list(last.puts)

    def _bounded(self) -> "Draft":
        """The draft with its oldest steps put together, so far as it has too many or too long ones."""
        draft = self
        while len(draft.steps) > MOST_STEPS or sum(map(_length, draft.steps)) > MOST_TEXT:
            oldest = next((step for step in draft.steps if step.number not in (self.at, self.saved, self.tip)), None)
            if oldest is None:
                break
            draft = draft._without(oldest)
        return draft

    def _without(self, gone: Step) -> "Draft":
        """The draft with one step put into those that were made after it."""
        steps = (
            step._replace(after=gone.after, earlier=_all_before(gone, step)) if step.after == gone.number else step
            for step in self.steps
            if step is not gone
        )
        return self._replace(steps=tuple(steps))

    # --- its file ------------------------------------------------------------------------------------------------

    def to_json(self) -> str:
        """The text of its file."""
        fields = self._asdict() | {"version": VERSION, "steps": [step._asdict() for step in self.steps]}
        return json.dumps(fields, separators=(",", ":"))

    @staticmethod
    def from_json(name: str, data: bytes) -> "Draft":
        """Read the file of a draft of the project `name`. Raises NotADraft."""
        try:
            fields = json.loads(data)
            version = fields.pop("version")
            steps = tuple(Step(**step | {"earlier": tuple(step["earlier"])}) for step in fields.pop("steps"))
            draft = Draft(**fields, steps=steps)
            is_its_own = version == VERSION and draft.name == name and _holds_together(draft) and draft.source
        except (ValueError, TypeError, LookupError, AttributeError, RecursionError, ProblemsFound):
            raise NotADraft("is no draft") from None
        if not is_its_own:
            raise NotADraft("is no draft of this file")
        return draft


def hash_of(data: bytes) -> str:
    """The SHA-256 of a file's bytes."""
    return hashlib.sha256(data).hexdigest()


def _all_before(gone: Step, step: Step) -> tuple[Puts, ...]:
    """The puts to be made before those of a step into which another is put."""
    return tuple(condensed([*gone.all_puts, *step.earlier]))


def _length(step: Step) -> int:
    return sum(len(value) for puts in step.all_puts for value in puts.values() if isinstance(value, str))


def _holds_together(draft: Draft) -> bool:
    """Tell a draft whose fields have their types, and whose steps each follow an earlier one."""
    if not all(isinstance(text, str) for text in (draft.name, draft.base, draft.on_disk)):
        return False
    known, last = {0}, 0
    for step in draft.steps:
        types = (int, int, dict, str, bool, tuple)
        if not all(type(value) is kind for value, kind in zip(step, types, strict=True)):
            return False
        if not all(type(puts) is dict and _is_shallow(puts) for puts in step.all_puts):
            return False
        if step.after not in known or step.number <= last:
            return False
        last = step.number
        known.add(last)
    states = (draft.at, draft.saved, draft.tip)
    return all(type(state) is int and state in known for state in states) and _is_under(draft)


def _is_shallow(puts: Puts) -> bool:
    """Tell puts as a form makes them: their keys lead no deeper than a file may, and neither do their values."""
    return all(len(key_path(key)) <= MOST_PARTS and _depth(value) <= MOST_LEVELS for key, value in puts.items())


def _depth(value: object) -> int:
    depth, level = 0, [value]
    while level := [inner for each in level if isinstance(each, dict | list) for inner in _within(each)]:
        depth += 1
    return depth


def _within(value: dict[str, object] | list[object]) -> Iterable[object]:
    return value.values() if isinstance(value, dict) else value


def _is_under(draft: Draft) -> bool:
    """Tell a draft whose standing state leads to the one that redo leads to."""
    return draft.at in {0, *(step.number for step in draft._line(draft.tip))}
