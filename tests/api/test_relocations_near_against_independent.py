"""Random moves beside near points: every place of an answer against a plain check of the moved point with all others.

The point is moved by our own geometry, in soffit, top and side faces, with layouts and leaning rods; the check of all
points as one request tells what becomes of each. Whether a place is accepted follows from that and from distances.
"""

import copy
import math
import random

import pytest

from api.independent_proof import product_of
from api.independent_scalar import families, inches

PATH, CHECK = "/v1/relocations", "/v1/hang-points"
KNOWN = families()
SIDES = {"x_minus": (1, 0), "x_plus": (-1, 0), "y_minus": (0, 1), "y_plus": (0, -1)}
WEDGE = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3.25 in"}
SCREW = {"family": "large-screw-hex-zinc", "size": "1/2", "h_ef": "3.875 in"}
EN_WEDGE = {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": "85 mm"}
EN_UNDERCUT = {"family": "en-undercut-zinc", "size": "M10", "h_ef": "80 mm"}


def moved(item, dx, dy, *, foot):
    """An item moved in its face by inches; ``foot`` is what 12 in are as a bare coordinate."""
    made = copy.deepcopy(item)
    edges, at = made["base"]["edges"], made["at"]
    for side, (x, y) in SIDES.items():
        if edges[side] != "none":
            edges[side] = f"{float(inches(edges[side], 'in')) + x * dx + y * dy:.12f} in"
    along = {"x": dx, "y": dy}
    if made["base"]["face"] == "side":
        angle = math.radians(made["base"]["facing"])
        along = {"x": -dx * math.sin(angle), "y": dx * math.cos(angle), "z": dy}
    for axis, step in along.items():
        at[axis] += step / 12 * foot
    return made


def leaning(item, dx, dy, length):
    """With the shear of a rod whose foot stays: W d / L against the move."""
    made = copy.deepcopy(item)
    for own in made["hangs"]["components"]:
        pull = float(own["tension"].split()[0])
        own |= {"shear_x": f"{-pull * dx / length:.12f} lbf", "shear_y": f"{-pull * dy / length:.12f} lbf"}
    return made


def request_of(seed):
    r = random.Random(seed)
    european = r.random() < 0.3
    units = r.choice(("us", "si"))
    foot = 0.3048 if units == "si" else 1
    face = r.choice(("soffit", "soffit", "top", "side"))
    base = {"kind": "concrete", "density": "normalweight", "thickness": "14 in", "face": face, "member": "M"}
    base["strength"] = {"class": "C25/30"} if european else {"f_c": "4000 psi"}
    base["edges"] = {side: r.choice(("none", "none", "30 in", "34 in")) for side in SIDES}
    base |= {"facing": r.choice((0, 90, 30, 217.5))} if face == "side" else {}
    anchors = (EN_WEDGE, EN_UNDERCUT) if european else (WEDGE, SCREW)
    pull = r.choice((400, 1500, 2200, 2600))
    item = {"id": "A", "at": {"level": "L1", "x": 20.0, "y": 10.0, "z": 3.0}, "base": base, "anchor": dict(anchors[0])}
    item["hangs"] = {"kind": "forces", "components": [{"nature": "dead", "tension": f"{pull} lbf"}]}
    item |= {} if european else {"seismic": {"category": "B"}}
    if r.random() < 0.3:
        item["anchor"]["layout"] = {"pattern": "row", "count": 2, "spacing": "6 in"}
    others = []
    for name in "BCD"[: r.randint(1, 3)]:
        away, turn = r.choice((6, 9, 13, 22)), math.radians(r.choice((0, 90, 180, 270, 200)))
        other = moved(item, away * math.cos(turn), away * math.sin(turn), foot=foot) | {"id": name}
        other["anchor"] |= r.choice((anchors[0], anchors[0], anchors[1]))
        others.append(other)
    hole = {"depth": r.choice(("2 in", "60 mm")), "filled": r.random() < 0.4}
    body = {"units": units, "item": item, "neighbours": others, "old_hole": hole}
    body |= {"design_code": "en1992_4"} if european else {}
    body |= {"move": {"dx": r.choice(("6 in", "-9 in", "0 in")), "dy": r.choice(("0 in", "120 mm", "-8 in"))}}
    if r.random() < 0.3:
        del body["move"]
        body["within"] = "9 in"
    if r.random() < 0.3 and face != "side":
        body["rod_length"] = r.choice(("10 ft", "20 ft"))
    return body, foot


@pytest.fixture(scope="module")
def together(client):
    """Results of some points in one check."""

    def of(body, items):
        top = {name: body[name] for name in ("units", "design_code") if name in body}
        return client.post(CHECK, json={**top, "detail": "verdict", "items": items}).json()["items"]

    return of


def violations(result):
    return {each["code"] for each in result.get("findings", ()) if each["severity"] == "violation"}


def agrees(outcome, result):
    assert outcome["status"] == result["status"]
    assert {each["code"] for each in outcome["violations"]} == violations(result)
    if "governing" in result:
        assert outcome["utilisation"] == pytest.approx(result["governing"]["utilisation"], rel=1e-9)


def worse(was, now):
    """Whether a point that doesn't pass is the worse for a move."""
    used = [each.get("governing", {}).get("utilisation", 0) for each in (was, now)]
    more = was["status"] == "passed" or used[1] > used[0] * (1 + 1e-8) or violations(now) - violations(was)
    return now["status"] != "passed" and bool(more)


@pytest.mark.parametrize("seed", range(30))
def test_places_are_those_of_a_plain_check_with_all_near_points(client, together, seed):
    body, foot = request_of(seed)
    item, others = body["item"], body["neighbours"]
    answer = client.post(PATH, json=body).json()
    before = together(body, [item, *others])
    agrees(answer["before"], before[0])
    family, _, embedment = product_of(item["anchor"], KNOWN, "in")
    spacing = embedment["s_min"] / (1 if family["units"] == "us" else 25.4)
    depth = float(inches(body["old_hole"]["depth"], "in"))
    least = spacing if body["old_hole"]["filled"] else max(2 * depth, spacing)
    own = [-3, 3] if "layout" in item["anchor"] else [0]
    for place in [*answer["places"], *answer["alternatives"]]:
        dx, dy = (place[name] / (25.4 if body["units"] == "si" else 1) for name in ("dx", "dy"))
        at_new, angle = moved(item, dx, dy, foot=foot), 0
        if "rod_length" in body:
            length = float(inches(body["rod_length"], "in"))
            at_new, angle = leaning(at_new, dx, dy, length), math.degrees(math.atan(math.hypot(dx, dy) / length))
        after = together(body, [at_new, *others])
        agrees(place["outcome"], after[0])
        for told, was, now in zip(place["neighbours"], before[1:], after[1:], strict=True):
            agrees(told["before"], was)
            agrees(told["after"], now)
        far = min(math.hypot(x + dx, dy) for x in own) >= least - 1e-9
        hurt = any(worse(was, now) for was, now in zip(before[1:], after[1:], strict=True))
        fits = after[0]["status"] == "passed" and far and angle <= 4 and not hurt
        assert place["accepted"] is fits, place["reasons"]
