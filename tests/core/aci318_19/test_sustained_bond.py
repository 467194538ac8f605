"""Sustained tension on adhesive anchors, 17.5.2.2, by hand: no published example is known."""

import numpy as np
import pytest

from core.aci318_19.bond_rows import bond
from hangpoint.core.aci318_19.sustained_bond import sustained_bond


def sustained(**changed):
    columns = {"n_ba": 2_000 * np.pi, "phi": 0.65, "open_share": 1.0, "demand": 2_000.0} | changed
    return sustained_bond(**{name: np.atleast_1d(np.asarray(value, float)) for name, value in columns.items()})


def test_strength_and_utilisation():
    """.55 x .65 x 6,283.185 = 2,246.239 lb; 2,000 / 2,246.239 = .890377."""
    made = sustained()
    assert made.design_strength[0] == pytest.approx(2_246.239, abs=5e-4)
    assert made.utilisation[0] == pytest.approx(0.890377, abs=5e-7)


@pytest.mark.parametrize(("demand", "holds"), [(2_246.0, True), (2_247.0, False)])
def test_limit(demand, holds):
    assert (sustained(demand=demand).utilisation[0] <= 1) == holds


def test_a_load_that_stays_may_fail_where_bond_holds():
    """2,500 lb: .612 of phi N_a = 4,084.07 lb, 1.113 of .55 phi N_ba."""
    short = bond(demand=2_500.0)
    made = sustained(n_ba=short.n_ba, phi=short.phi, demand=short.demand)
    assert short.utilisation[0] == pytest.approx(0.612, abs=5e-4)
    assert made.utilisation[0] == pytest.approx(1.113, abs=5e-4)


def test_areas_edges_and_the_seismic_factor_do_not_enter():
    """17.5.2.2 has N_ba of one anchor; reading 20 keeps 0.75 out."""
    plain = bond()
    reduced = bond(c_a=[(3.0, np.inf, 4.5, np.inf)], e_n_x=2.0, seismic_factor=0.75)
    assert reduced.design_strength[0] < 0.5 * plain.design_strength[0]
    made = sustained(n_ba=[plain.n_ba[0], reduced.n_ba[0]], phi=[0.65, 0.65], demand=[2_000.0, 2_000.0])
    assert made.utilisation[0] == made.utilisation[1]


def test_nothing_stays():
    assert sustained(demand=0.0).utilisation[0] == 0.0
