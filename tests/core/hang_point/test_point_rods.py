"""The rod of a point by its named rule."""

import pytest

from core.builders import FACTORED_LOADS, RUN, rod
from core.hang_point.verdicts import (
    REASONS,
    SPRINKLER_LINE,
    checked,
    found_on,
    mode_of,
)
from hangpoint.core.hang_point.verdict import SERVICE
from hangpoint.core.loads.combinations import CASES
from hangpoint.core.vocabulary import Finding, Inapplicable, Mode

ROD_MODES = {
    "sp58_allowable": Mode.ROD_ALLOWABLE,
    "sp58_allowable_older": Mode.ROD_ALLOWABLE,
    "tensile_strength": Mode.ROD_STRENGTH,
    "sprinkler_size_table": None,
}


@pytest.mark.parametrize("rule", ROD_MODES)
def test_a_rod_has_the_mode_of_its_rule(rule):
    verdicts = checked(hangs=SPRINKLER_LINE, runs=[RUN], rods=rod(rule))
    for mode in verdicts.modes[:2]:
        assert mode.applies[0] == (mode.mode is ROD_MODES[rule])
        if mode.mode is not ROD_MODES[rule]:
            assert REASONS[mode.reason[0]] is Inapplicable.OTHER_ROD_RULE


@pytest.mark.parametrize(("rule", "allowable"), [("sp58_allowable", 730.0), ("sp58_allowable_older", 610.0)])
def test_allowable_against_service_load(rule, allowable):
    """3/8 in rod: 730 lb (MSS SP-58, 2002 and later) and 610 lb (before), rounded tables: to 10 lb. The load is the
    unfactored sum of every part, 392 lb on a sprinkler main.
    """
    verdicts = checked(hangs=SPRINKLER_LINE, runs=[RUN], rods=rod(rule))
    mode = mode_of(verdicts, Mode.ROD_ALLOWABLE)
    assert mode.design_strength[0] == pytest.approx(allowable, abs=10.0)
    assert mode.demand[0] == pytest.approx(392, abs=0.5)
    assert mode.load_case[0] == SERVICE
    assert mode.utilisation[0] == pytest.approx(mode.demand[0] / mode.design_strength[0])


def test_strength_against_factored_load():
    """3/8 in rod of F_u 58 ksi: .75 x 58 x .0775 in2 = 3.37 kip (public table of F1554 grade 36); the worst case of
    the point, 688 lb.
    """
    verdicts = checked(hangs={"dead": 240.0, "live": 250.0}, rods=rod("tensile_strength", f_u=58_000.0))
    mode = mode_of(verdicts, Mode.ROD_STRENGTH)
    assert mode.design_strength[0] / 1000 == pytest.approx(3.37, abs=0.005)
    assert mode.demand[0] == pytest.approx(688.0)
    assert CASES[mode.load_case[0]].name == "1.2D+1.6L"


@pytest.mark.parametrize("rule", ROD_MODES)
def test_rod_under_a_factored_load(rule):
    """A service allowable can't meet a load that is only given factored; a strength can."""
    verdicts = checked(basis=FACTORED_LOADS, hangs={"factored": 700.0}, rods=rod(rule))
    allowable, strength = verdicts.modes[:2]
    assert not allowable.applies[0]
    by_service = rule.startswith("sp58")
    expected = Inapplicable.FACTORED_LOADS if by_service else Inapplicable.OTHER_ROD_RULE
    assert REASONS[allowable.reason[0]] is expected
    assert strength.applies[0] == (rule == "tensile_strength")


@pytest.mark.parametrize(("nominal", "ratio"), [(4.0, 1.0), (6.0, 4 / 3), (10.0, 5 / 3)])
def test_size_table(nominal, ratio):
    """NFPA 13 rod sizes, from memory: 3/8 in to NPS 4, 1/2 in for 6, 5/8 in for 10; a 3/8 in rod fails the last two."""
    verdicts = checked(hangs=SPRINKLER_LINE, runs=[RUN | {"nominal": nominal}], rods=rod("sprinkler_size_table"))
    assert verdicts.failed[0] == (ratio > 1)
    assert (Finding.ROD_BELOW_SIZE_TABLE in found_on(verdicts)) == (ratio > 1)


def test_no_rod():
    verdicts = checked(hangs={"dead": 100.0})
    for mode in verdicts.modes[:2]:
        assert not mode.applies[0]
        assert REASONS[mode.reason[0]] is Inapplicable.NO_ROD
    assert Finding.ROD_THREAD not in found_on(checked(hangs={"dead": 100.0}, products={"thread_d": 0.5}))
