"""Tension of anchors that break out together, by hand: eccentricity, and what a set carries. Anchors invented."""

import numpy as np
import pytest

from core.builders import ADHESIVE_COLUMNS, INF, anchor_cases
from hangpoint.core.aci318_19.check import check
from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.vocabulary import Mode

BREAKOUT, BOND = Mode.CONCRETE_BREAKOUT_TENSION, Mode.ADHESIVE_BOND


def group(x, y, n_ua, **changed):
    """The modes of one case with the anchors at x, y far from every edge."""
    tension, none = np.array(n_ua), np.zeros(len(n_ua))
    anchors = Anchors(
        case=np.zeros(len(n_ua), dtype=np.intp),
        number=np.arange(len(n_ua)),
        x=np.array(x),
        y=np.array(y),
        c_a=np.full((len(n_ua), 4), INF),
        n_ua=tension,
        n_ua_s=none,
        v_x=none,
        v_y=none,
        case_count=1,
    )
    cases, _ = anchor_cases(**changed, n_ua=tension.sum())
    return {outcome.mode: outcome for outcome in check(cases, anchors).outcomes}


def row_of(outcome, members):
    """The row of the set of exactly these anchors."""
    sets = outcome.sets
    rows = [row for row in range(len(outcome.demand)) if sets.members(row).tolist() == list(members)]
    assert len(rows) == 1
    return rows[0]


@pytest.mark.parametrize(
    ("x", "y", "n_ua", "members", "e_x", "e_y"),
    [
        ((0.0, 6.0), (0.0, 0.0), (300.0, 100.0), (0, 1), 1.5, 0.0),  # at 1.5, the middle 3
        ((0.0, 6.0, 0.0), (0.0, 0.0, 6.0), (200.0, 100.0, 100.0), (0, 1, 2), 0.5, 0.5),  # at 1.5, the centroid 2
        ((0.0, 6.0, 12.0), (0.0, 0.0, 0.0), (300.0, 100.0, 0.0), (0, 1), 1.5, 0.0),  # the third isn't pulled
        ((-4.0, 4.0, -4.0, 4.0), (3.0, 3.0, -3.0, -3.0), (400.0, 200.0, 200.0, 200.0), (0, 1, 2, 3), 0.8, 0.6),
    ],
)
def test_eccentricity_of_a_group(x, y, n_ua, members, e_x, e_y):
    """17.6.2.3, 17.6.5.3: resultant from the centroid of the anchors in tension. h_ef 6 in, 1.5 h_ef = 9; c_Na 6 in."""
    found = group(x, y, n_ua, **(ADHESIVE_COLUMNS | {"h_ef": 6.0}))
    for mode, reach in ((BREAKOUT, 9.0), (BOND, 6.0)):
        outcome = found[mode]
        row, record = row_of(outcome, members), outcome.record
        np.testing.assert_allclose((record.e_n_x[row], record.e_n_y[row]), (e_x, e_y), atol=1e-12)
        psi = (record.psi_ec_n if mode is BREAKOUT else record.psi_ec_na)[row]
        assert psi == pytest.approx(1 / (1 + e_x / reach) / (1 + e_y / reach), rel=1e-12)
        assert outcome.demand[row] == pytest.approx(sum(n_ua))
        alone = row_of(outcome, (0,))
        assert record.e_n_x[alone] == record.e_n_y[alone] == 0.0
        assert outcome.demand[alone] == n_ua[0]


def test_breakout_of_a_pair():
    """Two anchors 6 in apart, h_ef 6 in, 300 and 100 lb: A_Nc 18 x 24 of A_Nco 324, psi_ec 1 / (1 + 1.5 / 9) = 6 / 7;
    N_b 24 x 63.2456 x 14.69694 = 22,308.4. N_cbg = 4 / 3 x 6 / 7 x N_b = 25,495.3, phi .70: 17,846.7 lb for 400 lb.
    """
    found = group((0.0, 6.0), (0.0, 0.0), (300.0, 100.0))[BREAKOUT]
    row = row_of(found, (0, 1))
    assert found.record.a_nc[row] == pytest.approx(432.0)
    assert found.record.n_cb[row] == pytest.approx(25_495.3, abs=0.1)
    assert found.design_strength[row] == pytest.approx(17_846.7, abs=0.1)
    assert found.utilisation[row] == pytest.approx(400 / 17_846.7, rel=1e-5)


def test_the_anchor_with_the_most_tension_is_that_of_steel_and_pullout():
    """Table 17.5.2: of single anchors the highest stressed; its place is told."""
    found = group((0.0, 6.0, 12.0), (0.0, 0.0, 0.0), (100.0, 300.0, 200.0))
    for mode in (Mode.STEEL_TENSION, Mode.PULLOUT):
        assert found[mode].demand.tolist() == [300.0]
        assert found[mode].anchor_of_row.tolist() == [1]
