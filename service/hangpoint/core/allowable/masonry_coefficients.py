"""Coefficients of bolts in masonry by TMS 402, as data: by design method and edition. From memory unless said.

Editions: 402-13 has 350 and 1,050 for crushing and the sum of the ratios for interaction; 402-16 has 580 and 1,750 and
powers of 5/3. 402-16's 1,750 against 1,050 and its exponent are published (structural engineering magazine, 2019).
"""

from typing import NamedTuple

import numpy as np

from hangpoint.core.quantity import Bools, Floats


class Coefficients(NamedTuple):
    """k in allowable stress design and in strength design, (402-16, 402-13) each, and phi of the latter."""

    allowable: tuple[float, float]
    strength: tuple[float, float]
    phi: float


BREAKOUT = Coefficients((1.25, 1.25), (4.0, 4.0), 0.5)
PRYOUT = Coefficients((2.5, 2.5), (8.0, 8.0), 0.5)
CRUSHING = Coefficients((580.0, 350.0), (1750.0, 1050.0), 0.5)
STEEL_TENSION = Coefficients((0.6, 0.6), (1.0, 1.0), 0.9)
STEEL_SHEAR = Coefficients((0.36, 0.36), (0.6, 0.6), 0.9)
BEARING = Coefficients((0.6, 0.6), (1.5, 1.5), 0.65)
BOND = Coefficients((120.0, 120.0), (300.0, 300.0), 0.65)


def coefficients(table: Coefficients, *, by_strength: Bools, older: Bools) -> tuple[Floats, Floats]:
    """k and phi of each row; phi is 1 in allowable stress design.

    Args:
        table: one of those above.
        by_strength: (rows,) strength design.
        older: (rows,) TMS 402-13.
    """
    at = older.astype(np.intp)
    k = np.where(by_strength, np.array(table.strength)[at], np.array(table.allowable)[at])
    return k, np.where(by_strength, table.phi, 1.0)
