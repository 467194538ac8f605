"""Anchors of a body that lifts over a corner of its base, because its moments tip it over both edges that meet there.

A rigid body on a rigid floor that only presses, on anchors that only pull and stretch alike: it turns about a line
through the corner, u = alpha a + beta b from the distances of both edges with alpha, beta >= 0, and an anchor has
T = max(u, 0). Both moments are held, sum T a = M_a and sum T b = M_b; where one factor is 0 the body turns about the
other edge alone. Of the corners of a base the one with the largest alpha M_a + beta M_b - sum T**2/2 is the one that
bears: every way to lift is about one of them, and the forces that it leads to do the least work on the anchors.

Units: lbf, in, lbf*in. Source: statics; least work.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index

STEPS = 24
"""Most times that the anchors that are pulled are sought anew; two or three do."""

SINGULAR = 1e-9
"""Share of the product of the sums below which the distances from both edges are multiples of each other."""


@frozen
class _Turn:
    """Of each corner: both factors, lbf/in, and whether any anchors hold it."""

    alpha: Floats
    beta: Floats
    held: Bools


def corner_tensions(*, m: Floats, away: Floats, row_of_anchor: Index, adjoining: Index, load_of_row: Index) -> Floats:
    """(rows,) tension of the most pulled anchor at both edges of the corner that bears, 0 at others and without one.

    Args:
        m: (rows,) moment about each edge less what rights the body, lbf*in, of any sign.
        away: (anchors,) distance of the anchors from the edge of their row towards the body, in, of any sign.
        row_of_anchor: (anchors,) in rising order; rows of one load have the same anchors in the same order.
        adjoining: (rows,) the row of the edge that meets the end of each.
        load_of_row: (rows,) the load of each edge, in rising order.
    """
    row = row_of_anchor
    first = np.searchsorted(row, np.arange(len(m)))
    a, b = away, away[first[adjoining[row]] + np.arange(len(row)) - first[row]]
    turn, pulled = _lifted(m, a, b, row, adjoining)
    most, squares = np.zeros(len(m)), np.bincount(row, pulled**2, len(m))
    np.maximum.at(most, row, pulled)
    work = np.where(turn.held, turn.alpha * m + turn.beta * m[adjoining] - squares / 2.0, -np.inf)
    order = np.lexsort((-np.arange(len(m)), work, load_of_row))
    last = order[np.append(load_of_row[order][1:] != load_of_row[order][:-1], True)] if len(m) else order
    bears = last[turn.held[last] & (turn.alpha[last] > 0.0) & (turn.beta[last] > 0.0)]
    found = np.zeros(len(m))
    found[bears] = most[bears]
    found[adjoining[bears]] = most[bears]
    return found


def _lifted(m: Floats, a: Floats, b: Floats, row: Index, adjoining: Index) -> tuple[_Turn, Floats]:
    """How each corner lifts, and the tension of its anchors."""
    pulls: Bools = (a > 0.0) | (b > 0.0)
    turn = _turned(m, a, b, row, adjoining, pulls)
    u = turn.alpha[row] * a + turn.beta[row] * b
    for _ in range(STEPS):
        again: Bools = (u > 0.0) | ~turn.held[row]
        if np.array_equal(again, pulls):
            break
        pulls = again
        turn = _turned(m, a, b, row, adjoining, pulls)
        u = turn.alpha[row] * a + turn.beta[row] * b
    return turn, np.maximum(u, 0.0)


def _turned(m: Floats, a: Floats, b: Floats, row: Index, adjoining: Index, pulls: Bools) -> _Turn:
    """Both factors >= 0 of each corner with those anchors that pull."""
    count, other = len(m), m[adjoining]

    def summed(values: Floats) -> Floats:
        return np.bincount(row, np.where(pulls, values, 0.0), count).astype(np.float64)

    aa, ab, bb = summed(a * a), summed(a * b), summed(b * b)
    divisor = aa * bb - ab**2
    regular = divisor > SINGULAR * aa * bb
    safe = np.where(regular, divisor, 1.0)
    alpha, beta = (m * bb - other * ab) / safe, (other * aa - m * ab) / safe
    both = regular & (alpha >= 0.0) & (beta >= 0.0)
    one, two = (np.maximum(of, 0.0) / np.where(by > 0.0, by, 1.0) for of, by in ((m, aa), (other, bb)))
    first = one * np.maximum(m, 0.0) >= two * np.maximum(other, 0.0)
    return _Turn(
        alpha=np.where(both, alpha, np.where(first, one, 0.0)),
        beta=np.where(both, beta, np.where(first, 0.0, two)),
        held=((aa > 0.0) | (m <= 0.0)) & ((bb > 0.0) | (other <= 0.0)),
    )
