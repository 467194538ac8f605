"""Generators of the records of shear and of what stands beside tension: see `random_records`."""

import numpy as np

from hangpoint.core.aci318_19.anchor_reinforcement import AnchorReinforcement, anchor_reinforcement
from hangpoint.core.aci318_19.concrete_breakout_shear import ConcreteBreakoutShear, concrete_breakout_shear
from hangpoint.core.aci318_19.interaction import Interaction, interaction
from hangpoint.core.aci318_19.pryout import Pryout, pryout
from hangpoint.core.aci318_19.steel_shear import SteelShear, steel_shear
from hangpoint.core.hang_point.demand import AnchorShear, anchor_shear
from hangpoint.core.loads.combinations import factors


def _anchor_reinforcement(random):
    return anchor_reinforcement(
        a_s=random.wide(0.1, 10), f_y=random.of(40_000, 60_000, 80_000), demand=random.wide(1, 1e6)
    )


def _anchor_shear(random):
    return anchor_shear(
        v_dead=random.vectors(5_000, axes=2),
        v_contents=random.vectors(5_000, axes=2, share=0.7),
        v_live=random.vectors(5_000, axes=2, share=0.5),
        v_factored=random.vectors(5_000, axes=2),
        v_further=random.vectors(5_000, axes=2, share=0.5),
        v_further_e=random.vectors(2_000, axes=2, share=0.5),
        as_combined=random.coin(),
        vertical_contents=random.coin() * random.flat(0, 0.4),
        gamma=factors(random.load_cases()),
    )


def _concrete_breakout_shear(random):
    c_a1 = random.wide(1, 40)
    none = random.coin(0.3)
    v_towards = ~none * random.coin() * random.wide(1, 1e6)
    across = random.edges(reach=1.5 * c_a1)[:, :2]
    return concrete_breakout_shear(
        c_a1=c_a1,
        c_a2=across,
        h_a=c_a1 * random.wide(0.2, 5),
        h_ef=random.wide(1, 40),
        d_a=random.wide(0.2, 4),
        distance_sleeve=random.coin(0.3),
        welded=random.coin(),
        extent=random.coin() * random.wide(1, 100),
        s_max=random.coin() * c_a1 * random.wide(0.3, 4),
        anchor_count=random.of(1, 2, 4),
        e_v=random.coin() * random.wide(0.1, 20),
        cracked=random.coin(),
        edge_reinforcement=random.of(0, 1, 2, dtype=np.int8),
        lambda_a=random.flat(0.6, 1),
        f_c=random.wide(1_500, 10_000),
        phi=random.of(0.70, 0.75),
        v_towards=v_towards,
        v_along=~none * random.coin() * random.wide(1, 1e6),
        r_along_row=(v_towards > 0) * random.coin() * random.flat(0, 2),
        oblique=random.of(0, 1, 2, dtype=np.int8),
    )


def _interaction(random):
    return interaction(
        r_n=random.coin(0.9) * random.wide(0.05, 3), r_v=random.coin(0.9) * random.wide(0.05, 3), power=random.coin()
    )


def _pryout(random):
    return pryout(
        h_ef=random.wide(1, 10),
        n_cb=random.wide(100, 1e5),
        by_bond=random.coin(),
        n_a=random.wide(100, 1e5),
        phi=random.flat(0.45, 0.75),
        demand=random.wide(1, 1e6),
    )


def _steel_shear(random):
    return steel_shear(
        a_se_v=random.wide(0.02, 4),
        f_uta_specified=random.wide(40_000, 180_000),
        f_ya=random.wide(20_000, 150_000),
        ductile=random.coin(),
        welded_stud=random.coin(),
        tested=random.coin(),
        alone=random.coin(),
        v_sa_tested=random.wide(100, 1e5),
        grout_pad=random.coin(),
        demand=random.wide(1, 1e6),
    )


GENERATORS = {
    AnchorReinforcement: _anchor_reinforcement,
    AnchorShear: _anchor_shear,
    ConcreteBreakoutShear: _concrete_breakout_shear,
    Interaction: _interaction,
    Pryout: _pryout,
    SteelShear: _steel_shear,
}
