"""Small pictures laid out by hand, as their formats say: PNG by ISO/IEC 15948, JPEG by ITU-T T.81."""

import base64
import zlib

JPEG = base64.b64decode(
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDACgcHiMeGSgjISMtKygwPGRBPDc3PHtYXUlkkYCZlo+AjIqgtObDoKrarYqMyP/L2u71////m8H////6"
    "/+b9//j/wAALCAAIAAgBAREA/8QAFAABAAAAAAAAAAAAAAAAAAAABP/EABQQAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQEAAD8AO//Z"
)
"""A grey square of 8 x 8 pixels, which Pillow saved."""
SIGNATURE = b"\x89PNG\r\n\x1a\n"
GREY, COLOUR, OF_PALETTE, SEEN_THROUGH = 0, 2, 3, 6
END = b"IEND", b""
Chunk = tuple[bytes, bytes]


def chunk(name: bytes, data: bytes) -> bytes:
    """The length of the data, the name, the data, and the checksum of the name and the data."""
    return len(data).to_bytes(4, "big") + name + data + zlib.crc32(name + data).to_bytes(4, "big")


def head(width: int, height: int, depth: int = 8, colour: int = GREY, interlaced: int = 0) -> Chunk:
    return b"IHDR", width.to_bytes(4, "big") + height.to_bytes(4, "big") + bytes([depth, colour, 0, 0, interlaced])


def pixels(rows: bytes) -> Chunk:
    return b"IDAT", zlib.compress(rows)


def png_of(*chunks: Chunk) -> bytes:
    return SIGNATURE + b"".join(chunk(*each) for each in chunks)


PNG = png_of(head(2, 3), pixels(bytes(3 * (1 + 2))), END)
"""Grey, 2 x 3 pixels of a byte: three rows, each with the number of its filter before it."""


def with_size(jpeg: bytes, width: int, height: int) -> bytes:
    """The same JPEG, whose frame claims another size: height and width follow its length and its depth of 8 bits."""
    at = jpeg.index(b"\xff\xc0") + 5
    return jpeg[:at] + height.to_bytes(2, "big") + width.to_bytes(2, "big") + jpeg[at + 4 :]
