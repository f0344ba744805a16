"""The passes on the loaded quilt, as a picture: the rollers run along its upper and lower edges."""

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.quilting.frame import Loading
from finishcalc.plans.together import Plans
from finishcalc.rendering.pictures.picture import Outline, Picture, Tile
from finishcalc.rendering.pictures.svg import svg
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import counted


def passes_picture(plans: Plans, notation: Notation) -> Picture | None:
    """Draw the top as it lies between the rollers, a band for each pass; None off the frame."""
    plan, shape = plans.quilting, plans.top.shape
    loading = plan.loading
    if not loading:
        return None
    bands = _bands(loading, plan.style.row_pitch)
    tiles = tuple(
        Tile(ZERO, start, loading.across, end - start, f"pass {number}", _rows(number, loading), "")
        for number, (start, end) in enumerate(bands, start=1)
    )
    curved = shape.name != "rectangle"
    outline = Outline(ZERO, ZERO, loading.across, loading.down, curved, shape.corner)
    rows = f", {counted(loading.rows, 'row')}" if loading.rows is not None else ""
    way = "upright" if loading.way == "upright" else "sideways, its top at the left"
    description = f"{counted(loading.passes, 'band')}{rows}, loaded {way}; {notation.show(loading.along)} of backing"
    title = "The passes"
    return Picture(title, f"{description} along the rollers", loading.across, loading.down, tiles, outline)


def _rows(number: int, loading: Loading) -> str:
    """Write the rows of a pass: "row 3", "rows 5 to 6", or nothing for work that is not sewn in rows."""
    if loading.rows is None or loading.rows_each is None:
        return ""
    first, last = (number - 1) * loading.rows_each + 1, min(number * loading.rows_each, loading.rows)
    return f"row {first}" if first == last else f"rows {first} to {last}"


def passes_files(plans: Plans, notation: Notation) -> dict[str, str]:
    """Draw the picture as an SVG document, by file name; empty for a quilt that does not go on the frame."""
    picture = passes_picture(plans, notation)
    return {"passes.svg": svg(picture, notation, "passes")} if picture else {}


def _bands(loading: Loading, pitch: Length | None) -> list[tuple[Length, Length]]:
    """Divide the top into passes: whole rows each, or equal parts where it is not sewn in rows; the last ends with
    the top."""
    deep = pitch * loading.rows_each if pitch and loading.rows_each else loading.down / loading.passes
    starts = [deep * number for number in range(loading.passes)]
    return [(start, min(start + deep, loading.down)) for start in starts]
