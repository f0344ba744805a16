"""The three places where a figure is rounded, and no others.

1. `up_to_step`: what is bought, up to the step in which it is sold.
2. `printed`: a quantity on a price line, half up to its unit's printed step, before it is multiplied.
3. `half_up`: money, half up to the currency's minor unit, when a line is made.

`nearest_step` and `down_to_step` are none of them: they give the size that a block is trimmed to, and what somebody has
left, which is neither bought nor charged.

Halves go away from zero, so that a discount is the mirror of what it takes off.
"""

from fractions import Fraction

from finishcalc.measures.length import Length

PRINTED_STEP = {
    "yd": Fraction(1, 1000),
    "m": Fraction(1, 1000),
    "ft": Fraction(1, 100),
    "in": Fraction(1, 10),
    "cm": Fraction(1, 10),
    "mm": Fraction(1),
    "sq in": Fraction(1),
    "sq cm": Fraction(1),
    "sq ft": Fraction(1, 100),
    "sq yd": Fraction(1, 100),
    "sq m": Fraction(1, 100),
    "sq mm": Fraction(1),
    "hour": Fraction(1, 100),
    "each": Fraction(1, 100),
    "tie": Fraction(1),
    "seam": Fraction(1, 100),
    "block": Fraction(1),
    "bobbin": Fraction(1),
    "cone": Fraction(1),
    "colour": Fraction(1),
}
"""The step to which a quantity of each unit is printed. A thousandth of a yard holds every eighth."""


def is_printable(length: Length, unit: str) -> bool:
    """Tell a length that is printed in a unit as it is, without rounding."""
    return (length.to(unit) / PRINTED_STEP[unit]).denominator == 1


def unit_to_print(step: Length, per: str) -> str:
    """The unit that lengths sold by this step are printed and charged in: the unit `per` which they are priced, or
    where the step is not printed in that as it is, one in which it is: the inch, where a yard's price is cut by the
    inch."""
    return next((unit for unit in (per, "in", "cm", "mm") if is_printable(step, unit)), per)


FINEST = {"in": Length.of(Fraction(1, 8), "in"), "cm": Length.of(1, "mm")}
"""The finest step that a person measures in when cutting, by the project's units."""


def up(value: Fraction) -> int:
    """The least whole number that is not below `value`."""
    return -(-value.numerator // value.denominator)


def half_up(value: Fraction) -> int:
    """The nearest whole number, halves away from zero."""
    above, below = value.numerator, value.denominator
    rounded = (2 * abs(above) + below) // (2 * below)
    return rounded if above >= 0 else -rounded


def up_to_step(length: Length, step: Length) -> Length:
    """The least whole number of steps that is not below `length`."""
    return step * -(-length // step)


def down_to_step(length: Length, step: Length) -> Length:
    """The greatest whole number of steps that is not above `length`: what is left over, as a ruler shows it."""
    return step * (length // step)


def nearest_step(length: Length, step: Length) -> Length:
    """The nearest whole number of steps: a size that is trimmed to, not one that must be covered."""
    return step * half_up(length / step)


def printed(quantity: Fraction, unit: str) -> Fraction:
    """A quantity as it will be printed, in `unit` (a key of PRINTED_STEP)."""
    step = PRINTED_STEP[unit]
    return half_up(quantity / step) * step


def shared_out(quantities: list[Fraction], unit: str) -> list[Fraction]:
    """Quantities that are parts of one, each as it will be printed, so that they add up to their printed sum: cut off
    at the step, with the steps left over to the largest remainders, the earlier of two equal ones first (Hamilton's
    method)."""
    step = PRINTED_STEP[unit]
    counts = [quantity // step for quantity in quantities]
    left = half_up(sum(quantities, Fraction(0)) / step) - sum(counts)
    by_remainder = sorted(range(len(counts)), key=lambda n: counts[n] - quantities[n] / step)
    for n in by_remainder[:left]:
        counts[n] += 1
    return [count * step for count in counts]
