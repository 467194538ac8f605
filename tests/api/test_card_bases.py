"""Installation cards by the base: the least distances that hold there, and those that a check finds too small."""

import random

import pytest

from api.bodies import INLINE, PLANK, SINGLE_JSON, change
from api.bodies import NO_EDGES as NONE
from hangpoint.product.catalogue import load_catalogue

PATH = "/v1/installation-cards"
WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}
SLEEVE = {"family": "sleeve-expansion-zinc", "size": "3/8", "h_ef": 1.25}
SHORT = {"family": "drop-in-short-zinc", "size": "1/4", "h_ef": 0.625}
BOLT = {"family": "headed-bolt", "size": "3/4", "h_ef": 6}
DECK = {
    "kind": "deck",
    "deck": {"flute": "lower", "flute_width": 4.5, "offset": 0, "cover": 3.25, "sheet": 0.0359},
    "thickness": 6.25,
    "density": "normalweight",
    "edges": NONE,
}
BLOCK = {
    "kind": "masonry",
    "masonry": {"units": "grouted", "material": "concrete", "f_m": 1500, "location": "face", "joint_distance": 4},
    "thickness": 7.625,
    "edges": NONE,
}
SLAB = {"kind": "concrete", "density": "normalweight", "thickness": 8, "edges": NONE}


@pytest.mark.parametrize(
    ("anchor", "base", "least"),
    [
        (WEDGE, SLAB, {"edge": "3 in", "spacing": "2-1/4 in", "thickness": "4-1/2 in"}),
        (
            WEDGE,
            DECK,
            {"edge": "8 in", "spacing": "7-1/2 in", "flute_width": "4-1/2 in", "fill": "3-1/4 in", "sheet": "0.036 in"},
        ),
        (
            WEDGE,
            change(DECK, {"deck.flute": "upper", "deck.cover": 4}),
            {"edge": "7-1/2 in", "spacing": "7-1/2 in", "flute_width": "4 in", "fill": "4 in", "sheet": "0.036 in"},
        ),
        (
            SLEEVE,
            BLOCK,
            {"edge": "4 in", "spacing": "8 in", "thickness": "7-5/8 in", "joint_distance": "1-1/4 in"},
        ),
        (
            SLEEVE,
            change(BLOCK, {"masonry.units": "hollow"}),
            {
                "edge": "4 in",
                "spacing": "8 in",
                "thickness": "7-5/8 in",
                "joint_distance": "1-1/4 in",
                "face_shell": "1-1/4 in",
            },
        ),
        (
            SHORT,
            PLANK,
            {
                "edge": "3-3/4 in",
                "spacing": "6 in",
                "thickness": "6 in",
                "cover": "1-1/2 in",
                "strand_distance": "2 in",
            },
        ),
        (BOLT, change(BLOCK, {"thickness": 8}), {"edge": "2 in", "spacing": "3 in"}),
        (
            {"family": "headed-bolt", "size": "1/2", "h_ef": 4},
            change(BLOCK, {"face": "top"}),
            {"edge": "1-3/4 in", "spacing": "2 in"},
        ),
    ],
)
def test_least_distances_are_those_of_the_base(ask_cards, client, anchor, base, least):
    """By the family files: c_min, s_min, h_min in concrete; the tests in the flute; the table of the place. On top of
    a wall a bolt of 1/2 in stands behind 1/4 in of grout and a shell of 1-1/4 in (from memory)."""
    item = {"id": "a", "anchor": anchor, "base": base}
    (card,) = ask_cards(item)["cards"]
    assert {name: value["text"] for name, value in card["least"].items()} == least
    assert card["base"] == base["kind"]
    assert card["attention"] == []
    page = client.post(f"{PATH}?format=html", json={"units": "us", "items": [item]}).text
    for name, text in least.items():
        assert f"<dt>Least {name.replace('_', ' ')}</dt><dd>{text}</dd>" in page


def test_a_flute_has_a_most_offset_and_a_cell_one_anchor(ask_cards):
    deck, block = ask_cards({"id": "a", "anchor": WEDGE, "base": DECK}, {"id": "b", "anchor": SLEEVE, "base": BLOCK})[
        "cards"
    ]
    assert deck["most_offset"]["text"] == "1 in"
    assert "one_a_cell" not in deck
    assert block["one_a_cell"] is True


def test_each_base_has_its_own_card(ask_cards):
    """One product in a slab, in two flutes and in a side: four cards; masonry without a face is a side."""
    items = [
        {"id": "slab", "anchor": WEDGE, "base": SLAB},
        {"id": "thick", "anchor": WEDGE, "base": {**SLAB, "thickness": 12}},
        {"id": "bare", "anchor": WEDGE},
        {"id": "lower", "anchor": WEDGE, "base": DECK},
        {"id": "upper", "anchor": WEDGE, "base": change(DECK, {"deck.flute": "upper"})},
        {"id": "side", "anchor": WEDGE, "base": {**SLAB, "face": "side"}},
        {"id": "wall", "anchor": SLEEVE, "base": BLOCK},
    ]
    answer = ask_cards(*items)
    assert [card["used_by"] for card in answer["cards"]] == [
        ["slab", "thick", "bare"],
        ["lower"],
        ["upper"],
        ["side"],
        ["wall"],
    ]
    assert answer["cards"][-1]["face"] == "side"
    assert set(answer["assumptions"]) == {"face-assumed", "base-assumed"}
    assert "base-assumed" not in ask_cards(items[0])["assumptions"]


def test_what_is_assumed_stands_on_the_printed_card(client):
    page = client.post(f"{PATH}?format=html", json={"units": "us", "items": [{"id": "a", "anchor": WEDGE}]}).text
    assert "states no face of its base" in page
    assert "states no kind of base" in page
    stated = {"id": "a", "anchor": WEDGE, "base": {**SLAB, "face": "soffit"}}
    assert "Assumed" not in client.post(f"{PATH}?format=html", json={"units": "us", "items": [stated]}).text


@pytest.mark.parametrize(
    ("anchor", "base"),
    [
        (WEDGE, BLOCK),
        (SLEEVE, PLANK),
        ({"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}, DECK),
        ({"family": "cast-in-insert-deck-zinc", "size": "3/8", "h_ef": 1.5}, SLAB),
        (SLEEVE, change(BLOCK, {"masonry.location": "joint"})),
        (WEDGE, {"kind": "steel"}),
    ],
)
def test_data_that_don_t_hold_in_a_base_say_so(ask_cards, client, anchor, base):
    """The check refuses the same."""
    (card,) = ask_cards({"id": "a", "anchor": anchor, "base": base})["cards"]
    assert "base" in [each["what"] for each in card["attention"]]
    assert card["least"] == {} or base is SLAB
    checked = {**SINGLE_JSON["item"], "anchor": anchor, "base": base, "hangs": FORCES}
    result = client.post("/v1/hang-point", json={"units": "us", "item": checked}).json()["items"][0]
    assert result["status"] == "refused"


def test_the_code_asks_for_more_than_untested_data(ask_cards):
    """17.9.2: without tests for spacing a torque-controlled anchor of 3/8 in has its edge at 8 d_a = 3 in and its
    neighbour at 6 d_a = 2-1/4 in at least."""
    product = change(INLINE, {"embedment.c_min": 1.5, "embedment.s_min": 1})
    assert (product["principle"], product["size"]["d_a"]) == ("torque_controlled_expansion", 0.375)
    (card,) = ask_cards({"id": "a", "anchor": {"product": product}, "base": SLAB})["cards"]
    assert (card["least"]["edge"]["text"], card["least"]["spacing"]["text"]) == ("3 in", "2-1/4 in")


FORCES = {"kind": "forces", "components": [{"nature": "dead", "tension": 20}]}
TOLD = {
    "edge-below-minimum": "edge",
    "edge-below-code": "edge",
    "edge-below-table": "edge",
    "thickness-below-minimum": "thickness",
    "thickness-below-table": "thickness",
    "joint-below-table": "joint_distance",
    "face-shell-below-table": "face_shell",
    "cover-below-table": "cover",
    "strand-below-table": "strand_distance",
    "spacing-below-minimum": "spacing",
    "spacing-below-code": "spacing",
    "spacing-below-table": "spacing",
    "more-than-one-a-cell": "spacing",
    "deck-flute-narrow": "flute_width",
    "deck-cover": "fill",
    "deck-sheet": "sheet",
    "deck-offset": "offset",
}
"""What a card calls what a check finds."""


def _any_base(draw):
    """A base with distances about the limits, and a product that has data there."""
    anchor, base = draw.choice(((WEDGE, SLAB), (WEDGE, DECK), (SLEEVE, BLOCK), (SHORT, PLANK)))
    changes = {"thickness": draw.choice([base["thickness"], 5.5, 7])}
    for side in NONE:
        changes[f"edges.{side}"] = draw.choice(["none", "none", 2.9, 3, 3.8, 4, 7, 8])
    if base is DECK:
        changes["deck.cover"] = draw.choice([3, 3.25, 4])
        changes["deck.offset"] = draw.choice([0, -1, 1.1])
        changes["deck.flute_width"] = draw.choice([4, 4.5])
        changes["deck.sheet"] = draw.choice([0.0299, 0.0359])
    if base is BLOCK:
        changes["masonry.joint_distance"] = draw.choice([1, 1.25, "none"])
        changes["masonry.units"] = draw.choice(["grouted", "hollow"])
        changes["masonry.face_shell"] = draw.choice([1, 1.25])
        for side in NONE:
            changes[f"masonry.open_{side}"] = draw.choice(["none", "none", "none", 3.9, 4, 9])
    if base is PLANK:
        changes["hollow_core.cover"] = draw.choice([1.4, 1.5])
        changes["hollow_core.strand_distance"] = draw.choice([1.9, 2, "none"])
    several = draw.random() < 0.4 and base in (SLAB, BLOCK)
    half = draw.choice([1, 1.5, 2.5])
    layout = {"layout": [{"x": -half, "y": 0}, {"x": half, "y": 0}]} if several else {}
    return {"anchor": {**anchor, **layout}, "base": change(base, changes)}


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_card_finds_too_small_what_a_check_does(ask_cards, client, units):
    """300 bases: what the check calls a violation of edge, spacing, thickness, joint, shell, cover, strand, flute,
    sheet or offset stands under attention, and nothing else does."""
    draw = random.Random(45)
    items = [{"id": str(at), "hangs": FORCES, "seismic": {"category": "B"}, **_any_base(draw)} for at in range(300)]
    if units == "si":
        items = [_in_millimetres(each) for each in items]
    body = {"units": units, "items": items, "neighbours": "off"}
    checked = client.post("/v1/hang-points", json=body).json()["items"]
    found = {each["id"]: set() for each in items}
    for card in ask_cards(*items, units=units)["cards"]:
        for each in card["attention"]:
            found[each["id"]].add(each["what"].split(" x_")[0].split(" y_")[0])
    seen = set()
    for result in checked:
        assert result["status"] in ("passed", "failed"), result
        told = {TOLD[each["code"]] for each in result["findings"] if each["code"] in TOLD}
        assert found[result["id"]] == told, (result["id"], result["findings"])
        seen |= told
    assert seen == set(TOLD.values())


LENGTHS = {*(f"open_{side}" for side in NONE)} | {
    "thickness",
    "cover",
    "offset",
    "flute_width",
    "sheet",
    "joint_distance",
    "face_shell",
    "strand_distance",
}


def _in_millimetres(value, name=""):
    """An item with every bare length times 25.4, forces and strengths with their unit."""
    if isinstance(value, dict):
        return {key: _in_millimetres(each, key) for key, each in value.items()}
    if isinstance(value, list):
        return [_in_millimetres(each, name) for each in value]
    if isinstance(value, str | bool):
        return value
    units = {"tension": "lb", "f_m": "psi", "f_c": "psi"}
    if name in units:
        return f"{value} {units[name]}"
    return value * 25.4 if name in LENGTHS | set(NONE) | {"h_ef", "x", "y"} else value


def _with_tables(family, *, edge, spacing):
    """The first size of a family as a product inline, with tables of concrete that ask for more than its data."""
    own = load_catalogue(None).families[family].model_dump(mode="json", exclude_none=True)
    size = own["sizes"][0]
    (embedment, *_) = size.pop("embedments")
    asked = {"edge": {"least": edge}, "spacing": {"least": spacing}}
    tables = [
        {**table, "rows": [{**table["rows"][0], **asked}]} for table in own["tables"] if table["base"] == "concrete"
    ]
    traits = {name: own["traits"][name] for name in ("removable", "internally_threaded", "bases", "tension_overhead")}
    named = {name: own[name] for name in ("units", "principle", "basis", "material")}
    return {**named, "traits": traits, "size": size, "embedment": embedment, "tables": tables}


TWO = {"layout": [{"x": -2, "y": 0}, {"x": 2, "y": 0}]}


def test_least_distances_of_a_table_in_concrete(ask_cards):
    """Of a product by tables alone: 8 in to an edge and 6 in apart, where the data below them have 3.75 and 2.25 in."""
    product = _with_tables("drop-in-short-zinc", edge=8, spacing=6)
    base = change(SLAB, {"edges.y_plus": 7.9, "edges.y_minus": 8})
    (card,) = ask_cards({"id": "a", "anchor": {"product": product, **TWO}, "base": base})["cards"]
    assert (card["least"]["edge"]["text"], card["least"]["spacing"]["text"]) == ("8 in", "6 in")
    assert [each["what"] for each in card["attention"]][:2] == ["edge y_plus", "spacing"]
    assert card["new_hole"]["text"] == "6 in"


def test_a_table_beside_other_data_in_concrete(ask_cards):
    """A product that chapter 17 holds for too goes by its table where the request asks for allowable loads."""
    product = _with_tables("drop-in-zinc", edge=8, spacing=6)
    base = change(SLAB, {"edges.y_plus": 7.9})
    item = {"id": "a", "anchor": {"product": product, **TWO}, "base": base}
    found = {
        name: {each["what"] for each in ask_cards(item, combinations=name)["cards"][0]["attention"]}
        for name in ("strength", "allowable")
    }
    assert found["allowable"] - found["strength"] == {"edge-below-table", "spacing-below-table"}


def test_a_body_of_a_check_with_limits_is_read(ask_cards, client):
    """`structural_limits` belong to the check and have no use here."""
    body = {"structural_limits": [{"id": "notes", "most_per_point": "500 lb"}], "neighbours": "off"}
    item = {**SINGLE_JSON["item"], "at": {"level": "L1"}}
    assert client.post("/v1/hang-points", json={"units": "us", "items": [item], **body}).status_code == 200
    assert len(ask_cards(item, **body)["cards"]) == 1


@pytest.mark.parametrize(
    ("anchor", "base", "away"),
    [(SLEEVE, BLOCK, "8 in"), (WEDGE, DECK, "7-1/2 in"), (WEDGE, SLAB, "6-1/4 in")],
)
def test_a_new_hole_keeps_the_least_spacing_of_the_base(ask_cards, anchor, base, away):
    """Twice the hole of 1-3/4 in is below the 8 in of the table, twice that of 3-1/8 in below the 7-1/2 in of the
    flute; in concrete the spacing is 2-1/4 in and twice the hole counts."""
    (card,) = ask_cards({"id": "a", "anchor": anchor, "base": base})["cards"]
    assert card["new_hole"]["text"] == away
