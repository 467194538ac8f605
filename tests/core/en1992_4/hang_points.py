"""Random hang points by EN 1992-4 as requests in SI, and what own loops make of each: loads, plates, `independent`.

The combinations of EN 1990, (6.10) and (6.12b), are written out here by their recommended factors (from memory), the
forces of the fasteners by statics. All products and points are invented. Requests in mm and kN; fixtures of
`independent` in mm, N.
"""

import math
from itertools import product as product_of

from core.en1992_4 import independent

CLASSES = {"C20/25": 20.0, "C25/30": 25.0, "C30/37": 30.0, "C50/60": 50.0, "C70/85": 70.0}
E_S = 200_000.0
MODES = {
    "en_steel_tension": "steel_tension",
    "en_pull_out": "pull_out",
    "en_combined_failure": "combined",
    "en_steel_shear": "steel_shear",
    "en_steel_lever_arm": "lever_arm",
    "en_steel_interaction": "steel_interaction",
    "en_concrete_cone": "cone",
    "en_splitting": "splitting",
    "en_blow_out": "blow_out",
    "en_pry_out": "pry_out",
    "en_concrete_edge": "edge",
    "en_concrete_interaction": "concrete_interaction",
}
SHAKEN_MODES = MODES | {"en_seismic_interaction": "seismic_interaction"}
"""Modes in the order of the service, the first largest of which governs, by the names of `independent`."""


# Products


def product(rng):
    """An inline product in the words of a request."""
    headed, bonded = rng.random() < 0.35, rng.random() < 0.3
    d = rng.choice([8.0, 10.0, 12.0, 16.0, 20.0])
    h_ef = max(40.0, round(d * rng.uniform(4.0, 9.0), 1))
    a_se = round(0.75 * math.pi / 4 * d**2, 1)
    f_uk, f_yk = rng.choice([(500.0, 400.0), (800.0, 640.0), (600.0, 360.0), (1000.0, 900.0)])
    en = {"k8": 1.0 if h_ef < 60 else rng.choice([1.0, 2.0])}
    if not headed or rng.random() < 0.8:
        en["c_cr_sp"] = round(h_ef * rng.uniform(1.5, 2.6), 1)
    if not headed and bonded:
        en |= bond_data(rng)
    if not headed and not bonded:
        en |= {"gamma_inst": rng.choice([1.0, 1.2, 1.4]), "psi_c_exponent": rng.choice([0.5, 0.3])}
        basic = 7.7 * math.sqrt(20.0) * h_ef**1.5 / 1000
        for name, factor in (("n_rk_p_cr", 1.0), ("n_rk_p_ucr", 1.4)):
            en[name] = rng.choice(["not_governing", round(factor * basic * rng.uniform(0.6, 0.8), 2)])
        if en["n_rk_p_cr"] == en["n_rk_p_ucr"] == "not_governing":
            del en["psi_c_exponent"]
    for name, value in (
        ("n_rk_s", round(a_se * f_uk * 0.95 / 1000, 2)),
        ("v0_rk_s", round(a_se * f_uk * 0.5 / 1000, 2)),
        ("k7", rng.choice([0.8, 1.0])),
        ("gamma_ms_n", 1.5),
        ("gamma_ms_v", 1.25),
        ("s_cr_n", round(3.2 * h_ef, 1)),
        ("l_f", round(0.8 * h_ef, 1)),
        ("n0_rk_sp", round(7.7 * math.sqrt(20.0) * h_ef**1.5 / 1000 * rng.uniform(0.6, 1.2), 2)),
    ):
        if rng.random() < 0.4 and not (headed and name == "n0_rk_sp"):
            en[name] = value
    size = {"size": f"M{d:g}", "d_a": d, "a_se": a_se, "f_uta": f_uk, "f_ya": f_yk, "ductile": True}
    if headed:
        size["head"] = {"a_brg": round(a_se * rng.uniform(1.5, 3.0), 1)}
    return {
        "units": "si",
        "principle": "headed_cast_in" if headed else "adhesive" if bonded else "torque_controlled_expansion",
        "basis": "en",
        "source": {"document": "Evaluation of an invented fastener", "date": "2024-05", "standard": "EAD"},
        "traits": {"tension_overhead": True, "sustained_tension": True, "upward": bonded and not headed},
        "size": size,
        "embedment": {
            "h_ef": h_ef,
            "h_min": round(1.8 * h_ef, 1),
            "c_min": round(rng.uniform(0.4, 1.2) * h_ef, 1),
            "s_min": round(rng.uniform(0.4, 1.0) * h_ef, 1),
            "en": en,
        },
    }


def bond_data(rng):
    """Invented figures of a bond in a dry hole and in a wet one."""
    tau = round(rng.uniform(6.0, 20.0), 1)
    dry = {"temperature": "a", "long_term": 24.0, "short_term": 40.0, "hole": "dry"}
    dry |= {"gamma_inst": rng.choice([1.0, 1.2]), "tau_rk_ucr": tau, "tau_rk_cr": round(tau * rng.uniform(0.4, 0.8), 1)}
    dry |= {"psi_c_exponent": rng.choice([0.0, 0.1, 0.3])}
    wet = dry | {name: round(0.9 * dry[name], 1) for name in ("tau_rk_ucr", "tau_rk_cr")}
    found = {"bond": [dry, wet | {"hole": "water_saturated", "gamma_inst": 1.4}]}
    if rng.random() < 0.6:
        found["psi0_sus"] = rng.choice([0.6, 0.75, 0.9])
    return found


SURE = {"concrete_age": 40, "certified_installer": True, "continuous_inspection": True, "temperature": "a"}


def anchor_of(rng, own):
    """The anchor of a request, and the place of the condition that it states; an open one is that of the wet hole."""
    if own["principle"] != "adhesive":
        return {"product": own}, 0
    place = rng.choice([0, 1])
    stated = rng.choice([{}, {"hole": "water_saturated"}]) if place else {"hole": "dry"}
    return {"product": own, "adhesive": SURE | stated}, place


def columns(
    own, *, strength_class, cracked, thickness, wide_bars=False, splitting_bars=False, own_share=False, condition=0
):
    """The product and the base as `independent` reads them."""
    size, embedment = own["size"], own["embedment"]
    en, h_ef = embedment["en"], embedment["h_ef"]
    headed = own["principle"] == "headed_cast_in"
    pull_out = en.get("n_rk_p_cr" if cracked else "n_rk_p_ucr")
    bond = en["bond"][condition] if "bond" in en else {}
    return {
        "bonded": bool(bond),
        "tau_cr": bond.get("tau_rk_cr", 0.0),
        "tau_ucr": bond.get("tau_rk_ucr", 1.0),
        "tau_exponent": bond.get("psi_c_exponent", 0.0),
        "psi0_sus": en.get("psi0_sus", 0.6) if bond else 1.0,
        "earthquake": False,
        "h_ef": h_ef,
        "h": thickness,
        "h_min": embedment["h_min"],
        "d_nom": size["d_a"],
        "a_s": size["a_se"],
        "f_uk": size["f_uta"],
        "f_yk": size["f_ya"],
        "n_rk_s": 1000 * en.get("n_rk_s", 0.0),
        "v0_rk_s": 1000 * en.get("v0_rk_s", 0.0),
        "k7": en.get("k7", 0.8),
        "gamma_ms_n": en.get("gamma_ms_n", 0.0),
        "gamma_ms_v": en.get("gamma_ms_v", 0.0),
        "gamma_inst": (bond or en).get("gamma_inst", 1.0),
        "k_cr_n": en.get("k_cr_n", 8.9 if headed else 7.7),
        "k_ucr_n": en.get("k_ucr_n", 12.7 if headed else 11.0),
        "s_cr_n": en.get("s_cr_n", 3 * h_ef),
        "c_cr_sp": en.get("c_cr_sp", 0.0),
        "n0_rk_sp": 1000 * en.get("n0_rk_sp", 0.0),
        "pull_out_by_tests": not headed and not bond,
        "pull_out_governs": pull_out != "not_governing" and not bond,
        "n_rk_p": 1000 * pull_out if isinstance(pull_out, float) else 0.0,
        "psi_c_exponent": en.get("psi_c_exponent", 0.0),
        "k8": en["k8"],
        "a_h": size["head"]["a_brg"] if headed else 0.0,
        "headed": headed,
        "l_f": en.get("l_f", h_ef),
        "post_installed": not headed,
        "f_ck_class": CLASSES[strength_class],
        "cracked": cracked,
        "wide_bars": wide_bars,
        "splitting_bars": splitting_bars,
        "own_share": own_share,
        "either_x": False,
        "either_y": False,
        "lever_arm": False,
    }


def seismic_data(rng, own):
    """Invented figures of earthquake for a product, of C1 and mostly of C2, no one above what stands beside it."""
    size, en = own["size"], own["embedment"]["en"]
    whole = size["a_se"] * size["f_uta"] / 1000
    share = 0.6 if size["f_uta"] <= 500 else 0.5
    basic = 7.7 * math.sqrt(20.0) * own["embedment"]["h_ef"] ** 1.5 / 1000
    figures = {
        "n_rk_s_eq": round(0.9 * en.get("n_rk_s", whole), 2),
        "v0_rk_s_eq": round(rng.uniform(0.5, 0.9) * en.get("v0_rk_s", share * whole), 2),
    }
    for each in en.get("bond", ()):
        each["tau_rk_c1"] = round(0.7 * each["tau_rk_cr"], 2)
    if own["principle"] not in ("headed_cast_in", "adhesive"):
        static = en["n_rk_p_cr"]
        figures["n_rk_p_eq"] = round(rng.uniform(0.5, 0.9) * (static if isinstance(static, float) else basic), 2)
        if static == "not_governing" and rng.random() < 0.5:
            figures["n_rk_p_eq"] = static
    found = {"c1": figures}
    if rng.random() < 0.7:
        lesser = {
            name: round(rng.uniform(0.6, 1.0) * own, 2) for name, own in figures.items() if isinstance(own, float)
        }
        found["c2"] = figures | lesser
        for each in en.get("bond", ()):
            each["tau_rk_c2"] = round(0.4 * each["tau_rk_cr"], 2)
    return found


def seismic_columns(own, *, category, gap_filled, condition=0):
    """What `independent` reads of earthquake besides `columns`."""
    en, headed = own["embedment"]["en"], own["principle"] == "headed_cast_in"
    figures = en[category]
    pull_out = figures.get("n_rk_p_eq")
    undercut = own["principle"] == "undercut" and en.get("k_cr_n", 7.7) >= 8.9
    return {
        "earthquake": True,
        "n0_rk_s_eq": 1000 * figures["n_rk_s_eq"],
        "v0_rk_s_eq": 1000 * figures["v0_rk_s_eq"],
        "n0_rk_p_eq": 1000 * pull_out if isinstance(pull_out, float) else 0.0,
        "pull_out_governs": pull_out != "not_governing" and "bond" not in en,
        "tau_eq": en["bond"][condition][f"tau_rk_{category}"] if "bond" in en else 0.0,
        "like_headed": headed or undercut,
        "gap_filled": gap_filled,
    }


# Loads


FULL = ("tension", "shear_x", "shear_y", "moment_x", "moment_y", "torsion")
PSI_0 = {"snow": 0.7, "wind": 0.6}


def totals(components):
    by_nature = {}
    for own in components:
        total = by_nature.setdefault(own["nature"], [0.0] * 6)
        by_nature[own["nature"]] = [a + own.get(name, 0.0) for a, name in zip(total, FULL, strict=True)]
    return by_nature


LASTS = {"live": 0.8, "snow": 0.2}
"""psi_2 of what varies, EN 1990 Table A1.1, from memory: category E, sites up to 1000 m."""


def summed(factors, by_nature):
    """The load by factors of its natures, what lasts of it for certain, and psi_2 of the rest."""

    def of(natures):
        return [sum(factors.get(each, 0.0) * by_nature[each][at] for each in natures) for at in range(6)]

    varies = [LASTS.get(each, 0.0) for each, own in by_nature.items() if factors.get(each) and any(own)]
    return of(by_nature), of([each for each in by_nature if each in ("dead", "contents")]), max(varies, default=0.0)


def shaken(components):
    """Loads of (6.12b), kN and kN m: G + A_Ed, with contents or without, with 0.8 of live load, with 0.2 of snow.

    Earthquake pulls, its shear and its moments about the origin, the centre of the fasteners, act either way.
    """
    by_nature = totals(components)
    quake = by_nature.pop("earthquake", None)
    if not quake or not any(quake):
        return []
    found = []
    for sense, contents, live, snow in product_of((1.0, -1.0), (1.0, 0.0), (0.8, 0.0), (0.2, 0.0)):
        acts = [abs(quake[0]), *(sense * own for own in quake[1:])]
        beside, stays, psi_2 = summed({"dead": 1.0, "contents": contents, "live": live, "snow": snow}, by_nature)
        found.append(([a + b for a, b in zip(beside, acts, strict=True)], stays, psi_2))
    return found


def combined(components):
    """Loads of (6.10), kN and kN m. Contents and live load have psi_0 1.0; each variable load may be absent."""
    by_nature = totals(components)
    transient = [name for name in PSI_0 if name in by_nature]
    sets = [{}]
    for acting in ([own] for own in transient) if len(transient) < 2 else ([transient[0]], [transient[1]], transient):
        sets += [{name: 1.5 if name == lead else 1.5 * PSI_0[name] for name in acting} for lead in acting]
    found = []
    for dead in (1.35, 1.0):
        for live in (0.0, 1.5):
            for contents, own in product_of((1.5, 0.0), sets):
                found.append(summed({"dead": dead, "live": live, "contents": contents} | own, by_nature))
    return found


# Forces of the fasteners


def solved(matrix, right):
    """Linear equations, by elimination with pivots; None where they have no solution."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for at in range(size):
        pivot = max(range(at, size), key=lambda row: abs(rows[row][at]))
        if abs(rows[pivot][at]) < 1e-9 * max(1.0, max(abs(value) for value in rows[pivot])):
            return None
        rows[at], rows[pivot] = rows[pivot], rows[at]
        for row in range(size):
            if row != at:
                factor = rows[row][at] / rows[at][at]
                rows[row] = [a - factor * b for a, b in zip(rows[row], rows[at], strict=True)]
    return [rows[at][size] / rows[at][at] for at in range(size)]


def tensions(anchors, n, m_x, m_y):
    """Of a plate that bears on nothing: a + b x + c y through all fasteners. N, N mm."""
    if len(anchors) == 1:
        return [n]
    sums = [
        [sum(u * v for u, v in zip(one, other, strict=True)) for other in _bases(anchors)] for one in _bases(anchors)
    ]
    for at in range(3):
        if not any(sums[at]):
            sums[at][at] = 1.0
    found = solved(sums, [n, -m_y, m_x])
    if found is None:
        return None
    a, b, c = found
    return [a + b * x + c * y for x, y in anchors]


def _bases(anchors):
    """1, x and y of the fasteners; an axis along which they all stand in one place bends none of them."""
    axes = [[anchor[at] for anchor in anchors] for at in (0, 1)]
    return [[1.0] * len(anchors), *(axis if max(axis) > min(axis) else [0.0] * len(anchors) for axis in axes)]


def tensions_in_contact(anchors, n, m, *, axis, width, depth, a_s, e_c):
    """Of a plate that bears on the concrete, bent about one axis: ``m`` pulls at the positive end of ``axis``.

    A plane of strains: E_s e on the fasteners in its pulled part, E_c e on the concrete in its pressed part; those
    in the pressed part take nothing. ``width`` is along the axis. Found by halving for the neutral axis.
    """
    if m < 0:
        mirrored = [(-x, -y) for x, y in anchors]
        return tensions_in_contact(mirrored, n, -m, axis=axis, width=width, depth=depth, a_s=a_s, e_c=e_c)
    place = [anchor[axis] for anchor in anchors]
    linear = [n / len(place) + m * (p - sum(place) / len(place)) / (sum(q * q for q in place) or 1.0) for p in place]
    spread = sum(q * q for q in place)
    slope = m / spread if spread else math.inf
    if n > 0 and spread and n / len(place) - slope * width / 2 >= 0:
        return linear

    def resultants(zero):
        pulls = [max(0.0, E_S * a_s * (p - zero)) for p in place]
        pressed = zero + width / 2
        push = e_c * depth * pressed**2 / 2
        return (
            sum(pulls) - push,
            sum(t * p for t, p in zip(pulls, place, strict=True)) - push * (pressed / 3 - width / 2),
            pulls,
        )

    low, high = -width / 2, max(place)
    for _ in range(200):
        middle = (low + high) / 2
        force, moment, _ = resultants(middle)
        if force * m > n * moment:
            low = middle
        else:
            high = middle
    force, moment, pulls = resultants((low + high) / 2)
    return [m / moment * own for own in pulls]


def shears(anchors, v_x, v_y, m_z):
    """Direct shear in equal parts, torsion about the centre in proportion to the distance. N, N mm."""
    count = len(anchors)
    x_c, y_c = (sum(anchor[at] for anchor in anchors) / count for at in (0, 1))
    polar = sum((x - x_c) ** 2 + (y - y_c) ** 2 for x, y in anchors)
    turn = (m_z - (x_c * v_y - y_c * v_x)) / polar if polar else 0.0
    return (
        [v_x / count - turn * (y - y_c) for _, y in anchors],
        [v_y / count + turn * (x - x_c) for x, _ in anchors],
    )


def modulus(f_ck):
    """E_cm, EN 1992-1-1 Table 3.1, from memory."""
    return 22_000.0 * ((f_ck + 8.0) / 10.0) ** 0.3


# What is expected


def worst(rows):
    return max(rows, key=lambda row: row[1] / row[0], default=None)


def pulls(point, tension, m_x, m_y):
    """Tension of each fastener, N, under N and N mm."""
    own = point.get("plate")
    if not own or not (m_x or m_y):
        return tensions(point["anchors"], tension, m_x, m_y)
    axis = 1 if m_x else 0
    return tensions_in_contact(
        point["anchors"],
        tension,
        m_x if m_x else -m_y,
        axis=axis,
        width=own[axis],
        depth=own[1 - axis],
        a_s=point["columns"]["a_s"],
        e_c=modulus(point["columns"]["f_ck_class"]),
    )


def expected(point):
    """By mode the rows of all cases, [(design strength, demand)] in N; None where a fastener is pushed."""
    found = {name: [] for name in SHAKEN_MODES}
    given = [(own, [0.0] * 6, 0.0) for own in point.get("given", ())]
    loads = [(*own, False) for own in (combined(point["components"]) if "components" in point else given)]
    loads += [(*own, True) for own in shaken(point.get("components", ()))]
    anchors = point["anchors"]
    for (tension, v_x, v_y, m_x, m_y, m_z), stays, psi_2, quaking in loads:
        tension, v_x, v_y = (1e3 * own for own in (tension, v_x, v_y))
        m_x, m_y, m_z = (1e6 * own for own in (m_x, m_y, m_z))
        n = pulls(point, tension, m_x, m_y)
        if min(n) < -1e-6 * max(map(abs, n)):
            return None
        lasts = pulls(point, 1e3 * stays[0], 1e6 * stays[3], 1e6 * stays[4])
        n = [max(own, 0.0) for own in n]
        shear_x, shear_y = shears(anchors, v_x, v_y, m_z)
        fixture = point["columns"] | {"anchors": anchors, "edges": point["edges"]}
        if not any(n) and not any(shear_x) and not any(shear_y):
            continue
        staying = [max(own, 0.0) / whole if whole else 0.0 for own, whole in zip(lasts, n, strict=True)]
        fixture |= {"n": n, "v_x": shear_x, "v_y": shear_y, "staying": staying, "psi_2": psi_2}
        rows = independent.check_shaken(fixture | point["seismic"]) if quaking else independent.check(fixture)
        for name, theirs in SHAKEN_MODES.items():
            found[name] += rows.get(theirs, [])
    return found
