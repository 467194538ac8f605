"""Lengths as an installer reads them: the product's unit first, because a bit of 12 mm is no bit of 0.472 in."""

from fractions import Fraction
from math import ceil, isclose

from hangpoint.product.fields import Units
from hangpoint.product.principles import MM_PER_INCH

_FINEST = 64
_SAME = 1e-9


def inches_text(value: float) -> str:
    """A length in inches as a mixed fraction of 1/64 where it is one, else with three decimals."""
    nearest = Fraction(round(value * _FINEST), _FINEST)
    if not isclose(float(nearest), value, rel_tol=_SAME):
        return f"{value:.3f} in"
    whole, rest = divmod(nearest.numerator, nearest.denominator)
    if not rest:
        return f"{whole} in"
    return f"{whole}-{rest}/{nearest.denominator} in" if whole else f"{rest}/{nearest.denominator} in"


def millimetres_text(value: float) -> str:
    """A length in millimetres with a decimal at most."""
    return f"{round(value, 1):g} mm"


def length_text(value: float, *, units: Units, system: Units, least: bool = False) -> str:
    """A length in the unit of its product, and in that of the request behind it where that is another.

    ``least``: it is a least one, so a converted figure is never below it.
    """
    own = inches_text(value) if units == "us" else millimetres_text(value)
    if units == system:
        return own
    if least:
        return f"{own} (= {_least_text(value, system)})"
    other = millimetres_text(value * MM_PER_INCH) if system == "si" else f"{value / MM_PER_INCH:.3f} in"
    return f"{own} (= {other})"


def _least_text(value: float, system: Units) -> str:
    """A least length of the other system with as many decimals, rounded up."""
    if system == "si":
        return f"{ceil(value * MM_PER_INCH * 10 * (1 - _SAME)) / 10:g} mm"
    return f"{ceil(value / MM_PER_INCH * 1000 * (1 - _SAME)) / 1000:.3f} in"


def in_system(value: float, *, units: Units, system: Units) -> float:
    """A length in the unit of a system; untouched where it is stated in it."""
    if units == system:
        return value
    return value * MM_PER_INCH if system == "si" else value / MM_PER_INCH
