"""Strips joined end to end: the length that a join takes, and the number of strips that a length needs."""

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up


def join_allowance(join: str, width: Length, seam: Length) -> Length:
    """Give the length that a join takes: the strip's width for a diagonal join, two seam allowances for a straight one
    (derived)."""
    return width if join == "diagonal" else seam * 2


def strips_needed(length: Length, strip: Length, allowance: Length) -> int:
    """Count the fewest strips n with n x strip - (n - 1) x allowance >= length."""
    return max(1, up((length - allowance) / (strip - allowance)))
