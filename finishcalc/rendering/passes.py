"""The passes on the loaded quilt, as a picture: the rollers run along its upper and lower edges."""

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.notation import Notation
from finishcalc.plans.finishing import Plans
from finishcalc.plans.loading import Loading
from finishcalc.rendering.picture import Outline, Picture, Tile
from finishcalc.rendering.words import counted


def passes_picture(plans: Plans, notation: Notation) -> Picture | None:
    """The top as it lies between the rollers, a band for each pass; None off the frame."""
    plan, shape = plans.quilting, plans.top.shape
    loading = plan.loading
    if not loading:
        return None
    bands = _bands(loading, plan.style.row_pitch)
    tiles = tuple(
        Tile(
            ZERO, start, loading.across, end - start,
            f"pass {number}", notation.show(end - start), "piece", "",
        )
        for number, (start, end) in enumerate(bands, start=1)
    )  # fmt: skip
    curved = shape.name != "rectangle"
    outline = Outline(ZERO, ZERO, loading.across, loading.down, curved, shape.corner)
    rows = f", {counted(loading.rows, 'row')}" if loading.rows is not None else ""
    way = "upright" if loading.way == "upright" else "sideways, its top at the left"
    description = f"{counted(loading.passes, 'band')}{rows}, loaded {way}; {notation.show(loading.along)} of backing"
    title = "The passes"
    return Picture(title, f"{description} along the rollers", loading.across, loading.down, tiles, outline)


def _bands(loading: Loading, pitch: Length | None) -> list[tuple[Length, Length]]:
    """From where to where each pass is sewn: whole rows, or as much as the passes share out evenly; the last ends with
    the top."""
    each = pitch * loading.rows_each if pitch and loading.rows_each else loading.down / loading.passes
    starts = [each * number for number in range(loading.passes)]
    return [(start, min(start + each, loading.down)) for start in starts if start < loading.down]
