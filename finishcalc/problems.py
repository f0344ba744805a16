"""Records of what is wrong with a file: the kind of mistake, its place, a message, and a hint that mends it."""

from collections.abc import Iterable
from enum import StrEnum
from typing import NamedTuple, Self


class ProblemCode(StrEnum):
    """The kinds of mistakes, each with its `meaning` in one sentence. A code never changes, because programs and people
    look it up. DEVELOPERS.md lists them from here (`python -m tests.tables`)."""

    meaning: str

    def __new__(cls, value: str, meaning: str) -> Self:
        """Make the text itself, which carries its meaning."""
        member = str.__new__(cls, value)
        member._value_ = value
        member.meaning = meaning
        return member

    # files
    NO_SUCH_FILE = "no-such-file", "There is no file of that name to read."
    IS_A_FOLDER = "is-a-folder", "A folder is named where a file is to be read."
    NO_SUCH_FOLDER = "no-such-folder", "There is no folder of that name."
    NOT_A_FOLDER = "not-a-folder", "A file is named where a folder is needed."
    READING_NOT_ALLOWED = "reading-not-allowed", "You do not have permission to read the file."
    CANNOT_BE_READ = "cannot-be-read", "The computer cannot read the file, or no file can have that name."
    FILE_TOO_LARGE = "file-too-large", "The file is larger than 1 MiB."
    NOT_UTF_8 = "not-utf-8", "The file is not saved as UTF-8 text."
    NO_FILE_NAMED = "no-file-named", "No file is named where one is needed."
    NO_PROJECT_IN_FOLDER = "no-project-in-folder", "A folder has no project file directly in it."
    SHOP_IS_THE_PROJECT = "shop-is-the-project", "A project names itself as its shop file."
    SHOP_OUTSIDE_FOLDER = "shop-outside-folder", "A project names a shop file outside its own folder."
    LOGO_OUTSIDE_FOLDER = "logo-outside-folder", "A shop file names a logo outside its own folder."
    NOT_A_PICTURE = "not-a-picture", "A logo is neither a PNG nor a JPEG picture."
    DAMAGED_PICTURE = "damaged-picture", "The file of a logo is cut off or damaged."
    ANIMATED_PICTURE = "animated-picture", "A logo moves, which no paper can show."
    PICTURE_OUT_OF_BOUNDS = "picture-out-of-bounds", "A logo has no pixels, or too many to be printed."
    FILE_EXISTS = "file-exists", "A file to be written already exists."
    FOLDER_IN_THE_WAY = "folder-in-the-way", "A folder has the name of a file that would be written."
    DEVICE_IN_THE_WAY = "device-in-the-way", "A device or a pipe has the name of a file that would be written."
    WRITES_OVER_SOURCE = "writes-over-source", "A result would be written over a file that it is worked out from."
    WRITTEN_TWICE = "written-twice", "Two results would be written to one file."
    WRITING_OUTSIDE_FOLDER = "writing-outside-folder", "A file would be written outside the chosen folder."
    CANNOT_BE_WRITTEN = "cannot-be-written", "The computer cannot write a file in that place."
    NOT_PUT_BACK = "not-put-back", "Writing failed half way, and a file could not be restored."
    PDF_NOT_INSTALLED = "pdf-not-installed", "A PDF is requested, and the extra that makes it is not installed."
    PAGE_NOT_INSTALLED = (
        "page-not-installed",
        "The counter is opened, and the extra that serves its page is not installed.",
    )
    PORT_UNAVAILABLE = "port-unavailable", "The requested port is in use, or not every user may use it."
    UNWRITABLE_CHARACTERS = "unwritable-characters", "A text to be saved holds characters that UTF-8 cannot write."
    WORKER_DIED = "worker-died", "The process that worked a project out ended before it was done."

    # what a file looks like
    NOT_TOML = "not-toml", "A line breaks the rules of TOML, the format of the files."
    TABLE_TWICE = "table-twice", "A table is given twice."
    KEY_TWICE = "key-twice", "A key is given twice in one table."
    NESTED_TOO_DEEPLY = "nested-too-deeply", "Tables or lists are nested too deeply."
    UNKNOWN_KEY = "unknown-key", "The table has no key of that name."
    MISSING_KEY = "missing-key", "A required key is not given."
    NO_SUCH_PLACE = "no-such-place", "A value is tried under a key that is not in the file."

    # values
    NOT_A_TABLE = "not-a-table", "One value is given where a table of keys is needed."
    NOT_A_LIST = "not-a-list", "One value is given where a list is needed."
    NOT_A_LIST_OF_LENGTHS = "not-a-list-of-lengths", "Measures are not a list of 1 to 100 lengths."
    LIST_TOO_LONG = "list-too-long", "A list is longer than anyone writes by hand."
    NAMED_TWICE = "named-twice", "A list names the same word twice."
    NOT_A_CHOICE = "not-a-choice", "The word is not one of the choices."
    NOT_TEXT = "not-text", "A text is not in quotes."
    TEXT_TOO_LONG = "text-too-long", "A text has more characters than there is room for."
    SEVERAL_LINES = "several-lines", "A text that belongs on one line runs over several."
    NOT_TRUE_OR_FALSE = "not-true-or-false", "Neither true nor false is given where one is needed."
    NOT_A_DATE = "not-a-date", "A day is not written as TOML writes one."
    NOT_A_LEAD = "not-a-lead", "A lead is not written in days or weeks."
    CLOSED_BACKWARDS = "closed-backwards", "The last of some closed days is before the first."
    NO_OPEN_DAY = "no-open-day", "Nobody attends on any day of the week."
    YEAR_OUT_OF_RANGE = "year-out-of-range", "A day is before 1900, or in 2200 or later."
    NOT_A_NUMBER = "not-a-number", "The value cannot be read as a number."
    NOT_FINITE = "not-finite", "A number is inf or nan."
    TOO_MANY_DIGITS = "too-many-digits", "A number has more than nine digits before its point or after it."
    DIVIDES_BY_ZERO = "divides-by-zero", "A fraction has 0 below its line."
    NOT_A_COUNT = "not-a-count", "A count is not a whole number within its limits."
    NOT_A_LENGTH = "not-a-length", "The value cannot be read as a length."
    UNKNOWN_LENGTH_UNIT = "unknown-length-unit", "A length is given in an unknown unit."
    NOT_A_WEIGHT = "not-a-weight", "A weight, or a weight by area, cannot be read, or has no unit or an unknown one."
    NOT_A_SHARE = "not-a-share", "A share is not written in quotes with its per cent sign."
    NOT_AN_OVERAGE = "not-an-overage", "An overage is neither one length nor one for the sides and one for the ends."
    LEAST_ABOVE_OVERAGE = "least-above-overage", "The least overage that will do is above the overage that is wanted."
    NOT_MINUTES = "not-minutes", "Minutes are neither one number nor a low, a likely and a high one."
    OUT_OF_BOUNDS = "out-of-bounds", "A figure is smaller or larger than it can sensibly be."
    TOO_FINE = "too-fine", "A price or a share has more decimals than are printed."
    MINUTES_OUT_OF_ORDER = "minutes-out-of-order", "Minutes do not rise from low through likely to high."
    SPEEDS_OUT_OF_ORDER = "speeds-out-of-order", "Speeds do not fall from low through likely to high, or one is 0."
    STAGE_KEY_MISPLACED = "stage-key-misplaced", "A stage has a key that it has no use for, or lacks one it needs."
    STAGE_WITHOUT_SPEED = "stage-without-speed", "A stage of stitching does not give the unit its figures count."

    # the top
    SIZE_TWICE = "size-twice", "The size of the top is given in two ways."
    OVAL_WITH_DIAMETER = "oval-with-diameter", "An oval top is given a diameter instead of a width and a length."
    ROUND_WITHOUT_DIAMETER = "round-without-diameter", "A round top is given a width or a length, and no diameter."
    SHAPED_EDGE_OF_NO_RECTANGLE = "shaped-edge-of-no-rectangle", "A round or oval top has rounded corners or scallops."
    ROUNDED_AND_SCALLOPED = "rounded-and-scalloped", "An edge has both rounded corners and scallops."
    CORNER_TOO_ROUND = "corner-too-round", "A corner's radius is more than half the top's shorter side."
    SCALLOP_TOO_DEEP = "scallop-too-deep", "A scallop is deeper than half of its chord."
    SCALLOP_TOO_WIDE = "scallop-too-wide", "A scallop does not fit on the top's shorter side."
    TOP_TOO_LARGE = "top-too-large", "The parts of the top, or the cover, come to more than a top may measure."

    # covers
    BED_AND_TABLE = "bed-and-table", "One cover is for both a bed and a table."
    NOTHING_TO_COVER = "nothing-to-cover", "A drop is given, but no bed or table to cover."
    FOOT_OF_A_TABLE = "foot-of-a-table", "The cover of a table has a foot or pillows, which only a bed has."
    TABLE_SIZED_TWICE = "table-sized-twice", "A table has both a diameter and sides, or a diameter and is not round."
    TABLE_WITHOUT_SIZE = "table-without-size", "A table has neither a diameter nor both of its sides."
    COVER_OF_ANOTHER_SHAPE = "cover-of-another-shape", "A cover does not have the shape of its bed or table."

    # pieced tops
    BLOCKS_WITHOUT_SIZE = "blocks-without-size", "Blocks have neither a finished size nor an inner square."
    INNER_SQUARE_TOO_SMALL = "inner-square-too-small", "The inner square of a block is all seam allowance."
    BLOCK_SIZES_DISAGREE = "block-sizes-disagree", "A block's finished size is not what its inner square makes."
    SASHING_WITHOUT_BLOCKS = "sashing-without-blocks", "Sashing has no blocks to lie between."
    SASHING_OF_ONE_ROW = "sashing-of-one-row", "A single row of blocks on point has sashing, and none to lie between."
    BORDERS_ROUND_NOTHING = "borders-round-nothing", "Borders have neither blocks nor a centre to go round."
    BORDER_TOO_NARROW = "border-too-narrow", "A border is cut no wider than its two seam allowances."
    NO_CORNERSTONES = "no-cornerstones", "Cornerstones have a cloth where there are no cornerstones."
    NO_FIRST_PAIR = "no-first-pair", "A border without butted corners says which pair is sewn on first."
    PLAIN_AGAINST_SETTING = "plain-against-setting", "Plain blocks do not suit the setting of the blocks."
    PLAIN_BLOCKS_PIECED = "plain-blocks-pieced", "All blocks are plain, but they are described as pieced."
    NO_PLAIN_BLOCKS = "no-plain-blocks", "Plain blocks have a cloth where there are no plain blocks."
    PATCH_TOO_SMALL = "patch-too-small", "A patch of a block is all seam allowance."
    TRIANGLES_OF_NO_SQUARE = "triangles-of-no-square", "Triangles are cut from a piece that is not a square."
    PIECING_OF_A_PLAIN_TOP = "piecing-of-a-plain-top", "Piecing is described for a top that is not pieced."
    PIECED_IS_A_RECTANGLE = "pieced-is-a-rectangle", "Blocks and borders are given for a top that is not a rectangle."

    # materials, backing and edge
    UNKNOWN_PRESET = "unknown-preset", "Neither the shop nor the presets know that name."
    INCOMPLETE_MATERIAL = (
        "incomplete-material",
        "A material, style, method or bed lacks keys that no preset gives.",
    )
    SELVAGES_TAKE_ALL = "selvages-take-all", "The two selvages are as wide as the cloth, or wider."
    CLOTH_TOO_NARROW = "cloth-too-narrow", "Too little of the cloth's width is usable for its part."
    STEP_NOT_WRITABLE = "step-not-writable", "Cloth is sold in steps that its unit of sale cannot show exactly."
    ONE_WAY_CLOTH_ACROSS = "one-way-cloth-across", "Cloth with a direction or a nap has seams that run crosswise."
    BROUGHT_TWO_WAYS = "brought-two-ways", "The customer supplies both cloth and a sewn backing."
    BROUGHT_FOR_NO_BACKING = "brought-for-no-backing", "A backing is supplied for a quilt without one."
    BROUGHT_AND_SUPPLIED = "brought-and-supplied", "The shop is to supply the backing that the customer supplies."
    BROUGHT_FOR_NO_BATTING = "brought-for-no-batting", "Pieces of a batting are supplied for a quilt without one."
    BATTING_BROUGHT_AND_SUPPLIED = (
        "batting-brought-and-supplied",
        "The shop is to supply the batting of which the customer supplies pieces.",
    )
    CHARGE_AGAINST_UNIT = (
        "charge-against-unit",
        "A roll of batting is charged by area at a price by length, or by length at a price by area.",
    )
    BINDING_OF_NO_BACKING = "binding-of-no-backing", "A binding is of the backing's cloth where there is no backing."
    AT_HAND_FOR_NOTHING = "at-hand-for-nothing", "Cloth is at hand where it is not one cloth of the top or the binding."
    AT_HAND_TWO_WAYS = "at-hand-two-ways", "Uses of one cloth give different lengths of it that are at hand."
    ON_HAND_WITHOUT_NAME = "on-hand-without-name", "Cloth or batting that is on hand has no name."
    OFFCUT_NOT_CUT = "offcut-not-cut", "An offcut is given for an edge that takes no strips, or takes other ones."
    STRAIGHT_STRIPS_ON_CURVE = (
        "straight-strips-on-curve",
        "A curved edge is bound with strips on the straight grain.",
    )
    HEM_TAKES_THE_TOP = "hem-takes-the-top", "A hem leaves nothing of the top."

    # quilting
    WASHING_OUT_OF_ORDER = "washing-out-of-order", "The least that washing takes of a quilt is more than the most."
    INCOMPLETE_STYLE = "incomplete-style", "A style lacks the height, distance or angle that its lines need."
    CROSSHATCH_ANGLE = "crosshatch-angle", "The angle of a crosshatch is not between 0 and 90."
    CHANNEL_ANGLE = "channel-angle", "Channels slant, and run neither side to side nor top to bottom."
    TIES_AGAINST_METHOD = "ties-against-method", "Ties are the style but not the method, or the reverse."
    NO_STAGE = "no-stage", "A method has no stage at all."
    STITCHING_WITHOUT_STAGE = "stitching-without-stage", "A method that stitches has no stage for the stitching."
    PASSES_OFF_THE_FRAME = "passes-off-the-frame", "A method that is not on the frame has a stage for each pass or row."
    THROAT_WITHOUT_DEPTH = "throat-without-depth", "Take-up and margin leave less than 1 in of the throat to stitch in."
    TIE_STAGE_WITHOUT_TIES = "tie-stage-without-ties", "A method that makes no ties has a stage for each tie."
    BOBBIN_STAGE_WITHOUT_BOBBINS = "bobbin-stage-without-bobbins", "A method without bobbins has a stage for each."
    STITCHING_STAGE_OF_TIES = "stitching-stage-of-ties", "A method that only ties has a stage of stitching."
    STITCHED_TWICE = "stitched-twice", "A method has two speeds of the stitching for one way of working."
    TIES_WITHOUT_STAGE = "ties-without-stage", "A method that makes ties has no stage for them."
    AREA_WITHOUT_EXTENT = "area-without-extent", "An area gives neither a share nor a part of the top."
    AREA_TWO_WAYS = "area-two-ways", "An area gives both a share and a part of the top."
    AREA_OF_NOTHING = "area-of-nothing", "An area has a share of 0 %."
    AREAS_OVER_THE_WHOLE = "areas-over-the-whole", "The shares of the areas come to more than 100 %."
    SHARES_AND_PARTS = "shares-and-parts", "Some areas are shares of the top and others are parts of it."
    NO_SUCH_PART = "no-such-part", "An area is a part that the top does not have."
    SASHING_AREA_ON_POINT = "sashing-area-on-point", "An area is the sashing of blocks on point."
    PART_TWICE = "part-twice", "Two areas are the same part of the top."

    # prices
    UNKNOWN_CURRENCY = "unknown-currency", "The currency is not a code of ISO 4217."
    NOT_PAYABLE = "not-payable", "An amount has more decimals than its currency."
    SAME_SIGNS = "same-signs", "The decimal sign and the group sign are the same."
    DEPOSIT_TWICE = "deposit-twice", "The deposit is given in two ways."
    DISCOUNT_TWICE = "discount-twice", "The discount is given both as a share and as an amount."
    PRICE_AND_STEPS = "price-and-steps", "A class of quilting has both a price and steps of size."
    NO_PRICE_NOR_STEPS = "no-price-nor-steps", "A class of quilting has neither a price nor steps of size."
    MORE_WITHOUT_STEPS = "more-without-steps", "A class of quilting has a price beyond its steps, and no steps."
    STEPS_DO_NOT_RISE = (
        "steps-do-not-rise",
        "Steps of size are missing, or do not rise from the smallest, or their prices fall.",
    )
    STEPS_WITHOUT_MORE = "steps-without-more", "Steps of size give no charge for a top beyond the last."
    NO_PIECING = "no-piecing", "Piecing is charged for a top without the blocks that it goes by."
    PRICE_OF_NO_TIES = "price-of-no-ties", "A price for each tie is used for a style without ties."
    UNKNOWN_RATE_CLASS = "unknown-rate-class", "The shop has no rate for quilting of that class."
    UNKNOWN_EXTRA = "unknown-extra", "The shop has no extra of that name."
    INCOMPLETE_EXTRA = "incomplete-extra", "An extra in the shop file lacks keys that it needs."
    EXTRA_WITHOUT_CLOTH = (
        "extra-without-cloth",
        "An order names the cloth of an extra that is not cut from cloth, or a cloth that the quilt does not have.",
    )
    MEASURE_OF_NOTHING = "measure-of-nothing", "A line names a measure of the top that it cannot be sold by."
    HOURS_NOT_SAID = "hours-not-said", "Work that is sold by the hour has neither hours nor minutes."
    UNIT_WITHOUT_FIGURE = "unit-without-figure", "A unit is changed without its figure."
    TAX_ADDED_AND_INCLUDED = "tax-added-and-included", "One tax on a class of lines is included and another is added."
    RUSH_BAND_TWICE = "rush-band-twice", "Two rush bands are for the same number of days."
    BAND_TWICE = "band-twice", "Two bands of postage reach up to the same weight."
    BANDS_DO_NOT_RISE = "bands-do-not-rise", "A band of postage lies within the band before it, or costs less."
    POSTAGE_WITHOUT_BANDS = "postage-without-bands", "Postage is asked for, and the shop has no bands of weight."
    DUE_BEFORE_DATE = "due-before-date", "The work is due before the date of the job."

    # what is asked for on the command line
    UNKNOWN_SIZE = "unknown-size", "The requested size is not a known bed, table or size."
    AMOUNT_NOT_SAID = "amount-not-said", "A size names a drop, foot, tuck or draw-up without its amount."
    SAID_TWICE = "said-twice", "A size gives its drop, foot, tuck or draw-up twice."
    BED_IS_A_RECTANGLE = "bed-is-a-rectangle", "A round or oval bed is requested."
    NO_BLOCKS_FIT = "no-blocks-fit", "No number of blocks comes near the requested size."
    CHART_WITHOUT_CLOTH = "chart-without-cloth", "A comparison of cloths has no cloth to choose."
    NO_PASSES_TO_DRAW = "no-passes-to-draw", "Pictures of passes are requested, but the quilt is not on the frame."


class Problem(NamedTuple):
    """One thing wrong: its kind, the file's name as it was given, the line and column (from 1; 0 where the whole file
    is meant), the key path, what is wrong, what would be right, and the line itself with the width to underline.

    `excerpt` is the part of a long line around the mistake; `start` is the column it begins at."""

    code: ProblemCode
    file: str
    line: int
    column: int
    path: str
    message: str
    hint: str = ""
    excerpt: str = ""
    width: int = 1
    start: int = 1


class ProblemsFound(Exception):
    """Every problem of a run, in file order. Nothing was written."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(f"{len(self.problems)} problems")
