"""What the checks by tables read of each case, and of its anchors. Units: in, lbf, psi."""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index


@frozen
class LoadedAnchors:
    """Anchors of all cases on one flat axis: their case, distances to the edges (anchors, 4), tension and shear."""

    case: Index
    c_a: Floats
    n: Floats
    v: Floats
    v_x: Floats
    v_y: Floats
    count: int
    """Number of cases."""

    def nearest(self, rows: Index) -> tuple[Floats, Floats]:
        """Distances of some anchors to the nearest edge along x and along y."""
        c_a = self.c_a[rows]
        return np.minimum(c_a[:, 0], c_a[:, 1]), np.minimum(c_a[:, 2], c_a[:, 3])


@frozen
class TableCases:
    """Columns of the tables, a row a case. Those of both directions are (cases, 2): tension, shear.

    ``mean_ultimate`` is 0 where there is no table. ``spacing`` (cases,) is the distance of the nearest two anchors.
    """

    f_base: Floats
    spacing: Floats
    power: Bools
    mean_ultimate: Floats
    safety_factor: Floats
    f_ref: Floats
    strength_exponent: Floats
    c_least: Floats
    c_full: Floats
    slope_c: Floats
    s_least: Floats
    s_full: Floats
    slope_s: Floats
