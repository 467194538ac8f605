"""Lengths as an installer reads them: the product's unit first, because a bit of 12 mm is no bit of 0.472 in."""

from fractions import Fraction
from math import ceil, floor, isclose
from typing import Literal

from hangpoint.product.fields import Units
from hangpoint.product.principles import MM_PER_INCH

Rounding = Literal["nearest", "up", "down"]
"""Which way a figure goes: a least one up, a most one down."""

_FINEST = 64
_SAME = 1e-9


def rounded(value: float, decimals: int, way: Rounding) -> float:
    """A figure that isn't negative by decimals; what a conversion may have added or taken off goes no way."""
    scale = 10**decimals
    if way == "nearest":
        return round(value, decimals)
    return (ceil(value * scale * (1 - _SAME)) if way == "up" else floor(value * scale * (1 + _SAME))) / scale


def inches_text(value: float, way: Rounding = "nearest") -> str:
    """A length in inches as a mixed fraction of 1/64 where it is one, else with three decimals."""
    nearest = Fraction(round(value * _FINEST), _FINEST)
    if not isclose(float(nearest), value, rel_tol=_SAME):
        return f"{rounded(value, 3, way):.3f} in"
    whole, rest = divmod(nearest.numerator, nearest.denominator)
    if not rest:
        return f"{whole} in"
    return f"{whole}-{rest}/{nearest.denominator} in" if whole else f"{rest}/{nearest.denominator} in"


def millimetres_text(value: float, way: Rounding = "nearest") -> str:
    """A length in millimetres with a decimal at most."""
    return f"{rounded(value, 1, way):.10g} mm"


def length_text(value: float, *, units: Units, system: Units, way: Rounding = "nearest") -> str:
    """A length in the unit of its product, and in that of the request behind it where that is another."""
    own = inches_text(value, way) if units == "us" else millimetres_text(value, way)
    if units == system:
        return own
    if system == "si":
        return f"{own} (= {millimetres_text(value * MM_PER_INCH, way)})"
    return f"{own} (= {rounded(value / MM_PER_INCH, 3, way):.3f} in)"


def in_system(value: float, *, units: Units, system: Units) -> float:
    """A length in the unit of a system; untouched where it is stated in it."""
    if units == system:
        return value
    return value * MM_PER_INCH if system == "si" else value / MM_PER_INCH
