"""Layouts of random tops, from the text of a file to the cloth bought, against the pieces by definition."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import Length
from finishcalc.pipeline import Finishing
from finishcalc.plans.cutting.layout import ClothLayout, Column, LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from tests.builders import quoted
from tests.cutting_checker import Needed, complaints, make_strips
from tests.pieced_tops import Top, random_top
from tests.strategies import examples


def tops(on_point: bool) -> st.SearchStrategy[Top]:
    """Random tops, chosen by Hypothesis."""

    @st.composite
    def drawn(draw: st.DrawFn) -> Top:
        return random_top(lambda options: draw(st.sampled_from(options)), on_point)

    return drawn()


ON_POINT, STRAIGHT = tops(on_point=True), tops(on_point=False)


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
@given(top=STRAIGHT)
def test_the_cloth_of_a_straight_top_can_be_cut_as_it_is_laid(top: Top):
    """Every piece is there, inside the cloth, on its grain and cut from edge to edge; what is joined is long enough."""
    assert wrong(top) == []


@examples(250)
@given(top=ON_POINT)
def test_the_cloth_of_a_top_on_point_can_be_cut_as_it_is_laid(top: Top):
    """Squares for the triangles at its edge are among the pieces."""
    assert wrong(top) == []


# --- a backing and a binding of the top's cloth ----------------------------------------------------------------------

STRIP = {"in": Fraction(5, 2), "cm": Fraction(6)}
EXTRA = {"in": 10, "cm": 25}
"""The width of the binding's strips, and what they are longer than the perimeter."""


def as_cut(layout: ClothLayout) -> ClothLayout:
    """A layout in which each piece of the backing is wanted as it is cut, up to the finest step of a ruler."""
    return layout._replace(
        bands=tuple(band._replace(columns=tuple(map(_as_cut, band.columns))) for band in layout.bands)
    )


def _as_cut(column: Column) -> Column:
    return column._replace(pieces=tuple(map(_piece_as_cut, column.pieces)))


def _piece_as_cut(piece: LaidPiece) -> LaidPiece:
    if piece.use != "backing":
        return piece
    return piece._replace(wanted=piece.wanted._replace(width=piece.across, length=piece.along, joined_to=piece.along))


def backing_pieces(result: Finishing, purchase: Purchase, finest: Length) -> list[Needed]:
    """The pieces of the backing as they lie: each is planned by itself, may not turn, and is less than a step wider."""
    backing = result.plans.backing
    assert backing
    assert backing.chosen
    planned = {cut.piece: cut for cut in backing.chosen.layout.cuts}
    laid = [placed.piece for layout in purchase.layouts for placed in layout.placed if placed.piece.use == "backing"]
    assert sorted(piece.wanted.name for piece in laid) == sorted(planned)
    for piece in laid:
        cut = planned[piece.wanted.name]
        assert cut.width <= piece.across < cut.width + finest
        assert piece.along == cut.length
    return [Needed("backing", piece.across, piece.along, 1, along=True, across=False, join=None) for piece in laid]


def binding_strips(purchase: Purchase, top: Top) -> tuple[list[Needed], bool]:
    """The strips of the binding as they lie, and whether they reach round the top: diagonal joins take their width."""
    unit = top.units.unit
    laid = [placed.piece for layout in purchase.layouts for placed in layout.placed if placed.piece.use == "binding"]
    width, around = Length.of(STRIP[unit], unit), sum(side.plain for side in top.sides) * 2 + EXTRA[unit]
    lengths = [piece.along if piece.across == width else piece.across for piece in laid]
    strips = [Needed("binding", width, length, 1, along=True, across=True, join=None) for length in lengths]
    return strips, make_strips([each.mm for each in lengths], 1, Length.of(around, unit).mm, width.mm)


@examples(50)
@given(top=STRAIGHT, cut=st.sampled_from(["crosswise", "lengthwise", "leftover"]))
def test_a_backing_and_a_binding_of_the_same_cloth_are_cut_with_the_top(top: Top, cut: str):
    """All of them lie on one length beside each other, none turned that may not, and the binding reaches round."""
    fabric = next(iter(top.fabrics.values()))
    keys = f'cut = "{cut}"\nstrip_width = "{float(STRIP[top.units.unit])}"\nextra = {EXTRA[top.units.unit]}\n'
    result = quoted(top.text_with_layers(fabric, keys))
    purchase = next(each for each in result.plans.cloth if "backing" in each.uses)
    strips, reach = binding_strips(purchase, top)
    assert reach
    backing = backing_pieces(result, purchase, Length.of(top.units.finest, top.units.unit))
    needed = [*top.needed().get(fabric.name, []), *backing, *strips]
    layouts = [as_cut(layout) for layout in purchase.layouts]
    assert complaints(layouts, purchase.lengths, needed, top.cloths[fabric.name]) == []
