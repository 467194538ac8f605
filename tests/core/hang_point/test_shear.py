"""Shear in the chain: from loads by nature to the anchor, and what the attachment does. By hand, anchors invented."""

import numpy as np
import pytest

from core.builders import FACTORED_LOADS, HEADED_BOLT, INF
from core.hang_point.verdicts import checked, found_on, mode_of
from hangpoint.core.hang_point.demand import AnchorShear
from hangpoint.core.vocabulary import Finding, Mode

EDGE = Mode.CONCRETE_BREAKOUT_SHEAR


def shear_of(verdicts):
    return next(section.record for section in verdicts.sections if isinstance(section.record, AnchorShear))


def test_combinations():
    """D (300, -40), L (100, 200): 1.4D (420, -56), 423.717; 1.2D + 1.6L (360 + 160, -48 + 320), 586.842."""
    verdicts = checked(hangs={"dead": 1.0, "v_dead": (300.0, -40.0), "v_live": (100.0, 200.0)})
    record = shear_of(verdicts)
    np.testing.assert_allclose(record.v_ua_x, [420, 520], rtol=1e-14)
    np.testing.assert_allclose(record.v_ua_y, [-56, 272], rtol=1e-14)
    np.testing.assert_allclose(record.v_ua, [423.717, 586.842], atol=5e-4)
    assert verdicts.demand.shear[0] == pytest.approx(586.842, abs=5e-4)
    assert mode_of(verdicts, Mode.STEEL_SHEAR).demand[0] == pytest.approx(586.842, abs=5e-4)


def test_given_shear():
    """As given; a share of .6 of a shear of 500 is earthquake."""
    verdicts = checked(basis=FACTORED_LOADS, hangs={"v_factored": (300.0, -400.0), "earthquake_fraction_v": 0.6})
    record = shear_of(verdicts)
    assert (record.v_ua_x[0], record.v_ua_y[0], record.v_ua[0], record.v_ua_e[0]) == (300.0, -400.0, 500.0, 300.0)


@pytest.mark.parametrize(
    ("dead", "contents", "shear", "either"),
    [
        (100.0, 50.0, 210.0, False),  # both ways alike: full
        (100.0, -50.0, 140.0, False),  # contents relieve, and may be absent
        (100.0, -100.0, 140.0, False),  # to nothing
        (100.0, -150.0, 140.0, True),  # full: -70, the other way
        (100.0, -300.0, -280.0, True),  # full: 1.4 x (100 - 300)
        (-100.0, 300.0, 280.0, True),
        (0.0, -300.0, -420.0, False),  # contents alone
    ],
)
def test_contents_that_push_against_the_rest(dead, contents, shear, either):
    """1.4D by hand, of an empty and of a full pipe: the larger counts."""
    verdicts = checked(hangs={"v_dead": (dead, 0.0), "v_contents": (contents, 0.0)})
    record = shear_of(verdicts)
    assert record.v_ua_x[0] == pytest.approx(shear)
    assert record.v_ua[0] == pytest.approx(abs(shear))
    assert bool(record.either_x[0]) is either
    assert not record.either_y.any()


def test_contents_that_turn_the_shear_around_are_checked_at_both_edges():
    """Empty 140 towards x_plus, full 280 towards x_minus: 280 at either edge, whichever is nearer."""
    loads = {"v_dead": (100.0, 0.0), "v_contents": (-300.0, 0.0)}
    for near, edge in (((4.0, 20.0, INF, INF), 0), ((20.0, 4.0, INF, INF), 1)):
        found = mode_of(checked(hangs=loads, bases={"c_a": [near]}), EDGE)
        assert found.edge[0] == edge
        assert found.demand[0] == pytest.approx(280.0)
    relieved = loads | {"v_contents": (-50.0, 0.0)}
    found = mode_of(checked(hangs=relieved, bases={"c_a": [(4.0, 20.0, INF, INF)]}), EDGE)
    assert found.edge[0] == 1  # it never acts towards x_minus


WELD = {"welded": True, "thickness": 0.5}
SHEARED = {"v_dead": (-100.0, 0.0)}
ONE_EDGE = {"c_a": [(4.0, INF, INF, INF)]}
THIN_BOLT = HEADED_BOLT | {"d_a": 0.5}
"""8 x 8^.2 x sqrt(.5) = 8.574: the limit of 9 stays out of the way."""


def edge_strength(**tables):
    return mode_of(checked(hangs=SHEARED, **({"bases": ONE_EDGE} | tables)), EDGE).design_strength[0]


def test_the_coefficient_of_welded_anchors():
    """8 in place of 7 (17.7.2.2.2) cast in and welded to thick steel; post-installed anchors are never welded so."""
    bolt = edge_strength(products=THIN_BOLT)
    assert edge_strength(products=THIN_BOLT, fixings=WELD) == pytest.approx(8 / 7 * bolt)
    assert edge_strength(products=THIN_BOLT, fixings=WELD | {"thickness": 0.374}) == bolt
    assert edge_strength(products=THIN_BOLT, fixings={"welded": True}) == bolt
    post_installed = edge_strength()
    assert edge_strength(fixings=WELD) == post_installed
    assert Finding.WELDED_STEEL_THIN not in found_on(checked(hangs=SHEARED, fixings={"welded": True}))


def test_the_coefficient_at_a_corner():
    """A second edge within 1.5 x 6 = 9 in: 7, and it is said; beyond: 8."""
    for second, factor, said in ((8.9, 1.0, True), (9.1, 8 / 7, False)):
        bases = {"c_a": [(10.0, INF, second, INF)]}
        bolt, welded = (
            checked(hangs=SHEARED, products=THIN_BOLT, bases=bases, fixings=fixings) for fixings in ({}, WELD)
        )
        strengths = [mode_of(each, EDGE).design_strength[0] for each in (bolt, welded)]
        assert strengths[1] == pytest.approx(factor * strengths[0])
        assert (Finding.WELDED_NEAR_CORNER in found_on(welded)) is said
        assert Finding.WELDED_NEAR_CORNER not in found_on(bolt)


def test_two_edges_that_face_each_other_make_no_corner():
    """Along one axis only: 8 at either, and nothing to be said."""
    strengths = []
    for fixings in ({}, WELD):
        bases = {"c_a": [(4.0, 5.0, INF, INF)]}
        verdicts = checked(hangs=SHEARED, products=THIN_BOLT, bases=bases, fixings=fixings)
        assert Finding.WELDED_NEAR_CORNER not in found_on(verdicts)
        strengths.append(mode_of(verdicts, EDGE).design_strength[0])
    assert strengths[1] == pytest.approx(8 / 7 * strengths[0])


@pytest.mark.parametrize(
    ("products", "category", "strength"),
    [
        ({}, 0, 0.65 * 6_000),
        ({}, 1, 0.65 * 6_000),
        ({}, 2, 0.65 * 5_000),  # V_sa,eq, under gravity alone
        ({"v_sa_tested": False}, 1, 0.65 * 0.6 * 0.1 * 106_000),
        ({"v_sa_tested": False}, 2, 0.65 * 5_000),
        ({"ductile": False}, 0, 0.60 * 6_000),
        (HEADED_BOLT, 2, 0.65 * 0.6 * 0.226 * 58_000),
        (HEADED_BOLT | {"welded_stud": True}, 2, 0.65 * 0.226 * 58_000),
    ],
)
def test_steel(products, category, strength):
    """17.7.1.2, and 17.10.3 with reading 5 for post-installed anchors; a grout pad takes a fifth (17.7.1.2.1)."""
    for pad, factor in ((False, 1.0), (True, 0.8)):
        verdicts = checked(hangs=SHEARED, products=products, bases={"category": category}, fixings={"grout_pad": pad})
        assert mode_of(verdicts, Mode.STEEL_SHEAR).design_strength[0] == pytest.approx(factor * strength)


def test_options_reach_the_anchor():
    """Oblique shear at an edge and the interaction by their options; the ratios are worked in tests of the modes."""
    hangs = {"dead": 1_000.0, "v_dead": (-600.0, 800.0)}
    combined = [
        mode_of(checked(hangs=hangs, bases=ONE_EDGE, fixings={"oblique": way}), EDGE).utilisation[0]
        for way in (0, 1, 2)
    ]
    assert combined[1] < combined[0] < combined[2]
    record = mode_of(checked(hangs=hangs, bases=ONE_EDGE), EDGE).record
    assert combined == pytest.approx(
        [
            np.hypot(record.r_towards[0], record.r_along[0]),
            max(record.r_towards[0], record.r_along[0]),
            record.r_towards[0] + record.r_along[0],
        ]
    )
    lines, powers = (
        mode_of(checked(hangs=hangs, fixings={"power": power}), Mode.INTERACTION) for power in (False, True)
    )
    n, v = lines.record.r_n[0], lines.record.r_v[0]
    assert lines.utilisation[0] == pytest.approx(max((n + v) / 1.2, n, v))
    assert powers.utilisation[0] == pytest.approx((n ** (5 / 3) + v ** (5 / 3)) ** 0.6)
