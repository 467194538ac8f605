"""Own plan of proof tests beside the service's: loads, caps, counts, and the concrete, by plain arithmetic.

Rules as the guide and their titles state them. The concrete is by ACI 318-19: breakout of one anchor (17.6.2) near one
edge at most, pullout by tests or by the head (17.6.3); nominal, so without phi. Units: in, lbf, psi.
"""

import math
from collections import defaultdict

from api.independent_scalar import inches, merged, pounds

RULES = {
    "cbc_1910a_5": ({"allowable": 2, "design_strength": 1.25}, 0, 0.8, (100, 50, 10)),
    "iebc_urm": ({"design": 2.5}, 1500, 0.8, (100, 100, 100)),
    "one_and_a_half_working_load": ({"working": 1.5}, 0, 0.8, (100, 10, 10)),
    "three_quarters_of_design_strength": ({"design_strength": 0.75}, 0, 0.7, (100, 10, 10)),
}
"""Factors by basis, least load, share of A_se f_ya, per cent of structural, nonstructural, sill bolts."""
_K = 25.4**1.5 * math.sqrt(0.006894757293168) / 4.4482216152605
"""Of k_c in mm, N, N/mm2 in in, lbf, psi: 2.3895."""
USES = ("structural", "nonstructural", "sill_bolt")


def product_of(anchor, known, near):
    family = known[anchor["family"]]
    unit = 1 if family["units"] == "us" else 1 / 25.4
    h_ef = float(inches(anchor["h_ef"], near))
    for size in family["sizes"]:
        for embedment in size["embedments"]:
            if size["size"] == anchor["size"] and abs(embedment["h_ef"] * unit - h_ef) < 1e-5:
                return family, size, embedment
    raise LookupError(anchor)


def concrete(family, size, own, base, near):
    """The least nominal strength of breakout and pullout, psi and inches; None where this code does not say."""
    if family["basis"] not in ("qualified", "cast_in") or base["kind"] != "concrete":
        return None
    us = family["units"] == "us"
    unit, force = (1, 1) if us else (1 / 25.4, 1000 / 4.4482216152605)
    h_ef, f_c = own["h_ef"] * unit, float(base["f_c_psi"])
    cracked = base.get("state", "cracked") == "cracked"
    cast = family["basis"] == "cast_in"
    n_p = own.get("n_p_cr" if cracked else "n_p_uncr")
    if not cast and n_p is None:
        return None  # Not qualified in that state.
    by_tests = own.get("k_cr" if cracked else "k_uncr")
    k = 24 if cast else 17 if by_tests is None else by_tests * (1 if us else _K)
    n_b = k * math.sqrt(f_c) * h_ef**1.5
    if cast and 11 <= h_ef <= 25:
        n_b = 16 * math.sqrt(f_c) * h_ef ** (5 / 3)
    psi_c = 1.0 if cracked or by_tests is not None else 1.25 if cast else 1.4
    c = min((float(inches(side, near)) for side in base["edges"].values() if side != "none"), default=math.inf)
    reach = 1.5 * h_ef
    area = (reach + min(c, reach)) / (2 * reach)
    psi_ed = 1.0 if c >= reach else 0.7 + 0.3 * c / reach
    c_ac = own["c_ac"] * unit if not cast else 0.0
    psi_cp = 1.0 if cracked or cast or c >= c_ac else max(c / c_ac, reach / c_ac)
    found = {"breakout": area * psi_ed * psi_c * psi_cp * n_b}
    if not cast:
        if isinstance(n_p, int | float):
            found["pullout"] = n_p * force * (f_c / 2500) ** own["n_exponent"]
    elif family["principle"] == "headed_cast_in":
        found["pullout"] = 8 * size["head"]["a_brg"] * unit**2 * f_c * (1.0 if cracked else 1.4)
        if h_ef > 2.5 * c:
            found["side-face"] = 160 * c * math.sqrt(size["head"]["a_brg"] * unit**2) * math.sqrt(f_c)
    else:
        return None
    return found


def plan(request, known, bad):
    """Test loads by anchor, and counts by group."""
    factors, least, share, percent = RULES[request["rule"]]
    si = request["units"] == "si"
    force, near = ("kN", "mm") if si else ("lbf", "in")
    rows, groups = [], defaultdict(list)
    for at, own in enumerate(request["items"]):
        if at in bad:
            continue
        item = merged(request.get("defaults", {}), own)
        family, size, embedment = product_of(item["anchor"], known, near)
        us = family["units"] == "us"
        most = share * size["a_se"] * size["f_ya"] * (1 if us else 1 / 4.4482216152605)
        load = float(pounds(item["load"], force))
        by_rule = max(factors[item["basis"]] * load, least)
        test = min(by_rule, most)
        number = len(item["anchor"].get("layout", [None]))
        masonry = item.get("base", {}).get("kind") == "masonry"
        confined = family["principle"] == "adhesive" and not masonry and request["rule"] != "iebc_urm"
        use = item.get("use", "structural")
        row = {"id": item["id"], "most": most, "load": load, "by_rule": by_rule, "test": test, "item": item}
        row |= {"product": (family, size, embedment), "least": least, "factor": factors[item["basis"]]}
        row |= {"confined": confined, "h_ef": embedment["h_ef"] * (1 if us else 1 / 25.4)}
        row["anchors"] = [item["id"]] if number == 1 else [f"{item['id']}/{place}" for place in range(number)]
        rows.append(row)
        place = tuple(item.get(name) for name in ("level", "area", "crew", "day"))
        key = (family["id"], size["size"], embedment["h_ef"], use, masonry)
        groups[key] += [(name, place) for name in row["anchors"]]
    counts = []
    for (*_, use, _), anchors in groups.items():
        strata = {place for _, place in anchors}
        share_of = percent[USES.index(use)]
        tests = min(max(-(-len(anchors) * share_of // 100), len(strata)), len(anchors))
        counts.append((len(anchors), len(strata), tests, anchors))
    return rows, counts


def wants(row):
    """Codes of what has to be said of a test load by the steel."""
    said = set()
    if row["most"] < row["by_rule"]:
        said.add("capped-by-yield")
    if row["least"] > row["most"]:
        said.add("below-the-least-of-the-rule")
    if row["factor"] >= 1 and row["test"] < row["load"]:
        said.add("below-the-load")
    return said
