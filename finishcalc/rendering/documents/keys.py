"""A key of a document as a row of a table: its kind, a sentence that describes it, and the keys within it.

The tables say what the writers write, and a test holds the writers to them; the document's schema is made from them.
"""

from typing import Literal, NamedTuple, get_args

RowKind = Literal[
    "text", "word", "flag", "count", "number", "length", "area", "minutes", "hours", "money", "amount", "decimal",
    "percent", "day", "table", "list", "by name", "anything by key"
]  # fmt: skip


class Row(NamedTuple):
    """A key: its kind and its sentence; the `words` it may be; the `keys` of a table, or of each in a list or under a
    name; the row of each plain item of a list; when it is null; and whether only the studio's document has it."""

    kind: RowKind
    sentence: str
    words: tuple[str, ...] = ()
    keys: "Keys | None" = None
    item: "Row | None" = None
    null: str = ""
    studio: bool = False

    def or_null(self, when: str) -> "Row":
        """The same row, null `when` the sentence says so."""
        return self._replace(null=when)

    @property
    def for_studio(self) -> "Row":
        """The same row, in the studio's document alone."""
        return self._replace(studio=True)


Keys = dict[str, Row]
"""The keys of a table, in the order they are written."""


def plain(kind: RowKind, sentence: str) -> Row:
    """Make the row of a plain value."""
    return Row(kind, sentence)


def word(sentence: str, choices: object) -> Row:
    """Make the row of a word out of a few, those of a `Literal`."""
    return Row("word", sentence, words=get_args(choices))


def table(sentence: str, keys: Keys) -> Row:
    """Make the row of a table."""
    return Row("table", sentence, keys=keys)


def rows(sentence: str, keys: Keys) -> Row:
    """Make the row of a list of tables."""
    return Row("list", sentence, keys=keys)


def listed(kind: RowKind, sentence: str) -> Row:
    """Make the row of a list of plain values."""
    return Row("list", sentence, item=Row(kind, sentence))


def by_name(sentence: str, keys: Keys) -> Row:
    """Make the row of tables by name."""
    return Row("by name", sentence, keys=keys)


def size(of: str) -> Keys:
    """Make the rows of a width and a length."""
    return {"width": plain("length", f"The width of {of}."), "length": plain("length", f"The length of {of}.")}
