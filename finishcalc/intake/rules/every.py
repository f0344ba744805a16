"""The rules between keys: mistakes in values that are each right on their own.

Every rule looks at the values that are there, reports all that is wrong, and never stops another rule.
"""

from collections.abc import Callable

from finishcalc.intake.rules import at_hand as at_hand_rules
from finishcalc.intake.rules import batting as batting_rules
from finishcalc.intake.rules import blocks as block_rules
from finishcalc.intake.rules import cover as cover_rules
from finishcalc.intake.rules import materials as material_rules
from finishcalc.intake.rules import pieced as pieced_rules
from finishcalc.intake.rules import postage as postage_rules
from finishcalc.intake.rules import prices as price_rules
from finishcalc.intake.rules import quilting as quilting_rules
from finishcalc.intake.rules import top as top_rules
from finishcalc.intake.rules import units as unit_rules
from finishcalc.intake.rules.check import Check
from finishcalc.problems import Problem


def apply(check: Check) -> list[Problem]:
    """Every problem the rules find."""
    for rule in RULES:
        rule(check)
    return check.problems


RULES: tuple[Callable[[Check], object], ...] = (
    top_rules.top_has_one_size,
    top_rules.shape_fits_its_size,
    top_rules.edge_suits_its_shape,
    top_rules.edge_leaves_the_rest,
    cover_rules.covers_one_thing,
    cover_rules.table_has_its_size,
    cover_rules.cover_has_that_shape,
    cover_rules.cover_is_not_too_large,
    pieced_rules.blocks_have_a_size,
    block_rules.plain_blocks_suit_the_setting,
    block_rules.plain_blocks_are_one_square,
    block_rules.plain_blocks_have_their_cloth,
    block_rules.patches_can_be_cut,
    pieced_rules.parts_go_together,
    pieced_rules.sashing_on_point_has_its_place,
    pieced_rules.piecing_is_of_a_pieced_top,
    pieced_rules.borders_leave_something,
    pieced_rules.cornerstones_have_their_cloth,
    pieced_rules.first_pair_is_butted,
    pieced_rules.pieced_top_is_a_rectangle,
    material_rules.materials_are_whole,
    material_rules.binding_has_its_backing,
    at_hand_rules.cloth_at_hand_is_used,
    at_hand_rules.cloth_at_hand_is_told_once,
    material_rules.offcut_is_for_the_binding,
    material_rules.cloth_is_wide_enough,
    material_rules.steps_can_be_written,
    material_rules.rolls_can_be_written,
    material_rules.least_overage_is_the_least,
    material_rules.backing_is_brought_one_way,
    material_rules.one_way_cloth_runs_down,
    material_rules.washing_is_in_order,
    batting_rules.batting_is_brought_for_a_quilt,
    batting_rules.least_batting_is_the_least,
    batting_rules.rolls_are_charged_by_their_unit,
    quilting_rules.styles_say_their_lines,
    quilting_rules.methods_take_their_time,
    quilting_rules.ties_are_tied,
    quilting_rules.areas_make_the_top,
    quilting_rules.throat_leaves_a_depth,
    top_rules.curves_take_bias,
    top_rules.hem_leaves_something,
    price_rules.money_can_be_written,
    price_rules.deposit_is_one_thing,
    price_rules.discount_is_one_thing,
    price_rules.rates_are_whole,
    price_rules.seams_have_their_unit,
    price_rules.rates_suit_the_work,
    price_rules.piecing_has_its_blocks,
    unit_rules.figures_keep_their_units,
    price_rules.offers_are_known,
    price_rules.tax_is_added_or_included,
    price_rules.extras_are_known,
    price_rules.extras_can_be_cut,
    price_rules.ordered_extras_have_their_cloth,
    price_rules.measures_are_of_lengths,
    price_rules.hours_are_said,
    price_rules.quilting_has_a_rate,
    price_rules.rush_bands_differ,
    price_rules.due_comes_after_the_date,
    postage_rules.bands_rise,
    postage_rules.postage_has_bands,
)
