"""Rods: the chain of each rule and its edges. Figures: tests/published/test_rods.py."""

from typing import get_args

import numpy as np
import pytest

from hangpoint.api.schemas.words import RodLoadRule, RodSizeRule
from hangpoint.core.hanger.rod import (
    ALLOWABLE_BASES,
    PHI_TENSION,
    ROD_MATERIALS,
    RULES,
    THREADS,
    rod_allowable,
    rod_size,
    rod_strength,
)
from hangpoint.core.hanger.rod_rules import (
    FURTHER_RULES,
    LOAD_RULES,
    SIZE_RULES,
    rod_size_by_rule,
    rods_for_pipe,
    thinnest_rods,
    threads,
)


def test_every_thread_has_a_root_inside_its_stress_diameter_inside_the_rod():
    for size, thread in THREADS.items():
        root = thread.d - thread.k_root * thread.pitch
        stress = thread.d - thread.k_stress * thread.pitch
        assert 0.0 < root < stress < thread.d, size


def test_allowable_stress_of_each_rule():
    """10,714 and 9,000 psi (MSS SP-58, new and old basis)."""
    for rule, psi in (("sp58_allowable", 10_714.0), ("sp58_allowable_older", 9_000.0)):
        basis = ALLOWABLE_BASES[rule]
        row = rod_allowable(
            d=np.array([0.5]),
            pitch=np.array([1 / 13]),
            k_root=np.array([1.299038]),
            f_basis=np.array([basis.f_basis]),
            safety=np.array([basis.safety]),
            k_thread=np.array([basis.k_thread]),
            demand=np.array([500.0]),
        )
        assert row.f_allow[0] == pytest.approx(psi, abs=0.5)
        assert row.utilisation[0] == pytest.approx(500.0 / (row.f_allow[0] * row.a_r[0]))


def test_strength_grows_with_the_grade():
    grades = np.array(list(ROD_MATERIALS.values()))
    full = np.ones_like(grades)
    row = rod_strength(
        d=0.375 * full,
        pitch=full / 16,
        k_stress=0.9743 * full,
        f_u=grades,
        phi=PHI_TENSION * full,
        demand=1000.0 * full,
    )
    np.testing.assert_allclose(row.design_strength / grades, row.design_strength[0] / grades[0])
    assert grades.argmin() == list(ROD_MATERIALS).index("unknown")
    np.testing.assert_allclose(row.utilisation * row.design_strength, 1000.0)


def test_size_rule_compares_diameters():
    row = rod_size(nominal=np.array([4.0, 6.0, 6.0, 16.0]), d=np.array([0.375, 0.375, 0.5, 1.0]))
    assert row.covered.tolist() == [True, True, True, False]
    assert row.suffices.tolist() == [True, False, True, True]


def test_sizes_between_those_of_the_table_are_not_covered():
    row = rod_size(nominal=np.array([4.5, 7.0, 9.0, -1.0]), d=np.full(4, 1.0))
    assert not row.covered.any()


def test_every_rule_has_its_source():
    assert set(ALLOWABLE_BASES) < set(RULES)
    assert not set(RULES) & set(FURTHER_RULES)
    assert set(SIZE_RULES) <= set(RULES) | set(FURTHER_RULES)
    for rule in (*RULES.values(), *FURTHER_RULES.values()):
        assert rule.text.endswith(".")
        assert rule.source


def test_size_rules_have_no_value_beyond_their_tables():
    """Each rule at the end of its table and past it, and without a pipe."""
    for rule, last in (
        ("sprinkler_size_table", 12.0),
        ("piping_handbook_by_pipe", 24.0),
        ("specification_by_pipe", 12.0),
    ):
        code = np.full(4, SIZE_RULES.index(rule), dtype=np.int8)
        found = rod_size_by_rule(rule=code, nominal=np.array([0.0, -1.0, last, last + 2]))
        assert (found > 0).tolist() == [False, False, True, False], rule


def test_rods_beyond_a_rule():
    """No rod for a load above the thickest of its list, none in mm in a list in inches, none of no size."""
    for rule, metric, load in (
        ("duct_standard", False, 3001),
        ("duct_standard", True, 1),
        ("sp58_allowable", True, 1e6),
    ):
        assert thinnest_rods(load=np.array([float(load)]), rule=rule, names=threads(metric=metric)).tolist() == [-1]
    assert rods_for_pipe(0.0) == []
    assert thinnest_rods(load=np.array([3000.0]), rule="duct_standard", names=threads(metric=False)).tolist() == [5]


def test_threads_of_a_series_rise():
    for metric in (False, True):
        d = [THREADS[name].d for name in threads(metric=metric)]
        assert d == sorted(d)
    assert {*threads(metric=False), *threads(metric=True)} == set(THREADS)


def test_words_of_the_answer_are_the_rules():
    assert get_args(RodSizeRule) == SIZE_RULES
    assert get_args(RodLoadRule) == LOAD_RULES
    assert set(LOAD_RULES) <= set(RULES) | set(FURTHER_RULES)
