"""The keys of the document for the top, for the cloth that is cut, and for the edge."""

from typing import Literal

from finishcalc.measures.length import LengthUnit
from finishcalc.model.keys import Outline, Supplier
from finishcalc.model.pieced import Corners
from finishcalc.model.project import Binding
from finishcalc.plans.pieced.pieces import Run, Triangles
from finishcalc.rendering.documents.keys import Keys, listed, plain, rows, size, table, word

_PIECES: Keys = {
    **size("each piece, as cut"),
    "count": plain("count", "The number of pieces."),
    "run": word("The way their length runs on the cloth.", Run),
}

_BLOCKS: Keys = {
    "count": plain("count", "The number of blocks."),
    "cut": plain("length", "The side of a block, raw edge to raw edge."),
    "plain": plain("count", "The number of blocks that are one square of cloth."),
    "cloth_listed": word("How much of a pieced block's cloth is listed.", Literal["none", "part", "all", "more"]),
    "patches": rows(
        "The patches of a pieced block.",
        {
            "fabric": plain("text", "The cloth.").or_null("where it is not bought"),
            **size("a patch, or of the square of triangles, as cut"),
            "in_a_block": plain("count", "The number in one block."),
            "count": plain("count", "The number in all blocks."),
            "pieces": plain("count", "The pieces to cut for them."),
            "cuts": plain("count", "The cuts of a square from corner to corner; 0 for patches that are no triangles."),
        },
    ),
}

_PIECED: Keys = {
    "centre": table("What the borders go round, raw edge to raw edge.", size("it")),
    "blocks": table("The blocks.", _BLOCKS).or_null("for a top without blocks"),
    "sashing": rows("The strips between the blocks.", _PIECES),
    "cornerstones": rows(
        "The squares where strips meet.",
        {
            "size": plain("length", "The side of a square, as cut."),
            "count": plain("count", "The number of squares."),
        },
    ),
    "triangles": rows(
        "The triangles of blocks on point, or round framed squares.",
        {
            "for": word("Their place.", Triangles.__annotations__["use"]),
            "square": plain("length", "The side of the square that they are cut from."),
            "squares": plain("count", "The number of squares."),
            "cuts": plain("count", "The cuts of a square from corner to corner."),
            "count": plain("count", "The number of triangles."),
        },
    ),
    "borders": rows(
        "The borders, in the order they are sewn.",
        {
            "cut": plain("length", "The width of the strips, as cut."),
            "corners": word("The corners.", Corners),
            "strips": rows(
                "The strips.",
                {
                    "length": plain("length", "The length of a strip, as cut."),
                    "count": plain("count", "The number of strips."),
                    "run": word("The way their length runs on the cloth.", Run),
                },
            ),
            "corner_squares": plain("count", "The number of cornerstones."),
            **size("the top with this border, raw edge to raw edge"),
        },
    ),
}

_COVERS: Keys = {
    "bed": table(
        "The bed.",
        {
            "name": plain("text", "Its name.").or_null("where it has none"),
            **size("the mattress"),
            "depth": plain("length", "The depth of the mattress.").or_null("where it is not known"),
        },
    ).or_null("for a table"),
    "table": table(
        "The table.",
        {
            "shape": word("Its outline.", Outline),
            "name": plain("text", "Its name.").or_null("where it has none"),
            **size("the table top"),
            "height": plain("length", "The height of the table top from the floor.").or_null("where it is not known"),
        },
    ).or_null("for a bed"),
    "drop": plain("length", "The drop over the edge."),
    "foot_drop": plain("length", "The drop at the foot.").or_null("for a table"),
    "pillow_tuck": plain("length", "The length added at the head.").or_null("for a table"),
    "draw_up": plain("percent", "The share of each side that quilting draws up."),
    "quilted": table("The size that it must have once quilted.", size("it")),
    "corner_hang": plain("length", "The drop of a corner.").or_null("for another outline, or a shaped edge"),
}

TOP: Keys = {
    "shape": word("The outline.", Outline),
    **size("the top, raw edge to raw edge"),
    "area": plain("area", "The area of the top."),
    "perimeter": plain("length", "The perimeter of the top."),
    "billed": table("The size that is billed.", {**size("it"), "area": plain("area", "The area that is billed.")}),
    "pieced": table("The pieces of the top.", _PIECED).or_null("for a top that is not pieced"),
    "covers": table("The bed or the table that it covers.", _COVERS).or_null("for a top that covers neither"),
}

CAUTION: Keys = {
    "code": plain("text", "The kind of caution."),
    "text": plain("text", "The caution."),
    "source": plain("text", "The source that it rests on."),
    "hinders": plain("flag", "True where it is in the way of the work as planned."),
}

BOUGHT: Keys = {
    "amount": plain("number", "The length of cloth, in its unit of sale."),
    "unit": word("The unit that the cloth is sold by.", LengthUnit),
}

COST: Keys = {"cost": plain("money", "The cost to the studio.").for_studio}

PLACE: Keys = {
    "x": plain("length", "The distance from the left."),
    "y": plain("length", "The distance from the top."),
    **size("the rectangle"),
}

LAYOUT: Keys = {
    "turned": plain("flag", "True where the bands run along the cloth."),
    "bands": rows(
        "The bands of the cloth, in the order they are cut.",
        {
            "gap": plain("length", "The cloth left free before the band."),
            "length": plain("length", "The length of the band."),
            "columns": rows(
                "The columns of the band.",
                {
                    "width": plain("length", "The width of the column."),
                    "pieces": rows(
                        "The pieces in the column.",
                        {
                            "for": plain("text", "The use of the piece."),
                            "width": plain("length", "The piece's width across the cloth."),
                            "length": plain("length", "The piece's length along the cloth."),
                            "joined_to": plain("length", "The length that it becomes with what is joined to it."),
                        },
                    ),
                },
            ),
        },
    ),
}

PURCHASE: Keys = {
    "fabric": plain("text", "The cloth."),
    "for": listed("text", "The uses of the cloth."),
    "supplied_by": word("Who supplies it.", Supplier),
    "cut_length": plain("length", "The length that the pieces take."),
    "on_hand": table(
        "The lengths that are at hand.",
        {
            "lengths": listed("length", "The lengths at hand."),
            "needed": plain("number", "The length that would be bought without them, in the unit of sale."),
            "enough": plain("flag", "True where nothing is bought."),
            "short": plain("length", "The length by which they are short."),
        },
    ).or_null("where none is said"),
    **BOUGHT,
    "joins": plain("count", "The joins of long strips."),
    "layouts": rows("The pieces as they lie on each length of the cloth.", LAYOUT),
    **COST,
}

BINDING: Keys = {
    "needed_length": plain("length", "The length of binding that is needed."),
    "strips": plain("count", "The number of strips from cloth of their own."),
    "beside": listed("length", "The strips from beside the pieces of the backing or the top."),
    "offcut": table(
        "The piece at hand that it is cut from.",
        {**size("the piece"), "strips": listed("length", "The strips from it.")},
    ).or_null("without one"),
    "strip_width": plain("length", "The width of the strips, as cut."),
    "yields": plain("length", "The length of binding that the strips come to."),
    "square": table(
        "The square that bias is cut round.",
        {"side": plain("length", "Its side."), "rounds": plain("count", "The rounds cut from it.")},
    ).or_null("for any other cut"),
    "rectangle": table(
        "The rectangles that bias is cut round.",
        {
            "width": plain("length", "The width across the cloth."),
            "height": plain("length", "The height along the cloth."),
            "rounds": plain("count", "The rounds cut from each."),
            "pieces": plain("count", "The number of rectangles."),
        },
    ).or_null("for any other cut"),
    "cut": word("The way strips are cut.", Binding.model_fields["cut"].annotation),
    "fold": word("The fold.", Binding.model_fields["fold"].annotation),
    "buy": table("The cloth to buy for it.", {**BOUGHT, **COST}),
}

HEM: Keys = {
    "allowance": plain("length", "The width that is turned to the back."),
    "leaves": table("The size that is left.", size("it")),
}
