"""Files and folders that somebody made to do harm, or that came about by bad luck: each is answered in plain words.

Work is counted, not timed: a program that would need minutes or gigabytes is stopped by a limit on its processor
seconds and its memory, far above what it needs.
"""

import json
import subprocess
import sys
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path
from types import UnionType
from typing import Annotated, Union, get_args, get_origin

import pytest
from annotated_types import MaxLen
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from finishcalc.commandline.app import app
from finishcalc.commandline.files import write_all
from finishcalc.intake import checking
from finishcalc.intake.checking import MOST_PROBLEMS
from finishcalc.intake.nesting import MOST_LEVELS, MOST_PARTS, _Depth, may_be_too_deep, too_deep
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.section import Figure, Section, specs
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.rendering.documents.writing import safe_json
from finishcalc.rendering.tables.csv_text import csv_text
from tests.builders import ROOT, TOP

SAMPLE = ROOT / "presets" / "projects" / "boathouse-supper-cloth.toml"


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProblemsFound) as found:
        resolve(Source("hostile.toml", text))
    return found.value.problems


EACH_LIMITED = """
import json, os, pkgutil, resource, sys
import finishcalc
from finishcalc.__main__ import main
for module in pkgutil.walk_packages(finishcalc.__path__, "finishcalc."):
    __import__(module.name)

def limited(arguments, out, err):
    resource.setrlimit(resource.RLIMIT_AS, (600 * 2**20, 600 * 2**20))
    resource.setrlimit(resource.RLIMIT_CPU, (20, 20))
    for number, name in ((1, out), (2, err)):
        os.dup2(os.open(name, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), number)
    sys.argv = ["finishcalc", *arguments]
    main()

for line in sys.stdin:
    pid = os.fork()
    if not pid:
        try:
            limited(*json.loads(line))
        except BaseException:
            sys.excepthook(*sys.exc_info())
            sys.stderr.flush()
        os._exit(120)
    print(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), flush=True)
"""
"""Has imported what a command needs, and starts each command in a child of its own, which has the limits."""

Limited = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture(scope="session")
def limited(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Limited]:
    """The command line with 600 MB and 20 processor seconds, of which a quote takes a tenth and less than one."""
    out, err = (tmp_path_factory.mktemp("limited") / name for name in ("out", "err"))
    with subprocess.Popen(
        [sys.executable, "-c", EACH_LIMITED], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as starter:
        asked, ended = starter.stdin, starter.stdout
        assert asked
        assert ended

        def run(*arguments: str) -> subprocess.CompletedProcess[str]:
            print(json.dumps([arguments, str(out), str(err)]), file=asked, flush=True)
            code = int(ended.readline())
            return subprocess.CompletedProcess(arguments, code, out.read_text(), err.read_text())

        yield run
        asked.close()


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
def test_a_deep_file_costs_no_command_its_memory_or_its_stack(
    tmp_path: Path, name: str, command: tuple[str, ...], limited: Limited
):
    path = tmp_path / "deep.toml"
    path.write_text(DEEP[name])
    done = limited(*command, str(path))
    assert done.returncode == 1
    assert "six levels deep" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_deep_shop_file_is_a_problem_of_its_own(tmp_path: Path, limited: Limited):
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


def _keys(longest: int) -> st.SearchStrategy[str]:
    return st.integers(1, longest).flatmap(lambda parts: st.sampled_from([".".join("a" * parts), ' . "b.["' * parts]))


@given(_keys(12), st.lists(st.sampled_from("[{") | _keys(6).map(lambda key: "{ " + key + " = "), max_size=30), _keys(8))
def test_a_text_that_a_count_passes_is_not_too_deep(header: str, opened: list[str], key: str):
    """The quick count may send a text to the exact measure for nothing, and never the other way round."""
    text = f"[{header}]\n{key} = " + "\n".join(opened) + " 1.5 # ]]]\n" + "]" * len(opened)
    assert may_be_too_deep(text) or _Depth().first_too_deep(text) is None


def test_a_value_to_try_meets_the_same_limits(tmp_path: Path, limited: Limited):
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
    ids=["header-blanks", "key-blanks", "quotes", "apostrophes", "strokes", "digits", "numbers", "long-key"],
)
def test_a_problem_is_found_and_told_in_time(tmp_path: Path, text: str, limited: Limited):
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


# ---- files outside the folder ---------------------------------------------------------------------------------


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a shop of one's own, in one that holds what is nobody's business."""
    home = tmp_path / "home"
    (home / "deep" / "out").mkdir(parents=True)
    (tmp_path / "secret.toml").write_text("PRECIOUS = 1\n")
    (tmp_path / "secrets").mkdir()
    (tmp_path / "secrets" / "shop.toml").write_text("PRECIOUS = 1\n")
    (home / "mine.toml").write_text('units = "in"\n')
    (home / "deep" / "evil.toml").write_text("PRECIOUS = 1\n")
    monkeypatch.chdir(home)
    return home


def everything(folder: Path) -> dict[str, str]:
    return {str(path): path.read_text() for path in folder.rglob("*") if path.is_file()}


OUTSIDE = ["../secret.toml", "deep/../../secret.toml", "..", "../home/mine.toml", "/etc/hostname", "/"]
USES = [("quote",), ("quote", "--json"), ("cut",), ("compare", "--as", "queen", "--write", "deep/out", "--force")]


@pytest.mark.parametrize("shop", OUTSIDE)
@pytest.mark.parametrize("asked", [(), ("--shop", "mine.toml")], ids=["its own", "asked"])
@pytest.mark.parametrize("command", USES, ids=" ".join)
def test_a_project_names_no_shop_outside_its_folder(
    home: Path, shop: str, asked: tuple[str, ...], command: tuple[str, ...]
):
    (home / "top.toml").write_text(f'shop = "{shop}"\n{TOP}')
    before = everything(home.parent)
    done = CliRunner().invoke(app, [*command, "top.toml", *asked])
    assert done.exit_code == 1
    assert "shop: is outside the project's folder" in done.stderr or '"is outside' in done.stderr
    assert "PRECIOUS" not in done.output
    assert everything(home.parent) == before


@pytest.mark.parametrize(
    ("link", "target", "shop"),
    [
        ("link.toml", "../secret.toml", "link.toml"),
        ("deep/link.toml", "../../secret.toml", "deep/link.toml"),
        ("deep/there", "../../secrets", "deep/there/shop.toml"),
        ("link.toml", "/etc/passwd", "./link.toml"),
        ("link.toml", "../gone.toml", "link.toml"),
        ("second.toml", "link.toml", "second.toml"),
    ],
)
@pytest.mark.parametrize("asked", [(), ("--shop", "mine.toml")], ids=["its own", "asked"])
@pytest.mark.parametrize("command", USES, ids=" ".join)
def test_a_link_out_of_the_folder_is_not_followed(
    home: Path, link: str, target: str, shop: str, asked: tuple[str, ...], command: tuple[str, ...]
):
    if link == "second.toml":
        (home / "link.toml").symlink_to("../secret.toml")
    (home / link).symlink_to(target)
    (home / "top.toml").write_text(f'shop = "{shop}"\n{TOP}')
    before = everything(home.parent)
    done = CliRunner().invoke(app, [*command, "top.toml", *asked])
    assert done.exit_code == 1
    assert "is a link to a file outside the project's folder" in done.stderr
    assert "PRECIOUS" not in done.output
    assert "root:" not in done.output
    assert everything(home.parent) == before


def test_a_link_within_the_folder_is_followed(home: Path):
    (home / "deep" / "link.toml").symlink_to("../mine.toml")
    (home / "top.toml").write_text(f'shop = "deep/link.toml"\n{TOP}')
    (home.parent / "way").symlink_to("home")
    assert CliRunner().invoke(app, ["quote", "top.toml"]).exit_code == 0
    assert CliRunner().invoke(app, ["quote", "../way/top.toml"]).exit_code == 0


def test_links_in_a_circle_are_a_problem(home: Path):
    (home / "a.toml").symlink_to("b.toml")
    (home / "b.toml").symlink_to("a.toml")
    (home / "top.toml").write_text(f'shop = "a.toml"\n{TOP}')
    done = CliRunner().invoke(app, ["quote", "top.toml"])
    assert (done.exit_code, done.stderr.startswith("top.toml:1: shop: ")) == (1, True)


def test_the_shop_asked_for_may_lie_anywhere_and_behind_any_link(home: Path):
    (home.parent / "away.toml").write_text('units = "in"\n')
    (home / "link.toml").symlink_to("../away.toml")
    (home / "top.toml").write_text(TOP)
    for shop in ("../away.toml", str(home.parent / "away.toml"), "link.toml"):
        assert CliRunner().invoke(app, ["quote", "top.toml", "--shop", shop]).exit_code == 0


def test_sizes_are_not_saved_through_a_link_out_of_their_folder(home: Path):
    """The shop's own folder is made again below the one to write to: it may be there already, as a link."""
    (home / "shops").mkdir()
    (home / "shops" / "shop.toml").write_text('units = "in"\n')
    (home / "deep" / "out" / "shops").symlink_to("../../../secrets")
    (home / "top.toml").write_text(f'shop = "shops/shop.toml"\n{TOP}')
    before = everything(home.parent)
    done = CliRunner().invoke(app, ["compare", "top.toml", "--as", "queen", "--write", "deep/out", "--force"])
    assert done.exit_code == 1
    assert "is outside the folder to write to" in done.stderr
    assert everything(home.parent) == before


@pytest.mark.parametrize("name", ["", "../out.toml", "below/../../out.toml"])
def test_no_text_is_written_outside_its_folder(tmp_path: Path, name: str):
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path / "in"), {name: "text"})], force=True)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("shop", ["top.toml", "./top.toml", "same.toml"])
@pytest.mark.parametrize("asked", [(), ("--shop", "mine.toml")], ids=["its own", "asked"])
def test_a_project_is_not_its_own_shop(home: Path, shop: str, asked: tuple[str, ...]):
    (home / "top.toml").write_text(f'shop = "{shop}"\n{TOP}')
    (home / "same.toml").symlink_to("top.toml")
    done = CliRunner().invoke(app, ["quote", "top.toml", *asked])
    assert (done.exit_code, "is the project file itself" in done.stderr) == (1, True)


@pytest.mark.parametrize("shop", ["", " ", ".", "./"])
def test_a_shop_without_a_name_is_told(home: Path, shop: str):
    (home / "top.toml").write_text(f'shop = "{shop}"\n{TOP}')
    assert "top.toml:1: shop: names no file\n" in CliRunner().invoke(app, ["quote", "top.toml"]).stderr


def test_a_file_without_a_name_is_told():
    for arguments in (["quote", ""], ["cut", ""], ["quote", str(SAMPLE), "--shop", ""]):
        done = CliRunner().invoke(app, arguments)
        assert (done.exit_code, done.stderr) == (1, '"": no file is named\n    give the name of a file\n')


# ---- limits that a person never meets -------------------------------------------------------------------------

LISTS = {
    "charges.extras": (100, "[charges]\nextras = [{}]\n", '"label"', "has too many items"),
    "charges.lines": (100, "[charges]\nlines = [{}]\n", '{ label = "a", price = 1 }', "has too many items"),
    "top.borders": (100, "[top]\nborders = [{}]\n", "{ cut = 1 }", "has too many items"),
    "top.measured.widths": (100, "[top.measured]\nlengths = [60]\nwidths = [{}]\n", "60", "has too many items"),
    "quilting.areas": (100, "[quilting]\nareas = [{}]\n", '{ style = "meander" }', "has too many items"),
}  # fmt: skip
SHOP_LISTS = {
    "offers.extras": (100, "[offers]\nextras = [{}]\n", '"label"'),
    "tax": (20, "tax = [{}]\n", '{ label = "VAT", percent = "1 %" }'),
    "rates.quilting.own.steps": (
        100, "[rates.quilting.own]\nsteps = [{}]\n", '{ name = "a", up_to = 1, price = 1 }'
    ),
    "studio.contact": (100, "[studio]\ncontact = [{}]\n", '"a"'),
    "any_batting.rolls": (100, "[any_batting]\nrolls = [{}]\n", '{ width = 60, price = 1, per = "yd", step = 1 }'),
}  # fmt: skip
NAMED = {"extras": 100, "rates.quilting": 100} | dict.fromkeys(
    ("beds", "tables", "fabrics", "battings", "styles", "methods"), 500
)


def told(text: str, shop: str | None = None) -> list[tuple[str, str, str]]:
    """The problems of limits alone: not those of a project that is only half of one."""
    try:
        resolve(
            Source("top.toml", text), "shop.toml" if shop else None, reader=lambda _: Source("shop.toml", shop or "")
        )
    except ProblemsFound as found:
        return [(each.path, each.message, each.hint) for each in found.problems if each.hint.startswith("give at most")]
    return []


@pytest.mark.parametrize("key", LISTS)
def test_a_list_of_a_project_has_a_limit(key: str):
    most, text, item, message = LISTS[key]
    assert told(text.format(", ".join([item] * most))) == []
    assert told(text.format(", ".join([item] * (most + 1)))) == [(key, message, f"give at most {most}")]


@pytest.mark.parametrize("key", SHOP_LISTS)
def test_a_list_of_a_shop_has_a_limit(key: str):
    most, text, item = SHOP_LISTS[key]
    assert told(TOP, text.format(", ".join([item] * most))) == []
    assert told(TOP, text.format(", ".join([item] * (most + 1)))) == [
        (key, "has too many items", f"give at most {most}")
    ]


@pytest.mark.parametrize("key", NAMED)
def test_the_named_things_of_a_shop_have_a_limit(key: str):
    most, item = NAMED[key], {"extras": "{ price = 1 }", "rates.quilting": "1"}.get(key, "{}")

    def shop(many: int) -> str:
        return f"[{key}]\n" + "".join(f"a{n} = {item}\n" for n in range(many))

    assert told(TOP, shop(most)) == []
    assert told(TOP, shop(most + 1)) == [(key, "has too many names", f"give at most {most}")]


def test_every_list_and_every_table_of_names_has_a_limit():
    """No key of any table may hold as much as a file has room for."""
    waiting, limits = [ProjectFile, ShopFile], {}
    while waiting:
        section = waiting.pop()
        for name, spec in specs(section).items():
            if spec.kind in ("entries", "rows", "named"):
                limits[f"{section.__name__}.{name}"] = limit_of(section, name)
            waiting += [spec.section] if spec.section else []
    assert {"ShopFile.fabrics", "Top.borders", "Batting.packages", "Rates.quilting"} <= limits.keys()
    assert len(limits) > 15
    assert {name: most for name, most in limits.items() if not 0 < most <= 500} == {}


def limit_of(section: type[Section], name: str) -> int:
    """The most that a key holds by the marks of its line; 0 where it says nothing."""
    field = section.model_fields[name]
    marks, annotation = list(field.metadata), field.annotation
    waiting = [annotation]
    while waiting:
        annotation = waiting.pop()
        marks += getattr(annotation, "__metadata__", ())
        if get_origin(annotation) in (Annotated, Figure, Union, UnionType):
            waiting.append(get_args(annotation)[0])
    parts = [part for mark in marks for part in getattr(mark, "metadata", [mark])]
    return min((part.max_length for part in parts if isinstance(part, MaxLen)), default=0)


# ---- hidden characters ----------------------------------------------------------------------------------------

HIDDEN = [
    chr(code)
    for code in range(sys.maxunicode + 1)
    if unicodedata.category(chr(code)) in ("Cc", "Cf", "Zl", "Zp", "Cs", "Co")
    or code in (0x3164, 0x115F, 0x1160, 0xFFA0)
]


@pytest.mark.no_cover
def test_no_hidden_character_reaches_json_and_all_come_back():
    """Every code point of the categories control, format, line and paragraph separator, surrogate and private use, and
    the fillers, which are letters that print nothing."""
    for start in range(0, len(HIDDEN), 5000):
        some = {char: f"a{char}b" for char in HIDDEN[start : start + 5000]}
        text = safe_json(some)
        assert not set(text) - {"\n"} & set(some)
        assert text.isascii()
        assert json.loads(text) == some
    assert {
        chr(code) for code in (0x1B, 0x202E, 0x61C, 0x200B, 0xFEFF, 0x180E, 0x206A, 0xFFF9, 0xE0041, 0xE000)
    } <= set(HIDDEN)


def test_no_hidden_character_reaches_a_spreadsheet():
    """Joiners, which spell words and build emoji, stay as on the page."""
    joiners = {chr(0x200C), chr(0x200D)}
    cells = {f"c{number}": f"a{char}b" for number, char in enumerate(HIDDEN) if number % 7 == 0 or number < 3000}
    sheet = csv_text([cells]) + csv_text([{"a": "".join(HIDDEN)}])
    assert not set(sheet) & set(HIDDEN) - joiners - {"\r", "\n"}
    assert sheet.count("\n") == 4


def test_emoji_and_scripts_are_left_alone_in_a_spreadsheet():
    name = "\U0001f469\u200d\U0001f467 caf\xe9"
    assert csv_text([{"a": name}]) == f"a\r\n{name}\r\n"
    assert json.loads(safe_json({"a": name})) == {"a": name}


@pytest.mark.parametrize(
    "way",
    [["--csv"], ["--json"], ["--grid", "--csv"], ["--chart"], ["--chart", "--json"], ["--chart", "--csv"]],
    ids=" ".join,
)
def test_the_names_of_a_shop_are_shown_and_not_obeyed(tmp_path: Path, way: list[str]):
    evil = "x\x1b[31m\u202e\u3164\U000e0041"
    escaped = "x\\u001b[31m\\u202e\\u3164\\U000e0041"
    (tmp_path / "top.toml").write_text(f'shop = "shop.toml"\n{TOP}')
    (tmp_path / "shop.toml").write_text(
        f'[cloth]\nwider = "{escaped}"\n[beds."{escaped}"]\nname = "b"\nwidth = 60\nlength = 80\ndepth = 1\n'
        f'[fabrics."{escaped}"]\nname = "{escaped}"\nwidth = 108\nprice = 9\nselling = 9\nper = "yd"\n'
    )
    done = CliRunner().invoke(app, ["compare", str(tmp_path / "top.toml"), "--as", evil, *way])
    assert done.exit_code == 0, done.stderr
    assert "x\\u001b[31m\\u202e\\u3164" in done.stdout
    assert not set(done.stdout) - {"\r", "\n"} & set(HIDDEN)
