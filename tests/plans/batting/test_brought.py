"""The customer's own batting: enough, to spare, joined, or short and by how much. Tops of 64 x 88 want 72 x 96, and
69 x 93 is the least that will do: 2 1/2 a side, the least of eight studios' lists."""

import json
from pathlib import Path
from typing import Any

import pytest

from finishcalc.measures.length import Size
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.writing import notation_of
from tests.builders import OUTPUT, in_file, inches, line, page, quoted, run

TOP = "[top]\nwidth = 64\nlength = 88\n"


def brought(have: str, product: str = "cotton-blend", more: str = "") -> Any:
    return quoted(f'{TOP}[batting]\nproduct = "{product}"\nhave = {have}\n{more}')


def verdict(have: str, product: str = "cotton-blend", more: str = "") -> tuple[str, str]:
    """The verdict, and its sentence."""
    result = brought(have, product, more)
    found = result.plans.batting.brought
    return found.verdict, notation_of(result).write(found.sentence).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("have", "expected", "words"),
    [
        ("{ width = 72, length = 96 }", "enough", "The batting supplied, 72 in x 96 in, is enough."),
        ("{ width = 96, length = 72 }", "enough", "The batting supplied, 96 in x 72 in, is enough."),
        (
            "{ width = 70, length = 94 }",  # (70 - 64) / 2 and (94 - 88) / 2
            "enough",
            "The batting supplied, 70 in x 94 in, has 3 in to spare at each side and 3 in at top and bottom: good.",
        ),
        (
            "{ width = 69, length = 93 }",
            "enough",
            "The batting supplied, 69 in x 93 in, has 2 1/2 in to spare at each side and 2 1/2 in at top and bottom: "
            "good.",
        ),
        (
            "[{ width = 45, length = 60 }, { width = 72, length = 96 }]",
            "enough",
            "The batting supplied, 45 in x 60 in and 72 in x 96 in, is enough: the piece of 72 in x 96 in alone.",
        ),
        (
            # 93 - 87 = 6; nothing is at its side, 72 - 69 = 3 being too narrow
            "{ width = 72, length = 87 }",
            "short",
            "The batting supplied, 72 in x 87 in, is 6 in short in length: 69 in x 93 in is the least that will do. "
            "Bring another 69 in x 6 in of the same, to be joined edge to edge, or one piece of 69 in x 93 in.",
        ),
        (
            "{ width = 60, length = 80 }",
            "short",
            # laid the other way it is wide enough, and 93 - 60 are missing
            "The batting supplied, 60 in x 80 in, is 9 in short in width and 13 in in length: 69 in x 93 in is the "
            "least that will do. Bring another 69 in x 33 in of the same, to be joined edge to edge, or one piece of "
            "69 in x 93 in.",
        ),
        (
            "{ width = 80, length = 60 }",  # the way round in which less is missing
            "short",
            "The batting supplied, 80 in x 60 in, is 9 in short in width and 13 in in length: 69 in x 93 in is the "
            "least that will do. Bring another 69 in x 33 in of the same, to be joined edge to edge, or one piece of "
            "69 in x 93 in.",
        ),
        (
            "{ width = 60, length = 60 }",  # too little either way: no one piece would make it up
            "short",
            "The batting supplied, 60 in x 60 in, is 9 in short in width and 33 in in length: 69 in x 93 in is the "
            "least that will do. Bring one piece of that size.",
        ),
        (
            # laid the other way, 90 across: 72 of 93, and 21 of the 90 - 69 that are left at its side
            "{ width = 72, length = 90 }",
            "joined",
            "The batting supplied, 72 in x 90 in, is 3 in short in length. Cut and joined edge to edge, 1 seam, 69 in, "
            "it makes 69 in x 93 in, the least that will do; or bring one piece of 69 in x 93 in.",
        ),
        (
            # 72 x 87 and 72 x 9 of the other at its end
            "[{ width = 72, length = 87 }, { width = 45, length = 80 }]",
            "joined",
            "The batting supplied, 72 in x 87 in and 45 in x 80 in, makes 72 in x 96 in, joined edge to edge, 1 seam, "
            "72 in.",
        ),
        (
            # 72 x 9 takes two pieces of a crib's 60 in: seams of 72 and 9
            "[{ width = 72, length = 87 }, { width = 45, length = 60 }]",
            "joined",
            "The batting supplied, 72 in x 87 in and 45 in x 60 in, makes 72 in x 96 in, joined edge to edge, 2 seams, "
            "81 in.",
        ),
        (
            # 45 x 60 over 45 x 33 of the other, turned
            "[{ width = 40, length = 60 }, { width = 45, length = 60 }]",
            "short",
            "The batting supplied, 40 in x 60 in and 45 in x 60 in, is not enough, even if it is joined: 69 in x 93 in "
            "is the least that will do. Bring another 24 in x 93 in of the same, to be joined edge to edge, or one "
            "piece of 69 in x 93 in.",
        ),
    ],
)
def test_the_verdict(have: str, expected: str, words: str):
    """Worked by hand beside each."""
    assert verdict(have) == (expected, words)


def test_a_batting_without_a_scrim_is_not_joined():
    """Its edge does not hold: one piece is enough, two are not, and no piece to join on is asked for."""
    two = "[{ width = 72, length = 87 }, { width = 45, length = 80 }]"
    assert verdict(two, "cotton-needled") == (
        "not-joined",
        "The batting supplied, 72 in x 87 in and 45 in x 80 in, would do only if it were joined, and needled cotton "
        "without a scrim cannot be joined, because its edge does not hold: 69 in x 93 in in one piece is the least "
        "that will do.",
    )
    expected, words = verdict("{ width = 72, length = 87 }", "cotton-needled")
    assert (expected, "more of the same" in words) == ("short", False)
    assert verdict("{ width = 72, length = 96 }", "cotton-needled")[0] == "enough"


def test_a_shop_that_joins_no_battings():
    shop = 'product = { preset = "cotton-blend", joinable = false }'
    result = quoted(f"{TOP}[batting]\n{shop}\nhave = [{{ width = 72, length = 87 }}, {{ width = 45, length = 80 }}]\n")
    assert result.plans.batting.brought.verdict == "not-joined"


@pytest.mark.parametrize(
    ("have", "codes"),
    [
        ("{ width = 72, length = 96 }", []),
        ("{ width = 72, length = 87 }", ["batting-short"]),
        ("{ width = 72, length = 90 }", []),
    ],
)
def test_what_is_short_is_in_the_way_of_the_work(have: str, codes: list[str]):
    result = brought(have)
    told = [each for each in result.cautions if each.code.startswith("batting")]
    assert [each.code for each in told] == codes
    assert all(each.blocking for each in told)


def test_the_price_of_a_batting_that_is_brought():
    """Nothing is bought; it is prepared, 5.00 in the sample shop, and each seam is 10.00."""
    result = brought("[{ width = 72, length = 87 }, { width = 45, length = 60 }]")
    assert line(result, "Preparing your batting")[2] == "5.00"
    assert line(result, "Batting joined") == (2, "each", "20.00")
    assert not any("cotton blend" in each.label.values.values() for each in result.quote.lines)
    assert "Batting joined" not in page(TOP + "[batting]\nhave = { width = 72, length = 96 }\n")


def test_the_minutes_of_its_seams():
    """Two seams of 5 min, and 81 in at 0.1: 18.1 min, in the hours and under the line."""
    result = brought("[{ width = 72, length = 87 }, { width = 45, length = 60 }]")
    (stage,) = (each for each in result.plans.hours.stages if each.name == "join the batting")
    (priced,) = (each for each in result.quote.lines if each.label.text == "Batting joined")
    assert float(stage.planned) == float(priced.minutes or 0) == 18.1


def test_a_smaller_backing_makes_do_with_a_smaller_batting():
    """Two panels of 40 reach 79 across 72 x 90, 3 1/2 on each side: the batting reaches no further than the backing."""
    result = quoted("[top]\nwidth = 72\nlength = 90\n[batting]\nhave = { width = 79, length = 98 }\n")
    text = result.plans.batting.brought.sentence.text
    assert text.endswith("is enough.")


def test_every_page_tells_it():
    result = brought("[{ width = 72, length = 87 }, { width = 45, length = 60 }]")
    words = {name: " ".join(write(result).replace("\u00a0", " ").split()) for name, write in OUTPUT.items()}
    assert "You supply 72 x 87 in and 45 x 60 in of 80/20 cotton blend" in words["customer"]
    assert "2 seams, 81 in" in words["customer"]
    assert "Customer's 72 x 87 in and 45 x 60 in of 80/20 cotton blend" in words["studio"]
    cut = words["cutting list"]
    assert "take the 72 x 87 in supplied, whole" in cut
    assert "from the 45 x 60 in supplied" in cut
    assert "join them to 72 x 96 in: 2 seams, 81 in" in cut
    assert "butt the edges without overlap" in cut


def test_a_comparison_of_sizes_holds_the_same_pieces_against_each(tmp_path: Path):
    """72 x 96 is enough for 64 x 88, is short for a top of 72 x 96, and is enough, turned, for 60 x 60 too."""
    path = in_file(f"{TOP}[batting]\nhave = {{ width = 72, length = 96 }}\n", tmp_path)
    table = run("compare", str(path), "--as", "72x96", "--as", "60x60").output
    rows = [row for row in table.splitlines() if " x " in row and "supplied" in row and " yd" in row]
    assert ["supplied, short" in row for row in rows] == [False, True, False]
    document = json.loads(run("compare", str(path), "--as", "72x96", "--json").output)
    assert [row["batting"] for row in document["rows"]] == [
        {"form": "brought", "verdict": verdict, "seams": 0} for verdict in ("enough", "short")
    ]


def test_a_short_one_is_told_in_the_head():
    told = " ".join(page(TOP + "[batting]\nhave = { width = 72, length = 87 }\n").split())
    assert told.index("This cannot be made as specified: The batting supplied, 72 in x 87 in") < told.index(
        "unfinished"
    )
    assert "Total, USD, provisional" in told


def test_how_large_it_is_planned():
    batting = brought("{ width = 70, length = 94 }").plans.batting
    assert (batting.width, batting.length) == (inches(72), inches(96))
    assert batting.brought.pieces == (Size(inches(70), inches(94)),)
    assert batting.chosen is None
    assert batting.supply("customer") is None


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ('product = "none"\nhave = { width = 60, length = 80 }', "brought-for-no-batting"),
        ('supplied_by = "shop"\nhave = { width = 60, length = 80 }', "batting-brought-and-supplied"),
        ("overage = 3\nleast_overage = 4", "least-above-overage"),
        ("have = { width = 60 }", "missing-key"),
        ("have = [{ width = 60, length = -2 }]", "out-of-bounds"),
        ('have = "60 x 80"', "not-a-list"),
        ("have = [60, 80]", "not-a-table"),
    ],
)
def test_what_is_refused(lines: str, code: str):
    with pytest.raises(ProblemsFound) as found:
        quoted(f"{TOP}[batting]\n{lines}\n")
    assert code in [problem.code.value for problem in found.value.problems]
    assert all(problem.line > 3 and problem.hint for problem in found.value.problems)
