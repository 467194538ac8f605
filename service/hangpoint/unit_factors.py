"""Factors between units, by pint, which is used nowhere else."""

from typing import Any, cast

import pint

_DEFINITIONS = """
meter = [length]
second = [time]
gram = [mass]
milli- = 1e-3
centi- = 1e-2
kilo- = 1e3
mega- = 1e6
inch = 0.0254 meter
foot = 12 inch
pound = 0.45359237 kilogram
standard_gravity = 9.80665 meter / second ** 2
pound_force = pound * standard_gravity
kip = 1000 pound_force
newton = kilogram * meter / second ** 2
pascal = newton / meter ** 2
psi = pound_force / inch ** 2
ksi = 1000 psi
liter = 1e-3 meter ** 3
fluid_ounce = 231 / 128 inch ** 3
"""
"""Exact by definition (NIST SP 811, appendix B). The whole table of pint costs every start of a command 0.2 s."""

_registry: Any = cast(Any, pint).UnitRegistry(_DEFINITIONS.strip().splitlines(), cache_folder=None)


def factor(unit: str, core: str) -> float:
    """How many of one unit the other is; both are expressions of the units defined here.

    Raises:
        pint.PintError: an unknown unit, or two of different dimensions.
    """
    return float(_registry.parse_expression(unit).to(core).magnitude)
