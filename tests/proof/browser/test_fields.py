"""Every field of the form, edited in the browser: it comes to what the command line's `--set` comes to, which reads no
form and keeps no draft; what changes no price is read on the page; and undo takes each back."""

from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

from finishcalc.counter.form.fields import FIELDS
from tests.builders import TOP, in_file, tried
from tests.proof.browser.desk import figures
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect


class Edit(NamedTuple):
    """A value for a field. Where the total stays, `said` is what the page then says in the element `where`."""

    value: str
    said: str = ""
    where: str = "#quote"
    setting: str = ""


PLAIN = """[top]
width = 60
length = 80
use = "throw"
[backing]
fabric = "cotton-44"
[charges]
extras = ["label"]
"""
BORDERED = """[top.blocks]
across = 5
down = 6
size = 12
[top.sashing]
width = 2
fabric = { preset = "cotton-44", name = "white cotton" }
[[top.borders]]
cut = "3 1/2"
fabric = { preset = "cotton-44", name = "red cotton" }
[[top.borders]]
cut = 4
fabric = { preset = "cotton-44", name = "green cotton" }
[[top.borders]]
cut = "4 1/2"
fabric = { preset = "cotton-44", name = "grey cotton" }
[[top.borders]]
cut = 6
fabric = { preset = "cotton-44", name = "navy cotton" }
[backing]
fabric = "cotton-44"
[binding]
fabric = { preset = "cotton-44", name = "plum cotton" }
"""
ROUND = '[top]\nshape = "round"\ndiameter = 70\n'
BED = '[top]\nuse = "bed"\n[top.covers]\nbed = "queen"\ndrop = 14\n'
TABLE = '[top]\nuse = "tablecloth"\n[top.covers]\ntable = "dining-6"\ndrop = 8\n'
BROUGHT = TOP + '[backing]\nfabric = "cotton-44"\nsupplied_by = "customer"\nhave = "6 yd"\n'

EDITS: dict[str, dict[str, Edit]] = {
    PLAIN: {
        "customer.name": Edit("Ingrid of the mill", "for Ingrid of the mill", "#heading"),
        "title": Edit("Blue throw", "Blue throw", "h1"),
        "job.number": Edit("2026-77", "quote 2026-77", "#heading"),
        "job.date": Edit("2026-05-04", "May 4, 2026", "#heading"),
        "job.due": Edit("2026-06-01", "due June 1, 2026", "#heading"),
        "job.thread": Edit("cream, top and bobbin", "cream, top and bobbin"),
        "job.notes": Edit("Mind the corner.", "Mind the corner."),
        "job.keep_leftovers": Edit("", "not saved yet", "#heading", "false"),
        "job.embellishments": Edit("yes", "buttons, beads or the like", "#job-answer", "true"),
        "job.vinyl": Edit("yes", "vinyl or other prints", "#job-answer", "true"),
        "job.t_shirts": Edit("yes", "t-shirts pieced in", "#job-answer", "true"),
        "job.dense_seams": Edit("yes", "many seams that meet", "#job-answer", "true"),
        "job.for_sale": Edit("yes", "to be sold when it is done", "#job-answer", "true"),
        "top.use": Edit("wall", "wall hanging", "#top-answer"),
        "units": Edit("cm"),
        "top.shape": Edit("oval"),
        "top.width": Edit("70 1/2"),
        "top.length": Edit("6 ft"),
        "top.corner_radius": Edit("10"),
        "top.prewashed": Edit("yes", "not saved yet", "#heading", "true"),
        "backing.fabric.preset": Edit("plush-wide-90"),
        "backing.fabric.name": Edit("cream cotton", "cream cotton"),
        "backing.supplied_by": Edit("customer"),
        "backing.overage": Edit("8"),
        "backing.seams": Edit("crosswise"),
        "batting.product.preset": Edit("cotton"),
        "batting.supplied_by": Edit("customer"),
        "batting.overage": Edit("20"),
        "binding.attach": Edit("hand"),
        "binding.supplied_by": Edit("customer"),
        "binding.strip_width": Edit("4"),
        "binding.cut": Edit("bias", "on the bias", "#binding-answer"),
        "quilting.style.preset": Edit("custom"),
        "quilting.method.preset": Edit("longarm-computer-guided", "computer-guided longarm"),
        "quilting.colours": Edit("5", "colours of thread 5", "#quilting-answer"),
        "charges.extras": Edit("pressing", setting='["label", "pressing"]'),
        "charges.postage": Edit("yes", setting="true"),
        "charges.discount": Edit("5 %"),
        "charges.discount_amount": Edit("12.50"),
        "charges.rush": Edit("20 %"),
    },
    BORDERED: {
        "top.blocks.across": Edit("6"),
        "top.blocks.down": Edit("7"),
        "top.blocks.size": Edit("10 1/2"),
        "top.blocks.setting": Edit("on-point"),
        "top.sashing.width": Edit("3"),
        "top.sashing.fabric.preset": Edit("linen-60"),
        "top.sashing.fabric.name": Edit("oat cotton", "oat cotton"),
        "top.sashing.outer": Edit("yes", setting="true"),
        "top.sashing.cornerstones": Edit("yes", setting="true"),
        **{
            f"top.borders[{number}].{key}": edit
            for number in (1, 2, 3, 4)
            for key, edit in {
                "cut": Edit("9 1/2"),
                "fabric.preset": Edit("linen-60"),
                "fabric.name": Edit(f"sea cotton {number}", f"sea cotton {number}"),
                "corners": Edit("mitred"),
            }.items()
        },
        "top.borders[1].corners": Edit("mitred", "mitred", "#borders-answer"),
        "binding.fabric.preset": Edit("linen-60"),
        "binding.fabric.name": Edit("rust cotton", "rust cotton"),
        "charges.piecing": Edit("yes", setting="true"),
    },
    ROUND: {"top.diameter": Edit("90 1/4")},
    BED: {
        "top.covers.bed.preset": Edit("king"),
        "top.covers.drop": Edit("20"),
        "top.covers.foot_drop": Edit("4"),
        "top.covers.pillow_tuck": Edit("20"),
    },
    TABLE: {"top.covers.table.preset": Edit("trestle-8ft")},
    BROUGHT: {"backing.have": Edit("1 yd")},
}
"""For each project the edits of its fields."""


def test_every_field_of_the_form_is_tried():
    assert {key for edits in EDITS.values() for key in edits} == set(FIELDS)


@pytest.mark.parametrize("text", EDITS, ids=["plain", "bordered", "round", "bed", "table", "brought"])
def test_an_edit_comes_to_what_the_command_line_says_and_is_undone(
    windows: Callable[..., Any], project: Callable[..., str], text: str, tmp_path: Any
):
    path = in_file(text, tmp_path)
    settings = [f"{key.removesuffix('.preset')}={edit.setting or edit.value}" for key, edit in EDITS[text].items()]
    wanted = [figures(tried(path, setting)[0].quote.total) for setting in settings]
    desk = windows().tab(project(text))
    desk.page.route("**/more?**", lambda route: route.fulfill(status=204))  # what comes later is not looked at
    desk.open_folds()
    first, wrong = desk.total, list[str]()
    for (key, edit), total in zip(EDITS[text].items(), wanted, strict=True):
        before = desk.value(key)
        desk.put(key, edit.value)
        if desk.total != total or (total == first) != bool(edit.said):
            wrong.append(f"{key}: {desk.total}, not {total}; before {first}")
        if edit.said not in desk.text(edit.where):
            wrong.append(f"{key}: {edit.said!r} is not in {edit.where}")
        desk.press("Undo")
        if (desk.total, desk.value(key)) != (first, before):
            wrong.append(f"undo of {key}: {desk.total}, {desk.value(key)}; before {first}, {before}")
    assert wrong == []
    expect(desk.page.get_by_role("button", name="Undo", exact=True)).to_be_disabled()
