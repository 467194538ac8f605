"""The arrays against a scalar calculation: own code, independent, not an outside check (see ``reference``)."""

import numpy as np
import pytest

from core.aci318_19 import reference
from core.builders import anchor_cases
from core.outcome_rows import cases_of_rows, edges_of_rows
from hangpoint.core.aci318_19.check import check
from hangpoint.core.aci318_19.pullout import HEADED, HOOKED, PRODUCT
from hangpoint.core.vocabulary import Mode

COUNT = 2_000
METHODS = {"headed": HEADED, "hooked": HOOKED, "expansion": PRODUCT, "undercut": PRODUCT}


def _random_anchor(rng):
    principle = str(rng.choice(["headed", "hooked", "expansion", "undercut"], p=[0.5, 0.1, 0.2, 0.2]))
    cast_in = principle in ("headed", "hooked")
    h_ef = float(np.exp(rng.uniform(np.log(1.5), np.log(28))))
    d_a = float(rng.uniform(0.25, 2.0))
    by_code = cast_in or rng.random() < 0.3
    edges = 1.5 * h_ef * np.exp(rng.uniform(np.log(0.15), np.log(2.5), 4))
    edges[rng.random(4) < 0.25] = np.inf
    return reference.Anchor(
        principle=principle,
        category=0 if cast_in else int(rng.integers(1, 4)),
        d_a=d_a,
        a_se=float(rng.uniform(0.5, 0.8) * d_a**2),
        f_uta=float(rng.uniform(50_000, 160_000)),
        f_ya=float(rng.uniform(30_000, 130_000)),
        ductile=bool(rng.random() < 0.5),
        h_ef=h_ef,
        c_ac=0.0 if cast_in else float(h_ef * rng.uniform(1.0, 4.0)),
        k=None if by_code else (float(rng.uniform(15, 21)), float(rng.uniform(21, 27))),
        n_p=(0.0, 0.0) if cast_in else (float(rng.uniform(500, 1e4)), float(rng.uniform(500, 2e4))),
        n_p_eq=float(rng.uniform(400, 9e3)) if not cast_in and rng.random() < 0.3 else None,
        n_p_exponent=float(rng.uniform(0.1, 0.5)),
        n_p_tested_at=float(rng.choice([2_500.0, 3_000.0])),
        n_p_tested_in_lightweight=bool(rng.random() < 0.3),
        pullout_governs=bool(cast_in or rng.random() < 0.7),
        a_brg=float(rng.uniform(0.2, 5.0)) if principle == "headed" else 0.0,
        e_h=float(d_a * rng.uniform(3.0, 4.5)) if principle == "hooked" else 0.0,
        f_c=float(rng.uniform(2_000, 13_000)),
        lightweight=bool(rng.random() < 0.3),
        density_factor=float(rng.choice([0.75, 0.85])),
        cracked=bool(rng.random() < 0.5),
        supplementary=bool(rng.random() < 0.5),
        edges=tuple(float(c) for c in edges),
        load=float(rng.uniform(100, 2e4)),
    )


def _columns(anchors):
    def of(read):
        return [read(a) for a in anchors]

    return anchor_cases(
        cast_in=of(lambda a: a.cast_in),
        undercut=of(lambda a: a.principle == "undercut"),
        headed=of(lambda a: a.principle == "headed"),
        category=of(lambda a: a.category),
        d_a=of(lambda a: a.d_a),
        a_se_n=of(lambda a: a.a_se),
        f_uta=of(lambda a: a.f_uta),
        f_ya=of(lambda a: a.f_ya),
        ductile=of(lambda a: a.ductile),
        h_ef=of(lambda a: a.h_ef),
        c_ac=of(lambda a: a.c_ac),
        product_k_c=of(lambda a: a.k is not None),
        k_cr=of(lambda a: a.k[0] if a.k else 0.0),
        k_uncr=of(lambda a: a.k[1] if a.k else 0.0),
        pullout_method=of(lambda a: METHODS[a.principle]),
        pullout_governs=of(lambda a: a.pullout_governs),
        n_p_cr=of(lambda a: a.n_p[0]),
        n_p_uncr=of(lambda a: a.n_p[1]),
        by_seismic_tests=of(lambda a: a.n_p_eq is not None),
        n_p_eq=of(lambda a: a.n_p_eq or 0.0),
        n_exponent=of(lambda a: a.n_p_exponent),
        f_c_ref=of(lambda a: a.n_p_tested_at),
        tested_lightweight=of(lambda a: a.n_p_tested_in_lightweight),
        a_brg=of(lambda a: a.a_brg),
        e_h=of(lambda a: a.e_h),
        f_c_specified=of(lambda a: a.f_c),
        lightweight=of(lambda a: a.lightweight),
        lambda_c=of(lambda a: a.density_factor),
        cracked=of(lambda a: a.cracked),
        supplementary=of(lambda a: a.supplementary),
        c_a=of(lambda a: a.edges),
        n_ua=of(lambda a: a.load),
    )


@pytest.fixture(scope="module")
def anchors():
    rng = np.random.default_rng(17)
    return [_random_anchor(rng) for _ in range(COUNT)]


@pytest.fixture(scope="module")
def outcomes(anchors):
    return {outcome.mode: outcome for outcome in check(_columns(anchors))[1]}


def _agrees(outcome, expected, anchors):
    """``expected`` maps (case, edge) to a design strength; the loads and ratios follow."""
    rows = list(zip(cases_of_rows(outcome).tolist(), edges_of_rows(outcome).tolist(), strict=True))
    assert rows == sorted(expected)
    strengths = np.array([expected[row] for row in rows])
    loads = np.array([anchors[case].load for case, _ in rows])
    np.testing.assert_allclose(outcome.design_strength, strengths, rtol=1e-9)
    np.testing.assert_allclose(outcome.demand, loads, rtol=0)
    np.testing.assert_allclose(outcome.utilisation, loads / strengths, rtol=1e-9)


def test_steel(anchors, outcomes):
    expected = {(i, -1): reference.steel(a) for i, a in enumerate(anchors)}
    _agrees(outcomes[Mode.STEEL_TENSION], expected, anchors)


def test_pullout(anchors, outcomes):
    all_of_them = {(i, -1): reference.pullout(a) for i, a in enumerate(anchors)}
    expected = {row: strength for row, strength in all_of_them.items() if strength is not None}
    assert 1_500 < len(expected) < COUNT
    _agrees(outcomes[Mode.PULLOUT], expected, anchors)


def test_breakout(anchors, outcomes):
    expected = {(i, -1): reference.breakout(a) for i, a in enumerate(anchors)}
    _agrees(outcomes[Mode.CONCRETE_BREAKOUT_TENSION], expected, anchors)


def test_blowout(anchors, outcomes):
    expected = {(i, edge): n for i, a in enumerate(anchors) for edge, n in reference.blowout(a).items()}
    assert len(expected) > 200
    _agrees(outcomes[Mode.SIDE_FACE_BLOWOUT], expected, anchors)


def test_every_branch_is_met(anchors, outcomes):
    """The random anchors reach every branch of the provisions often enough to mean something."""
    breakout = outcomes[Mode.CONCRETE_BREAKOUT_TENSION].record
    blowout = outcomes[Mode.SIDE_FACE_BLOWOUT].record
    met = {
        "three edges": breakout.three_edges,
        "four edges": breakout.near_edges == 4,
        "no near edge": breakout.near_edges == 0,
        "5/3 taken": breakout.power_form & (breakout.n_b_power > breakout.n_b_root),
        "5/3 after reduction": breakout.power_form & breakout.three_edges,
        "splitting": breakout.psi_cp_n < 1,
        "splitting possible, not met": breakout.splitting_possible & (breakout.psi_cp_n == 1),
        "k_uncr limited": breakout.product_k_c & ~breakout.cracked & (breakout.k_uncr > 24),
        "psi_c 1.25": breakout.psi_c_n == 1.25,
        "psi_c 1.4": breakout.psi_c_n == 1.4,
        "edge factor": breakout.psi_ed_n < 1,
        "corner": blowout.corner_factor < 1,
        "corner nearer": blowout.c_a2 < blowout.c_a1,
        "no corner": blowout.corner_factor == 1,
        "f'c limited": np.array([reference.strength_used(a) < a.f_c for a in anchors]),
    }
    counts = {name: int(np.count_nonzero(mask)) for name, mask in met.items()}
    assert {name: count for name, count in counts.items() if count < 5} == {}
