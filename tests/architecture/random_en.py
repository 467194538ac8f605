"""Generators of the records of EN 1992-4: see `random_records`. mm, N, N/mm2."""

import numpy as np

from core.builders import alone
from hangpoint.core.en1992_4.blow_out import BlowOut, blow_out
from hangpoint.core.en1992_4.combined import (
    Bonded,
    BondResistance,
    CombinedFailure,
    bond_resistance,
    combined_failure,
)
from hangpoint.core.en1992_4.concrete_factors import ConcreteFactors, concrete_factors
from hangpoint.core.en1992_4.cone import ConcreteCone, ConeResistance, concrete_cone, cone_resistance
from hangpoint.core.en1992_4.edge import ConcreteEdge, concrete_edge
from hangpoint.core.en1992_4.interaction import (
    ConcreteInteraction,
    SeismicInteraction,
    SteelInteraction,
    concrete_interaction,
    seismic_interaction,
    steel_interaction,
)
from hangpoint.core.en1992_4.lever_arm import SteelFailureLeverArm, steel_failure_lever_arm
from hangpoint.core.en1992_4.pry_out import PryOut, pry_out
from hangpoint.core.en1992_4.pull_out import PullOut, pull_out
from hangpoint.core.en1992_4.splitting import Splitting, splitting
from hangpoint.core.en1992_4.steel_shear import SteelFailureShear, steel_failure_shear
from hangpoint.core.en1992_4.steel_tension import SteelFailureTension, steel_failure_tension
from hangpoint.core.hang_point.fastener_forces import FastenerShear, FastenerTension, fastener_shear, fastener_tension


def _f_ck(random):
    return random.flat(12, 60)


def _gamma(random):
    return random.of(1.5, 1.8, 2.1)


def _stated(random, low, high):
    """Of the product's data, 0 where they are silent."""
    return random.coin() * random.wide(low, high)


def _shaken(random, *names):
    """What the modes have of earthquake."""
    return {name: random.coin() for name in ("earthquake", *names)}


def _fire(random):
    """What the modes have of fire."""
    fire = random.coin(0.3)
    return {"fire": fire, "minutes": np.where(fire, random.of(30.0, 60.0, 90.0, 120.0), 0.0)}


def _hot_steel(random):
    own = _fire(random)
    return own | {"sigma_fi": own["fire"] * random.of(5.0, 16.0, 30.0, 900.0)}


def _blow_out(random):
    c_1 = random.wide(20, 200)
    h_ef = c_1 * random.flat(2, 10)
    none = [np.where(random.coin(0.3), np.inf, c_1 * random.wide(0.2, 10)) for _ in range(2)]
    return blow_out(
        h_ef=h_ef,
        h=h_ef + c_1 * random.wide(0.1, 20),
        c_1=c_1,
        c_2_low=none[0],
        c_2_high=none[1],
        anchor_count=random.of(1, 2, 3, 4),
        extent=random.coin() * c_1 * random.wide(0.1, 12),
        s_2=random.coin() * c_1 * random.wide(0.1, 8),
        a_h=random.wide(50, 5_000),
        cracked=random.coin(),
        f_ck=_f_ck(random),
        e_n=random.coin() * random.wide(1, 200),
        **_shaken(random, "several"),
        gamma_mc=_gamma(random),
        demand=random.wide(1, 1e6),
    )


def _bond_resistance(random):
    h_ef = random.wide(40, 500)
    own = Bonded(
        d=h_ef / random.flat(4, 20),
        h_ef=h_ef,
        tau_cr=random.wide(2, 20),
        tau_ucr=random.wide(3, 30),
        tau_eq=random.wide(1, 20),
        psi_c_exponent=random.flat(0, 0.5),
        psi0_sus=random.of(0.6, 0.8, 1.0),
        earthquake=random.coin(0.3),
        cracked=random.coin(),
        f_ck=_f_ck(random),
        load=random.coin(0.9) * random.wide(1, 1e6),
        stays=random.coin() * random.wide(1, 1e6),
        psi_2=random.of(0.0, 0.2, 0.8),
    )
    return bond_resistance(
        own,
        footprint=alone(random.edges(reach=1.5 * h_ef)),
        anchor_count=random.of(1, 2, 4, 9),
        s_max=random.coin() * h_ef * random.wide(0.1, 5),
        wide_bars=random.coin(),
        e_n_x=random.coin() * random.wide(1, 400),
        e_n_y=random.coin() * random.wide(1, 400),
    )


def _combined_failure(random):
    return combined_failure(
        _bond_resistance(random), several=random.coin(), gamma_mp=_gamma(random), demand=random.wide(1, 1e6)
    )


def _concrete_factors(random):
    return concrete_factors(
        f_ck_class=random.flat(12, 90),
        post_installed=random.coin(),
        cracked=random.coin(),
        gamma_inst=random.of(1.0, 1.2, 1.4),
        fire=random.coin(),
    )


def _cone_resistance(random):
    h_ef = random.wide(40, 500)
    s_cr_n = h_ef * random.flat(2, 4)
    return cone_resistance(
        h_ef=h_ef,
        s_cr_n=s_cr_n,
        footprint=alone(random.edges(reach=s_cr_n / 2)),
        anchor_count=random.of(1, 2, 4),
        s_max=random.coin() * s_cr_n * random.wide(0.1, 1.5),
        wide_bars=random.coin(),
        e_n_x=random.coin() * random.wide(1, 400),
        e_n_y=random.coin() * random.wide(1, 400),
        cracked=random.coin(),
        k_cr_n=random.flat(7, 9),
        k_ucr_n=random.flat(10, 13),
        f_ck=_f_ck(random),
        **_fire(random),
    )


def _concrete_cone(random):
    return concrete_cone(
        _cone_resistance(random),
        **_shaken(random, "several", "like_headed"),
        gamma_mc=_gamma(random),
        demand=random.wide(1, 1e6),
    )


def _concrete_edge(random):
    c_1 = random.wide(2, 900)
    across = random.edges(reach=1.5 * c_1)
    towards = random.coin(0.7) * random.wide(1, 1e6)
    d_nom = random.wide(6, 60)
    return concrete_edge(
        c_1=c_1,
        c_2_low=across[:, 0],
        c_2_high=across[:, 1],
        h=c_1 * random.wide(0.2, 5),
        anchor_count=random.of(1, 2, 4),
        extent=random.coin() * c_1 * random.wide(0.1, 8),
        s_2_max=random.coin() * c_1 * random.wide(0.1, 4),
        h_ef=random.wide(40, 500),
        d_nom=d_nom,
        l_f_stated=d_nom * random.wide(2, 30),
        cracked=random.coin(),
        f_ck=_f_ck(random),
        e_v=random.coin() * random.wide(1, 400),
        v_towards=towards,
        v_along=np.where(towards > 0, random.coin(), True) * random.wide(1, 1e6),
        opposed=random.coin(),
        **_shaken(random, "gap_filled", "several"),
        **_fire(random),
        gamma_mc=_gamma(random),
    )


def _pry_out(random):
    return pry_out(
        opposed=random.coin(),
        k_8=random.of(1.0, 2.0, 3.0),
        by_bond=random.coin(),
        n_rk_c=random.wide(1e3, 1e6),
        n_rk_p=random.wide(1e3, 1e6),
        fire=random.coin(0.3),
        n_rk_c_fi=random.wide(1e3, 1e6),
        **_shaken(random, "gap_filled", "several", "like_headed"),
        gamma_mc=_gamma(random),
        demand=random.wide(1, 1e6),
    )


def _pull_out(random):
    earthquake, tested = random.coin(), random.coin()
    return pull_out(
        earthquake=earthquake,
        **_fire(random),
        as_cone=~tested & random.coin(),
        n0_rk_c=random.wide(1e3, 1e6),
        by_tests=tested & ~earthquake,
        by_seismic_tests=tested & earthquake,
        n0_rk_p_eq=random.wide(1e3, 1e6),
        several=random.coin(),
        n_rk_p_stated=random.wide(1e3, 1e6),
        psi_c_exponent=random.flat(0, 0.6),
        f_ck=_f_ck(random),
        cracked=random.coin(),
        a_h=random.wide(50, 5_000),
        gamma_mp=_gamma(random),
        demand=random.wide(1, 1e6),
    )


def _splitting(random):
    h_ef = random.wide(40, 500)
    c_cr_sp, h_min = h_ef * random.flat(1, 4), h_ef * random.flat(1.1, 3)
    return splitting(
        h_ef=h_ef,
        c_cr_sp=c_cr_sp,
        footprint=alone(random.edges(reach=c_cr_sp)),
        anchor_count=random.of(1, 2, 4),
        cracked=random.coin(),
        k_1=random.flat(7, 13),
        f_ck=_f_ck(random),
        n_rk_p=np.where(random.coin(0.3), np.inf, random.wide(1e3, 1e6)),
        n0_rk_sp_stated=_stated(random, 1e3, 1e6),
        wide_bars=random.coin(),
        e_n_x=random.coin() * random.wide(1, 400),
        e_n_y=random.coin() * random.wide(1, 400),
        h=h_min * random.wide(0.8, 5),
        h_min=h_min,
        **_shaken(random, "several"),
        gamma_msp=_gamma(random),
        demand=random.wide(1, 1e6),
    )


def _steel(random):
    """Grades, 8.8 with f_yk / f_uk of 0.8 exactly among them, and any others."""
    f_uk = random.of(400, 500, 800, 1_000)
    any_other = random.coin()
    return {
        "a_s": random.wide(20, 800),
        "f_uk": np.where(any_other, random.flat(380, 1_050), f_uk),
        "f_yk": np.where(any_other, random.flat(200, 380), f_uk * random.of(0.6, 0.8, 0.9)),
    }


def _steel_failure_shear(random):
    d_nom = random.wide(6, 40)
    return steel_failure_shear(
        **_steel(random),
        h_ef=d_nom * random.flat(3, 10),
        d_nom=d_nom,
        f_ck=_f_ck(random),
        v0_rk_s_stated=_stated(random, 1e3, 1e6),
        several=random.coin(),
        k_7_group=random.of(0.8, 1.0),
        on_grout=random.coin(),
        t_grout=random.flat(3, 40),
        v0_rk_s_eq=random.wide(1e3, 1e6),
        **_shaken(random, "gap_filled"),
        **_hot_steel(random),
        gamma_ms_stated=_stated(random, 1.2, 2),
        demand=random.wide(1, 1e6),
    )


def _steel_failure_tension(random):
    return steel_failure_tension(
        **_steel(random),
        n_rk_s_stated=_stated(random, 1e3, 1e6),
        n0_rk_s_eq=random.wide(1e3, 1e6),
        **_shaken(random),
        **_hot_steel(random),
        gamma_ms_stated=_stated(random, 1.2, 2),
        demand=random.wide(1, 1e6),
    )


def _steel_failure_lever_arm(random):
    return steel_failure_lever_arm(
        **_steel(random),
        d_nom=random.wide(6, 40),
        clamped=random.coin(),
        free_length=random.coin() * random.wide(1, 300),
        t_fix=random.wide(1, 50),
        n_ed=random.coin() * random.wide(1, 1e5),
        n_rd_s=random.wide(1e4, 1e6),
        held=random.coin(),
        **_hot_steel(random),
        gamma_ms_stated=_stated(random, 1.2, 2),
        demand=random.wide(1, 1e6),
    )


def _steel_interaction(random):
    return steel_interaction(beta_n=random.wide(0.01, 3), beta_v=random.wide(0.01, 3))


def _concrete_interaction(random):
    return concrete_interaction(beta_n=random.wide(0.01, 3), beta_v=random.wide(0.01, 3))


def _seismic_interaction(random):
    return seismic_interaction(beta_n=random.wide(0.01, 3), beta_v=random.wide(0.01, 3))


GENERATORS = {
    BlowOut: _blow_out,
    BondResistance: _bond_resistance,
    CombinedFailure: _combined_failure,
    ConcreteCone: _concrete_cone,
    ConcreteEdge: _concrete_edge,
    ConcreteFactors: _concrete_factors,
    ConcreteInteraction: _concrete_interaction,
    ConeResistance: _cone_resistance,
    FastenerShear: lambda random: fastener_shear(random.wide(1, 1e6)),
    FastenerTension: lambda random: fastener_tension(random.wide(1, 1e6)),
    PryOut: _pry_out,
    PullOut: _pull_out,
    SeismicInteraction: _seismic_interaction,
    Splitting: _splitting,
    SteelFailureLeverArm: _steel_failure_lever_arm,
    SteelFailureShear: _steel_failure_shear,
    SteelFailureTension: _steel_failure_tension,
    SteelInteraction: _steel_interaction,
}
