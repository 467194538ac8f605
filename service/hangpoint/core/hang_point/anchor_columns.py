"""What a chapter 17 check reads of each case, out of the tables of the points. Units: in, in2, lbf, psi."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.aci318_19.anchor_cases import AnchorCases
from hangpoint.core.aci318_19.limits import thick_enough, wide_enough
from hangpoint.core.aci318_19.pullout import HEADED, PRODUCT
from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.hang_point.demand import AnchorShear
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.layout_findings import least_spacing
from hangpoint.core.hang_point.points import IN_FIGURES, NOT_GOVERNING, TESTED, Points
from hangpoint.core.quantity import Bools, Index
from hangpoint.core.rows import some

_OF_PRODUCT = (
    "undercut",
    "category",
    "d_a",
    "a_se_n",
    "f_uta",
    "f_ya",
    "ductile",
    "h_ef",
    "c_ac",
    "product_k_c",
    "k_cr",
    "k_uncr",
    "pullout_method",
    "n_p_cr",
    "n_p_uncr",
    "n_p_eq",
    "n_exponent",
    "f_c_ref",
    "a_brg",
    "e_h",
    "welded_stud",
    "distance_sleeve",
    "adhesive",
)
_OF_BASE = (
    "lightweight",
    "lambda_c",
    "cracked",
    "supplementary",
    "edge_reinforcement",
    "a_s_n",
    "f_y_n",
    "a_s_v",
    "f_y_v",
)
_OF_FIXING = (
    "grout_pad",
    "oblique",
    "power",
    "bounding",
)
_OF_BOND = (
    "tau_cr",
    "tau_uncr",
    "alpha_n_seis",
    "open_share",
)
"""Columns of the tables that a check reads as they are."""


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


def by_seismic_tests(points: Points) -> Bools:
    """(points,) the pullout strength is that of simulated seismic tests."""
    product = points.products
    tested = (product.pullout_method == PRODUCT) & (product.n_p_eq_state == IN_FIGURES)
    return tested & (points.bases.category >= SEISMIC_FROM)


def pullout_governs(points: Points) -> Bools:
    """(points,) there is a pullout strength: the data don't say that breakout always comes first."""
    product = points.products
    state = np.where(points.bases.cracked, product.n_p_cr_state, product.n_p_uncr_state)
    return by_seismic_tests(points) | (product.pullout_method != PRODUCT) | (state != NOT_GOVERNING)


def _of_points(points: Points) -> dict[str, NDArray[Any]]:
    """The columns that are the same in every case of a point, (points,) each."""
    product, base, fixing, bond, deck = points.products, points.bases, points.fixings, points.bonds, points.decks
    high_seismic = base.category >= SEISMIC_FROM
    shear_by_seismic_tests = high_seismic & (product.post_installed | deck.in_deck)
    far_row_only = fixing.welded & ~product.post_installed
    welded = far_row_only
    if some(welded):
        welded = welded & thick_enough(thickness=fixing.thickness, d_a=product.d_a)
        welded &= wide_enough(spacing=least_spacing(points))
    as_they_are = ((product, _OF_PRODUCT), (base, _OF_BASE), (fixing, _OF_FIXING), (bond, _OF_BOND))
    return {name: getattr(table, name) for table, names in as_they_are for name in names} | {
        "cast_in": ~product.post_installed,
        "headed": product.pullout_method == HEADED,
        "pullout_governs": pullout_governs(points),
        "by_seismic_tests": by_seismic_tests(points),
        "tested_lightweight": product.lightweight_data == TESTED,
        "f_c_specified": base.f_c,
        "h_a": base.thickness,
        "reinforced_n": base.a_s_n > 0,
        "reinforced_v": base.a_s_v > 0,
        "by_shear_tests": product.v_sa_tested | shear_by_seismic_tests,
        "v_sa_eq_alone": shear_by_seismic_tests & ~product.v_sa_tested,
        "v_sa": np.where(shear_by_seismic_tests, product.v_sa_eq, product.v_sa),
        "welded": welded,
        "far_row_only": far_row_only,
        "by_seismic_bond": high_seismic & product.adhesive,
        "tau_exponent": bond.exponent,
        "f_c_ref_bond": bond.f_c_ref,
        "seismic_category": base.category,
        "in_deck": deck.in_deck,
    }
