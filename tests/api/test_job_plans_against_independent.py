"""Random jobs planned by our own search: which products hold by single checks, then every set within limits.

Wishes are read off the family files as they stand. Every product is checked at every point by the batch, which chooses
nothing; the least sum is taken over all families, all bits and all products that the limits allow. Building invented.
"""

import itertools
import random

import pytest

from api.choosing_bodies import EDGES, JOBS
from api.independent_scalar import families, inches, products

POINTS = "/v1/hang-points"
KNOWN = families()
ROWS = {f"{f['id']}/{s['size']}/{e['h_ef']:g}": (f, s, e) for f, s, e in products(KNOWN)}
CAST_IN = {"headed_cast_in", "hooked_cast_in", "cast_in_insert"}
HOLDS_AGAIN = CAST_IN | {"torque_controlled_expansion", "undercut", "adhesive"}
EXPOSURES = ["dry", "damp", "outdoor"]
LIMITS = ({}, {"products": 1}, {"products": 2}, {"products": 2, "bits": 1}, {"bits": 2}, {"families": 1})


def unit_of(family):
    return 1 if family["units"] == "us" else 1 / 25.4


def hole(address):
    """Diameter and depth of the hole, in; zeros where none is drilled."""
    family, _, embedment = ROWS[address]
    own = embedment.get("hole") or {"diameter": 0, "depth": 0}
    return own["diameter"] * unit_of(family), own["depth"] * unit_of(family)


def takes(address, objective):
    """What one anchor takes of the objective."""
    family, size, _ = ROWS[address]
    return hole(address)[1] if objective == "drilled_depth" else size.get(objective, family["commercial"][objective])


def wished(address, item, want):
    """Whether a product is as wanted, whatever it holds."""
    family, size, _ = ROWS[address]
    traits, cast = family["traits"], family["principle"] in CAST_IN
    around = item.get("environment", {})
    worst = max(EXPOSURES.index(own.get("exposure", "dry")) for own in (want, around))
    depth, thickness = hole(address)[1], float(inches(item["base"]["thickness"], "in"))
    return all(
        (
            family["id"] in want["families"],
            {"post_installed": not cast, "cast_in": cast, "either": True}[want["placing"]],
            want["trained"] or not traits["training"],
            EXPOSURES.index(traits["exposure"]) >= worst,
            not want.get("vibration") or family["principle"] in HOLDS_AGAIN,
            traits["removable"] or not want.get("removable"),
            traits["flush"] is {"flush": True, "stud": False, None: traits["flush"]}[want.get("seat")],
            want["rod_thread"] == "any" or "rod" not in item or size.get("thread") == item["rod"]["size"],
            depth <= want.get("hole_share", 9) * thickness + 1e-9,
            depth <= float(inches(want.get("deepest_hole", "99 in"), "in")) + 1e-9,
        )
    )


def point(r, at, *, european):
    edges = {side: r.choice(("none", "none", "none", "3 in", "5 in", "75 mm")) for side in EDGES}
    face = r.choice(("soffit", "soffit", "side", "top"))
    base = {"kind": "concrete", "density": "normalweight", "edges": edges, "face": face}
    base["thickness"] = r.choice(("6 in", "10 in", "200 mm"))
    base["strength"] = {"class": "C25/30"} if european else {"f_c": r.choice(("3000 psi", "5000 psi"))}
    if r.random() < 0.4:
        base |= {"state": "uncracked", "state_decided_by": "engineer of record"}
    loads = [{"nature": r.choice(("dead", "live")), "tension": f"{r.choice((80, 250, 600, 1200, 2200))} lbf"}]
    if r.random() < 0.3:
        loads.append({"nature": "dead", "shear_x": f"{r.choice((-500, 200))} lbf"})
    made = {"id": f"P{at}", "at": {"level": "L1", "x": 100 * at, "y": 0}, "base": base}
    made["hangs"] = {"kind": "forces", "components": loads}
    made |= {} if european else {"seismic": {"category": r.choice(("A", "B", "D"))}}
    if r.random() < 0.25:
        made["rod"] = {"size": r.choice(("M10", "M12") if european else ("3/8", "1/2"))}
    if r.random() < 0.3:
        made["anchor"] = {"layout": {"pattern": "row", "count": r.choice((2, 3)), "spacing": "6 in"}}
        edges |= {"x_minus": "none", "x_plus": "none"}
    if r.random() < 0.15:
        made["environment"] = {"exposure": r.choice(EXPOSURES)}
    return made


def job(seed):
    r = random.Random(seed)
    european = r.random() < 0.25
    own = [name for name, each in KNOWN.items() if (each["basis"] == "en") is european]
    want = {
        "families": r.sample(own, r.randint(3, 6)),
        "objective": r.choice(("cost_index", "minutes", "drilled_depth")),
    }
    want |= {"placing": r.choice(("post_installed", "either")), "rod_thread": r.choice(("any", "match"))}
    want |= {"trained": r.random() < 0.8, "reserve": r.choice((0, 0.1, 0.3))}
    for name, words in (
        ("exposure", EXPOSURES),
        ("vibration", (True,)),
        ("removable", (True,)),
        ("seat", ("flush", "stud")),
        ("hole_share", (0.4,)),
        ("deepest_hole", ("3 in", "80 mm")),
    ):
        if r.random() < 0.1:
            want[name] = r.choice(words)
    items = [point(r, at, european=european) for at in range(r.randint(2, 5))]
    items += [{**items[0], "id": "TWIN", "at": {"level": "L1", "x": -100, "y": 0}}]
    body = {"units": r.choice(("us", "si")), "want": want, "limits": r.choice(LIMITS), "items": items}
    return body | ({"design_code": "en1992_4"} if european else {})


def holding(client, body):
    """Of each point the use of every product that is as wanted and holds it, the reserve kept."""
    asked = [
        (at, address)
        for at, item in enumerate(body["items"])
        for address in ROWS
        if wished(address, item, body["want"])
    ]
    items = []
    for at, address in asked:
        family, size, embedment = ROWS[address]
        h_ef = f"{embedment['h_ef']:g} {'in' if family['units'] == 'us' else 'mm'}"
        product = {"family": family["id"], "size": size["size"], "h_ef": h_ef}
        own = body["items"][at]
        items.append({**own, "id": str(len(items)), "anchor": {**own.get("anchor", {}), **product}})
    found = [{} for _ in body["items"]]
    if not items:
        return found
    request = {name: body[name] for name in ("units", "design_code") if name in body}
    request |= {"neighbours": "off", "detail": "modes", "items": items}
    results = client.post(POINTS, json=request).json()["items"]
    for (at, address), result in zip(asked, results, strict=True):
        if result["status"] == "passed":
            modes = (own for own in result["modes"] if own["applies"] and not own["mode"].startswith("rod_"))
            used = max(own["utilisation"] for own in modes)
            if used <= 1 - body["want"]["reserve"] + 1e-9:
                found[at][address] = used
    return found


def subsets(values, most):
    """All sets of at most so many; those that are part of others are left out."""
    values = sorted(set(values))
    return [set(values)] if most is None or most >= len(values) else map(set, itertools.combinations(values, most))


def planned(found, anchors, *, objective, limits):
    """The least sum and the least number of products over all sets within the limits; None where none holds all."""
    open_at = [at for at, own in enumerate(found) if own]
    offered = sorted({address for own in found for address in own})
    drilled = [address for address in offered if hole(address)[0]]
    least, fewest = None, None
    for family in subsets([ROWS[each][0]["id"] for each in offered], limits.get("families")):
        for bit in subsets([round(hole(each)[0], 4) for each in drilled], limits.get("bits")):
            own = [
                a for a in offered if ROWS[a][0]["id"] in family and (a not in drilled or round(hole(a)[0], 4) in bit)
            ]
            sums = [{a: anchors[at] * takes(a, objective) for a in own if a in found[at]} for at in open_at]
            if not all(sums):
                continue
            useful = {min(each, key=each.get) for each in sums} if "products" not in limits else set(own)
            for most in itertools.count(1):
                sets = itertools.combinations(own, most)
                if (fewest is not None and most >= fewest) or any(all(set(s) & set(e) for e in sums) for s in sets):
                    fewest = most if fewest is None else min(fewest, most)
                    break
            for taken in subsets(useful, limits.get("products")):
                costs = [min((each[a] for a in taken if a in each), default=None) for each in sums]
                if None not in costs:
                    least = sum(costs) if least is None else min(least, sum(costs))
    return least, fewest


@pytest.mark.parametrize("seed", range(24))
def test_a_random_job_is_that_of_our_own_search(client, seed):
    body = job(seed)
    limits, objective = body["limits"], body["want"]["objective"]
    answer = client.post(JOBS, json=body).json()
    found = holding(client, body)
    assert [own["candidates"] for own in answer["items"]] == list(map(len, found))
    plan = answer["plan"]
    if not any(found):
        assert plan["status"] == "nothing_held"
        return
    anchors = [own.get("anchor", {}).get("layout", {}).get("count", 1) for own in body["items"]]
    least, fewest = planned(found, anchors, objective=objective, limits=limits)
    assert plan.get("fewest_products") == fewest
    if least is None:
        assert plan["status"] == "limits_too_tight"
        return
    length = 25.4 if objective == "drilled_depth" and body["units"] == "si" else 1
    assert plan["total"] == pytest.approx(least * length, rel=1e-9)
    assert plan["gap"] == 0
    taken = {own["product"] for own in answer["items"] if own["status"] == "held"}
    for own, holds, number in zip(answer["items"], found, anchors, strict=True):
        assert (own["status"] == "held") is bool(holds)
        if holds:
            assert own["utilisation"] == pytest.approx(holds[own["product"]], rel=1e-9)
            cheapest = min(number * takes(each, objective) for each in taken & set(holds))
            assert number * takes(own["product"], objective) == pytest.approx(cheapest, rel=1e-9)
    assert len(taken) <= limits.get("products", 99)
    assert len({ROWS[each][0]["id"] for each in taken}) <= limits.get("families", 99)
    assert len({round(hole(each)[0], 4) for each in taken if hole(each)[0]}) <= limits.get("bits", 99)
