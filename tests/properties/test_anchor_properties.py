"""What must hold of the checks of one anchor whatever the numbers: no outside value, only reasons.

Breakout in tension, and pryout, which is made of it, are not monotonic in the edges across the three-edge rule
(17.6.2.1.2, reading 44), nor within it while the largest near edge moves, which changes h'_ef: those pairs are left
out, and one is a test below. Nothing else is left out: one anchor has no such pair in shear, where the reduced distance
of a narrow member (17.7.2.1.2) meets the actual one.
"""

from collections import Counter

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.builders import anchor_cases
from core.outcome_rows import cases_of_rows, edges_of_rows, reasons_without_rows
from hangpoint.core.aci318_19.check import check
from hangpoint.core.quantity import columns
from hangpoint.core.vocabulary import SHEAR_MODES, TENSION_MODES, Inapplicable, Mode
from properties.strategies import QUICK, anchor_rows, cases_of

SAME = {"rtol": 1e-13, "atol": 0.0}
BY_TENSION_BREAKOUT = {Mode.CONCRETE_BREAKOUT_TENSION, Mode.PRYOUT}
OF_STEEL = {Mode.STEEL_TENSION, Mode.STEEL_SHEAR, Mode.REINFORCEMENT_TENSION, Mode.REINFORCEMENT_SHEAR}
REASONS = tuple(Inapplicable)


def outcomes(row):
    return {outcome.mode: outcome for outcome in check(*cases_of([row])).outcomes}


ALONE = (-1, 0)
"""The place of the one row of a mode without edges."""


def by_place(row, name):
    """A column of each mode of one anchor, by mode and place: the edge, and the number of the row at it."""
    found = {}
    for outcome in check(*cases_of([row])).outcomes:
        seen = Counter()
        for edge, value in zip(edges_of_rows(outcome).tolist(), getattr(outcome, name).tolist(), strict=True):
            found[outcome.mode, (edge, seen[edge])] = value
            seen[edge] += 1
    return found


def strengths(row):
    """Design strengths but for tension with shear, which is no strength."""
    return {
        place: value for place, value in by_place(row, "design_strength").items() if place[0] is not Mode.INTERACTION
    }


def ratios(row):
    return by_place(row, "utilisation")


@QUICK
@given(st.lists(anchor_rows(), min_size=2, max_size=6))
def test_batch_is_the_stack_of_singles(rows):
    """Every column of every record, the basis and what stands beside the modes included; absent modes too."""
    made = check(*cases_of(rows))
    singles = [check(*cases_of([row])) for row in rows]
    for record in ("basis", "steel"):
        for name in columns(type(getattr(made, record))):
            stacked = np.concatenate([getattr(getattr(single, record), name) for single in singles])
            np.testing.assert_allclose(getattr(getattr(made, record), name), stacked, **SAME)
    np.testing.assert_allclose(made.n_concrete, np.concatenate([single.n_concrete for single in singles]), **SAME)
    for place, outcome in enumerate(made.outcomes):
        alone = [single.outcomes[place] for single in singles]
        assert {one.mode for one in alone} == {outcome.mode}
        owners = np.concatenate([np.full(len(one.utilisation), i) for i, one in enumerate(alone)])
        np.testing.assert_array_equal(cases_of_rows(outcome), owners)
        np.testing.assert_array_equal(edges_of_rows(outcome), np.concatenate([edges_of_rows(one) for one in alone]))
        reasons = {i: reasons_without_rows(one, 1).get(0) for i, one in enumerate(alone)}
        without = {i: reason for i, reason in reasons.items() if reason is not None}
        assert reasons_without_rows(outcome, len(rows)) == without
        having = [one for one in alone if one.record is not None]
        assert (outcome.record is None) == (not having)
        for name in columns(type(outcome.record)) if having else ():
            stacked = np.concatenate([getattr(one.record, name) for one in having])
            np.testing.assert_allclose(getattr(outcome.record, name), stacked, **SAME)


TURNS = {
    "mirror x": (1, 0, 2, 3),
    "mirror y": (0, 1, 3, 2),
    "half turn": (1, 0, 3, 2),
    "swap": (2, 3, 0, 1),
    "quarter turn": (3, 2, 0, 1),
    "other quarter turn": (2, 3, 1, 0),
    "other swap": (3, 2, 1, 0),
}
"""Where each edge (x_minus, x_plus, y_minus, y_plus) of the turned member comes from."""


def turned(row, order):
    """Member and load turned together: what points at an edge goes with it."""
    outward = (-row["v_ua_x"], row["v_ua_x"], -row["v_ua_y"], row["v_ua_y"])
    either = (row["either_x"], row["either_x"], row["either_y"], row["either_y"])
    return row | {
        "c_a": tuple(row["c_a"][i] for i in order),
        "v_ua_x": outward[order[1]],
        "v_ua_y": outward[order[3]],
        "either_x": either[order[1]],
        "either_y": either[order[3]],
    }


@pytest.mark.parametrize("turn", TURNS)
@QUICK
@given(row=anchor_rows())
def test_turning_member_and_load_changes_nothing(turn, row):
    order = TURNS[turn]
    for read in (strengths, ratios):
        there, here = read(turned(row, order)), read(row)
        moved = {
            (mode, (order[edge] if edge >= 0 else edge, number)): value
            for (mode, (edge, number)), value in there.items()
        }
        assert moved == pytest.approx(here, rel=1e-13)


@pytest.mark.parametrize("turn", ["mirror x", "half turn"])
@QUICK
@given(row=anchor_rows())
def test_a_shear_that_may_act_either_way_has_no_sign(turn, row):
    """Turning the load alone changes nothing then."""
    sign = {"mirror x": (-1, 1), "half turn": (-1, -1)}[turn]
    both = row | {"either_x": True, "either_y": True}
    back = both | {"v_ua_x": sign[0] * row["v_ua_x"], "v_ua_y": sign[1] * row["v_ua_y"]}
    assert ratios(back) == pytest.approx(ratios(both), rel=1e-13)
    for place, ratio in ratios(row).items():
        assert ratios(both)[place] >= ratio * (1 - 1e-13)


@QUICK
@given(st.lists(anchor_rows(), min_size=1, max_size=6))
def test_every_number_is_finite(rows):
    """No NaN anywhere that is printed; infinity only in a field that has a word for it."""
    made = check(*cases_of(rows))
    found = [outcome for outcome in made.outcomes if outcome.record is not None]
    for record in (made.basis, made.steel, *(outcome.record for outcome in found)):
        for name, q in columns(type(record)).items():
            values = getattr(record, name)
            printed = values[getattr(record, q.when)] if q.when else values
            assert not np.isnan(printed).any(), name
            if not q.infinite:
                assert np.isfinite(printed).all(), name
    assert np.isfinite(made.n_concrete).all()
    for outcome in made.outcomes:
        assert np.isfinite(outcome.design_strength).all()
        assert (outcome.design_strength > 0).all()
        assert (outcome.utilisation >= 0).all()


@QUICK
@given(anchor_rows())
def test_without_shear_there_is_tension_alone(row):
    """Its numbers are those with shear, to the last digit; every mode of shear says that there is none."""
    alone, together = outcomes(row | {"v_ua_x": 0.0, "v_ua_y": 0.0}), outcomes(row)
    for mode in TENSION_MODES | {Mode.SUSTAINED_BOND}:
        for name in ("design_strength", "demand", "utilisation"):
            np.testing.assert_array_equal(getattr(alone[mode], name), getattr(together[mode], name))
    for mode in SHEAR_MODES:
        assert alone[mode].record is None
        assert REASONS[alone[mode].reason[0]] is Inapplicable.NO_SHEAR
    assert alone[Mode.INTERACTION].record is None
    assert REASONS[alone[Mode.INTERACTION].reason[0]] is Inapplicable.ONE_DIRECTION


@QUICK
@given(anchor_rows())
def test_without_tension_there_is_shear_alone(row):
    """The seismic factor of tension does not reach pryout, whatever the share of earthquake."""
    alone, together = outcomes(row | {"n_ua": 0.0, "n_ua_s": 0.0, "n_ua_e": 0.0}), outcomes(row)
    for mode in SHEAR_MODES:
        for name in ("design_strength", "demand", "utilisation"):
            np.testing.assert_array_equal(getattr(alone[mode], name), getattr(together[mode], name))
    for mode in TENSION_MODES:
        assert not alone[mode].utilisation.any()
    assert len(alone[Mode.INTERACTION].utilisation) == 0
    assert len(alone[Mode.SUSTAINED_BOND].utilisation) == 0


@QUICK
@given(row=anchor_rows(), name=st.sampled_from(["tension", "v_ua_x", "v_ua_y"]), factor=st.floats(1.0, 5.0))
def test_no_utilisation_falls_with_a_larger_load(row, name, factor):
    """Tension with its parts alike: more of it that is no earthquake may end the factor 0.75 (17.10.5.1)."""
    raised = ("n_ua", "n_ua_s", "n_ua_e") if name == "tension" else (name,)
    after = ratios(row | {part: factor * row[part] for part in raised})
    before = ratios(row)
    assert set(after) == set(before)
    for place, ratio in before.items():
        assert after[place] >= ratio * (1 - 1e-12), place


@QUICK
@given(anchor_rows())
def test_tension_with_shear_is_between_the_larger_and_the_sum(row):
    found = ratios(row)
    n, v = (
        max((ratio for (mode, _), ratio in found.items() if mode in modes), default=0.0)
        for modes in (TENSION_MODES, SHEAR_MODES)
    )
    both = found.get((Mode.INTERACTION, ALONE))
    assert (both is None) == (n == 0 or v == 0)
    if both is not None:
        assert max(n, v) * (1 - 1e-12) <= both <= (n + v) * (1 + 1e-12)


@QUICK
@given(row=anchor_rows(), area=st.floats(0.05, 1.0))
def test_anchor_reinforcement_replaces_breakout_only(row, area):
    """17.5.2.1, in tension and in shear: phi .75 of A_s f_y in place of breakout, every other strength as it was."""
    for of, breakout, bars in (
        ("n", Mode.CONCRETE_BREAKOUT_TENSION, Mode.REINFORCEMENT_TENSION),
        ("v", Mode.CONCRETE_BREAKOUT_SHEAR, Mode.REINFORCEMENT_SHEAR),
    ):
        bare = strengths(row | {f"reinforced_{of}": False, f"a_s_{of}": 0.0})
        having = strengths(row | {f"reinforced_{of}": True, f"a_s_{of}": area, f"f_y_{of}": 60_000.0})
        loaded = of == "n" or row["v_ua_x"] != 0 or row["v_ua_y"] != 0
        assert having.pop((bars, ALONE), None) == (pytest.approx(0.75 * area * 60_000) if loaded else None)
        assert breakout not in {mode for mode, _ in having}
        assert having == {place: strength for place, strength in bare.items() if place[0] is not breakout}


def near(row, c_a):
    return [c for c in c_a if c < 1.5 * row["h_ef"]]


def by_same_depth(row, one, other):
    """Whether the three-edge rule holds for neither, or for both with the same h'_ef."""
    first, second = near(row, one), near(row, other)
    if len(first) < 3 and len(second) < 3:
        return True
    return min(len(first), len(second)) >= 3 and max(first) == max(second)


def moved_away(row, edge, factor):
    c_a = list(row["c_a"])
    c_a[edge] *= factor
    return tuple(c_a)


@QUICK
@given(row=anchor_rows(), edge=st.integers(0, 3), factor=st.one_of(st.floats(1.0, 4.0), st.just(np.inf)))
def test_no_strength_falls_when_an_edge_moves_away(row, edge, factor):
    """Of every mode and at every edge that is checked before and after."""
    farther = moved_away(row, edge, factor)
    same = by_same_depth(row, row["c_a"], farther)
    before, after = strengths(row), strengths(row | {"c_a": farther})
    for place in set(before) & set(after):
        if same or place[0] not in BY_TENSION_BREAKOUT:
            assert after[place] >= before[place] * (1 - 1e-12), place


@pytest.mark.parametrize(
    ("nearer", "farther"),
    [
        ((2.0, np.inf, np.inf, np.inf), (3.0, np.inf, np.inf, np.inf)),
        ((2.0, 4.0, np.inf, 12.0), (2.0, 5.0, np.inf, 12.0)),
        ((2.0, 3.0, 4.0, np.inf), (2.5, 3.0, 4.0, np.inf)),
    ],
)
def test_strength_rises_when_a_near_edge_moves_away(nearer, farther):
    """The same property where it must show: one edge, two edges, and three of which the largest stays."""
    cases = anchor_cases(h_ef=6.0, c_a=[nearer, farther], v_ua_x=-100.0)
    found = {outcome.mode: outcome for outcome in check(*cases).outcomes}
    for mode in (Mode.CONCRETE_BREAKOUT_TENSION, Mode.PRYOUT):
        first, second = found[mode].design_strength
        assert second > first * 1.01, mode
    edge = found[Mode.CONCRETE_BREAKOUT_SHEAR]
    first, second = edge.design_strength[edge.edge_of_row == 0]
    if nearer[0] != farther[0]:
        assert second > first * 1.01
    else:
        assert second == first  # the edge behind the anchor does not matter


def test_the_pair_of_the_three_edge_rule():
    """Reading 44, by hand from 17.6.2 with f'c 4,000 psi, cast-in, cracked: h_ef 6, three edges of 2 in.

    Fourth edge 2 in: h'_ef 1.333, A ratio 1, psi_ed 1, N_cb = 24 sqrt(f'c) 1.333^1.5 = 2,337 lb. Fourth edge 3 in:
    h'_ef 2, A ratio 20/36, psi_ed .9, N_cb = .5 x 24 sqrt(f'c) 2^1.5 = 2,147 lb, weaker though the edge is farther.
    """
    cases = anchor_cases(h_ef=6.0, c_a=[(2.0, 2.0, 2.0, 2.0), (2.0, 2.0, 2.0, 3.0)])
    record = next(o.record for o in check(*cases).outcomes if o.mode is Mode.CONCRETE_BREAKOUT_TENSION)
    assert record.n_cb == pytest.approx([2_337, 2_147], abs=0.5)
    assert record.h_ef_used == pytest.approx([4 / 3, 2.0])


@QUICK
@given(row=anchor_rows(), factor=st.floats(1.0, 5.0))
def test_a_thicker_member_never_lowers(row, factor):
    """Only breakout in shear reads the thickness."""
    before, after = strengths(row), strengths(row | {"h_a": factor * row["h_a"]})
    assert set(after) == set(before)
    for place, strength in before.items():
        if place[0] is Mode.CONCRETE_BREAKOUT_SHEAR:
            assert after[place] >= strength * (1 - 1e-12)
        else:
            assert after[place] == strength


@pytest.mark.parametrize("c_a", [(6.0, np.inf, np.inf, np.inf), (6.0, np.inf, 3.0, 3.0)])
def test_a_thinner_member_lowers_where_it_cuts(c_a):
    """1.5 c_a1 = 9 in: 4 in against 8 in of thickness, without and with the rule of narrow members."""
    cases = anchor_cases(h_ef=3.0, h_a=[4.0, 8.0, 9.0, 20.0], c_a=[c_a], v_ua_x=-100.0)
    found = next(o for o in check(*cases).outcomes if o.mode is Mode.CONCRETE_BREAKOUT_SHEAR)
    towards = found.record.v_cb[found.edge_of_row == 0]
    assert towards[0] < towards[1] * 0.9
    assert towards[1] < towards[2]
    assert towards[2] == towards[3]


@QUICK
@given(row=anchor_rows(), factor=st.floats(0.3, 1.0))
def test_strength_falls_with_weaker_concrete(row, factor):
    """Every mode of the concrete loses with the strength used: f'c up to the limit of 17.3.1. Steel keeps its own.

    Bond, and pryout with it, goes with f'c only by the product's exponent.
    """
    limit = 8_000 if "category" in row else 10_000
    before, after = (min(f_c, limit) for f_c in (row["f_c_specified"], row["f_c_specified"] * factor))
    weaker = strengths(row | {"f_c_specified": row["f_c_specified"] * factor})
    assume(after == before or after < before * (1 - 1e-9))
    of_bond = {Mode.ADHESIVE_BOND, Mode.SUSTAINED_BOND} | ({Mode.PRYOUT} if row.get("adhesive") else set())
    for place, strength in strengths(row).items():
        if place[0] in OF_STEEL or after == before:
            assert weaker[place] == strength, place
        elif place[0] in of_bond:
            assert weaker[place] <= strength, place
        else:
            assert weaker[place] < strength, place


@QUICK
@given(anchor_rows())
def test_supplementary_reinforcement_never_lowers(row):
    without = strengths(row | {"supplementary": False})
    gaining = {
        Mode.CONCRETE_BREAKOUT_TENSION,
        Mode.SIDE_FACE_BLOWOUT,
        Mode.ADHESIVE_BOND,
        Mode.SUSTAINED_BOND,
        Mode.CONCRETE_BREAKOUT_SHEAR,
    }
    for place, strength in strengths(row | {"supplementary": True}).items():
        assert strength > without[place] if place[0] in gaining else strength == without[place]


@QUICK
@given(anchor_rows())
def test_cracked_concrete_is_never_stronger(row):
    """With a product whose data in cracked concrete aren't above those in uncracked. Splitting (psi_cp) is what may
    make uncracked concrete the weaker, so the critical edge distance is put below 1.5 h_ef and c_Na of all rows, which
    are 0.55 in at least.
    """
    row = row | {"c_ac": 0.5}
    uncracked = strengths(row | {"cracked": False})
    for place, strength in strengths(row | {"cracked": True}).items():
        assert strength <= uncracked[place] * (1 + 1e-13)


@QUICK
@given(row=anchor_rows(), factor=st.floats(0.1, 10.0))
def test_utilisation_is_linear_in_the_load(row, factor):
    """All loads together; but for the three lines of tension with shear, which step at 0.2."""
    loads = ("n_ua", "n_ua_s", "n_ua_e", "v_ua_x", "v_ua_y")
    once, more = outcomes(row), outcomes(row | {name: factor * row[name] for name in loads})
    for mode, one in once.items():
        if mode is Mode.INTERACTION and not row["power"]:
            continue
        np.testing.assert_allclose(more[mode].utilisation, factor * one.utilisation, rtol=1e-12)
        np.testing.assert_allclose(more[mode].design_strength, one.design_strength, rtol=1e-12)
