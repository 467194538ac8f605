"""Anchors by tables in masonry, request to answer, against plain loops: own code, not an outside check."""

import math
import random
from collections import Counter

import pytest

from api.independent_tables import SIDES, Anchor, verdict
from core.allowable.independent_bolts import distribution

SITES = 220
CASES = {"D": (1.0, 0.0), "D+L": (1.0, 1.0)}
"""ASCE 7 2.4.1 of dead and live load."""
H_MIN = 4.0


def distance(random, least):
    """A rule of an edge or a spacing, one that doesn't reduce among them."""
    least *= random.uniform(0.8, 1.2)
    if random.random() < 0.25:
        return {"least": least}
    return {"least": least, "full": least * random.uniform(1.5, 5.0), "factor": random.uniform(0.2, 0.95)}


def tables(random):
    """Of both directions, at times for two strengths of the units. Invented."""
    word, made = random.choice(["linear", "power_5_3"]), []
    one_a_cell = random.random() < 0.3
    for direction in ("tension", "shear"):
        for f_c in random.sample([1500.0, 2000.0, 2500.0], random.choice([1, 1, 2])):
            mean, safety = random.uniform(2_000, 9_000), random.choice([4.0, 5.0, 6.0])
            row = {"size": "1/2", "h_ef": 3, "mean_ultimate": mean}
            row |= {"allowable": mean / safety * random.uniform(0.995, 1.005)}
            row |= {"edge": distance(random, 3.0), "spacing": distance(random, 3.0)}
            table = {"title": direction, "direction": direction, "base": "masonry", "masonry": "grouted"}
            table |= {"material": "clay", "locations": ["cell", "face"], "state": "uncracked", "f_c": f_c}
            table |= {"safety_factor": safety, "one_a_cell": one_a_cell, "rows": [row]}
            table |= {"interaction": word if random.random() < 0.8 else "linear"}
            if random.random() < 0.5:
                table |= {"strength_exponent": random.uniform(0.2, 1.0), "least_strength": f_c * 0.8}
            if random.random() < 0.5:
                table["least_joint"] = random.uniform(0.5, 2.0)
            if random.random() < 0.5:
                table["least_thickness"] = random.uniform(5.0, 8.0)
            made.append(table)
    return made


def product(own):
    return {
        "units": "us",
        "principle": "torque_controlled_expansion",
        "basis": "allowable_table",
        "source": {"document": "invented for a test", "date": "2026-01-01", "standard": "none"},
        "traits": {"bases": ["masonry"], "sustained_tension": True, "tension_overhead": True},
        "size": {"size": "1/2", "d_a": 0.5, "a_se": 0.142, "f_uta": 75_000, "f_ya": 60_000, "ductile": True},
        "embedment": {"h_ef": 3, "h_min": H_MIN, "c_min": 0.5, "s_min": 0.5},
        "tables": own,
    }


def layout(random):
    """One anchor to four, a rectangle, a row or none of these."""
    count = random.choice([1, 1, 1, 2, 3, 4])
    if count == 4 and random.random() < 0.7:
        x, y = random.uniform(2, 8), random.uniform(2, 8)
        return [(sx * x, sy * y) for sx in (-0.5, 0.5) for sy in (-0.5, 0.5)]
    while True:
        found = [(random.uniform(-6, 6), random.uniform(-6, 6)) for _ in range(count)]
        if all(math.dist(one, other) > 1.5 for i, one in enumerate(found) for other in found[:i]):
            return found


def force(random, size, kind):
    shear = [size * random.uniform(-1, 1) for _ in range(2)] if kind != "tension" else [0.0, 0.0]
    return [*shear, size * random.uniform(0.2, 1.0) if kind != "shear" else 0.0]


def site(random, number):
    """Items of one ceiling of masonry, near each other or not, and what the plain calculation says of each."""
    own, f_m = tables(random), random.choice([1500.0, 1800.0, 2200.0, 2500.0, 3000.0])
    thickness, joint = random.uniform(4.5, 12.0), random.uniform(0.5, 3.0)
    walls = {side: random.uniform(2, 14) if random.random() < 0.4 else math.inf for side in SIDES}
    centres, at = [], 0.0
    for _ in range(random.choice([1, 2, 3])):
        centres.append((at, random.uniform(-4.0, 4.0)))
        at += random.uniform(4.0, 26.0)
    layouts = [layout(random) for _ in centres]
    placed = [[(cx + x, cy + y) for x, y in own] for (cx, cy), own in zip(centres, layouts, strict=True)]
    everywhere = [each for several in placed for each in several]
    if any(math.dist(a, b) < 1.5 for i, a in enumerate(everywhere) for b in everywhere[:i]):
        return site(random, number)
    low = {axis: min(each[axis] for each in everywhere) for axis in (0, 1)}
    high = {axis: max(each[axis] for each in everywhere) for axis in (0, 1)}
    lines = {"x_minus": low[0], "x_plus": -high[0], "y_minus": low[1], "y_plus": -high[1]}

    def to_edges(x, y):
        ways = {"x_minus": x, "x_plus": -x, "y_minus": y, "y_plus": -y}
        return {side: walls[side] + ways[side] - lines[side] for side in SIDES}

    if any(min(to_edges(*centre).values()) < 0.1 for centre in centres):
        return site(random, number)
    items, expected = [], []
    anchors = [[Anchor(p, x, y, to_edges(x, y)) for x, y in several] for p, several in enumerate(placed)]
    for p, (centre, own_layout) in enumerate(zip(centres, layouts, strict=True)):
        kind, size = random.choice(["both", "both", "tension", "shear"]), random.uniform(40, 900)
        dead, live = force(random, size, kind), force(random, size / 2, kind)
        at = [sum(each[axis] for each in own_layout) / len(own_layout) for axis in (0, 1)] + [0.0]
        if len(own_layout) > 3 and kind != "shear":
            at[0] += random.uniform(-1, 1)
        components = [
            {"nature": nature} | {n: v for n, v in zip(("shear_x", "shear_y", "tension"), values, strict=True) if v}
            for nature, values in (("dead", dead), ("live", live))
        ]
        hangs = {"kind": "forces", "components": components, "at": dict(zip("xyz", at, strict=True))}
        edges = {side: c if math.isfinite(c) else "none" for side, c in to_edges(*centre).items()}
        items.append(
            {
                "id": f"{number}-{p}",
                "at": {"level": str(number), "x": centre[0] / 12, "y": centre[1] / 12, "z": 0},
                "hangs": hangs,
                "anchor": {"product": product(own), "layout": [{"x": x, "y": y} for x, y in own_layout]},
                "base": {
                    "kind": "masonry",
                    "masonry": {"units": "grouted", "material": "clay", "f_m": f_m, "location": "cell"}
                    | {"joint_distance": joint},
                    "thickness": thickness,
                    "face": "soffit",
                    "edges": edges,
                },
                "seismic": {"category": "B"},
            }
        )
        cases = []
        for name, (of_dead, of_live) in CASES.items():
            total = [of_dead * d + of_live * v for d, v in zip(dead, live, strict=True)]
            cases.append((name, distribution(own_layout, total, [0.0] * 3, at)))
        expected.append(
            verdict(
                own=anchors[p],
                others=[each for q, several in enumerate(anchors) if q != p for each in several],
                cases=cases,
                tables=own,
                strength=f_m,
                thickness=thickness,
                joint=joint,
                h_min=H_MIN,
            )
        )
    return items, expected


@pytest.fixture(scope="module")
def answered(client):
    seeded = random.Random("tables in masonry")
    sites = [site(seeded, number) for number in range(SITES)]
    body = {"units": "us", "detail": "modes", "items": [item for items, _ in sites for item in items]}
    response = client.post("/v1/hang-points", json=body)
    assert response.status_code == 200, response.text[:500]
    expected = [each for _, several in sites for each in several]
    return list(zip(body["items"], response.json()["items"], expected, strict=True))


def test_every_mode(answered):
    for item, result, expected in answered:
        found = {m["mode"]: m for m in result["modes"] if m["mode"].startswith("table") and m["applies"]}
        assert set(found) == set(expected.modes), item["id"]
        for name, mode in found.items():
            utilisation, strength, demand, case = expected.modes[name]
            assert mode["utilisation"] == pytest.approx(utilisation, rel=1e-9), (item["id"], name)
            assert mode["design_strength"] == pytest.approx(strength, rel=1e-9), (item["id"], name)
            assert mode["demand"] == pytest.approx(demand, rel=1e-9), (item["id"], name)
            assert mode["load_case"] == case, (item["id"], name)


def test_verdicts(answered):
    for item, result, expected in answered:
        found = {each["code"] for each in result["findings"] if each["severity"] == "violation"}
        assert found - {"neighbour-below-minimum-spacing"} == expected.violations, item["id"]
        worst = max(each[0] for each in expected.modes.values())
        assert result["status"] == ("failed" if worst > 1.0 or expected.violations else "passed"), item["id"]


def test_everything_is_reached(answered):
    counts = Counter()
    for _, result, expected in answered:
        counts.update(expected.violations)
        counts.update(list(expected.modes))
        counts.update([result["status"], "near" if result.get("neighbours", {}).get("by_spacing") else "alone"])
    assert {name: count for name, count in counts.items() if count < 8} == {}
    assert len(counts) == 3 + 6 + 4, counts
