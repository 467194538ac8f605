"""The scalar forces of the anchors of a fixture against printed figures, the textbook's closed form and shapely."""

import math
from itertools import pairwise

import numpy as np
import pytest
from shapely import Polygon

from core.aci318_19 import group_layouts
from core.aci318_19.group_layouts import fixture
from core.aci318_19.independent_statics import UnbalancedError, plane, shears, tensions

MODULAR_RATIO_7 = (29e6 / 7.0 / 57_000.0) ** 2


@pytest.mark.parametrize(
    ("n", "m_x", "m_y", "expected"),
    [
        (20, 10, 0, [14.5893, 14.5893, 0, 0]),
        (20, 8, 5, [14.4000, 8.6521, 0, 2.1920]),
        (-40, 1.0, 0.8, [13.7500, 10.4167, 6.2500, 9.5833]),
    ],
)
def test_plate_figures(n, m_x, m_y, expected):
    """A Newton solver and concreteproperties agree on these, in kN and kN*m with pressure and M_x at +y positive."""
    mm, kn = 1 / 25.4, 1_000 / 4.4482216152605
    places = [(x * 120 * mm, y * 120 * mm) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    f = fixture(anchors=places, f_c=MODULAR_RATIO_7, a_se=84.3 * mm * mm, plate=(*np.array([-150, 150] * 2) * mm, True))
    f |= {"n": -n * kn, "m_x": -m_x * 1_000 * mm * kn, "m_y": m_y * 1_000 * mm * kn}
    assert np.array(tensions(f)) / kn == pytest.approx(expected, abs=1e-4)


def test_plate_closed_form():
    """The textbook cubic of a base plate with one tension row (O. Blodgett, from memory)."""
    rng = np.random.default_rng(3)
    for _ in range(50):
        length, width, stiffness, pressure = rng.uniform([5, 5, 0.5, 1e3], [30, 30, 20, 1e5])
        f, e = rng.uniform(0.2, 0.48) * length, rng.uniform(0.4, 4) * length
        k_1, k_2 = 3 * (e - length / 2), 6 * 2 * stiffness * (f + e) / width
        roots = np.roots([1, k_1, k_2, -k_2 * (length / 2 + f)])
        y = roots[(abs(roots.imag) < 1e-9) & (roots.real > 0)].real
        assert y.shape == (1,)
        expected = -pressure * (length / 2 - y[0] / 3 - e) / (length / 2 - y[0] / 3 + f)
        sides = (-width / 2, width / 2, -length / 2, length / 2)
        places = [(-width / 4, f), (width / 4, f)]
        opening = plane(sides, places, stiffness, (-pressure, pressure * e, 0.0))
        assert stiffness * sum(opening(*place) for place in places) == pytest.approx(expected, rel=1e-9)


def test_plates_are_in_equilibrium():
    """Pressure on what shapely cuts from the plate, exact for a plane of stress, holds the anchors and the load."""
    contact = [f for f in group_layouts.fixtures(600, seed=5) if f["plate"] and f["plate"][4]]
    assert len(contact) > 150
    for f in contact:
        stiffness = 29e6 / (57e3 * math.sqrt(f["f_c"])) * f["a_se"]
        opening = plane(f["plate"][:4], f["anchors"], stiffness, (f["n"], f["m_x"], f["m_y"]))
        pulls = np.array(tensions(f))
        assert pulls == pytest.approx([stiffness * max(opening(x, y), 0) for x, y in f["anchors"]])
        force = np.array([(t, t * y, -t * x) for t, (x, y) in zip(pulls, f["anchors"], strict=True)]).sum(axis=0)
        force += pressed(f["plate"], opening)
        load = np.array([f["n"], f["m_x"], f["m_y"]])
        arm = max(abs(side) for side in f["plate"][:4])
        assert force / [1, arm, arm] == pytest.approx(load / [1, arm, arm], abs=1e-7 * abs(load / [1, arm, arm]).max())


def pressed(plate, opening):
    """Sum of opening, opening y and -opening x over the part of the plate where the opening is negative."""
    x0, x1, y0, y1 = plate[:4]
    at = opening(0, 0)
    slope = np.array([opening(1, 0) - at, opening(0, 1) - at])
    corners = np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    part = Polygon(corners)
    if slope.any():
        foot, normal = -at * slope / (slope @ slope), slope / np.hypot(*slope)
        far = 10 * (abs(corners).max() + np.hypot(*foot))
        side = far * np.array([-normal[1], normal[0]])
        part &= Polygon([foot + side, foot - side, foot - side - far * normal, foot + side - far * normal])
    elif at >= 0:
        part = Polygon()
    total = np.zeros(3)
    ring = [np.array(p) for p in part.exterior.coords] if part.area > 0 else []
    for a, b in pairwise(ring[1:]):
        area = Polygon([ring[0], a, b]).area
        for x, y in ((ring[0] + a) / 2, (a + b) / 2, (b + ring[0]) / 2):
            total += area / 3 * opening(x, y) * np.array([1, y, -x])
    return total


@pytest.mark.parametrize(
    ("places", "load", "arm", "largest", "least", "tolerance"),
    [
        ([(x, y) for x in (-100, 100) for y in (-75, 75)], 10, 500, 12.0934, 8.1394, 1e-4),
        ([(-75, 0), (0, 0), (75, 0)], 5, 305, 11.8333, 1.6667, 1e-4),
        ([(x, y) for x in (-75, 75) for y in (-60, 60)], 16, 425, 20.973, 14.789, 1e-3),
        ([(x, y) for x in (-2, 2) for y in (-3, 0, 3)], 24, 5, 10.0, 0.0, 1e-3),
    ],
)
def test_bolt_groups(places, load, arm, largest, least, tolerance):
    """Textbook groups: Bhandari 7.3, 7.4; Shigley's bracket and Salmon and Johnson's connection, from memory."""
    size = [math.hypot(*v) for v in shears(fixture(anchors=places, v_y=-load, m_z=-load * arm))]
    assert max(size) == pytest.approx(largest, abs=tolerance)
    assert min(size) == pytest.approx(least, abs=tolerance)


def test_slotted_holes():
    """Two anchors resist along x, two along y, each pair 4 in apart: a torsion of 4,000 lbf*in gives 500 lbf each."""
    places = [(-2.0, 0.0), (2.0, 0.0), (0.0, -2.0), (0.0, 2.0)]
    resists = [(False, True), (False, True), (True, False), (True, False)]
    found = shears(fixture(anchors=places, resists=resists, v_x=200.0, m_z=4_000.0))
    assert np.array(found) == pytest.approx(np.array([(0, -500), (0, 500), (600, 0), (-400, 0)]))


def test_one_anchor_under_a_plate():
    """Tension alone; 2,000 lbf*in add C at 4 - Y/3, with Y below the 4 in from the side of the plate to the anchor."""
    plate = (-4.0, 4.0, -4.0, 4.0, True)
    assert tensions(fixture(plate=plate, n=1_000.0)) == pytest.approx([1_000.0])
    assert tensions(fixture(plate=plate, n=-1_000.0)) == [0.0]
    turned = tensions(fixture(plate=plate, n=1_000.0, m_x=2_000.0))[0]
    assert 1_000.0 + 2_000.0 / 4.0 < turned < 1_000.0 + 2_000.0 / (4.0 - 4.0 / 3.0)


@pytest.mark.parametrize(
    "changes",
    [
        {"m_x": 100.0},
        {"m_z": 100.0},
        {"v_x": 100.0, "resists": [(False, True)]},
        {"anchors": [(-3.0, 0.0), (0.0, 0.0), (3.0, 0.0)], "m_x": 100.0},
        {"anchors": [(1.0, 1.0)], "n": 100.0},
        {"anchors": [(-3.0, 0.0), (3.0, 0.0)], "resists": [(True, False)] * 2, "m_z": 100.0},
    ],
)
def test_what_nothing_holds(changes):
    f = fixture(**changes)
    with pytest.raises(UnbalancedError):
        (tensions(f), shears(f))


def test_row_without_concrete():
    """100 lbf at 3 in from the middle anchor of three: 100 (1/3 + 3 x/18) at x = -3, 0, 3; a push is allowed."""
    places = [(-3.0, 0.0), (0.0, 0.0), (3.0, 0.0)]
    found = tensions(fixture(anchors=places, n=100.0, m_y=-300.0))
    assert found == pytest.approx([-100 / 6, 100 / 3, 500 / 6])
