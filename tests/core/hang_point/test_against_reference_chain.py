"""The chain against plain loops over points and load cases: own code, not an outside check (``reference_chain``)."""

from collections import Counter

import numpy as np
import pytest

from core.builders import ADHESIVE_ROD, FACTORED_LOADS, HEADED_BOLT, SERVICE_LOADS, TABLES, points, rod
from core.hang_point.reference_chain import ORDER, RULES, load_cases, verdict, violated
from core.hang_point.verdicts import refusal_of
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.hang_point.chain import check
from hangpoint.core.hang_point.verdict import NONE

COUNT = 300
PRODUCTS = {
    "expansion": {"thickness_tested": False},
    "sleeve": {"distance_sleeve": True, "v_sa_tested": False, "n_p_cr_state": 2, "n_p_eq_state": 2},
    "undercut": {"undercut": True, "n_p_cr": 9_000.0, "n_p_uncr": 12_000.0, "h_ef": 5.0, "h_min": 8.0},
    "screw": {"screw": True, "h_ef": 3.0, "h_min": 5.0, "ductile": False, "thickness_tested": True, "category": 2},
    "adhesive": ADHESIVE_ROD,
    "deep adhesive": ADHESIVE_ROD | {"d_a": 0.75, "a_se_n": 0.334, "h_ef": 9.0, "c_ac": 18.0, "h_min": 11.0},
    "headed": HEADED_BOLT,
    "stud": HEADED_BOLT | {"welded_stud": True, "h_ef": 8.0, "h_min": 9.0, "f_uta": 65_000.0, "f_ya": 51_000.0},
    "deep headed": HEADED_BOLT | {"h_ef": 12.0, "h_min": 13.0, "d_a": 1.0, "a_se_n": 0.606, "a_brg": 1.5},
    "hooked": HEADED_BOLT | {"pullout_method": HOOKED, "a_brg": 0.0, "e_h": 2.5},
}


def _vector(rng, size, share):
    """Along x and y up to a size either way, each there with a probability."""
    return tuple((size * rng.uniform(-1, 1, 2) * (rng.random(2) < share)).tolist())


def _loads(rng, *, factored):
    """Tension and shear; contents and live load sometimes push back."""
    size = float(np.exp(rng.uniform(np.log(100), np.log(5_000))))
    if factored:
        return {
            "factored": size * float(rng.random() < 0.9),
            "sustained_fraction": float(rng.choice([0.0, 0.4, 1.0])),
            "earthquake_fraction": float(rng.choice([0.0, 0.19, 0.5])),
            "v_factored": _vector(rng, 1.0 * size, 0.6),
            "earthquake_fraction_v": float(rng.choice([0.0, 0.15, 0.5, 0.8, 1.0])),
        }
    back = [-1.0, 1.0, 1.0, 1.0]
    return {
        "dead": size,
        "contents": size * float(rng.uniform(0, 0.5) * rng.choice(back)),
        "live": size * float(rng.uniform(0, 1) * rng.choice(back)),
        "v_dead": _vector(rng, 0.5 * size, 0.5),
        "v_contents": _vector(rng, 1.0 * size, 0.3),
        "v_live": _vector(rng, 0.5 * size, 0.4),
    }


def _point(rng, *, factored):
    product = PRODUCTS[str(rng.choice(list(PRODUCTS)))]
    product = product | {
        "lightweight_data": int(rng.choice([0, 0, 1, 1, 2])),
        "seismic_qualified": bool(rng.random() < 0.95),
        "v_sa_eq_tested": bool(rng.random() < 0.95),
        "sustained_tension": bool(rng.random() < 0.95),
        "has_source": bool(rng.random() < 0.5),
        "invented": bool(rng.random() < 0.8),
    }
    h_ef = product.get("h_ef", 3.25)
    edges = h_ef * rng.uniform(0.3, 4, 4)
    edges[rng.random(4) < 0.5] = np.inf
    bars = rng.random(2) < 0.15
    return {
        "hangs": _loads(rng, factored=factored),
        "products": product,
        "rods": {} if rng.random() < 0.5 else rod(str(rng.choice(RULES)), str(rng.choice(["3/8", "1/2", "5/8"]))),
        "bases": {
            "f_c": float(rng.uniform(2_400, 11_000)),
            "lightweight": bool(rng.random() < 0.3),
            "lambda_c": float(rng.choice([0.75, 0.85])),
            "cracked": bool(rng.random() < 0.6),
            "thickness": h_ef * float(rng.uniform(1.5, 4)),
            "c_a": tuple(edges.tolist()),
            "supplementary": bool(rng.random() < 0.5),
            "edge_reinforcement": int(rng.integers(0, 3)),
            "a_s_n": 0.2 * float(bars[0]),
            "f_y_n": 60_000.0 * float(bars[0]),
            "a_s_v": 0.2 * float(bars[1]),
            "f_y_v": 60_000.0 * float(bars[1]),
            "face": int(rng.integers(0, 3)),
            "category": int(rng.integers(0, 6)),
        },
        "fixings": {
            "welded": bool(rng.random() < 0.5),
            "thickness": float(rng.choice([0.0, 0.375, 0.5])),
            "grout_pad": bool(rng.random() < 0.2),
            "gap": float(rng.choice([0.5, *([0.0] * 19)])),
            "tension_option": int(rng.choice([-1, 0, 0, 0, 1, 2, 3, 3, 3, 3])),
            "shear_option": int(rng.choice([-1, 1, 1, 2, 2, 3, 3, 3, 3, 3])),
            "stretch_length": float(rng.choice([0.0, 5.0, 8.0])),
            "upset_threads": bool(rng.random() < 0.5),
            "oblique": int(rng.integers(0, 3)),
            "power": bool(rng.random() < 0.3),
        },
        "bonds": {
            "tau_cr": float(rng.choice([0.0, *([900.0] * 9)])),
            "tau_uncr": float(rng.choice([1_600.0, 1_400.0])),
            "alpha_n_seis": float(rng.choice([0.0, *([0.8] * 9)])),
            "upward": bool(rng.random() < 0.9),
            "confirmed": bool(rng.random() < 0.9),
            "age": float(rng.choice([-1.0, 20.0, 28.0, 28.0, 28.0, 28.0])),
        },
    }


def _batch(rows):
    tables = {}
    for name, defaults in TABLES.items():
        stated = sorted({column for row in rows for column in row.get(name, {})})
        tables[name] = {column: [row.get(name, {}).get(column, defaults[column]) for row in rows] for column in stated}
    return points(**tables, count=len(rows))


@pytest.fixture(scope="module", params=["service loads", "factored loads"])
def batch(request):
    factored = request.param == "factored loads"
    rng = np.random.default_rng(1705 if factored else 1706)
    rows = [_point(rng, factored=factored) for _ in range(COUNT)]
    made = check(_batch(rows), FACTORED_LOADS if factored else SERVICE_LOADS)
    return rows, made, [verdict(row, factored=factored) for row in rows], factored


def _case(made, index):
    return None if index == NONE else made.case_names[index]


def test_status(batch):
    _, made, expected, _ = batch
    statuses = [
        "refused" if refusal_of(made, row) else "failed" if made.failed[row] else "passed" for row in range(COUNT)
    ]
    assert statuses == [one.status for one in expected]
    assert min(Counter(statuses).values()) > 40
    assert len(Counter(statuses)) == 3


def test_governing_mode_edge_and_case(batch):
    _, made, expected, _ = batch
    for row, one in enumerate(expected):
        mode = None if made.governing[row] == NONE else made.modes[made.governing[row]]
        assert (mode and mode.mode.value.code) == one.mode, row
        if mode is not None:
            assert mode.edge[row] == one.edge, row
            assert _case(made, mode.load_case[row]) == one.load_case, row


def test_utilisation_and_next_case(batch):
    _, made, expected, _ = batch
    np.testing.assert_allclose(made.utilisation, [one.utilisation for one in expected], rtol=1e-9)
    np.testing.assert_allclose(made.next_utilisation, [one.next_utilisation for one in expected], rtol=1e-9)
    assert [_case(made, index) for index in made.next_case] == [one.next_case for one in expected]


def test_what_governs_varies(batch):
    """Nearly every mode governs somewhere, and both load cases; points fail by a violation alone as well."""
    rows, _, expected, factored = batch
    checked = [one for one in expected if one.status != "refused"]
    modes = Counter(one.mode for one in checked)
    assert set(modes) - set(ORDER) == set()
    assert len(modes) > 9
    alone = [
        one.utilisation <= 1.0 and one.status == "failed" and violated(row, load_cases(row, factored=factored))
        for row, one in zip(rows, expected, strict=True)
    ]
    assert sum(alone) > 20
    assert len({one.load_case for one in checked}) == (2 if factored else 3)
