"""Lookups of conduit, and what is added to what. Figures: tests/published/test_conduit.py."""

import numpy as np
import pytest

from hangpoint.core.loads.conduit import CONDUIT_TYPES, LISTS, conduit_size, conduit_sizes, conduit_weight
from hangpoint.core.loads.pipe_sizes import nominal


def test_unknown_names_have_no_conduit():
    assert conduit_size("flexible", "1") is None
    assert conduit_size("emt", "5") is None
    assert conduit_size("rmc", "1.5") is None
    assert conduit_sizes("flexible") == ()


def test_every_type_has_sizes_in_rising_order():
    for kind in CONDUIT_TYPES:
        numbers = [nominal(size) for size in conduit_sizes(kind)]
        assert numbers
        assert numbers == sorted(set(numbers))
        found = [conduit_size(kind, size) for size in conduit_sizes(kind)]
        assert all(0 < each.inside_diameter < each.outside_diameter for each in found)
        assert [each.weight for each in found] == sorted(each.weight for each in found)
        assert {each.source for each in found} <= set(LISTS)


def test_rigid_is_heavier_than_intermediate_is_heavier_than_tubing():
    for size in conduit_sizes("emt"):
        weights = [conduit_size(kind, size).weight for kind in ("emt", "imc", "rmc")]
        assert weights == sorted(weights)


def test_stated_cables_and_a_fill_add_up():
    """A bore of 2 in, half full of 288 lb/ft3: pi/144 ft2 x 0.5 x 288 = pi lb/ft; with 3 and 2 lb/ft 8.1416 by hand."""
    columns = {"w_conduit": 3.0, "d_i": 2.0, "fill": 0.5, "rho_fill": 288.0, "w_cables": 2.0}
    row = conduit_weight(**{name: np.array([value]) for name, value in columns.items()})
    assert row.w_fill[0] == pytest.approx(np.pi)
    assert row.w_dead[0] == pytest.approx(8.1416, abs=5e-5)
