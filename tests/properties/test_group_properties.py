"""What must hold for every layout of anchors, whatever its numbers: random fixtures, turned, mirrored, renumbered."""

import math
import random

import numpy as np
import pytest

from core.aci318_19.group_layouts import SIDES, fixtures
from core.aci318_19.test_groups_against_independent import packed, stated
from core.builders import FACTORED_LOADS
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.layout_load import LayoutLoad
from hangpoint.core.statics.plate_balance import PlateAnchor, PlateBalance
from hangpoint.core.vocabulary import Link

COUNT = 400
TOLERANCE = 1e-7
"""A plate in contact is solved to a residual of 1e-9."""


def drawn(seed, count=COUNT):
    made = [stated(f) for f in fixtures(count, seed=seed)]
    return [f for f in made if f["n"] >= 0 or len(f["anchors"]) > 1 or (f["plate"] and f["plate"][4])]


def utilisations(made):
    """Of every mode of the anchors, (modes, fixtures), 0 where it doesn't apply."""
    verdicts = check(packed(made), FACTORED_LOADS)
    assert (verdicts.refusal < 0).all()
    modes = [mode for mode in verdicts.modes if mode.mode.link is not Link.ROD]
    return np.array([np.where(mode.applies, mode.utilisation, 0.0) for mode in modes])


def mirrored(f):
    """In the y axis: x, V_x change sign; of the moments M_x doesn't, M_y and M_z do."""
    edges = f["edges"] | {"x_minus": f["edges"]["x_plus"], "x_plus": f["edges"]["x_minus"]}
    plate = f["plate"] and (-f["plate"][1], -f["plate"][0], *f["plate"][2:])
    return {
        **f,
        "anchors": [(-x, y) for x, y in f["anchors"]],
        "edges": edges,
        "plate": plate,
        "v_x": -f["v_x"],
        "m_y": -f["m_y"],
        "m_z": -f["m_z"],
    }


def turned(f):
    """By a right angle, x to y."""
    edges = {"y_plus": "x_plus", "y_minus": "x_minus", "x_plus": "y_minus", "x_minus": "y_plus"}
    plate = f["plate"] and (-f["plate"][3], -f["plate"][2], f["plate"][0], f["plate"][1], f["plate"][4])
    return {
        **f,
        "anchors": [(-y, x) for x, y in f["anchors"]],
        "resists": [(along_y, along_x) for along_x, along_y in f["resists"]],
        "edges": {side: f["edges"][edges[side]] for side in SIDES},
        "plate": plate,
        "v_x": -f["v_y"],
        "v_y": f["v_x"],
        "m_x": -f["m_y"],
        "m_y": f["m_x"],
    }


def renumbered(f):
    order = random.Random(len(f["anchors"])).sample(range(len(f["anchors"])), len(f["anchors"]))
    return {**f, "anchors": [f["anchors"][at] for at in order], "resists": [f["resists"][at] for at in order]}


@pytest.mark.parametrize("change", [mirrored, turned, renumbered])
def test_a_change_of_view_changes_nothing(change):
    made = drawn(11)
    there = [change(f) for f in made]
    assert there != made
    np.testing.assert_allclose(utilisations(there), utilisations(made), rtol=TOLERANCE, atol=1e-12)


def test_a_batch_is_its_singles():
    made = drawn(12, 60)
    together = utilisations(made)
    alone = np.concatenate([utilisations([f]) for f in made], axis=1)
    np.testing.assert_allclose(together, alone, rtol=1e-12, atol=1e-15)


def test_a_further_edge_never_helps():
    """Except across the three-edge and narrow-member rules, which the code has (reading 44): from none or one edge."""
    made = [f for f in drawn(13) if sum(math.isfinite(f["edges"][side]) for side in SIDES) == 0]
    assert len(made) > 40
    before = utilisations(made)
    for side in SIDES:
        reach = {"x_minus": (0, -1), "x_plus": (0, 1), "y_minus": (1, -1), "y_plus": (1, 1)}[side]
        near = [
            {
                **f,
                "edges": f["edges"]
                | {side: max(reach[1] * place[reach[0]] for place in f["anchors"]) + 2.5 * f["d_a"] + 0.4 * f["h_ef"]},
            }
            for f in made
        ]
        after = utilisations(near)
        assert (after >= before * (1 - TOLERANCE) - 1e-12).all()
        assert (after > before * 1.01).any()


def test_anchors_far_apart_are_singles():
    """At 100 h_ef a group is each anchor by itself, with its share of the load."""
    made = [f for f in drawn(14) if len(f["anchors"]) == 1]
    made = [
        {
            **f,
            "plate": None,
            "n": abs(f["n"]) + 1.0,
            "m_x": 0.0,
            "m_y": 0.0,
            "m_z": 0.0,
            "edges": dict.fromkeys(SIDES, math.inf),
        }
        for f in made
    ]
    assert len(made) > 20
    four = [
        {
            **f,
            "anchors": [(x * 50 * f["h_ef"], y * 50 * f["h_ef"]) for x in (-1, 1) for y in (-1, 1)],
            "resists": [(True, True)] * 4,
            **{name: 4 * f[name] for name in ("n", "v_x", "v_y")},
        }
        for f in made
    ]
    one = [{**f, "resists": [(True, True)]} for f in made]
    np.testing.assert_allclose(utilisations(four), utilisations(one), rtol=1e-9, atol=1e-12)


def test_one_anchor_under_a_plate_is_a_single_anchor():
    """A plate over one anchor that is pulled changes nothing; nor does where the origin of its layout is."""
    made = [{**f, "plate": None, "n": abs(f["n"]) + 1.0, "m_x": 0.0, "m_y": 0.0, "m_z": 0.0} for f in drawn(15)]
    made = [{**f, "resists": [(True, True)], "seismic_075": False} for f in made if len(f["anchors"]) == 1]
    assert len(made) > 20
    alone = utilisations(made)
    size = [2 * f["d_a"] for f in made]
    plated = [{**f, "plate": (-s, s, -s, s, True)} for f, s in zip(made, size, strict=True)]
    np.testing.assert_allclose(utilisations(plated), alone, rtol=TOLERANCE, atol=1e-12)
    moved = [
        {
            **f,
            "anchors": [(3.0, -2.0)],
            "edges": {s: f["edges"][s] + d for s, d in zip(SIDES, (-3.0, 3.0, 2.0, -2.0), strict=True)},
            "m_x": -2.0 * f["n"],
            "m_y": -3.0 * f["n"],
            "m_z": 3.0 * f["v_y"] + 2.0 * f["v_x"],
            "plate": (3.0 - s, 3.0 + s, -2.0 - s, -2.0 + s, True),
        }
        for f, s in zip(made, size, strict=True)
    ]
    np.testing.assert_allclose(utilisations(moved), alone, rtol=TOLERANCE, atol=1e-12)


def test_every_plate_is_in_equilibrium():
    """Sum of forces and of moments about the origin, from the trace's own numbers: N = T - C, M_x = T y_T - C y_C."""
    verdicts = check(packed(drawn(16)), FACTORED_LOADS)
    # of two of a kind the first; the second is of the load that stays
    by_kind = {type(section.record): section.record for section in reversed(verdicts.sections)}
    load, balance, anchors = by_kind[LayoutLoad], by_kind[PlateBalance], by_kind[PlateAnchor]
    assert len(load.n) > 200
    assert balance.residual.max() < 1e-9
    size = np.maximum(np.abs(balance.x1 - balance.x0), np.abs(balance.y1 - balance.y0)) + 100.0
    force = np.abs(load.n) + (np.abs(load.m_x) + np.abs(load.m_y)) / size + balance.t + balance.c
    assert (force > 0).sum() > 200
    force = np.where(force > 0, force, 1.0)
    np.testing.assert_allclose((balance.t - balance.c - load.n) / force, 0.0, atol=1e-8)
    np.testing.assert_allclose(
        (balance.t * balance.y_t - balance.c * balance.y_c - load.m_x) / (force * size), 0.0, atol=1e-8
    )
    np.testing.assert_allclose(
        (-balance.t * balance.x_t + balance.c * balance.x_c - load.m_y) / (force * size), 0.0, atol=1e-8
    )
    assert (anchors.tension[anchors.contact] >= 0).all()
