"""What is seen of cast-in bolts in grouted masonry: place, depth, edges, spacing and strength. Units: in, psi.

TMS 402 6.2 and 9.1.9 from memory. A bolt is set in grout: 1/4 in of it (fine grout) at least between the bolt and a
unit or the face of the masonry, and a diameter or 1 in clear between bolts.
"""

import numpy as np

from hangpoint.core.aci318_19.pullout import HEADED, HOOKED
from hangpoint.core.allowable.masonry_bolt import effective_embedment
from hangpoint.core.hang_point.allowables import LOCATIONS, MASONRY_BOLT, Allowables
from hangpoint.core.hang_point.layout_findings import nearest_edges
from hangpoint.core.hang_point.points import SIDE, Points
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Finding

GROUT = 0.25
"""in: of fine grout between a bolt and a unit."""
FACE_SHELL = 1.25
"""in: least face shell of units of 8 in and more (ASTM C90, from memory)."""
HEAD_HEIGHT = 0.625
"""Diameters: of a hexagon head (ASME B18.2.1, 15/32 in for 3/4 in, from memory), behind h_ef, which ends at its bearing
face."""
LEAST_F_M = 1500.0
"""psi, in strength design."""
_LEAST_F_M_METRIC = 10.34 / 0.006894757293168361
"""psi. TMS 402 has 10.34 MPa beside its 1,500 psi, from memory: masonry of either is not below it."""
_MOST_F_M = np.array([4000.0, 6000.0])
"""psi, in strength design, of units of concrete and of clay."""
_OUT_OF_GROUT = [LOCATIONS.index("web"), LOCATIONS.index("joint")]


def out_of_grout(own: Allowables) -> Bools:
    """(points,) bolts in a mortar joint or in the web of a unit."""
    return (own.method == MASONRY_BOLT) & np.isin(own.location, _OUT_OF_GROUT)


def most_f_m(own: Allowables) -> Floats:
    """(points,) the most that f'm counts: infinite in allowable stress design."""
    return np.where(own.by_strength, _MOST_F_M[np.maximum(own.material, 0)], np.inf)


def least_edge(*, d_b: Floats, c_min: Floats, shell: Floats) -> Floats:
    """Least distance of each bolt to an edge of the masonry; ``shell`` of units stands between the two, 0 in a side."""
    return np.maximum(c_min, d_b / 2 + GROUT + shell)


def least_spacing(*, d_b: Floats, s_min: Floats) -> Floats:
    """Least distance of two bolts, centre to centre."""
    return np.maximum(s_min, d_b + np.maximum(d_b, 1.0))


def bolt_findings(points: Points, own: Allowables, *, checked: Bools, spacing: Floats) -> list[FindingColumn]:
    """Findings of points with bolts in masonry.

    Args:
        points: the batch; ``own`` what they are checked by.
        checked: (points,) whether the anchors are.
        spacing: of `allowable_findings.nearest_anchor`.
    """
    bolt = checked & (own.method == MASONRY_BOLT)
    product, d_b = points.products, points.products.d_a
    l_b = effective_embedment(h_ef=product.h_ef, d_b=d_b, bent=product.pullout_method == HOOKED)
    in_side = points.bases.face == SIDE
    shell = np.where(own.material == 0, np.where(np.isfinite(own.face_shell), own.face_shell, FACE_SHELL), 0.0)
    head = np.where(product.pullout_method == HEADED, HEAD_HEIGHT * d_b, 0.0)
    behind = head + GROUT + np.where(in_side, shell, 0.0)
    edge = least_edge(d_b=d_b, c_min=product.c_min, shell=np.where(in_side, 0.0, shell))
    limits = {
        Finding.MASONRY_EMBEDMENT: (l_b, np.maximum(4 * d_b, 2.0)),
        Finding.MASONRY_EDGE: (nearest_edges(points).min(axis=1), edge),
        Finding.MASONRY_SPACING: (spacing, least_spacing(d_b=d_b, s_min=product.s_min)),
        Finding.MASONRY_THICKNESS: (points.bases.thickness, product.h_ef + behind),
    }
    found = {finding: (value, limit, below(value, limit=limit)) for finding, (value, limit) in limits.items()}
    weak = own.by_strength & below(own.f_base, limit=_LEAST_F_M_METRIC)
    found[Finding.MASONRY_STRENGTH_LOW] = (own.f_base, np.full(points.count, LEAST_F_M), weak)
    most = most_f_m(own)
    found[Finding.MASONRY_STRENGTH_LIMITED] = (own.f_base, most, below(most, limit=own.f_base))
    return [
        FindingColumn(
            finding=finding,
            holds=bolt & holds,
            value=np.where(holds, value, 0.0),
            limit=np.where(np.isfinite(limit), limit, 0.0),
        )
        for finding, (value, limit, holds) in found.items()
    ]
