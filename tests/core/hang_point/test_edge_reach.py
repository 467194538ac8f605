"""How far along an edge sheared points are searched for others that break out of it with them."""

import numpy as np
import pytest

from hangpoint.core.hang_point.neighbours import edge_reach

INF = np.inf


def reach(edge, **more):
    """Half of a spacing, in: h_ef 2 in, member of 40 in."""
    return edge_reach(
        h_ef=np.array([2.0]),
        thickness=np.array([40.0]),
        c_a=np.array([[INF, edge, INF, INF]]),
        extent=np.zeros(1),
        sheared=np.array([True]),
        **more,
    )[0]


def test_edges_that_en_1992_4_judges_are_searched_whole():
    """3 c_1 is the spacing below which fasteners act together, at edges within the larger of 10 h_ef and 60 d_nom: by d
    16 mm 37.8 in, where 10 h_ef are 20 in. At farther ones a row is searched as far as it may matter by ACI 318-19.
    """
    assert reach(19.0) == pytest.approx(1.5 * 19)
    assert reach(37.0) < 1.5 * 37
    within = np.array([960 / 25.4])
    assert reach(37.0, judged_within=within) == pytest.approx(1.5 * 37)
    assert reach(38.0, judged_within=within) == pytest.approx(reach(38.0))
