"""Findings of 17.3 and 17.9 about dimensions and materials of single anchors. Units: in, psi.

Nothing here changes a strength: a violation fails the point, a caution or a note stands beside the numbers.
"""

import numpy as np

from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.core.vocabulary import Finding


def dimension_findings(
    *,
    c_a: Floats,
    c_min: Floats,
    thickness: Floats,
    h_min: Floats,
    h_ef: Floats,
    d_a: Floats,
    e_h: Floats,
    hooked: Bools,
    screw: Bools,
    limited_depth: Bools,
) -> list[FindingColumn]:
    """Edge, thickness and embedment against their limits.

    Args:
        c_a: (points, 4) edge distances, in. c_min, h_min: (points,) of the product, in.
        thickness, h_ef, d_a, e_h: (points,) in.
        hooked, screw: (points,) kinds of anchor.
        limited_depth: (points,) expansion, screw or undercut anchor whose depth was not tested (17.9.4).
    """
    nearest = least_of_edges(c_a)
    deepest = np.maximum(2 / 3 * thickness, thickness - 4)
    screw_least = np.maximum(5 * d_a, 1.5)
    screw_most = 10 * d_a
    short = h_ef < screw_least
    hook_short = e_h < 3 * d_a
    return [
        _column(Finding.EDGE_BELOW_MINIMUM, nearest < c_min, nearest, c_min),
        _column(Finding.THICKNESS_BELOW_MINIMUM, thickness < h_min, thickness, h_min),
        _column(Finding.EMBEDMENT_TOO_DEEP, limited_depth & (h_ef > deepest), h_ef, deepest),
        _column(
            Finding.SCREW_EMBEDMENT,
            screw & (short | (h_ef > screw_most)),
            h_ef,
            np.where(short, screw_least, screw_most),
        ),
        _column(
            Finding.HOOK_LENGTH,
            hooked & (hook_short | (e_h > 4.5 * d_a)),
            e_h,
            np.where(hook_short, 3 * d_a, 4.5 * d_a),
        ),
    ]


def concrete_findings(
    *, f_c_specified: Floats, f_c_limit: Floats, f_c_ref: Floats, by_product: Bools, cracked: Bools, category: Codes
) -> list[FindingColumn]:
    """Concrete strength against the limit of 17.3.1 and the product's tests; uncracked concrete in an earthquake zone.

    Args:
        f_c_specified, f_c_limit, f_c_ref: (points,) psi.
        by_product: (points,) N_p comes from tests.
        cracked: (points,) boolean.
        category: (points,) seismic design category, 0 for A to 5 for F.
    """
    return [
        _column(Finding.F_C_LIMITED, f_c_specified > f_c_limit, f_c_specified, f_c_limit),
        _column(Finding.F_C_BELOW_QUALIFICATION, by_product & (f_c_specified < f_c_ref), f_c_specified, f_c_ref),
        _column(
            Finding.UNCRACKED_IN_SEISMIC,
            ~cracked & (category >= 2),
            np.zeros(len(cracked)),
            np.zeros(len(cracked)),
        ),
    ]


def _column(finding: Finding, holds: Bools, value: Floats, limit: Floats) -> FindingColumn:
    return FindingColumn(finding=finding, holds=holds, value=value, limit=limit)
