"""Where hangers are in the job, from the place of their item: the first hanger, and the bearing of run or bar in plan.

A bearing is an angle from x towards y. Rods of equipment have places of their own, turned by the bearing. What has no
bearing or no coordinates has no place, nor have the supports of a riser, which are one above the other.
"""

import numpy as np

from hangpoint.core.hanger.hangers import HangerLoads
from hangpoint.core.hanger.items import RUN, TRAPEZE
from hangpoint.core.quantity import Codes, Floats, Index
from hangpoint.core.statics.fixture_force import direction
from hangpoint.pack.hanger_items.packed import PackedLoads

_INCHES_PER_FOOT = 12.0


def hanger_places(packed: PackedLoads, loads: HangerLoads) -> Floats:
    """Coordinates of every hanger, (hangers, 2) ft, nan where they aren't known."""
    items, item, number = packed.items, loads.hangers.item, loads.hangers.number
    along, across = np.full(len(item), np.nan), np.zeros(len(item))
    alone = items.kind[items.runs.item] != TRAPEZE
    first_tier = np.unique(items.tiers.item, return_index=True)[1]
    for owner, spans in (
        (items.runs.item[alone], items.runs.spans[alone]),
        (items.tiers.item[first_tier], items.tiers.spans[first_tier]),
    ):
        _along(along, item, number, owner, spans)
    bodies, rods = items.equipment, items.equipment_rods
    at = loads.hangers.start[bodies.item[rods.body]] + np.arange(len(rods.body)) - np.searchsorted(rods.body, rods.body)
    along[at], across[at] = rods.x / _INCHES_PER_FOOT, rods.y / _INCHES_PER_FOOT
    body = np.zeros(items.count, dtype=np.bool_)
    body[bodies.item] = True
    bearing = np.where(body & np.isnan(packed.places.bearing), 0.0, packed.places.bearing)[item]
    cosine, sine = np.cos(np.radians(bearing)), np.sin(np.radians(bearing))
    x = packed.places.x[item] + along * cosine - across * sine
    y = packed.places.y[item] + along * sine + across * cosine
    return np.stack((x, y), axis=1)


def brace_ways(packed: PackedLoads, item: Index, along: Codes) -> Floats:
    """Directions in plan of the horizontal force of braces, (braces, 2): across their run or along it.

    A bearing is that of the run, of a trapeze that of its bar. Along x where there is no bearing, and of equipment and
    risers.

    Args:
        packed: the items.
        item: (braces,) of each.
        along: (braces,) as `core.hanger.items.Seismic.along`.
    """
    bearing, kind = packed.places.bearing[item], packed.items.kind[item]
    turned = (along == 1) == (kind == TRAPEZE)
    known = np.isfinite(bearing) & np.isin(kind, (RUN, TRAPEZE))
    return np.stack(direction(np.where(known, bearing + 90.0 * turned, 0.0)), axis=1)


def _along(along: Floats, item: Index, number: Index, owner: Index, spans: Floats) -> None:
    """Fill in the distance of each hanger from the first, for the items ``owner`` with their spans, ft."""
    row = np.full(int(item.max(initial=-1)) + 1, -1, dtype=np.intp)
    row[owner] = np.arange(len(owner))
    at = np.flatnonzero(row[item] >= 0)
    ends = np.concatenate((np.zeros((len(spans), 1)), np.cumsum(spans, axis=1)), axis=1)
    along[at] = ends[row[item[at]], number[at]]
