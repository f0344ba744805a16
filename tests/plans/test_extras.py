"""The cloth of extras: from what is left of the backing's or the binding's cloth, or bought, alone or with it."""

import json
from pathlib import Path

import pytest

from finishcalc.alternatives.choices import offers_of
from finishcalc.commandline.views import quote_document
from finishcalc.pipeline import Finishing
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.problems import ProblemsFound
from tests.builders import cut_text, in_shop, inches, quote_text, quoted, run, sample, yards
from tests.cutting_checker import Cloth, Needed, complaints

QUILT = "[top]\nwidth = 60\nlength = 80\n"
"""Its backing is two panels of 34 1/2 x 88 in on cloth with 40 in of use: 176 in and 1 to square the end, 5 yd."""
SMALL = "[top]\nwidth = 24\nlength = 30\n"
"""One panel of 32 x 38 in: 39 in, 1 1/8 yd (40 1/2 in); 8 in are free beside it, and 1 1/2 in behind."""


def ordered(*extras: str) -> str:
    return f"[charges]\nextras = [{', '.join(extras)}]\n"


def of(name: str, fabric: str) -> str:
    return f"{{ name = '{name}', fabric = '{fabric}' }}"


def bought_for(result: Finishing, use: str) -> Purchase:
    (found,) = (purchase for purchase in result.plans.cloth if use in purchase.uses)
    return found


def pieces(result: Finishing, use: str) -> list[tuple[object, object]]:
    layouts = bought_for(result, use).layouts
    return [(p.piece.across, p.piece.along) for each in layouts for p in each.placed if p.piece.use == use]


def test_a_label_comes_from_beside_the_backing_and_takes_no_more_cloth():
    """5 1/2 in are free beside a panel of 34 1/2."""
    purchase = bought_for(quoted(QUILT + ordered("'label'")), "label")
    assert (purchase.uses, purchase.amount) == (("backing", "label"), yards(5))
    assert pieces(quoted(QUILT + ordered("'label'")), "label") == [(inches(5), inches(5))]


def test_a_sleeve_that_no_offcut_holds_makes_the_length_longer():
    """60 - 2 = 58 in, from two strips across the cloth, of 40 and of 58 - 39 1/2 = 18 1/2 in with a straight join of
    1/2 in. 176 + 2 x 8 1/2 + 1 = 194 in, 5 1/2 yd (198 in)."""
    result = quoted(QUILT + ordered("'sleeve'"))
    purchase = bought_for(result, "sleeve")
    assert (purchase.uses, purchase.cut_length, purchase.amount) == (("backing", "sleeve"), inches(193), yards("5 1/2"))
    assert sorted(pieces(result, "sleeve")) == [(inches("18 1/2"), inches("8 1/2")), (inches(40), inches("8 1/2"))]


def test_a_sleeve_lies_along_the_cloth_where_there_is_room_beside_the_backing():
    """A top 44 in wide: two panels of 44 + 8 = 52, (52 + 1) / 2 = 26 1/2 in: 13 1/2 are free beside each, and the
    sleeve of 42 x 8 1/2 lies there in one piece."""
    result = quoted("[top]\nwidth = 44\nlength = 80\n" + ordered("'sleeve'"))
    assert pieces(result, "sleeve") == [(inches("8 1/2"), inches(42))]
    assert bought_for(result, "sleeve").amount == yards(5)


def test_as_many_pieces_are_cut_as_are_ordered():
    """Four labels are four squares of 5 in; a share of one is one."""
    assert len(pieces(quoted(QUILT + ordered("{ name = 'label', quantity = 4 }")), "label")) == 4
    assert len(pieces(quoted(QUILT + ordered("{ name = 'label', quantity = '1/2' }")), "label")) == 1
    none = quoted(QUILT + ordered("{ name = 'label', quantity = 0 }"))
    assert [purchase.uses for purchase in none.plans.cloth] == [("backing",), ("binding",)]


def test_an_order_names_the_cloth_of_the_binding_or_none():
    of_binding = quoted(SMALL + ordered("{ name = 'sleeve', fabric = 'binding' }"))
    assert bought_for(of_binding, "sleeve").uses == ("binding", "sleeve")
    none = quoted(SMALL + ordered("{ name = 'sleeve', fabric = 'none' }"))
    assert [purchase.uses for purchase in none.plans.cloth] == [("backing",), ("binding",)]


def test_without_a_backing_it_is_of_the_binding_s_cloth_and_without_either_of_none():
    no_backing = SMALL + "[backing]\nfabric = 'none'\n"
    assert bought_for(quoted(no_backing + ordered("'label'")), "label").uses == ("binding", "label")
    neither = quoted(no_backing + "[binding]\nattach = 'none'\n" + ordered("'label'"))
    assert neither.plans.cloth == ()
    assert [each.code for each in neither.cautions if each.code.startswith("extra")] == ["extra-without-cloth"]


def test_the_strips_of_a_binding_come_from_what_the_extras_leave():
    """Both from the same offcuts, 13 1/2 x 88 in beside each of two panels: none is cut twice, whatever is ordered."""
    top = "[top]\nwidth = 44\nlength = 80\n[binding]\nfabric = 'backing'\ncut = 'leftover'\n"
    for order in ((), ("'sleeve'",), ("'sleeve'", "{ name = 'label', quantity = 6 }")):
        result = quoted(top + (ordered(*order) if order else ""))
        (purchase,) = result.plans.cloth
        binding = result.plans.binding
        assert binding
        strips = sum(p.piece.use == "binding" for each in purchase.layouts for p in each.placed)
        assert strips == binding.strips + len(binding.offcuts)
        layouts = purchase.layouts
        needed = [
            Needed(use, wanted.width, wanted.joined_to, 1000, True, True, inches(0))
            for use, wanted in {(p.piece.use, p.piece.wanted) for each in layouts for p in each.placed}
        ]
        found = complaints(
            layouts, purchase.lengths, needed, Cloth(inches(40), inches(0) / inches(1), inches(1), inches(1))
        )
        assert [each for each in found if "needed" not in each and "do not make" not in each] == []


def test_an_extra_of_a_cloth_of_its_own_is_bought_by_whoever_supplies_it(tmp_path: Path):
    """A bag of 20 x 15 in, of calico: the shorter way along the cloth, 15 + 1 = 16 in, 1/2 yd."""
    shop = (
        "[extras.bag]\nlabel = 'Bag'\nprice = 9\nper = 'each'\nline_class = 'labour'\n"
        "cut = { width = 15, length = 20, supplied_by = 'customer', "
        "fabric = { preset = 'cotton-44', name = 'calico' } }\n"
    )
    purchase = bought_for(in_shop(tmp_path, shop, SMALL + ordered("'bag'")), "bag")
    assert (purchase.fabric.name, purchase.supplied_by, purchase.amount) == ("calico", "customer", yards("1/2"))


def test_the_customer_s_own_cloth_gives_an_extra_where_it_holds_it():
    """She brings 41 in, 40 once squared: the backing takes 38, and a label of 5 in lies beside it. A sleeve of
    22 x 8 1/2 in does not: 8 in are free."""
    brought = SMALL + "[backing]\nhave = 41\n"
    label = bought_for(quoted(brought + ordered("'label'")), "label")
    assert (label.uses, label.supplied_by) == (("backing", "label"), "customer")
    sleeve = bought_for(quoted(brought + ordered("'sleeve'")), "sleeve")
    assert (sleeve.uses, sleeve.supplied_by, sleeve.amount) == (("sleeve",), "shop", yards("3/8"))
    longer = bought_for(quoted(SMALL + "[backing]\nhave = 50\n" + ordered("'sleeve'")), "sleeve")
    assert longer.supplied_by == "customer"


def test_for_a_backing_that_is_made_already_the_shop_buys_the_cloth_of_the_extra():
    sewn = bought_for(quoted(SMALL + "[backing]\nsewn = { width = 34, length = 40 }\n" + ordered("'label'")), "label")
    assert (sewn.uses, sewn.supplied_by, sewn.amount) == (("label",), "shop", yards("1/4"))


def test_what_no_cloth_holds_is_left_out_and_said(tmp_path: Path):
    shop = "[extras.sleeve]\ncut = { width = 30, of = 'width', less = 30 }\n"
    result = in_shop(tmp_path, shop, SMALL + ordered("'sleeve'"))
    assert [each.code for each in result.cautions if each.blocking] == ["extra-too-short"]
    narrow = SMALL.replace("24", "60") + "[backing]\nfabric = { preset = 'cotton-44', width = 24 }\n"
    result = in_shop(tmp_path, "[extras.sleeve]\ncut = { width = 30 }\n", narrow + ordered("'sleeve'"))
    assert [each.code for each in result.cautions if each.blocking] == ["extra-too-wide"]


def test_pages_lists_and_documents_tell_of_it():
    result = quoted(QUILT + ordered("'sleeve'", "'label'"))
    listed = " ".join(cut_text(result).replace("\N{NO-BREAK SPACE}", " ").split())
    assert "for backing, sleeve and label" in listed
    assert "1 piece 8 1/2 x 58 in for sleeve, joined" in listed
    assert "for sleeve, join 1 D and 1 E end to end to make 8 1/2 x 58 in; make 1 of these" in listed
    assert "Label, sewn on: 1 square 5 in of quilting cotton, 44 in wide" in listed
    explained = " ".join(quote_text(result, "studio", explain=True).replace("\N{NO-BREAK SPACE}", " ").split())
    assert "Sleeve: 1 x 8 1/2 in x (60 in - 2 in = 58 in)" in explained
    document = json.loads(quote_document(result))
    assert [(each["use"], each["pieces"], each["length"]) for each in document["extras"]] == [
        ("sleeve", 1, 58),
        ("label", 1, 5),
    ]
    assert document["buy"][0]["for"] == ["backing", "sleeve", "label"]


def test_an_offered_sleeve_is_priced_with_its_cloth():
    """The offer comes to what the quote comes to with it ordered."""
    hung = QUILT.replace("[top]\n", "[top]\nuse = 'wall'\n", 1)
    offers = {str(offer.take): offer for offer in offers_of(quoted(hung))}
    for extra in ("sleeve", "label"):
        offer = offers[str({"charges.extras": [extra]})]
        assert offer.total == quoted(hung + ordered(f"'{extra}'")).quote.total


LABEL = ordered("'label'")
LAST = "extras.label.cut.fabric"
HEMMED = "[binding]\nattach = 'hem'\n"
UNBACKED = "[backing]\nfabric = 'none'\n"


@pytest.mark.parametrize(
    ("shop", "project", "code", "path"),
    [
        ("", HEMMED + ordered(of("label", "binding")), "extra-without-cloth", "charges.extras[1].fabric"),
        ("", UNBACKED + ordered("'thread'", of("label", "backing")), "extra-without-cloth", "charges.extras[2].fabric"),
        ("", ordered(of("thread", "backing")), "extra-without-cloth", "charges.extras[1].fabric"),
        ("", ordered(of("label", "velvet")), "not-a-choice", "charges.extras[1].fabric"),
        ("[extras.label]\ncut = { less = 2 }\n", LABEL, "measure-of-nothing", "extras.label.cut.less"),
        ("[extras.thread]\ncut = { length = 9 }\n", LABEL, "incomplete-extra", "extras.thread.cut"),
        ("[extras.label]\ncut = { fabric = 'cotton-44' }\n", LABEL, "incomplete-extra", LAST),
        ("[extras.label.cut]\nfabric = 'coton-44'\nsupplied_by = 'shop'\n", LABEL, "unknown-preset", LAST),
    ],
)
def test_a_cut_that_cannot_be_is_a_problem_with_its_place(
    tmp_path: Path, shop: str, project: str, code: str, path: str
):
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, shop, SMALL + project)
    (problem,) = found.value.problems
    assert (problem.code, problem.path) == (code, path)
    assert problem.line
    assert problem.hint


def test_a_name_of_an_extra_is_never_taken_for_a_part_of_the_quilt(tmp_path: Path):
    """An extra may be called anything; braces and signs of its name stay out of sentences."""
    cut = "label = 'X'\nprice = 1\nper = 'each'\nline_class = 'labour'\ncut = { width = 4, fabric = 'backing' }\n"
    for name, use in (
        ("binding", "extra binding"),
        ("border 1", "extra border 1"),
        ("{cloth}", "cloth"),
        ("-", "extra"),
    ):
        shop = f'[extras."{name}"]\n{cut}'
        result = in_shop(tmp_path, shop, QUILT + ordered(f'"{name}"'))
        assert bought_for(result, use).uses == ("backing", use)
        assert use in quote_text(result, "studio")


def test_a_size_chart_lists_the_sleeve_of_each_size():
    """For a top of 84 in 84 - 2 = 82 in, in one piece; for one of 60 1/2 in 58 1/2, from two strips across."""
    text = run(
        "compare",
        str(sample("boathouse-supper-cloth.toml")),
        "--as",
        "84x92",
        "--chart",
        "--cuts",
        "--set",
        "charges.extras=['sleeve']",
    ).stdout
    (row,) = (line for line in text.splitlines() if line.startswith("Sleeve: pieces"))
    assert "1 of 8 1/2 x 82 in" in row
    assert "Sleeve: strips 8 1/2 in" in text
    assert "Backing and sleeve" in text
