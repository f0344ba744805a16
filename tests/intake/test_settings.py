"""Trying changes: KEY=VALUE on the command line is what the same change in the file would be."""

from contextlib import suppress
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.in_house import profit_of, samples_of
from finishcalc.intake.changes.settings import NotASetting, setting, trials
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length, Overage
from finishcalc.pipeline import finish, try_file
from finishcalc.problems import ProblemsFound
from tests.builders import CLOTH, PIECED, inches, quoted, run, tried
from tests.strategies import examples

# --- how it is read ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "path", "value"),
    [
        ("backing.overage=3", ("backing", "overage"), 3),
        ("backing.overage = 3", ("backing", "overage"), 3),
        ("top.width=60 1/2", ("top", "width"), "60 1/2"),  # no TOML, so text
        ('top.width="60 1/2"', ("top", "width"), "60 1/2"),
        ("charges.rush=10 %", ("charges", "rush"), "10 %"),
        ("job.keep_leftovers=true", ("job", "keep_leftovers"), True),
        ("charges.extras=['label']", ("charges", "extras"), ["label"]),
        ("top.borders[4].cut=5", ("top", "borders", 3, "cut"), 5),  # items from 1
        ('rates.quilting."edge-to-edge"=1', ("rates", "quilting", "edge-to-edge"), 1),
        ("title=", ("title",), ""),
        ("title=a=b", ("title",), "a=b"),
        ("backing.have=null", ("backing", "have"), None),  # takes the key out of the project
        ("backing.hove=null", ("backing", "hove"), "null"),  # an unknown key is a problem, not nothing
        ("rates.seam=null", ("rates", "seam"), "null"),  # a shop's key cannot be taken out of a project
    ],
)
def test_keys_and_values(text: str, path: tuple, value: object):
    found = setting(text)
    assert (found.path, found.value) == (path, value)


@pytest.mark.parametrize("text", ["x", "", "=3", "a..b=1", "a[0]=1", "a[x]=1", ".a=1", "a.=1", "a b=1", "[1]=2"])
def test_what_is_no_key_and_value_is_a_usage_error(text: str):
    with pytest.raises(NotASetting):
        setting(text)
    result = run("quote", str(CLOTH), "--set", text)
    assert result.exit_code == 2
    assert "KEY=VALUE" in result.stderr


def test_one_key_may_be_given_several_times():
    found = trials(["a.b=1", "c.d=x", "a.b=2"])
    assert [each.choice and each.choice.text for each in found] == ["1", "2"]
    assert [list(each.words("studio").items()) for each in found] == [
        [("a.b", "1"), ("c.d", "x")], [("a.b", "2"), ("c.d", "x")],
    ]  # fmt: skip
    with pytest.raises(NotASetting):
        trials(["a.b=1", "a.b=2", "c.d=x", "c.d=y"])
    assert run("quote", str(CLOTH), *["--set", "top.width=60", "--set", "top.width=61"] * 1,
               "--set", "top.length=1", "--set", "top.length=2").exit_code == 2  # fmt: skip


def test_cut_and_compare_take_each_key_once():
    twice = ("--set", "top.width=60", "--set", "top.width=61")
    assert run("cut", str(CLOTH), *twice).exit_code == 2
    assert run("compare", str(CLOTH), "--as", "twin", *twice).exit_code == 2


# --- what it does --------------------------------------------------------------------------------------------


def same(path: Path, text: str, *texts: str) -> None:
    (found,) = tried(path, *texts)
    expected = quoted(text)
    assert found.plans == expected.plans
    assert found.quote == expected.quote


def test_a_value_tried_is_the_value_in_the_file():
    text = CLOTH.read_text()
    same(CLOTH, text.replace('width = "60 1/2"', "width = 72"), "top.width=72")
    same(
        CLOTH, text + "\n[backing]\noverage = 3\nfabric = 'linen-60'\n", "backing.overage=3", "backing.fabric=linen-60"
    )
    same(CLOTH, text.replace('discount = "5 %"', 'discount = "10 %"'), "charges.discount=10 %")


def test_a_key_of_a_material_that_is_named_changes_that_key_alone():
    text = CLOTH.read_text().replace(
        'style = "medium-pantograph"', 'style = { preset = "medium-pantograph", row_pitch = 9 }'
    )
    same(CLOTH, text, "quilting.style.row_pitch=9")


def test_an_item_of_a_list_is_counted_from_1():
    text = PIECED.read_text()
    same(PIECED, text.replace("cut = 4\n", "cut = 5\n"), "top.borders[4].cut=5")


def test_bare_numbers_are_in_the_project_s_units(tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_text('units = "cm"\n[top]\nwidth = 150\nlength = 200\n')
    same(path, 'units = "cm"\n[top]\nwidth = 160\nlength = 200\n', "top.width=160")
    (result,) = tried(path, "frame.throat=30")
    assert result.resolved.project.frame.throat == Length.parse("30 cm")


@examples(30)
@given(st.integers(30, 100), st.integers(2, 6), st.sampled_from(["front", "hand", "machine", "none"]))
def test_several_values_are_tried_together(width: int, overage: int, attach: str):
    lines = f"[top]\nwidth = {width}\nlength = 84\nuse = 'tablecloth'\n[backing]\noverage = {overage}\n"
    source = Source("t", "[top]\nwidth = 50\nlength = 84\nuse = 'tablecloth'\n[binding]\nattach = 'machine'\n")
    (trial,) = trials([f"top.width={width}", f"backing.overage={overage}", f"binding.attach={attach}"])
    found = finish(resolve(source, change=trial.change))
    expected = quoted(f"{lines}[binding]\nattach = '{attach}'\n")
    assert (found.plans, found.quote) == (expected.plans, expected.quote)


def test_values_of_the_shop_may_be_tried(tmp_path: Path):
    (found,) = tried(CLOTH, "rates.seam=25", "tax[1].percent=8.25 %", "rates.wage=40", "frame.widest=60")
    assert (
        next(line.rate for line in found.quote.lines if [rate.key for rate in line.rates] == ["rates.seam.each"]) == 25
    )
    assert found.quote.taxes[0].percent == Fraction(825, 10000)
    assert profit_of(found).wage.major == 40
    assert "rates.seam.each" not in samples_of(found)
    assert found.plans.quilting.loading
    assert not found.plans.quilting.loading.holds
    (priced,) = tried(CLOTH, "fabrics.cotton-44.price=9")
    assert priced.plans.backing
    assert priced.plans.backing.fabric.price.value == 9


def test_later_values_are_put_after_earlier_ones():
    """A price for the cloth that is tried holds in every column, wherever the cloth is given again."""
    found = tried(CLOTH, "backing.fabric=cotton-44", "backing.fabric.price=99", "backing.fabric=linen-60")
    prices = [each.plans.backing and each.plans.backing.fabric.price.value for each in found]
    assert prices == [99, 99]


def test_what_projects_usually_want_gives_way_to_the_project(tmp_path: Path):
    """As in a shop file: the project names its style itself."""
    (found,) = tried(CLOTH, "usual.quilting.style=custom", "usual.backing.overage=3")
    assert found.resolved.project.quilting.style.name == "medium pantograph"
    assert found.resolved.project.backing
    assert found.resolved.project.backing.overage == Overage.all_round(inches(3))


def test_what_a_shop_gives_whole_is_changed_where_it_stands(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text(
        "[rates.quilting.edge-to-edge]\nsteps = [{ name = 'a', up_to = 9000, price = 1 }]\nmore = 1\neach = 9\n"
        "[deposit]\nshares = { labour = '10 %', material = '100 %' }\n"
    )
    texts = ["rates.quilting.edge-to-edge.steps[1].price=120", "deposit.shares.labour=20 %", "edge_time.hand.high=2"]
    (found,) = try_file(str(CLOTH), str(shop), trials(texts))
    assert found.resolved.shop.rates.quilting["edge-to-edge"].steps.value[0].price == 120
    shares = found.resolved.shop.deposit.shares
    assert (shares.labour.value, shares.material.value) == (Fraction(1, 5), 1)
    assert found.resolved.project.edge_time.hand.value == (Fraction("0.63"), Fraction("0.9"), 2)


def test_texts_and_lists_take_what_a_shell_leaves_of_quotes():
    (found,) = tried(CLOTH, "job.number=31", "customer.name=2026", "charges.extras[1].quantity=3")
    assert (found.resolved.project.job.number, found.resolved.project.customer.name) == ("31", "2026")
    assert found.resolved.project.charges.extras[0].quantity == 3
    (line,) = tried(CLOTH, "charges.lines[1].label=Mending", "charges.lines[1].price=12")
    assert str(line.quote.lines[-2].amount) == "12.00"


def test_an_item_of_the_shop_s_own_list(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[[tax]]\nlabel = 'One'\npercent = '1 %'\n[[tax]]\nlabel = 'Two'\npercent = '2 %'\n")
    (found,) = try_file(str(CLOTH), str(shop), trials(["tax[2].percent=7 %"]))
    assert [(tax.label, tax.percent * 100) for tax in found.quote.taxes] == [("One", 1), ("Two", 7)]


# --- what is wrong -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("backing.overge=3", '--set: backing.overge: unknown key\n    did you mean "overage"?\n'),
        ("backing.overage=300", "--set: backing.overage: 300 in is out of bounds"),
        ("top.width=abc", '--set: top.width: "abc" is not a length'),
        ("quilting.style=loops", '--set: quilting.style: there is no preset "loops"'),
        ("rates.seem=3", "--set: rates.seem: unknown key"),
        ("nothing=3", "--set: nothing: unknown key"),
        ("top.width.x=3", "--set: top.width.x: is not in the file"),
        ("charges.extras[9]=label", "--set: charges.extras[9]: is not in the file"),
        ("tax[5].percent=3 %", "--set: tax[5].percent: is not in the file"),
        ("top.diameter=60", "--set: top.diameter: the size is given twice: also as width and length on line 17"),
        ("charges.extras[1]=foo", '--set: charges.extras: there is no extra "foo"'),
        ("rates.quilting.edge-to-edge.per=size", "--set: rates.quilting.edge-to-edge"),
        ("foo.bar=1", "--set: foo: unknown key"),
        ("extras.own.price=3", "--set: extras.own"),
    ],
)
def test_problems_name_the_option_as_the_file(text: str, message: str):
    result = run("quote", str(CLOTH), "--set", text)
    assert (result.exit_code, result.stdout) == (1, "")
    assert message in result.stderr


def test_all_of_them_are_told_at_once():
    texts = ("backing.overge=3", "rates.seem=1", "top.width=abc", "top.borders[9].cut=3", "tax[4].percent=1 %")
    result = run("quote", str(CLOTH), *(part for text in texts for part in ("--set", text)))
    assert result.stderr.count("--set: ") == 5
    assert "line 0" not in result.stderr


def test_where_a_size_is_given_twice_names_the_option():
    result = run("quote", str(PIECED), "--set", "top.length=200")
    assert "the size is given twice: also as width and length in --set" in result.stderr


def test_several_values_tell_each_mistake_once():
    result = run("quote", str(CLOTH), "--set", "top.width=x", "--set", "top.width=y", "--set", "backing.overge=3")
    assert result.stderr.count("unknown key") == 1
    assert result.stderr.count("is not a length") == 2


STEPS = ["top", "width", "borders", "backing", "fabric", "[1]", "[3]", "tax", "rates", "x", "units"]


@examples(150)
@given(
    st.lists(st.sampled_from(STEPS), min_size=1, max_size=4),
    st.sampled_from(
        ["1", "-1", "abc", "true", "[]", "{}", "'1/0'", "inf", "1e999999999", "none", "[[", "\x1b[31m", ""]
    ),
)
def test_any_key_and_value_is_a_problem_or_a_project(steps: list[str], value: str):
    text = ".".join(steps).replace(".[", "[") + f"={value}"
    try:
        found = trials([text])
    except NotASetting:
        return
    assert found
    with suppress(ProblemsFound):
        assert tried(PIECED, text)


def test_null_takes_a_key_out_of_the_project():
    """The supper cloth names the colour of its binding; without that the usual cloth is bought."""
    (found,) = tried(CLOTH, "binding.fabric=null")
    assert found.plans.binding
    assert found.plans.binding.fabric.name == "quilting cotton, 44 in wide"
