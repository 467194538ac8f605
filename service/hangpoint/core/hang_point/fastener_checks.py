"""The anchors of points that go by EN 1992-4: in its units, and back in those of the chain, in and lbf."""

from dataclasses import replace

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.conversions import MM_PER_INCH, NEWTONS_PER_POUND
from hangpoint.core.en1992_4.check import CheckedFasteners, check
from hangpoint.core.en1992_4.fastener_cases import FastenerCases
from hangpoint.core.en1992_4.seismic import cone_like_headed
from hangpoint.core.hang_point.demand import AnchorShear
from hangpoint.core.hang_point.distribution import Distribution
from hangpoint.core.hang_point.fastener_fire import fire_columns
from hangpoint.core.hang_point.fastener_grout import fit_grout, without_lever
from hangpoint.core.hang_point.fastener_levers import fastener_levers
from hangpoint.core.hang_point.fasteners import Fasteners
from hangpoint.core.hang_point.points import IN_FIGURES, NOT_GOVERNING, Points
from hangpoint.core.outcome import ModeOutcome
from hangpoint.core.quantity import Bools, Floats, Index

_AS_THEY_ARE = (
    *("h_ef", "h_min", "d_nom", "a_s", "f_uk", "f_yk", "n_rk_s", "v0_rk_s", "k7", "gamma_ms_n", "gamma_ms_v"),
    *("gamma_inst", "k_cr_n", "k_ucr_n", "s_cr_n", "c_cr_sp", "n0_rk_sp", "psi_c_exponent", "k8", "a_h", "headed"),
    *("l_f", "post_installed", "f_ck_class", "wide_bars", "splitting_bars", "own_share", "gap_filled"),
    *("clamped", "held", "bonded", "tau_cr", "tau_ucr", "tau_exponent", "psi0_sus"),
)
"""Columns of `Fasteners` that a check reads as they are."""


def fastener_checks(
    points: Points,
    fasteners: Fasteners,
    cases: Index,
    *,
    owner: Index,
    shear: AnchorShear,
    load: Distribution,
    anchors: Anchors,
    earthquake: Bools,
    psi_2: Floats,
    fire: Bools | None,
) -> CheckedFasteners:
    """Check the anchors of every case, all of points that go by EN 1992-4; strengths of the modes in lbf.

    Args:
        points: the batch.
        fasteners: of its points.
        cases: (checked cases,) places on the axis of all cases, that of ``anchors``.
        owner: (cases,) point of every case; ``shear`` and ``load`` have a row for each of them.
        earthquake: (cases,) it acts in the case; the concrete is then cracked.
        psi_2: (cases,) of `fastener_sustained.psi_2_of_cases`.
        fire: (cases,) it acts in the case; the concrete is then cracked. None where it nowhere does.
    """
    point = owner[cases]
    own, base = fasteners.take(point), points.bases.take(point)
    fixings, plates = points.fixings.take(point), points.plates.take(point)
    levers, shaken = fastener_levers(own, fixings, plates), earthquake[cases]
    in_fire = fire_columns(points, own, point=point, fire=None if fire is None else fire[cases])
    cracked, as_cone = base.cracked | in_fire["fire"], in_fire["as_cone"]
    anchors = anchors.scaled(length=MM_PER_INCH, force=NEWTONS_PER_POUND)
    fits = levers.acts & ~shaken & fit_grout(own, fixings, plates, cracked)
    on_grout = without_lever(fits, cases, anchors=anchors, d_nom=own.d_nom, load=load, shear=shear)
    state = np.where(cracked, own.n_rk_p_cr_state, own.n_rk_p_ucr_state)
    state = np.where(shaken, own.of_category("n_rk_p_{}_state"), state)
    columns = {name: getattr(own, name) for name in _AS_THEY_ARE} | in_fire
    found = check(
        FastenerCases(
            **columns,
            h=base.thickness * MM_PER_INCH,
            cracked=cracked | shaken,
            pull_out_by_tests=state == IN_FIGURES,
            tau_eq=own.of_category("tau_{}"),
            open_share=points.bonds.open_share[point],
            psi_2=psi_2[cases],
            pull_out_governs=own.headed | as_cone | ((state != NOT_GOVERNING) & ~own.bonded),
            n_rk_p=np.where(cracked, own.n_rk_p_cr, own.n_rk_p_ucr),
            earthquake=shaken,
            n0_rk_s_eq=own.of_category("n_rk_s_{}"),
            v0_rk_s_eq=own.of_category("v0_rk_s_{}"),
            n0_rk_p_eq=own.of_category("n_rk_p_{}"),
            like_headed=cone_like_headed(headed=own.headed, undercut=own.undercut, k_cr_n=own.k_cr_n),
            lever_arm=levers.acts & ~on_grout,
            free_length=levers.free_length,
            t_fix=levers.t_fix,
            on_grout=on_grout,
            t_grout=np.where(on_grout, own.grout, 0.0),
            either_x=shear.either_x[cases],
            either_y=shear.either_y[cases],
        ),
        anchors,
    )
    return replace(found, outcomes=[_in_pounds(outcome) for outcome in found.outcomes])


def _in_pounds(outcome: ModeOutcome) -> ModeOutcome:
    if outcome.mode.is_ratio:
        return outcome
    return replace(
        outcome,
        design_strength=outcome.design_strength / NEWTONS_PER_POUND,
        demand=outcome.demand / NEWTONS_PER_POUND,
    )
