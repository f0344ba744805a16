"""The list of what to look at when a top arrives: the studio's lines, then those that the job's own facts ask for."""

import json
from pathlib import Path

import pytest

from finishcalc.commandline.views import quote_document
from finishcalc.rendering.writing import notation_of
from tests.builders import OUTPUT, TOP, in_shop, quote_text, quoted, with_top

SHOP = '[arrival]\nchecks = ["one thing", "another thing"]\n'


def lines(text: str) -> dict[str, str]:
    """The job's own lines, by what they are about."""
    result = quoted(text)
    notation = notation_of(result, "studio")
    return {
        each.key: notation.write(each.sentence).replace("\u00a0", " ")
        for each in result.arrival
        if each.key != "studio"
    }


def test_the_studio_s_own_lines_come_first_in_their_order(tmp_path: Path):
    result = in_shop(tmp_path, SHOP)
    page = quote_text(result, "studio")
    assert (
        "On arrival  [ ] one thing\n"
        "            [ ] another thing\n"
        "            [ ] the top measures 60 in x 80 in, as quoted\n"
        "\n"
        "Work order  "
    ) in page


def test_a_studio_without_lines_of_its_own_has_the_job_s(tmp_path: Path):
    result = in_shop(tmp_path, "[arrival]\nchecks = []\n")
    assert [each.key for each in result.arrival] == ["size"]


def test_the_sample_looks_at_what_the_trade_looks_at():
    """Open seams, wavy borders, square, stains, bleeding colours, hair."""
    page = quote_text(quoted(TOP), "studio")
    for word in ("open seams", "wavy", "square", "stains", "bleed", "hair"):
        assert f" {word}" in page


@pytest.mark.parametrize("fact", ["embellishments", "vinyl", "t_shirts", "dense_seams"])
def test_each_fact_of_the_job_adds_its_line_and_no_other(fact: str):
    plain = lines(TOP)
    told = lines(TOP + f"[job]\n{fact} = true\n")
    assert told.keys() - plain.keys() == {fact}


def test_vinyl_is_not_ironed_and_a_t_shirt_has_its_stabiliser():
    told = lines(TOP + "[job]\nvinyl = true\nt_shirts = true\n")
    assert "no iron" in told["vinyl"]
    assert "stabiliser" in told["t_shirts"]


@pytest.mark.parametrize(
    ("top", "is_one"),
    [
        ("width = 36\nlength = 52", True),
        ("use = 'crib'\nwidth = 50\nlength = 62", True),
        ("width = 60\nlength = 80", False),
        ("use = 'wall'\nwidth = 36\nlength = 52", False),
    ],
)
def test_what_may_lie_in_a_crib_has_nothing_that_comes_off(top: str, is_one: bool):
    """As safe sleep is said: by its use, or by a size of 45 x 60 at most."""
    assert ("crib" in {each.key for each in with_top(top).arrival}) is is_one


def test_a_round_top_is_measured_across():
    assert lines("[top]\ndiameter = 70\n")["size"] == "the top measures 70 in across, as quoted"


# ---- what the customer brings -------------------------------------------------------------------------------


def test_lengths_that_are_brought_are_measured_because_the_plan_rests_on_them():
    told = lines(TOP + '[backing]\nhave = ["5 yd", "30 in"]\n')
    assert told["backing"] == "5 yd + 30 in of quilting cotton, 44 in wide measured, for the backing"
    assert "cloth" not in told


def test_a_sewn_backing_is_measured():
    told = lines(TOP + "[backing]\nsewn = { width = 70, length = 90 }\n")
    assert told["backing"] == "the backing that is sewn measures 70 in x 90 in, and is square"


def test_cloth_and_batting_that_the_customer_supplies_are_to_be_here():
    """80 + 2 x 4 = 88 and 60 + 2 x 4 = 68 of batting; of the cloth for the binding what the quote says she supplies."""
    supplied = "[batting]\nsupplied_by = 'customer'\n[binding]\nsupplied_by = 'customer'\n"
    told = lines(TOP + supplied)
    assert told["batting"] == "the batting measures 68 in x 88 in at least"
    assert told["cloth"] == "5/8 yd of quilting cotton, 44 in wide is here, for binding"


def test_batting_that_is_joined_is_measured_piece_by_piece():
    """Neither piece measures the 68 x 88 in that both make: 45 + 45 = 90 by 90 in."""
    told = lines(TOP + "[batting]\nhave = [{ width = 45, length = 90 }, { width = 45, length = 92 }]\n")
    assert told["batting"] == "the batting to be joined measures 45 in x 90 in and 45 in x 92 in"
    assert not {"batting", "cloth"} & lines(TOP).keys()


# ---- cloth with a direction, and cloth that stretches -------------------------------------------------------


def test_a_backing_with_a_direction_has_the_top_edge_marked():
    assert "direction" not in lines(TOP)
    assert "marked" in lines(TOP + "[backing]\nfabric = { preset = 'cotton-44', directional = true }\n")["direction"]


PLUSH = "[backing]\nfabric = { preset = 'plush-60', width = 120 }\n"
"""One piece without a seam: the cloth lies along the quilt, and gives across it."""


@pytest.mark.parametrize(
    ("stretch", "says"),
    [
        ("across", "load it with the stretch along the rollers, as it is planned"),
        (
            "along",
            "load it with the stretch along the rollers; as it is planned, upright, the stretch would run between",
        ),
        ("none", None),
    ],
)
def test_cloth_that_stretches_is_loaded_with_its_stretch_along_the_rollers(stretch: str, says: str | None):
    """60 x 80 lies upright: its width along the rollers, and so does the width of a cloth that runs down it."""
    text = TOP + PLUSH.replace("width = 120", f"width = 120, stretch = '{stretch}'")
    assert quoted(text).plans.quilting.loading.way == "upright"  # type: ignore[union-attr]
    assert says in lines(text).get("stretch", "") if says else "stretch" not in lines(text)


def test_a_quilt_that_is_loaded_sideways_turns_the_stretch(tmp_path: Path):
    """100 x 60 with 4 in over on every side is 108 wide, and a frame of 90 holds its 68 only."""
    text = "[top]\nwidth = 100\nlength = 60\n" + PLUSH + "[quilting]\nstyle = { preset = 'custom', may_turn = true }\n"
    result = in_shop(tmp_path, "[frame]\nwidest = 90\n", text)
    assert result.plans.quilting.loading
    assert result.plans.quilting.loading.way == "sideways"
    (said,) = (each.sentence for each in result.arrival if each.key == "stretch")
    assert "as it is planned, {way}, the stretch would run between them" in said.text


def test_off_the_frame_a_cloth_that_stretches_is_basted_closely():
    told = lines(TOP + PLUSH + "[quilting]\nmethod = 'domestic-machine'\n")
    assert told["stretch"].endswith("stretches: it is basted closely, and not pulled")


def test_the_plush_presets_stretch_across():
    for name in ("plush-60", "plush-150", "plush-wide-90", "plush-wide-230"):
        backing = quoted(f"{TOP}[backing]\nfabric = '{name}'\n").plans.backing
        assert backing
        assert backing.fabric.stretch == "across"


# ---- who reads it -------------------------------------------------------------------------------------------


def test_the_list_is_the_studio_s_alone(tmp_path: Path):
    result = in_shop(tmp_path, SHOP, TOP + "[job]\nvinyl = true\n")
    holding = [name for name, output in OUTPUT.items() if "another thing" in output(result)]
    assert holding == ["studio", "studio, explained", "narrow", "studio's document"]
    assert "another thing" not in quote_text(result, "customer", explain=True, defaults=True)
    document = json.loads(quote_document(result))
    assert document["arrival"][:2] == [
        {"key": "studio", "text": "one thing"},
        {"key": "studio", "text": "another thing"},
    ]
    assert [each["key"] for each in document["arrival"]] == ["studio", "studio", "size", "vinyl"]
