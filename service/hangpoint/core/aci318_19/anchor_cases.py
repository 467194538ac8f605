"""The columns that a chapter 17 check reads besides the anchors, one row a load case. Units: in, in2, lbf, psi."""

from dataclasses import fields
from typing import Self

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.rows import is_every


@frozen
class AnchorCases:
    """Product, base, attachment and options of every case; all anchors of a case are one product.

    Booleans: ``cast_in``, ``undercut``, ``headed`` (a head bears: side-face blowout and the h_ef^(5/3) form),
    ``tested_lightweight`` (N_p was tested in lightweight concrete), ``pullout_governs`` (False where the product's
    data state that pullout does not govern in this state of the concrete), ``by_seismic_tests`` (N_p is N_p,eq).
    ``by_shear_tests`` (V_sa is ``v_sa``), ``by_seismic_bond`` (tau is tau_cr alpha_N,seis), ``welded`` (cast in, and to
    steel that is thick enough for the coefficient 8 of V_b, not too close), ``far_row_only`` (welded to its steel, so
    that of rows along an edge the far one takes the shear), ``reinforced_n`` and ``reinforced_v`` (anchor
    reinforcement stands in place of concrete breakout), ``either_x`` and ``either_y`` (the shear along that axis may
    act either way), ``bounding`` (A_Nc and A_Na by the rectangle around the squares of a group).
    ``in_deck``: in the flute of a deck, with strengths tested there in place of those of the concrete.
    ``open_share``: the least phi tau of the conditions of the hole that are left open over that of the one taken.
    ``n_total`` and ``n_earthquake`` are the tension of all anchors and the part of it that is earthquake.
    """

    cast_in: Bools
    undercut: Bools
    headed: Bools
    category: Codes
    d_a: Floats
    a_se_n: Floats
    f_uta: Floats
    f_ya: Floats
    ductile: Bools
    h_ef: Floats
    c_ac: Floats
    product_k_c: Bools
    k_cr: Floats
    k_uncr: Floats
    pullout_method: Codes
    pullout_governs: Bools
    n_p_cr: Floats
    n_p_uncr: Floats
    n_p_eq: Floats
    by_seismic_tests: Bools
    n_exponent: Floats
    f_c_ref: Floats
    tested_lightweight: Bools
    a_brg: Floats
    e_h: Floats
    f_c_specified: Floats
    lightweight: Bools
    lambda_c: Floats
    cracked: Bools
    supplementary: Bools
    h_a: Floats
    edge_reinforcement: Codes
    reinforced_n: Bools
    a_s_n: Floats
    f_y_n: Floats
    reinforced_v: Bools
    a_s_v: Floats
    f_y_v: Floats
    welded_stud: Bools
    distance_sleeve: Bools
    by_shear_tests: Bools
    v_sa_eq_alone: Bools
    v_sa: Floats
    welded: Bools
    far_row_only: Bools
    grout_pad: Bools
    adhesive: Bools
    tau_cr: Floats
    tau_uncr: Floats
    by_seismic_bond: Bools
    alpha_n_seis: Floats
    tau_exponent: Floats
    f_c_ref_bond: Floats
    open_share: Floats
    oblique: Codes
    power: Bools
    bounding: Bools
    seismic_category: Codes
    n_total: Floats
    n_earthquake: Floats
    either_x: Bools
    either_y: Bools
    in_deck: Bools

    def take(self, rows: Index) -> Self:
        """The given rows, in that order; itself where they are all of its rows."""
        if is_every(rows, len(self.h_ef)):
            return self
        return type(self)(**{field.name: getattr(self, field.name)[rows] for field in fields(self)})
