"""What the check of single anchors takes by definition, and which modes it leaves out."""

import numpy as np
import pytest

from core.builders import EXPANSION, INF, anchor_cases
from hangpoint.core.aci318_19.check import check
from hangpoint.core.outcome import EDGES
from hangpoint.core.vocabulary import EN_MODES, MASONRY_MODES, TABLE_MODES, Inapplicable, Link, Mode

REASONS = tuple(Inapplicable)


def outcomes(anchors):
    return {outcome.mode: outcome for outcome in check(*anchors).outcomes}


def test_one_anchor_has_no_eccentricity():
    """By definition of e'_N: the load of one anchor acts at that anchor, so psi_ec,N is 1."""
    record = outcomes(anchor_cases(h_ef=[3.0, 6.0, 12.0]))[Mode.CONCRETE_BREAKOUT_TENSION].record
    for zero in (record.e_n_x, record.e_n_y, record.s_max):
        np.testing.assert_array_equal(zero, np.zeros(3))
    np.testing.assert_array_equal(record.psi_ec_n, np.ones(3))
    np.testing.assert_array_equal(record.anchor_count, np.ones(3))


def test_pullout_that_does_not_govern_has_no_row():
    found = outcomes(anchor_cases(**EXPANSION, pullout_governs=[True, False, True]))[Mode.PULLOUT]
    np.testing.assert_array_equal(found.case_of_row, [0, 2])
    assert REASONS[found.reason[1]] is Inapplicable.PULLOUT_NOT_GOVERNING


def test_blowout_is_for_headed_anchors_near_an_edge():
    """17.6.4.1: h_ef > 2.5 c_a1, strictly; each such edge has a row."""
    c_a = [[2.4, INF, INF, 2.3], [2.5, INF, INF, INF], [2.4, INF, INF, INF]]
    found = outcomes(anchor_cases(h_ef=6.25, c_a=c_a, headed=[True, True, False]))[Mode.SIDE_FACE_BLOWOUT]
    np.testing.assert_array_equal(found.case_of_row, [0, 0])
    assert [EDGES[edge] for edge in found.edge_of_row] == ["x_minus", "y_plus"]
    assert REASONS[found.reason[1]] is Inapplicable.NO_SHALLOW_EDGE
    assert REASONS[found.reason[2]] is Inapplicable.NOT_HEADED
    np.testing.assert_array_equal(found.record.c_a1, [2.4, 2.3])
    np.testing.assert_array_equal(found.record.c_a2, [2.3, 2.4])


@pytest.mark.parametrize(
    ("c_a", "edge", "nearest"),
    [
        ((2.0, INF, 5.0, 4.0), 0, 4.0),
        ((INF, 2.0, 5.0, 4.0), 1, 4.0),
        ((3.0, 5.0, 2.0, INF), 2, 3.0),
        ((6.0, 5.0, INF, 2.0), 3, 5.0),
    ],
)
def test_the_corner_is_the_nearer_edge_across(c_a, edge, nearest):
    found = outcomes(anchor_cases(h_ef=7.0, c_a=[c_a]))[Mode.SIDE_FACE_BLOWOUT]
    row = list(found.edge_of_row).index(edge)
    assert found.record.c_a1[row] == 2.0
    assert found.record.c_a2[row] == nearest


def test_modes_come_in_the_fixed_order():
    """Every mode of the anchor, applicable or not, in the order of the closed list; the rod has modes of its own."""
    assert list(outcomes(anchor_cases())) == [
        mode for mode in Mode if mode.link is not Link.ROD and mode not in TABLE_MODES | MASONRY_MODES | EN_MODES
    ]
