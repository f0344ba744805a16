"""Whole sheets, kept as a person has read them; every figure in them is worked by hand in `small-studio.toml`."""

import re

from finishcalc.commandline.views import More, quote_view
from tests.builders import GOLDEN, finished

SMALL_STUDIO = GOLDEN / "small-studio.toml"


def test_the_quote_for_a_message():
    written = quote_view(finished(SMALL_STUDIO), "customer", "markdown", 80, More())
    assert written == (GOLDEN / "small-studio.expected.md").read_text(encoding="utf-8")


def test_the_body_of_the_customer_s_sheet_in_html():
    written = str(quote_view(finished(SMALL_STUDIO), "customer", "html", 80, More()))
    body = re.search(r"<body>.*</body>\n", written, re.DOTALL)
    assert body
    assert body[0] == (GOLDEN / "small-studio.expected.html").read_text(encoding="utf-8")
