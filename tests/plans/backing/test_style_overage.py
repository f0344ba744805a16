"""The overage that a style needs: where it stands over the usual one, and where another stands over it."""

from pathlib import Path

import pytest

from finishcalc.measures.length import Overage
from tests.builders import in_shop, inches, page, quoted

CUSTOM = "[top]\nwidth = 60\nlength = 80\n[quilting]\nstyle = 'custom'\n"
FOUR, FIVE, SIX = (Overage.all_round(inches(amount)) for amount in (4, 5, 6))


def overage(text: str) -> Overage | None:
    """The overage that the backing is planned with."""
    backing = quoted(text).plans.backing
    return backing.overage if backing else None


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("", FIVE),  # 5-6 on each side where rulers are used, else 4: terms of two studios
        ("[backing]\noverage = 4\n", FOUR),  # the project states one
        ("method = 'hand-quilted'\n", FOUR),  # off the frame nothing holds rulers back
        ("areas = [{ style = 'open-meander', share = '40 %' }]\n", FIVE),
    ],
)
def test_rulers_need_room_on_the_frame(more: str, expected: Overage):
    """60 + 2 x 5 = 70 and 80 + 2 x 5 = 90 (derived)."""
    assert overage(CUSTOM + more) == expected


def test_a_part_that_needs_it_sets_the_overage_of_the_whole_backing():
    lines = "style = 'open-meander'\nareas = [{{ style = {}, share = '40 %' }}]\n"
    own = "{ preset = 'tiny-fill', overage = 6 }"
    text = CUSTOM.replace("style = 'custom'\n", "")
    assert overage(text + lines.format("'custom'")) == FIVE
    assert overage(text + lines.format(own)) == SIX


@pytest.mark.parametrize(
    ("shop", "expected"),
    [
        ("[usual.backing]\noverage = 4\n", FOUR),  # the studio's own stands over a preset's
        ("[styles.custom]\noverage = 6\n", SIX),
        ("[usual.backing]\noverage = 4\n[styles.custom]\noverage = 6\n", SIX),
        ("[usual.backing]\noverage = 7\n[styles.custom]\noverage = 6\n", Overage.all_round(inches(7))),
    ],
)
def test_the_studio_s_own_figures_stand_over_the_preset_s(shop: str, expected: Overage, tmp_path: Path):
    plan = in_shop(tmp_path, f"units = 'in'\n{shop}", CUSTOM).plans.backing
    assert plan
    assert plan.overage == expected


def test_the_page_says_where_the_backing_is_planned_that_a_style_needs_it():
    told = " ".join(page(CUSTOM, "studio").split())
    assert "70 x 90 in needed, 5 in over on every side, as custom design needs it" in told
    stated = " ".join(page(CUSTOM + "[backing]\noverage = 5\n", "studio").split())
    assert "70 x 90 in needed, 5 in over on every side 2" in stated


def test_no_smaller_overage_leads_than_the_style_needs():
    """Three panels of 40 with seams of 1/2 come to 118, 3 over on 112: enough for a pantograph, not for rulers
    (derived)."""
    for style, sides in (("custom", 5), ("open-meander", 3)):
        plan = quoted(f"[top]\nwidth = 112\nlength = 96\n[quilting]\nstyle = '{style}'\n").plans.backing
        assert plan
        assert plan.chosen
        assert plan.chosen.overage.sides == inches(sides)
