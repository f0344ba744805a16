"""Cloth that is at hand: what of a purchase it holds, and what is left to buy."""

from collections.abc import Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.wording.sentence import InUnit, Sentence, Value, say
from finishcalc.wording.words import in_words


class OnHand(NamedTuple):
    """The lengths of a cloth that are at hand, the length that would be `needed` without them, the cut length that they
    `hold`, and the cut length that they are `short` of the whole."""

    lengths: tuple[InUnit, ...]
    needed: InUnit
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


def left_to_buy(whole: Length, sizes: Sequence[Length], at_hand: Sequence[Length]) -> tuple[int, ...]:
    """Give the numbers of the cut lengths that must be bought: none where one length at hand holds the `whole`; else
    those that find no room when the longest are laid first, each into the first length that holds it (first-fit
    decreasing, which never counts cloth twice and so is never short). All lengths are of washed cloth."""
    if any(length >= whole for length in at_hand):
        return ()
    rooms, left = sorted(at_hand, reverse=True), []
    for number in sorted(range(len(sizes)), key=lambda number: sizes[number], reverse=True):
        fits = next((place for place, room in enumerate(rooms) if sizes[number] <= room), None)
        if fits is None:
            left.append(number)
        else:
            rooms[fits] -= sizes[number]
    return tuple(sorted(left))


def on_hand(lengths: tuple[InUnit, ...], needed: InUnit, cuts: Sequence[Length], left: Sequence[int]) -> OnHand:
    """Say what the lengths at hand hold of the cut lengths, of which those `left` are bought."""
    short = sum((cuts[number] for number in left), ZERO)
    return OnHand(lengths, needed, sum(cuts, ZERO) - short, short)
