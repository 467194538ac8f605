"""Test loads and counts by hand, of the rules in `proof_rules`; no expected number here is the service's own."""

import numpy as np
import pytest

from hangpoint.core.site.proof_load import proof_count, proof_load, support_distance
from hangpoint.core.site.proof_rules import BASES, MOST_OF_YIELD, PROOF_RULES, USES


def load_of(name, basis, reference, *, a_se=1.0, f_ya=100_000.0, known=True):
    rule = PROOF_RULES[name]
    one = {
        "reference": reference,
        "factor": rule.factors[basis],
        "least_load": rule.least_load,
        "a_se_n": a_se,
        "f_ya": f_ya,
        "yield_share": rule.yield_share,
    }
    made = proof_load(
        **{key: np.array([value], dtype=float) for key, value in one.items()}, yield_known=np.array([known])
    )
    return made.test_load[0], bool(made.capped[0])


@pytest.mark.parametrize(
    ("name", "basis", "reference", "expected"),
    [
        # CBC 2022 1910A.5, secondary text: 2 x 900 = 1800; 1.25 x 1500 = 1875.
        ("cbc_1910a_5", "allowable", 900, 1800),
        ("cbc_1910a_5", "design_strength", 1500, 1875),
        # IEBC A107.5, secondary text: 2.5 x 1000 = 2500; 2.5 x 400 = 1000 is below the least of 1500.
        ("iebc_urm", "design", 1000, 2500),
        ("iebc_urm", "design", 400, 1500),
        # Common practice, no source: 1.5 x 240 = 360.
        ("one_and_a_half_working_load", "working", 240, 360),
        # Published style, from memory: 0.75 x 2000 = 1500.
        ("three_quarters_of_design_strength", "design_strength", 2000, 1500),
    ],
)
def test_loads_by_hand(name, basis, reference, expected):
    assert load_of(name, basis, reference) == (pytest.approx(expected), False)


def test_cap_by_hand():
    """0.8 x 0.0775 in2 x 36,000 psi = 2232 lb below 2 x 1200 = 2400; 0.7 of it, 1953 lb, below 0.75 x 3000 = 2250."""
    assert load_of("cbc_1910a_5", "allowable", 1200, a_se=0.0775, f_ya=36_000) == (pytest.approx(2232), True)
    assert load_of("cbc_1910a_5", "allowable", 1100, a_se=0.0775, f_ya=36_000) == (pytest.approx(2200), False)
    style = "three_quarters_of_design_strength"
    assert load_of(style, "design_strength", 3000, a_se=0.0775, f_ya=36_000) == (pytest.approx(1953), True)


def test_unknown_steel_has_no_cap():
    assert load_of("cbc_1910a_5", "allowable", 1200, a_se=0, f_ya=0, known=False) == (2400, False)


def test_counts_by_hand():
    """50 % of 37 is 18.5, so 19; of 36, 18. 10 % of 30 is 3 and of 31 is 4; all of 5 is 5. A stratum more than that
    asks for one each: 10 % of 30 on 7 levels is 7; never more than there are: 3 strata of 2 is 2."""
    for installed, percent, strata, by_rule, tests in (
        (37, 50, 1, 19, 19),
        (36, 50, 2, 18, 18),
        (30, 10, 1, 3, 3),
        (31, 10, 1, 4, 4),
        (5, 100, 5, 5, 5),
        (30, 10, 7, 3, 7),
        (1, 10, 1, 1, 1),
    ):
        columns = {"installed": installed, "percent": percent, "strata": strata}
        made = proof_count(**{key: np.array([value], dtype=float) for key, value in columns.items()})
        assert (made.by_rule[0], made.tests[0]) == (by_rule, tests)


def test_supports_stand_clear():
    """Two embedments of 2-1/2 in."""
    assert support_distance(h_ef=np.array([2.5])).clear.tolist() == [5.0]


def test_rules_say_where_they_come_from():
    for rule in PROOF_RULES.values():
        assert rule.source
        assert set(rule.factors) <= set(BASES)
        assert set(rule.percent) == set(USES)
        assert rule.percent["structural"] == 100
        assert 0 < rule.yield_share <= MOST_OF_YIELD == 0.8
    assert PROOF_RULES["cbc_1910a_5"].hold == 15
    assert PROOF_RULES["iebc_urm"].hold == 300
    assert PROOF_RULES["cbc_1910a_5"].percent == {"structural": 100, "nonstructural": 50, "sill_bolt": 10}
