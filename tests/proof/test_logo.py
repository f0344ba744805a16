"""Logos, against programs from outside: whatever Pillow saves is taken, and typst prints whatever is taken."""

from contextlib import suppress
from io import BytesIO
from itertools import product
from typing import Any

import pytest

from finishcalc.intake.logo.reading import kind_of_picture
from finishcalc.intake.logo.refused import PictureRefused
from finishcalc.model.logo import Logo
from finishcalc.rendering.pages.page import Head, Page
from finishcalc.rendering.writers.typst import pages_pdf
from tests.intake.test_logo import TAKEN
from tests.pictures_by_hand import JPEG

Image = pytest.importorskip("PIL.Image")
pytest.importorskip("typst")

SIZES = [(1, 1), (7, 9), (123, 45)]
WAYS: dict[str, list[dict[str, Any]]] = {
    "JPEG": [{}, {"progressive": True}, {"optimize": True}, {"subsampling": 0}, {"restart_marker_blocks": 3}],
    "PNG": [{}, {"optimize": True}, {"compress_level": 0}, {"dpi": (300, 300)}],
}
COLOURS = {"JPEG": ["RGB", "L", "CMYK"], "PNG": ["RGB", "L", "RGBA", "LA", "1", "P", "I;16"]}


def saved(form: str, colours: str, size: tuple[int, int], **how: Any) -> bytes:
    """Noise, which uses every code of a picture's tables."""
    noise = Image.effect_noise(size, 80)
    picture = noise if colours == "I;16" else noise.convert("RGB")
    file = BytesIO()
    picture.convert(colours).save(file, form, **how)
    return file.getvalue()


def printed(content: bytes) -> bytes:
    return pages_pdf([Page(Head("Quote", "t", logo=Logo(kind_of_picture(content), content)), ())])


@pytest.mark.parametrize("form", WAYS)
def test_what_pillow_saves_is_taken(form: str):
    for colours, size, how, quality in product(COLOURS[form], SIZES, WAYS[form], (5, 95)):
        content = saved(form, colours, size, **how, **({"quality": quality} if form == "JPEG" else {}))
        assert kind_of_picture(content) == form.lower()


@pytest.mark.parametrize("form", WAYS)
def test_what_pillow_saves_is_printed(form: str):
    for colours, how in product(COLOURS[form], WAYS[form]):
        assert printed(saved(form, colours, SIZES[-1], **how)).startswith(b"%PDF")


@pytest.mark.parametrize("content", TAKEN.values(), ids=TAKEN)
def test_a_png_that_is_taken_is_printed(content: bytes):
    assert printed(content).startswith(b"%PDF")


def test_a_damaged_jpeg_that_is_taken_is_printed():
    """Each byte with another bit changed: what is not refused has all that it takes to print it."""
    tried = 0
    for place, byte in enumerate(JPEG):
        with suppress(PictureRefused):
            kind_of_picture(damaged := JPEG[:place] + bytes([byte ^ 1 << place % 8]) + JPEG[place + 1 :])
            assert printed(damaged).startswith(b"%PDF")
            tried += 1
    assert tried > 50
