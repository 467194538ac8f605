"""Points that are one set of anchors under loads that act one at a time: each anchor is counted once, by hand.

The unit: 800 lb on four anchors, pushed by 200 lb of wind in any direction, which makes four points of it. Its shelf on
a soffit: 300 lb of dead load in every case, and 40, 90 or no pounds of snow with it.
"""

import pytest

from api.bodies import SLAB
from api.hanger_bodies import conforms

UNIT = {
    "id": "UNIT",
    "kind": "floor_equipment",
    "at": {"level": "L2"},
    "weight": 800,
    "centre_of_gravity": {"x": 0, "y": 0, "z": 20},
    "anchors_at": [{"x": x, "y": y} for x, y in ((-20, -10), (20, -10), (20, 10), (-20, 10))],
    "horizontal": [{"nature": "wind", "force": 200, "at": {"z": 25}}],
}
PRODUCT = {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}
FLOOR = {
    "anchor": PRODUCT,
    "base": {**SLAB["base"], "face": "top"},
    "attachment": {"plate": {"width_x": 50, "width_y": 30, "support": "concrete"}, "thickness": 1},
    "seismic": {"category": "B"},
}


def shelf(name, snow, **more):
    parts = [("dead", 300), *([("snow", snow)] if snow else [])]
    loads = [{"nature": nature, "tension": tension} for nature, tension in parts]
    return {"id": name, "at": {"level": "L2"}, "hangs": {"kind": "forces", "components": loads}, **more}


SHELF = [shelf(f"SHELF/{at}", snow, alternative_of="SHELF") for at, snow in enumerate((40, 90, 0))]


@pytest.fixture(scope="module")
def handed_on(client, validator):
    answer = client.post("/v1/fixtures", json={"units": "us", "items": [UNIT]}).json()
    conforms(validator("FixturesAnswer"), answer)
    return answer["items"][0]["hang_points"]


@pytest.fixture(scope="module")
def post(client, validator):
    def posted(path, schema, items, **top):
        response = client.post(path, json={"units": "us", **top, "items": items})
        assert response.status_code == 200, response.text[:800]
        conforms(validator(schema), response.json())
        return response.json()

    return posted


def test_each_direction_names_its_fixture(handed_on):
    assert [each["id"] for each in handed_on] == ["UNIT/0", "UNIT/90", "UNIT/180", "UNIT/270"]
    assert {each["alternative_of"] for each in handed_on} == {"UNIT"}


def test_a_fixture_of_one_direction_names_none(client):
    one = UNIT | {"horizontal": [UNIT["horizontal"][0] | {"direction": 90}]}
    (point,) = client.post("/v1/fixtures", json={"units": "us", "items": [one]}).json()["items"][0]["hang_points"]
    assert "alternative_of" not in point


def test_a_take_off_counts_the_anchors_of_a_fixture_once(post, handed_on):
    found = post("/v1/take-offs", "TakeOffAnswer", handed_on, defaults={"anchor": PRODUCT})
    assert found["totals"]["overall"]["anchors"] == 4
    assert found["totals"]["overall"]["points"] == 1
    assert next(line["net"] for line in found["pull_list"] if line["kind"] == "anchor") == 4
    assert [item["anchors"] for item in found["items"]] == [4, 0, 0, 0]
    assert ["counted-with-another-item" in item["not_counted"] for item in found["items"]] == [False, True, True, True]
    assert "counted-with-another-item" in found["not_counted"]


@pytest.mark.parametrize(("last", "tested"), [(280, ["SHELF/1"]), (28000, [])])
def test_a_plan_of_tests_pulls_an_anchor_once(post, last, tested):
    """Of what may hang there the heaviest is the load of the test; none while one of them does not pass."""
    weights = [300, 320, last]
    items = [
        {
            "id": f"SHELF/{at}",
            "hangs": {"kind": "weight", "weight": weight, "nature": "dead"},
            "alternative_of": "SHELF",
        }
        for at, weight in enumerate(weights)
    ]
    top = {"defaults": SLAB | {"anchor": PRODUCT}, "test_rule": "one_and_a_half_working_load"}
    plan = post("/v1/submittals", "SubmittalAnswer", items, **top)["test_plan"]
    assert [each["id"] for each in plan["items"]] == tested
    reason = "same-anchors-as-another" if tested else "not-passed"
    assert {each["reason"]["code"] for each in plan["not_tested"]} == {reason}
    assert len(plan["not_tested"]) == 3 - len(tested)


def test_items_of_one_name_with_other_anchors_are_counted(post, handed_on):
    """Another product, number of points or place is another set of anchors, whatever the name says."""
    other = PRODUCT | {"h_ef": "2 in"}
    items = [*handed_on[:2], handed_on[2] | {"anchor": {**handed_on[2]["anchor"], **other}}]
    items += [handed_on[3] | {"quantity": 3}, handed_on[0] | {"id": "ELSEWHERE", "at": {"level": "L3"}}]
    found = post("/v1/take-offs", "TakeOffAnswer", items, defaults={"anchor": PRODUCT})
    assert [item["anchors"] for item in found["items"]] == [4, 0, 4, 12, 4]


def test_a_load_map_has_the_weight_of_a_fixture_once(post, handed_on):
    found = post("/v1/load-maps", "LoadMapAnswer", handed_on, defaults=FLOOR)
    (level,) = found["levels"]
    assert level["points"] == 1
    assert level["service"]["dead"] == {"pulls": 0, "pushes": pytest.approx(-800)}
    assert level["on_structure"]["pushes"] == pytest.approx(-800)
    assert [item["alternative_of"] for item in found["items"]] == ["UNIT"] * 4
    assert "alternatives-counted-once" in found["notes"]


def test_a_load_map_sums_the_largest_of_each_nature(post):
    found = post("/v1/load-maps", "LoadMapAnswer", [*SHELF, shelf("ALONE", 10)], defaults=SLAB)
    (level,) = found["levels"]
    assert level["points"] == 2
    assert level["service"]["dead"]["pulls"] == pytest.approx(600)
    assert level["service"]["snow"]["pulls"] == pytest.approx(100)
    assert level["on_structure"]["pulls"] == pytest.approx(600)
    assert level["members"][0]["service"]["dead"]["pulls"] == pytest.approx(600)


@pytest.mark.parametrize(("most", "status"), [(600, "undecided"), (599, "exceeded")])
def test_a_limit_of_the_notes_counts_them_once(post, most, status):
    """300 lb of the shelf and 300 lb of the other point; snow stands beside them, so that it is never kept."""
    limits = [{"id": "BAY", "level": "L2", "most_total": most}]
    items = [*SHELF, shelf("ALONE", 10)]
    found = post("/v1/hang-points", "Answer", items, defaults=SLAB, structural_limits=limits)
    (limit,) = found["structural_limits"]
    assert limit["total"] == pytest.approx(600)
    assert limit["status"] == status


def test_a_name_is_one_however_it_is_spelt(post):
    items = [SHELF[0], SHELF[1] | {"alternative_of": " shelf "}]
    (level,) = post("/v1/load-maps", "LoadMapAnswer", items, defaults=SLAB)["levels"]
    assert level["points"] == 1


def test_a_place_is_one_in_whatever_unit_it_is_stated(post):
    items = [shelf(x, 10, alternative_of="A") | {"at": {"level": "L2", "x": x, "y": 0}} for x in ("0.1 ft", "1.2 in")]
    (level,) = post("/v1/load-maps", "LoadMapAnswer", items, defaults=SLAB, neighbours="off")["levels"]
    assert (level["points"], level["placed"]) == (1, 1)
    assert level["on_structure"]["pulls"] == pytest.approx(300)


def test_a_column_of_a_csv_states_it(client):
    edges = ",".join(f"edge_{axis}_{side}" for axis in "xy" for side in ("minus", "plus"))
    rows = "id,hangs.kind,hangs.weight [lb],hangs.nature,level,family,anchor_size,h_ef [in],base.kind,f_c [psi],"
    rows += f"base.density,thickness [in],{edges},seismic_category,alternative_of\n"
    cells = "dead,L1,drop-in-zinc,3/8,1-5/8,concrete,4000,normalweight,8,none,none,none,none,B,A"
    rows += "".join(f"A{at},weight,{100 + at},{cells}\n" for at in range(3))
    headers = {"Content-Type": "text/csv", "Accept": "application/json"}
    found = client.post("/v1/load-maps?units=us", content=rows, headers=headers).json()
    (level,) = found["levels"]
    assert level["points"] == 1
    assert level["service"]["dead"]["pulls"] == pytest.approx(102)


def test_the_digest_knows_it(post):
    with_it, without = (
        post("/v1/hang-points", "Answer", items, defaults=SLAB)["request_digest"]
        for items in (SHELF, [{key: own for key, own in each.items() if key != "alternative_of"} for each in SHELF])
    )
    assert with_it != without
