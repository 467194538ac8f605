"""Columns of fasteners for the tests of EN 1992-4: a default one, and what a test changes. All figures invented."""

from dataclasses import fields

import numpy as np

from core.builders import INF
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.en1992_4.fastener_cases import FastenerCases

FASTENER = {
    "h_ef": 100.0,
    "h": 400.0,
    "h_min": 200.0,
    "d_nom": 16.0,
    "a_s": 157.0,
    "f_uk": 800.0,
    "f_yk": 640.0,
    "n_rk_s": 0.0,
    "v0_rk_s": 0.0,
    "k7": 1.0,
    "gamma_ms_n": 0.0,
    "gamma_ms_v": 0.0,
    "gamma_inst": 1.0,
    "k_cr_n": 7.7,
    "k_ucr_n": 11.0,
    "s_cr_n": np.nan,
    "c_cr_sp": 150.0,
    "n0_rk_sp": 0.0,
    "pull_out_by_tests": True,
    "pull_out_governs": True,
    "n_rk_p": 60_000.0,
    "psi_c_exponent": 0.5,
    "k8": 2.0,
    "a_h": 0.0,
    "headed": False,
    "l_f": np.nan,
    "post_installed": True,
    "f_ck_class": 25.0,
    "cracked": True,
    "wide_bars": True,
    "splitting_bars": False,
    "either_x": False,
    "either_y": False,
    "own_share": False,
    "earthquake": False,
    "n0_rk_s_eq": 100_000.0,
    "v0_rk_s_eq": 40_000.0,
    "n0_rk_p_eq": 45_000.0,
    "like_headed": False,
    "gap_filled": False,
    "bonded": False,
    "tau_cr": 0.0,
    "tau_ucr": 1.0,
    "tau_eq": 0.0,
    "tau_exponent": 0.0,
    "psi0_sus": 1.0,
    "open_share": 1.0,
    "psi_2": 0.0,
    "lever_arm": False,
    "free_length": 0.0,
    "t_fix": 0.0,
    "clamped": False,
    "held": False,
    "on_grout": False,
    "t_grout": 0.0,
    "fire": False,
    "minutes": 0.0,
    "sigma_fi": 0.0,
    "as_cone": False,
}
"""Post-installed, in cracked C25/30, static, no lever arm; ``s_cr_n`` is 3 h_ef, ``l_f`` h_ef unless stated. mm, N."""


def fastener_cases(count=1, **changed):
    """`FastenerCases` of so many cases."""
    known = FASTENER | changed
    columns = {
        own.name: np.broadcast_to(
            np.asarray(known[own.name], dtype=np.bool_ if isinstance(FASTENER[own.name], bool) else np.float64),
            (count,),
        ).copy()
        for own in fields(FastenerCases)
    }
    for name, times in (("s_cr_n", 3.0), ("l_f", 1.0)):
        silent = np.isnan(columns[name])
        columns[name][silent] = times * columns["h_ef"][silent]
    return FastenerCases(**columns)


def one_layout(x, y, *, member, n=0.0, v_x=0.0, v_y=0.0, stays=0.0):
    """`Anchors` of one case: ``member`` is x_low, x_high, y_low, y_high of the faces of the member, mm; loads in N."""
    x, y = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    low_x, high_x, low_y, high_y = member
    loads = [np.broadcast_to(np.asarray(load, dtype=np.float64), x.shape).copy() for load in (n, v_x, v_y, stays)]
    return Anchors(
        case=np.zeros(len(x), dtype=np.intp),
        number=np.arange(len(x)),
        x=x,
        y=y,
        c_a=np.stack((x - low_x, high_x - x, y - low_y, high_y - y), axis=1),
        n_ua=loads[0],
        n_ua_s=loads[3],
        v_x=loads[1],
        v_y=loads[2],
        case_count=1,
    )


ENDLESS = (-INF, INF, -INF, INF)
"""A member without edges."""
