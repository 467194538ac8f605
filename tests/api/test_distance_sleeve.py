"""A product silent of its distance sleeve: l_e of 17.7.2.2.1 is 8 d_a or 2 d_a, and that is told."""

import json
from copy import deepcopy

import pytest
from starlette.testclient import TestClient

from hangpoint.app import create_app
from regression.answers import REQUESTS

CLIENT = TestClient(create_app())
CODE = "no-distance-sleeve-assumed"
STATED = json.loads((REQUESTS / "inline_product.json").read_text(encoding="utf-8"))


def result(sleeve, *, shear="900 lbf", edge="6 in", principle="torque_controlled_expansion"):
    body = deepcopy(STATED) | {"detail": "modes"}
    item = body["item"]
    item["hangs"]["components"][0]["shear_x"] = shear
    item["base"]["edges"] = {"x_minus": "none", "x_plus": edge, "y_minus": "none", "y_plus": "none"}
    item["anchor"]["product"]["principle"] = principle
    item["anchor"]["product"]["embedment"] |= {} if sleeve is None else {"distance_sleeve": sleeve}
    (found,) = CLIENT.post("/v1/hang-point", json=body).json()["items"]
    return found


def breakout(found):
    return next(each for each in found["modes"] if each["mode"] == "concrete_breakout_shear")["design_strength"]


def test_a_silent_product_is_told_and_taken_without_one():
    silent, without, with_one = result(None), result(False), result(True)
    assert CODE in silent["assumptions"]
    assert CODE not in without["assumptions"] + with_one["assumptions"]
    assert breakout(silent) == pytest.approx(breakout(without), rel=1e-12)
    assert breakout(with_one) == pytest.approx(breakout(without) * (2 * 0.5 / 3.5) ** 0.2, rel=1e-9), "l_e 1 for 3.5 in"


@pytest.mark.parametrize(
    "more", [{"shear": "0 lbf"}, {"edge": "none"}, {"principle": "undercut"}], ids=["no shear", "no edge", "undercut"]
)
def test_where_it_has_no_say_nothing_is_told(more):
    assert CODE not in result(None, **more)["assumptions"]
