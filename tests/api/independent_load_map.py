"""Own sums of a load map beside the service's, from the request alone: plain loops over exact fractions, lbf.

The load on the structure is dead load with contents and live load where they add to it; by the sprinkler standard, of
a rule stated as a load R, the weight (R - 250) / 5 once and 250 lb, as far as other natures do not have them already.
"""

from collections import defaultdict
from fractions import Fraction

from api.independent_scalar import inches, merged, pounds

ALWAYS = ("dead", "contents", "live")
ALTERNATES = ("roof_live", "snow", "wind", "test", "thermal", "earthquake")


def loads_of(item, bare):
    """Service loads of an item by nature."""
    hangs = item["hangs"]
    sums = defaultdict(Fraction)
    if hangs["kind"] == "weight":
        sums[hangs["nature"]] += pounds(hangs["weight"], bare)
    else:
        for part in hangs["components"]:
            sums[part["nature"]] += pounds(part.get("tension", 0), bare)
    return sums


def on_structure(loads):
    """The most that pulls, and the most that pushes."""
    dead, contents, live, rule = (loads.get(name, Fraction(0)) for name in (*ALWAYS, "sprinkler_rule"))
    pull = dead + max(contents, 0) + max(live, 0)
    if rule > 0:
        weight = max((rule - 250) / 5, Fraction(0))
        whole = min(rule, weight + 250)
        pull = max(dead + max(contents, 0), weight) + max(max(live, 0), whole - weight)
    return max(pull, 0), min(dead + min(contents, 0) + min(live, 0), 0)


def load_map(request, bad):
    """Points, and the sums of each map by its name and face, in the order in which each first appears."""
    si = request["units"] == "si"
    force, far = ("kN", "m") if si else ("lbf", "ft")
    points, maps = [], {}
    for at, own in enumerate(request["items"]):
        if at in bad:
            continue
        item = merged(request.get("defaults", {}), own)
        loads = loads_of(item, force)
        pull, push = on_structure(loads)
        place, base = item.get("at", {}), item["base"]
        member = base.get("member")
        by = "member" if "level" not in place and member is not None else "level"
        name = member if by == "member" else place.get("level")
        where = {axis: inches(place[axis], far) / 12 for axis in "xyz" if axis in place}
        point = {"id": item["id"], "loads": loads, "pull": pull, "push": push, "placed": {"x", "y"} <= where.keys()}
        point |= {"where": where, "alternative_of": item.get("alternative_of"), "member": member}
        points.append(point)
        maps.setdefault((by, name, base["face"]), []).append(point)
    return points, {key: sums_of(own) for key, own in maps.items()}


def sums_of(points):
    """Sums of points; those that are one set of anchors count with the largest of each."""
    sets = defaultdict(list)
    for at, point in enumerate(points):
        name = point["alternative_of"]
        sets[at if name is None else (name, point["member"], *sorted(point["where"].items()))].append(point)
    made = {"points": len(sets), "placed": sum(any(each["placed"] for each in own) for own in sets.values())}
    made["pulls"], made["pushes"] = Fraction(0), Fraction(0)
    natures = defaultdict(lambda: [Fraction(0), Fraction(0)])
    for own in sets.values():
        made["pulls"] += max(each["pull"] for each in own)
        made["pushes"] += min(each["push"] for each in own)
        for nature in {name for each in own for name in each["loads"]}:
            loads = [each["loads"].get(nature, Fraction(0)) for each in own]
            natures[nature][0] += max(0, *loads)
            natures[nature][1] += min(0, *loads)
    return made | {"natures": natures}
