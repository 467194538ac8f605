"""Some points of several blocks as one block: those that are near each other are checked together."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.hang_point.gathering import gather
from hangpoint.core.quantity import Index
from hangpoint.core.vocabulary import Assumption, NotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.labels import Labels
from hangpoint.pack.points import Packed

_TEXTS = ("ids", "addresses", "invented", "level", "trade", "tags", "member", "decided_by", "alternative_of")
_COLUMNS = ("family", "x", "y", "z", "facing")

Part = tuple[Packed, Index]
"""A block, and the rows taken of it, rising."""


def gather_packed(parts: Sequence[Part]) -> Packed:
    """The given points of each block, one block after the other; without their products stated inline."""
    points = gather([(packed.points, rows) for packed, rows in parts])
    labels: dict[str, Any] = {
        name: [text for packed, rows in parts for text in _chosen(getattr(packed.labels, name), rows)]
        for name in _TEXTS
    }
    labels |= {
        name: np.concatenate([getattr(packed.labels, name)[rows] for packed, rows in parts]) for name in _COLUMNS
    }
    return Packed(
        points=points,
        index=[row for packed, rows in parts for row in _chosen(packed.index, rows)],
        labels=Labels(**labels),
        inline={},
        assumptions=Flags.joined(Assumption, [(packed.assumptions, rows) for packed, rows in parts]),
        not_checked=Flags.joined(NotChecked, [(packed.not_checked, rows) for packed, rows in parts]),
    )


def _chosen(values: Sequence[Any], rows: Index) -> Sequence[Any]:
    return [values[row] for row in rows.tolist()]
