"""Seismic performance category that is asked for, EN 1992-4 Table C.1 (recommended limits of seismicity).

Very low seismicity asks for none; up to the limit of low C1 is enough in class I, and in II and III for what is not
structural; beyond it in class I.
"""

import numpy as np

from hangpoint.core.quantity import Bools, Codes, Floats, Index

VERY_LOW, LOW = 0.05, 0.10
"""Limits of a_g S as shares of g."""


def table_category(*, a_g_s: Floats, importance_class: Codes | Index, structural: Bools) -> Index:
    """(rows,) -1 for none, 0 for C1, 1 for C2.

    Args:
        a_g_s: (rows,) a_g S as a share of g.
        importance_class: (rows,) 0 to 3 for I to IV.
        structural: (rows,) whether structural elements are connected; else it is a non-structural one.
    """
    middle = (importance_class == 1) | (importance_class == 2)
    of_low = (importance_class == 3) | (middle & structural)
    beyond = a_g_s > LOW * (1 + 1e-9)
    category = np.where(np.where(beyond, importance_class > 0, of_low), 1, 0)
    return np.where(a_g_s <= VERY_LOW * (1 + 1e-9), -1, category)
