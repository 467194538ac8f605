"""Generators of the records of the site: see `random_records`."""

import numpy as np

from hangpoint.core.site.proof_load import (
    ProofCount,
    ProofLoad,
    SupportDistance,
    proof_count,
    proof_load,
    support_distance,
)
from hangpoint.core.site.proof_result import ProofResult, proof_result
from hangpoint.core.site.setting import NewHole, RodTurns, new_hole, rod_turns


def _rod_turns(random):
    least = random.wide(0.2, 2)
    return rod_turns(pitch=random.wide(0.03, 0.2), reach_least=least, reach_most=least * random.flat(1, 2))


def _new_hole(random):
    return new_hole(hole_depth=random.wide(0.5, 12), s_min=random.wide(0.5, 30))


def _proof_load(random):
    known = random.coin()
    return proof_load(
        reference=random.wide(50, 20_000),
        factor=random.of(0.75, 1.25, 1.5, 2, 2.5),
        least_load=random.of(0, 1500),
        yield_known=known,
        a_se_n=known * random.wide(0.02, 1),
        f_ya=known * random.wide(30_000, 130_000),
        yield_share=random.of(0.7, 0.8),
    )


def _proof_count(random):
    installed = np.ceil(random.wide(1, 900))
    return proof_count(
        installed=installed,
        percent=random.of(10, 50, 100),
        strata=np.minimum(installed, np.ceil(random.wide(1, 60))),
    )


def _support_distance(random):
    return support_distance(h_ef=random.wide(0.5, 20))


def _proof_result(random):
    test_load = random.wide(100, 10_000)
    return proof_result(
        test_load=test_load,
        applied=test_load * random.of(0, 0.9, 0.9995, 1, 1.05, 1.5),
        hold=random.of(15, 60, 300),
        held_for=random.of(0, 15, 60, 300),
        moved=random.coin(0.2),
        displacement=random.coin() * random.wide(0.001, 0.5),
        measured=random.coin(0.8),
        limit=random.of(0.1, np.inf),
        most=test_load * random.of(1.0, 1.2, np.inf),
    )


GENERATORS = {
    NewHole: _new_hole,
    ProofCount: _proof_count,
    ProofLoad: _proof_load,
    ProofResult: _proof_result,
    RodTurns: _rod_turns,
    SupportDistance: _support_distance,
}
