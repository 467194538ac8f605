"""Modulus of elasticity of concrete, ACI 318-19 19.2.2.1. Units: psi, lb/ft3.

57,000 sqrt(f'c) for normalweight concrete (19.2.2.1b), 33 w_c^1.5 sqrt(f'c) for lightweight concrete (19.2.2.1a) with
w_c = 110 lb/ft3, a usual density of structural lightweight concrete (from memory). Only E_s/E_c enters the forces of
anchors, and these hardly depend on it.
"""

import numpy as np

from hangpoint.core.quantity import Bools, Floats

E_S = 29e6
"""Modulus of elasticity of the anchors, psi (20.2.2.2 has it for reinforcement)."""

W_C_LIGHTWEIGHT = 110.0


def modulus(*, f_c: Floats, lightweight: Bools) -> Floats:
    """E_c, psi.

    Args:
        f_c: (cases,) specified compressive strength, psi.
        lightweight: (cases,) boolean.
    """
    return np.where(lightweight, 33 * W_C_LIGHTWEIGHT**1.5, 57_000.0) * np.sqrt(f_c)
