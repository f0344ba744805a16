"""A side that is a little longer takes a little more cloth.

Each border has two strips on a side of the centre, so no more than two of them grow. Laid apart from all others, each
takes one more strip across the cloth at the most, as wide as it is cut: the part that it needs beyond whole widths of
the cloth is longer by an eighth of an inch, or is the first. Along the cloth two strips grow by an eighth each.
"""

from fractions import Fraction
from typing import NamedTuple

from hypothesis import example, given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.cutting.purchases import Purchase
from tests.builders import quoted
from tests.pieced_tops import INCH, Border, Fabric, Part, Top
from tests.strategies import examples

EIGHTH = Fraction(1, 8)
COTTON = Fabric("cream", Fraction(44), Fraction(2), Fraction(1), 0, 0)
STEP = Length.of(EIGHTH, "yd")

SIDES = st.one_of(
    st.integers(12 * 8, 110 * 8).map(lambda eighths: eighths * EIGHTH),
    st.sampled_from(["38", "40", "60", "70", "73", "75", "77", "78", "79", "79.5", "80", "111", "117"]).map(Fraction),
)
"""Any, and those at which borders begin to need another strip: 40, or 40 + 40 less a join, or a third."""


@st.composite
def borders(draw: st.DrawFn) -> tuple[Border, ...]:
    """Borders of one cloth. The grain is for the test to say."""
    cuts = draw(st.lists(st.sampled_from(INCH.cuts), min_size=1, max_size=3))
    corners = st.sampled_from(["butted", "cornerstones", "mitred"])
    part = Part(COTTON, COTTON, "any", draw(st.sampled_from(["diagonal", "straight"])))
    first = draw(st.sampled_from(["sides", "top-and-bottom"]))
    return tuple(Border(part, Fraction(cut), draw(corners), first) for cut in cuts)


THIN = Border(Part(COTTON, COTTON, "any", "diagonal"), Fraction(1), "butted", "sides")


class Grown(NamedTuple):
    """The cloth of borders round a centre, and of the same round one that is an eighth longer on one side."""

    borders: tuple[Border, ...]
    before: Purchase
    after: Purchase

    @property
    def strips(self) -> Length:
        """Two strips a border, as wide as each is cut."""
        return Length.of(sum(2 * border.cut for border in self.borders), "in")

    def bought_with(self, more: Length) -> Length:
        """The whole steps that hold the cloth of before, with some more of it; squaring takes 1 in."""
        needs = sum((layout.length for layout in self.before.layouts), ZERO) + more + Length.of(1, "in")
        return STEP * -(-needs // STEP)


def grown(borders: tuple[Border, ...], strips: str, centre: tuple[Fraction, Fraction], wider: bool) -> Grown:
    cut = tuple(border._replace(part=border.part._replace(strips=strips)) for border in borders)
    width, length = centre
    longer = (width + EIGHTH, length) if wider else (width, length + EIGHTH)
    before, after = (_bought(cut, sides) for sides in (centre, longer))
    return Grown(cut, before, after)


def _bought(borders: tuple[Border, ...], centre: tuple[Fraction, Fraction]) -> Purchase:
    (purchase,) = quoted(Top(INCH, EIGHTH * 2, None, centre, None, borders).text).plans.cloth
    return purchase


def joins(purchase: Purchase) -> int:
    """The parts that are joined, less one for each of their strips."""
    laid = [placed.piece.wanted for layout in purchase.layouts for placed in layout.placed]
    parts = [wanted for wanted in laid if not wanted.use.endswith("cornerstones")]
    return len(parts) - 4 * len({wanted.use for wanted in parts})


@examples(40)
@given(borders=borders(), centre=st.tuples(SIDES, SIDES), wider=st.booleans())
def test_across_the_cloth_an_eighth_adds_two_strips_a_border_at_most(
    borders: tuple[Border, ...], centre: tuple[Fraction, Fraction], wider: bool
):
    found = grown(borders, "crosswise", centre, wider)
    assert found.after.amount <= found.bought_with(found.strips)


@examples(40)
@given(borders=borders(), centre=st.tuples(SIDES, SIDES), wider=st.booleans())
def test_along_the_cloth_an_eighth_adds_an_eighth_for_each_strip_at_most(
    borders: tuple[Border, ...], centre: tuple[Fraction, Fraction], wider: bool
):
    found = grown(borders, "lengthwise", centre, wider)
    assert found.after.amount <= found.bought_with(Length.of(EIGHTH * 2 * len(borders), "in"))


@examples(40)
@given(borders=borders(), centre=st.tuples(SIDES, SIDES), wider=st.booleans())
@example(borders=(THIN,), centre=(Fraction(60), Fraction(79)), wider=False)  # a second join in each side
@example(borders=(THIN,), centre=(Fraction(40), Fraction(40)), wider=True)  # a first one
def test_where_the_way_changes_an_eighth_adds_the_worth_of_no_joins_at_most(
    borders: tuple[Border, ...], centre: tuple[Fraction, Fraction], wider: bool
):
    """Cut as before, it takes two strips a border more, and a join in each. What leads instead costs at most that, and
    the worth of no joins."""
    found = grown(borders, "any", centre, wider)
    sewing = quoted("[top]\nwidth = 60\nlength = 80\n").resolved.project.sewing
    yard = found.after.fabric.selling_price(sewing.markup.value)
    join = sewing.piecing.join_minutes.value * sewing.wage.value / 60
    price = found.after.amount.to("yd") * yard + joins(found.after) * join
    cut_as_before = found.bought_with(found.strips).to("yd") * yard + (joins(found.before) + 2 * len(borders)) * join
    assert price <= cut_as_before + sewing.piecing.worth_no_joins.to("yd") * yard


def test_joins_are_counted():
    """Sides of 84 1/2 from 40 + 40 + 8, ends of 73 1/2 from 40 + 34 1/2, and 4 squares that are in one piece."""
    part = Part(COTTON, COTTON, "crosswise", "diagonal")
    centre = Fraction(145, 2), Fraction(169, 2)
    assert joins(_bought((Border(part, Fraction(1), "butted", "sides"),), centre)) == 6
    assert joins(_bought((Border(part, Fraction(1), "cornerstones", "sides"),), centre)) == 6
