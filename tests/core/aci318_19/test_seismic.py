"""17.10 by hand: the share of earthquake, the factor 0.75, and what a ductile anchor is asked for."""

import numpy as np
import pytest

from architecture.random_records import record_classes
from core.builders import alone
from hangpoint.core.aci318_19.concrete_breakout_tension import breakout_strength, concrete_breakout_tension
from hangpoint.core.aci318_19.pullout import HEADED, pullout
from hangpoint.core.aci318_19.seismic import (
    ductile_steel_findings,
    ductile_steel_option,
    earthquake_governs,
    other_option_findings,
    seismic_factor,
)
from hangpoint.core.aci318_19.side_face_blowout import side_face_blowout
from hangpoint.core.quantity import StrengthRecord, columns
from hangpoint.core.vocabulary import Finding, Severity

B, C, D, F = 1, 2, 3, 5
ONE, YES = np.ones(1), np.ones(1, dtype=np.bool_)


@pytest.mark.parametrize(
    ("category", "n_ua", "n_ua_e", "governs"),
    [
        (B, 1_000.0, 1_000.0, False),  # categories A and B have no such rule
        (C, 1_000.0, 200.0, False),  # 20 % is not more than 20 %
        (C, 1_000.0, 200.1, True),
        (F, 1_000.0, 199.9, False),
        (D, 1_000.0, 0.0, False),
        (D, 0.0, 0.0, False),  # no load, no share
        (D, 500.0, 800.0, True),  # what else acts relieves: more than the whole
        (D, -100.0, 50.0, False),  # pushed in total
        (D, 0.0, 50.0, False),
    ],
)
def test_share_of_earthquake(category, n_ua, n_ua_e, governs):
    """17.10.5.1, 17.10.6.1: more than 20 % of the total factored load, categories C to F."""
    found = earthquake_governs(
        category=np.array([category], dtype=np.int8), n_ua=np.array([n_ua]), n_ua_e=np.array([n_ua_e])
    )
    assert found.dtype == np.bool_
    assert found.tolist() == [governs]


def test_factor():
    """17.10.5.4."""
    np.testing.assert_array_equal(seismic_factor(governs=np.array([True, False])), [0.75, 1.0])


def test_breakout_with_the_factor():
    """N_cb 15,417.02 lb of ACI 349.2R-07, example A1, phi .70 without supplementary reinforcement: .75 x .70 x that."""
    strength = breakout_strength(
        h_ef=4.69 * ONE,
        footprint=alone(np.full((1, 4), np.inf)),
        anchor_count=ONE,
        s_max=0 * ONE,
        e_n_x=0 * ONE,
        e_n_y=0 * ONE,
        cracked=YES,
        cast_in=YES,
        headed=YES,
        product_k_c=~YES,
        k_cr=0 * ONE,
        k_uncr=0 * ONE,
        c_ac=0 * ONE,
        lambda_a=ONE,
        f_c=4_000 * ONE,
    )
    made = concrete_breakout_tension(strength, seismic_factor=0.75 * ONE, phi=0.70 * ONE, demand=8_000 * ONE)
    assert made.n_cb[0] == pytest.approx(15_417.02, abs=0.005)
    assert made.design_strength[0] == pytest.approx(8_093.936, abs=0.003)
    assert made.utilisation[0] == pytest.approx(8_000 / 8_093.936, rel=1e-6)


def test_pullout_with_the_factor():
    """N_pn 18.88 kip of ACI 349.2R-07, example A1 (8 x .59 x 4,000): .75 x .70 x 18,880 = 9,912 lb."""
    made = pullout(
        method=np.array([HEADED], dtype=np.int8),
        in_deck=~YES,
        cracked=YES,
        f_c=4_000 * ONE,
        n_p_cr=0 * ONE,
        n_p_uncr=0 * ONE,
        by_seismic_tests=~YES,
        n_p_eq=0 * ONE,
        f_c_ref=2_500 * ONE,
        n_exponent=0 * ONE,
        lambda_p=ONE,
        a_brg=0.59 * ONE,
        d_a=0.5 * ONE,
        e_h=0 * ONE,
        seismic_factor=0.75 * ONE,
        phi=0.70 * ONE,
        demand=8_000 * ONE,
    )
    assert made.n_pn[0] == pytest.approx(18_880, rel=1e-12)
    assert made.design_strength[0] == pytest.approx(9_912, rel=1e-12)
    assert made.utilisation[0] == pytest.approx(8_000 / 9_912, rel=1e-12)


def test_blowout_with_the_factor():
    """160 x 2 x 1 x sqrt(4,000) = 20,238.58 lb, no corner: .75 x .70 x that = 10,625.25 lb."""
    made = side_face_blowout(
        h_ef=6 * ONE,
        c_a1=2 * ONE,
        c_a2=np.array([np.inf]),
        a_brg=ONE,
        lambda_a=ONE,
        f_c=4_000 * ONE,
        lone=YES,
        s_row=0 * ONE,
        seismic_factor=0.75 * ONE,
        phi=0.70 * ONE,
        demand=8_000 * ONE,
    )
    assert made.n_sb[0] == pytest.approx(20_238.58, abs=0.005)
    assert made.design_strength[0] == pytest.approx(10_625.25, abs=0.005)


def test_no_other_strength_has_the_factor():
    """Reading 20: breakout, pullout, blowout and bond; not steel, not sustained tension, not shear."""
    strengths = {cls for cls in record_classes() if issubclass(cls, StrengthRecord)}
    having = {cls.__name__ for cls in strengths if "seismic_factor" in columns(cls)}
    assert having == {"AdhesiveBond", "ConcreteBreakoutTension", "Pullout", "SideFaceBlowout"}
    assert len(strengths) > len(having)


OPTION = {
    "n_sa": 10_000.0,
    "n_concrete": 12_001.0,
    "d_a": 0.5,
    "l_stretch": 4.0,
    "ductile": True,
    "f_uta_specified": 58_000.0,
    "f_ya": 36_000.0,
    "upset_threads": False,
}
"""1.2 x 10,000 = 12,000 lb; 8 x .5 = 4 in; 58 / 36 = 1.61: holds."""


def option(**changed):
    made = {name: np.atleast_1d(np.asarray(value)) for name, value in (OPTION | changed).items()}
    count = max(len(value) for value in made.values())
    return ductile_steel_option(**{name: np.broadcast_to(value, count).copy() for name, value in made.items()})


def test_ductile_steel_that_governs():
    made = option()
    assert made.n_sa_expected[0] == 12_000.0
    assert made.l_stretch_min[0] == 4.0
    assert made.strength_ratio[0] == pytest.approx(1.6111, abs=5e-5)
    assert made.holds[0]


@pytest.mark.parametrize(
    ("changed", "field", "holds"),
    [
        ({"n_concrete": 12_000.0}, "steel_governs", False),  # greater, not equal
        ({"n_concrete": np.inf}, "steel_governs", True),
        ({"l_stretch": 3.99}, "stretch_enough", False),
        ({"l_stretch": 4.01}, "stretch_enough", True),
        ({"l_stretch": 0.0}, "stretch_enough", False),  # not stated
        ({"ductile": False}, "ductile", False),
        ({"f_uta_specified": 125_000.0, "f_ya": 105_000.0}, "ratio_enough", False),  # 1.19
        ({"f_uta_specified": 125_000.0, "f_ya": 105_000.0, "upset_threads": True}, "ratio_enough", True),
        ({"f_uta_specified": 65_000.0, "f_ya": 50_000.0}, "ratio_enough", True),  # 1.3 to the last digit
        ({"f_uta_specified": 520 * 145.0377, "f_ya": 400 * 145.0377}, "ratio_enough", True),  # 1.3 from N/mm2
        ({"f_uta_specified": 64_999.0, "f_ya": 50_000.0}, "ratio_enough", False),
    ],
)
def test_each_condition_of_ductile_steel(changed, field, holds):
    """17.10.5.3(a): each alone decides."""
    made = option(**changed)
    assert bool(getattr(made, field)[0]) is holds
    assert bool(made.holds[0]) is holds


def found(columns_of_findings):
    return {column.finding: column for column in columns_of_findings}


def test_findings_of_ductile_steel():
    """One row lacks everything, one nothing, one is not asked; values and limits stand beside."""
    lacking = {
        "n_concrete": [9_000.0, 12_001.0, 9_000.0],
        "l_stretch": [0.0, 4.0, 0.0],
        "ductile": [False, True, False],
        "f_uta_specified": [125_000.0, 58_000.0, 125_000.0],
        "f_ya": [105_000.0, 36_000.0, 105_000.0],
    }
    made = found(ductile_steel_findings(option=option(**lacking), asked=np.array([True, True, False])))
    violations = {
        Finding.SEISMIC_STEEL_NOT_GOVERNING: (9_000.0, 12_000.0),
        Finding.SEISMIC_STRETCH_LENGTH: (0.0, 4.0),
        Finding.SEISMIC_NOT_DUCTILE: (0.0, 0.0),
        Finding.SEISMIC_STRENGTH_RATIO: (125 / 105, 1.3),
    }
    assert set(made) == {*violations, Finding.SEISMIC_BUCKLING}
    for finding, shown in violations.items():
        assert finding.value.severity is Severity.VIOLATION
        assert made[finding].holds.tolist() == [True, False, False]
        assert (made[finding].value[0], made[finding].limit[0]) == pytest.approx(shown)
    assert Finding.SEISMIC_BUCKLING.value.severity is Severity.CAUTION
    assert made[Finding.SEISMIC_BUCKLING].holds.tolist() == [True, True, False]


def test_findings_of_the_other_options():
    attachment, overstrength = np.array([True, False, False]), np.array([False, True, False])
    made = found(other_option_findings(attachment=attachment, overstrength=overstrength))
    assert made[Finding.SEISMIC_ATTACHMENT_OPTION].holds.tolist() == attachment.tolist()
    assert made[Finding.SEISMIC_OVERSTRENGTH].holds.tolist() == overstrength.tolist()
    assert {finding.value.severity for finding in made} == {Severity.CAUTION}
