"""The rules about the cloth of blocks: plain ones, and the patches of pieced ones."""

from finishcalc.intake.building.pieced import completed
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.rules.check import Check
from finishcalc.intake.rules.pieced import BLOCKS
from finishcalc.measures.rounding import FINEST
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation

PATCHES: KeyPath = (*BLOCKS, "patches")


def plain_blocks_suit_the_setting(check: Check) -> None:
    """Blocks side by side alternate; setting blocks lie between blocks on point."""
    top = check.tables.top
    blocks = completed(top.blocks, top) if top.blocks else None
    if (
        blocks is None
        or {"alternate": "straight", "setting": "on-point"}.get(blocks.plain, blocks.setting) == blocks.setting
    ):
        return
    if blocks.plain == "alternate":
        message = "blocks on point do not alternate: what lies between the pieced ones is setting blocks"
        hint = 'use plain = "setting", or setting = "straight"'
    else:
        message = "blocks side by side have no setting blocks"
        hint = 'use plain = "alternate", or setting = "on-point"'
    check.wrong(ProblemCode.PLAIN_AGAINST_SETTING, [(*BLOCKS, "plain"), (*BLOCKS, "setting")], message, hint)


def plain_blocks_are_one_square(check: Check) -> None:
    """Refuse frames and patches where all blocks are plain."""
    top = check.tables.top
    if not top.blocks or completed(top.blocks, top).plain != "all":
        return
    if top.blocks.patches:
        message = "all blocks are plain, so none has patches"
        hint = "give their cloth as plain_fabric, or leave plain out"
        check.wrong(ProblemCode.PLAIN_BLOCKS_PIECED, [(*PATCHES, 0, "number")], message, hint, table=True)
    if top.blocks.inner is not None:
        message = "all blocks are plain, so none has an inner square"
        hint = "give their finished size, or leave plain out"
        check.wrong(ProblemCode.PLAIN_BLOCKS_PIECED, [(*BLOCKS, "inner")], message, hint)


def plain_blocks_have_their_cloth(check: Check) -> None:
    """A cloth for plain blocks is only given where there are some."""
    top, own = check.tables.top, check.given_under((*BLOCKS, "plain_fabric"))
    if own and top.blocks and completed(top.blocks, top).plain == "none":
        hint = 'add plain = "alternate" or another word for them, or leave it out'
        check.wrong(ProblemCode.NO_PLAIN_BLOCKS, own, "no block is plain", hint, table=True)


def patches_can_be_cut(check: Check) -> None:
    """A patch is cut larger than its seam allowances, and triangles from squares."""
    blocks, seam, finest = check.tables.top.blocks, check.tables.top.piecing.seam_allowance, FINEST[check.units]
    for number, patch in enumerate(blocks.patches if blocks else ()):
        at: KeyPath = (*PATCHES, number)
        if patch.triangles and patch.size.length != patch.size.width:
            message, hint = "triangles are cut from squares", "leave length out, or leave triangles out"
            check.wrong(ProblemCode.TRIANGLES_OF_NO_SQUARE, [(*at, "length")], message, hint)
        elif min(patch.finished_size(seam, finest)).mm <= 0:
            places: list[KeyPath] = [(*at, "width"), (*at, "length")]
            message = f"leaves nothing within its seam allowances of {Notation(check.units).show(seam)}"
            hint = "give the size as it is cut, not as finished"
            check.wrong(ProblemCode.PATCH_TOO_SMALL, places, message, hint)
