"""The shelf of a project, a shop or a file of its own: all of it counts, once, and no quote knows of it."""

from pathlib import Path

import pytest

from finishcalc.intake.on_hand import all_on_hand, read_on_hand
from finishcalc.intake.resolve import Resolved, load
from finishcalc.intake.source import Source
from finishcalc.pipeline import finish
from finishcalc.problems import ProblemCode, ProblemsFound
from tests.builders import TOP, everything, inches

ROW = '[[on_hand]]\nkind = "cloth"\nname = "{name}"\nwidth = 20\nlength = "1 yd"\n'


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    """A folder with a shop that has blue on hand, and two projects of it, one of which has red."""
    (tmp_path / "studio.toml").write_text(ROW.format(name="blue"))
    (tmp_path / "oak.toml").write_text(f'shop = "studio.toml"\n{TOP}{ROW.format(name="red")}number = 2\n')
    (tmp_path / "elm.toml").write_text(f'shop = "studio.toml"\n{TOP}')
    return tmp_path


def names(*projects: Resolved) -> list[tuple[str, int]]:
    rows = all_on_hand(shelf for project in projects for shelf in project.on_hand)
    return [(row.name, row.count) for row in rows]


def test_a_projects_pieces_are_added_to_its_shops(studio: Path):
    assert names(load(str(studio / "oak.toml"))) == [("blue", 1), ("red", 2)]


def test_a_shop_that_two_projects_name_counts_once(studio: Path):
    oak = load(str(studio / "oak.toml"))
    elm = load(str(studio / "elm.toml"), shop=str(studio / ".." / studio.name / "studio.toml"))
    assert names(oak, elm) == [("blue", 1), ("red", 2)]


def test_a_file_of_its_own_is_in_its_own_units(tmp_path: Path):
    file = tmp_path / "shelf.toml"
    file.write_text('units = "cm"\n' + ROW.format(name="blue"))
    (row,) = read_on_hand(str(file)).rows
    assert (row.kind, row.name, row.count) == ("cloth", "blue", 1)
    assert (row.width, row.length) == (inches("1") * 20 / inches("1").to("cm"), inches(36))


def test_a_file_of_its_own_says_nothing_else():
    text = f"{ROW.format(name='blue')}[top]\nwidth = 60\n"
    with pytest.raises(ProblemsFound) as refused:
        read_on_hand("shelf.toml", reader=lambda name: Source(name, text))
    assert [(each.code, each.path) for each in refused.value.problems] == [(ProblemCode.UNKNOWN_KEY, "top")]


def test_a_file_without_a_piece_is_none_of_them():
    with pytest.raises(ProblemsFound) as refused:
        read_on_hand("shelf.toml", reader=lambda name: Source(name, 'units = "in"\n'))
    assert [(each.code, each.path) for each in refused.value.problems] == [(ProblemCode.MISSING_KEY, "on_hand")]


def test_all_that_is_wrong_with_a_file_is_told_at_once():
    text = ROW.format(name="blue") + ROW.format(name=" ").replace("20", '"x"')
    with pytest.raises(ProblemsFound) as refused:
        read_on_hand("shelf.toml", reader=lambda name: Source(name, text))
    assert [(each.code, each.path, each.line) for each in refused.value.problems] == [
        (ProblemCode.ON_HAND_WITHOUT_NAME, "on_hand[2].name", 8),
        (ProblemCode.NOT_A_LENGTH, "on_hand[2].width", 9),
    ]


def test_a_quote_bills_the_same_whatever_is_on_hand(studio: Path):
    """Neither the studio's papers nor the customer's say a word of it."""

    def told() -> list[str]:
        return everything(finish(load(str(studio / "oak.toml"))))

    with_both = told()
    (studio / "studio.toml").write_text("")
    (studio / "oak.toml").write_text(f'shop = "studio.toml"\n{TOP}')
    assert told() == with_both
