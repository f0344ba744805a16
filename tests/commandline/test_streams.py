"""Streams that are closed or full, and stops: a plain line, the right exit code, and never a traceback."""

import fcntl
import os
import random
import shlex
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

import finishcalc

TOP = "[top]\nwidth = 60\nlength = 80\n"
HOME = str(Path(finishcalc.__file__).parent.parent)
ENV = {**os.environ, "PYTHONPATH": HOME}
CLOSED_OUT = "cannot write the result: standard output is closed\n"
NO_SPACE = "finishcalc: No space left on device\n"
NOTHING = "finishcalc: stopped; nothing was written\n"


@pytest.fixture
def top(tmp_path: Path) -> Path:
    (tmp_path / "two.toml").write_text(TOP)
    return tmp_path


# --- closed and full ---------------------------------------------------------------------------------------------

AT_ONCE = [
    ("quote - <&-", 1, "", "standard input: cannot be read\n    it is closed: name a file, or pipe one in\n"),
    ("quote two.toml >&-", 1, "", CLOSED_OUT),
    ("--help >&-", 1, "", "finishcalc: " + CLOSED_OUT),
    ("--version >&-", 1, "", "finishcalc: " + CLOSED_OUT),
    ("--version >/dev/full", 1, "", NO_SPACE),
    ("--help >/dev/full", 1, "", NO_SPACE),
    ("--version 2>&-", 0, f"{finishcalc.__version__}\n", ""),
    ("--version >&- 2>&-", 1, "", ""),
    ("quote none.toml 2>&-", 1, "", ""),
    ("quote --nope 2>/dev/full", 2, "", ""),
    ("quote - <&- >&- 2>&-", 1, "", ""),
]
IN_THE_GATE = [
    ("cut two.toml >&-", 1, "", CLOSED_OUT),
    ("--version quote >&-", 1, "", "finishcalc: " + CLOSED_OUT),
    ("quote --nope 2>&-", 2, "", ""),
    ("quote two.toml --for nobody 2>/dev/full", 2, "", ""),
    ("quote none.toml 2>/dev/full", 1, "", ""),
    ("quote two.toml >&- 2>&-", 1, "", ""),
]
"""Other commands with the same streams."""
STREAMS = [
    *(pytest.param(*each, id=each[0]) for each in AT_ONCE),
    *(pytest.param(*each, id=each[0], marks=pytest.mark.slow) for each in IN_THE_GATE),
]


@pytest.mark.parametrize(("line", "code", "out", "error"), STREAMS)
def test_a_stream_that_is_closed_or_full_is_told_plainly(top: Path, line: str, code: int, out: str, error: str):
    command = f"{shlex.quote(sys.executable)} -m finishcalc {line}"
    done = subprocess.run(["bash", "-c", command], cwd=top, env=ENV, capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout, done.stderr) == (code, out, error)


def test_a_result_without_a_word_on_standard_error_does_not_need_it(top: Path):
    command = f"{shlex.quote(sys.executable)} -m finishcalc quote two.toml --json 2>&-"
    done = subprocess.run(["bash", "-c", command], cwd=top, env=ENV, capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout[:2], done.stdout[-2:]) == (0, "{\n", "}\n")


# --- stops -------------------------------------------------------------------------------------------------------

AT_IMPORT = """
import os, sys
name, number, sys.argv = sys.argv[1], int(sys.argv[2]), ["finishcalc", *sys.argv[3:]]
class Sends:
    def find_spec(self, asked, *_):
        if asked == name:
            os.kill(os.getpid(), number)
from finishcalc.__main__ import main
sys.meta_path.insert(0, Sends())
main()
"""


@pytest.mark.parametrize(
    ("name", "number"),
    [
        ("typer", signal.SIGINT),
        ("finishcalc.rendering.pages.cut", signal.SIGINT),
        ("pydantic_core", signal.SIGTERM),
        ("finishcalc.commandline.app", signal.SIGHUP),
    ],
)
def test_a_stop_while_modules_are_imported_is_one_line(top: Path, name: str, number: signal.Signals):
    arguments = [name, str(int(number)), "cut", "two.toml", "--svg", "pictures"]
    done = run_python(AT_IMPORT, arguments, top)
    assert (done.returncode, done.stdout, done.stderr) == (128 + number, "", NOTHING)
    assert [path.name for path in top.iterdir()] == ["two.toml"]


def test_ctrl_c_before_anything_listens_is_one_line(top: Path):
    done = run_python(AT_IMPORT, ["finishcalc.commandline.stopping", str(int(signal.SIGINT)), "quote", "two.toml"], top)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", NOTHING)


def run_python(text: str, arguments: list[str], folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", text, *arguments]
    return subprocess.run(command, cwd=folder, env=ENV, capture_output=True, text=True, timeout=60)


READY = """
import sys
from finishcalc.__main__ import main
sys.argv[0] = "finishcalc"
sys.stderr.write("ready\\n")
sys.stderr.flush()
main()
"""


def started(*arguments: str, folder: Path, stdin: int = subprocess.DEVNULL, stdout: int = subprocess.PIPE):
    """The command in a process of its own, at our first line."""
    command = [sys.executable, "-c", READY, *arguments]
    process = subprocess.Popen(
        command, cwd=folder, env=ENV, stdin=stdin, stdout=stdout, stderr=subprocess.PIPE, text=True
    )
    assert process.stderr
    assert process.stderr.readline() == "ready\n"
    return process


def test_ctrl_c_at_a_random_moment_leaves_all_or_nothing(top: Path):
    seed = random.randrange(10**6)
    moments = random.Random(seed)
    for _ in range(6):
        with started("cut", "two.toml", "--svg", "pictures", "--force", folder=top) as process:
            time.sleep(moments.uniform(0.02, 0.3))  # past the line that says it is ready
            process.send_signal(signal.SIGINT)
            _, said = process.communicate(timeout=60)
        written = (top / "pictures").exists()
        assert process.returncode in (0, 130), (seed, said)
        assert (said == "") == (process.returncode == 0), (seed, said)
        assert said.count("\n") <= 1, (seed, said)
        assert "nothing was written" not in said or not (top / "pictures").exists(), seed
        assert list(top.rglob(".*")) == [], seed
        if written:
            files = sorted(path.name for path in (top / "pictures").iterdir())
            assert {"backing.svg", "cloth.svg"} <= set(files), (seed, files)
            for path in (top / "pictures").iterdir():
                path.unlink()
            (top / "pictures").rmdir()


def test_ctrl_c_while_it_waits_for_its_input_is_one_line(top: Path):
    with started("quote", "-", folder=top, stdin=subprocess.PIPE) as process:
        time.sleep(0.5)
        process.send_signal(signal.SIGINT)
        out, said = process.communicate(timeout=60)
    assert (process.returncode, out, said) == (130, "", NOTHING)


def test_a_stop_does_not_deny_what_was_written(top: Path):
    """A reader that does not read: of a pipe of 4,096 bytes the document fills more, so that it waits in the midst."""
    reading, writing = os.pipe()
    fcntl.fcntl(writing, 1031, 4096)  # F_SETPIPE_SZ, which Python 3.11 names on Linux only
    command = ("quote", "two.toml", "--json", "--svg", "pictures")
    with started(*command, folder=top, stdout=writing) as process:
        os.close(writing)
        assert len(os.read(reading, 1)) == 1
        process.send_signal(signal.SIGTERM)
        _, said = process.communicate(timeout=60)
    os.close(reading)
    assert process.returncode == 143
    assert said == "finishcalc: stopped; the files were written; the output may be incomplete\n"
    assert (top / "pictures" / "passes.svg").exists()
