"""The studio's logo, as it is printed at the head of its papers."""

from typing import Literal, NamedTuple


class Logo(NamedTuple):
    """A studio's picture of itself: the bytes of a PNG or JPEG file."""

    kind: Literal["png", "jpeg"]
    content: bytes
