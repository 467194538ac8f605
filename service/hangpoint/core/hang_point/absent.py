"""Loads that may be absent at one near point and not at another, and in how many patterns they are checked.

Contents, live load and transient loads of a point may each be absent, dead load and earthquake never. Those that act
the same way, each a multiple of another, are absent together: what they make lies between none and all of them, and in
random sets no joint check was worse there than at the worse of both. Others are absent each by itself.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.free_edges import free_edges_of_anchors
from hangpoint.core.hang_point.points import Points
from hangpoint.core.hang_point.sharing import bond_reach_of
from hangpoint.core.hang_point.weights import ServiceLoads, service_loads
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

CONTENTS, LIVE, SPRINKLER = 0, 1, 2
FIRST_TRANSIENT = 3
TEST = FIRST_TRANSIENT + TRANSIENT.index("test")
NATURES = FIRST_TRANSIENT + len(TRANSIENT)
"""Contents, live load, the 250 lb of a sprinkler point, and those of `TRANSIENT`."""

FEWEST, MOST = 2, 8
"""Loads of points that share concrete that are each absent by itself: so many are in every batch, and at most."""

MOST_ROWS = 160
"""Anchors in load cases that a point has in its patterns on average, where these are more than of the fewest."""

MOST_TURNED_ROWS = 320
"""The same with the senses of earthquake that are taken in each pattern."""

_PARALLEL = 1 - 1e-9
_IN_LINE = 1e-6
"""in"""


@frozen
class Absent:
    """Loads that are absent together: ``lead`` (points, natures) is the first nature that acts the same way, -1 where
    there is no load; ``leads`` (points, natures) are those first ones.
    """

    lead: Index
    leads: Bools

    @property
    def count(self) -> Index:
        """How many may be absent each by itself, (points,)."""
        return self.leads.sum(axis=1)


def absent_loads(points: Points, group: Index) -> Absent:
    """What may be absent at points that share concrete, where that may be worse.

    Args:
        points: the batch.
        group: (points,) one number for points that share concrete.
    """
    lead = np.full((points.count, NATURES), -1, dtype=np.intp)
    several = np.bincount(group, minlength=points.count)[group] > 1
    if some(several):
        loads = service_loads(points, factored=False)
        rows = np.flatnonzero(several & ~_sure_pairs(points, loads, group))
        lead[rows] = _leads(points, loads, rows)
    return Absent(lead=lead, leads=lead == np.arange(NATURES))


def _sure_pairs(points: Points, loads: ServiceLoads, group: Index) -> Bools:
    """(points,) of two lone anchors, which every load only pulls, so near that no load of either relieves both.

    With u = s_x / 3 h_ef, v = s_y / 3 h_ef and r = |N_1 - N_2| / (N_1 + N_2), at most 1, the resultant is s r / 2 from
    their middle, and the ratio of both goes with (N_1 + N_2) (1 + u r) (1 + v r) (17.6.2.3). It grows with the larger
    load, and with the smaller one too where u + v + u v (2 r + r^2) <= 1. Bond has 2 c_Na for 3 h_ef (17.6.5.3). The
    smaller h_ef beside three edges (17.6.2.1.2) is not below s / 3, which is enough in a line along x or y alone.

    By EN 1992-4 none are taken to be.
    """
    none = np.zeros(points.count, dtype=np.bool_)
    if points.sites is None or points.fasteners is not None or len(points.layouts.point) > points.count:
        return none
    otherwise = points.plates.stated | (loads.dead < 0) | (loads.contents < 0) | (loads.live < 0)
    for n, v, m in points.hangs.parts():
        otherwise = otherwise | (n < 0) | v.any(axis=1) | m.any(axis=1)
    size, out = (np.bincount(group, weights, points.count) for weights in (None, otherwise))
    order = np.argsort(group, kind="stable")
    first = np.searchsorted(group[order], group)
    one, other = order[first], order[np.minimum(first + 1, points.count - 1)]
    x, y = points.layouts.x + points.sites.x, points.layouts.y + points.sites.y
    apart_x, apart_y = np.abs(x[one] - x[other]), np.abs(y[one] - y[other])
    h_ef, c_na = points.products.h_ef, bond_reach_of(points)
    reach = np.where(c_na > 0.0, np.minimum(3.0 * h_ef, 2.0 * c_na), 3.0 * h_ef)
    u, v = (apart / np.minimum(reach[one], reach[other]) for apart in (apart_x, apart_y))
    near_edges = free_edges_of_anchors(points) < 1.5 * h_ef[:, None]
    shallow = (near_edges[one] | near_edges[other]).sum(axis=1) > 2
    in_line = np.minimum(apart_x, apart_y) <= _IN_LINE
    sure = (u + v + 3.0 * u * v <= 1.0) & (in_line | ~shallow)
    return (size[group] == 2) & (out[group] == 0) & sure


def _leads(points: Points, loads: ServiceLoads, rows: Index) -> Index:
    hangs = points.hangs
    acts = np.zeros((len(rows), NATURES, 6))
    for place, n, v, m in (
        (CONTENTS, loads.contents, hangs.v_contents, hangs.m_contents),
        (LIVE, loads.live, hangs.v_live, hangs.m_live),
    ):
        acts[:, place] = np.column_stack((n, v, m))[rows]
    acts[:, SPRINKLER, 0] = loads.sprinkler[rows]
    acts[:, FIRST_TRANSIENT:] = np.swapaxes(loads.transient[rows], 1, 2)
    size = np.sqrt((acts**2).sum(axis=2))
    unit = acts / np.where(size > 0, size, 1.0)[:, :, None]
    first: Index = np.argmax(unit @ np.swapaxes(unit, 1, 2) > _PARALLEL, axis=2)
    return np.where(size > 0, first, -1)


@frozen
class Patterns:
    """In how many patterns the group of each point is checked, (points,) each.

    ``loads`` are those that are each absent by itself, and 2 to their power the patterns; 0 where there are none.
    ``turned`` are the points whose earthquake is turned against another in every pattern. ``every`` where these are
    all patterns in all senses.
    """

    loads: Index
    turned: Index
    every: Bools

    @property
    def copies(self) -> Index:
        """Patterns times senses of earthquake in them, (points,)."""
        return np.where(self.loads > 0, np.left_shift(1, self.loads + self.turned), 0)


def patterns_of(absent: Absent, *, group: Index, rows: Index, movers: Index) -> Patterns:
    """The patterns of a batch.

    Args:
        absent: what may be absent.
        group: (points,) one number for points that share concrete.
        rows: (points,) anchors in load cases of each.
        movers: (points,) points of its group whose earthquake turns.
    """
    count = len(group)
    size = np.maximum(np.bincount(group, minlength=count), 1)
    mean = np.maximum(np.bincount(group, rows, count) / size, 1.0)[group]
    there = np.bincount(group, absent.count, count).astype(np.intp)[group]
    loads = np.minimum(there, np.clip(_powers(MOST_ROWS / mean), FEWEST, MOST))
    against = np.maximum(movers - 1, 0)
    turned = np.minimum(against, np.maximum(_powers(MOST_TURNED_ROWS / mean) - loads, 0))
    return Patterns(loads=loads, turned=turned, every=(loads == there) & (turned == against))


def _powers(times: Floats) -> Index:
    return np.floor(np.log2(times)).astype(np.intp)
