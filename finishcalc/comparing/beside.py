"""Other sizes beside a top's own: those that are asked for, and those that tops of its use and outline usually have."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from fractions import Fraction
from typing import NamedTuple

from finishcalc.comparing.design import Design
from finishcalc.comparing.sizes import Row, row_of, size_of, target_of
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.sizes import COVERED
from finishcalc.intake.keypaths import value_at
from finishcalc.intake.presets import usual_sizes
from finishcalc.intake.resolve import Resolved
from finishcalc.intake.source import dotted
from finishcalc.measures.length import Size
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.taking import Take


class OtherSize(NamedTuple):
    """The top in another size: its row of a comparison, the `total` of that quote and the amount that this adds, and
    what to write to take it."""

    row: Row
    total: Money
    adds: Money
    take: Take


class RefusedSize(NamedTuple):
    """A size that was asked for, as it was typed, and what is wrong with it."""

    text: str
    problems: tuple[Problem, ...]


def sizes_beside(result: Finishing, most: int, asked: Iterable[str] = ()) -> Iterator[OtherSize | RefusedSize]:
    """Work out the sizes that are asked for, then usual ones, the nearest to the top's own first; no more than `most`
    in all. Each is worked out when its turn comes; a usual size that comes to one already there, or that the project
    does not allow, is left out."""
    design, shown = Design.of(result.resolved), {_outline(result.resolved)}
    texts = list(dict.fromkeys(asked))[:most]
    for text in texts:
        other = _tried(design, result, text)
        if isinstance(other, OtherSize):
            shown.add(_outline(other.row.result.resolved))
        yield other
    left = most - len(texts)
    for text in _usual_nearest_first(design) if left else ():
        other = _tried(design, result, text)
        if isinstance(other, OtherSize) and (outline := _outline(other.row.result.resolved)) not in shown:
            shown.add(outline)
            yield other
            left -= 1
            if not left:
                return


def _tried(design: Design, result: Finishing, text: str) -> OtherSize | RefusedSize:
    try:
        row = row_of(design, text)
    except ProblemsFound as error:
        return RefusedSize(text, tuple(error.problems))
    total = row.result.quote.total
    return OtherSize(row, total, total - result.quote.total, _take(design, row.keys))


def _take(design: Design, keys: Change) -> Take:
    """Write the keys of a size, with None for those that the file has and the size takes away."""
    puts = {dotted(path): value for path, value in keys.puts}
    drops = [dotted(path) for path in keys.drops if value_at(design.known.table, path) is not None]
    return {key: None for key in drops if key not in puts} | puts


def _usual_nearest_first(design: Design) -> list[str]:
    """Give the usual sizes, the nearest to the top's own by area first."""
    own = _area(_outline(design.unchanged))
    areas: dict[str, Fraction] = {}
    for text in _usual(design):
        with suppress(ProblemsFound):
            areas[text] = _area(_outline(target_of(design, size_of(design, text))))
    return sorted(areas, key=lambda text: abs(areas[text] - own))


def _usual(design: Design) -> list[str]:
    """Give the sizes that tops of this use and outline usually have, after those of the shop's own beds or tables."""
    top = design.unchanged.project.top
    covered = {"bed": "bed", "tablecloth": "table"}.get(top.use)
    own = design.unchanged.layers.names(COVERED[covered]) if covered else []
    return [*own, *usual_sizes(top.use, top.shape, design.unchanged.project.units)]


def _outline(resolved: Resolved) -> tuple[str, Size]:
    top = resolved.project.top
    return top.shape, Size(top.width, top.length)


def _area(outline: tuple[str, Size]) -> Fraction:
    return outline[1].width.mm * outline[1].length.mm
