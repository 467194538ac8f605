"""Generators of the records of the load on a layout of anchors: see `random_records`."""

import numpy as np

from hangpoint.core.hang_point.further_loads import FurtherForce, FurtherMoment, further_load
from hangpoint.core.hang_point.layout_load import LayoutLoad, SustainedLayoutLoad, layout_load
from hangpoint.core.hang_point.rod_loads import RodServiceLoad, rod_service_load
from hangpoint.core.loads.combinations import ALLOWABLE_CASES, CASES, allowable_factors, factors


def _layout_load(random, *, sustained=False):
    v_x, v_y = random.vectors(5_000, axes=2, share=0.8).T.copy()
    return layout_load(
        n=random.flat(-500, 5_000),
        v_x=v_x,
        v_y=v_y,
        at=random.vectors(20, axes=3, share=0.8),
        m_dead=random.vectors(1e4, axes=3),
        m_contents=random.vectors(1e4, axes=3, share=0.7),
        m_live=random.vectors(1e4, axes=3, share=0.5),
        m_factored=random.vectors(1e4, axes=3),
        m_further=random.vectors(1e4, axes=3, share=0.5),
        gamma=factors(random.load_cases()),
        gamma_given=random.flat(-1, 1),
        sustained=sustained,
    )


def _further_load(random, *, moment):
    gamma = factors(random.rng.integers(0, len(CASES), random.rows))
    return further_load(
        component=random.of(0, 1, 2, dtype=np.int8),
        moment=moment,
        gamma=gamma.transient,
        gamma_e=gamma.earthquake,
        turned=gamma.turned,
        vertical=gamma.vertical,
        p=random.vectors(5_000, axes=6, share=0.5),
        p_e=random.flat(-2_000, 2_000),
        p_pull=random.flat(-2_000, 2_000) if moment else np.zeros(random.rows),
        p_permanent=random.flat(-500, 5_000),
        s_ds=random.flat(0, 2),
    )


def _rod_service_load(random):
    return rod_service_load(
        n_dead=random.flat(-500, 5_000),
        n_contents=random.coin() * random.flat(0, 2_000),
        n_live=random.coin() * random.flat(0, 2_000),
        n_sprinkler=random.coin() * random.of(0, 250),
        p=random.vectors(5_000, axes=6, share=0.5),
        p_e=random.coin() * random.flat(0, 2_000),
        s_ds=random.flat(0, 2),
        gamma=allowable_factors(random.rng.integers(0, len(ALLOWABLE_CASES), random.rows)),
    )


GENERATORS = {
    FurtherForce: lambda random: _further_load(random, moment=False),
    FurtherMoment: lambda random: _further_load(random, moment=True),
    LayoutLoad: _layout_load,
    RodServiceLoad: _rod_service_load,
    SustainedLayoutLoad: lambda random: _layout_load(random, sustained=True),
}
