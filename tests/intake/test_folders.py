"""The files of a run over several projects: a folder's projects in the order of their names, and each file once."""

import os
from pathlib import Path

import pytest

from finishcalc.intake.folders import FilesGiven, Skipped, files_given
from finishcalc.problems import ProblemCode, ProblemsFound
from tests.builders import TOP

SHELF = '[[on_hand]]\nkind = "cloth"\nname = "blue"\nwidth = 20\nlength = 30\n'


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """A folder of two projects, and of other files."""
    texts = {
        "oak.toml": TOP,
        "elm.toml": f'title = "Elm"\n{TOP}{SHELF}',
        "studio.toml": 'units = "in"\n[rates]\nminimum = 50\n[usual.backing]\noverage = 3\n',
        "shelf.toml": f'units = "in"\n{SHELF}',
        "oak-draft.toml": TOP,
        ".oak.toml": TOP,
        "notes.txt": "",
    }
    for name, text in texts.items():
        (tmp_path / name).write_text(text)
    (tmp_path / "more.toml").mkdir()
    (tmp_path / "below").mkdir()
    (tmp_path / "below" / "yew.toml").write_text(TOP)
    return tmp_path


def found(*names: Path | str) -> FilesGiven:
    return files_given([str(name) for name in names])


def test_a_folder_is_the_projects_directly_in_it_in_the_order_of_their_names(season: Path):
    assert found(season).files == (str(season / "elm.toml"), str(season / "oak.toml"))


def test_other_files_of_a_folder_are_skipped_and_named(season: Path):
    assert found(season).skipped == (
        Skipped(str(season / ".oak.toml"), "draft"),
        Skipped(str(season / "oak-draft.toml"), "draft"),
        Skipped(str(season / "shelf.toml"), "on-hand file"),
        Skipped(str(season / "studio.toml"), "shop file"),
    )


def test_a_file_that_is_named_by_itself_is_never_skipped(season: Path):
    draft = str(season / "oak-draft.toml")
    assert found(draft) == FilesGiven((draft,), (), ())


@pytest.mark.parametrize("name", ["drafty.toml", "overdrafts-of-air.toml", "aircraft.toml"])
def test_a_draft_has_the_word_by_itself(name: str, tmp_path: Path):
    (tmp_path / name).write_text(TOP)
    assert found(tmp_path).files == (str(tmp_path / name),)


def test_files_are_in_the_order_in_which_they_are_named(season: Path):
    oak, yew = str(season / "oak.toml"), str(season / "below" / "yew.toml")
    assert found(yew, oak, season).files == (yew, oak, str(season / "elm.toml"))


def test_a_file_given_twice_counts_once_and_is_told(season: Path):
    """By the same name, by another, in a folder that is named too, and by a link."""
    oak, other = str(season / "oak.toml"), str(season / "below" / ".." / "oak.toml")
    link = season / "zelkova.toml"
    os.symlink(season / "oak.toml", link)
    given = found(oak, oak, other, season)
    assert given.files == (oak, str(season / "elm.toml"))
    assert given.twice == ((oak, oak), (other, oak), (oak, oak), (str(link), oak))


def test_a_project_that_cannot_be_read_is_not_passed_over(season: Path):
    """Its problems are told when it is read."""
    (season / "ash.toml").write_text("[rates\nminimum = 50\n")
    (season / "bay.toml").write_bytes(b"\xff\xfe")
    assert found(season, "none.toml").files[:2] == (str(season / "ash.toml"), str(season / "bay.toml"))
    assert found(season, "none.toml").files[-1] == "none.toml"


def test_a_project_with_a_table_of_a_shop_is_a_project_with_a_mistake(season: Path):
    (season / "ash.toml").write_text(f"{TOP}[rates]\nminimum = 50\n")
    assert str(season / "ash.toml") in found(season).files


def test_folders_without_a_project_are_all_told(season: Path, tmp_path: Path):
    folders = [tmp_path / "a", tmp_path / "b"]
    for folder in folders:
        folder.mkdir()
    (folders[1] / "studio.toml").write_text("[rates]\nminimum = 50\n")
    with pytest.raises(ProblemsFound) as refused:
        found(*folders, season)
    assert [(each.code, each.file) for each in refused.value.problems] == [
        (ProblemCode.NO_PROJECT_IN_FOLDER, str(folder)) for folder in folders
    ]
