"""What must hold of bond whatever the numbers: no outside value, only reasons."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.aci318_19.bond_rows import bond
from hangpoint.core.quantity import columns
from properties.strategies import QUICK
from properties.test_anchor_properties import TURNS


@st.composite
def bonds(draw):
    """One row of bond as a dictionary of columns of one value."""
    d_a = draw(st.floats(0.25, 1.5))
    tau_uncr = draw(st.floats(600.0, 3_500.0))
    reach = 10 * d_a * np.sqrt(tau_uncr / 1_100)
    edge = st.one_of(st.just(np.inf), st.floats(0.1, 3.0).map(lambda part: part * reach))
    return {
        "d_a": d_a,
        "h_ef": d_a * draw(st.floats(4.0, 20.0)),
        "c_a": [draw(st.tuples(edge, edge, edge, edge))],
        "e_n_x": draw(st.sampled_from([0.0, 1.0])),
        "e_n_y": draw(st.sampled_from([0.0, 2.0])),
        "cracked": draw(st.booleans()),
        "tau_cr": tau_uncr * draw(st.floats(0.3, 0.9)),
        "tau_uncr": tau_uncr,
        "by_seismic_tests": draw(st.booleans()),
        "tau_exponent": draw(st.sampled_from([0.0, 0.1])),
        "f_c": draw(st.floats(2_500.0, 8_000.0)),
        "c_ac": reach * draw(st.floats(0.5, 3.0)),
    }


def strength(row):
    return bond(**row).design_strength[0]


def edges_of(row, order):
    return [tuple(row["c_a"][0][i] for i in order)]


@QUICK
@given(st.lists(bonds(), min_size=2, max_size=6))
def test_batch_is_the_stack_of_singles(rows):
    """Every column of the record."""
    stacked = {name: [row[name][0] if name == "c_a" else row[name] for row in rows] for name in rows[0]}
    batch, singles = bond(**stacked), [bond(**row) for row in rows]
    for name in columns(type(batch)):
        alone = np.concatenate([getattr(single, name) for single in singles])
        np.testing.assert_allclose(getattr(batch, name), alone, rtol=1e-13, atol=0.0)


@pytest.mark.parametrize("turn", TURNS)
@QUICK
@given(row=bonds())
def test_turning_the_member_changes_nothing(turn, row):
    order = TURNS[turn]
    swapped = {"e_n_x": row["e_n_y"], "e_n_y": row["e_n_x"]} if order[0] > 1 else {}
    turned = row | {"c_a": edges_of(row, order)} | swapped
    assert strength(turned) == pytest.approx(strength(row), rel=1e-13)


@QUICK
@given(row=bonds(), edge=st.integers(0, 3), part=st.floats(0.2, 1.0))
def test_a_nearer_edge_never_helps(row, edge, part):
    """Bond has no rule of three edges: no exception."""
    here = row["c_a"][0]
    nearer = tuple(part * min(c, 50.0) if i == edge else c for i, c in enumerate(here))
    assert strength(row | {"c_a": [nearer]}) <= strength(row) * (1 + 1e-12)


@QUICK
@given(row=bonds())
def test_a_crack_never_helps_without_splitting(row):
    """tau_cr < tau_uncr; splitting belongs to uncracked concrete alone, so far edges are asked for."""
    far = row | {"c_a": [(np.inf,) * 4], "by_seismic_tests": False}
    assert strength(far | {"cracked": True}) < strength(far | {"cracked": False})


@QUICK
@given(row=bonds())
def test_every_number_is_finite(row):
    """Infinity only where there is a word for it."""
    made = bond(**row)
    for name, q in columns(type(made)).items():
        values = getattr(made, name)
        assert not np.isnan(values.astype(float)).any()
        assert q.infinite or np.isfinite(values.astype(float)).all()
