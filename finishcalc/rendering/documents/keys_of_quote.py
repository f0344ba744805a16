"""The keys of the JSON document of a quote: the table that the writers are held to."""

from typing import Literal

from finishcalc.model.keys import LineClass, Units
from finishcalc.rendering.documents.keys import Keys, Row, listed, plain, rows, size, table, word
from finishcalc.rendering.documents.keys_of_layers import BACKING, BATTING, HOURS, QUILTING
from finishcalc.rendering.documents.keys_of_top import BINDING, BOUGHT, CAUTION, HEM, PURCHASE, TOP
from finishcalc.wording.sentence import Audience

_TAKE: Keys = {
    "take": Row("anything by key", "The keys to write in the project to take it; null takes a key out.").for_studio
}
_ADDS: Keys = {
    "total": plain("money", "The total of the quote with it."),
    "adds": plain("money", "The amount that this adds to the total."),
}

_JOB: Keys = {
    "number": plain("text", "The number of the job."),
    "date": plain("day", "The day on which it is agreed.").or_null("where it is not said"),
    "due": plain("day", "The day on which it is due.").or_null("where it is not said"),
    "thread": plain("text", "The thread agreed."),
    "keep_leftovers": plain("flag", "True where leftover cloth goes back."),
    "for_sale": plain("flag", "True where the quilt is to be sold."),
    "embellishments": plain("flag", "True for buttons, beads and the like on the top."),
    "vinyl": plain("flag", "True for vinyl or other prints."),
    "t_shirts": plain("flag", "True for T-shirts in the top."),
    "dense_seams": plain("flag", "True where many seams meet."),
    "notes": plain("text", "Notes that the customer reads."),
}

_DATES: Keys = {
    "lead": plain("text", "The time that a job takes."),
    "ready": plain("day", "The day on which it is ready by the lead."),
    "work_ends": plain("day", "The day on which the work alone would end.").or_null("without a day to work on"),
    "open_days_until_due": plain("count", "The open days until it is due.").or_null("where that is not said"),
    "rush": table(
        "The rush that is proposed.",
        {
            "within_days": plain("count", "The open days that its band is for."),
            "percent": plain("percent", "The share."),
            **_TAKE,
        },
    ).or_null("where none is"),
}

_LINE: Keys = {
    "label": plain("text", "The line."),
    "class": word("Its class, by which tax, rush, discount and deposit go.", LineClass),
    "quantity": plain("number", "The quantity."),
    "unit": plain("text", "The unit of the quantity."),
    "rate": plain("decimal", "The price of a unit."),
    "amount": plain("money", "The amount."),
}

_TAX: Keys = {
    "label": plain("text", "The name of the tax."),
    "percent": plain("percent", "The share."),
    "included": plain("flag", "True where prices include it."),
    "by": word("The rounding.", Literal["invoice", "item"]),
    "base": plain("money", "The amount that it is on."),
    "amount": plain("money", "The tax."),
}

_QUOTE: Keys = {
    "currency": plain("text", "The code of the currency, by ISO 4217."),
    "lines": rows("The lines of the price.", _LINE),
    "subtotal": plain("money", "The sum of the lines."),
    "discount": plain("money", "The discount."),
    "tax": rows("The taxes.", _TAX),
    "cash_rounding": plain("money", "The rounding for cash."),
    "total": plain("money", "The total."),
    "deposit": plain("money", "The money due before the work starts."),
    "deposit_due": plain("day", "The day on which it is due.").or_null("where the job has no date"),
    "balance": plain("money", "The total less the deposit."),
    "provisional": plain("flag", "True where it cannot be made as specified."),
}

_HOURLY = plain("money", "The earnings of an attended hour.").or_null("without any")
_AT: Keys = {"hours": plain("hours", "The hours."), "earned_an_attended_hour": _HOURLY}

_PROFIT: Keys = {
    "lines": rows(
        "Each line beside its cost.",
        {
            "label": plain("text", "The line."),
            "amount": plain("money", "The amount."),
            "cost": plain("money", "The cost to the studio.").or_null("where nobody knows it"),
            "margin": plain("money", "The amount before tax less the cost.").or_null("where nobody knows it"),
        },
    ),
    "net": plain("money", "The price before tax."),
    "left_out": rows(
        "The lines whose time or cost nobody knows.",
        {"label": plain("text", "The line."), "net": plain("money", "Its amount before tax.")},
    ),
    "materials": plain("money", "The cost of the materials."),
    "passed_on": plain("money", "What is passed on."),
    "other_costs": plain("money", "The other costs of the business."),
    "attended_hours": plain("hours", "The attended hours."),
    "frame_hours": plain("hours", "The hours on the frame."),
    "earned_an_attended_hour": _HOURLY,
    "at_best": table("If the stages take the least.", _AT),
    "at_worst": table("If the stages take the most.", _AT),
    "earned_a_frame_hour": plain("money", "The earnings of an hour on the frame.").or_null("off the frame"),
    "wage": plain("money", "The wage of an hour."),
    "break_even": plain("money", "The price before tax that covers all but a wage."),
    "meets_the_wage": plain("money", "The price before tax that pays the wage too."),
    "others": rows(
        "The same top in other styles.",
        {
            "label": plain("text", "The style, or the size class."),
            "total": plain("money", "The total of the quote."),
            "earned_an_attended_hour": _HOURLY,
        },
    ),
}

_SENTENCE: Keys = {
    "text": plain("text", "A sentence of the arithmetic."),
    "for": word("Who may read it.", Audience),
}

RESULT: Keys = {
    "schema_version": plain("count", "The version of this document."),
    "for": word("The reader of this document.", Audience),
    "title": plain("text", "The name of the job."),
    "units": word("The unit of the document's lengths.", Units),
    "shop": table(
        "The shop file in use.",
        {
            "file": plain("text", "Its name.").or_null("for the sample shop"),
            "named_by": word("Who names it.", Literal["option", "project", "environment", "settings"]),
        },
    )
    .or_null("where nobody names one")
    .for_studio,
    "job": table("What is agreed at the counter.", _JOB),
    "customer": table("The customer.", {"name": plain("text", "Her name.")}),
    "notes_studio": plain("text", "Notes that the customer never sees.").for_studio,
    "dates": table("The dates of the job.", _DATES).or_null("for a job without a date").for_studio,
    "arrival": rows(
        "What to look at when the top arrives.",
        {"key": plain("text", "What the line follows from."), "text": plain("text", "The line.")},
    ).for_studio,
    "cautions": rows("What the reader is to know.", CAUTION),
    "samples": listed("text", "The sample figures that the result rests on, by their keys.").for_studio,
    "defaults": rows(
        "The values that the project file does not give.",
        {
            "key": plain("text", "The key."),
            "value": plain("text", "The value."),
            "layer": word("The sort of file that gives it.", Literal["preset", "sample shop", "shop file"]),
            "file": plain("text", "The file that gives it."),
            "line": plain("count", "The line in that file; 0 for a value that stands in none."),
        },
    ).for_studio,
    "top": table("The top.", TOP),
    "backing": table("The backing.", BACKING).or_null("for a quilt without one"),
    "batting": table("The batting.", BATTING).or_null("for a quilt without one"),
    "binding": table("The binding.", BINDING).or_null("for an edge that takes no strips"),
    "hem": table("The hem.", HEM).or_null("for an edge that is not hemmed"),
    "quilting": table("The quilting.", QUILTING),
    "hours": table("The minutes of all the work.", HOURS).for_studio,
    "extras": rows(
        "The extras that are cut from cloth.",
        {
            "label": plain("text", "The extra."),
            "use": plain("text", "Its name among the uses of cloth."),
            "pieces": plain("count", "The number of pieces."),
            **size("each piece, as cut"),
            "fabric": plain("text", "The cloth."),
        },
    ),
    "weight": table(
        "The weight of the quilt.",
        {
            "unit": word("The unit of the weights.", Literal["oz", "g"]),
            "total": plain("number", "The weight of the quilt.").or_null("where it is not known"),
            "parts": Row("by name", "The weight of each part.", item=plain("number", "").or_null("where unknown")),
            "not_known": listed("text", "The materials whose weight is not known."),
        },
    ),
    "buy": rows("The cloths, each in one length.", PURCHASE),
    "quote": table("The price.", _QUOTE),
    "offers": rows(
        "Things more that could be ordered.",
        {
            "label": plain("text", "The offer."),
            **_ADDS,
            "rests_on_samples": plain("flag", "True where what it adds rests on a sample."),
            **_TAKE,
        },
    ),
    "studio": table("What the quote leaves the studio.", _PROFIT).for_studio,
    "other_backings": rows(
        "Backings that cost less or have fewer seams.",
        {
            "label": plain("text", "The backing."),
            **_ADDS,
            "adds_to_cost": plain("money", "The amount that it adds to the studio's own cost.").for_studio,
            **_TAKE,
        },
    ),
    "other_binding": table("The binding from what is left over.", {**_ADDS, **_TAKE}).or_null("where it saves none"),
    "other_cuttings": rows(
        "Cloths of the top with their long strips cut the other way.",
        {
            "fabric": plain("text", "The cloth."),
            "for": listed("text", "The parts whose strips are joined in one of the two."),
            **BOUGHT,
            "joins": plain("count", "The joins."),
            **_ADDS,
            **_TAKE,
        },
    ),
    "working": Row(
        "by name", "The arithmetic of each part, by its key.", item=rows("The sentences of a part.", _SENTENCE)
    ),
}

CUSTOMER_ALONE: Keys = {
    "rests_on_samples": plain("flag", "True where the total rests on a sample figure."),
}
"""The keys of the customer's document that the studio's says in another way."""
