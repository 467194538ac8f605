"""Rods of sprinkler lines on their hangers: the size table and the load, whatever else hangs there.

Weights, filled with water, are those of tables: schedule 40 of NPS 6 is 31.5, of NPS 8 50.3, of NPS 12 102.1 lb/ft.
Allowable loads are those printed with MSS SP-58: 3/8 in 730, 1/2 in 1,350, 5/8 in 2,160 lb. The size table of NFPA 13
is from memory: 1/2 in for NPS 5 to 8, 5/8 in for NPS 10 and 12. The building is invented.
"""

import pytest

from api.hanger_bodies import PIPE, RISER, RUN, SECTION, SPRINKLER, codes, made, on_bar

TABLES = 5e-3
"""Rounding of the printed allowable loads, to 10 lb."""


def sprinkler(size):
    return {**SPRINKLER, "size": size, "schedule": "40"}


def rods(item):
    return [hanger["rod"] for hanger in item["hangers"]]


@pytest.mark.parametrize("rule", [{}, {"rule": "sprinkler_size_table"}, {"rule": "sp58_allowable"}])
def test_the_size_table_never_stands_for_the_load(ask_loads, rule):
    """40 ft of NPS 8 and 250 lb: 2,261 lb on the 1/2 in rod in the middle, which the table asks for."""
    spans = {"spans": [40, 40], "model": "tributary"}
    (item,) = ask_loads(made(RUN, line=sprinkler("8"), rod={"size": "1/2"} | rule, run=spans))["items"]
    middle = rods(item)[1]
    assert middle["rule"] == "sp58_allowable"
    assert middle["utilisation"] == pytest.approx((40 * 50.27 + 250) / 1350, rel=TABLES)
    assert (middle["diameter"], middle["required_diameter"]) == (0.5, 0.5)
    assert {"rod-overloaded"} == {*codes(item)} & {"rod-overloaded", "rod-below-size-table"}
    assert item["status"] == "failed"
    assert ("rod-rule-defaulted" in item["assumptions"]) == (rule != {"rule": "sp58_allowable"})


def test_the_rod_of_a_sprinkler_riser(ask_loads):
    """100 ft of NPS 12, 3 ft of rod and 250 lb, all of it on one support: 10,460 lb on a 5/8 in rod."""
    riser = made(RISER, line=sprinkler("12"), rod={"size": "5/8", "length": 3}, length=100, supports=2)
    (item,) = ask_loads(riser)["items"]
    for rod in rods(item):
        assert rod["demand"] == pytest.approx(100 * 102.1 + 250, rel=1e-3)
        assert rod["utilisation"] == pytest.approx(10460 / 2160, rel=TABLES)
    assert item["status"] == "failed"
    assert [point["rod"] for point in item["hang_points"]] == [{"size": "5/8", "rule": "sp58_allowable"}] * 2


@pytest.mark.parametrize(
    "beside",
    [
        {},
        {"run__point_loads": [{"at": 3, "weight": 1}]},
        {"erection_load": 1},
        {"given": [{"hanger": 0, "nature": "live", "tension": 1}]},
        {"line__number": 2},
    ],
    ids=["nothing", "a point load", "an erection load", "a stated load", "another line"],
)
def test_the_size_table_holds_whatever_hangs_beside(ask_loads, beside):
    """NPS 6 asks for 1/2 in. 6 ft of it and 250 lb are 439 lb, less than the 730 lb of a 3/8 in rod."""
    run = made(RUN, line=sprinkler("6"), rod={"size": "3/8"}, run={"spans": [6, 6], "model": "tributary"})
    (item,) = ask_loads(made(run, **beside))["items"]
    assert "rod-below-size-table" in codes(item)
    assert "rod-overloaded" not in codes(item)
    assert item["status"] == "failed"


@pytest.mark.parametrize(("rod", "thin"), [("3/8", True), ("1/2", False)])
def test_a_shared_trapeze_goes_by_its_largest_sprinkler_pipe(ask_loads, rod, thin):
    """Of NPS 6 and NPS 2 1/2 in; the NPS 12 beside them is no sprinkler line and asks for nothing."""
    other = {**PIPE, "size": "12", "schedule": "40", "contents": "empty"}
    rack = on_bar(sprinkler("6"), sprinkler("2"), other, rod={"size": rod})
    (item,) = ask_loads(rack)["items"]
    assert ("rod-below-size-table" in codes(item)) == thin
    assert all(each["required_diameter"] == 0.5 for each in rods(item))


def test_a_point_load_is_on_the_rod_that_the_table_suits(ask_loads):
    """8 ft of NPS 8, 2,000 lb over the hanger and 250 lb: 2,652 lb on a 1/2 in rod."""
    run = {"spans": [8, 8], "model": "tributary", "point_loads": [{"at": 8, "weight": 2000}]}
    (item,) = ask_loads(made(RUN, line=sprinkler("8"), rod={"size": "1/2"}, run=run))["items"]
    assert rods(item)[1]["demand"] == pytest.approx(8 * 50.27 + 2250, rel=1e-3)
    assert item["status"] == "failed"


@pytest.mark.parametrize("rule", ["sp58_allowable", "tensile_strength"])
def test_hang_points_take_the_rod_on_with_its_rule(ask_loads, rule):
    (item,) = ask_loads(made(RUN, line=sprinkler("4"), rod={"size": "3/8", "rule": rule}))["items"]
    assert {point["rod"]["rule"] for point in item["hang_points"]} == {rule}


def test_the_rods_of_a_shared_trapeze_under_the_rule(ask_loads):
    """The finding says what the rods go by, and five times the weight stands among what is not checked."""
    (item,) = ask_loads(on_bar(sprinkler("6"), PIPE, rod={"size": "1/2"}))["items"]
    (shared,) = (each for each in item["findings"] if each["code"] == "shared-sprinkler-support")
    assert "rods by their service load and the size table" in shared["text"]
    assert "rod-under-sprinkler-rule" in item["not_checked"]
    (alone,) = ask_loads(on_bar(sprinkler("6"), rod={"size": "1/2"}))["items"]
    assert "rod-under-sprinkler-rule" not in alone["not_checked"]


def test_a_load_beside_a_sprinkler_line_shares_its_trapeze(ask_loads):
    """The five times hold for 200 lb on the bar, at each rod 5 x 100 lb more, and the item says so as beside a line."""
    rod = {"size": "1/2"}
    loads = [{"at": "2 ft", "weight": "200 lb"}]
    alone, item = ask_loads(on_bar(sprinkler("6"), rod=rod), on_bar(sprinkler("6"), rod=rod, tiers__0__loads=loads))[
        "items"
    ]
    more = [
        each["service"]["sprinkler_rule"] - other["service"]["sprinkler_rule"]
        for each, other in zip(item["hangers"], alone["hangers"], strict=True)
    ]
    assert more == pytest.approx([500, 500])
    assert "shared-sprinkler-support" in codes(item)
    assert "shared-support-option-1" in item["assumptions"]
    assert "rod-under-sprinkler-rule" in item["not_checked"]


def test_the_bar_of_a_shared_trapeze_under_the_rule(ask_loads):
    """The modulus counts sprinkler lines alone, not a load or a line beside them; a bar of stated weight has none."""
    bar = {"tiers__0__bar": SECTION}
    valve = [{"at": "2 ft", "weight": "100 lb"}]
    items = [
        on_bar(sprinkler("2"), PIPE, **bar),
        on_bar(sprinkler("2"), tiers__0__loads=valve, **bar),
        on_bar(sprinkler("2"), sprinkler("1"), **bar),
        on_bar(PIPE, PIPE, **bar),
        on_bar(sprinkler("2"), PIPE),
    ]
    found = ["bar-under-sprinkler-rule" in item["not_checked"] for item in ask_loads(*items)["items"]]
    assert found == [True, True, False, False, False]


def test_a_sprinkler_rule_stated_at_a_hanger_is_on_its_rod(ask_loads):
    """2,250 lb are 5 x 400 + 250: 650 lb, more than 10 ft of 16.3 lb/ft. Elsewhere on the run nothing changes."""
    stated = [{"hanger": 1, "nature": "sprinkler_rule", "tension": 2250}]
    run = made(RUN, rod={"size": "3/8"}, run={"spans": [10, 10], "model": "tributary"})
    plain, ruled = ask_loads(run, {**run, "id": "ruled", "given": stated})["items"]
    assert rods(ruled)[1]["demand"] == pytest.approx(650)
    assert [rods(ruled)[at] for at in (0, 2)] == [rods(plain)[at] for at in (0, 2)]
    assert "rod-under-sprinkler-rule" in ruled["not_checked"]
