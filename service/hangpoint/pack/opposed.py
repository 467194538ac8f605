"""Direct loads of one nature that are stated against each other, as what is left of them one way at a time."""

from collections.abc import Sequence

import numpy as np

from hangpoint.core.hang_point.opposed import WAYS, Apart
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Nature

_NATURES = tuple(Nature)
_TOGETHER = (Nature.DEAD, Nature.EARTHQUAKE)
"""Natures whose loads are there together: what surely hangs, and what one earthquake shakes."""
_TRANSIENT = [_NATURES.index(Nature(name)) for name in TRANSIENT]


def loads_apart(point: Index, nature: Index, loads: Floats, count: int) -> Apart | None:
    """Loads one way at a time of the points that have any of one nature against each other, None without any.

    Args:
        point: (components,) of each component, rising.
        nature: (components,) its place in `Nature`.
        loads: (components, 6) tension, shears and moments.
        count: points that there are.
    """
    either = _either(point, nature, loads, count)
    if not either.any():
        return None
    rows: list[tuple[Index, int, Floats]] = []
    for way in range(WAYS):
        component, sign = way // 2, 1.0 - 2.0 * (way % 2)
        opposed = either[:, :, component]
        has: Bools = np.any(opposed, axis=1)
        points, own = np.flatnonzero(has), has[point]
        out = own & opposed[point, nature] & (loads[:, component] * sign < 0)
        kept = own & ~out
        rows.append((points, way, _by_nature(point[kept], nature[kept], loads[kept], count)[points]))
    return _joined(rows)


def _either(point: Index, nature: Index, loads: Floats, count: int) -> Bools:
    """(points, natures, 6) whether loads of the nature have both signs in the component."""
    pulls = _by_nature(point, nature, np.maximum(loads, 0.0), count) > 0
    pushes = _by_nature(point, nature, np.minimum(loads, 0.0), count) < 0
    found = pulls & pushes
    found[:, [_NATURES.index(own) for own in _TOGETHER]] = False
    return found


def _by_nature(point: Index, nature: Index, loads: Floats, count: int) -> Floats:
    """Sums of the loads by point and nature, (points, natures, 6)."""
    made = np.zeros((count, len(_NATURES), loads.shape[1]))
    np.add.at(made, (point, nature), loads)
    return made


def _joined(rows: Sequence[tuple[Index, int, Floats]]) -> Apart:
    point = np.concatenate([points for points, _, _ in rows])
    way = np.repeat(np.array([own for _, own, _ in rows], dtype=np.int8), [len(points) for points, _, _ in rows])
    left = np.concatenate([own for _, _, own in rows])
    order = np.argsort(point, kind="stable")
    left = left[order]
    return Apart(
        point=point[order],
        way=way[order],
        contents=left[:, _NATURES.index(Nature.CONTENTS)],
        live=left[:, _NATURES.index(Nature.LIVE)],
        transient=np.moveaxis(left[:, _TRANSIENT], 1, 2),
    )
