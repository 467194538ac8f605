"""The rods that rules ask for, in the answer to hanger loads. What hangs is invented."""

import pytest

from api.hanger_bodies import DUCT, EQUIPMENT, PIPE, RISER, RUN, TRAPEZE, made


def test_a_pipe_has_the_rods_of_its_size_and_of_its_load(ask_item):
    """NPS 4: test_rods of tests/published. 9 ft spans of 190 lb/ft and more are too much for 3/8 in by every rule."""
    heavy = made(RUN, line={"kind": "line", "weight": "70 lb/ft", "allowance": 0}, run={"spans": ["9 ft", "9 ft"]})
    item = ask_item(made(RUN, line={**PIPE, "size": "4"}))
    assert [each["rod"] for each in item["lines"][0]["rods"]] == ["5/8", "1/2", "3/8"]
    middle = ask_item(heavy)["hangers"][1]
    # 1.25 x 70 x 9 = 787.5 lb of the continuous beam, over 726 and 607 lb of 3/8, under 1,350 and 1,130 lb of 1/2.
    assert middle["service_tension"] == pytest.approx(787.5)
    assert {each["rule"]: each["rod"] for each in middle["rods"]} == {
        "sp58_allowable": "1/2",
        "sp58_allowable_older": "1/2",
    }
    assert all(each["allowable"] >= middle["service_tension"] for each in middle["rods"])


def test_a_duct_has_the_list_of_its_standard(ask_item):
    for hanger in ask_item(made(RUN, line=DUCT))["hangers"]:
        assert "duct_standard" in {each["rule"] for each in hanger["rods"]}


def test_rods_of_a_request_in_si_are_metric(ask_item):
    item = ask_item(RUN, units="si")
    assert {each["rod"][0] for hanger in item["hangers"] for each in hanger["rods"]} == {"M"}


@pytest.mark.parametrize("item", [TRAPEZE, RISER, EQUIPMENT])
def test_tables_by_pipe_size_are_for_a_pipe_that_hangs_alone(ask_item, item):
    answer = ask_item(item)
    assert not any("rods" in line for line in answer["lines"])
    assert all(hanger["rods"] for hanger in answer["hangers"] if hanger["service_tension"] > 0)
