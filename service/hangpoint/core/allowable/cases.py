"""What the checks by tables read of each case, and of its anchors. Units: in, lbf, psi."""

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index


@frozen
class LoadedAnchors:
    """Anchors of all cases on one flat axis: their case, distances to the edges (anchors, 4), tension and shear.

    ``sides`` (anchors, 4) are the distances of the nearest anchors towards -x, +x, -y, +y, infinite without any; only
    tables read them.
    """

    case: Index
    c_a: Floats
    sides: Floats
    n: Floats
    v: Floats
    v_x: Floats
    v_y: Floats
    count: int
    """Number of cases."""


@frozen
class TableCases:
    """Columns of the tables, a row a case. Those of both directions are (cases, 2): tension, shear.

    ``mean_ultimate`` is 0 where there is no table.
    """

    f_base: Floats
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
