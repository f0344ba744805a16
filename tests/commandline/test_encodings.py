"""Terminals as they are: old code pages, no colours, dumb ones, narrow and wide, and pipes."""

import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest
from wcwidth import wcswidth

import finishcalc
from finishcalc.commandline.encoding import ALIKE, readable
from tests.builders import CLOTH, METRIC, PROJECTS, outside

pytestmark = pytest.mark.slow

HOME = str(Path(finishcalc.__file__).parent.parent)
ON_POINT = next(path for path in PROJECTS if path.stem == "on-point-throw")
LIGHTHOUSE = next(path for path in PROJECTS if path.stem == "lighthouse-bed-quilt")
OLD = {"PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
COMMANDS = [
    ["quote", str(CLOTH), "--for", "studio", "--explain"],
    ["cut", str(ON_POINT)],
    ["compare", str(METRIC), "--as", "queen"],
    ["presets", "fabrics"],
    [],
]


ONE_BY_ONE = """
import os, sys
from finishcalc.__main__ import main
from finishcalc.commandline import app, views
for line in sys.argv[1:]:
    pid = os.fork()
    if not pid:
        sys.argv = ["finishcalc", *line.split("\\n")[1:]]
        main()
    assert os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]) in (0, 1)
    os.write(1, b"\\f")
"""
"""Commands in processes of their own, which have everything loaded from the first."""


def in_terminal(*commands: list[str], **environment: str) -> list[bytes]:
    """All that each command writes on a terminal, line feeds as they were written."""
    ours, its = os.openpty()
    try:
        env = {**os.environ, "PYTHONPATH": HOME, **environment}
        lines = ["\n".join(["finishcalc", *arguments]) for arguments in commands]
        process = subprocess.Popen(
            [sys.executable, "-c", ONE_BY_ONE, *lines], stdin=its, stdout=its, stderr=its, env=env
        )
        os.close(its)
        written = b""
        while chunk := _read(ours):
            written += chunk
        assert process.wait(timeout=60) == 0
        *pages, end = written.replace(b"\r\n", b"\n").split(b"\f")
        assert (len(pages), end) == (len(commands), b"")
        return pages
    finally:
        os.close(ours)


@cache
def pages(**environment: str) -> list[bytes]:
    """Every page on a terminal of 80 columns, shown once."""
    return in_terminal(*COMMANDS, COLUMNS="80", **environment)


def _read(terminal: int) -> bytes:
    """Read on; nothing comes once the other end is closed, which Linux tells as an error."""
    try:
        return os.read(terminal, 65536)
    except OSError:
        return b""


each_page = pytest.mark.parametrize("number", range(len(COMMANDS)), ids=[" ".join(each[:1]) for each in COMMANDS])


@each_page
@pytest.mark.parametrize("encoding", ["cp437", "cp1252", "ascii"])
def test_an_old_console_shows_every_page_with_signs_that_it_has(encoding: str, number: int):
    """Line by line as wide as in UTF-8, so that columns and drawings line up; only signs that it lacks differ."""
    shown = pages(PYTHONIOENCODING=encoding, **OLD)[number].decode(encoding)
    whole = pages(PYTHONIOENCODING="utf-8")[number].decode("utf-8")
    assert len(shown.splitlines()) == len(whole.splitlines())
    for ours, other in zip(shown.splitlines(), whole.splitlines(), strict=True):
        if "€" not in other:  # which old code pages spell out
            assert len(ours) == wcswidth(other)
            kept = [(mine, char) for mine, char in zip(ours, other, strict=True) if char.encode(encoding, "ignore")]
            assert all(mine == char for mine, char in kept)
    assert shown.count("?") == whole.count("?")


@pytest.mark.parametrize("columns", [40, 60, 80, 120])
@pytest.mark.parametrize("encoding", ["cp437", "cp1252", "utf-8"])
def test_a_page_fits_terminals_of_any_width_and_encoding(encoding: str, columns: int):
    """120 columns are more than a line is read well in: 80 are used."""
    commands = ["quote", str(LIGHTHOUSE), "--for", "studio"], ["cut", str(ON_POINT)]
    for page in in_terminal(*commands, PYTHONIOENCODING=encoding, COLUMNS=str(columns), **OLD):
        assert max(map(wcswidth, page.decode(encoding).splitlines())) <= min(columns, 80)


@each_page
def test_colours_pipes_and_dumb_terminals_change_nothing(number: int):
    """No page has a colour, so whoever wants none, or has none, reads the same bytes."""
    plain = pages(PYTHONIOENCODING="utf-8")[number]
    assert b"\x1b" not in plain
    for environment in ({"NO_COLOR": "1"}, {"TERM": "dumb"}, {"FORCE_COLOR": "1"}, {"TERM": "xterm-256color"}):
        assert pages(PYTHONIOENCODING="utf-8", **environment)[number] == plain
    assert outside(*COMMANDS[number], env={"COLUMNS": "80"}).stdout == plain


@pytest.mark.parametrize("encoding", ["cp437", "cp1252", "ascii"])
def test_a_pipe_gets_utf_8_whatever_the_terminal_is(encoding: str):
    drawn = outside("cut", str(ON_POINT), env={"PYTHONIOENCODING": encoding, **OLD}).stdout.decode("utf-8")
    assert re.search("[─│╱╲]", drawn)


@pytest.mark.parametrize(
    ("encoding", "shown"),
    [
        ("cp437", "½ x ─│┌X EUR5 \"Überwurf\" '?? '"),
        ("cp1252", "½ × -|+X €5 “Überwurf” ‘?? ’"),
        ("ascii", "1/2 x -|+X EUR5 \"Uberwurf\" '?? '"),
    ],
)
def test_what_an_encoding_lacks_is_replaced_by_what_reads_alike(encoding: str, shown: str):
    """Each code page keeps what it has: 437 most of the box drawing, 1252 the euro and the quotes."""
    assert readable("½ × ─│┌╳ €5 “Überwurf” ‘綿\u202f’", encoding).decode(encoding) == shown


def test_problems_are_told_in_the_terminal_s_own_signs(tmp_path: Path):
    """Standard error as well."""
    (tmp_path / "top.toml").write_text("größe = 3 # ╱\n[top]\nwidth = 60\nlength = 80\n", encoding="utf-8")
    (told,) = in_terminal(["quote", str(tmp_path / "top.toml")], PYTHONIOENCODING="cp437", **OLD)
    assert "größe = 3 # /" in told.decode("cp437")


def test_signs_of_drawings_keep_their_width():
    """One column for one, or a drawing falls apart."""
    assert all(len(ALIKE[sign]) == 1 for sign in "─│┌┐└┘├┤┬┴┼╱╲╳╴╵╶╷░·↕↔↓×")
