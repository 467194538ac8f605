"""What the member says against drilling into it (reading 39), and the limit of the structural notes. Units: in, lbf."""

import numpy as np

from hangpoint.core.hang_point.points import SOFFIT, Points
from hangpoint.core.hang_point.surroundings import BEAM, JOIST, TENSIONED, TENSIONED_UNKNOWN
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding

_ROUNDING = 1e-9
USUAL_THICKNESS, USUAL_F_C = 120.0, 15_000.0
"""in, psi: beyond them a number was more likely stated in another unit (common practice)."""


def base_findings(points: Points, checked: Bools) -> list[FindingColumn]:
    """Depth of the hole against tendons, cover and half of the concrete; post-tensioned members and beams; unit slips.

    Args:
        points: the batch.
        checked: (points,) the anchors are checked.
    """
    none = np.zeros(points.count)
    return [
        *_drilled(points, checked),
        *_unusual(points, checked),
        FindingColumn(Finding.TENDONS_SCANNED, checked & maybe_tensioned(points), none, none),
        FindingColumn(Finding.BEAM_SOFFIT, checked & in_beam(points), none, none),
    ]


def _drilled(points: Points, checked: Bools) -> list[FindingColumn]:
    """Depth of the holes, where any are drilled."""
    around, drilled = points.surroundings, points.surroundings.drilled
    own = checked & (drilled > 0)
    if not some(own):
        return []
    found: list[FindingColumn] = []
    tendon, cover = around.tendon_depth, around.clear_cover
    if some(tendon):
        touched = own & (tendon > 0) & (drilled >= tendon * (1 - _ROUNDING))
        found.append(FindingColumn(Finding.DRILLED_TO_TENDON, touched, drilled, tendon))
    if some(cover):
        beyond = own & (cover > 0) & (drilled > cover * (1 + _ROUNDING))
        found.append(FindingColumn(Finding.DRILLED_BEYOND_COVER, beyond, drilled, cover))
    half = np.where(points.decks.in_deck, np.inf, points.bases.thickness) / 2  # in a deck its tests decide
    deep = own & (drilled > half * (1 + _ROUNDING))
    return [*found, FindingColumn(Finding.DRILLED_BEYOND_HALF, deep, drilled, half)]


def _unusual(points: Points, checked: Bools) -> list[FindingColumn]:
    """Numbers that may be in another unit than the one meant."""
    thickness, f_c = points.bases.thickness, points.bases.f_c
    thick, strong = (thickness > USUAL_THICKNESS) & np.isfinite(thickness), f_c > USUAL_F_C
    return [
        FindingColumn(finding, checked & holds, value, np.full(points.count, usual))
        for finding, holds, value, usual in (
            (Finding.THICKNESS_UNUSUAL, thick, thickness, USUAL_THICKNESS),
            (Finding.F_C_UNUSUAL, strong, f_c, USUAL_F_C),
        )
        if some(holds)
    ]


def limit_finding(points: Points, service: Floats) -> FindingColumn:
    """The service load against the most that the structural notes allow at a point, checked or not.

    Args:
        points: the batch.
        service: (points,) dead load, contents, live load and the 250 lb of a sprinkler point, lbf.
    """
    limit = points.surroundings.point_limit
    return FindingColumn(Finding.STRUCTURAL_LIMIT, service > limit * (1 + _ROUNDING), service, limit)


def maybe_tensioned(points: Points) -> Bools:
    """(points,) post-tensioned, or nobody knows."""
    stated = points.surroundings.post_tensioned
    return (stated == TENSIONED) | (stated == TENSIONED_UNKNOWN)


def in_beam(points: Points) -> Bools:
    """(points,) in the soffit of a beam or joist."""
    part = points.surroundings.part
    return ((part == BEAM) | (part == JOIST)) & (points.bases.face == SOFFIT)
