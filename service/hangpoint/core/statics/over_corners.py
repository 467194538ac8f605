"""Anchors of a body that lifts over a corner of its base, because its moments tip it over both edges that meet there.

A rigid body on a rigid floor that only presses, on anchors that only pull and stretch alike: it turns about a line
through the corner, u = a cos(phi) + b sin(phi) from the distances of both edges with phi from 0 to 90 degrees, and an
anchor has T = k max(u, 0). Both moments are held, sum T a = M_a and sum T b = M_b, where phi is neither 0 nor 90
degrees; there the body turns about one edge alone. That is where (M_a cos(phi) + M_b sin(phi))**2 over the sum of
max(u, 0)**2 is largest: of a linear and a convex function it has one maximum, which bisection finds. The corner at
which it is largest is the one that bears: every way to lift is about one of them, and the least work on the anchors is
what happens. A way to lift by which the moments do work and no anchor is stretched is one that nothing holds.

Units: lbf, in, lbf*in. Source: statics; least work.
"""

import numpy as np

from hangpoint.core.quantity import Bools, Floats, Index

BISECTIONS = 48
"""Of a right angle: less than 1e-14 of it is left."""

ONE_EDGE = 1e-9
"""Radians from either edge within which the body turns about that edge alone."""

NONE = 1e-12
"""Share of the sum of squared distances below which no anchor is stretched, and of the moments that does no work."""


def corner_tensions(
    *, m: Floats, away: Floats, row_of_anchor: Index, adjoining: Index, load_of_row: Index
) -> tuple[Floats, Bools]:
    """Tension of the most pulled anchor at both edges of the corner that bears, (rows,), 0 at others and without one.

    Args:
        m: (rows,) moment about each edge less what rights the body, lbf*in, of any sign.
        away: (anchors,) distance of the anchors from the edge of their row towards the body, in, of any sign.
        row_of_anchor: (anchors,) in rising order; rows of one load have the same anchors in the same order.
        adjoining: (rows,) the row of the edge that meets the end of each.
        load_of_row: (rows,) the load of each edge, in rising order.

    Returns:
        The tensions, and (rows,) the edges over which the body tips and at an end of which no anchor holds it.
    """
    count = len(m)
    tension, work, slips = np.zeros(count), np.full(count, -np.inf), np.zeros(count, dtype=np.bool_)
    lifts = np.flatnonzero((m > 0.0) | (m[adjoining] > 0.0))
    first = np.searchsorted(row_of_anchor, lifts)
    size = np.searchsorted(row_of_anchor, lifts, side="right") - first
    corner = np.repeat(np.arange(len(lifts)), size)
    step = np.arange(len(corner)) - np.repeat(np.cumsum(size) - size, size)
    a = away[first[corner] + step]
    b = away[np.searchsorted(row_of_anchor, adjoining[lifts])[corner] + step]
    tension[lifts], work[lifts], slips[lifts] = _lifted(m[lifts], m[adjoining[lifts]], a, b, corner)
    order = np.lexsort((-np.arange(count), work, load_of_row))
    last = order[np.flatnonzero(np.append(load_of_row[order][1:] != load_of_row[order][:-1], True)[:count])]
    found, loose = np.zeros(count), slips.copy()
    found[last] = tension[last]
    found[adjoining[last]] = np.maximum(found[adjoining[last]], tension[last])
    loose[adjoining[slips]] = True
    return found, loose & (m > 0.0)


def _lifted(m_a: Floats, m_b: Floats, a: Floats, b: Floats, corner: Index) -> tuple[Floats, Floats, Bools]:
    """Of each corner the tension of its most pulled anchor, 0 about one edge alone; twice the work; nothing holds it.

    ``a`` and ``b`` (anchors,) are the distances from its edges, with ``corner`` (anchors,) in rising order.
    """
    count = len(m_a)

    def summed(values: Floats) -> Floats:
        return np.bincount(corner, values, count).astype(np.float64)

    def turned(phi: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """Cosine and sine of each corner, the lift of its anchors, and the moment that lifts."""
        cosine, sine = np.cos(phi), np.sin(phi)
        return cosine, sine, np.maximum(a * cosine[corner] + b * sine[corner], 0.0), m_a * cosine + m_b * sine

    none, no_work = NONE * summed(a * a + b * b), NONE * (np.abs(m_a) + np.abs(m_b))
    low, high, slips = np.zeros(count), np.full(count, np.pi / 2.0), np.zeros(count, dtype=np.bool_)
    for _ in range(BISECTIONS):
        phi = (low + high) / 2.0
        cosine, sine, u, moment = turned(phi)
        squares = summed(u * u)
        slips |= (moment > no_work) & (squares <= none)
        steeper = (m_b * cosine - m_a * sine) * squares
        rises = steeper > moment * summed(u * (b * cosine[corner] - a * sine[corner]))
        rises = np.where(moment > 0.0, rises, m_b > m_a)
        low, high = np.where(rises, phi, low), np.where(rises, high, phi)
    phi = (low + high) / 2.0
    _, _, u, moment = turned(phi)
    squares, largest = summed(u * u), np.zeros(count)
    np.maximum.at(largest, corner, u)
    lifted = (squares > none) & (moment > 0.0)
    safe = np.where(lifted, squares, 1.0)
    both = lifted & ~slips & (phi > ONE_EDGE) & (phi < np.pi / 2.0 - ONE_EDGE)
    return np.where(both, moment / safe * largest, 0.0), np.where(lifted, moment**2 / safe, -np.inf), slips
