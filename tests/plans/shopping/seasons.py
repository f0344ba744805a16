"""Random seasons: a few projects that share cloths, battings and a shelf, drawn by Hypothesis or by a seed."""

from collections.abc import Sequence

from finishcalc.model.on_hand import OnHandPieces
from finishcalc.plans.shopping.wants import ShoppingProject
from tests.pieced_tops import Pick
from tests.plans.shopping.shops import dyed, on_hand, wants

FIGURES = ("", "", "", ', shrink_along = "3 %"', ", directional = true", ', bolt = "3 yd"', ", repeat = 12")
"""Figures in which cloths may differ."""
SIDES = (14, 18, 24, 31, 36, 45, 60)
BATTING = """[batting]
[batting.product]
name = "fleece"
thickness = "0.05"
packages = [
    { size = "crib", width = 45, length = 60, price = 12 },
    { size = "twin", width = 72, length = 90, price = 22 },
]
rolls = [{ width = 96, price = 4, per = "yd", step = "1/8 yd" }]
"""


def random_season(pick: Pick, fewest: int = 2) -> list[ShoppingProject]:
    """So many projects or up to three more, of two cloths between them."""
    cloths = [dyed(name, pick(FIGURES)) for name in ("blue", "red")]
    number = pick((fewest, fewest + 1, fewest + 2, fewest + 3))
    return [wants(f"project {n}", _text(pick, cloths)) for n in range(number)]


def _text(pick: Pick, cloths: Sequence[str]) -> str:
    tables = [pick((_plain, _bordered, _blocks))(pick, cloths)]
    backing = (
        f"fabric = {pick(cloths)}\noverage = {pick((2, 4))}\n" if pick((True, True, False)) else 'fabric = "none"\n'
    )
    tables.append(f"[backing]\n{backing}")
    cut = pick(("crosswise", "lengthwise", "bias", "leftover"))
    binding = f'fabric = {pick(cloths)}\ncut = "{cut}"\n' if pick((True, False)) else 'attach = "none"\n'
    tables.append(f"[binding]\n{binding}")
    tables.append(BATTING if pick((True, False)) else '[batting]\nproduct = "none"\n')
    return "".join(tables)


def _plain(pick: Pick, _cloths: Sequence[str]) -> str:
    return f"[top]\nwidth = {pick(SIDES)}\nlength = {pick(SIDES)}\n"


def _bordered(pick: Pick, cloths: Sequence[str]) -> str:
    text = f"[top.centre]\nwidth = {pick(SIDES)}\nlength = {pick(SIDES)}\n"
    for _ in range(pick((1, 2))):
        text += f"[[top.borders]]\ncut = {pick((2, 4, 6))}\nfabric = {pick(cloths)}\n"
        text += f'strips = "{pick(("any", "crosswise"))}"\n'
    return text


def _blocks(pick: Pick, cloths: Sequence[str]) -> str:
    text = f"[top.blocks]\nacross = {pick((2, 3))}\ndown = {pick((2, 4))}\nsize = 12\n"
    patch = f"number = {pick((1, 2, 4))}\nwidth = {pick((3, 6))}\nfabric = {pick(cloths)}\n"
    return f"{text}[[top.blocks.patches]]\n{patch}"


def random_shelf(pick: Pick) -> list[OnHandPieces]:
    """Up to three rows of pieces of the same materials."""
    rows = []
    for _ in range(pick((0, 1, 2, 3))):
        name, number = pick(("blue", "red")), pick((1, 1, 2))
        rows.append(on_hand("cloth", name, pick(("10", "21", "40", "44")), pick(("18", "36", "72")), number))
    if pick((True, False)):
        rows.append(on_hand("batting", "fleece", pick(("50", "96")), pick(("60", "108"))))
    return rows
