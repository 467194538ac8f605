"""A scalar calculation of a fixture with several anchors in one load case by ACI 318-19 chapter 17, in plain Python.

Own code, independent of the service, and *not* an outside check: it was written from a digest of the provisions, not
from the formulas of the service, and shares no line with them. It catches what the arrays get wrong (masks, axes,
branches, sets of anchors), not what both have misread. Units: in, in2, psi, lbf, lbf*in.

A fixture is a dictionary:

* ``anchors`` [(x, y)], ``resists`` [(shear along x, along y)], ``edges`` {"x_minus", "x_plus", "y_minus", "y_plus"}
  from the origin (inf where there is none), ``h_a``, ``plate`` None or (x0, x1, y0, y1, on concrete);
* ``h_ef``, ``d_a``, ``a_se``, ``f_uta``, ``f_ya``, ``ductile``, ``cast_in``, ``headed`` (cast-in with a head),
  ``a_brg``, ``category``, ``c_ac``, ``product_k_c`` with ``k_cr`` and ``k_uncr`` (else the k_c of the standard),
  ``n_p`` (final nominal pullout strength, None where it does not govern), ``adhesive`` with ``tau_cr``, ``tau_uncr``;
* ``cracked``, ``f_c``, ``lambda_a``, ``supplementary``, ``edge_reinforcement`` (0 none, 1 bar, 2 bar and stirrups);
* ``welded`` (to a fixture that is thick enough), ``welded_stud`` (V_sa without 0.6), ``grout_pad``, ``oblique``
  ("vector", "separate", "linear"), ``power`` (interaction with the exponent 5/3), ``bounding`` (rectangles in place
  of unions), ``seismic_075``;
* ``n``, ``v_x``, ``v_y``, ``m_x``, ``m_y``, ``m_z`` at the origin, z out of the base: n pulls, m_x > 0 pulls anchors at
  +y, m_y > 0 pulls anchors at -x; ``sustained``, the share of the load that stays.

`check` answers {"anchors", "modes", "largest"}. Forces of the anchors stand in `independent_statics`.
"""

import math
from itertools import combinations, pairwise

from core.aci318_19 import independent_bond as bonded
from core.aci318_19 import independent_shear as sheared
from core.aci318_19.independent_statics import shears, tensions

SIDES = ("x_minus", "x_plus", "y_minus", "y_plus")
COUNTS = 1e-9  # least share of the largest force that counts


# Sets of anchors and their places


def sets_of(members, near, *, loads=None):
    """Chains of near anchors, each anchor alone, each with its direct neighbours: sorted tuples, each once.

    ``loads`` of anchors that no plate joins: every two near ones are sets too, and of each chain the parts with at
    least a half, a quarter, an eighth of its largest load.
    """
    beside = {i: [j for j in members if j != i and near(i, j)] for i in members}
    chains = connected(members, beside)
    parts = [(i,) for i in members] + [tuple(sorted([i, *beside[i]])) for i in members]
    if loads is not None:
        parts += [(i, j) for i, j in combinations(sorted(members), 2) if j in beside[i]]
        for chain in chains:
            for share in (0.5, 0.25, 0.125):
                least = share * max(loads[i] for i in chain) * (1 - 1e-9)
                parts += connected([i for i in chain if loads[i] >= least], beside)
    return list(dict.fromkeys(chains + parts))


def apart(f, loads):
    """The loads where no plate joins the anchors."""
    return loads if f.get("apart") else None


def connected(members, beside):
    """Parts of the members that are joined by being beside each other, sorted tuples."""
    chains, left = [], list(members)
    while left:
        chain, waiting = set(), [left[0]]
        while waiting:
            i = waiting.pop()
            if i not in chain:
                chain.add(i)
                waiting += [j for j in beside[i] if j in members]
        chains.append(tuple(sorted(chain)))
        left = [i for i in left if i not in chain]
    return chains


def within(f, limit):
    """Whether two anchors are closer than a limit."""
    return lambda i, j: math.dist(f["anchors"][i], f["anchors"][j]) < limit


def to_edge(f, i, side):
    x, y = f["anchors"][i]
    return f["edges"][side] + {"x_minus": x, "x_plus": -x, "y_minus": y, "y_plus": -y}[side]


def nearest_edges(f, members):
    return [min(to_edge(f, i, side) for i in members) for side in SIDES]


def projected(f, members, reach):
    """Area of the squares around the anchors, cut at the edges: their union, or the rectangle around them."""
    boxes = []
    for i in members:
        left, right, down, up = (min(reach, to_edge(f, i, side)) for side in SIDES)
        x, y = f["anchors"][i]
        boxes.append((x - left, x + right, y - down, y + up))
    if f["bounding"]:
        x0, x1, y0, y1 = zip(*boxes, strict=True)
        return (max(x1) - min(x0)) * (max(y1) - min(y0))
    stops = sorted({x for box in boxes for x in box[:2]})
    area = 0.0
    for left, right in pairwise(stops):
        covered, top = 0.0, -math.inf
        for _, _, low, high in sorted((box for box in boxes if box[0] <= left and box[1] >= right), key=lambda b: b[2]):
            covered += max(high - max(low, top), 0.0)
            top = max(top, high)
        area += covered * (right - left)
    return area


def off_centre(f, members, forces):
    """Distance of the resultant from the centroid of the anchors along x and y."""
    total = sum(forces[i] for i in members)
    places = [f["anchors"][i] for i in members]
    pulled = [sum(forces[i] * f["anchors"][i][axis] for i in members) / total for axis in (0, 1)]
    return [abs(pulled[axis] - sum(place[axis] for place in places) / len(places)) for axis in (0, 1)]


def rows_from_edge(distances, *, apart=math.inf):
    """Anchors of equal distance from an edge, up to a tenth of it and so many in, near to far, by anchor."""
    rows = []
    for i in sorted(distances, key=distances.get):
        if rows and distances[i] - distances[rows[-1][-1]] <= min(apart, 0.1 * distances[i]):
            rows[-1].append(i)
        else:
            rows.append([i])
    return [sorted(row) for row in rows]


# Strengths


def strength_used(f):
    """17.3.1."""
    return min(f["f_c"], 10_000.0 if f["cast_in"] else 8_000.0)


def phi_concrete(f):
    """Table 17.5.3, tension."""
    if f["cast_in"]:
        return 0.75 if f["supplementary"] else 0.70
    return (0.65, 0.55, 0.45)[f["category"] - 1] + (0.10 if f["supplementary"] else 0.0)


def breakout(f, members, forces=None):
    """17.6.2, nominal; ``forces`` by anchor where their resultant may be off the centre."""
    c_a, h_ef = nearest_edges(f, members), f["h_ef"]
    depth = h_ef
    influencing = [c for c in c_a if c < 1.5 * h_ef]
    if len(influencing) >= 3:
        gaps = [0.0]
        for axis in (0, 1):
            line = sorted(f["anchors"][i][axis] for i in members)
            gaps += [b - a for a, b in pairwise(line)]
        depth = max(max(influencing) / 1.5, max(gaps) / 3.0)
    reach = 1.5 * depth
    whole = 9.0 * depth * depth
    area = min(projected(f, members, reach), len(members) * whole)
    if f["product_k_c"]:
        k_c, psi_c = min(f["k_cr"] if f["cracked"] else f["k_uncr"], 24.0), 1.0
    else:
        k_c = 24.0 if f["cast_in"] else 17.0
        psi_c = 1.0 if f["cracked"] else (1.25 if f["cast_in"] else 1.4)
    root = f["lambda_a"] * math.sqrt(strength_used(f))
    basic = k_c * root * depth**1.5
    if f["headed"] and 11.0 <= depth <= 25.0:
        basic = max(basic, 16.0 * root * depth ** (5.0 / 3.0))
    least = min(c_a)
    psi_ed = 1.0 if least >= reach else 0.7 + 0.3 * least / reach
    psi_cp = 1.0
    if not f["cast_in"] and not f["cracked"] and least < f["c_ac"]:
        psi_cp = min(max(least, 1.5 * h_ef) / f["c_ac"], 1.0)
    psi_ec = 1.0
    for e in off_centre(f, members, forces) if forces else ():
        psi_ec /= 1.0 + e / reach
    return area / whole * psi_ec * psi_ed * psi_c * psi_cp * basic


def basic_bond(f):
    tau = f["tau_cr"] if f["cracked"] else f["tau_uncr"]
    return bonded.basic_bond(d=f["d_a"], depth=f["h_ef"], bond=tau, light=f["lambda_a"])


def bond(f, members, forces=None):
    """17.6.5, nominal."""
    c_na = bonded.reach(d=f["d_a"], uncracked_bond=f["tau_uncr"])
    whole = (2.0 * c_na) ** 2
    nominal = basic_bond(f) * min(projected(f, members, c_na) / whole, len(members))
    for e in off_centre(f, members, forces) if forces else ():
        nominal /= 1.0 + e / c_na
    least = min(nearest_edges(f, members))
    if least < c_na:
        nominal *= 0.7 + 0.3 * least / c_na
    if not f["cracked"] and least < f["c_ac"]:
        nominal *= min(max(least, c_na) / f["c_ac"], 1.0)
    return nominal


# Checks


def _row(members, strength, demand, edge=None, **more):
    return {
        "anchors": sorted(members),
        "edge": edge,
        "strength": strength,
        "demand": demand,
        "utilisation": demand / strength,
        **more,
    }


def _most(values):
    top = max(values)
    return next(i for i, value in enumerate(values) if value >= top * (1.0 - COUNTS))


def tension_rows(f, t):
    counted = [i for i, force in enumerate(t) if force > max(COUNTS * max(t), 0.0)]
    if not counted:
        return {}
    top, factor = _most(t), 0.75 if f["seismic_075"] else 1.0
    usable = min(f["f_uta"], 1.9 * f["f_ya"], 125_000.0)
    steel = (0.75 if f["ductile"] else 0.65) * f["a_se"] * usable
    found = {"steel_tension": [_row([top], steel, t[top])]}
    if f["n_p"] is not None:
        phi = 0.70 if f["cast_in"] else (0.65, 0.55, 0.45)[f["category"] - 1]
        found["pullout"] = [_row([top], factor * phi * f["n_p"], t[top])]
    phi = phi_concrete(f)
    found["concrete_breakout_tension"] = [
        _row(each, factor * phi * breakout(f, each, t), sum(t[i] for i in each))
        for each in sets_of(counted, within(f, 3.0 * f["h_ef"]), loads=apart(f, t))
    ]
    found["side_face_blowout"] = [row for side in SIDES for row in blowout_rows(f, counted, t, side, factor * phi)]
    if f["adhesive"]:
        limit = 2.0 * bonded.reach(d=f["d_a"], uncracked_bond=f["tau_uncr"])
        found["adhesive_bond"] = [
            _row(each, factor * phi * bond(f, each, t), sum(t[i] for i in each))
            for each in sets_of(counted, within(f, limit), loads=apart(f, t))
        ]
        if f["sustained"] > 0.0:
            strength = bonded.sustained(basic=basic_bond(f), phi=phi)
            found["sustained_bond"] = [_row([top], strength, f["sustained"] * t[top])]
    return found


def blowout_rows(f, counted, t, side, phi):
    """17.6.4 at one edge."""
    near_edge = {i: to_edge(f, i, side) for i in counted if f["headed"] and f["h_ef"] > 2.5 * to_edge(f, i, side)}
    axis = 1 if side[0] == "x" else 0
    found = []
    for row in rows_from_edge(near_edge):
        place = {i: f["anchors"][i][axis] for i in row}

        limit = 6.0 * min(near_edge[i] for i in row)
        near = lambda i, j, place=place, limit=limit: abs(place[i] - place[j]) < limit  # noqa: E731
        for each in sets_of(row, near, loads=apart(f, t)):
            c_a1 = min(near_edge[i] for i in each)
            basic = 160.0 * c_a1 * math.sqrt(f["a_brg"]) * f["lambda_a"] * math.sqrt(strength_used(f))
            if len(each) == 1:
                c_a2 = min(to_edge(f, each[0], other) for other in SIDES if other[0] != side[0])
                factor = (1.0 + max(c_a2 / c_a1, 1.0)) / 4.0 if c_a2 < 3.0 * c_a1 else 1.0
            else:
                extent = max(place[i] for i in each) - min(place[i] for i in each)
                factor = 1.0 + extent / (6.0 * c_a1)
            found.append(_row(each, phi * factor * basic, sum(t[i] for i in each), side))
    return found


def shear_rows(f, v):
    size = [math.hypot(*both) for both in v]
    counted = [i for i, force in enumerate(size) if force > COUNTS * max(size)]
    if not counted:
        return {}
    top = _most(size)
    steel = sheared.steel(
        area=f["a_se"],
        ultimate=f["f_uta"],
        yield_=f["f_ya"],
        ductile=f["ductile"],
        stud=f["welded_stud"],
        test_value=None,
        pad=f["grout_pad"],
    )
    twice = 0.70 * (1.0 if f["h_ef"] < 2.5 else 2.0)
    pryout = [
        _row(each, twice * breakout(f, each), sum(size[i] for i in each), by="breakout")
        for each in sets_of(counted, within(f, 3.0 * f["h_ef"]), loads=apart(f, size))
    ]
    if f["adhesive"]:
        limit = 2.0 * bonded.reach(d=f["d_a"], uncracked_bond=f["tau_uncr"])
        pryout += [
            _row(each, twice * bond(f, each), sum(size[i] for i in each), by="bond")
            for each in sets_of(counted, within(f, limit), loads=apart(f, size))
        ]
    edges = [row for side in SIDES if f["edges"][side] < math.inf for row in edge_rows(f, v, side, max(size))]
    return {"steel_shear": [_row([top], steel, size[top])], "pryout": pryout, "concrete_breakout_shear": edges}


def edge_rows(f, v, side, largest):
    """17.7.2 at one edge: rows of what is sheared towards it, then of what is sheared along it."""
    axis, sign = (0 if side[0] == "x" else 1), (-1.0 if side.endswith("minus") else 1.0)
    towards = [sign * both[axis] for both in v]
    along = [abs(both[1 - axis]) for both in v]
    limit = COUNTS * largest
    outward = [i for i in range(len(v)) if towards[i] > limit]
    sideways = [i for i in range(len(v)) if along[i] > limit]
    families = [{i: (towards[i], along[i]) for i in outward}]
    if any(i not in outward for i in sideways):
        families.append({i: (0.0, along[i]) for i in sideways})
    found = []
    for number, family in reversed(list(enumerate(families))):
        rows = rows_from_edge({i: to_edge(f, i, side) for i in family}, apart=0.25)
        nearest = [min(to_edge(f, i, side) for i in row) for row in rows]
        for k, row in enumerate(rows):
            if f["welded"] and k < len(rows) - 1:
                continue
            c_a1 = nearest[k]
            all_in_front = k == 0 and len(rows) > 1 and nearest[1] - c_a1 < c_a1
            sources = [i for each in (rows if all_in_front else rows[: k + 1]) for i in each]
            place = [anchor[1 - axis] for anchor in f["anchors"]]
            carried = handed_on(row, {i: family[i] for i in sources}, place)
            chosen = sets_of(row, lambda i, j, place=place, limit=3.0 * c_a1: abs(place[i] - place[j]) < limit)
            slid = [row for row in found if row["family"] == 1 and number == 0]
            found += [{**edge_row(f, each, carried, place, side, slid), "family": number, "row": k} for each in chosen]
    return found


def handed_on(row, sources, place):
    """What each anchor of a row carries of the shear of the sources: (towards, along); between two as a beam would."""
    carried = dict.fromkeys(row, (0.0, 0.0))
    stations = sorted(row, key=lambda i: place[i])
    for source, (towards, along) in sources.items():
        here = sorted([place[stations[0]], place[source], place[stations[-1]]])[1]
        to = {i: 1.0 for i in [next((i for i in stations if place[i] == here), None)] if i is not None}
        if not to:
            left, right = next((a, b) for a, b in pairwise(stations) if place[a] < here < place[b])
            part = (here - place[left]) / (place[right] - place[left])
            to = {left: 1.0 - part, right: part}
        for i, part in ({source: 1.0} if source in row else to).items():
            carried[i] = (carried[i][0] + part * towards, carried[i][1] + part * along)
    return carried


def closest(f):
    """Least distance of two anchors, which 17.7.2.2.2 wants to be 2.5 in at least for the coefficient 8."""
    return min((math.dist(a, b) for a, b in combinations(f["anchors"], 2)), default=math.inf)


def edge_row(f, members, carried, place, side, slid=()):
    """17.7.2 of one set of anchors in one row; ``slid`` are rows of this edge for shear along it only.

    The ratio along the edge is that of the worst of those sets that share an anchor with this one, if it is larger.
    """
    towards, along = (sum(carried[i][way] for i in members) for way in (0, 1))
    way = 0 if towards > 0.0 else 1
    centre = sum(place[i] for i in members) / len(members)
    resultant = sum(carried[i][way] * place[i] for i in members) / (towards, along)[way]
    line = sorted(place[i] for i in members)
    across = [min(to_edge(f, i, other) for i in members) for other in SIDES if other[0] != side[0]]
    strengths = sheared.edge(
        c1=min(to_edge(f, i, side) for i in members),
        across=across,
        thickness=f["h_a"],
        gap=max((b - a for a, b in pairwise(line)), default=0.0),
        extent=line[-1] - line[0],
        n=len(members),
        eccentricity=abs(resultant - centre),
        cracked=f["cracked"],
        reinforcement=("none", "bar", "stirrups")[f["edge_reinforcement"]],
        h_ef=f["h_ef"],
        d=f["d_a"],
        sleeve=False,
        welded=f["welded"] and min(across) > 1.5 * f["h_ef"] and closest(f) >= 2.5,
        light=f["lambda_a"],
        f_c=strength_used(f),
    )
    phi = 0.75 if f["supplementary"] else 0.70
    beside = max((row["utilisation"] for row in slid if set(row["anchors"]) & set(members)), default=0.0)
    loads = {"towards": towards, "along": max(along, beside * phi * strengths[1])}
    ratio = sheared.edge_ratio(**loads, strengths=strengths, phi=phi, way=f["oblique"])
    demand = math.hypot(towards, along)
    parts = {"towards": towards, "along": along, "v_cb": strengths[0], "v_cb_along": strengths[1]}
    return _row(members, demand / ratio, demand, side, **parts)


def check(f):
    """Forces of the anchors, rows of each mode that acts, and the largest utilisation of each such mode.

    The strength of a row at an edge is that in the direction of its shear; an interaction has neither strength nor
    demand. Rows at an edge also state ``family`` (0 towards, 1 along), ``row`` (0 is nearest), ``towards`` and
    ``along`` with their nominal strengths; pryout states ``by`` what.
    """
    t, v = tensions(f), shears(f)
    pulled, pushed = tension_rows(f, t), shear_rows(f, v)
    modes = {mode: rows for mode, rows in (pulled | pushed).items() if rows}
    largest = {mode: max(row["utilisation"] for row in rows) for mode, rows in modes.items()}
    if pulled and pushed:
        ratios = [
            max(largest[mode] for mode in side if mode in largest and mode != "sustained_bond")
            for side in (pulled, pushed)
        ]
        both = sheared.together(tension=ratios[0], shear=ratios[1], curve=f["power"])
        everyone = list(range(len(t)))
        row = {"anchors": everyone, "edge": None, "strength": None, "demand": None, "utilisation": both}
        modes["tension_shear_interaction"], largest["tension_shear_interaction"] = [row], both
    forces = [{"tension": a, "v_x": b, "v_y": c} for a, (b, c) in zip(t, v, strict=True)]
    return {"anchors": forces, "modes": modes, "largest": largest}
