"""Concrete breakout in tension, ACI 318-19 17.6.2. Units: in, in2, psi, lbf; d_a up to 4 in (17.3.2).

The reduced embedment of 17.6.2.1.2 enters the areas, N_b, psi_ec and psi_ed; psi_cp keeps the actual h_ef
(reading 11). The form with h_ef^(5/3) is allowed by the h_ef that enters the equation, and the larger of the two
forms is taken (reading 11). Product factors k_cr and k_uncr come with psi_c,N = 1.0 (reading 4).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.geometry.projected_area import count_of_edges, largest_of_edges, least_of_edges
from hangpoint.core.quantity import Axis, Bools, Floats, Record, StrengthRecord, formula, given, procedure, record

K_C_LIMIT = 24.0
K_C_CAST_IN = 24.0
K_C_POST_INSTALLED = 17.0
POWER_FORM_FROM = 11.0
POWER_FORM_TO = 25.0


@record
class BreakoutStrength(Record):
    """Nominal strength of the concrete around one set of anchors (one anchor is a set of one)."""

    TITLE: ClassVar[str] = "concrete breakout strength, for pryout"
    AXIS: ClassVar[Axis] = Axis.GROUP

    h_ef: Annotated[Floats, given("h_ef", "in")]
    c_a: Annotated[Floats, given("c_a", "in", axis=Axis.EDGE, infinite="none")]
    anchor_count: Annotated[Floats, given("n", clause="17.5.1.3")]
    s_max: Annotated[Floats, procedure("s_max", "in", "largest_spacing", clause="17.6.2.1.2")]
    near_edges: Annotated[
        Floats, formula("edges nearer than 1.5h_ef", "", "count(c_a < 1.5 * h_ef)", clause="17.6.2.1.2")
    ]
    three_edges: Annotated[Bools, formula("three-edge rule", "", "near_edges >= 3", clause="17.6.2.1.2")]
    c_a_max: Annotated[
        Floats,
        formula("c_a,max", "in", "max(where(c_a < 1.5 * h_ef, c_a, 0))", clause="17.6.2.1.2", when="three_edges"),
    ]
    h_ef_reduced: Annotated[
        Floats,
        formula(
            "h'_ef by three edges",
            "in",
            "min(h_ef, max(c_a_max / 1.5, s_max / 3))",
            clause="17.6.2.1.2",
            when="three_edges",
        ),
    ]
    h_ef_used: Annotated[Floats, formula("h'_ef", "in", "where(three_edges, h_ef_reduced, h_ef)", clause="17.6.2.1.2")]
    a_nco: Annotated[Floats, formula("A_Nco", "in**2", "9 * h_ef_used**2", clause="17.6.2.1.4")]
    a_nc: Annotated[Floats, procedure("A_Nc", "in**2", "projected_area", clause="17.6.2.1.1")]
    c_a_min: Annotated[Floats, formula("c_a,min", "in", "min(c_a)", clause="17.6.2.4", infinite="none")]
    e_n_x: Annotated[Floats, procedure("e'_N,x", "in", "tension_eccentricity", clause="17.6.2.3")]
    e_n_y: Annotated[Floats, procedure("e'_N,y", "in", "tension_eccentricity", clause="17.6.2.3")]
    psi_ec_n: Annotated[
        Floats,
        formula(
            "ψ_ec,N",
            "",
            "1 / (1 + e_n_x / (1.5 * h_ef_used)) * (1 / (1 + e_n_y / (1.5 * h_ef_used)))",
            clause="17.6.2.3.1",
        ),
    ]
    psi_ed_n: Annotated[
        Floats,
        formula("ψ_ed,N", "", "min(1, 0.7 + 0.3 * c_a_min / (1.5 * h_ef_used))", clause="17.6.2.4.1"),
    ]
    cracked: Annotated[Bools, given("cracked")]
    cast_in: Annotated[Bools, given("cast-in")]
    product_k_c: Annotated[Bools, given("k_c from product tests", clause="17.6.2.2.1")]
    psi_c_n: Annotated[
        Floats,
        formula(
            "ψ_c,N", "", "where(cracked, 1, where(product_k_c, 1, where(cast_in, 1.25, 1.4)))", clause="17.6.2.5.1"
        ),
    ]
    splitting_possible: Annotated[
        Bools,
        formula("uncracked, post-installed", "", "where(cracked, 0, where(cast_in, 0, 1)) == 1", clause="17.6.2.6"),
    ]
    c_ac: Annotated[Floats, given("c_ac", "in", clause="17.9.5", when="splitting_possible")]
    psi_cp_n: Annotated[
        Floats,
        formula(
            "ψ_cp,N",
            "",
            "where(splitting_possible, min(1, max(c_a_min, 1.5 * h_ef) / c_ac), 1)",
            clause="17.6.2.6.1",
        ),
    ]
    k_cr: Annotated[Floats, given("k_cr", when="product_k_c")]
    k_uncr: Annotated[Floats, given("k_uncr", when="product_k_c")]
    k_c: Annotated[
        Floats,
        formula(
            "k_c",
            "",
            "where(product_k_c, min(24, where(cracked, k_cr, k_uncr)), where(cast_in, 24, 17))",
            clause="17.6.2.2.1",
        ),
    ]
    lambda_a: Annotated[Floats, given("λ_a", clause="17.2.4.1")]
    f_c: Annotated[Floats, given("f'_c", "psi", clause="17.3.1")]
    n_b_root: Annotated[
        Floats,
        formula(
            "N_b, h_ef^1.5",
            "lbf",
            "k_c * lambda_a * sqrt(f_c) * h_ef_used**1.5",
            clause="17.6.2.2.1",
            coefficient="lbf / (psi**0.5 * in**1.5)",
        ),
    ]
    headed: Annotated[Bools, given("cast-in and headed", clause="17.6.2.2.3")]
    power_form: Annotated[
        Bools,
        formula(
            "h'_ef^(5/3) allowed",
            "",
            "headed * (h_ef_used >= 11) * (h_ef_used <= 25) == 1",
            clause="17.6.2.2.3",
        ),
    ]
    n_b_power: Annotated[
        Floats,
        formula(
            "N_b, h_ef^(5/3)",
            "lbf",
            "16 * lambda_a * sqrt(f_c) * h_ef_used**(5 / 3)",
            clause="17.6.2.2.3",
            coefficient="lbf / (psi**0.5 * in**(5/3))",
            when="power_form",
        ),
    ]
    n_b: Annotated[
        Floats, formula("N_b", "lbf", "where(power_form, max(n_b_root, n_b_power), n_b_root)", clause="17.6.2.2")
    ]
    n_cb: Annotated[
        Floats,
        formula("N_cb", "lbf", "a_nc / a_nco * psi_ec_n * psi_ed_n * psi_c_n * psi_cp_n * n_b", clause="17.6.2.1"),
    ]


@record
class ConcreteBreakoutTension(BreakoutStrength, StrengthRecord):
    """Breakout of the concrete around one set of anchors."""

    TITLE: ClassVar[str] = "concrete breakout in tension"
    AXIS: ClassVar[Axis] = Axis.GROUP

    seismic_factor: Annotated[Floats, given("seismic factor", clause="17.10.5.4")]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(b)")]
    design_strength: Annotated[Floats, formula("φN_cb", "lbf", "seismic_factor * phi * n_cb", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("N_ua,g", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("N_ua,g / φN_cb", "", "demand / design_strength", clause="Table 17.5.2")]


def breakout_strength(
    *,
    h_ef: Floats,
    footprint: Footprint,
    anchor_count: Floats,
    s_max: Floats,
    e_n_x: Floats,
    e_n_y: Floats,
    cracked: Bools,
    cast_in: Bools,
    headed: Bools,
    product_k_c: Bools,
    k_cr: Floats,
    k_uncr: Floats,
    c_ac: Floats,
    lambda_a: Floats,
    f_c: Floats,
) -> BreakoutStrength:
    """Nominal strength of the concrete in breakout for each set of anchors.

    Args:
        h_ef, c_ac: (sets,) in; c_ac is read for uncracked concrete and post-installed anchors only.
        footprint: where the anchors of each set stand, in.
        anchor_count, s_max: (sets,) number of anchors and largest spacing (in, 0 for one anchor).
        e_n_x, e_n_y: (sets,) eccentricity of the tension, in.
        cracked, cast_in, headed, product_k_c: (sets,) booleans; ``headed`` anchors are cast in.
        k_cr, k_uncr: (sets,) read where ``product_k_c``.
        lambda_a, f_c: (sets,) of `ConcreteBasis`; f_c in psi.
    """
    c_a = footprint.c_a
    reach = 1.5 * h_ef
    near = c_a < reach[:, None]
    near_edges = count_of_edges(near)
    three_edges = near_edges >= 3
    c_a_max = largest_of_edges(np.where(near, c_a, 0.0))
    h_ef_reduced = np.minimum(h_ef, np.maximum(c_a_max / 1.5, s_max / 3))  # of unlike depths s may exceed 3 h_ef
    h_ef_used = np.where(three_edges, h_ef_reduced, h_ef)
    reach_used = 1.5 * h_ef_used
    a_nco = 9 * h_ef_used**2
    a_nc = footprint.area(reach_used)
    c_a_min = least_of_edges(c_a)
    psi_ec_n = 1 / (1 + e_n_x / reach_used) * (1 / (1 + e_n_y / reach_used))
    psi_ed_n = np.minimum(1.0, 0.7 + 0.3 * c_a_min / reach_used)
    psi_c_n = np.where(cracked | product_k_c, 1.0, np.where(cast_in, 1.25, 1.4))
    splitting_possible = ~(cracked | cast_in)
    c_ac_safe = np.where(splitting_possible, c_ac, 1.0)
    psi_cp_n = np.where(splitting_possible, np.minimum(1.0, np.maximum(c_a_min, reach) / c_ac_safe), 1.0)
    k_c_code = np.where(cast_in, K_C_CAST_IN, K_C_POST_INSTALLED)
    k_c = np.where(product_k_c, np.minimum(K_C_LIMIT, np.where(cracked, k_cr, k_uncr)), k_c_code)
    root_f_c = np.sqrt(f_c)
    n_b_root = k_c * lambda_a * root_f_c * h_ef_used**1.5
    power_form = headed & (h_ef_used >= POWER_FORM_FROM) & (h_ef_used <= POWER_FORM_TO)
    n_b_power = 16 * lambda_a * root_f_c * h_ef_used ** (5 / 3)
    n_b = np.where(power_form, np.maximum(n_b_root, n_b_power), n_b_root)
    return BreakoutStrength(
        h_ef=h_ef,
        c_a=c_a,
        anchor_count=anchor_count,
        s_max=s_max,
        near_edges=near_edges,
        three_edges=three_edges,
        c_a_max=c_a_max,
        h_ef_reduced=h_ef_reduced,
        h_ef_used=h_ef_used,
        a_nco=a_nco,
        a_nc=a_nc,
        c_a_min=c_a_min,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        psi_ec_n=psi_ec_n,
        psi_ed_n=psi_ed_n,
        cracked=cracked,
        cast_in=cast_in,
        product_k_c=product_k_c,
        psi_c_n=psi_c_n,
        splitting_possible=splitting_possible,
        c_ac=c_ac,
        psi_cp_n=psi_cp_n,
        k_cr=k_cr,
        k_uncr=k_uncr,
        k_c=k_c,
        lambda_a=lambda_a,
        f_c=f_c,
        n_b_root=n_b_root,
        headed=headed,
        power_form=power_form,
        n_b_power=n_b_power,
        n_b=n_b,
        n_cb=a_nc / a_nco * psi_ec_n * psi_ed_n * psi_c_n * psi_cp_n * n_b,
    )


def concrete_breakout_tension(
    strength: BreakoutStrength, *, seismic_factor: Floats, phi: Floats, demand: Floats
) -> ConcreteBreakoutTension:
    """Design strength of the concrete in breakout.

    Args:
        strength: nominal, a row a set.
        seismic_factor: (sets,) of `seismic.seismic_factor`.
        phi: (sets,) of `ConcreteBasis.phi_c`.
        demand: (sets,) factored tension, lbf.
    """
    design_strength = seismic_factor * phi * strength.n_cb
    return ConcreteBreakoutTension(
        **vars(strength),
        seismic_factor=seismic_factor,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
