"""The rules about what is bought or chosen by name, and about the backing it goes into."""

from finishcalc.intake import presets
from finishcalc.intake.building.pieced import widest_of
from finishcalc.intake.positions import Path
from finishcalc.intake.rules.check import Check
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import PRINTED_STEP
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import did_you_mean, one_of


def materials_are_whole(check: Check) -> None:
    """A name that a preset has, or every key."""
    for path, (kind, needs, _, may_be_none) in check.wanted.items():
        if check.is_none(path) or any(told[: len(path)] == path for told in check.faulty):
            continue
        if check.layers.get(*path, "preset") is None:
            check.missing(ProblemCode.INCOMPLETE_MATERIAL, path, needs, "no preset gives it")
            continue
        name = check.layers.get(*path, "preset")
        if presets.find(kind, name, check.units) or name in check.layers.names(kind):
            check.missing(ProblemCode.INCOMPLETE_MATERIAL, path, needs, f"{name} does not give it")
        else:
            none = ["none"] if may_be_none else []
            known = check.layers.names(kind) + presets.names(kind, check.units) + none
            check.wrong(
                ProblemCode.UNKNOWN_PRESET,
                [(*path, "preset")],
                f'there is no preset "{name}"',
                did_you_mean(name, known) or one_of(known),
            )


def cloth_is_wide_enough(check: Check) -> None:
    """Something is left between the selvages, and enough for the least that is cut from it."""
    for path, part in check.cloths.items():
        names = ("width", "selvage", "shrink_across")
        found = [check.layers.get(*path, name) for name in names]
        if check.is_none(path) or None in found:
            continue
        width, selvage, shrink = found
        paths: list[Path] = [(*path, name) for name in names]
        show = Notation(check.units).show
        usable: Length = (width - selvage * 2) * (1 - shrink)
        least = widest_of(check.layers, path) if part == "top" else _least_usable(check, part)
        if usable.mm <= 0:
            check.wrong(
                ProblemCode.SELVAGES_TAKE_ALL,
                paths,
                f"the cloth is {show(width)} wide and its two selvages take {show(selvage * 2)}",
                "give the width as sold and one selvage as it is cut off each side",
            )
        elif least and usable < least:
            check.wrong(
                ProblemCode.CLOTH_TOO_NARROW,
                paths,
                f"only {show(usable)} of the cloth can be used after selvages and shrinkage",
                f"the {part} needs at least {show(least)}: take a wider cloth",
            )


def _least_usable(check: Check, part: str) -> Length | None:
    """The least width that can be worked with: a shortest piece with its seams, or two strips and a join."""
    seam: Length | None = check.layers.get(part, "seam_allowance")
    if part == "backing":
        shortest: Length | None = check.layers.get("cloth", "shortest_piece")
        return shortest + seam * 2 if shortest is not None and seam is not None else None
    strip: Length | None = check.layers.get("binding", "strip_width") or check.layers.get("binding", "least_strip")
    return strip * 2 + seam * 2 if strip is not None and seam is not None else None


def steps_can_be_written(check: Check) -> None:
    """What is bought is printed in the unit it is priced in, and must not be printed short."""
    for path in check.cloths:
        step, per = (check.layers.get(*path, name) for name in ("step", "per"))
        if check.is_none(path) or step is None or per is None:
            continue
        if (step.to(per) / PRINTED_STEP[per]).denominator != 1:
            paths: list[Path] = [(*path, "step"), (*path, "per")]
            show = Notation(check.units).show
            check.wrong(
                ProblemCode.STEP_NOT_WRITABLE,
                paths,
                f"steps of {show(step)} cannot be written in {per}",
                "give a step in the unit of `per`",
            )


def backing_is_brought_one_way(check: Check) -> None:
    """Cloth, or a sewn backing, or no backing; and what is brought is not the shop's to supply."""
    have = ("backing", "have") in check.layers.values
    sewn = bool(check.layers.names("backing", "sewn"))
    given: list[Path] = [("backing", "have")] * have + [("backing", "sewn", "width")] * sewn
    if have and sewn:
        check.wrong(ProblemCode.BROUGHT_TWO_WAYS, given, "cloth is brought and a sewn backing too", "keep have or sewn")
    if given and check.is_none(("backing", "fabric")):
        check.wrong(
            ProblemCode.BROUGHT_FOR_NO_BACKING,
            given,
            'a backing is brought, and fabric = "none" wants no backing',
            "keep one of them",
        )
    supplier = check.layers.values.get(("backing", "supplied_by"))
    if given and supplier and supplier.value == "shop" and supplier.origin.layer == "project file":
        check.wrong(
            ProblemCode.BROUGHT_AND_SUPPLIED,
            [("backing", "supplied_by")],
            "the customer brings it, so it is not the shop's",
            "leave it out",
        )


def one_way_cloth_runs_down(check: Check) -> None:
    """Seams that run crosswise would turn it."""
    fabric = [
        ("backing", "fabric", way) for way in ("directional", "nap") if check.layers.get("backing", "fabric", way)
    ]
    if fabric and check.layers.get("backing", "seams") == "crosswise" and not check.is_none(("backing", "fabric")):
        check.wrong(
            ProblemCode.ONE_WAY_CLOTH_ACROSS,
            [("backing", "seams"), *fabric],
            "cloth with a direction or a nap runs down the quilt, so its seams cannot run crosswise",
            'use seams = "lengthwise", or cloth without a direction',
        )
