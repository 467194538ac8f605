"""What must hold of the tension checks whatever the numbers: no outside value, only reasons.

Monotony is asked for only where the code has it: across the three-edge rule (17.6.2.1.2) it doesn't (reading 44), nor
within it while the largest near edge moves, which changes h'_ef.
"""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.builders import anchor_cases
from core.outcome_rows import cases_of_rows, edges_of_rows, reasons_without_rows
from hangpoint.core.aci318_19.check import check
from hangpoint.core.quantity import columns
from hangpoint.core.vocabulary import Mode
from properties.strategies import QUICK, anchor_rows, cases_of

SAME = {"rtol": 1e-13, "atol": 0.0}


def strengths(row):
    """Design strengths of one anchor, by mode and place; blowout by its edge."""
    return {
        (outcome.mode, edge): strength
        for outcome in check(cases_of([row]))[1]
        for edge, strength in zip(edges_of_rows(outcome).tolist(), outcome.design_strength.tolist(), strict=True)
    }


@QUICK
@given(st.lists(anchor_rows(), min_size=2, max_size=6))
def test_batch_is_the_stack_of_singles(rows):
    """Every column of every record, the basis included."""
    basis, batch = check(cases_of(rows))
    singles = [check(cases_of([row])) for row in rows]
    for name in columns(type(basis)):
        stacked = np.concatenate([getattr(single, name) for single, _ in singles])
        np.testing.assert_allclose(getattr(basis, name), stacked, **SAME)
    for place, outcome in enumerate(batch):
        alone = [found[place] for _, found in singles]
        owners = np.concatenate([np.full(len(one.utilisation), i) for i, one in enumerate(alone)])
        np.testing.assert_array_equal(cases_of_rows(outcome), owners)
        np.testing.assert_array_equal(edges_of_rows(outcome), np.concatenate([edges_of_rows(one) for one in alone]))
        reasons = {i: reasons_without_rows(one, 1).get(0) for i, one in enumerate(alone)}
        without = {i: reason for i, reason in reasons.items() if reason is not None}
        assert reasons_without_rows(outcome, len(rows)) == without
        for name in columns(type(outcome.record)):
            stacked = np.concatenate([getattr(one.record, name) for one in alone])
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


@pytest.mark.parametrize("turn", TURNS)
@QUICK
@given(row=anchor_rows())
def test_turning_the_member_changes_nothing(turn, row):
    order = TURNS[turn]
    turned = strengths(row | {"c_a": tuple(row["c_a"][i] for i in order)})
    here = strengths(row)
    moved = {(mode, order[edge] if edge >= 0 else edge): strength for (mode, edge), strength in turned.items()}
    assert moved == pytest.approx(here, rel=1e-13)


@QUICK
@given(st.lists(anchor_rows(), min_size=1, max_size=6))
def test_every_number_is_finite(rows):
    """No NaN anywhere that is printed; infinity only in a field that has a word for it."""
    basis, found = check(cases_of(rows))
    for record in (basis, *(outcome.record for outcome in found)):
        for name, q in columns(type(record)).items():
            values = getattr(record, name)
            printed = values[getattr(record, q.when)] if q.when else values
            assert not np.isnan(printed).any(), name
            if not q.infinite:
                assert np.isfinite(printed).all(), name
    for outcome in found:
        assert (outcome.design_strength > 0).all()
        assert (outcome.utilisation >= 0).all()


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
@given(row=anchor_rows(), edge=st.integers(0, 3), factor=st.floats(1.0, 4.0))
def test_breakout_does_not_fall_when_an_edge_moves_away(row, edge, factor):
    farther = moved_away(row, edge, factor)
    assume(by_same_depth(row, row["c_a"], farther))
    mode = (Mode.CONCRETE_BREAKOUT_TENSION, -1)
    assert strengths(row | {"c_a": farther})[mode] >= strengths(row)[mode] * (1 - 1e-12)


@pytest.mark.parametrize(
    ("nearer", "farther"),
    [
        ((2.0, np.inf, np.inf, np.inf), (3.0, np.inf, np.inf, np.inf)),
        ((2.0, 4.0, np.inf, 12.0), (2.0, 5.0, np.inf, 12.0)),
        ((2.0, 3.0, 4.0, np.inf), (2.5, 3.0, 4.0, np.inf)),
    ],
)
def test_breakout_rises_when_a_near_edge_moves_away(nearer, farther):
    """The same property where it must show: one edge, two edges, and three of which the largest stays."""
    cases = anchor_cases(h_ef=6.0, c_a=[nearer, farther])
    first, second = next(o for o in check(cases)[1] if o.mode is Mode.CONCRETE_BREAKOUT_TENSION).design_strength
    assert second > first * 1.01


def test_the_pair_of_the_three_edge_rule():
    """Reading 44, by hand from 17.6.2 with f'c 4,000 psi, cast-in, cracked: h_ef 6, three edges of 2 in.

    Fourth edge 2 in: h'_ef 1.333, A ratio 1, psi_ed 1, N_cb = 24 sqrt(f'c) 1.333^1.5 = 2,337 lb. Fourth edge 3 in:
    h'_ef 2, A ratio 20/36, psi_ed .9, N_cb = .5 x 24 sqrt(f'c) 2^1.5 = 2,147 lb, weaker though the edge is farther.
    """
    cases = anchor_cases(h_ef=6.0, c_a=[(2.0, 2.0, 2.0, 2.0), (2.0, 2.0, 2.0, 3.0)])
    record = next(o.record for o in check(cases)[1] if o.mode is Mode.CONCRETE_BREAKOUT_TENSION)
    assert record.n_cb == pytest.approx([2_337, 2_147], abs=0.5)
    assert record.h_ef_used == pytest.approx([4 / 3, 2.0])


@QUICK
@given(row=anchor_rows(), factor=st.floats(0.3, 1.0))
def test_strength_falls_with_weaker_concrete(row, factor):
    """Every mode of the concrete loses with the strength used: f'c up to the limit of 17.3.1. Steel keeps its own."""
    limit = 8_000 if "category" in row else 10_000
    before, after = (min(f_c, limit) for f_c in (row["f_c_specified"], row["f_c_specified"] * factor))
    weaker = strengths(row | {"f_c_specified": row["f_c_specified"] * factor})
    assume(after == before or after < before * (1 - 1e-9))
    for place, strength in strengths(row).items():
        keeps = place[0] is Mode.STEEL_TENSION or after == before
        assert weaker[place] == strength if keeps else weaker[place] < strength


@QUICK
@given(anchor_rows())
def test_supplementary_reinforcement_never_lowers(row):
    without = strengths(row | {"supplementary": False})
    for place, strength in strengths(row | {"supplementary": True}).items():
        gains = place[0] in (Mode.CONCRETE_BREAKOUT_TENSION, Mode.SIDE_FACE_BLOWOUT)
        assert strength > without[place] if gains else strength == without[place]


@QUICK
@given(anchor_rows())
def test_cracked_concrete_is_never_stronger(row):
    """With a product whose data in cracked concrete aren't above those in uncracked. Splitting (psi_cp,N) is what may
    make uncracked concrete the weaker, so the critical edge distance is put within reach.
    """
    row = row | {"c_ac": 1.0}
    uncracked = strengths(row | {"cracked": False})
    for place, strength in strengths(row | {"cracked": True}).items():
        assert strength <= uncracked[place] * (1 + 1e-13)


@QUICK
@given(row=anchor_rows(), factor=st.floats(0.1, 10.0))
def test_utilisation_is_linear_in_the_load(row, factor):
    once = check(cases_of([row | {"n_ua": 1_000.0}]))[1]
    more = check(cases_of([row | {"n_ua": 1_000.0 * factor}]))[1]
    for one, other in zip(once, more, strict=True):
        np.testing.assert_allclose(other.utilisation, factor * one.utilisation, rtol=1e-12)
        np.testing.assert_array_equal(other.design_strength, one.design_strength)
