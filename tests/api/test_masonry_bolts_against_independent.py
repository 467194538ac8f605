"""Bolts in masonry, request to answer, against plain loops: own code, not an outside check (``independent_bolts``)."""

import math
import random
from collections import Counter

import pytest

from core.allowable.independent_bolts import MODES, SIDES, distribution, verdict

COUNT = 700
FACTORS = {
    "allowable": {"D": (1.0, 0.0), "D+L": (1.0, 1.0)},
    "strength": {"1.4D": (1.4, 0.0), "1.2D+1.6L": (1.2, 1.6)},
    "given_factored": {"as given": (1.0, 1.0)},
}
"""ASCE 7 2.4.1 and ACI 318-19 5.3.1 of dead and live load; loads given as factored have no factor."""
HEADS = [(0.5, 0.1419), (0.625, 0.226), (0.75, 0.3345), (0.875, 0.4617), (1.0, 0.6057)]
EDITIONS = ("tms402_13", "tms402_16")


def product(random):
    """Invented: a headed bolt or a bent bar, at times too shallow."""
    d_b, a_b = random.choice(HEADS)
    bent = random.random() < 0.5
    h_ef = d_b * random.uniform(3.5, 5.5) if random.random() < 0.15 else d_b * random.uniform(6.0, 14.0)
    e_b = d_b * random.uniform(3.0, 4.5) if bent else None
    return {"h_ef": h_ef, "d_b": d_b, "a_b": a_b, "f_y": random.choice([36_000.0, 55_000.0]), "e_b": e_b}


def inline(bolt):
    shape = {"hook": {"e_h": bolt["e_b"]}} if bolt["e_b"] is not None else {"head": {"a_brg": 0.9}}
    return {
        "units": "us",
        "principle": "headed_cast_in" if bolt["e_b"] is None else "hooked_cast_in",
        "basis": "cast_in",
        "source": {"document": "invented for a test", "date": "2026-01-01", "standard": "none"},
        "traits": {"bases": ["masonry"], "sustained_tension": True},
        "size": {"size": "bolt", "d_a": bolt["d_b"], "a_se": bolt["a_b"], "f_uta": 75_000, "f_ya": bolt["f_y"]}
        | {"ductile": True}
        | shape,
        "embedment": {"h_ef": bolt["h_ef"], "h_min": bolt["h_ef"] + 1.0, "c_min": 0.1, "s_min": 0.1},
    }


def layout(random):
    """One bolt to four, on a line or not, none nearer to another than 1 in."""
    while True:
        count = random.choice([1, 1, 2, 2, 3, 4])
        if random.random() < 0.4:
            line, step = random.choice([(1, 0), (0, 1)]), random.uniform(1.1, 14.0)
            bolts = [(line[0] * step * i, line[1] * step * i) for i in range(count)]
        else:
            bolts = [(random.uniform(-7, 7), random.uniform(-7, 7)) for _ in range(count)]
        if all(math.dist(one, other) > 1.0 for i, one in enumerate(bolts) for other in bolts[:i]):
            return bolts


def spans(bolts):
    """How much the bolts spread across their flattest line: 0 on a line."""
    return max(
        abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) for a in bolts for b in bolts for c in bolts
    )


def load(random, kind, size):
    signs = (random.choice([-1, 1]), random.choice([-1, 1]))
    directions = random.choice([(1, 1), (1, 1), (1, 0), (0, 1)])
    pull = size * random.uniform(0.2, 1.0) if kind != "shear" else 0.0
    shear = [size * random.uniform(0.1, 1.0) * sign * there for sign, there in zip(signs, directions, strict=True)]
    return [*([0.0, 0.0] if kind == "tension" else shear), pull]


def case(random, number, combinations):
    """One item and what the plain calculation says of it, to which an open cell is an edge."""
    bolt, bolts = product(random), layout(random)
    kind = random.choice(["both", "both", "both", "tension", "shear"])
    size = math.exp(random.uniform(math.log(100), math.log(4_000))) * len(bolts)
    dead = load(random, kind, size)
    live = load(random, kind, 0.7 * size) if random.random() < 0.6 else [0.0, 0.0, 0.0]
    at = [random.uniform(-2, 2), random.uniform(-2, 2), random.uniform(0, 2)] if spans(bolts) > 12.0 else [0.0] * 3
    moment = [0.0, 0.0, 0.0]
    if len(bolts) > 1 and random.random() < 0.3 and kind != "tension":
        moment[2] = size * random.uniform(-2.0, 2.0)
    if spans(bolts) > 12.0 and random.random() < 0.3 and kind != "shear":
        moment[:2] = [size * random.uniform(-1.0, 1.0) for _ in range(2)]
    if spans(bolts) <= 12.0:
        at[:2] = [sum(each[axis] for each in bolts) / len(bolts) for axis in (0, 1)]
    if kind != "both":
        at[2] = 0.0
    edges = {
        side: max(0.0, *(sign * each[axis] for each in bolts)) + random.uniform(0.5, random.choice([6.0, 14.0, 40.0]))
        if random.random() < 0.55
        else math.inf
        for side, axis, sign in (("x_minus", 0, -1), ("x_plus", 0, 1), ("y_minus", 1, -1), ("y_plus", 1, 1))
    }
    thickness = bolt["h_ef"] + random.choice([random.uniform(0.5, 2.0), random.uniform(2.0, 40.0)])
    f_m, edition = random.uniform(1_500.0, 3_500.0), random.choice(EDITIONS)
    cells = {side for side in SIDES if random.random() < 0.3}
    names = ("shear_x", "shear_y", "tension", "moment_x", "moment_y", "torsion")
    loads = [("dead", [*dead, *moment]), ("live", [*live, 0.0, 0.0, 0.0])]
    components = [
        {"nature": nature} | {name: value for name, value in zip(names, values, strict=True) if value}
        for nature, values in loads
        if any(values)
    ]
    hangs = {"kind": "forces", "components": components, "at": dict(zip("xyz", at, strict=True))}
    stated = {side: edges[side] if math.isfinite(edges[side]) else "none" for side in SIDES}
    item = {
        "id": str(number),
        "hangs": hangs,
        "anchor": {"product": inline(bolt), "layout": [{"x": x, "y": y} for x, y in bolts]},
        "base": {
            "kind": "masonry",
            "masonry": {"units": "grouted", "material": "concrete", "f_m": f_m, "location": "cell"}
            | {f"open_{side}": stated[side] for side in cells},
            "thickness": thickness,
            "face": "side",
            "edges": stated | dict.fromkeys(cells, "none"),
        },
        "options": {"masonry_edition": edition},
        "seismic": {"category": "B"},
    }
    cases = []
    for name, (of_dead, of_live) in FACTORS[combinations].items():
        force = [of_dead * d + of_live * v for d, v in zip(dead, live, strict=True)]
        cases.append((name, distribution(bolts, force, [of_dead * each for each in moment], at)))
    expected = verdict(
        bolts=bolts,
        cases=cases,
        edges=edges,
        thickness=thickness,
        f_m=f_m,
        method="allowable" if combinations == "allowable" else "strength",
        edition=edition,
        **bolt,
    )
    return item, expected


@pytest.fixture(scope="module", params=list(FACTORS))
def answered(request, client):
    """Items of one kind of combinations: what the service says of each, and the plain calculation."""
    seeded = random.Random(f"TMS 402 {request.param}")
    made = [case(seeded, number, request.param) for number in range(COUNT)]
    body = {"units": "us", "detail": "modes", "combinations": request.param, "neighbours": "off"}
    response = client.post("/v1/hang-points", json=body | {"items": [item for item, _ in made]})
    assert response.status_code == 200, response.text
    return list(zip(response.json()["items"], (expected for _, expected in made), strict=True))


def modes_of(result):
    return {mode["mode"]: mode for mode in result["modes"] if mode["mode"] in MODES}


def test_every_mode(answered):
    """Strength, demand, utilisation, load case, bolt and edge of the worst, or why the mode doesn't apply."""
    for result, expected in answered:
        for name, mode in modes_of(result).items():
            where = (result["id"], name)
            if not mode["applies"]:
                assert (where, mode["reason"]) == (where, expected.reasons[name])
                continue
            worst = expected.modes[name]
            assert mode["utilisation"] == pytest.approx(worst.utilisation, rel=1e-9), where
            assert mode["design_strength"] == pytest.approx(worst.strength, rel=1e-9), where
            assert mode["demand"] == pytest.approx(worst.demand, rel=1e-9), where
            (bolt,) = mode.get("anchors", [0])
            assert (mode["load_case"], bolt, mode.get("edge")) in worst.places, where
        assert set(modes_of(result)) == set(MODES)


def test_verdicts(answered):
    for result, expected in answered:
        found = {each["code"] for each in result["findings"] if each["severity"] == "violation"}
        assert (result["id"], found) == (result["id"], expected.violations)
        assert (result["id"], result["status"]) == (result["id"], expected.status)
        assert (result["id"], result["governing"]["mode"]) == (result["id"], expected.governing)


def test_everything_is_reached(answered):
    """Each mode governs and applies, each reason, cut, side and violation is there, often enough to mean something."""
    counts = Counter()
    for result, expected in answered:
        counts.update(expected.reached)
        counts.update(expected.violations)
        counts.update([result["status"], f"governs {expected.governing}"])
        counts.update(f"{name} applies" for name in expected.modes)
        counts.update(f"{name}: {reason}" for name, reason in expected.reasons.items())
    cuts = [*SIDES, "overlap", "equal part"]
    tension = ("masonry_steel_tension", "masonry_pullout", "masonry_breakout_tension")
    shear = ("masonry_steel_shear", "masonry_crushing", "masonry_pryout")
    wanted = {
        *(f"{name} applies" for name in MODES),
        *(f"governs {name}" for name in MODES if name not in ("masonry_steel_shear", "masonry_pryout")),
        *(f"{name}: no-tension" for name in tension),
        *(f"{name}: no-shear" for name in shear),
        "masonry_pullout: not-a-bent-bar",
        "masonry_breakout_shear: no-edge-sheared",
        "masonry_interaction: tension-or-shear-only",
        *(f"{kind} {cut}" for kind in ("tension", "pryout") for cut in cuts),
        *(f"shear {cut}" for cut in ("left", "right", "behind", "overlap", "equal part")),
        *(f"towards {side}" for side in SIDES),
        "two edges",
        *(f"masonry-{what}-below-minimum" for what in ("embedment", "edge", "spacing", "thickness")),
        "anchor-pushed",
        "passed",
        "failed",
    }
    assert {name: counts[name] for name in wanted if counts[name] < 3} == {}
    rare = {"governs masonry_steel_tension", "governs masonry_pullout"}
    assert {name: counts[name] for name in wanted - rare if counts[name] < 8} == {}
