"""The chain from what hangs to the base: load cases and what governs.

Loads and factors are worked by hand from ACI 318-19 5.3.1, the statics of a run and the sprinkler standard's rule;
anchors are invented.
"""

import numpy as np
import pytest

from core.builders import FACTORED_LOADS, HEADED_BOLT, INF, RUN, rod
from core.hang_point.verdicts import (
    REASONS,
    SPRINKLER_LINE,
    checked,
    factored_by_case,
    found_on,
    governing_mode,
    mode_of,
    refusal_of,
    value_of,
)
from hangpoint.core.errors import NonFiniteError
from hangpoint.core.hang_point.points import PIPE
from hangpoint.core.hang_point.verdict import SERVICE
from hangpoint.core.loads.combinations import CASES
from hangpoint.core.vocabulary import Finding, Inapplicable, Link, Mode, Refusal, Severity


def test_dead_and_live():
    """D 240 lb and L 250 lb by hand: 1.4D = 336, 1.2D + 1.6L = 688 lb; only D is sustained, 1.4 x 240."""
    verdicts = checked(hangs={"dead": 240.0, "live": 250.0})
    assert factored_by_case(verdicts) == pytest.approx({"1.4D": 336.0, "1.2D+1.6L": 688.0})
    assert verdicts.demand.factored[0] == pytest.approx(688.0)
    assert verdicts.demand.sustained[0] == pytest.approx(336.0)
    assert CASES[verdicts.demand.load_case[0]].name == "1.2D+1.6L"


def test_contents_are_factored_as_dead_load():
    """Common practice, no source: contents take the factor of dead load, 1.4 x (100 + 50) = 210 lb."""
    verdicts = checked(hangs={"dead": 100.0, "contents": 50.0})
    assert factored_by_case(verdicts) == pytest.approx({"1.4D": 210.0, "1.2D+1.6L": 180.0})


def test_given_factored_load():
    """One case with factor 1; its sustained share as stated."""
    verdicts = checked(basis=FACTORED_LOADS, hangs={"factored": 700.0, "sustained_fraction": 0.25})
    assert factored_by_case(verdicts) == {"as given": 700.0}
    assert verdicts.demand.sustained[0] == pytest.approx(175.0)


def test_sprinkler_main():
    """NPS 4, schedule 10, filled, hangers at 12 ft, by hand: w 11.8 lb/ft, W 141.6 lb, 5W + 250 lb = 958 lb; the load
    on the structure W + 250 lb is 392 lb. The ordinary cases take the 250 lb as live load: 198 and 570 lb.
    """
    verdicts = checked(hangs=SPRINKLER_LINE, runs=[RUN], rods=rod("sprinkler_size_table"))
    weight = verdicts.demand.dead[0] + verdicts.demand.contents[0]
    assert weight / 12.0 == pytest.approx(11.8, abs=0.05)
    assert weight == pytest.approx(141.6, abs=0.6)  # 12 ft times the rounded w
    cases = factored_by_case(verdicts)
    assert list(cases) == ["1.4D", "1.2D+1.6L", "5W+250lb"]
    assert cases["5W+250lb"] == pytest.approx(958, abs=0.5)
    assert cases["1.4D"] == pytest.approx(1.4 * 141.6, abs=1.4 * 0.6)
    assert cases["1.2D+1.6L"] == pytest.approx(1.2 * 141.6 + 1.6 * 250, abs=1.2 * 0.6)
    assert CASES[verdicts.demand.load_case[0]].name == "5W+250lb"
    assert verdicts.demand.sprinkler[0] == 250.0
    assert value_of(verdicts, Finding.SPRINKLER_STRUCTURE)[0] == pytest.approx(392, abs=0.5)
    assert {Finding.SPRINKLER_STRUCTURE, Finding.SPRINKLER_CERTIFICATION} <= found_on(verdicts)


def test_the_250_lb_is_for_sprinkler_points_only():
    verdicts = checked(hangs={"kind": PIPE, "sprinkler": [False, True]}, runs=[RUN, RUN | {"point": 1}])
    np.testing.assert_array_equal(verdicts.demand.sprinkler, [0.0, 250.0])
    assert Finding.SPRINKLER_STRUCTURE not in found_on(verdicts, 0)
    assert Finding.SPRINKLER_STRUCTURE in found_on(verdicts, 1)


def test_point_loads_on_a_run():
    """A valve of 60 lb 3 ft from the hanger in a span of 12 ft, by the lever rule: 45 lb; a live 20 lb at it: 20."""
    valve = {"position": 9.0, "weight": 60.0}
    person = {"position": 12.0, "weight": 20.0, "live": True}
    bare = checked(hangs={"kind": PIPE}, runs=[RUN])
    verdicts = checked(hangs={"kind": PIPE}, runs=[RUN], loads=[valve, person])
    assert verdicts.demand.dead[0] - bare.demand.dead[0] == pytest.approx(45.0)
    assert verdicts.demand.live[0] == pytest.approx(20.0)
    assert verdicts.demand.contents[0] == bare.demand.contents[0]


def test_a_run_belongs_to_its_own_point():
    verdicts = checked(hangs={"kind": [0, PIPE, 0], "dead": [10.0, 0.0, 30.0]}, runs=[RUN | {"point": 1}])
    np.testing.assert_array_equal(verdicts.demand.dead[[0, 2]], [10.0, 30.0])
    assert verdicts.demand.dead[1] > 60.0
    np.testing.assert_array_equal(verdicts.demand.contents[[0, 2]], [0.0, 0.0])


def test_a_run_adds_to_what_the_point_states():
    """`Hangs` and `service_loads` both say that the reaction of a pipe is added to the loads stated directly."""
    stated = {"dead": 50.0, "contents": 20.0, "live": 100.0}
    bare = checked(hangs={"kind": PIPE}, runs=[RUN])
    verdicts = checked(hangs={"kind": PIPE} | stated, runs=[RUN])
    for nature, load in stated.items():
        more = getattr(verdicts.demand, nature)[0] - getattr(bare.demand, nature)[0]
        assert more == pytest.approx(load), nature


def test_governing_and_next_worst_case():
    """The same mode governs both cases, so that the ratios stand as the loads: 688 and 336 lb."""
    verdicts = checked(hangs={"dead": 240.0, "live": 250.0})
    mode = verdicts.modes[verdicts.governing[0]]
    assert mode.mode is Mode.CONCRETE_BREAKOUT_TENSION
    assert mode.mode.link is Link.BASE
    assert CASES[mode.load_case[0]].name == "1.2D+1.6L"
    assert verdicts.utilisation[0] == mode.utilisation[0] == max(m.utilisation[0] for m in verdicts.modes)
    assert CASES[verdicts.next_case[0]].name == "1.4D"
    assert verdicts.next_utilisation[0] == pytest.approx(verdicts.utilisation[0] * 336 / 688)


def test_breakout_of_the_default_point():
    """By hand: phi .65, k_c 17, f'c 4,000 psi, h_ef 3.25 in: .65 x 17 x 63.246 x 5.859 = 4,094.6 lb; 688 lb on it."""
    verdicts = checked(hangs={"dead": 240.0, "live": 250.0})
    mode = mode_of(verdicts, Mode.CONCRETE_BREAKOUT_TENSION)
    assert mode.design_strength[0] == pytest.approx(4_094.6, abs=0.5)
    assert verdicts.utilisation[0] == pytest.approx(688 / 4_094.6, abs=5e-5)


def test_dead_load_alone_is_governed_by_its_own_case():
    verdicts = checked(hangs={"dead": 240.0})
    assert CASES[verdicts.demand.load_case[0]].name == "1.4D"
    assert CASES[verdicts.next_case[0]].name == "1.2D+1.6L"


def test_next_worst_beside_a_service_load():
    """A rod that governs by its service load leaves every load case of the anchor to be the next worst."""
    verdicts = checked(hangs={"dead": 800.0}, rods=rod("sp58_allowable", "1/4"), products={"thread_d": 0.0})
    assert governing_mode(verdicts) is Mode.ROD_ALLOWABLE
    assert mode_of(verdicts, Mode.ROD_ALLOWABLE).load_case[0] == SERVICE
    assert CASES[verdicts.next_case[0]].name == "1.4D"
    anchor = [mode.utilisation[0] for mode in verdicts.modes if mode.mode.link is not Link.ROD]
    assert verdicts.next_utilisation[0] == pytest.approx(max(anchor))


def test_no_next_worst_of_one_case():
    verdicts = checked(basis=FACTORED_LOADS, hangs={"factored": 700.0})
    assert verdicts.next_case[0] == -1
    assert verdicts.next_utilisation[0] == 0.0


def test_the_first_of_equal_ratios_governs():
    """Steel 0.75 x 0.65 x 10,000 and pullout 0.65 x 7,500 are both 4,875 lb: steel comes first."""
    verdicts = checked(
        basis=FACTORED_LOADS,
        hangs={"factored": 1_000.0},
        products={"a_se_n": 0.65, "f_uta": 10_000.0, "n_p_cr": 7_500.0, "n_exponent": 0.0, "h_ef": 6.0, "h_min": 8.0},
    )
    steel, pullout = (mode_of(verdicts, mode) for mode in (Mode.STEEL_TENSION, Mode.PULLOUT))
    assert steel.utilisation[0] == pullout.utilisation[0] == verdicts.utilisation[0]
    assert governing_mode(verdicts) is Mode.STEEL_TENSION


def test_the_worst_edge_is_named():
    """Blowout at two edges: the nearer governs, and its place is in the answer."""
    verdicts = checked(
        hangs={"dead": 100.0}, products=HEADED_BOLT | {"h_ef": 7.0}, bases={"c_a": [[2.5, INF, INF, 2.0]]}
    )
    assert mode_of(verdicts, Mode.SIDE_FACE_BLOWOUT).edge[0] == 3


def test_above_one_fails():
    strength = mode_of(checked(hangs={"dead": 1.0}), Mode.CONCRETE_BREAKOUT_TENSION).design_strength[0]
    verdicts = checked(basis=FACTORED_LOADS, hangs={"factored": strength * np.array([0.999, 1.0, 1.001])})
    np.testing.assert_array_equal(verdicts.failed, [False, False, True])


def test_zero_load_passes_with_a_caution():
    verdicts = checked(hangs={"dead": [0.0, 1.0]})
    assert verdicts.utilisation[0] == 0.0
    assert refusal_of(verdicts) is None
    assert not verdicts.failed[0]
    assert Finding.NO_LOAD in found_on(verdicts, 0)
    assert Finding.NO_LOAD not in found_on(verdicts, 1)
    assert Finding.NO_LOAD.value.severity is Severity.CAUTION
    assert mode_of(verdicts, Mode.CONCRETE_BREAKOUT_TENSION).applies[0]


def test_reasons_of_modes_that_do_not_apply():
    verdicts = checked(
        hangs={"dead": 100.0},
        products={"n_p_cr_state": [2, 1], "adhesive": False},
        rods={"rule": -1},
    )
    pullout = mode_of(verdicts, Mode.PULLOUT)
    np.testing.assert_array_equal(pullout.applies, [False, True])
    assert REASONS[pullout.reason[0]] is Inapplicable.PULLOUT_NOT_GOVERNING
    blowout = mode_of(verdicts, Mode.SIDE_FACE_BLOWOUT)
    assert REASONS[blowout.reason[0]] is Inapplicable.NOT_HEADED
    assert REASONS[mode_of(verdicts, Mode.ROD_STRENGTH).reason[0]] is Inapplicable.NO_ROD


def test_next_worst_counts_the_strength_of_the_rod():
    """Dead 800 lb and live 100 lb: 1.4D and 1.2D+1.6L are both 1,120 lb, so the next case uses the rod as much."""
    verdicts = checked(hangs={"dead": 800.0, "live": 100.0}, rods=rod("tensile_strength"))
    lead = verdicts.modes[verdicts.governing[0]]
    assert lead.mode is Mode.ROD_STRENGTH
    assert verdicts.next_utilisation[0] == pytest.approx(verdicts.utilisation[0])


def test_relieving_loads_do_not_relieve():
    """Live load that pushes up may be absent: the rod has to hold the dead load alone. So may contents."""
    alone = checked(hangs={"dead": 1000.0}, rods=rod("sp58_allowable"))
    relieved = checked(hangs={"dead": 1000.0, "live": -700.0}, rods=rod("sp58_allowable"))
    emptied = checked(hangs={"dead": 1000.0, "contents": -200.0}, rods=rod("sp58_allowable"))
    assert alone.modes[0].demand[0] == relieved.modes[0].demand[0] == emptied.modes[0].demand[0] == 1000.0
    assert emptied.demand.factored[0] == alone.demand.factored[0] == pytest.approx(1400.0)


def test_contents_that_push_more_than_the_rest_pulls_are_refused():
    verdicts = checked(hangs={"dead": 100.0, "contents": -200.0})
    assert refusal_of(verdicts, 0) is Refusal.COMPRESSION


@pytest.mark.parametrize(
    ("category", "cracked", "expected"), [(1, True, 5400.0), (2, True, 4900.0), (3, False, 4900.0)]
)
def test_pullout_by_seismic_tests(category, cracked, expected):
    """From category C the strength is N_p,eq, under gravity alone and in uncracked concrete too (17.10.3, reading 5).
    phi 0.65, f'c 2,500 psi as in the tests.
    """
    bases = {"category": category, "cracked": cracked, "f_c": 2500.0}
    mode = mode_of(checked(hangs={"dead": 100.0}, bases=bases), Mode.PULLOUT)
    assert mode.design_strength[0] == pytest.approx(0.65 * expected)


def test_pullout_by_seismic_tests_where_gravity_has_none():
    """N_p,cr does not govern, N_p,eq is a number: in category C pullout is checked."""
    products = {"n_p_cr_state": 2, "n_p_cr": 0.0}
    low, high = (
        mode_of(checked(hangs={"dead": 1.0}, products=products, bases={"category": category}), Mode.PULLOUT)
        for category in (1, 2)
    )
    assert not low.applies[0]
    assert high.applies[0]


def test_a_run_that_lifts_off_is_told():
    """Spans of 2, 20 and 20 ft: by three moments the first hanger is pulled down, so it lifts."""
    run = RUN | {"spans": (2.0, 20.0, 20.0), "span_count": 3, "support": 0, "model": 0}
    verdicts = checked(hangs={"kind": PIPE}, runs=[run])
    assert Finding.RUN_UPLIFT in found_on(verdicts)
    assert verdicts.demand.dead[0] > 0


def test_no_verdict_rests_on_what_is_no_number():
    """A steel without area has no utilisation without a load; of two points one is enough."""
    with pytest.raises(NonFiniteError), np.errstate(invalid="ignore"):
        checked(hangs={"dead": [100.0, 0.0]}, products={"a_se_n": [0.2, 0.0]})
