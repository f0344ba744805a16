"""How quick the page of the counter is: `python -m tests.bench counter`.

An edit is measured to its new total: on the server by a client with keep-alive, as a browser has it, and in a browser
to the moment when the total is painted. Nothing here is asserted in a test.
"""

import http.client
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlencode

from tests.builders import sample
from tests.counter.visiting import fields_of, tree

EDITS = 60
SAMPLES = {"plain": "boathouse-supper-cloth.toml", "pieced": "lighthouse-bed-quilt.toml"}
EDITED = {
    "plain": ("top.width", ["60 1/2", "61", "62 1/4", "63"]),
    "pieced": ("top.sashing.width", ["2", "3", "4", "5"]),
}
PAINTED = """([name, value]) => new Promise((done, fail) => {
  const sum = document.querySelector('#sum'), field = document.querySelector(`[name="${name}"]`)
  const began = performance.now()
  new MutationObserver((_, seen) => { seen.disconnect()
    requestAnimationFrame(() => setTimeout(() => done(performance.now() - began))) })
    .observe(sum, { childList: true, characterData: true, subtree: true })
  setTimeout(() => fail('no other total'), 5000)
  field.value = value
  field.dispatchEvent(new Event('change', { bubbles: true }))
})"""


class Client:
    """A browser without a screen, at a server that has just begun."""

    def __init__(self, address: str) -> None:
        self.origin, _, key = address.partition("/?key=")
        self._connection = http.client.HTTPConnection(self.origin.removeprefix("http://"))
        answer = self._ask("GET", f"/?key={key}")
        cookies = [value.split(";")[0] for name, value in answer.getheaders() if name.lower() == "set-cookie"]
        self._headers = {"Cookie": "; ".join(cookies), "Origin": self.origin}

    def _ask(self, method: str, path: str, body: str | None = None, **headers: str) -> http.client.HTTPResponse:
        self._connection.request(method, path, body, headers)
        answer = self._connection.getresponse()
        self.text = answer.read().decode()
        return answer

    def get(self, path: str) -> str:
        """Ask for a page."""
        answer = self._ask("GET", path, **self._headers)
        assert answer.status == 200, (path, answer.status)
        return self.text

    def edit(self, name: str, form: dict[str, list[str]]) -> dict[str, str]:
        """Post a form as the page's script does; gives the fields that the answer sets."""
        import json

        kind = {"Content-Type": "application/x-www-form-urlencoded", "HX-Request": "true"}
        answer = self._ask("POST", f"/p/{name}/edit", urlencode(form, doseq=True), **self._headers, **kind)
        assert answer.status == 200, answer.status
        return dict(json.loads(answer.getheader("HX-Trigger-After-Settle") or "{}")["fields"])


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address at which a folder is served."""
    command = [sys.executable, "-m", "finishcalc", "counter", str(folder), "--no-open"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as server:
        assert server.stdout
        yield server.stdout.readline().strip()
        server.terminate()


def main(bare: float) -> None:
    """Print what an edit takes; `bare` are the seconds of an interpreter that does nothing."""
    with TemporaryDirectory() as place:
        folder = Path(place) / "quilts"
        folder.mkdir()
        for name in SAMPLES.values():
            shutil.copy(sample(name), folder)
        _print_start(folder, bare)
        with served(folder) as address:
            client = Client(address)
            for kind, name in SAMPLES.items():
                _print_edits(client, kind, name)
        with served(folder) as address:
            _print_in_browser(address)


def _print_start(folder: Path, bare: float) -> None:
    print("start of the counter, as a ratio to `python -I -c pass`: the least of 5")
    address, first = [], []
    for _ in range(5):
        began = time.perf_counter()
        with served(folder) as at:
            address.append(time.perf_counter() - began)
            Client(at).get(f"/p/{SAMPLES['plain']}")
            first.append(time.perf_counter() - began)
    print(f"  to its address {min(address) / bare:5.1f}x   to the first page of a project {min(first) / bare:5.1f}x")


def _print_edits(client: Client, kind: str, name: str) -> None:
    form = fields_of(tree(client.get(f"/p/{name}")))
    key, values = EDITED[kind]
    took = []
    for number in range(EDITS):
        form[key] = [values[(number + 1) % len(values)]]
        began = time.perf_counter()
        fields = client.edit(name, form)
        took.append(time.perf_counter() - began)
        form |= {field: [text] for field, text in fields.items() if field in form}
    began, pages = time.perf_counter(), 20
    for _ in range(pages):
        client.get(f"/p/{name}")
    a_second = pages / (time.perf_counter() - began)
    print(f"an edit of a {kind} top to its new total, on the server: {_times(took)}  (reach: 100, 200)")
    print(f"  whole pages a second {a_second:6.1f}")


def _times(seconds: list[float]) -> str:
    ordered = sorted(seconds)
    p95 = ordered[min(len(ordered) - 1, round(len(ordered) * 0.95))]
    return f"median {statistics.median(ordered) * 1000:5.0f} ms, p95 {p95 * 1000:5.0f} ms"


def _print_in_browser(address: str) -> None:
    """The same in a browser, from the field that is left to the total that is painted."""
    chromium = shutil.which("chromium-headless-shell")
    try:
        from playwright.sync_api import sync_playwright
    except ModuleNotFoundError:
        chromium = None
    if not chromium:
        print("in a browser: there is no chromium-headless-shell, or no playwright")
        return
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page()
        page.goto(address)
        for kind, name in SAMPLES.items():
            print(
                f"an edit of a {kind} top to its new total, painted in a browser: {_times(_painted(page, kind, name))}"
            )
        browser.close()


def _painted(page: Any, kind: str, name: str) -> list[float]:
    origin = "/".join(page.url.split("/")[:3])
    page.goto(f"{origin}/p/{name}")
    page.wait_for_load_state("networkidle")
    key, values = EDITED[kind]
    took = []
    for number in range(EDITS // 2):
        took.append(page.evaluate(PAINTED, [key, values[(number + 1) % len(values)]]) / 1000)
        page.wait_for_timeout(50)
    return took
