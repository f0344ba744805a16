"""A project of a tally as a record: the figures of its quote's document that a season's list has, under the same keys.

Money is a string, all else a number, lengths in the units of the list.
"""

import json

from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.rendering.documents.batting import batting_option_record
from finishcalc.rendering.documents.writing import Record, UnitWriter, number
from finishcalc.rendering.writing import is_provisional
from finishcalc.tallying import Project
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain_json


def tally_json(project: Project, notation: Notation) -> str:
    """Write a project as one line of JSON (JSON Lines), in which control and direction characters stay escaped."""
    return plain_json(json.dumps(tally_record(project, notation), ensure_ascii=False)) + "\n"


def tally_record(project: Project, notation: Notation) -> Record:
    """Write the record of a project, in the units of the list's `notation`."""
    write, result = UnitWriter(notation), project.result
    spec, plans, shape = result.resolved.project, result.plans, result.plans.top.shape
    return {
        "file": project.file,
        "title": spec.title,
        "units": notation.units,
        "job": {
            "number": spec.job.number,
            "date": spec.job.date.isoformat() if spec.job.date else None,
            "due": spec.job.due.isoformat() if spec.job.due else None,
        },
        "customer": {"name": spec.customer.name},
        "top": {"shape": shape.name, **write.size(shape.width, shape.length), "area": write.area(shape.area)},
        "backing": _backing(plans.backing, write) if plans.backing else None,
        "batting": _batting(plans.batting, write) if plans.batting else None,
        "binding": {
            "cut": plans.binding.cut,
            "buy": {**write.bought(plans.binding.amount, plans.binding.fabric), "cost": str(plans.binding.cost)},
        }
        if plans.binding
        else None,
        "hem": {"allowance": write.length(plans.hem.allowance)} if plans.hem else None,
        "hours": {
            "total_minutes": {
                name: number(getattr(result.hours, name)) for name in ("low", "likely", "high", "planned")
            }
        },
        "quote": {
            "currency": result.quote.currency.code,
            "subtotal": str(result.quote.subtotal),
            "total": str(result.quote.total),
            "provisional": is_provisional(result),
        },
        "studio": _earned(project),
        "rests_on_samples": result.priced_on_samples,
    }


def _backing(plan: BackingPlan, write: UnitWriter) -> Record:
    brought, option = plan.customer_supplied, plan.chosen
    bought = {
        "seams": option.layout.seams,
        "buy": {**write.bought(option.amount, option.fabric), "cost": str(option.cloth_cost)},
    } if option else None  # fmt: skip
    return {"chosen": bought, "brought": {"verdict": brought.verdict} if brought else None}


def _batting(plan: BattingPlan, write: UnitWriter) -> Record:
    option = plan.chosen
    bought = batting_option_record(option, plan, write) | {"cost": str(option.cost)} if option else None
    return {"chosen": bought, "brought": {"verdict": plan.brought.verdict} if plan.brought else None}


def _earned(project: Project) -> Record:
    earned = project.earned
    hourly = earned.an_hour(earned.minutes)
    return {
        "net": str(earned.net),
        "materials": str(earned.materials),
        "passed_on": str(earned.passed_on),
        "other_costs": str(earned.other_costs),
        "attended_hours": number(earned.hours),
        "earned_an_attended_hour": None if hourly is None else str(hourly),
        "break_even": str(earned.break_even),
    }
