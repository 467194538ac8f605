"""The arrays against a scalar calculation: own code, independent, not an outside check (see ``reference``)."""

from dataclasses import replace

import numpy as np
import pytest

from core.aci318_19 import reference
from core.aci318_19.reference_rows import columns_of, random_anchor
from core.outcome_rows import cases_of_rows, edges_of_rows
from hangpoint.core.aci318_19.check import check
from hangpoint.core.vocabulary import EN_MODES, MASONRY_MODES, TABLE_MODES, Link, Mode

COUNT = 2_000
MODES = [mode for mode in Mode if mode.link is not Link.ROD and mode not in TABLE_MODES | MASONRY_MODES | EN_MODES]


@pytest.fixture(scope="module")
def anchors():
    rng = np.random.default_rng(17)
    return [random_anchor(rng) for _ in range(COUNT)]


@pytest.fixture(scope="module")
def expected(anchors):
    """Every check of every anchor, by mode: (case, edge) to design strength, load and ratio."""
    by_mode = {mode.value.code: {} for mode in MODES}
    for case, anchor in enumerate(anchors):
        for (name, edge), found in reference.whole(anchor).items():
            by_mode[name][case, edge] = found
    return by_mode


@pytest.fixture(scope="module")
def made(anchors):
    return check(*columns_of(anchors))


@pytest.fixture(scope="module")
def outcomes(made):
    return {outcome.mode: outcome for outcome in made.outcomes}


@pytest.mark.parametrize("mode", MODES, ids=lambda mode: mode.value.code)
def test_mode(mode, expected, outcomes):
    """The same anchors have the mode, at the same edges, with the same strength, load and ratio to 1e-9."""
    outcome, rows = outcomes[mode], expected[mode.value.code]
    if mode is Mode.PRYOUT:
        outcome = _least_of_each_anchor(outcome)
    places = list(zip(cases_of_rows(outcome).tolist(), edges_of_rows(outcome).tolist(), strict=True))
    assert places == sorted(rows)
    assert len(places) > 100
    strengths, loads, ratios = zip(*(rows[place] for place in places), strict=True)
    np.testing.assert_allclose(outcome.utilisation, ratios, rtol=1e-9)
    if mode is not Mode.INTERACTION:
        np.testing.assert_allclose(outcome.design_strength, strengths, rtol=1e-9)
        np.testing.assert_allclose(outcome.demand, loads, rtol=1e-12)


def _least_of_each_anchor(outcome):
    """An adhesive anchor has two rows of pryout, the reference the lesser of them."""
    order = np.lexsort((outcome.design_strength, outcome.case_of_row))
    _, first = np.unique(outcome.case_of_row[order], return_index=True)
    least = order[first]
    return replace(
        outcome,
        **{name: getattr(outcome, name)[least] for name in ("case_of_row", "design_strength", "demand", "utilisation")},
    )


def test_both_rows_of_an_adhesive_pryout(anchors, outcomes):
    """Every sheared adhesive anchor has a row by breakout and one by bond, every other sheared anchor the former."""
    pryout = outcomes[Mode.PRYOUT]
    by_bond = pryout.record.by_bond
    sheared = [case for case, anchor in enumerate(anchors) if anchor.shear != (0.0, 0.0)]
    bonded = [case for case in sheared if reference.bond(anchors[case]) is not None]
    assert pryout.case_of_row[~by_bond].tolist() == sheared
    assert pryout.case_of_row[by_bond].tolist() == bonded
    assert len(bonded) > 100
    factor = 0.70 * np.where(np.array([a.h_ef for a in anchors]) < 2.5, 1.0, 2.0)
    for rows, cases, nominal in (
        (~by_bond, sheared, [reference.breakout(anchors[case]) for case in sheared]),
        (by_bond, bonded, [reference.bond(anchors[case])[1] for case in bonded]),
    ):
        np.testing.assert_allclose(pryout.design_strength[rows], factor[cases] * nominal, rtol=1e-9)


def test_least_strength_of_the_concrete(anchors, made):
    """What option (a) of 17.10.5.3 compares with the steel."""
    least = [reference.least_of_concrete(anchor) for anchor in anchors]
    np.testing.assert_allclose(made.n_concrete, least, rtol=1e-9)
    np.testing.assert_allclose(made.steel.n_sa * made.steel.phi, [reference.steel(a) for a in anchors], rtol=1e-9)


def _met(anchors, outcomes):
    """Which rows meet which branch of the provisions."""
    basis = np.array([reference.strength_used(a) < a.f_c for a in anchors])
    breakout = outcomes[Mode.CONCRETE_BREAKOUT_TENSION].record
    blowout = outcomes[Mode.SIDE_FACE_BLOWOUT].record
    bond = outcomes[Mode.ADHESIVE_BOND].record
    pullout = outcomes[Mode.PULLOUT].record
    edge = outcomes[Mode.CONCRETE_BREAKOUT_SHEAR].record
    steel = outcomes[Mode.STEEL_SHEAR].record
    pryout = outcomes[Mode.PRYOUT].record
    bonded = [a for a in anchors if reference.bond(a) is not None and a.shear != (0.0, 0.0)]
    lesser = np.array([reference.bond(a)[1] - reference.breakout(a) for a in bonded])
    both = outcomes[Mode.INTERACTION].record
    return {
        "f'c limited": basis,
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
        "breakout with 0.75": breakout.seismic_factor == 0.75,
        "corner of blowout": blowout.corner_factor < 1,
        "corner of blowout nearer": blowout.c_a2 < blowout.c_a1,
        "no corner of blowout": blowout.corner_factor == 1,
        "blowout with 0.75": blowout.seismic_factor == 0.75,
        "pullout by seismic tests": pullout.by_product & pullout.by_seismic_tests,
        "pullout with 0.75": pullout.seismic_factor == 0.75,
        "lambda on pullout": pullout.by_product & (pullout.lambda_p < 1),
        "bond near an edge": bond.psi_ed_na < 1,
        "bond far from edges": bond.psi_ed_na == 1,
        "bond splits": bond.psi_cp_na < 1,
        "bond by seismic tests": bond.by_seismic_tests & ~bond.cracked,
        "bond scaled": bond.tau_exponent > 0,
        "bond in lightweight": bond.lambda_bond < 1,
        "bond with 0.75": bond.seismic_factor == 0.75,
        "narrow member": edge.narrow,
        "narrow by the thickness": edge.narrow & (edge.h_a > edge.c_a2_max),
        "narrow by the side": edge.narrow & (edge.h_a < edge.c_a2_max),
        "thin member": edge.psi_h_v > 1,
        "corner of shear": edge.psi_ed_v < 1,
        "no corner of shear": edge.psi_ed_v == 1,
        "V_b limited": edge.v_b == edge.v_b_limit,
        "welded": edge.welded & (edge.v_b < edge.v_b_limit),
        "sleeve": edge.distance_sleeve,
        "8 d_a": ~edge.distance_sleeve & (edge.l_e == 8 * edge.d_a),
        "bars along the edge": edge.cracked & (edge.psi_c_v == 1.2),
        "stirrups along the edge": edge.cracked & (edge.psi_c_v == 1.4),
        "uncracked edge": ~edge.cracked,
        "shear along an edge only": edge.v_towards == 0,
        "shear towards an edge only": edge.v_along == 0,
        "oblique, vector": (edge.oblique == 0) & (edge.r_towards > 0) & (edge.r_along > 0),
        "oblique, separate, by the towards": (edge.oblique == 1) & (edge.r_towards > edge.r_along),
        "oblique, separate, by the along": (edge.oblique == 1) & (edge.r_towards < edge.r_along),
        "oblique, linear": (edge.oblique == 2) & (edge.r_towards > 0) & (edge.r_along > 0),
        "stud": steel.by_stud,
        "bolt": steel.by_bolt,
        "tested steel": steel.tested,
        "grout pad": steel.grout_pad,
        "shallow pryout": pryout.k_cp == 1,
        "pryout by bond": lesser < 0,
        "adhesive pryout by breakout": lesser > 0,
        "sum of the ratios": both.by_sum,
        "one ratio neglected": both.trilinear & ~both.both,
        "one ratio beyond the sum": both.trilinear & both.both & ~both.by_sum,
        "powers": both.power,
    }


def test_every_branch_is_met(anchors, outcomes):
    """The random anchors reach every branch of the provisions often enough to mean something."""
    counts = {name: int(np.count_nonzero(rows)) for name, rows in _met(anchors, outcomes).items()}
    assert {name: count for name, count in counts.items() if count <= 10} == {}


def test_kinds_of_anchor_and_of_load_are_met(anchors):
    """Of the request, not of the result: what `_met` can't see."""
    counts = {
        "corner of a welded anchor": sum(
            a.welded and any(a.edges[i] <= 1.5 * a.h_ef for i in range(4)) and a.shear != (0.0, 0.0) for a in anchors
        ),
        "shear that turns": sum(a.turns[0] and a.shear[0] != 0.0 for a in anchors),
        "no tension": sum(a.load == 0.0 and a.shear != (0.0, 0.0) for a in anchors),
        "no shear": sum(a.shear == (0.0, 0.0) and a.load > 0.0 for a in anchors),
        "nothing": sum(a.shear == (0.0, 0.0) and a.load == 0.0 for a in anchors),
        "bars both ways": sum(a.bars_n is not None and a.bars_v is not None for a in anchors),
        "bars and earthquake": sum(
            a.bars_n is not None and a.load_of_earthquake > 0.2 * a.load and a.seismic_category in "CDEF"
            for a in anchors
        ),
    } | {
        principle: sum(a.principle == principle for a in anchors)
        for principle in ("headed", "hooked", "expansion", "undercut", "screw", "adhesive")
    }
    assert {name: count for name, count in counts.items() if count <= 20} == {}
