"""Temperature and hole of an adhesive anchor left open: the condition in which it holds least where it stands.

By hand from 17.6.5: c_Na = 10 d_a sqrt(tau_uncr / 1100), N_a = A_Na / (2 c_Na)^2 psi_ed,Na psi_cp,Na tau pi d_a h_ef,
phi by the category (Table 17.5.3); the products are invented.
"""

import math

import pytest

from api.bodies import NO_EDGES, change, single

SURE = {"concrete_age": 40, "certified_installer": True, "continuous_inspection": True}
PHI = {1: 0.65, 2: 0.55, 3: 0.45}


def rod(*conditions, **changes):
    """A rod of 1/2 in, 4 in deep, c_ac 8 in, with the conditions (category, tau_cr, tau_uncr, alpha_N,seis)."""
    bond = [
        {
            "temperature": name,
            "long_term": 110,
            "short_term": 130,
            "hole": "dry",
            "category": category,
            "tau_cr": tau_cr,
            "tau_uncr": tau_uncr,
            "alpha_n_seis": alpha,
        }
        for name, (category, tau_cr, tau_uncr, alpha) in zip("abcd", conditions, strict=False)
    ]
    made = {
        "units": "us",
        "principle": "adhesive",
        "basis": "adhesive",
        "source": {"document": "Evaluation of an invented adhesive", "date": "2024-05", "standard": "ACI 355.4-19"},
        "traits": {"tension_overhead": True, "sustained_tension": True, "upward": True, "least_age_days": 21},
        "size": {"size": "1/2", "d_a": 0.5, "a_se": 0.1419, "f_uta": 125000, "f_ya": 105000, "ductile": True},
        "embedment": {
            "h_ef": 4,
            "h_min": 6,
            "c_min": 2,
            "s_min": 2,
            "spacing_tested": True,
            "c_ac": 8,
            "k_cr": 17,
            "k_uncr": 24,
            "v_sa": 8000,
            "v_sa_eq": 6000,
            "seismic": True,
            "bond": bond,
        },
    }
    return change(made, changes)


def bond_of(send_one, anchor, *, edges=NO_EDGES, state="uncracked", category="A", f_c=4000, stays=0):
    base = {
        "kind": "concrete",
        "strength": {"f_c": f_c},
        "density": "normalweight",
        "state": state,
        "thickness": 30,
        "edges": edges,
        "face": "top",
    }
    if state == "uncracked":
        base["state_decided_by"] = "engineer of record"
    hangs = {"kind": "forces", "sustained_fraction": stays, "components": [{"nature": "dead", "tension": 1000}]}
    body = single(hangs=hangs, anchor=anchor, base=base, seismic={"category": category}, rod={})
    result = send_one({**body, "combinations": "given_factored", "detail": "modes"}, status=200)["items"][0]
    return result, next(each for each in result["modes"] if each["mode"] == "adhesive_bond")


def phi_n_a(tau_uncr, tau, category, *, c_a, d_a, h_ef, c_ac=None):
    """One anchor with edges on four sides; c_ac in uncracked concrete."""
    c_na = 10 * d_a * math.sqrt(tau_uncr / 1100)
    reach = [min(c, c_na) for c in c_a]
    area = (reach[0] + reach[1]) * (reach[2] + reach[3]) / (2 * c_na) ** 2
    near = min(c_a)
    edge = min(1, 0.7 + 0.3 * near / c_na)
    splitting = 1 if c_ac is None else min(1, max(near, c_na) / c_ac)
    return PHI[category] * area * edge * splitting * tau * math.pi * d_a * h_ef


def test_uncracked_concrete_goes_by_the_bond_there(send_one):
    """Of 700 / 1,600 and 720 / 1,300 psi the second holds less where the concrete is uncracked."""
    result, mode = bond_of(send_one, {"product": rod((1, 700, 1600, 1), (1, 720, 1300, 1)), "adhesive": SURE})
    far = (math.inf,) * 4
    assert mode["design_strength"] == pytest.approx(phi_n_a(1300, 1300, 1, c_a=far, d_a=0.5, h_ef=4, c_ac=8), rel=1e-9)
    assert "least-bond-assumed" in result["assumptions"]


def test_high_seismic_categories_go_by_the_seismic_bond(send_one):
    """900 x 0.7 = 630 psi is below 700 x 1.0 in category D; in A 700 is the least."""
    anchor = {"product": rod((1, 700, 1600, 1), (1, 900, 1800, 0.7)), "adhesive": SURE}
    far = (math.inf,) * 4
    _, shaken = bond_of(send_one, anchor, state="cracked", category="D")
    _, still = bond_of(send_one, anchor, state="cracked")
    assert shaken["design_strength"] == pytest.approx(phi_n_a(1800, 630, 1, c_a=far, d_a=0.5, h_ef=4), rel=1e-9)
    assert still["design_strength"] == pytest.approx(phi_n_a(1600, 700, 1, c_a=far, d_a=0.5, h_ef=4), rel=1e-9)


def test_the_strength_of_the_concrete_counts(send_one):
    """Of 1,000 psi that rise with (f'c / 2,500)^0.3 and 1,100 psi that don't, the latter are less at 4,000 psi."""
    product = rod((1, 1000, 1800, 1), (1, 1100, 1800, 1))
    product["embedment"]["bond"][0]["tau_exponent"] = 0.3
    far = (math.inf,) * 4
    _, mode = bond_of(send_one, {"product": product, "adhesive": SURE}, state="cracked")
    assert mode["design_strength"] == pytest.approx(phi_n_a(1800, 1100, 1, c_a=far, d_a=0.5, h_ef=4), rel=1e-9)


CORNERED = dict(zip(NO_EDGES, (5.41, 4.77, 9.05, 8.28), strict=True))


def test_near_edges_a_stronger_bond_may_hold_less(send_one):
    """Between four edges a stronger bond reaches farther, loses more of A_Na / A_Nao and psi_ed,Na, and holds less."""
    conditions = [(1, 1000, 1900, 1), (1, 950, 1500, 1)]
    edges = tuple(CORNERED.values())
    by_hand = [
        phi_n_a(tau_uncr, tau_uncr, category, c_a=edges, d_a=0.5, h_ef=4, c_ac=5.5)
        for category, _, tau_uncr, _ in conditions
    ]
    strong = [
        phi_n_a(tau_uncr, tau_cr, category, c_a=(3.2,) * 4, d_a=0.5, h_ef=4)
        for category, tau_cr, tau_uncr, _ in conditions
    ]
    assert by_hand[1] < by_hand[0]
    assert strong[0] < strong[1]
    near = dict.fromkeys(NO_EDGES, 3.2)
    product = rod(*conditions, **{"embedment.c_ac": 5.5})
    _, far_mode = bond_of(send_one, {"product": product, "adhesive": SURE}, edges=CORNERED)
    _, near_mode = bond_of(send_one, {"product": product, "adhesive": SURE}, edges=near, state="cracked")
    assert far_mode["design_strength"] == pytest.approx(by_hand[1], rel=1e-9)
    assert near_mode["design_strength"] == pytest.approx(strong[0], rel=1e-9)


def test_no_condition_of_the_catalogue_holds_less_than_silence(send_one):
    """A rod of 1 in, 4 in deep, between four edges: the worst that any stated condition gives."""
    anchor = {"family": "adhesive-slow-rod-105", "size": "1", "h_ef": 4}
    stated = []
    for temperature in ("a", "b"):
        for hole in ("dry", "water_saturated"):
            named = {**anchor, "adhesive": {**SURE, "temperature": temperature, "hole": hole}}
            stated.append(bond_of(send_one, named, edges=CORNERED)[1]["utilisation"])
    _, silent = bond_of(send_one, {**anchor, "adhesive": SURE}, edges=CORNERED)
    assert silent["utilisation"] == pytest.approx(max(stated), rel=1e-12)


def test_a_row_of_anchors_is_judged_together(send_one):
    """Three in a row 3 in apart, A_Na = (6 + 2 c_Na) 2 c_Na: 1,010 psi that reach as 2,400 hold less of them than 1,000
    that reach as 1,300, though not of one.
    """
    layout = [{"x": x, "y": 0} for x in (-3, 0, 3)]
    conditions = [(1, 1010, 2400, 1), (1, 1000, 1300, 1)]
    _, mode = bond_of(send_one, {"product": rod(*conditions), "adhesive": SURE, "layout": layout}, state="cracked")
    c_na = 5 * math.sqrt(2400 / 1100)
    together = 0.65 * (6 + 2 * c_na) * 2 * c_na / (2 * c_na) ** 2 * 1010 * math.pi * 0.5 * 4
    assert mode["design_strength"] == pytest.approx(together, rel=1e-9)


def test_tension_that_stays_has_the_least_bond_of_all(send_one):
    """Between edges of 3.2 in 0.65 x 1,000 psi that reach as 1,900 hold less than 0.55 x 1,060 that reach as 1,100;
    of tension that stays, where edges don't count, 0.55 x 0.55 x 1,060 is the least.
    """
    anchor = {"product": rod((1, 1000, 1900, 1), (2, 1060, 1100, 1)), "adhesive": SURE}
    edges = (3.2,) * 4
    one, other = (phi_n_a(*each, c_a=edges, d_a=0.5, h_ef=4) for each in ((1900, 1000, 1), (1100, 1060, 2)))
    assert one < other
    result, mode = bond_of(send_one, anchor, edges=dict.fromkeys(NO_EDGES, 3.2), state="cracked", stays=0.6)
    staying = next(each for each in result["modes"] if each["mode"] == "sustained_bond")
    assert mode["design_strength"] == pytest.approx(one, rel=1e-9)
    assert staying["design_strength"] == pytest.approx(0.55 * 0.55 * 1060 * math.pi * 0.5 * 4, rel=1e-9)
