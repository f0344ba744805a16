"""The keys of the document for the backing, the batting and the quilting."""

from typing import Literal

from finishcalc.model.materials import Charge
from finishcalc.model.quilting import StitchedLines
from finishcalc.plans.backing.supplied import SuppliedCloth
from finishcalc.plans.batting.brought import BroughtBatting
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.plans.quilting.frame import Loading
from finishcalc.rendering.documents.keys import Keys, by_name, listed, plain, rows, size, table, word
from finishcalc.rendering.documents.keys_of_top import BOUGHT, COST, PLACE

_OPTION: Keys = {
    "overage": table(
        "The extra beyond the top.",
        {"sides": plain("length", "At each side."), "ends": plain("length", "At each end.")},
    ),
    "covers": table("The size of the backing.", size("it")),
    "layout": plain("text", "The kinds of its pieces, as one word."),
    "seams": plain("count", "The number of seams."),
    "seam_length": plain("length", "The length of all seams."),
    "turned": plain("flag", "True where pieces are cut across the grain."),
    "cut_length": plain("length", "The length that the pieces take."),
    "buy": table("The cloth to buy.", {**BOUGHT, **COST}),
    "seam_minutes": plain("minutes", "The minutes at its seams.").for_studio,
    "seam_cost": plain("money", "The cost of its seams to the studio.").for_studio,
    "total_cost": plain("money", "The cost of cloth and seams to the studio.").for_studio,
    "cuts": rows("The pieces as they lie on the cloth.", {"piece": plain("text", "The letter of the piece."), **PLACE}),
    "assembly": rows(
        "The pieces as they lie in the backing.",
        {
            "piece": plain("text", "The letter of the piece."),
            **PLACE,
            "turned": plain("flag", "True where it is cut across the grain."),
        },
    ),
    "leftover": rows("The cloth that is left over.", PLACE),
}

BACKING: Keys = {
    "needed": table("The size that is needed.", size("it")),
    "chosen": table("The plan that leads.", _OPTION).or_null("for a backing that is sewn, or cloth that is short"),
    "options": rows("All plans that were listed.", _OPTION).for_studio,
    "brought": table(
        "What the customer brings.",
        {
            "verdict": word("The verdict on it.", SuppliedCloth.__annotations__["verdict"]),
            "text": plain("text", "The verdict as a sentence."),
            "short": plain("length", "The length that is short.").or_null("where nothing is"),
            "bring": plain("length", "The length to bring besides.").or_null("where it is enough"),
            "strips": rows(
                "The strips that a sewn backing gets.",
                {
                    "width": plain("length", "The width of a strip, as cut."),
                    "pieces": plain("count", "The number of pieces."),
                    "cut_length": plain("length", "The length of each piece."),
                    "seams": plain("count", "The number of seams."),
                    "seam_length": plain("length", "The length of the seams."),
                    "seam_minutes": plain("minutes", "The minutes at its seams.").for_studio,
                },
            ),
        },
    ).or_null("where she brings none"),
}

_BATTING_OPTION: Keys = {
    "product": plain("text", "The batting."),
    "form": word("The form in which it is sold.", BattingOption.__annotations__["form"]),
    "size": plain("text", "The size on the package, or the width of the roll."),
    **size("what is cut off, or of a package"),
    "number": plain("count", "The number of packages, or of lengths."),
    "charged": table(
        "What is charged.",
        {
            "by": word("The share of a roll that is charged.", Charge).or_null("for packages"),
            "quantity": plain("number", "The quantity."),
            "unit": plain("text", "The unit of the quantity."),
        },
    ),
    "offcut": table(
        "What is left of it.", {**size("it"), "whose": word("Whose it is.", Literal["studio", "customer"])}
    ).or_null("where nothing is"),
    "seams": plain("count", "The seams where it is joined edge to edge."),
    **COST,
}

BATTING: Keys = {
    "needed": table("The size that is needed.", size("it")),
    "chosen": table("What is bought.", _BATTING_OPTION).or_null("where nothing is sold that will do"),
    "brought": table(
        "What the customer brings.",
        {
            "verdict": word("The verdict on it.", BroughtBatting.__annotations__["verdict"]),
            "text": plain("text", "The verdict as a sentence."),
            "pieces": rows("The pieces she brings.", size("the piece")),
            "least": table("The least size that will do.", size("it")),
            "short": table("What is short.", size("it")).or_null("where nothing is"),
            "bring": table("The piece to bring besides.", size("it")).or_null("where it is enough"),
        },
    ).or_null("where she brings none"),
    "joined": table(
        "The pieces of a batting that is joined edge to edge.",
        {
            "seams": plain("count", "The number of seams."),
            "seam_length": plain("length", "The length of all seams."),
            "pieces": rows(
                "The pieces as they lie.",
                {"from": plain("count", "The number of the piece that it is cut from."), **PLACE},
            ),
        },
    ).or_null("for one piece"),
    "seam_minutes": plain("minutes", "The minutes at its seams.").for_studio,
    "options": rows("All that was weighed.", _BATTING_OPTION).for_studio,
}

_LOADING: Keys = {
    "way": word("The way the quilt is loaded.", Loading.__annotations__["way"]),
    "along": plain("length", "The size along the rollers."),
    "down": plain("length", "The size down the quilt."),
    "rows": plain("count", "The rows of the pattern.").or_null("for work without rows"),
    "passes": plain("count", "The passes."),
    "fits": plain("flag", "True where frame and throat both do."),
    "fits_frame": plain("flag", "True where the frame holds it."),
    "fits_throat": plain("flag", "True where the throat reaches over the pattern."),
}

_WHOLE_ROWS: Keys = {
    "rows": plain("count", "The rows."),
    "pitch": plain("length", "The distance from row to row."),
    "scale_percent": plain("count", "The scale of a digital pattern, in per cent."),
    "passes": plain("count", "The passes with a digital pattern."),
    "paper_gap": plain("length", "The gap between rows of a pattern on paper.").or_null("where it does not do"),
    "paper_passes": plain("count", "The passes with a pattern on paper.").or_null("where it does not do"),
}

_STAGE: Keys = {
    "low": plain("minutes", "The least."),
    "likely": plain("minutes", "The usual."),
    "high": plain("minutes", "The most."),
}
_ALL_STAGES: Keys = {
    **_STAGE,
    "planned": plain("minutes", "The minutes that are planned with."),
    "attended": plain("minutes", "The minutes of them that somebody stands by."),
    "frame": plain("minutes", "The minutes of them on the frame."),
}

HOURS: Keys = {
    "minutes": by_name("The minutes of each stage, by its name.", _STAGE),
    "total_minutes": table("The minutes of all stages.", _ALL_STAGES),
}

QUILTING: Keys = {
    "method": plain("text", "The method."),
    "parts": rows(
        "The parts of the top, each with its style.",
        {
            "style": plain("text", "The style."),
            "lines": word("The kind of stitching.", StitchedLines),
            "share": plain("number", "The share of the top, in per cent."),
            "stitched_length": plain("length", "The length of the stitching."),
            "ties": plain("count", "The number of ties."),
            "widest": plain("length", "The widest distance between lines."),
        },
    ),
    "stitched_length": plain("length", "The length of all stitching."),
    "ties": plain("count", "The number of all ties."),
    "thread_length": plain("length", "The length of thread."),
    "thread_top": plain("length", "The thread on top."),
    "thread_bobbin": plain("length", "The thread from the bobbin."),
    "bobbins": plain("count", "The number of bobbins."),
    "cones": plain("count", "The number of cones."),
    "colours": plain("count", "The number of colours."),
    "changes": plain("count", "The changes of colour."),
    "motifs": plain("count", "The number of motifs."),
    "rows": plain("count", "The rows of the pattern.").or_null("off the frame, and for work without rows"),
    "passes": plain("count", "The passes.").or_null("off the frame"),
    "loaded": table("The way it is loaded.", _LOADING).or_null("off the frame"),
    "other": table("The other way to load it.", _LOADING).or_null("off the frame"),
    "partial_row": table(
        "A last row that is not whole, and what mends it.",
        {
            "shows": plain("length", "The part of the row that shows."),
            "even_rows": plain("count", "The rows of the nearest way.").or_null("where none does"),
            "even_pitch": plain("length", "Its distance from row to row.").or_null("where none does"),
            "even_passes": plain("count", "Its passes.").or_null("where none does"),
            "pitch_up": table("A row fewer.", _WHOLE_ROWS).or_null("where there is one row"),
            "pitch_down": table("The last row whole.", _WHOLE_ROWS),
        },
    ).or_null("where all rows are whole"),
    "quilted": table("The size once it is quilted.", size("it")),
    "washed": table("The largest size once it is washed.", size("it")),
    **{key: row.for_studio for key, row in HOURS.items()},
    "assumed": listed("text", "What the minutes assume.").for_studio,
    "washed_smallest": table("The smallest size once it is washed.", size("it")),
    "fits": plain("flag", "False where frame or throat is too small for it."),
}
