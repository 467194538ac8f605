"""Generators of the records of seismic components, braces, exemptions, rods and trapezes: see `random_records`."""

import numpy as np

from hangpoint.core.hanger.exemptions import BracingExemptions, bracing_exemptions
from hangpoint.core.hanger.rod_weight import RodWeight, rod_weight
from hangpoint.core.hanger.sprinkler_trapeze import SprinklerTrapeze, sprinkler_trapeze
from hangpoint.core.loads.seismic_component import (
    UNKNOWN_PERIOD,
    ComponentForce16,
    ComponentForce22,
    component_force_16,
    component_force_22,
)
from hangpoint.core.statics.brace import BraceForce, brace_force
from hangpoint.core.statics.rod_in_compression import RodInCompression, rod_in_compression


def _height(random):
    """Attachments from below grade to above the roof."""
    h = random.wide(8, 1_000)
    return {"z": h * random.flat(-0.2, 1.3), "h": h}


def _component(random):
    return {
        "w_p": random.wide(1, 1e5),
        "s_ds": random.wide(0.05, 3),
        "i_p": random.of(1, 1.5),
        "isolator_gap": random.coin(),
        **_height(random),
    }


def _component_force_16(random):
    return component_force_16(
        **_component(random),
        a_p=random.of(1, 2.5),
        r_p=random.of(1.5, 2.5, 4.5, 6, 12),
        omega_0=random.of(1.5, 2, 2.5),
    )


def _component_force_22(random):
    period_known, system_known = random.coin(), random.coin()
    return component_force_22(
        **_component(random),
        c_ar=random.flat(1, 5),
        r_po=random.of(1.3, 1.5, 2),
        omega_0p=random.of(1.5, 1.75, 2),
        at_grade=random.coin(0.3),
        period_known=period_known,
        t_a=np.where(period_known, random.wide(0.1, 5), UNKNOWN_PERIOD),
        system_known=system_known,
        r=np.where(system_known, random.flat(1, 8), 1),
        i_e=np.where(system_known, random.of(1, 1.25, 1.5), 1),
        omega_0=np.where(system_known, random.of(2, 2.5, 3), 1),
    )


def _brace_force(random):
    return brace_force(
        f_p=random.wide(1, 1e5),
        braces=random.of(1, 2),
        theta_v=random.flat(1, 89),
        n_sure=random.of(-1, 0, 1) * random.wide(1, 1e5),
        tan_alpha=random.coin() * random.flat(0, 0.58),
    )


def _bracing_exemptions(random):
    return bracing_exemptions(
        category=random.of(*range(6), dtype=np.int8),
        i_p=random.of(1, 1.5),
        ceiling=random.coin(),
        distributes=random.coin(0.8),
        w_line=random.of(1, 5, 5.5, 9.9, 10, 20, 21),
        p_place=random.of(0, 20, 21),
        hanger_length=random.of(6, 12, 13, 24, 30),
        bending_free=random.coin(),
        on_trapeze=random.coin(),
        d_rod=random.of(0.25, 0.375, 0.5, 0.625),
        p_hanger=random.of(20, 50, 100, 150, 200, 300),
        duct_area=random.of(0, 2, 6, 8),
        nominal=random.of(0, 0.75, 1, 2, 3, 4),
        r_p=random.of(3, 4.5, 6),
    )


def _rod_weight(random):
    d = random.wide(0.2, 2)
    return rod_weight(d=d, pitch=d * random.flat(0.1, 0.2), l_rod=random.wide(0.1, 40))


def _sprinkler_trapeze(random):
    return sprinkler_trapeze(
        number=random.wide(1, 12), w_filled=random.wide(0.5, 200), a=random.wide(0.2, 8), b=random.wide(0.2, 8)
    )


def _rod_in_compression(random):
    d = random.wide(0.2, 2)
    return rod_in_compression(
        c_rod=random.wide(10, 1e5),
        d=d,
        pitch=d * random.flat(0.1, 0.2),
        k_root=random.of(1.299038, 1.226869),
        l_free=random.of(2, 6, 12, 24, 48, np.inf),
    )


GENERATORS = {
    BraceForce: _brace_force,
    BracingExemptions: _bracing_exemptions,
    ComponentForce16: _component_force_16,
    ComponentForce22: _component_force_22,
    RodInCompression: _rod_in_compression,
    RodWeight: _rod_weight,
    SprinklerTrapeze: _sprinkler_trapeze,
}
