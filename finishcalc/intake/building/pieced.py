"""Makes a pieced top from its table. `[top.piecing]` gives the values that a part leaves out."""

from typing import TypeVar

from finishcalc.measures.rounding import FINEST
from finishcalc.model.pieced import Blocks, CornerCloth, PartCloth, PiecedTop, framed_square
from finishcalc.model.project import Top
from finishcalc.model.section import given

Part = TypeVar("Part", bound=PartCloth)


def pieced_top(top: Top, units: str) -> PiecedTop | None:
    """The pieced top that a table describes, or None where it describes none or where its size is not given."""
    blocks = top.blocks
    if not (blocks or top.centre) or (blocks and given(blocks.size) is None and blocks.inner is None):
        return None
    return PiecedTop(
        seam=top.piecing.seam_allowance,
        mitre_extra=top.piecing.mitre_extra,
        most_joins=top.piecing.most_joins,
        supplied_by=top.piecing.supplied_by,
        borders=tuple(completed(border, top) for border in top.borders),
        blocks=_blocks(blocks, top, units) if blocks else None,
        sashing=completed(top.sashing, top) if top.sashing else None,
        centre=top.centre,
    )


def completed(part: Part, top: Top) -> Part:
    """A part of the top with the values for all parts where it has none of its own; its cornerstones, plain blocks and
    patches are of its cloth unless they name another."""
    cloth = part.fabric if part.fabric.is_given else top.piecing.fabric
    changes: dict[str, object] = {"fabric": cloth}
    if isinstance(part, CornerCloth):
        changes["corner_fabric"] = part.corner_fabric if part.corner_fabric.is_given else cloth
    if isinstance(part, Blocks):
        changes["plain_fabric"] = part.plain_fabric if part.plain_fabric.is_given else cloth
        changes["patches"] = tuple(
            patch if patch.fabric.is_given else patch.replace(fabric=cloth) for patch in part.patches
        )
    return part.replace(**changes).filled_from(top.piecing)


def _blocks(blocks: Blocks, top: Top, units: str) -> Blocks:
    complete = completed(blocks, top)
    if given(complete.size) is None and complete.inner is not None:
        return complete.replace(size=framed_square(complete.inner, top.piecing.seam_allowance, FINEST[units]))
    return complete
