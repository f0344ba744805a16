"""The keys of the JSON document of a shopping list: the table that its writer is held to."""

from finishcalc.model.on_hand import OnHandPieces
from finishcalc.plans.shopping.wants import Brings
from finishcalc.rendering.documents.keys import Keys, listed, plain, rows, size, table, word
from finishcalc.rendering.documents.keys_of_top import BOUGHT, CAUTION, LAYOUT

_COST: Keys = {
    "cost": plain("amount", "The cost to the studio."),
    "currency": plain("text", "The currency (ISO 4217)."),
}
_TOTAL: Keys = {"total": plain("amount", "The sum."), "currency": plain("text", "The currency (ISO 4217).")}
_PROJECT: Keys = {"project": plain("text", "The label of the project.")}
_NAME: Keys = {"name": plain("text", "The name.")}
_WHERE: Keys = {"layout": table("The pieces as they lie on it, each for its project.", LAYOUT)}
_LENGTHS: Keys = {"lengths": rows("Each length that is bought.", {**BOUGHT, **_WHERE})}
_WORKING: Keys = {"working": listed("text", "The arithmetic.")}
_TAKEN: Keys = {**size("the piece on hand"), **_WHERE}

_CLOTH: Keys = {
    **_NAME,
    "width": plain("length", "The width of the cloth as it is sold."),
    "buy": table("All that is bought.", {**BOUGHT, **_COST}),
    **_LENGTHS,
    "on_hand": rows("The pieces that are taken from what is on hand.", _TAKEN),
    "projects": rows(
        "The projects that it is for.",
        {
            **_PROJECT,
            "uses": listed("text", "The uses of the cloth."),
            "alone": table(
                "The cloth that the project would buy by itself.",
                {**BOUGHT, "cost": plain("amount", "Its cost to the studio.")},
            ),
        },
    ),
    "joined": table(
        "The cloth that the projects would buy, were nothing on hand, in the unit of sale.",
        {
            "alone": plain("number", "All of them, each by itself."),
            "together": plain("number", "All of them together."),
        },
    ),
    "saved_by_joining": plain("amount", "The cost that is saved because they buy together."),
    "saved_by_on_hand": plain("amount", "The cost that is saved because of what is on hand."),
    **_WORKING,
}

_PACKAGES: Keys = {
    **_NAME,
    "size": plain("text", "The name of the size."),
    **size("a package"),
    "number": plain("count", "The number of packages."),
    **_COST,
    "projects": rows(
        "The projects that they are for.", {**_PROJECT, "number": plain("count", "The packages for this one.")}
    ),
}

_ROLL: Keys = {
    **_NAME,
    "roll_width": plain("length", "The width of the roll."),
    "buy": table("All that is cut off.", {**BOUGHT, **_COST}),
    **_LENGTHS,
    "projects": rows(
        "The projects that it is for.", {**_PROJECT, "alone": table("The length that it takes by itself.", BOUGHT)}
    ),
    **_WORKING,
}

_THREAD: Keys = {
    "name": plain("text", "The thread as jobs name it; empty where one does not."),
    "colours": plain("count", "The number of colours."),
    "cones": plain("count", "The number of cones, of all colours."),
    "cone": plain("length", "The length of thread on a cone."),
    "cost": plain("amount", "The cost to the studio.").or_null("where nobody gives the price of a cone"),
    "currency": plain("text", "The currency (ISO 4217).").or_null("without a cost"),
    "projects": rows(
        "The projects that it is for.", {**_PROJECT, "length": plain("length", "The length that this one takes.")}
    ),
    "working": plain("text", "The arithmetic."),
}

_BROUGHT: Keys = {
    "customer": plain("text", "The name of the customer; empty where there is none."),
    "brings": rows(
        "The materials that the customer brings.",
        {
            **_PROJECT,
            "what": word("The kind of material.", Brings.__annotations__["what"]),
            **_NAME,
            "uses": listed("text", "The uses of it."),
            "lengths": rows("The lengths of a cloth.", BOUGHT),
            "sizes": rows("The sizes of battings, or of a sewn backing.", size("a piece")),
        },
    ),
}

SHOPPING: Keys = {
    "schema_version": plain("count", "The version of this document's keys."),
    "units": plain("text", "The units of the list: in or cm."),
    "projects": listed("text", "The labels of the projects: their titles, with a number where several have one."),
    "cloth": rows("Each cloth.", _CLOTH),
    "batting": table(
        "The battings.",
        {
            "packages": rows("Battings in packages.", _PACKAGES),
            "rolls": rows("Battings off rolls.", _ROLL),
            "on_hand": rows(
                "Battings that are taken from what is on hand.",
                {**_NAME, **_TAKEN, "projects": listed("text", "The labels of the projects.")},
            ),
        },
    ),
    "thread": rows("Each thread.", _THREAD),
    "brought": rows("The materials that customers bring, by customer.", _BROUGHT),
    "cost": rows("The costs of all entries that have one, added up by currency.", _TOTAL),
    "total_saved": rows("The costs that are saved because of what is on hand, by currency.", _TOTAL),
    "lacking": rows(
        "The projects whose batting nothing that is sold covers.", {**_PROJECT, "text": plain("text", "The sentence.")}
    ),
    "cautions": rows("The cautions.", CAUTION),
    "left": rows(
        "The pieces that are on hand afterwards.",
        {
            "kind": word("The kind of material.", OnHandPieces.model_fields["kind"].annotation),
            **_NAME,
            **size("each"),
            "number": plain("count", "The number of them."),
        },
    ),
}
"""All keys of the document, in their order."""
