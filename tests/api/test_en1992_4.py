"""Whole requests by EN 1992-4 against own scalar code: combinations, forces, every mode, what governs, the verdict.

`core.en1992_4.hang_points` draws the points and says what is expected; nothing of it comes from the service.
"""

import math
import random
from collections import Counter

import pytest

from core.en1992_4.hang_points import CLASSES, MODES, anchor_of, columns, expected, product, worst

EN = {"units": "si", "design_code": "en1992_4", "detail": "modes", "neighbours": "off"}
COUNT = 500
NATURES = ("dead", "live", "contents", "snow", "wind")
OF_SHEAR = {"shear_x", "shear_y", "torsion"}


def _components(rng, kind, size):
    """Loads that pull, in kN and kN m; the shears of all of them in one quadrant, so that none relieves another."""
    found = []
    quadrant = rng.choice([-1, 1]), rng.choice([-1, 1])
    for nature in ("dead", *rng.sample(NATURES[1:], rng.choice([0, 1, 1, 2]))):
        own = {"nature": nature, "tension": round(size * rng.uniform(0.2, 1.0), 3)}
        if kind in ("shear", "oblique", "both", "torsion"):
            angle = rng.choice([0.0, 0.5]) * math.pi if kind == "shear" else rng.uniform(0, 0.5 * math.pi)
            force = size * rng.uniform(0.2, 1.5)
            along = force * math.cos(angle), force * math.sin(angle)
            own |= {f"shear_{axis}": round(q * v, 3) for axis, q, v in zip("xy", quadrant, along, strict=True)}
        found.append(own)
    return found


def drawn(rng, at):
    """One request's item, and the point as `expected` reads it."""
    own = product(rng)
    h_ef, d = own["embedment"]["h_ef"], own["size"]["d_a"]
    headed_without = "c_cr_sp" not in own["embedment"]["en"]
    kind = rng.choice(["tension", "shear", "oblique", "oblique", "torsion"])
    form = rng.choice(["single", "single", "row", "rectangle", "plate", "contact", "contact"])
    spacing = round(h_ef * rng.choice([rng.uniform(0.5, 3.5), 1.0]), 0)
    counts = {"single": (1, 1), "row": (rng.choice([2, 3, 4]), 1)}.get(form, rng.choice([(2, 2), (2, 1), (2, 3)]))
    if form == "contact":
        counts = rng.choice([(2, 2), (2, 3), (3, 2)])
    anchors = [
        (spacing * (i - (counts[0] - 1) / 2), spacing * (j - (counts[1] - 1) / 2))
        for j in range(counts[1])
        for i in range(counts[0])
    ]
    present = set(rng.sample(range(4), rng.choice([0, 1, 1, 1, 2, 2, 3, 4])))
    half = [max(abs(anchor[axis]) for anchor in anchors) for axis in (0, 0, 1, 1)]
    plate, room = None, [0.0] * 4
    if form in ("plate", "contact"):
        size = round(2 * max(half) + spacing * rng.uniform(0.1, 1.0) + 10, 0)
        plate = (size, size)
        room = [size / 2 - own_half for own_half in half]
    reach = rng.choice([0.6, 1.5, 1.5, 4.0, 13.0])
    away = [
        round(half[side] + max(h_ef * rng.uniform(0.3, reach), room[side] + 0.1), 1) if side in present else math.inf
        for side in range(4)
    ]
    cracked = rng.random() < 0.6
    named = rng.choice(list(CLASSES))
    bars = cracked and ((headed_without and bool(present)) or rng.random() < 0.15)
    wide, share = rng.random() < 0.4, rng.random() < 0.3
    thickness = round(rng.choice([h_ef * 1.2, 1.8 * h_ef, h_ef * rng.uniform(1.5, 5.0)]), 1)
    components = _components(rng, kind, rng.choice([0.5, 2.0, 6.0]) * (h_ef / 80) ** 1.5)
    if kind == "torsion" and len(anchors) > 1:
        components[0]["torsion"] = round(rng.uniform(-1, 1) * spacing / 1000 * components[0]["tension"], 4)
    if form == "contact":
        arm = rng.choice([0.1, 0.4, 1.0, 3.0]) * spacing / 1000 * rng.choice([-1, 1])
        components[0][rng.choice(["moment_x", "moment_y"])] = round(arm * components[0]["tension"], 5)
    elif form == "rectangle" and counts == (2, 2):
        arm = 0.3 * spacing / 1000
        components[0] |= {name: round(rng.uniform(-0.5, 0.5) * arm, 5) for name in ("moment_x", "moment_y")}
    base = {
        "kind": "concrete",
        "strength": {"class": named},
        "density": "normalweight",
        "state": "cracked" if cracked else "uncracked",
        "thickness": thickness,
        "edges": {
            name: "none" if math.isinf(far) else far
            for name, far in zip(("x_minus", "x_plus", "y_minus", "y_plus"), away, strict=True)
        },
    }
    if not cracked:
        base["state_decided_by"] = "engineer"
    if wide:
        base["bar_spacing"] = "wide"
    if bars:
        base["splitting_reinforcement"] = True
    anchor, condition = anchor_of(rng, own)
    item = {
        "id": f"P{at}",
        "hangs": {"kind": "forces", "components": components},
        "anchor": anchor,
        "base": base,
        "options": {"near_row": "own_share"} if share else {"near_row": "whole_shear"},
    }
    if len(anchors) > 1:
        item["anchor"]["layout"] = [{"x": x, "y": y} for x, y in anchors]
    if plate:
        support = "concrete" if form == "contact" else "free"
        item["attachment"] = {"plate": {"width_x": plate[0], "width_y": plate[1], "support": support}}
        if support == "free":
            for own_load in components:
                for name in OF_SHEAR:
                    own_load.pop(name, None)
    x_minus, x_plus, y_minus, y_plus = away
    return item, {
        "form": form,
        "components": components,
        "anchors": anchors,
        "plate": plate if form == "contact" else None,
        "edges": (-x_minus, x_plus, -y_minus, y_plus),
        "columns": columns(
            own,
            strength_class=named,
            cracked=cracked,
            thickness=thickness,
            wide_bars=wide,
            splitting_bars=bars,
            own_share=share,
            condition=condition,
        ),
        "condition": condition,
        "c_min": own["embedment"]["c_min"],
        "s_min": own["embedment"]["s_min"],
        "near": min(far - at_anchor for far, at_anchor in zip(away, half, strict=True)),
        "spacing": spacing if len(anchors) > 1 else math.inf,
        "refused": headed_without and bool(present) and not bars,
        "d": d,
    }


@pytest.fixture(scope="module")
def made():
    rng = random.Random(19924)
    return [drawn(rng, at) for at in range(COUNT)]


@pytest.fixture(scope="module")
def answers(made, send):
    return send({**EN, "items": [item for item, _ in made]}, status=200)["items"]


@pytest.fixture(scope="module")
def wanted(made):
    return [None if point["refused"] else expected(point) for _, point in made]


def accuracy(point):
    """E_s is 29,000,000 psi in the service and 200,000 N/mm2 in the scalar code."""
    return 2e-3 if point["plate"] else 1e-9


def test_what_is_refused(made, answers):
    for (_, point), answer in zip(made, answers, strict=True):
        if point["refused"]:
            assert answer["reason"]["code"] == "no-splitting-data"
        else:
            assert answer["status"] in ("passed", "failed"), answer


def test_every_mode(made, answers, wanted):
    """Utilisation of the worst row of all load cases, and strength and demand of such a row, kN."""
    compared, forms = Counter(), Counter()
    for (item, point), answer, theirs in zip(made, answers, wanted, strict=True):
        if theirs is None:
            continue
        forms[point["form"]] += 1
        close = accuracy(point)
        for mode in answer["modes"]:
            if not mode["mode"].startswith("en_"):
                continue
            rows = theirs[mode["mode"]]
            most = worst(rows)
            told = item, mode, most
            if most is None:
                assert mode.get("utilisation", 0.0) == 0.0, told
                continue
            assert mode["utilisation"] == pytest.approx(most[1] / most[0], rel=close), told
            unit = 1.0 if "interaction" in mode["mode"] else 1000.0
            row = (mode["design_strength"] * unit, mode["demand"] * unit)
            assert any(row == pytest.approx(own, rel=close) for own in rows), told
            compared[mode["mode"]] += 1
    assert set(compared) == set(MODES) - {"en_steel_lever_arm"}
    assert min(compared.values()) >= 15, compared
    assert min(forms[name] for name in ("single", "row", "rectangle", "plate", "contact")) > 30, forms


def violations(point, rows):
    """By the distances of the product and the limits of the standard."""
    own, found = point["columns"], set()
    if point["near"] < point["c_min"]:
        found.add("fastener-edge-below-minimum")
    if point["spacing"] < point["s_min"]:
        found.add("fastener-spacing-below-minimum")
    if own["h"] < own["h_min"]:
        found.add("fastener-thickness-below-minimum")
    if own["h_ef"] < 40:
        found.add("fastener-embedment-below-minimum")
    sheared = any(load.get(name) for load in point["components"] for name in OF_SHEAR)
    if sheared and point["near"] <= max(10 * own["h_ef"], 60 * own["d_nom"]):
        if point["spacing"] < 4 * own["d_nom"]:
            found.add("fastener-spacing-at-edge")
        if len(point["anchors"]) > 4:
            found.add("fastener-group-at-edge")
    if rows is None:
        found.add("anchor-pushed")
    return found


def test_the_verdict(made, answers, wanted):
    statuses = Counter()
    for (item, point), answer, theirs in zip(made, answers, wanted, strict=True):
        if point["refused"]:
            continue
        against = {own["code"] for own in answer["findings"] if own["severity"] == "violation"}
        assert against == violations(point, theirs), item
        if theirs is None:
            assert answer["status"] == "failed"
            continue
        used = {name: max((d / s for s, d in rows), default=0.0) for name, rows in theirs.items()}
        most = max(used.values())
        assert answer["governing"]["utilisation"] == pytest.approx(most, rel=accuracy(point))
        assert used[answer["governing"]["mode"]] == pytest.approx(most, rel=accuracy(point)), item
        assert answer["status"] == ("failed" if most > 1 or against else "passed"), item
        statuses[answer["status"]] += 1
    assert min(statuses["passed"], statuses["failed"]) > 60, statuses
