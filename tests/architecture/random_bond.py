"""Generators of the records of bond and of earthquake: see `random_records`."""

import numpy as np

from core.builders import alone
from hangpoint.core.aci318_19.adhesive_bond import AdhesiveBond, BondStrength, adhesive_bond, bond_strength
from hangpoint.core.aci318_19.seismic import DuctileSteelOption, ductile_steel_option
from hangpoint.core.aci318_19.sustained_bond import SustainedBond, sustained_bond


def _bond_strength(random):
    d_a = random.wide(0.2, 4)
    tau_uncr = random.wide(300, 4_000)
    reach = 10 * d_a * np.sqrt(tau_uncr / 1_100)
    return bond_strength(
        d_a=d_a,
        h_ef=d_a * random.flat(4, 20),
        footprint=alone(random.edges(reach=reach)),
        anchor_count=random.of(1, 2, 4),
        e_n_x=random.coin() * random.wide(0.1, 20),
        e_n_y=random.coin() * random.wide(0.1, 20),
        cracked=random.coin(),
        tau_cr=tau_uncr * random.flat(0.3, 1),
        tau_uncr=tau_uncr,
        by_seismic_tests=random.coin(),
        alpha_n_seis=random.flat(0.4, 1),
        tau_exponent=random.coin() * random.flat(0.05, 0.3),
        f_c_ref=random.of(2_500, 3_000, 4_000),
        f_c=random.wide(1_500, 10_000),
        lambda_bond=random.of(0.45, 0.51, 1),
        c_ac=reach * random.wide(0.3, 6),
    )


def _adhesive_bond(random):
    return adhesive_bond(
        _bond_strength(random),
        seismic_factor=random.of(0.75, 1),
        phi=random.flat(0.45, 0.75),
        demand=random.wide(1, 1e6),
    )


def _sustained_bond(random):
    return sustained_bond(
        n_ba=random.wide(100, 1e6),
        phi=random.flat(0.45, 0.75),
        open_share=random.flat(0.5, 1.5),
        demand=random.wide(1, 1e6),
    )


def _ductile_steel_option(random):
    n_sa, d_a, f_ya = random.wide(500, 1e5), random.wide(0.2, 4), random.wide(20_000, 120_000)
    return ductile_steel_option(
        n_sa=n_sa,
        n_concrete=np.where(random.coin(0.1), np.inf, n_sa * random.wide(0.6, 4)),
        d_a=d_a,
        l_stretch=random.coin(0.8) * d_a * random.flat(4, 20),
        ductile=random.coin(0.8),
        f_uta_specified=f_ya * random.flat(1, 2),
        f_ya=f_ya,
        upset_threads=random.coin(0.3),
    )


GENERATORS = {
    AdhesiveBond: _adhesive_bond,
    BondStrength: _bond_strength,
    DuctileSteelOption: _ductile_steel_option,
    SustainedBond: _sustained_bond,
}
