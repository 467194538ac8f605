"""Where shear goes through grout thicker than half of the diameter without a lever arm, EN 1992-4 6.2.2.3(2): (7.36).

The case has neither tension of a fastener nor a net one, no moment and no earthquake, and its concrete is uncracked. It
shears two fasteners at least, all alike, so that there is no torsion; along the shear any two stand beside each other
or 10 d apart. The grout is stated to fill the space below the fixture, to be no weaker than the concrete and than
30 N/mm2, and is no thicker than 40 mm and 5 d; d is d_nom. Units: in, lbf; of the anchors mm, N.
"""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.hang_point.demand import AnchorShear
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.fastener_levers import LEAST_F_GROUT, off_the_concrete
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.points import Fixings, Plates
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

MOST_GROUT_MM, MOST_GROUT_D, LEAST_SPACING_D = 40.0, 5.0, 10.0
_ALIKE = 1e-6


def fit_grout(fasteners: Fasteners, fixings: Fixings, plates: Plates, cracked: Bools) -> Bools:
    """(rows,) whether what is stated of grout and concrete allows for (7.36); all columns are of the same rows."""
    own, free = fasteners, off_the_concrete(fixings, plates)
    thickest = np.minimum(MOST_GROUT_MM, MOST_GROUT_D * own.d_nom) * (1 + 1e-9)
    strong = own.f_grout >= np.maximum(LEAST_F_GROUT, own.f_ck_class) * (1 - 1e-9)
    return own.grout_fills & (own.grout > 0) & (own.grout <= thickest) & strong & ~free & ~cracked


def without_lever(
    fits: Bools, cases: Index, *, anchors: Anchors, d_nom: Floats, load: Distribution, shear: AnchorShear
) -> Bools:
    """(checked cases,) whether their loads and layouts allow for it too.

    Args:
        fits: (checked cases,) of `fit_grout`, False under earthquake.
        cases: their places on the axis of all cases, which ``load`` and ``shear`` have a row for each of.
        anchors: of the checked cases, mm, N.
        d_nom: (checked cases,) mm.
    """
    if not some(fits):
        return fits
    ways = [1.0] if not some((shear.either_x | shear.either_y)[cases]) else [1.0, -1.0]
    spread = np.logical_and.reduce([_far_apart(anchors, d_nom, way) for way in ways])
    return fits & spread & _sheared_alike(anchors) & ~_pulled_or_bent(cases, anchors, load)


def _pulled_or_bent(cases: Index, anchors: Anchors, load: Distribution) -> Bools:
    pulled = (anchors.total(anchors.n_ua) > 0) | (load.n_total[cases] > 0)
    if load.layout is None:
        return pulled
    own = load.layout
    dust = _ALIKE * np.hypot(own.load.v_x, own.load.v_y)
    loaded = (np.maximum(np.abs(own.load.m_x), np.abs(own.load.m_y)) > dust) | (own.load.n > 0)
    of_all = np.zeros(len(load.n_total), dtype=np.bool_)
    of_all[own.cases] = loaded
    return pulled | of_all[cases]


def _sheared_alike(anchors: Anchors) -> Bools:
    """(cases,) two or more fasteners are sheared, and all of these by the same force."""
    sheared = anchors.sheared()
    count = anchors.total(sheared.astype(np.float64))
    mean = [
        np.where(count > 0, anchors.total(v * sheared) / np.maximum(count, 1), 0.0) for v in (anchors.v_x, anchors.v_y)
    ]
    off = np.hypot(anchors.v_x - mean[0][anchors.case], anchors.v_y - mean[1][anchors.case])
    unlike = sheared & (off > _ALIKE * anchors.v)
    return (count >= 2) & (anchors.total(unlike.astype(np.float64)) == 0)


def _far_apart(anchors: Anchors, d_nom: Floats, way: float) -> Bools:
    """(cases,) along their shear, mirrored by ``way`` -1, two fasteners at least are 10 d apart and none are nearer."""
    rows = np.flatnonzero(anchors.sheared())
    case = anchors.case[rows]
    along = (anchors.x[rows] * anchors.v_x[rows] + way * anchors.y[rows] * anchors.v_y[rows]) / anchors.v[rows]
    order = np.lexsort((along, case))
    case, along = case[order], along[order]
    gap, same = np.diff(along), case[1:] == case[:-1]
    limit = LEAST_SPACING_D * d_nom[case[1:]]
    far, near = same & (gap >= limit * (1 - 1e-9)), same & (gap > _ALIKE * limit) & (gap < limit * (1 - 1e-9))
    count = anchors.case_count
    return (np.bincount(case[1:][far], minlength=count) > 0) & (np.bincount(case[1:][near], minlength=count) == 0)
