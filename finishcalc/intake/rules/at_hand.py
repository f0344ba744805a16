"""The rules about cloth that is at hand: it is one cloth of the top or the binding, and told once."""

from finishcalc.intake.building.cloths import identity_of, own_name
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.named_materials import BACKING_FABRIC, PIECING_FABRIC, WIDER_FABRICS
from finishcalc.intake.rules.check import Check
from finishcalc.intake.source import dotted
from finishcalc.model.materials import Fabric, NamedFabric
from finishcalc.model.section import specs
from finishcalc.problems import ProblemCode


def cloth_at_hand_is_used(check: Check) -> None:
    """Cloth at hand is one cloth that the top or the binding is cut from."""
    for path in _at_hand(check):
        message, hint = "", "give it with the fabric that it is cut for"
        if path == BACKING_FABRIC:
            message, hint = "cloth for the backing is not given with its fabric", "give it as have in [backing]"
        elif starts_with(path, WIDER_FABRICS):
            message = "nothing is cut from the cloth that backings are compared with"
        elif check.is_none(path):
            message = "no cloth is wanted here"
        elif path == PIECING_FABRIC and not own_name(check.layers, path):
            message, hint = "each part is of a cloth of its own", "name the fabric, and all parts are of one cloth"
        if message:
            check.wrong(ProblemCode.AT_HAND_FOR_NOTHING, [(*path, "have")], message, hint)


def cloth_at_hand_is_told_once(check: Check) -> None:
    """Uses of one cloth that tell what of it is at hand tell the same."""
    firsts: list[KeyPath] = []
    for path in _at_hand(check):
        first = next((first for first in firsts if _cloth(check, first) == _cloth(check, path)), path)
        firsts.append(path)
        lengths = [[each.length for each in check.layers.values[(*at, "have")].value] for at in (first, path)]
        if lengths[0] != lengths[1]:
            message = f"is one cloth with {dotted(first)}, but has another have"
            check.wrong(ProblemCode.AT_HAND_TWO_WAYS, [(*path, "have")], message, "give both the same, or only one")


def _cloth(check: Check, path: KeyPath) -> tuple[str, list[object]]:
    """Give the identity and the figures of a cloth: two of one name whose figures differ are two cloths."""
    named = check.layers.section(NamedFabric, *path)
    return identity_of(check.layers, path), [getattr(named, key) for key in specs(Fabric)]


def _at_hand(check: Check) -> list[KeyPath]:
    return [path for path in check.cloths if (*path, "have") in check.layers.values]
