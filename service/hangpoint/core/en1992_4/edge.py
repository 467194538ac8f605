"""Concrete edge failure, EN 1992-4 7.2.2.5. Units: mm, mm2, N/mm2, N; d_nom up to 60 mm (from memory).

A row for each row of fasteners and each finite edge. c'_1 of narrow thin members enters the areas, V0_Rk,c with its
exponents and every psi (reading 26); psi_re,V is 1.0 (reading 27). ``l_1`` is 1 mm, the unit of what has an exponent.
Nearer than half of d_nom a fastener isn't in the concrete: alpha, which would let V0_Rk,c grow without bound towards
the edge, stays as it is there.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import ANNEX_D, FIRE, K_FI, MINUTES, k_fi
from hangpoint.core.en1992_4.seismic import (
    ALPHA_EQ,
    ALPHA_GAP,
    EARTHQUAKE,
    GAP_FILLED,
    SEVERAL,
    alpha_eq,
    alpha_gap,
)
from hangpoint.core.geometry.edge_area import edge_area
from hangpoint.core.quantity import Axis, Bools, Floats, StrengthRecord, formula, given, procedure, record

OPPOSED = 0.8
"""Of V_Rk,c beside fasteners sheared the other way, 7.2.2.5(8)."""


@record
class ConcreteEdge(StrengthRecord):
    """Edge failure of one fastener or of the row nearest to the edge."""

    TITLE: ClassVar[str] = "concrete edge failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    c_1: Annotated[Floats, given("c_1", "mm")]
    c_2_low: Annotated[Floats, given("c_2, lower side", "mm", infinite="none")]
    c_2_high: Annotated[Floats, given("c_2, upper side", "mm", infinite="none")]
    c_2_max: Annotated[Floats, formula("c_2,max", "mm", "max(c_2_low, c_2_high)", clause="Eq. 7.50", infinite="none")]
    h: Annotated[Floats, given("h", "mm")]
    anchor_count: Annotated[Floats, given("n")]
    extent: Annotated[Floats, procedure("distance of the outer fasteners", "mm", "row_extent", clause="7.2.2.5(6)")]
    s_2_max: Annotated[Floats, procedure("s_2,max", "mm", "largest_spacing", clause="Eq. 7.50")]
    narrow: Annotated[
        Bools,
        formula("narrow thin member", "", "(c_2_max < 1.5 * c_1) * (h < 1.5 * c_1) == 1", clause="7.2.2.5(13)"),
    ]
    c_1_reduced: Annotated[
        Floats,
        formula(
            "c'_1 of a narrow thin member",
            "mm",
            "min(c_1, max(c_2_max / 1.5, h / 1.5, s_2_max / 3))",
            clause="Eq. 7.50",
            when="narrow",
        ),
    ]
    c_1_used: Annotated[Floats, formula("c'_1", "mm", "where(narrow, c_1_reduced, c_1)", clause="Eq. 7.50")]
    h_ef: Annotated[Floats, given("h_ef", "mm")]
    d_nom: Annotated[Floats, given("d_nom", "mm")]
    l_f_stated: Annotated[Floats, given("l_f of the data", "mm", clause="7.2.2.5(5)")]
    l_f: Annotated[
        Floats,
        formula(
            "l_f",
            "mm",
            "min(l_f_stated, where(d_nom <= 24, 12 * d_nom, max(8 * d_nom, 300)))",
            clause="7.2.2.5(5)",
        ),
    ]
    alpha: Annotated[Floats, formula("α", "", "0.1 * (l_f / max(c_1_used, d_nom / 2))**0.5", clause="Eq. 7.42")]
    beta: Annotated[Floats, formula("β", "", "0.1 * (d_nom / max(c_1_used, d_nom / 2))**0.2", clause="Eq. 7.43")]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    k_9: Annotated[Floats, formula("k_9", "", "where(cracked, 1.7, 2.4)", clause="Eq. 7.41")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    l_1: Annotated[Floats, given("l_1", "mm", clause="Eq. 7.41")]
    v0_rk_c: Annotated[
        Floats,
        formula(
            "V⁰_Rk,c",
            "N",
            "k_9 * (d_nom / l_1)**alpha * (l_f / l_1)**beta * sqrt(f_ck) * c_1_used**1.5",
            clause="Eq. 7.41",
            coefficient="N / ((N/mm**2)**0.5 * mm**1.5)",
        ),
    ]
    a0_c_v: Annotated[Floats, formula("A⁰_c,V", "mm**2", "4.5 * c_1_used**2", clause="Eq. 7.44")]
    a_c_v: Annotated[Floats, procedure("A_c,V", "mm**2", "edge_area", clause="7.2.2.5(6)")]
    c_2: Annotated[Floats, formula("c_2", "mm", "min(c_2_low, c_2_high)", clause="Eq. 7.45", infinite="none")]
    psi_s_v: Annotated[Floats, formula("ψ_s,V", "", "min(1, 0.7 + 0.3 * c_2 / (1.5 * c_1_used))", clause="Eq. 7.45")]
    psi_h_v: Annotated[Floats, formula("ψ_h,V", "", "max(1, sqrt(1.5 * c_1_used / h))", clause="Eq. 7.46")]
    e_v: Annotated[Floats, procedure("e_V", "mm", "shear_eccentricity", clause="Eq. 7.47")]
    psi_ec_v: Annotated[Floats, formula("ψ_ec,V", "", "1 / (1 + 2 * e_v / (3 * c_1_used))", clause="Eq. 7.47")]
    v_towards: Annotated[Floats, given("V_Ed towards the edge", "N", clause="7.2.2.5(10)")]
    v_along: Annotated[Floats, given("V_Ed along the edge", "N", clause="7.2.2.5(10)")]
    demand: Annotated[Floats, formula("V_Ed,g", "N", "sqrt(v_towards**2 + v_along**2)", clause="Table 7.2")]
    psi_alpha_v: Annotated[
        Floats,
        formula(
            "ψ_α,V",
            "",
            "sqrt(1 / ((v_towards / demand)**2 + (0.5 * v_along / demand)**2))",
            clause="Eq. 7.48",
        ),
    ]
    opposed: Annotated[Bools, given("beside others sheared the other way", clause="7.2.2.5(8)")]
    v_rk_c: Annotated[
        Floats,
        formula(
            "V_Rk,c",
            "N",
            "where(opposed, 0.8, 1) * v0_rk_c * a_c_v / a0_c_v * psi_s_v * psi_h_v * psi_ec_v * psi_alpha_v",
            clause="Eq. 7.40, 7.2.2.5(8)",
        ),
    ]
    earthquake: Annotated[Bools, EARTHQUAKE]
    gap_filled: Annotated[Bools, GAP_FILLED]
    alpha_gap: Annotated[Floats, ALPHA_GAP]
    several: Annotated[Bools, SEVERAL]
    alpha_eq: Annotated[Floats, ALPHA_EQ]
    v_rk_c_eq: Annotated[
        Floats,
        formula("V_Rk,c,eq", "N", "alpha_gap * alpha_eq * v_rk_c", clause="Eq. C.8, from memory", when="earthquake"),
    ]
    fire: Annotated[Bools, FIRE]
    minutes: Annotated[Floats, MINUTES]
    k_fi: Annotated[Floats, K_FI]
    v_rk_c_fi: Annotated[Floats, formula("V_Rk,c,fi", "N", "k_fi * v_rk_c", clause=ANNEX_D, when="fire")]
    gamma_mc: Annotated[Floats, given("γ_Mc", clause="Table 4.1")]
    design_strength: Annotated[
        Floats,
        formula(
            "V_Rd,c",
            "N",
            "where(fire, v_rk_c_fi, where(earthquake, v_rk_c_eq, v_rk_c)) / gamma_mc",
            clause="Table 7.2",
        ),
    ]
    utilisation: Annotated[Floats, formula("V_Ed,g / V_Rd,c", "", "demand / design_strength", clause="Table 7.2")]


def concrete_edge(
    *,
    c_1: Floats,
    c_2_low: Floats,
    c_2_high: Floats,
    h: Floats,
    anchor_count: Floats,
    extent: Floats,
    s_2_max: Floats,
    h_ef: Floats,
    d_nom: Floats,
    l_f_stated: Floats,
    cracked: Bools,
    f_ck: Floats,
    e_v: Floats,
    v_towards: Floats,
    v_along: Floats,
    opposed: Bools,
    earthquake: Bools,
    gap_filled: Bools,
    several: Bools,
    fire: Bools,
    minutes: Floats,
    gamma_mc: Floats,
) -> ConcreteEdge:
    """Design resistance to concrete edge failure.

    Args:
        c_1, c_2_low, c_2_high, h: (rows,) edge distances and thickness of the member, mm; infinite where no edge is.
        anchor_count, extent, s_2_max: (rows,) fasteners of the row, distance of the outer ones, largest spacing, mm.
        h_ef, d_nom, l_f_stated: (rows,) mm.
        cracked: (rows,) boolean.
        f_ck: (rows,) N/mm2.
        e_v: (rows,) eccentricity of the shear along the row, mm.
        v_towards, v_along: (rows,) parts of the design shear, N; not both 0.
        opposed: (rows,) a fastener sheared against one of them is within 1.5 h_ef + 1.5 c_1.
        earthquake, gap_filled, several: (rows,) as in `seismic`.
        fire, minutes: (rows,) it acts, and how long.
        gamma_mc: (rows,) of `ConcreteFactors`.
    """
    c_2_max = np.maximum(c_2_low, c_2_high)
    narrow = (c_2_max < 1.5 * c_1) & (h < 1.5 * c_1)
    c_1_reduced = np.minimum(c_1, np.maximum(np.maximum(c_2_max / 1.5, h / 1.5), s_2_max / 3))
    c_1_used = np.where(narrow, c_1_reduced, c_1)
    l_f = np.minimum(l_f_stated, np.where(d_nom <= 24, 12 * d_nom, np.maximum(8 * d_nom, 300.0)))
    inside = np.maximum(c_1_used, d_nom / 2)
    alpha, beta = 0.1 * (l_f / inside) ** 0.5, 0.1 * (d_nom / inside) ** 0.2
    k_9 = np.where(cracked, 1.7, 2.4)
    l_1 = np.ones_like(c_1)
    v0_rk_c = k_9 * (d_nom / l_1) ** alpha * (l_f / l_1) ** beta * np.sqrt(f_ck) * c_1_used**1.5
    reach = 1.5 * c_1_used
    a0_c_v = 4.5 * c_1_used**2
    a_c_v = edge_area(
        reach=reach, c_low=c_2_low, c_high=c_2_high, thickness=h, extent=extent, anchor_count=anchor_count
    )
    c_2 = np.minimum(c_2_low, c_2_high)
    psi_s_v = np.minimum(1.0, 0.7 + 0.3 * c_2 / reach)
    psi_h_v = np.maximum(1.0, np.sqrt(reach / h))
    psi_ec_v = 1 / (1 + 2 * e_v / (3 * c_1_used))
    demand = np.sqrt(v_towards**2 + v_along**2)
    psi_alpha_v = np.sqrt(1 / ((v_towards / demand) ** 2 + (0.5 * v_along / demand) ** 2))
    by_torsion = np.where(opposed, OPPOSED, 1.0)
    v_rk_c = by_torsion * v0_rk_c * a_c_v / a0_c_v * psi_s_v * psi_h_v * psi_ec_v * psi_alpha_v
    by_gap, by_earthquake = alpha_gap(gap_filled=gap_filled), alpha_eq(several=several)
    v_rk_c_eq = by_gap * by_earthquake * v_rk_c
    left = k_fi(minutes)
    v_rk_c_fi = left * v_rk_c
    design_strength = np.where(fire, v_rk_c_fi, np.where(earthquake, v_rk_c_eq, v_rk_c)) / gamma_mc
    return ConcreteEdge(
        c_1=c_1,
        c_2_low=c_2_low,
        c_2_high=c_2_high,
        c_2_max=c_2_max,
        h=h,
        anchor_count=anchor_count,
        extent=extent,
        s_2_max=s_2_max,
        narrow=narrow,
        c_1_reduced=c_1_reduced,
        c_1_used=c_1_used,
        h_ef=h_ef,
        d_nom=d_nom,
        l_f_stated=l_f_stated,
        l_f=l_f,
        alpha=alpha,
        beta=beta,
        cracked=cracked,
        k_9=k_9,
        f_ck=f_ck,
        l_1=l_1,
        v0_rk_c=v0_rk_c,
        a0_c_v=a0_c_v,
        a_c_v=a_c_v,
        c_2=c_2,
        psi_s_v=psi_s_v,
        psi_h_v=psi_h_v,
        e_v=e_v,
        psi_ec_v=psi_ec_v,
        v_towards=v_towards,
        v_along=v_along,
        demand=demand,
        psi_alpha_v=psi_alpha_v,
        opposed=opposed,
        v_rk_c=v_rk_c,
        earthquake=earthquake,
        gap_filled=gap_filled,
        alpha_gap=by_gap,
        several=several,
        alpha_eq=by_earthquake,
        v_rk_c_eq=v_rk_c_eq,
        fire=fire,
        minutes=minutes,
        k_fi=left,
        v_rk_c_fi=v_rk_c_fi,
        gamma_mc=gamma_mc,
        design_strength=design_strength,
        utilisation=demand / design_strength,
    )
