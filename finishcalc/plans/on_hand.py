"""Cloth that is at hand: what of a purchase it holds, and what is left to buy."""

from collections.abc import Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.wording.sentence import InUnit, Sentence, Value, say
from finishcalc.wording.words import in_words


class OnHand(NamedTuple):
    """The lengths of a cloth that are at hand, the length that would be `needed` without them, those of them that are
    `used`, the cut length that they `hold`, and the cut length that they are `short` of the whole."""

    lengths: tuple[InUnit, ...]
    needed: InUnit
    used: tuple[InUnit, ...]
    hold: Length
    short: Length

    @property
    def sentence(self) -> Sentence:
        """Says what is needed and whether what is at hand is enough."""
        values: dict[str, Value] = {f"have{n}": each for n, each in enumerate(self.lengths)}
        have = f"the {in_words([f'{{{name}}}' for name in values])} at hand"
        if not self.short:
            text = f"{{needed}} needed in all, for which {have} will do"
        elif self.hold:
            text = f"{{needed}} needed in all; {have} will do for all but {{short}} of it"
        else:
            text = f"{{needed}} needed in all; {have} will not do for any of it"
        return say(text, needed=self.needed, short=self.short, **values)


def held_at_hand(whole: Length, sizes: Sequence[Length], at_hand: Sequence[Length]) -> tuple[tuple[int, ...], ...]:
    """Give for each length at hand the numbers of the cut lengths that it holds: all of them for the shortest that
    holds the `whole`; else the longest are laid first, each into the longest length that holds it (first-fit
    decreasing, which never counts cloth twice and so is never short). All lengths are of washed cloth."""
    held: list[list[int]] = [[] for _ in at_hand]
    if large := [place for place, length in enumerate(at_hand) if length >= whole]:
        held[min(large, key=at_hand.__getitem__)] = list(range(len(sizes)))
        return tuple(map(tuple, held))
    rooms = list(at_hand)
    by_length = sorted(range(len(rooms)), key=rooms.__getitem__, reverse=True)
    for number in sorted(range(len(sizes)), key=sizes.__getitem__, reverse=True):
        fits = next((place for place in by_length if sizes[number] <= rooms[place]), None)
        if fits is not None:
            held[fits].append(number)
            rooms[fits] -= sizes[number]
    return tuple(tuple(sorted(numbers)) for numbers in held)


def on_hand(
    lengths: tuple[InUnit, ...], needed: InUnit, cuts: Sequence[Length], held: Sequence[Sequence[int]]
) -> OnHand:
    """Say what the lengths at hand hold of the cut lengths, of each the numbers."""
    hold = sum((cuts[number] for numbers in held for number in numbers), ZERO)
    used = tuple(length for length, numbers in zip(lengths, held, strict=True) if numbers)
    return OnHand(lengths, needed, used, hold, sum(cuts, ZERO) - hold)
