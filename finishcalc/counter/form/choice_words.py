"""The words that choices of the form have in a file, each with what a person calls it."""

from types import MappingProxyType

SUPPLIERS = MappingProxyType({"shop": "the studio", "customer": "the customer"})
USES = MappingProxyType(
    {
        "tablecloth": "tablecloth",
        "bed": "bed quilt",
        "crib": "crib quilt",
        "throw": "throw",
        "wall": "wall hanging",
    }
)
EDGES = MappingProxyType(
    {
        "machine": "binding, all by machine",
        "hand": "binding, the back by hand",
        "front": "binding, to the front only",
        "faced": "a facing: no binding shows",
        "hem": "hemmed",
        "none": "left as it is",
    }
)
CORNERS = MappingProxyType({"butted": "butted", "cornerstones": "with cornerstones", "mitred": "mitred"})
UNITS = MappingProxyType({"in": "inches", "cm": "centimetres"})
SHAPES = MappingProxyType({"rectangle": "with four sides", "round": "round", "oval": "oval"})
SETTINGS = MappingProxyType({"straight": "side by side", "on-point": "on point"})
SEAMS = MappingProxyType({"any": "as is thriftiest", "lengthwise": "top to bottom", "crosswise": "side to side"})
CUTS = MappingProxyType(
    {
        "crosswise": "across the cloth",
        "lengthwise": "along the cloth",
        "bias": "on the bias",
        "leftover": "from beside the backing",
    }
)
