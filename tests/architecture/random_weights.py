"""Generators of the records of weights per foot: see `random_records`."""

import numpy as np

from hangpoint.core.loads.cable_tray import TrayWeight, tray_weight
from hangpoint.core.loads.conduit import ConduitWeight, conduit_weight
from hangpoint.core.loads.duct import DuctWeight, duct_weight
from hangpoint.core.loads.line import LineWeight, line_weight
from hangpoint.core.loads.pipe import PipeWeight, pipe_weight


def _pipe_weight(random):
    d_o = random.wide(0.3, 30)
    return pipe_weight(
        d_o=d_o,
        t=d_o * random.flat(0.01, 0.49),
        rho_pipe=random.wide(50, 600),
        rho_contents=random.coin() * random.wide(1, 100),
        rho_test=random.coin() * random.wide(50, 70),
        t_ins=random.coin() * random.wide(0.2, 6),
        rho_ins=random.wide(1, 20),
        q_jacket=random.coin() * random.wide(0.1, 2),
        allowance=random.flat(0, 0.4),
    )


def _duct_weight(random):
    a = random.wide(4, 100)
    return duct_weight(
        shape=random.of(0, 1, 2, dtype=np.int8),
        a=a,
        b=a * random.flat(0.1, 1),
        q_sheet=random.wide(0.5, 6),
        reinforcement=random.flat(0, 0.4),
        t_liner=random.coin() * random.wide(0.5, 2),
        rho_liner=random.wide(1, 5),
        t_wrap=random.coin() * random.wide(0.5, 4),
        rho_wrap=random.wide(0.5, 5),
    )


def _conduit_weight(random):
    return conduit_weight(
        w_conduit=random.wide(0.1, 20),
        d_i=random.wide(0.5, 7),
        fill=random.coin() * random.flat(0.05, 0.53),
        rho_fill=random.wide(100, 500),
        w_cables=random.coin() * random.wide(0.1, 20),
    )


def _tray_weight(random):
    listed = random.coin()
    return tray_weight(
        w_tray=random.wide(1, 20),
        w_class=np.where(listed, 0.0, random.of(50, 75, 100)),
        w_cables=np.where(listed, random.wide(1, 200), 0.0),
        p_static=random.coin() * random.wide(50, 500),
        l_span=random.flat(4, 20),
    )


def _line_weight(random):
    return line_weight(
        w_stated=random.wide(0.1, 500), w_filling=random.coin() * random.wide(0.1, 100), allowance=random.flat(0, 0.4)
    )


GENERATORS = {
    ConduitWeight: _conduit_weight,
    DuctWeight: _duct_weight,
    LineWeight: _line_weight,
    PipeWeight: _pipe_weight,
    TrayWeight: _tray_weight,
}
