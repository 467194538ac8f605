"""Generators of the records of fixtures that don't hang: see `random_records`."""

import numpy as np

from hangpoint.core.loads.guard_load import GuardLoad, guard_load
from hangpoint.core.statics.fixture_force import FixtureForce, fixture_force
from hangpoint.core.statics.overturning import Overturning, overturning
from hangpoint.core.statics.support_reaction import SupportReaction, support_reaction

SUPPORTS = 4


def _fixture_force(random):
    sizes = {name: random.flat(-1e4, 1e4) * random.coin(0.6) for name in ("p_x", "p_y", "p_z")}
    places = {name: random.flat(-90, 90) for name in ("x_f", "y_f", "z_f")}
    return fixture_force(
        on_side=random.coin(),
        w=random.wide(1, 1e4),
        h=random.wide(1, 1e4),
        theta=np.where(random.coin(), random.flat(-360, 360), random.of(0, 90, 180, 270)),
        **sizes,
        **places,
    )


def _support_reaction(random):
    bodies = random.rows // SUPPORTS
    return support_reaction(
        n=random.flat(-1e4, 1e4)[:bodies],
        m_x=random.flat(-1e5, 1e5)[:bodies],
        m_y=random.flat(-1e5, 1e5)[:bodies],
        x=random.flat(-60, 60),
        y=random.flat(-60, 60),
        body_of_support=np.repeat(np.arange(bodies), SUPPORTS),
    )


def _overturning(random):
    """Bodies that tip and that don't; on some every anchor stands beyond the edge, so that none holds.

    Two edges a load, each of which meets the other.
    """
    rows = random.rows
    row = np.arange(rows)
    edge, beyond = random.wide(5, 80), np.where(random.coin(0.2), 1e3, 0.0)
    theta = random.flat(-180, 180)
    turned = np.radians(theta)
    corner = np.repeat(np.arange(rows), 3)
    anchor = np.repeat(np.arange(rows), SUPPORTS)
    return overturning(
        w=random.wide(10, 1e4),
        w_most=random.wide(10, 2e4),
        x_g=random.flat(-60, 60),
        y_g=random.flat(-10, 10),
        gamma_w=random.flat(0.5, 1.0),
        gamma_most=random.of(1.2, 1.4),
        e_v=random.wide(1, 1e4) * random.coin(),
        v_most=random.wide(1, 1e3),
        h_z=random.wide(100, 1e5),
        gamma_h=random.of(1.0, 1.6),
        theta=theta,
        x_edge=random.rng.uniform(-1, 1, 3 * rows) * edge[corner],
        y_edge=random.rng.uniform(-1, 1, 3 * rows) * edge[corner],
        row_of_edge=corner,
        x=random.rng.uniform(-1, 1, SUPPORTS * rows) * edge[anchor] + (beyond * np.cos(turned))[anchor],
        y=random.rng.uniform(-1, 1, SUPPORTS * rows) * edge[anchor] + (beyond * np.sin(turned))[anchor],
        row_of_anchor=anchor,
        adjoining=np.minimum(row ^ 1, rows - 1),
        load_of_row=row // 2,
    )


def _guard_load(random):
    return guard_load(along=random.coin(), spacing=random.flat(2, 12))


GENERATORS = {
    FixtureForce: _fixture_force,
    GuardLoad: _guard_load,
    Overturning: _overturning,
    SupportReaction: _support_reaction,
}
