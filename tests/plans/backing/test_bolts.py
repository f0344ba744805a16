"""Cloth from several bolts: what lies on each length, and that each is long enough and its print can meet."""

import re
from collections import Counter
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.backing.options import BackingOption
from finishcalc.rendering.pages.cut import picture_files
from finishcalc.wording.notation import plain_blanks
from tests.builders import backing_of, cloth, cut_text, inches, quote_text, with_top, yards
from tests.strategies import examples


def overlap(one, other) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    return across and one.y < other.y + other.length and other.y < one.y + one.length


def complaints(option: BackingOption, fabric: Fabric) -> list[str]:
    """What is wrong with an option's lengths, by their definition: pieces and leftovers tile each washed length, no
    piece lies on two, a printed panel begins on a repeat, or on a later bolt wherever the print allows."""
    told = []
    usable = (fabric.width - fabric.selvage * 2) * (1 - fabric.shrink_across)
    if Counter(cut.piece for each in option.bought_lengths for cut in each.cuts) != Counter(
        cut.piece for cut in option.layout.cuts
    ):
        told.append("a piece is missing or lies on two lengths")
    for place, (each, bought) in enumerate(zip(option.bought_lengths, option.lengths, strict=True)):
        washed = (bought - fabric.straighten) * (1 - fabric.shrink_along)
        boxes = [*each.cuts, *each.leftover]
        if any(overlap(one, other) for one, other in combinations(boxes, 2)):
            told.append("overlap")
        if any(box.y < ZERO or box.y + box.length > washed or box.x + box.width > usable for box in boxes):
            told.append("off the cloth")
        if sum(((box.width * box.length).mm2 for box in boxes), Fraction(0)) != (usable * washed).mm2:
            told.append("the length is not tiled")
        starts = sorted(cut.y for cut in each.cuts)
        if fabric.repeat and place and starts[0] < fabric.repeat:
            told.append("no room to find the print")
        if fabric.repeat and any(((start - starts[0]) / fabric.repeat).denominator != 1 for start in starts):
            told.append("the print does not meet")
        if fabric.bolt and bought > fabric.bolt and len(each.cuts) > 1 and len(set(starts)) > 1:
            told.append("more on a length than a bolt holds")
    return told


@examples(200)
@given(
    st.integers(20, 120), st.integers(20, 120), st.sampled_from([0, 2, 3, 4, 6]), st.sampled_from([0, 7, 12, 24]),
    st.integers(0, 6), st.sampled_from([0, 3, 5]), st.booleans(),
)  # fmt: skip
def test_every_length_of_every_option_is_proved(
    width: int, length: int, bolt: int, repeat: int, straighten: int, shrink: int, directional: bool
):
    fabric = cloth(
        bolt=yards(bolt), repeat=inches(repeat), straighten=inches(straighten), shrink_along=Fraction(shrink, 100),
        directional=directional,
    )  # fmt: skip
    for option in backing_of(width, length, fabric=fabric).options:
        assert complaints(option, fabric) == []


def test_each_later_panel_is_lengthened_and_not_the_first():
    """36x84 lengthwise is 44x92: off 24 in repeats the second panel starts at 96. From bolts of 3 yd (108 in) each has
    one of its own: 92 in for the first, 2 5/8 yd; 92 + 24 = 116 for the second, more than any bolt: 3 1/4 yd."""
    fabric = cloth(repeat=inches(24), bolt=yards(3))
    (option,) = (o for o in backing_of(36, 84, fabric=fabric, seams="lengthwise").options if o.layout.seams == 1)
    assert option.lengths == (yards("2 5/8"), yards("3 1/4"))
    assert [cut.y for each in option.bought_lengths for cut in each.cuts] == [ZERO, inches(24)]


def test_one_length_is_as_it_was():
    """44x60 at a repeat of 24 from one length: panels at 0 and 72, 132 in (derived)."""
    (option,) = (
        o
        for o in backing_of(36, 52, fabric=cloth(repeat=inches(24)), seams="lengthwise").options
        if o.layout.seams == 1
    )
    assert option.layout.cut_length == inches(132)
    assert [each.length for each in option.cut_lengths] == [inches(60), inches(72)]


BOLTED = (
    "width=60\nlength=80\n[backing]\nseams='lengthwise'\nfabric={ preset='cotton-44', bolt='3 yd', straighten=10 }\n"
)


def test_the_list_and_the_pictures_show_each_length():
    """88 + 10 in are 2 3/4 yd = 99 in; 89 in of it are left once it is squared, so an inch is left over on each."""
    result = with_top(BOLTED)
    text = " ".join(cut_text(result).split())
    assert "square the end of each length" in text
    assert "from length 1, 2 3/4 yd: 1. cut a length of 88 in" in text
    assert "from length 2, 2 3/4 yd: 2. cut a length of 88 in" in text
    assert list(picture_files(result)) == ["cloth-1.svg", "cloth-2.svg", "cloth-3.svg", "backing.svg"]
    assert [each.length for each in result.plans.backing.chosen.bought_lengths] == [inches(89)] * 2


def test_the_print_s_place_is_listed():
    text = " ".join(
        cut_text(with_top("width=60\nlength=80\n[backing]\nfabric={ preset='cotton-44', repeat=24 }\n")).split()
    )
    assert (
        "2. from 96 in on so that the print matches, cut a length of 88 in; from it, along the cloth, B (backing, "
        in text
    )


REPEATED = "width = {width}\nlength = 80\n[backing]\nfabric = {{ preset = 'cotton-44', name = 'birds', repeat = 24 }}\n"


def matched(text: str) -> list[str]:
    """The step that matches the print, on the cut list and on the studio's page."""
    result = with_top(text)
    pages = [" ".join(plain_blanks(page).split()) for page in (cut_text(result), quote_text(result, "studio"))]
    return [sentence for page in pages for sentence in re.findall("match the print .*? sew in the crease", page)]


@pytest.mark.parametrize(
    ("width", "more", "words"),
    [
        # 60 + 2 x 4 = 68 in from 2 panels of 40 in, less 2 x 1/2 in the seam: 80 - 69 = 11
        (60, "", "match the print at the seam: cut both sides that meet a seam allowance beyond the same place in the"),
        (60, "", "for which 11 in of width is to spare"),
        (60, "", "press the seam allowance of one panel under, lay the fold on the next until the motif meets"),
        # 2 x 40 - 1 = 79 = 71 + 2 x 4
        (71, "", "match the print at the seam: there is no width to spare, so the print meets along the seam only;"),
        # 3 x 40 - 2 = 118; 90 + 8 = 98
        (90, "", "match the print at each seam: cut both sides"),
        (90, "", "for which 20 in of width is to spare"),
        # 4 strips of 88 in yield 344 1/2 of 290 in, in the width beside the panels: 11 - 4 x 2 1/2 = 1
        (60, "[binding]\ncut = 'leftover'\nfabric = 'backing'\n", "for which 1 in of width is to spare"),
    ],
)
def test_panels_of_a_print_that_repeats_are_matched(width: int, more: str, words: str):
    """Common practice: the same place in the motif on both sides, one allowance pressed under and laid on the other."""
    found = matched(REPEATED.format(width=width) + more)
    assert len(found) == 2
    assert all(words in each for each in found)


def test_the_cuts_leave_the_width_that_is_to_spare_for_matching():
    """11 in are to spare beside two panels of 34 1/2 in on 40: 5 1/2 stay on each until they are matched. Nothing is
    left on panels without a repeat, or that are as wide as the cloth."""
    left = "leave the 5 1/2 in of width that is free on {} until the print is matched, then trim it off"
    cuts = " ".join(plain_blanks(cut_text(with_top(REPEATED.format(width=60)))).split())
    assert all(left.format(name) in cuts for name in "AB")
    assert "until the print is matched" not in cut_text(with_top(REPEATED.format(width=71)))
    assert "until the print" not in cut_text(with_top("width = 60\nlength = 80\n"))


def test_a_border_beside_the_panels_leaves_less_to_match_with():
    """The backing is 68 x 88 in of a top of 60 x 80, which is 56 x 76 with a border cut 2 1/2 in: the 4 strips of the
    border lie beside the panels as those of a binding do, so that 11 - 4 x 2 1/2 = 1 in is to spare (derived)."""
    birds = "fabric = { preset = 'cotton-44', name = 'birds', repeat = 24 }\n"
    border = f"[[top.borders]]\ncut = '2 1/2'\nstrips = 'lengthwise'\n{birds}"
    found = matched(f"[top.centre]\nwidth = 56\nlength = 76\n{border}[backing]\n{birds}")
    assert len(found) == 2
    assert all("for which 1 in of width is to spare" in each for each in found)


@pytest.mark.parametrize(
    "text", [REPEATED.format(width=30), "width = 60\nlength = 80\n[backing]\nfabric = 'cotton-44'\n"]
)
def test_nothing_is_matched_without_a_seam_or_a_repeat(text: str):
    assert not matched(text)


def test_dye_lots_are_asked_for_where_backing_and_binding_together_pass_a_bolt():
    """176 + 1 in are 5 yd, a bolt; the binding's 20 in come from another."""
    cloth_of = "fabric={ preset='cotton-44', name='print', bolt='5 yd', repeat='1/8' }\n"
    result = with_top(
        f"width=60\nlength=80\n[backing]\nseams='lengthwise'\n{cloth_of}[binding]\ncut='crosswise'\n{cloth_of}"
    )
    assert result.plans.backing.chosen.lengths == (yards(5),)
    assert len(result.plans.cloth[0].lengths) == 2
    assert "second-length" in [told.code for told in result.cautions]


def test_sizes_to_cut_fit_on_the_cloth():
    """Three strips side by side of 13 1/3 in each take the whole 40; rounded up to 13 3/8 the third would be short."""
    text = " ".join(cut_text(with_top("width='44 5/16'\nlength=80\n[backing]\nseam_count=3\n")).split())
    assert text.count("a scant 13 3/8 x ") == text.count(" in, 1/3 of the width") > 0
    assert "a scant size: a little less, because the cloth has no room for the whole" in text


@examples(150)
@given(st.integers(20 * 16, 110 * 16), st.integers(20 * 16, 110 * 16))
def test_listed_widths_never_add_up_to_more_than_the_cloth(width: int, length: int):
    """Each row of the list, its pieces as they are written, lies within the usable 40 in."""
    from re import findall

    from finishcalc.measures.numbers import from_text

    text = cut_text(with_top(f"width='{width}/16'\nlength='{length}/16'\n"), 80)
    for step in findall(r"\d+\. cut a length of .*?(?=\d+\. cut|Batting)", " ".join(text.split())):
        pieces = findall(r"\b[A-Z]\d? \(backing, ([0-9 /]+?) (?:x|in square)", step)
        assert pieces or "a scant" in step
        assert sum(map(from_text, pieces)) <= 40, step


@pytest.mark.parametrize("bolt", ["2 yd", "20 yd"])
def test_a_bolt_that_holds_no_panel_is_cautioned(bolt: str):
    fabric = f"{{ preset='cotton-44', bolt='{bolt}', directional=true }}"
    top = f"width=60\nlength=80\n[backing]\nseams='lengthwise'\nfabric={fabric}\n"
    assert ("bolt-too-short" in [told.code for told in with_top(top).cautions]) == (bolt == "2 yd")


def test_a_length_is_a_length() -> None:
    assert isinstance(inches(1), Length)
