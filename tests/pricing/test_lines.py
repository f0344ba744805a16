"""Lines of a quote: every way quilting, materials, handling and the edge are charged."""

import json
import re
from contextlib import nullcontext
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.in_house import profit_of
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.money import total
from finishcalc.model.section import Figure
from finishcalc.pipeline import Finishing, finish
from finishcalc.pricing.quote import with_changes
from finishcalc.problems import ProblemsFound
from tests.builders import LAP, STEPS, in_shop, labels, line, quote_text, quoted, replace
from tests.strategies import examples


def first(result: Finishing) -> tuple[Fraction, str, str]:
    line = result.quote.lines[0]
    return line.quantity, line.unit, str(line.amount)


# --- how quilting is charged ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rate", "quantity", "unit", "amount"),
    [
        ('"0.03"', 4920, "sq in", "147.60"),
        ('{ price = 4, per = "sq ft" }', Fraction("34.17"), "sq ft", "136.68"),  # 4,920 / 144 = 34.1667
        ('{ price = 45, per = "sq m" }', Fraction("3.17"), "sq m", "142.65"),  # 4,920 x 0.00064516 = 3.1742
        ('{ price = 150, per = "quilt" }', 1, "each", "150.00"),
        ('{ price = 1, per = "yd" }', Fraction("130.732"), "yd", "130.73"),  # 62 x 83 1/2 / 1.1 / 36 = 130.7323
    ],
)
def test_quilting_by_area_flat_or_by_what_is_stitched(rate: str, quantity, unit: str, amount: str, tmp_path: Path):
    result = in_shop(tmp_path, f"[rates]\nminimum = 0\n[rates.quilting]\nedge-to-edge = {rate}\n", LAP)
    assert first(result) == (quantity, unit, amount)


def test_quilting_by_the_hour(tmp_path: Path):
    """The planned minutes of the quilting, to the hundredth of an hour, at 45 an hour."""
    result = in_shop(
        tmp_path, '[rates]\nminimum = 0\n[rates.quilting]\nedge-to-edge = { price = 45, per = "hour" }\n', LAP
    )
    hours = Fraction(round(result.plans.quilting.hours.planned / 60 * 100), 100)
    assert first(result)[:2] == (hours, "hour")
    assert Fraction(first(result)[2]) == Fraction(round(hours * 4500), 100)


def test_quilting_by_the_tie(tmp_path: Path):
    """60 x 81 1/2 every 4: 14 x 20 = 280 ties x 0.25."""
    shop = '[rates]\nminimum = 0\n[rates.quilting]\ntied = { price = "0.25", per = "tie" }\n'
    result = in_shop(tmp_path, shop, LAP + "[quilting]\nstyle = 'ties-4'\nmethod = 'tied'\n")
    assert first(result) == (280, "tie", "70.00")


@pytest.mark.parametrize(
    ("width", "length", "amounts"),
    [(40, 60, ["80.00"]), (40, 61, ["120.00"]), (60, 70, ["120.00"]), (60, 71, ["120.00", "15.00"]),
     (47, 100, ["120.00", "15.00"]), (52, 100, ["120.00", "30.00"]),
     (60, 82, ["120.00", "30.00"])],
)  # fmt: skip
def test_quilting_by_steps_of_size(width: int, length: int, amounts: list[str], tmp_path: Path):
    """2,400 and 4,200 are in their class; 4,260 is 60 over, one step of 500, and so is 4,700 to the inch; 4,920 is 720
    over, two, and so is 5,200."""
    result = in_shop(tmp_path, STEPS, f"[top]\nwidth = {width}\nlength = {length}\n")
    quilting = [each for each in result.quote.lines if each.rates[0].key.startswith("rates.quilting.")]
    assert [str(each.amount) for each in quilting] == amounts


OTHER_UNITS = [
    ("[rates]\nbinding_per = 'yd'\n", LAP, "rates.binding_per", "make, front, machine and hand"),
    ("[edge_time]\nper = 'yd'\n", LAP, "edge_time.per", "make, front, machine and hand"),
    ("[seaming]\nper = 'yd'\n", LAP, "seaming.per", "minutes_along"),
    ("[extras.label]\nper = 'hour'\n", LAP, "extras.label.per", "price, cost and minutes"),
    ("", LAP + "[backing]\nfabric = { preset = 'cotton-44', per = 'in' }\n", "backing.fabric.per", "price"),
    ("[fabrics.cotton-44]\nprice = 9\n", LAP + "[backing]\nfabric = { preset = 'cotton-44', per = 'in' }\n",
     "backing.fabric.per", "price"),
    ("units = 'cm'\n[rates]\nquilting_per = 'sq in'\n", LAP, "rates.quilting_per", "price"),
    ("units = 'cm'\n[rates]\nbinding_per = 'in'\n", LAP, "rates.binding_per", "make, front, machine and hand"),
]  # fmt: skip


@pytest.mark.parametrize(("shop", "project", "key", "figures"), OTHER_UNITS)
def test_a_unit_over_a_figure_for_another_is_refused(shop: str, project: str, key: str, figures: str, tmp_path: Path):
    """A quarter of a dollar an inch is none a yard."""
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, shop, project)
    (problem,) = found.value.problems
    assert problem.path == key
    assert "which is per" in problem.message
    names = problem.hint.removeprefix("give ").removesuffix(" for it too")
    assert set(re.split(", | and ", names)) <= set(re.split(", | and ", figures))


@pytest.mark.parametrize(
    ("values", "refused"),
    [
        (["rates.binding_per=yd"], True),
        (["rates.binding.make=1"], False),
        (["rates.binding_per=in"], True),
        (["rates.binding_per=ft"], False),
        (["rates.binding_per=yd", "rates.binding={make=1,front=2,machine=3,hand=4}"], False),
    ],
)
def test_a_unit_that_is_tried_keeps_to_it_too(values: list[str], refused: bool, tmp_path: Path):
    """The shop's own rates are for a foot."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[rates]\nbinding_per = 'ft'\nbinding = { make = 1, front = 2, machine = 3, hand = 4 }\n")
    (trial,) = trials(values)
    with pytest.raises(ProblemsFound) if refused else nullcontext() as found:
        resolve(Source("t.toml", LAP), str(shop), change=trial.change)
    if refused:
        assert found.value.problems[0].file == "--set"


@pytest.mark.parametrize(
    ("shop", "project"),
    [
        ("[rates]\nbinding_per = 'ft'\nbinding = { make = 1, front = 2, machine = 3, hand = 4 }\n", LAP),
        ("[rates]\nbinding_per = 'in'\n", LAP),
        ("[edge_time]\nper = 'ft'\nmake = 1\nfront = 2\nmachine = 2\nhand = 5\n", LAP),
        ("[seaming]\nper = 'yd'\nminutes_along = 3\n", LAP),
        ("", LAP + "[backing]\nfabric = { preset = 'cotton-44', per = 'in', price = '0.30' }\n"),
        ("[fabrics.cotton-44]\nprice = 9\n", LAP + "[backing]\nfabric = { preset = 'cotton-44', per = 'yd' }\n"),
        ("[rates]\nquilting_per = 'sq ft'\nquilting = { edge-to-edge = 4 }\n", LAP),
        ("units = 'cm'\n", LAP),
    ],
)
def test_a_unit_with_its_figures_is_taken(shop: str, project: str, tmp_path: Path):
    assert in_shop(tmp_path, shop, project).quote.total.minor


def test_steps_are_of_the_unit_that_the_shop_charges_in(tmp_path: Path):
    """60 x 72 is 30 sq ft: 10 over 20, two steps of 5."""
    shop = "[rates]\nquilting_per = 'sq ft'\nminimum = 0\n[rates.quilting.edge-to-edge]\n"
    shop += "steps = [{ name = 'lap', up_to = 20, price = 80 }]\nmore = 15\neach = 5\n"
    result = in_shop(tmp_path, shop, "[top]\nwidth = 60\nlength = 72\n")
    assert [str(each.amount) for each in result.quote.lines[:2]] == ["80.00", "30.00"]


def test_an_hour_is_charged_whether_someone_stands_by_or_not(tmp_path: Path):
    """A computer-guided machine sews on its own for a part of the planned hours, which are charged."""
    shop = '[rates]\nminimum = 0\n[rates.quilting]\nedge-to-edge = { price = 45, per = "hour" }\n'
    result = in_shop(tmp_path, shop, LAP + "[quilting]\nmethod = 'longarm-computer-guided'\n")
    hours = result.plans.quilting.hours
    assert hours.attended < hours.planned
    assert first(result)[0] == Fraction(round(hours.planned / 60 * 100), 100)
    assert result.quote.lines[0].minutes == hours.attended


@pytest.mark.parametrize(
    ("shop", "message"),
    [
        ("[rates.quilting.own]\nper = 'hour'\n", "has neither a price nor steps of size"),
        ("[rates.quilting.own]\nsteps = []\nmore = 1\neach = 500\n", "its sizes do not rise"),
        ("[rates.quilting]\nown = { steps = [{ name = 'a', up_to = 9, price = 1 }] }\n", "more and each are missing"),
        (
            "[rates.quilting]\nedge-to-edge = { per = 'hour' }\n",
            "changes the unit of a sample figure, which is per sq in",
        ),
        ("[rates]\nquilting_per = 'sq ft'\n", "changes the unit of a sample figure, which is per sq in"),
        ("[rates.quilting]\nedge-to-edge = { price = 1, per = 'tie' }\n", "there are no ties to count"),
        (
            "[rates.quilting.own]\nprice = 3\nsteps = [{ name = 'a', up_to = 9, price = 1 }]\nmore = 1\neach = 9\n",
            "has both a price and steps of size",
        ),
        ("[rates.quilting.own]\nprice = 3\nmore = 5\n", "there are no steps of size to go beyond"),
        ("[offers]\nextras = ['labl']\n", 'there is no extra "labl"'),
        ("[deposit]\npercent = '5 %'\nshares = { labour = '5 %', material = '6 %' }\n", "the deposit is two shares"),
    ],
)
def test_rates_that_do_not_add_up_are_refused(shop: str, message: str, tmp_path: Path):
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, shop, LAP)
    assert message in [problem.message for problem in found.value.problems]


def test_areas_by_the_hour_go_by_their_own_time(tmp_path: Path):
    """A quarter in a tiny fill is most of the stitching: its minutes are its own and a quarter of all the rest."""
    project = "[top]\nwidth = 60\nlength = 60\n[[quilting.areas]]\nstyle = 'tiny-fill'\nshare = '25 %'\n"
    shop = "[rates]\nminimum = 0\n[rates.quilting]\ncustom = { price = 45, per = 'hour' }\n"
    result = in_shop(tmp_path, shop, project)
    plan = result.plans.quilting
    # 900 / 0.25 = 3,600 in of fill; (3,600 / 40 + 4 x 3,600 / 30 + 3,600 / 20) / 6 = 125 min
    stitching = sum(stage.planned for stage in plan.hours.stages if stage.name in ("stitch", "stitch the fill"))
    expected = 125 + (plan.hours.planned - stitching) / 4
    assert plan.area_hours[0].planned == expected
    assert sum(hours.planned for hours in plan.area_hours) == plan.hours.planned
    assert line(result, "Quilting, {style}, {share}")[0] == Fraction(round(expected / 60 * 100), 100)
    sheet = " ".join(quote_text(result, "studio", explain=True).split())
    assert re.search(r"tiny fill, 25 % of the top: [\d.]+ planned min / 60 = [\d.]+ h, rounded", sheet)


def test_the_minimum_is_on_all_of_the_quilting(tmp_path: Path):
    """Two areas of 24.60 and 123.00 come to 147.60: a minimum of 150 stands over both, one of 140 over neither."""
    areas = "[[quilting.areas]]\nstyle = 'channels-3'\nshare = '20 %'\n"
    below = in_shop(tmp_path, "[rates]\nminimum = 150\n", LAP + areas)
    assert first(below) == (1, "each", "150.00")
    above = in_shop(tmp_path, "[rates]\nminimum = 140\n", LAP + areas)
    assert len([label for label in labels(above) if label.startswith("Quilting,")]) == 2
    assert len([label for label in labels(below) if label.startswith("Quilting,")]) == 1


# --- materials, handling, one-off lines ----------------------------------------------------------------------


def test_a_selling_price_stands_over_cost_and_markup(tmp_path: Path):
    """Bought at 11, sold at 16.25 though the markup would make it 15.40; the customer reads no cost."""
    shop = "[fabrics.cotton-44]\nprice = 11\nselling = '16.25'\n[usual.batting]\nproduct = 'none'\n"
    result = in_shop(tmp_path, shop, LAP + "[binding]\nfabric = 'backing'\n")
    cloth = result.quote.lines[1]
    assert (cloth.rate, tuple(rate.key for rate in cloth.rates)) == (
        Fraction("16.25"),
        ("backing.fabric.selling", "binding.fabric.selling"),
    )
    assert cloth.cost == result.quote.currency.round(cloth.quantity * 11)
    page = quote_text(result, "customer", explain=True)
    assert str(cloth.cost) not in page
    assert "its own price" in " ".join(quote_text(result, "studio", explain=True).split())


def test_a_package_and_a_roll_may_have_a_selling_price(tmp_path: Path):
    shop = (
        "[battings.cotton-blend]\nrolls = []\n"
        "packages = [{ size = 'twin', width = 72, length = 90, price = 20, selling = '33.33' }]\n"
    )
    assert line(in_shop(tmp_path, shop, LAP), "Batting")[2] == "33.33"


def test_what_the_customer_brings_is_handled_at_its_own_rate(tmp_path: Path):
    project = (
        LAP + "[backing]\nhave = '6 yd'\n[batting]\nsupplied_by = 'customer'\n[binding]\nsupplied_by = 'customer'\n"
    )
    shop = "[rates.handling]\nbacking = 12\nbatting = 4\nbinding = 0\n"
    result = in_shop(tmp_path, shop, project)
    assert line(result, "Preparing your backing") == (1, "each", "12.00")
    assert line(result, "Preparing your batting") == (1, "each", "4.00")
    assert not any("Your binding" in label for label in labels(result))
    assert not any(each.line_class == "material" for each in result.quote.lines)  # none of it is bought
    assert "Preparing your backing" not in labels(in_shop(tmp_path, shop, LAP))


def test_cloth_that_she_brings_for_the_top_is_handled(tmp_path: Path):
    design = (
        "[top.blocks]\nacross = 3\ndown = 4\nsize = 10\n[[top.borders]]\ncut = 4\n[top.piecing]\nsupplied_by = WHO\n"
    )
    hers, ours = (in_shop(tmp_path, "", design.replace("WHO", who)) for who in ("'customer'", "'shop'"))
    assert line(hers, "Preparing your cloth for the top") == (1, "each", "10.00")
    assert "Preparing your cloth for the top" not in labels(ours)


# 280 in of edge at the sample rates: made 0.05, front 0.15, machine 0.25, hand 0.40, faced 0.35, hem 0.20.
EDGES = [
    ("front", {"Binding made": "14.00", "Binding sewn to the front": "42.00"}),
    ("machine", {"Binding made": "14.00", "Binding sewn on by machine": "70.00"}),
    ("hand", {"Binding made": "14.00", "Binding sewn on, the back by hand": "112.00"}),
    ("faced", {"Edge faced": "98.00"}),
    ("hem", {"Edge hemmed": "56.00"}),
]


@pytest.mark.parametrize(("attach", "amounts"), EDGES)
def test_each_way_to_finish_the_edge_has_its_rate_and_its_minutes(attach: str, amounts: dict[str, str]):
    """The cost of a line is its own minutes at (30 + 8) an hour: those of the stages, (least + 4 usual + most) / 6."""
    result = quoted(f"[top]\nwidth = 60\nlength = 80\n[binding]\nattach = '{attach}'\n")
    edge = {
        each.line.label.text: each
        for each in profit_of(result).lines
        if each.line.rates[0].key.startswith("rates.bind")
    }
    assert {label: str(each.line.amount) for label, each in edge.items()} == amounts
    planned = {stage.work: stage.planned for stage in result.plans.hours.stages}
    for label, each in edge.items():
        work = ["make"] if label == "Binding made" else [name for name in planned if name not in ("make", *NOT_EDGE)]
        minutes = sum(planned[name] for name in work)
        assert each.cost == result.quote.currency.round(minutes * 38 / 60)


NOT_EDGE = ("quilting", "seams")


def test_the_minimum_has_the_minutes_of_all_the_quilting(tmp_path: Path):
    result = in_shop(tmp_path, "[rates]\nminimum = 900\n", LAP)
    assert result.quote.lines[0].minutes == result.plans.quilting.hours.attended


def test_one_off_lines(tmp_path: Path):
    project = (
        LAP
        + """[[charges.lines]]
label = "Mending two seams"
price = 12
[[charges.lines]]
label = "Ribbon"
price = "1.10"
quantity = 3
per = "yd"
line_class = "material"
"""
    )
    result = in_shop(tmp_path, "", project)
    assert line(result, "Mending") == (1, "each", "12.00")
    assert line(result, "Ribbon") == (3, "yd", "3.30")
    assert result.quote.lines[-1].line_class == "material"


def test_both_sizes_are_named():
    """Measured 61 x 81 1/2, billed 61 x 82 = 5,002."""
    page = quote_text(quoted("[top]\nwidth = 61\nlength = '81 1/2'\n"), "studio")
    assert "measured 61 x 81 1/2 in, billed 61 x 82 in = 5,002 sq in" in page
    hers = quote_text(quoted("[top]\nwidth = 61\nlength = '81 1/2'\n"), "customer")
    assert "61 x 81 1/2 in, unfinished size, billed as 61 x 82 in" in hers


# --- deposit -------------------------------------------------------------------------------------------------


def test_materials_in_full_and_a_share_of_labour(tmp_path: Path):
    shop = "[deposit]\nshares = { labour = '25 %', material = '100 %' }\n"
    result = in_shop(tmp_path, shop, LAP)
    sums = {
        name: total((each.amount for each in result.quote.lines if each.line_class == name), result.quote.currency)
        for name in ("labour", "material")
    }
    # a quarter of the labour, half up to the cent, and all of the materials
    assert result.quote.deposit.minor == (sums["labour"].minor * 25 + 50) // 100 + sums["material"].minor
    assert result.quote.deposit_share is None
    page = " ".join(quote_text(result, "customer", explain=True).split())
    assert f"Deposit: 25 % of labour ${sums['labour']} + 100 % of material ${sums['material']}" in page


# --- order, nothing, everything ------------------------------------------------------------------------------


@examples(40)
@given(st.permutations(["label", "sleeve", "thread", "pressing"]), st.integers(0, 50), st.integers(0, 100))
def test_any_order_of_extras_gives_the_same_total(names: list[str], rush: int, discount: int):
    def ordered(extras: list[str]) -> Finishing:
        charges = f"[charges]\nextras = {json.dumps(extras)}\nrush = '{rush} %'\ndiscount = '{discount} %'\n"
        return quoted(LAP + charges)

    one, other = ordered(names).quote, ordered(sorted(names)).quote
    assert (one.total, one.deposit, one.subtotal) == (other.total, other.deposit, other.subtotal)


@examples(40)
@given(
    st.permutations(["labour", "material"]), st.permutations(["labour", "material"]), st.permutations(range(4)),
    st.integers(1, 50), st.integers(1, 99),
)  # fmt: skip
def test_any_order_of_classes_and_lines_gives_the_same_total(
    rushed: list[str], discounted: list[str], order: list[int], rush: int, discount: int
):
    """Whatever comes first: the lines, the classes of the rush and of the discount."""
    odd = [f"[[charges.lines]]\nlabel = 'L{n}'\nprice = '{n}.37'\nline_class = '{('labour', 'material')[n % 2]}'\n"
           for n in range(4)]  # fmt: skip

    def total_of(rush_classes: list[str], discount_classes: list[str], numbers: list[int]) -> int:
        charges = (
            f"[charges]\nrush = '{rush} %'\nrush_classes = {json.dumps(rush_classes)}\ndiscount = '{discount} %'\n"
        )
        charges += f"discount_classes = {json.dumps(discount_classes)}\n" + "".join(odd[n] for n in numbers)
        return quoted(LAP + charges).quote.total.minor

    straight = ["labour", "material"]
    assert total_of(rushed, discounted, order) == total_of(straight, straight, [0, 1, 2, 3])


@examples(30)
@given(st.integers(0, 5), st.sampled_from(["labour", "material"]), st.booleans())
def test_a_free_line_changes_nothing(count: int, line_class: str, by_item: bool):
    free = "".join(
        f"[[charges.lines]]\nlabel = 'Gift {n}'\nprice = 0\nline_class = '{line_class}'\n" for n in range(count)
    )
    with_it, without = (quoted(LAP + text) for text in (free, ""))
    taxes = Figure(
        tuple(replace(tax, by="item" if by_item else "invoice") for tax in without.resolved.shop.taxes.value)
    )
    shop = replace(without.resolved.shop, taxes=taxes)
    one, other = (finish(replace(each.resolved, shop=shop)).quote for each in (with_it, without))
    assert (one.total, one.deposit, one.balance) == (other.total, other.deposit, other.balance)
    assert len(one.lines) == len(other.lines) + count


@pytest.mark.parametrize("included", ["true", "false"])
@pytest.mark.parametrize("by", ["invoice", "item"])
def test_a_discount_of_everything_leaves_no_tax(included: str, by: str, tmp_path: Path):
    shop = f"[taxing]\nincluded = {included}\nby = '{by}'\nclasses = ['labour', 'material']\n"
    charges = "[charges]\nrush = '10 %'\ndiscount = '100 %'\ndiscount_classes = ['labour', 'material']\n"
    quote = in_shop(tmp_path, shop, LAP + charges).quote
    assert [tax.amount.minor for tax in quote.taxes] == [0]
    assert quote.total.minor == 0


def test_a_change_of_no_share_has_no_line():
    project = quoted(LAP)
    assert with_changes([], project.resolved.project.charges, project.quote.currency) == []
