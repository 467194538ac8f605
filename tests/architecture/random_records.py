"""Every record class of the core, and for each a generator that calls its function on random columns.

The columns span more than any real anchor and are meant to reach both sides of every branch, not to be sensible.
"""

import importlib
import pkgutil

import numpy as np

import hangpoint.core
from architecture import (
    random_allowable,
    random_bond,
    random_en,
    random_fixtures,
    random_hanger,
    random_layout,
    random_plate,
    random_seismic,
    random_shear,
    random_site,
    random_statics,
    random_take_off,
    random_weights,
)
from core.builders import alone
from hangpoint.core.aci318_19.concrete_basis import ConcreteBasis, concrete_basis
from hangpoint.core.aci318_19.concrete_breakout_tension import (
    BreakoutStrength,
    ConcreteBreakoutTension,
    breakout_strength,
    concrete_breakout_tension,
)
from hangpoint.core.aci318_19.pullout import Pullout, pullout
from hangpoint.core.aci318_19.side_face_blowout import SideFaceBlowout, side_face_blowout
from hangpoint.core.aci318_19.steel_tension import SteelTension, steel_tension
from hangpoint.core.hang_point.demand import AnchorDemand, anchor_demand
from hangpoint.core.hanger.rod import (
    RodAllowable,
    RodSize,
    RodStrength,
    rod_allowable,
    rod_size,
    rod_strength,
)
from hangpoint.core.hanger.run_reaction import ByModel, RunReaction, reaction
from hangpoint.core.loads.combinations import CASES, factors
from hangpoint.core.quantity import Record
from hangpoint.core.selection.takes import Takes, takes

ROWS = 2_000
SEED = 31819


def record_classes():
    """Every subclass of `Record` with columns that any module of the core defines."""
    for found in pkgutil.walk_packages(hangpoint.core.__path__, "hangpoint.core."):
        importlib.import_module(found.name)
    waiting, classes = [Record], set()
    while waiting:
        for child in waiting.pop().__subclasses__():
            waiting.append(child)
            if child.__module__.startswith("hangpoint.core.") and "TITLE" in child.__dict__:
                classes.add(child)
    return sorted(classes, key=lambda cls: cls.__name__)


class Columns:
    """Random columns of one seeded generator."""

    def __init__(self, seed=SEED, rows=ROWS):
        self.rng = np.random.default_rng(seed)
        self.rows = rows

    def wide(self, low, high):
        """Spread evenly over the logarithm."""
        return np.exp(self.rng.uniform(np.log(low), np.log(high), self.rows))

    def flat(self, low, high):
        return self.rng.uniform(low, high, self.rows)

    def coin(self, share=0.5):
        return self.rng.random(self.rows) < share

    def of(self, *choices, dtype=np.float64):
        return self.rng.choice(np.array(choices, dtype=dtype), self.rows)

    def load_cases(self):
        """Every load case by nature, and two as given."""
        return self.rng.integers(0, len(CASES) + 1, self.rows)

    def vectors(self, size, *, axes, share=1.0):
        """Components along two or three axes either way, each there with a probability."""
        shape = (self.rows, axes)
        return self.rng.uniform(-size, size, shape) * (self.rng.random(shape) < share)

    def edges(self, *, reach):
        """Edge distances (n, 4) from near to beyond the reach (n,), a third of them none."""
        c_a = reach[:, None] * np.exp(self.rng.uniform(np.log(0.05), np.log(3.0), (self.rows, 4)))
        return np.where(self.rng.random((self.rows, 4)) < 1 / 3, np.inf, c_a)


def _concrete_basis(random):
    return concrete_basis(
        cast_in=random.coin(),
        undercut=random.coin(),
        adhesive=random.coin(),
        category=random.of(1, 2, 3, dtype=np.int8),
        supplementary=random.coin(),
        cracked=random.coin(),
        f_c_specified=random.wide(1_500, 15_000),
        lightweight=random.coin(),
        lambda_c=random.of(0.75, 0.85, 1.0),
    )


def _breakout_strength(random):
    h_ef = random.wide(1, 40)
    return breakout_strength(
        h_ef=h_ef,
        footprint=alone(random.edges(reach=1.5 * h_ef)),
        anchor_count=random.of(1, 2, 4),
        s_max=random.coin() * random.wide(1, 60),
        e_n_x=random.coin() * random.wide(0.1, 20),
        e_n_y=random.coin() * random.wide(0.1, 20),
        cracked=random.coin(),
        cast_in=random.coin(),
        headed=random.coin(0.8),
        product_k_c=random.coin(),
        k_cr=random.flat(15, 24),
        k_uncr=random.flat(20, 28),
        c_ac=h_ef * random.flat(0.5, 6),
        lambda_a=random.flat(0.6, 1),
        f_c=random.wide(1_500, 10_000),
    )


def _concrete_breakout_tension(random):
    return concrete_breakout_tension(
        _breakout_strength(random),
        seismic_factor=random.of(0.75, 1),
        phi=random.flat(0.45, 0.75),
        demand=random.wide(1, 1e6),
    )


def _pullout(random):
    return pullout(
        method=random.of(0, 1, 2, dtype=np.int8),
        in_deck=random.coin(),
        cracked=random.coin(),
        f_c=random.wide(1_500, 10_000),
        n_p_cr=random.wide(100, 1e5),
        n_p_uncr=random.wide(100, 1e5),
        by_seismic_tests=random.coin(),
        n_p_eq=random.wide(100, 1e5),
        f_c_ref=random.of(2_500, 3_000, 4_000),
        n_exponent=random.flat(0, 0.7),
        lambda_p=random.flat(0.6, 1),
        a_brg=random.wide(0.1, 10),
        d_a=random.wide(0.2, 4),
        e_h=random.wide(0.5, 10),
        seismic_factor=random.of(0.75, 1),
        phi=random.flat(0.45, 0.75),
        demand=random.wide(1, 1e6),
    )


def _side_face_blowout(random):
    c_a1 = random.wide(0.5, 20)
    return side_face_blowout(
        h_ef=c_a1 * random.flat(2.5, 10),
        c_a1=c_a1,
        c_a2=np.where(random.coin(0.3), np.inf, c_a1 * random.wide(0.2, 10)),
        a_brg=random.wide(0.1, 10),
        lambda_a=random.flat(0.6, 1),
        f_c=random.wide(1_500, 10_000),
        lone=random.coin(),
        s_row=random.wide(1, 60),
        seismic_factor=random.of(0.75, 1),
        phi=random.flat(0.45, 0.75),
        demand=random.wide(1, 1e6),
    )


def _steel_tension(random):
    return steel_tension(
        a_se_n=random.wide(0.02, 4),
        f_uta_specified=random.wide(40_000, 180_000),
        f_ya=random.wide(20_000, 150_000),
        ductile=random.coin(),
        demand=random.wide(1, 1e6),
    )


def _anchor_demand(random):
    load_case = random.load_cases()
    return anchor_demand(
        n_dead=random.flat(-500, 5_000),
        n_contents=random.flat(-500, 5_000),
        n_live=random.wide(1, 5_000),
        n_sprinkler=random.of(0, 250),
        n_factored=random.wide(1, 5_000),
        n_factored_e=random.flat(-500, 500),
        n_further=random.flat(-500, 5_000),
        n_further_s=random.flat(-500, 500),
        n_further_e=random.flat(-500, 500),
        sustained_fraction=random.flat(0, 1),
        as_combined=random.coin(),
        load_case=load_case,
        gamma=factors(load_case),
    )


def _run_reaction(random):
    def loads():
        return random.vectors(2_000, axes=3, share=0.7)

    return reaction(
        w_dead=random.wide(0.1, 200),
        w_fluid=random.wide(0.1, 200),
        w_test=random.wide(0.1, 200),
        length=random.vectors(30, axes=3),
        loads=ByModel(p_dead=loads(), p_fluid=loads(), p_live=loads(), p_test=loads()),
        model=random.of(0, 1, 2, 3, 4, dtype=np.int8),
    )


def _rod_allowable(random):
    d = random.wide(0.2, 2)
    return rod_allowable(
        d=d,
        pitch=d * random.flat(0.1, 0.2),
        k_root=random.flat(1.2, 1.3),
        f_basis=random.wide(10_000, 60_000),
        safety=random.flat(1, 5),
        k_thread=random.flat(0.5, 1),
        demand=random.wide(1, 1e5),
    )


def _rod_strength(random):
    d = random.wide(0.2, 2)
    return rod_strength(
        d=d,
        pitch=d * random.flat(0.1, 0.2),
        k_stress=random.flat(0.9, 1),
        f_u=random.wide(30_000, 130_000),
        phi=random.flat(0.5, 0.9),
        demand=random.wide(1, 1e5),
    )


def _rod_size(random):
    return rod_size(nominal=random.of(0.5, 1, 2.5, 4, 6, 7, 8, 10, 12, 14), d=random.of(0.25, 0.375, 0.5, 0.625))


def _takes(random):
    return takes(
        anchors=random.of(1, 2, 4, 8),
        cost_of_one=random.wide(0.1, 20),
        minutes_of_one=random.wide(0.2, 15),
        hole_depth=random.coin() * random.wide(0.5, 12),
        utilisation=random.flat(0, 3),
    )


GENERATORS = {
    AnchorDemand: _anchor_demand,
    BreakoutStrength: _breakout_strength,
    ConcreteBasis: _concrete_basis,
    ConcreteBreakoutTension: _concrete_breakout_tension,
    Pullout: _pullout,
    RodAllowable: _rod_allowable,
    RodSize: _rod_size,
    RodStrength: _rod_strength,
    Takes: _takes,
    RunReaction: _run_reaction,
    SideFaceBlowout: _side_face_blowout,
    SteelTension: _steel_tension,
    **random_allowable.GENERATORS,
    **random_bond.GENERATORS,
    **random_en.GENERATORS,
    **random_fixtures.GENERATORS,
    **random_hanger.GENERATORS,
    **random_layout.GENERATORS,
    **random_plate.GENERATORS,
    **random_seismic.GENERATORS,
    **random_shear.GENERATORS,
    **random_site.GENERATORS,
    **random_statics.GENERATORS,
    **random_take_off.GENERATORS,
    **random_weights.GENERATORS,
}
