"""Earthquake acts either way: its part of a given load reversed is a load case. By hand, anchors invented."""

import numpy as np
import pytest

from core.builders import FACTORED_LOADS, INF
from core.hang_point.verdicts import checked, mode_of
from hangpoint.core.loads.combinations import GIVEN
from hangpoint.core.vocabulary import Mode

EDGE = Mode.CONCRETE_BREAKOUT_SHEAR
X_MINUS, X_PLUS = 0, 1
AS_GIVEN, REVERSED = "as given", "as given, earthquake reversed"


def case_of(verdicts, mode):
    return verdicts.case_names[mode_of(verdicts, mode).load_case[0]]


@pytest.mark.parametrize(
    ("share", "edge", "case", "shear", "ratio"),
    [
        (0.0, X_PLUS, AS_GIVEN, 1_000.0, 0.05548),
        (0.5, X_PLUS, AS_GIVEN, 1_000.0, 0.05548),  # nothing is left the other way
        (0.55, X_PLUS, AS_GIVEN, 1_000.0, 0.05548),  # 100 lb, .03923 at the near edge
        (0.6, X_MINUS, REVERSED, 200.0, 0.07846),
        (1.0, X_MINUS, REVERSED, 1_000.0, 0.39230),
    ],
)
def test_shear_is_checked_towards_the_opposite_edge(share, edge, case, shear, ratio):
    """1,000 lb towards an edge at 20 in, a share of it earthquake; behind it an edge at 4 in. Expansion anchor 1/2 in,
    h_ef 3.25, f'c 4,000: 7 x 6.5^.2 x sqrt(.5) x 63.2456 = 455.193, phi .7. At 4 in 455.193 x 8 x .7 = 2,549.1 lb. At
    20 in, in 12 in of concrete: 455.193 x 89.4427 x (2 x 30 x 12) / (4.5 x 400) x sqrt(30 / 12) x .7 = 18,025 lb.
    """
    verdicts = checked(
        basis=FACTORED_LOADS,
        hangs={"v_factored": (1_000.0, 0.0), "earthquake_fraction_v": share},
        bases={"c_a": [(4.0, 20.0, INF, INF)]},
    )
    found = mode_of(verdicts, EDGE)
    assert (found.edge[0], case_of(verdicts, EDGE)) == (edge, case)
    assert found.demand[0] == pytest.approx(shear)
    assert found.utilisation[0] == pytest.approx(ratio, abs=5e-6)
    turned = share > 0.5
    assert verdicts.axis.load_case.tolist() == [GIVEN, GIVEN + 1][: 1 + turned]
    np.testing.assert_allclose(verdicts.anchors.v_x, [1_000.0, 1_000.0 * (1 - 2 * share)][: 1 + turned])


def test_both_axes_turn_together():
    """(300, -400), eight tenths earthquake: -.6 of it; at the edges behind it and before it."""
    verdicts = checked(
        basis=FACTORED_LOADS,
        hangs={"factored": 50.0, "v_factored": (300.0, -400.0), "earthquake_fraction_v": 0.8},
    )
    np.testing.assert_allclose(verdicts.anchors.v_x, [300.0, -180.0])
    np.testing.assert_allclose(verdicts.anchors.v_y, [-400.0, 240.0])
    np.testing.assert_array_equal(verdicts.anchors.n_ua, [50.0, 50.0])
    assert verdicts.demand.shear[0] == pytest.approx(500.0)


def test_without_shear_nothing_turns():
    verdicts = checked(basis=FACTORED_LOADS, hangs={"factored": 50.0, "earthquake_fraction_v": 1.0})
    assert verdicts.axis.load_case.tolist() == [GIVEN]


def test_moments_turn_with_the_earthquake_of_the_tension():
    """Two anchors 8 in apart, 100 lb and 300 lb*in about y, eight tenths of them earthquake: 50 -+ 300 / 8; reversed
    -.6 x 300 = -180: 50 +- 22.5. M_y > 0 pulls at -x.
    """
    verdicts = checked(
        basis=FACTORED_LOADS,
        given={"n": 100.0, "m": (0.0, 300.0, 0.0), "earthquake_fraction": 0.8},
        layouts=[{"x": -4.0}, {"x": 4.0}],
    )
    np.testing.assert_allclose(verdicts.anchors.n_ua, [87.5, 12.5, 27.5, 72.5])


@pytest.mark.parametrize("step", [8.550964171761, 0.1, 1 / 3, 7.3])
def test_a_centre_that_is_off_by_rounding_turns_nothing(step):
    """The mean of coordinates each way of the origin need not be 0 to the last digit: no moment to be reversed."""
    verdicts = checked(
        basis=FACTORED_LOADS,
        given={"n": 1_000.0, "earthquake_fraction": 0.3},
        layouts=[{"x": place * step, "y": 0.37 * place * step} for place in (-3, 0.7, 3, -0.7)],
    )
    assert verdicts.axis.load_case.tolist() == [GIVEN]


def test_named_cases_turn_each_by_itself():
    """Of two points with two load cases the second case turns at the first point only; each is found by its name."""
    verdicts = checked(
        basis=FACTORED_LOADS,
        given={
            "point": [0, 0, 1, 1],
            "name": [0, 1, 0, 1],
            "n": [100.0, 10.0, 100.0, 10.0],
            "v": [(0.0, 0.0), (200.0, 0.0), (0.0, 0.0), (200.0, 0.0)],
            "earthquake_fraction_v": [0.0, 0.9, 0.0, 0.1],
        },
        given_names=("gravity", "shaking"),
        fixings={"shear_option": 3},
    )
    names = [verdicts.case_names[case] for case in verdicts.axis.load_case]
    assert names == ["gravity", "shaking", "shaking, earthquake reversed", "gravity", "shaking"]
    assert verdicts.axis.point_of_case.tolist() == [0, 0, 0, 1, 1]
    np.testing.assert_allclose(verdicts.anchors.v_x, [0.0, 200.0, -160.0, 0.0, 200.0])
