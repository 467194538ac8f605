"""Earthquake by EN 1992-4 in other bodies and forms: traces, sheets, CSV, lines, choices and reverse questions."""

import pytest

from api.bodies import GONE
from api.en_bodies import EN, NONE, STUD, WEDGE, en_item
from api.test_answers import recalculated
from api.test_en1992_4_earthquake import ELASTIC, EN_SEISMIC, point
from api.test_en1992_4_questions import WANT, named, of_chapter_17
from hangpoint.api.media import CSV
from hangpoint.api.reverse.merge_patch import merged

GROUP = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 80, "spacing_y": 80}
SILENT = {"design_option": "capacity_design"}
DEEP = {**WEDGE, "h_ef": 85}


@pytest.fixture
def post(client):
    def of(path, **body):
        response = client.post(path, json={**EN, **body})
        assert response.status_code == 200, response.text[:600]
        return response.json()

    return of


@pytest.fixture
def ask(post):
    return lambda item, **top: post("/v1/hang-points", **{"detail": "modes", "items": [item], **top})["items"][0]


TRACED = [
    point(),
    point(quake=(1.0, 0.0)),
    point(anchor__layout=GROUP, base__edges={**NONE, "x_plus": 120}, base__thickness=130),
    point(anchor=STUD, base__edges={**NONE, "x_plus": 61}, attachment={"welded": True}, seismic=SILENT),
    point(anchor={"family": "en-undercut-zinc", "size": "M12", "h_ef": 110}, seismic=SILENT),
    point(base__edges={"x_minus": 70, "x_plus": 70, "y_minus": 70, "y_plus": 90}, base__thickness=130),
    point(dead=(6.0, 0.0), quake=(0.1, 0.1)),
]


@pytest.mark.parametrize("at", range(len(TRACED)))
def test_a_trace_can_be_recalculated_from_the_answer(ask, at):
    """With R_k,eq where the mode is worst under earthquake, and there alone."""
    result = ask(TRACED[at], detail="trace")
    assert sum(recalculated(section) for section in result["trace"]) > 8
    shaken = 0
    for section in (own for own in result["trace"] if "mode" in own):
        lines = {line["name"]: line for line in section["lines"]}
        of_earthquake = [name for name in lines if name.endswith("_eq")]
        if "interaction" in section["mode"]:
            continue
        assert lines["earthquake"]["value"] == ("AEd" in section["load_case"]) == bool(of_earthquake), section["mode"]
        shaken += bool(of_earthquake)
        if of_earthquake:
            clauses = {lines[name]["clause"] for name in ("alpha_eq", of_earthquake[-1])}
            assert clauses == {"Table C.3", "Eq. C.8, from memory"}
    assert shaken > 0 or at == len(TRACED) - 1
    clauses = [line["clause"] for section in result["trace"] for line in section["lines"] if "clause" in line]
    assert "EN 1990 (6.12b)" in clauses
    assert not [clause for clause in clauses if clause.startswith(("ASCE", "ACI", "17."))]


@pytest.mark.parametrize("form", ["text/html", "application/pdf", CSV])
def test_on_paper(client, form):
    body = {**EN, "items": [point(), point(id="B", anchor={**WEDGE, "size": "M8", "h_ef": 45})]}
    response = client.post(
        "/v1/hang-points", json={**body, **({} if form == CSV else {"detail": "trace"})}, headers={"accept": form}
    )
    assert response.status_code == 200, response.text[:300]
    if form == "text/html":
        for text in ("under earthquake", "Table C.3", "Eq. C.8, from memory", "Elastic design", "0.8, snow with 0.2"):
            assert text in response.text, text
        assert "ACI 318" not in response.text
    if form == CSV:
        assert "en_seismic_interaction" in response.text
        assert "not-qualified-seismic-category" in response.text


HEADER = (
    "id,hangs.kind,hangs.components.0.nature,hangs.components.0.tension [kN],hangs.components.1.nature,"
    "hangs.components.1.tension [kN],hangs.components.1.shear_x [kN],family,anchor_size,h_ef [mm],base.kind,"
    "base.face,base.density,base.strength.class,base.bar_spacing,base.state,thickness [mm],edge_x_minus,edge_x_plus,"
    "edge_y_minus,edge_y_plus,seismic.design_option,seismic.performance_category,attachment.annular_gap\n"
)
ROW = (
    "A,forces,dead,2,earthquake,1,1,en-wedge-expansion-zinc,M12,65,concrete,soffit,normalweight,C25/30,wide,cracked,250,none,"
    "none,none,none,{option},{category},{gap}\n"
)


@pytest.mark.parametrize(
    ("option", "category", "gap"),
    [("elastic_design", "C1", "filled"), ("elastic_design", "C1", ""), ("elastic_design", "", ""), ("", "C1", "open")],
)
def test_a_csv_says_the_same(client, ask, option, category, gap):
    seismic = {"design_option": option, "performance_category": category}
    item = point(
        seismic={name: value for name, value in seismic.items() if value},
        **({"attachment": {"annular_gap": gap}} if gap else {}),
    )
    response = client.post(
        "/v1/hang-points?design_code=en1992_4&units=si",
        content=(HEADER + ROW.format(option=option, category=category, gap=gap)).encode(),
        headers={"content-type": CSV, "accept": "application/json"},
    )
    assert response.status_code == 200, response.text
    own, wanted = response.json()["items"][0], ask(item)
    assert own["status"] == wanted["status"]
    for name in ("governing", "reason", "findings", "assumptions"):
        assert own.get(name) == wanted.get(name), name


def test_lines_say_the_same(send_lines, ask):
    items = [point(id="A"), point(id="B", quake=(0.0, 0.0)), point(id="C", seismic=None)]
    _, *own, last = send_lines([{**EN, "detail": "modes"}, *items], status=200)
    assert last["summary"]["refused"] == 1
    for line, item in zip(own, items, strict=True):
        wanted = ask(item)
        for name in ("status", "governing", "reason", "modes"):
            assert line.get(name) == wanted.get(name), name


def test_a_point_is_the_same_in_a_batch(post, ask):
    """One without earthquake mentions nothing of it, whatever stands beside it."""
    items = [point(id="A"), point(id="B", quake=(0.0, 0.0)), point(id="C", seismic=SILENT, anchor=DEEP)]
    for own, item in zip(post("/v1/hang-points", detail="modes", items=items)["items"], items, strict=True):
        alone = ask(item)
        assert [mode["mode"] for mode in own["modes"]] == [mode["mode"] for mode in alone["modes"]]
        assert own["modes"] == alone["modes"]
        assert (EN_SEISMIC in {mode["mode"] for mode in own["modes"]}) == (own["id"] != "B")


# Choices and reverse questions


def test_a_selection_ranks_what_is_qualified(post, ask):
    """And still what isn't for a point that differs in its earthquake alone."""
    points = [
        point(anchor=GONE),
        point(id="B", anchor=GONE, quake=(0.0, 0.0)),
        point(id="C", anchor=GONE, seismic=SILENT),
        point(id="D", anchor=GONE, quake=(1.0, 0.0)),
    ]
    answer = post("/v1/selections", want=WANT, items=points)
    assert of_chapter_17(answer) == []
    ranked = {}
    for item, own in zip(points, answer["items"], strict=True):
        assert own["status"] == "held"
        ranked[own["id"]] = {each["product"] for each in own["ranked"]}
        for each in own["ranked"]:
            result = ask(named(item, each["product"]))
            assert result["status"] == "passed"
            assert result["governing"]["utilisation"] == pytest.approx(each["utilisation"], rel=1e-12)
    small = f"{WEDGE['family']}/M8/45"
    assert small in ranked["B"]
    assert not any(small in ranked[name] for name in "ACD")
    assert f"{WEDGE['family']}/M12/65" in ranked["A"]
    assert f"{WEDGE['family']}/M12/65" not in ranked["C"]
    assert "en-screw-zinc/10/68" in ranked["D"] - ranked["A"]


def test_the_largest_load_under_earthquake(post, ask):
    item = point()
    answer = post("/v1/reverse-checks", item=item, question={"kind": "largest_load"})
    assert of_chapter_17(answer) == []
    own = answer["answers"][0]
    assert own["at_limit"]["utilisation"] == pytest.approx(1.0, rel=1e-5)
    assert ask(merged(item, own["patch"]))["governing"]["mode"] == EN_SEISMIC
    loads = merged(item, own["patch"])["hangs"]["components"]
    more = [{name: size if name == "nature" else 1.001 * size for name, size in each.items()} for each in loads]
    assert ask(merged(item, {"hangs": {"kind": "forces", "components": more}}))["status"] == "failed"


def test_remedies_and_changes_hold(post, ask):
    """A fastener that is refused, and one that fails under earthquake alone."""
    for item in (
        point(dead=(4.0, 0.0), quake=(5.0, 3.0), anchor__size="M12"),
        point(anchor={**WEDGE, "size": "M8", "h_ef": 45}),
    ):
        answer = post("/v1/remedies", item=item)
        assert of_chapter_17(answer) == []
        assert answer["remedies"]
        for own in answer["remedies"]:
            assert ask(merged(item, own["patch"]))["status"] == "passed"
    answer = post("/v1/sensitivities", item=en_item(**{**_as_stated(point()), "seismic": ELASTIC}))
    assert of_chapter_17(answer) == []
    assert answer["changes"]


def _as_stated(item):
    return {name: item[name] for name in ("hangs", "base", "anchor")}
