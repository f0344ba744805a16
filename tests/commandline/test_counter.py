"""The command `counter` as it is used: its address opens the page, Ctrl-C ends it, and what it lacks is told."""

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path

import pytest

import finishcalc
from finishcalc.problems import ProblemCode, ProblemsFound
from tests.builders import CLOTH, ROOT, run

pytestmark = pytest.mark.slow

HOME = str(Path(finishcalc.__file__).parent.parent)
NO_DESKTOP = {"DISPLAY", "WAYLAND_DISPLAY", "BROWSER"}
ENV = {**{name: value for name, value in os.environ.items() if name not in NO_DESKTOP}, "PYTHONPATH": HOME}
ADDRESS = re.compile(r"http://127\.0\.0\.1:([0-9]+)/\?key=([A-Za-z0-9_-]{32})\n")
CLOSED = "finishcalc: the counter is closed\n"
MODULE = ("-m", "finishcalc")


@contextmanager
def serving(*arguments: str, python: tuple[str, ...] = MODULE, **environment: str) -> Iterator[subprocess.Popen[str]]:
    """The command in a process of its own, once it has printed its address, which is the `args` of the process."""
    command = [sys.executable, *python, "counter", *arguments]
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen(command, env=ENV | environment, text=True, **pipes) as process:
        try:
            assert process.stdout
            process.args = process.stdout.readline()
            assert process.stdout.readline() == "Ctrl-C closes the counter.\n"
            yield process
        finally:
            process.kill()


def opened(process: subprocess.Popen[str]) -> tuple[HTTPConnection, dict[str, str]]:
    """A browser's connection to the page, and the cookies that it got there."""
    found = ADDRESS.fullmatch(str(process.args))
    assert found
    port, key = found.groups()
    browser = HTTPConnection("127.0.0.1", int(port), timeout=20)
    browser.request("GET", f"/?key={key}")
    answer = browser.getresponse()
    answer.read()
    assert (answer.status, answer.getheader("location")) == (303, "/")
    cookies = [value.partition(";")[0] for value in answer.headers.get_all("set-cookie", [])]
    return browser, {"Cookie": "; ".join(cookies)}


def get(process: subprocess.Popen[str], path: str) -> tuple[int, bytes]:
    browser, cookies = opened(process)
    browser.request("GET", path, headers=cookies)
    answer = browser.getresponse()
    status, body = answer.status, answer.read()
    browser.close()
    return status, body


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copy(CLOTH, tmp_path / "quilt.toml")
    return tmp_path


# --- its life ----------------------------------------------------------------------------------------------------


IN_THE_GATE = pytest.mark.slow
"""Another case of a kind of which the quick run has one: each of them starts a process."""


@pytest.mark.parametrize(
    "number",
    [signal.SIGINT, pytest.param(signal.SIGTERM, marks=IN_THE_GATE), pytest.param(signal.SIGHUP, marks=IN_THE_GATE)],
)
def test_the_printed_address_opens_the_page_until_a_stop_which_is_its_usual_end(number: signal.Signals, folder: Path):
    with serving(str(folder)) as process:
        status, page = get(process, "/p/quilt.toml")
        assert (status, b"Supper cloth for the boathouse" in page) == (200, True)
        process.send_signal(number)
        out, said = process.communicate(timeout=20)
    assert (process.returncode, out, said) == (0, "", CLOSED)


def test_the_folder_one_is_in_and_the_port_that_is_asked_for_are_served(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(folder)
    port = free_port()
    with serving("--port", str(port)) as process:
        assert str(process.args).startswith(f"http://127.0.0.1:{port}/?key=")
        assert get(process, "/p/quilt.toml")[0] == 200


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def test_its_own_files_are_served(folder: Path):
    """To whoever has the key alone: a stranger learns nothing of this machine."""
    name = "htmx.min.js"
    script = (Path(finishcalc.__file__).parent / "counter" / "pages" / "static" / name).read_bytes()
    with serving(str(folder)) as process:
        assert get(process, f"/static/{name}") == (200, script)
        browser, _ = opened(process)
        browser.request("GET", f"/static/{name}")
        assert browser.getresponse().status == 401
        browser.close()


def test_a_port_is_free_again_at_once(folder: Path):
    """Though the system holds the connections of the last server for a minute."""
    port = str(free_port())
    for _ in range(2):
        with serving(str(folder), "--port", port) as process:
            assert get(process, "/p/quilt.toml")[0] == 200
            process.send_signal(signal.SIGINT)
            assert process.wait(20) == 0


def test_a_stop_waits_for_no_browser(folder: Path):
    """One is idle, one has sent half a head, and one half a form: the second Ctrl-C is not needed."""
    with serving(str(folder)) as process:
        browser, cookies = opened(process)
        half = [b"GET / HT", b"POST / HTTP/1.1\r\nHost: %s\r\n%s\r\nOrigin: http://%s\r\nContent-Length: 9\r\n\r\na=1"]
        site = f"127.0.0.1:{browser.port}".encode()
        half[1] %= (site, f"Cookie: {cookies['Cookie']}".encode(), site)
        connections = [socket.create_connection(("127.0.0.1", browser.port)) for _ in half]
        for connection, text in zip(connections, half, strict=True):
            connection.sendall(text)
        time.sleep(0.2)
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=20)
        for connection in [*connections, browser]:
            connection.close()
    assert (process.returncode, said) == (0, CLOSED)


SLOW = """
import gc, time
import finishcalc.counter.app as page
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse
from starlette.routing import Route
def slow(_):
    time.sleep(60)
def tell(_):
    return PlainTextResponse(f"{gc.isenabled()} {gc.get_threshold()[0]} {gc.get_freeze_count() > 10_000}")
page.make_app = lambda counter: Starlette(routes=[Route("/slow", slow), Route("/", tell)])
from finishcalc.__main__ import main
main()
"""
"""A page that takes a minute for one of its answers, and tells of garbage in the other."""


def test_a_stop_waits_two_seconds_for_an_answer_and_says_nothing_of_it(folder: Path):
    with serving(str(folder), python=("-c", SLOW)) as process:
        browser, cookies = opened(process)
        browser.request("GET", "/slow", headers=cookies)
        time.sleep(0.3)
        began = time.monotonic()
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=20)
        browser.close()
    assert (process.returncode, said) == (0, CLOSED)
    assert 1.5 < time.monotonic() - began < 10


def test_garbage_is_collected_while_it_serves(folder: Path):
    """A command that ends soon waits for 200,000 objects; whatever was loaded is left alone."""
    with serving(str(folder), python=("-c", SLOW)) as process:
        assert get(process, "/")[1] == b"True 10000 True"


# --- the browser -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("options", "opens"), [((), True), (("--no-open",), False)])
def test_the_browser_is_opened_unless_it_shall_not(options: tuple[str, ...], opens: bool, folder: Path):
    """The browser of this test writes down where it is sent: to the page, by a key that opens it once, because other
    users of the machine can read there what a browser was started with."""
    browser = folder / "browser"
    browser.write_text(f'#!/bin/sh\necho "$1" > "{folder}/opened.part"\nmv "{folder}/opened.part" "{folder}/opened"\n')
    browser.chmod(0o755)
    with serving(str(folder), *options, BROWSER=f"{browser} %s") as process:
        limit = time.monotonic() + (20 if opens else 1)
        while not (folder / "opened").exists() and time.monotonic() < limit:
            time.sleep(0.05)
        assert (folder / "opened").exists() == opens
        if opens:
            printed, process.args = process.args, (folder / "opened").read_text()
            assert process.args != printed
            assert get(process, "/p/quilt.toml")[0] == 200
            with pytest.raises(AssertionError):
                opened(process)


# --- what it lacks -----------------------------------------------------------------------------------------------


def refused(*arguments: str) -> str:
    """The lines that tell why the counter does not open; nothing is served."""
    result = run("counter", *arguments)
    assert (result.exit_code, result.stdout) == (1, "")
    return result.stderr


def test_a_folder_that_is_missing_or_none_is_told_in_one_line(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(folder)
    assert refused("quilts") == "quilts: no such folder: check the name and the folder you are in\n"
    assert refused("quilt.toml") == "quilt.toml: is not a folder: name the one that the projects are in\n"


AS_ANOTHER = """
import os, sys
from tests.builders import run
run("counter", "missing")  # what it loads, the other user may not be able to read
if os.geteuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
result = run("counter", sys.argv[1])
sys.stdout.write(result.stderr)
sys.exit(result.exit_code)
"""


@pytest.mark.parametrize(
    ("mode", "told"),
    [
        (0o555, "you are not allowed to save in it: ask its owner, or name another folder"),
        (0o333, "cannot be read: you are not allowed to read it: ask its owner"),
    ],
)
def test_a_folder_that_an_ordinary_user_may_not_use_is_told_in_one_line(mode: int, told: str):
    place = Path(tempfile.mkdtemp())
    place.chmod(mode)
    try:
        command = [sys.executable, "-c", AS_ANOTHER, str(place)]
        done = subprocess.run(command, cwd=ROOT, env=ENV, capture_output=True, text=True, timeout=60)
    finally:
        place.chmod(0o700)
        place.rmdir()
    assert (done.returncode, done.stdout, done.stderr) == (1, f"{place}: {told}\n", "")


def test_a_port_that_is_taken_is_told_in_one_line(folder: Path):
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        line = f"--port: another program uses port {port}: choose another port, or leave --port out\n"
        assert refused(str(folder), "--port", str(port)) == line


@pytest.mark.parametrize("port", ["0", "65536", "-1", "http", "8420.5", "", "８４２０"])
def test_a_port_that_is_none_is_a_usage_error(port: str, folder: Path):
    result = run("counter", str(folder), f"--port={port}")
    assert (result.exit_code, result.stdout) == (2, "")
    assert f'"{port}" is not a port: use a whole number from 1 to 65535' in result.stderr


def test_all_that_is_wrong_is_told_at_once(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(folder)
    Path("studio.toml").write_text("units = 'in'\n[ratse]\n")
    with socket.create_server(("127.0.0.1", 0)) as other:
        told = refused("quilts", "--shop", "studio.toml", "--port", str(other.getsockname()[1]))
    assert re.findall(r"^\S.*?: ", told, re.M) == ["quilts: ", "studio.toml:2: ", "--port: "]


@pytest.mark.parametrize(
    "module", ["starlette", pytest.param("uvicorn", marks=IN_THE_GATE), pytest.param("h11", marks=IN_THE_GATE)]
)
def test_without_the_extra_it_is_said_what_to_install(module: str, folder: Path):
    blocked = f"import sys\nsys.modules['{module}'] = None\nfrom finishcalc.__main__ import main\nmain()\n"
    command = [sys.executable, "-c", blocked, "counter", str(folder)]
    done = subprocess.run(command, env=ENV, capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == "counter: the page needs the extra: pip install 'finishcalc[page]'\n"


def test_each_lack_has_its_code(folder: Path, monkeypatch: pytest.MonkeyPatch):
    told: list[ProblemsFound] = []
    monkeypatch.setattr("finishcalc.commandline.counter.report_problems", lambda found, as_json: told.append(found))
    with socket.create_server(("127.0.0.1", 0)) as other:
        run("counter", str(folder / "none"), "--port", str(other.getsockname()[1]))
    run("counter", str(folder / "quilt.toml"))
    for name in [name for name in sys.modules if name.startswith("finishcalc.counter.server")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "uvicorn", None)
    run("counter", str(folder))
    assert [problem.code for found in told for problem in found.problems] == [
        ProblemCode.NO_SUCH_FOLDER,
        ProblemCode.PORT_UNAVAILABLE,
        ProblemCode.NOT_A_FOLDER,
        ProblemCode.PAGE_NOT_INSTALLED,
    ]


def test_other_commands_load_nothing_of_the_server(folder: Path):
    """Loading it takes ten times as long as a bare Python's start."""
    loaded = "import sys\nfrom tests.builders import run\nrun('quote', sys.argv[1])\nprint(*sys.modules, sep='\\n')\n"
    command = [sys.executable, "-c", loaded, str(folder / "quilt.toml")]
    done = subprocess.run(command, cwd=ROOT, env=ENV, capture_output=True, text=True, timeout=60, check=True)
    modules = done.stdout.split()
    assert "finishcalc.commandline.counter" in modules
    assert not {"starlette", "uvicorn", "h11", "webbrowser", "finishcalc.counter"} & set(modules)
