"""Files and folders that somebody made to do harm, or that came about by bad luck: each is answered in plain words.

Work is counted, not timed: a program that would need minutes or gigabytes is stopped by a limit on its processor
seconds and its memory, far above what it needs.
"""

import resource
import subprocess
import sys
from pathlib import Path

import pytest

from finishcalc.intake import checking
from finishcalc.intake.checking import MOST_PROBLEMS
from finishcalc.intake.nesting import MOST_LEVELS, MOST_PARTS, too_deep
from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import resolve
from finishcalc.problems import Problem, ProblemsFound

TOP = "[top]\nwidth = 60\nlength = 80\n"


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProblemsFound) as found:
        resolve(Source("hostile.toml", text))
    return found.value.problems


def limited(*arguments: str) -> subprocess.CompletedProcess[str]:
    """The command line with 600 MB and 20 processor seconds, of which a quote takes a tenth and less than one."""

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (600 * 2**20, 600 * 2**20))
        resource.setrlimit(resource.RLIMIT_CPU, (20, 20))

    command = [sys.executable, "-m", "finishcalc", *arguments]
    return subprocess.run(command, capture_output=True, text=True, preexec_fn=limit, check=False)


# ---- depth ----------------------------------------------------------------------------------------------------

DEEP = {
    "a dotted key": "title" + ".a" * 490 + " = 1\n" + TOP,
    "a key in quotes": 'title."a"' + ".'b'" * 490 + " = 1\n" + TOP,
    "a key in braces": "title = { x" + ".a" * 490 + " = 1 }\n" + TOP,
    "a key with blanks": "title" + " . a" * 490 + " = 1\n" + TOP,
    "a header": "[a" + ".a" * 540 + "]\n" + TOP,
    "a header of a list": "[[a" + ".a" * 540 + "]]\n" + TOP,
    "half a mebibyte of dots": "a" + ".a" * 500_000 + " = 1",
    "lists": "x = " + "[" * 500 + "]" * 500 + "\n" + TOP,
    "lists on lines of their own": "x = " + "[ # [\n" * 500 + "]\n" * 500 + TOP,
    "lists beside others": "x = " + "[[], " * 500 + "]" * 500 + "\n" + TOP,
    "braces": "x = " + "{ a = " * 500 + "1" + " }" * 500 + "\n" + TOP,
    "both": "x = " + "[{ a.a = " * 300 + "1" + " }]" * 300 + "\n" + TOP,
    "a header, a key and lists": f"[{'a.' * 18}a]\n{'b.' * 18}b = " + "[" * 10 + "]" * 10 + "\n" + TOP,
}


@pytest.mark.parametrize("name", DEEP)
def test_what_is_nested_too_deeply_is_a_problem_with_its_line(name: str):
    (problem,) = problems("# a comment first\n" + DEEP[name])
    assert 2 <= problem.line <= MOST_LEVELS + 2
    assert problem.message in (f"has more than {MOST_PARTS} parts between its dots", "is nested too deeply")
    assert "six levels deep" in problem.hint


@pytest.mark.parametrize("name", ["half a mebibyte of dots", "a header", "lists", "braces", "both"])
@pytest.mark.parametrize(
    "command", [("quote",), ("quote", "--json"), ("cut",), ("compare", "--as", "queen")], ids=" ".join
)
def test_a_deep_file_costs_no_command_its_memory_or_its_stack(tmp_path: Path, name: str, command: tuple[str, ...]):
    path = tmp_path / "deep.toml"
    path.write_text(DEEP[name])
    done = limited(*command, str(path))
    assert done.returncode == 1
    assert "six levels deep" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_deep_shop_file_is_a_problem_of_its_own(tmp_path: Path):
    (tmp_path / "top.toml").write_text('shop = "deep.toml"\n' + TOP)
    (tmp_path / "deep.toml").write_text("\nmoney" + ".a" * 500_000 + " = 1")
    done = limited("quote", str(tmp_path / "top.toml"))
    assert done.returncode == 1
    assert f"deep.toml:2: has more than {MOST_PARTS} parts" in done.stderr


@pytest.mark.parametrize(
    "text",
    [
        "# " + "a.b " * 500 + "[" * 500 + "\n",
        'title = "' + "a." * 90 + '"\n',
        "title = '" + "[{" * 90 + "'\n",
        'title = """' + "a.\\\n" * 90 + '"""\n',
        'title = """a"" ' + "[" * 90 + '"""""\n',
        "title = '''\n" + "[." * 90 + "'''\n",
        'title = "\\"' + "[." * 90 + '"\n',
        "x = [" + "[1.5, 2.5], " * 500 + "]\n",
        "x = [" + "{ a.b = 1.5, c = [1] }, " * 500 + "]\n",
        "x.y.z = 1.5\n" * 500,
        "[a.b.c]\nd.e = { f.g = 1 }\n[[h.i]]\n" * 500,
        f"[{'a.' * 19}a]\n" + "\n",
        "title = a." + "a." * 500,
        "title = Grandma's " + "a." * 500,
    ],
)
def test_dots_and_brackets_that_nest_nothing_are_passed(text: str):
    """In texts and comments they are no more than letters, in numbers and lists side by side they end again, and a text
    without its quotes is told of as that."""
    assert too_deep(text) is None
    assert too_deep(text + TOP) is None


@pytest.mark.parametrize("parts", [MOST_PARTS, MOST_PARTS + 1])
def test_the_limit_on_a_key_is_met_exactly(parts: int):
    for start, stop in (("", " = 1"), ("[", "]"), ("x = { ", " = 1 }")):
        assert bool(too_deep(start + ".".join("a" * parts) + stop)) == (parts > MOST_PARTS)


@pytest.mark.parametrize("levels", [MOST_LEVELS, MOST_LEVELS + 1])
def test_the_limit_on_levels_counts_headers_keys_brackets_and_braces(levels: int):
    """A header of 3, a key of 2 in it, and what is left in lists; each brace and its key of two parts are 3, and 13 of
    them under a key are 40."""
    lists = levels - 5
    assert bool(too_deep("[a.b.c]\nd.e = " + "[" * lists + "]" * lists)) == (levels > MOST_LEVELS)
    assert bool(too_deep("x = " + "{ b.c = " * 13 + "[" * (levels - 40))) == (levels > MOST_LEVELS)


def test_a_value_to_try_meets_the_same_limits(tmp_path: Path):
    path = tmp_path / "top.toml"
    path.write_text(TOP)
    for tried, code in (
        ("title." + "a." * 500 + "a=3", 2),
        ("title=" + "[" * 470 + "]" * 470, 1),
        ("title={a" + ".a" * 40_000 + "=1}", 0),
    ):
        done = limited("quote", str(path), "--set", tried)
        assert "Traceback" not in done.stderr
        assert done.returncode in (code, 1)


# ---- patterns that take time by the square --------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        ('["' + " " * 500_000 + '"]\n') * 2,
        "a = 1\n" + 'a = """\n' + " " * 1_000_000 + '\n=x"""\n',
        'x = """' + '\\"""' * 250_000,
        "x = '''" + "''a" * 300_000,
        "x = [" + '"\\' * 500_000,
        "x = " + "1_" * 500_000,
        "x = " + ("1" * 299 + ",") * 3400 + "1e9999999",
        '"' + "a" * 500_000 + '" = 1\n"' + "a" * 500_000 + '" = 2\n',
    ],
    ids="header-blanks key-blanks quotes apostrophes strokes digits numbers long-key".split(),
)
def test_a_problem_is_found_and_told_in_time(tmp_path: Path, text: str):
    """A search that starts anew at every character of these would take minutes."""
    path = tmp_path / "slow.toml"
    path.write_text(text)
    done = limited("quote", str(path))
    assert done.returncode == 1
    assert done.stderr.startswith(str(path))


# ---- many mistakes --------------------------------------------------------------------------------------------


def test_thousands_of_unknown_keys_are_not_looked_up_one_by_one(monkeypatch: pytest.MonkeyPatch):
    """No more than the problems that are told are searched for what was meant, however many keys there are."""
    calls = []
    monkeypatch.setattr(checking, "nearest", lambda word, names: calls.append(word))
    counted = []
    for many in (400, 4000):
        calls.clear()
        found = problems("[top]\nlength = 80\n" + "".join(f"widthe{n} = 1\n" for n in range(many)))
        assert sum(each.message == "unknown key" for each in found) == MOST_PROBLEMS
        counted.append(len(calls))
    assert 0 < counted[0] == counted[1]
