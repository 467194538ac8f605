"""Rigid plates: balance, symmetry, what can't be held, areas by polygons, a general root finder.

Figures from outside: tests/published/test_rigid_plate.py.
"""

from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import root
from shapely import Polygon, box

from core.statics.plates import PER_ANCHOR, one_plate, random_plates, taken
from hangpoint.core.statics.plate_contact import contact
from hangpoint.core.statics.rigid_plate import rigid_plate


def monomials(polygon):
    """Integrals of 1, x, y, x**2, x*y, y**2 over a convex polygon: three-point rule on a fan, exact to degree two."""
    corners = np.array(polygon.exterior.coords)[:-1]
    total = np.zeros(6)
    for b, c in pairwise(corners[1:]):
        triangle = np.array([corners[0], b, c])
        area = abs(np.cross(np.append(b - corners[0], 0), np.append(c - corners[0], 0))[2]) / 2
        for x, y in (triangle + np.roll(triangle, 1, axis=0)) / 2:
            total += area / 3 * np.array([1, x, y, x * x, x * y, y * y])
    return total


def half_plane(plane, size=1e3):
    """The square half-plane where the stress is positive, as a polygon, or all or nothing of it."""
    p0, gradient = plane[0], plane[1:]
    steep = np.hypot(*gradient)
    up, along = gradient / steep, np.array([-gradient[1], gradient[0]]) / steep
    foot = -p0 * gradient / steep**2
    return Polygon([foot - size * along, foot + size * along, foot + size * (along + up), foot + size * (up - along)])


def polygon_force(plane, half_x, half_y):
    """Area integrals and forces of the compressed part, by shapely."""
    part = half_plane(plane).intersection(box(-half_x, -half_y, half_x, half_y))
    area = monomials(part) if part.area else np.zeros(6)
    a, x, y, xx, xy, yy = area
    return area, np.array([[a, x, y], [x, xx, xy], [y, xy, yy]]) @ plane


def test_contact_against_polygons():
    """500 planes over rectangles: six integrals of area and three of stress, by shapely and a rule exact for them."""
    rng = np.random.default_rng(11)
    half = rng.uniform(0.5, 10, (2, 500))
    share, angle = rng.uniform(-1.5, 1.5, 500), rng.uniform(0, 2 * np.pi, 500)
    gradient = np.array([np.cos(angle), np.sin(angle)]) * rng.uniform(0.1, 10, 500)
    plane = np.vstack((share * np.sum(np.abs(gradient) * half, axis=0), gradient))
    found = contact(half_x=half[0], half_y=half[1], plane=plane)
    kinds = np.zeros(3, int)
    for i in range(500):
        area, force = polygon_force(plane[:, i], *half[:, i])
        size = 4 * half[0, i] * half[1, i]
        reach = max(half[:, i])
        arms = np.array([1, reach, reach, reach**2, reach**2, reach**2])
        np.testing.assert_allclose(found.area[:, i] / size / arms, area / size / arms, atol=1e-12)
        top = np.abs(plane[:, i]) @ arms[:3]
        np.testing.assert_allclose(found.force[:, i] / size / top / arms[:3], force / size / top / arms[:3], atol=1e-12)
        kinds[0 if area[0] == 0 else 1 if area[0] > size * (1 - 1e-12) else 2] += 1
    assert kinds.min() > 30


def test_contact_of_level_planes():
    found = contact(
        half_x=np.full(3, 2.0), half_y=np.full(3, 3.0), plane=np.array([[1.0, 0, -1], [0, 0, 0], [0, 0, 0]])
    )
    np.testing.assert_array_equal(found.area[:, 0], [24, 0, 0, 32, 0, 72])
    np.testing.assert_array_equal(found.force, [[24, 0, 0], [0, 0, 0], [0, 0, 0]])
    np.testing.assert_array_equal(found.area[:, 1:], 0)


@pytest.mark.parametrize("none", [0.0, -0.0, 1e-300, -1e-300, 1e-17])
def test_contact_of_planes_level_along_a_side(none):
    """A slope of 1 from the middle, up and down, with next to none across: half the plate, by hand."""
    x, y = 2.0, 3.0
    plane = np.array([[0.0] * 4, [1.0, -1.0, none, none], [none, none, 1.0, -1.0]])
    found = contact(half_x=np.full(4, x), half_y=np.full(4, y), plane=plane)
    along_x = [2 * x * y, x * x * y, 0, 2 * x**3 * y / 3, 0, 2 * x * y**3 / 3]
    along_y = [2 * x * y, 0, x * y * y, 2 * x**3 * y / 3, 0, 2 * x * y**3 / 3]
    signs = np.array([[1, -1, 1, 1], [1, 1, 1, -1]])
    np.testing.assert_allclose(
        found.area[[0, 3, 5]].T, np.array([along_x] * 2 + [along_y] * 2)[:, [0, 3, 5]], rtol=1e-14
    )
    np.testing.assert_allclose(
        found.area[1:3], np.array([along_x, along_x, along_y, along_y]).T[1:3] * signs, atol=1e-14
    )
    np.testing.assert_allclose(found.area[4], 0, atol=1e-14)
    np.testing.assert_allclose(found.force[0], [x * x * y, x * x * y, x * y * y, x * y * y], rtol=1e-14)


def unbalanced(plates, found):
    """N, M_x, M_y left over by the forces of a result as shares of the load, about the centre of each plate."""
    b, at = found.balance, plates["case_of_anchor"]
    middle_x, middle_y = (plates["x0"] + plates["x1"]) / 2, (plates["y0"] + plates["y1"]) / 2
    left = []
    for i in range(len(middle_x)):
        own = at == i
        t, x, y = found.anchors.tension[own], plates["x"][own] - middle_x[i], plates["y"][own] - middle_y[i]
        half_x, half_y = middle_x[i] - plates["x0"][i], middle_y[i] - plates["y0"][i]
        plane, force = np.array([b.sigma_p[i], b.sigma_x[i], b.sigma_y[i]]), np.zeros(3)
        if plates["contact"][i] and np.any(plane[1:]):
            force = polygon_force(plane, half_x, half_y)[1]
        n = plates["n"][i]
        load = np.array([n, plates["m_x"][i] - n * middle_y[i], plates["m_y"][i] + n * middle_x[i]])
        got = np.array([t.sum() - force[0], (t * y).sum() - force[2], force[1] - (t * x).sum()])
        arms = np.array([1, max(half_x, half_y), max(half_x, half_y)])
        left.append(np.max(np.abs(got - load) / arms) / np.max(np.abs(load) / arms))
    return np.array(left)


def test_balance_of_random_plates():
    """1,000 plates of 3 to 16 anchors, with contact and without: what is left of N and both moments, by polygons."""
    plates = random_plates(np.random.default_rng(1), 1000, least=3)
    found = rigid_plate(**plates)
    loaded = (plates["n"] != 0) | (plates["m_x"] != 0) | (plates["m_y"] != 0)
    assert found.balance.in_equilibrium.all()
    worst = unbalanced(taken(plates, np.flatnonzero(loaded)), rigid_plate(**taken(plates, np.flatnonzero(loaded))))
    print(f"largest residual of 1,000 plates: {worst.max():.1e} of the load")
    assert worst.max() < 1e-9
    still = ~loaded[plates["case_of_anchor"]]
    assert still.any()
    np.testing.assert_array_equal(found.anchors.tension[still], 0.0)


def test_plates_that_barely_touch_are_solved():
    """One anchor and two, pulled with an eccentricity from 1e-10 to 0.1 of the side: the plate pries at its rim."""
    rng = np.random.default_rng(2)
    plates = random_plates(rng, 600, least=1, most=2, contact=True)
    x, y, at = plates["x"], plates["y"], plates["case_of_anchor"]
    n = rng.uniform(500, 5000, 600)
    count = np.bincount(at)
    tiny = 10 ** rng.uniform(-10, -1, 600) * n * (plates["x1"] - plates["x0"])
    plates |= {"n": n}
    plates |= {"m_x": n * np.bincount(at, y) / count + tiny, "m_y": -n * np.bincount(at, x) / count + tiny / 3}
    found = rigid_plate(**plates)
    assert found.balance.in_equilibrium.all()
    assert (found.balance.c > 0).mean() > 0.5
    np.testing.assert_allclose(found.balance.t - found.balance.c, n, rtol=1e-8)


def start(case):
    """The whole plate and all anchors, in concrete and out of it: where the iteration starts."""
    k, x, y, hx, hy = case["k"], case["x"], case["y"], case["half_x"], case["half_y"]
    basis = np.array([np.ones_like(x), x, y])
    return np.linalg.solve(4 * hx * hy * np.diag([1, hx**2 / 3, hy**2 / 3]) + (k * basis) @ basis.T, case["load"])


def test_against_a_root_finder():
    """60 plates with scipy's `hybr` over shapely polygons, from the same start: tensions to 1e-6 of the largest."""
    plates = random_plates(np.random.default_rng(3), 60, least=4, most=8, contact=True)
    found = rigid_plate(**plates)
    compared = 0
    for i in range(60):
        own = plates["case_of_anchor"] == i
        middle = np.array([plates["x0"][i] + plates["x1"][i], plates["y0"][i] + plates["y1"][i]]) / 2
        half = np.array([plates["x1"][i] - plates["x0"][i], plates["y1"][i] - plates["y0"][i]]) / 2
        reach = half.max()
        n, m_x, m_y = (plates[name][i] for name in ("n", "m_x", "m_y"))
        load = np.array([-n, (m_y + n * middle[0]) / reach, (-m_x + n * middle[1]) / reach])
        if not load.any():
            continue
        force = np.abs(load).max()
        case = {
            "half_x": half[0] / reach,
            "half_y": half[1] / reach,
            "x": (plates["x"][own] - middle[0]) / reach,
            "y": (plates["y"][own] - middle[1]) / reach,
            "k": plates["a_s"][own] * plates["e_s"][i] / plates["e_c"][i] / reach**2,
            "load": load / force,
        }
        basis = np.array([np.ones(own.sum()), case["x"], case["y"]])

        def residual(plane, case=case, basis=basis):
            pull = case["k"] * np.minimum(plane @ basis, 0)
            return polygon_force(plane, case["half_x"], case["half_y"])[1] + basis @ pull - case["load"]

        solved = root(residual, start(case), method="hybr", tol=1e-12)
        if np.abs(residual(solved.x)).max() > 1e-9:
            continue
        compared += 1
        tension = -case["k"] * np.minimum(solved.x @ basis, 0) * force
        np.testing.assert_allclose(found.anchors.tension[own], tension, atol=1e-6 * max(tension.max(), force))
    assert compared > 40


def test_one_anchor_in_pure_tension():
    """It takes the load, with contact and without, wherever the plate is; nothing bears on the concrete."""
    for touching in (True, False):
        found = one_plate(sides=(7, 13, -4, 2), x=[11], y=[-2], a_s=0.2, n=900, m_x=-1800, m_y=-9900, contact=touching)
        np.testing.assert_allclose(found.anchors.tension, [900], rtol=1e-12)
        assert found.balance.in_equilibrium[0]
        assert found.balance.c[0] < 1e-10 * 900
        assert found.tensioned.e_n_x[0] == found.tensioned.e_n_y[0] == 0


def test_what_nothing_holds_is_said():
    """Moment on one anchor and across a line of anchors, without contact; tension without anchors.

    The tension is infinite then, so that nothing passes by it.
    """
    free = {"sides": (-5, 5, -5, 5), "a_s": 0.2, "contact": False}
    for found, residual in (
        (one_plate(**free, x=[0], y=[0], n=100, m_x=50), 50 / 5 / 100),
        (one_plate(**free, x=[-3, 0, 3], y=[-3, 0, 3], m_x=60, m_y=60), 1.0),
    ):
        assert not found.balance.in_equilibrium[0]
        assert found.balance.residual[0] == pytest.approx(residual, rel=1e-12)
        assert np.isposinf(found.anchors.tension).all()
        assert np.isposinf(found.balance.t[0])
        assert np.isposinf(found.tensioned.t[0])
        assert not found.anchors.compressed.any()
    bare = one_plate(sides=(-5, 5, -5, 5), x=[], y=[], a_s=0.2, n=100)
    assert not bare.balance.in_equilibrium[0]
    assert np.isposinf(bare.balance.t[0])
    held = one_plate(**free, x=[-3, 0, 3], y=[-3, 0, 3], m_x=60, m_y=-60)
    assert held.balance.in_equilibrium[0]
    np.testing.assert_allclose(held.anchors.tension, [-10, 0, 10], atol=1e-12)


def test_with_contact_a_moment_on_one_anchor_is_held():
    """M = 3,000 lbf*in on one anchor in the middle: tension and compression alike, at the distance z."""
    found = one_plate(sides=(-5, 5, -5, 5), x=[0], y=[0], a_s=0.2, m_x=3000)
    assert found.balance.in_equilibrium[0]
    np.testing.assert_allclose(found.balance.t, found.balance.c, rtol=1e-9)
    np.testing.assert_allclose(found.balance.t * found.balance.z, 3000, rtol=1e-9)
    assert found.balance.y_c[0] < -3


def test_compression_near_and_far():
    """Within the kernel the plate bears whole: N/A + M/W by hand. Far outside, anchors pull; beyond all anchors too."""
    near = one_plate(sides=(-6, 6, -4, 4), x=[-4, 4], y=[0, 0], a_s=1e-9, n=-9600, m_y=9600)
    np.testing.assert_allclose(near.balance.sigma_max, 9600 / 96 + 9600 / (8 * 12**2 / 6), rtol=1e-6)
    np.testing.assert_array_equal(near.anchors.tension, 0)
    assert not near.tensioned.tensioned[0]
    far = one_plate(sides=(-6, 6, -4, 4), x=[-4, -4, 4, 4], y=[-3, 3, -3, 3], a_s=0.3, n=-1000, m_y=1000 * 500)
    assert far.balance.in_equilibrium[0]
    assert (far.anchors.tension[:2] > 0).all()
    np.testing.assert_allclose(far.balance.c - far.balance.t, 1000, rtol=1e-9)
    np.testing.assert_allclose(far.balance.c * far.balance.x_c - far.balance.t * far.balance.x_t, 500_000, rtol=1e-9)


def test_without_contact_anchors_push():
    """Four anchors at +-4, +-3, N -1,000 and M_y 8,000: -1000/4 -+ 8000 / 16 by the formula of bending."""
    found = one_plate(
        sides=(-6, 6, -5, 5), x=[-4, 4, 4, -4], y=[-3, -3, 3, 3], a_s=0.3, n=-1000, m_y=8000, contact=False
    )
    np.testing.assert_allclose(found.anchors.tension, [250, -750, -750, 250], rtol=1e-12)
    np.testing.assert_array_equal(found.anchors.compressed, [False, True, True, False])
    np.testing.assert_allclose([found.balance.c[0], found.balance.x_c[0], found.balance.z[0]], [1500, 4, 8], rtol=1e-12)
    assert found.balance.sigma_max[0] == 0


def test_signs():
    """A moment about x pulls at +y, one about y at -x: right-handed, tension along z."""
    quad = {"sides": (-6, 6, -6, 6), "x": [-4, 4, 4, -4], "y": [-4, -4, 4, 4], "a_s": 0.3}
    assert (one_plate(**quad, m_x=1000).anchors.tension > 0).tolist() == [False, False, True, True]
    assert (one_plate(**quad, m_y=1000).anchors.tension > 0).tolist() == [True, False, False, True]
    moved = one_plate(sides=(4, 16, 14, 26), x=[6, 14, 14, 6], y=[16, 16, 24, 24], a_s=0.3, n=800, m_x=16000, m_y=-8000)
    np.testing.assert_allclose(moved.anchors.tension, 200, rtol=1e-10)


PLATES = random_plates(np.random.default_rng(4), 150, least=3)


def tension_of(plates):
    return rigid_plate(**plates).anchors.tension


def close(got, expected):
    """To 1e-8 of the largest of each case: the loads are balanced to 1e-11, and not all plates are stiff."""
    at = PLATES["case_of_anchor"]
    largest = np.zeros(150)
    np.maximum.at(largest, at, np.abs(expected))
    np.testing.assert_array_less(np.abs(got - expected), (1e-8 * largest + 1e-12)[at])


def test_mirrored_plates():
    turned = PLATES | {"x": -PLATES["x"], "x0": -PLATES["x1"], "x1": -PLATES["x0"], "m_y": -PLATES["m_y"]}
    close(tension_of(turned), tension_of(PLATES))


def test_turned_plates():
    """By a right angle: x to y, y to -x."""
    p = PLATES
    turned = p | {"x": -p["y"], "y": p["x"], "x0": -p["y1"], "x1": -p["y0"], "y0": p["x0"], "y1": p["x1"]}
    turned |= {"m_x": -p["m_y"], "m_y": p["m_x"]}
    close(tension_of(turned), tension_of(PLATES))


def test_moved_plates():
    """Another origin, with the moments about it."""
    p = PLATES
    moved = (
        p | {name: p[name] + 7.0 for name in ("x", "x0", "x1")} | {name: p[name] - 3.0 for name in ("y", "y0", "y1")}
    )
    moved |= {"m_x": p["m_x"] - 3.0 * p["n"], "m_y": p["m_y"] - 7.0 * p["n"]}
    close(tension_of(moved), tension_of(PLATES))


def test_renumbered_anchors_and_cases():
    at = PLATES["case_of_anchor"]
    order = np.lexsort((np.random.default_rng(5).random(len(at)), at))
    shuffled = PLATES | {name: PLATES[name][order] for name in PER_ANCHOR}
    close(tension_of(shuffled), tension_of(PLATES)[order])
    cases = np.random.default_rng(6).permutation(150)
    rows = np.concatenate([np.flatnonzero(at == case) for case in cases])
    picked = taken(PLATES, cases)
    np.testing.assert_allclose(tension_of(picked), tension_of(PLATES)[rows], rtol=1e-12, atol=1e-12)


def test_a_batch_is_its_cases():
    for case in range(0, 150, 7):
        alone = tension_of(taken(PLATES, np.array([case])))
        together = tension_of(PLATES)[PLATES["case_of_anchor"] == case]
        np.testing.assert_allclose(alone, together, rtol=1e-12, atol=1e-12 * np.abs(together).max())


@pytest.mark.parametrize(("length", "force"), [(25.4, 1.0), (1e-3, 1e6), (1.0, 1e-9), (1.0, 0.0)])
def test_scale(length, force):
    """Longer by a factor, with areas by its square and moments by both: tensions go with the force."""
    p = PLATES
    scaled = p | {name: p[name] * length for name in ("x", "y", "x0", "x1", "y0", "y1")}
    scaled |= {"a_s": p["a_s"] * length**2, "n": p["n"] * force}
    scaled |= {name: p[name] * force * length for name in ("m_x", "m_y")}
    close(tension_of(scaled), tension_of(PLATES) * force)


def test_no_cases():
    nothing = {name: values[:0] for name, values in PLATES.items()}
    assert len(rigid_plate(**nothing).balance.n) == 0
