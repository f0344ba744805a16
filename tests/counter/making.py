"""Projects in a folder of their own, as the tests of the counter open them."""

from pathlib import Path, PurePath
from typing import Any

from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.form.usual import UsualValues, usual_values
from finishcalc.intake.source import Source, read

PLAIN = """
title = "Supper cloth"
units = "in"

[customer]
name = "Marit"

[top]
use = "tablecloth"
width = "60 1/2"       # as the tape has it
length = 84

[backing]
fabric = { preset = "cotton-44", name = "harbour blue" }
"""

PIECED = """
title = "Keeper's quilt"
units = "in"

[top]
use = "bed"

[top.blocks]
across = 5
down = 6
size = 12

[[top.borders]]
cut = 3               # the inner one
fabric = "cotton-44"

[[top.borders]]
cut = "6 1/2"         # the outer one
"""


def table_of(text: str) -> dict[str, Any]:
    """The table of a project's text."""
    return Source("quilt.toml", text).table


def usual(text: str = PLAIN) -> UsualValues:
    """The usual values of a project without a shop file."""
    return usual_values("quilt.toml", table_of(text), "none", PurePath(), read)


def folder_of(path: Path, **texts: str) -> Projects:
    """A folder of projects, each under its name; no shop file is in use."""
    for name, text in texts.items():
        (path / f"{name}.toml").write_text(text, encoding="utf-8")
    return Projects(str(path), "none")
