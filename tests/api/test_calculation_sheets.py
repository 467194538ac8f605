"""Calculation sheets over the API: every number and sentence of the answer is on them, and HTML is safe."""

import csv
import io
import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from api.bodies import BATCH_JSON, INLINE, SINGLE_JSON, as_lines, item, single
from hangpoint.api import pdf_files
from hangpoint.api.examples import BATCH_CSV, GROUP_JSON
from hangpoint.report.calculation.mathml import number, sentence
from hangpoint.report.calculation.stated import place_words, value_words

SINGLE, GROUP, BATCH = "/v1/hang-point", "/v1/anchor-group", "/v1/hang-points"
EXAMPLES = Path(__file__).parents[2] / "examples" / "requests"
ROW = {"pattern": "row", "count": 3, "spacing": "3 in"}


@pytest.fixture
def sheet(client):
    """The page of a body, read as XML, and its text."""

    def post(body, path=SINGLE, *, media="application/json", query="?format=html"):
        content = body if isinstance(body, str) else json.dumps(body)
        response = client.post(path + query, content=content, headers={"content-type": media})
        assert response.status_code == 200, response.text[:400]
        assert response.headers["content-type"] == "text/html; charset=utf-8"
        assert response.headers["content-disposition"] == 'inline; filename="calculation.html"'
        text = response.text.removeprefix("<!DOCTYPE html>\n").replace("&nbsp;", " ")
        return ElementTree.fromstring(re.sub(r"<(meta|col) ([^>]*)>", r"<\1 \2/>", text))  # noqa: S314

    return post


def words(node):
    return " ".join("".join(node.itertext()).split())


def test_a_sheet_has_every_number_and_sentence_of_the_answer(sheet, send_one):
    answer = send_one(SINGLE_JSON, status=200)
    page = words(sheet(SINGLE_JSON))
    (result,) = answer["items"]
    for section in result["trace"]:
        assert section["title"][1:] in page
        for line in section["lines"]:
            if line["value"] == 0 and "mode" not in section:
                continue
            assert line.get("clause", "") in page
            if isinstance(line["value"], float):
                assert number(line["value"]) in page, line
    for mode in result["modes"]:
        if mode["applies"]:
            for name in ("design_strength", "demand"):
                assert number(mode[name]) in page
            assert f"{mode['utilisation']:.1%}" in page
    for kind in ("assumptions", "not_checked"):
        assert all(text in page for text in answer[kind].values())
    assert all(each in page for each in answer["cautions"])
    for text in (answer["request_digest"], answer["catalogue"]["hash"], result["product"]["address"], "Engineer, seal"):
        assert text in page
    assert result["governing"]["text"] in page


def test_what_was_stated_is_on_it_as_stated(sheet):
    facts = stated(sheet(SINGLE_JSON))
    assert facts["base, edge, at +x"] == str(SINGLE_JSON["item"]["base"]["edges"]["x_plus"])
    leaves = list(places(SINGLE_JSON["item"]))
    assert {as_words(each) for each in leaves} - {"id"} == facts.keys()
    assert not [each for each in facts if "." in each or "_" in each]


def places(value, at=""):
    if isinstance(value, dict):
        for name, own in value.items():
            yield from places(own, f"{at}.{name}" if at else name)
    else:
        yield at


def as_words(place):
    """A place as a sheet has it, the index of a symbol behind it."""
    return place_words(place).replace("_", "").replace("'", "′")


@pytest.mark.parametrize(
    ("place", "shown"),
    [
        ("hangs.components.0.shear_x", "hangs, component 1, shear x"),
        ("hangs.load_cases.1.components.2.nature", "hangs, load case 2, component 3, nature"),
        ("base.strength.f_c", "base, strength, f'_c"),
        ("base.edges.x_minus", "base, edge, at −x"),
    ],
)
def test_places_are_words(place, shown):
    assert place_words(place) == shown


@pytest.mark.parametrize(
    ("place", "text", "shown"),
    [
        ("hangs.run.spacing_rule", "sp58_water", "sp58 water"),
        ("base.member", "slab_2", "slab_2"),
        ("tags", "a_b", "a_b"),
        ("hangs.components.0.nature", "roof_live", "roof live"),
    ],
)
def test_codes_are_words_and_names_stay_as_they_are(place, text, shown):
    assert value_words(place, text) == shown


def stated(page):
    section = next(each for each in page.iter("section") if each[0].text == "As stated")
    return {words(each.find("dt")): each.find("dd").text for each in section.iter("div")}


def test_defaults_are_told_from_what_the_item_states(sheet):
    body = {"units": "us", "defaults": {"seismic": {"category": "B"}}, "items": [item(seismic={})]}
    facts = stated(sheet(body, BATCH))
    assert facts["seismic, category"] == "B (default)"
    assert not facts["base, thickness"].endswith("(default)")


def test_a_product_stated_inline_is_on_it_as_stated(sheet):
    page = sheet({"units": "us", "item": item(anchor={"product": INLINE})})
    assert "those of the product are in the units that it names." in words(page)
    facts = stated(page)
    own = {as_words(f"anchor.product.{place}") for place in places(INLINE)}
    assert own <= facts.keys()
    assert not any("None" in text for text in facts.values())


def test_every_item_has_a_sheet_and_none_costs_another(sheet):
    """One that holds, one that can't be checked, one that is wrong, one that is no object."""
    good, refused = item(id="good"), item(id="refused", base={"kind": "wood", "face": "soffit"})
    wrong = item(id="wrong", base__thickness="8 lb")
    page = sheet({"units": "us", "items": [good, refused, wrong, 5]}, BATCH)
    articles = list(page.iter("article"))
    leads = [words(next(each for each in one.iter("strong"))) for one in articles]
    assert leads == ["Holds, on the assumptions listed below", "Not checked", "Not understood", "Not understood"]
    assert [len(list(one.iter("svg"))) for one in articles] == [2, 0, 0, 0]
    assert "#/items/2/base/thickness" in words(articles[2])
    assert [next(one.iter("h1")).text for one in articles] == ["good", "refused", "wrong", "row 4"]


def verdict(article):
    return words(next(each for each in article.iter("div") if each.get("class") == "verdict"))


def test_a_verdict_says_why_a_point_does_not_hold(sheet):
    """A violation with value, limit and clause before what is used; nothing governs where something else decides."""
    body = json.loads((EXAMPLES / "batch.json").read_text("utf-8"))
    holds, too_near, too_heavy, refused, misspelt, _ = map(verdict, sheet(body, BATCH).iter("article"))
    assert holds.endswith("30.8% used: threaded rod, allowable load against the service load governs (service).")
    cause = too_near.index("Here 2 in, limit 3 in. (17.9.2)")
    assert cause < too_near.index("Of the strengths computed 30.8% is used at most")
    assert "330.4% used: threaded rod, allowable load against the service load governs" in too_heavy
    assert refused.index("not qualified in cracked concrete") < refused.index("Of what could be computed 30.8% is used")
    assert not any("governs" in each for each in (too_near, refused, misspelt))
    assert "Possible: wedge-expansion-zinc/3/8/2.5, " in misspelt


PROJECT = {"name": "<Clinic>", "number": "24-017", "revision": "B", "date": "2024-05-02", "prepared_by": "A. N."}


def test_loads_of_0_are_left_out_and_said_to_be(sheet, send_one):
    """A point that live load hangs from too prints its lines; the trace has all lines of both."""

    def page_of(components):
        body = single(hangs={"kind": "forces", "components": components})
        return words(sheet(body)), send_one({**body, "detail": "trace"}, status=200)["items"][0]

    dead, live = {"nature": "dead", "tension": "100 lb"}, {"nature": "live", "tension": "50 lb"}
    first, alone = page_of([dead])
    second, both = page_of([dead, live])
    assert "Loads that are 0 are left out" in first
    assert "N, dead = 100 lbf" in first
    assert "N, live" not in first
    assert "γ of live load" not in first
    assert "N, live = 50 lbf" in second
    assert "γ of live load" in second
    for point in (alone, both):
        (loads,) = (each for each in point["trace"] if each["record"] == "AnchorDemand")
        assert {"n_dead", "n_live", "gamma_live"} <= {line["name"] for line in loads["lines"]}


@pytest.fixture
def bracket():
    """Four anchors under a plate, of which the load presses one."""
    return json.loads((EXAMPLES / "anchor_group.json").read_text("utf-8"))


def tables_of_anchors(page):
    """The titles and lines of each table with a line for each anchor, by the heading of its section."""
    for section in page.iter("section"):
        for table in section.iter("table"):
            first, *lines = [[words(cell) for cell in row] for row in table.iter("tr")]
            if first[0] == "Anchor":
                yield words(section[0]), first, lines


def test_what_the_anchors_of_a_layout_have_alike_stands_once(sheet, send, bracket):
    """The numbers of each anchor are those of its own section of the trace."""
    result = send({**bracket, "detail": "trace"}, GROUP, status=200)["items"][0]
    plate, shear = tables_of_anchors(sheet(bracket, GROUP))
    assert "6 to 9. Anchor of a rigid plate" in plate[0]
    assert "10 to 13. Shear of an anchor of a group" in shear[0]
    for (heading, titles, lines), record, names in (
        (plate, "PlateAnchor", ("x", "y", "sigma_a", "tension")),
        (shear, "BoltShear", ("x", "y", "v_a_x", "v_a_y", "v_a")),
    ):
        assert "load case line full, thrust to the east; anchors 1, 2, 3, 4" in heading
        assert len(titles) > len(names)
        for at, own in enumerate(lines):
            (section,) = [each for each in result["trace"] if (each["record"], each.get("anchor")) == (record, at)]
            values = {line["name"]: line["value"] for line in section["lines"]}
            assert own[: len(names) + 1] == [str(at + 1), *(number(values[name]) for name in names)]


def test_anchors_whose_formulas_differ_have_sections_of_their_own(sheet, bracket):
    """A slotted hole lets its anchor go along x, so its force there is by another branch."""
    places = [{"x": -3.5, "y": 0, "resists": "y"}, {"x": 3.5, "y": -4.5}, {"x": 3.5, "y": 4.5}]
    bracket["group"]["anchor"]["layout"] = places
    page = sheet(bracket, GROUP)
    headings = [heading for heading, _, _ in tables_of_anchors(page)]
    assert any("Anchor of a rigid plate" in each and "anchors 1, 2, 3" in each for each in headings)
    assert any("Shear of an anchor of a group" in each and "anchors 2, 3" in each for each in headings)
    assert "Shear of an anchor of a group load case line full, thrust to the east; anchor 1" in words(page)


def test_what_a_section_comes_to_stands_there_also_where_it_is_0(sheet, bracket):
    """A pressed anchor of a plate has no tension, and that is said."""
    (_, titles, lines), _ = tables_of_anchors(sheet(bracket, GROUP))
    at = next(place for place, title in enumerate(titles) if title.endswith("lbf"))
    assert [own[at] == "0" for own in lines] == [True, False, False, False]


def test_a_point_without_a_mode_has_a_pdf(client):
    """In steel without a rod nothing is checked: a table without rows stopped the whole file."""
    body = json.loads((EXAMPLES / "masonry_block_wall.json").read_text("utf-8"))
    response = client.post(f"{BATCH}?format=pdf", json=body)
    assert response.status_code == 200, response.text[:300]
    assert response.content.startswith(b"%PDF-")


@pytest.mark.parametrize(("path", "body"), [(SINGLE, SINGLE_JSON), (GROUP, GROUP_JSON), (BATCH, BATCH_JSON)])
def test_a_project_heads_every_sheet_and_changes_nothing_else(sheet, send, path, body):
    named = {**body, "project": PROJECT}
    answer, plain = send(named, path, status=200), send(body, path, status=200)
    assert answer == {**plain, "project": PROJECT}
    for article in sheet(named, path).iter("article"):
        facts = next(each for each in article.iter("dl") if each.get("class") == "project")
        assert [each.text for each in facts.iter("dd")] == list(PROJECT.values())
    assert not [each for each in sheet(body, path).iter("dl") if each.get("class") == "project"]
    errors = send({**named, "project": {"job": "x"}}, path, status=422)["errors"]
    assert [each["pointer"] for each in errors] == ["#/project/job"]


def test_a_project_in_the_header_of_a_stream(sheet, client):
    head, *rest = as_lines(BATCH_JSON)
    lines = "\n".join(map(json.dumps, [{**head, "project": PROJECT}, *rest]))
    page = sheet(lines, BATCH, media="application/x-ndjson")
    assert words(page).count("24-017") == len(list(page.iter("article")))
    answer = client.post(BATCH, content=lines, headers={"content-type": "application/x-ndjson"}).text
    assert json.loads(answer.split("\n")[0])["project"] == PROJECT


def test_nobody_signs_what_was_not_checked(sheet):
    body = json.loads((EXAMPLES / "batch.json").read_text("utf-8"))
    signed = ["Engineer, seal" in words(article) for article in sheet(body, BATCH).iter("article")]
    assert signed == [True, True, True, False, False, True]


def test_questions_to_the_engineer_are_asked(sheet, send):
    body = json.loads((EXAMPLES / "pool_and_tendons.json").read_text("utf-8"))
    results = send(body, BATCH, status=200)["items"]
    asked = 0
    for article, result in zip(sheet(body, BATCH).iter("article"), results, strict=True):
        for each in result.get("to_engineer", ()):
            assert f"{each['text']} {each['question']}" in words(article)
            asked += 1
    assert asked > 3


def test_neighbours_are_named(sheet, send):
    body = json.loads((EXAMPLES / "neighbours.json").read_text("utf-8"))
    results = send({**body, "detail": "trace"}, BATCH, status=200)["items"]
    articles = list(sheet(body, BATCH).iter("article"))
    for one, result in zip(articles, results, strict=True):
        near = result.get("neighbours")
        headings = {each.text for each in one.iter("h2")}
        assert ("Neighbours" in headings) == bool(near)
        if near:
            text = words(next(each for each in one.iter("section") if each[0].text == "Neighbours"))
            assert all(name in text for name in (*near["together"], *near["unlike"]))
            assert f"{near['alone']['utilisation']:.1%}" in text
            drawn = next(one.iter("svg"))
            kinds = [each.get("class") for each in drawn.iter("circle") if each.get("class")]
            assert kinds == ["together"] * len(near["together"]) + ["unlike"] * len(near["unlike"])
            named = {each.text.partition(",")[0] for each in drawn.iter("text")}
            assert {*near["together"], *near["unlike"]} <= named


def test_a_sketch_says_what_it_does_not_draw(sheet):
    body = json.loads((EXAMPLES / "deck_soffit.json").read_text("utf-8"))
    drawn = [each for each in sheet(body, BATCH).iter("article") if list(each.iter("svg"))]
    assert drawn
    assert all("Not drawn: the ribs of the deck." in words(each) for each in drawn)
    assert "Not drawn" not in words(sheet(SINGLE_JSON))


def test_what_is_said_of_the_whole_request_is_on_every_sheet(sheet):
    """One point states its exposure, the other doesn't; none states the design code."""
    items = [item(id="a", environment={"exposure": "dry"}), item(id="b")]
    first, second = (words(one) for one in sheet({"units": "us", "items": items}, BATCH).iter("article"))
    assert "The design code is ACI 318-19, chapter 17." in first
    assert "The design code is ACI 318-19, chapter 17." in second
    assert "dry air indoors" in second
    assert "dry air indoors" not in first


def test_a_sheet_of_a_group_numbers_its_anchors(sheet):
    page = sheet(
        {**GROUP_JSON, "group": {**GROUP_JSON["group"], "anchor": {**GROUP_JSON["group"]["anchor"], "layout": ROW}}},
        GROUP,
    )
    assert [each.text for each in page.iter("th")].count("Strength, lbf") > 1  # Of the modes, and of all their sets.
    plan = next(page.iter("svg"))
    assert len(list(plan.iter("circle"))) == 3
    assert {"1", "2", "3"} <= {each.text for each in plan.iter("text")}
    text = words(page)
    assert "anchors 1, 2, 3" in text
    assert {f"anchor {at}" for at in (1, 2, 3)} <= set(re.findall(r"anchor [0-9]", text))
    assert not re.search(r"anchors? 0|anchors [1-3](?!,)", text)


def test_a_lone_anchor_has_no_number_and_its_neighbours_are_named(sheet):
    assert not re.search(r"anchors? [0-9]", words(sheet(SINGLE_JSON)))
    body = json.loads((EXAMPLES / "neighbours.json").read_text("utf-8"))
    first = next(sheet(body, BATCH).iter("article"))
    assert "governs (1.4D), together with IC-L2-HWR-11." in verdict(first)
    rows = [words(row[0]) for row in first.iter("tr")]
    assert "concrete breakout in tension (17.6.2), together with IC-L2-HWR-11 — governs" in rows
    assert rows[-2:] == ["together with IC-L2-HWR-11", "alone"]
    assert not re.search(r"anchors? [0-9]", " ".join(rows))


def test_a_sheet_has_the_calculation_whatever_the_detail(sheet):
    body = {**SINGLE_JSON, "detail": "verdict"}
    assert words(sheet(body)) == words(sheet({**SINGLE_JSON, "detail": "trace"}))


@pytest.mark.parametrize(
    ("media", "content"),
    [("text/csv", BATCH_CSV), ("application/x-ndjson", "\n".join(map(json.dumps, as_lines(BATCH_JSON))))],
)
def test_sheets_of_every_form_of_a_batch(sheet, media, content):
    page = sheet(content, BATCH, media=media, query="?format=html" + ("&units=us" if media == "text/csv" else ""))
    headings = [each.text for each in page.iter("h2")]
    assert headings.count("Calculation") >= 1
    assert len(list(page.iter("article"))) > 1


def test_what_a_user_wrote_is_text(sheet):
    """ElementTree would read a tag as one."""
    name = "<script>alert('1')</script>&\"x"
    body = {"units": "us", "item": item(id=name, trade="electrical", tags=[name])}
    page = sheet(body)
    assert not list(page.iter("script"))
    assert next(page.iter("h1")).text == name
    assert stated(page)["tags"] == name


def test_every_printed_page_names_its_point(client):
    body = SINGLE_JSON | {"item": SINGLE_JSON["item"] | {"id": 'P-1 "</style>é'}}
    response = client.post(f"{SINGLE}?format=html", json=body)
    style, *_ = re.findall(r"<style>(.*?)</style>", response.text, flags=re.DOTALL)
    (name,) = re.findall(r'@page sheet-1 { @bottom-left { content: "([^"]*)"', style)
    assert (
        re.sub(r"\\([0-9a-f]{6})", lambda found: chr(int(found[1], 16)), name)
        == f"{body['item']['id']} · invented data"
    )
    assert "article:nth-of-type(1) { page: sheet-1; }" in style


def test_more_sheets_than_traces_may_be_asked_for(send):
    body = {"units": "us", "items": [item(id=str(at)) for at in range(201)]}
    problem = send(body, BATCH + "?format=html", status=413)
    assert (
        "201 calculations (traces or sheets); the limit is 200. Sheets of some of the points: ?only=ID,ID"
        in problem["detail"]
    )


@pytest.mark.parametrize("media", ["application/json", "text/csv", "application/x-ndjson"])
def test_sheets_of_chosen_points_of_a_large_job(sheet, send, media):
    """They are what they are among all: the neighbour of one of them has no sheet and is counted."""
    near = [item(id="near 1", base__member="S1"), item(id="near 2", at__x="43 ft", base__member="S1")]
    body = {"units": "us", "items": [*(item(id=str(at), at={"level": str(at)}) for at in range(300)), *near]}
    if media == "text/csv":
        head, *rows = list(csv.reader(io.StringIO(BATCH_CSV)))
        lines = [[f"{at}", *rows[0][1:]] for at in range(300)] + [["near 1", *rows[0][1:]]]
        content = "\n".join(
            ",".join(f'"{cell.replace(chr(34), chr(34) * 2)}"' for cell in row) for row in [head, *lines]
        )
        query = "&units=us"
    else:
        own = body if media == "application/json" else {**body, "neighbours": "check"}
        content = json.dumps(own) if media == "application/json" else "\n".join(map(json.dumps, as_lines(own)))
        query = ""
    page = sheet(content, BATCH, media=media, query=f"?format=html&only=near%201,%207{query}")
    assert [next(one.iter("h1")).text for one in page.iter("article")] == ["7", "near 1"]
    assert [each.text for each in page.iter("h2")].count("Calculation") == 2
    if media != "text/csv":
        assert "Checked together with near 2." in words(page)


def test_whose_sheets_are_chosen_must_be_there(send):
    body = {"units": "us", "items": [item(id="A-1"), item(id="B")]}
    problem = send(body, BATCH + "?format=html&only=B,A-2", status=422)
    assert [(each["pointer"], each["code"], each["allowed"]) for each in problem["errors"]] == [
        ("?only", "unknown-id", ["A-1"])
    ]
    for query in ("?only=B", "?format=csv&only=B", "?format=html&only=,"):
        assert send(body, BATCH + query, status=422)["errors"][0]["pointer"] == "?only"
    (error,) = send(body, BATCH + "?format=html&only=B;A-1", status=422)["errors"]
    assert error["detail"].endswith("Ids have commas between them here.")
    many = ",".join(map(str, range(201)))
    assert "201 calculations" in send(body, f"{BATCH}?format=html&only={many}", status=413)["detail"]


@pytest.mark.parametrize("path", [SINGLE, GROUP])
def test_forms_of_one_check(client, path):
    body = SINGLE_JSON if path == SINGLE else GROUP_JSON
    for accept, media in [
        ("*/*", "application/json"),
        ("text/html", "text/html"),
        ("text/html;q=0.4, application/json", "application/json"),
    ]:
        response = client.post(path, json=body, headers={"accept": accept})
        assert response.headers["content-type"].startswith(media)
    assert client.post(path, json=body, headers={"accept": "text/csv"}).status_code == 406
    assert client.post(path + "?format=csv", json=body).status_code == 406


def test_a_sheet_in_si_has_lengths_in_mm_and_forces_in_kn(sheet, send_one):
    body = {"units": "si", "item": item()}
    page = sheet(body)
    governing = send_one(body, status=200)["items"][0]["trace"]
    strengths = [each["converted"]["design_strength"] for each in governing if "converted" in each]
    assert strengths
    assert all(f"{number(each)} kN" in words(page) for each in strengths)
    assert "Strength, kN Demand, kN Used" in " ".join(each.text for each in page.iter("th"))
    assert any(each.text.endswith(" mm") for svg in page.iter("svg") for each in svg.iter("text"))


@pytest.mark.parametrize(("path", "body"), [(SINGLE, SINGLE_JSON), (GROUP, GROUP_JSON), (BATCH, BATCH_JSON)])
def test_sheets_as_pdf(client, path, body):
    response = client.post(path, json=body, headers={"accept": "application/pdf"})
    assert response.status_code == 200, response.text[:300]
    assert response.headers["content-type"] == "application/pdf"
    assert response.headers["content-disposition"] == 'inline; filename="calculation.pdf"'
    assert response.headers["cache-control"] == "no-store"
    assert response.content.startswith(b"%PDF-")
    assert client.post(f"{path}?format=pdf", json=body).content == response.content


def test_a_pdf_has_a_limit_of_sheets(client, send):
    most = client.get("/v1/limits").json()["pdf_sheets"]
    body = {"units": "us", "items": [item(id=str(at), at={"level": str(at)}) for at in range(most + 1)]}
    problem = send(body, BATCH + "?format=pdf", status=413)
    assert (problem["limit"], problem["received"]) == (most, most + 1)
    chosen = client.post(BATCH + "?format=pdf&only=3,4", json=body)
    assert chosen.content.startswith(b"%PDF-")
    assert len(re.findall(rb"/Type\s*/Page\b", chosen.content)) >= 2


def test_a_pdf_has_a_limit_of_length(send, monkeypatch):
    monkeypatch.setattr(pdf_files, "MOST_PAGE_BYTES", 10_000)
    problem = send(SINGLE_JSON, SINGLE + "?format=pdf", status=413)
    assert problem["limit"] == 10_000 < problem["received"]
    assert "format=html" in problem["detail"]


def test_a_sheet_is_headed_by_the_method_that_was_used(client, sheet):
    body = json.loads((EXAMPLES / "masonry_block_wall.json").read_bytes())
    answer = client.post(f"{BATCH}?format=json", json=body).json()
    page = sheet(body, BATCH)
    seen = set()
    for article, result in zip(page.iter("article"), answer["items"], strict=True):
        if "demand" not in result:
            continue
        text, level = words(article), result["demand"]["level"]
        bolt = any(mode["mode"].startswith("masonry_") for mode in result["modes"])
        assert ("ACI 318-19, chapter 17 ·" in text) == (level == "strength" and not bolt)
        assert ("service tension" in text) == (level == "allowable")
        assert ("factored tension" in text) == (level != "allowable")
        assert ("by TMS 402-16 ·" in text) == bolt
        seen.add(level)
    assert "allowable" in seen


def test_an_area_in_the_sketch_is_in_the_unit_of_the_request(sheet):
    us = words(sheet(SINGLE_JSON))
    (area,) = re.findall(r"Shaded: ANc of the concrete breakout below, ([0-9.]+) in²\.", us)
    si = words(sheet({"units": "si", "item": SINGLE_JSON["item"]}))
    ((own, inches),) = re.findall(r"Shaded: ANc of the concrete breakout below, ([0-9.]+) mm² \(([0-9.]+) in²\)", si)
    assert float(inches) == float(area) > 0
    assert float(own) == pytest.approx(float(inches) * 25.4**2, rel=1e-4)


def test_readings_are_explained_where_one_is_cited(sheet):
    assert "the standard leaves a point open" in words(sheet(SINGLE_JSON))


SHEETS = ("single", "corner_shear", "anchor_group", "deck_soffit", "masonry_si", "neighbours", "earthquake")


@pytest.mark.parametrize("name", SHEETS)
def test_symbols_and_codes_are_printed_as_symbols_and_words(sheet, name):
    """No underscore is left: of a symbol it is an index, of a code a space."""
    body = json.loads((EXAMPLES / f"{name}.json").read_text("utf-8"))
    path = SINGLE if "item" in body else GROUP if "group" in body else BATCH
    assert re.findall(r"\S*[A-Za-z0-9']_[A-Za-z0-9]\S*", words(sheet(body, path))) == []


@pytest.mark.parametrize(
    ("text", "symbols", "words_left"),
    [
        ("In lightweight concrete lambda_a also reduces", ["λa"], "In lightweight concrete λa also reduces"),
        ("Embedment below 4 d_a.", ["da"], "Embedment below 4 da."),
        ("taken as f'_c, or", ["f′c"], "taken as f′c, or"),
        ("1.5c_a1 deep", ["1.5ca1"], "1.5ca1 deep"),
        ("N_p,cr of the tests", ["Np,cr"], "Np,cr of the tests"),
        ("State attachment.survives_loss.", [], "State attachment.survives_loss."),
        ("A < B & C", [], "A < B & C"),
    ],
)
def test_symbols_of_a_sentence(text, symbols, words_left):
    page = ElementTree.fromstring(f"<p>{sentence(text)}</p>")  # noqa: S314
    assert ["".join(each.itertext()) for each in page.iter("math")] == symbols
    assert "".join(page.itertext()) == words_left


def test_a_condition_that_chose_twice_is_said_once(sheet):
    """psi_c,V asks two questions of one word (ACI 318-19, Table 17.7.2.5.1)."""
    page = words(sheet(json.loads((EXAMPLES / "anchor_group.json").read_text("utf-8")), GROUP))
    assert page.count("along the edge is none, or an edge bar below No. 4") == 1


def test_who_signs_has_what_was_not_checked_in_view(sheet):
    """It stands with cautions and signatures, which a page keeps together."""
    end = next(each for each in sheet(SINGLE_JSON).iter("section") if each.get("class") == "end")
    assert [each.text for each in end.iter("h2")] == ["Not checked", "Cautions"]
    assert any(each.get("class") == "sign" for each in end.iter("div"))


def test_the_load_case_of_a_demand_is_that_of_its_tension(sheet, send_one):
    """In the corner 1.4D has the largest tension, 1.2D + 1.6L the largest shear."""
    body = json.loads((EXAMPLES / "corner_shear.json").read_text("utf-8"))
    (result,) = send_one(body, status=200)["items"]
    shear = next(each for each in result["modes"] if each["mode"] == "steel_shear")
    assert (result["demand"]["load_case"], shear["load_case"]) == ("1.4D", "1.2D+1.6L")
    assert "load case of the tension1.4D" in words(sheet(body))


@pytest.mark.parametrize(("units", "force", "length"), [("us", "300 lbf", "6 in"), ("si", "300 kN", "6 mm")])
def test_a_number_that_was_stated_without_a_unit_has_that_of_the_request(sheet, units, force, length):
    """A text keeps its own unit."""
    own = json.loads((EXAMPLES / "corner_shear.json").read_text("utf-8"))["item"]
    own["hangs"]["components"] = [{"nature": "dead", "tension": 300}, {"nature": "live", "tension": "60 lb"}]
    own["base"]["edges"]["x_plus"] = 6.0
    page = sheet({"units": units, "item": own})
    facts = stated(page)
    assert facts["hangs, component 1, tension"] == force
    assert facts["hangs, component 2, tension"] == "60 lb"
    assert facts["base, edge, at +x"] == length
    assert f"have that of the unit system {units} here" in words(page)


def test_numbers_of_a_list_have_their_unit_each(sheet):
    own = json.loads((EXAMPLES / "single.json").read_text("utf-8"))["item"]
    own["hangs"]["run"]["spans"] = [10, "8 ft", 9.5]
    own["hangs"]["insulation"]["density"] = 8
    facts = stated(sheet({"units": "us", "item": own}))
    assert facts["hangs, run, spans"] == "10 ft; 8 ft; 9.5 ft"
    assert facts["hangs, insulation, density"] == "8 lb/ft³"
    assert facts["hangs, run, support"] == "1"
    assert facts["hangs, allowance"] == "0.1"
