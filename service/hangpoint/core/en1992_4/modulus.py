"""Moduli of elasticity of concrete, EN 1992-1-1 Table 3.1, and of steel, both from memory. Units: N/mm2.

Only E_s/E_c enters the forces of fasteners, and these hardly depend on it.
"""

from hangpoint.core.quantity import Floats

E_S = 200_000.0
"""Modulus of elasticity of the fasteners (EN 1992-1-1 3.2.7(4) has it for reinforcement)."""


def modulus(*, f_ck: Floats) -> Floats:
    """E_cm = 22,000 ((f_ck + 8) / 10)^0.3 of f_ck (cases,), N/mm2."""
    return 22_000.0 * ((f_ck + 8) / 10) ** 0.3
