"""Trapezes and equipment at random, in mixed units, against finite elements and linear programs: own code, no outside
check.

From what is posted to the hang points, their places, and on to the factored tension of the checks of those.
"""

from itertools import pairwise
from math import atan, pi

import numpy as np
import pytest
from scipy.optimize import linprog

from api.hanger_bodies import steel, water
from api.mixed_units import MixedUnits
from core.hanger.independent_beams import Beam
from core.hanger.independent_combinations import combined
from core.hanger.item_columns import NATURES
from hangpoint.api.resources.hanger_loads import HANGER_LOADS

COUNT = 60
S_DS, OMEGA_0, F_P = 1.0, 2.0, 0.5
"""ASCE 7-16, 13.3-1, at mid-height: F_p / W_p = 0.4 x 2.5 x 1.0 x (1 + 2 x 0.5)/4 = 0.5."""
SEISMIC = {"s_ds": S_DS, "i_p": 1.0, "z": "20 ft", "h": "40 ft"}
SEISMIC["coefficients"] = {"a_p": 2.5, "r_p": 4, "omega_0": OMEGA_0}
PIPE = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water", "sprinkler": False}
BASE = {
    "kind": "concrete",
    "strength": {"f_c": "4000 psi"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "12 in",
    "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
}


def cubic(t, length):
    """Shape functions of a beam element."""
    u = 1 - t
    return np.array([u * u * (1 + 2 * t), length * t * u * u, t * t * (3 - 2 * t), -length * t * t * u])


def continuous(at, start, end, x):
    """Reactions of a continuous beam to 1 at ``x``: elements between rods, cubic shapes, rotations free."""
    whole = np.array([*([at[0] - start] if start else []), *at, *([at[-1] + end] if end else [])])
    count = len(whole)
    stiff, load = np.zeros((2 * count, 2 * count)), np.zeros(2 * count)
    inside = min(max(int(np.searchsorted(whole, x, side="right")) - 1, 0), count - 2)
    for i, length in enumerate(np.diff(whole)):
        own = slice(2 * i, 2 * i + 4)
        t, weights = np.polynomial.legendre.leggauss(3)
        for node, weight in zip((1 + t) / 2, weights / 2, strict=True):
            second = np.array([12 * node - 6, length * (6 * node - 4), 6 - 12 * node, length * (6 * node - 2)])
            stiff[own, own] += weight * np.outer(second, second) / length**3
        if i == inside:
            load[own] = cubic((x - whole[i]) / length, length)
    held = [2 * int(np.flatnonzero(whole == place)[0]) for place in at]
    free = [each for each in range(2 * count) if each not in held]
    moved = np.zeros(2 * count)
    moved[free] = np.linalg.solve(stiff[np.ix_(free, free)], load[free])
    return (load - stiff @ moved)[held]


def test_the_elements_against_slope_deflection():
    rng = np.random.default_rng(7)
    for _ in range(100):
        at = np.concatenate(([0.0], np.cumsum(rng.uniform(1, 5, rng.integers(1, 4)))))
        start, end = rng.uniform(0, 1.5, 2)
        x = rng.uniform(-start, at[-1] + end)
        expected = Beam(np.diff(at).tolist(), start, end).point(x)["continuous"]
        np.testing.assert_allclose(continuous(at, start, end, x), expected, rtol=1e-9, atol=1e-9)


def between(at, x):
    """Reactions of a bar with joints over its inner rods to 1 at ``x``, by the lever."""
    found = np.zeros(len(at))
    j = min(max(int(np.searchsorted(at, x, side="right")) - 1, 0), len(at) - 2)
    found[j + 1] = (x - at[j]) / (at[j + 1] - at[j])
    found[j] = 1 - found[j + 1]
    return found


class Rack:
    """A trapeze: posted item, service loads of its rods by nature in lbf, places of the rods in ft from the first."""

    def __init__(self, rng, number, units):
        self.rng, self.units = rng, units
        posted, at = [0], [0.0]
        for _ in range(rng.integers(1, 4)):
            far, place = units.of("distance", at[-1] + rng.uniform(1, 5))
            posted.append(far)
            at.append(place)
        self.at, self.spare = np.array(at), float(rng.choice([0.0, 0.25]))
        spacing, self.spacing = units.of("distance", rng.uniform(4, 12))
        self.loads = {nature: np.zeros(len(at)) for nature in ("dead", "contents", "live")}
        self.item = {"id": f"rack {number}", "kind": "trapeze", "rods_at": posted, "spare": self.spare}
        self.item |= {"run": {"spacing": spacing}, "tiers": [self._tier() for _ in range(rng.integers(1, 3))]}
        self.places = np.column_stack((self.at, np.zeros(len(at))))

    def _tier(self):
        (start, before), (end, after) = (self.units.of("distance", self.rng.uniform(0.2, 1.5)) for _ in range(2))
        posted, weight = self.units.of("line_weight", self.rng.uniform(1, 5))
        every = [self._line(before, after) for _ in range(self.rng.integers(1, 4))]
        every += [self._load(before, after) for _ in range(self.rng.integers(0, 3))]
        gauss = np.polynomial.legendre.leggauss(3)
        edges = [-before, *self.at, self.at[-1] + after]
        parts = []
        for shares in (self._continuous(before, after), lambda x: between(self.at, x)):
            own = {nature: np.zeros(len(self.at)) for nature in self.loads}
            for low, high in pairwise(edges):
                for t, by in zip(*gauss, strict=True):
                    own["dead"] += weight * (high - low) / 2 * by * shares((low + high) / 2 + (high - low) / 2 * t)
            for _, x, loads in every:
                pulls = shares(x)
                for nature, load in loads.items():
                    name, may_lack = ("dead", True) if nature == "kept" else (nature, nature != "dead")
                    own[name] += load * (np.maximum(pulls, 0.0) if may_lack else pulls)
            parts.append(own)
        for nature in self.loads:
            self.loads[nature] += np.maximum(parts[0][nature], parts[1][nature])
        bar = {"weight": posted, "start_overhang": start, "end_overhang": end}
        lines, loads = ([each for each, *_ in every if ("line" in each) is of] for of in (True, False))
        return {"bar": bar, "lines": lines, "loads": loads}

    def _continuous(self, before, after):
        return lambda x: continuous(self.at, before, after, x)

    def _on_bar(self, before, after):
        return self.units.of("distance", self.rng.uniform(-0.99 * before, self.at[-1] + 0.99 * after))

    def _line(self, before, after):
        (posted, x), number = self._on_bar(before, after), int(self.rng.integers(1, 4))
        if self.rng.random() < 0.5:
            line, dead, fluid = {**PIPE, "allowance": 0.1}, 1.1 * steel(4.5, 4.026), 1.1 * water(4.026)
        else:
            weight, dead = self.units.of("line_weight", self.rng.uniform(1, 40))
            filling, fluid = self.units.of("line_weight", self.rng.uniform(1, 40))
            line = {"kind": "line", "weight": weight, "filling": filling}
        dead, fluid = (number * self.spacing * each for each in (dead, fluid))
        loads = {"dead": dead, "kept": self.spare * dead, "contents": (1 + self.spare) * fluid}
        return {"at": posted, "line": {**line, "number": number}}, x, loads

    def _load(self, before, after):
        (posted, x), nature = self._on_bar(before, after), str(self.rng.choice(list(self.loads)))
        weight, load = self.units.of("weight", self.rng.uniform(5, 200))
        loads = {"dead": load, "kept": self.spare * load} if nature == "dead" else {nature: (1 + self.spare) * load}
        return {"at": posted, "weight": weight, "nature": nature}, x, loads


class Body:
    """Equipment: posted item, service loads of its rods by nature in lbf, places of the rods in ft from the origin."""

    def __init__(self, rng, number, units):
        inches = rng.uniform(-60, 60, (int(rng.integers(3, 9)), 2))
        both = [units.point("xy", place) for place in inches]
        rods = np.array([place for _, place in both])
        centre, middle = units.point("xy", rng.dirichlet(np.ones(len(rods))) @ rods)
        (weight, whole), impact = units.of("weight", rng.uniform(100, 5e3)), float(rng.choice([1.0, 1.25]))
        inside, contents = units.of("weight", whole * rng.uniform(0.1, 0.9))
        share = np.maximum(springs(rods - middle), carrying(rods - middle))
        self.item = {"id": f"body {number}", "kind": "equipment", "weight": weight, "contents": inside}
        self.item |= {"rods_at": [each for each, _ in both], "centre_of_gravity": centre, "impact": impact}
        self.loads = {"dead": impact * share * (whole - contents), "contents": impact * share * contents}
        self.loads["live"] = np.zeros(len(rods))
        self.places, self.braced = rods / 12, 0.0
        if rng.random() < 0.5:
            angle, number = float(rng.integers(25, 65)), int(rng.integers(1, len(rods) + 1))
            self.item["seismic"] = {**SEISMIC, "brace": {"angle": angle, "angle_from": "vertical", "number": number}}
            self.braced = F_P * whole / number / np.tan(angle * pi / 180)


def springs(arms):
    """Shares of equal springs: of all that balance the weight those with the least squares."""
    return np.linalg.lstsq(np.vstack((np.ones(len(arms)), arms.T / 60)), [1.0, 0.0, 0.0], rcond=None)[0]


def carrying(arms):
    """The largest share of each rod over all ways in which rods that only pull balance the weight."""
    balance = np.vstack((np.ones(len(arms)), arms.T / 60))
    found = [linprog(-row, A_eq=balance, b_eq=[1.0, 0.0, 0.0], method="highs") for row in np.eye(len(arms))]
    assert all(each.status == 0 for each in found)
    return np.array([-each.fun for each in found])


@pytest.fixture(scope="module", params=["us", "si"])
def both(client, request):
    """Items with what is at them, of every second also loads at hangers and a place in the job."""
    rng = np.random.default_rng(51 + (request.param == "si"))
    units = MixedUnits(rng, request.param)
    made = [(Body if number % 2 else Rack)(rng, number, units) for number in range(COUNT)]
    for number, each in enumerate(made):
        each.given = [dict.fromkeys(NATURES, 0.0) for _ in each.places]
        each.item["given"] = []
        for nature in ("snow", "wind", "roof_live", "live")[: 2 * (number % 3)]:
            at = int(rng.integers(len(each.places)))
            posted, load = units.of("force", rng.uniform(5, 300))
            each.item["given"].append({"hanger": at, "nature": nature, "tension": posted})
            each.given[at][nature] += load
        origin, each.origin = zip(*(units.of("distance", rng.uniform(-200, 200)) for _ in range(2)), strict=True)
        each.bearing = float(rng.uniform(-360, 360))
        each.item["at"] = {"x": origin[0], "y": origin[1], "bearing": each.bearing}
    body = {"units": request.param, "load_standard": "asce7_16", "items": [each.item for each in made]}
    response = client.post(HANGER_LOADS.path, json=body)
    assert response.status_code == 200, response.text[:800]
    return units, list(zip(made, response.json()["items"], strict=True))


def by_nature(made, at, omega=1.0):
    """Service loads of one hanger in lbf, its S_DS."""
    loads = dict(made.given[at])
    for nature, own in made.loads.items():
        loads[nature] += own[at]
    braced = getattr(made, "braced", 0.0)
    loads["earthquake"] += omega * braced
    return loads, S_DS if braced else 0.0


def largest(loads, s_ds, allowable):
    still = dict.fromkeys(NATURES, (0.0, 0.0))
    return max(pull for pull, _ in combined(loads, still, s_ds, "asce7_16", allowable, 0.0).values())


def test_loads_of_hangers(both):
    units, pairs = both
    for made, item in pairs:
        size = units.pound * sum(own.sum() for own in made.loads.values())
        assert len(item["hangers"]) == len(made.places)
        for at, hanger in enumerate(item["hangers"]):
            loads, s_ds = by_nature(made, at)
            told = {nature: hanger["service"].get(nature, 0.0) for nature in NATURES}
            assert told == pytest.approx(
                {of: units.pound * own for of, own in loads.items()}, rel=1e-6, abs=1e-6 * size
            )
            for name, allowable in (("service_tension", True), ("factored_tension", False)):
                expected = units.pound * largest(loads, s_ds, allowable)
                assert hanger[name] == pytest.approx(expected, rel=1e-6, abs=1e-6 * size)


def test_places_of_hang_points(both):
    """Turned about the origin by the bearing."""
    units, pairs = both
    foot = 1.0 if units.system == "us" else 0.3048
    for made, item in pairs:
        turn = np.exp(1j * made.bearing * pi / 180)
        for point, (x, y) in zip(item["hang_points"], made.places, strict=False):
            expected = (complex(*made.origin) + complex(x, y) * turn) * foot
            assert complex(point["at"]["x"], point["at"]["y"]) == pytest.approx(expected, abs=1e-6)


def test_braces(both):
    """The anchor of a brace leans as the brace does, and has Omega_0."""
    units, pairs = both
    seen = 0
    for made, item in pairs:
        if not getattr(made, "braced", 0.0):
            continue
        (own,) = item["hang_points"][-1]["hangs"]["components"]
        slide = np.hypot(own.get("shear_x", 0.0), own.get("shear_y", 0.0))
        assert own["tension"] == pytest.approx(OMEGA_0 * made.braced * units.pound)
        assert atan(slide / own["tension"]) * 180 / pi == pytest.approx(made.item["seismic"]["brace"]["angle"])
        seen += 1
    assert seen > 10


def test_factored_tension_of_the_anchors(both, client):
    """The hang points go on as they are, with Omega_0 on what the brace pulls."""
    units, pairs = both
    defaults = {"anchor": {"family": "undercut-zinc", "size": "1/2", "h_ef": "5 in"}, "base": BASE}
    points, expected = [], {}
    for made, item in pairs:
        for at, point in enumerate(item["hang_points"][: len(made.places)]):
            points.append({of: own for of, own in point.items() if of not in ("at", "rod")})
            expected[point["id"]] = units.pound * largest(*by_nature(made, at, OMEGA_0), False)
    body = {"units": units.system, "load_standard": "asce7_16", "neighbours": "off", "detail": "modes"}
    body |= {"defaults": {**defaults, "seismic": {"category": "B"}}, "items": points}
    response = client.post("/v1/hang-points", json=body)
    assert response.status_code == 200, response.text[:800]
    told = {item["id"]: item["demand"]["factored_tension"] for item in response.json()["items"] if "demand" in item}
    assert len(told) > 0.9 * len(expected)
    scale = max(expected.values())
    assert told == pytest.approx({of: expected[of] for of in told}, rel=1e-5, abs=1e-6 * scale)
