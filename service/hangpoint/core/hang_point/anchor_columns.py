"""What a chapter 17 check reads of each case, out of the tables of the points. Units: in, in2, lbf, psi."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.limits import thick_enough, wide_enough
from hangpoint.core.aci318_19.pullout import HEADED, PRODUCT
from hangpoint.core.hang_point.demand import AnchorShear
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.layout_findings import least_spacing
from hangpoint.core.hang_point.points import IN_FIGURES, NOT_GOVERNING, TESTED, Points
from hangpoint.core.hang_point.scope import SEISMIC_FROM
from hangpoint.core.quantity import Index
from hangpoint.core.rows import some


def anchor_cases(points: Points, cases: Index, *, owner: Index, shear: AnchorShear, load: Distribution) -> AnchorCases:
    """The columns of the given cases.

    Args:
        points: the batch.
        cases: (rows,) places on the axis of all cases.
        owner: (cases,) point of every case; ``shear`` and ``load`` have a row for each of them.
    """
    own = owner[cases]
    return AnchorCases(
        **{name: column[own] for name, column in _of_points(points).items()},
        n_total=load.n_total[cases],
        n_earthquake=load.n_earthquake[cases],
        either_x=shear.either_x[cases],
        either_y=shear.either_y[cases],
    )


def _of_points(points: Points) -> dict[str, NDArray[Any]]:
    """The columns that are the same in every case of a point, (points,) each."""
    product, base, fixing, bond, deck = points.products, points.bases, points.fixings, points.bonds, points.decks
    by_product = product.pullout_method == PRODUCT
    state = np.where(base.cracked, product.n_p_cr_state, product.n_p_uncr_state)
    high_seismic = base.category >= SEISMIC_FROM
    by_seismic_tests = by_product & high_seismic & (product.n_p_eq_state == IN_FIGURES)
    shear_by_seismic_tests = high_seismic & (product.post_installed | deck.in_deck)
    far_row_only = fixing.welded & ~product.post_installed
    welded = far_row_only
    if some(welded):
        welded = welded & thick_enough(thickness=fixing.thickness, d_a=product.d_a)
        welded &= wide_enough(spacing=least_spacing(points))
    return {
        "cast_in": ~product.post_installed,
        "undercut": product.undercut,
        "headed": product.pullout_method == HEADED,
        "category": product.category,
        "d_a": product.d_a,
        "a_se_n": product.a_se_n,
        "f_uta": product.f_uta,
        "f_ya": product.f_ya,
        "ductile": product.ductile,
        "h_ef": product.h_ef,
        "c_ac": product.c_ac,
        "product_k_c": product.product_k_c,
        "k_cr": product.k_cr,
        "k_uncr": product.k_uncr,
        "pullout_method": product.pullout_method,
        "pullout_governs": by_seismic_tests | ~(by_product & (state == NOT_GOVERNING)),
        "n_p_cr": product.n_p_cr,
        "n_p_uncr": product.n_p_uncr,
        "n_p_eq": product.n_p_eq,
        "by_seismic_tests": by_seismic_tests,
        "n_exponent": product.n_exponent,
        "f_c_ref": product.f_c_ref,
        "tested_lightweight": product.lightweight_data == TESTED,
        "a_brg": product.a_brg,
        "e_h": product.e_h,
        "f_c_specified": base.f_c,
        "lightweight": base.lightweight,
        "lambda_c": base.lambda_c,
        "cracked": base.cracked,
        "supplementary": base.supplementary,
        "h_a": base.thickness,
        "edge_reinforcement": base.edge_reinforcement,
        "reinforced_n": base.a_s_n > 0,
        "a_s_n": base.a_s_n,
        "f_y_n": base.f_y_n,
        "reinforced_v": base.a_s_v > 0,
        "a_s_v": base.a_s_v,
        "f_y_v": base.f_y_v,
        "welded_stud": product.welded_stud,
        "distance_sleeve": product.distance_sleeve,
        "by_shear_tests": product.v_sa_tested | shear_by_seismic_tests,
        "v_sa": np.where(shear_by_seismic_tests, product.v_sa_eq, product.v_sa),
        "welded": welded,
        "far_row_only": far_row_only,
        "grout_pad": fixing.grout_pad,
        "adhesive": product.adhesive,
        "tau_cr": bond.tau_cr,
        "tau_uncr": bond.tau_uncr,
        "by_seismic_bond": high_seismic & product.adhesive,
        "alpha_n_seis": bond.alpha_n_seis,
        "tau_exponent": bond.exponent,
        "f_c_ref_bond": bond.f_c_ref,
        "oblique": fixing.oblique,
        "power": fixing.power,
        "bounding": fixing.bounding,
        "seismic_category": base.category,
        "in_deck": deck.in_deck,
    }
