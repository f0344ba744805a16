"""Writes answers as the text of a file, each key with a comment that says what it does."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import NamedTuple

import tomlkit
from tomlkit.items import AbstractTable

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.questions.seen import Answer
from finishcalc.model.section import Section, specs

LEAST_INDENT = 32
"""The column in which comments begin, where no line of the table is longer."""
UNASKED: dict[KeyPath, str] = {
    ("top", "width"): "raw edge to raw edge",
    ("top", "length"): "raw edge to raw edge",
    ("top", "diameter"): "of a round top, raw edge to raw edge",
    ("top", "shape"): "rectangle | round | oval",
    ("top", "covers", "bed"): "bed to cover, by its name or its size: finishcalc presets beds",
    ("top", "covers", "table"): "table to cover, by its name or its size: finishcalc presets tables",
    ("top", "covers", "drop"): "how far it hangs down all round",
    ("top", "covers", "foot_drop"): "how far it hangs down at the foot",
    ("top", "covers", "pillow_tuck"): "more at the head, to tuck over and under the pillows",
    ("top", "covers", "draw_up"): "what the quilting draws up",
    ("money", "symbol"): "sign at an amount",
}
"""The comments of keys that no question of their own explains."""
SAMPLE = "sample: replace"
"""The mark of a figure that is still the sample's."""
USUAL = "usual in your shop"
"""The mark of a value that stays what it is in the shop's usual projects."""


class Entry(NamedTuple):
    """A key with its value as TOML and its comment. One that is not `given` is written as a comment itself."""

    path: KeyPath
    value: str
    comment: str
    given: bool = True

    @property
    def line(self) -> str:
        """The line without its comment."""
        return f"{'' if self.given else '# '}{tomlkit.key(str(self.path[-1])).as_string()} = {self.value}"


def entries(answers: Iterable[Answer], beside: Mapping[KeyPath, str]) -> Iterator[Entry]:
    """Give the lines that answers come to, in their order; a later answer stands in for an earlier one. The comments of
    keys that no question explains are those `beside` them."""
    found: dict[KeyPath, Entry] = {}
    for answer in answers:
        for path in answer.drops:
            found.pop(path, None)
        for path, value in answer.puts.items():
            comment = UNASKED.get(path) or beside.get(path) or answer.question.comment
            if answer.kept:
                comment = f"{SAMPLE if answer.question.sample else USUAL}; {comment}"
            found[path] = Entry(path, as_toml(value), comment, not answer.kept)
    yield from found.values()


def entries_of(text: str) -> Iterator[Entry]:
    """Give the keys of a file's own text, with their comments."""
    yield from _entries_of(tomlkit.parse(text), ())


def _entries_of(table: Mapping[str, object], at: KeyPath) -> Iterator[Entry]:
    for key, item in table.items():
        if isinstance(item, AbstractTable) and not isinstance(item, tomlkit.items.InlineTable):
            yield from _entries_of(item, (*at, key))
        else:
            comment = item.trivia.comment.lstrip("# ") if isinstance(item, tomlkit.items.Item) else ""
            yield Entry((*at, key), as_toml(item), comment)


def as_toml(value: object) -> str:
    """Write a value on one line, an exact decimal in quotes."""
    if isinstance(value, dict):
        return (
            "{ "
            + ", ".join(f"{tomlkit.key(str(key)).as_string()} = {as_toml(item)}" for key, item in value.items())
            + " }"
        )
    if isinstance(value, list):
        return "[" + ", ".join(map(as_toml, value)) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return tomlkit.item(str(value) if isinstance(value, Decimal) else value).as_string()


def file_text(head: Iterable[str], lines: Iterable[Entry], model: type[Section]) -> str:
    """Write a file: comments at its head, then the keys at its top, then its tables, in the order of its model."""
    tables: dict[KeyPath, list[Entry]] = {(): []}
    for entry in lines:
        tables.setdefault(entry.path[:-1], []).append(entry)
    blocks = ["\n".join(f"# {line}".rstrip() for line in head)]
    order = list(specs(model))
    tables[()].sort(key=lambda entry: order.index(str(entry.path[0])))
    blocks += [_block(path, table) for path, table in _in_order(tables, order) if table]
    return "\n\n".join(blocks) + "\n"


def _in_order(tables: dict[KeyPath, list[Entry]], order: list[str]) -> list[tuple[KeyPath, list[Entry]]]:
    """Tables in the order of the model, one within another after it."""
    return sorted(
        tables.items(), key=lambda table: (order.index(str(table[0][0])), len(table[0])) if table[0] else (-1, 0)
    )


def _block(path: KeyPath, table: list[Entry]) -> str:
    indent = max(LEAST_INDENT, *(len(entry.line) + 2 for entry in table if len(entry.line) < 46), LEAST_INDENT)
    rows = [f"{entry.line:<{indent - 2}}  # {entry.comment}" if entry.comment else entry.line for entry in table]
    return "\n".join([f"[{tomlkit.key([str(step) for step in path]).as_string()}]"] * bool(path) + rows)
