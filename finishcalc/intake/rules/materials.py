"""The rules about materials that are bought or chosen by name, and about the backing."""

from finishcalc.intake.building.pieced import completed
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.named_materials import (
    BACKING_FABRIC,
    BATTING,
    BINDING_FABRIC,
    PIECING_FABRIC,
)
from finishcalc.intake.rules.check import Check
from finishcalc.intake.words import hint_for
from finishcalc.intake.words_taken import known_names
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import is_printable, unit_to_print
from finishcalc.model.materials import NamedFabric
from finishcalc.model.pieced import Border, Sashing
from finishcalc.model.project import Top
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Share


def materials_are_whole(check: Check) -> None:
    """A name that a preset has, or every key."""
    for path, named in check.materials.items():
        if check.is_none(path) or check.is_faulty(path) or check.is_of_backing(path):
            continue
        name = check.preset(path)
        if name is None:
            check.missing(ProblemCode.INCOMPLETE_MATERIAL, path, named.needs, "no preset gives it")
        elif not check.is_unknown(path):
            check.missing(ProblemCode.INCOMPLETE_MATERIAL, path, named.needs, f"{name} does not give it")
        else:
            hint = hint_for(name, *known_names(check.layers, path, named, check.units))
            places: list[KeyPath] = [(*path, "preset")]
            check.wrong(ProblemCode.UNKNOWN_PRESET, places, f'there is no preset "{name}"', hint)


def binding_has_its_backing(check: Check) -> None:
    """A binding of the backing's cloth has a backing."""
    if check.is_of_backing(BINDING_FABRIC) and check.is_none(BACKING_FABRIC) and not check.is_none(BINDING_FABRIC):
        message = "the binding is to be of the backing's cloth, and there is no backing"
        places: list[KeyPath] = [(*BINDING_FABRIC, "preset")]
        check.wrong(ProblemCode.BINDING_OF_NO_BACKING, places, message, "name its cloth")


def offcut_is_for_the_binding(check: Check) -> None:
    """An offcut is for a binding that is cut from new cloth else: not from beside the backing, nor no binding."""
    binding, path = check.tables.binding, ("binding", "offcut", "width")
    if not binding.offcut or check.is_faulty(path[:2]):
        return
    if not binding.takes_strips:
        message = f'an offcut is given, but attach = "{binding.attach}" takes no strips of cloth'
        check.wrong(ProblemCode.OFFCUT_NOT_CUT, [("binding", "attach"), path], message, "leave the offcut out")
    elif binding.cut == "leftover":
        message = "the binding is to be cut from beside the backing's pieces, and from an offcut"
        hint = 'leave the offcut out, or use cut = "crosswise"'
        check.wrong(ProblemCode.OFFCUT_NOT_CUT, [("binding", "cut"), path], message, hint)


def cloth_is_wide_enough(check: Check) -> None:
    """Enough cloth is left between the selvages for the least that is cut from it."""
    strips = _widest_strips(check.tables.top)
    for path, part in check.cloths.items():
        fabric = check.layers.section(NamedFabric, *path)
        if check.is_none(path) or None in (given(fabric.width), given(fabric.selvage), given(fabric.shrink_across)):
            continue
        places: list[KeyPath] = [(*path, name) for name in ("width", "selvage", "shrink_across")]
        show = Notation(check.units).show
        usable: Length = (fabric.width - fabric.selvage * 2) * (1 - fabric.shrink_across)
        by_path = part in ("top", "extra")  # an extra that its cloth does not hold is left out, with a caution
        least = strips.get(path) if by_path else _least_usable(check, part)
        if usable.mm <= 0:
            message = f"the cloth is {show(fabric.width)} wide and its two selvages take {show(fabric.selvage * 2)}"
            hint = "give the width as sold and one selvage as it is cut off each side"
            check.wrong(ProblemCode.SELVAGES_TAKE_ALL, places, message, hint)
        elif least and usable < least:
            message = f"only {show(usable)} of the cloth is usable after selvages and shrinkage"
            hint = f"the {part} needs at least {show(least)}: use a wider cloth"
            check.wrong(ProblemCode.CLOTH_TOO_NARROW, places, message, hint)


def _least_usable(check: Check, part: str) -> Length:
    """The least width that can be worked with: a shortest piece with its seams, or two strips and a join."""
    backing, binding = check.tables.backing, check.tables.binding
    if part == "backing":
        return check.tables.cloth.shortest_piece + backing.seam_allowance * 2
    return (binding.strip_width or binding.least_strip) * 2 + binding.seam_allowance * 2


def _widest_strips(top: Top) -> dict[KeyPath, Length]:
    """The least usable width for each cloth of the top: the width of two strips that are joined across it; of one strip
    that is cut along it, or of a square for a corner."""
    parts: list[tuple[KeyPath, Sashing | Border]] = [(("top", "sashing"), top.sashing)] if top.sashing else []
    parts += [(("top", "borders", number), border) for number, border in enumerate(top.borders)]
    widest: dict[KeyPath, Length] = {}
    for at, part in parts:
        strip = part.cut if isinstance(part, Border) else part.width + top.piecing.seam_allowance * 2
        cloth = (*at, "fabric") if part.fabric.is_given else PIECING_FABRIC
        whole = completed(part, top)
        joined = whole.strips != "lengthwise" or (whole.fabric.is_one_way and whole.print == "up")
        least = strip * 2 if joined else strip
        for path, width in ((cloth, least), ((*at, "corner_fabric"), strip)):
            widest[path] = max(widest.get(path, width), width)
    return widest


def steps_can_be_written(check: Check) -> None:
    """A length that is bought is printed in the unit it is priced in, and must not be printed short."""
    for path in check.cloths:
        fabric = check.layers.section(NamedFabric, *path)
        if check.is_none(path) or None in (given(fabric.step), given(fabric.per)):
            continue
        if not is_printable(fabric.step, fabric.per):
            places: list[KeyPath] = [(*path, "step"), (*path, "per")]
            message = f"steps of {Notation(check.units).show(fabric.step)} cannot be written in {fabric.per}"
            check.wrong(ProblemCode.STEP_NOT_WRITABLE, places, message, "give a step in the unit of `per`")


def rolls_can_be_written(check: Check) -> None:
    """A length off a roll is printed in the unit it is priced in, or in inches, centimetres or millimetres."""
    rolls = given(check.tables.batting.product.rolls)
    for number, roll in enumerate(rolls.value if rolls and not check.is_none(BATTING) else ()):
        if not is_printable(roll.step, unit_to_print(roll.step, roll.length_unit)):
            message = f"steps of {Notation(check.units).show(roll.step)} cannot be written exactly in any unit"
            path, hint = (*BATTING, "rolls"), "give a step in whole eighths of a yard, inches or centimetres"
            check.wrong(ProblemCode.STEP_NOT_WRITABLE, [path], message, hint, within=(number, "step"))


def least_overage_is_the_least(check: Check) -> None:
    """The least overage that will do is no more than the overage that is wanted. A project that states a smaller one
    is warned of, not refused: it is for one quilt."""
    least, overage = check.tables.cloth.least_overage, check.tables.backing.overage
    if None in (given(least), given(overage)) or check.by_the_project("backing", "overage"):
        return
    smaller = min(overage)
    if smaller < least:
        show = Notation(check.units).show
        message = f"the least overage, {show(least)}, is above the overage, {show(smaller)}"
        hint = f"give a least of at most {show(smaller)}, or a larger backing.overage"
        check.wrong(ProblemCode.LEAST_ABOVE_OVERAGE, [("cloth", "least_overage")], message, hint)


def backing_is_brought_one_way(check: Check) -> None:
    """The customer brings cloth, or a sewn backing, or no backing; the shop does not supply what she brings."""
    backing = check.tables.backing
    brought: list[KeyPath] = [("backing", "have")] if backing.have is not None else []
    brought += [("backing", "sewn", "width")] if backing.sewn else []
    if len(brought) > 1:
        message = "the customer supplies both cloth and a sewn backing"
        check.wrong(ProblemCode.BROUGHT_TWO_WAYS, brought, message, "keep have or sewn")
    if brought and check.is_none(BACKING_FABRIC):
        message = 'a backing is supplied, but fabric = "none" means no backing'
        check.wrong(ProblemCode.BROUGHT_FOR_NO_BACKING, brought, message, "keep one of them")
    if brought and backing.supplied_by == "shop" and check.by_the_project("backing", "supplied_by"):
        message = "the customer supplies it, so the shop does not"
        check.wrong(ProblemCode.BROUGHT_AND_SUPPLIED, [("backing", "supplied_by")], message, "leave it out")


def one_way_cloth_runs_down(check: Check) -> None:
    """Seams that run crosswise would turn cloth that has a direction or a nap."""
    backing = check.tables.backing
    one_way: list[KeyPath] = [(*BACKING_FABRIC, "directional")] if backing.fabric.directional else []
    one_way += [(*BACKING_FABRIC, "nap")] if backing.fabric.nap else []
    if one_way and backing.seams == "crosswise" and not check.is_none(BACKING_FABRIC):
        message = "cloth with a direction or a nap runs down the quilt, so its seams cannot run crosswise"
        hint = 'use seams = "lengthwise", or cloth without a direction'
        check.wrong(ProblemCode.ONE_WAY_CLOTH_ACROSS, [("backing", "seams"), *one_way], message, hint)


def washing_is_in_order(check: Check) -> None:
    """The least that washing takes is no more than the most."""
    washing = check.tables.washing
    for least, most in (("least", "most"), ("least_bare", "most_bare")):
        if (given(getattr(washing, least)) or 0) > (given(getattr(washing, most)) or 1):
            places: list[KeyPath] = [("washing", least), ("washing", most)]
            low, high = (Notation(check.units).show(Share(getattr(washing, name))) for name in (least, most))
            message, hint = f"the least, {low}, is more than the most, {high}", f"give a least of at most {high}"
            check.wrong(ProblemCode.WASHING_OUT_OF_ORDER, places, message, hint)
