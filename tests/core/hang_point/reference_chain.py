"""A scalar calculation of one hang point, loads to verdict, in plain Python loops.

Own code, independent of the service, and *not* an outside check (see ``core.aci318_19.reference``, which it calls for
each load case). A point is a dictionary of the tables of `core.builders`, with a scalar a column; what the columns mean
is what `hangpoint.core.hang_point.points` says. Runs of pipe have an outside check of their own and are left out.
Units: in, lbf, psi.
"""

import math
from dataclasses import dataclass, fields, replace

from core.aci318_19 import independent_bond as bonded
from core.aci318_19 import reference
from core.builders import TABLES

SOFFIT, SIDE, TOP = 0, 1, 2
RULES = ("sp58_allowable", "sp58_allowable_older", "tensile_strength")
CATEGORIES = "ABCDEF"
ORDER = (
    "rod_allowable",
    "rod_strength",
    "steel_tension",
    "pullout",
    "adhesive_bond",
    "sustained_bond",
    "steel_shear",
    "concrete_breakout_tension",
    "side_face_blowout",
    "anchor_reinforcement_tension",
    "concrete_breakout_shear",
    "pryout",
    "anchor_reinforcement_shear",
    "tension_shear_interaction",
)
"""Our own convention: the first largest ratio in this order governs."""


@dataclass(frozen=True, kw_only=True)
class LoadCase:
    """Factored load of one case.

    ``least`` is the tension with the contents that relieve; ``share`` is that of earthquake in tension and in shear.
    """

    name: str
    tension: float
    least: float
    stays: float
    shear: tuple[float, float]
    turns: tuple[bool, bool] = (False, False)
    share: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """``next_case`` is None where there is no other load case."""

    status: str
    mode: str | None
    edge: int
    load_case: str | None
    utilisation: float
    next_case: str | None
    next_utilisation: float


def table(point, name):
    """The columns of a table, those that the point leaves out from the defaults."""
    return TABLES[name] | point[name]


def load_cases(point, *, factored):
    """5.3.1, or the load as given and, where earthquake turns the shear around, with that part of it reversed."""
    hangs = table(point, "hangs")
    if factored:
        tension, quake = hangs["factored"], hangs["earthquake_fraction_v"]
        v_x, v_y = hangs["v_factored"]
        given = LoadCase(
            name="as given",
            tension=tension,
            least=tension,
            stays=tension * hangs["sustained_fraction"],
            shear=(v_x, v_y),
            share=(hangs["earthquake_fraction"], quake),
        )
        left = (1.0 - quake) - quake
        if left >= 0.0 or (v_x == 0.0 and v_y == 0.0):
            return [given]
        turned = replace(
            given,
            name="as given, earthquake reversed",
            shear=(left * v_x, left * v_y),
            share=(hangs["earthquake_fraction"], quake / -left),
        )
        return [given, turned]
    cases = []
    for name, on_dead, on_live in (("1.4D", 1.4, 0.0), ("1.2D+1.6L", 1.2, 1.6)):
        stays = on_dead * hangs["dead"]
        relief = on_dead * hangs["contents"]
        if hangs["contents"] > 0.0:
            stays += relief
            relief = 0.0
        shear, turns = [], []
        for axis in (0, 1):
            empty = on_dead * hangs["v_dead"][axis] + on_live * hangs["v_live"][axis]
            filled = empty + on_dead * hangs["v_contents"][axis]
            shear.append(filled if abs(filled) > abs(empty) else empty)
            turns.append(math.copysign(1.0, empty) != math.copysign(1.0, filled) and 0.0 not in (empty, filled))
        cases.append(
            LoadCase(
                name=name,
                tension=stays + on_live * hangs["live"],
                least=stays + on_live * hangs["live"] + relief,
                stays=stays,
                shear=tuple(shear),
                turns=tuple(turns),
            )
        )
    return cases


def principle(product):
    if not product["post_installed"]:
        return "headed" if product["pullout_method"] == 1 else "hooked"
    for name in ("adhesive", "undercut", "screw"):
        if product[name]:
            return name
    return "expansion"


def anchor(point, case):
    """The anchor of a point under one load case."""
    product, base, fixing, bond = (table(point, name) for name in ("products", "bases", "fixings", "bonds"))
    kind = principle(product)
    cast_in = kind in ("headed", "hooked")
    shaking = base["category"] >= 2
    by_eq = shaking and not cast_in and product["n_p_eq_state"] == 1
    state = product["n_p_cr_state" if base["cracked"] else "n_p_uncr_state"]
    v_sa = product["v_sa"] if product["v_sa_tested"] else None
    if shaking and not cast_in:
        steel = 0.6 * product["a_se_n"] * min(product["f_uta"], 1.9 * product["f_ya"], 125_000.0)
        v_sa = min(product["v_sa_eq"], math.inf if product["v_sa_tested"] else steel)
    same = {field.name for field in fields(reference.Anchor)} & set(product)
    return reference.Anchor(
        **{name: product[name] for name in same - {"v_sa", "n_p_eq"}},
        principle=kind,
        a_se=product["a_se_n"],
        k=(product["k_cr"], product["k_uncr"]) if product["product_k_c"] else None,
        n_p=(product["n_p_cr"], product["n_p_uncr"]),
        n_p_eq=product["n_p_eq"] if by_eq else None,
        n_p_exponent=product["n_exponent"],
        n_p_tested_at=product["f_c_ref"],
        n_p_tested_in_lightweight=product["lightweight_data"] == 1,
        pullout_governs=cast_in or by_eq or state != 2,
        bonds=(bond["tau_cr"], bond["tau_uncr"]),
        alpha=bond["alpha_n_seis"],
        bond_exponent=bond["exponent"],
        bond_tested_at=bond["f_c_ref"],
        stud=product["welded_stud"],
        sleeve=product["distance_sleeve"],
        v_sa=v_sa,
        f_c=base["f_c"],
        lightweight=base["lightweight"],
        density_factor=base["lambda_c"],
        cracked=base["cracked"],
        supplementary=base["supplementary"],
        edges=tuple(base["c_a"]),
        thickness=base["thickness"],
        edge_bars=("none", "bar", "stirrups")[base["edge_reinforcement"]],
        bars_n=(base["a_s_n"], base["f_y_n"]) if base["a_s_n"] > 0.0 else None,
        bars_v=(base["a_s_v"], base["f_y_v"]) if base["a_s_v"] > 0.0 else None,
        welded=fixing["welded"] and cast_in and not thin(fixing, product),
        pad=fixing["grout_pad"],
        oblique=("vector", "separate", "linear")[fixing["oblique"]],
        curve=fixing["power"],
        seismic_category=CATEGORIES[base["category"]],
        load=case.tension,
        load_that_stays=case.stays,
        load_of_earthquake=case.tension * case.share[0],
        shear=case.shear,
        turns=case.turns,
    )


def thin(fixing, product):
    return fixing["thickness"] < 3.0 / 8.0 or fixing["thickness"] < product["d_a"] / 2.0


def resultant(case):
    return math.sqrt(case.shear[0] ** 2 + case.shear[1] ** 2)


def shaken(point, cases):
    """Whether earthquake is more than a fifth of the tension, and of the shear, of any case."""
    letter = CATEGORIES[table(point, "bases")["category"]]
    return tuple(
        any(bonded.much_earthquake(category=letter, total=load, earthquake=load * share) for load, share in loads)
        for loads in (
            [(case.tension, case.share[0]) for case in cases],
            [(resultant(case), case.share[1]) for case in cases],
        )
    )


def refused(point, cases):
    """Whether the point can't be checked."""
    product, base, fixing, bond = (table(point, name) for name in ("products", "bases", "fixings", "bonds"))
    kind, category = principle(product), CATEGORIES[base["category"]]
    cast_in, adhesive = kind in ("headed", "hooked"), kind == "adhesive"
    in_quake_zone = category in "CDEF"
    sheared = any(resultant(case) > 0.0 for case in cases)
    stays = any(case.stays > 0.0 for case in cases)
    by_tension, by_shear = shaken(point, cases)
    if any(case.least < 0.0 for case in cases):
        return True
    if sheared and fixing["gap"] > 0.0:
        return True
    if base["lightweight"] and product["lightweight_data"] == 2:
        return True
    if product["product_k_c"] and product["k_cr" if base["cracked"] else "k_uncr"] == 0.0:
        return True
    if adhesive and (bond["tau_uncr"] == 0.0 or (base["cracked"] and bond["tau_cr"] == 0.0)):
        return True
    by_tests = not cast_in and not adhesive
    if by_tests and product["n_p_cr_state" if base["cracked"] else "n_p_uncr_state"] == 0:
        return True
    pulled = any(case.tension > 0.0 for case in cases)
    if pulled and base["a_s_n"] > 0.0 and not adhesive and not anchor(point, cases[0]).pullout_governs:
        return True
    if in_quake_zone and not cast_in:
        if not product["seismic_qualified"] or (sheared and not product["v_sa_eq_tested"]):
            return True
        if adhesive and bond["alpha_n_seis"] * bond["tau_cr"] == 0.0:
            return True
    if by_tension and fixing["tension_option"] < 0:
        return True
    if by_shear and fixing["shear_option"] < 0:
        return True
    if stays and not product["sustained_tension"]:
        return True
    return adhesive and (young(bond) or (base["face"] != TOP and unfit_overhead(base, bond, stays=stays)))


def young(bond):
    return 0.0 <= bond["age"] < bond["least_age"]


def unfit_overhead(base, bond, *, stays):
    if not bond["upward"]:
        return True
    if not stays:
        return False
    known = bond["confirmed"] and bond["temperature_stated"] and bond["age"] >= bond["least_age"]
    return not known or base["f_c"] < 2_500.0


def violated(point, cases):
    """17.3.3, 17.3.4, 17.6.3.2.2, 17.9, 17.10.5.3(a), and data without a source."""
    product, base, fixing = (table(point, name) for name in ("products", "bases", "fixings"))
    kind, d_a, h_ef = principle(product), product["d_a"], product["h_ef"]
    nearest = sorted(base["c_a"])[0]
    found = [
        nearest < product["c_min"],
        nearest < product["c_min_code"],
        base["thickness"] < product["h_min"],
        kind == "adhesive" and not 4.0 * d_a <= h_ef <= 20.0 * d_a,
        kind == "screw" and not (5.0 * d_a <= h_ef <= 10.0 * d_a and h_ef >= 1.5),
        kind == "hooked" and not 3.0 * d_a <= product["e_h"] <= 4.5 * d_a,
        not product["invented"] and not product["has_source"],
    ]
    if kind in ("expansion", "undercut", "screw") and not product["thickness_tested"]:
        found.append(h_ef > 2.0 / 3.0 * base["thickness"] and h_ef > base["thickness"] - 4.0)
    if shaken(point, cases)[0] and fixing["tension_option"] == 0:
        one = anchor(point, cases[0])
        found += bonded.lacking(
            steel=reference.steel(one) / (0.75 if one.ductile else 0.65),
            concrete=reference.least_of_concrete(one),
            d=d_a,
            stretch=fixing["stretch_length"] or None,
            ductile=one.ductile,
            ultimate=one.f_uta,
            yield_=one.f_ya,
            upset=fixing["upset_threads"],
        )
    return any(found)


def rod_ratios(point, cases, *, factored):
    """Ratio of the rod by its rule: (mode, load case or None for the service load) to ratio."""
    rods, hangs = table(point, "rods"), table(point, "hangs")
    if rods["rule"] < 0:
        return {}
    rule = RULES[rods["rule"]]
    if rule == "tensile_strength":
        area = math.pi * (rods["d"] - rods["k_stress"] * rods["pitch"]) ** 2 / 4.0
        strength = 0.75 * area * rods["f_u"]
        return {("rod_strength", case.name): case.tension / strength for case in cases if case.tension >= 0.0}
    if factored:
        return {}
    stress = {"sp58_allowable": 50_000.0 / 3.5, "sp58_allowable_older": 12_000.0}[rule] * 3.0 / 4.0
    area = math.pi * (rods["d"] - rods["k_root"] * rods["pitch"]) ** 2 / 4.0
    service = hangs["dead"] + sum(hangs[nature] for nature in ("contents", "live") if hangs[nature] > 0.0)
    return {} if service < 0.0 else {("rod_allowable", None): service / (stress * area)}


def larger(one, other):
    """Beyond what rounding makes of equal ratios."""
    return one > other * (1.0 + 1e-12)


def verdict(point, *, factored):
    """What becomes of the point."""
    cases = load_cases(point, factored=factored)
    is_refused = refused(point, cases)
    ratios = {(mode, case, -1): ratio for (mode, case), ratio in rod_ratios(point, cases, factored=factored).items()}
    if not is_refused:
        for case in cases:
            for (mode, edge), (_, _, ratio) in reference.whole(anchor(point, case)).items():
                ratios[mode, case.name, edge] = ratio
    names = [None, *(case.name for case in cases)]
    worst, worst_ratio = (None, None, -1), -1.0
    for place in sorted(ratios, key=lambda place: (ORDER.index(place[0]), names.index(place[1]), place[2])):
        if larger(ratios[place], worst_ratio) or worst[0] is None:
            worst, worst_ratio = place, ratios[place]
    others = {}
    for (_, case, _), ratio in ratios.items():
        if case is not None and case != worst[1]:
            others[case] = max(ratio, others.get(case, ratio))
    following = None
    for case in names[1:]:
        if case in others and (following is None or larger(others[case], others[following])):
            following = case
    holds = worst_ratio <= 1.0 + 1e-9 and not (is_refused or violated(point, cases))
    return Verdict(
        status="refused" if is_refused else "passed" if holds else "failed",
        mode=worst[0],
        edge=worst[2],
        load_case=worst[1],
        utilisation=max(worst_ratio, 0.0),
        next_case=following,
        next_utilisation=0.0 if following is None else others[following],
    )
