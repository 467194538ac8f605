"""Load maps: loads in their places and their sums by level, by hand from plain forces and from weights of pipes."""

import copy
import json
import math
import random
import re
import time

import pytest

from api.bodies import SLAB
from hangpoint.api.examples_load_maps import LOAD_MAPS_CSV, LOAD_MAPS_JSON
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.vocabulary import LoadMapNote, StructureLoad

PATH = "/v1/load-maps"
KN = 4.4482216152605
"""N in a pound-force; thousands of them are kN."""


def point(name, x=None, y=None, hangs=None, **more):
    """A point whose loads are pairs of nature and tension, or what hangs there."""
    at = {axis: value for axis, value in (("x", x), ("y", y)) if value is not None}
    return {"id": name, "at": {**at, **more.pop("at", {})}, "hangs": hangs or forces(dead=100), **more}


def forces(shear=None, **tensions):
    return {
        "kind": "forces",
        "components": [
            {"nature": nature, "tension": tension} | (shear or {}).get(nature, {})
            for nature, tension in tensions.items()
        ],
    }


def body(*items, **top):
    return {"units": "us", "neighbours": "off", "defaults": SLAB, **top, "items": list(items)}


@pytest.fixture(scope="module")
def ask(client, validator):
    def asked(stated):
        response = client.post(PATH, json=stated)
        assert response.status_code == 200, response.text[:500]
        answer = response.json()
        validator("LoadMapAnswer").validate(answer)
        summary = answer["summary"]
        assert summary["total"] == len(answer["items"]) == len(stated["items"])
        assert summary["passed"] + summary["failed"] + summary["refused"] + summary["invalid"] == summary["total"]
        assert summary["placed"] + summary["not_placed"] + summary["invalid"] == summary["total"]
        assert [each["index"] for each in answer["items"]] == list(range(summary["total"]))
        return answer

    return asked


def both(pulls, pushes=0.0):
    return {"pulls": pytest.approx(pulls), "pushes": pytest.approx(pushes)}


@pytest.mark.parametrize(("more", "titles"), [({}, ["snow", "test"]), ({"wind": -5}, ["other natures"])])
def test_a_table_with_many_natures_has_one_column_of_them(client, more, titles):
    """With a column for each of six the ids stood a letter a line. No figure is lost by it."""
    stated = body(point("A", 1, 2, forces(dead=100, snow=20)), point("B", 9, 2, forces(dead=30, test=40, **more)))
    page = client.post(f"{PATH}?format=html", json=stated).text
    table = page[page.index('<table class="points">') :].split("</table>")[0]
    head = re.findall(r"<th[^>]*>([^<]*)</th>", table)
    assert head[head.index("live") + 1 : head.index("on structure")] == titles
    cells = [re.findall(r"<td[^>]*>([^<]*)</td>", row)[head.index("live") + 1 :] for row in table.split("<tr>")[2:]]
    shown = [row[: len(titles)] for row in cells]
    assert shown == ([["snow 20.0"], ["wind −5.0; test 40.0"]] if more else [["20.0", "0"], ["0", "40.0"]])


def test_sums_of_plain_forces(ask):
    """120 + 80, 30 and 45 lb; on the structure 120 + 30 + 45 and 80 lb, the test and the snow in neither."""
    answer = ask(
        body(
            point("A", 10, 5, forces(dead=120, contents=30, live=45, test=60)),
            point("B", 40, 25, forces(dead=80, snow=70)),
        )
    )
    (level,) = answer["levels"]
    assert level["service"] == {
        "dead": both(200),
        "contents": both(30),
        "live": both(45),
        "sprinkler": both(0),
        "snow": both(70),
        "test": both(60),
    }
    assert level["on_structure"] == both(275)
    assert level["extent"] == {"x_from": 10, "x_to": 40, "y_from": 5, "y_to": 25}
    first, second = answer["items"]
    assert (first["on_structure"], second["on_structure"]) == (pytest.approx(195), pytest.approx(80))
    assert (first["on_structure_by"], first["beside"], second["beside"]) == ("service", ["test"], ["snow"])
    assert "natures-beside-the-load-on-the-structure" in answer["notes"]
    assert first["number"] == 1
    assert second["number"] == 2


def test_loads_that_push_take_nothing_off(ask):
    """A: 100 dead, 40 of contents and 30 of live that push: pulls 100, pushes nothing (100 - 70 is still a pull).

    B: 50 that lift and 20 of live that pull: pulls nothing (-50 + 20), pushes 50. C: 200. So 300 pull, 50 push.
    """
    answer = ask(
        body(
            point("A", 0, 0, forces(dead=100, contents=-40, live=-30)),
            point("B", 1, 0, forces(dead=-50, live=20)),
            point("C", 2, 0, forces(dead=200)),
        )
    )
    (level,) = answer["levels"]
    assert level["on_structure"] == both(300, -50)
    assert level["service"]["dead"] == both(300, -50)
    assert level["service"]["contents"] == both(0, -40)
    assert level["service"]["live"] == both(20, -30)
    a, b, c = answer["items"]
    assert [each["on_structure"] for each in (a, b, c)] == pytest.approx([100, 0, 200])
    assert b["push_on_structure"] == pytest.approx(-50)
    assert "push_on_structure" not in a
    assert "push_on_structure" not in c


def test_what_stands_on_a_top_pushes_with_all_of_it(ask):
    """100 lb of dead load and 60 lb of contents on a floor: 160 lb towards the base, none away from it."""
    own = point("A", 0, 0, forces(dead=-100, contents=-60), base={"face": "top"})
    (level,) = ask(body(own))["levels"]
    assert level["face"] == "top"
    assert level["on_structure"] == both(0, -160)


def test_service_shear_of_a_bracket(ask):
    """On a wall 240 lb down of dead load; live load of 40 lb up takes nothing off, and 25 lb along x are its own."""
    shear = {"dead": {"shear_y": -240}, "live": {"shear_y": 40, "shear_x": 25}}
    (item,) = ask(body(point("A", 0, 0, forces(dead=60, live=0, shear=shear), base={"face": "side"})))["items"]
    assert (item["shear_x"], item["shear_y"]) == (pytest.approx(25), pytest.approx(-240))
    assert item["on_structure"] == pytest.approx(60)


MAIN = {
    "kind": "pipe",
    "material": "steel",
    "size": "4",
    "schedule": "10",
    "contents": "water",
    "sprinkler": True,
    "run": {"spans": ["12 ft", "12 ft"], "support": 1, "model": "tributary"},
}


def test_sprinkler_point_loads_the_structure_with_its_weight_once(ask):
    """4 in schedule 10: 5.613 lb/ft (ASME B36.10M) and water in 4.5 - 2 x 0.120 in, 62.4 lb/ft3, on 12 ft.

    W + 250 = 391.5 lb on the structure; the anchor is checked with 5 W + 250 = 957 lb. Tolerance: the rounding of the
    weight and of the density.
    """
    weight = 12 * (5.613 + 62.4 * math.pi / 4 * 4.26**2 / 144)
    answer = ask(body(point("A", 0, 0, MAIN, rod={"size": "1/2"})))
    (item,) = answer["items"]
    assert item["on_structure"] == pytest.approx(weight + 250, rel=1e-3)
    assert item["on_structure_by"] == "sprinkler_standard"
    assert item["demand"]["factored_tension"] == pytest.approx(5 * weight + 250, rel=2e-3)
    (level,) = answer["levels"]
    assert level["service"]["sprinkler"] == both(250)
    assert level["on_structure"]["pulls"] == pytest.approx(weight + 250, rel=1e-3)
    assert "sprinkler-load-on-the-structure" in answer["notes"]


@pytest.mark.parametrize(
    ("loads", "expected"),
    [
        ({"dead": 60, "contents": 80, "sprinkler_rule": 950}, 390),  # W = (950 - 250) / 5 = 140, stated too
        ({"dead": 60, "contents": 80, "live": 250, "sprinkler_rule": 950}, 390),  # the 250 lb are stated as live load
        ({"sprinkler_rule": 950}, 390),  # nothing but the rule
        ({"dead": 300, "sprinkler_rule": 950}, 550),  # other lines on the same bar: 300 + 250
        ({"dead": 60, "live": 400, "sprinkler_rule": 950}, 540),  # 140 + 400
        ({"sprinkler_rule": 200}, 200),  # less than the 250 lb: all of it
    ],
)
def test_stated_sprinkler_rule(ask, loads, expected):
    """1 x weight + 250 lb is in the load on the structure, whichever natures state it; five times it never."""
    (item,) = ask(body(point("A", 0, 0, forces(**loads))))["items"]
    assert item["on_structure"] == pytest.approx(expected)
    assert item["on_structure_by"] == "sprinkler_standard"
    assert item["service"]["sprinkler_rule"] == pytest.approx(loads["sprinkler_rule"])


def test_points_without_both_coordinates_are_listed_and_summed(ask):
    answer = ask(body(point("A", 1, 1), point("B", 7), point("C"), point("D", 3, 3)))
    assert [each["placed"] for each in answer["items"]] == [True, False, False, True]
    assert (answer["summary"]["placed"], answer["summary"]["not_placed"]) == (2, 2)
    (level,) = answer["levels"]
    assert (level["points"], level["placed"], level["on_structure"]) == (4, 2, both(400))
    assert level["extent"] == {"x_from": 1, "x_to": 3, "y_from": 1, "y_to": 3}
    assert answer["items"][1]["x"] == 7
    assert "points-not-placed" in answer["notes"]


def test_an_invalid_item_costs_only_itself(ask):
    answer = ask(body(point("A", 1, 1), point("B", 2, 2, base={"thickness": "1 in"}), {"id": "C", "hangs": 3}))
    assert [each["status"] for each in answer["items"]] == ["passed", "invalid", "invalid"]
    assert answer["items"][1]["problem"]["errors"]
    assert answer["levels"][0]["on_structure"] == both(100)
    assert answer["summary"]["levels"] == 1
    assert "invalid-points-left-out" in answer["notes"]


def test_failed_and_refused_points_hang_from_the_structure_too(ask):
    """9,000 lb that no such anchor holds, and wind that lifts at one that isn't made for it: 9,000 + 100."""
    lone = {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}
    answer = ask(body(point("A", 1, 1, forces(dead=9000)), point("B", 2, 2, anchor=lone)))
    assert [each["status"] for each in answer["items"]] == ["failed", "refused"]
    assert answer["levels"][0]["on_structure"] == both(9100)
    assert "loads-of-points-that-do-not-pass" in answer["notes"]


def test_factored_loads_have_no_service_load(ask):
    answer = ask(
        body(point("A", 1, 1, forces(dead=900, shear={"dead": {"shear_x": 30}})), combinations="given_factored")
    )
    (item,), (level,) = answer["items"], answer["levels"]
    assert answer["loads"] == "factored_only"
    assert not {"service", "on_structure", "on_structure_by", "beside", "shear_x"} & item.keys()
    assert not {"service", "on_structure"} & level.keys()
    assert (item["demand"]["factored_tension"], item["demand"]["factored_shear"]) == pytest.approx((900, 30))
    assert "factored-loads-only" in answer["notes"]
    assert "service-loads-unfactored" not in answer["notes"]


def test_a_pull_on_a_wall_says_which_way(ask, client):
    """-270 degrees are 90. Of walls that look to two sides the sum is of amounts, and says so."""
    walls = [point(name, 1, 1, base={"face": "side", "facing": way}) for name, way in (("A", -270), ("B", 180))]
    stated = body(*walls, point("C", 1, 1, base={"face": "side"}), point("D", 2, 2), defaults={**SLAB})
    items = ask(stated)["items"]
    assert [each.get("facing") for each in items] == [90, 180, None, None]
    assert "add up whichever way their faces look" in client.post(f"{PATH}?format=html", json=stated).text
    schedule = client.post("/v1/submittals", json=stated).json()["schedule"]
    assert [each.get("facing") for each in schedule] == [90, 180, None, None]


def test_levels_come_in_the_order_in_which_each_first_appears(ask):
    """Names that differ by case and spaces alone are one; a face is a map of its own, and so is a lone member."""
    answer = ask(
        body(
            point("A", 1, 1, at={"level": "L3"}),
            point("B", 1, 1),
            point("C", 1, 1, at={"level": " l3 "}, base={"member": "B1"}),
            point("D", 1, 1, base={"face": "side"}),
            defaults={**SLAB},
        )
    )
    assert [(each["name"], each["face"], each["points"]) for each in answer["levels"]] == [
        ("L3", "soffit", 2),
        ("L2", "soffit", 1),
        ("L2", "side", 1),
    ]
    assert [each["map"] for each in answer["items"]] == [0, 1, 0, 2]
    assert [(each["member"], each["points"]) for each in answer["levels"][0]["members"]] == [(None, 1), ("B1", 1)]
    bare = {name: own for name, own in SLAB.items() if name != "at"}
    answer = ask(body(point("A", 1, 1, base={"member": "B1"}), point("B", 2, 2), defaults=bare))
    assert [(each["name"], each["named_by"]) for each in answer["levels"]] == [("B1", "member"), (None, "nothing")]


def test_the_same_loads_in_si(ask):
    """100 lb at 10 ft and 20 ft are 0.44482 kN at 3.048 m and 6.096 m."""
    items = (point("A", "10 ft", "20 ft", forces(dead="100 lb", live="40 lb", wind="-30 lb")),)
    us, si = ask(body(*items)), ask(body(*items, units="si"))
    assert si["units"]["force"] == "kN"
    for name, load in us["items"][0]["service"].items():
        assert si["items"][0]["service"][name] == pytest.approx(load * KN / 1000)
    assert si["levels"][0]["on_structure"] == both(140 * KN / 1000)
    assert si["levels"][0]["extent"]["x_from"] == pytest.approx(3.048)
    assert si["levels"][0]["extent"]["y_to"] == pytest.approx(6.096)


def test_what_the_check_says_is_what_the_map_says(ask, client):
    """The verdict and the loads are those of the check of the same body, whose neighbours are looked at too."""
    stated = body(*(point(f"P{at}", at / 4, 0, forces(dead=1500)) for at in range(4)), neighbours="check")
    checked = client.post("/v1/hang-points", json=stated).json()
    answer = ask(stated)
    assert any("neighbours" in each for each in checked["items"])
    for one, other in zip(answer["items"], checked["items"], strict=True):
        assert one["status"] == other["status"]
        assert one["utilisation"] == other["governing"]["utilisation"]
        assert one["demand"] == {name: other["demand"][name] for name in one["demand"]}
    assert answer["assumptions"] == checked["assumptions"]


def test_limits_of_the_structural_notes_come_along(ask):
    (found,) = ask(body(point("A", 1, 1), structural_limits=[{"id": "N", "most_total": 90}]))["structural_limits"]
    assert found["status"] == "exceeded"


def many(count, seed=3):
    rng = random.Random(seed)
    return [point(f"IC-{at:04d}", rng.uniform(0, 300), rng.uniform(0, 120)) for at in range(count)]


def test_a_thousand_points_are_quick(client):
    """A second of processor time is some ten times what it takes."""
    client.post(PATH, json=body(*many(5)))
    content = json.dumps(body(*many(1000)))
    begun = time.process_time()
    response = client.post(PATH, content=content, headers={"content-type": "application/json"})
    assert time.process_time() - begun < 1.0
    assert response.json()["levels"][0]["on_structure"] == both(100_000)


def test_blocks_of_a_check_are_one_map(ask):
    """2,100 points are checked in three blocks; each is there once, and the sums are of all."""
    answer = ask(body(*many(2100)))
    assert [each["number"] for each in answer["items"]] == list(range(1, 2101))
    assert answer["levels"][0]["points"] == 2100
    assert answer["levels"][0]["on_structure"] == both(210_000)


def test_csv_says_what_json_says(ask, client, validator):
    query = "?project.name=Invented%20clinic&combinations=strength&default.base.strength.f_c=4000%20psi&units=us"
    response = client.post(PATH + query, content=LOAD_MAPS_CSV, headers={"content-type": "text/csv"})
    assert response.status_code == 200, response.text
    answer = response.json()
    validator("LoadMapAnswer").validate(answer)
    assert answer["project"] == {"name": "Invented clinic"}
    assert answer["levels"][0]["on_structure"] == both(440)
    assert [(each["x"], each["y"]) for each in answer["items"]] == [(10, 6), (22, 6)]
    bad = LOAD_MAPS_CSV.replace("IC-L2-01,L2,10", "IC-L2-01,L2,ten")
    answer = client.post(PATH, content=bad, headers={"content-type": "text/csv"}).json()
    assert [each["status"] for each in answer["items"]] == ["invalid", "passed"]
    shown = client.post(f"{PATH}?format=html", content=LOAD_MAPS_CSV, headers={"content-type": "text/csv"})
    assert "<svg" in shown.text
    assert "not read" not in shown.text


def test_columns_that_are_not_read_are_named(client, validator):
    head, *rows = LOAD_MAPS_CSV.splitlines()
    noted = "\n".join([f"{head},Notes <A>", *(f"{row},see detail 5" for row in rows)])
    answer = client.post(PATH, content=noted, headers={"content-type": "text/csv"}).json()
    validator("LoadMapAnswer").validate(answer)
    assert answer["columns_not_read"] == ["Notes <A>"]
    shown = client.post(f"{PATH}?format=html", content=noted, headers={"content-type": "text/csv"}).text
    assert "Columns of the CSV that were not read</h2><ul><li>Notes &lt;A&gt;</li></ul>" in shown
    assert "whatever its quantity" not in shown


def test_sums_say_that_a_quantity_is_not_in_them(client):
    """Else the load on the structure of 40 hangers would be read as that of one."""
    head, *rows = LOAD_MAPS_CSV.splitlines()
    counted = "\n".join([f"{head},Quantity", *(f"{row},40" for row in rows)])
    shown = client.post(f"{PATH}?format=html", content=counted, headers={"content-type": "text/csv"}).text
    assert (
        "Each row is one point, whatever its quantity" in shown.split("Sums of service loads")[1].split("</section>")[0]
    )


@pytest.mark.parametrize(
    ("query", "media"),
    [
        ("?fromat=html", "application/json"),
        ("?format=xlsx", "application/json"),
        ("?project.name=A", "application/json"),
        ("?project.nmae=A", "text/csv"),
        ("?combinations=strenght", "text/csv"),
        ("?echo=true", "text/csv"),
    ],
)
def test_a_wrong_query_is_refused(client, query, media):
    content = LOAD_MAPS_CSV if media == "text/csv" else json.dumps(LOAD_MAPS_JSON)
    response = client.post(PATH + query, content=content, headers={"content-type": media})
    assert response.status_code in (406, 422), response.text
    assert response.headers["content-type"] == "application/problem+json"


def test_a_pdf_is_made_and_a_long_one_refused(client):
    made = client.post(f"{PATH}?format=pdf", json=LOAD_MAPS_JSON)
    assert made.status_code == 200
    assert made.content.startswith(b"%PDF-")
    most = client.get("/v1/limits").json()["pdf_sheets"]
    levels = [point(f"P{at}", at={"level": f"L{at}"}) for at in range(most)]
    refused = client.post(f"{PATH}?format=pdf", json=body(*levels))
    assert (refused.status_code, refused.json()["received"]) == (413, most + 1)
    most = client.get("/v1/limits").json()["page_sheets"]
    levels = [point(f"P{at}", at={"level": f"L{at}"}) for at in range(most)]
    refused = client.post(f"{PATH}?format=html", json=body(*levels))
    assert (refused.status_code, refused.json()["received"]) == (413, most + 1)
    assert client.post(f"{PATH}?format=html", json=body(*levels[1:])).status_code == 200


def test_words_are_served(client):
    served = client.get("/v1/quantities").json()["load_maps"]
    for name, vocabulary in (("notes", LoadMapNote), ("on_structure_by", StructureLoad)):
        assert served[name] == [
            {"code": each.value.code, "text": each.value.text, "clause": each.value.clause} for each in vocabulary
        ]


def test_every_nature_of_a_request_is_somewhere_on_the_map(ask, app):
    natures = app.openapi()["components"]["schemas"]["LoadNature"]["enum"]
    loads = {nature: 10.0 + at for at, nature in enumerate(natures)}
    assert set(natures) == {"dead", "contents", "live", "earthquake", *TRANSIENT}
    answer = ask(body(point("A", 0, 0, forces(**loads), seismic={"s_ds": 0.2})))
    (item,) = answer["items"]
    assert "earthquake-at-strength-level" in answer["notes"]
    assert {name: item["service"][name] for name in natures} == pytest.approx(loads)


def test_the_request_is_left_as_it_is(ask):
    stated = copy.deepcopy(LOAD_MAPS_JSON)
    first = ask(stated)
    assert stated == LOAD_MAPS_JSON
    assert ask(stated) == first
