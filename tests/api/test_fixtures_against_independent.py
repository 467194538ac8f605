"""Fixtures at random, in mixed units, against vector products and a least-squares solution: own code, no outside check.

From what is posted to the bodies for the check of anchors, and on to the forces of anchors in those checks: every
combination of ASCE 7, 2.3, typed anew, with every load of it that may be absent there or not.
"""

from itertools import product

import numpy as np
import pytest

from api.mixed_units import MixedUnits
from core.hanger.independent_loads import component_force
from hangpoint.api.resources.fixtures import FIXTURES

COUNT = 120
NATURES = ("dead", "contents", "live", "roof_live", "snow", "wind")
AXES = ("shear_x", "shear_y", "tension", "moment_x", "moment_y", "torsion")
BUILDING = {"z": 20.0, "h": 50.0, "i_p": 1.5, "a_p": 2.5, "r_p": 6.0, "omega_0": 2.0}
NO_EDGE = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
COMBINATIONS = [
    "1.4 D",
    "1.2 D 1.6 live 0.5 roof_live",
    "1.2 D 1.6 live 0.5 snow",
    "1.2 D 1.6 roof_live 1 live",
    "1.2 D 1.6 roof_live 0.5 wind",
    "1.2 D 1.6 snow 1 live",
    "1.2 D 1.6 snow 0.5 wind",
    "1.2 D 1 wind 1 live 0.5 roof_live",
    "1.2 D 1 wind 1 live 0.5 snow",
    "0.9 D 1 wind",
    "1.2 D 1 up 1 earthquake 1 live 0.2 snow",
    "0.9 D -1 up 1 earthquake",
]
"""ASCE 7-16, 2.3.1 and 2.3.6; `up` is the vertical effect."""


class Made:
    """An item as posted, its forces as (nature, vector or size in any direction, place), anchors, S_DS."""

    def __init__(self, rng, number, units):
        self.rng, self.units = rng, units
        self.kind = str(rng.choice(["bracket", "wall_equipment", "floor_equipment", "post"]))
        self.side = self.kind in ("bracket", "wall_equipment")
        self.down = np.array([0.0, -1.0, 0.0] if self.side else [0.0, 0.0, -1.0])
        self.item = {"id": f"f{number}", "kind": self.kind, "directions": 4}
        self.forces, self.anchors, self.s_ds = [], None, 0.0
        if self.kind == "bracket":
            self.item["loads"] = [self._load() for _ in range(rng.integers(1, 4))]
        else:
            self._body()
        self.item["horizontal"] = [self._horizontal() for _ in range(rng.integers(0, 3))]
        if self.kind != "floor_equipment":
            self.item["forces"] = [self._force() for _ in range(rng.integers(0, 3))]
        self._shake()

    def _place(self):
        return self.units.point("xyz", (*self.rng.uniform(-20, 20, 2), self.rng.uniform(1, 60)))

    def _load(self):
        nature, (at, place) = str(self.rng.choice(NATURES)), self._place()
        posted, weight = self.units.of("weight", self.rng.uniform(10, 2e3))
        self.forces.append((nature, weight * self.down, place))
        return {"nature": nature, "weight": posted, "at": at}

    def _body(self):
        posted, weight = self.units.of("weight", self.rng.uniform(100, 5e3))
        inside, contents = self.units.of("weight", weight * self.rng.uniform(0.1, 0.9))
        at, place = self._place()
        self.item |= {"weight": posted, "centre_of_gravity": at}
        if self.kind == "post":
            contents = 0.0
        else:
            self.item["contents"] = inside
        self.forces += [("dead", (weight - contents) * self.down, place), ("contents", contents * self.down, place)]
        if self.kind == "floor_equipment":
            places = self.rng.uniform(-30, 30, (int(self.rng.integers(3, 7)), 2))
            both = [self.units.point("xy", place) for place in places]
            self.item["anchors_at"], self.anchors = [own[0] for own in both], np.array([own[1] for own in both])

    def _horizontal(self):
        nature, (at, place) = str(self.rng.choice(["live", "wind"])), self._place()
        posted, force = self.units.of("force", self.rng.uniform(10, 1e3))
        if self.rng.random() < 0.5:
            self.forces.append((nature, force, place))
            return {"nature": nature, "force": posted, "at": at}
        degrees = float(self.rng.uniform(-180, 180))
        self.forces.append((nature, self.turned(force, degrees), place))
        return {"nature": nature, "force": posted, "at": at, "direction": degrees}

    def _force(self):
        nature, (at, place) = str(self.rng.choice(NATURES)), self._place()
        both = [self.units.of("force", self.rng.uniform(-800, 800)) for _ in range(3)]
        self.forces.append((nature, np.array([own[1] for own in both]), place))
        return {"nature": nature, "at": at, **dict(zip(AXES, (own[0] for own in both), strict=False))}

    def _shake(self):
        heavy = [(-vector @ -self.down, place) for nature, vector, place in self._weights()]
        if not heavy or self.rng.random() < 0.4:
            return
        self.s_ds = round(self.rng.uniform(0.2, 2.0), 2)
        own = {**BUILDING, "s_ds": self.s_ds, "newer": False, "isolator_gap": False}
        coefficients = {name: own[name] for name in ("a_p", "r_p", "omega_0")}
        self.item["seismic"] = {"category": "B", "s_ds": self.s_ds, "coefficients": coefficients, "i_p": own["i_p"]}
        self.item["seismic"] |= {"z": f"{own['z']} ft", "h": f"{own['h']} ft"}
        share = own["omega_0"] * component_force(own, 1.0)
        self.forces += [("earthquake", share * weight, place) for weight, place in heavy if weight > 0]

    def _weights(self):
        """Dead load and contents of bodies and on arms; those stated as a force are in no seismic weight."""
        own = 2 if self.kind != "bracket" else len(self.item["loads"])
        return [each for each in self.forces[:own] if each[0] in ("dead", "contents")]

    def turned(self, force, degrees):
        cosine, sine = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
        return force * (np.array([cosine, 0.0, sine]) if self.side else np.array([cosine, sine, 0.0]))

    def ways(self):
        """(direction or None, {nature: six components}) of each way."""
        free = any(np.isscalar(force) for _, force, _ in self.forces)
        found = []
        for degrees in (0.0, 90.0, 180.0, 270.0) if free else (None,):
            sums = {}
            for nature, force, place in self.forces:
                vector = self.turned(force, degrees) if np.isscalar(force) else force
                own = np.concatenate((vector, np.cross(place, vector)))
                sums[nature] = sums.get(nature, np.zeros(6)) + own
            found.append((degrees, sums))
        return found


@pytest.fixture(scope="module", params=["us", "si"])
def both(client, request):
    rng = np.random.default_rng(41 + (request.param == "si"))
    units = MixedUnits(rng, request.param)
    made = [Made(rng, number, units) for number in range(COUNT)]
    body = {"units": request.param, "load_standard": "asce7_16", "items": [each.item for each in made]}
    response = client.post(FIXTURES.path, json=body)
    assert response.status_code == 200, response.text[:800]
    items = response.json()["items"]
    assert {item["status"] for item in items} <= {"passed", "failed"}
    return units, list(zip(made, items, strict=True))


def six(component, units):
    """Components in lbf and lbf*in; a moment in kN*m is 1,000/25.4 of one in kN*in."""
    inches = 1.0 if units.system == "us" else 1e3 / 25.4
    return np.array([component[name] for name in AXES]) / units.pound * ([1.0] * 3 + [inches] * 3)


def close(got, expected, scale):
    assert np.abs(np.asarray(got) - expected).max() <= 1e-9 * scale


def test_loads_at_the_anchors(both):
    units, pairs = both
    for made, item in pairs:
        ways = made.ways()
        assert [way.get("direction") for way in item["loads"]] == [degrees for degrees, _ in ways]
        for (_, sums), way, body in zip(ways, item["loads"], item["anchor_groups"], strict=True):
            told = {each["nature"]: six(each, units) for each in way["components"]}
            handed = {}
            for each in body["group"]["loads"]["components"]:
                handed[each["nature"]] = handed.get(each["nature"], np.zeros(6)) + six(each, units)
            assert set(told) == set(handed) == {nature for nature, own in sums.items() if own.any()}
            for nature in told:
                close(told[nature], sums[nature], 1e7)
                close(handed[nature], sums[nature], 1e7)


def pulls_of(anchors):
    """Matrix of the tensions that anchors share elastically of (tension, moment x, moment y)."""
    return np.linalg.pinv(np.stack((np.ones(len(anchors)), anchors[:, 1], -anchors[:, 0])))


def shears_of(anchors, load):
    """(anchors, 2) of direct shear and of torsion about the middle of the anchors."""
    arm = anchors - anchors.mean(axis=0)
    torsion = load[5] - anchors.mean(axis=0) @ np.array([load[1], -load[0]])
    return load[:2] / len(arm) + torsion / (arm**2).sum() * np.stack((-arm[:, 1], arm[:, 0]), axis=1)


def test_supports_of_floor_equipment(both):
    units, pairs = both
    seen = 0
    for made, item in pairs:
        for (_, sums), way in zip(made.ways(), item["loads"], strict=True):
            for support in way.get("supports", ()):
                for each in support["components"]:
                    load, at = sums[each["nature"]], support["support"]
                    pull, slide = pulls_of(made.anchors) @ load[2:5], shears_of(made.anchors, load)
                    got = np.array([each["tension"], each["shear_x"], each["shear_y"]]) / units.pound
                    close(got, [pull[at], *slide[at]], max(np.abs(pull).max(), np.abs(slide).max(), 1.0) * 1e3)
                    seen += 1
    assert seen > 300


def shared(anchors, load):
    """(anchors, 3) of tension and shear of a load at the origin."""
    return np.column_stack((pulls_of(anchors) @ load[2:5], shears_of(anchors, load)))


def shaken(anchors, load):
    """Earthquake as the check of a group takes it: at the middle of the anchors it pulls, all else acts either way."""
    middle = np.array([*anchors.mean(axis=0), 0.0])
    about = load[3:] - np.cross(middle, load[:3])
    found = []
    for way in (1.0, -1.0):
        force = np.array([way * load[0], way * load[1], abs(load[2])])
        found.append(shared(anchors, np.concatenate((force, way * about + np.cross(middle, force)))))
    return found


def most(anchors, sums, s_ds):
    """The largest tension and shear of any anchor over all combinations and whatever of them may be absent."""
    none = np.zeros((len(anchors), 3))
    each = {nature: (none, shared(anchors, load)) for nature, load in sums.items() if nature != "earthquake"}
    each["dead"] = each.get("dead", (none, none))[1:]
    if s_ds:
        each["earthquake"] = shaken(anchors, sums.get("earthquake", np.zeros(6)))
    largest = np.zeros(2)
    for text in COMBINATIONS:
        numbers, names = text.split()[::2], text.split()[1::2]
        factors = {name: float(number) for name, number in zip(names, numbers, strict=True)}
        if "up" in factors and not s_ds:
            continue
        stays = factors.pop("D") + 0.2 * s_ds * factors.pop("up", 0.0)
        factors |= {"dead": stays, "contents": stays}
        for chosen in product(*([by * own for own in each[of]] for of, by in factors.items() if of in each)):
            whole = sum(chosen)
            largest = np.maximum(largest, [whole[:, 0].max(), np.hypot(whole[:, 1], whole[:, 2]).max()])
    return largest


def body_of_group(body, made, units):
    """The body with anchors, where it brings none, and a base without edges; without a plate all share elastically."""
    group = body["group"]
    anchors = made.anchors
    if anchors is None:
        anchors = np.array([(-5.0, -4.0), (5.0, -4.0), (5.0, 4.0), (-5.0, 4.0)])
        group["anchor"] = {"layout": [{"x": f"{x} in", "y": f"{y} in"} for x, y in anchors]}
    group["anchor"] |= {"family": "headed-bolt", "size": "5/8", "h_ef": "6 in"}
    face = "side" if made.side else "top"
    group["base"] = {"kind": "concrete", "strength": {"f_c": "4000 psi"}, "density": "normalweight"}
    group["base"] |= {"state": "cracked", "thickness": "40 in", "face": face, "edges": NO_EDGE}
    group["seismic"] = {"category": "B"} | group.get("seismic", {})
    return {**body, "detail": "modes"}, anchors


def test_forces_of_the_anchors_that_are_checked(both, client):
    """One way of each item; anchors that stand too near each other are left out.

    Anchors that are pushed are a finding there; what is compared is what pulls, and the shear.
    """
    units, pairs = both
    seen = quakes = 0
    for number, (made, item) in enumerate(pairs):
        way = number % len(item["anchor_groups"])
        body, anchors = body_of_group(item["anchor_groups"][way], made, units)
        response = client.post("/v1/anchor-group", json=body)
        if response.status_code == 422:
            assert "coincident" in response.text
            continue
        (found,) = response.json()["items"]
        modes = {each["mode"]: each.get("demand", 0.0) / units.pound for each in found["modes"]}
        pull, slide = most(anchors, made.ways()[way][1], made.s_ds)
        assert modes["steel_tension"] == pytest.approx(pull, rel=1e-6, abs=1e-3)
        assert modes["steel_shear"] == pytest.approx(slide, rel=1e-6, abs=1e-3)
        seen += 1
        quakes += made.s_ds > 0
    assert seen > 0.8 * COUNT
    assert quakes > 20
