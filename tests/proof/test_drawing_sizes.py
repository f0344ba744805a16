"""An outside renderer measures the texts of every drawing at every size with a real font, and a wide one at that."""

from itertools import combinations

import pytest

from finishcalc.rendering.pictures.drawn import drawing_svg
from tests.proof.test_diagrams import width_of
from tests.rendering.pictures.parsed import Parsed
from tests.rendering.pictures.test_drawing_sizes import NAMES, SIZES, each_drawing, sizes_drawing


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_no_text_runs_into_another_out_of_its_piece_or_off_the_sheet(name: str, size: str):
    for drawing in [*each_drawing(name, size), sizes_drawing()]:
        parsed = Parsed(drawing_svg(drawing, SIZES[size]), width_of)
        for each in parsed.texts:
            assert each.place.is_within(parsed.sheet), (drawing.name, each)
        for one, other in combinations(parsed.texts, 2):
            assert not one.place.meets(other.place), (drawing.name, one, other)
        for each in parsed.texts:
            middle = (each.place.left + each.place.right) / 2, (each.place.top + each.place.bottom) / 2
            around = [piece for piece in parsed.pieces if piece.holds(*middle)]
            if around:  # the last is drawn over those beneath it
                assert each.place.is_within(around[-1]), (drawing.name, each, around)
