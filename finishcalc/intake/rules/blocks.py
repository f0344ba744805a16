"""The rules about the cloth of blocks: plain ones, and the patches of pieced ones."""

from finishcalc.intake.building.pieced import completed
from finishcalc.intake.rules.check import Check
from finishcalc.intake.rules.pieced import BLOCKS
from finishcalc.problems import ProblemCode


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
    """Where all blocks are plain, none is framed."""
    top = check.tables.top
    if top.blocks and completed(top.blocks, top).plain == "all" and top.blocks.inner is not None:
        message = "all blocks are plain, so none has an inner square"
        hint = "give their finished size, or leave plain out"
        check.wrong(ProblemCode.PLAIN_BLOCKS_PIECED, [(*BLOCKS, "inner")], message, hint)


def plain_blocks_have_their_cloth(check: Check) -> None:
    """A cloth for plain blocks is only given where there are some."""
    top, own = check.tables.top, check.given_under((*BLOCKS, "plain_fabric"))
    if own and top.blocks and completed(top.blocks, top).plain == "none":
        hint = 'add plain = "alternate" or another word for them, or leave it out'
        check.wrong(ProblemCode.NO_PLAIN_BLOCKS, own, "no block is plain", hint, table=True)
