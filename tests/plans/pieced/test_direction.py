"""Cloth with a direction in a pieced top: which way strips run on it, and what of its print does not stand upright."""

import json

import pytest

from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length
from finishcalc.pipeline import Finishing, finish
from finishcalc.plans.cutting.layout import LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.pieced.pieces import Pieces
from finishcalc.plans.pieced.plan import PiecedPlan
from tests.builders import cut_text, inches

CENTRE = "[top.centre]\nwidth = 60\nlength = 70\n[[top.borders]]\ncut = 6\n"


def fabric(key: str = "fabric", **says: object) -> str:
    keys = "".join(f", {name} = {json.dumps(value)}" for name, value in says.items())
    return f"{key} = {{ preset = 'cotton-44', name = 'willow'{keys} }}\n"


ONE_WAY = fabric(directional=True)
SASHED = "[top.blocks]\nacross = 3\ndown = 4\nsize = 12\n[top.sashing]\nwidth = 2\n"


def worked_out(text: str) -> Finishing:
    return finish(resolve(Source("pieced", text)))


def plan(text: str) -> PiecedPlan:
    found = worked_out(text).plans.pieced
    assert found
    return found


def runs(pieces: tuple[Pieces, ...]) -> list[tuple[Length, int, str]]:
    return [(each.length, each.number, each.run) for each in pieces]


def willow(text: str) -> Purchase:
    (found,) = (each for each in worked_out(text).plans.cloth if each.fabric.name == "willow")
    return found


def laid(text: str) -> list[LaidPiece]:
    return [placed.piece for layout in willow(text).layouts for placed in layout.placed]


def along(text: str) -> set[Length]:
    """The lengths of the strips that lie along the cloth."""
    return {piece.wanted.joined_to for piece in laid(text) if piece.along == piece.wanted.length}


def across(text: str) -> set[Length]:
    """The lengths of the strips that lie across the cloth."""
    return {piece.wanted.joined_to for piece in laid(text) if piece.across == piece.wanted.length}


def codes(text: str) -> list[str]:
    return [each.code for each in plan(text).cautions]


def test_an_upright_print_runs_along_the_sides_and_across_top_and_bottom():
    """Sides of 70 in, then 60 + 2 x 6 - 4 x 1/4 = 71 in for top and bottom."""
    found = plan(CENTRE + ONE_WAY)
    assert runs(found.pieces.rounds[0].strips) == [(inches(70), 2, "along"), (inches(71), 2, "across")]
    assert (along(CENTRE + ONE_WAY), across(CENTRE + ONE_WAY)) == ({inches(70)}, {inches(71)})


def test_a_print_along_the_strips_takes_them_all_along_the_cloth():
    """4 strips of 6 in beside each other in 40 in, the longest 71 in."""
    text = CENTRE + 'print = "along"\n' + ONE_WAY
    assert (along(text), across(text)) == ({inches(70), inches(71)}, set())
    assert willow(text).cut_length == inches(71)


@pytest.mark.parametrize("strips", ["crosswise", "lengthwise"])
def test_the_direction_goes_before_the_grain_that_is_asked_for(strips):
    text = CENTRE + f'strips = "{strips}"\n' + ONE_WAY
    assert (along(text), across(text)) == ({inches(70)}, {inches(71)})


def test_a_pile_runs_down_whatever_is_said_of_a_print():
    found = plan(CENTRE + 'print = "along"\n' + fabric(nap=True))
    assert [each.run for each in found.pieces.rounds[0].strips] == ["along", "across"]


def test_the_print_of_cloth_without_a_direction_changes_nothing():
    either = [plan(CENTRE + f'print = "{way}"\n' + fabric()) for way in ("up", "along")]
    assert {pair.run for each in either for pair in each.pieces.rounds[0].strips} == {"any"}
    assert either[0].cuts == either[1].cuts


def test_the_piecing_says_the_way_of_every_print():
    found = plan('[top.piecing]\nprint = "along"\n' + CENTRE + ONE_WAY)
    assert {pair.run for pair in found.pieces.rounds[0].strips} == {"along"}


def test_sashing_is_told_apart_by_the_way_it_lies_where_its_cloth_has_a_direction():
    """3 x 4 with sashing all round and cornerstones: 4 upright strips in each of 4 rows, 3 level ones in each of 5."""
    round_all = "outer = true\ncornerstones = true\n"
    strip = inches("12 1/2")
    assert runs(plan(SASHED + round_all + ONE_WAY).pieces.sashing) == [(strip, 16, "along"), (strip, 15, "across")]
    assert runs(plan(SASHED + round_all + fabric()).pieces.sashing) == [(strip, 31, "any")]
    both_along = plan(SASHED + round_all + 'print = "along"\n' + ONE_WAY)
    assert runs(both_along.pieces.sashing) == [(strip, 31, "along")]


def test_long_strips_between_rows_are_level():
    """2 upright strips in each of 4 rows; 3 long ones of 3 x 12 + 2 x 2 + 1/2 = 40 1/2 in."""
    assert runs(plan(SASHED + ONE_WAY).pieces.sashing) == [
        (inches("12 1/2"), 8, "along"),
        (inches("40 1/2"), 3, "across"),
    ]


ON_POINT = '[top.blocks]\nacross = 3\ndown = 4\nsize = 10\nsetting = "on-point"\nplain = "setting"\n'


def test_triangles_of_a_directional_cloth_point_different_ways():
    assert "triangles-one-way" in codes(ON_POINT + ONE_WAY)
    assert "triangles-one-way" not in codes(ON_POINT + fabric())
    patches = "[top.blocks]\nacross = 2\ndown = 2\nsize = 12\n[[top.blocks.patches]]\nnumber = 2\nwidth = 4\n" + ONE_WAY
    assert "triangles-one-way" not in codes(patches)
    assert "triangles-one-way" in codes(patches + 'triangles = "once"\n')


def test_a_directional_cloth_hangs_slanted_on_point():
    assert "slanted-one-way" in codes(ON_POINT + fabric("plain_fabric", directional=True))
    assert "slanted-one-way" not in codes(ON_POINT.replace('setting = "on-point"\nplain = "setting"', "plain = 'all'"))


def test_sashing_on_point_stands_slanted_unless_its_print_runs_along_it():
    text = ON_POINT + "[top.sashing]\nwidth = 2\nouter = true\ncornerstones = true\ncorner_fabric = 'none'\n" + ONE_WAY
    assert ("slanted-one-way" in codes(text), plan(text).pieces.sashing[0].run) == (True, "any")
    text += 'print = "along"\n'
    assert ("slanted-one-way" in codes(text), plan(text).pieces.sashing[0].run) == (False, "along")


def test_the_length_of_a_directional_patch_is_the_way_of_its_print():
    """12 patches of 2 x 6 in, the print down their 6 in: all from a strip 6 in wide. Where it runs down the 2 in: six
    from a strip, 2 strips of 2 in."""
    text = "[top.blocks]\nacross = 3\ndown = 4\nsize = 12\n[[top.blocks.patches]]\nnumber = 1\n" + ONE_WAY
    assert willow(text + "width = 2\nlength = 6\n").cut_length == inches(6)
    assert willow(text + "width = 6\nlength = 2\n").cut_length == inches(4)


def test_a_mitred_strip_is_a_repeat_longer_where_its_print_runs_along_it():
    """70 + 2 x 6 + 2 to hold = 84, and 12 to match = 96; 74 and 86 for the others."""
    text = CENTRE + 'corners = "mitred"\n'
    matched = plan(text + 'print = "along"\n' + fabric(directional=True, repeat=12))
    assert [pair.length for pair in matched.pieces.rounds[0].strips] == [inches(96), inches(86)]
    upright = plan(text + fabric(directional=True, repeat=12))
    assert [pair.length for pair in upright.pieces.rounds[0].strips] == [inches(84), inches(74)]
    assert all("border-repeat" in [each.code for each in found.cautions] for found in (matched, upright))


def test_a_repeat_matters_only_where_strips_are_mitred_or_joined():
    """Strips of 20 and 31 in are cut in one piece across 40 in."""
    small = "[top.centre]\nwidth = 20\nlength = 20\n[[top.borders]]\ncut = 6\n"
    assert "border-repeat" not in codes(small + fabric(repeat=12))
    assert "border-repeat" in codes(CENTRE + fabric(repeat=12))


def test_the_pages_say_which_way_strips_run():
    result = worked_out(CENTRE + ONE_WAY)
    page = " ".join(cut_text(result).replace("\N{NO-BREAK SPACE}", " ").split())
    assert "border 1: the print stands upright; upright strips are cut along the cloth, level ones across it" in page
    (border,) = json.loads(quote_document(result, "studio"))["top"]["pieced"]["borders"]
    assert [pair["run"] for pair in border["strips"]] == ["along", "across"]
