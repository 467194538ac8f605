"""Concrete cone failure, EN 1992-4 7.2.1.4. Units: mm, mm2, N/mm2, N.

The depth reduced by three near edges (7.8) enters N0_Rk,c, the areas, psi_s,N and psi_ec,N; psi_re,N keeps the actual
one (reading 26). psi_M,N of a compression beside the fasteners is not taken: it is never below 1.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.en1992_4.fire import (
    ANNEX_D,
    DEPTH_IN_FIRE,
    DEPTH_SHARE_FI,
    FIRE,
    K_FI_OF_CONE,
    MINUTES,
    k_fi_of_cone,
)
from hangpoint.core.en1992_4.seismic import ALPHA_EQ_OF_CONE, EARTHQUAKE, LIKE_HEADED, SEVERAL, alpha_eq_of_cone
from hangpoint.core.frozen import frozen
from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.geometry.projected_area import count_of_edges, largest_of_edges, least_of_edges
from hangpoint.core.quantity import Axis, Bools, Floats, Record, StrengthRecord, formula, given, procedure, record

SHELL_DEPTH = 200.0
"""mm: the depth that (7.5) divides by."""

A_C_N = procedure("A_c,N", "mm**2", "projected_area", clause="7.2.1.4(3)")
SMALLEST_C = formula("smallest c", "mm", "min(c)", clause="7.2.1.4(4)", infinite="none")
WIDE_BARS = given("reinforcement wide apart", clause="7.2.1.4(5)")
DEPTH_SHARE = formula("h_ef / 200 mm", "", "h_ef / 200", clause="Eq. 7.5", coefficient="1/mm")
E_N_X = procedure("e_N,x", "mm", "tension_eccentricity", clause="7.2.1.4(6)")
E_N_Y = procedure("e_N,y", "mm", "tension_eccentricity", clause="7.2.1.4(6)")
PSI_RE_N = formula("ψ_re,N", "", "where(wide_bars, 1, min(1, 0.5 + depth_share))", clause="Eq. 7.5")
"""Lines of a cone that splitting or bond has as well."""


@record
class ConeResistance(Record):
    """Characteristic resistance of the concrete around one group of fasteners (one is a group of one)."""

    TITLE: ClassVar[str] = "concrete cone resistance, for pry-out"
    AXIS: ClassVar[Axis] = Axis.GROUP

    h_ef: Annotated[Floats, given("h_ef", "mm")]
    s_cr_n: Annotated[Floats, given("s_cr,N", "mm", clause="7.2.1.4(3)")]
    c_cr_n: Annotated[Floats, formula("c_cr,N", "mm", "s_cr_n / 2", clause="7.2.1.4(3)")]
    c: Annotated[Floats, given("c", "mm", axis=Axis.EDGE, infinite="none")]
    anchor_count: Annotated[Floats, given("n")]
    s_max: Annotated[Floats, procedure("s_max", "mm", "largest_spacing", clause="7.2.1.4(8)")]
    near_edges: Annotated[Floats, formula("edges nearer than c_cr,N", "", "count(c < c_cr_n)", clause="7.2.1.4(8)")]
    three_edges: Annotated[Bools, formula("three near edges", "", "near_edges >= 3", clause="7.2.1.4(8)")]
    c_max: Annotated[
        Floats, formula("c_max", "mm", "max(where(c < c_cr_n, c, 0))", clause="7.2.1.4(8)", when="three_edges")
    ]
    h_ef_reduced: Annotated[
        Floats,
        formula(
            "h'_ef by three edges",
            "mm",
            "min(h_ef, max(c_max / c_cr_n, s_max / s_cr_n) * h_ef)",
            clause="Eq. 7.8",
            when="three_edges",
        ),
    ]
    h_ef_used: Annotated[Floats, formula("h'_ef", "mm", "where(three_edges, h_ef_reduced, h_ef)", clause="Eq. 7.8")]
    s_cr_used: Annotated[Floats, formula("s'_cr,N", "mm", "s_cr_n * h_ef_used / h_ef", clause="Eq. 7.8")]
    a0_c_n: Annotated[Floats, formula("A⁰_c,N", "mm**2", "s_cr_used**2", clause="Eq. 7.3")]
    a_c_n: Annotated[Floats, A_C_N]
    c_min: Annotated[Floats, SMALLEST_C]
    psi_s_n: Annotated[Floats, formula("ψ_s,N", "", "min(1, 0.7 + 0.3 * c_min / (s_cr_used / 2))", clause="Eq. 7.4")]
    wide_bars: Annotated[Bools, WIDE_BARS]
    depth_share: Annotated[Floats, DEPTH_SHARE]
    psi_re_n: Annotated[Floats, PSI_RE_N]
    e_n_x: Annotated[Floats, E_N_X]
    e_n_y: Annotated[Floats, E_N_Y]
    psi_ec_n: Annotated[
        Floats,
        formula(
            "ψ_ec,N",
            "",
            "1 / (1 + 2 * e_n_x / s_cr_used) * (1 / (1 + 2 * e_n_y / s_cr_used))",
            clause="Eq. 7.6",
        ),
    ]
    psi_m_n: Annotated[Floats, given("ψ_M,N", clause="Eq. 7.7, reading 27")]
    cracked: Annotated[Bools, given("cracked", clause="4.7")]
    k_cr_n: Annotated[Floats, given("k_cr,N", clause="Eq. 7.2", when="cracked")]
    uncracked: Annotated[Bools, formula("uncracked", "", "where(cracked, 0, 1) == 1", clause="4.7")]
    k_ucr_n: Annotated[Floats, given("k_ucr,N", clause="Eq. 7.2", when="uncracked")]
    k_1: Annotated[Floats, formula("k_1", "", "where(cracked, k_cr_n, k_ucr_n)", clause="Eq. 7.2")]
    f_ck: Annotated[Floats, given("f_ck", "N/mm**2")]
    n0_rk_c: Annotated[
        Floats,
        formula(
            "N⁰_Rk,c",
            "N",
            "k_1 * sqrt(f_ck) * h_ef_used**1.5",
            clause="Eq. 7.2",
            coefficient="N / ((N/mm**2)**0.5 * mm**1.5)",
        ),
    ]
    n_rk_c: Annotated[
        Floats,
        formula("N_Rk,c", "N", "n0_rk_c * a_c_n / a0_c_n * psi_s_n * psi_re_n * psi_ec_n * psi_m_n", clause="Eq. 7.1"),
    ]
    fire: Annotated[Bools, FIRE]
    minutes: Annotated[Floats, MINUTES]
    depth_share_fi: Annotated[Floats, DEPTH_SHARE_FI]
    k_fi: Annotated[Floats, K_FI_OF_CONE]
    n_rk_c_fi: Annotated[Floats, formula("N_Rk,c,fi", "N", "k_fi * n_rk_c", clause=ANNEX_D, when="fire")]


@record
class ConcreteCone(ConeResistance, StrengthRecord):
    """Concrete cone of one group of fasteners in tension."""

    TITLE: ClassVar[str] = "concrete cone failure"
    AXIS: ClassVar[Axis] = Axis.GROUP

    earthquake: Annotated[Bools, EARTHQUAKE]
    several: Annotated[Bools, SEVERAL]
    like_headed: Annotated[Bools, LIKE_HEADED]
    alpha_eq: Annotated[Floats, ALPHA_EQ_OF_CONE]
    n_rk_c_eq: Annotated[
        Floats, formula("N_Rk,c,eq", "N", "alpha_eq * n_rk_c", clause="Eq. C.8, from memory", when="earthquake")
    ]
    gamma_mc: Annotated[Floats, given("γ_Mc", clause="Table 4.1")]
    design_strength: Annotated[
        Floats,
        formula(
            "N_Rd,c",
            "N",
            "where(fire, n_rk_c_fi, where(earthquake, n_rk_c_eq, n_rk_c)) / gamma_mc",
            clause="Table 7.1",
        ),
    ]
    demand: Annotated[Floats, given("N_Ed,g", "N", clause="Table 7.1")]
    utilisation: Annotated[Floats, formula("N_Ed,g / N_Rd,c", "", "demand / design_strength", clause="Table 7.1")]


def edge_factor(*, c_min: Floats, c_cr: Floats) -> Floats:
    """psi_s,N of (7.4) by the smallest edge distance and its critical value, mm."""
    return np.minimum(1.0, 0.7 + 0.3 * c_min / c_cr)


def shell_factor(*, depth_share: Floats, wide_bars: Bools) -> Floats:
    """psi_re,N of (7.5) by h_ef over `SHELL_DEPTH` and the reinforcement around the fastener."""
    return np.where(wide_bars, 1.0, np.minimum(1.0, 0.5 + depth_share))


def eccentricity_factor(*, e_x: Floats, e_y: Floats, s_cr: Floats) -> Floats:
    """psi_ec,N of (7.6) in both directions by the eccentricities and the critical spacing, mm."""
    return 1 / (1 + 2 * e_x / s_cr) * (1 / (1 + 2 * e_y / s_cr))


def one_cone(*, k_1: Floats, f_ck: Floats, h_ef: Floats) -> Floats:
    """N⁰_Rk,c of (7.2), N, of one fastener away from edges and others; f_ck in N/mm2, h_ef in mm."""
    return k_1 * np.sqrt(f_ck) * h_ef**1.5


@frozen
class Narrow:
    """(groups,) edges nearer than the critical distance, and what three of them make of depth and critical spacing."""

    near_edges: Floats
    three_edges: Bools
    c_max: Floats
    h_ef_reduced: Floats
    h_ef_used: Floats
    s_cr_used: Floats


def narrow_member(*, c: Floats, h_ef: Floats, s_cr: Floats, s_max: Floats) -> Narrow:
    """h'_ef of (7.8) and the critical spacing that goes with it.

    Args:
        c: (groups, 4) to the edges, mm.
        h_ef, s_cr, s_max: (groups,) depth, critical spacing and largest spacing, mm.
    """
    c_cr = s_cr / 2
    near = c < c_cr[:, None]
    near_edges = count_of_edges(near)
    three_edges = near_edges >= 3
    c_max = largest_of_edges(np.where(near, c, 0.0))
    h_ef_reduced = np.minimum(h_ef, np.maximum(c_max / c_cr, s_max / s_cr) * h_ef)
    h_ef_used = np.where(three_edges, h_ef_reduced, h_ef)
    return Narrow(
        near_edges=near_edges,
        three_edges=three_edges,
        c_max=c_max,
        h_ef_reduced=h_ef_reduced,
        h_ef_used=h_ef_used,
        s_cr_used=s_cr * h_ef_used / h_ef,
    )


def cone_resistance(
    *,
    h_ef: Floats,
    s_cr_n: Floats,
    footprint: Footprint,
    anchor_count: Floats,
    s_max: Floats,
    wide_bars: Bools,
    e_n_x: Floats,
    e_n_y: Floats,
    cracked: Bools,
    k_cr_n: Floats,
    k_ucr_n: Floats,
    f_ck: Floats,
    fire: Bools,
    minutes: Floats,
) -> ConeResistance:
    """Characteristic resistance to concrete cone failure.

    Args:
        h_ef, s_cr_n: (groups,) mm.
        footprint: where the fasteners of each group stand, mm.
        anchor_count, s_max: (groups,) number of fasteners and largest spacing (mm, 0 for one).
        wide_bars, cracked: (groups,) boolean.
        e_n_x, e_n_y: (groups,) eccentricity of the tension, mm.
        k_cr_n, k_ucr_n: (groups,) coefficients for N and mm.
        f_ck: (groups,) of `ConcreteFactors`, N/mm2.
        fire, minutes: (groups,) it acts, and how long; ``s_cr_n`` is that in fire.
    """
    c = footprint.c_a
    narrow = narrow_member(c=c, h_ef=h_ef, s_cr=s_cr_n, s_max=s_max)
    s_cr_used = narrow.s_cr_used
    c_min = least_of_edges(c)
    psi_s_n = edge_factor(c_min=c_min, c_cr=s_cr_used / 2)
    depth_share = h_ef / SHELL_DEPTH
    psi_re_n = shell_factor(depth_share=depth_share, wide_bars=wide_bars)
    psi_ec_n = eccentricity_factor(e_x=e_n_x, e_y=e_n_y, s_cr=s_cr_used)
    psi_m_n = np.ones_like(h_ef)
    k_1 = np.where(cracked, k_cr_n, k_ucr_n)
    n0_rk_c = one_cone(k_1=k_1, f_ck=f_ck, h_ef=narrow.h_ef_used)
    a0_c_n, a_c_n = s_cr_used**2, footprint.area(s_cr_used / 2)
    n_rk_c = n0_rk_c * a_c_n / a0_c_n * psi_s_n * psi_re_n * psi_ec_n * psi_m_n
    depth_share_fi = narrow.h_ef_used / DEPTH_IN_FIRE
    k_fi = k_fi_of_cone(minutes, depth_share=depth_share_fi)
    return ConeResistance(
        h_ef=h_ef,
        s_cr_n=s_cr_n,
        c_cr_n=s_cr_n / 2,
        c=c,
        anchor_count=anchor_count,
        s_max=s_max,
        **vars(narrow),
        a0_c_n=a0_c_n,
        a_c_n=a_c_n,
        c_min=c_min,
        psi_s_n=psi_s_n,
        wide_bars=wide_bars,
        depth_share=depth_share,
        psi_re_n=psi_re_n,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        psi_ec_n=psi_ec_n,
        psi_m_n=psi_m_n,
        cracked=cracked,
        k_cr_n=k_cr_n,
        uncracked=~cracked,
        k_ucr_n=k_ucr_n,
        k_1=k_1,
        f_ck=f_ck,
        n0_rk_c=n0_rk_c,
        n_rk_c=n_rk_c,
        fire=fire,
        minutes=minutes,
        depth_share_fi=depth_share_fi,
        k_fi=k_fi,
        n_rk_c_fi=k_fi * n_rk_c,
    )


def concrete_cone(
    resistance: ConeResistance,
    *,
    earthquake: Bools,
    several: Bools,
    like_headed: Bools,
    gamma_mc: Floats,
    demand: Floats,
) -> ConcreteCone:
    """Design resistance to concrete cone failure.

    Args:
        resistance: characteristic, a row a group.
        earthquake, several, like_headed: (groups,) as in `seismic`.
        gamma_mc: (groups,) of `ConcreteFactors`.
        demand: (groups,) design tension, N.
    """
    alpha_eq = alpha_eq_of_cone(like_headed=like_headed, several=several)
    n_rk_c_eq = alpha_eq * resistance.n_rk_c
    at_ambient = np.where(earthquake, n_rk_c_eq, resistance.n_rk_c)
    design_strength = np.where(resistance.fire, resistance.n_rk_c_fi, at_ambient) / gamma_mc
    return ConcreteCone(
        **vars(resistance),
        earthquake=earthquake,
        several=several,
        like_headed=like_headed,
        alpha_eq=alpha_eq,
        n_rk_c_eq=n_rk_c_eq,
        gamma_mc=gamma_mc,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
