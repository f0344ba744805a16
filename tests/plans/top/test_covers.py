"""Covers of beds and tables: their sizes, how they hang, and what to be careful of."""

import json
import math
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_document
from finishcalc.intake import presets
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length
from finishcalc.model.cover import Cover, Table
from finishcalc.pipeline import Finishing, finish
from finishcalc.problems import ProblemsFound
from finishcalc.wording.notation import NO_BREAK, Notation
from tests.builders import inches, mattress, quote_text, quoted, table_top
from tests.strategies import examples


def cover(lines: str, top: str = "", units: str = "in") -> Finishing:
    return quoted(f'units = "{units}"\n[top]\n{top}\n[top.covers]\n{lines}\n')


def page(result: Finishing, explain: bool = False) -> str:
    """The customer's page, as one line."""
    return " ".join(quote_text(result, "customer", explain).split())


def size(result: Finishing, unit: str = "in") -> tuple[Fraction, Fraction]:
    shape = result.plans.top.shape
    return shape.width.to(unit), shape.length.to(unit)


def codes(result: Finishing) -> set[str]:
    return {each.code for each in result.cautions}


# --- sizes: worked examples ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bed", "width", "length"), [("twin", 63, 87), ("full", 78, 87), ("queen", 84, 92), ("king", 100, 92)]
)
def test_bed_covers_that_hang_12_without_a_tuck(bed: str, width: int, length: int):
    """A classroom lesson on quilt yardage: 12 in drop, no tuck."""
    assert size(cover(f'bed = "{bed}"\ndrop = 12\npillow_tuck = 0')) == (width, length)


@pytest.mark.parametrize(("bed", "width", "length"), [("queen", 88, 104), ("king", 104, 104)])
def test_covers_with_a_tuck_for_the_pillows(bed: str, width: int, length: int):
    """Derived: mattress + 2 x 14 wide, mattress + 14 + 10 long."""
    assert size(cover(f'bed = "{bed}"\ndrop = 14\npillow_tuck = 10')) == (width, length)


def test_the_foot_may_hang_otherwise_than_the_sides():
    """60 + 2 x 14 = 88; 80 + 18 + 0 = 98 (derived)."""
    assert size(cover('bed = "queen"\ndrop = 14\nfoot_drop = 18')) == (88, 98)


@pytest.mark.parametrize(("drop", "across", "edge"), [(10, 80, "251.33"), (15, 90, "282.74"), (30, 120, "376.99")])
def test_round_cloths(drop: int, across: int, edge: str):
    """A round table of 60: cloth and edge, pi x d (derived)."""
    result = cover(f"table = {{ diameter = 60 }}\ndrop = {drop}")
    assert size(result) == (across, across)
    assert result.plans.top.shape.name == "round"
    assert round(float(result.plans.top.shape.perimeter.to("in")), 2) == float(edge)


@pytest.mark.parametrize(
    ("table", "drop", "width", "length", "edge"), [("42x72", 10, 62, 92, 308), ("36x60", 12, 60, 84, 288)]
)
def test_rectangular_cloths(table: str, drop: int, width: int, length: int, edge: int):
    """Table and drop, cloth and edge (derived)."""
    sides = "width = {}, length = {}".format(*table.split("x"))
    result = cover(f'table = {{ shape = "rectangle", {sides} }}\ndrop = {drop}')
    assert size(result) == (width, length)
    assert result.plans.top.shape.perimeter == inches(edge)


def test_an_oval_cloth():
    """42 x 72 with a drop of 10: axes 62 x 92, edge 244.203 by the complete elliptic integral (derived)."""
    result = cover('table = { shape = "oval", width = 42, length = 72 }\ndrop = 10')
    assert size(result) == (62, 92)
    assert result.plans.top.shape.name == "oval"
    assert round(float(result.plans.top.shape.perimeter.to("in")), 3) == 244.203


def test_quilting_draws_a_cover_up():
    """A bed that needs 88 x 104 at 3 % wants a top of 90.72 x 107.22: by division, not 88 x 1.03 (derived)."""
    result = cover('bed = "queen"\ndrop = 14\npillow_tuck = 10\ndraw_up = "3 %"')
    width, length = size(result)
    assert (width, length) == (Fraction(8800, 97), Fraction(10400, 97))
    assert (round(float(width), 2), round(float(length), 2)) == (90.72, 107.22)
    assert width * Fraction(97, 100) == 88
    assert "90 3/4 x 107 1/4 in, unfinished size" in page(result)
    assert "quilting draws it up by 3 %" in page(result)
    assert "finished about 88 x 104 in" in page(result)


def test_a_square_corner_hangs_root_2_times_the_drop():
    """12 -> 16.97 (derived)."""
    covers = cover('bed = "queen"\ndrop = 12').plans.top.covers
    assert covers
    assert round(float(covers.corner_hang(inches(0)).to("in")), 2) == 16.97
    assert "a square corner hangs 17 in" in page(cover('bed = "queen"\ndrop = 12'))


@examples(100)
@given(st.fractions(0, 40, max_denominator=16), st.fractions(0, 40, max_denominator=16))
def test_the_corner_is_the_diagonal_of_the_two_drops_and_never_short(aside: Fraction, down: Fraction):
    covers = Cover(mattress(60, 80), inches(aside), inches(down), inches(0), Fraction(0))
    assert covers.corner_hang(inches(0)).mm ** 2 >= inches(aside).mm ** 2 + inches(down).mm ** 2
    assert math.isclose(covers.corner_hang(inches(0)).to("in"), math.hypot(aside, down), abs_tol=1e-9)


@examples(50)
@given(st.integers(0, 20), st.fractions(0, Fraction(1, 5), max_denominator=1000))
def test_what_is_left_once_quilted_is_what_the_cover_needs(drop: int, draw_up: Fraction):
    covers = Cover(table_top(36, 60), inches(drop), inches(drop), inches(0), draw_up)
    assert tuple(Length(side.mm * (1 - draw_up)) for side in covers.size) == covers.quilted
    assert covers.quilted == (inches(36 + 2 * drop), inches(60 + 2 * drop))


# --- presets -------------------------------------------------------------------------------------------------

MATTRESSES = {
    "twin": (39, 75),
    "twin-xl": (39, 80),
    "full": (54, 75),
    "queen": (60, 80),
    "king": (76, 80),
    "california-king": (72, 84),
    "uk-single": (36, 75),
    "uk-double": (54, 75),
    "uk-king": (60, 78),
    "uk-super-king": (72, 78),
}
"""General encyclopedia, table of bed sizes."""


@pytest.mark.parametrize("name", MATTRESSES)
def test_beds_are_as_large_as_the_table_of_bed_sizes_says(name: str):
    assert size(cover(f'bed = "{name}"\ndrop = 0')) == MATTRESSES[name]


@pytest.mark.parametrize("width", [90, 140, 160, 180])
def test_continental_beds_are_2_m_long(width: int):
    """General encyclopedia, table of bed sizes."""
    name = next(name for name in presets.names("beds", "cm") if name.endswith(str(width)))
    assert size(cover(f'bed = "{name}"\ndrop = 0', units="cm"), "cm") == (width, 200)


def test_a_full_size_crib_is_28_by_52_and_three_eighths():
    """16 CFR 1508.3 (1973), now 16 CFR part 1219."""
    assert size(cover('bed = "crib"\ndrop = 0')) == (28, Fraction(419, 8))


@pytest.mark.parametrize("units", ["in", "cm"])
@pytest.mark.parametrize("kind", ["beds", "tables"])
def test_every_bed_and_table_makes_a_quote_in_either_system(kind: str, units: str):
    names = presets.names(kind, units)
    assert len(names) >= 9
    for name in names:
        result = cover(f'{kind[:-1]} = "{name}"', units=units)
        assert result.quote.total.minor > 0
        assert result.plans.top.use in (("bed", "crib") if kind == "beds" else ("tablecloth",))


@pytest.mark.parametrize("units", ["in", "cm"])
def test_tables_are_as_high_as_tables_are(units: str):
    """28 to 34 in for an accessible dining surface (2010 ADA Standards 902.3), 28-30 usual (textbooks, from memory)."""
    for name in presets.names("tables", units):
        covers = cover(f'table = "{name}"', units=units).plans.top.covers
        assert covers
        assert isinstance(covers.what, Table)
        assert covers.what.height
        assert inches(28) <= covers.what.height <= inches(34)


def test_a_shop_may_have_beds_of_its_own(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[beds.bunk]\nname = 'ship bunk'\nwidth = 30\nlength = 72\n[usual.top.covers]\ndrop = 8\n")
    found = resolve(Source("t.toml", "[top.covers]\nbed = 'bunk'\n"), str(shop)).project.top
    assert (found.width, found.length) == (inches(46), inches(80))


# --- what follows --------------------------------------------------------------------------------------------


def test_what_is_covered_says_the_use_unless_the_project_does():
    assert cover('bed = "queen"').plans.top.use == "bed"
    assert cover('table = "card"').plans.top.use == "tablecloth"
    assert cover('table = "card"', top='use = "wall"').plans.top.use == "wall"


def test_a_shop_that_makes_tablecloths_still_covers_beds(tmp_path: Path):
    """What the shop's projects usually are gives way to what this one covers."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[usual.top]\nuse = 'tablecloth'\n")
    assert resolve(Source("t.toml", "[top.covers]\nbed = 'queen'\n"), str(shop)).project.top.use == "bed"


@pytest.mark.parametrize(
    "bed", ['"crib"', '"small-crib"', "{ width = 28, length = 52 }", "{ width = 55, length = '30 5/8' }"]
)
def test_a_cover_for_a_crib_carries_the_safe_sleep_caution(bed: str):
    """AAP, Pediatrics 150(1) e2022057990, 2022; crib sizes by 16 CFR 1220.1(c)(1)."""
    assert "safe-sleep" in codes(cover(f"bed = {bed}\ndrop = 12"))


@pytest.mark.parametrize(
    ("bed", "width", "length"),
    [('"crib"', 28, "52 3/8"), ('"small-crib"', 24, 38), ("{ width = 28, length = 52 }", 28, 52)],
)
def test_a_cover_for_a_crib_is_as_large_as_its_mattress(bed: str, width: int, length: int | str, tmp_path: Path):
    """A shop's usual drop is for beds. 28 x 52 3/8 is the full-size crib of 16 CFR 1508.3."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[usual.top.covers]\ndrop = 14\npillow_tuck = 10\n")
    text = f"[top.covers]\nbed = {bed}\n"
    for result in (quoted(text), quoted(text, shop)):
        top = result.plans.top
        assert (top.shape.width, top.shape.length) == (inches(width), inches(length))
        assert not codes(result) & {"crib-drop", "mattress-shows"}
        assert "has no drop" in page(result, "studio")
        assert "hangs" not in page(result, "studio")
        assert "would hang" not in page(result, "studio")


def test_a_drop_over_a_crib_is_kept_where_it_is_asked_for_and_warned_of():
    """28 + 2 x 6 = 40 by 52 3/8 + 6 = 58 3/8."""
    result = cover('bed = "crib"\ndrop = 6')
    assert size(result) == (40, Fraction(467, 8))
    assert "crib-drop" in codes(result)
    assert "crib-drop" in codes(cover('bed = "crib"\nfoot_drop = 6'))
    assert "crib-drop" not in codes(cover('bed = "twin"\ndrop = 6'))


@pytest.mark.parametrize("use", ["bed", "throw", "wall", "crib", "tablecloth"])
@pytest.mark.parametrize("drop", [0, 12, 20])
def test_it_does_so_whatever_its_use_is_called(use: str, drop: int):
    result = quoted(f"[top]\nuse = '{use}'\n[top.covers]\nbed = 'crib'\ndrop = {drop}\n")
    assert "safe-sleep" in codes(result)


@pytest.mark.parametrize("bed", ['"twin"', "{ width = 31, length = 55 }", "{ width = 30, length = '55 1/8' }"])
def test_a_cover_for_a_larger_bed_does_not(bed: str):
    assert "safe-sleep" not in codes(cover(f"bed = {bed}\ndrop = 12"))


@pytest.mark.parametrize(("drop", "shows"), [(11, True), (12, False)])
def test_a_short_drop_lets_the_mattress_show(drop: int, shows: bool):
    """A queen preset is 12 deep; the top is made larger for what quilting takes."""
    made_larger = "draw_up = '3 %'\nbed = 'queen'\n"
    assert ("mattress-shows" in codes(cover(f"{made_larger}drop = {drop}"))) is shows
    assert ("mattress-shows" in codes(cover(f"{made_larger}drop = 12\nfoot_drop = {drop}"))) is shows


@pytest.mark.parametrize(("drop", "rest"), [(14, 1), (15, None)])
def test_a_mattress_that_shows_once_the_cover_is_finished(drop: int, rest: int | None):
    """A queen is 80 long and its mattress 12 deep. Of 94 in quilting takes 3 %: 91.18 are left, 11.18 at the foot, so
    0.82 shows; of 95 in 92.15 are left, 12.15 at the foot (derived)."""
    found = cover(f"bed = 'queen'\ndrop = {drop}\n[quilting]\nstyle = 'medium-pantograph'\n").cautions
    told = [each for each in found if each.code == "mattress-shows"]
    assert [Notation("in").write(each.sentence).replace(NO_BREAK, " ") for each in told] == (
        [f"The mattress is 12 in deep and the cover hangs less once finished: up to {rest} in of it shows."]
        if rest
        else []
    )


@pytest.mark.parametrize(
    ("table", "drop", "code"),
    [
        ("{ diameter = 60, height = 29 }", 28, None),
        ("{ diameter = 60, height = 29 }", 29, "reaches-the-floor"),
        ("{ width = 36, length = 60, height = 29 }", 20, None),  # corners 28.28
        ("{ width = 36, length = 60, height = 29 }", "20.51", "corners-reach-the-floor"),  # 29.005
        ("{ width = 36, length = 60, height = 29 }", 29, "reaches-the-floor"),
        ("{ width = 36, length = 60 }", "19.79", None),  # 27.99, where tables are 28 high
        ("{ width = 36, length = 60 }", "19.8", "corners-reach-the-floor"),  # 28.002
        ("{ diameter = 60 }", 28, "reaches-the-floor"),
    ],
)
def test_a_cloth_that_reaches_the_floor_trips_people(table: str, drop: int | str, code: str | None):
    """Corners hang drop x root 2 (derived). Tables are 28-30 high (textbooks, from memory)."""
    found = codes(cover(f"table = {table}\ndrop = {drop}"))
    assert found & {"reaches-the-floor", "corners-reach-the-floor"} == ({code} if code else set())


@pytest.mark.parametrize(("height", "code"), [(20, "reaches-the-floor"), (28, "corners-reach-the-floor"), (29, None)])
def test_a_shop_says_how_high_tables_are(height: int, code: str | None, tmp_path: Path):
    """A drop of 20 hangs 28.28 at a square corner (derived)."""
    shop = tmp_path / "shop.toml"
    shop.write_text(f"[measuring]\ntable_height = {height}\n")
    text = "[top.covers]\ntable = { width = 36, length = 60 }\ndrop = 20\n"
    found = codes(finish(resolve(Source("t.toml", text), str(shop))))
    assert found & {"reaches-the-floor", "corners-reach-the-floor"} == ({code} if code else set())


def test_rounded_corners_do_not_reach_the_floor():
    lines = "table = { width = 36, length = 60, height = 29 }\ndrop = 21"
    assert "corners-reach-the-floor" in codes(cover(lines))
    assert "corners-reach-the-floor" not in codes(cover(lines, top="corner_radius = 21"))


def test_a_small_radius_does_not_keep_a_corner_off_the_floor():
    """Drop 27, radius 1: root 2 x 26 + 1 = 37.77 (derived), on a card table 28 high."""
    assert "corners-reach-the-floor" in codes(cover('table = "card"\ndrop = 27', top="corner_radius = 1"))
    covers = cover('table = "card"\ndrop = 27').plans.top.covers
    assert covers
    assert round(float(covers.corner_hang(inches(1)).to("in")), 2) == 37.77
    assert covers.corner_hang(inches(40)) == inches(27)


def test_a_rounded_cover_says_nothing_of_square_corners():
    lines = 'bed = "queen"\ndrop = 12'
    assert "square corner" not in page(cover(lines, top="corner_radius = 6"), explain=True)
    assert json.loads(quote_document(cover(lines, top="corner_radius = 6")))["top"]["covers"]["corner_hang"] is None


def test_a_round_cover_is_drawn_up_once():
    assert page(cover("table = { diameter = 60 }\ndrop = 10\ndraw_up = '3 %'"), explain=True).count("/ (1 - 3 %)") == 1


def test_the_shape_of_a_cover_stands_over_the_shop_s_usual_one(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[usual.top]\nshape = 'oval'\n")
    assert resolve(Source("t.toml", "[top.covers]\nbed = 'queen'\n"), str(shop)).project.top.shape == "rectangle"


def test_the_caution_defers_to_local_rules():
    found = page(cover("table = { diameter = 60, height = 29 }\ndrop = 30"))
    assert "trips people" in found
    assert "follow your local rules" in found


def test_the_working_can_be_added_up_on_paper():
    found = page(cover('bed = "queen"\ndrop = 14\npillow_tuck = 10'), explain=True)
    assert "Width: 60 in + 2 x 14 in drop = 88 in" in found
    assert "Length: 80 in + 14 in drop at the foot + 10 in pillow tuck = 104 in" in found


def test_the_document_says_what_is_covered():
    top = json.loads(quote_document(cover('bed = "queen"\ndrop = 12\ndraw_up = "3 %"')))["top"]
    assert top["covers"] == {
        "bed": {"name": "queen bed", "width": 60, "length": 80, "depth": 12},
        "table": None,
        "drop": 12,
        "foot_drop": 12,
        "pillow_tuck": 0,
        "draw_up": "3",
        "quilted": {"width": 84, "length": 92},
        "corner_hang": 16.971,
    }
    table = json.loads(quote_document(cover('table = "round-6"')))["top"]["covers"]
    assert table["table"] == {"shape": "round", "name": "round table for six", "width": 60, "length": 60, "height": 29}
    assert (table["bed"], table["foot_drop"], table["corner_hang"]) == (None, None, None)


def test_bias_binds_a_round_cover():
    result = cover('table = "round-4"')
    assert result.plans.binding
    assert result.plans.binding.cut == "bias"


def test_a_cover_of_nothing_is_refused():
    with pytest.raises(ProblemsFound):
        cover("drop = 12")
