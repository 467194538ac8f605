"""What a check by EN 1992-4 reads of points, as columns: one row a point. Units: mm, N, N/mm2."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.quantity import Bools, Codes, Floats

C1, C2 = 0, 1
"""Seismic performance categories."""
NO_CATEGORY, NOT_IN_TABLE = -1, -2
"""By Table C.1: none is asked for; not known."""
CAPACITY_DESIGN, ELASTIC_DESIGN, DUCTILE_FAILURE = 0, 1, 2
"""Design options of EN 1992-4 9.2."""


@frozen
class FastenerData(Columns):
    """Product data by European assessment; ``known`` where a product has any, neutral numbers elsewhere.

    ``n_rk_s``, ``v0_rk_s``, ``gamma_ms_n``, ``gamma_ms_v`` and ``n0_rk_sp`` are 0 where the data are silent,
    ``c_cr_sp`` where there is none. Of earthquake ``n_rk_s_c1`` and ``n_rk_s_c2`` are 0 where a fastener is not
    qualified for the category, ``v0_rk_s_c1`` and ``v0_rk_s_c2`` where it is not for shear. The states of N_Rk,p, which
    is for C20/25, are those of `points`. Of ``bonded`` fasteners ``gamma_inst`` and the bond resistances, for C20/25,
    are of the condition of the hole, the latter 0 where it isn't assessed or qualified; where conditions are left open
    ``gamma_inst`` is their largest, and of earthquake each resistance their least.
    """

    known: Bools
    post_installed: Bools
    headed: Bools
    undercut: Bools
    h_ef: Floats
    h_min: Floats
    d_nom: Floats
    a_s: Floats
    f_uk: Floats
    f_yk: Floats
    n_rk_s: Floats
    v0_rk_s: Floats
    k7: Floats
    gamma_ms_n: Floats
    gamma_ms_v: Floats
    gamma_inst: Floats
    k_cr_n: Floats
    k_ucr_n: Floats
    s_cr_n: Floats
    c_cr_sp: Floats
    n0_rk_sp: Floats
    n_rk_p_cr: Floats
    n_rk_p_cr_state: Codes
    n_rk_p_ucr: Floats
    n_rk_p_ucr_state: Codes
    psi_c_exponent: Floats
    k8: Floats
    a_h: Floats
    l_f: Floats
    n_rk_s_c1: Floats
    v0_rk_s_c1: Floats
    n_rk_p_c1: Floats
    n_rk_p_c1_state: Codes
    n_rk_s_c2: Floats
    v0_rk_s_c2: Floats
    n_rk_p_c2: Floats
    n_rk_p_c2_state: Codes
    bonded: Bools
    psi0_sus: Floats
    tau_cr: Floats
    tau_ucr: Floats
    tau_c1: Floats
    tau_c2: Floats
    tau_exponent: Floats


@frozen
class Fasteners(FastenerData):
    """Product data and what the request states beside them.

    ``f_ck_class`` is that of the strength class. ``wide_bars``: the reinforcement of the base is so wide apart that
    psi_re,N is 1, ``splitting_bars``: it takes the splitting forces. ``own_share``: of shear along an edge the near
    row takes its own. Of earthquake ``category`` is that which is asked for: ``category_stated`` by the request, else
    ``by_table``, Table C.1, whose ``table_category`` is one of the performance categories, or `NO_CATEGORY` or
    `NOT_IN_TABLE` where the request doesn't state what it goes by; ``design_option`` is the stated one, `NO_OPTION`
    where none is, and ``gap_filled``: there is no annular gap. Of a grout pad ``grout`` and ``f_grout`` are thickness,
    mm, and strength, N/mm2, 0 where not stated, ``grout_fills``: it fills the space below the fixture; ``clamped``:
    nuts clamp the fasteners to the concrete, ``held``: the fixture can't turn.
    """

    f_ck_class: Floats
    wide_bars: Bools
    splitting_bars: Bools
    own_share: Bools
    category: Codes
    category_stated: Bools
    table_category: Codes
    design_option: Codes
    gap_filled: Bools
    grout: Floats
    f_grout: Floats
    grout_fills: Bools
    clamped: Bools
    held: Bools

    @property
    def by_table(self) -> Bools:
        """(points,) whose category is that of Table C.1."""
        return ~self.category_stated & (self.table_category != NOT_IN_TABLE)

    def of_category(self, name: str) -> NDArray[Any]:
        """The column of a resistance under earthquake in the category that each point asks for."""
        of_c1: NDArray[Any] = getattr(self, name.format("c1"))
        of_c2: NDArray[Any] = getattr(self, name.format("c2"))
        return np.where(self.category == C2, of_c2, of_c1)
