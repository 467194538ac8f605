"""Principles and bases of ACI 355.2, ACI 355.4 and European assessment: which go together, and the limits of each."""

from typing import NamedTuple

from hangpoint.core.conversions import MM_PER_INCH as MM_PER_INCH
from hangpoint.core.conversions import NEWTONS_PER_POUND as NEWTONS_PER_POUND
from hangpoint.core.conversions import PSI_PER_MPA as PSI_PER_MPA

EXPANSION = frozenset({"torque_controlled_expansion", "displacement_controlled_expansion"})
MECHANICAL = EXPANSION | {"undercut", "screw"}
CAST_IN = frozenset({"headed_cast_in", "hooked_cast_in", "cast_in_insert"})
PINS = frozenset({"driven_pin", "hammer_set_pin"})
WITHOUT_HOLE = CAST_IN | {"driven_pin"}
EXACT_DEPTH = frozenset({"displacement_controlled_expansion", "undercut"})
"""Their hole is neither shallower nor deeper: a plug is driven against its bottom, an undercut is cut from it (common
practice)."""
DRILLED = MECHANICAL | {"adhesive"}
PRINCIPLES_OF_BASIS = {
    "qualified": MECHANICAL,
    "cast_in": frozenset({"headed_cast_in", "hooked_cast_in"}),
    "adhesive": frozenset({"adhesive"}),
    "en": DRILLED | {"headed_cast_in"},
    "allowable_table": DRILLED | CAST_IN | PINS,
}
EDGE_DIAMETERS = {
    "torque_controlled_expansion": 8.0,
    "displacement_controlled_expansion": 10.0,
    "undercut": 6.0,
    "screw": 6.0,
    "adhesive": 6.0,
}
K_RANGE = {"us": (10.5, 24.0), "si": (4.4, 10.05)}

"""Of k_c by tests: a number of the other unit system lies outside."""
TAU_RANGE = {"us": (50.0, 6000.0), "si": (0.35, 41.0)}
"""Of bond stresses (common practice, no source): a number of the other unit system lies outside."""
ADHESIVE_DIAMETERS = (4.0, 20.0)
"""17.3.3: h_ef of an adhesive anchor in diameters."""
CONE_FACTORS = ((7.7, 11.0), (8.9, 12.7))
"""EN 1992-4, 7.2.1.4: k_cr,N and k_ucr,N of post-installed and of headed cast-in fasteners, for N, mm, N/mm2."""
LEAST_AGE_DAYS = 21.0
"""17.2.2: age of the concrete when an adhesive anchor is set."""

_ROUNDING = 1e-9


class Flaw(NamedTuple):
    """What is wrong: the place within the object, and what, why and what to do in words."""

    path: tuple[str | int, ...]
    reason: str


def below(value: float, limit: float) -> bool:
    """Below by more than rounding."""
    return value < limit * (1 - _ROUNDING)
