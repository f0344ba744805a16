"""No answer that a customer may see holds a figure or a word that is the studio's own. Every route is asked."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote, urlencode

import pytest
from starlette.routing import Route

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.alternatives.in_house import in_house
from finishcalc.counter import pages
from finishcalc.counter.papers import KINDS
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing, finish_file
from finishcalc.rendering.pages.quote import quote_page
from finishcalc.rendering.writers.text import pages_text
from finishcalc.rendering.writing import notation_of
from tests.counter.studio.asking import Asking, Browser, folder_with
from tests.counter.visiting import Response

WORDS = ("wage", "margin", "minutes", "earned", "earns", "markup", "overhead", "break-even", "breaks even", "your cost")
"""The words that only the studio reads."""
FIGURES = ("77.77", "17.17", "41.37", "3.37", "13.57", "43.21", "91.93", "SECRET")
"""The figures of the shop below that are the studio's own: wage, other costs an hour, markup, a seam's worth, the cost
of two cloths and of an extra; and its note on the job."""
SHOP = """\
units = "in"

[rates]
wage = "77.77"
overhead = "17.17"
markup = "41.37 %"

[cloth]
worth_a_seam = "3.37"

[fabrics]
cotton-44 = { price = "13.57" }
cotton-wide-108 = { price = "43.21" }

[extras.label]
label = "Label, sewn on"
price = 8
cost = "91.93"
minutes = 19
"""
SAMPLES = ("boathouse-supper-cloth", "lighthouse-bed-quilt", "on-point-throw", "harbour-check-cloth")
NUMBER = re.compile(r"(?<![\d.,])\d+(?:,\d{3})*\.\d\d(?![\d.])")


class Asked(NamedTuple):
    method: str
    path: str
    answer: Response


Ask = Callable[..., Asked]


def in_folder(folder: Path, *samples: str) -> Asking:
    """A counter over samples, each with a note of the studio's own, and a shop of unmistakable figures."""
    folder_with(folder, *samples, shop=SHOP)
    for sample in samples:
        file = folder / f"{sample}.toml"
        text = file.read_text("utf-8")
        note = 'notes_studio = "SECRET"\n'
        file.write_text(text.replace("[job]\n", f"[job]\n{note}", 1) if "[job]\n" in text else f"{text}\n[job]\n{note}")
    return Asking(folder, None)


def secrets_of(result: Finishing) -> set[str]:
    """All amounts of the studio's side of a quote, but those that the customer's page of the command line has too."""
    notation, house = notation_of(result, "studio"), in_house(result)
    told = pages_text([quote_page(result, alternatives_of(result), None)], 80)
    amounts = [value for value in (*house.profit, *house.profit.earned) if isinstance(value, Money)]
    amounts += [value for line in house.profit.lines for value in (line.cost, line.margin) if value is not None]
    amounts += [other.hourly for other in house.profit.others if other.hourly is not None]
    written = {notation.bare_money(amount).lstrip("-\u2212") for amount in amounts}
    return written - {"0.00"} - set(NUMBER.findall(told))


def walk(asking: Asking, browser: Browser, name: str) -> Iterator[Asked]:
    """Ask every route, as a page would and otherwise; edits, options and mistakes among them."""

    def ask(method: str, path: str, form: dict[str, list[str]] | None = None, **headers: str) -> Asked:
        return Asked(method, path, browser.ask(method, path, form, **headers))

    at = f"/p/{quote(name)}"
    opened = browser.open(name)
    page = opened.form["page"][0]
    yield ask("GET", at)
    for path in ("/", "/?q=a", f"{at}/total", f"{at}/copy", f"{at}/rename", f"{at}/papers", f"{at}/conflict", "/new"):
        yield ask("GET", path)
        yield ask("GET", path, hx_request="true")
    yield from (ask("GET", f"{at}/papers/{kind}") for kind in KINDS)
    for form in ("html", "pdf"):
        yield ask("GET", f"{at}/work-order.{form}")
    yield ask("GET", "/shop")
    yield ask("POST", "/shop", {"mark": [""], "was:wage": ["1"], "wage": ["2"]})
    yield ask("POST", f"{at}/studio", {})
    yield ask("POST", "/studio/stay", {})
    yield ask("POST", "/studio/close", {})
    more = f"{at}/more?{urlencode({'page': page})}"
    yield ask("GET", more, hx_request="true")
    for changes in (
        {"top.width": ["70"]},
        {"top.width": ["x"]},
        {"job.due": ["1999-01-01"]},
        {"batting.product": ["?"]},
    ):
        for scripted in ({}, {"hx_request": "true"}):
            yield ask("POST", f"{at}/edit", {**opened.form, **changes}, **scripted)
            yield ask("GET", at)
            yield ask("GET", f"{at}/papers")
    opened = browser.open(name)
    for button in ("undo", "undo", "undo", "redo", "try"):
        yield ask("POST", f"{at}/edit", {**opened.form, "do": [button]}, hx_request="true")
        opened = browser.open(name)
    taken = ask("GET", f"{at}/more?{urlencode({'page': opened.form['page'][0]})}", hx_request="true")
    yield taken
    for value in re.findall(r'name="take" value="([^"]+)"', taken.answer.text)[:3]:
        yield ask("POST", f"{at}/edit", {**browser.open(name).form, "take": [value]}, hx_request="true")
    yield ask("POST", f"{at}/copy", {"new": ["another"]})
    yield ask("POST", f"{at}/rename", {"new": ["another"]})
    yield ask("POST", "/new", {"title": ["x"], "width": ["x"]})
    yield ask("POST", "/new", {"title": ["Fresh"], "width": ["60x80"]})
    yield from conflicts(asking, ask, browser, name)
    yield ask("POST", f"{at}/edit", {**browser.open(name).form, "do": ["save"]})
    yield from mistakes_in_the_shop(asking, ask, at)
    yield ask("GET", "/no/such/page")
    yield ask("GET", "/p/none.toml")


def conflicts(asking: Asking, ask: Ask, browser: Browser, name: str) -> Iterator[Asked]:
    """Meet a file that somebody else has changed."""
    at, file = f"/p/{quote(name)}", asking.folder / name
    yield ask("POST", f"{at}/edit", {**browser.open(name).form, "title": ["Mine"]})
    file.write_text(file.read_text("utf-8") + "# theirs\n", "utf-8")
    yield ask("GET", "/")
    yield ask("POST", f"{at}/edit", {**browser.open(name).form, "do": ["save"]})
    yield ask("GET", f"{at}/conflict")
    yield ask("POST", f"{at}/conflict", {"mark": ["old"], "do": ["mine"]})


def mistakes_in_the_shop(asking: Asking, ask: Ask, at: str) -> Iterator[Asked]:
    """Meet a shop file that has a mistake beside its own figures."""
    file = asking.folder / "shop.toml"
    for wrong in ('wage = "77.77 $$"', 'wage = "77.77'):
        file.write_text(SHOP.replace('wage = "77.77"', wrong), "utf-8")
        for path in ("/", at, f"{at}/papers", f"{at}/papers/quote.html", f"{at}/total", "/shop"):
            yield ask("GET", path)
        yield ask("POST", f"{at}/studio", {"sure": ["yes"]})
        yield ask("POST", f"{at}/edit", {"page": ["p"], "top.width": ["50"]})
    file.write_text(SHOP, "utf-8")


def leaks(asked: Asked, secrets: set[str]) -> list[str]:
    """The words and figures in an answer, its headers among it, that nobody but the studio is to see."""
    headers = "\n".join(f"{name}: {text}" for name, text in asked.answer.headers.items())
    is_pdf = asked.answer.headers.get("content-type") == "application/pdf"
    text = headers + ("" if is_pdf else asked.answer.text)
    text = re.sub(r"<svg.*?</svg>", lambda svg: re.sub(r"<[^>]*>", " ", svg[0]), text, flags=re.DOTALL)  # coordinates
    said = re.sub(r"<style>.*?</style>", "", text, flags=re.DOTALL).lower()
    words = [word for word in WORDS if word in said]
    return words + [figure for figure in FIGURES if figure in text] + sorted(secrets & set(NUMBER.findall(text)))


@pytest.mark.parametrize(
    "sample", [SAMPLES[0], *(pytest.param(sample, marks=pytest.mark.slow) for sample in SAMPLES[1:])]
)
def test_no_answer_holds_what_is_the_studios(tmp_path: Path, sample: str) -> None:
    asking = in_folder(tmp_path, sample)
    name = f"{sample}.toml"
    secrets = secrets_of(finish_file(str(tmp_path / name)))
    assert len(secrets) >= 8
    found = {
        f"{asked.method} {asked.path}: {leak}"
        for asked in walk(asking, asking.browser(), name)
        for leak in leaks(asked, secrets)
    }
    assert not found


def test_every_route_is_asked(tmp_path: Path) -> None:
    asking = in_folder(tmp_path, SAMPLES[0])
    asked = {
        (each.method, each.path.partition("?")[0]) for each in walk(asking, asking.browser(), f"{SAMPLES[0]}.toml")
    }
    routes = [
        (method, route)
        for route in asking.app.routes
        if isinstance(route, Route)
        for method in (route.methods or set()) - {"HEAD"}
    ]
    assert len(routes) > 15
    left_out = [
        (method, route.path)
        for method, route in routes
        if not any(method == each and route.path_regex.match(path) for each, path in asked)
    ]
    assert not left_out


def test_view_has_it_while_it_is_open_and_the_customers_page_has_not_afterwards(tmp_path: Path) -> None:
    asking = in_folder(tmp_path, *SAMPLES[:2])
    name = f"{SAMPLES[0]}.toml"
    secrets = secrets_of(finish_file(str(tmp_path / name)))
    hers, theirs = asking.browser("hers"), asking.browser("theirs")

    def seen(browser: Browser, path: str) -> set[str]:
        return set(leaks(Asked("GET", path, browser.get(path)), secrets))

    at, sheet, shop = f"/p/{name}", f"/p/{name}/work-order.html", "/shop"
    shown = set(leaks(Asked("GET", at, hers.open_view(name)), secrets))
    assert secrets | {"wage", "margin", "minutes", "earned", "77.77", "SECRET"} <= shown
    assert {"minutes", "SECRET"} <= seen(hers, sheet)
    assert {"wage", "77.77", "13.57"} <= seen(hers, shop)
    for path in (at, sheet, shop, f"{at}/papers", "/"):
        assert not seen(theirs, path), "another browser"
    asking.clock.now += 61
    for path in (sheet, shop, at):
        assert not seen(hers, path), "nobody was there for its seconds"
    hers.open_view(name)
    assert not seen(hers, at), "loaded again"
    assert not seen(hers, sheet)


def test_walk_finds_a_leak_where_there_is_one(tmp_path: Path) -> None:
    asking = in_folder(tmp_path, SAMPLES[0])
    browser = asking.browser()
    assert leaks(Asked("GET", "", browser.open_view(f"{SAMPLES[0]}.toml")), set())


def test_files_of_the_pages_tell_nothing() -> None:
    folder = Path(pages.__file__).parent / "static"
    files = [file for file in folder.iterdir() if file.name != "htmx.min.js"]
    assert len(files) > 3
    assert not [(file.name, each) for file in files for each in FIGURES if each in file.read_text("utf-8")]


@pytest.mark.parametrize(
    "wrong",
    [
        'backing.fabric = { preset = "cotton-44", price = "7777 each" }',
        '[[charges.lines]]\nlabel = "Errand"\nprice = 3\nper = "each"\ncost = "7777 each"',
        '[[charges.lines]]\nlabel = "Errand"\nprice = 3\nper = "each"\nminutes = "7777 each"',
        "[rates]\nwage = 7777",
        "wage = 7777",
        'job.notes_studo = "7777"',
    ],
)
def test_mistake_in_a_project_does_not_show_the_studios_value(tmp_path: Path, wrong: str) -> None:
    """A customer reads the mistakes beside the fields, what is set in the file, and both files when they meet."""
    file = tmp_path / "quilt.toml"
    file.write_text(f'title = "Quilt"\ntop.width = 60\ntop.length = 80\n{wrong}\n', "utf-8")
    asking = Asking(tmp_path)
    browser = asking.browser()
    page = browser.open("quilt.toml")
    answers = [browser.show("quilt.toml"), page.edit(title="Mine")]
    file.write_text(file.read_text("utf-8") + "# theirs\n", "utf-8")
    shown = browser.get("/p/quilt.toml/conflict")
    (mark,) = set(re.findall('name="mark" value="([^"]+)"', shown.text))
    answers += [
        page.send(scripted=False, do="save"),
        shown,
        browser.post("/p/quilt.toml/conflict", {"mark": [mark], "do": ["other"], "new": ["another"]}),
    ]
    assert [answer.status for answer in answers] == [200, 200, 422, 200, 409]
    assert [answer.status for answer in answers if "7777" in answer.text or "7777" in str(answer.headers)] == []


def test_mistake_in_the_shop_is_not_told_when_a_draft_is_saved_under_another_name(tmp_path: Path) -> None:
    asking = in_folder(tmp_path, SAMPLES[0])
    browser, name = asking.browser(), f"{SAMPLES[0]}.toml"
    browser.open(name).edit(title="Mine")
    (tmp_path / name).write_text((tmp_path / name).read_text("utf-8") + "# theirs\n", "utf-8")
    shown = browser.get(f"/p/{name}/conflict").text
    (mark,) = set(re.findall('name="mark" value="([^"]+)"', shown))
    (tmp_path / "shop.toml").write_text(SHOP.replace('wage = "77.77"', 'wage = "77.77 $$"'), "utf-8")
    answer = browser.post(f"/p/{name}/conflict", {"mark": [mark], "do": ["other"], "new": ["another"]})
    assert answer.status == 409
    assert "shop.toml, line 4" in answer.text
    assert "77.77" not in answer.text
