"""Roof live load, snow, wind, earthquake, test and thermal loads by nature in the chain. By hand, anchors invented."""

import numpy as np
import pytest

from core.builders import SERVICE_LOADS
from core.hang_point.verdicts import checked, mode_of
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.further_loads import FurtherForce
from hangpoint.core.hang_point.points import PIPE, Basis
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.loads.combinations import TRANSIENT
from hangpoint.core.vocabulary import Mode

PAIR = [{"point": 0, "x": -3.0}, {"point": 0, "x": 3.0}]


def transient(**natures):
    """Components (6, natures): a number is tension, a tuple all six."""
    made = np.zeros((6, len(TRANSIENT)))
    for name, load in natures.items():
        made[:, TRANSIENT.index(name)] = (load, 0, 0, 0, 0, 0) if np.ndim(load) == 0 else load
    return made


def record_of(verdicts, kind):
    return next(section.record for section in verdicts.sections if isinstance(section.record, kind))


def tensions(verdicts):
    names = [verdicts.case_names[case] for case in verdicts.axis.load_case]
    return dict(zip(names, record_of(verdicts, AnchorDemand).n_ua.tolist(), strict=True))


def test_snow_by_both_editions():
    """D 500, L 100, S 300 lb: 600+160+150 = 910, 600+480+100 = 1,180; at strength level 600+160+90 and 600+300+100."""
    hangs = {"dead": 500.0, "live": 100.0, "transient": transient(snow=300.0)}
    found = tensions(checked(hangs=hangs))
    assert found["1.2D+1.6L+0.5S"] == pytest.approx(910)
    assert found["1.2D+1.6S+L"] == pytest.approx(1_180)
    assert "1.2D+1.0S+L" not in found
    newer = Basis(factored=False, allowable=False, load_standard="asce7_22")
    found = tensions(checked(basis=newer, hangs=hangs))
    assert found["1.2D+1.6L+0.3S"] == pytest.approx(850)
    assert found["1.2D+1.0S+L"] == pytest.approx(1_000)
    assert "1.2D+1.6S+L" not in found


def test_earthquake_with_its_vertical_effect():
    """D 400, contents 100, L 50, E 300 lb stated as a push, S_DS 0.8: 0.16 x 500 = 80. 600+80+300+50 = 1,030;
    450-80+300 = 670; of it earthquake 380 and 220. What stays is 600.
    """
    earthquake = (-300.0, 120.0, 0, 0, 0, 0)
    verdicts = checked(
        hangs={"dead": 400.0, "contents": 100.0, "live": 50.0, "earthquake": earthquake, "s_ds": 0.8},
        bases={"category": 3},
        fixings={"tension_option": 3, "shear_option": 2},
    )
    found = tensions(verdicts)
    demand = record_of(verdicts, AnchorDemand)
    names = list(found)
    for name, total, quake in (
        ("1.2D+Ev+Eh+L", 1_030.0, 380.0),
        ("1.2D+Ev+Eh+L, earthquake reversed", 1_030.0, 380.0),
        ("0.9D-Ev+Eh", 670.0, 220.0),
    ):
        assert found[name] == pytest.approx(total)
        assert demand.n_further_e[names.index(name)] == pytest.approx(quake)
    assert demand.n_ua_s[names.index("1.2D+Ev+Eh+L")] == pytest.approx(600)
    shear = record_of(verdicts, AnchorShear)
    assert shear.v_ua_x[names.index("0.9D-Ev+Eh")] == pytest.approx(120)
    assert shear.v_ua_x[names.index("0.9D-Ev+Eh, earthquake reversed")] == pytest.approx(-120)
    assert shear.v_ua_e[names.index("0.9D-Ev+Eh")] == pytest.approx(120)


def test_earthquake_reaches_the_seismic_rules():
    """1,030 lb in category D, 380 of it earthquake, more than 20 %: 0.75 on breakout, and the option is asked for."""
    tables = {
        "hangs": {"dead": 400.0, "contents": 100.0, "live": 50.0, "earthquake": (300.0, 0, 0, 0, 0, 0), "s_ds": 0.8},
        "bases": {"category": 3},
    }
    assert checked(**tables).refusal[0] >= 0
    allowed = checked(**tables, fixings={"tension_option": 3})
    assert allowed.refusal[0] == -1
    mode = mode_of(allowed, Mode.CONCRETE_BREAKOUT_TENSION)
    assert mode.record.seismic_factor[mode.row[0]] == 0.75


def test_the_test_fluid_takes_the_place_of_the_contents():
    """Steam line, D 300, contents 5, test water 250 lb: 1.4 x 550 = 770; without it 1.4 x 305 = 427."""
    found = tensions(checked(hangs={"dead": 300.0, "contents": 5.0, "transient": transient(test=250.0)}))
    assert found["1.4D with the test fluid"] == pytest.approx(770)
    assert found["1.4D"] == pytest.approx(427)


def test_thermal_thrust_stays():
    """D 300, T 200 lb: 360+240 = 600, all of it sustained; alone 420."""
    verdicts = checked(hangs={"dead": 300.0, "transient": transient(thermal=200.0)})
    found, demand = tensions(verdicts), record_of(verdicts, AnchorDemand)
    assert found["1.2D+1.2T"] == pytest.approx(600)
    assert demand.n_ua_s[list(found).index("1.2D+1.2T")] == pytest.approx(600)
    assert found["1.4D"] == pytest.approx(420)


def test_a_stated_sprinkler_rule_is_a_case_of_its_own():
    """A rod of a shared trapeze: rule 1,474 lb, D 245 and L 250: 1,474 and 1.2x245+1.6x250 = 694, never added."""
    found = tensions(checked(hangs={"dead": 245.0, "live": 250.0, "transient": transient(sprinkler_rule=1_474.0)}))
    assert found["sprinkler rule as stated"] == pytest.approx(1_474)
    assert found["1.2D+1.6L"] == pytest.approx(694)
    assert max(found.values()) == pytest.approx(1_474)


def test_wind_uplift_on_a_hanging_point_pushes():
    """D 100 and W -300 lb: 0.9 x 100 - 300 = -210, which chapter 17 doesn't cover: refused, not passed."""
    assert checked(hangs={"dead": 100.0, "transient": transient(wind=-300.0)}).refusal[0] >= 0


def test_the_service_load_of_the_rod():
    """D 400, L 100, S 200 lb: D + .75 L + .75 S = 625 and D + S = 600. With E 300 and S_DS 1: 400 + .14 x 400 + 210 is
    666, but 400 + .105 x 400 + 157.5 + 75 + 150 = 824.5.
    """
    for earthquake, s_ds, demand in (((0.0,) * 6, 0.0, 625.0), ((300.0, 0, 0, 0, 0, 0), 1.0, 824.5)):
        verdicts = checked(
            hangs={
                "dead": 400.0,
                "live": 100.0,
                "transient": transient(snow=200.0),
                "earthquake": earthquake,
                "s_ds": s_ds,
            },
            rods={"rule": RULE_NAMES.index("sp58_allowable")},
            fixings={"tension_option": 3},
        )
        assert mode_of(verdicts, Mode.ROD_ALLOWABLE).demand[0] == pytest.approx(demand)


def test_moments_of_wind_and_earthquake_share_among_two_anchors():
    """Two anchors 6 in apart on x, D 600 lb, M_y of wind 1,200 and of E 600 lb*in, S_DS 0: 0.9 x 600 / 2 = 270 each,
    and 1,200 / 6 = 200: 470 and 70. Earthquake either way: 360 / 2 ... 1.2 x 600 / 2 = 360 +- 100.
    """
    verdicts = checked(
        basis=SERVICE_LOADS,
        hangs={
            "dead": 600.0,
            "transient": transient(wind=(0, 0, 0, 0, 1_200.0, 0)),
            "earthquake": (0, 0, 0, 0, 600.0, 0),
        },
        layouts=PAIR,
        fixings={"tension_option": 3},
    )
    names = [verdicts.case_names[case] for case in verdicts.axis.load_case]
    anchors = verdicts.anchors
    for name, expected in (
        ("0.9D+1.0W", [470, 70]),
        ("1.2D+Ev+Eh", [460, 260]),
        ("1.2D+Ev+Eh, earthquake reversed", [260, 460]),
    ):
        own = anchors.n_ua[anchors.case == names.index(name)]
        assert own.tolist() == pytest.approx(expected)


def test_the_trace_has_a_section_for_each_component():
    """Wind with tension and shear along y: two sections, none for the rest."""
    verdicts = checked(hangs={"dead": 100.0, "transient": transient(wind=(300.0, 0, 40.0, 0, 0, 0))})
    rows = [
        (s.record.component[s.row[0]])
        for s in verdicts.sections
        if isinstance(s.record, FurtherForce) and s.row[0] >= 0
    ]
    assert rows == [0, 2]


def test_a_tested_run_of_pipe():
    """4 in schedule 10 steel, 4.5 x .120 in, holding gas and tested with water, 12 ft by tributary length: pi x 4.38 x
    .12 x 490 / 144 = 5.6187 lb/ft dead, pi / 4 x 4.26^2 x 62.4 / 144 = 6.1764 of water: 1.4 x 12 x 11.795 = 198.2 lb.
    """
    run = {"rho_contents": 0.5, "rho_test": 62.4}
    found = tensions(checked(hangs={"kind": PIPE}, runs=[run]))
    assert found["1.4D with the test fluid"] == pytest.approx(198.2, abs=0.05)
    assert found["1.4D"] == pytest.approx(1.4 * 12 * (5.6187 + 6.1764 * 0.5 / 62.4), abs=0.05)


def test_the_vertical_effect_acts_without_a_horizontal_one():
    """D 400 and contents 100 lb, S_DS 2: (1.2 + 0.4) x 500 = 800, above 1.4 x 500; (0.9 - 0.4) x 500 = 250."""
    found = tensions(checked(hangs={"dead": 400.0, "contents": 100.0, "s_ds": 2.0}, fixings={"tension_option": 3}))
    assert found["1.2D+Ev+Eh"] == pytest.approx(800)
    assert found["0.9D-Ev+Eh"] == pytest.approx(250)
    assert max(found.values()) == pytest.approx(800)


@pytest.mark.parametrize(
    ("dead", "contents", "quake", "s_ds", "v", "v_e"),
    [
        (1_000.0, -700.0, 1.0, 2.0, 1_601.0, 401.0),
        (100.0, -60.0, 500.0, 1.0, 640.0, 520.0),
        (100.0, 60.0, 0.0, 1.0, 224.0, 32.0),
    ],
)
def test_the_vertical_effect_on_contents_comes_and_goes_with_them(dead, contents, quake, s_ds, v, v_e):
    """Shear, 1.2 D + 0.2 S_DS D + E without contents, where they relieve: 1,200 + 400 + 1 and 120 + 20 + 500 lb.

    With contents, where they add: 1.2 x 160 + 0.2 x 160 lb.
    """
    verdicts = checked(
        hangs={
            "dead": 10.0,
            "v_dead": (dead, 0.0),
            "v_contents": (contents, 0.0),
            "earthquake": (0, quake, 0, 0, 0, 0),
            "s_ds": s_ds,
        }
    )
    names = [verdicts.case_names[case] for case in verdicts.axis.load_case]
    shear, place = record_of(verdicts, AnchorShear), names.index("1.2D+Ev+Eh")
    assert shear.v_ua[place] == pytest.approx(v)
    assert shear.v_ua_e[place] == pytest.approx(v_e)
