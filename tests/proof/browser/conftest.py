"""A real browser at the page of the counter: the command serves a folder, the system's headless Chromium opens it.

Nothing is downloaded for it. Whatever the browser complains of fails the test: an error of a script, what the policy of
the page refuses, a request to anywhere else.
"""

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from tests.builders import PROJECTS
from tests.proof.browser.desk import Desk

numbers = count(1)

SHOP = '[counter]\nstudio_seconds = 5\n[extras.pressing]\nlabel = "Pressing"\nprice = 18\nper = "hour"\n'


class Served:
    """A folder that the command serves: the address that opens it, and its origin."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        command = [sys.executable, "-m", "finishcalc", "counter", str(folder), "--no-open"]
        self._process = subprocess.Popen(
            command, stdout=subprocess.PIPE, text=True, env={**os.environ, "HOME": str(folder)}
        )
        assert self._process.stdout
        self.address = self._process.stdout.readline().strip()  # printed once it listens: nothing is waited for
        self.origin = self.address.split("/?")[0]

    def stop(self) -> str:
        """End it as Ctrl-C does; gives what it said last."""
        self._process.send_signal(signal.SIGINT)
        said, _ = self._process.communicate(timeout=10)
        assert self._process.returncode in (0, 130, -signal.SIGINT)
        return said


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One folder for all tests of a run, with the samples; each test that writes has a project of its own in it."""
    folder = tmp_path_factory.mktemp("counter") / "quilts"
    folder.mkdir()
    for path in PROJECTS:
        shutil.copy(path, folder)
    server = Served(folder)
    yield server
    server.stop()


def is_complaint(said: Any) -> bool:
    """An edit that overtakes an earlier one ends its request, which is meant, and told as an error all the same."""
    return said.type in ("error", "warning") and not re.match("htmx:(sendAbort|afterRequest)", said.text)


class Window:
    """A browser's window at the counter, and all that it complained of."""

    def __init__(self, browser: Any, served: Served, **options: Any) -> None:
        settings = {"viewport": {"width": 1280, "height": 900}, "reduced_motion": "reduce", "service_workers": "block"}
        self.served, self.wrong = served, list[str]()
        self.context = browser.new_context(**{"locale": "en-GB", "timezone_id": "UTC", **settings, **options})
        self.context.set_default_timeout(5000)
        self.context.on("page", self._watch)

    def _watch(self, page: Any) -> None:
        wrong, origin = self.wrong, self.served.origin
        page.on("console", lambda said: wrong.append(said.text) if is_complaint(said) else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("request", lambda asked: None if asked.url.startswith(origin) else wrong.append(f"asks {asked.url}"))

    def tab(self, name: str = "") -> Desk:
        """A new tab, at a project or at the list."""
        page = self.context.new_page()
        if not any(cookie["name"].startswith("counter-") for cookie in self.context.cookies()):
            page.goto(self.served.address)
        desk = Desk(page, self.served)
        desk.go(f"/p/{name}" if name else "/")
        return desk

    def forgive(self, text: str) -> None:
        """Take back the complaint about an answer that was asked for: a browser tells of each 4xx."""
        told = [wrong for wrong in self.wrong if text in wrong]
        assert told, self.wrong
        self.wrong[:] = [wrong for wrong in self.wrong if text not in wrong]


@pytest.fixture
def windows(browser: Any, served: Served) -> Iterator[Callable[..., Window]]:
    """Opens windows, whose complaints fail the test."""
    opened = list[Window]()

    def window(**options: Any) -> Window:
        opened.append(Window(browser, options.pop("at", served), **options))
        return opened[-1]

    yield window
    for each in opened:
        each.context.close()
    assert [each.wrong for each in opened] == [[] for _ in opened]


@pytest.fixture
def project(served: Served) -> Callable[..., str]:
    """Writes a project of the test's own into the folder; gives the name of its file."""

    def written(text: str, name: str = "") -> str:
        file = name or f"project-{next(numbers)}.toml"
        (served.folder / file).write_text(text, encoding="utf-8")
        return file

    return written
