"""The samples and the mistakes as an editor sees them: a linter of TOML from outside, with our schemas."""

import json
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from finishcalc.intake.resolve import load
from finishcalc.problems import ProblemsFound
from tests.builders import MISTAKES, PRESETS, PROJECTS, SHOPS
from tests.rendering.test_schemas import REFUSED, kind_of
from tests.schemas import FOLDER

pytest.importorskip("tombi")
PROGRAM = Path(sys.executable).parent / "tombi"

Line = tuple[str, int]


def lint(files: list[Path], report: Path) -> set[Line]:
    """Every file and line that the linter objects to; it asks nobody for a schema that is not on this machine."""
    command = [str(PROGRAM), "lint", "--offline", "--quiet", "--diagnostics-format", "json"]
    done = subprocess.run([*command, "--diagnostics-file", str(report), *map(str, files)], capture_output=True)
    assert done.returncode in (0, 1), done.stderr
    found: list[dict[str, Any]] = json.loads(report.read_text(encoding="utf-8")) if report.exists() else []
    return {(Path(each["path"]).name, each["range"]["start"]["line"]) for each in found}


def ours() -> Iterator[tuple[Path, int]]:
    """The file and the line of each mistake of the catalogue that a schema can name."""
    for mistake in MISTAKES:
        with pytest.raises(ProblemsFound) as found:
            load(str(mistake))
        for problem in found.value.problems:
            if problem.code in REFUSED and problem.line:
                yield Path(problem.file), problem.line


def test_the_linter_accepts_every_sample_by_the_schema_it_points_to(tmp_path: Path):
    assert lint([*PROJECTS, *SHOPS], tmp_path / "report.json") == set()


def test_the_linter_follows_the_first_line_of_a_sample(tmp_path: Path):
    """An unknown key in a copy beside the schemas is found, so that accepting the samples says something."""
    shutil.copytree(PRESETS / "schemas", tmp_path / "schemas")
    (tmp_path / "projects").mkdir()
    copy = tmp_path / "projects" / "copy.toml"
    lines = PROJECTS[0].read_text(encoding="utf-8").splitlines()
    copy.write_text("\n".join([lines[0], "tittle = 'x'", *lines[1:]]), encoding="utf-8")
    assert lint([copy], tmp_path / "report.json") == {("copy.toml", 2)}


def test_the_linter_names_the_lines_that_we_name(tmp_path: Path):
    """For unknown keys, wrong types and wrong choices; the line with the schema's place pushes each down by one."""
    wanted = {(path, line) for path, line in ours() if path.exists()}
    shutil.copytree(FOLDER, tmp_path / "schemas")
    for path in {path for path, _ in wanted}:
        text = path.read_text(encoding="utf-8-sig")
        (tmp_path / path.name).write_text(f"#:schema ./schemas/{kind_of(path)}.schema.json\n{text}", encoding="utf-8")
    objected = lint(sorted(tmp_path.glob("*.toml")), tmp_path / "report.json")
    named = {(path.name, line + 1) for path, line in wanted}
    assert len(named) >= 70
    assert named - objected == set()
