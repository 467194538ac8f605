"""Generators of the records of items and their hangers: see `random_records`."""

from hangpoint.core.hanger.hanger_load import HangerLoad, hanger_load
from hangpoint.core.hanger.line_on_bar import LineOnBar, line_on_bar
from hangpoint.core.hanger.riser import RiserSupport, riser_support
from hangpoint.core.hanger.run_reaction import MODELS


def _hanger_load(random):
    return hanger_load(
        r_dead=random.flat(-200, 2_000),
        r_contents=random.coin() * random.flat(-100, 1_000),
        r_live=random.coin() * random.wide(1, 500),
        impact=random.of(1, 1.25, 1.5),
        p_rod=random.coin() * random.wide(0.1, 20),
        erection=random.coin() * random.of(200, 250, 300),
        sprinkler=random.coin(),
        stated=random.coin() * random.wide(1, 200),
    )


def _line_on_bar(random):
    return line_on_bar(
        number=random.of(1, 2, 5),
        length=random.rng.uniform(-5, 20, (random.rows, 3)),
        model=random.of(*range(len(MODELS)), dtype="int8"),
        spare=random.coin() * random.flat(0, 0.5),
        w_dead=random.wide(0.1, 200),
        w_fluid=random.coin() * random.wide(0.1, 200),
        p_static=random.coin() * random.of(200, 250),
        n_static=random.rng.uniform(-1, 3, (random.rows, 3)),
        w_test=random.coin() * random.wide(0.1, 200),
    )


def _riser_support(random):
    return riser_support(
        w_dead=random.wide(0.1, 200),
        w_fluid=random.coin() * random.wide(0.1, 200),
        w_test=random.coin() * random.wide(0.1, 200),
        length=random.wide(5, 500),
        supports=random.of(1, 2, 3, 10),
        one_carries=random.coin(),
    )


GENERATORS = {HangerLoad: _hanger_load, LineOnBar: _line_on_bar, RiserSupport: _riser_support}
