"""Only plain files of the folder are read."""

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest

from finishcalc.counter.folder import contained
from finishcalc.counter.folder.contained import Contained


@pytest.fixture(params=["from the folder's handle", "by paths"])
def folder(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A folder beside a secret file. Reading a pipe in it would wait for ever, so that is ended by an alarm."""
    if request.param == "by paths":
        monkeypatch.setattr(contained, "HAS_HANDLES", False)
    home = tmp_path / "quilts"
    (home / "shops").mkdir(parents=True)
    (home / "lap.toml").write_bytes(b"lap")
    (home / "shops" / "mine.toml").write_bytes(b"mine")
    (tmp_path / "secret.toml").write_bytes(b"secret")
    signal.alarm(20)
    yield home
    signal.alarm(0)


def test_a_file_of_the_folder_and_one_below_it_are_read(folder: Path):
    assert Contained(str(folder)).read("lap.toml", 10) == b"lap"
    assert Contained(str(folder)).read("shops/mine.toml", 10) == b"mine"


def test_of_a_long_file_one_byte_more_is_read_than_asked_for(folder: Path):
    assert Contained(str(folder)).read("lap.toml", 1) == b"la"


def test_only_plain_files_that_end_as_projects_do_are_named(folder: Path):
    (folder / "Bed.TOML").touch()
    (folder / "notes.txt").touch()
    (folder / "linked.toml").symlink_to(folder / "lap.toml")
    (folder / "inner.toml").mkdir()
    os.mkfifo(folder / "pipe.toml")
    (folder / os.fsdecode(b"\xff.toml")).touch()
    assert Contained(str(folder)).names() == ["Bed.TOML", "lap.toml"]


@pytest.mark.parametrize(
    "name",
    [
        "../secret.toml",
        "shops/../lap.toml",
        "/etc/hostname",
        "",
        ".",
        "..",
        "shops",
        "shops/",
        "./lap.toml",
        "lap.toml\0",
    ],
)
def test_no_name_leads_out_of_the_folder(folder: Path, name: str):
    with pytest.raises(OSError):  # noqa: PT011 - any of its kinds
        Contained(str(folder)).read(name, 10)


def test_half_a_character_in_a_name_is_no_file(folder: Path):
    with pytest.raises(FileNotFoundError):
        Contained(str(folder)).read("\ud800.toml", 10)


def test_no_link_is_followed_in_any_part(folder: Path):
    (folder / "file.toml").symlink_to(folder.parent / "secret.toml")
    (folder / "near.toml").symlink_to(folder / "lap.toml")
    (folder / "out").symlink_to(folder.parent)
    (folder / "shops" / "deep").symlink_to(folder)
    for name in ("file.toml", "near.toml", "out/secret.toml", "shops/deep/lap.toml"):
        with pytest.raises(OSError, match=r"link"):
            Contained(str(folder)).read(name, 10)
    with pytest.raises(OSError, match=r"link"):
        Contained(str(folder)).inner("out")


def test_a_pipe_and_a_device_are_not_read(folder: Path):
    os.mkfifo(folder / "pipe.toml")
    with pytest.raises(OSError, match="pipe or a device"):
        Contained(str(folder)).read("pipe.toml", 10)


def test_the_folder_stays_the_same_one_whatever_is_put_in_its_place(tmp_path: Path):
    (tmp_path / "quilts").mkdir()
    (tmp_path / "other").mkdir()
    (tmp_path / "quilts" / "lap.toml").write_bytes(b"mine")
    (tmp_path / "other" / "lap.toml").write_bytes(b"theirs")
    folder = Contained(str(tmp_path / "quilts"))
    (tmp_path / "quilts").rename(tmp_path / "moved")
    (tmp_path / "quilts").symlink_to(tmp_path / "other")
    assert folder.read("lap.toml", 10) == b"mine"


def test_a_file_is_no_folder(tmp_path: Path):
    (tmp_path / "lap.toml").touch()
    with pytest.raises(NotADirectoryError):
        Contained(str(tmp_path / "lap.toml"))
