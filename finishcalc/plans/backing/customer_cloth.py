"""The customer's own cloth, in one length or several, held against what the backing needs.

Cloth that is there already is judged as a sewn backing is: an overage from the least that will do is enough, and saving
cloth gains nothing, so that the fewest seams lead.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Overage
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Backing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.supplied import SuppliedCloth
from finishcalc.plans.cloth import CutLength, before_washing, length_to_buy, sum_of_cuts, washed_length
from finishcalc.wording.sentence import InUnit, Value, say
from finishcalc.wording.words import in_words


class BindingFromBrought(NamedTuple):
    """A binding that may be cut from the cloth brought for the backing: `cut_lengths` gives those that it takes across
    the cloth, besides the strips from beside an option's pieces; `apart` is all that it takes of other cloth. The
    customer's own binding `must_fit`; else it is cut from her cloth only where it costs no seam more."""

    cut_lengths: Callable[[BackingOption], Sequence[CutLength]]
    apart: Length
    must_fit: bool


class _Placed(NamedTuple):
    """Cut lengths on the lengths brought: how much is `taken` of each, washed, and the numbers of those `missing`."""

    taken: tuple[Length, ...]
    missing: tuple[int, ...]


class _ToBring(NamedTuple):
    """The cloth to bring besides: as it is bought, `in_one_length` where nothing that was brought is of use. A `strip`
    of another print would do, cut so wide."""

    amount: Length
    in_one_length: bool
    strip: Length | None


class BroughtCloth(NamedTuple):
    """The cloth brought for a backing, and the binding to cut from it. Lengths in sentences are in steps of `finest`:
    up where cloth is missing, down where it is left."""

    spec: Backing
    lengths: tuple[InUnit, ...]
    binding: BindingFromBrought | None
    finest: Length

    @property
    def fabric(self) -> Fabric:
        """The cloth."""
        return self.spec.fabric

    def choose(self, options: Sequence[BackingOption]) -> tuple[BackingOption, SuppliedCloth]:
        """Choose, among options that may be made, one that the cloth is enough for: with seams clear of the edge, then
        with the fewest, then with the largest overage, unturned, with the shorter seams. Where it is enough for none,
        choose the one that the least cloth is missing for."""
        enough = [option for option in options if not self._place(option.cut_lengths).missing]
        with_binding = [option for option in enough if self.binding and not self._place(self._cuts(option)).missing]
        if not enough:
            least = min(options, key=lambda option: (self._missing_for(option), *_preference(option)))
            piece = min(options, key=lambda option: (self._to_bring(option).amount, *_preference(option)))
            return least, self._short(least, piece)
        chosen = min(enough, key=_preference)
        if self.binding and with_binding:
            holding = min(with_binding, key=_preference)
            if self.binding.must_fit or _preference(holding)[:2] <= _preference(chosen)[:2]:
                return holding, self._enough(holding, holds_binding=True)
        if self.binding and self.binding.must_fit:
            return chosen, self._without_binding(chosen, self.binding)
        return chosen, self._enough(chosen, holds_binding=False)

    def _cuts(self, option: BackingOption) -> list[CutLength]:
        """Give the cut lengths of the backing, then those of the binding."""
        return [*option.cut_lengths, *(self.binding.cut_lengths(option) if self.binding else ())]

    def _cuts_that_must_fit(self, option: BackingOption) -> Sequence[CutLength]:
        return self._cuts(option) if self.binding and self.binding.must_fit else option.cut_lengths

    def _place(self, cuts: Sequence[CutLength]) -> _Placed:
        """Place cut lengths on the lengths brought: first-fit decreasing, which for one length is their sum. Panels
        whose print must meet are alike, and stay in order, because the first loses no cloth."""
        rooms = [washed_length(self.fabric, each.length) for each in self.lengths]
        taken, missing = [ZERO] * len(rooms), []
        numbers = list(range(len(cuts)))
        if not self.fabric.repeat:
            numbers.sort(key=lambda number: cuts[number].length, reverse=True)
        for number in numbers:
            for length, room in enumerate(rooms):
                needed = cuts[number].length if taken[length] else cuts[number].length_on_new_bolt
                if taken[length] + needed <= room:
                    taken[length] += needed
                    break
            else:
                missing.append(number)
        return _Placed(tuple(taken), tuple(sorted(missing)))

    def _missing_for(self, option: BackingOption) -> Length:
        """Measure the shortage of one length; of several, the cut lengths that none of them holds."""
        cuts = self._cuts_that_must_fit(option)
        if len(self.lengths) == 1:
            return before_washing(self.fabric, _sum(cuts)) - self.lengths[0].length
        return _sum([cuts[number] for number in self._place(cuts).missing])

    def _enough(self, option: BackingOption, *, holds_binding: bool) -> SuppliedCloth:
        """Say that the cloth is enough, with a smaller overage where it takes one, and how much of it is left."""
        values: dict[str, Value] = {}
        text = "The " + self._brought(values) + self._are("is", "are") + " enough"
        text += ", binding and all" if holds_binding else ""
        instead = _smaller_overage(option, self.spec, values)
        text += f", with {instead}: good; " if instead else ": "
        text += self._left(self._place(self._cuts(option) if holds_binding else option.cut_lengths), values)
        return SuppliedCloth("enough", say(text + ".", **values), holds_binding=holds_binding)

    def _left(self, placed: _Placed, values: dict[str, Value]) -> str:
        """Name the rest of each length, unwashed."""
        rests = [
            each.length - before_washing(self.fabric, taken) if taken else each.length
            for each, taken in zip(self.lengths, placed.taken, strict=True)
        ]
        rests = [self.finest * (rest // self.finest) for rest in rests]
        kept = [rest for rest in rests if rest]
        if not kept:
            return "nothing will be left"
        values |= {f"left{n}" if n else "left": rest for n, rest in enumerate(kept)}
        return in_words([f"{{left{n}}}" if n else "{left}" for n in range(len(kept))]) + " will be left"

    def _without_binding(self, option: BackingOption, binding: BindingFromBrought) -> SuppliedCloth:
        """Say that the cloth makes the backing, and how much is to be had besides for the binding."""
        bring = length_to_buy(self.fabric, binding.apart)
        values: dict[str, Value] = {"bring": InUnit(bring, self.fabric.per)}
        text = "The " + self._brought(values) + self._are("makes", "make")
        text += f" the backing, with {self._option(option, values)}, but not the binding: "
        text += "{bring} is to be bought or brought for it."
        return SuppliedCloth("without-binding", say(text, **values), bring=bring)

    def _to_bring(self, option: BackingOption) -> _ToBring:
        """Work out what an option needs besides the pieces that the lengths brought hold."""
        cuts = self._cuts_that_must_fit(option)
        missing = self._place(cuts).missing
        amount = length_to_buy(self.fabric, sum_of_cuts(cuts, missing, later=True))
        return _ToBring(amount, in_one_length=len(missing) == len(cuts), strip=self._strip(option, missing))

    def _strip(self, option: BackingOption, missing: tuple[int, ...]) -> Length | None:
        """Give the width to cut a strip of another print, where nothing is missing but pieces of a band beside
        panels."""
        layout, band = option.layout, option.layout.band
        only_band = layout.panel_lengths <= missing[0] and missing[-1] < len(option.cut_lengths)
        if not (band and layout.panels and only_band):
            return None
        sewn_edges = min(layout.panels, 2)
        width = layout.grid.length(band.visible_width) + self.spec.seam_allowance * sewn_edges
        return up_to_step(width, self.finest)

    def _short(self, least: BackingOption, piece: BackingOption) -> SuppliedCloth:
        """Say how much is short of the `least` that will do and what to bring for it; then the option that needs the
        smallest `piece` besides, where that is smaller."""
        must_fit = self.binding is not None and self.binding.must_fit
        short = self._missing_for(least) if len(self.lengths) == 1 else None
        values: dict[str, Value] = {"short": up_to_step(short, self.finest)} if short else {}
        text = "The " + self._brought(values) + self._are("is", "are")
        text += (" {short} short of" if short else " not enough for") + " the least that will do"
        text += ", binding and all" if must_fit else ""
        text += f", with {self._option(least, values)}: "
        bring, smaller = self._to_bring(least), self._to_bring(piece)
        if _in_words(least) == _in_words(piece):
            bring = smaller
        text += self._needed(bring, values) + "."
        if smaller.amount < bring.amount:
            text += f" With {self._option(piece, values, 'smaller_')}: {self._needed(smaller, values, 'smaller_')}."
        return SuppliedCloth("short", say(text, **values), short=short, bring=smaller.amount, holds_binding=must_fit)

    def _option(self, option: BackingOption, values: dict[str, Value], prefix: str = "") -> str:
        """Name an option by its seams and turned pieces, and by its overage where that is smaller than wanted."""
        seams = option.layout.seams
        values[f"{prefix}seams"] = seams
        words = f"{{{prefix}seams}} seam{'s' if seams > 1 else ''}" if seams else "no seam"
        words += " and pieces cut across the grain" if option.layout.turned else ""
        instead = _smaller_overage(option, self.spec, values, prefix)
        return f"{words}, {instead}" if instead else words

    def _needed(self, bring: _ToBring, values: dict[str, Value], prefix: str = "") -> str:
        amount, strip = f"{prefix}bring", f"{prefix}strip"
        values[amount] = InUnit(bring.amount, self.fabric.per)
        text = f"{{{amount}}} " + ("in one length is needed" if bring.in_one_length else "more of the same is needed")
        if bring.strip:
            values[strip] = bring.strip
            text += f", or a strip of another print, cut {{{strip}}} wide"
        return text

    def _brought(self, values: dict[str, Value]) -> str:
        values |= {f"have{n}" if n else "have": each for n, each in enumerate(self.lengths)}
        return in_words([f"{{have{n}}}" if n else "{have}" for n in range(len(self.lengths))]) + " supplied "

    def _are(self, one: str, several: str) -> str:
        return one if len(self.lengths) == 1 else several


def _sum(cuts: Sequence[CutLength]) -> Length:
    return sum((cut.length for cut in cuts), ZERO)


def _preference(option: BackingOption) -> tuple[bool, int, Length, Length, bool, Length]:
    sides, ends = option.overage
    largest = (-min(sides, ends), -(sides + ends))
    return (not option.clear, option.layout.seams, *largest, option.layout.turned, option.layout.seam_length)


def _in_words(option: BackingOption) -> tuple[int, bool, Overage]:
    """Give all that a sentence tells of an option."""
    return option.layout.seams, option.layout.turned, option.overage


def _smaller_overage(option: BackingOption, spec: Backing, values: dict[str, Value], prefix: str = "") -> str:
    """Name the overage where it is smaller than the one that is wanted: "3 in at the sides instead of 4 in"."""
    wanted, taken = spec.overage, option.overage
    if taken.is_all_round and wanted.is_all_round:
        places = {"on every side": (taken.sides, wanted.sides)}
    else:
        places = {"at the sides": (taken.sides, wanted.sides), "at the ends": (taken.ends, wanted.ends)}
    smaller = {where: pair for where, pair in places.items() if pair[0] < pair[1]}
    for n, (less, usual) in enumerate(smaller.values()):
        values |= {f"{prefix}over{n}": less, f"{prefix}usual{n}": usual}
    words = [f"{{{prefix}over{n}}} {where} instead of {{{prefix}usual{n}}}" for n, where in enumerate(smaller)]
    return in_words(words)
