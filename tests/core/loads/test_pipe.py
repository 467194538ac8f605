"""Pipe weight: what is added to what. The figures are checked in tests/published/test_pipe_weights.py."""

import numpy as np
import pytest

from hangpoint.core.loads.pipe import pipe_weight


def _weights(**changed):
    row = {
        "d_o": 4.5,
        "t": 0.237,
        "rho_pipe": 490.0,
        "rho_contents": 62.4,
        "rho_test": 62.4,
        "t_ins": 1.5,
        "rho_ins": 11.0,
        "q_jacket": 0.0,
        "allowance": 0.0,
    }
    return pipe_weight(**{name: np.array([value]) for name, value in (row | changed).items()})


def test_a_solid_bar_has_no_bore():
    """A wall of half the diameter is a round bar: 2.67 lb/ft for 1 in of steel (steel bar tables, 0.283 lb/in3)."""
    bar = _weights(d_o=1.0, t=0.5)
    assert bar.w_contents[0] == 0.0
    assert bar.w_pipe[0] == pytest.approx(2.67, abs=0.0051)


def test_ring_and_bore_fill_the_circle():
    row = _weights(rho_pipe=100.0, rho_contents=100.0)
    assert row.w_pipe[0] + row.w_contents[0] == pytest.approx(np.pi / 4 * 4.5**2 / 144 * 100.0)


def test_insulation_is_the_ring_outside():
    """The ring of insulation is a pipe of its own outside diameter and wall."""
    assert _weights().w_insulation[0] == pytest.approx(_weights(d_o=4.5 + 3.0, t=1.5, rho_pipe=11.0).w_pipe[0])


def test_allowance_takes_everything_with_it():
    bare, more = _weights(), _weights(allowance=0.1)
    for name in ("w_dead", "w_fluid", "w_test", "w_total"):
        assert getattr(more, name)[0] == pytest.approx(1.1 * getattr(bare, name)[0])
    assert bare.w_total[0] == bare.w_dead[0] + bare.w_fluid[0]


def test_nothing_but_a_pipe():
    row = _weights(rho_contents=0.0, t_ins=0.0, rho_ins=0.0)
    assert row.w_total[0] == row.w_pipe[0]


def test_the_test_fluid_stands_in_place_of_the_contents():
    """A line of gas, tested with water: the water of a test is that of a line of water, and no part of the total.

    The bore of NPS 4 schedule 40 is 12.73 in2 in the pipe tables, so 5.516 lb/ft of water.
    """
    gas, water = _weights(rho_contents=0.5), _weights()
    assert gas.w_test[0] == pytest.approx(12.73 / 144 * 62.4, rel=5e-4)
    assert gas.w_test[0] == water.w_fluid[0]
    assert gas.w_total[0] == gas.w_dead[0] + gas.w_fluid[0]
    assert _weights(rho_test=0.0).w_test[0] == 0.0


def test_a_jacket_covers_the_insulation():
    """0.23 lb/ft2 around 4.5 + 2 x 1.5 in: 23.56 in or 1.9635 ft of circumference, 0.4516 lb/ft by hand."""
    row, bare = _weights(q_jacket=0.23), _weights()
    assert row.w_jacket[0] == pytest.approx(0.4516, abs=5e-5)
    assert row.w_dead[0] - bare.w_dead[0] == pytest.approx(row.w_jacket[0])
    assert _weights(q_jacket=0.23, t_ins=0.0).w_jacket[0] == pytest.approx(np.pi * 4.5 / 12 * 0.23)
