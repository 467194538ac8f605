"""The arrays of bond and earthquake against a scalar calculation: own code, no outside check (``independent_bond``)."""

import numpy as np

from core.aci318_19 import independent_bond as scalar
from core.aci318_19.bond_rows import bond_of
from hangpoint.core.aci318_19.seismic import ductile_steel_option, earthquake_governs
from hangpoint.core.aci318_19.sustained_bond import sustained_bond

COUNT = 2_000


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


def bond_columns(rng):
    d_a, tau_uncr = spread(rng, 0.25, 1.5), spread(rng, 600, 3_500)
    far = 10 * d_a * np.sqrt(tau_uncr / 1_100)
    c_a = far[:, None] * np.exp(rng.uniform(np.log(0.1), np.log(3), (COUNT, 4)))
    return {
        "d_a": d_a,
        "h_ef": d_a * rng.uniform(4, 20, COUNT),
        "c_a": np.where(rng.random((COUNT, 4)) < 0.4, np.inf, c_a),
        "anchor_count": np.ones(COUNT),
        "e_n_x": coin(rng, 0.3) * spread(rng, 0.1, 10),
        "e_n_y": coin(rng, 0.3) * spread(rng, 0.1, 10),
        "cracked": coin(rng),
        "tau_cr": tau_uncr * rng.uniform(0.3, 0.9, COUNT),
        "tau_uncr": tau_uncr,
        "by_seismic_tests": coin(rng, 0.3),
        "alpha_n_seis": rng.uniform(0.5, 1, COUNT),
        "tau_exponent": coin(rng) * rng.uniform(0.05, 0.3, COUNT),
        "f_c_ref": rng.choice([2_500.0, 3_000.0], COUNT),
        "f_c": spread(rng, 2_000, 8_000),
        "lambda_bond": rng.choice([1.0, 0.6 * 0.75, 0.6 * 0.85], COUNT),
        "c_ac": far * rng.uniform(0.5, 3, COUNT),
        "seismic_factor": rng.choice([1.0, 0.75], COUNT),
        "phi": rng.choice([0.75, 0.65, 0.55, 0.45], COUNT),
        "demand": spread(rng, 100, 1e5),
    }


def test_bond_and_sustained_tension():
    columns = bond_columns(np.random.default_rng(1765))
    made = bond_of(columns)
    basics, nominals, strengths, staying = [], [], [], []
    for row in rows(**columns):
        c = scalar.reach(d=row["d_a"], uncracked_bond=row["tau_uncr"])
        bond = scalar.characteristic_bond(
            cracked=row["cracked"],
            seismic=row["by_seismic_tests"],
            bonds=(row["tau_cr"], row["tau_uncr"]),
            alpha=row["alpha_n_seis"],
            f_c=row["f_c"],
            tested_at=row["f_c_ref"],
            exponent=row["tau_exponent"],
        )
        basic = scalar.basic_bond(d=row["d_a"], depth=row["h_ef"], bond=bond, light=row["lambda_bond"])
        nominal = scalar.modified(
            basic=basic,
            edges=row["c_a"],
            c=c,
            off_centre=(row["e_n_x"], row["e_n_y"]),
            cracked=row["cracked"],
            critical=row["c_ac"],
        )
        basics.append(basic)
        nominals.append(nominal)
        strengths.append(row["phi"] * nominal * row["seismic_factor"])
        staying.append(scalar.sustained(basic=basic, phi=row["phi"]))
    agrees(made.n_ba, basics)
    agrees(made.n_a, nominals)
    agrees(made.design_strength, strengths)
    agrees(made.utilisation, columns["demand"] / np.array(strengths))
    stays = sustained_bond(n_ba=made.n_ba, phi=made.phi, open_share=np.ones(len(made.phi)), demand=0.5 * made.demand)
    agrees(stays.design_strength, staying)
    agrees(stays.utilisation, 0.5 * columns["demand"] / np.array(staying))
    near = made.c_a_min < made.c_na
    often(
        edge=near,
        far=~near,
        splitting=made.psi_cp_na < 1,
        splitting_by_edge=(made.psi_cp_na < 1) & ~near,
        splitting_limited=made.uncracked & (made.c_ac < made.c_na) & (made.c_a_min < made.c_ac),
        seismic_uncracked=made.by_seismic_tests & made.uncracked,
        off_centre=(made.e_n_x > 0) & (made.e_n_y > 0),
        scaled=made.tau_exponent > 0,
    )


def test_share_of_earthquake():
    rng = np.random.default_rng(17105)
    category = rng.integers(0, 6, COUNT).astype(np.int8)
    total = np.where(coin(rng, 0.1), 0.0, rng.uniform(-500, 5_000, COUNT))
    earthquake = np.abs(total) * rng.uniform(0, 0.5, COUNT) * coin(rng, 0.8)
    expected = [
        scalar.much_earthquake(category="ABCDEF"[row["category"]], total=row["total"], earthquake=row["earthquake"])
        for row in rows(category=category, total=total, earthquake=earthquake)
    ]
    found = earthquake_governs(category=category, n_ua=total, n_ua_e=earthquake)
    assert found.tolist() == expected
    often(governs=found, small=~found & (category >= 2) & (total > 0), low=~found & (earthquake > 0.2 * total))


def test_ductile_steel():
    rng = np.random.default_rng(171053)
    n_sa, d_a, f_ya = spread(rng, 1_000, 1e5), spread(rng, 0.25, 2), spread(rng, 30_000, 110_000)
    columns = {
        "n_sa": n_sa,
        "n_concrete": np.where(coin(rng, 0.1), np.inf, n_sa * spread(rng, 0.8, 3)),
        "d_a": d_a,
        "l_stretch": coin(rng, 0.8) * d_a * rng.uniform(4, 20, COUNT),
        "ductile": coin(rng, 0.8),
        "f_uta_specified": f_ya * rng.uniform(1.05, 2, COUNT),
        "f_ya": f_ya,
        "upset_threads": coin(rng, 0.3),
    }
    made = ductile_steel_option(**columns)
    lacking = [
        scalar.lacking(
            steel=row["n_sa"],
            concrete=row["n_concrete"],
            d=row["d_a"],
            stretch=row["l_stretch"] or None,
            ductile=row["ductile"],
            ultimate=row["f_uta_specified"],
            yield_=row["f_ya"],
            upset=row["upset_threads"],
        )
        for row in rows(**columns)
    ]
    for name, met in (
        ("strength", made.steel_governs),
        ("stretch", made.stretch_enough),
        ("ductility", made.ductile),
        ("ratio", made.ratio_enough),
    ):
        assert (~met).tolist() == [name in found for found in lacking]
    assert made.holds.tolist() == [not found for found in lacking]
    often(holds=made.holds, upset=made.upset_threads & (made.strength_ratio < 1.3), none=made.l_stretch == 0)
