"""The whole result as one JSON document with stable keys: the studio's view, or the customer's.

Lengths, areas, quantities and minutes are numbers, exact to 0.001, lengths in the project's units; money and
rates are strings.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from finishcalc.measures.length import Area, Length
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Job
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.customer_cloth import Brought
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting import BattingOption, BattingPlan
from finishcalc.plans.cautions import for_reader
from finishcalc.plans.cloth import Purchase
from finishcalc.plans.edge.binding import BindingPlan, Square
from finishcalc.plans.edge.hem import HemPlan
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.top.plan import TopPlan
from finishcalc.pricing.line import Line
from finishcalc.pricing.quote import Quote
from finishcalc.rendering.documents.cover import cover_record
from finishcalc.rendering.documents.customer import without_the_studio_s
from finishcalc.rendering.documents.pieced import pieced_record
from finishcalc.rendering.documents.profit import worth_record
from finishcalc.rendering.documents.quilting import hours_record, quilting_record
from finishcalc.rendering.documents.writing import caution_records, exact_decimal, number, safe_json
from finishcalc.rendering.pages.defaults import Arithmetic, arithmetic, defaults
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import NO_BREAK, Notation, rounded
from finishcalc.wording.said import Audience, Said

SCHEMA_VERSION = 1
Record = dict[str, Any]


def quote_json(result: Finishing, audience: Audience = "studio") -> str:
    """One JSON document that ends with a line feed; the customer's holds nothing that is the studio's alone."""
    return safe_json(quote_record(result, audience))


def quote_record(result: Finishing, audience: Audience) -> Record:
    """The whole result as a record."""
    record = _record(result, audience)
    if audience == "studio":
        return record
    seen: Record = without_the_studio_s(record)
    return seen | {"rests_on_samples": result.priced_on_samples}


def _record(result: Finishing, audience: Audience) -> Record:
    """Every key, with what this reader may see of the sentences."""
    write = _Writer(notation_of(result))
    worth = result.worth if audience == "studio" else None
    project, plans = result.asked.project, result.plans
    return {
        "schema_version": SCHEMA_VERSION,
        "for": audience,
        "title": project.title,
        "units": project.units,
        "job": _job(project.job),
        "customer": {"name": project.customer},
        "cautions": caution_records(for_reader(result.cautions, audience), write.notation),
        "samples": sorted(result.samples),
        "defaults": [
            {
                "key": each.key,
                "value": each.value.replace(NO_BREAK, " "),
                "layer": each.layer,
                "file": each.file,
                "line": each.line,
            }
            for each in defaults(result.asked.layers, write.notation, "studio")
        ],
        "top": write.top(plans.top, plans.pieced),
        "backing": write.backing(plans.backing) if plans.backing else None,
        "batting": write.batting(plans.batting) if plans.batting else None,
        "binding": write.binding(plans.binding) if plans.binding else None,
        "hem": write.hem(plans.hem) if plans.hem else None,
        "quilting": quilting_record(plans.quilting, write.length),
        "hours": hours_record(plans.hours),
        "buy": [write.purchase(each) for each in plans.cloth],
        "quote": write.quote(result.quote),
        "offers": [
            {
                "label": write.say(offer.label),
                "adds": str(offer.adds),
                "rests_on_samples": bool(offer.figures & result.asked.samples),
            }
            for offer in result.offers
        ],
        "studio": worth_record(worth, write.say) if worth else None,
        "working": write.working(arithmetic(result, audience, worth)),
    }


class _Writer:
    """Writes each part as a record, in the project's units."""

    def __init__(self, notation: Notation) -> None:
        self.notation = notation
        self.units = notation.units

    def say(self, said: Said) -> str:
        """A sentence with plain blanks in it: what holds figures together on a page has no use here."""
        return self.notation.say(said).replace(NO_BREAK, " ")

    def length(self, length: Length) -> int | float:
        return number(length.to(self.units))

    def area(self, area: Area) -> int | float:
        return number(area.to(f"sq {self.units}"))

    def size(self, width: Length, length: Length) -> Record:
        return {"width": self.length(width), "length": self.length(length)}

    def working(self, parts: Iterable[Arithmetic]) -> dict[str, list[Record]]:
        found: dict[str, list[Record]] = {}
        for part in parts:
            sentences = [{"text": self.say(said), "for": said.audience} for said in part.sentences]
            found.setdefault(part.key, []).extend(sentences)
        return found

    def top(self, plan: TopPlan, pieced: PiecedPlan | None) -> Record:
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
        return {
            "needed": self.size(plan.width, plan.length),
            "chosen": self.option(plan.chosen, plan.fabric) if plan.chosen else None,
            "options": [self.option(option, plan.fabric) for option in plan.options],
            "brought": self.brought(plan, plan.brought) if plan.brought else None,
            "nudges": [self.say(nudge.said) for nudge in plan.nudges],
        }

    def brought(self, plan: BackingPlan, brought: Brought) -> Record:
        strip = brought.strip
        return {
            "verdict": brought.verdict,
            "text": self.say(brought.said),
            "strip": {
                "width": self.length(strip.width),
                "pieces": strip.pieces,
                "cut_length": self.length(strip.cut_length),
                "seams": strip.seams,
                "seam_length": self.length(strip.seam_length),
                "seam_minutes": number(plan.seam_minutes),
            }
            if strip
            else None,
        }

    def option(self, option: BackingOption, fabric: Fabric) -> Record:
        layout = option.layout
        return {
            "layout": layout.name,
            "seams": layout.seams,
            "seam_length": self.length(layout.seam_length),
            "turned": layout.turned,
            "cut_length": self.length(layout.cut_length),
            "buy": self.bought(option.amount, fabric, str(option.cloth_cost)),
            "seam_minutes": number(option.seam_minutes),
            "seam_cost": str(option.seam_cost),
            "total_cost": str(option.total_cost),
            "cuts": [{"piece": cut.piece, **self.rectangle(cut)} for cut in layout.cuts],
            "assembly": [
                {"piece": shown.piece, **self.rectangle(shown), "turned": shown.turned} for shown in layout.assembly
            ],
            "leftover": [self.rectangle(left) for left in option.leftover],
        }

    def rectangle(self, place: Any) -> Record:
        """Rounded by its edges, so that neighbours abut."""
        x, y = self._milli(place.x), self._milli(place.y)
        right, bottom = self._milli(place.x + place.width), self._milli(place.y + place.length)
        sides = {"x": x, "y": y, "width": right - x, "length": bottom - y}
        return {name: number(side) for name, side in sides.items()}

    def _milli(self, length: Length) -> Fraction:
        return Fraction(rounded(length.to(self.units), 3))

    def bought(self, amount: Length, fabric: Fabric, cost: str) -> Record:
        return {"amount": number(amount.to(fabric.per)), "unit": fabric.per, "cost": cost}

    def batting(self, plan: BattingPlan) -> Record:
        return {
            "needed": self.size(plan.width, plan.length),
            "chosen": self.batting_option(plan.chosen, plan) if plan.chosen else None,
            "options": [self.batting_option(option, plan) for option in plan.options],
        }

    def batting_option(self, option: BattingOption, plan: BattingPlan) -> Record:
        return {
            "product": plan.product.name,
            "form": option.form,
            "size": option.size,
            **self.size(option.width, option.length),
            "cost": str(option.cost),
        }

    def binding(self, plan: BindingPlan) -> Record:
        return {
            "needed_length": self.length(plan.needed_length),
            "strips": plan.strips,
            "beside": [self.length(long) for long in plan.beside],
            "strip_width": self.length(plan.strip_width),
            "yields": self.length(plan.yields),
            "square": self.square(plan.square) if plan.square else None,
            "cut": plan.cut,
            "fold": plan.fold,
            "buy": self.bought(plan.amount, plan.fabric, str(plan.cost)),
        }

    def hem(self, plan: HemPlan) -> Record:
        return {"allowance": self.length(plan.allowance), "leaves": self.size(plan.width, plan.length)}

    def square(self, square: Square) -> Record:
        return {"side": self.length(square.side), "rounds": square.rounds}

    def purchase(self, purchase: Purchase) -> Record:
        return {
            "fabric": purchase.fabric.name,
            "for": list(purchase.uses),
            "supplied_by": purchase.supplied_by,
            "cut_length": self.length(purchase.cut_length),
            **self.bought(purchase.amount, purchase.fabric, str(purchase.cost)),
        }

    def quote(self, quote: Quote) -> Record:
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
            "balance": str(quote.balance),
        }

    def line(self, line: Line) -> Record:
        return {
            "label": self.say(line.label),
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
        "notes": job.notes,
    }
