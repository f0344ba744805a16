"""The batting in the words a quilter uses: bought, off a roll or in packages, or brought; in one piece or joined."""

from collections.abc import Iterator

from finishcalc.measures.length import Size
from finishcalc.plans.batting.brought import BroughtBatting
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Audience, InUnit
from finishcalc.wording.words import counted, in_words

CHARGED = {"half-width": "charged in half its width", "area": "charged by its area"}
"""The words for a roll that is not charged in its whole width."""


def batting_words(plan: BattingPlan, notation: Notation) -> list[str]:
    """Say the size that is needed, and the batting that is bought or brought, for the studio."""
    needed = f"{notation.size(plan.width, plan.length)} needed"
    if plan.brought:
        return [needed, notation.write(plan.brought.sentence)]
    if plan.chosen is None:
        return [needed, _none_covers(plan, notation)]
    chosen = plan.chosen
    joined = [f"joined edge to edge, {seam_words(plan, notation)}"] if plan.seams else []
    offcut = [offcut_words(chosen, plan, "studio", notation)] if chosen.offcut else []
    return [needed, batting_choice(chosen, plan.product.name, notation), *joined, *offcut]


def brief_words(plan: BattingPlan, notation: Notation) -> list[str]:
    """Say the batting in a line or two for the customer; nothing where the head of the page says that it is short."""
    if plan.brought:
        told = any(caution.blocking for caution in plan.cautions)
        return [] if told else [notation.write(plan.brought.sentence)]
    if plan.chosen is None:
        return [_none_covers(plan, notation)]
    chosen = plan.chosen
    joined = [f"joined edge to edge, {counted(plan.seams, 'seam')}"] if plan.seams else []
    offcut = f"; {offcut_words(chosen, plan, 'customer', notation)}" if chosen.offcut else ""
    return [batting_amount(chosen, plan.product.name, notation) + offcut, *joined]


def _none_covers(plan: BattingPlan, notation: Notation) -> str:
    return f"no size of {notation.show(plan.product.name)} covers it"


def seam_words(plan: BattingPlan, notation: Notation) -> str:
    """Count the seams at which the batting is joined, with their length."""
    return f"{counted(plan.seams, 'seam')}, {notation.show(plan.joined.seam_length)}" if plan.joined else ""


def offcut_words(option: BattingOption, plan: BattingPlan, reader: Audience, notation: Notation) -> str:
    """Say whose the offcut of a roll is: the customer's where she pays for it, or brings it, else the studio's."""
    if not option.offcut:
        return ""
    size = f" of {notation.size_over(*option.offcut)}" if reader == "studio" else ""
    if option.studio_keeps_offcut and plan.supplied_by == "shop":
        return f"{CHARGED[option.charge]}: the offcut{size} is the studio's"
    return f"the offcut{size} is {'the customer' + chr(39) + 's' if reader == 'studio' else 'yours'}"


def batting_choice(option: BattingOption, name: str, notation: Notation) -> str:
    """Write the packages, or the length off a roll, in full."""
    name = notation.show(name)
    if option.form == "packaged":
        size = f"size{NO_BREAK}{notation.show(option.size)}"
        packages = "one package" if option.number == 1 else counted(option.number, "package")
        return f"{packages} of {name}, {size}, {notation.size(option.width, option.length)}"
    length = notation.show(InUnit(option.length, option.length_unit))
    lengths = f", in {option.number} lengths" if option.number > 1 else ""
    return f"{length} of {name} off a roll {notation.show(option.width)} wide{lengths}"


def batting_amount(option: BattingOption, name: str, notation: Notation) -> str:
    """Write the packages, or the length off a roll, in short."""
    name = notation.show(name)
    if option.form == "packaged":
        packages = "one package" if option.number == 1 else counted(option.number, "package")
        return f"{name}, {packages}, size{NO_BREAK}{notation.show(option.size)}"
    length, wide = notation.show(InUnit(option.length, option.length_unit)), notation.show(option.width)
    return f"{length} of {name}, off a roll {wide} wide"


def supplied_batting(brought: BroughtBatting, name: str, notation: Notation) -> str:
    """List the pieces that the customer brings."""
    return f"{in_words([notation.size(*piece) for piece in brought.pieces])} of {notation.show(name)}"


def batting_cell(plan: BattingPlan | None, notation: Notation) -> str:
    """Write the batting for a table: the packages, or the length off a roll."""
    if plan is None:
        return "none"
    if plan.brought:
        enough = plan.brought.verdict in ("enough", "joined")
        return "supplied" + (f", {counted(plan.seams, 'seam')}" if plan.seams else "" if enough else ", short")
    chosen = plan.chosen
    if chosen is None:
        return "none covers it"
    seams = f", {counted(plan.seams, 'seam')}" if plan.seams else ""
    if chosen.form == "packaged":
        packs = "pack" if chosen.number == 1 else f"{chosen.number}{NO_BREAK}packs"
        return f"{packs}, size{NO_BREAK}{notation.show(chosen.size)}{seams}"
    return f"{notation.show(InUnit(chosen.length, chosen.length_unit))} of {notation.show(chosen.width)} roll{seams}"


def batting_steps(plan: BattingPlan, notation: Notation) -> list[str]:
    """Say the size to cut the batting to and what it is cut from, and where it is joined, how."""
    if plan.brought:
        return list(_brought_steps(plan, plan.brought, notation))
    name = notation.show(plan.product.name)
    cut = f"cut {notation.measured(plan.width, plan.length)} of {name}"
    if not plan.chosen:
        return [cut]
    chosen = plan.chosen
    offcut = [offcut_words(chosen, plan, "studio", notation)] if chosen.offcut else []
    if not plan.joined:
        return [f"{cut}, from {batting_choice(chosen, plan.product.name, notation)}", *offcut]
    pieces = in_words(list(_counted_sizes([Size(p.width, p.length) for p in plan.joined.pieces], notation)))
    source = batting_choice(chosen, plan.product.name, notation)
    return [f"cut {pieces}, from {source}", *_join_steps(plan, Size(plan.width, plan.length), notation), *offcut]


def _brought_steps(plan: BattingPlan, brought: BroughtBatting, notation: Notation) -> Iterator[str]:
    """Say what is cut from each piece that the customer brings; nothing is cut where they are short."""
    for piece, cuts in brought.cuts:
        if cuts == [piece]:
            yield f"take the {notation.size(*piece)} supplied, whole"
            continue
        yield f"cut {in_words(list(_counted_sizes(cuts, notation)))} from the {notation.size(*piece)} supplied"
    if brought.size and plan.joined:
        yield from _join_steps(plan, brought.size, notation)
    elif not brought.size:
        yield notation.write(brought.sentence)


def _counted_sizes(sizes: list[Size], notation: Notation) -> Iterator[str]:
    """Write sizes to cut, those that are alike together: "2 of 96 x 130 in"."""
    written = [notation.measured(*size) for size in sizes]
    for size in dict.fromkeys(written):
        yield f"{written.count(size)} of {size}" if written.count(size) > 1 else size


def _join_steps(plan: BattingPlan, size: Size, notation: Notation) -> list[str]:
    return [
        f"join them to {notation.measured(*size)}: {seam_words(plan, notation)}",
        "butt the edges without overlap, and zigzag, whip-stitch or tape them",
    ]
