"""The columns that a check by EN 1992-4 reads besides the anchors, one row a load case. Units: mm, N, N/mm2."""

from dataclasses import fields
from typing import Self

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import is_every


@frozen
class FastenerCases:
    """Product and base of every case; all fasteners of a case are one product.

    Of the product's data 0 says: not stated, the code has a value (``n_rk_s``, ``v0_rk_s``, ``gamma_ms_n``,
    ``gamma_ms_v``, ``n0_rk_sp``). ``n_rk_p`` is that of the state of the concrete for C20/25, read where
    ``pull_out_by_tests``; where ``pull_out_governs`` is False the data say that it never comes first. ``a_h`` is the
    bearing area of a ``headed`` fastener. ``f_ck_class`` is that of the strength class.

    ``earthquake``: the case is one of earthquake, and its concrete ``cracked``. ``n0_rk_s_eq``, ``v0_rk_s_eq`` and
    ``n0_rk_p_eq`` are then the data's own, of the category that is asked for, and ``pull_out_governs`` is of them.
    ``like_headed``: the cone is as of headed fasteners (Table C.3); ``gap_filled``: there is no annular gap.

    ``fire``: the case is one of fire of the class ``minutes``, and its concrete cracked; ``s_cr_n`` is then that in
    fire, ``sigma_fi`` the stress that the steel has. ``as_cone``: the data say that pull-out never comes first, which
    isn't known in fire, and N_Rk,p is taken as that of a cone.

    ``wide_bars``: the reinforcement is as 7.2.1.4(5) wants it for psi_re,N = 1; ``splitting_bars``: it takes the
    splitting forces and keeps cracks to 0.3 mm, 7.2.1.7(2)b. ``either_x`` and ``either_y``: the shear along that axis
    may act either way. ``own_share``: the row nearest to an edge takes its own shear there and not all of it.

    Of ``bonded`` fasteners ``tau_cr`` and ``tau_ucr`` are for C20/25, ``tau_eq`` of the category under earthquake;
    ``open_share`` is the least bond of the conditions that are left open over that of the one taken, and ``psi_2`` what
    is taken to last of the load that isn't dead load and contents.

    ``lever_arm``: the shear acts off the concrete, across ``free_length``, mm, and half of ``t_fix``, mm. A nut clamps
    the fastener to the concrete below where ``clamped``; the fixture can't turn where ``held``. ``on_grout``: there is
    none, though the fixture stands on grout of ``t_grout``, mm, that is thicker than d/2 (7.36).
    """

    h_ef: Floats
    h: Floats
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
    pull_out_by_tests: Bools
    pull_out_governs: Bools
    n_rk_p: Floats
    psi_c_exponent: Floats
    k8: Floats
    a_h: Floats
    headed: Bools
    l_f: Floats
    post_installed: Bools
    f_ck_class: Floats
    cracked: Bools
    wide_bars: Bools
    splitting_bars: Bools
    either_x: Bools
    either_y: Bools
    own_share: Bools
    earthquake: Bools
    n0_rk_s_eq: Floats
    v0_rk_s_eq: Floats
    n0_rk_p_eq: Floats
    like_headed: Bools
    gap_filled: Bools
    bonded: Bools
    tau_cr: Floats
    tau_ucr: Floats
    tau_eq: Floats
    tau_exponent: Floats
    psi0_sus: Floats
    open_share: Floats
    psi_2: Floats
    lever_arm: Bools
    free_length: Floats
    t_fix: Floats
    clamped: Bools
    held: Bools
    on_grout: Bools
    t_grout: Floats
    fire: Bools
    minutes: Floats
    sigma_fi: Floats
    as_cone: Bools

    def take(self, rows: Index) -> Self:
        """The given rows, in that order; itself where they are all of its rows."""
        if is_every(rows, len(self.h_ef)):
            return self
        return type(self)(**{field.name: getattr(self, field.name)[rows] for field in fields(self)})
