"""A list from files as they are: their shelves, the diagram of a joint length, and a file of what is left."""

from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.buying import shop_for
from finishcalc.intake.on_hand import on_hand_toml, read_on_hand
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length, Size
from finishcalc.model.on_hand import OnHandPieces
from finishcalc.pipeline import Finishing, finish_file
from finishcalc.rendering.pictures.cutting import cutting_picture
from finishcalc.wording.notation import Notation
from tests.builders import inches, yards
from tests.plans.shopping.shops import on_hand, runner

ROW = '[[on_hand]]\nkind = "cloth"\nname = "harbour blue"\nwidth = 20\nlength = 70\n'


def files(folder: Path, **texts: str) -> list[tuple[str, Finishing]]:
    """Projects by the names of their files, worked out."""
    results = []
    for name, text in texts.items():
        (folder / f"{name}.toml").write_text(text)
        results.append((str(folder / f"{name}.toml"), finish_file(str(folder / f"{name}.toml"))))
    return results


def test_the_shelf_of_a_shop_file_is_used_once_for_all_its_projects(tmp_path: Path):
    """One piece of 20 x 70 in serves one of three runners: the others take 1 7/8 yd side by side."""
    (tmp_path / "studio.toml").write_text(ROW)
    text = f'shop = "studio.toml"\n{runner()}'
    (blue,) = shop_for(files(tmp_path, oak=text, elm=text, ash=text), "in").cloth
    assert (blue.purchase.lengths, len(blue.taken_down)) == ((yards("1 7/8"),), 1)


def test_a_projects_own_pieces_and_those_of_another_file_serve_all(tmp_path: Path):
    results = files(tmp_path, oak=runner(), elm=runner() + ROW)
    shelf = read_on_hand("shelf.toml", reader=lambda name: Source(name, ROW))
    (blue,) = shop_for(results, "in", [shelf]).cloth
    assert (blue.purchase.lengths, len(blue.taken_down)) == ((), 2)


def test_the_price_of_a_cone_is_what_it_costs_the_studio(tmp_path: Path):
    """1 cone at 4.25, whatever the customer pays; where thread goes by the bobbin, nobody knows the price of a cone."""
    (tmp_path / "studio.toml").write_text('[rates.thread]\nprice = 9\nper = "cone"\ncost = "4.25"\n')
    text = f'[job]\nthread = "oyster"\n{runner()}'
    (known,) = shop_for(files(tmp_path, oak=f'shop = "studio.toml"\n{text}'), "in").thread
    (unknown,) = shop_for(files(tmp_path, elm=text), "in").thread
    assert (str(known.cost), unknown.cost) == ("4.25", None)


def test_the_diagram_of_a_joint_length_names_the_project_of_each_piece(tmp_path: Path):
    found = shop_for(files(tmp_path, oak=f'title = "Oak"\n{runner()}', elm=f'title = "Elm"\n{runner()}'), "in")
    picture = cutting_picture(found.cloth[0].purchase, 0, Notation("in"))
    assert [line.replace("\N{NO-BREAK SPACE}", " ") for line in picture.key] == [
        "A: 1 for Elm: backing, 16 x 64 in",
        "B: 1 for Oak: backing, 16 x 64 in",
    ]
    assert [(piece.letter, piece.y) for piece in picture.pieces] == [("A", inches(0)), ("B", inches(16))]


def test_the_diagram_of_a_piece_on_hand_is_as_wide_as_it_is(tmp_path: Path):
    found = shop_for(files(tmp_path, oak=runner() + ROW), "in")
    picture = cutting_picture(found.cloth[0].purchase, 0, Notation("in"))
    assert picture.usable == inches(20)
    assert "at hand" in picture.facts[0]


@pytest.mark.parametrize("units", ["in", "cm"])
def test_what_is_left_reads_back_as_what_is_on_hand(units: str):
    """In eighths of an inch, in millimetres, in neither; by a name with quotes in it; 120 in rows of 100 at most."""
    odd = Size(Length(Fraction(1000, 3)), Length(Fraction(4445, 10)))
    left = [
        ("cloth", 'harbour "blue"', Size(inches("22 1/8"), inches(18)), 3),
        ("cloth", "rust", Size(Length(Fraction(505)), Length(Fraction(400))), 100),
        ("cloth", "rust", Size(Length(Fraction(505)), Length(Fraction(400))), 20),
        ("batting", "fleece", odd, 1),
    ]
    rows = [
        OnHandPieces.new(kind=kind, name=name, width=size.width, length=size.length, number=number)
        for kind, name, size, number in [*left[:1], (*left[1][:3], 120), *left[3:]]
    ]
    read = read_on_hand("left.toml", reader=lambda name: Source(name, on_hand_toml(rows, units))).rows
    assert sorted((row.kind, row.name, row.size, row.count) for row in read) == sorted(left)


def test_nothing_left_is_a_file_too():
    assert read_on_hand("left.toml", reader=lambda name: Source(name, on_hand_toml([], "in"))).rows == ()


def test_a_shelf_that_nobody_needs_is_left_as_it_is(tmp_path: Path):
    left = shop_for(files(tmp_path, oak=runner("rust") + ROW), "in").left
    assert on_hand("cloth", "harbour blue", "20", "70") in left
