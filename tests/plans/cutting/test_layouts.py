"""Layouts of random tops, from the text of a file to the cloth bought, against the pieces by definition."""

from hypothesis import given
from hypothesis import strategies as st

from tests.builders import quoted
from tests.cutting_checker import complaints
from tests.pieced_tops import Top, random_top
from tests.strategies import examples


def tops(on_point: bool) -> st.SearchStrategy[Top]:
    """Random tops, chosen by Hypothesis."""

    @st.composite
    def drawn(draw: st.DrawFn) -> Top:
        return random_top(lambda options: draw(st.sampled_from(options)), on_point)

    return drawn()


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


@examples(250)
@given(top=tops(on_point=False))
def test_the_cloth_of_a_straight_top_can_be_cut_as_it_is_laid(top: Top):
    """Every piece is there, inside the cloth, on its grain and cut from edge to edge; what is joined is long enough."""
    assert wrong(top) == []


@examples(250)
@given(top=tops(on_point=True))
def test_the_cloth_of_a_top_on_point_can_be_cut_as_it_is_laid(top: Top):
    """Squares for the triangles at its edge are among the pieces."""
    assert wrong(top) == []
