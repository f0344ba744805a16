"""The same top in other styles, as a customer is told of them.

The top is 60 x 80 = 4,800 sq in, and nothing but quilting is charged: 4,800 x 0.03 = 144.00 edge to edge, x 0.045 =
216.00 dense, x 0.08 = 384.00 custom.
"""

from pathlib import Path

import pytest

from finishcalc.alternatives.styles import styles_of
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import KeyPath
from finishcalc.pipeline import Finishing, finish, finish_file
from finishcalc.wording.notation import Notation
from tests.builders import BARE, PROJECTS, in_shop, quoted


def in_style(style: str) -> Finishing:
    return quoted(f"{BARE}[quilting]\nstyle = '{style}'\n")


def taken(result: Finishing, take: dict[str, object]) -> Finishing:
    """The result with what is to be written for an option."""
    puts: list[tuple[KeyPath, object]] = [(tuple(key.split(".")), value) for key, value in take.items()]
    return finish(result.resolved.changed(Change("", (), tuple(puts))))


def test_each_other_class_of_rates_is_priced_the_cheapest_first():
    styles = styles_of(in_style("dense-pantograph"))
    assert [(each.total.minor, each.adds.minor) for each in styles] == [(14400, -7200), (38400, 16800)]
    assert [each.take for each in styles] == [{"quilting.style": "open-meander"}, {"quilting.style": "custom"}]


def test_the_lines_of_a_style_are_told_by_their_widest_distance():
    """A dense pantograph is given as at most 1 1/2 apart where it is widest."""
    (dense, _) = styles_of(in_style("open-meander"))
    assert Notation("in").write(dense.lines).replace("\u00a0", " ") == "lines up to 1 1/2 in apart"


@pytest.mark.parametrize(
    ("style", "said"),
    [
        ("lines = 'grid'\nline_spacing = 2\n", "lines 2 in apart"),
        (
            "lines = 'pattern'\npattern_height = 6\nrow_pitch = 6\nline_spacing = 1\nwidest = 3\n",
            "lines up to 3 in apart",
        ),
    ],
)
def test_straight_lines_are_told_exactly_and_a_pattern_where_they_are_widest(style: str, said: str, tmp_path: Path):
    own = f"[rates.quilting]\nlace = '0.05'\n[styles.lace]\nname = 'lace'\nrate_class = 'lace'\n{style}"
    (lace,) = (each for each in styles_of(in_shop(tmp_path, own, BARE)) if each.name == "lace")
    assert Notation("in").write(lace.lines).replace("\u00a0", " ") == said


def test_a_difference_between_rates_of_the_shop_s_own_rests_on_no_sample(tmp_path: Path):
    own = "[rates]\nminimum = 0\n[rates.quilting]\nedge-to-edge = '0.03'\ndense = '0.05'\n"
    told = {each.take["quilting.style"]: each.rests_on_sample for each in styles_of(in_shop(tmp_path, own, BARE))}
    assert told == {"dense-pantograph": False, "custom": True}


@pytest.mark.parametrize(
    "quilting",
    [
        "style = 'custom'\nareas = [{ style = 'tiny-fill', share = '40 %' }]\n",
        "style = 'ties-4'\nmethod = 'tied'\n",
        "method = 'hand-quilted'\n",
    ],
)
def test_areas_ties_and_hand_quilting_are_offered_no_other_style(quilting: str):
    assert styles_of(quoted(f"{BARE}[quilting]\n{quilting}")) == ()


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_taking_a_style_comes_to_the_total_that_was_told(path: Path):
    result = finish_file(str(path))
    styles = styles_of(result)
    assert len(styles) == 2
    assert [taken(result, dict(each.take)).quote.total for each in styles] == [each.total for each in styles]
