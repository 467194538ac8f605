"""Exemptions from bracing: each limit on both sides. All limits are from memory (ASCE 7-10 and 7-16, chapter 13)."""

import numpy as np
import pytest

from hangpoint.core.hanger.exemptions import CATEGORIES, EXEMPTIONS, bracing_exemptions
from hangpoint.core.quantity import Kind, columns

FLAGS = {"bending_free", "on_trapeze", "ceiling", "distributes"}


def claims(**changed):
    """A heavy line in category D on long hangers that may claim nothing, changed by columns."""
    plain = {
        "category": CATEGORIES.index("D"),
        "i_p": 1.0,
        "ceiling": False,
        "distributes": True,
        "w_line": 20.5,
        "p_place": 0.0,
        "hanger_length": 36.0,
        "bending_free": False,
        "on_trapeze": False,
        "d_rod": 0.5,
        "p_hanger": 500.0,
        "duct_area": 0.0,
        "nominal": 6.0,
        "r_p": 4.5,
    }
    rows = np.broadcast_arrays(*(np.atleast_1d(value) for value in (plain | changed).values()))
    types = {"category": np.int8} | dict.fromkeys(FLAGS, np.bool_)
    return bracing_exemptions(
        **{name: row.astype(types.get(name, float)) for name, row in zip(plain, rows, strict=True)}
    )


def claimed(made, row=0):
    return {rule.name for rule in EXEMPTIONS if getattr(made, rule.name)[row]}


def test_a_heavy_line_may_claim_nothing():
    assert claimed(claims()) == set()


def test_every_rule_has_a_column_a_clause_and_its_origin():
    boolean = {
        name
        for name, q in columns(type(claims())).items()
        if q.kind is Kind.FORMULA and getattr(claims(), name).dtype == np.bool_
    }
    assert {rule.name for rule in EXEMPTIONS} == boolean
    for rule in EXEMPTIONS:
        assert rule.text.endswith(".")
        assert rule.clause.startswith("ASCE 7-")
        assert rule.from_memory


@pytest.mark.parametrize(("i_p", "exempt"), [(1.0, "ABC"), (1.5, "A")])
def test_categories(i_p, exempt):
    made = claims(category=np.arange(6), i_p=i_p)
    assert [CATEGORIES[at] for at in np.flatnonzero(made.by_category)] == list(exempt)


def test_a_ceiling_is_no_mechanical_component():
    """13.1.4 lets architectural components off in category B alone, mechanical and electrical ones in C too."""
    made = claims(category=np.arange(6), ceiling=True)
    assert [CATEGORIES[at] for at in np.flatnonzero(made.by_category)] == list("AB")


def test_only_a_distribution_system_claims_by_its_hangers_and_weight():
    light = {"category": 3, "w_line": 2, "hanger_length": 6, "bending_free": True, "p_hanger": 20}
    for on_trapeze in (False, True):
        assert len(claimed(claims(**light, on_trapeze=on_trapeze))) >= 3
        sizes = {"nominal": 1, "duct_area": 2}
        assert claimed(claims(**light | sizes, on_trapeze=on_trapeze, distributes=False)) == set()


def test_five_pounds_a_foot():
    assert claims(w_line=[5.0, 5.01]).by_weight.tolist() == [True, False]
    assert not claims(w_line=2.0, i_p=1.5).by_weight[0]
    assert claims(w_line=2.0, p_place=[20.0, 20.1]).by_weight.tolist() == [True, False]


def test_short_hangers_need_a_rod_that_is_not_bent():
    made = claims(hanger_length=[12, 12, 12.01, 3], bending_free=[True, False, True, False])
    assert made.by_short_hangers.tolist() == [True, False, False, False]


def test_ten_pounds_a_foot_of_all_lines_on_a_trapeze():
    made = claims(on_trapeze=[True, True, False], w_line=[9.9, 10.0, 5.0])
    assert made.by_trapeze_weight.tolist() == [True, False, False]


def test_load_of_a_single_rod():
    made = claims(hanger_length=[12, 12, 13, 12], p_hanger=[50, 51, 50, 50], d_rod=[0.375, 0.375, 0.375, 0.25])
    assert made.by_rod_load.tolist() == [True, False, False, False]
    assert not claims(hanger_length=12, p_hanger=50, i_p=1.5).by_rod_load[0]
    assert not claims(hanger_length=12, p_hanger=50, on_trapeze=True).by_rod_load[0]


def test_load_of_a_trapeze():
    """3/8 in to 12 in 100 lb; 1/2 in to 12 in 200 lb; 1/2 in to 24 in 100 lb."""
    rows = [
        (0.375, 12, 100, True),
        (0.375, 12, 101, False),
        (0.375, 13, 100, False),
        (0.5, 12, 200, True),
        (0.5, 12, 201, False),
        (0.5, 13, 200, False),
        (0.5, 24, 100, True),
        (0.5, 24, 101, False),
        (0.5, 25, 100, False),
        (0.25, 6, 20, False),
    ]
    d_rod, length, load, expected = map(list, zip(*rows, strict=True))
    made = claims(on_trapeze=True, d_rod=d_rod, hanger_length=length, p_hanger=load)
    assert made.by_trapeze_load.tolist() == expected
    assert not claims(d_rod=d_rod, hanger_length=length, p_hanger=load).by_trapeze_load.any()
    assert not claims(on_trapeze=True, d_rod=0.5, hanger_length=12, p_hanger=50, i_p=1.5).by_trapeze_load[0]


def test_area_of_a_duct():
    made = claims(duct_area=[0, 5.99, 6.0, 2.0, 2.0], i_p=[1, 1, 1, 1.5, 1], w_line=[20, 20, 20, 20, 20.1])
    assert made.by_duct_area.tolist() == [False, True, False, False, False]


def test_size_of_pipe():
    """R_p of at least 4.5: D to F, I_p 1.0 NPS 3, above 1.0 NPS 1; C above 1.0 NPS 2."""
    for category, i_p, largest in (("D", 1.0, 3), ("F", 1.0, 3), ("D", 1.5, 1), ("E", 1.5, 1), ("C", 1.5, 2)):
        made = claims(category=CATEGORIES.index(category), i_p=i_p, nominal=[0, 0.5, largest, largest + 0.5])
        assert made.by_pipe_size.tolist() == [False, True, True, False]
    assert not claims(nominal=1.0, r_p=3.0).by_pipe_size[0]
