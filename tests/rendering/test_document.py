"""The document: its whole structure, written down once, and what its figures promise to a program."""

import json
import re
from collections import Counter
from decimal import Decimal
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_document
from finishcalc.pipeline import Finishing
from finishcalc.wording.sentence import Audience
from tests.builders import PROJECTS, ROOT, TOP, finished, quote_text, quoted
from tests.strategies import examples

# --- the structure -----------------------------------------------------------------------------------------------

TEXT, NUMBER, COUNT, FLAG = "text", "number", "count", "flag"
MONEY, RATE, DATE, UNIT = "money", "rate", "date", "unit"
NULL = None
ANYTHING = "anything"
STRIPS = {"width": NUMBER, "strips": [[{"for": TEXT, "length": NUMBER, "of": NUMBER}]]}
SIZE = {"width": NUMBER, "length": NUMBER}
RECTANGLE = {"x": NUMBER, "y": NUMBER, **SIZE}
BUY = {"amount": NUMBER, "unit": UNIT, "cost": MONEY}
OFFCUT = {**SIZE, "strips": [NUMBER]}
BIAS_RECTANGLE = {"width": NUMBER, "height": NUMBER, "rounds": COUNT, "pieces": COUNT}
STRIP = {
    "width": NUMBER, "pieces": COUNT, "cut_length": NUMBER, "seams": COUNT, "seam_length": NUMBER,
    "seam_minutes": NUMBER,
}  # fmt: skip
OPTION = {
    "overage": {"sides": NUMBER, "ends": NUMBER},
    "covers": SIZE,
    "layout": TEXT,
    "seams": COUNT,
    "seam_length": NUMBER,
    "turned": FLAG,
    "cut_length": NUMBER,
    "buy": BUY,
    "seam_minutes": NUMBER,
    "seam_cost": MONEY,
    "total_cost": MONEY,
    "cuts": [{"piece": TEXT, **RECTANGLE}],
    "assembly": [{"piece": TEXT, **RECTANGLE, "turned": FLAG}],
    "leftover": [RECTANGLE],
}
BATTING = {
    "product": TEXT, "form": TEXT, "size": TEXT, **SIZE, "number": COUNT,
    "charged": {"by": TEXT, "quantity": NUMBER, "unit": UNIT}, "offcut": ({**SIZE, "whose": TEXT}, NULL),
    "seams": COUNT, "cost": MONEY,
}  # fmt: skip
BROUGHT_BATTING = {
    "verdict": TEXT, "text": TEXT, "pieces": [SIZE], "least": SIZE, "short": (SIZE, NULL), "bring": (SIZE, NULL),
}  # fmt: skip
JOINED = {"seams": COUNT, "seam_length": NUMBER, "pieces": [{"from": COUNT, **RECTANGLE}]}
STAGE = {"low": NUMBER, "likely": NUMBER, "high": NUMBER}
SAID = {"text": TEXT, "for": TEXT}
PATCH = {"fabric": (TEXT, NULL), **SIZE, "in_a_block": COUNT, "count": COUNT, "pieces": COUNT, "cuts": COUNT}
PIECED = {
    "centre": SIZE,
    "blocks": ({"count": COUNT, "cut": NUMBER, "plain": COUNT, "cloth_listed": TEXT, "patches": [PATCH]}, NULL),
    "sashing": [{**SIZE, "count": COUNT, "run": TEXT}],
    "cornerstones": [{"size": NUMBER, "count": COUNT}],
    "triangles": [{"for": TEXT, "square": NUMBER, "squares": COUNT, "cuts": COUNT, "count": COUNT}],
    "borders": [
        {
            "cut": NUMBER,
            "corners": TEXT,
            "strips": [{"length": NUMBER, "count": COUNT, "run": TEXT}],
            "corner_squares": COUNT,
            **SIZE,
        }
    ],
}
COVERS = {
    "bed": ({"name": (TEXT, NULL), **SIZE, "depth": (NUMBER, NULL)}, NULL),
    "table": ({"shape": TEXT, "name": (TEXT, NULL), **SIZE, "height": (NUMBER, NULL)}, NULL),
    "drop": NUMBER,
    "foot_drop": (NUMBER, NULL),
    "pillow_tuck": (NUMBER, NULL),
    "draw_up": RATE,
    "quilted": SIZE,
    "corner_hang": (NUMBER, NULL),
}
WHOLE_ROWS = {
    "rows": COUNT, "pitch": NUMBER, "scale_percent": COUNT, "passes": (COUNT, NULL),
    "paper_gap": (NUMBER, NULL), "paper_passes": (COUNT, NULL),
}  # fmt: skip
UNEVEN = {
    "shows": NUMBER, "even_rows": (COUNT, NULL), "even_pitch": (NUMBER, NULL), "even_passes": (COUNT, NULL),
    "pitch_up": (WHOLE_ROWS, NULL), "pitch_down": WHOLE_ROWS,
}  # fmt: skip
LOADING = {
    "way": TEXT, "along": NUMBER, "down": NUMBER, "rows": (COUNT, NULL), "passes": COUNT, "fits": FLAG,
    "fits_frame": FLAG, "fits_throat": FLAG,
}  # fmt: skip
TAKE = {...: ANYTHING}
HOURS = {
    "minutes": {...: STAGE},
    "total_minutes": {**STAGE, "planned": NUMBER, "attended": NUMBER, "frame": NUMBER},
}
DOCUMENT: dict[str, Any] = {
    "schema_version": COUNT,
    "for": TEXT,
    "title": TEXT,
    "units": TEXT,
    "shop": ({"file": (TEXT, NULL), "named_by": TEXT}, NULL),
    "job": {
        "number": TEXT, "date": (DATE, NULL), "due": (DATE, NULL), "thread": TEXT, "keep_leftovers": FLAG,
        "for_sale": FLAG, "embellishments": FLAG, "vinyl": FLAG, "t_shirts": FLAG, "dense_seams": FLAG, "notes": TEXT,
    },
    "customer": {"name": TEXT},
    "notes_studio": TEXT,
    "dates": ({
        "lead": TEXT, "ready": DATE, "work_ends": (DATE, NULL), "open_days_until_due": (COUNT, NULL),
        "rush": ({"within_days": COUNT, "percent": TEXT, "take": TAKE}, NULL),
    }, NULL),
    "arrival": [{"key": TEXT, "text": TEXT}],
    "cautions": [{"code": TEXT, "text": TEXT, "source": TEXT, "hinders": FLAG}],
    "samples": [TEXT],
    "defaults": [{"key": TEXT, "value": TEXT, "layer": TEXT, "file": TEXT, "line": COUNT}],
    "top": {
        "shape": TEXT, **SIZE, "area": NUMBER, "perimeter": NUMBER, "billed": {**SIZE, "area": NUMBER},
        "pieced": (PIECED, NULL), "covers": (COVERS, NULL),
    },
    "backing": ({
        "needed": SIZE, "chosen": (OPTION, NULL), "options": [OPTION],
        "brought": ({
            "verdict": TEXT, "text": TEXT, "short": (NUMBER, NULL), "bring": (NUMBER, NULL), "strips": [STRIP],
        }, NULL),
    }, NULL),
    "batting": (
        {
            "needed": SIZE, "chosen": (BATTING, NULL), "brought": (BROUGHT_BATTING, NULL), "joined": (JOINED, NULL),
            "seam_minutes": NUMBER, "options": [BATTING],
        },
        NULL,
    ),
    "binding": ({
        "needed_length": NUMBER, "strips": COUNT, "beside": [NUMBER], "offcut": (OFFCUT, NULL),
        "strip_width": NUMBER, "yields": NUMBER,
        "square": ({"side": NUMBER, "rounds": COUNT}, NULL), "rectangle": (BIAS_RECTANGLE, NULL), "cut": TEXT,
        "fold": TEXT, "buy": BUY,
    }, NULL),
    "hem": ({"allowance": NUMBER, "leaves": SIZE}, NULL),
    "quilting": {
        "method": TEXT,
        "parts": [{
            "style": TEXT, "lines": TEXT, "share": NUMBER, "stitched_length": NUMBER, "ties": COUNT, "widest": NUMBER,
        }],
        "stitched_length": NUMBER, "ties": COUNT, "thread_length": NUMBER, "thread_top": NUMBER,
        "thread_bobbin": NUMBER, "bobbins": COUNT, "cones": COUNT, "colours": COUNT, "changes": COUNT, "motifs": COUNT,
        "rows": (COUNT, NULL), "passes": (COUNT, NULL), "loaded": (LOADING, NULL), "other": (LOADING, NULL),
        "partial_row": (UNEVEN, NULL),
        "quilted": SIZE, "washed": SIZE, "washed_smallest": SIZE, **HOURS, "assumed": [TEXT], "fits": FLAG,
    },
    "extras": [{"label": TEXT, "use": TEXT, "pieces": COUNT, **SIZE, "fabric": TEXT}],
    "weight": {"unit": UNIT, "total": (NUMBER, NULL), "parts": {...: (NUMBER, NULL)}, "not_known": [TEXT]},
    "hours": HOURS,
    "buy": [{
        "fabric": TEXT, "for": [TEXT], "supplied_by": TEXT, "cut_length": NUMBER, **BUY,
        "on_hand": ({"lengths": [NUMBER], "needed": NUMBER, "enough": FLAG, "short": NUMBER}, NULL),
        "joins": COUNT,
        "layouts": [{
            "turned": FLAG,
            "bands": [{
                "gap": NUMBER, "length": NUMBER,
                "columns": [{
                    "width": NUMBER, "pieces": [{"for": TEXT, **SIZE, "joined_to": NUMBER}],
                }],
            }],
        }],
    }],
    "quote": {
        "currency": TEXT,
        "lines": [{
            "label": TEXT, "class": TEXT, "quantity": NUMBER, "unit": UNIT, "rate": RATE, "amount": MONEY,
        }],
        "subtotal": MONEY, "discount": MONEY,
        "tax": [{
            "label": TEXT, "percent": RATE, "included": FLAG, "by": TEXT, "base": MONEY, "amount": MONEY,
        }],
        "cash_rounding": MONEY, "total": MONEY, "deposit": MONEY, "deposit_due": (DATE, NULL),
        "balance": MONEY, "provisional": FLAG,
    },
    "offers": [{"label": TEXT, "total": MONEY, "adds": MONEY, "rests_on_samples": FLAG, "take": TAKE}],
    "other_backings": [{"label": TEXT, "total": MONEY, "adds": MONEY, "adds_to_cost": MONEY, "take": TAKE}],
    "other_cuttings": [{
        "fabric": TEXT, "for": [TEXT], "amount": NUMBER, "unit": UNIT, "joins": COUNT, "total": MONEY, "adds": MONEY,
        "take": TAKE,
    }],
    "other_binding": ({"total": MONEY, "adds": MONEY, "take": TAKE}, NULL),
    "studio": {
        "lines": [{"label": TEXT, "amount": MONEY, "cost": (MONEY, NULL), "margin": (MONEY, NULL)}],
        "net": MONEY, "materials": MONEY, "other_costs": MONEY, "attended_hours": NUMBER, "frame_hours": NUMBER,
        "left_out": [{"label": TEXT, "net": MONEY}], "passed_on": MONEY,
        "at_best": {"hours": NUMBER, "earned_an_attended_hour": (MONEY, NULL)},
        "at_worst": {"hours": NUMBER, "earned_an_attended_hour": (MONEY, NULL)},
        "earned_an_attended_hour": (MONEY, NULL), "earned_a_frame_hour": (MONEY, NULL), "wage": MONEY,
        "break_even": MONEY, "meets_the_wage": MONEY,
        "others": [{"label": TEXT, "total": MONEY, "earned_an_attended_hour": (MONEY, NULL)}],
    },
    "working": {
        part: [SAID] for part in (
            "top", "piecing", "backing", "batting", "binding", "hem", "quilting", "extras", "weight", "buy", "hours",
            "quote",
            "studio",
        )
    },
}  # fmt: skip
"""Section 4 of the design, with the keys that were added since. A pair is a choice; `...` stands for any name."""

UNITS = re.compile(r"(sq )?(in|ft|yd|mm|cm|m)|each|hour|oz|g|[A-Z]{3}")
IS = {
    TEXT: lambda value: isinstance(value, str),
    NUMBER: lambda value: isinstance(value, int | Decimal) and not isinstance(value, bool),
    COUNT: lambda value: isinstance(value, int) and not isinstance(value, bool) and value >= 0,
    FLAG: lambda value: isinstance(value, bool),
    MONEY: lambda value: isinstance(value, str) and bool(re.fullmatch(r"-?\d+(\.\d+)?", value)),
    RATE: lambda value: isinstance(value, str) and bool(re.fullmatch(r"-?\d+(\.\d+)?", value)),
    DATE: lambda value: isinstance(value, str) and bool(re.fullmatch(r"\d{4}-\d\d-\d\d", value)),
    UNIT: lambda value: isinstance(value, str) and bool(UNITS.fullmatch(value)),
    NULL: lambda value: value is None,
    ANYTHING: lambda value: True,
}  # fmt: skip


def faults(found: Any, shape: Any, path: str = "$") -> list[str]:
    """Where a document is not of its structure."""
    if isinstance(shape, tuple):
        each = [faults(found, choice, path) for choice in shape]
        return [] if [] in each else min(each, key=len)
    if isinstance(shape, list):
        items = found if isinstance(found, list) else None
        if items is None:
            return [f"{path} is no list"]
        return [fault for n, item in enumerate(items) for fault in faults(item, shape[0], f"{path}[{n}]")]
    if isinstance(shape, dict):
        if not isinstance(found, dict):
            return [f"{path} is no record"]
        if ... in shape:
            return [fault for name, item in found.items() for fault in faults(item, shape[...], f"{path}.{name}")]
        odd = [f"{path}.{name}: there or missing" for name in sorted(found.keys() ^ shape.keys())]
        both = [name for name in shape if name in found]
        return odd + [fault for name in both for fault in faults(found[name], shape[name], f"{path}.{name}")]
    return [] if IS[shape](found) else [f"{path} = {found!r} is not {shape}"]


def document(text: str, shop: str | None = None) -> dict[str, Any]:
    """Numbers with a point become exact Decimals."""
    return json.loads(quote_document(quoted(text, shop)), parse_float=Decimal)


def of_file(path: Path) -> dict[str, Any]:
    return json.loads(quote_document(finished(path)), parse_float=Decimal)


CASES = {
    "two-lines": TOP,
    "centimetres": "units = 'cm'\n[top]\nwidth = 152\nlength = 203\n",
    "nothing-but-quilting": TOP + "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'",
    "custom-has-no-rows": TOP + "[quilting]\nstyle = 'custom'\n",
    "round": "[top]\ndiameter = '70 1/2'\n",
    "measured": "[top]\nmeasured = { widths = [60, '60 1/4', 60], lengths = [80, 81], diagonals = [100, '100 1/2'] }\n",
    "bound-on-the-bias": TOP + "[binding]\ncut = 'bias'\nfold = 'single'\n",
    "hemmed": TOP + "[binding]\nattach = 'hem'\n",
    "no-batting-covers": "[top]\nwidth = 130\nlength = 125\n[batting]\nproduct = 'cotton-needled'\n",
    "batting-joined": "[top]\nwidth = 130\nlength = 125\n",
    "batting-brought": TOP + "[batting]\nhave = [{ width = 68, length = 80 }, { width = 20, length = 80 }]\n",
    "batting-short": TOP + "[batting]\nhave = { width = 60, length = 80 }\n",
    "cloth-is-brought": TOP + "[backing]\nhave = '3 yd'\nsupplied_by = 'customer'\n",
    "backing-is-sewn": TOP + "[backing]\nsewn = { width = 70, length = 90 }\nsupplied_by = 'customer'\n",
    "everything": "[job]\nnumber = '7'\ndate = 2026-05-04\ndue = 2026-06-01\nnotes = 'n'\n[customer]\nname = 'Ann'\n"
    + TOP + "[charges]\nrush = '12.5 %'\ndiscount = '0.333 %'\nextras = [{ name = 'pressing', quantity = '1/3' }]\n",
}  # fmt: skip


@pytest.mark.parametrize("text", CASES.values(), ids=CASES.keys())
def test_the_document_has_its_structure(text: str):
    assert faults(document(text), DOCUMENT) == []


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_sample_s_document_has_its_structure(path: Path):
    assert faults(of_file(path), DOCUMENT) == []


def test_the_structure_can_fail():
    good = document(TOP)
    for spoil in (
        lambda it: it.pop("samples"),
        lambda it: it.update(more=1),
        lambda it: it["quote"].update(total=12.5),
        lambda it: it["top"].update(width="60"),
        lambda it: it["quote"]["lines"][0].update(rate=Decimal("0.03")),
        lambda it: it["quilting"]["total_minutes"].pop("planned"),
    ):
        bad = json.loads(json.dumps(good, default=str), parse_float=Decimal)
        spoil(bad)
        assert faults(bad, DOCUMENT)


def test_nulls_stand_where_there_is_nothing():
    bare = document(CASES["nothing-but-quilting"])
    assert (bare["backing"], bare["batting"], bare["binding"], bare["buy"]) == (None, None, None, [])
    short = document(CASES["no-batting-covers"])
    assert short["batting"]["chosen"] is None
    assert not any("Batting" in line["label"] for line in short["quote"]["lines"])
    assert document(CASES["custom-has-no-rows"])["quilting"]["rows"] is None
    job = document(TOP)["job"]
    assert (job["date"], job["due"]) == (None, None)


def sentences_of_the_page(result: Finishing, audience: Audience) -> Counter[str]:
    """Every sentence of arithmetic on a page so wide that none is wrapped."""
    page = quote_text(result, audience, explain=True, width=10_000)
    return Counter(re.findall(r"^(?: +|[A-Z][a-z ]+  )?= (.+)$", page, re.M))


def sentences_of_the_document(result: Finishing, audience: Audience) -> Counter[str]:
    working = json.loads(quote_document(result, audience))["working"]
    return Counter(said["text"] for part in working.values() for said in part)


HERS = TOP + "[backing]\nhave = '9 yd'\n[binding]\nfabric = 'backing'\ncut = 'crosswise'\n"
PIECED_TOP = "[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n[top.sashing]\nwidth = 2\n"


@pytest.mark.parametrize("audience", ["studio", "customer"])
@pytest.mark.parametrize("text", [*CASES.values(), HERS, PIECED_TOP], ids=[*CASES, "hers", "pieced"])
def test_the_page_and_the_document_give_the_same_arithmetic(text: str, audience: Audience):
    result = quoted(text)
    found = sentences_of_the_page(result, audience)
    assert found
    assert sentences_of_the_document(result, audience) == found


@pytest.mark.no_cover
@pytest.mark.parametrize("audience", ["studio", "customer"])
@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_sample_s_page_and_document_give_the_same_arithmetic(path: Path, audience: Audience):
    result = finished(path)
    found = sentences_of_the_page(result, audience)
    assert found
    assert sentences_of_the_document(result, audience) == found


@pytest.mark.parametrize(
    ("part", "text", "begins"),
    [
        ("hem", CASES["hemmed"], "Hem: 60 in - 2 x 1 in = 58 in wide"),
        # two panels of 88 in for the backing and 8 strips of 2 1/2 in for the binding, of one cloth: 176 + 20 in
        ("buy", HERS, "Cloth: 176 in for backing + 20 in for binding = 196 in"),
        ("buy", TOP + "[binding]\nfabric = 'backing'\ncut = 'crosswise'\n", "Cloth: "),
        ("studio", TOP, "Other costs: "),
    ],
    ids=["hem", "hers", "bought", "worth"],
)
def test_no_part_s_arithmetic_is_forgotten_in_the_document(part: str, text: str, begins: str):
    assert any(said["text"].startswith(begins) for said in document(text)["working"][part])


# --- figures -----------------------------------------------------------------------------------------------------


def numbers(found: Any) -> list[Decimal]:
    if isinstance(found, dict | list):
        items = found.values() if isinstance(found, dict) else found
        return [number for item in items for number in numbers(item)]
    return [found] if isinstance(found, Decimal) else []


sevenths = st.integers(7 * 20, 7 * 118).map(lambda n: f"'{n // 7} {n % 7}/7'" if n % 7 else str(n // 7))
"""Sizes that no decimal hits: each is rounded somewhere."""


@st.composite
def odd_tops(draw: st.DrawFn) -> str:
    cloth = draw(st.sampled_from(["cotton-44", "linen-60", "cotton-wide-108", "flannel-44", "plush-60"]))
    return (
        f"[top]\nwidth = {draw(sevenths)}\nlength = {draw(sevenths)}\n"
        f"[backing]\noverage = '3 {draw(st.integers(0, 2))}/3'\nseam_allowance = '{draw(st.integers(1, 4))}/7'\n"
        f"fabric = '{cloth}'\n"
    )


@examples(60)
@given(odd_tops())
def test_numbers_are_exact_to_a_thousandth(text: str):
    found = numbers(document(text))
    assert found
    for number in found:
        exponent = number.as_tuple().exponent
        assert isinstance(exponent, int)
        assert exponent >= -3, number


def across(one: dict[str, Any], other: dict[str, Any]) -> bool:
    """Whether two rectangles share more than an edge."""
    return all(
        max(one[at], other[at]) < min(one[at] + one[size], other[at] + other[size])
        for at, size in (("x", "width"), ("y", "length"))
    )


@examples(60)
@given(odd_tops())
def test_the_assembly_tiles_the_backing_to_the_last_thousandth(text: str):
    """Neighbours abut though every edge is rounded: no two overlap, and together they are the whole, exactly."""
    backing = document(text)["backing"]
    assert backing["chosen"]["covers"] == backing["needed"]
    assert backing["options"]
    for option in backing["options"]:
        pieces, whole = option["assembly"], option["covers"]
        assert not any(across(one, other) for one, other in combinations(pieces, 2))
        assert sum(piece["width"] * piece["length"] for piece in pieces) == whole["width"] * whole["length"]
        assert max(piece["x"] + piece["width"] for piece in pieces) == whole["width"]
        assert max(piece["y"] + piece["length"] for piece in pieces) == whole["length"]


@examples(60)
@given(odd_tops())
def test_cuts_and_leftovers_lie_beside_each_other_on_the_cloth(text: str):
    for option in document(text)["backing"]["options"]:
        cuts, left = option["cuts"], option["leftover"]
        assert not any(across(one, other) for one, other in combinations([*cuts, *left], 2))
        assert all(place["width"] > 0 and place["length"] > 0 for place in [*cuts, *left])
        assert max(cut["y"] + cut["length"] for cut in cuts) <= option["cut_length"]


@examples(40)
@given(odd_tops())
def test_each_piece_is_cut_once_and_shown_once(text: str):
    for option in document(text)["backing"]["options"]:
        cut, shown = ([piece["piece"] for piece in option[part]] for part in ("cuts", "assembly"))
        assert sorted(cut) == sorted(shown)
        assert len(set(cut)) == len(cut)


def test_units_are_the_project_s():
    """152 x 203 cm: area 30856 sq cm, perimeter 710 cm, by hand; the rate is a square metre's."""
    top = document(CASES["centimetres"])["top"]
    assert (top["width"], top["length"], top["area"], top["perimeter"]) == (152, 203, 30856, 710)


def test_money_has_its_currency_s_decimals(tmp_path: Path):
    for code, decimals in (("JPY", 0), ("USD", 2), ("KWD", 3)):
        (tmp_path / "shop.toml").write_text(f'[money]\ncurrency = "{code}"\n')
        quote = document(TOP, str(tmp_path / "shop.toml"))["quote"]
        assert quote["currency"] == code
        amounts = [quote[key] for key in ("subtotal", "discount", "total", "deposit", "balance", "cash_rounding")]
        for amount in amounts + [line["amount"] for line in quote["lines"]]:
            assert len(amount.partition(".")[2]) == decimals


def test_rates_are_exact_strings(tmp_path: Path):
    (tmp_path / "shop.toml").write_text("[rates]\nseam = '17.123457'\n[rates.quilting]\nedge-to-edge = 0.031\n")
    lines = {line["label"]: line for line in document(TOP, str(tmp_path / "shop.toml"))["quote"]["lines"]}
    assert lines["Backing seams sewn"]["rate"] == "17.123457"
    assert lines["Quilting, open meander"]["rate"] == "0.031"


# --- defaults and samples ----------------------------------------------------------------------------------------


def table_above(lines: list[str], line: int) -> str:
    """The header that a line (from 1) stands under."""
    headers = [found[1] for text in lines[:line] if (found := re.match(r"\[+([^\]]+)\]+", text))]
    return headers[-1] if headers else ""


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_each_default_stands_on_the_line_it_names_under_its_table(path: Path):
    defaults = of_file(path)["defaults"]
    assert len(defaults) > 80
    for default in defaults:
        lines = (ROOT / default["file"]).read_text(encoding="utf-8").splitlines()
        line, header = lines[default["line"] - 1], table_above(lines, default["line"])
        name = re.sub(r"^(rates\.(?:quilting\..*|(?:batting_)?seam))\.(?:price|each)$", r"\1", default["key"])
        *table, key = re.sub(r"\[\d+\]", "", name.removesuffix(".preset")).split(".")
        if default["layer"] == "preset":
            assert re.match(rf"{key} *=", line), default
        elif default["key"] in ("tax", "rush", "postage"):
            assert line == f"[[{key}]]"
        elif table[:1] == ["week"] and len(table) == 2:  # a day of a week that stands on one line
            assert re.match(rf"{table[1]} *= *{{.*\b{key} *=", line), default
            assert header == "week"
        elif header in ("cloth", "any_batting") and table != [header]:
            assert re.match(rf"{'unit' if key == 'per' else key} *=", line), default
        else:
            assert re.match(rf"{key} *=", line), default
            assert header.removeprefix("usual.") == ".".join(table), default


def test_a_shop_s_own_default_names_the_shop_file_and_its_line(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("# mine\n\n[rates]\nseam = 17\n\n[usual.backing]\noverage = 5\n")
    found = {default["key"]: default for default in document(TOP, str(shop))["defaults"]}
    assert found["rates.seam.each"] == {
        "key": "rates.seam.each", "value": "17", "layer": "shop file", "file": str(shop), "line": 4,
    }  # fmt: skip
    assert (found["backing.overage"]["value"], found["backing.overage"]["line"]) == ("5 in", 7)
    assert found["rates.wage"]["layer"] == "sample shop"


def test_what_the_project_gives_is_no_default():
    keys = {default["key"] for default in document(TOP + "[backing]\noverage = 5\n")["defaults"]}
    assert not keys & {"top.width", "top.length", "backing.overage"}
    assert "batting.overage" in keys


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_each_sample_is_a_default_of_a_sample_layer(path: Path):
    found = of_file(path)
    layers = {default["key"]: default["layer"] for default in found["defaults"]}
    assert found["samples"] == sorted(set(found["samples"]))
    assert "rates.quilting.edge-to-edge.price" in found["samples"]
    for sample in found["samples"]:
        assert layers[sample] in ("preset", "sample shop"), sample


def test_a_rate_of_one_s_own_is_no_sample_any_more(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[rates]\nseam = 17\n")
    with_shop, without = document(TOP, str(shop))["samples"], document(TOP)["samples"]
    assert set(without) - set(with_shop) == {"rates.seam.each"}


# --- text --------------------------------------------------------------------------------------------------------


@examples(60)
@example("5\u00a0m of cloth")
@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=20).filter(lambda text: not {"\n", "\r"} & set(text)))
def test_a_title_comes_back_as_it_was_written(title: str):
    """Names are data here: whatever stands in the file is what a program reads, escaped or not."""
    written = "".join(f"\\U{ord(char):08x}" for char in title)
    assert document(f'title = "{written}"\n{TOP}')["title"] == (title or "t")


def test_the_document_s_own_bytes_hold_no_direction_or_control_character():
    bidi = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
    controls = "".join(map(chr, [*range(1, 10), *range(11, 32), *range(127, 160)]))
    evil = "".join(f"\\u{ord(char):04x}" for char in bidi + controls.replace("\r", ""))
    text = quote_document(quoted(f'title = "{evil}"\n{TOP}'))
    assert not set(text) & set(bidi + controls)
