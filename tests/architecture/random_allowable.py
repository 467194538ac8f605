"""Generators of the records of allowable loads and of bolts in masonry: see `random_records`."""

import numpy as np

from hangpoint.core.allowable.masonry_bolt import (
    MasonryBreakout,
    MasonryCrushing,
    MasonryPryout,
    MasonryPullout,
    MasonryShearBreakout,
    MasonryShearSteel,
    MasonrySteel,
    masonry_breakout,
    masonry_crushing,
    masonry_pullout,
    masonry_steel,
)
from hangpoint.core.allowable.strength_equivalent import StrengthEquivalent, strength_equivalent
from hangpoint.core.allowable.table_load import TableShear, TableTension, table_load
from hangpoint.core.allowable.unity import Unity, unity


def _table(shear):
    def made(random):
        c_least, s_least = random.wide(1, 6), random.wide(1, 8)
        c_full, s_full = c_least * random.flat(1.2, 3), s_least * random.flat(1.2, 3)
        return table_load(
            shear=shear,
            mean_ultimate=random.wide(50, 20_000),
            safety_factor=random.of(4, 5),
            f_base=random.wide(800, 8_000),
            f_ref=random.of(1_500, 3_000),
            strength_exponent=random.of(0, 0.5),
            c_a=np.stack([c_full * random.wide(0.2, 3) for _ in range(4)], axis=1),
            c_least=c_least,
            c_full=c_full,
            slope_c=random.flat(0, 0.5) / (c_full - c_least),
            sides=np.stack([s_full * random.wide(0.2, 3) for _ in range(4)], axis=1),
            s_least=s_least,
            s_full=s_full,
            slope_s=random.flat(0, 0.5) / (s_full - s_least),
            demand=random.wide(1, 5_000),
        )

    return made


def _unity(random):
    return unity(r_n=random.flat(0, 2), r_v=random.flat(0, 2), power=random.coin())


def _strength_equivalent(random):
    return strength_equivalent(
        gamma_dead=random.of(0.9, 1.2, 1.4),
        q_dead=random.wide(1, 1e4),
        gamma_contents=random.of(0, 1.2, 1.4),
        q_contents=random.wide(1, 1e4),
        gamma_live=random.of(0, 1, 1.6),
        q_live=random.wide(1, 1e4),
        q_others=random.wide(1, 1e4),
        q_others_factored=random.wide(1, 1e4),
        allowable=random.wide(50, 1e4),
    )


def _breakout(kind):
    def made(random):
        return masonry_breakout(
            kind,
            f_m=random.wide(1_000, 4_000),
            radius=random.wide(2, 20),
            a_p=random.wide(1, 1_000),
            k_m=random.of(1.25, 2.5, 4, 8),
            phi=random.of(0.5, 1),
            demand=random.wide(1, 1e5),
        )

    return made


def _steel(kind):
    def made(random):
        return masonry_steel(
            kind,
            a_b=random.wide(0.03, 2),
            f_y=random.wide(3e4, 1e5),
            k_m=random.of(0.36, 0.6, 1),
            phi=random.of(0.9, 1),
            demand=random.wide(1, 1e5),
        )

    return made


def _crushing(random):
    return masonry_crushing(
        f_m=random.wide(1_000, 4_000),
        a_b=random.wide(0.03, 2),
        k_m=random.of(350, 580, 1_050, 1_750),
        phi=random.of(0.5, 1),
        demand=random.wide(1, 1e5),
    )


def _pullout(random):
    return masonry_pullout(
        f_m=random.wide(1_000, 4_000),
        l_b=random.wide(2, 20),
        e_b=random.wide(0.5, 5),
        d_b=random.wide(0.2, 1.5),
        k_m=random.of(0.6, 1.5),
        tau=random.of(120, 300),
        phi=random.of(0.65, 1),
        demand=random.wide(1, 1e5),
    )


GENERATORS = {
    MasonryBreakout: _breakout(MasonryBreakout),
    MasonryCrushing: _crushing,
    MasonryPryout: _breakout(MasonryPryout),
    MasonryPullout: _pullout,
    MasonryShearBreakout: _breakout(MasonryShearBreakout),
    MasonryShearSteel: _steel(MasonryShearSteel),
    MasonrySteel: _steel(MasonrySteel),
    StrengthEquivalent: _strength_equivalent,
    TableShear: _table(True),
    TableTension: _table(False),
    Unity: _unity,
}
