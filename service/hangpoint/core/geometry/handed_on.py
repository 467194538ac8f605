"""Forces along a line that are handed on to those that stand beside them."""

import numpy as np

from hangpoint.core.quantity import Bools, Floats


def handed_on(*, place: Floats, holds: Bools) -> Floats:
    """Share of the force of each entry that each entry takes: those on both sides by the lever, else all the nearest.

    So the resultant of a force that is handed on between two anchors stays where it is, and none of it steps from one
    to the other where a place moves by next to nothing. Several in the very place share alike.

    Args:
        place: (blocks, entries) along a line, one unit of length.
        holds: (blocks, entries, entries) whether the first may take the force of the second.

    Returns:
        (blocks, entries, entries) share that the first takes of the second; they add up to 1 where any may take it.
    """
    takers = range(place.shape[1])
    below, above = np.full_like(place, -np.inf), np.full_like(place, np.inf)
    for taker in takers:
        own, may = place[:, taker, None], holds[:, taker]
        np.copyto(below, np.maximum(below, own), where=may & (own <= place))
        np.copyto(above, np.minimum(above, own), where=may & (own >= place))
    none_below, none_above = np.isinf(below), np.isinf(above)
    between = ~(none_below | none_above | (below == above))
    span = np.where(between, above, 1.0) - np.where(between, below, 0.0)
    lever = np.where(between, (np.where(between, above, 0.0) - place) / span, np.where(none_below, 0.0, 1.0))
    at_below, at_above = np.zeros_like(place), np.zeros_like(place)
    for taker in takers:
        own, may = place[:, taker, None], holds[:, taker]
        at_below += may & (own == below)
        at_above += may & (own == above)
    from_below, from_above = lever / np.maximum(at_below, 1.0), (1 - lever) / np.maximum(at_above, 1.0)
    share = np.empty(holds.shape)
    for taker in takers:
        own, may = place[:, taker, None], holds[:, taker]
        share[:, taker] = np.where(may & (own == below), from_below, np.where(may & (own == above), from_above, 0.0))
    return share
