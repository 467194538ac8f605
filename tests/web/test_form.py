"""The form: its page, the headers that it is sent with, and what its scripts send, run without a browser."""

import json
import re
from importlib.resources import files

import pytest
from fastapi.testclient import TestClient
from py_mini_racer import MiniRacer

from hangpoint.api.column_list import served_columns
from hangpoint.app import create_app
from hangpoint.settings import Settings

WEB = files("hangpoint.web")
PAGE = WEB.joinpath("form.html").read_text("utf-8")
SCRIPTS = {each.name: each.read_text("utf-8") for each in WEB.joinpath("files").iterdir() if each.name.endswith(".js")}
COLUMNS = {column["path"]: column for column in served_columns()["columns"]}


EDGES = ("x_minus", "x_plus", "y_minus", "y_plus")


@pytest.fixture(scope="module")
def client():
    with TestClient(create_app()) as made:
        yield made


@pytest.fixture(scope="module")
def script():
    """Calls of the functions that need neither page nor network: name and arguments to what they return."""
    engine = MiniRacer()
    for name in ("request.js", "fields.js"):
        engine.eval(re.sub(r"^export ", "", SCRIPTS[name], flags=re.MULTILINE).replace("const ", "var "))

    def call(expression, *arguments):
        engine.eval(f"var given = {json.dumps(arguments)}")
        return json.loads(engine.eval(f"JSON.stringify({expression})"))

    yield call
    engine.close()


def test_the_page_and_its_files_are_served(client):
    answer = client.get("/form")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert answer.text == PAGE
    assert client.head("/form").status_code == 200
    policy = answer.headers["content-security-policy"]
    assert "script-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    named = re.findall(r'(?:src|href)="(/form/[^"]+)"', PAGE)
    imported = [f"/form/{name}" for text in SCRIPTS.values() for name in re.findall(r'from "\./([^"]+)"', text)]
    assert {"/form/form.js", "/form/form.css", "/form/request.js"} <= {*named, *imported}
    for address in {*named, *imported}:
        assert client.get(address).status_code == 200, address


def test_nothing_is_fetched_from_elsewhere():
    for text in (PAGE, *SCRIPTS.values(), WEB.joinpath("files/form.css").read_text("utf-8")):
        assert not re.search(r"https?://|//[a-z]+\.[a-z]+/", text)


def test_no_text_of_an_answer_becomes_markup():
    for text in SCRIPTS.values():
        assert not re.search(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(", text)


def test_the_page_is_open_where_checks_need_a_token():
    client = TestClient(create_app(Settings(access="tokens", tokens="abc")))
    assert client.get("/form").status_code == 200
    assert client.get("/form/form.js").status_code == 200
    assert client.get("/v1/columns").status_code == 401
    assert client.get("/v1/columns", headers={"Authorization": "Bearer abc"}).status_code == 200


SOLID = {"thickness": 250, "face": "side", "edges": dict.fromkeys(EDGES, "none")}
CONCRETE = {**SOLID, "kind": "concrete", "strength": {"class": "C25/30"}, "density": "normalweight", "state": "cracked"}
DECK = {"flute": "lower", "flute_width": 120, "offset": 0, "cover": 90, "sheet": 0.9}
MASONRY = {"units": "grouted", "material": "concrete", "location": "face", "f_m": 10}
BASES = {
    "concrete": CONCRETE,
    "deck": {**CONCRETE, "face": "soffit", "deck": DECK},
    "masonry": {**SOLID, "masonry": MASONRY},
    "hollow_core": {**SOLID, "face": "soffit", "hollow_core": {"location": "web", "cover": 40, "strand_distance": 60}},
}


@pytest.mark.parametrize("path", ["base.kind", "base.density"])
def test_no_word_is_offered_that_the_design_code_refuses(client, script, path):
    """What is offered by EN 1992-4 is what a check by it does not refuse as a base, and by ACI 318-19 every word."""
    words = COLUMNS[path]["words"]
    assert script("wordsUnder('aci318_19', ...given)", path, words) == words
    taken = []
    for word in words:
        base = {**CONCRETE, "density": word} if path == "base.density" else {**BASES.get(word, {}), "kind": word}
        item = {"id": "A", "base": base, "anchor": {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": 65}}
        item["hangs"] = {"kind": "forces", "components": [{"nature": "dead", "tension": 2}]}
        asked = {"units": "si", "design_code": "en1992_4", "items": [item]}
        (found,) = client.post("/v1/hang-points", json=asked).json()["items"]
        assert found["status"] != "invalid", found
        if found.get("reason", {}).get("code") != "base-outside-en-1992-4":
            taken.append(word)
    assert script("wordsUnder('en1992_4', ...given)", path, words) == taken


def test_a_browser_is_led_to_the_form_and_a_program_is_not(client):
    answer = client.get("/", headers={"Accept": "text/html,*/*;q=0.8"}, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (307, "/form")
    assert client.get("/").json()["links"]["form"] == "/form"


def test_every_part_that_a_script_names_is_on_the_page():
    made = {"more-list", "groups"}
    for text in SCRIPTS.values():
        for name in re.findall(r'\bat\("([a-z-]+)"\)', text):
            assert f'id="{name}"' in PAGE or name in made, name


def test_every_field_is_a_column(script):
    paths = set(script("Object.keys(LABELS)")) | set(
        script("Object.values(EXAMPLES).flatMap((own) => Object.keys(own))")
    )
    for group in script("GROUPS"):
        own = [group["kind"]] if "kind" in group else []
        paths.update(own, group.get("first", []), group.get("paths", []), *group.get("of", {}).values())
        for kind in own:
            assert set(group["of"]) == set(COLUMNS[kind]["words"])
    assert {path for path in paths if script("columnOf(given[0], given[1]) ?? null", path, COLUMNS) is None} == {
        "product"
    }


def test_what_every_point_needs_is_on_the_page(script):
    """The fields that a file needs too; a kind brings those of its own."""
    shown = {path for group in script("GROUPS") for path in [group.get("kind"), *group.get("first", [])]}
    shown |= {path for group in script("GROUPS") for path in group.get("paths", [])}
    assert {path for path, column in COLUMNS.items() if column["needed"]} <= shown


def item_of(script, **fields):
    return script("itemOf(given[0], given[1])", fields, COLUMNS)


def test_the_example_is_checked_and_holds(script, client):
    fields = script("EXAMPLES.aci318_19")
    product = script("fieldsOfProduct(given[0], given[1])", fields.pop("product"), "us")
    assert product == {"anchor.family": "wedge-expansion-zinc", "anchor.size": "1/2", "anchor.h_ef": "3.25 in"}
    item = {"id": "P1"} | item_of(script, **fields | product)
    (result,) = client.post("/v1/hang-points", json={"units": "us", "items": [item]}).json()["items"]
    assert result["status"] == "passed", result
    del item["anchor"]
    (chosen,) = client.post("/v1/selections", json={"units": "us", "items": [item]}).json()["items"]
    assert chosen["status"] == "held"


def test_the_european_example_is_checked_and_holds(script, client):
    fields = script("EXAMPLES.en1992_4")
    shown = script('shownOf(given[0], [], { code: "en1992_4" })', fields)
    assert set(fields) <= set(shown)
    assert not {"base.strength.f_c", "seismic.category"} & set(shown)
    product = script("fieldsOfProduct(given[0], given[1])", fields.pop("product"), "si")
    item = {"id": "P1"} | item_of(script, **fields | product)
    body = {"units": "us", "design_code": "en1992_4", "items": [item]}
    (result,) = client.post("/v1/hang-points", json=body).json()["items"]
    assert result["status"] == "passed", result
    del item["anchor"]
    (chosen,) = client.post("/v1/selections", json=body).json()["items"]
    assert chosen["status"] == "held"


@pytest.mark.parametrize(
    ("fields", "item"),
    [
        ({"base.thickness": "8"}, {"base": {"thickness": 8}}),
        ({"base.thickness": " 2-1/2 in "}, {"base": {"thickness": "2-1/2 in"}}),
        ({"base.edges.x_plus": "none"}, {"base": {"edges": {"x_plus": "none"}}}),
        ({"base.edges.x_plus": ".5"}, {"base": {"edges": {"x_plus": 0.5}}}),
        ({"hangs.run.spans": "10; 8'-6\"; 12"}, {"hangs": {"run": {"spans": [10, "8'-6\"", 12]}}}),
        ({"hangs.run.support": "1"}, {"hangs": {"run": {"support": 1}}}),
        ({"hangs.sprinkler": "no"}, {"hangs": {"sprinkler": False}}),
        ({"hangs.sprinkler": "Yes"}, {"hangs": {"sprinkler": True}}),
        ({"base.edges.x_plus": "None"}, {"base": {"edges": {"x_plus": "none"}}}),
        ({"hangs.nature": "Dead"}, {"hangs": {"nature": "dead"}}),
        ({"id": "None"}, {"id": "None"}),
        (
            {"anchor.layout.1.x": "2", "anchor.layout.0.x": "-2"},
            {"anchor": {"layout": [{"x": -2}, {"x": 2}]}},
        ),
        (
            {"anchor.layout.0.x": "2", "anchor.layout.pattern": "row"},
            {"anchor": {"layout": {"0": {"x": 2}, "pattern": "row"}}},
        ),
        ({"hangs.size": "4"}, {"hangs": {"size": "4"}}),
        ({"hangs.components.1.tension": "-3"}, {"hangs": {"components": [{"tension": -3}]}}),
        ({"options.what.0": "1", "hangs.components.0.nature": "dead"}, {"hangs": {"components": [{"nature": "dead"}]}}),
        ({"base.thickness": "", "base.state": "cracked"}, {"base": {"state": "cracked"}}),
        ({"no.such.column": "1", "constructor": "1", "__proto__.x": "1"}, {}),
    ],
)
def test_fields_as_json(script, fields, item):
    assert item_of(script, **fields) == item


def test_what_can_not_be_read_is_told_at_its_field(script, client):
    """The pointer of an error leads back to its field, of what is written wrong and of what is missing."""
    fields = script("EXAMPLES.aci318_19")
    fields |= script("fieldsOfProduct(given[0], given[1])", fields.pop("product"), "us")
    for path, text in (("base.thickness", "8 inchs"), ("base.edges.y_plus", ""), ("hangs.run.support", "9")):
        item = {"id": "P1"} | item_of(script, **fields | {path: text})
        (result,) = client.post("/v1/hang-points", json={"units": "us", "items": [item]}).json()["items"]
        (error,) = result["problem"]["errors"]
        assert script("pathOf(given[0])", error["pointer"]) == path


@pytest.mark.parametrize(
    ("text", "units", "reaches"),
    [
        ("3-1/4", "us", True),
        ("3 1/4", "us", True),
        ("3-3/8", "us", False),
        ("82", "si", True),
        ("83", "si", False),
        ("3-1/4 in", "si", True),
        ("3-3/8 in", "si", False),
    ],
)
def test_a_fraction_is_of_the_unit_beside_its_field(script, client, text, units, reaches):
    """An embedment of 3.25 in, 82.55 mm, reaches the far face of a member of 3-1/4 in and not of one of 3-3/8 in."""
    fields = script("EXAMPLES.aci318_19") | {"base.thickness": text}
    fields |= script("fieldsOfProduct(given[0], given[1])", fields.pop("product"), "us")
    item = {"id": "P1"} | script("itemOf(given[0], given[1], given[2])", fields, COLUMNS, units)
    (result,) = client.post("/v1/hang-points", json={"units": units, "items": [item]}).json()["items"]
    codes = [error["code"] for error in result["problem"]["errors"]] if result["status"] == "invalid" else []
    assert codes == (["impossible-geometry"] if reaches else [])


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        ("base.edges.x_plus", "3/4", "3/4 in"),
        ("base.edges.x_plus", "41/2", "41/2"),
        ("hangs.run.spans", "9-1/2; 10", ["9-1/2 ft", 10]),
        ("hangs.size", "1-1/4", "1-1/4"),
        ("hangs.allowance", "1/10", "1/10"),
    ],
)
def test_fractions(script, path, text, value):
    """What may be four and a half or forty-one halves stays as it is written, and the service refuses it."""
    own = script("itemOf(given[0], given[1], given[2])", {path: text}, COLUMNS, "us")
    for name in path.split("."):
        own = own[name]
    assert own == value


def test_places_and_a_pattern_together_are_refused_by_the_service(script, client):
    """Neither is dropped on the way."""
    fields = script("EXAMPLES.aci318_19")
    fields |= script("fieldsOfProduct(given[0], given[1])", fields.pop("product"), "us")
    item = {"id": "P1"} | item_of(script, **fields, **{"anchor.layout.0.x": "2", "anchor.layout.pattern": "row"})
    (result,) = client.post("/v1/hang-points", json={"units": "us", "items": [item]}).json()["items"]
    assert "#/items/0/anchor/layout/0" in {error["pointer"] for error in result["problem"]["errors"]}


@pytest.mark.parametrize(
    ("pointer", "path"),
    [
        ("#/items/0/base/thickness", "base.thickness"),
        ("#/item/base/thickness", "base.thickness"),
        ("#/items/12", ""),
        ("#/item", ""),
        ("#/want/objective", "want.objective"),
        (None, ""),
    ],
)
def test_pointers_as_paths(script, pointer, path):
    """Of a list of points, and of the one of a sheet."""
    assert script("pathOf(given[0])", pointer) == path


def test_an_error_of_a_sheet_leads_to_its_field(script, client):
    fields = script("EXAMPLES.aci318_19")
    fields |= script("fieldsOfProduct(given[0], given[1])", fields.pop("product"), "us")
    item = {"id": "P1"} | item_of(script, **fields | {"base.thickness": "8 inchs"})
    problem = client.post("/v1/hang-point", json={"units": "us", "item": item}).json()
    assert [script("pathOf(given[0])", error["pointer"]) for error in problem["errors"]] == ["base.thickness"]


@pytest.mark.parametrize(
    ("path", "stated", "place"),
    [
        ("hangs.components.0.tension", ["hangs.components.1.tension"], "hangs.components.1.tension"),
        ("hangs.components.1.x", ["hangs.components.0.x", "hangs.components.3.x"], "hangs.components.3.x"),
        ("hangs.components.0.nature", ["hangs.components.10.x", "hangs.components.2.x"], "hangs.components.2.nature"),
        ("hangs.run.spans.1", ["hangs.run.spans"], "hangs.run.spans.1"),
        ("base.thickness", [], "base.thickness"),
    ],
)
def test_an_error_of_a_list_is_told_at_the_place_that_was_filled(script, path, stated, place):
    assert script("placeOf(given[0], given[1])", path, stated) == place


@pytest.mark.parametrize(
    ("path", "field"),
    [
        ("base.thickness", "base.thickness"),
        ("base", "base.kind"),
        ("base.edges", "base.edges.x_minus"),
        ("anchor.h_ef", "product"),
        ("hangs.run.spans.2", "hangs.run.spans"),
        ("base.density", None),
        ("", None),
    ],
)
def test_the_field_that_an_error_is_about(script, path, field):
    on_page = ["hangs.kind", "hangs.run.spans", "anchor.family", "product", "base.kind", "base.thickness"]
    on_page += ["base.edges.x_minus", "base.edges.x_plus"]
    assert script("fieldOf(given[0], given[1])", path, on_page) == field


@pytest.mark.parametrize(
    ("text", "paths"),
    [
        ("base.scanned", ["base.scanned"]),
        (" Anchor.Layout.3.x ", ["anchor.layout.3.x"]),
        ("h_ef", ["anchor.h_ef"]),
        ("insulation", ["hangs.insulation.thickness", "hangs.insulation.density"]),
        ("fire rating", ["environment.fire_rating"]),
        ("no such thing", []),
        ("constructor", []),
        ("", []),
    ],
)
def test_fields_by_a_word(script, text, paths):
    assert script("columnsLike(given[0], given[1])", text, COLUMNS) == paths


@pytest.mark.parametrize(
    ("text", "query"),
    [
        ("", []),
        (
            " base.density = normalweight\n\nseismic.category=B ",
            [["base.density", "normalweight"], ["seismic.category", "B"]],
        ),
        ("base.member = a = b", [["base.member", "a = b"]]),
        ("nonsense", [["nonsense", ""]]),
    ],
)
def test_values_for_all_rows(script, text, query):
    """A line that is none is sent too: the service says what is wrong with it."""
    assert script("defaultsOf(given[0])", text) == [[f"default.{path}", value] for path, value in query]


def test_values_for_all_rows_are_taken(script, client):
    rows = "id,hangs.kind,hangs.weight,hangs.nature,thickness,edge_x_minus,edge_x_plus,edge_y_minus,edge_y_plus,mine\n"
    rows += "A,weight,100,dead,8,none,none,none,none,x\n"
    defaults = (
        "base.kind = concrete\nbase.density = normalweight\nseismic.category = B\nfamily = wedge-expansion-zinc\n"
    )
    query = dict(script("defaultsOf(given[0])", defaults + "anchor_size = 1/2\nh_ef = 3.25"))
    query |= {"units": "us", "format": "json", "notes": "mine"}
    answer = client.post("/v1/hang-points", params=query, content=rows, headers={"Content-Type": "text/csv"})
    (result,) = answer.json()["items"]
    assert result["product"]["address"] == "wedge-expansion-zinc/1/2/3.25"


def stated(script, fields, added=(), principle=None):
    return script(
        "statedOf(given[0], shownOf(given[0], given[1], given[2]))", fields, list(added), {"principle": principle}
    )


ALWAYS = ["id", "hangs.kind", "rod.size", "anchor.family", "product", "base.kind", "base.thickness", "base.face"]
ALWAYS += [f"base.edges.{side}" for side in ("x_minus", "x_plus", "y_minus", "y_plus")] + ["seismic.category"]


@pytest.mark.parametrize("hangs", COLUMNS["hangs.kind"]["words"])
@pytest.mark.parametrize("base", COLUMNS["base.kind"]["words"])
def test_what_is_on_the_page_is_stated_and_nothing_else(script, hangs, base):
    """With every field filled, also those of kinds that aren't chosen."""
    columns = [*COLUMNS, *(path.replace(".0.", ".1.") for path in COLUMNS), "product"]
    filled = dict.fromkeys(columns, "1") | {"hangs.kind": hangs, "base.kind": base}
    own = script("GROUPS.flatMap((group) => group.kind ? group.of[given[0][group.kind]] : [])", filled)
    assert set(stated(script, filled)) == {*ALWAYS, *own}
    assert not any(path.startswith("anchor.adhesive") for path in stated(script, filled))
    more = stated(script, filled, added=["base.density", "trade"], principle="adhesive")
    adhesive = {path for path in COLUMNS if path.startswith("anchor.adhesive.")}
    assert set(more) == {*ALWAYS, *own, *adhesive, "base.density", "trade"}
    assert stated(script, filled | {"base.thickness": "  "}).get("base.thickness") is None


def test_every_control_of_the_page_has_a_label():
    controls = re.findall(r'<(?:input|select|textarea) id="([^"]+)"', PAGE)
    assert len(controls) == len(re.findall(r"<(?:input|select|textarea)\b", PAGE))
    assert set(controls) == set(re.findall(r'<label for="([^"]+)"', PAGE))


def test_sizes_from_the_smallest(script):
    """By hand; names of members of an object come in another order, whole numbers first."""
    sizes = ["1", "2", "10", "1/2", "1-1/4", "3/4", "2-1/2"]
    assert script("inOrder(given[0])", sizes) == ["1/2", "3/4", "1", "1-1/4", "2", "2-1/2", "10"]


def test_every_product_of_the_catalogue_is_stated_by_its_fields(script, client):
    """Metric ones too: the service finds under size and embedment the product of the address."""
    families = client.get("/v1/families").json()["families"]
    fields = {path: text for path, text in script("EXAMPLES.aci318_19").items() if path != "product"}
    items, addresses = [], []
    for family in families:
        for address in family["products"]:
            own = script("fieldsOfProduct(given[0], given[1])", address, family["units"])
            items.append(item_of(script, **fields | own | {"base.thickness": "60 in"}) | {"id": f"P{len(items)}"})
            addresses.append(address)
    assert any(family["units"] == "si" for family in families)
    answer = client.post("/v1/hang-points", json={"units": "us", "items": items}).json()
    assert [each["product"]["address"] for each in answer["items"]] == addresses


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("base.thickness", "Thickness"),
        ("hangs.insulation.thickness", "Insulation thickness"),
        ("hangs.components.1.shear_x", "Load 2, shear x"),
        ("trade", "Trade"),
    ],
)
def test_names_of_fields(script, path, text):
    assert script("labelOf(given[0])", path) == text


@pytest.mark.parametrize(
    ("value", "text"), [(0.092, "9.2%"), (1, "100.0%"), (1.0000001, "100.1%"), (2.0649, "206.5%"), (0, "0.0%")]
)
def test_per_cent(script, value, text):
    """What is above 1 never reads as 100 %."""
    assert script("percent(given[0])", value) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (1234.5, "1,235"), (199.36, "199"), (12.345, "12.3"), (0.0123456, "0.0123"), (-3, "-3")],
)
def test_numbers(script, value, text):
    assert script("shown(given[0])", value) == text


def test_columns_are_served_as_the_list_has_them(client):
    served = client.get("/v1/columns").json()
    assert served["empty"]["us"].startswith("id,hangs.kind,")
    assert "thickness [mm]" in served["empty"]["si"]
    thickness = next(each for each in served["columns"] if each["path"] == "base.thickness")
    assert thickness["holds"] == "quantity"
    assert (thickness["us"], thickness["si"]) == ("in", "mm")
    assert thickness["needed"]


def test_lines_are_no_longer_than_elsewhere():
    for each in (WEB.joinpath("form.html"), *WEB.joinpath("files").iterdir()):
        assert max(map(len, each.read_text("utf-8").splitlines())) <= 120, each.name


@pytest.mark.parametrize(
    ("count", "told"),
    [
        (0, ""),
        (2, " Possible: w0, w1."),
        (11, " Possible: w0, w1, w2, w3, w4, w5, w6, w7, w8, w9, w10."),
        (40, " Possible: w0, w1, w2, w3, w4, w5, w6, w7 and 32 more."),
    ],
)
def test_what_is_possible_is_named_as_far_as_anybody_reads(script, count, told):
    assert script("possibleText(given[0])", [f"w{at}" for at in range(count)]) == told


def test_the_units_of_a_list_are_not_guessed(client):
    """A number without a unit would silently be in inches or pounds."""
    select = PAGE.split('<select id="list-units">')[1].split("</select>")[0]
    assert re.findall('value="(.*?)"', select) == ["", "us", "si"]


def test_what_is_wrong_with_several_cells_of_a_row_is_told_once(script):
    bare = [{"line": 3, "column": column, "detail": "A number without a unit"} for column in ("x", "y", "h_ef")]
    other = {"line": 3, "column": "f_c", "detail": "This says about"}
    later = {"line": 4, "column": "x", "detail": "A number without a unit"}
    assert script("alikeErrors(given[0])", [bare[0], other, bare[1], later, bare[2]]) == [bare, [other], [later]]


@pytest.mark.parametrize(
    ("pointer", "column"),
    [
        ("#/rows/2/base.deck.flute", "base.deck.flute"),
        ("#/rows/2", ""),
        ("#/items/0/base/kind", ""),
        ("#/header/3", ""),
    ],
)
def test_a_column_that_a_row_lacks_is_named(script, pointer, column):
    assert script("lackingOf(given[0])", pointer) == column
