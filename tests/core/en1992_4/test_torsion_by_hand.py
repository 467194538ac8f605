"""Fasteners sheared against each other, 7.2.2.4(4) and 7.2.2.5(8), by hand. The provisions are from a digest; C25/30.

h_ef 100, d_nom 16 mm, k_8 2, cracked: N0_Rk,c = 7.7 x 5 x 1,000 = 38,500 N, s_cr,N 300 mm.
"""

import pytest

from core.builders import INF
from core.en1992_4.fasteners import ENDLESS, fastener_cases, one_layout
from hangpoint.core.en1992_4.check import check
from hangpoint.core.vocabulary import Mode

SQUARE = {"x": [0.0, 100.0, 0.0, 100.0], "y": [0.0, 0.0, 100.0, 100.0]}
TURNED = {"v_x": [1.0, 1.0, -1.0, -1.0], "v_y": [-1.0, 1.0, -1.0, 1.0]}


def outcome(layout, mode):
    outcomes = {own.mode: own for own in check(fastener_cases(), layout).outcomes}
    return outcomes[mode]


def edge(*, away, v_x=(1.0, -1.0)):
    """V_Rk,c towards x_plus at 100 mm, of a pair along the edge."""
    layout = one_layout([0.0, 0.0], [0.0, away], member=(-INF, 100.0, -INF, INF), v_x=v_x)
    return outcome(layout, Mode.EN_EDGE).record


def test_the_resistance_of_an_edge_beside_a_fastener_sheared_the_other_way():
    """alpha 0.1, beta 0.1 x 0.16^0.2 = 0.069314: 1.7 x 1.31951 x 1.37605 x 5 x 1,000 = 15,434 N, 0.8 of it 12,347."""
    assert edge(away=150.0).v_rk_c == pytest.approx([12_347.0], abs=1.0)
    assert edge(away=300.0).v_rk_c == pytest.approx([12_347.0], abs=1.0)
    assert edge(away=300.1).v_rk_c == pytest.approx([15_434.0], abs=1.0)


def test_nothing_is_taken_off_beside_one_that_is_sheared_alike():
    assert edge(away=300.1, v_x=(1.0, 1.0)).v_rk_c == pytest.approx([15_434.0, 15_434.0], abs=1.0)


def pried(member):
    """V_Rk,cp of each of four fasteners under torsion by itself."""
    found = outcome(one_layout(**SQUARE, **TURNED, member=member), Mode.EN_PRY_OUT)
    return sorted(found.record.v_rk_cp[found.record.opposed])


def test_edges_half_way():
    """(50 + 150)^2 / 300^2 and psi_s,N 0.7 + 0.3 x 50 / 150 = 0.8: 2 x 38,500 x 0.444 x 0.8 = 27,378 N."""
    assert pried(ENDLESS) == pytest.approx([27_378.0] * 4, abs=1.0)


def test_edges_half_way_are_none_of_three_near_ones():
    """In a corner, 50 mm from both edges, the one there has 100 x 100 mm: 2 x 38,500 x 0.1111 x 0.8 = 6,844 N.

    With the two half-way h'_ef would be 33.3 mm: 2 x 7.7 x 5 x 33.3^1.5 = 14,819 N, which isn't the worse.
    """
    strengths = pried((-50.0, INF, -50.0, INF))
    assert strengths[0] == pytest.approx(6_844.0, abs=1.0)
    assert 14_819.0 in [pytest.approx(own, abs=1.0) for own in strengths]
