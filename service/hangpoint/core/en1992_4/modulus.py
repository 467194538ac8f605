"""Modulus of elasticity of concrete, EN 1992-1-1 Table 3.1 (from memory). Units: N/mm2.

Only E_s/E_c enters the forces of fasteners, and these hardly depend on it.
"""

from hangpoint.core.quantity import Floats


def modulus(*, f_ck: Floats) -> Floats:
    """E_cm = 22,000 ((f_ck + 8) / 10)^0.3 of f_ck (cases,), N/mm2."""
    return 22_000.0 * ((f_ck + 8) / 10) ** 0.3
