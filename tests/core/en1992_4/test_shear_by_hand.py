"""Shear by EN 1992-4 where the service was once wrong, by hand."""

import numpy as np
import pytest

from core.builders import INF
from core.en1992_4.fasteners import ENDLESS, fastener_cases, one_layout
from hangpoint.core.en1992_4.check import check
from hangpoint.core.vocabulary import Mode


def rows(mode, layout, **changed):
    outcomes = {outcome.mode: outcome for outcome in check(fastener_cases(**changed), layout).outcomes}
    return outcomes[mode]


@pytest.mark.parametrize(
    ("h_ef", "f_ck", "expected"),
    [(79.0, 16.0, 0.8 * 40_000), (79.0, 20.0, 40_000), (80.0, 16.0, 40_000)],
)
def test_a_stated_shear_strength_is_reduced_too(h_ef, f_ck, expected):
    """h_ef below 5 d_nom in concrete below C20/25: 0.8 V0_Rk,s, stated or calculated (7.2.2.3.1, from memory: tests of
    products don't reach below C20/25).
    """
    layout = one_layout([0.0], [0.0], member=ENDLESS, v_x=1_000.0)
    steel = rows(Mode.EN_STEEL_SHEAR, layout, h_ef=h_ef, f_ck_class=f_ck, v0_rk_s=40_000.0, gamma_ms_v=1.25)
    assert steel.design_strength[0] == pytest.approx(expected / 1.25, rel=1e-12)


def test_rounding_towards_an_edge_is_no_eccentricity():
    """Two fasteners sheared alike along an edge, one of them by 1e-12 of that towards it: e_V is 0, not half of the
    spacing, and V_Rd,c that of the shear along alone.
    """
    member = (-INF, 100.0, -INF, INF)
    exact = one_layout([0.0, 0.0], [0.0, 200.0], member=member, v_y=5_000.0)
    rounded = one_layout([0.0, 0.0], [0.0, 200.0], member=member, v_x=[5e-9, 0.0], v_y=5_000.0)
    edges = [rows(Mode.EN_EDGE, layout) for layout in (exact, rounded)]
    assert len(edges[0].demand) > 1
    assert (edges[1].record.e_v == 0).all()
    np.testing.assert_allclose(edges[1].design_strength, edges[0].design_strength, rtol=1e-9)
