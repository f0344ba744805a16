"""A folder means the project files directly in it, in name order; what is skipped is named; nothing counts twice."""

import os
from pathlib import Path

import pytest

from finishcalc.intake.folders import Skipped, project_files
from finishcalc.problems import ProblemCode
from tests.builders import PRESETS, TOP

SHOP = "[rates]\nseam = 30\n"
ON_HAND = "[[on_hand]]\nkind = 'cloth'\nname = 'linen'\nwidth = 44\nlength = 90\n"


def put(folder: Path, **files: str) -> str:
    """A folder with these files, whose names end in .toml."""
    folder.mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / f"{name.replace('__', '.')}.toml").write_text(text, encoding="utf-8")
    return str(folder)


def stems(names: tuple[str, ...]) -> list[str]:
    return [Path(name).stem for name in names]


def test_a_folder_is_its_projects_in_name_order_and_not_those_below_it(tmp_path: Path) -> None:
    season = put(tmp_path / "season", b=TOP, a=TOP, C=TOP)
    put(tmp_path / "season" / "below", d=TOP)
    (tmp_path / "season" / "notes.txt").write_text(TOP, encoding="utf-8")
    (tmp_path / "season" / "folder.toml").mkdir()
    found = project_files([season])
    assert stems(found.files) == ["a", "b", "C"]
    assert (found.skipped, found.problems) == ((), ())


def test_files_and_folders_stay_in_the_order_they_are_given(tmp_path: Path) -> None:
    one, other = put(tmp_path / "one", z=TOP), put(tmp_path / "other", a=TOP, b=TOP)
    single = str(tmp_path / "single.toml")
    Path(single).write_text(TOP, encoding="utf-8")
    assert stems(project_files([one, single, other]).files) == ["z", "single", "a", "b"]


def test_shop_files_on_hand_files_and_drafts_are_skipped_and_named(tmp_path: Path) -> None:
    season = put(
        tmp_path / "s", a=TOP, studio=SHOP, shelf=ON_HAND, b__draft=TOP, usual="[usual.backing]\noverage = 3\n"
    )
    (tmp_path / "s" / ".hidden.toml").write_text(TOP, encoding="utf-8")
    found = project_files([season])
    assert stems(found.files) == ["a"]
    assert {Path(each.file).name: each.reason for each in found.skipped} == {
        ".hidden.toml": "a draft",
        "b.draft.toml": "a draft",
        "shelf.toml": "an on-hand file",
        "studio.toml": "a shop file",
        "usual.toml": "a shop file",
    }


@pytest.mark.parametrize("sample", ["inch", "metric", "maker-inch", "maker-metric"])
def test_a_copy_of_a_sample_shop_file_is_a_shop_file(tmp_path: Path, sample: str) -> None:
    """As the README has studios begin; its prices of piecing have a key `top`, which describes none."""
    text = (PRESETS / "shops" / f"{sample}.toml").read_text(encoding="utf-8")
    found = project_files([put(tmp_path / "s", a=TOP, studio=text)])
    assert (stems(found.files), [each.reason for each in found.skipped]) == (["a"], ["a shop file"])


def test_a_shop_file_that_a_project_names_is_skipped_whatever_it_holds(tmp_path: Path) -> None:
    season = put(tmp_path / "s", a='shop = "mine.toml"\n' + TOP, b="shop = './ours.toml'\n" + TOP, mine="", ours="x =")
    found = project_files([season])
    assert stems(found.files) == ["a", "b"]
    assert [(Path(each.file).name, each.reason) for each in found.skipped] == [
        ("mine.toml", "a shop file"),
        ("ours.toml", "a shop file"),
    ]


def test_the_files_of_the_run_are_no_projects(tmp_path: Path) -> None:
    season = put(tmp_path / "s", a=TOP, empty="", shelf="units = 'in'\n")
    found = project_files([season], shop=f"{season}/empty.toml", on_hand=[f"{season}/shelf.toml"])
    assert stems(found.files) == ["a"]
    assert [each.reason for each in found.skipped] == ["a shop file", "an on-hand file"]


def test_a_project_that_another_takes_for_its_shop_file_is_counted_all_the_same(tmp_path: Path) -> None:
    season = put(tmp_path / "s", a='shop = "b.toml"\n' + TOP, b=TOP)
    assert stems(project_files([season]).files) == ["a", "b"]


@pytest.mark.parametrize("bad", ["", "[to", "[backing]\noverage = 4\n", "title = 'no top'\n", "top = 3\n"])
def test_a_bad_project_is_not_passed_over(tmp_path: Path, bad: str) -> None:
    found = project_files([put(tmp_path / "s", bad=bad, good=TOP)])
    assert (stems(found.files), found.skipped) == (["bad", "good"], ())


@pytest.mark.parametrize("top", ["top.width = 60\n", "  [ top ]\n", "[top.blocks]\n", "top = { width = 60 }\n"])
def test_a_top_may_be_described_in_any_way_that_toml_has(tmp_path: Path, top: str) -> None:
    """Beside a table of the shop, too, which is then a mistake in a project."""
    found = project_files([put(tmp_path / "s", a=f"{top}[rates]\nseam = 3\n", b='["top"]\nwidth = 3\n[rates]\n')])
    assert (stems(found.files), found.skipped) == (["a", "b"], ())


def test_a_project_with_what_is_on_hand_stays_a_project(tmp_path: Path) -> None:
    season = put(tmp_path / "s", a=ON_HAND + TOP, shop=ON_HAND + SHOP)
    found = project_files([season])
    assert (stems(found.files), [each.reason for each in found.skipped]) == (["a"], ["a shop file"])


def test_a_file_that_is_given_twice_counts_once_and_is_told(tmp_path: Path) -> None:
    season = put(tmp_path / "s", a=TOP, b=TOP)
    (tmp_path / "link.toml").symlink_to(tmp_path / "s" / "b.toml")
    first, again, link = f"{season}/a.toml", f"{season}/../s/a.toml", str(tmp_path / "link.toml")
    slash = f"{first}/"
    found = project_files([first, season, again, link, slash, "-", "-"])
    assert found.files == (first, f"{season}/b.toml", "-")
    assert found.skipped == tuple(
        Skipped(name, "given twice") for name in (f"{season}/a.toml", again, link, slash, "-")
    )
    assert found.skipped[1].said == f"{again}: is given twice, and counted once"


def test_a_missing_file_is_left_to_be_told_by_its_reader_and_once(tmp_path: Path) -> None:
    missing = str(tmp_path / "missing.toml")
    found = project_files([missing, missing, ""])
    assert (found.files, len(found.skipped)) == ((missing, ""), 1)


def test_a_link_that_leads_nowhere_is_told_and_a_pipe_is_never_waited_for(tmp_path: Path) -> None:
    season = put(tmp_path / "s", a=TOP)
    (tmp_path / "s" / "gone.toml").symlink_to("nowhere.toml")
    os.mkfifo(tmp_path / "s" / "pipe.toml")
    assert stems(project_files([season]).files) == ["a", "gone"]


@pytest.mark.parametrize("files", [{}, {"shop": SHOP}])
def test_a_folder_without_a_project_is_a_problem(tmp_path: Path, files: dict[str, str]) -> None:
    season = put(tmp_path / "s", **files)
    (problem,) = project_files([season]).problems
    assert (problem.code, problem.file) == (ProblemCode.NO_PROJECT_IN_FOLDER, season)


def test_a_skipped_file_is_named_with_its_reason_and_cannot_steer_the_terminal() -> None:
    assert Skipped("s/studio.toml", "a shop file").said == "s/studio.toml: skipped, because it is a shop file"
    assert Skipped("a\x1b[2J.toml", "a draft").said == "a\\u001b[2J.toml: skipped, because it is a draft"
