"""Random relocations of a single anchor against our own code: edges, distances, a leaning rod; scalars, inches, lbf.

A new hole is at least twice the depth of an open old one away and keeps the least spacing of the product; a rod leans
by 4 degrees at most, its foot stays: a service load W pulls W d / L along the move and W sqrt(1 + (d / L)^2) in it.
"""

import itertools
import math
import random

import pytest

from api.independent_proof import product_of
from api.independent_scalar import families, inches, pounds

PATH, CHECK = "/v1/relocations", "/v1/hang-point"
KNOWN = families()
SIDES = {"x_minus": (1, 0), "x_plus": (-1, 0), "y_minus": (0, 1), "y_plus": (0, -1)}
ANCHORS = (
    {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
    {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": "63.5 mm"},
    {"family": "large-screw-hex-zinc", "size": "3/8", "h_ef": "3-1/8 in"},
    {"family": "undercut-stainless-metric", "size": "M10", "h_ef": "80 mm"},
)


def request_of(seed):
    r = random.Random(seed)
    units = r.choice(("us", "si"))
    edges = {side: r.choice(("none", "none", "9 in", "14 in", "400 mm")) for side in SIDES}
    item = {
        "id": r.choice(("=1+1", "@x", "-2", "H-1")),
        "at": {"level": "L1", "x": r.choice((0, -12.5, "40 ft")), "y": "-3 m"},
        "hangs": {"kind": "weight", "weight": r.choice(("200 lb", "1.5 kN", "700 lb")), "nature": "dead"},
        "anchor": r.choice(ANCHORS),
        "base": {"kind": "concrete", "strength": {"f_c": "4000 psi"}, "density": "normalweight", "thickness": "10 in"}
        | {"edges": edges},
        "seismic": {"category": "B"},
    }
    hole = {"depth": r.choice(("2 in", "3.125 in", "60 mm"))}
    if r.random() < 0.5:
        hole["filled"] = r.random() < 0.5
    if r.random() < 0.3:
        hole |= {"x": r.choice((0, "1 in", "-20 mm")), "y": "0.5 in"}
    unit = 25.4 if units == "si" else 1
    move = {"dx": r.choice((0, 3, -4.5, 7, -11)) * unit, "dy": r.choice((0, 2.5, -6, 12)) * unit}
    body = {"units": units, "item": item, "old_hole": hole, "move": move}
    if r.random() < 0.6:
        body["rod_length"] = r.choice(("4 ft", "6 ft", "3 m", "1500 mm", "20 ft"))
    return body


def facts(body):
    """What our own code says of the move."""
    near = "mm" if body["units"] == "si" else "in"
    move = [float(inches(body["move"][name], near)) for name in ("dx", "dy")]
    hole = [float(inches(body["old_hole"].get(name, 0), near)) for name in "xy"]
    family, _, embedment = product_of(body["item"]["anchor"], KNOWN, near)
    s_min = embedment["s_min"] / (1 if family["units"] == "us" else 25.4)
    depth = float(inches(body["old_hole"]["depth"], near))
    least = s_min if body["old_hole"].get("filled") else max(2 * depth, s_min)
    edges = {}
    for side, (x, y) in SIDES.items():
        own = body["item"]["base"]["edges"][side]
        edges[side] = None if own == "none" else float(inches(own, near)) + x * move[0] + y * move[1]
    made = {"from": math.dist(move, hole), "least": least, "edges": edges, "move": math.hypot(*move)}
    if "rod_length" in body:
        ratio = made["move"] / float(inches(body["rod_length"], near))
        weight = float(pounds(body["item"]["hangs"]["weight"], "kN" if near == "mm" else "lbf"))
        made |= {"angle": math.degrees(math.atan(ratio)), "shear": weight * ratio}
        made |= {"weight": weight, "rod": weight * math.hypot(1, ratio)}
    return made


def merge_patch(item, patch):
    """RFC 7396."""
    if not isinstance(patch, dict):
        return patch
    made = dict(item) if isinstance(item, dict) else {}
    for name, own in patch.items():
        if own is None:
            made.pop(name, None)
        else:
            made[name] = merge_patch(made.get(name), own)
    return made


def near(one, other, rel=1e-9):
    return math.isclose(one, other, rel_tol=rel, abs_tol=1e-9)


@pytest.mark.parametrize("seed", range(60))
def test_a_random_move_by_our_own_geometry(client, seed):
    body = request_of(seed)
    own = facts(body)
    response = client.post(PATH, json=body)
    if min((each for each in own["edges"].values() if each is not None), default=1) <= 0:
        place = response.json()["places"][0] if response.status_code == 200 else None
        assert place is None or not place["accepted"]
        return
    assert response.status_code == 200, response.text[:600]
    answer = response.json()
    (place,) = answer["places"]
    length, force = (1 / 25.4, 1000 / 4.4482216152605) if body["units"] == "si" else (1, 1)
    assert near(place["from_old_hole"] * length, own["from"])
    assert near(answer["distance_from_old_hole"]["least"] * length, own["least"])
    for side, edge in own["edges"].items():
        found = place["edges"][side]
        assert (found is None) is (edge is None)
        assert edge is None or near(found * length, edge)
    fit = own["from"] >= own["least"] - 1e-9
    if "rod_length" in body and own["move"]:
        lean = place["lean"]
        figures = {"angle": 1, "service_tension": force, "shear": force, "rod_tension": force}
        told = [lean[name] * unit for name, unit in figures.items()]
        assert all(map(near, told, (own["angle"], own["weight"], own["shear"], own["rod"])))
        fit = fit and own["angle"] <= 4
    moved = merge_patch(body["item"], place["patch"])
    check = client.post(CHECK, json={"units": body["units"], "item": moved}).json()["items"][0]
    assert check["status"] == place["outcome"]["status"]
    assert place["accepted"] is (fit and check["status"] == "passed"), (place, own)
    assert place["accepted"] is not bool(place["reasons"])


@pytest.mark.parametrize("seed", range(0, 60, 6))
def test_places_that_are_found_keep_their_distances(client, seed):
    """No move stated: all places keep from the hole; those accepted are within the face and pass a check of their own.

    Where none is accepted, those that come nearest are listed with what is against them.
    """
    body = {name: part for name, part in request_of(seed).items() if name != "move"}
    answer = client.post(PATH, json=body).json()
    distances = []
    for place in answer["places"]:
        own = facts({**body, "move": {"dx": place["dx"], "dy": place["dy"]}})
        assert own["from"] >= own["least"] - 1e-6
        assert place["accepted"] is answer["accepted"]
        if not place["accepted"]:
            assert place["reasons"]
            continue
        assert own.get("angle", 0) <= 4 + 1e-9
        assert all(edge is None or edge > 0 for edge in own["edges"].values())
        moved = merge_patch(body["item"], place["patch"])
        check = client.post(CHECK, json={"units": body["units"], "item": moved}).json()["items"][0]
        assert check["status"] == "passed"
        distances.append(own["move"])
    assert all(after >= before - 1e-6 for before, after in itertools.pairwise(distances))
