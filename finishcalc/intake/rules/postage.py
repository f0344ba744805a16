"""The rules about postage: bands that rise in weight and price, where postage is asked for."""

from itertools import pairwise

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.rules.check import Check
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Heavy

BANDS: KeyPath = ("postage",)


def bands_rise(check: Check) -> None:
    """Each band reaches higher than the one before, and costs no less."""
    bands = given(check.tables.postage)
    for number, (before, band) in enumerate(pairwise(bands.value if bands else ()), start=1):
        up_to = Notation(check.units).show(Heavy(before.up_to)).replace(NO_BREAK, " ")
        if band.up_to == before.up_to:
            message, hint = f"there are two bands up to {up_to}", "keep one of them"
            check.wrong(ProblemCode.BAND_TWICE, [BANDS], message, hint, within=(number, "up_to"))
        elif band.up_to < before.up_to:
            message, hint = f"lies within the band before it, up to {up_to}", "give the lightest band first"
            check.wrong(ProblemCode.BANDS_DO_NOT_RISE, [BANDS], message, hint, within=(number, "up_to"))
        elif band.price < before.price:
            message = f"costs less than the band before it, up to {up_to}"
            hint = "give a heavier parcel a price that is no less"
            check.wrong(ProblemCode.BANDS_DO_NOT_RISE, [BANDS], message, hint, within=(number, "price"))


def postage_has_bands(check: Check) -> None:
    """A shop that posts a quilt has bands."""
    bands = given(check.tables.postage)
    if check.tables.charges.postage and bands is not None and not bands.value:
        hint = 'add [[postage]] with up_to = "5 lb" and price = 14 to the shop file, or leave it out'
        message = "postage is asked for, and the shop has no bands of weight"
        check.wrong(ProblemCode.POSTAGE_WITHOUT_BANDS, [("charges", "postage")], message, hint)
