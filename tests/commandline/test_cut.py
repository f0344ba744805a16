"""The cut lists of several files at once."""

from pathlib import Path

from tests.builders import run


def project(folder: Path, name: str, text: str = "[top]\nwidth = 60\nlength = 80\n") -> str:
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(f'title = "{path.stem}"\n{text}', encoding="utf-8")
    return str(path)


def test_lists_follow_each_other_in_the_order_that_is_given(tmp_path: Path):
    one, other = project(tmp_path, "one.toml"), project(tmp_path, "other.toml")
    text = run("cut", other, one).stdout
    assert text == f"{run('cut', other).stdout}\n{'─' * 80}\n\n{run('cut', one).stdout}"


def test_the_problems_of_all_files_come_at_once_and_nothing_is_written(tmp_path: Path):
    good = project(tmp_path, "good.toml")
    wrong = project(tmp_path, "wrong.toml", "[top]\nwidht = 60\nlength = 80\n")
    missing = str(tmp_path / "missing.toml")
    result = run("cut", good, wrong, missing, "--svg", str(tmp_path / "out"))
    assert result.exit_code == 1
    assert result.stdout == ""
    assert "top.widht" in result.stderr
    assert "missing.toml" in result.stderr
    assert not (tmp_path / "out").exists()


def test_each_of_several_files_has_a_folder_for_its_pictures(tmp_path: Path):
    """Two files of one name, from two folders, and a third that has the name the second would take."""
    files = [project(tmp_path, "top-2.toml"), *(project(tmp_path / folder, "top.toml") for folder in ("a", "b"))]
    out = tmp_path / "out"
    assert run("cut", *files, "--svg", str(out)).exit_code == 0
    folders = {path.name: sorted(each.name for each in path.iterdir()) for path in out.iterdir()}
    assert folders == {name: ["backing.svg", "cloth-1.svg", "cloth-2.svg"] for name in ("top", "top-2", "top-3")}


def test_one_file_has_its_pictures_in_the_folder_itself(tmp_path: Path):
    assert run("cut", project(tmp_path, "one.toml"), "--svg", str(tmp_path / "out")).exit_code == 0
    assert (tmp_path / "out" / "backing.svg").exists()
