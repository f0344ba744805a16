"""The templates of the pages in the browser. They are read and compiled once; every text in them is escaped."""

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup, escape

from finishcalc.rendering.writers.html import holdable, runs


def _final(value: object) -> object:
    """Set a text as HTML can hold it; markup of our own as it is."""
    return holdable(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def said(text: str) -> Markup:
    """Set a text that somebody typed apart, so that its direction turns nothing else."""
    return Markup("<bdi>{}</bdi>").format(holdable(text)) if text else Markup()


@cache
def _templates() -> Environment:
    environment = Environment(
        loader=PackageLoader("finishcalc.counter", "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_final,
    )
    environment.filters["said"] = said
    environment.filters["runs"] = runs
    return environment


def page(name: str, **context: Any) -> str:
    """Fill in a template as a whole page."""
    return _templates().get_template(name).render(context).strip() + "\n"


@cache
def _module(name: str) -> Any:
    return _templates().get_template(name).module


def piece(name: str, macro: str, *values: Any) -> Markup:
    """Fill in a macro of a template."""
    return Markup(str(getattr(_module(name), macro)(*values)).strip())


def text(value: str) -> Markup:
    """Escape a plain text."""
    return escape(holdable(value))
