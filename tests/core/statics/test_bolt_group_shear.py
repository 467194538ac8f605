"""Bolt groups: balance, a general least-squares solver, slots, what can't be held, symmetry.

Figures from outside: tests/published/test_bolt_group_shear.py.
"""

import numpy as np
import pytest

from core.statics.groups import one_group, random_groups
from hangpoint.core.statics.bolt_group_shear import bolt_group_shear

QUAD = {"x": [-4, 4, 4, -4], "y": [-3, -3, 3, 3]}


def motion_of(groups, case):
    """Shear of each anchor by the stiffness of a rigid plate, three motions, solved by NumPy; and what is left over."""
    own = groups["case_of_anchor"] == case
    x, y = groups["x"][own], groups["y"][own]
    along_x, along_y = groups["resists_x"][own].astype(float), groups["resists_y"][own].astype(float)
    zero, one = np.zeros_like(x), np.ones_like(x)
    rows = np.vstack((np.column_stack((one, zero, -y)), np.column_stack((zero, one, x))))
    weights = np.concatenate((along_x, along_y))
    v_x, v_y, x_v, y_v, m_z = (groups[name][case] for name in ("v_x", "v_y", "x_v", "y_v", "m_z"))
    load = np.array([v_x, v_y, m_z + x_v * v_y - y_v * v_x])
    motion = np.linalg.lstsq(rows.T @ (weights[:, None] * rows), load, rcond=1e-10)[0]
    force = weights * (rows @ motion)
    return np.split(force, 2), np.abs(rows.T @ force - load).max() / max(np.abs(load).max(), 1)


def test_random_groups_against_a_stiffness_solver():
    """1,000 groups of 1 to 10 anchors with slots: forces, and whether anything holds, by least squares."""
    groups = random_groups(np.random.default_rng(1), 1000)
    found = bolt_group_shear(**groups)
    for case in range(1000):
        own = groups["case_of_anchor"] == case
        (v_x, v_y), left = motion_of(groups, case)
        assert found.group.resisted[case] == (left < 1e-6)
        if found.group.resisted[case]:
            scale = max(np.abs(v_x).max(), np.abs(v_y).max(), 1)
            np.testing.assert_allclose(found.anchors.v_a_x[own], v_x, atol=1e-9 * scale)
            np.testing.assert_allclose(found.anchors.v_a_y[own], v_y, atol=1e-9 * scale)
        else:
            assert np.isposinf(found.anchors.v_a[own]).all()
    assert 50 < (~found.group.resisted).sum() < 500


def test_balance_of_random_groups():
    """Shear of the anchors adds up to the load and to its moment, 1,000 groups, 1e-9 of the load."""
    groups = random_groups(np.random.default_rng(2), 1000, least=3, slots=0.2)
    found = bolt_group_shear(**groups)
    held = found.group.resisted
    assert held.mean() > 0.9
    at, a = groups["case_of_anchor"], found.anchors
    v_x, v_y = (np.where(held[at], force, 0.0) for force in (a.v_a_x, a.v_a_y))
    scale = np.abs(groups["v_x"]) + np.abs(groups["v_y"]) + np.abs(groups["m_z"]) / 12
    moment = groups["m_z"] + groups["x_v"] * groups["v_y"] - groups["y_v"] * groups["v_x"]
    for got, expected in (
        (np.bincount(at, v_x, 1000), groups["v_x"]),
        (np.bincount(at, v_y, 1000), groups["v_y"]),
        (np.bincount(at, a.x * v_y - a.y * v_x, 1000) / 12, moment / 12),
    ):
        assert (np.abs(got - expected)[held] <= 1e-9 * (scale * 3 + 1e-300)[held]).all()


def test_slots_along_x_move_the_centre():
    """Two of four anchors slotted along x: shear along x on the other two, its torsion from their mean y, by hand.

    V_x = 1200 at y = 0; anchors at y = -3 resist along x: y_r = -3, T = -(0 + 3) 1200 = -3600,
    J_r = 4 * 16 + 0 = 64; V_x,i = 600 on two, V_y,i = -+3600 / 64 * 4 = +-225.
    """
    found = one_group(**QUAD, v_x=1200, resists_x=[True, True, False, False])
    assert (found.group.t_z[0], found.group.j_r[0], found.group.y_r[0]) == (-3600, 64, -3)
    np.testing.assert_allclose(found.anchors.v_a_x, [600, 600, 0, 0], rtol=1e-14)
    np.testing.assert_allclose(found.anchors.v_a_y, [225, -225, -225, 225], rtol=1e-14)


def test_load_through_the_centre_is_shared():
    found = one_group(**QUAD, v_x=-400, v_y=200)
    np.testing.assert_allclose(found.anchors.v_a_x, -100)
    np.testing.assert_allclose(found.anchors.v_a_y, 50)


def test_torsion_turns_right_handed():
    """M_z about z out of the concrete pushes an anchor at +x along +y."""
    found = one_group(x=[-2, 2], y=[0, 0], m_z=800)
    np.testing.assert_allclose(found.anchors.v_a_y, [-200, 200])
    np.testing.assert_array_equal(found.anchors.v_a_x, 0)


@pytest.mark.parametrize(
    "group",
    [
        {"x": [3], "y": [1], "m_z": 10},
        {"x": [3], "y": [1], "v_y": 100, "at": (3.1, 1)},
        {"x": [0.1] * 3, "y": [0.7] * 3, "m_z": 10},
        {**QUAD, "v_x": 100, "resists_x": False},
        {**QUAD, "v_y": 100, "resists_y": False},
        {"x": [1, 5], "y": [0, 0], "m_z": 10, "resists_y": False},
        {"x": [], "y": [], "v_x": 1},
    ],
)
def test_what_nothing_holds_is_said(group):
    found = one_group(**group)
    assert not found.group.resisted[0]
    assert np.isposinf(found.anchors.v_a).all()


@pytest.mark.parametrize(
    "group",
    [
        {"x": [3], "y": [1], "v_x": 70, "v_y": 100, "at": (3, 1)},
        {"x": [0.1] * 3, "y": [0.7] * 3, "v_x": 90, "at": (0.3, 0.7)},
        {**QUAD, "v_y": 100, "resists_x": False},
        {**QUAD},
        {"x": [], "y": []},
    ],
)
def test_what_is_held_without_turning(group):
    found = one_group(**group)
    assert found.group.resisted[0]
    np.testing.assert_allclose(found.anchors.v_a_x.sum(), group.get("v_x", 0), atol=1e-12)
    np.testing.assert_allclose(found.anchors.v_a_y.sum(), group.get("v_y", 0), atol=1e-12)


def test_mirrored_turned_renumbered_and_scaled():
    """Each anchor keeps its shear, mirrored about y, turned by a right angle, in another order, in other units."""
    g = random_groups(np.random.default_rng(3), 200, least=3, slots=0.2)
    first = bolt_group_shear(**g)
    held = first.anchors.resisted
    near = {"rtol": 1e-8, "atol": 1e-6}
    mirrored = bolt_group_shear(**g | {name: -g[name] for name in ("x", "x_v", "v_x", "m_z")}).anchors
    np.testing.assert_allclose(mirrored.v_a_x[held], -first.anchors.v_a_x[held], **near)
    np.testing.assert_allclose(mirrored.v_a_y[held], first.anchors.v_a_y[held], **near)
    turned = g | {"x": -g["y"], "y": g["x"], "x_v": -g["y_v"], "y_v": g["x_v"], "v_x": -g["v_y"], "v_y": g["v_x"]}
    turned = bolt_group_shear(**turned | {"resists_x": g["resists_y"], "resists_y": g["resists_x"]}).anchors
    np.testing.assert_allclose(turned.v_a_y[held], first.anchors.v_a_x[held], **near)
    np.testing.assert_allclose(turned.v_a_x[held], -first.anchors.v_a_y[held], **near)
    at = g["case_of_anchor"]
    order = np.lexsort((np.random.default_rng(4).random(len(at)), at))
    shuffled = g | {name: g[name][order] for name in ("x", "y", "resists_x", "resists_y")}
    shuffled = bolt_group_shear(**shuffled).anchors
    np.testing.assert_allclose(shuffled.v_a[held[order]], first.anchors.v_a[order][held[order]], **near)
    metric = g | {name: g[name] * 25.4 for name in ("x", "y", "x_v", "y_v", "m_z")}
    np.testing.assert_allclose(bolt_group_shear(**metric).anchors.v_a[held], first.anchors.v_a[held], **near)


def test_no_cases():
    nothing = {name: values[:0] for name, values in random_groups(np.random.default_rng(5), 3).items()}
    assert len(bolt_group_shear(**nothing).group.v_x) == 0
