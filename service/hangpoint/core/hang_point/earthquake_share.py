"""Share that earthquake makes of the load of a layout, for the thresholds of ACI 318-19 17.10.5.1 and 17.10.6.1.

The load of an anchor in tension comes from the tension and from the moments about x and y, that in shear from the shear
and from the torsion. The largest of the shares of each is taken: none that is smaller hides it, and torsion hides no
tension. Moments are those about the centre of the anchors, so that the share is one wherever the origin is. A vertical
effect that takes from the tension, and from its moments with it, is no share of it.

For one anchor that is mostly more than the share of its own load, but not where other loads take from each other there
what earthquake does not, and not under a plate that is pressed on the concrete until earthquake lifts it. Anchors
therefore have a say of their own: in tension every one, because one near an edge may govern though others are loaded
more; in shear, where earthquake takes nothing off a strength, those that are loaded most.
"""

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index

LOADED = 1e-3
"""Share of the largest tension of the anchors of a case from which an anchor counts: below it none governs, and what is
there may be rounding."""
MOST_LOADED = 0.75
"""Share of the largest shear of the anchors of a case from which an anchor counts."""
LEAST_MOMENT = 1e-9
"""Moment per load below which it is rounding of arms that cancel, in."""


def earthquake_shares(
    *, n: Floats, v: Floats, m: Floats, n_e: Floats, v_e: Floats, m_e: Floats
) -> tuple[Floats, Floats]:
    """Shares of earthquake in the tension and in the shear of anchors, (rows,) each, between 0 and 1.

    Args:
        n, n_e: (rows,) tension and what earthquake makes of it, lbf.
        v, v_e: (rows, 2) shear, lbf.
        m, m_e: (rows, 3) moments about the centre of the anchors, lbf*in.
    """
    least = LEAST_MOMENT * (np.abs(n) + np.abs(n_e) + _length(v) + _length(v_e) + _length(m) + _length(m_e))
    whole = np.abs(m)
    counts = np.abs(m_e) > least[:, None]
    counts[:, :2] &= (n_e >= 0)[:, None] | (m * m_e >= 0)[:, :2]
    part = np.where(counts, np.abs(m_e), 0.0)
    by_moment = [_share(part[:, axis], whole[:, axis]) for axis in range(3)]
    by_tension = _share(np.maximum(n_e, 0.0), np.maximum(n, 0.0))
    tension = np.maximum(by_tension, np.maximum(by_moment[0], by_moment[1]))
    return tension, np.maximum(_share(_length(v_e), _length(v)), by_moment[2])


def shares_of_anchors(*, part: Floats, whole: Floats, case: Index, count: int, least: float) -> Floats:
    """The largest share of earthquake in the load of any of the loaded anchors of each case, (cases,).

    Args:
        part, whole: (anchors,) what earthquake brings an anchor, and all of its load, lbf, neither negative.
        case: (anchors,) case of each, of ``count``.
        least: share of the largest load of its case from which an anchor counts.
    """
    largest, found = np.zeros((2, count))
    np.maximum.at(largest, case, whole)
    counts: Bools = (whole > 0) & (whole >= least * largest[case])
    np.maximum.at(found, case[counts], _share(part[counts], whole[counts]))
    return found


def _length(vectors: Floats) -> Floats:
    return np.sqrt((vectors**2).sum(axis=1))


def _share(part: Floats, whole: Floats) -> Floats:
    """Part of a whole that it may exceed, between 0 and 1."""
    return np.where(part >= whole, np.where(part > 0, 1.0, 0.0), part / np.where(whole > 0, whole, 1.0))
