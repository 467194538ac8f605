"""What a check by EN 1992-4 reads of points, as columns: one row a point. Units: mm, N, N/mm2."""

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.columns import Columns
from hangpoint.core.quantity import Bools, Codes, Floats


@frozen
class FastenerData(Columns):
    """Product data by European assessment; ``known`` where a product has any, neutral numbers elsewhere.

    ``n_rk_s``, ``v0_rk_s``, ``gamma_ms_n``, ``gamma_ms_v`` and ``n0_rk_sp`` are 0 where the data are silent,
    ``c_cr_sp`` where there is none. The states of N_Rk,p, which is for C20/25, are those of `points`.
    """

    known: Bools
    post_installed: Bools
    headed: Bools
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


@frozen
class Fasteners(FastenerData):
    """Product data and what the request states beside them.

    ``f_ck_class`` is that of the strength class. ``wide_bars``: the reinforcement of the base is so wide apart that
    psi_re,N is 1, ``splitting_bars``: it takes the splitting forces. ``own_share``: of shear along an edge the near
    row takes its own.
    """

    f_ck_class: Floats
    wide_bars: Bools
    splitting_bars: Bools
    own_share: Bools
