"""The key that each caution is about, so that a page can tell it beside the field."""

from collections.abc import Mapping
from types import MappingProxyType

KEYS: Mapping[str, str] = MappingProxyType(
    {
        "backing-accepted": "backing.have",
        "backing-enough": "backing.have",
        "backing-refused": "backing.have",
        "backing-short": "backing.have",
        "backing-strip": "backing.have",
        "backing-without-binding": "backing.have",
        "batting-enough": "batting.have",
        "batting-joined": "batting.have",
        "batting-not-joined": "batting.have",
        "batting-short": "batting.have",
        "batting-too-small": "batting.product",
        "bolt-too-short": "backing.fabric",
        "border-repeat": "top.borders",
        "borders-wave": "top.measured",
        "broken-pile": "backing.fabric",
        "candles": "top.use",
        "centre-panel": "backing.centre",
        "corners-reach-the-floor": "top.covers.drop",
        "crib-drop": "top.covers.drop",
        "due-before-lead": "job.due",
        "due-on-closed-day": "job.due",
        "extra-too-short": "charges.extras",
        "extra-too-wide": "charges.extras",
        "extra-without-cloth": "charges.extras",
        "frame-too-narrow": "quilting.method",
        "hem-on-a-curve": "binding.attach",
        "label-law": "",
        "lines-too-far-apart": "quilting.style",
        "loaded-sideways": "quilting.method",
        "many-seams": "backing.fabric",
        "mattress-shows": "top.covers.drop",
        "may-not-turn": "quilting.style",
        "namesakes": "",
        "no-iron": "backing.fabric",
        "no-leftover": "binding.cut",
        "not-as-picked": "backing.seam_count",
        "nothing-to-stitch": "quilting.style",
        "offcut-not-used": "binding.offcut",
        "one-way": "backing.fabric",
        "parcel-too-heavy": "charges.postage",
        "patches-over-block": "top.blocks.patches",
        "pattern-too-high": "quilting.style",
        "postage-not-known": "charges.postage",
        "print-in-the-mitres": "top.borders",
        "reaches-the-floor": "top.covers.drop",
        "rotary-cutter": "",
        "safe-sleep": "top.use",
        "sample-currency": "",
        "seam-near-edge": "backing.seams",
        "second-length": "",
        "skewed": "top.measured",
        "slanted-one-way": "top.blocks.fabric",
        "small-overage": "backing.overage",
        "squares-too-wide": "top.blocks.size",
        "tax": "",
        "thread-not-charged": "quilting.method",
        "throat-is-nominal": "quilting.method",
        "triangles-one-way": "top.blocks.fabric",
        "word-taken": "",
        "work-past-due": "job.due",
    }
)
"""The key that each caution is about, by its code; empty for one of the whole quote, which may be about any cloth,
price or word of the file."""


def key_of_caution(code: str) -> str:
    """Give the key that a caution is about; empty where it is about the whole quote."""
    return KEYS[code]
