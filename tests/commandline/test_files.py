"""Files appear whole or not at all, and never over another without being asked."""

import os
from pathlib import Path

import pytest

from finishcalc.files import write_all
from finishcalc.problems import ProblemsFound

TEXTS = {"one.svg": "first\n", "two.svg": "second é\n"}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_files_are_written_into_a_new_folder(tmp_path: Path):
    folder = tmp_path / "a" / "b"
    assert write_all([(str(folder), TEXTS)]) == [str(folder / name) for name in TEXTS]
    assert (folder / "two.svg").read_bytes() == "second é\n".encode()
    assert names(folder) == sorted(TEXTS)


def test_none_is_written_where_one_is_there_already(tmp_path: Path):
    (tmp_path / "two.svg").write_text("hers")
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)])
    assert [problem.message for problem in found.value.problems] == ["is there already"]
    assert names(tmp_path) == ["two.svg"]
    assert (tmp_path / "two.svg").read_text() == "hers"


def test_a_link_that_leads_nowhere_is_not_written_over(tmp_path: Path):
    (tmp_path / "one.svg").symlink_to(tmp_path / "nowhere")
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path), TEXTS)])
    assert names(tmp_path) == ["one.svg"]


def test_asked_to_it_writes_over(tmp_path: Path):
    (tmp_path / "two.svg").write_text("hers")
    write_all([(str(tmp_path), TEXTS)], force=True)
    assert (tmp_path / "two.svg").read_text() == "second é\n"
    assert names(tmp_path) == sorted(TEXTS)


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path / "file" / "below"), TEXTS)])
    assert found.value.problems[0].message == "cannot be written"


def test_a_failure_half_way_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The second file fails to get its name, as when another process has taken it since."""
    link = os.link

    def fail_at_two(source: Path, target: Path) -> None:
        if Path(target).name == "two.svg":
            raise FileExistsError(17, "File exists", str(target))
        link(source, target)

    monkeypatch.setattr(os, "link", fail_at_two)
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path), TEXTS)])
    assert names(tmp_path) == []


def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)])
    assert found.value.problems[0].hint == "No space left on device"
    assert names(tmp_path) == []


def test_a_folder_in_the_way_is_told_before_anything_is_written(tmp_path: Path):
    (tmp_path / "two.svg").mkdir()
    (tmp_path / "one.svg").write_text("hers")
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)], force=True)
    assert [(problem.file, problem.message) for problem in found.value.problems] == [
        (str(tmp_path / "two.svg"), "is a folder")
    ]
    assert (tmp_path / "one.svg").read_text() == "hers"


def test_folders_made_in_vain_are_taken_away(tmp_path: Path):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path / "new" / "below"), TEXTS), (str(tmp_path / "file" / "x"), TEXTS)])
    assert names(tmp_path) == ["file"]


def test_a_text_that_no_file_holds_leaves_nothing(tmp_path: Path):
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path / "new"), {"one.svg": "fine", "two.svg": "\udcff"})])
    assert names(tmp_path) == []


def test_a_shared_text_that_is_there_already_is_left(tmp_path: Path):
    (tmp_path / "shop.toml").write_text("same")
    assert write_all([(str(tmp_path), {"one.svg": "x"})], shared=[(str(tmp_path), {"shop.toml": "same"})]) == [
        str(tmp_path / "one.svg")
    ]
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path), {"two.svg": "x"})], shared=[(str(tmp_path), {"shop.toml": "other"})])
