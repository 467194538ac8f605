"""What is seen of a layout of anchors and its plate: spacing, balance, anchors that push, stiffness. Units: in, lbf."""

import numpy as np

from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.conversions import PSI_PER_MPA
from hangpoint.core.geometry.grouping import near_pairs
from hangpoint.core.hang_point.allowables import CHAPTER_17, FASTENER
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.free_edges import free_edges, free_edges_of_anchors
from hangpoint.core.hang_point.points import Layouts, Points
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding

F_Y_PLATE = 36_000.0
"""psi: yield strength of a plate whose grade is not known."""
F_Y_PLATE_EN = 235.0 * PSI_PER_MPA
"""The same by EN 1993-1-1: 235 N/mm2."""

BEARING = 0.65 * 0.85
"""phi and share of f'c in bearing (Table 21.2.1, 22.8.3.2; from memory)."""
WIDE_SUPPORT = 2.0
"""The most that sqrt(A_2 / A_1) of a support wider than what bears on it adds (22.8.3.2, from memory)."""
BEARING_EN, WIDE_SUPPORT_EN = 1 / 1.5, 3.0
"""The same by EN 1992-1-1, f_cd of f_ck and 6.7, from memory."""


def nearest_edges(points: Points) -> Floats:
    """Distance of the nearest anchor of each point to each free edge, (points, 4), infinite where there is none."""
    layouts = points.layouts
    if not (some(layouts.x) or some(layouts.y)):
        return free_edges(points)
    starts = np.flatnonzero(np.diff(layouts.point, prepend=-1))
    return np.minimum.reduceat(free_edges_of_anchors(points), starts, axis=0)


def layout_findings(
    points: Points, axis: CaseAxis, *, fixture: Bools, load: Distribution, unbalanced: Bools, checked: Bools
) -> list[FindingColumn]:
    """Findings of points with a layout.

    Args:
        points: the batch.
        axis: all of its cases; ``load`` has a row for each.
        fixture: (points,) of `cases.fixtures`.
        unbalanced: (points,) nothing holds the load of any case.
        checked: (points,) the anchors are checked.
    """
    if not some(fixture):
        return []
    zero = np.zeros(points.count)
    pushed = axis.largest(load.pushed)
    return [
        FindingColumn(finding=Finding.NO_EQUILIBRIUM, holds=unbalanced, value=zero, limit=zero),
        FindingColumn(finding=Finding.ANCHOR_PUSHED, holds=(pushed > 0) & checked, value=pushed, limit=zero),
        FindingColumn(
            finding=Finding.PLATE_PRESSES,
            holds=points.plates.contact & checked & (_pull(axis, load) == 0) & axis.any(load.pressed > 0),
            value=zero,
            limit=zero,
        ),
        *_bearing(points, axis, load, checked & np.isin(points.method, (CHAPTER_17, FASTENER))),
        *_spacing(points, checked & (points.method == CHAPTER_17)),
        *_stiffness(points, axis, load, checked),
    ]


def least_spacing(points: Points) -> Floats:
    """`spacing_within` of a batch."""
    return spacing_within(points.layouts, count=points.count)


def spacing_within(layouts: Layouts, *, count: int) -> Floats:
    """The least distance of two anchors of each of ``count`` points, (points,), infinite where it has one."""
    a, b = near_pairs(
        x=layouts.x,
        y=layouts.y,
        case_of_anchor=layouts.point,
        limit=np.full(len(layouts.x), np.inf),
        counts=np.ones(len(layouts.x), dtype=np.bool_),
    )
    least = np.full(count, np.inf)
    np.minimum.at(least, layouts.point[a], np.hypot(layouts.x[a] - layouts.x[b], layouts.y[a] - layouts.y[b]))
    return least


def _spacing(points: Points, checked: Bools) -> list[FindingColumn]:
    """The least spacing of the anchors of a point against that of the product and of the code (17.9.2)."""
    product, least = points.products, least_spacing(points)
    own, code = below(least, limit=product.s_min), below(least, limit=product.s_min_code)
    has = np.where(np.isfinite(least), least, 0.0)
    return [
        FindingColumn(finding=Finding.SPACING_BELOW_MINIMUM, holds=own & checked, value=has, limit=product.s_min),
        FindingColumn(
            # said where the product states less without tests; otherwise the finding above says it
            finding=Finding.SPACING_BELOW_CODE,
            holds=below(product.s_min, limit=product.s_min_code) & code & checked,
            value=has,
            limit=product.s_min_code,
        ),
    ]


def _bearing(points: Points, axis: CaseAxis, load: Distribution, checked: Bools) -> list[FindingColumn]:
    """What a plate presses on the concrete with, against its strength in bearing (22.8.3.2, EN 1992-1-1 6.7).

    The stress at the edge is elastic. Only where the whole plate can't bear the force, in the widest support, does it
    fail the point: what the concrete bears by the shape of its support is the engineer's.
    """
    plates, layout = points.plates, load.layout
    stress = np.zeros(len(load.pressed))
    if layout is not None:
        balance = layout.plate.balance
        stress[layout.cases] = np.where(balance.in_equilibrium, balance.sigma_max, 0.0)
    edge, force = axis.largest(stress), axis.largest(load.pressed)
    by_en = points.fasteners is not None
    bearing = (BEARING_EN if by_en else BEARING) * points.bases.f_c
    wide = WIDE_SUPPORT_EN if by_en else WIDE_SUPPORT
    most = wide * bearing * (plates.x1 - plates.x0) * (plates.y1 - plates.y0)
    exceeded, crushes = (
        (Finding.FASTENER_PLATE_BEARING, Finding.FASTENER_PLATE_CRUSHES)
        if by_en
        else (Finding.PLATE_BEARING, Finding.PLATE_CRUSHES)
    )
    bears = plates.contact & checked
    return [
        FindingColumn(exceeded, bears & below(bearing, limit=edge), edge, bearing),
        FindingColumn(crushes, bears & below(most, limit=force), force, most),
    ]


def _stiffness(points: Points, axis: CaseAxis, load: Distribution, checked: Bools) -> list[FindingColumn]:
    """Whether a plate that bears on the concrete stays elastic around its most loaded anchor.

    A strip of the plate as wide as twice its length bends by the force of the anchor at its end; so 3 T / t**2 is its
    stress whatever its length (spread of 45 degrees; common practice, no source).
    """
    thickness, stated = points.fixings.thickness, points.plates.stated & checked
    pull = _pull(axis, load)
    needed = np.sqrt(3 * pull / (F_Y_PLATE if points.fasteners is None else F_Y_PLATE_EN))
    pulled = stated & (pull > 0)
    return [
        FindingColumn(
            finding=Finding.PLATE_THICKNESS_UNKNOWN, holds=pulled & (thickness == 0), value=thickness, limit=needed
        ),
        FindingColumn(
            finding=Finding.PLATE_BENDS,
            holds=pulled & (thickness > 0) & below(thickness, limit=needed),
            value=thickness,
            limit=needed,
        ),
    ]


def _pull(axis: CaseAxis, load: Distribution) -> Floats:
    """Largest tension of any anchor of each point, (points,)."""
    return axis.largest(load.anchors.n_ua[load.anchors.lead(load.anchors.n_ua)])
