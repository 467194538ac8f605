"""Load combinations typed from the standards as the text of their names, and what the text says.

ASCE 7-16 and 7-22, 2.3.1, 2.3.6, 2.4.1, 2.4.5 (the same as ACI 318-19 5.3.1 for strength). Companions may be absent,
contents have the factor of dead load, thermal loads 1.2 beside dead and live and 1.0 beside others, at allowable stress
1.0 beside any and beside 0.6D too.
"""

import re
from functools import cache

NATURES = {"L": "live", "Lr": "roof_live", "S": "snow", "W": "wind", "T": "thermal", "Eh": "earthquake"}

STRENGTH = """
1.4D
1.2D+1.6L
1.2D+1.6L+0.5Lr
1.2D+1.6L+{half}S
1.2D+1.6Lr
1.2D+1.6Lr+L
1.2D+1.6Lr+0.5W
1.2D+{full}S
1.2D+{full}S+L
1.2D+{full}S+0.5W
1.2D+1.0W
1.2D+1.0W+{half}S
1.2D+1.0W+0.5Lr
1.2D+1.0W+L
1.2D+1.0W+L+{half}S
1.2D+1.0W+L+0.5Lr
0.9D+1.0W
1.2D+Ev+Eh
1.2D+Ev+Eh+{quake}S
1.2D+Ev+Eh+L
1.2D+Ev+Eh+L+{quake}S
0.9D-Ev+Eh
"""

ALLOWABLE = """
D
D+L
D+1.0Lr
D+{full}S
D+0.75L+0.75Lr
D+0.75L+{most}S
D+0.6W
D+0.45W
D+0.45W+0.75Lr
D+0.45W+{most}S
D+0.75L+0.45W
D+0.75L+0.45W+0.75Lr
D+0.75L+0.45W+{most}S
0.6D+0.6W
D+0.7Ev+0.7Eh
D+0.525Ev+0.525Eh
D+0.525Ev+0.525Eh+{most}S
D+0.525Ev+0.525Eh+0.75L
D+0.525Ev+0.525Eh+0.75L+{most}S
0.6D-0.7Ev+0.7Eh
"""

SNOW = {
    ("asce7_16", False): {"half": "0.5", "full": "1.6", "quake": "0.2"},
    ("asce7_22", False): {"half": "0.3", "full": "1.0", "quake": "0.15"},
    ("asce7_16", True): {"full": "1.0", "most": "0.75"},
    ("asce7_22", True): {"full": "0.7", "most": "0.525"},
}


def read(name):
    """Factors that the text of a combination says."""
    found = {}
    for sign, number, of in re.findall(r"([+-]?)([0-9.]*)(Lr|Ev|Eh|[A-Z])", name):
        found[of] = float(number or 1.0) * (-1 if sign == "-" else 1)
    return found


def _needs(factors, allowable):
    """Natures without which a combination isn't one: a live load of 1.6 stands in its base one."""
    return tuple(
        nature for of, nature in NATURES.items() if of in factors and (of != "L" or factors[of] != 1.6 or allowable)
    )


@cache
def combinations(edition, allowable):
    """(name, factors, natures needed, whether the earthquake is turned)."""
    text = (ALLOWABLE if allowable else STRENGTH).format(**SNOW[edition, allowable])
    names = text.split()
    if allowable:
        names += [f"{name}+1.0T" for name in (*names, "0.6D")]
    else:
        plain = ("1.2D", "1.2D+1.6L", "0.9D")
        names += [f"{name}+1.2T" for name in plain] + [f"{name}+1.0T" for name in names if name not in (*plain, "1.4D")]
    made = []
    for name in names:
        factors = read(name)
        made.append((name, factors, _needs(factors, allowable), False))
        if "Eh" in factors and not allowable:
            made.append((f"{name}, earthquake reversed", factors, _needs(factors, allowable), True))
    tested = ("D", "D+L") if allowable else ("1.4D", "1.2D+1.6L")
    for name in tested:
        factors = read(name)
        needs = ("test", "live") if name == "D+L" else ("test",)
        made.append((f"{name} with the test fluid", {**factors, "test": factors["D"]}, needs, False))
    if not allowable:
        made.append(("sprinkler rule as stated", {"rule": 1.0}, ("sprinkler_rule",), False))
    return made


def combined(loads, shears, s_ds, edition, allowable, slope):
    """Every case of one hanger: name to (tension, shear).

    ``loads`` and ``shears`` are by nature. What may be absent relieves nothing: contents and live load count where they
    pull, and the earthquake pulls, its vertical part wherever S_DS is stated. Shear is that with or without contents,
    and that of a rod with a ``slope`` adds to it whichever way the rod leans.
    """
    present = {nature for nature in loads if loads[nature] or any(shears[nature])}
    if s_ds:
        present.add("earthquake")
    contents, live = max(loads["contents"], 0.0), max(loads["live"], 0.0)
    found = {}
    for name, factors, needs, turned in combinations(edition, allowable):
        if any(nature not in present for nature in needs):
            continue
        dead = factors.get("D", 0.0)
        tested = factors.get("test", 0.0)
        up = 0.2 * s_ds * factors.get("Ev", 0.0)
        pull = (dead + up) * loads["dead"] + factors.get("L", 0.0) * live + tested * loads["test"]
        if not tested:
            pull += (dead + up) * contents
        pull += factors.get("Eh", 0.0) * abs(loads["earthquake"]) + factors.get("rule", 0.0) * loads["sprinkler_rule"]
        weights = {"dead": dead + up, "contents": 0.0 if tested else dead + up, "test": tested}
        weights["sprinkler_rule"] = factors.get("rule", 0.0)
        for of, nature in NATURES.items():
            weights[nature] = factors.get(of, 0.0)
            if of in ("Lr", "S", "W", "T"):
                pull += weights[nature] * loads[nature]
        if turned:
            weights["earthquake"] = -weights["earthquake"]
        slides = []
        for filled in (weights, weights | {"contents": 0.0}):
            x, y = (sum(weight * shears[nature][axis] for nature, weight in filled.items()) for axis in (0, 1))
            slides.append((x * x + y * y) ** 0.5)
        found[name] = (pull, max(slides) + abs(pull) * slope)
    return found


def least(loads, shears, lowest, s_ds, edition):
    """The least tension of one hanger in the strength cases that ``loads`` and ``shears`` ask for.

    ``lowest`` is the least of each nature; what isn't there is 0.
    """
    present = {nature for nature in loads if loads[nature] or any(shears[nature])} | ({"earthquake"} if s_ds else set())
    found = []
    for _, factors, needs, _ in combinations(edition, False):
        if all(nature in present for nature in needs):
            filled = factors.get("D", 0.0) + 0.2 * s_ds * factors.get("Ev", 0.0)
            pull = filled * (lowest["dead"] + (0.0 if "test" in factors else lowest["contents"]))
            pull += factors.get("test", 0.0) * lowest["test"] + factors.get("rule", 0.0) * lowest["sprinkler_rule"]
            found.append(pull + sum(factors.get(of, 0.0) * lowest[nature] for of, nature in NATURES.items()))
    return min(found)
