"""Speed of rigid plates: a batch in one call against a general root finder: ``pytest -m benchmark -s``."""

import numpy as np
import pytest
from scipy.optimize import root

from benchmarks.conftest import medians, report
from core.statics.plates import random_plates
from hangpoint.core.statics.rigid_plate import rigid_plate

pytestmark = pytest.mark.benchmark

CORNERS = ((-1, -1), (1, -1), (1, 1), (-1, 1))


def compressed(plane, half_x, half_y):
    """Force and its two moments of the compressed part: the polygon is clipped and its integrals are exact."""
    p0, p_x, p_y = plane
    corners = [(sx * half_x, sy * half_y) for sx, sy in CORNERS]
    stress = [p0 + p_x * x + p_y * y for x, y in corners]
    part = []
    for i in range(4):
        (x, y), (x2, y2), s, s2 = corners[i], corners[i - 3], stress[i], stress[i - 3]
        if s > 0:
            part.append((x, y))
        if (s > 0) != (s2 > 0):
            share = s / (s - s2)
            part.append((x + share * (x2 - x), y + share * (y2 - y)))
    a = a_x = a_y = a_xx = a_xy = a_yy = 0.0
    for i, (x, y) in enumerate(part):
        x2, y2 = part[i - 1]
        double = x2 * y - x * y2
        a += double / 2
        a_x += double * (x + x2) / 6
        a_y += double * (y + y2) / 6
        a_xx += double * (x * x + x * x2 + x2 * x2) / 12
        a_xy += double * (2 * x * y + x * y2 + x2 * y + 2 * x2 * y2) / 24
        a_yy += double * (y * y + y * y2 + y2 * y2) / 12
    return p0 * a + p_x * a_x + p_y * a_y, p0 * a_x + p_x * a_xx + p_y * a_xy, p0 * a_y + p_x * a_xy + p_y * a_yy


def one_by_one(plates):
    """Tension of every anchor by `scipy.optimize.root`, and whether each case came to a root."""
    tensions, solved = [], []
    at = plates["case_of_anchor"]
    ends = np.flatnonzero(np.diff(at)) + 1
    anchors = [np.split(plates[name], ends) for name in ("x", "y", "a_s")]
    for case, (x, y, a_s) in enumerate(zip(*anchors, strict=True)):
        x0, x1, y0, y1, n, m_x, m_y, e_s, e_c = (
            float(plates[name][case]) for name in ("x0", "x1", "y0", "y1", "n", "m_x", "m_y", "e_s", "e_c")
        )
        x_p, y_p, reach = (x0 + x1) / 2, (y0 + y1) / 2, max(x1 - x0, y1 - y0) / 2
        half_x, half_y = (x1 - x0) / 2 / reach, (y1 - y0) / 2 / reach
        load = np.array([-n, (m_y + n * x_p) / reach, (-m_x + n * y_p) / reach])
        force = np.abs(load).max()
        load /= force
        basis = np.array([np.ones(len(x)), (x - x_p) / reach, (y - y_p) / reach])
        k = e_s / e_c * a_s / reach**2

        def residual(plane, basis=basis, k=k, load=load, half_x=half_x, half_y=half_y):
            pull = k * np.minimum(plane @ basis, 0.0)
            return np.array(compressed(plane.tolist(), half_x, half_y)) + basis @ pull - load

        whole = 4 * half_x * half_y * np.diag([1, half_x**2 / 3, half_y**2 / 3]) + (k * basis) @ basis.T
        found = root(residual, np.linalg.solve(whole, load), method="hybr", tol=1e-9)
        tensions.append(-k * np.minimum(found.x @ basis, 0.0) * force)
        solved.append(found.success and np.abs(found.fun).max() < 1e-8)
    return np.concatenate(tensions), np.array(solved)


def plates_of(count):
    """Plates of 4 to 8 anchors on concrete, all with axial force and both moments."""
    rng = np.random.default_rng(48)
    plates = random_plates(rng, count, least=4, most=8, contact=True)
    return plates | {"n": rng.normal(0, 5e3, count), "m_x": rng.normal(0, 3e4, count), "m_y": rng.normal(0, 3e4, count)}


def test_plates_against_a_root_finder() -> None:
    plates = plates_of(1000)
    ours, (theirs, solved) = rigid_plate(**plates), one_by_one(plates)
    assert ours.balance.in_equilibrium.all()
    assert solved.mean() > 0.9
    at = plates["case_of_anchor"]
    largest = np.zeros(1000)
    np.maximum.at(largest, at, theirs)
    off = np.abs(ours.anchors.tension - theirs) / np.maximum(largest, np.abs(plates["n"]))[at]
    print(f"root finder: {int(solved.sum())} of 1,000 solved, tensions within {np.max(off[solved[at]]):.1e}")
    assert np.max(off[solved[at]]) < 1e-5
    took = medians({"batch": lambda: rigid_plate(**plates), "root": lambda: one_by_one(plates)}, rounds=5)
    print({name: f"{seconds * 1000:.1f} ms" for name, seconds in took.items()})
    assert report("plates_1000_vs_scipy", took["root"] / took["batch"]) >= 50
