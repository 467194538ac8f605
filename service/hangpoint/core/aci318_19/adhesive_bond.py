"""Bond of adhesive anchors in tension, ACI 318-19 17.6.5. Units: in, in2, psi, lbf; 4 d_a <= h_ef <= 20 d_a (17.3.3).

c_Na goes by tau_uncr as the product states it, in cracked concrete too, and not scaled with the concrete strength. In
seismic design categories C to F the bond is that of the simulated seismic tests, tau_cr times alpha_N,seis (17.10.3).
psi_cp,Na is of uncracked concrete only and never above 1 (reading 11).
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.geometry.footprint import Footprint
from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.quantity import Axis, Bools, Floats, Record, StrengthRecord, formula, given, procedure, record


@record
class BondStrength(Record):
    """Nominal strength of the bond of one set of adhesive anchors (one anchor is a set of one)."""

    TITLE: ClassVar[str] = "bond strength of adhesive anchors, for pryout"
    AXIS: ClassVar[Axis] = Axis.GROUP

    d_a: Annotated[Floats, given("d_a", "in")]
    h_ef: Annotated[Floats, given("h_ef", "in")]
    tau_uncr: Annotated[Floats, given("τ_uncr", "psi", clause="17.6.5.2.5")]
    c_na: Annotated[
        Floats,
        formula("c_Na", "in", "10 * d_a * sqrt(tau_uncr / 1100)", clause="17.6.5.1.2b", coefficient="psi**-0.5"),
    ]
    c_a: Annotated[Floats, given("c_a", "in", axis=Axis.EDGE, infinite="none")]
    anchor_count: Annotated[Floats, given("n", clause="17.5.1.3")]
    a_nao: Annotated[Floats, formula("A_Nao", "in**2", "(2 * c_na)**2", clause="17.6.5.1.2a")]
    a_na: Annotated[Floats, procedure("A_Na", "in**2", "projected_area", clause="17.6.5.1.1")]
    c_a_min: Annotated[Floats, formula("c_a,min", "in", "min(c_a)", clause="17.6.5.4", infinite="none")]
    e_n_x: Annotated[Floats, procedure("e'_N,x", "in", "tension_eccentricity", clause="17.6.5.3")]
    e_n_y: Annotated[Floats, procedure("e'_N,y", "in", "tension_eccentricity", clause="17.6.5.3")]
    psi_ec_na: Annotated[
        Floats, formula("ψ_ec,Na", "", "1 / (1 + e_n_x / c_na) * (1 / (1 + e_n_y / c_na))", clause="17.6.5.3.1")
    ]
    psi_ed_na: Annotated[Floats, formula("ψ_ed,Na", "", "min(1, 0.7 + 0.3 * c_a_min / c_na)", clause="17.6.5.4.1")]
    cracked: Annotated[Bools, given("cracked")]
    uncracked: Annotated[Bools, formula("uncracked", "", "where(cracked, 0, 1) == 1", clause="17.6.5.5")]
    c_ac: Annotated[Floats, given("c_ac", "in", clause="17.9.5", when="uncracked")]
    psi_cp_na: Annotated[
        Floats,
        formula("ψ_cp,Na", "", "where(uncracked, min(1, max(c_a_min, c_na) / c_ac), 1)", clause="17.6.5.5.1"),
    ]
    by_seismic_tests: Annotated[Bools, given("by simulated seismic tests", clause="17.10.3")]
    by_tau_cr: Annotated[
        Bools,
        formula("by the bond in cracked concrete", "", "where(by_seismic_tests, 1, cracked) == 1", clause="17.6.5.2"),
    ]
    tau_cr: Annotated[Floats, given("τ_cr", "psi", clause="17.6.5.2.5", when="by_tau_cr")]
    alpha_n_seis: Annotated[Floats, given("α_N,seis", clause="17.10.3", when="by_seismic_tests")]
    f_c: Annotated[Floats, given("f'_c", "psi", clause="17.3.1")]
    f_c_ref: Annotated[Floats, given("f'_c of the tests", "psi")]
    tau_exponent: Annotated[Floats, given("n of τ", clause="reading 3")]
    tau: Annotated[
        Floats,
        formula(
            "τ",
            "psi",
            "where(by_seismic_tests, tau_cr * alpha_n_seis, where(cracked, tau_cr, tau_uncr))"
            " * (f_c / f_c_ref)**tau_exponent",
            clause="17.6.5.2",
        ),
    ]
    lambda_bond: Annotated[Floats, given("λ_a of bond", clause="Table 17.2.4.1")]
    n_ba: Annotated[Floats, formula("N_ba", "lbf", "lambda_bond * tau * pi * d_a * h_ef", clause="17.6.5.2.1")]
    n_a: Annotated[
        Floats, formula("N_a", "lbf", "a_na / a_nao * psi_ec_na * psi_ed_na * psi_cp_na * n_ba", clause="17.6.5.1")
    ]


@record
class AdhesiveBond(BondStrength, StrengthRecord):
    """Bond of one set of adhesive anchors."""

    TITLE: ClassVar[str] = "bond of adhesive anchors"
    AXIS: ClassVar[Axis] = Axis.GROUP

    seismic_factor: Annotated[Floats, given("seismic factor", clause="17.10.5.4")]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(b)")]
    design_strength: Annotated[Floats, formula("φN_a", "lbf", "seismic_factor * phi * n_a", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("N_ua,g", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("N_ua,g / φN_a", "", "demand / design_strength", clause="Table 17.5.2")]


def bond_reach(*, d_a: Floats, tau_uncr: Floats) -> Floats:
    """c_Na, how far the bond of an anchor takes hold of the concrete around it (17.6.5.1.2b), in.

    Args:
        d_a: (anchors,) in.
        tau_uncr: (anchors,) psi, as the product states it.
    """
    return 10 * d_a * np.sqrt(tau_uncr / 1100)


def edge_factors(*, c_a_min: Floats, c_na: Floats, cracked: Bools, c_ac: Floats) -> tuple[Floats, Floats]:
    """psi_ed,Na (17.6.5.4) and psi_cp,Na (17.6.5.5), (sets,) each; c_ac is read for uncracked concrete only."""
    c_ac_safe = np.where(cracked, 1.0, c_ac)
    psi_cp_na = np.where(cracked, 1.0, np.minimum(1.0, np.maximum(c_a_min, c_na) / c_ac_safe))
    return np.minimum(1.0, 0.7 + 0.3 * c_a_min / c_na), psi_cp_na


def bond_stress(tau_tests: Floats, *, f_c: Floats, f_c_ref: Floats, tau_exponent: Floats) -> Floats:
    """tau of the tests in concrete of another strength, psi."""
    return tau_tests * (f_c / f_c_ref) ** tau_exponent


def bond_strength(
    *,
    d_a: Floats,
    h_ef: Floats,
    footprint: Footprint,
    anchor_count: Floats,
    e_n_x: Floats,
    e_n_y: Floats,
    cracked: Bools,
    tau_cr: Floats,
    tau_uncr: Floats,
    by_seismic_tests: Bools,
    alpha_n_seis: Floats,
    tau_exponent: Floats,
    f_c_ref: Floats,
    f_c: Floats,
    lambda_bond: Floats,
    c_ac: Floats,
) -> BondStrength:
    """Nominal strength of the bond of each set of anchors.

    Args:
        d_a, h_ef, c_ac: (sets,) in; c_ac is read for uncracked concrete only.
        footprint: where the anchors of each set stand, in.
        anchor_count: (sets,) number of anchors.
        e_n_x, e_n_y: (sets,) eccentricity of the tension, in.
        cracked, by_seismic_tests: (sets,) booleans.
        tau_cr, tau_uncr: (sets,) psi; tau_uncr is always read and positive, tau_cr where cracked or seismic.
        alpha_n_seis: (sets,) read where ``by_seismic_tests``.
        tau_exponent, f_c_ref, f_c: (sets,) exponent of the concrete strength, 0 unless the product states one;
            psi of the product's tests and the limited strength.
        lambda_bond: (sets,) 0.6 lambda in lightweight concrete, else 1.
    """
    c_a = footprint.c_a
    c_na = bond_reach(d_a=d_a, tau_uncr=tau_uncr)
    a_nao = (2 * c_na) ** 2
    a_na = footprint.area(c_na)
    c_a_min = least_of_edges(c_a)
    psi_ec_na = 1 / (1 + e_n_x / c_na) * (1 / (1 + e_n_y / c_na))
    psi_ed_na, psi_cp_na = edge_factors(c_a_min=c_a_min, c_na=c_na, cracked=cracked, c_ac=c_ac)
    tau_tests = np.where(by_seismic_tests, tau_cr * alpha_n_seis, np.where(cracked, tau_cr, tau_uncr))
    tau = bond_stress(tau_tests, f_c=f_c, f_c_ref=f_c_ref, tau_exponent=tau_exponent)
    n_ba = lambda_bond * tau * np.pi * d_a * h_ef
    return BondStrength(
        d_a=d_a,
        h_ef=h_ef,
        tau_uncr=tau_uncr,
        c_na=c_na,
        c_a=c_a,
        anchor_count=anchor_count,
        a_nao=a_nao,
        a_na=a_na,
        c_a_min=c_a_min,
        e_n_x=e_n_x,
        e_n_y=e_n_y,
        psi_ec_na=psi_ec_na,
        psi_ed_na=psi_ed_na,
        cracked=cracked,
        uncracked=~cracked,
        c_ac=c_ac,
        psi_cp_na=psi_cp_na,
        by_seismic_tests=by_seismic_tests,
        by_tau_cr=by_seismic_tests | cracked,
        tau_cr=tau_cr,
        alpha_n_seis=alpha_n_seis,
        f_c=f_c,
        f_c_ref=f_c_ref,
        tau_exponent=tau_exponent,
        tau=tau,
        lambda_bond=lambda_bond,
        n_ba=n_ba,
        n_a=a_na / a_nao * psi_ec_na * psi_ed_na * psi_cp_na * n_ba,
    )


def adhesive_bond(strength: BondStrength, *, seismic_factor: Floats, phi: Floats, demand: Floats) -> AdhesiveBond:
    """Design strength of the bond.

    Args:
        strength: nominal, a row a set.
        seismic_factor, phi: (sets,) of `seismic.seismic_factor` and of Table 17.5.3(b).
        demand: (sets,) factored tension, lbf.
    """
    design_strength = seismic_factor * phi * strength.n_a
    return AdhesiveBond(
        **vars(strength),
        seismic_factor=seismic_factor,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
