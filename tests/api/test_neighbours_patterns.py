"""Loads that come and go at one of two near points and not at the other, by hand. Anchors are invented.

Headed bolts 3/4 in, h_ef 6 in, f'c 4,000 psi, cracked: N_b = 24 sqrt(4,000) 6^1.5, phi 0.70 (17.6.2.2.1, 17.5.3).
"""

import math
import random

import pytest

from api.test_earthquake_as_given import FAR, PAIR, ask, codes, point

__all__ = ["ask"]

ALONE = 0.7 * 24 * math.sqrt(4000) * 6**1.5
AT_ANGLES = ALONE * (2 * 18 * 18 - 6 * 6) / (18 * 18)
"""Two, 12 in apart along x and along y: A_Nc is two squares of 18 in, of which 6 x 6 in lie on each other."""


def eccentric(one, other):
    """Use of two at angles by their tensions: psi_ec,N along both axes (17.6.2.3.1)."""
    off = 6 * abs(one - other) / (one + other)
    return (one + other) / AT_ANGLES * (1 + off / 9) ** 2


def forces(**natures):
    return {"components": [{"nature": nature, **parts} for nature, parts in natures.items()]}


def at_angles(ask, *hangs, **top):
    places = ({"level": "L1", "x": 0, "y": 0}, {"level": "L1", "x": 1, "y": 1})
    items = [point(f"P{at}", own) | {"at": places[at]} for at, own in enumerate(hangs)]
    return list(ask(*items, combinations="strength", **top).values())


def breakout(result):
    return next(m["utilisation"] for m in result["modes"] if m["mode"] == "concrete_breakout_tension")


def told(result):
    return {code: each.get("value") for code, each in codes(result).items() if code.startswith("loads-")}


@pytest.mark.parametrize(
    ("natures", "full", "empty", "status"),
    [
        ({"contents": 4000}, 1.4 * 4100, 140, "passed"),
        ({"contents": 8000}, 1.4 * 8100, 140, "failed"),
        ({"contents": 2000, "live": 3000}, 1.2 * 2100 + 1.6 * 3000, 120, "passed"),
        ({"contents": 2000, "live": 5600}, 1.2 * 2100 + 1.6 * 5600, 120, "failed"),
        ({"snow": 4000}, 120 + 1.6 * 4000, 120, "passed"),
        ({"snow": 7000}, 120 + 1.6 * 7000, 120, "failed"),
        ({"live": 5600, "wind": 5600}, 120 + 2 * 5600, 120, "failed"),
    ],
)
def test_one_empty_beside_a_full_one(ask, natures, full, empty, status):
    """Contents of 8,000 lb at both use 0.77 of the concrete, and one of them beside an empty one 1.06. Only the former
    was looked at, and nothing told: of two that are only pulled the sum was taken to be the worst, which holds along
    one axis.
    """
    own = forces(dead={"tension": 100}, **{nature: {"tension": load} for nature, load in natures.items()})
    value = eccentric(full, empty)
    code = "loads-in-pattern" + ("" if status == "failed" else "-holds")
    for each in at_angles(ask, own, own):
        assert told(each) == {code: pytest.approx(value, rel=1e-9)}
        assert each["status"] == status
        assert breakout(each) == pytest.approx(2 * full / AT_ANGLES, rel=1e-9)


@pytest.mark.parametrize(("times", "status"), [(0.9, "passed"), (1, "failed")])
def test_a_live_load_that_relieves_a_near_point(ask, times, status):
    """Two 5 in apart along an edge, dead load towards it of 100 and 2,000 lb, live load of 3,000 lb towards it at the
    one and 2,000 lb away at the other. With 1.2D at both and 1.6L at the one they push by 4,920 and 2,400 lb, 1.07 of
    the concrete; with 1.6L at both only the one pushes, 0.84.
    """
    items = []
    for place, (dead, live) in enumerate(((100, 3000), (2000, -2000))):
        own = forces(dead={"tension": 1, "shear_x": dead * times}, live={"shear_x": live * times})
        at = {"level": "L1", "x": 0, "y": place * 5 / 12}
        items.append(point(f"P{place}", own, base__edges=FAR | {"x_plus": 6}) | {"at": at})
    found = ask(*items, combinations="strength").values()
    off = 2.5 * (4920 - 2400) / 7320
    value = 7320 * times / PAIR * (1 + off / 9)
    for each in found:
        assert each["status"] == status
        code = "loads-in-pattern" + ("-holds" if status == "passed" else "")
        assert told(each) == {code: pytest.approx(value, rel=1e-9)}


def test_pipes_of_which_one_is_empty(ask):
    """As above, of what the answer says that the runs weigh."""
    pipe = {"kind": "pipe", "size": "8", "schedule": "40", "contents": "water", "material": "steel", "sprinkler": False}
    found = at_angles(ask, *[pipe | {"run": {"spans": [14, 14], "support": 1}}] * 2)
    dead, contents = (found[0]["demand"][name] for name in ("dead", "contents"))
    assert contents > 300
    value = eccentric(1.4 * (dead + contents), 1.4 * dead)
    assert [told(each) for each in found] == [{"loads-in-pattern-holds": pytest.approx(value, rel=1e-9)}] * 2


def test_dead_load_and_loads_as_given_have_no_pattern(ask):
    own = forces(dead={"tension": 4100})
    assert [told(each) for each in at_angles(ask, own, own)] == [{}, {}]
    items = [point(f"P{at}", own, at__x=at, at__y=at) for at in (0, 1)]
    assert [told(each) for each in ask(*items).values()] == [{}, {}]


def test_patterns_in_all_senses_of_earthquake(ask):
    """Two 5 in apart along an edge 6 in away: earthquake of 1,000 lb towards it at the one and 900 lb away at the
    other, live load of 2,000 lb towards it at the one and of 1,500 lb away at the other.

    Worst is 1.2D + E + L with both earthquakes towards it and the one live load: 3,000 + 900 lb, 0.60 of the concrete;
    1.6 L of the one alone is 3,200 lb of what one holds, 0.55.
    """
    items = []
    for place, (quake, live) in enumerate(((1000, 2000), (-900, -1500))):
        own = forces(dead={"tension": 1}, live={"shear_x": live}, earthquake={"shear_x": quake})
        at = {"level": "L1", "x": 0, "y": place * 5 / 12}
        changed = {"seismic": {"category": "B", "s_ds": 0}, "at": at}
        items.append(point(f"P{place}", own, base__edges=FAR | {"x_plus": 6}) | changed)
    found = list(ask(*items, combinations="strength").values())
    value = 3900 / PAIR * (1 + 2.5 * 2100 / 3900 / 9)
    assert [told(each) for each in found] == [{"loads-in-pattern-holds": pytest.approx(value, rel=1e-9)}] * 2


def test_loads_of_one_nature_against_each_other_are_told(ask):
    """They are checked one way at all near points, not one way at each."""
    live = [{"nature": "live", "tension": 100, "shear_x": sign * 500} for sign in (1, -0.5)]
    own = {"components": [{"nature": "dead", "tension": 100}, *live]}
    assert all("loads-of-neighbours-together" in told(each) for each in at_angles(ask, own, own))
    straight = {"components": [{"nature": "dead", "tension": 100}, *live[:1]]}
    assert not any("loads-of-neighbours-together" in told(each) for each in at_angles(ask, straight, straight))


def test_of_two_along_an_axis_both_full_are_the_worst(ask):
    """12 in apart along x alone: A_Nc of 30 x 18 in. Both of 11,340 lb, or one of them empty, 140 lb, 5.85 in off the
    middle: 11,480 (1 + 5.85 / 9) is less than 22,680.
    """
    own = forces(dead={"tension": 100}, contents={"tension": 8000})
    row, full, empty = ALONE * 30 / 18, 1.4 * 8100, 140
    one_empty = (full + empty) / row * (1 + 6 * (full - empty) / (full + empty) / 9)
    assert one_empty < 2 * full / row
    items = [point(f"P{at}", own) | {"at": {"level": "L1", "x": at, "y": 0}} for at in range(2)]
    for each in ask(*items, combinations="strength").values():
        assert told(each) == {}
        assert breakout(each) == pytest.approx(2 * full / row, rel=1e-9)


def in_pattern(loads, apart, area, reach):
    """Use of two by the tensions that each may have, in the worst pattern and with all of them."""

    def use(one, other):
        off = abs(one - other) / (one + other) / 2
        return (one + other) / area * math.prod(1 + 2 * off * each / (2 * reach) for each in apart)

    every = [use(one, other) for one in loads[0] for other in loads[1]]
    return max(every), use(max(loads[0]), max(loads[1]))


def test_of_two_at_any_angle_what_is_worse_in_pattern_is_told(ask):
    """120 random pairs, 2.2 to 17 in apart along x and along y, by the formula in every pattern:
    told where one empty beside a full one is worse, and not where both full are, whether that was known beforehand.
    """
    draw, items, expected = random.Random(11), [], []
    for pair in range(120):
        apart = [draw.uniform(2.2, 17) for _ in range(2)]
        stated = [(draw.choice((0, 50, 500)) + draw.uniform(10, 100), draw.uniform(500, 4000)) for _ in range(2)]
        for at, (dead, contents) in enumerate(stated):
            place = {"level": "L1", "x": 10 * pair + at * apart[0] / 12, "y": at * apart[1] / 12}
            own = forces(dead={"tension": dead}, contents={"tension": contents})
            items.append(point(f"P{pair}-{at}", own) | {"at": place})
        loads = [(1.4 * dead, 1.4 * (dead + contents)) for dead, contents in stated]
        area = ALONE * (2 * 18 * 18 - (18 - apart[0]) * (18 - apart[1])) / (18 * 18)
        most, full = in_pattern(loads, apart, area, 9)
        for _, own in loads:  # each by itself is judged too
            acts = math.hypot(*apart) < 18
            expected.append((acts, max(most, own / ALONE), max(full, own / ALONE)))
    near = worse = 0
    for each, (acts, most, full) in zip(ask(*items, combinations="strength").values(), expected, strict=True):
        if not acts:
            assert told(each) == {}
            continue
        assert breakout(each) == pytest.approx(full, rel=1e-9)
        more = most > each["governing"]["utilisation"] * (1 + 1e-9)  # steel may govern
        assert told(each) == ({"loads-in-pattern-holds": pytest.approx(most, rel=1e-9)} if more else {})
        near, worse = near + 1, worse + more
    assert near > worse > 10
    assert near - worse > 10


def test_beside_three_edges_two_at_an_angle_are_worse_in_pattern_sooner(ask):
    """5 in apart along x and along y and 4 in from three edges h'_ef is 4 / 1.5 = 2.67 in (17.6.2.1.2): with one of two
    empty (1 + 5 / 8)^2 is more than 2, where h_ef of 6 in had (1 + 5 / 18)^2.
    """
    full, empty = 1.4 * 2050, 1.4 * 50
    own, items = forces(dead={"tension": 50}, contents={"tension": 2000}), []
    for at, (left, right, down) in enumerate(((4, 9, 4), (9, 4, 9))):
        edges = FAR | {"x_minus": left, "x_plus": right, "y_minus": down}
        place = {"level": "L1", "x": at * 5 / 12, "y": at * 5 / 12}
        items.append(point(f"P{at}", own, base__edges=edges) | {"at": place})
    h_ef = 4 / 1.5
    area = 0.7 * 24 * math.sqrt(4000) * h_ef**1.5 * (2 * 8 * 8 - 3 * 3) / (8 * 8)
    most, both = in_pattern([(empty, full)] * 2, (5, 5), area, 1.5 * h_ef)
    assert most > both
    for each in ask(*items, combinations="strength").values():
        assert breakout(each) == pytest.approx(both, rel=1e-9)
        assert list(told(each).values()) == [pytest.approx(most, rel=1e-9)]


def test_along_an_axis_too_a_load_that_pushes_may_be_absent(ask):
    """Dead loads of 3,000 and 100 lb, live loads of -1,000 and 5,000 lb. All there: 1.2 x 3,000 - 1,600 and 8,120 lb;
    with the live load of the one away it pulls by 3,600 lb beside the 8,120 of the other.
    """
    items = [
        point(f"P{at}", forces(dead={"tension": dead}, live={"tension": live}))
        | {"at": {"level": "L1", "x": at, "y": 0}}
        for at, (dead, live) in enumerate(((3000, -1000), (100, 5000)))
    ]
    one, other = 1.2 * 3000, 1.2 * 100 + 1.6 * 5000
    value = (one + other + (other - one) * 12 / 18) / (ALONE * 30 / 18)
    for each in ask(*items, combinations="strength").values():
        assert max(breakout(each), told(each).get("loads-in-pattern-holds", 0.0)) == pytest.approx(value, rel=1e-9)
