"""How quick finishcalc is, as ratios within one run: `python -m tests.bench`.

Start-up is measured as whole processes in turn with `python -I -c pass`, so that a busy machine slows both;
quotes and comparisons are counted in process, from text to result without
rendering. Nothing here is asserted in a test.

`python -m tests.bench season` tallies 10,000 projects instead, with every processor that there is;
`python -m tests.bench counter` edits projects at the page in the browser.
"""

import os
import random
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Literal, NamedTuple

from finishcalc.commandline.views import quote_sheet, written
from finishcalc.comparing.design import Design
from finishcalc.comparing.sizes import compare_sizes
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.pipeline import finish, finish_file

SAMPLE = Path(__file__).parent.parent / "presets" / "projects" / "boathouse-supper-cloth.toml"
ROUNDS = 15
COMMANDS = {
    "--version": (["--version"], 2),
    "--help": (["--help"], 8),
    "quote": (["quote", str(SAMPLE)], 16),
}
"""Each command with the ratio it should reach."""
HUNDRED = """title = "A hundred by a hundred"
[top.blocks]
across = 100
down = 100
size = "1 1/2"
[top.sashing]
width = "1/2"
outer = true
cornerstones = true
[top.piecing]
fabric = { preset = "cotton-44", name = "cream" }
[[top.borders]]
cut = 5
"""


SEASON = """title = "Quilt {number} of the season"
shop = "studio.toml"
[customer]
name = "Customer {customer}"
[job]
number = "2026-{number:05}"
due = 2026-06-{day:02}
[top]
width = {width}
length = "{length} 1/2"
[backing]
fabric = "{fabric}"
[quilting]
style = "{style}"
"""
"""A project of a season, of any size and in one of a few cloths and styles."""
WHOLE_SEASON = 10_000


def main() -> None:
    """Print the ratios and the rates."""
    if "season" in sys.argv[1:]:
        _whole_season()
        return
    if "counter" in sys.argv[1:]:
        _counter()
        return
    print(f"start-up, as a ratio to `python -I -c pass`: the least of {ROUNDS} runs each, in turn")
    for name, (arguments, reach) in COMMANDS.items():
        bare, ours = _pairs(arguments)
        middle = statistics.median(one / other for one, other in zip(ours, bare, strict=True))
        print(f"  {name:<10} {min(ours) / min(bare):5.1f}x   (reach: {reach}x or less; median of pairs {middle:.1f}x)")
    print("a quote of 100 x 100 blocks with sashing, cornerstones and a border of one cloth, as the same ratio")
    with TemporaryDirectory() as folder:
        project = Path(folder) / "hundred.toml"
        project.write_text(HUNDRED, encoding="utf-8")
        bare, ours = _pairs(["quote", str(project)], rounds=5)
        print(f"  {'100 x 100':<10} {min(ours) / min(bare):5.1f}x   (reach: 50x or less)")
    print("papers: a whole process beyond that of the quote, as the same ratio")
    for name, form in (("sheet, PDF", "--pdf"), ("sheet, HTML", "--html")):
        print(f"  {name:<12} {_beyond_the_quote(form):5.1f}x   (reach: 4x or less)")
    print("sheets a second, in process, from a result: the customer's, of one page")
    for name, each in (("PDF", _sheets("pdf")), ("HTML", _sheets("html"))):
        print(f"  {name:<12} {each:6.0f}")
    print("comparisons a second, in process: a row of another size, text to result")
    for name in ("boathouse-supper-cloth", "orchard-long-table", "harbour-check-cloth", "lighthouse-bed-quilt"):
        print(f"  {name:<28} {_rows(SAMPLE.with_stem(name)):6.0f}   (reach: 200 or more)")
    print("whole quotes a second, in process, text to result")
    for path in sorted(SAMPLE.parent.glob("*.toml")):
        print(f"  {path.stem:<28} {_rate(path.read_text(encoding='utf-8')):6.0f}   (reach: 300 or more)")
    _tallies()


def _tallies() -> None:
    """Tally seasons as whole commands, each in turn with another that it is compared with."""
    with TemporaryDirectory() as folder:
        small, middling, large = (season(Path(folder) / str(number), number) for number in (200, 800, 2000))
        print("a tally of 800 projects with their shop file, as CSV: files a second, start counted in")
        one, two = _tally(middling, 1), _tally(middling, 2)
        a_second = [800 / run.seconds for run in (one, two)]
        print(f"  1 job {a_second[0]:6.0f}   2 jobs {a_second[1]:6.0f}   ratio {a_second[1] / a_second[0]:.2f}")
        before = _tally(small, 2)
        print(f"  time for 4 times the files: {two.seconds / before.seconds:.2f} times  (reach: 4 or less)")
        after = _tally(large, 2)
        print(f"peak memory of a process: {after.peak / 1024:.0f} MiB for 2,000 files  (reach: 150 MiB or less)")
        print(f"  as a ratio to that for 200 files: {after.peak / before.peak:.2f}   (reach: 1.1 or less)")


def _whole_season() -> None:
    with TemporaryDirectory() as folder:
        done = _tally(season(Path(folder) / "all", WHOLE_SEASON), None)
    print(f"a tally of {WHOLE_SEASON:,} projects: {done.seconds:.1f} s  (reach: 60 s or less on two processors)")
    print(f"  {done.cpu:.1f} s of processor time, {done.peak / 1024:.0f} MiB a process  (reach: 150 MiB or less)")


def _counter() -> None:
    from tests import bench_counter

    bare, _ = _pairs(["--version"], rounds=5)
    bench_counter.main(min(bare))


def season(folder: Path, number: int) -> Path:
    """So many projects of a season in a folder, with the shop file that each names."""
    folder.mkdir()
    (folder / "studio.toml").write_text("[rates]\nseam = 22\nwage = 31\n", encoding="utf-8")
    draw = random.Random(number)
    for each in range(number):
        text = SEASON.format(
            number=each,
            customer=each % 97,
            day=1 + each % 28,
            width=draw.randrange(36, 100),
            length=draw.randrange(40, 110),
            fabric=draw.choice(["cotton-44", "cotton-wide-108"]),
            style=draw.choice(["medium-pantograph", "open-meander"]),
        )
        (folder / f"quilt-{each:05}.toml").write_text(text, encoding="utf-8")
    return folder


class Run(NamedTuple):
    """A command that has run: its seconds, those of all its processes' work, and the KiB of its largest process."""

    seconds: float
    cpu: float
    peak: int


def _tally(folder: Path, jobs: int | None) -> Run:
    arguments = ["-I", "-m", "finishcalc", "tally", str(folder), "--csv"]
    arguments += ["--jobs", str(jobs)] if jobs else []
    start = time.perf_counter()
    with subprocess.Popen(
        [sys.executable, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    ) as process:
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise RuntimeError("the tally failed")
    return Run(time.perf_counter() - start, used.ru_utime + used.ru_stime, used.ru_maxrss)


def _beyond_the_quote(form: str) -> float:
    """The seconds of a quote written on paper beyond those of one written as text, in bare starts."""
    bare, text = _pairs(["quote", str(SAMPLE)])
    _, paper = _pairs(["quote", str(SAMPLE), form, "-"])
    return (min(paper) - min(text)) / min(bare)


def _sheets(form: Literal["pdf", "html"]) -> float:
    result = finish_file(str(SAMPLE))
    page = quote_sheet(result, "customer")
    return 1 / _best(lambda: written([page], form), times=5)


def _pairs(arguments: list[str], rounds: int = ROUNDS) -> tuple[list[float], list[float]]:
    """Seconds of the bare interpreter and of finishcalc, in turn, compiled files warm."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    bare = [sys.executable, "-I", "-c", "pass"]
    ours = [sys.executable, "-I", "-m", "finishcalc", *arguments]
    _seconds(ours, environment)
    pairs = [(_seconds(bare, environment), _seconds(ours, environment)) for _ in range(rounds)]
    return [pair[0] for pair in pairs], [pair[1] for pair in pairs]


def _seconds(command: list[str], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment)
    return time.perf_counter() - start


def _rate(text: str) -> float:
    return 1 / _best(lambda: finish(resolve(Source("bench.toml", text))))


def _rows(path: Path) -> float:
    """Rows a second of one comparison, its first row and the reading of the file counted in."""
    sizes = ["twin", "queen", "king", "table 36x72 drop 10", *(f"{wide}x84" for wide in range(50, 66))]
    seconds = _best(lambda: compare_sizes(Design.of_file(str(path)), sizes), times=2)
    return (len(sizes) + 1) / seconds


def _best(work: Callable[[], object], times: int = 40, rounds: int = 5) -> float:
    """The least seconds one call takes, over rounds of many calls."""
    work()
    found = []
    for _ in range(rounds):
        start = time.perf_counter()
        for _ in range(times):
            work()
        found.append((time.perf_counter() - start) / times)
    return min(found)


if __name__ == "__main__":
    main()
