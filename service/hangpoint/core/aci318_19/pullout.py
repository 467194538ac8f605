"""Pullout of an anchor in tension, ACI 318-19 17.6.3. Units: in, in2, psi, lbf.

Three ways to N_p: tests of the product (scaled with the concrete strength by the product's exponent, and by lambda_a
in lightweight concrete unless the tests were made there, reading 2), a head (17.6.3.2.2a), a hook (17.6.3.2.2b).
In seismic design categories C to F the tests are the simulated seismic ones, N_p,eq (17.10.3, reading 5).
In the flute of a deck N_p is what was tested there, whatever failed (reading 37).
psi_c,P of 1.4 goes with heads and hooks; the product's own values already hold the crack state.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Codes, Floats, StrengthRecord, formula, given, record

PRODUCT, HEADED, HOOKED = 0, 1, 2
METHODS = ("product tests", "headed", "hooked")


@record
class Pullout(StrengthRecord):
    """Pullout of the most loaded anchor."""

    TITLE: ClassVar[str] = "pullout"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    method: Annotated[Codes, given("basis of pullout", labels=METHODS)]
    by_product: Annotated[Bools, formula("by product tests", "", "method == 0", clause="17.6.3.2.1")]
    by_head: Annotated[Bools, formula("by bearing of the head", "", "method == 1", clause="17.6.3.2.2")]
    by_hook: Annotated[Bools, formula("by bearing of the hook", "", "method == 2", clause="17.6.3.2.2")]
    in_deck: Annotated[Bools, given("tested in the flute of a deck", clause="reading 37")]
    cracked: Annotated[Bools, given("cracked")]
    f_c: Annotated[Floats, given("f'_c", "psi", clause="17.3.1")]
    n_p_cr: Annotated[Floats, given("N_p,cr", "lbf", clause="17.6.3.2.1", when="by_product")]
    n_p_uncr: Annotated[Floats, given("N_p,uncr", "lbf", clause="17.6.3.2.1", when="by_product")]
    by_seismic_tests: Annotated[Bools, given("by simulated seismic tests", clause="17.10.3")]
    n_p_eq: Annotated[Floats, given("N_p,eq", "lbf", clause="17.10.3", when="by_seismic_tests")]
    f_c_ref: Annotated[Floats, given("f'_c of the tests", "psi", when="by_product")]
    n_exponent: Annotated[Floats, given("n", when="by_product")]
    lambda_p: Annotated[Floats, given("λ_a of N_p", clause="reading 2", when="by_product")]
    n_p_product: Annotated[
        Floats,
        formula(
            "N_p, product",
            "lbf",
            "where(by_seismic_tests, n_p_eq, where(cracked, n_p_cr, n_p_uncr))"
            " * (f_c / f_c_ref)**n_exponent * lambda_p",
            clause="17.6.3.2.1",
            when="by_product",
        ),
    ]
    a_brg: Annotated[Floats, given("A_brg", "in**2", when="by_head")]
    n_p_head: Annotated[Floats, formula("N_p, head", "lbf", "8 * a_brg * f_c", clause="17.6.3.2.2a", when="by_head")]
    d_a: Annotated[Floats, given("d_a", "in", when="by_hook")]
    e_h: Annotated[Floats, given("e_h", "in", when="by_hook")]
    n_p_hook: Annotated[
        Floats, formula("N_p, hook", "lbf", "0.9 * f_c * e_h * d_a", clause="17.6.3.2.2b", when="by_hook")
    ]
    n_p: Annotated[
        Floats,
        formula("N_p", "lbf", "where(by_product, n_p_product, where(by_head, n_p_head, n_p_hook))", clause="17.6.3.2"),
    ]
    psi_c_p: Annotated[Floats, formula("ψ_c,P", "", "where(by_product, 1, where(cracked, 1, 1.4))", clause="17.6.3.3")]
    n_pn: Annotated[Floats, formula("N_pn", "lbf", "psi_c_p * n_p", clause="17.6.3.1")]
    seismic_factor: Annotated[Floats, given("seismic factor", clause="17.10.5.4")]
    phi: Annotated[Floats, given("φ", clause="Table 17.5.3(c)")]
    design_strength: Annotated[Floats, formula("φN_pn", "lbf", "seismic_factor * phi * n_pn", clause="Table 17.5.2")]
    demand: Annotated[Floats, given("N_ua,i", "lbf", clause="Table 17.5.2")]
    utilisation: Annotated[Floats, formula("N_ua,i / φN_pn", "", "demand / design_strength", clause="Table 17.5.2")]


def pullout(
    *,
    method: Codes,
    in_deck: Bools,
    cracked: Bools,
    f_c: Floats,
    n_p_cr: Floats,
    n_p_uncr: Floats,
    by_seismic_tests: Bools,
    n_p_eq: Floats,
    f_c_ref: Floats,
    n_exponent: Floats,
    lambda_p: Floats,
    a_brg: Floats,
    d_a: Floats,
    e_h: Floats,
    seismic_factor: Floats,
    phi: Floats,
    demand: Floats,
) -> Pullout:
    """Design strength in pullout of each anchor.

    Args:
        method: (anchors,) `PRODUCT`, `HEADED` or `HOOKED`; columns of the other methods are not read.
        in_deck: (anchors,) N_p was tested in the flute of a deck, breakout within it.
        cracked: (anchors,) boolean.
        f_c, f_c_ref: (anchors,) psi, limited concrete strength and that of the product's tests.
        n_p_cr, n_p_uncr, n_p_eq: (anchors,) lbf; the last is read where ``by_seismic_tests``.
        n_exponent, lambda_p: (anchors,) exponent of the concrete strength, lightweight factor of N_p.
        a_brg, d_a, e_h: (anchors,) bearing area in2, diameter and hook length in.
        seismic_factor, phi: (anchors,) of `seismic.seismic_factor` and of `ConcreteBasis.phi_p`.
        demand: (anchors,) factored tension, lbf.
    """
    by_product, by_head, by_hook = method == PRODUCT, method == HEADED, method == HOOKED
    n_p_tests = np.where(by_seismic_tests, n_p_eq, np.where(cracked, n_p_cr, n_p_uncr))
    n_p_product = n_p_tests * (f_c / f_c_ref) ** n_exponent * lambda_p
    n_p_head = 8 * a_brg * f_c
    n_p_hook = 0.9 * f_c * e_h * d_a
    n_p = np.where(by_product, n_p_product, np.where(by_head, n_p_head, n_p_hook))
    psi_c_p = np.where(by_product | cracked, 1.0, 1.4)
    n_pn = psi_c_p * n_p
    design_strength = seismic_factor * phi * n_pn
    return Pullout(
        method=method,
        by_product=by_product,
        by_head=by_head,
        by_hook=by_hook,
        in_deck=in_deck,
        cracked=cracked,
        f_c=f_c,
        n_p_cr=n_p_cr,
        n_p_uncr=n_p_uncr,
        by_seismic_tests=by_seismic_tests,
        n_p_eq=n_p_eq,
        f_c_ref=f_c_ref,
        n_exponent=n_exponent,
        lambda_p=lambda_p,
        n_p_product=n_p_product,
        a_brg=a_brg,
        n_p_head=n_p_head,
        d_a=d_a,
        e_h=e_h,
        n_p_hook=n_p_hook,
        n_p=n_p,
        psi_c_p=psi_c_p,
        n_pn=n_pn,
        seismic_factor=seismic_factor,
        phi=phi,
        design_strength=design_strength,
        demand=demand,
        utilisation=demand / design_strength,
    )
