"""Posted forms, and the edits that they make."""

import tomllib
from pathlib import Path

import pytest

from finishcalc.counter.form.editing import edit_of, field_values, posted_values
from finishcalc.counter.form.fields import FIELDS
from finishcalc.counter.form.table import table_after
from tests.counter.making import PIECED, PLAIN, table_of, usual


def posted(text: str, **changes: str | list[str] | None) -> dict[str, list[str]]:
    """The form as a browser posts it, with other values in some fields (`__` for a dot)."""
    values = dict(field_values(table_of(text), usual(text)))
    extras = values.pop("charges.extras")
    form = {key: [value] for key, value in values.items()}
    form |= {"charges.extras": extras.split("\n")} if extras else {}
    for key, field in FIELDS.items():
        if field.sort == "flag" and not values[key]:
            form.pop(key)
    for name, value in changes.items():
        key = name.replace("__", ".")
        if value is None:
            form.pop(key, None)
        else:
            form[key] = value if isinstance(value, list) else [value]
    return form


def edit(text: str, **changes: str | list[str] | None) -> dict[str, object]:
    before = field_values(table_of(text), usual(text))
    return edit_of(before, posted_values(posted(text, **changes), before), table_of(text), usual(text))


@pytest.mark.parametrize("sample", sorted(Path("presets/projects").glob("*.toml")), ids=lambda path: path.stem)
def test_a_form_that_is_posted_as_it_was_shown_edits_nothing(sample: Path) -> None:
    text = sample.read_text(encoding="utf-8")
    assert edit(text) == {}


def test_an_edit_is_what_differs_as_it_was_typed() -> None:
    assert edit(PLAIN, top__width=" 62 1/4 ", customer__name="") == {"top.width": "62 1/4", "customer.name": None}


def test_a_field_that_was_not_posted_stays() -> None:
    assert edit(PLAIN, top__width=None, customer__name=None) == {}


def test_a_box_is_ticked_and_left_again() -> None:
    assert edit(PLAIN, job__vinyl="yes") == {"job.vinyl": True}
    assert edit(PLAIN + "[job]\nvinyl = true\n", job__vinyl=None) == {"job.vinyl": None}  # no is usual


def test_lines_of_a_text_end_as_in_a_file() -> None:
    assert edit(PLAIN, job__notes="no hurry\r\nring twice") == {"job.notes": "no hurry\nring twice"}


def test_the_usual_cloth_stands_for_an_empty_field() -> None:
    assert field_values(table_of(PLAIN), usual())["backing.fabric.preset"] == ""  # cotton-44 is the sample shop's
    assert edit(PLAIN, backing__fabric__preset="linen-60") == {"backing.fabric.preset": "linen-60"}


def test_cloth_that_is_called_something_keeps_its_preset_in_the_file() -> None:
    bare = PLAIN.replace('[backing]\nfabric = { preset = "cotton-44", name = "harbour blue" }\n', "")
    assert edit(bare, backing__fabric__name="sky blue") == {
        "backing.fabric.preset": "cotton-44",
        "backing.fabric.name": "sky blue",
    }
    after = table_after(table_of(bare), [edit(bare, backing__fabric__name="sky blue")])
    assert after["backing"] == {"fabric": {"preset": "cotton-44", "name": "sky blue"}}


def test_going_back_to_the_usual_cloth_keeps_what_it_is_called() -> None:
    linen = PLAIN.replace("cotton-44", "linen-60")
    assert edit(linen, backing__fabric__preset="") == {"backing.fabric.preset": "cotton-44"}


def test_per_cent_are_typed_without_their_sign() -> None:
    text = PLAIN + '[charges]\ndiscount = "5 %"\n'
    assert field_values(table_of(text), usual())["charges.discount"] == "5"
    assert edit(text, charges__discount="7.5") == {"charges.discount": "7.5"}


def test_extras_are_ordered_with_their_number() -> None:
    assert edit(PLAIN, **{"charges__extras": ["label", "sleeve"], "quantity:label": ["2"]}) == {
        "charges.extras": [{"name": "label", "quantity": "2"}, "sleeve"]
    }


def test_an_extra_that_stays_keeps_what_the_form_does_not_ask_for() -> None:
    text = PLAIN + '[charges]\nextras = [{ name = "label", fabric = "none" }, "sleeve"]\n'
    assert edit(text) == {}
    assert edit(text, charges__extras=["label"]) == {"charges.extras": [{"name": "label", "fabric": "none"}]}
    assert edit(text, charges__extras=None) == {"charges.extras": None}


def test_borders_have_fields_by_their_number() -> None:
    values = field_values(table_of(PIECED), usual(PIECED))
    assert [values[f"top.borders[{number}].cut"] for number in (1, 2, 3)] == ["3", "6 1/2", ""]
    text = edit(PIECED, **{"top__borders[3]__cut": "2"})
    assert table_after(tomllib.loads(PIECED), [text])["top"]["borders"][2] == {"cut": 2}  # type: ignore[index,call-overload]
