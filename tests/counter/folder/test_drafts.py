"""Drafts: steps, undo and redo, several tabs, and the file they are kept in."""

import json
import string
from collections.abc import Iterable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.counter.folder import drafts
from finishcalc.counter.folder.drafts import Draft, NotADraft, hash_of
from finishcalc.counter.folder.puts import Puts

FRESH = Draft("lap.toml", "[top]\nwidth = 60\nlength = 70\n", "0" * 64)


def values_of(draft: Draft, at: int | None = None) -> dict[str, Any]:
    """The values of a state, of keys of which none lies within another."""
    return laid(draft.puts(at))


def laid(puts: Iterable[Puts] | None) -> dict[str, Any]:
    assert puts is not None
    return {key: value for each in puts for key, value in each.items()}


def step(draft: Draft, key: str, value: Any, page: str = "a", sound: bool = True, joins: bool = False) -> Draft:
    return draft.with_step({key: value}, page, sound, joins)


def typed(draft: Draft, key: str, *values: str, page: str = "a") -> Draft:
    """A draft after a value was typed, key by key."""
    for value in values:
        draft = step(draft, key, value, page, joins=True)
    return draft


def test_a_step_is_undone_and_redone():
    one = step(FRESH, "top.width", "61")
    two = step(one, "title", "Lap")
    assert values_of(two) == {"top.width": "61", "title": "Lap"}
    assert values_of(two.undone()) == {"top.width": "61"}
    assert values_of(two.undone().undone()) == {}
    assert two.undone().undone().undone() == two.undone().undone()
    assert two.undone().undone().redone() == two.undone()
    assert two.undone().redone() == two == two.redone()
    assert (FRESH.can_undo, two.can_undo, two.can_redo, two.undone().can_redo) == (False, True, False, True)


def test_a_new_step_ends_redo():
    draft = step(step(step(FRESH, "title", "A"), "title", "B").undone(), "title", "C")
    assert not draft.can_redo
    assert values_of(draft.undone()) == {"title": "A"}
    assert values_of(draft.undone().redone()) == {"title": "C"}


def test_a_tab_that_saw_an_undone_step_is_told_from_one_that_saw_what_came_after():
    seen = step(step(FRESH, "title", "A"), "top.width", "61")
    now = step(seen.undone(), "top.length", "71", page="b")
    assert values_of(now) == {"title": "A", "top.length": "71"}
    assert values_of(now, now.state(seen.mark)) == {"title": "A", "top.width": "61"}


def test_what_stands_in_the_fields_of_a_tab_is_what_it_saw_and_its_own_later_steps():
    seen = step(FRESH, "title", "A", page="a")
    now = step(step(seen, "top.width", "61", page="b"), "top.length", "71", page="a")
    assert laid(now.fields(seen.mark, "a")) == {"title": "A", "top.length": "71"}
    assert laid(now.fields(seen.mark, "b")) == {"title": "A", "top.width": "61"}
    assert laid(now.fields(seen.mark, "c")) == values_of(now, seen.at) == {"title": "A"}


def test_a_step_of_its_own_that_a_tab_has_seen_undone_is_not_in_its_fields():
    undone = step(FRESH, "title", "A").undone()
    assert laid(step(undone, "top.width", "61", page="b").fields(undone.mark, "a")) == {}


def test_a_null_takes_a_key_out_and_stays_to_be_written():
    assert values_of(step(step(FRESH, "title", "A"), "title", None)) == {"title": None}


def test_what_is_typed_on_is_undone_as_one():
    draft = typed(step(FRESH, "title", "A"), "top.width", "6", "61", "61 1/2")
    assert values_of(draft) == {"title": "A", "top.width": "61 1/2"}
    assert values_of(draft.undone()) == {"title": "A"}
    assert values_of(draft.undone().redone()) == values_of(draft)


def test_only_typing_on_by_one_tab_in_one_field_is_undone_as_one():
    first = typed(FRESH, "top.width", "61")
    assert values_of(step(first, "top.width", "62").undone()) == {"top.width": "61"}
    assert values_of(typed(first, "top.width", "62", page="b").undone()) == {"top.width": "61"}
    assert values_of(typed(first, "top.length", "71").undone()) == {"top.width": "61"}
    two_keys = first.with_step({"top.width": "62", "title": "A"}, "a", True, joins=True)
    assert values_of(two_keys.undone()) == {"top.width": "61"}


def test_typing_on_after_a_save_does_not_undo_what_was_saved():
    saved = typed(FRESH, "top.width", "61").with_saved("1" * 64)
    assert values_of(typed(saved, "top.width", "62").undone()) == {"top.width": "61"}
    assert not typed(saved, "top.width", "62").undone().has_unsaved


def test_typing_on_after_an_undo_is_a_step_of_its_own():
    undone = step(typed(FRESH, "top.width", "61"), "title", "A").undone()
    assert values_of(typed(undone, "top.width", "62").undone()) == {"top.width": "61"}


def test_a_draft_that_says_what_its_file_says_has_nothing_unsaved():
    draft = step(FRESH, "title", "A")
    assert draft.has_unsaved
    assert not draft.undone().has_unsaved
    saved = draft.with_saved("1" * 64)
    assert not saved.has_unsaved
    assert saved.undone().has_unsaved
    assert not step(step(saved, "title", "B"), "title", "A").has_unsaved
    assert saved.on_disk == "1" * 64


def test_a_save_of_an_earlier_state_leaves_the_later_steps_unsaved():
    draft = step(FRESH, "title", "A")
    later = step(draft, "title", "B").with_saved("1" * 64, draft.at)
    assert later.has_unsaved
    assert not later.undone().has_unsaved


def test_the_last_sound_state_is_the_latest_that_worked_out_on_the_way_to_the_one_that_stands():
    sound = step(FRESH, "top.width", "61")
    broken = step(step(sound, "top.width", "61 1/", sound=False), "top.length", "x", sound=False)
    assert (broken.last_sound, broken.sound, sound.sound) == (sound.at, False, True)
    assert step(FRESH, "top.width", "x", sound=False).last_sound == 0
    elsewhere = step(step(FRESH, "title", "A").undone(), "top.width", "x", sound=False)
    assert elsewhere.last_sound == 0


def test_a_draft_on_another_text_has_all_that_stood_step_by_step():
    draft = step(step(step(FRESH, "title", "A"), "top.width", "61"), "notes", "x").undone()
    base = "[top]\nwidth = 50\nlength = 70\n"
    rebased = draft.rebased(base, "2" * 64)
    assert values_of(rebased) == values_of(draft) == {"title": "A", "top.width": "61"}
    assert (rebased.base, rebased.on_disk, rebased.has_unsaved) == (base, "2" * 64, True)
    assert values_of(rebased.undone()) == {"title": "A"}
    assert rebased.state(draft.mark) is None
    assert not FRESH.rebased(base, "2" * 64).steps


@pytest.mark.parametrize("mark", ["", "-", "--", "0", "x-0-0", "-0-0", "é-1-1", "1" * 5000])
def test_a_mark_of_nothing_is_no_state(mark: str):
    assert FRESH.state(mark) is None


@pytest.mark.parametrize(
    "numbers", ["1-1", "0-1", "1-0", "0", "0-", "-0", "x-0", "0-²", "", "0-0-0", "0-" + "0" * 5000]
)
def test_a_mark_of_this_text_with_a_state_that_it_has_not_is_none(numbers: str):
    mark = FRESH.mark.removesuffix("0-0") + numbers
    assert FRESH.state(FRESH.mark) == 0
    assert (FRESH.state(mark), FRESH.fields(mark, "a")) == (None, None)


def test_the_text_is_given_as_it_is_read_with_its_line_ends_beside_it():
    source = FRESH._replace(base="\ufefftitle = 'A'\r\n").source
    assert (source.text, source.line_end, source.name) == ("title = 'A'\n", "\r\n", "lap.toml")


# --- the oldest steps ------------------------------------------------------------------------------------------------


def test_the_oldest_steps_are_put_together_and_nothing_of_them_is_lost():
    draft = step(FRESH, "title", "A")
    seen = draft
    for number in range(drafts.MOST_STEPS + 10):
        draft = step(draft, "top.width", str(number))
    assert len(draft.steps) == drafts.MOST_STEPS
    assert values_of(draft) == {"title": "A", "top.width": str(drafts.MOST_STEPS + 9)}
    assert values_of(draft.undone()) == {"title": "A", "top.width": str(drafts.MOST_STEPS + 8)}
    assert draft.state(seen.mark) is None
    assert values_of(draft, 0) == {}


def test_steps_that_were_put_together_go_along_to_another_text(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(drafts, "MOST_STEPS", 2)
    draft = step(step(step(step(FRESH, "title", "A"), "notes", "x"), "top.width", "61"), "top.length", "71")
    assert values_of(draft.rebased("# another\n", "2" * 64)) == values_of(draft)
    assert set(values_of(draft)) == {"title", "notes", "top.width", "top.length"}


def test_what_was_saved_is_known_however_many_steps_follow(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(drafts, "MOST_STEPS", 5)
    draft = step(step(FRESH, "notes", "x"), "title", "A").with_saved("1" * 64)
    for number in range(20):
        draft = step(draft, "top.width", str(number))
    assert values_of(draft, draft.saved) == {"notes": "x", "title": "A"}
    back = draft
    while back.at != draft.saved and back.can_undo:
        back = back.undone()
    assert not back.has_unsaved


def test_long_texts_are_put_together_sooner(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(drafts, "MOST_TEXT", 1000)
    draft = FRESH
    for letter in string.ascii_lowercase:
        draft = step(draft, "notes", letter * 300)
    assert len(draft.steps) <= 4
    assert values_of(draft.undone()) == {"notes": "y" * 300}


# --- its file --------------------------------------------------------------------------------------------------------


def test_a_draft_is_read_as_it_was_written():
    base = "\ufefftitle = 'Überwurf'\r\n"
    draft = step(step(FRESH._replace(base=base), "title", "é"), "areas", [{"share": "20 %"}]).undone()
    assert Draft.from_json("lap.toml", draft.to_json().encode()) == draft


def changed(**fields: Any) -> bytes:
    """The file of a draft with some fields changed; those that are None are missing."""
    draft = step(step(FRESH, "title", "A"), "title", "B")
    values = json.loads(draft.to_json()) | fields
    return json.dumps({key: value for key, value in values.items() if value is not None}).encode()


STEP = {"number": 1, "after": 0, "puts": {}, "page": "a", "sound": True, "earlier": []}


def test_an_unchanged_file_of_a_draft_is_read():
    assert values_of(Draft.from_json("lap.toml", changed())) == {"title": "B"}
    assert Draft.from_json("lap.toml", changed(steps=[STEP, STEP | {"number": 2, "after": 1}])).at == 2


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"[]",
        b"7",
        b"\xff",
        b"{}",
        b"[" * 100_000,
        changed()[:-3],
        changed(version=2),
        changed(version=None),
        changed(name="other.toml"),
        changed(base=None),
        changed(base=7),
        changed(base="\ud800"),
        changed(base="x" * (1024 * 1024 + 1)),
        changed(on_disk=[]),
        changed(steps={}),
        changed(steps=[7]),
        changed(steps=[STEP | {"more": 1}]),
        changed(steps=[STEP], at=2),
        changed(steps=[STEP, STEP]),
        changed(steps=[STEP | {"after": 1}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"after": True}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"puts": []}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"earlier": 7}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"earlier": [7]}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"number": True}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"puts": {"title" + "[1]" * 3000: "A"}}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"puts": {"title": json.loads("[" * 400 + "]" * 400)}}], at=1, saved=0, tip=1),
        changed(steps=[STEP | {"earlier": [{"title": json.loads("[" * 400 + "]" * 400)}]}], at=1, saved=0, tip=1),
        changed(at=9),
        changed(saved=-1),
        changed(tip="1"),
        changed(tip=1, at=2),
        changed(more=1),
    ],
)
def test_what_is_no_draft_of_the_file_is_refused(data: bytes):
    with pytest.raises(NotADraft):
        Draft.from_json("lap.toml", data)


# --- a simple model --------------------------------------------------------------------------------------------------

KEYS = ("title", "top.width", "top.length")
VALUES = st.none() | st.sampled_from(["1", "2", "3"])
EDITS = st.tuples(st.sampled_from("ab"), st.sampled_from(KEYS), VALUES, st.booleans(), st.just(True))
MOVES = st.tuples(
    st.sampled_from("ab"), st.sampled_from(["undo", "redo", "save"]), st.none(), st.just(False), st.booleans()
)


class Tab:
    """A tab: what stands in its fields, and the state that it has seen."""

    def __init__(self) -> None:
        self.fields: dict[str, Any] = {}
        self.mark = FRESH.mark


@given(st.lists(st.tuples(EDITS | MOVES, st.booleans()), max_size=30))
def test_tabs_whose_answers_may_be_lost_never_undo_each_others_edits(moves: list[Any]):
    """Every post holds the whole form, and only what its person typed is taken for an edit. The model: a stack of whole
    states to undo to, one to redo to, and the state of the file."""
    tabs = {"a": Tab(), "b": Tab()}
    draft, undo, redo, on_disk = FRESH, [dict[str, Any]()], list[dict[str, Any]](), dict[str, Any]()
    for (page, key, value, _, is_edit), arrives in moves:
        tab = tabs[page]
        if is_edit and key in KEYS:
            tab.fields[key] = value
            known = laid(draft.fields(tab.mark, page))
            edit = {name: typed for name, typed in tab.fields.items() if name not in known or known[name] != typed}
            assert set(edit) <= {key}
            if edit:
                draft = draft.with_step(edit, page, True)
                undo.append(undo[-1] | edit)
                redo.clear()
        elif key == "undo":
            draft = draft.undone()
            if len(undo) > 1:
                redo.append(undo.pop())
        elif key == "redo":
            draft = draft.redone()
            if redo:
                undo.append(redo.pop())
        elif key == "save":
            draft, on_disk = draft.with_saved(hash_of(repr(undo[-1]).encode())), undo[-1]
        draft = Draft.from_json(draft.name, draft.to_json().encode())
        assert values_of(draft) == undo[-1]
        assert (draft.can_undo, draft.can_redo) == (len(undo) > 1, bool(redo))
        assert draft.has_unsaved == (undo[-1] != on_disk)
        if arrives:
            tab.fields, tab.mark = dict(values_of(draft)), draft.mark
