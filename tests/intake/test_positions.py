"""Where keys stand: a writer of TOML that knows the line of everything it writes, held against the scanner."""

import tomllib
from datetime import date, datetime, time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.intake.positions import DEEPEST, positions
from finishcalc.intake.source import Source, dotted
from finishcalc.problems import ProblemsFound
from tests.strategies import examples

Path = tuple[str | int, ...]

# --- a writer that remembers -------------------------------------------------------------------------------------


class Writer:
    """Text so far, and the line and the first characters of each key, header and item."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.text = ""
        self.lines: dict[Path, int] = {}
        self.tokens: dict[Path, str] = {}

    def pick(self, *choices: str) -> str:
        return self.draw(st.sampled_from(choices))

    def put(self, text: str) -> None:
        self.text += text

    def mark(self, path: Path, token: str) -> None:
        """What is put next is the token of this path."""
        self.lines[path] = self.text.count("\n") + 1
        self.tokens[path] = token

    def key(self, name: str) -> str:
        """A key bare, quoted or in single quotes, as it may be."""
        ways = [basic(name)]
        if name and all(char.isascii() and (char.isalnum() or char in "-_") for char in name):
            ways.append(name)
        if "'" not in name and name.isprintable():
            ways.append(f"'{name}'")
        return self.pick(*ways)

    def end(self) -> None:
        self.put(self.pick("", "", '  # [not.a] = \'table\' """') + self.pick("\n", "\n", "\n\n", "\n# a = 1\n"))

    def table(self, path: Path, value: dict[str, Any]) -> None:
        """The pairs of a table, then its tables and lists of tables under headers of their own."""
        tables = {name: item for name, item in value.items() if is_table(item) and self.draw(st.booleans())}
        lists = {name: item for name, item in value.items() if is_tables(item) and self.draw(st.booleans())}
        for name, item in value.items():
            if name not in tables and name not in lists:
                self.pair(path, name, item)
                self.end()
        for name, item in tables.items():
            self.header((*path, name), "[", "]")
            self.table((*path, name), item)
        for name, items in lists.items():
            for n, item in enumerate(items):
                self.header((*path, name, n), "[[", "]]")
                self.table((*path, name, n), item)

    def header(self, path: Path, start: str, stop: str) -> None:
        names = [self.key(step) for step in path if isinstance(step, str)]
        self.put(self.pick("", "  "))
        self.mark(path, start)
        self.put(start + self.pick("", " ") + self.pick(".", " . ").join(names) + self.pick("", " ") + stop)
        self.end()

    def pair(self, path: Path, name: str, value: Any) -> None:
        """A pair; a table that is not empty may be a dotted key for each of its own keys."""
        if path and is_table(value) and len(value) == 1 and self.draw(st.booleans()):
            ((inner, item),) = value.items()
            written = self.key(name)
            self.mark((*path, name), written)
            self.mark((*path, name, inner), written)
            self.put(written + self.pick(".", " . ", "\t.") + self.key(inner) + self.pick("=", " = "))
            self.value((*path, name, inner), item)
            return
        written = self.key(name)
        self.mark((*path, name), written)
        self.put(written + self.pick("=", " = ", "  ="))
        self.value((*path, name), value)

    def value(self, path: Path, value: Any, inline: bool = False) -> None:
        if isinstance(value, dict):
            self.put("{" + self.pick("", " "))
            for n, (name, item) in enumerate(value.items()):
                self.put(", " if n else "")
                written = self.key(name)
                self.mark((*path, name), written)
                self.put(f"{written} = ")
                self.value((*path, name), item, inline=True)
            self.put(self.pick("", " ") + "}")
        elif isinstance(value, list):
            gap = "" if inline else self.pick("", " ", "\n  ", "  # ], = [\n")
            self.put("[" + gap)
            for n, item in enumerate(value):
                self.put(("," + (gap or " ")) if n else "")
                self.mark((*path, n), "")
                self.value((*path, n), item, inline)
            self.put(self.pick("", ",") + gap + "]" if value else "]")
        elif isinstance(value, str):
            self.put(self.string(value, inline))
        else:
            self.put(scalar(value))

    def string(self, text: str, inline: bool) -> str:
        ways = [basic(text)]
        if "'" not in text and text.isprintable():
            ways.append(f"'{text}'")
        if not inline and text.replace("\n", "").isprintable():
            ways.append('"""' + text.replace("\\", "\\\\").replace('"""', '""\\"').rstrip('"') + escapes(text) + '"""')
            if "'''" not in text and not text.endswith("'"):
                ways.append(f"'''\n{text}'''")
        return self.pick(*ways)


def escapes(text: str) -> str:
    """The quotes at the end of a text, each written as an escape."""
    return '\\"' * (len(text) - len(text.rstrip('"')))


def basic(text: str) -> str:
    named = {"\n": "\\n", "\t": "\\t", '"': '\\"', "\\": "\\\\"}
    return '"' + "".join(named.get(char, char if char.isprintable() else f"\\u{ord(char):04x}") for char in text) + '"'


def scalar(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return value.isoformat(" " if isinstance(value, datetime) else "T") if isinstance(value, datetime) else str(value)


def is_table(value: Any) -> bool:
    return isinstance(value, dict)


def is_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(is_table(item) for item in value)


NAMES = st.sampled_from(["a", "b", "width", "top", "1", "3-4", "_", "é", "a.b", "", " ", "[x]", "#", "=", '"', "'",
                         "\\", "a b", "'''", '"""', "true", "inf", "2026-01-01", "1.5", "\t"]) | st.text(
    alphabet="abé \"'.#=[]{}\\\n\t_-1", min_size=1, max_size=5)  # fmt: skip
TEXTS = st.text(alphabet="ab\"'#[]{}=,.\\\n é", max_size=10)
SCALARS = st.one_of(
    TEXTS,
    st.integers(-99, 10**6),
    st.booleans(),
    st.floats(-1e6, 1e6, allow_nan=False),
    st.sampled_from([float("inf"), float("-inf"), 1e30, -1.5e-9]),
    st.dates(date(1970, 1, 1), date(2100, 1, 1)),
    st.datetimes(datetime(1970, 1, 1), datetime(2100, 1, 1)),
    st.times(time(0, 0), time(23, 59)),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES, inner, max_size=3)
    | st.lists(st.dictionaries(NAMES, inner, max_size=2), min_size=1, max_size=3),
    max_leaves=10,
)  # fmt: skip


@st.composite
def documents(draw: st.DrawFn) -> Writer:
    writer = Writer(draw)
    writer.table((), draw(st.dictionaries(NAMES, VALUES, max_size=5)))
    return writer


def paths(value: Any, path: Path = ()) -> set[Path]:
    """Every key and item that tomllib sees."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return {found for key, item in items for found in {(*path, key), *paths(item, (*path, key))}}


# --- held against tomllib ----------------------------------------------------------------------------------------


@examples(200)
@given(documents())
def test_the_scanner_sees_the_paths_that_tomllib_sees(writer: Writer):
    assert set(positions(writer.text)) == paths(tomllib.loads(writer.text))


@examples(200)
@given(documents())
def test_each_spot_is_on_the_line_that_was_written(writer: Writer):
    source = Source("t.toml", writer.text)
    for path, line in writer.lines.items():
        assert source.line_of(path) == line, path


@examples(100)
@given(documents())
def test_each_spot_underlines_its_own_key(writer: Writer):
    """The first of the characters underlined are the key, the header's bracket or the item."""
    found = positions(writer.text)
    for path, token in writer.tokens.items():
        offset, width = found[path]
        assert writer.text.startswith(token, offset), path
        assert 0 < width <= len(writer.text) - offset
        assert "\n" not in writer.text[offset : offset + width] or token == ""


@examples(100)
@given(documents(), st.sampled_from(["\n", "# note\n", "# '''\n"]), st.integers(1, 4))
def test_lines_put_before_a_file_move_every_spot_by_as_many(writer: Writer, line: str, many: int):
    before, after = Source("t", writer.text), Source("t", line * many + writer.text)
    for path in writer.lines:
        assert after.line_of(path) == before.line_of(path) + many


# --- by hand -----------------------------------------------------------------------------------------------------

BY_HAND = '''\
title = """
[top] is no table
width = 3"""
units = 'in' # width
[ top ] # [backing]
  width = "60 1/2"   # length = 3
"length" = 84
[backing]
fabric = { preset = "cotton-44", "price" = "11" }
have.first = """x"""
[[tax]]
label = '#'
[[tax]]
classes = [
  "labour", # [
  "material",
]
[tax.more]
a . "b.c" . d = 2026-05-04 10:00:00
[charges]
extras = ["label",
  { name = "pressing", quantity = 1.5 }, [
    1]]
'''
LINES = {
    ("title",): 1, ("units",): 4, ("top",): 5, ("top", "width"): 6, ("top", "length"): 7, ("backing",): 8,
    ("backing", "fabric"): 9, ("backing", "fabric", "preset"): 9, ("backing", "fabric", "price"): 9,
    ("backing", "have"): 10, ("backing", "have", "first"): 10, ("tax",): 11, ("tax", 0): 11, ("tax", 0, "label"): 12,
    ("tax", 1): 13, ("tax", 1, "classes"): 14, ("tax", 1, "classes", 0): 15, ("tax", 1, "classes", 1): 16,
    ("tax", 1, "more"): 18, ("tax", 1, "more", "a"): 19, ("tax", 1, "more", "a", "b.c"): 19,
    ("tax", 1, "more", "a", "b.c", "d"): 19, ("charges",): 20, ("charges", "extras"): 21, ("charges", "extras", 0): 21,
    ("charges", "extras", 1): 22, ("charges", "extras", 1, "name"): 22, ("charges", "extras", 1, "quantity"): 22,
    ("charges", "extras", 2): 22, ("charges", "extras", 2, 0): 23,
}  # fmt: skip
"""Counted by hand."""


def test_a_file_counted_by_hand():
    source = Source("t.toml", BY_HAND)
    assert paths(tomllib.loads(BY_HAND)) == set(LINES)
    assert {path: source.line_of(path) for path in LINES} == LINES


def test_a_key_that_is_not_there_has_the_nearest_table_s_line():
    source = Source("t.toml", BY_HAND)
    assert source.line_of(("top", "shape")) == 5
    assert source.line_of(("tax", 1, "percent")) == 13
    assert source.line_of(("charges", "extras", 1, "price", "each")) == 22
    assert source.line_of(("quilting", "style")) == 0
    assert source.holds(("top", "width"))
    assert not source.holds(("top", "shape"))


def test_windows_line_ends_keep_the_lines():
    """`read` turns them into line feeds before anything is scanned; the scanner takes them as well."""
    found = positions(BY_HAND.replace("\n", "\r\n"))
    text = BY_HAND.replace("\n", "\r\n")
    assert {path: text.count("\n", 0, offset) + 1 for path, (offset, _) in found.items()} == LINES


@pytest.mark.parametrize("depth", [1, 20, 59, 60, 61, 62, 100, 200])
@pytest.mark.parametrize(("start", "stop"), [("[", "]"), ("{ a = ", " }")])
def test_deep_values_never_shift_what_comes_after(depth: int, start: str, stop: str):
    text = "x = " + start * depth + "1" + stop * depth + "\n\ny = 2\n[z]\nw = 3\n"
    source = Source("t.toml", text)
    assert tomllib.loads(text)["y"] == 2
    assert (source.line_of(("x",)), source.line_of(("y",)), source.line_of(("z", "w"))) == (1, 3, 5)
    deepest: Path = ("x", *([0] if start == "[" else ["a"]) * (depth + 5))
    assert source.line_of(deepest) == 1
    assert max(map(len, positions(text))) <= DEEPEST + 2


@pytest.mark.parametrize(
    "text",
    [
        "a.b.c = 1\na.b.d = 2\n",
        'x = \'\'\'\n[not] = a table\n\'\'\'\ny = """a \\""" b"""\n',
        "t = 2026-05-04 10:00:00\nu = 12:30:00.5\nv = 1.5e3\nw = inf\n",
        "[a]\nb = [1,\n 2, # three ]\n [3, {c = 4}]]\n[[d.e]]\nf = 1\n[[d.e]]\ng = {h.i = 2}\n[d.e.j]\nk = 3\n",
        "'a b' . c = 2\n",
    ],
)
def test_every_way_to_write_a_key_is_found(text: str):
    assert set(positions(text)) == paths(tomllib.loads(text))


def test_an_empty_text_has_no_places():
    for text in ("", "\n\n", "# nothing\n"):
        assert positions(text) == {}


# --- as a problem shows it ---------------------------------------------------------------------------------------


def test_a_path_is_written_as_people_write_it():
    assert dotted(("tax", 1, "percent")) == "tax[2].percent"
    assert dotted(("extras", "a b", "price")) == 'extras."a b".price'
    assert dotted(("extras", "\x1b", 0)) == 'extras."\\u001b"[1]'
    assert dotted(()) == ""


MISTAKES = [
    ('[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = { preset = "cotton-44", prise = "11" }\n', 5, "prise"),
    ("[top]\nwidth = 60\nlength = 80\n[job]\nnotes = '''\nwidth = 0\n'''\n[batting]\noverage = -1\n", 9, "overage"),
    ("[top]\nwidth = 60\nlength = 80\nbacking.overage = 1\nbacking.overige = 2\n", 4, "backing"),
    ('top.width = 60\ntop . "length" = -80\n', 2, 'top . "length"'),
    ("[top]\nwidth = 60\nlength = 80\n[charges]\nextras = [\n  'label',\n  { name = 3 },\n]\n", 7, ""),
]


@pytest.mark.parametrize(("text", "line", "marked"), MISTAKES)
def test_a_problem_shows_the_line_with_the_mistake(text: str, line: int, marked: str):
    from finishcalc.intake.resolve import resolve

    with pytest.raises(ProblemsFound) as found:
        resolve(Source("t.toml", text))
    problem = found.value.problems[0]
    assert problem.line == line
    assert problem.excerpt == text.split("\n")[line - 1]
    if marked:
        shown = problem.excerpt[problem.column - 1 : problem.column - 1 + problem.width]
        assert shown.startswith(marked)
