"""The catalogue of mistakes: each a file that someone could write, with the page that answers it."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from finishcalc.intake.resolve import load, resolve
from finishcalc.intake.source import Source
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.pages.problems import problems_json, problems_text
from tests.builders import MISTAKES, ROOT

FOLDER = ROOT / "tests" / "mistakes"


@pytest.fixture(autouse=True)
def _in_the_folder(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.chdir(FOLDER)
    return


def answer(name: str) -> str:
    with pytest.raises(ProblemsFound) as found:
        load(name)
    return problems_text(found.value.problems)


def test_the_catalogue_is_there() -> None:
    assert len(MISTAKES) >= 40


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda path: path.stem)
def test_each_mistake_gets_its_answer(mistake: Path) -> None:
    expected = mistake.with_suffix(".expected.txt").read_text(encoding="utf-8")
    assert answer(mistake.name) == expected


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda path: path.stem)
def test_no_answer_speaks_to_programmers(mistake: Path) -> None:
    text = answer(mistake.name).lower()
    for word in ("traceback", "pydantic", "validation", "ctx", "nonetype", "fraction(", "length(", "decimal("):
        assert word not in text


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda path: path.stem)
def test_nothing_of_the_file_is_obeyed(mistake: Path) -> None:
    assert not set(answer(mistake.name)) & {chr(code) for code in (7, 27, 0x202E)}


def test_no_answer_is_without_its_mistake() -> None:
    answers = {path.name.removesuffix(".expected.txt") for path in FOLDER.glob("*.expected.txt")}
    assert answers == {path.stem for path in MISTAKES}


def test_the_folder_and_the_missing_file_are_told(tmp_path: Path) -> None:
    assert "is a folder" in answer(str(tmp_path))
    assert "no such file" in answer(str(tmp_path / "none.toml"))
    assert "cannot be read" in answer("bad\0name.toml")


def test_a_file_that_is_not_utf_8_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "latin.toml"
    path.write_bytes("[top]\ntitle = '\xe9'\n".encode("latin-1"))
    assert f"{path}:2: is not UTF-8 text" in answer(str(path))


def test_a_file_over_a_mebibyte_is_told(tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * (1024 * 1024 + 1))
    assert "is larger than 1 MiB" in answer(str(path))
    path.write_bytes(b"[top]\nwidth=60\nlength=80\n" + b"#" * (1024 * 1024 - 25))
    load(str(path))


def test_a_file_one_may_not_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Root may read everything, so the refusal is the operating system's own error, raised in its place."""

    def refuse(*_: object) -> None:
        raise PermissionError(13, os.strerror(13))

    monkeypatch.setattr("pathlib.Path.open", refuse)
    assert "you are not allowed to read it" in answer(str(tmp_path / "locked.toml"))
    monkeypatch.setattr("pathlib.Path.open", lambda *_: (_ for _ in ()).throw(OSError(5, os.strerror(5))))
    assert "cannot be read" in answer(str(tmp_path / "broken.toml"))


def test_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    path = tmp_path / "windows.toml"
    path.write_bytes(b"\xef\xbb\xbf[top]\r\nwidth = 60\r\nlength = 80\r\noverge = 1\r\n")
    assert ":4: top.overge: unknown key" in answer(str(path))


def test_mistakes_on_one_long_line_take_no_more_room_than_they_are():
    """4,000 unknown keys on one line: the answer stays short, and each problem shows a part of the line."""
    keys = ", ".join(f"k{n} = 1" for n in range(4000))
    with pytest.raises(ProblemsFound) as found:
        resolve(Source("t", f"top = {{ width = 60, length = 80, {keys} }}\n"))
    text = problems_json(found.value.problems)
    assert 100 <= len(found.value.problems) <= 200
    assert len(text) < 300_000
    assert "k100 = 1" in found.value.problems[100].excerpt
