"""Load maps of random jobs against sums of our own code (`independent_load_map`), in both systems of units."""

import math
import random

import pytest

from api.bodies import SLAB, change
from api.independent_load_map import ALTERNATES, ALWAYS, load_map
from api.independent_scalar import POUND

PATH = "/v1/load-maps"
LEVELS = ("L1", "L2", "=1+1", "@x", "-2", "\tL", "Уровень 3", None)
PRODUCTS = (
    {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"},
    {"family": "drop-in-zinc", "size": "3/8", "h_ef": "1-5/8 in"},
    {"family": "ceiling-screw-eye-zinc", "size": "1/4", "h_ef": "1-1/4 in"},
)
BAD = (
    {"anchor": {"family": "none-such"}},
    {"base": {"thickness": "1 in"}},
    {"hangs": {"kind": "weight", "weight": "5 ft", "nature": "dead"}},
)


def force_of(r, most=900):
    value = r.randrange(-most // 3, most)
    return r.choice((value / 200, f"{value} lb", f"{value} N", f"{value / 1000} kip", f"{value / 250} kN"))


def hangs_of(r):
    if r.random() < 0.2:
        return {"kind": "weight", "weight": r.choice((1.25, "300 lb", "0.5 kN")), "nature": r.choice(ALWAYS)}
    natures = r.sample((*ALWAYS, *ALTERNATES[:-1]), r.randrange(1, 5))
    parts = [{"nature": nature, "tension": force_of(r)} for nature in natures]
    if r.random() < 0.15:
        parts.append({"nature": "sprinkler_rule", "tension": r.choice(("250 lb", "958 lb", "3 kN", "90 lb"))})
    if r.random() < 0.15:
        parts.append({"nature": natures[0], "tension": force_of(r)})
    return {"kind": "forces", "components": parts}


def item_of(r, at):
    made = {"id": f"{r.choice(('P', '=', '@', '-', '+', 'é'))}{at}", "hangs": hangs_of(r)}
    place = {}
    level = r.choice(LEVELS)
    if level is not None:
        place["level"] = level
    if r.random() < 0.9:
        place |= {"x": r.choice((-3, -0.5, f"{at}'-6\"", f"{-at * 500} mm", 20 * at)), "y": r.choice((0, -7, "3 m"))}
    if r.random() < 0.2:
        place["z"] = 3
    if place:
        made["at"] = place
    made["base"] = {"face": r.choice(("soffit", "soffit", "side", "top"))}
    if r.random() < 0.4:
        made["base"]["member"] = r.choice(("slab", "=beam", "Träger"))
    if r.random() < 0.6:
        made["anchor"] = r.choice(PRODUCTS)
    return made


def job_of(seed, count):
    r = random.Random(seed)  # Jobs to try, no secrets.
    items = [item_of(r, at) for at in range(count)]
    for at in range(1, count):
        if r.random() < 0.12:
            items[at - 1]["alternative_of"] = f"A{at // 5}"
            items[at] = {**items[at - 1], "id": items[at]["id"], "hangs": hangs_of(r)}
    bad = {at for at in range(count) if r.random() < 0.05}
    for at in bad:
        items[at] = {**items[at], **r.choice(BAD)}
    defaults = change(SLAB, {"at": {}})
    units = r.choice(("us", "si"))
    if units == "si":
        defaults = change(defaults, {"base.thickness": 200})
    return {"units": units, "neighbours": "off", "defaults": defaults, "items": items}, bad


def near(one, other, unit=1):
    return math.isclose(float(one) * unit, float(other), rel_tol=1e-9, abs_tol=1e-6)


def same_sums(found, own, unit):
    assert (found["points"], found["placed"]) == (own["points"], own["placed"])
    assert near(found["on_structure"]["pulls"], own["pulls"], unit)
    assert near(found["on_structure"]["pushes"], own["pushes"], unit)
    for nature, both in found["service"].items():
        pulls, pushes = own["natures"].get(nature, (0, 0))
        assert near(both["pulls"], pulls, unit), nature
        assert near(both["pushes"], pushes, unit), nature
    assert all(
        not any(sums) for name, sums in own["natures"].items() if name not in (*found["service"], "sprinkler_rule")
    )


@pytest.mark.parametrize("seed", range(40))
def test_a_random_map_by_our_own_sums(client, seed):
    request, bad = job_of(seed, (1, 4, 30, 90)[seed % 4])
    answer = client.post(PATH, json=request)
    assert answer.status_code == 200, answer.text[:600]
    answer = answer.json()
    points, maps = load_map(request, bad)
    unit = float(1000 / POUND) if request["units"] == "si" else 1
    far = 1 / 0.3048 if request["units"] == "si" else 1
    valid = [item for item in answer["items"] if "problem" not in item]
    assert {item["index"] for item in answer["items"] if "problem" in item} == bad
    for item, own in zip(valid, points, strict=True):
        assert item["id"] == own["id"]
        assert near(item["on_structure"], own["pull"], unit), (item, own)
        assert near(item.get("push_on_structure", 0), own["push"], unit)
        for nature in (*ALWAYS, *ALTERNATES, "sprinkler_rule"):
            assert near(item["service"].get(nature, 0), own["loads"].get(nature, 0), unit), (nature, item)
        assert item["placed"] is own["placed"]
        for axis in "xyz":
            assert (axis in item) is (axis in own["where"])
            assert near(item.get(axis, 0) * far, own["where"].get(axis, 0))
    assert [(each["named_by"], each["name"], each["face"]) for each in answer["levels"]] == [
        (by if name is not None else "nothing", name, face) for by, name, face in maps
    ]
    for level, own in zip(answer["levels"], maps.values(), strict=True):
        same_sums(level, own, unit)
        assert sum(member["points"] for member in level["members"]) == level["points"]
