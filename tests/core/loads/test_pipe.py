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
        "t_ins": 1.5,
        "rho_ins": 11.0,
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
    for name in ("w_dead", "w_fluid", "w_total"):
        assert getattr(more, name)[0] == pytest.approx(1.1 * getattr(bare, name)[0])
    assert bare.w_total[0] == bare.w_dead[0] + bare.w_fluid[0]


def test_nothing_but_a_pipe():
    row = _weights(rho_contents=0.0, t_ins=0.0, rho_ins=0.0)
    assert row.w_total[0] == row.w_pipe[0]
