"""Findings of 17.3 and 17.9 about dimensions and materials of single anchors. Units: in, psi.

Nothing here changes a strength: a violation fails the point, a caution or a note stands beside the numbers. What the
anchors of the batch can't have isn't listed.
"""

import numpy as np

from hangpoint.core.aci318_19.anchor_reinforcement import MOST_F_Y
from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding

LEAST_F_C = 2500.0
"""psi: the concrete of the qualification by ACI 355.2, and the least of structural concrete."""
LEAST_F_C_METRIC = 17.0 / 0.006894757293168361
"""psi. The edition in US units has 2,500 psi where the metric one has 17 MPa, 2,465.6 psi: one limit, rounded. Concrete
of either is not below it; what is calculated goes by the strength that is stated."""


def dimension_findings(
    *,
    c_a: Floats,
    c_min: Floats,
    c_min_code: Floats,
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
        c_a: (points, 4) edge distances, in.
        c_min, h_min: (points,) of the product, in.
        c_min_code: (points,) of 17.9.2, in; 0 where tests or cover stand in its place.
        thickness, h_ef, d_a, e_h: (points,) in.
        hooked, screw: (points,) kinds of anchor.
        limited_depth: (points,) expansion, screw or undercut anchor whose depth was not tested (17.9.4).
    """
    nearest = least_of_edges(c_a)
    found = [
        FindingColumn(Finding.EDGE_BELOW_MINIMUM, below(nearest, limit=c_min), nearest, c_min),
        FindingColumn(
            # said where the product states less without tests; otherwise the finding above says it
            Finding.EDGE_BELOW_CODE,
            below(c_min, limit=c_min_code) & below(nearest, limit=c_min_code),
            nearest,
            c_min_code,
        ),
        FindingColumn(Finding.THICKNESS_BELOW_MINIMUM, below(thickness, limit=h_min), thickness, h_min),
    ]
    if some(limited_depth):
        deepest = np.maximum(2 / 3 * thickness, thickness - 4)
        found.append(
            FindingColumn(Finding.EMBEDMENT_TOO_DEEP, limited_depth & below(deepest, limit=h_ef), h_ef, deepest)
        )
    if some(screw):
        least, most = np.maximum(5 * d_a, 1.5), 10 * d_a
        found.append(_between(Finding.SCREW_EMBEDMENT, screw, h_ef, least, most))
    if some(hooked):
        found.append(_between(Finding.HOOK_LENGTH, hooked, e_h, 3 * d_a, 4.5 * d_a))
    return found


def thick_enough(*, thickness: Floats, d_a: Floats) -> Bools:
    """Whether steel that an anchor is welded to makes the coefficient of V_b 8 (17.7.2.2.2); 0 is not stated.

    Args:
        thickness, d_a: (points,) in.
    """
    return ~below(thickness, limit=_welded_least(d_a))


def wide_enough(*, spacing: Floats) -> Bools:
    """Whether welded anchors stand far enough apart for the coefficient 8 of V_b (17.7.2.2.2).

    Args:
        spacing: (points,) the least of the layout, in, infinite for one anchor.
    """
    return ~below(spacing, limit=2.5)


def far_corner(*, c_a2_min: Floats, h_ef: Floats) -> Bools:
    """Whether the coefficient 8 of V_b needs no reinforcement of the corner (17.7.2.2.2): c_a2 is beyond 1.5 h_ef.

    Args:
        c_a2_min, h_ef: (rows,) in; the nearer edge across, infinite where there is none.
    """
    return c_a2_min > 1.5 * h_ef * (1 + 1e-9)


def _welded_least(d_a: Floats) -> Floats:
    return np.maximum(0.375, d_a / 2)


def fixing_findings(
    *, d_a: Floats, h_ef: Floats, c_a: Floats, adhesive: Bools, welded: Bools, thickness: Floats
) -> list[FindingColumn]:
    """Embedment of adhesive anchors (17.3.3), and what a welded anchor lacks for the coefficient 8 (17.7.2.2.2).

    Args:
        d_a, h_ef, thickness: (points,) in; thickness of the steel it is welded to, 0 where not stated.
        c_a: (points, 4) edge distances, in.
        adhesive, welded: (points,) boolean; cast in, welded and sheared.
    """
    found: list[FindingColumn] = []
    if some(adhesive):
        least, most = 4 * d_a, 20 * d_a
        shallow = below(h_ef, limit=least)
        outside = adhesive & (shallow | below(most, limit=h_ef))
        found.append(FindingColumn(Finding.ADHESIVE_EMBEDMENT, outside, h_ef, np.where(shallow, least, most)))
    if some(welded):
        thick, near = thick_enough(thickness=thickness, d_a=d_a), least_of_edges(c_a)
        corner = np.isfinite(c_a[:, :2]).any(axis=1) & np.isfinite(c_a[:, 2:]).any(axis=1)
        close = welded & thick & corner & ~far_corner(c_a2_min=near, h_ef=h_ef)
        found.append(FindingColumn(Finding.WELDED_STEEL_THIN, welded & ~thick, thickness, _welded_least(d_a)))
        found.append(FindingColumn(Finding.WELDED_NEAR_CORNER, close, near, 1.5 * h_ef))
    return found


def concrete_findings(
    *,
    f_c_specified: Floats,
    f_c_limit: Floats,
    f_y_bars: Floats,
    post_installed: Bools,
    cracked: Bools,
    category: Codes,
) -> list[FindingColumn]:
    """Strength of concrete and anchor reinforcement against their limits; uncracked concrete in an earthquake zone.

    Args:
        f_c_specified, f_c_limit: (points,) psi.
        f_y_bars: (points,) largest f_y of anchor reinforcement, psi, 0 without any.
        post_installed, cracked: (points,) boolean.
        category: (points,) seismic design category, 0 for A to 5 for F.
    """
    found = [FindingColumn(Finding.F_C_LIMITED, below(f_c_limit, limit=f_c_specified), f_c_specified, f_c_limit)]
    weak = below(f_c_specified, limit=LEAST_F_C_METRIC)
    if some(weak):
        least = np.full(len(f_c_specified), LEAST_F_C)
        found.append(FindingColumn(Finding.F_C_BELOW_QUALIFICATION, weak & post_installed, f_c_specified, least))
        found.append(FindingColumn(Finding.F_C_BELOW_STRUCTURAL, weak & ~post_installed, f_c_specified, least))
    most = np.full(len(f_y_bars), MOST_F_Y)
    strong = below(most, limit=f_y_bars)
    if some(strong):
        found.append(FindingColumn(Finding.BAR_YIELD_LIMITED, strong, f_y_bars, most))
    none = np.zeros(len(cracked))
    return [*found, FindingColumn(Finding.UNCRACKED_IN_SEISMIC, ~cracked & (category >= 2), none, none)]


def _between(finding: Finding, asked: Bools, length: Floats, least: Floats, most: Floats) -> FindingColumn:
    """A length outside of its range, with the end of the range that it misses."""
    short = below(length, limit=least)
    return FindingColumn(finding, asked & (short | below(most, limit=length)), length, np.where(short, least, most))
