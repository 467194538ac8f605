"""What must hold for every fixture by EN 1992-4, whatever its numbers; `core.en1992_4.random_fixtures` draws them.

The code is not monotonic where edges join in: across the rule of three near edges, in narrow thin members, where a row
near a corner or in a thin member has a nearer edge, and where a chain of more than two parts. The properties keep out
of these and say how.
"""

import itertools
import math
from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.builders import INF
from core.en1992_4.fasteners import FASTENER, fastener_cases, one_layout
from core.en1992_4.random_fixtures import (
    anchors_of,
    bent_fixtures,
    bonded_fixtures,
    burning_fixtures,
    columns_of,
    fixtures,
    shaken_fixtures,
)
from hangpoint.core.en1992_4.check import check
from hangpoint.core.en1992_4.fire import critical_spacing, k_fi, k_fi_of_cone, least_edge, steel_stress
from hangpoint.core.outcome import peak_by_case
from properties.strategies import QUICK

PER_FASTENER = ("anchors", "staying", "v_x", "v_y")
TOLERANCE = 1e-9
SEEDS = st.integers(0, 2**32 - 1)
FIXTURES = st.tuples(st.sampled_from([fixtures, shaken_fixtures, bonded_fixtures]), SEEDS).map(
    lambda own: own[0](1, seed=own[1])[0]
)
SHAKEN = SEEDS.map(lambda seed: shaken_fixtures(1, seed=seed)[0])
BONDED = SEEDS.map(lambda seed: bonded_fixtures(1, seed=seed)[0])
BURNING = SEEDS.map(lambda seed: burning_fixtures(1, seed=seed)[0])
CLOSER = st.floats(0.05, 0.999)


def outcomes(made):
    return check(columns_of(made), anchors_of(made)).outcomes


def peaks(columns, anchors):
    """{mode: largest utilisation of each case}, 0 where the mode doesn't apply."""
    return {
        outcome.mode.value.code: peak_by_case([outcome], anchors.case_count)
        for outcome in check(columns, anchors).outcomes
    }


def worst(made):
    return peaks(columns_of(made), anchors_of(made))


def no_better(before, after, *modes):
    """The second fixture is used no less than the first, in the modes named or in all."""
    found = worst([before, after])
    for code in modes or found:
        first, second = found[code]
        assert second >= first * (1 - TOLERANCE), (code, before, after)


def sheared_one_way(f):
    """The same with shears that are parallel, so that none is opposed to another."""
    size = np.hypot(f["v_x"], f["v_y"])
    return f | {"v_x": list(0.6 * size), "v_y": list(0.8 * size)}


def finite(edges):
    return [math.isfinite(edge) for edge in edges]


def moved(f, side, part):
    """One face at a part of its distance from the nearest fastener; a face that is not there, at h_ef times it."""
    places = [place[side // 2] for place in f["anchors"]]
    end, sign = (max(places), 1.0) if side % 2 else (min(places), -1.0)
    away = abs(f["edges"][side] - end) if math.isfinite(f["edges"][side]) else f["h_ef"]
    edges = list(f["edges"])
    edges[side] = end + sign * part * away
    return f | {"edges": tuple(edges)}


@QUICK
@given(FIXTURES, st.integers(0, 3), CLOSER)
def test_a_nearer_edge_never_helps_cones(f, side, part):
    """With two edges at most: three may reduce the depth, which the code has (reading 44)."""
    before = sheared_one_way(f)
    after = moved(before, side, part)
    assume(sum(finite(after["edges"])) <= 2)
    no_better(before, after, "en_concrete_cone", "en_splitting", "en_pry_out", "en_combined_failure")


@QUICK
@given(FIXTURES, st.integers(0, 3), CLOSER, CLOSER)
def test_a_nearer_edge_never_helps_the_fasteners_at_it(f, side, near, part):
    """One edge and one or two fasteners in a thick member: no corner, no chain that parts."""
    edges = [-INF, INF, -INF, INF]
    f = sheared_one_way(f)
    two = {name: f[name][:2] for name in (*PER_FASTENER, "n")}
    before = moved(f | two | {"edges": tuple(edges)}, side, near)
    before["h"] = 20 * before["h_ef"]
    after = moved(before, side, part)
    assume(len(two["anchors"]) == 1 or near_row(before, side) == near_row(after, side))
    no_better(before, after, "en_concrete_edge", "en_blow_out")


def near_row(f, side):
    """Whether both fasteners are one row at a face, by either rule."""
    c = sorted(abs(f["edges"][side] - place[side // 2]) for place in f["anchors"])
    return c[1] - c[0] <= min(6.0, c[1] / 10), c[1] - c[0] <= c[1] / 10


@QUICK
@given(FIXTURES, CLOSER)
def test_a_thinner_member_never_helps(f, part):
    """With no two edges opposite each other, between which it may be narrow."""
    assume(not (all(finite(f["edges"][:2])) or all(finite(f["edges"][2:]))))
    no_better(f, f | {"h": f["h_ef"] + part * (f["h"] - f["h_ef"])})


@QUICK
@given(FIXTURES, CLOSER)
def test_weaker_concrete_never_helps(f, part):
    no_better(f, f | {"f_ck_class": part * f["f_ck_class"]})


OF_BOTH = ("en_steel_interaction", "en_concrete_interaction")


@QUICK
@given(SHAKEN)
def test_earthquake_never_helps(f):
    """In cracked concrete from C20/25 on, which figures of products are for, with no figure above the static one."""
    f |= {"f_ck_class": max(20.0, f["f_ck_class"])}
    found = worst([f | {"earthquake": False}, f | {"earthquake": True}])
    for code in found.keys() - {*OF_BOTH, "en_seismic_interaction"}:
        static, shaken = found[code]
        assert shaken >= static * (1 - TOLERANCE), (code, f)
    together = max(found[code][0] for code in OF_BOTH)
    assert found["en_seismic_interaction"][1] >= together * (1 - TOLERANCE)
    assert not any(found[code][1] for code in OF_BOTH)


COLD = ("en_steel_tension", "en_pull_out", "en_concrete_cone", "en_steel_shear", "en_pry_out")


@QUICK
@given(BURNING)
def test_fire_holds_no_more_than_the_characteristic_resistance_without(f):
    """Ratios without fire have a gamma_M of 1.5 on concrete, which is taken out of them; edges by their own mode.

    Edges that annex D allows are too far for (7.8), and chains of two are whole with and without fire.
    """
    f = first_of(f, 2) | {"lever_arm": False, "gamma_ms_n": 1.0, "gamma_ms_v": 1.0, "gamma_inst": 1.0}
    f |= {"pull_out_governs": f["pull_out_governs"] and not f["as_cone"], "as_cone": False}
    for edges, modes in (((-INF, INF, -INF, INF), COLD), (f["edges"], ("en_concrete_edge",))):
        own = f | {"edges": edges}
        found = worst([own | {"fire": False, "s_cr_n": own["s_cr_n"] * 0.75}, own])
        for code in modes:
            cold, hot = found[code]
            gamma = 1.0 if "steel" in code else 1.5
            assert hot >= cold / gamma * (1 - TOLERANCE), (code, own)
        assert not any(found[code][1] for code in ("en_splitting", "en_blow_out", "en_seismic_interaction"))


@QUICK
@given(BURNING)
def test_a_longer_fire_never_helps(f):
    """Class after class, the stress of the same steel with it; 12 mm of stainless steel."""
    one = np.ones(1)
    classes = (30.0, 60.0, 90.0, 120.0)
    stresses = [
        float(steel_stress(diameter=12 * one, h_ef=60 * one, stainless=one > 0, minutes=minutes * one)[0])
        for minutes in classes
    ]
    made = [f | {"minutes": minutes, "sigma_fi": own} for minutes, own in zip(classes, stresses, strict=True)]
    for used in worst(made).values():
        assert all(after >= before * (1 - TOLERANCE) for before, after in itertools.pairwise(used))


@QUICK
@given(st.floats(1.0, 2000.0), st.floats(1.0, 2000.0))
def test_what_is_left_in_fire(h_ef, s_cr_n):
    one = np.ones(1)
    for minutes in (30.0, 60.0, 90.0, 120.0):
        assert 0 < k_fi(minutes * one)[0] < 1
        assert 0 < k_fi_of_cone(minutes * one, depth_share=h_ef / 200 * one)[0] <= 1
    assert critical_spacing(s_cr_n=s_cr_n * one, h_ef=h_ef * one)[0] == max(4 * h_ef, s_cr_n)
    assert least_edge(h_ef=h_ef * one, one_side=one > 0)[0] <= least_edge(h_ef=h_ef * one, one_side=one < 0)[0]


@QUICK
@given(SHAKEN)
def test_a_filled_gap_and_a_head_never_harm(f):
    f |= {"earthquake": True}
    no_better(f | {"gap_filled": True}, f | {"gap_filled": False})
    no_better(f | {"like_headed": True}, f | {"like_headed": False})


@QUICK
@given(SEEDS.map(lambda seed: bent_fixtures(1, seed=seed)[0]), st.floats(1.001, 10.0))
def test_a_longer_arm_and_more_tension_never_help(f, times):
    f |= {"lever_arm": True}
    code = "en_steel_lever_arm"
    no_better(f, f | {"free_length": times * f["free_length"], "t_fix": times * f["t_fix"]}, code)
    no_better(f, f | {"n": [times * own for own in f["n"]]}, code)
    no_better(f | {"clamped": True}, f | {"clamped": False}, code)
    no_better(f | {"held": True}, f | {"held": False}, code)


@QUICK
@given(FIXTURES, st.floats(1.0, 10.0))
def test_more_load_in_proportion(f, times):
    """Every mode is used in proportion, the interactions too."""
    found = worst([f, f | {name: [times * own for own in f[name]] for name in ("n", "v_x", "v_y")}])
    for code, (once, more) in found.items():
        assert more == pytest.approx(times * once, rel=TOLERANCE), code


def mirrored(f):
    """In the y axis."""
    low, high = f["edges"][:2]
    return f | {
        "anchors": [(-x, y) for x, y in f["anchors"]],
        "edges": (-high, -low, *f["edges"][2:]),
        "v_x": [-v for v in f["v_x"]],
    }


def turned(f):
    """By a right angle, x to y."""
    x_low, x_high, y_low, y_high = f["edges"]
    return f | {
        "anchors": [(-y, x) for x, y in f["anchors"]],
        "edges": (-y_high, -y_low, x_low, x_high),
        "v_x": [-v for v in f["v_y"]],
        "v_y": f["v_x"],
        "either_x": f["either_y"],
        "either_y": f["either_x"],
    }


def renumbered(f):
    order = Random(len(f["anchors"])).sample(range(len(f["anchors"])), len(f["anchors"]))
    return f | {name: [f[name][at] for at in order] for name in (*PER_FASTENER, "n")}


@pytest.mark.parametrize("change", [mirrored, turned, renumbered])
def test_a_change_of_view_changes_nothing(change):
    made = [
        *fixtures(400, seed=7),
        *shaken_fixtures(200, seed=7),
        *bent_fixtures(100, seed=7),
        *bonded_fixtures(200, seed=7),
    ]
    there = [change(f) for f in made]
    assert there != made
    before, after = worst(made), worst(there)
    for code in before:
        np.testing.assert_allclose(after[code], before[code], rtol=TOLERANCE, err_msg=code)
        assert (before[code] > 0).sum() > 20, code


def test_a_pair_on_a_diagonal_has_no_preferred_axis():
    """Two fasteners at 45 degrees sheared against each other, near a face along x only: turned, as before."""
    f = FASTENER | {
        "s_cr_n": 300.0,
        "l_f": 100.0,
        "anchors": [(0.0, 0.0), (100.0, 100.0)],
        "staying": [0.0, 0.0],
        "edges": (-60.0, INF, -INF, INF),
        "n": [0.0, 0.0],
        "v_x": [500.0, -500.0],
        "v_y": [0.0, 0.0],
    }
    there = [f]
    for _ in range(3):
        there.append(turned(there[-1]))
    pried = worst(there)["en_pry_out"]
    np.testing.assert_allclose(pried, pried[0], rtol=TOLERANCE)


def test_a_batch_is_its_singles():
    made = [
        *fixtures(60, seed=8),
        *shaken_fixtures(30, seed=8),
        *bent_fixtures(30, seed=8),
        *bonded_fixtures(60, seed=8),
    ]
    together, alone = worst(made), [worst([f]) for f in made]
    for code, peak in together.items():
        np.testing.assert_allclose(peak, [found[code][0] for found in alone], rtol=1e-12, err_msg=code)


COUNTED_WITHOUT_PLATE = (
    *("en_concrete_cone", "en_splitting", "en_blow_out", "en_pry_out", "en_pull_out", "en_steel_tension"),
    "en_combined_failure",
)


def test_points_that_share_concrete_hold_no_more_than_one_layout():
    """Every fastener a point of its own; all but what depends on a plate: rows at an edge, k_7 of a group.

    Two hold as much; of more, parts of the set are judged that a plate keeps together (reading 6).
    """
    bonded = [f for f in bonded_fixtures(200, seed=9) if not f["earthquake"]]
    made = [f for f in (*fixtures(400, seed=9), *bonded) if len(f["anchors"]) > 1]
    lone = [f | {name: [f[name][at]] for name in (*PER_FASTENER, "n")} for f in made for at in range(len(f["anchors"]))]
    joint = np.repeat(np.arange(len(made)), [len(f["anchors"]) for f in made])
    together, apart = worst(made), peaks(columns_of(lone), replace(anchors_of(lone), joint=joint))
    for code in COUNTED_WITHOUT_PLATE:
        of_points = np.zeros(len(made))
        np.maximum.at(of_points, joint, apart[code])
        assert (of_points >= together[code] * (1 - TOLERANCE)).all(), code
        of_sets = code not in ("en_pull_out", "en_steel_tension")
        same = np.array([len(f["anchors"]) == 2 or not of_sets for f in made])
        assert same.sum() > 30
        np.testing.assert_allclose(of_points[same], together[code][same], rtol=TOLERANCE, err_msg=code)


def numbers(found):
    """All that an answer states of strengths, loads and ratios."""
    return np.concatenate([[*o.design_strength, *o.demand, *o.utilisation] for o in found if o.record is not None])


@QUICK
@given(
    FIXTURES,
    st.sets(st.integers(0, 3), min_size=1),
    st.sampled_from([1e-6, 1e-3, 1.0]),
    st.sampled_from([0.0, 1e-9, 1.0]),
    st.sampled_from(["as_drawn", "nothing", "tension_only", "one_idle", "one_alone"]),
)
def test_the_limits_have_numbers(f, sides, away, above, loads):
    """Edges a hair away, a member no thicker than the fastener is deep, no load, one fastener without or alone."""
    for side in sides:
        places = [place[side // 2] for place in f["anchors"]]
        edges = list(f["edges"])
        edges[side] = max(places) + away if side % 2 else min(places) - away
        f = f | {"edges": tuple(edges)}
    f = f | {"h": f["h_ef"] + above} | LOADS[loads](f)
    found = outcomes([f])
    assert np.isfinite(numbers(found)).all()
    assert (np.concatenate([o.design_strength for o in found]) > 0).all()


def with_less_lasting(f, part):
    return f | {"psi_2": part * f["psi_2"], "staying": [part * own for own in f["staying"]]}


def first_of(f, count):
    """The same with so many fasteners."""
    return f | {name: f[name][:count] for name in (*PER_FASTENER, "n")}


def alone_at_two_edges(f):
    """One fastener, without the rule of three near edges: h'_ef grows as s_cr,Np falls with the bond or what lasts."""
    x_minus, _, y_minus, _ = f["edges"]
    return first_of(f, 1) | {"edges": (x_minus, INF, y_minus, INF)}


def two_far_from_edges(f):
    """Near an edge psi_s,Np of a group may grow faster, as s_cr,Np falls, than its area over that of one."""
    return first_of(f, 2) | {"edges": (-INF, INF, -INF, INF)}


OF_BOND = ("en_combined_failure", "en_splitting", "en_pry_out")


@QUICK
@given(BONDED, CLOSER, st.sampled_from([alone_at_two_edges, two_far_from_edges]))
def test_a_larger_share_that_lasts_never_helps(f, part, kept):
    f = kept(f)
    no_better(with_less_lasting(f, part), f, *OF_BOND)
    no_better(f, f | {"psi0_sus": part * f["psi0_sus"]}, *OF_BOND)


@QUICK
@given(BONDED, CLOSER)
def test_a_weaker_bond_never_helps(f, part):
    """Without a group, in which a weaker bond breaks out less concrete (psi_g,Np); in all states at once."""
    f = alone_at_two_edges(f)
    weaker = {name: part * f[name] for name in ("tau_cr", "tau_ucr", "tau_eq")}
    no_better(f, f | weaker, *OF_BOND)


@QUICK
@given(BONDED, st.floats(0.3, 0.999))
def test_a_smaller_spacing_never_helps(f, part):
    """Two fasteners alike, far from edges: together they hold no more than farther apart."""
    first, *_ = f["anchors"]
    two = f | {"anchors": [first, (first[0] + 2.5 * f["h_ef"], first[1])], "edges": (-INF, INF, -INF, INF)}
    two |= {"n": [1_000.0] * 2, "v_x": [500.0] * 2, "v_y": [0.0] * 2, "staying": [0.5] * 2}
    nearer = two | {"anchors": [first, (first[0] + part * 2.5 * f["h_ef"], first[1])]}
    no_better(two, nearer, *OF_BOND, "en_concrete_cone")


LOADS = {
    "as_drawn": lambda f: {},
    "nothing": lambda f: {name: [0.0] * len(f["anchors"]) for name in ("n", "v_x", "v_y")},
    "tension_only": lambda f: {name: [0.0] * len(f["anchors"]) for name in ("v_x", "v_y")},
    "one_idle": lambda f: {name: [0.0, *f[name][1:]] for name in ("n", "v_x", "v_y")},
    "one_alone": lambda f: {name: [1_000.0] + [0.0] * (len(f["anchors"]) - 1) for name in ("n", "v_x", "v_y")},
}


@pytest.mark.parametrize("away", [1e-6, 1e-3, 0.1, 1.0, 5.0])
def test_an_edge_a_hair_away_holds_next_to_nothing(away):
    """V0_Rk,c of (7.41) grows again where c_1 is a hundredth of l_f, because of alpha: no fastener stands there."""
    near = one_layout([0.0], [0.0], member=(-INF, away, -INF, INF), v_x=1_000.0)
    farther = one_layout([0.0], [0.0], member=(-INF, 10.0, -INF, INF), v_x=1_000.0)
    edges = [
        next(o for o in check(fastener_cases(), layout).outcomes if o.mode.value.code == "en_concrete_edge")
        for layout in (near, farther)
    ]
    assert 0 < edges[0].design_strength[0] < edges[1].design_strength[0]
