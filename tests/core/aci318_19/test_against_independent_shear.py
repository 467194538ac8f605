"""The arrays of shear against a scalar calculation: own code, not an outside check (see ``independent_shear``)."""

import numpy as np

from core.aci318_19 import independent_shear as scalar
from hangpoint.core.aci318_19.anchor_reinforcement import anchor_reinforcement
from hangpoint.core.aci318_19.concrete_breakout_shear import concrete_breakout_shear
from hangpoint.core.aci318_19.interaction import interaction
from hangpoint.core.aci318_19.pryout import pryout
from hangpoint.core.aci318_19.steel_shear import steel_shear

COUNT = 2_000
REINFORCEMENT = ("none", "bar", "stirrups")
WAYS = ("vector", "separate", "linear")


def spread(rng, low, high):
    return np.exp(rng.uniform(np.log(low), np.log(high), COUNT))


def coin(rng, share=0.5):
    return rng.random(COUNT) < share


def rows(**columns):
    """One dictionary of plain Python values a row."""
    lists = {name: column.tolist() for name, column in columns.items()}
    return [dict(zip(lists, values, strict=True)) for values in zip(*lists.values(), strict=True)]


def agrees(computed, expected):
    assert len(expected) == COUNT
    np.testing.assert_allclose(computed, expected, rtol=1e-9)


def often(**masks):
    """The random rows reach every branch often enough to mean something."""
    assert {name: int(mask.sum()) for name, mask in masks.items() if mask.sum() <= 20} == {}


def test_steel():
    rng = np.random.default_rng(1771)
    columns = {
        "a_se_v": spread(rng, 0.02, 4),
        "f_uta_specified": spread(rng, 40_000, 180_000),
        "f_ya": spread(rng, 20_000, 150_000),
        "ductile": coin(rng),
        "welded_stud": coin(rng),
        "tested": coin(rng, 0.3),
        "alone": coin(rng),
        "v_sa_tested": spread(rng, 500, 5e4),
        "grout_pad": coin(rng),
        "demand": spread(rng, 1, 1e5),
    }
    made = steel_shear(**columns)
    by = [[], []]
    for row in rows(**columns):
        for strengths, value in zip(by, (None, row["v_sa_tested"]), strict=True):
            strength = scalar.steel(
                area=row["a_se_v"],
                ultimate=row["f_uta_specified"],
                yield_=row["f_ya"],
                ductile=row["ductile"],
                stud=row["welded_stud"],
                test_value=value,
                pad=row["grout_pad"],
            )
            strengths.append(strength)
    formula, tests = np.array(by)
    tests = np.where(columns["alone"], np.minimum(tests, formula), tests)
    expected = np.where(columns["tested"], tests, formula)
    agrees(made.design_strength, expected)
    agrees(made.utilisation, columns["demand"] / np.array(expected))
    often(
        stud=made.by_stud,
        bolt=made.by_bolt,
        f_ya=made.f_uta == 1.9 * made.f_ya,
        limit=made.f_uta == 125_000,
        specified=made.f_uta == made.f_uta_specified,
    )


def edge_columns(rng):
    c_a1 = spread(rng, 1, 40)
    c_a2 = c_a1[:, None] * np.exp(rng.uniform(np.log(0.1), np.log(4), (COUNT, 2)))
    row = coin(rng)
    s_max = row * c_a1 * rng.uniform(0.3, 2.99, COUNT)
    count = np.where(row, rng.integers(2, 6, COUNT), 1).astype(float)
    none = coin(rng, 0.3)
    v_towards = ~none * coin(rng, 0.8) * spread(rng, 10, 1e5)
    return {
        "c_a1": c_a1,
        "c_a2": np.where(rng.random((COUNT, 2)) < 0.2, np.inf, c_a2),
        "h_a": c_a1 * spread(rng, 0.2, 5),
        "h_ef": spread(rng, 1, 30),
        "d_a": spread(rng, 0.2, 4),
        "distance_sleeve": coin(rng, 0.2),
        "welded": coin(rng),
        "extent": s_max * (count - 1) * rng.uniform(0.6, 1.0, COUNT),
        "s_max": s_max,
        "anchor_count": count,
        "e_v": coin(rng) * spread(rng, 0.1, 20),
        "cracked": coin(rng, 0.8),
        "edge_reinforcement": rng.integers(0, 3, COUNT).astype(np.int8),
        "lambda_a": rng.uniform(0.6, 1, COUNT),
        "f_c": spread(rng, 1_500, 10_000),
        "phi": rng.choice([0.70, 0.75], COUNT),
        "v_towards": v_towards,
        "v_along": ~none * coin(rng, 0.8) * spread(rng, 10, 1e5),
        "r_along_row": (v_towards > 0) * coin(rng, 0.3) * rng.uniform(0, 3, COUNT),
        "oblique": rng.integers(0, 3, COUNT).astype(np.int8),
    }


def test_breakout():
    rng = np.random.default_rng(1772)
    columns = edge_columns(rng)
    made = concrete_breakout_shear(**columns)
    strengths, ratios, directed = [], [], []
    for row in rows(**columns):
        pair = scalar.edge(
            c1=row["c_a1"],
            across=row["c_a2"],
            thickness=row["h_a"],
            gap=row["s_max"],
            extent=row["extent"],
            n=row["anchor_count"],
            eccentricity=row["e_v"],
            cracked=row["cracked"],
            reinforcement=REINFORCEMENT[row["edge_reinforcement"]],
            h_ef=row["h_ef"],
            d=row["d_a"],
            sleeve=row["distance_sleeve"],
            welded=row["welded"],
            light=row["lambda_a"],
            f_c=row["f_c"],
        )
        ratio = scalar.edge_ratio(
            towards=row["v_towards"],
            along=max(row["v_along"], row["r_along_row"] * row["phi"] * pair[1]),
            strengths=pair,
            phi=row["phi"],
            way=WAYS[row["oblique"]],
        )
        load = (row["v_towards"] ** 2 + row["v_along"] ** 2) ** 0.5
        strengths.append(pair)
        ratios.append(ratio)
        directed.append(load / ratio if load else row["phi"] * pair[0])
    agrees(made.v_cb, [towards for towards, _ in strengths])
    agrees(made.v_cb_along, [along for _, along in strengths])
    agrees(made.utilisation, ratios)
    agrees(made.design_strength, directed)
    agrees(made.demand, np.hypot(columns["v_towards"], columns["v_along"]))
    governs = made.c_a1_used / made.c_a1
    often(
        narrow=made.narrow,
        by_gap=made.narrow & (made.c_a1_used == made.s_max / 3),
        by_side=made.narrow & (made.c_a1_used == made.c_a2_max / 1.5),
        by_thickness=made.narrow & (made.c_a1_used == made.h_a / 1.5),
        far_below=governs < 0.5,
        both_near_but_thick=~made.narrow & (made.c_a2_max < 1.5 * made.c_a1),
        thin_but_wide=~made.narrow & (made.h_a < 1.5 * made.c_a1),
        limit=made.v_b == made.v_b_limit,
        welded_limit=made.welded & (made.v_b == made.v_b_limit),
        sleeve=made.distance_sleeve,
        h_ef=made.l_e == made.h_ef,
        eight=made.l_e == 8 * made.d_a,
        corner=made.psi_ed_v < 1,
        thin=made.psi_h_v > 1,
        unloaded=made.v_ua == 0,
        oblique=(made.v_towards > 0) & (made.v_along > 0),
    )


def test_pryout():
    rng = np.random.default_rng(1773)
    columns = {
        "h_ef": spread(rng, 1, 8),
        "n_cb": spread(rng, 100, 1e5),
        "by_bond": coin(rng),
        "n_a": spread(rng, 100, 1e5),
        "phi": rng.choice([0.70, 0.75], COUNT),
        "demand": spread(rng, 1, 1e5),
    }
    made = pryout(**columns)
    expected = [
        row["phi"] * scalar.pryout(h_ef=row["h_ef"], breakout=row["n_a" if row["by_bond"] else "n_cb"], bond=None)
        for row in rows(**columns)
    ]
    agrees(made.design_strength, expected)
    agrees(made.utilisation, columns["demand"] / np.array(expected))
    often(
        shallow=made.k_cp == 1,
        bond=made.by_bond & (made.n_cb < made.n_a),
        breakout=~made.by_bond & (made.n_a < made.n_cb),
    )


def test_reinforcement():
    rng = np.random.default_rng(1752)
    columns = {"a_s": spread(rng, 0.1, 10), "f_y": spread(rng, 40_000, 80_000), "demand": spread(rng, 1, 1e6)}
    made = anchor_reinforcement(**columns)
    expected = [scalar.reinforcement(area=row["a_s"], yield_=row["f_y"]) for row in rows(**columns)]
    agrees(made.design_strength, expected)
    agrees(made.utilisation, columns["demand"] / np.array(expected))


def test_together():
    rng = np.random.default_rng(1780)
    columns = {
        "r_n": coin(rng, 0.9) * spread(rng, 0.05, 2),
        "r_v": coin(rng, 0.9) * spread(rng, 0.05, 2),
        "power": coin(rng),
    }
    made = interaction(**columns)
    expected = [scalar.together(tension=row["r_n"], shear=row["r_v"], curve=row["power"]) for row in rows(**columns)]
    agrees(made.utilisation, expected)
    agrees(made.demand, np.array(expected) * made.design_strength)
    often(by_sum=made.by_sum, neglected=made.trilinear & ~made.both, by_one=made.both & ~made.by_sum & made.trilinear)
