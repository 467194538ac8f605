"""Choices and reverse questions by EN 1992-4: what is offered holds when it is posted back, and no word is of ACI."""

import re

import pytest

from api.bodies import GONE
from api.en_bodies import EN, NONE, PIPE, STUD, en_item, row_of
from hangpoint.api.reverse.merge_patch import merged

WANT = {
    "objective": "cost_index",
    "reserve": 0.1,
    "placing": "post_installed",
    "rod_thread": "any",
    "trained": True,
    "exposure": "dry",
    "vibration": False,
}
HEAVY = {"kind": "forces", "components": [{"nature": "dead", "tension": 6.0, "shear_x": 3.0}]}
FAILS = en_item(hangs=HEAVY, anchor={"family": "en-wedge-expansion-zinc", "size": "M8", "h_ef": 45})


@pytest.fixture
def post(client):
    def of(path, **body):
        response = client.post(path, json={**EN, **body})
        assert response.status_code == 200, response.text[:600]
        return response.json()

    return of


@pytest.fixture
def ask(post):
    return lambda item, **top: post("/v1/hang-points", detail="verdict", items=[item], **top)["items"][0]


def named(item, address):
    """The point with a product by its address."""
    family, size, h_ef = address.split("/")
    return merged(item, {"anchor": {"family": family, "size": size, "h_ef": float(h_ef)}})


def texts(value):
    """Every text of an answer but addresses of products."""
    if isinstance(value, dict):
        return [text for name, own in value.items() if name != "products" for text in texts(own)]
    if isinstance(value, list):
        return [text for own in value for text in texts(own)]
    return [value] if isinstance(value, str) else []


def of_chapter_17(answer):
    """Texts that speak of chapter 17 and its symbols, beside clauses that are said to be of ACI 318-19."""
    words = re.compile(r"chapter 17|\b17\.\d+\.\d|f'c|\bpsi\b|phi N")
    found = [text for text in texts(answer) if words.search(text) and not text.startswith("ACI 318-19")]
    return [text for text in found if "no plastic hinge" not in text]


POINTS = [
    en_item(anchor=GONE),
    en_item(id="B", anchor=GONE, hangs={"kind": "weight", "weight": 3, "nature": "dead"}),
    en_item(id="C", anchor=GONE, hangs=PIPE, base__edges=NONE),
    en_item(id="D", anchor={"layout": row_of(2, 100)}, base__state="uncracked", base__state_decided_by="engineer"),
]


def test_every_product_that_a_selection_ranks_holds(post, ask):
    answer = post("/v1/selections", want=WANT, items=POINTS)
    assert of_chapter_17(answer) == []
    seen = 0
    for point, own in zip(POINTS, answer["items"], strict=True):
        assert own["status"] == "held"
        for each in own["ranked"]:
            result = ask(named(point, each["product"]))
            assert result["status"] == "passed"
            assert result["governing"]["utilisation"] == pytest.approx(each["utilisation"], rel=1e-12)
            assert each["utilisation"] <= 0.9 + 1e-12
            seen += 1
        codes = {each["reason"]["code"] for each in own["rejected"]}
        assert "family-without-european-data" in codes
    assert seen >= 20


def test_a_plan_of_a_job_holds(post, ask):
    answer = post("/v1/job-selections", want=WANT, items=POINTS)
    assert of_chapter_17(answer) == []
    plans = [own for own in answer["items"] if own.get("product")]
    assert len(plans) == len(POINTS)
    for point, own in zip(POINTS, plans, strict=True):
        assert ask(named(point, own["product"]))["status"] == "passed"


def test_substitutes_hold(post, ask):
    item = en_item()
    answer = post("/v1/substitutions", want={"objective": "cost_index", "reserve": 0.1}, item=item)
    assert of_chapter_17(answer) == []
    offered = answer["substitutes"]
    assert offered
    for each in offered:
        assert ask(named(en_item(anchor=GONE), each["product"]))["status"] == "passed"


QUESTIONS = [
    (en_item(), {"kind": "largest_load"}),
    (en_item(), {"kind": "least_edge", "side": "x_plus"}),
    (en_item(), {"kind": "least_thickness"}),
    (en_item(), {"kind": "least_embedment"}),
    (en_item(rod={"size": "M10"}), {"kind": "least_rod"}),
    (en_item(anchor__layout={"pattern": "row", "count": 2, "spacing": 120}), {"kind": "least_spacing"}),
    (en_item(hangs=PIPE), {"kind": "largest_hanger_spacing"}),
    (en_item(anchor=STUD, base__splitting_reinforcement=True), {"kind": "largest_load"}),
]


@pytest.mark.parametrize(("item", "question"), QUESTIONS, ids=lambda own: own.get("kind"))
def test_a_limit_holds_and_what_is_beyond_does_not(post, ask, item, question):
    answer = post("/v1/reverse-checks", item=item, question=question)
    assert of_chapter_17(answer) == []
    own = answer["answers"][0]
    assert ask(merged(item, own["patch"]))["status"] == "passed"
    assert own["at_limit"]["status"] == "passed"
    if question["kind"] == "largest_load":
        assert own["at_limit"]["utilisation"] == pytest.approx(1.0, rel=1e-5)
        load = merged(item, own["patch"])["hangs"]["components"]
        more = [{name: 1.001 * size if name != "nature" else size for name, size in each.items()} for each in load]
        assert ask(merged(item, {"hangs": {"kind": "forces", "components": more}}))["status"] == "failed"


def test_every_point_of_an_envelope_holds(post, ask):
    answer = post("/v1/reverse-checks", item=en_item(), question={"kind": "envelope", "shear_angle": 30})
    points = answer["envelope"]["points"]
    assert len(points) > 5
    for own in points:
        assert ask(merged(en_item(), own["patch"]))["governing"]["utilisation"] == pytest.approx(1.0, rel=1e-5)


def test_the_least_strength_is_asked_by_classes(client, post, ask):
    body = {**EN, "item": en_item(), "question": {"kind": "least_strength"}}
    response = client.post("/v1/reverse-checks", json=body)
    assert (response.status_code, response.json()["errors"][0]["code"]) == (422, "contradiction")
    answer = post("/v1/sensitivities", item=en_item())
    assert of_chapter_17(answer) == []
    classes = {own["name"]: own for own in answer["changes"] if own["name"].startswith("concrete C")}
    assert classes
    for own in answer["changes"]:
        if "utilisation" in own["outcome"]:
            again = ask(merged(en_item(), own["patch"]))
            assert again["governing"]["utilisation"] == pytest.approx(own["outcome"]["utilisation"], rel=1e-12)


def test_remedies_hold(post, ask):
    answer = post("/v1/remedies", item=FAILS, reserve=0.1)
    assert of_chapter_17(answer) == []
    assert answer["remedies"]
    for own in answer["remedies"]:
        result = ask(merged(FAILS, own["patch"]))
        assert result["status"] == "passed"
        assert result["governing"]["utilisation"] == pytest.approx(own["outcome"]["utilisation"], rel=1e-12)


def test_what_the_engineer_would_have_to_show_holds(post, ask):
    """A stronger class, or that the concrete isn't cracked, where nothing that can be built does."""
    item = en_item(
        hangs={"kind": "forces", "components": [{"nature": "dead", "tension": 9.5}]},
        anchor={"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": 85},
        base__edges=NONE,
    )
    answer = post("/v1/remedies", item=item, reserve=0.1)
    for own in answer["engineer_would_have_to_show"]:
        assert ask(merged(item, own["patch"]))["status"] == "passed"
    assert of_chapter_17(answer) == []


def test_relocations_hold(post, ask):
    item = en_item(at={"level": "L1", "x": 1, "y": 1})
    move = {"old_hole": {"depth": 80}, "move": {"dx": 60, "dy": 0}}
    answer = post("/v1/relocations", item=item, **move)
    assert of_chapter_17(answer) == []
    assert not answer["accepted"]
    assert answer["alternatives"]
    for own in answer["alternatives"]:
        again = ask(merged(item, own["patch"]))
        assert again["status"] == "passed"
        assert again["governing"]["utilisation"] == pytest.approx(own["outcome"]["utilisation"], rel=1e-12)


ITEMS = [
    en_item(at={"level": "L1", "x": 1, "y": 1}),
    en_item(id="B", at={"level": "L1", "x": 3, "y": 1}, hangs={"kind": "weight", "weight": 3, "nature": "dead"}),
    en_item(id="C", at={"level": "L1", "x": 6, "y": 1}, anchor=STUD),
]


@pytest.mark.parametrize(
    ("path", "more"),
    [
        ("/v1/take-offs", {}),
        ("/v1/submittals", {"sheets": "all"}),
        ("/v1/load-maps", {}),
        ("/v1/installation-cards", {}),
    ],
)
def test_what_is_handed_on_goes_by_the_same_code(post, path, more):
    answer = post(path, items=ITEMS, **more)
    assert of_chapter_17({name: own for name, own in answer.items() if name != "items"}) == []
    if "design_code" in answer:
        assert answer["design_code"]["id"] == "en1992_4"


@pytest.mark.parametrize(
    ("changed", "found"),
    [
        ({"hangs": {"kind": "weight", "weight": 40, "nature": "dead"}}, ["utilisation"]),
        (
            {"anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": "3-1/4 in"}},
            ["family-without-european-data"],
        ),
        ({"anchor": {"family": "en-drop-in-zinc", "size": "M10", "h_ef": 40}}, ["not-assessed-in-state"]),
        ({"base__edges__x_plus": 10}, ["edge x_plus"]),
        ({"base__post_tensioned": "unknown"}, ["post-tensioned-not-scanned"]),
        ({"seismic": {"category": "D"}}, ["earthquake-under-en-1992-4"]),
        ({"base__strength": GONE, "base__density": GONE, "base__thickness": GONE, "base__edges": GONE}, []),
        ({}, []),
    ],
    ids=["overloaded", "another_code", "uncracked_only", "edge", "tendons", "earthquake", "unstated", "nothing"],
)
def test_a_card_says_what_the_check_has_against_its_product(post, changed, found):
    """By the code of the request; least distances stand on the card with their figures."""
    (card,) = post("/v1/installation-cards", items=[en_item(**changed)])["cards"]
    assert [each["what"] for each in card["attention"]] == found
    assert not [each for each in card["notes"] if "nothing else" in each]


def test_the_cards_of_a_submittal_go_by_its_code(post):
    over = en_item(hangs={"kind": "weight", "weight": 40, "nature": "dead"})
    answer = post("/v1/submittals", items=[over], sheets="all")
    (card,) = answer["installation_cards"]["cards"]
    assert [each["what"] for each in card["attention"]] == ["utilisation"]
