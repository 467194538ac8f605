"""Densities of gases as contents: upper bounds, checked at the state that each is said to hold for.

Steam by ``iapws`` (IAPWS-IF97) and by a public steam table in imperial units; air and fuel gas by the ideal gas law
with R = 53.35 ft lbf/(lb R), worked here. Specific gravities of fuel gas and propane (0.65, 1.52): common practice, no
source.
"""

import numpy as np
import pytest
from iapws import IAPWS97

from hangpoint.core.loads.pipe_sizes import CONTENTS

ATMOSPHERE = 14.696
MPA = 0.00689475729
LB_PER_FT3 = 0.0624279606


def saturated(gauge):
    """Density of dry saturated steam, lb/ft3, at a gauge pressure in psi."""
    return IAPWS97(P=(gauge + ATMOSPHERE) * MPA, x=1).rho * LB_PER_FT3


def ideal(gauge, fahrenheit, gravity=1.0):
    """Density of an ideal gas of a specific gravity against air, lb/ft3."""
    return gravity * (gauge + ATMOSPHERE) * 144 / (53.35 * (fahrenheit + 459.67))


def test_steam_table():
    """Specific volumes of saturated steam, ft3/lb: 3.89 at 100 psig, 3.34 at 120 (public table, imperial units)."""
    assert 1 / saturated(100) == pytest.approx(3.89, abs=0.0051)
    assert 1 / saturated(120) == pytest.approx(3.34, rel=0.002)


def test_steam_is_bounded_to_250_psig():
    assert saturated(250) == pytest.approx(0.573, abs=0.0005)
    assert saturated(250) < CONTENTS["steam"] < saturated(260)
    assert max(saturated(gauge) for gauge in range(0, 251, 10)) < CONTENTS["steam"]


def test_air_is_bounded_to_200_psig():
    """1.18 lb/ft3 at 200 psig and 32 F; air at rest is 0.0807 lb/ft3 there (handbook value, from memory)."""
    assert ideal(0, 32) == pytest.approx(0.0807, abs=0.00005)
    assert ideal(200, 32) == pytest.approx(1.18, abs=0.005)
    assert ideal(200, 32) < CONTENTS["air"] < 1.05 * ideal(200, 32)


def test_gas_is_bounded():
    natural, propane = ideal(125, 60, 0.65), ideal(40, 60, 1.52)
    assert natural == pytest.approx(0.47, abs=0.005)
    assert propane == pytest.approx(0.43, abs=0.005)
    assert max(natural, propane) < CONTENTS["gas"] < 0.55


def test_gases_weigh_little_beside_the_pipe():
    """NPS 8 schedule 40, bore 50.03 in2 and 28.58 lb/ft (pipe tables): the heaviest of them is 1.5 % of the pipe."""
    heaviest = max(CONTENTS[name] for name in ("steam", "air", "gas"))
    assert 50.03 / 144 * heaviest / 28.58 < 0.015
    assert np.isfinite(heaviest)
