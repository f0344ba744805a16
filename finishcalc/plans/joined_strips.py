"""Strips joined end to end: what a join takes, and how many strips a length needs."""

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up


def join_allowance(join: str, width: Length, seam: Length) -> Length:
    """A diagonal join takes the strip's width of its length, a straight one two seam allowances (derived)."""
    return width if join == "diagonal" else seam * 2


def strips_needed(length: Length, strip: Length, allowance: Length) -> int:
    """Count the fewest strips n with n x strip - (n - 1) x allowance >= length."""
    return max(1, up((length - allowance) / (strip - allowance)))
