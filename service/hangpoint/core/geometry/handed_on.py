"""Forces along a line that are handed on to those that stand beside them."""

import numpy as np

from hangpoint.core.quantity import Bools, Floats

_LEAST_SPAN = 1e-200
"""Divisor where an entry stands in the very place of the one whose force it takes."""


def handed_on(*, place: Floats, holds: Bools) -> Floats:
    """Share of the force of each entry that each entry takes: those on both sides by the lever, else all the nearest.

    So the resultant of a force that is handed on between two anchors stays where it is, and none of it steps from one
    to the other where a place moves by next to nothing.

    Args:
        place: (blocks, entries) along a line, one unit of length.
        holds: (blocks, entries, entries) whether the first may take the force of the second.

    Returns:
        (blocks, entries, entries) share that the first takes of the second; they add up to 1 where any may take it.
    """
    beyond = place[:, :, None] - place[:, None, :]
    below = np.where(holds & (beyond <= 0), -beyond, np.inf)
    above = np.where(holds & (beyond >= 0), beyond, np.inf)
    down, up = below.min(axis=1, keepdims=True), above.min(axis=1, keepdims=True)
    between = np.isfinite(down) & np.isfinite(up)
    span = np.where(between, down + up, 1.0)
    share_below: Floats = np.where(between, up / np.maximum(span, _LEAST_SPAN), np.where(np.isfinite(down), 1.0, 0.0))
    return _alike(below, down) * share_below + _alike(above, up) * (1 - share_below)


def _alike(distance: Floats, least: Floats) -> Floats:
    """Shares of entries at the least distance, alike; zero where there is none."""
    at = np.isfinite(distance) & (distance <= least)
    return at / np.maximum(at.sum(axis=1, keepdims=True), 1)
