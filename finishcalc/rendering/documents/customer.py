"""The customer's JSON document with stable keys, and what it shares with the studio's.

Lengths, areas, quantities and minutes are numbers, exact to 0.001, lengths in the project's units; money and
rates are strings.
"""

from collections.abc import Iterable

from finishcalc.alternatives.backings import OtherBacking
from finishcalc.alternatives.choices import Alternatives, OtherBinding, OtherCutting
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Job
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.backing.supplied import ExtensionStrip, SuppliedCloth
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.hem import HemPlan
from finishcalc.plans.extras import ExtraPlan
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.top.plan import TopPlan
from finishcalc.pricing.line import Line
from finishcalc.pricing.offers import Offer
from finishcalc.pricing.profit import Profitability
from finishcalc.pricing.quote import Quote
from finishcalc.rendering.documents.batting import (
    batting_option_record,
    brought_batting_record,
    joined_record,
)
from finishcalc.rendering.documents.cloth import on_hand_record
from finishcalc.rendering.documents.cover import cover_record
from finishcalc.rendering.documents.cutting import layout_record
from finishcalc.rendering.documents.edge import binding_record
from finishcalc.rendering.documents.pieced import pieced_record
from finishcalc.rendering.documents.quilting import quilting_record
from finishcalc.rendering.documents.weight import weight_record
from finishcalc.rendering.documents.writing import (
    SCHEMA_VERSION,
    Record,
    UnitWriter,
    caution_records,
    exact_decimal,
    number,
)
from finishcalc.rendering.pages.defaults import Arithmetic, arithmetic
from finishcalc.rendering.pages.layers import option_words
from finishcalc.rendering.writing import is_provisional, notation_of
from finishcalc.wording.notation import NO_BREAK
from finishcalc.wording.sentence import Audience


def customer_record(result: Finishing, others: Alternatives) -> Record:
    """Write the whole result for the customer."""
    record = shared_record(result, others, CustomerWriter(notation_of(result)))
    return record | {"rests_on_samples": result.priced_on_samples}


def shared_record(
    result: Finishing, others: Alternatives, write: "CustomerWriter", profit: Profitability | None = None
) -> Record:
    """Write the keys that both readers have; `write` and, in the arithmetic, `profit` decide how much is in them."""
    project, plans = result.resolved.project, result.plans
    return {
        "schema_version": SCHEMA_VERSION,
        "for": write.audience,
        "title": project.title,
        "units": project.units,
        "job": _job(project.job),
        "customer": {"name": project.customer.name},
        "cautions": caution_records(result.cautions, write.audience, write.notation),
        "top": write.top(plans.top, plans.pieced),
        "backing": write.backing(plans.backing) if plans.backing else None,
        "batting": write.batting(plans.batting) if plans.batting else None,
        "binding": write.binding(plans.binding) if plans.binding else None,
        "hem": write.hem(plans.hem) if plans.hem else None,
        "quilting": write.quilting(plans.quilting),
        "extras": [write.extra(each) for each in plans.extras.cut],
        "weight": weight_record(plans.weight, project.units),
        "buy": [write.purchase(each) for each in plans.cloth],
        "quote": write.quote(result.quote) | {"provisional": is_provisional(result)},
        "offers": [write.offer(each) for each in others.offers],
        "other_backings": [write.other_backing(each) for each in others.backings],
        "other_binding": write.other_binding(others.binding) if others.binding else None,
        "other_cuttings": [write.other_cutting(each) for each in others.cuttings],
        "working": write.working(arithmetic(result, profit)),
    }


class CustomerWriter(UnitWriter):
    """Writes each part as a record, in the project's units, with nothing that is the studio's alone."""

    audience: Audience = "customer"

    def working(self, parts: Iterable[Arithmetic]) -> dict[str, list[Record]]:
        """Write the arithmetic of each part, by its key."""
        found: dict[str, list[Record]] = {}
        for part in parts:
            sentences = [{"text": self.exact_sentence(said), "for": said.audience} for said in part.sentences]
            found.setdefault(part.key, []).extend(sentences)
        return found

    def top(self, plan: TopPlan, pieced: PiecedPlan | None) -> Record:
        """Write the top, with its pieces and the bed or table that it covers."""
        shape, billed = plan.shape, plan.billed
        return {
            "shape": shape.name,
            **self.size(shape.width, shape.length),
            "area": self.area(shape.area),
            "perimeter": self.length(shape.perimeter),
            "billed": {**self.size(billed.width, billed.length), "area": self.area(billed.area)},
            "pieced": pieced_record(pieced, self.length) if pieced else None,
            "covers": cover_record(plan.covers, not shape.curved, self.length) if plan.covers else None,
        }

    def backing(self, plan: BackingPlan) -> Record:
        """Write the backing as it is needed, chosen and brought."""
        return {
            "needed": self.size(plan.width, plan.length),
            "chosen": self.option(plan.chosen, plan.fabric) if plan.chosen else None,
            "brought": self.brought(plan, plan.customer_supplied) if plan.customer_supplied else None,
        }

    def brought(self, plan: BackingPlan, brought: SuppliedCloth) -> Record:
        """Write the backing, or the cloth for it, that the customer brings."""
        return {
            "verdict": brought.verdict,
            "text": self.sentence(brought.sentence),
            "short": self.length(brought.short) if brought.short else None,
            "bring": self.length(brought.bring) if brought.bring else None,
            "strips": [self.strip(plan, strip) for strip in brought.strips],
        }

    def strip(self, plan: BackingPlan, strip: ExtensionStrip) -> Record:
        """Write a strip that a brought backing gets."""
        return {
            "width": self.length(strip.width),
            "pieces": strip.pieces,
            "cut_length": self.length(strip.cut_length),
            "seams": strip.seams,
            "seam_length": self.length(strip.seam_length),
        }

    def option(self, option: BackingOption, fabric: Fabric) -> Record:
        """Write a way to piece the backing, with its cuts and seams."""
        layout, (sides, ends) = option.layout, option.overage
        return {
            "overage": {"sides": self.length(sides), "ends": self.length(ends)},
            "covers": self.size(*layout.size),
            "layout": layout.name,
            "seams": layout.seams,
            "seam_length": self.length(layout.seam_length),
            "turned": layout.turned,
            "cut_length": self.length(layout.cut_length),
            "buy": self.bought(option.amount, fabric),
            "cuts": [{"piece": cut.piece, **self.rectangle(cut)} for cut in layout.cuts],
            "assembly": [
                {"piece": shown.piece, **self.rectangle(shown), "turned": shown.turned} for shown in layout.assembly
            ],
            "leftover": [self.rectangle(left) for left in option.leftover],
        }

    def batting(self, plan: BattingPlan) -> Record:
        """Write the batting as it is needed, chosen and brought."""
        return {
            "needed": self.size(plan.width, plan.length),
            "chosen": self.batting_option(plan.chosen, plan) if plan.chosen else None,
            "brought": brought_batting_record(plan.brought, self) if plan.brought else None,
            "joined": joined_record(plan.joined, self) if plan.joined else None,
        }

    def batting_option(self, option: BattingOption, plan: BattingPlan) -> Record:
        """Write packages, or a length off a roll."""
        return batting_option_record(option, plan, self)

    def binding(self, plan: BindingPlan) -> Record:
        """Write the binding and its strips."""
        return binding_record(plan, self.length) | {"buy": self.bought(plan.amount, plan.fabric)}

    def hem(self, plan: HemPlan) -> Record:
        """Write the hem, and the size that it leaves."""
        return {"allowance": self.length(plan.allowance), "leaves": self.size(plan.width, plan.length)}

    def quilting(self, plan: QuiltingPlan) -> Record:
        """Write the quilting."""
        return quilting_record(plan, self.length)

    def extra(self, plan: ExtraPlan) -> Record:
        """Write the pieces that are cut for an extra; `use` names them in the cloth to buy."""
        return {
            "label": plan.label,
            "use": plan.use,
            "pieces": plan.number,
            **self.size(plan.width, plan.length),
            "fabric": plan.fabric.name,
        }

    def purchase(self, purchase: Purchase) -> Record:
        """Write the length of one cloth, for all its parts."""
        return {
            "fabric": purchase.fabric.name,
            "for": list(purchase.uses),
            "supplied_by": purchase.supplied_by,
            "cut_length": self.length(purchase.cut_length),
            "on_hand": on_hand_record(purchase.on_hand, self.length) if purchase.on_hand else None,
            **self.bought(purchase.amount, purchase.fabric),
            "joins": purchase.weighed.lead.joins if purchase.weighed else 0,
            "layouts": [layout_record(layout, self.length) for layout in purchase.layouts],
        }

    def quote(self, quote: Quote) -> Record:
        """Write the lines of the price, their tax and the sums."""
        return {
            "currency": quote.currency.code,
            "lines": [self.line(line) for line in quote.lines],
            "subtotal": str(quote.subtotal),
            "discount": str(quote.discount),
            "tax": [
                {
                    "label": tax.label,
                    "percent": exact_decimal(tax.percent * 100),
                    "included": tax.included,
                    "by": tax.by,
                    "base": str(tax.base),
                    "amount": str(tax.amount),
                }
                for tax in quote.taxes
            ],
            "cash_rounding": str(quote.cash_rounding),
            "total": str(quote.total),
            "deposit": str(quote.deposit),
            "deposit_due": quote.deposit_due.isoformat() if quote.deposit_due else None,
            "balance": str(quote.balance),
        }

    def offer(self, offer: Offer) -> Record:
        """Write a thing more that could be ordered."""
        return {
            "label": self.sentence(offer.label),
            "total": str(offer.total),
            "adds": str(offer.adds),
            "rests_on_samples": offer.rests_on_sample,
        }

    def other_backing(self, other: OtherBacking) -> Record:
        """Write another way to piece the backing."""
        return {
            "label": option_words(other.option, self.notation).replace(NO_BREAK, " "),
            "total": str(other.total),
            "adds": str(other.adds),
        }

    def other_binding(self, other: OtherBinding) -> Record:
        """Write the binding cut from beside the backing's pieces."""
        return {"total": str(other.total), "adds": str(other.adds)}

    def other_cutting(self, other: OtherCutting) -> Record:
        """Write a cloth of the top with its long strips cut the other way."""
        bought = {"fabric": other.fabric.name, "for": list(other.parts), **self.bought(other.amount, other.fabric)}
        return {**bought, "joins": other.joins, "total": str(other.total), "adds": str(other.adds)}

    def line(self, line: Line) -> Record:
        """Write a line of the price."""
        return {
            "label": self.sentence(line.label),
            "class": line.line_class,
            "quantity": number(line.quantity),
            "unit": line.unit,
            "rate": exact_decimal(line.rate),
            "amount": str(line.amount),
        }


def _job(job: Job) -> Record:
    return {
        "number": job.number,
        "date": job.date.isoformat() if job.date else None,
        "due": job.due.isoformat() if job.due else None,
        "thread": job.thread,
        "keep_leftovers": job.keep_leftovers,
        "for_sale": job.for_sale,
        "embellishments": job.embellishments,
        "vinyl": job.vinyl,
        "t_shirts": job.t_shirts,
        "dense_seams": job.dense_seams,
        "notes": job.notes,
    }
