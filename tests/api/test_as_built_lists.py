"""As-built lists: what was set against what was required, deviations by name, and what was not recorded."""

import csv
import io

import openpyxl
import pytest

from api.bodies import INLINE
from api.hanger_bodies import conforms
from hangpoint.core.vocabulary import AsBuiltAssumption, AsBuiltDeviation, AsBuiltField, AsBuiltUncompared
from hangpoint.report.as_built_table import AS_BUILT_TEXTS

PATH = "/v1/as-built-lists"
WEDGE = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}
ADHESIVE = {"family": "adhesive-slow-rod-36", "size": "1/2", "h_ef": 6}
SET = {
    "product": "wedge-expansion-zinc/1/2/3.25",
    "embedment": "3-3/4 in",
    "torque": 40,
    "hole_diameter": "1/2 in",
    "hole_depth": 4,
    "date": "2031-04-02",
    "installer": "crew 4",
}
TEST = {"load": "1800 lbf", "hold_seconds": 15, "held": True}
GOOD = {"id": "A", "at": {"level": "L3"}, "anchor": WEDGE, "set": SET}
GLUED_HOLE = {"hole_diameter": "9/16 in", "hole_depth": 6}
GLUED = {
    "id": "G",
    "anchor": ADHESIVE,
    "set": {"product": "adhesive-slow-rod-36/1/2/6", "embedment": 6, "torque": 30, **GLUED_HOLE}
    | {"date": "2031-04-02", "installer": "crew 4", "batch": "7", "expiry": "2031-04-02"},
}

DROP_IN = {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}


@pytest.fixture(scope="module")
def ask(client, validator):
    def of(*items, status=200, **top):
        response = client.post(PATH, json={"units": "us", **top, "items": list(items)})
        assert response.status_code == status, response.text[:800]
        answer = response.json()
        conforms(validator("AsBuiltAnswer" if status == 200 else "Problem"), answer)
        return answer

    return of


def changed(item=GOOD, /, required=None, **own):
    """A copy whose anchor was set otherwise; None takes a record away."""
    values = {name: value for name, value in {**item["set"], **own}.items() if value is not None}
    return {**item, "set": values} | ({} if required is None else {"required": required})


def codes(result):
    return [each["code"] for each in result["deviations"]]


def test_an_invalid_item_may_have_a_product_of_its_own(ask):
    bad = changed({**GOOD, "id": "B", "anchor": {"product": INLINE}}, date="2031-02-30")
    assert [each["status"] for each in ask(GOOD, bad)["items"]] == ["conforms", "invalid"]


def test_an_item_is_one_anchor(ask):
    """One record can't say how four anchors were set: the item is invalid, and costs the others nothing."""
    row = {"pattern": "row", "count": 4, "spacing": 6}
    alone, four = [
        {**GOOD, "id": name, "anchor": {**WEDGE, "layout": own}}
        for name, own in (("1", [{"x": 0, "y": 0}]), ("4", row))
    ]
    one, many = ask(alone, four)["items"]
    assert one["status"] == "conforms"
    assert many["problem"]["errors"][0]["pointer"] == "#/items/1/anchor/layout"


def test_an_anchor_as_required(ask):
    """The wedge 1/2 at 3-1/4 in is set 3-3/4 in deep in a hole of 1/2 x 4 in with 40 ft*lbf, by its data."""
    (result,) = ask(GOOD)["items"]
    assert (result["status"], result["deviations"], result["not_recorded"]) == ("conforms", [], [])
    figures = {name: value for name, value in result["required"].items() if name != "product"}
    assert figures == pytest.approx(
        {"embedment": 3.75, "torque": 40, "torque_least": 36, "torque_most": 40, "hole_diameter": 0.5, "hole_depth": 4}
    )


@pytest.mark.parametrize(
    ("item", "found", "figures"),
    [
        (changed(product="wedge-expansion-zinc/1/2/2"), "product-differs", None),
        (changed(product=" Wedge-Expansion-Zinc/1/2/3.25 "), None, None),
        (changed(embedment="3-3/8 in"), "embedment-short", (3.375, 3.75)),
        (changed(embedment="4 in"), None, None),
        (changed(torque=35), "torque-low", (35, 36)),
        (changed(torque="50 N*m"), None, None),
        (changed(torque="600 in-lb"), "torque-high", (50, 40)),
        (changed(torque=40.1), "torque-high", (40.1, 40)),
        (changed(torque=50, required={"torque": 50}), "required-beyond-product", None),
        (changed(hole_diameter="5/8 in", required={"hole_diameter": "5/8 in"}), "required-beyond-product", None),
        (changed(hole_depth=3.8, required={"hole_depth": 3.8}), "required-beyond-product", None),
        (changed(hole_depth=4.5, required={"hole_depth": 4.5}), None, None),
        (changed(torque=30, required={"torque": 30}), "required-below-product", None),
        (changed(required={"embedment": 3.7}), "required-below-product", None),
        (changed(embedment="4.1 in"), "embedment-too-deep", (4.1, 4)),
        (changed(embedment="6.5 in", hole_depth=None), "embedment-too-deep", (6.5, 4)),
        (changed(hole_diameter="9/16 in"), "hole-diameter-differs", (0.5625, 0.5)),
        (changed(hole_depth="3.9 in"), "hole-too-shallow", (3.9, 4)),
        (changed(required={"test_load": 1800}, test=TEST), None, None),
        (changed(required={"test_load": 2000}, test=TEST), "test-load-low", (1800, 2000)),
        (changed(required={"test_load": 1800}, test=TEST | {"held": False}), "test-not-held", None),
        (changed(required={"test_load": 1800, "hold_seconds": 15}, test=TEST), None, None),
        (changed(required={"test_load": 1800, "hold_seconds": 16}, test=TEST), "test-held-too-short", None),
        (changed(required={"test_load": 1800}, test=TEST | {"load": 6900}), None, None),
        (changed(required={"test_load": 1800}, test=TEST | {"load": 9000}), "test-load-high", (9000, 6936)),
        (changed(test=TEST | {"load": 9000}), "test-load-high", (9000, 6936)),
        (changed(deviation="moved 6 in east of a bar"), "deviation-noted", None),
        (changed(GLUED), None, None),
        (changed(GLUED, expiry="2031-04-01"), "expired", None),
    ],
)
def test_deviations_by_name(ask, item, found, figures):
    """50 N*m are 36.9 ft*lbf, within 36 to 40; 600 in*lbf are 50 ft*lbf. The card says not more than 40. The wedge
    stands 3-3/4 in deep in a hole of 4 in; what an item requires against the data, 50 ft*lbf of it, is never silent.
    No test may pull more than 0.8 x 0.102 in2 x 85,000 psi = 6,936 lb of its steel."""
    (result,) = ask(item)["items"]
    assert codes(result) == ([] if found is None else [found])
    assert result["status"] == ("conforms" if found is None else "deviates")
    if figures is not None:
        own = result["deviations"][0]
        assert (own["value"], own["limit"]) == pytest.approx(figures, rel=1e-9)


@pytest.mark.parametrize("name", ["product", "embedment", "torque", "date", "installer"])
def test_what_was_not_recorded(ask, name):
    (result,) = ask(changed(**{name: None}))["items"]
    assert (result["status"], result["not_recorded"]) == ("incomplete", [name])


def test_what_else_was_not_recorded(ask):
    """Batch and expiry are asked of adhesives, a test where a load is required; a pull that nobody judged is none."""
    assert ask(changed(GLUED, batch=None, expiry=None))["items"][0]["not_recorded"] == ["batch", "expiry"]
    assert ask(changed(required={"test_load": 1800}))["items"][0]["not_recorded"] == ["test"]
    untimed = changed(required={"test_load": 1800, "hold_seconds": 15}, test={"load": 1800, "held": True})
    assert ask(untimed)["items"][0]["not_recorded"] == ["test"]
    unjudged = changed(required={"test_load": 1800}, test={"load": 1800})
    assert ask(unjudged)["items"][0]["not_recorded"] == ["test"]


@pytest.mark.parametrize(
    "test", [{"load": 1800}, {"held": True}, {"hold_seconds": 15}, {"load": 1800, "hold_seconds": 9}]
)
def test_half_of_a_test_that_nobody_asked_for_is_incomplete(ask, test):
    """Somebody pulled on the anchor, and whether it held, or what, is not recorded."""
    (result,) = ask(changed(test=test))["items"]
    assert (result["status"], result["not_recorded"]) == ("incomplete", ["test"])
    (whole,) = ask(changed(test={"load": 1800, "held": True, **test}))["items"]
    assert (whole["status"], whole["not_recorded"]) == ("conforms", [])


def test_where_and_under_what_words_come_back(client, ask):
    """What a list states comes back with it: coordinates in the unit of the request, tags."""
    placed = {**GOOD, "at": {"level": "L3", "x": "3'-6\"", "y": -2, "z": "120 in"}, "tags": ["grid B", "bay 2"]}
    (result,) = ask(placed)["items"]
    assert [result[axis] for axis in "xyz"] == pytest.approx([3.5, -2.0, 10.0])
    assert result["tags"] == ["grid B", "bay 2"]
    text = client.post(f"{PATH}?format=csv", json={"units": "us", "items": [placed]}).text
    (row,) = csv.DictReader(io.StringIO(text, newline=""))
    assert [float(row[f"{axis} [ft]"]) for axis in "xyz"] == pytest.approx([3.5, -2.0, 10.0])
    assert row["tags"] == "grid B;bay 2"
    moved = {**placed, "at": {**placed["at"], "x": "4 ft"}}
    assert ask(placed)["request_digest"] != ask(moved)["request_digest"]
    assert not {"x", "y", "z", "tags"} & ask(GOOD)["items"][0].keys()


def test_the_hole_of_an_adhesive_and_of_a_drop_in_is_recorded(ask):
    """An inspector of adhesive anchors records it (from memory); a drop-in is set to its end (common practice)."""
    silent = {"hole_diameter": None, "hole_depth": None}
    drop_in = {**SET, "product": "drop-in-zinc/3/8/1.625", "embedment": 1.625, "hole_depth": 1.625}
    asked = {
        "G": changed(GLUED, **silent),
        "D": changed({"id": "D", "anchor": DROP_IN, "set": drop_in}, torque=None, hole_depth=None),
        "W": changed({**GOOD, "id": "W"}, **silent),
    }
    found = {each["id"]: (each["status"], each["not_recorded"]) for each in ask(*asked.values())["items"]}
    assert found["G"] == ("incomplete", ["hole_diameter", "hole_depth"])
    assert found["D"] == ("incomplete", ["hole_depth"])
    assert found["W"] == ("conforms", [])


def test_an_anchor_without_torque_is_asked_for_none(ask):
    own = {**SET, "product": "drop-in-zinc/3/8/1.625", "embedment": 1.625, "hole_depth": 1.625}
    (result,) = ask({"id": "A", "anchor": DROP_IN, "set": {n: v for n, v in own.items() if n != "torque"}})["items"]
    assert (result["status"], "torque" in result["required"]) == ("conforms", False)


def test_a_product_inline_has_no_address_to_compare(ask):
    (result,) = ask(changed({**GOOD, "anchor": {"product": INLINE}}, hole_diameter=None, hole_depth=None))["items"]
    assert "product-differs" not in codes(result)


def test_tolerance_and_assumptions(ask):
    inline = {**GOOD, "id": "I", "anchor": {"product": INLINE}}
    other = {**changed(product="wedge-expansion-zinc/3/8/2.5"), "id": "O"}
    assert set(ask(GOOD, inline, other)["assumptions"]) == {each.value.code for each in AsBuiltAssumption}
    assert "inline-product-not-compared" not in ask(GOOD, changed(inline, product=None))["assumptions"]
    whole = {"embedment": 3.75, "torque": 40, "hole_diameter": 0.5, "hole_depth": 4}
    assert ask({**GOOD, "required": whole}, torque_tolerance=0.05)["assumptions"] == {}
    assert codes(ask(changed(torque=37), torque_tolerance=0.05)["items"][0]) == ["torque-low"]
    assert codes(ask(changed(torque=40), torque_tolerance=0)["items"][0]) == []


def test_units_agree(ask):
    us = ask(changed(embedment="3-3/8 in", torque=35))["items"][0]
    si = ask(changed(embedment="3-3/8 in", torque="35 ft-lb", hole_depth="4 in"), units="si")["items"][0]
    assert codes(us) == codes(si) == ["embedment-short", "torque-low"]
    (length, torque) = si["deviations"]
    assert (length["value"], length["limit"]) == pytest.approx((85.725, 95.25), rel=1e-12)
    assert (torque["value"], torque["limit"]) == pytest.approx((35 * 1.3558179483, 36 * 1.3558179483), rel=1e-9)


@pytest.mark.parametrize(
    ("item", "pointer"),
    [
        (changed(date="2031-02-30"), "#/items/1/set/date"),
        (changed(date="2.4.2031"), "#/items/1/set/date"),
        (changed(torque="40 lb"), "#/items/1/set/torque"),
        (changed(test={"load": 0}), "#/items/1/set/test/load"),
        (changed(tested=True), "#/items/1/set/tested"),
        ({**GOOD, "anchor": WEDGE | {"size": "7/8"}}, "#/items/1/anchor/size"),
        ({**GOOD, "required": {"embedment": 0}}, "#/items/1/required/embedment"),
    ],
)
def test_a_bad_item_costs_the_others_nothing(ask, item, pointer):
    answer = ask(GOOD, {**item, "id": "bad"})
    assert answer["items"][1]["problem"]["errors"][0]["pointer"] == pointer
    assert answer["items"][0] == ask(GOOD)["items"][0]
    assert (answer["summary"]["conforms"], answer["summary"]["invalid"]) == (1, 1)


def test_every_word_is_served_and_reached(client, ask):
    served = client.get("/v1/quantities").json()["as_built_lists"]
    for name, members in (
        ("deviations", AsBuiltDeviation),
        ("not_recorded", AsBuiltField),
        ("not_compared", AsBuiltUncompared),
        ("assumptions", AsBuiltAssumption),
    ):
        assert [each["code"] for each in served[name]] == [each.value.code for each in members]
    assert served["columns"] == dict(AS_BUILT_TEXTS)
    worst = {"product": "other", "embedment": 1, "torque": 1, "hole_diameter": 1, "hole_depth": 1, "deviation": "x"}
    items = [
        changed(GLUED, required={"test_load": 9}, test={"load": 1, "held": False}, expiry="2020-01-01", **worst),
        {**changed(torque=99), "id": "H"},
        {"id": "N", "anchor": ADHESIVE, "required": {"test_load": 9}},
        {**changed({**GOOD, "anchor": DROP_IN}, product="drop-in-zinc/3/8/1.625", hole_depth=3), "id": "D"},
        {**changed(torque=80, required={"torque": 80}), "id": "T"},
        {**changed(required={"torque": 1, "hold_seconds": 15}, test={"load": 9000, "hold_seconds": 1}), "id": "S"},
        changed({**GOOD, "id": "I", "anchor": {"product": INLINE}}),
    ]
    answer = ask(*items)
    assert set(answer["summary"]["deviations"]) == {each.value.code for each in AsBuiltDeviation}
    assert answer["items"][2]["not_recorded"] == [each.value.code for each in AsBuiltField]
    assert answer["items"][6]["not_compared"] == [each.value.code for each in AsBuiltUncompared]


def test_an_exact_depth_is_not_required_deeper_than_the_data_have_it(ask):
    """A drop-in of 1-5/8 in whose hole is required 2 in deep, or that is required 2 in deep itself."""
    own = {n: v for n, v in SET.items() if n != "torque"} | {"product": "drop-in-zinc/3/8/1.625"}
    for name, record in (("hole_depth", {"embedment": 1.625}), ("embedment", {"hole_depth": 1.625})):
        item = {**GOOD, "anchor": DROP_IN, "set": own | record | {name: 2}, "required": {name: 2}}
        assert codes(ask(item)["items"][0]) == ["required-beyond-product"]


@pytest.mark.parametrize(("depth", "found"), [("1-5/8 in", []), ("2-1/2 in", ["embedment-too-deep"])])
def test_a_shell_that_is_sunk_has_no_bottom_to_be_driven_against(ask, depth, found):
    """A drop-in of 1-5/8 in is set flush in a hole of 1-5/8 in: 2-1/2 in deep it is sunk in a hole too deep for it."""
    own = {n: v for n, v in SET.items() if n not in ("torque", "hole_depth")}
    item = {"id": "D", "anchor": DROP_IN, "set": own | {"product": "drop-in-zinc/3/8/1.625", "embedment": depth}}
    assert codes(ask(item)["items"][0]) == found


def test_files(client):
    items = [changed(installer="=cmd", deviation="-moved"), {**changed(torque=None), "id": "B"}, {"id": "C", "x": 1}]
    body = {"units": "us", "items": items}
    rows = list(csv.DictReader(io.StringIO(client.post(f"{PATH}?format=csv", json=body).text)))
    assert [row["status"] for row in rows] == ["deviates", "incomplete", "invalid"]
    assert (rows[0]["installer"], rows[0]["remark"]) == ("'=cmd", "'-moved")
    assert (rows[0]["torque_set [ft*lbf]"], rows[1]["not_recorded"]) == ("40.0", "torque")
    assert rows[2]["pointer"] == "#/items/2/x"
    assert len(rows[0]) == len(AS_BUILT_TEXTS)
    book = openpyxl.load_workbook(io.BytesIO(client.post(f"{PATH}?format=xlsx", json=body).content))
    assert book.sheetnames == ["As built", "Basis"]
    cells = [cell for row in book["As built"].iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s", "n"}
    assert "=cmd" in [cell.value for cell in cells]


def test_an_embedment_that_the_data_do_not_state_is_not_below_h_ef(ask):
    """Of an expansion anchor h_ef, here 2 in, is no depth to be set to: without h_nom in its data one of 2.1 in may be
    right or wrong, and one of 1.9 in is surely too short."""
    silent = {**INLINE, "embedment": {"hole": {"diameter": 0.5, "depth": 4}, "torque": 40, **INLINE["embedment"]}}
    stated = {**silent, "embedment": {"h_nom": 2.5, **silent["embedment"]}}
    by_data, within, short = (
        ask({"id": "I", "anchor": {"product": product}, "set": SET | {"product": "inline", "embedment": depth}})[
            "items"
        ][0]
        for product, depth in ((stated, 2.1), (silent, 2.1), (silent, 1.9))
    )
    assert codes(by_data) == codes(short) == ["embedment-short"]
    assert (short["deviations"][0]["value"], short["deviations"][0]["limit"]) == pytest.approx((1.9, 2.0))
    assert (within["status"], within["deviations"], within["not_compared"]) == ("incomplete", [], ["embedment"])
    assert "embedment" not in within["required"]


def test_what_is_compared_with_nothing(ask):
    """Neither the data nor the item say what torque and hole should be: the record doesn't conform; once they do, it
    does."""
    bare = changed({**GOOD, "anchor": {"product": INLINE}})
    (result,) = ask(bare)["items"]
    assert (result["status"], result["not_compared"]) == (
        "incomplete",
        ["embedment", "torque", "hole_diameter", "hole_depth"],
    )
    whole = {"embedment": 3.75, "torque": 40, "hole_diameter": 0.5, "hole_depth": 4}
    (result,) = ask(bare | {"required": whole})["items"]
    assert (result["status"], result["not_compared"]) == ("conforms", [])


@pytest.mark.parametrize(("depth", "found"), [(1.625, []), (1.75, ["hole-too-deep"]), (1.5, ["hole-too-shallow"])])
def test_a_plug_is_driven_in_a_hole_of_its_depth(ask, depth, found):
    """A displacement-controlled anchor of 1.625 in by its data; a torque-controlled one may stand in a deeper hole."""
    own = {n: v for n, v in SET.items() if n != "torque"}
    item = {"id": "D", "anchor": DROP_IN, "set": own | {"product": "drop-in-zinc/3/8/1.625", "embedment": 1.625}}
    assert codes(ask(changed(item, hole_depth=depth))["items"][0]) == found
    assert codes(ask(changed(hole_depth=4.5))["items"][0]) == []


@pytest.mark.parametrize(
    ("product", "torque", "found"),
    [
        ("wedge-expansion-zinc/3/8/2.5", 40, {"product-differs": None, "torque-high": 20}),
        ("wedge-expansion-zinc/3/8/2.5", 20, {"product-differs": None}),
        ("Wedge-Expansion-Zinc/3/8/2.5", 10, {"product-differs": None, "torque-low": 18}),
    ],
)
def test_torque_and_hole_are_those_of_what_was_set(ask, product, torque, found):
    """The torque that the data of the wedge 3/8 ask for is 20 ft*lbf, of the wedge 1/2 that was required 40."""
    item = changed(product=product, torque=torque, hole_diameter="3/8 in", hole_depth="3-7/8 in")
    answer = ask(item)
    (result,) = answer["items"]
    assert {each["code"]: each.get("limit") for each in result["deviations"]} == found
    assert result["required"]["product"] == "wedge-expansion-zinc/1/2/3.25"
    assert result["required"]["by_set_product"] == "wedge-expansion-zinc/3/8/2.5"
    assert "by_set_product" not in ask(GOOD)["items"][0]["required"]
    assert "torque-and-hole-by-set-product" in answer["assumptions"]
    assert "torque-and-hole-by-set-product" not in ask(GOOD)["assumptions"]


def test_what_the_catalogue_does_not_have_is_compared_with_what_was_required(ask):
    answer = ask(changed(product="another/1/2/3.25", torque=400))
    assert codes(answer["items"][0]) == ["product-differs", "torque-high"]
    assert "torque-and-hole-by-set-product" not in answer["assumptions"]


def test_no_test_pulls_more_than_the_steel_of_what_was_set(ask):
    """0.8 A_se f_ya of the wedge 3/8 is 0.8 x 0.053 in2 x 85,000 psi = 3604 lbf, of the wedge 1/2 that was required
    0.8 x 0.102 x 85,000 = 6936 lbf."""
    thinner = {"product": "wedge-expansion-zinc/3/8/2.5", "torque": 20, "hole_diameter": "3/8 in"}
    item = changed(**thinner, hole_depth="3-7/8 in", test={"load": "5000 lbf", "hold_seconds": 15, "held": True})
    (result,) = ask(item)["items"]
    (high,) = [each for each in result["deviations"] if each["code"] == "test-load-high"]
    assert (high["value"], high["limit"]) == pytest.approx((5000, 3604))
    assert "test-load-high" not in codes(ask(changed(test=item["set"]["test"]))["items"][0])
