"""A question as data. It loads nothing, because the command line makes its options of all questions."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

Kind = Literal[
    "size",
    "length",
    "choice",
    "preset",
    "parts",
    "line",
    "lines",
    "flag",
    "currency",
    "price",
    "rate",
    "share",
    "tax",
    "cloth price",
]
"""The sorts of answers, each with a reader in `reading`: a word out of `choices`, a preset's name, the parts that a
customer brings, a line of text or several, a price, one for a unit of quilting, a share, a tax."""

When = Literal[
    "always",
    "no length yet",
    "covered",
    "charged",
    "brought",
    "other currency",
    "other edge unit",
    "taxed",
]
"""The states in which a question is asked, each with a test in `conditions`."""


class Question(NamedTuple):
    """A question: the `name` by which it is known, its short `label`, and what it `asks` in a sentence.

    The answer belongs to the `key`, in dotted notation, which the file explains by `comment`. A question with a
    `sample` has a figure of the sample shop for its default, which the file keeps as a comment. Enter leaves an
    `optional` one without an answer; `told` explains its choices, and `is_asked` says in which case it is asked. On the
    command line it is answered by the option `--name`, for a value as in `example`; its help is the
    comment, or `helps` instead.
    """

    name: str
    label: str
    asks: str
    kind: Kind
    key: str
    comment: str
    example: str
    told: Mapping[str, str] = MappingProxyType({})
    when: When = "always"
    is_asked: str = ""
    optional: bool = False
    sample: bool = False
    helps: str = ""

    @property
    def path(self) -> tuple[str, ...]:
        """The key path of the answer."""
        return tuple(self.key.split("."))

    @property
    def option(self) -> str:
        """The option that answers it."""
        return f"--{self.name}"
