"""Concrete breakout in shear, ACI 318-19 17.7.2. Units: in, in2, psi, lbf; d_a up to 4 in (17.3.2).

A row for each anchor or row of anchors and each finite edge (reading 15). The reduced edge distance of narrow members
(17.7.2.1.2) enters the areas, V_b and every psi (reading 17). The form with 9 limits that of welded anchors as well
(reading 16). Shear oblique to the edge is judged by two ratios, towards the edge and along it (reading 14).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.geometry.edge_area import edge_area
from hangpoint.core.quantity import Axis, Bools, Codes, Floats, StrengthRecord, formula, given, procedure, record

NO_BAR, EDGE_BAR, EDGE_BAR_WITH_STIRRUPS = 0, 1, 2
EDGE_REINFORCEMENT = (
    "none, or an edge bar below No. 4",
    "edge bar of No. 4 or larger",
    "edge bar of No. 4 or larger with stirrups at most 4 in apart",
)
VECTOR, SEPARATE, LINEAR = 0, 1, 2
OBLIQUE = ("vector", "separate", "linear sum")


@record
class ConcreteBreakoutShear(StrengthRecord):
    """Breakout of the concrete towards one edge, from one anchor or one row of anchors along it."""

    TITLE: ClassVar[str] = "concrete breakout in shear"
    AXIS: ClassVar[Axis] = Axis.GROUP

    c_a1: Annotated[Floats, given("c_a1", "in", clause="17.7.2.1.1")]
    c_a2_low: Annotated[Floats, given("c_a2, lower side", "in", clause="17.7.2.1.1", infinite="none")]
    c_a2_high: Annotated[Floats, given("c_a2, upper side", "in", clause="17.7.2.1.1", infinite="none")]
    c_a2_max: Annotated[
        Floats, formula("c_a2,max", "in", "max(c_a2_low, c_a2_high)", clause="17.7.2.1.2", infinite="none")
    ]
    h_a: Annotated[Floats, given("h_a", "in", clause="17.7.2.1.1")]
    anchor_count: Annotated[Floats, given("n", clause="17.7.2.1.1")]
    extent: Annotated[Floats, procedure("distance of the outer anchors", "in", "row_extent", clause="17.7.2.1.1")]
    s_max: Annotated[Floats, procedure("s_max", "in", "largest_spacing", clause="17.7.2.1.2")]
    narrow: Annotated[
        Bools,
        formula(
            "narrow member",
            "",
            "(c_a2_max < 1.5 * c_a1) * (h_a < 1.5 * c_a1) == 1",
            clause="17.7.2.1.2",
        ),
    ]
    c_a1_reduced: Annotated[
        Floats,
        formula(
            "c'_a1 of a narrow member",
            "in",
            "min(c_a1, max(c_a2_max / 1.5, h_a / 1.5, s_max / 3))",
            clause="17.7.2.1.2",
            when="narrow",
        ),
    ]
    c_a1_used: Annotated[Floats, formula("c'_a1", "in", "where(narrow, c_a1_reduced, c_a1)", clause="17.7.2.1.2")]
    a_vco: Annotated[Floats, formula("A_Vco", "in**2", "4.5 * c_a1_used**2", clause="17.7.2.1.3")]
    a_vc: Annotated[Floats, procedure("A_Vc", "in**2", "edge_area", clause="17.7.2.1.1")]
    e_v: Annotated[Floats, procedure("e'_V", "in", "shear_eccentricity", clause="17.7.2.3")]
    psi_ec_v: Annotated[Floats, formula("ψ_ec,V", "", "1 / (1 + e_v / (1.5 * c_a1_used))", clause="17.7.2.3.1")]
    c_a2_min: Annotated[
        Floats, formula("c_a2,min", "in", "min(c_a2_low, c_a2_high)", clause="17.7.2.4", infinite="none")
    ]
    psi_ed_v: Annotated[
        Floats, formula("ψ_ed,V", "", "min(1, 0.7 + 0.3 * c_a2_min / (1.5 * c_a1_used))", clause="17.7.2.4.1")
    ]
    cracked: Annotated[Bools, given("cracked")]
    edge_reinforcement: Annotated[
        Codes,
        given("reinforcement along the edge", clause="Table 17.7.2.5.1", when="cracked", labels=EDGE_REINFORCEMENT),
    ]
    psi_c_v: Annotated[
        Floats,
        formula(
            "ψ_c,V",
            "",
            "where(cracked, where(edge_reinforcement == 2, 1.4, where(edge_reinforcement == 1, 1.2, 1)), 1.4)",
            clause="Table 17.7.2.5.1",
        ),
    ]
    psi_h_v: Annotated[Floats, formula("ψ_h,V", "", "max(1, sqrt(1.5 * c_a1_used / h_a))", clause="17.7.2.6.1")]
    h_ef: Annotated[Floats, given("h_ef", "in")]
    d_a: Annotated[Floats, given("d_a", "in")]
    distance_sleeve: Annotated[Bools, given("distance sleeve", clause="17.7.2.2.1")]
    l_e: Annotated[
        Floats, formula("l_e", "in", "where(distance_sleeve, 2 * d_a, min(h_ef, 8 * d_a))", clause="17.7.2.2.1")
    ]
    lambda_a: Annotated[Floats, given("λ_a", clause="17.2.4.1")]
    f_c: Annotated[Floats, given("f'_c", "psi", clause="17.3.1")]
    welded: Annotated[Bools, given("welded to its steel", clause="17.7.2.2.2")]
    v_b_stiffness: Annotated[
        Floats,
        formula(
            "V_b by l_e and d_a",
            "lbf",
            "where(welded, 8, 7) * (l_e / d_a)**0.2 * sqrt(d_a) * lambda_a * sqrt(f_c) * c_a1_used**1.5",
            clause="17.7.2.2.1a, 17.7.2.2.2",
            coefficient="lbf / (psi**0.5 * in**2)",
        ),
    ]
    v_b_limit: Annotated[
        Floats,
        formula(
            "V_b at most",
            "lbf",
            "9 * lambda_a * sqrt(f_c) * c_a1_used**1.5",
            clause="17.7.2.2.1b",
            coefficient="lbf / (psi**0.5 * in**1.5)",
        ),
    ]
    v_b: Annotated[Floats, formula("V_b", "lbf", "min(v_b_stiffness, v_b_limit)", clause="17.7.2.2.1")]
    v_cb: Annotated[
        Floats,
        formula(
            "V_cb towards the edge",
            "lbf",
            "a_vc / a_vco * psi_ec_v * psi_ed_v * psi_c_v * psi_h_v * v_b",
            clause="17.7.2.1",
        ),
    ]
    v_cb_along: Annotated[
        Floats,
        formula(
            "V_cb along the edge, ψ_ed,V = 1",
            "lbf",
            "2 * a_vc / a_vco * psi_ec_v * psi_c_v * psi_h_v * v_b",
            clause="17.7.2.1(c)",
        ),
    ]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(b)")]
    phi_v_cb: Annotated[Floats, formula("φV_cb towards the edge", "lbf", "phi * v_cb", clause="Table 17.5.2")]
    phi_v_cb_along: Annotated[Floats, formula("φV_cb along the edge", "lbf", "phi * v_cb_along", clause="Table 17.5.2")]
    v_towards: Annotated[Floats, procedure("V_ua towards the edge", "lbf", "row_shear", clause="17.7.2.1.1")]
    v_along: Annotated[Floats, procedure("V_ua along the edge", "lbf", "row_shear", clause="17.7.2.1.1")]
    v_ua: Annotated[Floats, formula("V_ua", "lbf", "sqrt(v_towards**2 + v_along**2)", clause="reading 14")]
    r_towards: Annotated[Floats, formula("ratio towards the edge", "", "v_towards / phi_v_cb", clause="Table 17.5.2")]
    r_along: Annotated[Floats, formula("ratio along the edge", "", "v_along / phi_v_cb_along", clause="Table 17.5.2")]
    r_along_row: Annotated[Floats, procedure("ratio along, whole row", "", "row_along", clause="reading 14")]
    r_along_worst: Annotated[
        Floats, formula("larger ratio along", "", "max(r_along, r_along_row)", clause="reading 14")
    ]
    oblique: Annotated[Codes, given("rule for oblique shear", clause="reading 14", labels=OBLIQUE)]
    r_oblique: Annotated[
        Floats,
        formula(
            "combined ratio",
            "",
            "where(oblique == 0, sqrt(r_towards**2 + r_along_worst**2),"
            " where(oblique == 1, max(r_towards, r_along_worst), r_towards + r_along_worst))",
            clause="reading 14",
        ),
    ]
    design_strength: Annotated[
        Floats,
        formula(
            "φV_cb in the direction of the load",
            "lbf",
            "where(r_oblique > 0, v_ua / r_oblique, phi_v_cb)",
            clause="Table 17.5.2",
        ),
    ]
    demand: Annotated[Floats, formula("V_ua,g", "lbf", "v_ua", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("V_ua,g / φV_cb", "", "demand / design_strength", clause="Table 17.5.2")]


def concrete_breakout_shear(
    *,
    c_a1: Floats,
    c_a2: Floats,
    h_a: Floats,
    h_ef: Floats,
    d_a: Floats,
    distance_sleeve: Bools,
    welded: Bools,
    extent: Floats,
    s_max: Floats,
    anchor_count: Floats,
    e_v: Floats,
    cracked: Bools,
    edge_reinforcement: Codes,
    lambda_a: Floats,
    f_c: Floats,
    phi: Floats,
    v_towards: Floats,
    v_along: Floats,
    r_along_row: Floats,
    oblique: Codes,
) -> ConcreteBreakoutShear:
    """Design strength of the concrete in breakout towards each edge.

    Args:
        c_a1, h_a: (rows,) distance to the edge and thickness behind it, in, finite.
        c_a2: (rows, 2) from the outer anchors of the row to the edges across, in, infinite where there is none.
        h_ef, d_a: (rows,) in.
        distance_sleeve: (rows,) torque-controlled, with a distance sleeve apart from the expansion sleeve.
        welded: (rows,) cast-in, continuously welded to steel that satisfies 17.7.2.2.2.
        extent, s_max: (rows,) distance of the outer anchors of the row and largest gap in it (reading 10), in, 0 for
            one; a gap of a group is below 3 c_a1.
        anchor_count: (rows,) anchors of the row.
        e_v: (rows,) eccentricity of the shear of the row, in, not negative.
        cracked: (rows,) boolean; ``edge_reinforcement`` is `NO_BAR`, `EDGE_BAR` or `EDGE_BAR_WITH_STIRRUPS`.
        lambda_a, f_c: (rows,) of `ConcreteBasis`; f_c in psi.
        phi: (rows,) of Table 17.5.3(b) for shear.
        v_towards, v_along: (rows,) factored shear of the row, lbf, not negative; away from the edge is 0 towards it.
        r_along_row: (rows,) the largest ``r_along`` of sets of these and other anchors of the row in which those count
            that are not pushed to the edge; 0 where there are none, and where there is no shear towards the edge.
        oblique: (rows,) `VECTOR`, `SEPARATE` or `LINEAR`.
    """
    c_a2_low, c_a2_high = c_a2[:, 0].copy(), c_a2[:, 1].copy()
    c_a2_max = np.maximum(c_a2_low, c_a2_high)
    narrow = (c_a2_max < 1.5 * c_a1) & (h_a < 1.5 * c_a1)
    widest = np.maximum(np.maximum(c_a2_max / 1.5, h_a / 1.5), s_max / 3)
    c_a1_reduced = np.minimum(c_a1, widest)
    c_a1_used = np.where(narrow, c_a1_reduced, c_a1)
    reach = 1.5 * c_a1_used
    a_vco = 4.5 * c_a1_used**2
    a_vc = edge_area(
        reach=reach, c_low=c_a2_low, c_high=c_a2_high, thickness=h_a, extent=extent, anchor_count=anchor_count
    )
    psi_ec_v = 1 / (1 + e_v / reach)
    c_a2_min = np.minimum(c_a2_low, c_a2_high)
    psi_ed_v = np.minimum(1.0, 0.7 + 0.3 * c_a2_min / reach)
    bar_alone = np.where(edge_reinforcement == EDGE_BAR, 1.2, 1.0)
    psi_c_v = np.where(cracked, np.where(edge_reinforcement == EDGE_BAR_WITH_STIRRUPS, 1.4, bar_alone), 1.4)
    psi_h_v = np.maximum(1.0, np.sqrt(reach / h_a))
    l_e = np.where(distance_sleeve, 2 * d_a, np.minimum(h_ef, 8 * d_a))
    v_b_unit = lambda_a * np.sqrt(f_c) * c_a1_used**1.5
    v_b_stiffness = np.where(welded, 8.0, 7.0) * (l_e / d_a) ** 0.2 * np.sqrt(d_a) * v_b_unit
    v_b_limit = 9 * v_b_unit
    v_b = np.minimum(v_b_stiffness, v_b_limit)
    without_corner = a_vc / a_vco * psi_ec_v * psi_c_v * psi_h_v * v_b
    v_cb, v_cb_along = psi_ed_v * without_corner, 2 * without_corner
    phi_v_cb, phi_v_cb_along = phi * v_cb, phi * v_cb_along
    v_ua = np.hypot(v_towards, v_along)
    r_towards, r_along = v_towards / phi_v_cb, v_along / phi_v_cb_along
    r_along_worst = np.maximum(r_along, r_along_row)
    r_oblique = _combined(r_towards=r_towards, r_along=r_along_worst, oblique=oblique)
    loaded = r_oblique > 0
    design_strength = np.where(loaded, v_ua / np.where(loaded, r_oblique, 1.0), phi_v_cb)
    demand = v_ua
    return ConcreteBreakoutShear(
        c_a1=c_a1,
        c_a2_low=c_a2_low,
        c_a2_high=c_a2_high,
        c_a2_max=c_a2_max,
        h_a=h_a,
        anchor_count=anchor_count,
        extent=extent,
        s_max=s_max,
        narrow=narrow,
        c_a1_reduced=c_a1_reduced,
        c_a1_used=c_a1_used,
        a_vco=a_vco,
        a_vc=a_vc,
        e_v=e_v,
        psi_ec_v=psi_ec_v,
        c_a2_min=c_a2_min,
        psi_ed_v=psi_ed_v,
        cracked=cracked,
        edge_reinforcement=edge_reinforcement,
        psi_c_v=psi_c_v,
        psi_h_v=psi_h_v,
        h_ef=h_ef,
        d_a=d_a,
        distance_sleeve=distance_sleeve,
        l_e=l_e,
        lambda_a=lambda_a,
        f_c=f_c,
        welded=welded,
        v_b_stiffness=v_b_stiffness,
        v_b_limit=v_b_limit,
        v_b=v_b,
        v_cb=v_cb,
        v_cb_along=v_cb_along,
        phi=phi,
        phi_v_cb=phi_v_cb,
        phi_v_cb_along=phi_v_cb_along,
        v_towards=v_towards,
        v_along=v_along,
        v_ua=v_ua,
        r_towards=r_towards,
        r_along=r_along,
        r_along_row=r_along_row,
        r_along_worst=r_along_worst,
        oblique=oblique,
        r_oblique=r_oblique,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )


def _combined(*, r_towards: Floats, r_along: Floats, oblique: Codes) -> Floats:
    """One ratio out of two (reading 14): as a vector, the larger, or the sum."""
    separate = np.maximum(r_towards, r_along)
    return np.where(
        oblique == VECTOR,
        np.hypot(r_towards, r_along),
        np.where(oblique == SEPARATE, separate, r_towards + r_along),
    )
