"""The JSON document of a result: the customer's, or the studio's, which is the customer's and more."""

from collections.abc import Callable
from fractions import Fraction

from finishcalc.alternatives.backings import OtherBacking
from finishcalc.alternatives.choices import Alternatives, OtherBinding, OtherCutting
from finishcalc.alternatives.in_house import InHouse
from finishcalc.measures.money import Money
from finishcalc.measures.rounding import printed
from finishcalc.model.materials import Fabric
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.backing.supplied import ExtensionStrip
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.pricing.dates import Dates
from finishcalc.pricing.offers import Offer
from finishcalc.pricing.profit import Profitability
from finishcalc.rendering.documents.customer import CustomerWriter, customer_record, shared_record
from finishcalc.rendering.documents.quilting import hours_record
from finishcalc.rendering.documents.writing import Record, exact_decimal, number, safe_json, with_more
from finishcalc.rendering.pages.defaults import Default, defaults
from finishcalc.rendering.writing import notation_of
from finishcalc.taking import take_rush
from finishcalc.wording.notation import NO_BREAK
from finishcalc.wording.sentence import Sentence


def quote_json(result: Finishing, others: Alternatives, house: InHouse | None) -> str:
    """Write one JSON document that ends with a line feed; the studio's where there is what is `house`'s own."""
    return safe_json(quote_record(result, others, house))


def quote_record(result: Finishing, others: Alternatives, house: InHouse | None) -> Record:
    """Write the whole result as a record, for the studio where there is what is `house`'s own."""
    return _studio_record(result, others, house) if house else customer_record(result, others)


def _studio_record(result: Finishing, others: Alternatives, house: InHouse) -> Record:
    write = _StudioWriter(notation_of(result))
    found, shop = defaults(result.resolved, write.notation, "studio"), result.resolved.shop_file
    return with_more(
        shared_record(result, others, write, house.profit),
        units={"shop": {"file": shop.file, "named_by": shop.named_by} if shop else None},
        customer={
            "notes_studio": result.resolved.project.job.notes_studio,
            "dates": _dates(result.dates),
            "arrival": [{"key": each.key, "text": write.sentence(each.sentence)} for each in result.arrival],
        },
        cautions={"samples": sorted(house.samples), "defaults": [_default(each) for each in found]},
        quilting={"hours": hours_record(result.hours)},
        offers={"studio": _profitability_record(house.profit, write.sentence)},
    )


def _dates(dates: Dates | None) -> Record | None:
    """Write the dates of a job by its lead and its work, and the rush that is proposed; null for one without a date."""
    if not dates:
        return None
    band, rush = dates.band, None
    if band:
        share = exact_decimal(band.share * 100)
        rush = {"within_days": band.within_days, "percent": share, "take": dict(take_rush(band))}
    return {
        "lead": str(dates.lead).replace(NO_BREAK, " "),
        "ready": dates.ready.isoformat(),
        "work_ends": dates.work_ends.isoformat() if dates.work_ends else None,
        "open_days_until_due": dates.open_days,
        "rush": rush,
    }


def _profitability_record(profit: Profitability, write: Callable[[Sentence], str]) -> Record:
    """The record of what a quote is worth: money as strings, hours as numbers; null where nobody knows."""
    return {
        "lines": [
            {"label": write(each.line.label), "amount": str(each.line.amount), "cost": _known(each.cost),
             "margin": _known(each.margin)}
            for each in profit.lines
        ],
        "net": str(profit.earned.net),
        "left_out": [{"label": write(each.label), "net": str(each.net)} for each in profit.earned.left_out],
        "materials": str(profit.earned.materials),
        "passed_on": str(profit.earned.passed_on),
        "other_costs": str(profit.earned.other_costs),
        "attended_hours": number(profit.earned.hours),
        "frame_hours": number(profit.frame_hours),
        "earned_an_attended_hour": _known(profit.hourly),
        "at_best": {"hours": _hours(profit.earned.low), "earned_an_attended_hour": _known(profit.hourly_at_best)},
        "at_worst": {"hours": _hours(profit.earned.high), "earned_an_attended_hour": _known(profit.hourly_at_worst)},
        "earned_a_frame_hour": _known(profit.frame_hourly),
        "wage": str(profit.wage),
        "break_even": str(profit.break_even),
        "meets_the_wage": str(profit.price_at_wage),
        "others": [
            {"label": write(other.label), "total": str(other.total), "earned_an_attended_hour": _known(other.hourly)}
            for other in profit.others
        ],
    }  # fmt: skip


def _hours(minutes: Fraction) -> object:
    return number(printed(minutes / 60, "hour"))


def _known(amount: Money | None) -> str | None:
    return None if amount is None else str(amount)


def _default(default: Default) -> Record:
    return {
        "key": default.key,
        "value": default.value.replace(NO_BREAK, " "),
        "layer": default.layer,
        "file": default.file,
        "line": default.line,
    }


class _StudioWriter(CustomerWriter):
    """Adds to the customer's records cost, minutes, and the options that were weighed."""

    audience = "studio"

    def backing(self, plan: BackingPlan) -> Record:
        options = [self.option(option, plan.fabric) for option in plan.options]
        return with_more(super().backing(plan), chosen={"options": options})

    def other_backing(self, other: OtherBacking) -> Record:
        more = {"adds_to_cost": str(other.adds_to_cost), "take": dict(other.take)}
        return super().other_backing(other) | more

    def other_binding(self, other: OtherBinding) -> Record:
        return super().other_binding(other) | {"take": dict(other.take)}

    def other_cutting(self, other: OtherCutting) -> Record:
        return super().other_cutting(other) | {"take": dict(other.take)}

    def offer(self, offer: Offer) -> Record:
        # the way to take it may hold a price of the studio's own
        return super().offer(offer) | {"take": dict(offer.take)}

    def strip(self, plan: BackingPlan, strip: ExtensionStrip) -> Record:
        return super().strip(plan, strip) | {"seam_minutes": number(strip.minutes(plan.inputs.sewing.seaming))}

    def option(self, option: BackingOption, fabric: Fabric) -> Record:
        record = super().option(option, fabric)
        record["buy"] |= {"cost": str(option.cloth_cost)}
        sewing = {
            "seam_minutes": number(option.seam_minutes),
            "seam_cost": str(option.seam_cost),
            "total_cost": str(option.total_cost),
        }
        return with_more(record, buy=sewing)

    def batting(self, plan: BattingPlan) -> Record:
        options = [self.batting_option(option, plan) for option in plan.options]
        return super().batting(plan) | {"seam_minutes": number(plan.seam_minutes), "options": options}

    def batting_option(self, option: BattingOption, plan: BattingPlan) -> Record:
        return super().batting_option(option, plan) | {"cost": str(option.cost)}

    def quilting(self, plan: QuiltingPlan) -> Record:
        assumed = {"assumed": [self.sentence(sentence) for sentence in plan.assumed]}
        return with_more(super().quilting(plan), washed=hours_record(plan.hours) | assumed)

    def binding(self, plan: BindingPlan) -> Record:
        record = super().binding(plan)
        record["buy"] |= {"cost": str(plan.cost)}
        return record

    def purchase(self, purchase: Purchase) -> Record:
        return super().purchase(purchase) | {"cost": str(purchase.cost)}
