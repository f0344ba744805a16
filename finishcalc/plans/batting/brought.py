"""The customer's own batting, in one piece or several, held against what the quilt needs."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length, Overage, Size
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.materials import Batting
from finishcalc.model.project import BattingLayer
from finishcalc.model.shop import BattingSeam
from finishcalc.plans.batting.joining import Joined, join, least_missing
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import Sentence, Spare, Value, say
from finishcalc.wording.words import in_words


class BroughtBatting(NamedTuple):
    """The verdict on the `pieces` that the customer brings, with its sentence. `joined` says which of them make the
    batting, in one piece or several, and its `size` how large it is cut. Pieces that are `short` of `least`, the least
    that will do, lack so much in width and length, where there is one of them; a piece to `bring` would make it up."""

    verdict: Literal["enough", "joined", "short", "not-joined"]
    sentence: Sentence
    pieces: tuple[Size, ...]
    least: Size
    joined: Joined | None = None
    size: Size | None = None
    short: Size | None = None
    bring: Size | None = None

    @property
    def cuts(self) -> Iterator[tuple[Size, list[Size]]]:
        """Each piece that is used, with what is cut from it."""
        placed = self.joined.pieces if self.joined else ()
        for number, piece in enumerate(self.pieces):
            sizes = [Size(each.width, each.length) for each in placed if each.source == number]
            if sizes:
                yield piece, sizes


class _Wanted(NamedTuple):
    """The size that is wanted, the least that will do, and the rules for joining."""

    shape: Shape
    size: Size
    least: Size
    product: Batting
    seam: BattingSeam
    finest: Length


def check_brought(
    shape: Shape, spec: BattingLayer, overage: Overage, seam: BattingSeam, finest: Length
) -> BroughtBatting:
    """Take the fewest pieces that make a batting of the overage that is wanted, or else of the least that will do. A
    batting that is not joinable is enough in one piece or not at all."""
    least = overage.at_most(Overage.all_round(spec.least_overage))
    wanted = _Wanted(shape, shape.with_overage(overage), shape.with_overage(least), spec.product, seam, finest)
    pieces = tuple(Size(piece.width, piece.length) for piece in spec.have or ())
    for most_seams in range(seam.most_seams + 1):
        for size in (wanted.size, wanted.least):
            if joined := join(size, pieces, most_seams, seam.least_piece):
                return _made_of(pieces, joined, size, wanted)
    return _short(pieces, wanted)


def _made_of(pieces: tuple[Size, ...], joined: Joined, size: Size, wanted: _Wanted) -> BroughtBatting:
    values = _values(pieces)
    if joined.seams and not wanted.product.joinable:
        values |= {"name": wanted.product.name, "w": wanted.least.width, "l": wanted.least.length}
        text = (
            f"The batting supplied, {_listed(pieces)}, would do only if it were joined, and {{name}} cannot be joined, "
        )
        text += "because its edge does not hold: {w} x {l} in one piece is the least that will do."
        return BroughtBatting("not-joined", say(text, **values), pieces, wanted.least)
    if joined.seams:
        return BroughtBatting("joined", _joined_words(pieces, joined, size, wanted), pieces, wanted.least, joined, size)
    if size == wanted.size:
        one = (
            f": the piece of {{a{joined.pieces[0].source}}} x {{b{joined.pieces[0].source}}} alone"
            if pieces[1:]
            else ""
        )
        text = f"The batting supplied, {_listed(pieces)}, is enough{one}."
    else:
        to_spare = _to_spare(wanted.shape, pieces[joined.pieces[0].source], size, values)
        text = f"The batting supplied, {_listed(pieces)}, has {to_spare}: good."
    return BroughtBatting("enough", say(text, **values), pieces, wanted.least, joined, size)


def _joined_words(pieces: tuple[Size, ...], joined: Joined, size: Size, wanted: _Wanted) -> Sentence:
    """Say how large a batting the pieces make; of one piece that is cut and joined, what it lacks as it is."""
    values = _values(pieces) | {"seams": joined.seams, "along": joined.seam_length, "w": size.width, "l": size.length}
    seams = "{seams} seam" + "s" * (joined.seams > 1) + ", {along}"
    least = "" if size == wanted.size else ", the least that will do"
    if len(pieces) == 1:
        short = _shortage(pieces[0], wanted)
        values |= {"across": short.width, "down": short.length, "lw": wanted.least.width, "ll": wanted.least.length}
        text = (
            f"The batting supplied, {_listed(pieces)}, is {_short_words(short)}. Cut and joined edge to edge, {seams}, "
        )
        return say(text + f"it makes {{w}} x {{l}}{least}; or bring one piece of {{lw}} x {{ll}}.", **values)
    text = f"The batting supplied, {_listed(pieces)}, makes {{w}} x {{l}}{least}, joined edge to edge, {seams}."
    return say(text, **values)


def _to_spare(shape: Shape, piece: Size, size: Size, values: dict[str, Value]) -> str:
    """Say how far a piece reaches beyond the top, laid the way that the size needs it."""
    if piece.width < size.width or piece.length < size.length:
        piece = Size(piece.length, piece.width)
    values |= {"across": Spare((piece.width - shape.width) / 2), "down": Spare((piece.length - shape.length) / 2)}
    return "{across} to spare at each side and {down} at top and bottom"


def _short(pieces: tuple[Size, ...], wanted: _Wanted) -> BroughtBatting:
    """Say how much is short, and what would do: a piece to join on, and one batting for the whole."""
    least, seam = wanted.least, wanted.seam
    values = _values(pieces) | {"w": least.width, "l": least.length, "name": wanted.product.name}
    short, text = None, f"The batting supplied, {_listed(pieces)}, is "
    if len(pieces) == 1:
        short = _shortage(pieces[0], wanted)
        values |= {"across": short.width, "down": short.length}
        text += _short_words(short) + ": {w} x {l} is the least that will do. "
    else:
        text += "not enough, even if it is joined: {w} x {l} is the least that will do. "
    bring = least_missing(least, pieces, seam.most_seams, seam.least_piece) if wanted.product.joinable else None
    if bring:
        bring = Size(*(up_to_step(side, wanted.finest) for side in bring))
        values |= {"bw": bring.width, "bl": bring.length}
        text += "Bring another {bw} x {bl} of the same, to be joined edge to edge, or one piece of {w} x {l}."
    else:
        text += "Bring one piece of that size"
        text += "." if wanted.product.joinable else ": {name} cannot be joined, because its edge does not hold."
    return BroughtBatting("short", say(text, **values), pieces, least, short=short, bring=bring)


def _shortage(piece: Size, wanted: _Wanted) -> Size:
    """Give what a piece lacks, laid the way in which it lacks less."""
    ways = []
    for across, along in (piece, (piece.length, piece.width)):
        lacks = (max(wanted.least.width - across, ZERO), max(wanted.least.length - along, ZERO))
        ways.append(Size(*(up_to_step(side, wanted.finest) for side in lacks)))
    return min(ways, key=lambda lack: lack.width + lack.length)


def _short_words(short: Size) -> str:
    sides = ["{across} short in width"] if short.width else []
    sides += [("{down} in length" if short.width else "{down} short in length")] if short.length else []
    return in_words(sides)


def _values(pieces: tuple[Size, ...]) -> dict[str, Value]:
    return {f"{side}{n}": length for n, piece in enumerate(pieces) for side, length in zip("ab", piece, strict=True)}


def _listed(pieces: tuple[Size, ...]) -> str:
    return in_words([f"{{a{n}}} x {{b{n}}}" for n in range(len(pieces))])
