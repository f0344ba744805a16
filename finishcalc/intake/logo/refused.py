"""Tells why a picture is refused."""

from finishcalc.problems import ProblemCode

MOST_PIXELS = 4000
"""The most pixels of a side: a sheet's whole width at 470 to the inch, twice as fine as office printers draw."""
NAME_ONE = "name a PNG or JPEG picture, or save this as one"
SAVE_AGAIN = "save it again as PNG or JPEG"


class PictureRefused(Exception):
    """Tells why a picture cannot be printed: the code, what is wrong, and the mend."""

    def __init__(self, code: ProblemCode, message: str, hint: str) -> None:
        super().__init__(message)
        self.code, self.hint = code, hint


def cut_off() -> PictureRefused:
    """The refusal of a picture that ends too early."""
    return PictureRefused(ProblemCode.DAMAGED_PICTURE, "is cut off before its end", "copy it again, or " + SAVE_AGAIN)


def damaged() -> PictureRefused:
    """The refusal of a picture that is not laid out as its format says."""
    return PictureRefused(ProblemCode.DAMAGED_PICTURE, "is damaged and cannot be read", SAVE_AGAIN)


def refuse_size(width: int, height: int) -> None:
    """Refuse a picture without pixels, or with too many. Raises PictureRefused."""
    if not (0 < width <= MOST_PIXELS and 0 < height <= MOST_PIXELS):
        message, hint = f"is {width} x {height} pixels", f"use 1 to {MOST_PIXELS} pixels each way"
        raise PictureRefused(ProblemCode.PICTURE_OUT_OF_BOUNDS, message, hint)
