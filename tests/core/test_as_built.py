"""Anchors as set against what was required, by hand."""

import numpy as np
import pytest

from hangpoint.core.as_built import set_anchor

_NAMES = ("h_short", "h_over", "t_low", "t_high", "p_short", "p_over", "hold_short", "t_least", "t_most")


def compared(**changes):
    columns = {
        "h_required": 3.75,
        "h_set": 3.75,
        "h_known": True,
        "t_required": 40.0,
        "t_set": 40.0,
        "h_most": 4.0,
        "below": 0.1,
        "above": 0.1,
        "t_known": True,
        "p_required": 1800.0,
        "p_test": 1800.0,
        "p_known": True,
        "p_most": 5000.0,
        "hold_required": 15.0,
        "held_for": 15.0,
        "hold_known": True,
    } | changes
    found = set_anchor(**{name: np.array([value]) for name, value in columns.items()})
    return {name: getattr(found, name)[0] for name in _NAMES}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, {"h_short": 0, "t_low": False, "t_high": False, "p_short": 0}),
        ({"h_set": 3.375}, {"h_short": 0.375}),
        ({"h_set": 4.0}, {"h_short": 0, "h_over": 0}),
        ({"h_set": 4.5}, {"h_short": 0, "h_over": 0.5}),
        ({"h_set": 4.5, "h_most": np.inf}, {"h_over": 0}),
        ({"h_set": 4.5, "h_known": False}, {"h_over": 0}),
        ({"held_for": 14.0}, {"hold_short": True}),
        ({"held_for": 0.0, "hold_known": False}, {"hold_short": False}),
        ({"t_set": 36.0}, {"t_low": False}),
        ({"t_set": 35.9}, {"t_low": True, "t_high": False}),
        ({"t_set": 44.0}, {"t_high": False}),
        ({"t_set": 44.1}, {"t_high": True, "t_low": False}),
        ({"p_test": 1500.0}, {"p_short": 300}),
        ({"p_test": 5600.0}, {"p_short": 0, "p_over": 600}),
        ({"p_test": 5000.0}, {"p_over": 0}),
        ({"h_known": False, "h_set": 0.0}, {"h_short": 0}),
        ({"t_known": False, "t_set": 0.0}, {"t_low": False, "t_high": False}),
        ({"p_known": False, "p_test": 0.0}, {"p_short": 0}),
    ],
)
def test_by_hand(changes, expected):
    """40 ft*lbf within 10 % is 36 to 44; an embedment that is exceeded is none too short, in a hole of 4 in 0.5 in too
    deep at 4.5 in."""
    found = compared(**changes)
    assert {name: found[name] for name in expected} == pytest.approx(expected)
    assert (found["t_least"], found["t_most"]) == pytest.approx((36, 44), rel=1e-12)
