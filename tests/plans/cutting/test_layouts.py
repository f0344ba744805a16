"""Layouts of random tops, from the text of a file to the cloth bought, against the pieces by definition."""

from hypothesis import given
from hypothesis import strategies as st

from tests.builders import quoted
from tests.cutting_checker import complaints
from tests.pieced_tops import Top, random_top
from tests.strategies import examples


@st.composite
def tops(draw: st.DrawFn) -> Top:
    """A random top, chosen by Hypothesis."""
    return random_top(lambda options: draw(st.sampled_from(options)))


def wrong(top: Top) -> list[str]:
    """Everything wrong with the cloth of a top."""
    needed, cloths = top.needed(), top.cloths
    bought = {purchase.fabric.name: purchase for purchase in quoted(top.text).plans.cloth}
    found = [f"{name} is bought, and not needed" for name in bought.keys() - needed.keys()]
    for name, needs in needed.items():
        purchase = bought.get(name)
        if not purchase:
            found.append(f"{name} is not bought")
            continue
        found += [f"{name}: {why}" for why in complaints(purchase.layouts, purchase.lengths, needs, cloths[name])]
    return found


@examples(500)
@given(top=tops())
def test_the_cloth_of_any_top_can_be_cut_as_it_is_laid(top: Top):
    """Every piece is there, inside the cloth, on its grain and cut from edge to edge; what is joined is long enough."""
    assert wrong(top) == []
