"""Other sizes beside a top's own, for a text that is in no file.

The plain top is 60 x 80 = 4,800 sq in of quilting at 0.03 = 144.00, and nothing else is charged.
"""

import tomllib
from pathlib import Path
from typing import get_args

import pytest

from finishcalc.comparing.beside import OtherSize, RefusedSize, sizes_beside
from finishcalc.comparing.design import Design
from finishcalc.comparing.sizes import row_of
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.changes.settings import setting, trials
from finishcalc.intake.presets import usual_sizes
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.model.keys import Outline, Use
from finishcalc.pipeline import Finishing, finish, finish_file
from tests.builders import BARE, PROJECTS, inches, sample


def in_memory(text: str, *tried: str) -> Finishing:
    """A result of a text and values to try, whose files may not be read by their names."""

    def reading(name: str) -> Source:
        raise AssertionError(f"read {name}")

    change = trials(list(tried))[0].change if tried else None
    return finish(resolve(Source("t.toml", text), change=change, reader=reading))


def worked_out(result: Finishing, most: int, *asked: str) -> list[OtherSize]:
    found = list(sizes_beside(result, most, asked))
    return [each for each in found if isinstance(each, OtherSize)]


def taken(result: OtherSize) -> Change:
    """The change that writes the size, as a page that has its `take` makes it."""
    paths = {key: setting(f"{key}=1").path for key in result.take}
    drops = tuple(paths[key] for key, value in result.take.items() if value is None)
    return Change(
        "the page", drops, tuple((paths[key], value) for key, value in result.take.items() if value is not None)
    )


def test_the_usual_throws_nearest_in_area_stand_beside_a_throw():
    """60 x 72 = 4,320, 50 x 65 = 3,250 and 48 x 60 = 2,880 sq in at 0.03; 60 x 80 is the top itself."""
    others = worked_out(in_memory(BARE), 3)
    assert [(each.row.name, each.total.minor, each.adds.minor) for each in others] == [
        ("60x72", 12960, -1440), ("50x65", 9750, -4650), ("48x60", 8640, -5760),
    ]  # fmt: skip
    assert others[0].take == {"top.width": 60, "top.length": 72}


def test_sizes_that_are_typed_come_first_and_usual_ones_fill_up():
    """70 x 70 = 4,900 sq in at 0.03 = 147.00."""
    names = [(each.row.name, each.adds.minor) for each in worked_out(in_memory(BARE), 2, "70x70")]
    assert names == [("70x70", 300), ("60x72", -1440)]


def test_a_typed_size_that_cannot_be_is_told_with_its_reason_and_takes_a_column():
    refused, other = sizes_beside(in_memory(BARE), 2, ["quen"])
    assert isinstance(refused, RefusedSize)
    assert (refused.text, [problem.hint for problem in refused.problems]) == ("quen", ['did you mean "queen"?'])
    assert isinstance(other, OtherSize)


def test_a_usual_size_that_the_project_does_not_allow_is_left_out():
    """A corner of radius 25 has no room on a side of 48."""
    names = [each.row.name for each in worked_out(in_memory(BARE.replace("[top]\n", "[top]\ncorner_radius = 25\n")), 3)]
    assert names == ["60x72", "50x65"]


def test_the_next_size_is_worked_out_only_when_its_turn_comes(monkeypatch: pytest.MonkeyPatch):
    found = sizes_beside(in_memory(BARE), 3)
    next(found)
    monkeypatch.setattr("finishcalc.comparing.beside.row_of", lambda *_: pytest.fail("worked out the next"))


def test_a_size_takes_away_what_a_change_in_hand_says_of_the_size():
    """The bed that is tried gives way to the size; the overage that is tried does not concern it."""
    text = '[top]\nuse = "throw"\n'
    (other,) = worked_out(in_memory(text, "top.covers.bed=twin", "top.use=null", "backing.overage=3"), 1, "50x65")
    size = {"top.shape": "rectangle", "top.width": 50, "top.length": 65}
    assert other.take == {"top.covers": None, "top.use": "bed", **size}


def test_a_round_cloth_stands_beside_round_tables():
    """Tables of 48, 60 and 72 across, each with the usual drop of 12 either side."""
    result = finish_file(str(sample("round-table-cover.toml")))
    widths = {each.row.name: each.row.result.plans.top.shape.width for each in worked_out(result, 3)}
    assert widths == {"round-4": inches(72), "round-6": inches(84), "table round 72": inches(96)}


def test_a_pieced_design_is_fitted_and_no_fit_stands_there_twice():
    result = finish_file(str(sample("lighthouse-bed-quilt.toml")))
    others = worked_out(result, 3)
    sizes = {(each.row.result.plans.top.shape.width, each.row.result.plans.top.shape.length) for each in others}
    assert len(sizes) == len(others) > 1
    assert all({key.rpartition(".")[0] for key in each.take} <= {"top.blocks", "top.borders[1]"} for each in others)


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_taking_a_size_writes_the_values_that_compare_would_write(path: Path):
    """All but the title, which tells the files of a comparison apart."""
    text = "throw 50x65" if "on-point" in path.stem else "dining-6" if "harbour" in path.stem else "60x70"
    result = finish_file(str(path))
    (other,) = worked_out(result, 1, text)
    design = Design.of_file(str(path))
    row = row_of(design, text)
    assert row.change
    without_title = row.change._replace(puts=tuple(put for put in row.change.puts if put[0] != ("title",)))
    written = [tomllib.loads(project_toml(design.source, change)) for change in (taken(other), without_title)]
    assert written[0] == written[1]
    assert finish(result.resolved.changed(taken(other))).quote.total == other.total == row.result.quote.total


@pytest.mark.parametrize("units", ["in", "cm"])
@pytest.mark.parametrize("use", get_args(Use))
def test_every_usual_size_is_one_that_may_be_asked_for(units: str, use: str):
    for shape in get_args(Outline) if use not in ("bed", "crib") else ("rectangle",):
        side = {"round": "diameter = 40\n"}.get(shape, f"shape = '{shape}'\nwidth = 40\nlength = 44\n")
        design = Design.of(in_memory(f"units = '{units}'\n[top]\nuse = '{use}'\n{side}").resolved)
        assert len(usual_sizes(use, shape, units)) >= 3
        for text in usual_sizes(use, shape, units):
            top = row_of(design, text).result.resolved.project.top
            assert (top.shape, top.use) == (shape, use)
