"""Why a mode does not apply to a point: every reason of the closed list, and what makes the mode apply instead."""

import numpy as np
import pytest

from core.builders import ADHESIVE_ROD, FACTORED_LOADS, HEADED_BOLT, HEADED_FASTENER, IN_FLUTE, INF, rod
from core.hang_point.verdicts import REASONS, checked, mode_of, refusal_of
from hangpoint.core.aci318_19.pullout import HOOKED
from hangpoint.core.hang_point.allowables import MASONRY_BOLT
from hangpoint.core.hang_point.scope import ACCEPTED
from hangpoint.core.hang_point.surroundings import DECK
from hangpoint.core.vocabulary import Inapplicable, Mode

PULLED = {"hangs": {"dead": 100.0}}
SHEARED = {"hangs": {"dead": 100.0, "v_dead": (-100.0, 0.0)}}
PULLED_BY_EARTHQUAKE = {"hangs": {"dead": 100.0, "earthquake": (50.0, 0, 0, 0, 0, 0)}}
SHAKEN = {"hangs": {"dead": 100.0, "earthquake": (50.0, 50.0, 0, 0, 0, 0)}}
EDGE = {"bases": {"c_a": [[6.0, INF, INF, INF]]}}
BARS_N = {"bases": {"a_s_n": 0.2, "f_y_n": 60_000.0}}
BARS_V = {"bases": {"c_a": [[6.0, INF, INF, INF]], "a_s_v": 0.2, "f_y_v": 60_000.0}}
PASSING = {"basis": FACTORED_LOADS, "hangs": {"factored": 100.0, "sustained_fraction": 0.0}, "products": ADHESIVE_ROD}
STAYING = {"basis": FACTORED_LOADS, "hangs": {"factored": 100.0, "sustained_fraction": 0.1}, "products": ADHESIVE_ROD}
PAIR = {"layouts": [{"x": -4.0}, {"x": 4.0}]}
SLID = {"hangs": {"v_dead": (100.0, 0.0)}}
TWISTED = {"hangs": {"dead": 100.0, "m_dead": (50.0, 0.0, 0.0)}}
"""About the line through two anchors, which resist no such moment."""
SPUN = {"hangs": {"dead": 100.0, "m_dead": (0.0, 0.0, 50.0)}, "layouts": [{"x": 1.0}]}
"""Torsion on a single anchor."""
DECKED = {"decks": IN_FLUTE, "surroundings": {"kind": DECK}}
DEEP_BOLT = HEADED_BOLT | {"h_ef": 7.0, "h_min": 9.0}

BOLT = PULLED | {"products": HEADED_BOLT, "allowables": {"method": MASONRY_BOLT}}

EN = {"fasteners": {}}
STOOD_OFF = {"fixings": {"gap": 0.5, "thickness": 0.25}}
EN_BONDED = {"fasteners": {"bonded": True, "tau_cr": 8.0, "tau_ucr": 15.0}}
EN_HEADED = {"fasteners": HEADED_FASTENER}


def en_edge(inches):
    """One edge so far below along x."""
    return {"bases": {"c_a": [[inches, INF, INF, INF]]}}


REASONED = [
    (Inapplicable.EN_NO_TENSION, Mode.EN_CONE, EN | SLID | PAIR, EN | PULLED | PAIR),
    (
        Inapplicable.EN_PULL_OUT,
        Mode.EN_PULL_OUT,
        PULLED | {"fasteners": {"n_rk_p_cr_state": 2}},
        PULLED | {"fasteners": {"n_rk_p_cr_state": 2}, "bases": {"cracked": False}},
    ),
    (Inapplicable.EN_BONDED, Mode.EN_PULL_OUT, EN_BONDED | PULLED, EN | PULLED),
    (Inapplicable.EN_NOT_BONDED, Mode.EN_COMBINED, EN | PULLED, EN_BONDED | PULLED),
    (Inapplicable.EN_NO_TENSION, Mode.EN_COMBINED, EN_BONDED | SLID | PAIR, EN_BONDED | PULLED | PAIR),
    (
        Inapplicable.EN_NO_SPLITTING,
        Mode.EN_SPLITTING,
        EN | PULLED | en_edge(6.51),
        EN | PULLED | en_edge(6.49),
    ),  # 165.1
    (
        Inapplicable.EN_SPLITTING_BARS,
        Mode.EN_SPLITTING,
        PULLED | en_edge(6.0) | {"fasteners": {"splitting_bars": True}},
        PULLED | en_edge(6.0) | EN,
    ),
    (Inapplicable.EN_NOT_HEADED, Mode.EN_BLOW_OUT, EN | PULLED | en_edge(1.5), EN_HEADED | PULLED | en_edge(1.5)),
    # 82.55 / 2 = 41.275 mm
    (
        Inapplicable.EN_NO_BLOW_OUT,
        Mode.EN_BLOW_OUT,
        EN_HEADED | PULLED | en_edge(1.63),
        EN_HEADED | PULLED | en_edge(1.62),
    ),
    (Inapplicable.EN_NO_SHEAR, Mode.EN_PRY_OUT, EN | PULLED, EN | SHEARED),
    (Inapplicable.EN_NO_SHEAR, Mode.EN_STEEL_SHEAR, EN | PULLED, EN | SHEARED),
    # the larger of 10 x 82.55 and 60 x 12.7 = 825.5 mm = 32.5 in
    (Inapplicable.EN_NO_EDGE, Mode.EN_EDGE, EN | SHEARED | en_edge(32.51), EN | SHEARED | en_edge(32.49)),
    (Inapplicable.EN_NO_SHEAR, Mode.EN_LEVER_ARM, EN | PULLED | STOOD_OFF, EN | SHEARED | STOOD_OFF),
    (Inapplicable.EN_NO_LEVER_ARM, Mode.EN_LEVER_ARM, EN | PULLED, EN | SHEARED | STOOD_OFF),
    (Inapplicable.EN_NO_LEVER_ARM, Mode.EN_LEVER_ARM, EN | SHEARED, EN | SHEARED | STOOD_OFF),
    (Inapplicable.EN_LEVER_ARM, Mode.EN_STEEL_SHEAR, EN | SHEARED | STOOD_OFF, EN | SHEARED),
    (Inapplicable.EN_LEVER_ARM, Mode.EN_STEEL_INTERACTION, EN | SHEARED | STOOD_OFF, EN | SHEARED),
    (Inapplicable.EN_ONE_DIRECTION, Mode.EN_STEEL_INTERACTION, EN | PULLED, EN | SHEARED),
    (Inapplicable.EN_ONE_DIRECTION, Mode.EN_CONCRETE_INTERACTION, EN | SLID, EN | SHEARED),
    (Inapplicable.EN_NO_EARTHQUAKE, Mode.EN_SEISMIC_INTERACTION, EN | SHEARED, EN | SHAKEN),
    (Inapplicable.EN_ONE_DIRECTION, Mode.EN_SEISMIC_INTERACTION, EN | PULLED_BY_EARTHQUAKE, EN | SHAKEN),
    (Inapplicable.EN_BY_EARTHQUAKE, Mode.EN_STEEL_INTERACTION, EN | SHAKEN, EN | SHEARED),
    (Inapplicable.EN_BY_EARTHQUAKE, Mode.EN_CONCRETE_INTERACTION, EN | SHAKEN, EN | SHEARED),
    (Inapplicable.NO_BALANCE, Mode.EN_PRY_OUT, EN | SPUN, EN | SHEARED),
    (
        Inapplicable.NOT_BENT,
        Mode.MASONRY_PULLOUT,
        BOLT,
        BOLT | {"products": HEADED_BOLT | {"pullout_method": HOOKED, "e_h": 2.0}},
    ),
    (Inapplicable.OTHER_METHOD, Mode.STEEL_TENSION, BOLT, PULLED),
    (Inapplicable.OTHER_METHOD, Mode.TABLE_TENSION, BOLT, PULLED | {"allowables": {}}),
    (Inapplicable.NO_ROD, Mode.ROD_ALLOWABLE, PULLED, PULLED | {"rods": rod("sp58_allowable")}),
    (Inapplicable.NO_ROD, Mode.ROD_STRENGTH, PULLED, PULLED | {"rods": rod("tensile_strength")}),
    (
        Inapplicable.OTHER_ROD_RULE,
        Mode.ROD_STRENGTH,
        PULLED | {"rods": rod("sp58_allowable")},
        PULLED | {"rods": rod("tensile_strength")},
    ),
    (
        Inapplicable.FACTORED_LOADS,
        Mode.ROD_ALLOWABLE,
        {"basis": FACTORED_LOADS, "hangs": {"factored": 100.0}, "rods": rod("sp58_allowable")},
        PULLED | {"rods": rod("sp58_allowable")},
    ),
    (
        Inapplicable.PULLOUT_NOT_GOVERNING,
        Mode.PULLOUT,
        PULLED | {"products": {"n_p_cr_state": 2}},
        PULLED | {"products": {"n_p_cr_state": 2}, "bases": {"cracked": False}},
    ),
    (Inapplicable.ADHESIVE, Mode.PULLOUT, PULLED | {"products": ADHESIVE_ROD}, PULLED),
    (Inapplicable.NOT_HEADED, Mode.SIDE_FACE_BLOWOUT, PULLED | EDGE, None),
    (
        Inapplicable.NO_SHALLOW_EDGE,  # 7 / 2.5 = 2.8 in
        Mode.SIDE_FACE_BLOWOUT,
        PULLED | {"products": DEEP_BOLT, "bases": {"c_a": [[2.81, INF, INF, INF]]}},
        PULLED | {"products": DEEP_BOLT, "bases": {"c_a": [[2.79, INF, INF, INF]]}},
    ),
    (Inapplicable.NOT_ADHESIVE, Mode.ADHESIVE_BOND, PULLED, PULLED | {"products": ADHESIVE_ROD}),
    (Inapplicable.NOT_ADHESIVE, Mode.SUSTAINED_BOND, PULLED, PULLED | {"products": ADHESIVE_ROD}),
    (Inapplicable.NOT_SUSTAINED, Mode.SUSTAINED_BOND, PASSING, STAYING),
    (Inapplicable.NO_TENSION, Mode.CONCRETE_BREAKOUT_TENSION, SLID | PAIR, PULLED | PAIR),
    (
        Inapplicable.NO_TENSION,
        Mode.ADHESIVE_BOND,
        SLID | PAIR | {"products": ADHESIVE_ROD},
        PULLED | PAIR | {"products": ADHESIVE_ROD},
    ),
    (Inapplicable.NO_BALANCE, Mode.STEEL_TENSION, TWISTED | PAIR, PULLED | PAIR),
    (Inapplicable.NO_BALANCE, Mode.PRYOUT, SPUN, SHEARED),
    (Inapplicable.NO_SHEAR, Mode.STEEL_SHEAR, PULLED, SHEARED),
    (Inapplicable.NO_SHEAR, Mode.PRYOUT, PULLED, SHEARED),
    (Inapplicable.NO_SHEAR, Mode.CONCRETE_BREAKOUT_SHEAR, PULLED | EDGE, SHEARED | EDGE),
    (Inapplicable.NO_SHEAR, Mode.REINFORCEMENT_SHEAR, PULLED | BARS_V, SHEARED | BARS_V),
    (Inapplicable.NO_EDGE_SHEARED, Mode.CONCRETE_BREAKOUT_SHEAR, SHEARED, SHEARED | EDGE),
    (
        Inapplicable.NO_EDGE_SHEARED,
        Mode.CONCRETE_BREAKOUT_SHEAR,  # away from the only edge
        {"hangs": {"v_dead": (100.0, 0.0)}} | EDGE,
        {"hangs": {"v_dead": (100.0, 0.1)}} | EDGE,
    ),
    (Inapplicable.REINFORCED, Mode.CONCRETE_BREAKOUT_TENSION, PULLED | BARS_N, PULLED),
    (Inapplicable.REINFORCED, Mode.CONCRETE_BREAKOUT_SHEAR, SHEARED | BARS_V, SHEARED | EDGE),
    (Inapplicable.NOT_REINFORCED, Mode.REINFORCEMENT_TENSION, PULLED, PULLED | BARS_N),
    (Inapplicable.NOT_REINFORCED, Mode.REINFORCEMENT_SHEAR, SHEARED | EDGE, SHEARED | BARS_V),
    (Inapplicable.IN_DECK, Mode.CONCRETE_BREAKOUT_TENSION, PULLED | DECKED, PULLED),
    (Inapplicable.IN_DECK, Mode.CONCRETE_BREAKOUT_SHEAR, SHEARED | EDGE | DECKED, SHEARED | EDGE),
    (Inapplicable.IN_DECK, Mode.PRYOUT, SHEARED | DECKED, SHEARED),
    (Inapplicable.NO_SHEAR, Mode.PRYOUT, PULLED | DECKED, SHEARED),
    (Inapplicable.ONE_DIRECTION, Mode.INTERACTION, PULLED, SHEARED),
    (Inapplicable.ONE_DIRECTION, Mode.INTERACTION, {"hangs": {"v_dead": (100.0, 0.0)}}, SHEARED),
]


def test_every_reason_is_tried():
    """All but the one of a rod that is pushed: such a point is refused, and has its test below."""
    assert {reason for reason, *_ in REASONED} == set(Inapplicable) - {Inapplicable.PUSHED}


@pytest.mark.parametrize(
    ("reason", "mode", "without", "having"), REASONED, ids=lambda part: getattr(part, "name", None)
)
def test_reason(reason, mode, without, having):
    verdicts = checked(**without)
    found = mode_of(verdicts, mode)
    assert verdicts.refusal[0] == ACCEPTED
    assert not found.applies[0]
    assert REASONS[found.reason[0]] is reason
    assert found.design_strength[0] == found.demand[0] == found.utilisation[0] == 0.0
    if having is not None:
        verdicts = checked(**having)
        assert verdicts.refusal[0] == ACCEPTED
        assert mode_of(verdicts, mode).applies[0]


def test_a_rod_that_is_pushed():
    verdicts = checked(hangs={"dead": -10.0}, rods=rod("sp58_allowable"))
    found = mode_of(verdicts, Mode.ROD_ALLOWABLE)
    assert refusal_of(verdicts) is not None
    assert not found.applies[0]
    assert REASONS[found.reason[0]] is Inapplicable.PUSHED


@pytest.mark.parametrize(
    ("mode", "tables", "reason"),
    [
        (Mode.CONCRETE_BREAKOUT_SHEAR, {}, Inapplicable.NO_EDGE_SHEARED),
        (Mode.CONCRETE_BREAKOUT_SHEAR, BARS_V, Inapplicable.REINFORCED),
        (Mode.REINFORCEMENT_SHEAR, {}, Inapplicable.NOT_REINFORCED),
    ],
)
def test_the_reason_is_that_of_the_cases_with_shear(mode, tables, reason):
    """Live shear alone: none in 1.4D, some in 1.2D + 1.6L. That the point has no shear would be wrong."""
    verdicts = checked(hangs={"dead": 100.0, "v_live": (-100.0, 0.0)}, **tables)
    assert mode_of(verdicts, Mode.STEEL_SHEAR).applies[0]
    assert REASONS[mode_of(verdicts, mode).reason[0]] is reason


def test_reasons_differ_from_point_to_point():
    """Of one batch each point keeps its own, beside points that have the mode."""
    verdicts = checked(
        hangs={"dead": 100.0, "v_dead": [(0.0, 0.0), (-100.0, 0.0), (-100.0, 0.0), (-100.0, 0.0)]},
        bases={
            "c_a": [[6.0, INF, INF, INF], [INF, INF, INF, INF], [6.0, INF, INF, INF], [6.0, INF, INF, INF]],
            "a_s_v": [0.0, 0.0, 0.2, 0.0],
            "f_y_v": 60_000.0,
        },
    )
    found = mode_of(verdicts, Mode.CONCRETE_BREAKOUT_SHEAR)
    np.testing.assert_array_equal(found.applies, [False, False, False, True])
    assert [REASONS[found.reason[row]] for row in range(3)] == [
        Inapplicable.NO_SHEAR,
        Inapplicable.NO_EDGE_SHEARED,
        Inapplicable.REINFORCED,
    ]
    np.testing.assert_array_equal(found.edge, [-1, -1, -1, 0])
