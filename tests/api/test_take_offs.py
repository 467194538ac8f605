"""Take-offs as an estimator meets them: figures by hand on a small invented job, and what must hold of every job.

The job: level L1 has 30 drop-ins 3/8 (hole 1/2 x 1-5/8 in, 3.5 min, index 0.92, packs of 50, a bit lasts 250 holes)
with a rod of 3 ft each; level L2 has 10 wedge anchors 1/2 (hole 1/2 x 4 in, 4 min, index 1.5, packs of 50, 250 holes)
with a rod of 12 ft each, and 4 adhesive anchors 1/2 of 6 in (hole 9/16, 9.2 min, index 6.2, cartridges of 36 in3)
without rods.
"""

import csv
import io
import math
from collections import defaultdict

import openpyxl
import orjson
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from api.bodies import BATCH_JSON, INLINE, change
from api.hanger_bodies import TRAPEZE, conforms, request
from hangpoint.api.batch import Limits
from hangpoint.api.schemas.request import BatchRequest, PartialItem
from hangpoint.api.schemas.take_offs import PartialTakeOffItem, TakeOffRequest
from hangpoint.api.schemas.take_offs_answer import LineKindWord
from hangpoint.api.take_off_batch import run_take_off
from hangpoint.core.vocabulary import LineKind, TakeOffAssumption, TakeOffNotCounted
from hangpoint.product.catalogue import load_catalogue
from hangpoint.report.take_off_tables import CUT_TEXTS, ITEM_TEXTS, PULL_TEXTS, SUM_TEXTS

PATH = "/v1/take-offs"
DROP_IN = {"family": "drop-in-zinc", "size": "3/8", "h_ef": "1-5/8 in"}
WEDGE = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}
ADHESIVE = {"family": "adhesive-slow-rod-36", "size": "1/2", "h_ef": 6}
SCREW = {"family": "ceiling-screw-eye-zinc", "size": "1/4", "h_ef": "1-1/4 in"}
PIN = {"family": "driven-pin-powder-zinc", "size": "0.150"}
ITEMS = [
    {"id": "A", "at": {"level": "L1"}, "trade": "plumbing", "area": "east", "tags": ["cold", "main"], "quantity": 30}
    | {"anchor": DROP_IN, "rod": {"size": "3/8", "length": "3 ft"}},
    {"id": "B", "at": {"level": "L2"}, "trade": "fire", "tags": ["main"], "quantity": 10}
    | {"anchor": WEDGE, "rod": {"size": "1/2", "length": "12 ft"}},
    {"id": "C", "at": {"level": "L2"}, "trade": "plumbing", "area": "west", "quantity": 4, "anchor": ADHESIVE},
]
NO_WASTE = dict.fromkeys(("anchors", "rods", "hardware", "adhesive", "charges"), 0)


@pytest.fixture(scope="module")
def ask(client, validator):
    """The checked answer to some items."""

    def of(*items, status=200, body=None, **top):
        response = client.post(PATH, json={"units": "us", **top, "items": list(items)} if body is None else body)
        assert response.status_code == status, response.text[:800]
        answer = response.json()
        conforms(validator("TakeOffAnswer" if status == 200 else "Problem"), answer)
        return answer

    return of


def lines(answer, kind):
    return [line for line in answer["pull_list"] if line["kind"] == kind]


def figures(line):
    return tuple(line[name] for name in ("net", "gross", "pack", "packs", "left_over"))


def codes(answer):
    return {error["code"] for item in answer["items"] if "problem" in item for error in item["problem"]["errors"]}


# Figures by hand


def test_anchors_with_waste_in_packs(ask):
    """30 and 5 % are 31.5, so 32 of one pack; 10 are 11; 4 are 5 in packs of 10."""
    found = {line["product"]: figures(line) for line in lines(ask(*ITEMS), "anchor")}
    assert found == {
        "drop-in-zinc/3/8/1.625": (30, 32, 50, 1, 18),
        "wedge-expansion-zinc/1/2/3.25": (10, 11, 50, 1, 39),
        "adhesive-slow-rod-36/1/2/6": (4, 5, 10, 1, 5),
    }


def test_rods_and_what_ends_them(ask):
    """3/8: 30 of 3 ft, three a bar (2 kerfs of 1/8 in), 10 bars and 3 % are 11. 1/2: 10 bars and 10 of 2 ft, of which
    four go into a bar (five and four kerfs are 10 ft 1/2 in), so 13 and 3 % are 14. Couplings 1/2: a joint and an
    anchor each, 20 and 5 % are 21; nuts 60 and 63, 20 and 21.
    """
    answer = ask(*ITEMS)
    assert [figures(line) for line in lines(answer, "rod")] == [(10, 11, 1, 11, 0), (13, 14, 1, 14, 0)]
    assert [(each["bars"], each["lower_bound"]) for each in answer["cut_list"]] == [(10, 10), (13, 13)]
    assert answer["cut_list"][1]["pieces"] == [{"length": 10, "count": 10}, {"length": 2, "count": 10}]
    assert answer["cut_list"][1]["waste_length"] == pytest.approx(130 - 120)
    assert [figures(line) for line in lines(answer, "coupling")] == [(20, 21, 25, 1, 4)]
    assert [figures(line)[:2] for line in lines(answer, "nut")] == [(60, 63), (20, 21)]
    assert [figures(line)[:2] for line in lines(answer, "washer")] == [(60, 63), (20, 21)]


def test_adhesive_by_the_ring(ask):
    """Around a thread of 1/2 in, pitch diameter 0.45004 in: pi/4 (9/16^2 - 0.45004^2) 6 in of four holes are 2.1464
    in3, and 15 % 2.468: one cartridge of 36 in3.
    """
    answer = ask(*ITEMS)
    (line,) = lines(answer, "adhesive")
    ring = math.pi / 4 * (0.5625**2 - 0.45004**2) * 6
    assert line["net"] == pytest.approx(4 * ring, rel=1e-4) == pytest.approx(2.1464, abs=5e-4)
    assert (line["unit"], line["packs"], line["pack"]) == ("in3", 1, 36)
    assert line["left_over"] == pytest.approx(36 - 1.15 * 4 * ring, rel=1e-4)
    assert [figures(each) for each in lines(answer, "cartridge")] == [(1, 1, 6, 1, 5)]
    assert [figures(each)[:2] for each in lines(answer, "nozzle")] == [(1, 2)]


def test_sums_by_hand(ask):
    """Holes 30 x 1-5/8 and 10 x 4 and 4 x 6 in are 112.75 in; 30 x 3.5 + 10 x 4 + 4 x 9.2 min are 181.8.

    Minutes and cost index are those of the size, as of a selection, and not those of the family.
    """
    overall = ask(*ITEMS)["totals"]["overall"]
    assert overall["drilled_length"] == pytest.approx(112.75 / 12, rel=1e-12)
    assert (overall["points"], overall["anchors"], overall["holes"], overall["rods"]) == (44, 44, 44, 40)
    assert (overall["minutes"], overall["hours"]) == pytest.approx((181.8, 181.8 / 60), rel=1e-12)
    assert overall["cost_index"] == pytest.approx(30 * 0.92 + 10 * 1.5 + 4 * 6.2, rel=1e-12)
    assert overall["rod_length"] == pytest.approx(90 + 120)


def test_a_size_that_states_none_has_the_minutes_and_cost_of_its_family(ask):
    overall = ask({"id": "A", "quantity": 10, "anchor": SCREW})["totals"]
    assert (overall["overall"]["minutes"], overall["overall"]["cost_index"]) == pytest.approx((10, 4), rel=1e-12)


def test_bits_wear_out(ask):
    """600 holes at 250 a bit are 2.4, so 3; with 5 % 2.52, still 3. 720 are 2.88 and 3.024: 3 and 4."""
    for number, bits in ((600, (3, 3)), (720, (3, 4))):
        (line,) = lines(ask(ITEMS[0] | {"quantity": number}), "bit")
        assert figures(line)[:2] == bits
        assert line["description"] == "stop bit, 1/2 in, for holes of 1-5/8 in"


def test_what_no_check_would_pass_is_counted_and_said(client, ask):
    """A stud of 3-1/4 in in a slab of 3 in: the check takes it for impossible, the pull list has it."""
    hangs = {"kind": "weight", "weight": "300 lb", "nature": "dead"}
    edges = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
    base = {"kind": "concrete", "density": "normalweight", "thickness": "3 in", "edges": edges, "face": "soffit"}
    item = {"id": "THIN", "hangs": hangs, "anchor": WEDGE, "base": base, "seismic": {"category": "B"}}
    checked = client.post("/v1/hang-points", json={"units": "us", "items": [item]}).json()["items"][0]
    assert checked["status"] == "invalid"
    answer = ask(item)
    assert answer["summary"]["counted"] == 1
    assert "is not checked" in answer["assumptions"]["counted-as-stated"]


def test_a_stop_bit_drills_one_depth(ask):
    """Holes that are neither shallower nor deeper take a bit a depth: 3/4 and 1-5/8 in of drop-ins, 3-1/4 and 4-1/2 in
    of undercuts, by their data. Two families whose holes are alike share one; of other bits the deepest hole decides.
    """
    short, stainless = {"family": "drop-in-short-zinc", "h_ef": "3/4 in"}, {"family": "drop-in-stainless"}
    undercut = {"family": "undercut-zinc", "size": "3/8"}
    wedge = {"family": "wedge-expansion-zinc", "size": "3/8"}
    anchors = [
        *(DROP_IN, DROP_IN | short, DROP_IN | stainless),
        *(undercut | {"h_ef": depth} for depth in ("2-3/4 in", "4 in")),
        *(wedge | {"h_ef": depth} for depth in ("1-3/4 in", "2-1/2 in")),
    ]
    answer = ask(*({"id": str(at), "quantity": 10, "anchor": own} for at, own in enumerate(anchors)))
    assert [(line["description"], line["net"]) for line in lines(answer, "bit")] == [
        ("carbide hammer bit, 3/8 in, for holes to 3-1/8 in", 1),
        ("stop bit, 1/2 in, for holes of 3/4 in", 1),
        ("stop bit, 1/2 in, for holes of 1-5/8 in", 1),
        ("stop and undercutting bit, 5/8 in, for holes of 3-1/4 in", 1),
        ("stop and undercutting bit, 5/8 in, for holes of 4-1/2 in", 1),
    ]


def test_pins_take_charges(ask):
    pin = next(address for address in load_catalogue().addresses if address.startswith("driven-pin-powder-zinc/0.150"))
    gas = next(address for address in load_catalogue().addresses if address.startswith("driven-pin-gas-zinc"))
    named = [dict(zip(("family", "size", "h_ef"), each.rsplit("/", 2), strict=True)) for each in (pin, gas)]
    items = [{"id": own["family"], "quantity": 1800, "anchor": own | {"h_ef": float(own["h_ef"])}} for own in named]
    answer = ask(*items)
    charges = {line["description"].split(",")[0]: figures(line) for line in lines(answer, "charge")}
    assert charges == {"powder charge": (1800, 1890, 100, 19, 10), "gas can": (2, 3, 2, 2, 1)}
    assert not lines(answer, "bit")
    assert not lines(answer, "vacuum")
    assert answer["totals"]["overall"]["holes"] == 0


def test_tools_by_crew(ask):
    answer = ask(*ITEMS, crews=3)
    for kind in ("setting_tool", "torque_wrench", "brush", "pump", "shroud", "vacuum"):
        assert lines(answer, kind)
        assert all(figures(line)[:2] == (3, 3) for line in lines(answer, kind))
    assert lines(answer, "vacuum")[0]["source"] == "29 CFR 1926.1153 Table 1 (vii)"
    assert "one-crew-assumed" not in answer["assumptions"]
    assert {line["description"] for line in lines(answer, "brush")} == {"brush for a hole of 9/16 in"}


def test_ends_and_rods_of_a_point(ask):
    """Two rods a point with three nuts, one washer and no coupling, of 40 points."""
    rod = {"size": "1/2", "length": 4, "number": 2, "ends": {"nuts": 3, "washers": 1, "couplings": 0}}
    answer = ask(ITEMS[1] | {"quantity": 40, "rod": rod}, waste=NO_WASTE)
    assert [figures(line)[0] for kind in ("nut", "washer") for line in lines(answer, kind)] == [240, 80]
    assert not lines(answer, "coupling")
    assert answer["items"][0]["rod"]["pieces"] == [{"length": 4, "count": 1}]
    assert not answer["assumptions"].keys() & {"rod-ends-assumed", "one-rod-assumed", "coupling-at-anchor-assumed"}


def test_a_coupling_of_the_rod_fits_no_stud_of_another_thread(ask):
    """A 3/8 rod under 1/2 studs: what joins them is in no count, so no 3/8 coupling is pulled for it."""
    answer = ask(ITEMS[1] | {"rod": {"size": "3/8", "length": "4 ft"}}, waste=NO_WASTE)
    assert answer["items"][0]["not_counted"] == ["rod-joint-open"]
    assert not lines(answer, "coupling")
    assert "coupling-at-anchor-assumed" not in answer["assumptions"]
    spliced = ask(ITEMS[1] | {"rod": {"size": "3/8", "length": "12 ft"}}, waste=NO_WASTE)
    assert [figures(line)[0] for line in lines(spliced, "coupling")] == [10], "one joint of two bars in each rod"


def test_a_plate_has_its_anchors(ask):
    plate = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": "6 in", "spacing_y": "6 in"}
    answer = ask(ITEMS[1] | {"anchor": WEDGE | {"layout": plate}}, waste=NO_WASTE)
    assert answer["totals"]["overall"]["anchors"] == 40
    assert answer["items"][0]["not_counted"] == ["rod-joint-open"]
    assert [figures(line)[0] for line in lines(answer, "coupling")] == [10]


# What must hold of every job

FAMILIES = [DROP_IN, WEDGE, ADHESIVE]
job_items = st.lists(
    st.fixed_dictionaries(
        {"anchor": st.sampled_from(FAMILIES), "quantity": st.integers(1, 40)},
        optional={
            "at": st.sampled_from(["L1", "L2", "L3"]).map(lambda level: {"level": level}),
            "trade": st.sampled_from(["plumbing", "fire"]),
            "area": st.sampled_from(["east", "west"]),
            "tags": st.lists(st.sampled_from(["a", "b", "c"]), max_size=3),
            "rod": st.fixed_dictionaries(
                {"size": st.sampled_from(["3/8", "1/2", "M10"])},
                optional={"length": st.sampled_from(["18 in", "2'-6\"", "7 ft", "23 ft"]), "number": st.integers(0, 3)},
            ),
        },
    ),
    min_size=1,
    max_size=8,
).map(lambda items: [{**item, "id": f"I{at}"} for at, item in enumerate(items)])
quick = settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])


@pytest.fixture(scope="module")
def run():
    """The answer without the way over the network."""
    catalogue = load_catalogue()

    def of(items, **top):
        body = orjson.dumps({"units": "us", **top, "items": items})
        return run_take_off(body, catalogue=catalogue, limits=Limits())

    return of


def test_sums_of_groups_are_the_total(run):
    @quick
    @given(job_items)
    def check(items):
        answer = run(items)
        overall = answer["totals"]["overall"]
        for group in ("level", "trade", "area"):
            parts = answer["totals"][group]
            assert len({part["name"] for part in parts}) == len(parts)
            for name, whole in overall.items():
                assert sum(part[name] for part in parts) == pytest.approx(whole, rel=1e-12)
            for line in answer["pull_list"]:
                if f"by_{group}" in line:
                    assert sum(share["net"] for share in line[f"by_{group}"]) == pytest.approx(line["net"], rel=1e-12)
        assert sum(line["net"] for line in lines(answer, "anchor")) == overall["anchors"]
        assert sum(item["rod_length"] for item in answer["items"]) == pytest.approx(overall["rod_length"], rel=1e-12)

    check()


def test_without_waste_the_gross_is_the_net(run):
    @quick
    @given(job_items)
    def check(items):
        for line in run(items, waste=NO_WASTE)["pull_list"]:
            assert line["gross"] == line["net"]
            assert line["packs"] * line["pack"] == pytest.approx(line["gross"] + line["left_over"])
            assert 0 <= line["left_over"] < line["pack"]

    check()


def test_a_quantity_is_so_many_items(run):
    @quick
    @given(job_items)
    def check(items):
        apart = [
            {**item, "id": f"{item['id']}-{number}", "quantity": 1}
            for item in items
            for number in range(item["quantity"])
        ]
        one, several = run(items), run(apart)
        for name in ("line", "description", "net", "gross", "packs", "left_over"):
            first, second = ([line[name] for line in answer["pull_list"]] for answer in (one, several))
            assert first == second or first == pytest.approx(second, rel=1e-9)
        assert one["cut_list"] == several["cut_list"]
        for name, whole in one["totals"]["overall"].items():
            assert several["totals"]["overall"][name] == pytest.approx(whole, rel=1e-12)

    check()


def test_more_waste_never_takes_less(run):
    @quick
    @given(job_items, st.floats(0, 1), st.floats(0, 1))
    def check(items, one, other):
        less, more = (run(items, waste=dict.fromkeys(NO_WASTE, share)) for share in sorted((one, other)))
        for before, after in zip(less["pull_list"], more["pull_list"], strict=True):
            assert before["net"] <= after["net"]
            assert before["packs"] <= after["packs"]

    check()


def test_cut_lists_cut_what_is_asked(run):
    """Every piece in its number, bars never above what each rod alone takes, never below their length."""

    @quick
    @given(job_items)
    def check(items):
        for own in run(items)["cut_list"]:
            wanted, cut = defaultdict(int), defaultdict(int)
            for piece in own["pieces"]:
                wanted[piece["length"]] += piece["count"]
            for pattern in own["patterns"]:
                length = sum(piece["length"] * piece["count"] for piece in pattern["pieces"])
                number = sum(piece["count"] for piece in pattern["pieces"])
                assert length + (number - 1) * own["kerf"] / 12 <= own["stock_length"] + 1e-9
                for piece in pattern["pieces"]:
                    cut[piece["length"]] += pattern["bars"] * piece["count"]
            assert cut == wanted
            total = sum(length * count for length, count in wanted.items())
            assert own["bars"] * own["stock_length"] == pytest.approx(total + own["waste_length"])
            assert total / own["stock_length"] - 1e-9 <= own["lower_bound"] <= own["bars"] <= sum(wanted.values())

    check()


def test_units_agree(ask):
    """The same job in metric: lengths in m, volume in mL; counts are the same. 1 ft is 0.3048 m, 1 in3 16.387 mL."""
    us, si = ask(*ITEMS), ask(ITEMS[0], ITEMS[1], ITEMS[2] | {"anchor": ADHESIVE | {"h_ef": "6 in"}}, units="si")
    for before, after in zip(us["pull_list"], si["pull_list"], strict=True):
        factor = 1 if before["unit"] == "piece" else 16.387064
        assert after["net"] == pytest.approx(before["net"] * factor, rel=1e-9)
        assert after["packs"] == before["packs"]
    for name, whole in us["totals"]["overall"].items():
        factor = {"rod_length": 0.3048, "drilled_length": 0.3048, "adhesive_volume": 16.387064}.get(name, 1)
        assert si["totals"]["overall"][name] == pytest.approx(whole * factor, rel=1e-9)
    assert si["cut_list"][0]["pieces"] == [{"length": 0.9144, "count": 30}]
    assert lines(si, "torque_wrench")[0]["description"].endswith("54.2 N·m")
    assert lines(us, "torque_wrench")[0]["description"].endswith("40 ft-lb")


# What may be sent


def test_a_batch_of_hang_points_goes_as_it_is(ask):
    assert PartialItem.__annotations__.keys() <= PartialTakeOffItem.__annotations__.keys()
    assert BatchRequest.__annotations__.keys() <= TakeOffRequest.__annotations__.keys()
    answer = ask(body=BATCH_JSON)
    assert answer["summary"]["counted"] == answer["summary"]["total"] == len(BATCH_JSON["items"])
    assert "rod-without-length" in answer["not_counted"]
    assert not answer["cut_list"]


def test_hang_points_of_hanger_loads(ask, ask_loads):
    points = ask_loads(TRAPEZE | {"rod": {"size": "1/2", "length": "3 ft"}})["items"][0]["hang_points"]
    answer = ask(*points, defaults={"anchor": WEDGE, "rod": {"length": "3 ft"}})
    assert (answer["summary"]["counted"], answer["totals"]["overall"]["rod_length"]) == (2, 6)
    assert request(TRAPEZE)["items"][0]["id"] in points[0]["id"]


def test_a_product_stated_inline(ask):
    answer = ask({"id": "a", "anchor": {"product": INLINE}}, {"id": "b", "anchor": {"product": INLINE}})
    (line,) = lines(answer, "anchor")
    assert (line["product"], line["net"], line["pack"], line["source"]) == ("inline", 2, 1, "common practice")
    assert "no-commercial-data" in answer["not_counted"]
    assert answer["items"][0]["not_counted"] == ["no-rod", "no-commercial-data", "hole-not-stated"]


def test_an_invalid_item_may_have_a_product_of_its_own(ask):
    """Its own, or of the defaults; the other item is counted."""
    bad = {"id": "bad", "rod": {"size": "9/16"}}
    product = {"product": INLINE}
    for own, top in (({"anchor": product}, {}), ({}, {"defaults": {"anchor": product}})):
        answer = ask({**bad, **own}, {"id": "good", "anchor": DROP_IN}, **top)
        assert [each["status"] for each in answer["items"]] == ["invalid", "counted"]
        assert len(answer["request_digest"]) == 64


def test_another_hole_is_another_question(ask):
    """The hole of a product stated inline has a say in the answer, so the digests differ."""
    shallow, deep = (
        {"id": "a", "anchor": {"product": change(INLINE, {"embedment.hole": {"diameter": 0.375, "depth": depth}})}}
        for depth in (3, 3.5)
    )
    assert ask(shallow)["request_digest"] == ask(shallow)["request_digest"] != ask(deep)["request_digest"]


def test_a_bar_that_is_sheared_has_no_kerf(ask):
    """Two rods of 5 ft are a bar of 10 ft where the cut takes nothing, and a bar each where it takes 1/8 in."""
    item = {"id": "a", "anchor": DROP_IN, "quantity": 10, "rod": {"size": "3/8", "length": "5 ft"}}
    for kerf, bars in ((0, 5), ("0 in", 5), ("1/8 in", 10)):
        (cut,) = ask(item, stock={"kerf": kerf})["cut_list"]
        assert cut["bars"] == bars
    assert cut["kerf"] == 0.125


def test_a_product_without_a_hole_in_its_data_says_so(ask):
    """30 holes 3-1/8 in deep are 7.8125 ft; where the data name none, nothing is drilled, and that is said. What is
    cast in or driven has none to name."""
    hole = change(INLINE, {"embedment.hole": {"diameter": 0.375, "depth": 3.125}})
    own = {"anchor": {"product": hole}, "quantity": 30}
    answer = ask({"id": "hole", **own}, {"id": "bolt", "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 4}})
    assert answer["items"][0]["drilled_length"] == pytest.approx(30 * 3.125 / 12)
    assert "hole-not-stated" not in answer["not_counted"]
    silent = ask({"id": "none", "anchor": {"product": INLINE}, "quantity": 30})
    assert silent["totals"]["overall"]["holes"] == 0
    assert "hole-not-stated" in silent["not_counted"]


# What is wrong


@pytest.mark.parametrize(
    ("item", "pointer", "code"),
    [
        ({"anchor": {"family": "nowhere"}}, "#/items/1/anchor/family", "unknown-product"),
        ({"quantity": 0}, "#/items/1/quantity", "greater_than_equal"),
        ({"quantity": 1.5}, "#/items/1/quantity", "int_type"),
        ({"rod": {"length": "3 lb"}}, "#/items/1/rod/length", "quantity"),
        ({"rod": {"length": 0}}, "#/items/1/rod/length", "quantity"),
        ({"rod": {"size": "7/16"}}, "#/items/1/rod/size", "unknown-option"),
        ({"rod": {"ends": {"nut": 2}}}, "#/items/1/rod/ends/nut", "unknown-field"),
        ({"anchor": {"layout": []}}, "#/items/1/anchor/layout", "too_short"),
        ({"area": ""}, "#/items/1/area", "string_too_short"),
    ],
)
def test_a_bad_item_costs_the_others_nothing(ask, item, pointer, code):
    good = ask(ITEMS[0], ITEMS[1])
    own = {name: {**ITEMS[2], "rod": {"size": "3/8"}}.get(name, {}) for name in item}
    bad = {**ITEMS[2], **{n: {**own[n], **v} if isinstance(v, dict) and own[n] else v for n, v in item.items()}}
    answer = ask(ITEMS[0], bad, ITEMS[1])
    errors = answer["items"][1]["problem"]["errors"]
    assert (errors[0]["pointer"], errors[0]["code"]) == (pointer, code)
    assert answer["summary"] == good["summary"] | {"total": 3, "invalid": 1}
    assert answer["pull_list"] == good["pull_list"]
    assert "invalid-items" in answer["not_counted"]


@pytest.mark.parametrize(
    ("top", "pointer"),
    [
        ({"waste": {"anchors": 1.2}}, "#/waste/anchors"),
        ({"waste": {"anchor": 0.1}}, "#/waste/anchor"),
        ({"stock": {"rod_length": 0}}, "#/stock/rod_length"),
        ({"stock": {"kerf": "1 lb"}}, "#/stock/kerf"),
        ({"stock": {"kerf": -0.01}}, "#/stock/kerf"),
        ({"stock": {"rod_length": 3, "shortest_piece": 2}}, "#/stock/shortest_piece"),
        ({"stock": {"packs": {"nuts": 0}}}, "#/stock/packs/nuts"),
        ({"crews": 0}, "#/crews"),
        ({"items": []}, "#/items"),
    ],
)
def test_what_is_wrong_outside_the_items(ask, top, pointer):
    problem = ask(body={"units": "us", "items": ITEMS} | top, status=422)
    assert problem["errors"][0]["pointer"] == pointer


def test_an_id_stands_once(ask):
    assert ask(ITEMS[0], ITEMS[0], status=422)["errors"][0]["pointer"] == "#/items/1/id"


def test_a_size_is_missing(ask):
    answer = ask(ITEMS[2] | {"rod": {"length": "3 ft"}})
    assert answer["items"][0]["problem"]["errors"][0]["pointer"] == "#/items/0/rod/size"
    assert not answer["pull_list"]
    assert answer["totals"]["overall"]["anchors"] == 0


# Words and files


def test_every_word_is_served_and_said(client):
    served = client.get("/v1/quantities").json()["take_offs"]
    for name, members in (
        ("lines", LineKind),
        ("assumptions", TakeOffAssumption),
        ("not_counted", TakeOffNotCounted),
    ):
        assert [each["code"] for each in served[name]] == [each.value.code for each in members]
        assert all(len(each["text"]) > 10 for each in served[name])
    for name, texts in (
        ("pull_list", PULL_TEXTS),
        ("cut_list", CUT_TEXTS),
        ("sums", SUM_TEXTS),
        ("items", ITEM_TEXTS),
    ):
        assert served[name] == dict(texts)
    assert [each.value.code for each in LineKind] == list(LineKindWord.__args__)


def glued_inline():
    """An adhesive product stated inline, with the figures of a family."""
    family = load_catalogue().families["adhesive-slow-rod-36"].model_dump(mode="json", exclude_unset=True)
    size = family["sizes"][0]
    own = {name: value for name, value in size.items() if name != "embedments"}
    return {
        "units": "us",
        "principle": "adhesive",
        "basis": "adhesive",
        "size": own,
        "embedment": size["embedments"][0],
    }


def test_every_word_is_reached(ask):
    pin = next(address for address in load_catalogue().addresses if address.startswith("driven-pin-powder-zinc/0.150"))
    depth = float(pin.rsplit("/", 1)[1])
    answer = ask(
        *ITEMS,
        {"id": "long", "anchor": DROP_IN, "rod": {"size": "1/2", "length": "10'-3\""}},
        {"id": "open", "anchor": {"product": glued_inline()}, "rod": {"size": "3/8"}},
        {"id": "bad", "anchor": {"family": "nowhere"}},
        {"id": "none", "anchor": {"product": INLINE}},
        *({"id": f"way {at}", "alternative_of": "way", "anchor": DROP_IN} for at in (1, 2)),
        {"id": "pin", "anchor": PIN | {"h_ef": depth}},
    )
    assert {line["kind"] for line in answer["pull_list"]} == {each.value.code for each in LineKind}
    assert set(answer["not_counted"]) == {each.value.code for each in TakeOffNotCounted}
    assert set(answer["assumptions"]) == {each.value.code for each in TakeOffAssumption}


def test_the_pull_list_as_csv(client, ask):
    items = [{**ITEMS[0], "id": "=1+1", "area": "=cmd"}, *ITEMS[1:]]
    response = client.post(f"{PATH}?format=csv", json={"units": "us", "items": items})
    assert response.headers["content-type"].startswith("text/csv")
    rows = list(csv.DictReader(io.StringIO(response.text)))
    answer = ask(*items)
    assert list(rows[0]) == list(PULL_TEXTS)
    assert [float(row["gross"]) for row in rows] == [line["gross"] for line in answer["pull_list"]]
    assert [row["description"] for row in rows] == [line["description"] for line in answer["pull_list"]]
    assert rows[0]["waste_percent"] == "5.0"


def test_the_pull_list_as_csv_says_what_is_in_no_count(client):
    items = [ITEMS[0], {"id": "bad", "anchor": {"family": "nowhere"}}]
    response = client.post(f"{PATH}?format=csv", json={"units": "us", "items": items})
    *lines, last = csv.DictReader(io.StringIO(response.text))
    assert all(row["gross"] for row in lines)
    assert (last["kind"], last["line"], last["net"], last["packs"]) == ("not_counted", "", "", "")
    assert last["description"].startswith("bad: ")


def test_the_workbook_has_no_formula(client, ask):
    items = [{**ITEMS[0], "id": "=1+1", "area": "=cmd", "tags": ["@x"]}, *ITEMS[1:]]
    response = client.post(f"{PATH}?format=xlsx", json={"units": "us", "items": items})
    book = openpyxl.load_workbook(io.BytesIO(response.content))
    assert book.sheetnames == [
        "Pull list",
        "By level",
        "By trade",
        "By area",
        "By tag",
        "Cut list",
        "Items",
        "Basis",
    ]
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s", "n"}
    texts = [cell.value for cell in cells if cell.data_type == "s"]
    assert "=1+1" in texts
    assert "=cmd" in texts
    pulled = book["Pull list"]
    assert pulled.max_row == 1 + len(ask(*items)["pull_list"])
    assert [cell.value for cell in pulled[1]][:3] == ["line", "kind", "product"]
    by_level = [[cell.value for cell in row] for row in book["By level"].iter_rows()]
    assert by_level[2][:3] == ["L1", 30, 30]
    assert by_level[4][:3] == ["all items", 44, 44]
    drop_in = next(row for row in by_level if str(row[0]).startswith("Drop-in"))
    assert drop_in[:5] == [drop_in[0], "piece", 30, None, 30]


def test_the_same_job_is_the_same_file(client):
    bodies = [client.post(f"{PATH}?format=xlsx", json={"units": "us", "items": ITEMS}).content for _ in range(2)]
    assert bodies[0] == bodies[1]


@pytest.mark.parametrize(("one", "other"), [(10, "10 ft"), ("0.1 ft", "1.2 in"), ("7'-3 1/2\"", "2222.5 mm")])
def test_one_set_of_anchors_may_be_stated_in_several_units(ask, one, other):
    """Two loads that act one at a time on 30 anchors with 30 rods of a yard."""
    place = {"level": "L1", "y": -2}
    first = {**ITEMS[0], "alternative_of": "SHELF", "at": {**place, "x": one}}
    second = {**first, "id": "A2", "at": {**place, "x": other}, "rod": {"size": "3/8", "length": "0.9144 m"}}
    overall = ask(first, second)["totals"]["overall"]
    assert (overall["points"], overall["anchors"], overall["rods"]) == (30, 30, 30)


def test_what_holds_adhesive_overhead_is_in_no_count(ask):
    """The card of the adhesive asks for piston plug, cap, and wedge or clip."""
    with_it, without = ask(*ITEMS), ask(*ITEMS[:2])
    assert "piston-plugs-caps-wedges" in with_it["items"][2]["not_counted"]
    assert "piston-plugs-caps-wedges" not in without["not_counted"]
