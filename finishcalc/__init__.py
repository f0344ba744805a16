"""finishcalc: what a finished quilt top still costs, in cloth, time and money.

As a library it is one function, `quote`, and the records that come of it. Each is imported when it is first used, so
that `finishcalc --version` imports nothing.
"""

TYPE_CHECKING = (
    False  # type checkers know this name; importing it from typing would take half as long as Python's start
)
if TYPE_CHECKING:
    from finishcalc.pipeline import Finishing
    from finishcalc.plans.together import Plans
    from finishcalc.pricing.quote import Quote
    from finishcalc.problems import Problem, ProblemsFound
else:

    def __getattr__(name: str) -> type:
        """Import a record of the library when it is asked for."""
        from importlib import import_module

        if name not in _HOMES:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}", name=name)
        return getattr(import_module(_HOMES[name]), name)


__all__ = ["Finishing", "Plans", "Problem", "ProblemsFound", "Quote", "quote"]
__version__ = "0.1.0"

_HOMES = {
    "Finishing": "finishcalc.pipeline",
    "Plans": "finishcalc.plans.together",
    "Quote": "finishcalc.pricing.quote",
    "Problem": "finishcalc.problems",
    "ProblemsFound": "finishcalc.problems",
}
"""The module of each record that is imported when it is asked for."""


def quote(path: str, shop: str | None = None) -> "Finishing":
    """Read a project file, and a shop file in place of the one it names, and work it out: the plans, the price, and
    the cautions. Raises ProblemsFound with every problem of the files."""
    from finishcalc.pipeline import finish_file

    return finish_file(path, shop)
