"""Checks a PNG as ISO/IEC 15948 lays it out, so that whatever prints it later can read it.

The checksum of each chunk is worked out, and the pixels are unpacked a piece at a time and counted, because a small
file may unpack to gigabytes.
"""

import zlib
from collections.abc import Iterator
from itertools import chain, repeat

from finishcalc.intake.logo.refused import PictureRefused, cut_off, damaged, refuse_size
from finishcalc.problems import ProblemCode

SIGNATURE = b"\x89PNG\r\n\x1a\n"
CHANNELS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}
"""The samples of a pixel, by the type of colour: grey, colour, of a palette, grey and colour with transparency."""
DEPTHS = {0: (1, 2, 4, 8, 16), 2: (8, 16), 3: (1, 2, 4, 8), 4: (8, 16), 6: (8, 16)}
"""The bits a sample may have, by the type of colour."""
WHOLE = ((0, 0, 1, 1),)
ADAM7 = ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2))
"""The passes of an interlaced picture: the first column and row of each, and the steps to the next ones."""
PIECE = 1 << 20
"""The most bytes that are unpacked at once."""


def check_png(content: bytes) -> None:
    """Walk a PNG from its signature to its end mark, and unpack its pixels. Raises PictureRefused."""
    chunks = list(_chunks(content))
    name, head = chunks[0]
    if name != b"IHDR" or len(head) != 13:
        raise damaged()
    width, height = int.from_bytes(head[:4]), int.from_bytes(head[4:8])
    refuse_size(width, height)
    names = [name for name, _ in chunks]
    if b"acTL" in names:
        hint = "save one still picture of it as PNG"
        raise PictureRefused(ProblemCode.ANIMATED_PICTURE, "is animated, and paper is not", hint)
    depth, colour, packing, filtering, interlaced = head[8:]
    if depth not in DEPTHS.get(colour, ()) or packing or filtering or interlaced > 1:
        raise damaged()
    if colour == 3 and b"PLTE" not in names:
        raise damaged()
    rows = _row_lengths(width, height, depth * CHANNELS[colour], bool(interlaced))
    _check_rows(b"".join(data for name, data in chunks if name == b"IDAT"), rows)


def _chunks(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Give each chunk's name and data, up to the one that ends the picture."""
    at, name = len(SIGNATURE), b""
    while name != b"IEND":
        end = at + 8 + int.from_bytes(content[at : at + 4])
        name = content[at + 4 : at + 8]
        if end + 4 > len(content):
            raise cut_off()
        if zlib.crc32(content[at + 4 : end]) != int.from_bytes(content[end : end + 4]):
            raise damaged()
        yield name, content[at + 8 : end]
        at = end + 4


def _row_lengths(width: int, height: int, bits: int, interlaced: bool) -> Iterator[int]:
    """Give the bytes of each row of each pass: the number of its filter, then its pixels of so many bits."""
    passes = []
    for column, row, across, down in ADAM7 if interlaced else WHOLE:
        wide, high = -(-(width - column) // across), -(-(height - row) // down)
        if wide > 0 and high > 0:
            passes.append(repeat(1 + (wide * bits + 7) // 8, high))
    return chain.from_iterable(passes)


def _check_rows(packed: bytes, rows: Iterator[int]) -> None:
    """Unpack the pixels, and see that there are all rows and that each is filtered in one of the five ways."""
    unpacking, position, start = zlib.decompressobj(), 0, 0
    while True:
        try:
            piece = unpacking.decompress(packed, PIECE)
        except zlib.error:
            raise damaged() from None
        while start < position + len(piece):
            length = next(rows, None)
            if length is None:
                return
            if piece[start - position] > 4:
                raise damaged()
            start += length
        position, packed = position + len(piece), unpacking.unconsumed_tail
        if not piece and not packed:
            break
    if start > position or next(rows, None) is not None:
        raise cut_off()
