"""Connected parts of a graph that is given as a list of pairs."""

import numpy as np

from hangpoint.core.quantity import Index


def connected(*, count: int, a: Index, b: Index) -> Index:
    """The lowest node of the connected part that each node belongs to.

    Every part takes the lowest label of the parts next to it until no pair joins two labels.

    Args:
        count: of the nodes.
        a, b: (pairs,) the two nodes of each pair, in any order.

    Returns:
        (nodes,) label; a node without a pair has its own.
    """
    label = np.arange(count)
    while True:
        low = np.minimum(label[a], label[b])
        merged = label.copy()
        np.minimum.at(merged, label[a], low)
        np.minimum.at(merged, label[b], low)
        while not np.array_equal(merged[merged], merged):
            merged = merged[merged]
        if np.array_equal(merged, label):
            return label
        label = merged
