"""The size chart of a pattern: the cloths of a design, each with its purchase in every size."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from finishcalc.comparing.cuts import Cuts, cuts_of
from finishcalc.comparing.sizes import Comparison
from finishcalc.measures.length import Length
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import BoughtFabric, Fabric
from finishcalc.plans.cloth import LAYERS, is_of_top
from finishcalc.plans.cutting.purchases import Purchase


class ChartCloth(NamedTuple):
    """A cloth of a size chart, for all the `uses` that it has in any size. `name` is the one that a file gives it, else
    empty. `purchases` has one for each size, None where that size takes none of it."""

    fabric: Fabric
    name: str
    supplied_by: Supplier
    uses: tuple[str, ...]
    purchases: tuple[Purchase | None, ...]

    def cuts(self, finest: Length) -> list[Cuts]:
        """Count its cuts in each size, up to the `finest` step a person can measure."""
        return [cuts_of(each.layouts, finest) if each else {} for each in self.purchases]

    @property
    def top_uses(self) -> tuple[str, ...]:
        """Its uses in the top."""
        return tuple(use for use in self.uses if is_of_top(use))

    @property
    def layers(self) -> tuple[str, ...]:
        """Its other uses: in the backing, in the binding and for extras."""
        return tuple(use for use in self.uses if not is_of_top(use))


class SizeChart(NamedTuple):
    """The sizes of a comparison and the cloths that they take: those of the top first, then backing and binding."""

    comparison: Comparison
    cloths: tuple[ChartCloth, ...]


def size_chart(comparison: Comparison) -> SizeChart:
    """Gather the purchases of all sizes, cloth by cloth. A cloth that is bought twice in one size, because more of what
    is there already must be had, has two rows."""
    bought = [dict(_keyed(row.result.plans.cloth)) for row in comparison.rows]
    keys = dict.fromkeys(key for purchases in bought for key in purchases)
    cloths = [_cloth([purchases.get(key) for purchases in bought]) for key in keys]
    return SizeChart(comparison, tuple(sorted(cloths, key=_place)))


def _keyed(purchases: Iterable[Purchase]) -> Iterator[tuple[tuple[str, str, Supplier, int], Purchase]]:
    """Give each purchase the key by which it is found in other sizes: its cloth, who supplies it, and which of several
    purchases of that cloth it is. Namesakes are told apart by what follows their name."""
    seen: dict[tuple[str, str, Supplier], int] = {}
    for purchase in purchases:
        cloth = (_identity(purchase.fabric), purchase.fabric.name, purchase.supplied_by)
        seen[cloth] = seen.get(cloth, 0) + 1
        yield (*cloth, seen[cloth]), purchase


def _identity(fabric: Fabric) -> str:
    return fabric.identity if isinstance(fabric, BoughtFabric) else fabric.name


def _cloth(purchases: list[Purchase | None]) -> ChartCloth:
    there = [purchase for purchase in purchases if purchase]
    fabric = there[0].fabric
    return ChartCloth(
        fabric=fabric,
        name=fabric.name if _identity(fabric).startswith('"') else "",
        supplied_by=there[0].supplied_by,
        uses=tuple(dict.fromkeys(use for purchase in there for use in purchase.uses)),
        purchases=tuple(purchases),
    )


def _place(cloth: ChartCloth) -> int:
    """Put the cloths of the top before the backing, that before the binding, and those of extras last."""
    if cloth.top_uses:
        return -1
    return min(LAYERS.index(use) if use in LAYERS else len(LAYERS) for use in cloth.layers)
