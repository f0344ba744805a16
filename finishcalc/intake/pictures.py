"""Checks the bytes of a PNG or JPEG picture, so that whatever prints it later can read it.

A picture is walked from its signature to its end mark, as its format lays it out: PNG by ISO/IEC 15948, JPEG by ITU-T
T.81. A PNG's pixels are counted as they are unpacked, a piece at a time, because a small file may unpack to gigabytes.
"""

import zlib
from collections.abc import Iterator
from functools import lru_cache
from itertools import chain, repeat
from typing import Literal

from finishcalc.problems import ProblemCode

MOST_PIXELS = 4000
"""The most pixels of a side: a sheet's whole width at 470 to the inch, twice as fine as office printers draw."""
PNG, JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"
SAVE_AGAIN = "save it again as PNG or JPEG"


class PictureRefused(Exception):
    """Tells why a picture cannot be printed: the code, what is wrong, and the mend."""

    def __init__(self, code: ProblemCode, message: str, hint: str) -> None:
        super().__init__(message)
        self.code, self.hint = code, hint


@lru_cache(maxsize=8)
def kind_of_picture(content: bytes) -> Literal["png", "jpeg"]:
    """Give the kind of a picture that is whole and of a sensible size. Raises PictureRefused."""
    if content.startswith(PNG):
        _check_png(content)
        return "png"
    if content.startswith(JPEG):
        _check_jpeg(content)
        return "jpeg"
    raise PictureRefused(ProblemCode.NOT_A_PICTURE, "is neither a PNG nor a JPEG picture", SAVE_AGAIN)


def _cut_off() -> PictureRefused:
    return PictureRefused(ProblemCode.DAMAGED_PICTURE, "is cut off before its end", "copy it again, or " + SAVE_AGAIN)


def _damaged() -> PictureRefused:
    return PictureRefused(ProblemCode.DAMAGED_PICTURE, "is damaged and cannot be read", SAVE_AGAIN)


def _refuse_size(width: int, height: int) -> None:
    if not (0 < width <= MOST_PIXELS and 0 < height <= MOST_PIXELS):
        message, hint = f"is {width} x {height} pixels", f"use 1 to {MOST_PIXELS} pixels each way"
        raise PictureRefused(ProblemCode.PICTURE_OUT_OF_BOUNDS, message, hint)


# --- PNG ---------------------------------------------------------------------------------------------------------

CHANNELS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}
"""The samples of a pixel, by the type of colour: grey, colour, of a palette, grey and colour with transparency."""
DEPTHS = {0: (1, 2, 4, 8, 16), 2: (8, 16), 3: (1, 2, 4, 8), 4: (8, 16), 6: (8, 16)}
"""The bits a sample may have, by the type of colour."""
WHOLE = ((0, 0, 1, 1),)
ADAM7 = ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2))
"""The passes of an interlaced picture: the first column and row of each, and the steps to the next ones."""
PIECE = 1 << 20


def _check_png(content: bytes) -> None:
    chunks = list(_chunks(content))
    name, head = chunks[0]
    if name != b"IHDR" or len(head) != 13:
        raise _damaged()
    width, height = int.from_bytes(head[:4]), int.from_bytes(head[4:8])
    _refuse_size(width, height)
    names = [name for name, _ in chunks]
    if b"acTL" in names:
        hint = "save one still picture of it as PNG"
        raise PictureRefused(ProblemCode.ANIMATED_PICTURE, "is animated, and paper is not", hint)
    depth, colour, packing, filtering, interlaced = head[8:]
    if depth not in DEPTHS.get(colour, ()) or packing or filtering or interlaced > 1:
        raise _damaged()
    if colour == 3 and b"PLTE" not in names:
        raise _damaged()
    rows = _row_lengths(width, height, depth * CHANNELS[colour], bool(interlaced))
    _check_rows(b"".join(data for name, data in chunks if name == b"IDAT"), rows)


def _chunks(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Give each chunk's name and data, up to the one that ends the picture."""
    at, name = len(PNG), b""
    while name != b"IEND":
        end = at + 8 + int.from_bytes(content[at : at + 4])
        name = content[at + 4 : at + 8]
        if end + 4 > len(content):
            raise _cut_off()
        if zlib.crc32(content[at + 4 : end]) != int.from_bytes(content[end : end + 4]):
            raise _damaged()
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
            raise _damaged() from None
        while start < position + len(piece):
            length = next(rows, None)
            if length is None:
                return
            if piece[start - position] > 4:
                raise _damaged()
            start += length
        position, packed = position + len(piece), unpacking.unconsumed_tail
        if not piece and not packed:
            break
    if start > position or next(rows, None) is not None:
        raise _cut_off()


# --- JPEG --------------------------------------------------------------------------------------------------------

FRAMES = {0xC0, 0xC1, 0xC2}
"""The marks of frames that programs commonly read: baseline, extended and progressive."""
OTHER_FRAMES = set(range(0xC3, 0xD0)) - {0xC4, 0xC8, 0xCC}
SCAN, END = 0xDA, 0xD9
WITHIN_SCANS = {0x00, *range(0xD0, 0xD8)}
"""The bytes after a 255 that is a scan's own: a stuffed 0, and the marks at which decoding may begin anew."""


def _check_jpeg(content: bytes) -> None:
    marks = []
    for mark, segment in _segments(content):
        marks.append(mark)
        if mark in OTHER_FRAMES:
            hint = "save it again as an ordinary JPEG, or as PNG"
            raise PictureRefused(ProblemCode.NOT_A_PICTURE, "is a JPEG of a kind that few programs read", hint)
        if mark in FRAMES:
            _check_frame(segment)
        if mark == SCAN and not FRAMES & set(marks):
            raise _damaged()
    if SCAN not in marks:
        raise _damaged()


def _check_frame(segment: bytes) -> None:
    if len(segment) < 6 or segment[0] != 8 or segment[5] not in (1, 3, 4) or len(segment) != 6 + 3 * segment[5]:
        raise _damaged()
    _refuse_size(int.from_bytes(segment[3:5]), int.from_bytes(segment[1:3]))


def _segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    """Give each segment's mark and data, up to the mark that ends the picture."""
    at = 2
    while True:
        while content[at : at + 2] == b"\xff\xff":  # marks may be preceded by any number of these
            at += 1
        if at + 2 > len(content):
            raise _cut_off()
        mark = content[at + 1]
        if content[at] != 0xFF or mark in WITHIN_SCANS:
            raise _damaged()
        if mark == END:
            return
        length = int.from_bytes(content[at + 2 : at + 4])
        end = at + 2 + length
        if end > len(content):
            raise _cut_off()
        if length < 2:
            raise _damaged()
        yield mark, content[at + 4 : end]
        at = _end_of_scan(content, end) if mark == SCAN else end


def _end_of_scan(content: bytes, at: int) -> int:
    """Give the place of the first mark after the data of a scan."""
    while True:
        at = content.find(b"\xff", at)
        if at < 0 or at + 1 >= len(content):
            raise _cut_off()
        if content[at + 1] not in WITHIN_SCANS:
            return at
        at += 2
