"""The change between a file's table and the form's, and what of the file it touches."""

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.counter.form.table import change_between, table_after
from finishcalc.intake.changes.change import changed
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.source import Source
from tests.counter.making import PIECED, PLAIN, table_of

SAMPLES = sorted(Path("presets/projects").glob("*.toml"))


def written(text: str, *puts: dict[str, object]) -> str:
    source = Source("quilt.toml", text)
    return project_toml(source, change_between(source.table, table_after(source.table, puts)))


def test_an_edit_touches_its_own_line_alone() -> None:
    assert written(PLAIN, {"top.width": "62"}) == PLAIN.replace('width = "60 1/2"       #', "width = 62       #")


def test_an_edit_that_is_taken_back_leaves_the_file_as_it_is() -> None:
    assert (
        written(
            PLAIN, {"top.width": "62"}, {"customer.name": None}, {"top.width": "60 1/2"}, {"customer.name": "Marit"}
        )
        == PLAIN
    )


def test_a_border_that_is_taken_out_keeps_the_comment_of_the_other() -> None:
    text = written(PIECED, {"top.borders[1]": None})
    assert tomllib.loads(text)["top"]["borders"] == [{"cut": "6 1/2"}]
    assert 'cut = "6 1/2"         # the outer one' in text


def test_borders_can_be_taken_out_all_at_once() -> None:
    change = change_between(table_of(PIECED), table_after(table_of(PIECED), [{"top.borders": None}]))
    assert change.drops == (("top", "borders"),)


TABLES = st.recursive(
    st.one_of(st.integers(0, 3), st.booleans(), st.text("ab", max_size=2)),
    lambda inner: st.one_of(
        st.dictionaries(st.sampled_from(["a", "b", "c"]), inner, max_size=3),
        st.lists(st.dictionaries(st.sampled_from(["a", "b"]), inner, max_size=2), max_size=3),
    ),
    max_leaves=8,
)
FILES = st.dictionaries(st.sampled_from(["top", "job", "backing"]), TABLES, max_size=3)


@given(FILES, FILES)
def test_the_change_makes_any_table_of_any_other(base: dict[str, object], table: dict[str, object]) -> None:
    change = change_between(base, table)  # type: ignore[arg-type]
    made, _ = changed(base, change._replace(puts=()))  # type: ignore[arg-type]
    for path, value in change.puts:
        holder: object = made
        for step in path[:-1]:
            holder = holder.setdefault(step, {}) if isinstance(holder, dict) else holder[step]  # type: ignore[index]
        if isinstance(holder, list) and path[-1] == len(holder):
            holder.append(value)
        else:
            holder[path[-1]] = value  # type: ignore[index]
    assert made == table


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_that_is_not_edited_is_written_as_it_is(sample: Path) -> None:
    assert written(sample.read_text(encoding="utf-8")) == sample.read_text(encoding="utf-8")


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_takes_an_edit_of_a_key_it_lacks_in_few_lines(sample: Path) -> None:
    text = sample.read_text(encoding="utf-8")
    new = written(text, {"batting.overage": "3"})
    lines, new_lines = text.splitlines(), new.splitlines()
    assert tomllib.loads(new, parse_float=Decimal)["batting"]["overage"] == 3
    assert len([line for line in lines if line not in new_lines]) <= 1
    assert len([line for line in new_lines if line not in lines]) <= 2
