"""Weights that a request states as a mass."""

from typing import Any

from hangpoint.units import PRINTED, QuantityKind, System


def is_mass(value: Any, kind: QuantityKind, system: System) -> bool:
    """Whether a weight, also one per length or area, is stated in kg; a bare number has the unit of its system."""
    return "kg" in (value if isinstance(value, str) else PRINTED[system][kind.name] if value is not None else "")
