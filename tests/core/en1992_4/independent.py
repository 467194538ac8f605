"""A scalar calculation of one fixture in one load case by EN 1992-4:2018, in plain Python.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions and
the project's readings 6, 12 and 24 to 28, not from the formulas of the service, and shares no line with them; what was
taken from the service afterwards is in `test_against_independent`. It
catches what the arrays get wrong (masks, axes, branches, sets of anchors), not what both have misread. mm, N, N/mm2.

A fixture is a dictionary: the columns of the product and the base by their names, as numbers, and ``anchors`` [(x, y)],
``edges`` (x_low, x_high, y_low, y_high) as coordinates of the faces of the member, ``n``, ``v_x``, ``v_y`` a force
of each anchor. `check` answers the rows of each mode, (design strength, demand).
"""

import math
from itertools import combinations, pairwise

COUNTS = 1e-9
GAMMA_C = 1.5


# Sets of anchors and their places


def sets_of(members, near):
    """Chains of near anchors, each anchor alone, each with its direct neighbours; each set once."""
    found = []
    left = set(members)
    while left:
        chain = {min(left)}
        while True:
            more = {j for j in left - chain if any(near(i, j) for i in chain)}
            if not more:
                break
            chain |= more
        found.append(frozenset(chain))
        left -= chain
    for i in members:
        found.append(frozenset([i]))
        found.append(frozenset([i, *(j for j in members if j != i and near(i, j))]))
    return list(dict.fromkeys(found))


def closer(f, limit):
    return lambda i, j: math.dist(f["anchors"][i], f["anchors"][j]) < limit


def distances(f, i):
    """Of one anchor to the four faces: x low, x high, y low, y high."""
    (x, y), (x_low, x_high, y_low, y_high) = f["anchors"][i], f["edges"]
    return [x - x_low, x_high - x, y - y_low, y_high - y]


def nearest(f, members):
    return [min(column) for column in zip(*(distances(f, i) for i in members), strict=True)]


def largest_gap(values):
    line = sorted(values)
    return max((b - a for a, b in pairwise(line)), default=0.0)


def union(boxes):
    """Area that rectangles (x0, x1, y0, y1) cover together, by inclusion and exclusion."""
    area = 0.0
    for size in range(1, len(boxes) + 1):
        for some in combinations(boxes, size):
            width = min(box[1] for box in some) - max(box[0] for box in some)
            height = min(box[3] for box in some) - max(box[2] for box in some)
            area -= (-1.0) ** size * max(width, 0.0) * max(height, 0.0)
    return area


def covered(places, reach):
    """Area of squares around anchors, each (x, y, distances to the faces), clipped at the faces."""
    boxes = []
    for x, y, c in places:
        left, right, down, up = (min(reach, own) for own in c)
        boxes.append((x - left, x + right, y - down, y + up))
    return union(boxes)


def loaded(forces):
    return [i for i, force in enumerate(forces) if force > COUNTS * max(forces)]


def off_centre(f, members, forces):
    total = sum(forces[i] for i in members)
    found = []
    for axis in (0, 1):
        resultant = sum(forces[i] * f["anchors"][i][axis] for i in members) / total
        found.append(abs(resultant - sum(f["anchors"][i][axis] for i in members) / len(members)))
    return found


# Factors


def burns(f):
    return f.get("fire", False)


def strength_of_concrete(f):
    limited = min(f["f_ck_class"], 60.0) if f["post_installed"] else f["f_ck_class"]
    return min(limited, 20.0) if burns(f) else limited


def gamma_tension(f):
    return 1.0 if burns(f) else GAMMA_C * f["gamma_inst"]


def gamma_concrete(f):
    return 1.0 if burns(f) else GAMMA_C


def left_of(f):
    """Of pull-out and of edges in fire."""
    if not burns(f):
        return 1.0
    return 0.20 if f["minutes"] == 120.0 else 0.25


def left_of_cone(f, depth):
    if not burns(f):
        return 1.0
    return min(1.0, depth / 200.0) * (0.8 if f["minutes"] == 120.0 else 1.0)


def psi_re(f):
    return 1.0 if f["wide_bars"] else min(0.5 + f["h_ef"] / 200.0, 1.0)


# Tension


def steel_tension(f):
    if burns(f):
        return min(f["n_rk_s"] or f["a_s"] * f["f_uk"], f["a_s"] * f["sigma_fi"])
    gamma = f["gamma_ms_n"] or max(1.2 * f["f_uk"] / f["f_yk"], 1.4)
    return (f["n_rk_s"] or f["a_s"] * f["f_uk"]) / gamma


def pull_out_characteristic(f, members=()):
    """Infinite where the data say that it never governs; of bonded fasteners the least N0_Rk,p of those."""
    if f["bonded"]:
        return f.get("open_share", 1.0) * min(one_bond(f, i) for i in members)
    if not f["pull_out_governs"]:
        return math.inf
    if f.get("as_cone"):
        return basic_cone(f, f["h_ef"])
    if f["pull_out_by_tests"]:
        return f["n_rk_p"] * (strength_of_concrete(f) / 20.0) ** f["psi_c_exponent"]
    return (7.5 if f["cracked"] else 10.5) * f["a_h"] * strength_of_concrete(f)


def basic_cone(f, depth):
    k_1 = f["k_cr_n"] if f["cracked"] else f["k_ucr_n"]
    return k_1 * math.sqrt(strength_of_concrete(f)) * depth**1.5


def cone(f, places, forces_off=(0.0, 0.0), cut=None):
    """(7.1) of anchors given as (x, y, distances to the faces); the area of a single one is ``cut`` elsewhere."""
    c = [min(column) for column in zip(*(own for _, _, own in places), strict=True)]
    s_cr, depth = f["s_cr_n"], f["h_ef"]
    near = [own for own in c if own < s_cr / 2.0]
    if len(near) >= 3:
        gap = max(largest_gap([place[axis] for place in places]) for axis in (0, 1))
        scale = max(max(near) / (s_cr / 2.0), gap / s_cr)
        s_cr, depth = s_cr * scale, depth * scale
    area = covered(places if cut is None else [(*places[0][:2], cut)], s_cr / 2.0)
    psi_s = min(1.0, 0.7 + 0.3 * min(c) / (s_cr / 2.0))
    psi_ec = 1.0
    for e in forces_off:
        psi_ec *= 1.0 / (1.0 + 2.0 * e / s_cr)
    return basic_cone(f, depth) * area / s_cr**2 * psi_s * psi_re(f) * psi_ec * left_of_cone(f, depth)


def places_of(f, members):
    return [(*f["anchors"][i], distances(f, i)) for i in sorted(members)]


def splitting(f, members, forces):
    """(7.23), (7.24), or None where the edges are far or bars take the splitting forces, 7.2.1.7(2)."""
    if f["splitting_bars"] or burns(f):
        return None
    c_cr = f["c_cr_sp"]
    c = nearest(f, members)
    if min(c) >= (1.0 if len(members) == 1 else 1.2) * c_cr:
        return None
    basic = f["n0_rk_sp"] or min(pull_out_characteristic(f, members), basic_cone(f, f["h_ef"]))
    area = covered(places_of(f, members), c_cr)
    psi_s = min(1.0, 0.7 + 0.3 * min(c) / c_cr)
    psi_ec = 1.0
    for e in off_centre(f, members, forces):
        psi_ec /= 1.0 + e / c_cr
    bound = min(max(1.0, ((f["h_ef"] + 1.5 * min(c)) / f["h_min"]) ** (2.0 / 3.0)), 2.0)
    psi_h = min((f["h"] / f["h_min"]) ** (2.0 / 3.0), bound)
    return basic * area / (2.0 * c_cr) ** 2 * psi_s * psi_re(f) * psi_ec * psi_h


def rows_from_edge(distance, apart=math.inf):
    """Anchors in rows, near to far: each within a tenth of its distance, and ``apart``, of the one before."""
    rows = []
    for i in sorted(distance, key=distance.get):
        if rows and distance[i] - distance[rows[-1][-1]] <= min(apart, distance[i] / 10.0):
            rows[-1].append(i)
        else:
            rows.append([i])
    return rows


def blow_out(f, counted, side):
    """(7.25) to (7.30) at one face: (design strength, demand)."""
    axis = 1 if side < 2 else 0
    near = {i: distances(f, i)[side] for i in counted if distances(f, i)[side] <= 0.5 * f["h_ef"]}
    found = []
    for row in rows_from_edge(near):
        place = {i: f["anchors"][i][axis] for i in row}
        limit = 4.0 * min(near[i] for i in row)
        for members in sets_of(row, lambda i, j, p=place, most=limit: abs(p[i] - p[j]) < most):
            c_1 = min(near[i] for i in members)
            at = [place[i] for i in members]
            c = nearest(f, members)
            ends = c[2:] if side < 2 else c[:2]
            width = max(at) - min(at) + sum(min(2.0 * c_1, end) for end in ends)
            height = 2.0 * c_1 + min(2.0 * c_1, f["h"] - f["h_ef"])
            count, total = len(members), sum(f["n"][i] for i in members)
            psi_g = max(1.0, math.sqrt(count) + (1.0 - math.sqrt(count)) * largest_gap(at) / (4.0 * c_1))
            e = abs(sum(f["n"][i] * place[i] for i in members) / total - sum(at) / count)
            strength = (8.7 if f["cracked"] else 12.2) * c_1 * math.sqrt(f["a_h"] * strength_of_concrete(f))
            strength *= width * height / (4.0 * c_1) ** 2 * psi_g / (1.0 + 2.0 * e / (4.0 * c_1))
            strength *= min(1.0, 0.7 + 0.3 * min(ends) / (2.0 * c_1))
            found.append((strength / gamma_tension(f), total))
    return found


# Bonded fasteners, 7.2.1.6, typed from the formulas as they were given from memory, and not from those of the service.


def lasting(f, load, stays):
    """psi_sus of a load of which so much stays; of the rest psi_2 does."""
    if load <= 0.0:
        return 1.0
    alpha = min(1.0, (stays + f["psi_2"] * max(load - stays, 0.0)) / load)
    return 1.0 if alpha <= f["psi0_sus"] else f["psi0_sus"] + 1.0 - alpha


def staying(f, members):
    return sum(f["staying"][i] * f["n"][i] for i in members)


def bond_stress(f):
    if f["earthquake"]:
        return f["tau_eq"]
    of_tests = f["tau_cr"] if f["cracked"] else f["tau_ucr"]
    return of_tests * (strength_of_concrete(f) / 20.0) ** f["tau_exponent"]


def critical_spacing_of_bond(f, psi_sus):
    return min(7.3 * f["d_nom"] * (psi_sus * f["tau_ucr"]) ** 0.5, 3.0 * f["h_ef"])


def combined(f, places, psi_sus, forces_off=(0.0, 0.0), cut=None):
    """N_Rk,p of anchors given as (x, y, distances to the faces); the area of a single one is ``cut`` elsewhere."""
    d, depth, count = f["d_nom"], f["h_ef"], len(places)
    s_cr = critical_spacing_of_bond(f, psi_sus)
    c = [min(column) for column in zip(*(own for _, _, own in places), strict=True)]
    gap = max(largest_gap([place[axis] for place in places]) for axis in (0, 1))
    near = [own for own in c if own < s_cr / 2.0]
    if len(near) > 2:
        scale = min(1.0, max(max(near) / (0.5 * s_cr), gap / s_cr))
        depth, s_cr = scale * depth, scale * s_cr
    tau, f_ck = bond_stress(f), strength_of_concrete(f)
    tau_c = (7.7 if f["cracked"] else 11.0) / (math.pi * d) * math.sqrt(depth * f_ck)
    psi0_g = max(1.0, math.sqrt(count) - (math.sqrt(count) - 1.0) * (tau / tau_c) ** 1.5)
    psi_g = max(1.0, psi0_g - (gap / s_cr) ** 0.5 * (psi0_g - 1.0))
    strength = psi_sus * tau * math.pi * d * depth
    area = covered(places if cut is None else [(*places[0][:2], cut)], s_cr / 2.0)
    strength *= area / s_cr**2 * psi_g * psi_re(f)
    strength *= min(1.0, 0.7 + 0.3 * min(c) / (s_cr / 2.0))
    for e in forces_off:
        strength /= 1.0 + 2.0 * e / s_cr
    return strength


def one_bond(f, i):
    load = f["n"][i]
    return lasting(f, load, staying(f, [i])) * bond_stress(f) * math.pi * f["d_nom"] * f["h_ef"]


def combined_rows(f, counted):
    found = []
    for members in sets_of(counted, closer(f, critical_spacing_of_bond(f, 1.0))):
        load = sum(f["n"][i] for i in members)
        psi_sus = lasting(f, load, staying(f, members))
        strength = combined(f, places_of(f, members), psi_sus, off_centre(f, members, f["n"]))
        found.append((strength / gamma_tension(f), load))
    return found


def tension_rows(f):
    counted = loaded(f["n"])
    gamma = gamma_tension(f)
    rows = {"steel_tension": [(steel_tension(f), f["n"][i]) for i in counted]}
    if f["pull_out_governs"]:
        rows["pull_out"] = [(left_of(f) * pull_out_characteristic(f) / gamma, f["n"][i]) for i in counted]
    rows["combined"] = combined_rows(f, counted) if f["bonded"] else []
    rows["cone"], rows["splitting"], rows["blow_out"] = [], [], []
    for members in sets_of(counted, closer(f, f["s_cr_n"])):
        strength = cone(f, places_of(f, members), off_centre(f, members, f["n"]))
        rows["cone"].append((strength / gamma, sum(f["n"][i] for i in members)))
    for members in sets_of(counted, closer(f, 2.0 * f["c_cr_sp"])):
        strength = splitting(f, members, f["n"])
        if strength is not None:
            rows["splitting"].append((strength / gamma, sum(f["n"][i] for i in members)))
    if f["headed"] and not burns(f):
        rows["blow_out"] = [row for side in range(4) for row in blow_out(f, counted, side)]
    return rows


# Shear


def sizes(f):
    return [math.hypot(*both) for both in zip(f["v_x"], f["v_y"], strict=True)]


def gamma_shear(f):
    if burns(f):
        return 1.0
    if f["gamma_ms_v"]:
        return f["gamma_ms_v"]
    if f["f_uk"] <= 800.0 and f["f_yk"] / f["f_uk"] <= 0.8:
        return max(f["f_uk"] / f["f_yk"], 1.25)
    return 1.5


def steel_shear(f):
    """k_7 is for a group, and so not for the one fastener of several that is sheared."""
    basic = f["v0_rk_s"] or (0.6 if f["f_uk"] <= 500.0 else 0.5) * f["a_s"] * f["f_uk"]
    if f["h_ef"] / f["d_nom"] < 5.0 and f["f_ck_class"] < 20.0:
        basic *= 0.8
    basic *= f["k7"] if len(loaded(sizes(f))) > 1 else 1.0
    if burns(f):
        return min(basic, f["a_s"] * f["sigma_fi"])
    return basic / gamma_shear(f)


def lever_arm(f, i):
    """(7.37), (7.38) of one fastener: the moment that a round bar of area A_s holds, over the arm.

    Typed from the brief of the task and the digest, both from memory; that a thousandth is left is of the service.
    """
    radius = math.sqrt(f["a_s"] / math.pi)
    stress = min(f["f_uk"], f["sigma_fi"]) if burns(f) else f["f_uk"]
    moment = 1.2 * (math.pi / 4.0 * radius**3) * stress
    moment *= max(1.0 - f["n"][i] / steel_tension(f), 1.0 / 1000.0)
    arm = f["free_length"] + 0.5 * f["t_fix"]
    if not f["clamped"]:
        arm += 0.5 * f["d_nom"]
    return (2.0 if f["held"] else 1.0) * moment / arm / gamma_shear(f)


def pry_out_rows(f, counted, size):
    near = closer(f, f["s_cr_n"])
    found = [
        (f["k8"] * cone(f, places_of(f, members)) / gamma_concrete(f), sum(size[i] for i in members))
        for members in sets_of(counted, near)
    ]
    all_lasts = lasting(f, 1.0, 1.0)
    if f["bonded"]:
        for members in sets_of(counted, closer(f, critical_spacing_of_bond(f, 1.0))):
            strength = combined(f, places_of(f, members), all_lasts)
            found.append((f["k8"] * strength / GAMMA_C, sum(size[i] for i in members)))
    for i in counted:
        beside = [j for j in counted if j != i and near(i, j)]
        if not any(f["v_x"][i] * f["v_x"][j] + f["v_y"][i] * f["v_y"][j] < 0.0 for j in beside):
            continue
        c = distances(f, i)
        for j in beside:
            away = [b - a for a, b in zip(f["anchors"][i], f["anchors"][j], strict=True)]
            for axis in (0, 1):
                if abs(away[axis]) >= abs(away[1 - axis]) * (1.0 - COUNTS):
                    side = 2 * axis + (1 if away[axis] > 0.0 else 0)
                    c[side] = min(c[side], abs(away[axis]) / 2.0)
        ways = [c]
        if sum(own < f["s_cr_n"] / 2.0 for own in c) > 2:
            ways.append(distances(f, i))
        for edges in ways:
            found.append((f["k8"] * cone(f, [(*f["anchors"][i], edges)], cut=c) / gamma_concrete(f), size[i]))
            if f["bonded"]:
                strength = combined(f, [(*f["anchors"][i], edges)], all_lasts, cut=c)
                found.append((f["k8"] * strength / GAMMA_C, size[i]))
    return found


def handed_on(row, place, shears):
    """Shear (towards, along) of every anchor, by the lever to the anchors of the row on both sides of it."""
    line = sorted(row, key=place.get)
    carried = {i: [0.0, 0.0] for i in row}
    for source, shear in shears.items():
        at = place[source]
        if source in row:
            parts = {source: 1.0}
        elif at <= place[line[0]]:
            parts = {line[0]: 1.0}
        elif at >= place[line[-1]]:
            parts = {line[-1]: 1.0}
        else:
            left, right = next((a, b) for a, b in pairwise(line) if place[a] <= at <= place[b])
            part = (at - place[left]) / (place[right] - place[left])
            parts = {left: 1.0 - part, right: part}
        for i, part in parts.items():
            for way in (0, 1):
                carried[i][way] += part * shear[way]
    return carried


def edge_strength(f, side, members, place, carried):
    """(7.40) of some anchors of the near row: characteristic, and the shear they carry."""
    c = nearest(f, members)
    c_1, ends = c[side], c[2:] if side < 2 else c[:2]
    at = [place[i] for i in members]
    gap = largest_gap(at)
    if c_1 > max(10.0 * f["h_ef"], 60.0 * f["d_nom"]):
        return None
    if max(ends) < 1.5 * c_1 and f["h"] < 1.5 * c_1:
        c_1 = max(max(ends) / 1.5, f["h"] / 1.5, gap / 3.0)
    d = f["d_nom"]
    l_f = min(f["l_f"], 12.0 * d if d <= 24.0 else max(8.0 * d, 300.0))
    inside = max(c_1, d / 2.0)
    strength = (1.7 if f["cracked"] else 2.4) * d ** (0.1 * (l_f / inside) ** 0.5) * l_f ** (0.1 * (d / inside) ** 0.2)
    strength *= math.sqrt(strength_of_concrete(f)) * c_1**1.5
    low, high = min(at) - min(1.5 * c_1, ends[0]), max(at) + min(1.5 * c_1, ends[1])
    boxes = [(max(low, p - 1.5 * c_1), min(high, p + 1.5 * c_1), 0.0, min(1.5 * c_1, f["h"])) for p in at]
    strength *= union(boxes) / (4.5 * c_1**2)
    strength *= min(1.0, 0.7 + 0.3 * min(ends) / (1.5 * c_1)) * max(1.0, math.sqrt(1.5 * c_1 / f["h"]))
    towards, along = (sum(carried[i][way] for i in members) for way in (0, 1))
    shear = math.hypot(towards, along)
    way = 0 if towards else 1
    e = abs(sum(carried[i][way] * place[i] for i in members) / (towards or along) - sum(at) / len(at))
    cos, sin = towards / shear, along / shear
    return strength / (1.0 + 2.0 * e / (3.0 * c_1)) / math.sqrt(cos**2 + (0.5 * sin) ** 2), shear


def edge_rows(f, side, size):
    """At one face.

    Shear along the edge counts by its magnitude, so that none of a farther row cancels that of the near one; shear
    across it that may act either way is taken towards it. e_V is of the shear towards the edge, else of that along it.
    """
    if math.isinf(f["edges"][side]):
        return []
    outward = -1.0 if side in (0, 2) else 1.0
    across, sideways = (f["v_x"], f["v_y"]) if side < 2 else (f["v_y"], f["v_x"])
    either = f["either_x"] if side < 2 else f["either_y"]
    least = COUNTS * max(size)
    shears = {}
    for i in range(len(f["anchors"])):
        towards, along = abs(across[i]) if either else outward * across[i], abs(sideways[i])
        if max(towards, along) > least:
            shears[i] = (towards if towards > least else 0.0, along if along > least else 0.0)
    if not shears:
        return []
    axis = 1 if side < 2 else 0
    place = {i: f["anchors"][i][axis] for i in range(len(f["anchors"]))}
    row = rows_from_edge({i: distances(f, i)[side] for i in shears}, apart=6.0)[0]
    carried = handed_on(row, place, {i: shears[i] for i in row} if f["own_share"] else shears)
    limit = 3.0 * min(distances(f, i)[side] for i in row)
    found = []
    for members in sets_of(row, lambda i, j: abs(place[i] - place[j]) < limit):
        both = edge_strength(f, side, members, place, carried)
        if both is not None:
            far = 1.5 * f["h_ef"] + 1.5 * min(distances(f, i)[side] for i in members)
            torsion = 0.8 if any(against(f, i, j, far) for i in members for j in loaded(size)) else 1.0
            found.append((torsion * left_of(f) * both[0] / gamma_concrete(f), both[1]))
    return found


def against(f, i, j, far):
    """Whether two fasteners no farther apart are sheared against each other, 7.2.2.5(8)."""
    (a, b), (c, d) = ((f["v_x"][k], f["v_y"][k]) for k in (i, j))
    opposite = a * c + b * d < -COUNTS * math.hypot(a, b) * math.hypot(c, d)
    return opposite and math.dist(f["anchors"][i], f["anchors"][j]) <= far * (1.0 + COUNTS)


def shear_rows(f):
    size = sizes(f)
    counted = loaded(size)
    rows = {
        "steel_shear": [] if f["lever_arm"] else [(steel_shear(f), size[i]) for i in counted],
        "lever_arm": [(lever_arm(f, i), size[i]) for i in counted] if f["lever_arm"] else [],
        "pry_out": pry_out_rows(f, counted, size) if counted else [],
        "edge": [],
    }
    for side in range(4):
        rows["edge"] += edge_rows(f, side, size) if counted else []
    return rows


# Both


def worst(rows):
    return max((demand / strength for strength, demand in rows), default=0.0)


def together(f, rows):
    """7.2.3: steel by anchor with squares; the other modes by the better of the two curves; as shares of the load."""
    size = sizes(f)
    bent = f["lever_arm"]
    both = [] if bent else [i for i in loaded(size) if f["n"][i] > 0.0]
    steel = [(f["n"][i] / steel_tension(f), size[i] / steel_shear(f)) for i in both]
    beta_n = max(worst(rows.get(mode, [])) for mode in ("pull_out", "combined", "cone", "splitting", "blow_out"))
    beta_v = max(worst(rows[mode]) for mode in ("pry_out", "edge"))
    found = {"steel_interaction": [(1.0, math.hypot(*both)) for both in steel], "concrete_interaction": []}
    if beta_n and beta_v:
        curve = min((beta_n**1.5 + beta_v**1.5) ** (2.0 / 3.0), (beta_n + beta_v) / 1.2)
        found["concrete_interaction"] = [(1.0, max(curve, beta_n, beta_v))]
    return found


def check(f):
    """{mode: [(design strength, demand)]}, rows without demand left out."""
    found = tension_rows(f) | shear_rows(f)
    found |= together(f, found)
    return {mode: [row for row in rows if row[1] > 0.0] for mode, rows in found.items()}


# Earthquake, annex C. Written from the digest of its section 7: R_k,eq = alpha_gap alpha_eq R0_k,eq with Table C.3, R0
# of steel and pull-out of the product, of the concrete that of 7.2 in cracked concrete. From memory: (C.8), that one
# loaded fastener of several counts as a single one, (C.9) with k_15 = 1. Readings of the project: k_7 and the 0.8 of
# shallow fasteners are on the shear strength of the product too, its pull-out does not grow with the concrete, and the
# largest ratios of all modes add up.

TABLE_C_3 = {
    "steel_tension": (1.0, 1.0),
    "pull_out": (1.0, 0.85),
    "combined": (1.0, 0.85),
    "cone": (0.85, 0.75),
    "splitting": (1.0, 0.85),
    "blow_out": (1.0, 0.85),
    "steel_shear": (1.0, 0.85),
    "lever_arm": (1.0, 1.0),
    "pry_out": (0.85, 0.75),
    "edge": (1.0, 0.85),
}
"""Single fastener, fastener group."""
CONE_OF_HEADED = (1.0, 0.85)
IN_SHEAR = ("steel_shear", "lever_arm", "pry_out", "edge")


def as_shaken(f):
    """The fixture with the resistances of the product under earthquake in place of the static ones."""
    own = f | {"n_rk_s": f["n0_rk_s_eq"], "v0_rk_s": f["v0_rk_s_eq"], "cracked": True}
    if f["pull_out_by_tests"]:
        own |= {"n_rk_p": f["n0_rk_p_eq"], "psi_c_exponent": 0.0}
    return own


def reduced(f, mode, rows):
    """Design strengths by (C.8): a group where more than one fastener of the fixture is loaded that way."""
    in_shear = mode in IN_SHEAR
    group = len(loaded(sizes(f) if in_shear else f["n"])) > 1
    single, several = CONE_OF_HEADED if mode in ("cone", "pry_out") and f["like_headed"] else TABLE_C_3[mode]
    factor = several if group else single
    if in_shear and not f["gap_filled"]:
        factor *= 0.5
    return [(factor * strength, demand) for strength, demand in rows]


def check_shaken(f):
    """`check` of a fixture under earthquake; ``seismic_interaction`` in place of both static ones."""
    own = as_shaken(f)
    rows = {mode: reduced(f, mode, found) for mode, found in (tension_rows(own) | shear_rows(own)).items()}
    beta_n = max(worst(found) for mode, found in rows.items() if mode not in IN_SHEAR)
    beta_v = max(worst(rows[mode]) for mode in IN_SHEAR)
    rows["seismic_interaction"] = [(1.0, beta_n + beta_v)] if beta_n and beta_v else []
    return {mode: [row for row in found if row[1] > 0.0] for mode, found in rows.items()}


# Fire, annex D. Written from the digest of its section 8, all of it from memory: the stresses of the steel, by rows of
# diameter and columns of minutes, and what is left of the concrete, which `left_of` and `left_of_cone` say above. Of
# the project: nothing holds more than without fire, and h'_ef goes into the share of the cone.

SIGMA_FI = {
    "carbon": {6: (10, 9, 7, 5), 8: (10, 9, 7, 5), 10: (15, 13, 10, 8), 12: (20, 15, 13, 10)},
    "stainless": {6: (10, 9, 7, 5), 8: (20, 16, 12, 10), 10: (25, 20, 16, 14), 12: (30, 25, 20, 16)},
}
DEPTH_OF_ROW = {6: 30, 8: 30, 10: 40, 12: 50}


def stress_in_fire(material, diameter, h_ef, minutes):
    """The last row of the table that the fastener is large and deep enough for; None below the first."""
    rows = [row for row, depth in DEPTH_OF_ROW.items() if diameter >= row and h_ef >= depth]
    return SIGMA_FI[material][max(rows)][(30, 60, 90, 120).index(minutes)] if rows else None
