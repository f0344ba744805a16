"""Cloth: backing and binding of one cloth are bought as one length, and never for more than apart."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.choices import offers_of
from finishcalc.measures.length import Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.together import Plans
from tests.builders import cloth, inches, plans, quoted, replace, yards
from tests.strategies import examples

SQUARED = cloth(straighten=inches(1))


def both(
    backing: Fabric, binding: Fabric, suppliers: tuple[str, str] = ("shop", "shop"), size: tuple[int, int] = (60, 80)
) -> Plans:
    """The plans of a top, backing seamed lengthwise and binding of 2 1/2, each of its cloth and from its supplier."""
    return plans(
        *size,
        backing={
            "fabric": backing, "seams": "lengthwise", "supplied_by": suppliers[0],
            "overage": inches(4), "seam_allowance": inches("1/2"),
        },
        binding={
            "fabric": binding, "supplied_by": suppliers[1],
            "strip_width": inches("2 1/2"), "extra": inches(10), "join": "diagonal",
        },
    )  # fmt: skip


def test_one_cloth_is_bought_as_one_length():
    """60x80: two panels of 88 and eight strips of 2 1/2 are 196 in; with 1 in to square, 197 = 5.47 yd (derived)."""
    bought = both(SQUARED, SQUARED).cloth
    assert [purchase.uses for purchase in bought] == [("backing", "binding")]
    assert (bought[0].cut_length, bought[0].amount) == (inches(196), yards("5 1/2"))
    assert bought[0].cost.minor == 5500
    # Apart 177 in = 4.92 yd, so 5, and 21 in = 0.58 yd, so 5/8: an eighth more.
    apart = both(SQUARED, replace(SQUARED, name="another")).cloth
    assert [purchase.amount for purchase in apart] == [yards(5), yards("5/8")]


def test_the_end_is_squared_once():
    """One length is squared once: at 18 in to square, 196 + 18 = 214 in = 5.94 yd, so 6 (derived)."""
    crooked = cloth(straighten=inches(18))
    assert both(crooked, crooked).cloth[0].amount == yards(6)


def test_two_suppliers_are_two_lengths():
    """What the customer brings and what the shop buys are told apart, though the cloth is the same."""
    bought = both(SQUARED, SQUARED, ("shop", "customer")).cloth
    assert [(purchase.uses, purchase.supplied_by) for purchase in bought] == [
        (("backing",), "shop"),
        (("binding",), "customer"),
    ]
    assert [purchase.amount for purchase in bought] == [yards(5), yards("5/8")]


@pytest.mark.parametrize(
    "other",
    [
        replace(SQUARED, name="another"),
        replace(SQUARED, price=Fraction(11)),
        replace(SQUARED, width=inches(42)),
    ],
    ids=["name", "price", "width"],
)
def test_two_cloths_are_two_lengths(other: Fabric):
    """Cloths that differ in anything are bought apart."""
    bought = both(SQUARED, other).cloth
    assert [purchase.fabric for purchase in bought] == [SQUARED, other]
    assert [purchase.uses for purchase in bought] == [("backing",), ("binding",)]


def test_one_part_alone_is_bought_alone():
    """Bought for the binding alone where the backing is of another cloth: 8 strips, 20 in, 5/8 yd (derived)."""
    bought = both(cloth(106, name="wide"), cloth()).cloth
    assert (bought[1].cut_length, bought[1].amount) == (inches(20), yards("5/8"))


def test_shrinkage_of_one_length():
    """196 in of washed cloth at 2 % are 200 in as bought: 5.56 yd, so 5 5/8 (derived)."""
    shrinking = cloth(shrink_along=Fraction(2, 100))
    assert both(shrinking, shrinking).cloth[0].amount == yards("5 5/8")


@examples(100)
@given(
    st.tuples(st.integers(4, 140), st.integers(4, 140)),
    st.integers(16, 118),
    st.integers(0, 6),
    st.integers(0, 10),
    st.sampled_from([yards("1/8"), yards("1/4"), Length.of(10, "cm")]),
)
def test_together_never_more_than_apart(size: tuple[int, int], usable: int, square: int, shrink: int, step: Length):
    """One length is never more than two, costs no more, and covers what both parts take."""
    fabric = cloth(usable, straighten=inches(square), shrink_along=Fraction(shrink, 100), step=step)
    told = both(fabric, fabric, size=size)
    apart = both(fabric, replace(fabric, name="another"), size=size).cloth
    assert len(told.cloth) == 1
    one = told.cloth[0]
    assert one.amount <= apart[0].amount + apart[1].amount
    # each cost is rounded half up, so two of them may lie a minor unit below their sum
    assert one.cost.minor <= apart[0].cost.minor + apart[1].cost.minor + 1
    assert one.amount >= one.cut_length / (1 - fabric.shrink_along) + fabric.straighten
    assert (one.amount / step).denominator == 1


TWIN = """[top]
width = 72
length = 90
[backing]
seams = 'lengthwise'
fabric = {}
[binding]
strip_width = '2 1/4'
fabric = {}
"""
RED = "{ preset = 'cotton-44', name = 'red' }"


def bought(backing: str, binding: str) -> list[tuple[tuple[str, ...], Length]]:
    return [(each.uses, each.amount) for each in quoted(TWIN.format(backing, binding)).plans.cloth]


def test_a_preset_is_no_name_of_her_own():
    """72 x 90: two panels of 98 and 1 in to square are 197 in, 5 1/2 yd. 334 in of binding take 9 strips of 2 1/4 from
    40, and 21 1/4 in with the end squared are 5/8 yd (derived)."""
    apart = [(("backing",), yards("5 1/2")), (("binding",), yards("5/8"))]
    assert bought("'cotton-44'", "'cotton-44'") == apart
    assert bought(RED, RED.replace("red", "navy dot")) == apart
    assert bought(RED, "'cotton-44'") == apart


def test_a_name_or_the_word_makes_backing_and_binding_one_cloth():
    """Both are bought in one length, whichever way they are made one."""
    for binding in (RED, "'backing'"):
        ((uses, _),) = bought(RED, binding)
        assert uses == ("backing", "binding")


def test_a_binding_of_the_backing_s_cloth_is_supplied_with_it():
    hers = "[top]\nwidth = 60\nlength = 80\n[backing]\nhave = '9 yd'\n[binding]\nfabric = 'backing'\n"
    assert [each.supplied_by for each in quoted(hers).plans.cloth] == ["customer"]
    ours = quoted(hers + "supplied_by = 'shop'\n").plans.cloth
    assert [(each.uses, each.supplied_by) for each in ours] == [(("backing",), "customer"), (("binding",), "shop")]


def test_a_binding_of_the_backing_s_cloth_follows_it_into_another():
    """The offer of the wider cloth is what the quote comes to with it."""
    text = "[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = 'cotton-{}'\n[binding]\nfabric = 'backing'\n"
    (offer,) = (each for each in offers_of(quoted(text.format("44"))) if "backing.fabric" in each.take)
    assert offer.total == quoted(text.format("wide-108")).quote.total
    assert [each.uses for each in offer.plans.cloth] == [("backing", "binding")]


def test_a_name_that_reads_like_a_key_is_a_name():
    """Only the backing is called so: the binding is a cloth of its own."""
    named = "[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = { preset = 'cotton-44', name = 'binding.fabric' }\n"
    assert len(quoted(named).plans.cloth) == 2


@pytest.mark.parametrize(
    ("uses", "words"),
    [
        (("backing", "sashing", "border 1", "border 3"), "backing, sashing and borders 1 and 3"),
        (("cornerstones",), "cornerstones"),
        (("cornerstones", "border 2"), "cornerstones and border 2"),
        (("border 4's cornerstones", "binding"), "border 4's cornerstones and binding"),
        (("cornerstones", "border 4's cornerstones"), "the sashing's and border 4's cornerstones"),
        (("border 2", "border 4", "border 4's cornerstones"), "borders 2 and 4"),
        (("border 2's cornerstones", "border 4", "border 4's cornerstones"), "border 2's cornerstones and border 4"),
    ],
)
def test_the_uses_of_a_cloth_are_named_as_one_would_say_them(uses: tuple[str, ...], words: str):
    """Squares at the corners are no strips of their border; where both are of one cloth, the border says it."""
    assert uses_words(uses) == words
