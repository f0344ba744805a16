"""The fields of the form, in the order of a talk at the counter."""

from finishcalc.counter.form.choice_words import CORNERS, CUTS, EDGES, SEAMS, SETTINGS, SHAPES, SUPPLIERS, UNITS, USES
from finishcalc.counter.form.field import Field, FormPart, Group

MOST_BORDERS = 4
"""The borders that the form has places for; more of them are kept as the file has them."""


def _cloth(key: str, label: str, *, priced: bool = False) -> tuple[Field, Field]:
    """The fields of a cloth: its kind, and what this one is called."""
    called = Field(f"{key}.name", "Called", "line", tip="as in navy cotton: what is called alike is bought together")
    return Field(f"{key}.preset", label, "material", listed=not priced, priced=priced), called


def _border(number: int) -> Group:
    key = f"top.borders[{number}]"
    return Group(
        (
            Field(f"{key}.cut", "Cut", "measure", unit="units", tip="as it is cut, with its seams"),
            *_cloth(f"{key}.fabric", "Cloth"),
            Field(
                f"{key}.corners",
                "Corners",
                "choice",
                CORNERS,
                listed=True,
            ),
        ),
        f"Border {number}",
        taken_away=key,
    )


CUSTOMER = FormPart("customer", "Customer", (Group((Field("customer.name", "Name", "line"),)),))

JOB = FormPart(
    "job",
    "Job",
    (
        Group(
            (
                Field("title", "What it is called", "line"),
                Field("job.number", "Number", "line"),
                Field("job.date", "Date", "day", tip="as 2026-05-04"),
                Field("job.thread", "Thread", "line", tip="colour and kind, as agreed"),
                Field("job.notes", "Wishes", "notes", tip="the customer reads them"),
                Field("job.keep_leftovers", "Leftover cloth goes back to the customer", "flag"),
            )
        ),
        Group(
            (
                Field("job.embellishments", "Buttons, beads or the like", "flag"),
                Field("job.vinyl", "Vinyl or other prints", "flag"),
                Field("job.t_shirts", "T-shirts pieced in", "flag"),
                Field("job.dense_seams", "Many seams that meet", "flag"),
                Field("job.for_sale", "To be sold when it is done", "flag"),
            ),
            "On the top",
        ),
    ),
)

TOP = FormPart(
    "top",
    "Top",
    (
        Group(
            (
                Field("top.use", "Use", "choice", USES, listed=True),
                Field(
                    "units",
                    "Measured in",
                    "choice",
                    UNITS,
                    listed=True,
                ),
                Field(
                    "top.shape",
                    "Shape",
                    "choice",
                    SHAPES,
                    listed=True,
                ),
                Field("top.width", "Width", "measure", unit="units", tip="raw edge to raw edge"),
                Field("top.length", "Length", "measure", unit="units", tip="also as 152 cm, 5 ft, 1 1/4 yd"),
                Field("top.diameter", "Across, if round", "measure", unit="units"),
                Field("top.corner_radius", "Rounded corners", "measure", unit="units", tip="the radius"),
                Field("top.prewashed", "Its cloth was washed before it was cut", "flag"),
            )
        ),
    ),
    opened=True,
)

COVER = FormPart(
    "cover",
    "It covers",
    (
        Group(
            (
                Field("top.covers.bed.preset", "A bed", "material", listed=True),
                Field("top.covers.table.preset", "A table", "material", listed=True),
                Field("top.covers.drop", "Hangs down", "measure", unit="units", tip="on each side"),
                Field(
                    "top.covers.foot_drop", "At the foot", "measure", unit="units", tip="of a bed, where it is other"
                ),
                Field("top.covers.pillow_tuck", "For the pillows", "measure", unit="units"),
            ),
            taken_away="top.covers",
        ),
    ),
)

BLOCKS = FormPart(
    "blocks",
    "Blocks",
    (
        Group(
            (
                Field("top.blocks.across", "Across", "count", unit="blocks"),
                Field("top.blocks.down", "Down", "count", unit="blocks"),
                Field("top.blocks.size", "Finished size", "measure", unit="units"),
                Field(
                    "top.blocks.setting",
                    "Set",
                    "choice",
                    SETTINGS,
                    listed=True,
                ),
            ),
            taken_away="top.blocks",
        ),
    ),
)

SASHING = FormPart(
    "sashing",
    "Sashing",
    (
        Group(
            (
                Field("top.sashing.width", "Finished width", "measure", unit="units"),
                *_cloth("top.sashing.fabric", "Cloth"),
                Field("top.sashing.outer", "All round, too", "flag"),
                Field("top.sashing.cornerstones", "With cornerstones", "flag"),
            ),
            taken_away="top.sashing",
        ),
    ),
)

BORDERS = FormPart("borders", "Borders", tuple(map(_border, range(1, MOST_BORDERS + 1))))

BACKING = FormPart(
    "backing",
    "Backing",
    (
        Group(
            (
                *_cloth("backing.fabric", "Cloth", priced=True),
                Field("backing.supplied_by", "From", "choice", SUPPLIERS, listed=True),
                Field("backing.have", "Length brought", "measure", tip="as in 5 yd"),
                Field("backing.overage", "More than the top, on each side", "measure", unit="units"),
                Field(
                    "backing.seams",
                    "Seams",
                    "choice",
                    SEAMS,
                    listed=True,
                ),
            )
        ),
    ),
    opened=True,
)

BATTING = FormPart(
    "batting",
    "Batting",
    (
        Group(
            (
                Field("batting.product.preset", "Batting", "material", priced=True),
                Field("batting.supplied_by", "From", "choice", SUPPLIERS, listed=True),
                Field("batting.overage", "More than the top, on each side", "measure", unit="units"),
            )
        ),
    ),
)

BINDING = FormPart(
    "binding",
    "Binding",
    (
        Group(
            (
                Field("binding.attach", "Edge", "choice", EDGES, priced=True),
                Field("binding.fabric.preset", "Cloth", "material", listed=True),
                Field("binding.fabric.name", "Called", "line", tip="as in navy cotton"),
                Field("binding.supplied_by", "From", "choice", SUPPLIERS, listed=True),
                Field("binding.strip_width", "Strips cut", "measure", unit="units"),
                Field(
                    "binding.cut",
                    "Cut",
                    "choice",
                    CUTS,
                    listed=True,
                ),
            )
        ),
    ),
)

QUILTING = FormPart(
    "quilting",
    "Quilting",
    (
        Group(
            (
                Field("quilting.style.preset", "Pattern", "material", priced=True),
                Field("quilting.method.preset", "Quilted by", "material", priced=True),
                Field("quilting.colours", "Colours of thread", "count"),
            )
        ),
    ),
)

EXTRAS = FormPart(
    "extras",
    "Extras",
    (
        Group(
            (
                Field("charges.extras", "From the shop's list", "extras"),
                Field("charges.piecing", "The studio pieces the top", "flag"),
                Field("charges.postage", "It is sent by post", "flag"),
            )
        ),
    ),
)

DISCOUNT = FormPart(
    "discount",
    "Discount",
    (
        Group(
            (
                Field("charges.discount", "Share", "percent", unit="%"),
                Field("charges.discount_amount", "Or an amount", "amount", unit="money"),
            )
        ),
    ),
)

DUE = FormPart(
    "due",
    "Rush and due",
    (
        Group(
            (
                Field("charges.rush", "Rush", "percent", unit="%"),
                Field("job.due", "Due", "day", tip="as 2026-06-01"),
            )
        ),
    ),
)

PARTS = (
    CUSTOMER,
    JOB,
    TOP,
    COVER,
    BLOCKS,
    SASHING,
    BORDERS,
    BACKING,
    BATTING,
    BINDING,
    QUILTING,
    EXTRAS,
    DISCOUNT,
    DUE,
)
"""The parts of the form, in the order of talk."""
FIELDS = {field.key: field for part in PARTS for field in part.fields}
"""Every field by its key."""
NAMED = {
    field.key: f"{group.heading or part.title}: {field.label}"
    for part in PARTS
    for group in part.groups
    for field in group.fields
}
"""The labels of the fields where they stand alone, each after the name of its group or part."""
