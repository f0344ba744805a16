"""The templates of sheets, which lie beside the writers that fill them."""

from functools import cache
from importlib.resources import files


@cache
def template(name: str) -> str:
    """Read a template of the package."""
    return files("finishcalc.rendering.writers").joinpath(name).read_text(encoding="utf-8")
