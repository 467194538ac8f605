"""What is taken of anchors where the request or the data of a product are silent: by the code, in tension, in shear."""

import numpy as np

from hangpoint.core.aci318_19.pullout import PRODUCT
from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.hang_point.points import BY_LAMBDA_A, IN_FIGURES, Bases, Products
from hangpoint.core.quantity import Bools
from hangpoint.core.vocabulary import Assumption
from hangpoint.pack.flags import Flags, bits_of
from hangpoint.pack.groups import Sheared
from hangpoint.pack.pull import Rows
from hangpoint.product.table import ProductTable

OF_THE_CODE = bits_of(
    Assumption.C_AC_BY_CODE,
    Assumption.K_C_BY_CODE,
    Assumption.F_C_REF,
    Assumption.LAMBDA_ON_PULLOUT,
    Assumption.N_P_EQ,
    Assumption.SHEAR_STEEL,
    Assumption.NO_DISTANCE_SLEEVE,
    Assumption.NO_EDGE_REINFORCEMENT,
    Assumption.EDGE_REINFORCEMENT,
    Assumption.NO_SUPPLEMENTARY,
    Assumption.OBLIQUE_SHEAR,
    Assumption.GROUP_AREA,
    Assumption.GROUP_SUBSETS,
    Assumption.EDGE_ROWS,
)
"""What is assumed for chapter 17 alone."""


def product_assumptions(
    table: ProductTable, product: Products, bases: Bases, assumptions: Flags, *, by_formula: Bools, pulled: Bools
) -> None:
    """What is taken where the data of a product are silent, or by the place that it is in.

    ``by_formula`` (points,): breakout is calculated; ``pulled``: tension may act, without which nothing is pulled out.
    """
    by_tests = (product.pullout_method == PRODUCT) & pulled
    post_installed = product.post_installed
    assumptions.set(Assumption.C_AC_BY_CODE, table.c_ac_from_code & post_installed & ~bases.cracked & by_formula)
    assumptions.set(Assumption.F_C_REF, table.f_c_ref_silent & post_installed & by_formula & (pulled | product.bonded))
    assumptions.set(Assumption.K_C_BY_CODE, post_installed & ~product.product_k_c & by_formula)
    by_lambda = bases.lightweight & by_tests & (product.lightweight_data == BY_LAMBDA_A)
    assumptions.set(Assumption.LAMBDA_ON_PULLOUT, by_lambda)
    by_seismic_tests = by_tests & (bases.category >= SEISMIC_FROM) & (product.n_p_eq_state == IN_FIGURES)
    assumptions.set(Assumption.N_P_EQ, by_seismic_tests)


_GROUT = ("grout_pad", "grout_thickness")


def shear_assumptions(
    items: Rows, shear: Sheared, table: ProductTable, product: Products, bases: Bases, assumptions: Flags
) -> None:
    """What is taken of the attachment, the edge and the steel where an anchor is sheared."""
    sheared = shear.any_axis
    if not np.count_nonzero(sheared):
        return
    near = np.isfinite(bases.c_a).any(axis=1) & sheared
    attachment = items.child("attachment")
    open_gap = np.logical_and.reduce([attachment.silent(name) for name in ("gap", *_GROUT, "plate")])
    assumptions.set(Assumption.FLUSH, sheared & open_gap & ~attachment.true("welded"))
    by_formula = ~product.v_sa_tested & product.post_installed & (bases.category < SEISMIC_FROM)
    assumptions.set(Assumption.SHEAR_STEEL, sheared & by_formula)
    assumptions.set(Assumption.NO_DISTANCE_SLEEVE, near & table.sleeve_silent)
    silent = items.child("base").silent("edge_reinforcement")
    assumptions.set(Assumption.NO_EDGE_REINFORCEMENT, near & bases.cracked & silent)
    barred = (bases.edge_reinforcement > 0) & (np.isfinite(bases.c_a).sum(axis=1) > 1)
    assumptions.set(Assumption.EDGE_REINFORCEMENT, near & bases.cracked & barred)
    by_vector = items.child("options").silent("oblique_shear")
    assumptions.set(Assumption.OBLIQUE_SHEAR, near & shear.along_x & shear.along_y & by_vector)
