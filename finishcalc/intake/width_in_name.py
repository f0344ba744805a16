"""Keeps the width in a preset's name true: of "quilting cotton, 44 in wide" that is changed to 42 in."""

import re

from finishcalc.intake.layers import LayeredValues
from finishcalc.measures.length import Length
from finishcalc.wording.notation import NO_BREAK, Notation

WIDTH = re.compile(r"(?<=, )\d[\d ./]* (in|cm)\b")
"""The width in the name of a cloth among the presets."""


def lay_widths_in_names(layers: LayeredValues) -> None:
    """Write the width that holds into each name that a preset gives, where another layer changes the width."""
    for path, named in list(layers.values.items()):
        width = layers.values.get((*path[:-1], "width")) if path[-1] == "name" else None
        if width and named.origin.layer == "preset" and width.origin.layer != "preset":
            layers.put(path, named._replace(value=_renamed(str(named.value), width.value)))


def _renamed(name: str, width: Length) -> str:
    return WIDTH.sub(lambda match: Notation(match[1]).show(width).replace(NO_BREAK, " "), name)
