"""File names for projects, made of what a person types: a title, or a file name."""

import re
import unicodedata

from finishcalc.intake.folders import DRAFT, SUFFIX
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

MOST_BYTES = 200
"""The most bytes of a name. Most systems take 255, and the names of drafts are longer."""
HIDDEN = {"Cc", "Cf", "Cs", "Co", "Cn"}
"""The kinds of characters that nobody sees: control, format, halves of others, and those without a meaning."""

_NOT_IN_NAMES = re.compile(r"""[\s/\\:*?"<>|\x00-\x1f\x7f]+""")
_DRAFT = re.compile(re.escape(DRAFT.removesuffix(SUFFIX)) + "$", re.IGNORECASE)
_RESERVED = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)", re.IGNORECASE)
"""The names that Windows keeps to itself, whatever follows their first dot."""


def file_name(typed: str) -> str:
    """The name of a project's file, as in "Supper-cloth.toml" of "Supper cloth". Raises ProblemsFound where nothing is
    left of it."""
    text = unicodedata.normalize("NFC", typed).strip()
    if text.lower().endswith(SUFFIX):
        text = text[: -len(SUFFIX)]
    text = "".join(char for char in text if char.isspace() or unicodedata.category(char) not in HIDDEN or char < " ")
    text = _NOT_IN_NAMES.sub("-", text).strip("-. ")
    if not text:
        hint = 'give it a name with letters or digits in it, as in "Supper cloth"'
        raise ProblemsFound([Problem(ProblemCode.NO_FILE_NAMED, f'"{plain(typed)}"', 0, 0, "", "names no file", hint)])
    text = f"quilt-{text}" if _RESERVED.match(text) else text
    room = MOST_BYTES - len(SUFFIX)
    text = text.encode("utf-8")[:room].decode("utf-8", "ignore").rstrip("-. ")
    return _DRAFT.sub("-draft", text) + SUFFIX
