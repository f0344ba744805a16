"""The contracts are made whole: what no layer gives is a named fault of ours, and never a None in a plan."""

import pytest

from finishcalc.intake.building.project import build_project, build_shop
from finishcalc.intake.resolve import Resolved, Run, resolve
from finishcalc.intake.source import Source, dotted
from finishcalc.model.section import MissingValue
from finishcalc.pipeline import finish
from tests.builders import TOP, layered

PROJECTS = {
    "plain": TOP,
    "hemmed": TOP + "[binding]\nattach = 'hem'\n",
    "finished": TOP + "[binding]\nfinished = '3/8'\n",
    "measured": "[top]\nmeasured = { widths = [60, '60 1/4'], lengths = [80, 81] }\n",
    "brought": TOP + "[backing]\nhave = '3 yd'\n",
    "in areas": TOP + "[[quilting.areas]]\nstyle = 'custom'\nshare = '40 %'\n",
    "covers": "[top.covers]\ntable = 'trestle-6ft'\n",
    "pieced": "[top.blocks]\nacross = 3\ndown = 4\nsize = 12\n[top.sashing]\nwidth = 2\n[[top.borders]]\ncut = 4\n",
}
AT_ONCE = ("plain", "pieced")
"""The projects that use the fewest tables and the most: the quick run keeps to them."""
EACH_PROJECT = [
    pytest.param(text, id=name, marks=[] if name in AT_ONCE else [pytest.mark.slow]) for name, text in PROJECTS.items()
]
FROM_US = ("sample shop", "preset")
HAVE_A_RULE = (("rates", "quilting"), ("top", "covers", "table"))
"""That the rate of a class and the sides of a table are there is a rule, and a problem of the file's."""


def without(asked: Resolved, path: tuple[str | int, ...]) -> Resolved:
    """The same project where no layer gives the value at a path."""
    layers = layered({key: sourced for key, sourced in asked.layers.values.items() if key != path})
    return Resolved(layers, "t", "in", asked.foreign_samples, asked.namesakes, Run(Source("t.toml", TOP)))


def fault_of(asked: Resolved) -> str | None:
    """What is missing for the contracts, or None where they can be made."""
    try:
        build_shop(asked.layers)
        build_project(asked.layers, "t", "in")
    except MissingValue as fault:
        return str(fault)
    return None


def test_a_key_that_no_layer_gives_is_named_with_its_mend():
    asked = without(resolve(Source("t.toml", TOP)), ("binding", "extra"))
    with pytest.raises(MissingValue, match=r"^no layer gives binding\.extra: add it to presets/shops$"):
        build_project(asked.layers, "t", "in")
    asked = without(resolve(Source("t.toml", TOP)), ("rates", "binding", "machine"))
    with pytest.raises(MissingValue, match=r"^no layer gives rates\.binding\.machine: add it to presets/shops$"):
        build_shop(asked.layers)


@pytest.mark.no_cover
@pytest.mark.parametrize("text", EACH_PROJECT)
def test_whichever_key_of_the_samples_is_gone_it_is_named_or_not_needed(text: str):
    """Key by key: either the contracts cannot be made, and it is said for which key, or the whole quote still is."""
    whole, named = resolve(Source("t.toml", text)), set()
    for path, sourced in whole.layers.values.items():
        if sourced.origin.layer not in FROM_US or any(path[: len(rule)] == rule for rule in HAVE_A_RULE):
            continue
        asked = without(whole, path)
        fault = fault_of(asked)
        if fault is None:
            assert finish(asked).quote.total.minor > 0, dotted(path)
        else:
            assert fault == f"no layer gives {dotted(path)}: add it to presets/shops"
            named.add(path)
    assert {("cloth", "most_seams"), ("rates", "wage"), ("quilting", "colours"), ("frame", "throat")} <= named
