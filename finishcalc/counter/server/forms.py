"""Reads the body of a form as a browser sends it."""

from urllib.parse import parse_qsl

MOST_FIELDS = 200
"""The most fields that a form may have; the page has far fewer."""

URLENCODED = b"application/x-www-form-urlencoded"


def form_fields(body: bytes) -> list[tuple[str, str]]:
    """Give the fields in order, each name with its text, whose lines end in "\\n" as in our files. Raises ValueError
    for too many of them."""
    pairs = parse_qsl(
        body.decode("utf-8", "replace"), keep_blank_values=True, errors="replace", max_num_fields=MOST_FIELDS
    )
    return [(name, text.replace("\r\n", "\n").replace("\r", "\n")) for name, text in pairs]
