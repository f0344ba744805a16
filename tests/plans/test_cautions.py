"""Cautions: each comes where it is called for, and nowhere else."""

import pytest

from tests.builders import quoted


@pytest.mark.parametrize(
    ("top", "code", "there"),
    [
        ("width = 45\nlength = 60\n", "safe-sleep", True),  # the packaged crib size (common practice)
        ("width = 60\nlength = 45\n", "safe-sleep", True),
        ("width = 46\nlength = 60\n", "safe-sleep", False),
        ("use = 'crib'\nwidth = 60\nlength = 80\n", "safe-sleep", True),
        ("use = 'tablecloth'\nwidth = 60\nlength = 80\n", "candles", True),
        ("use = 'bed'\nwidth = 60\nlength = 80\n", "candles", False),
        ("width = 60\nlength = 80\n[job]\nfor_sale = true\n", "label-law", True),
        ("width = 60\nlength = 80\n", "label-law", False),
        ("width = 60\nlength = 80\n", "tax", True),
        ("width = 60\nlength = 80\n[backing]\noverage = 2\n", "small-overage", True),
        ("width = 60\nlength = 80\n[backing]\nfabric = 'plush-60'\n", "one-way", True),
        ("width = 123\nlength = 130\n", "frame-too-narrow", True),  # 123 + 8 = 131, of the frame's 130
        ("width = 122\nlength = 130\n", "frame-too-narrow", False),
        ("width = 130\nlength = 120\n[batting]\nproduct = 'cotton-needled'\n", "batting-too-small", True),
        (
            "width = 60\nlength = 100\n[backing]\nfabric = { preset = 'cotton-44', bolt = '4 yd' }\n",
            "second-length",
            True,
        ),
    ],
)
def test_cautions_come_where_they_are_called_for(top: str, code: str, there: bool):
    result = quoted(f"[top]\n{top}")
    assert (code in [caution.code for caution in result.cautions]) == there


@pytest.mark.parametrize(("centre", "told"), [("any", False), ("panel", True)])
def test_what_a_seam_off_the_middle_costs_is_said_where_it_costs(centre: str, told: bool):
    """60 x 80 with seams lengthwise: a full panel and two halves cover 68 as two panels do, so nothing is said; 71 x 80
    needs 79, the two panels' own limit, which halves (78) do not reach: a third panel."""
    for width, costs in ((60, False), (71, True)):
        cloth = "fabric = { preset = 'cotton-44', directional = true }\nseams = 'lengthwise'\n"
        text = f"[top]\nwidth = {width}\nlength = 80\n[backing]\ncentre = '{centre}'\n{cloth}"
        codes = [each.code for each in quoted(text).cautions]
        assert ("centre-panel" in codes) == (told and costs)
