"""Bases beyond the slab: decks by their tests, what no anchor is checked in, members that want questions first."""

import pytest

from api.bodies import FORCES, GONE, INLINE, batch, change, item

DECK = {
    "flute": "lower",
    "flute_width": "4-1/2 in",
    "offset": "1 in",
    "cover": "3-1/4 in",
    "sheet": "0.0359 in",
}
WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}


def in_deck(**changes):
    """400 lb from a lower flute of sand-lightweight fill of 3,000 psi, without edges."""
    base = item()["base"] | {
        "kind": "deck",
        "density": "sand_lightweight",
        "strength": {"f_c": 3000},
        "thickness": 6.25,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
        "deck": DECK,
    }
    return change(item(hangs=FORCES, anchor=WEDGE, base=base), {k.replace("__", "."): v for k, v in changes.items()})


@pytest.fixture
def result(client, checked):
    def ask(one, **top):
        return checked(client.post("/v1/hang-point", json={"units": "us", "item": one, **top}))["items"][0]

    return ask


@pytest.fixture
def errors(client, checked):
    def ask(one):
        content = checked(client.post("/v1/hang-point", json={"units": "us", "item": one}))
        return [(each["pointer"], each["code"]) for each in content["errors"]]

    return ask


def mode(found, name):
    return next(each for each in found["modes"] if each["mode"] == name)


def codes(found):
    return [each["code"] for each in found["findings"]]


def asked(found):
    return [each["code"] for each in found["to_engineer"]]


def test_a_point_in_a_lower_flute(result):
    """.65 x 1,450 lb = 942.5; 1.4 x 400 = 560: .5942. Reading 37; the strength is invented."""
    found = result(in_deck())
    assert found["status"] == "passed"
    assert mode(found, "pullout")["design_strength"] == pytest.approx(942.5)
    assert found["governing"]["utilisation"] == pytest.approx(560 / 942.5)
    assert mode(found, "concrete_breakout_tension")["reason"] == "tested-in-deck"
    assert "deck-by-tests" in found["assumptions"]
    assert "lambda-by-density" not in found["assumptions"]
    (section,) = (each for each in found["trace"] if each.get("mode") == "pullout")
    assert {"name": "in_deck", "value": True}.items() <= section["lines"][4].items()


def test_an_upper_flute_has_strengths_of_its_own(result):
    """.65 x 1,960 = 1,274 lb with a fill of 4 in above the deck."""
    found = result(in_deck(base__deck__flute="upper", base__deck__cover=4, base__thickness=7, base__deck__offset=0))
    assert mode(found, "pullout")["design_strength"] == pytest.approx(1274)


def test_the_same_in_si(client, checked):
    """Every length in mm, the load in kN."""
    one = in_deck(
        hangs__components=[{"nature": "dead", "tension": 400 * 0.0044482216152605}],
        anchor__h_ef=63.5,
        base__strength__f_c="3000 psi",
        base__thickness=158.75,
        base__deck={"flute": "lower", "flute_width": 114.3, "offset": -25.4, "cover": 82.55, "sheet": 0.91186},
    )
    found = checked(client.post("/v1/hang-point", json={"units": "si", "item": one}))["items"][0]
    assert found["governing"]["utilisation"] == pytest.approx(560 / 942.5)
    assert "deck-offset" not in codes(found)


@pytest.mark.parametrize(
    ("field", "beyond", "within", "code", "limit"),
    [
        ("flute_width", 4.4, 4.5, "deck-flute-narrow", 4.5),
        ("offset", 1.1, 1.0, "deck-offset", 1.0),
        ("offset", -1.1, -1.0, "deck-offset", 1.0),
        ("cover", 3.2, 3.25, "deck-cover", 3.25),
        ("sheet", 0.035, 0.036, "deck-sheet", 0.0359),
    ],
)
def test_the_geometry_of_the_tests(result, field, beyond, within, code, limit):
    failed = result(in_deck(**{f"base__deck__{field}": beyond}))
    assert failed["status"] == "failed"
    (finding,) = (each for each in failed["findings"] if each["code"] == code)
    assert (finding["value"], finding["limit"]) == (pytest.approx(abs(beyond)), pytest.approx(limit))
    assert code not in codes(result(in_deck(**{f"base__deck__{field}": within})))


def test_an_edge_of_the_deck(result):
    """c_min 8 in of the tests in the lower flute, not the 3 in of the product in concrete."""
    assert "edge-below-minimum" in codes(result(in_deck(base__edges__x_plus=7.9)))
    assert "edge-below-minimum" not in codes(result(in_deck(base__edges__x_plus=8)))


def test_a_sheet_that_is_not_stated(result):
    assert "deck-sheet-unknown" in codes(result(in_deck(base__deck__sheet=GONE)))


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"anchor": {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}}, "no-deck-data"),
        ({"anchor": {"family": "driven-pin-powder-zinc", "size": "0.150", "h_ef": 1.0}}, "no-deck-data"),
        (
            {"base__deck__flute": "upper", "anchor__h_ef": 3.25, "anchor__size": "1/2", "base__deck__cover": 4},
            "no-deck-data",
        ),
        ({"base__density": "all_lightweight"}, "deck-fill-not-tested"),
        (
            {
                "anchor": {"family": "cast-in-insert-deck-zinc", "size": "3/8", "h_ef": 1.5},
                "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 100, "shear_x": 50}]},
                "base__deck__offset": 0,
            },
            "no-deck-shear",
        ),
    ],
)
def test_what_was_not_tested_is_refused_by_name(result, changes, reason):
    found = result(in_deck(**changes))
    assert (found["status"], found["reason"]["code"]) == ("refused", reason)


def test_a_cast_in_insert_holds_by_its_tests(result):
    """phi .70 of a cast-in anchor: .70 x 1,850 = 1,295 lb; by tables alone anywhere else."""
    insert = {"family": "cast-in-insert-deck-zinc", "size": "3/8", "h_ef": 1.5}
    found = result(in_deck(anchor=insert, base__deck__offset=0.75, rod__size="3/8"))
    assert mode(found, "pullout")["design_strength"] == pytest.approx(1295)
    assert found["status"] == "passed"
    assert result(item(hangs=FORCES, anchor=insert))["status"] == "refused"


def test_supplied_data_of_a_deck(result):
    """A product stated inline brings its own tests: .65 x 1,000 = 650 lb."""
    own = {"flute": "lower", "n_cr": 1000.0, "f_c_ref": 3000.0, "exponent": 0.5, "flute_width": 4.5, "offset": 1.0}
    own |= {"cover": 3.25, "s_min": 7.0, "c_min": 8.0}
    product = change(INLINE, {"embedment.deck": [own], "traits.bases": ["concrete", "deck"]})
    found = result(in_deck(anchor={"product": product}))
    assert mode(found, "pullout")["design_strength"] == pytest.approx(650)


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"base__deck": GONE}, [(f"/base/deck/{n}", "missing") for n in ("flute", "flute_width", "offset", "cover")]),
        ({"base__deck__flute": "middle"}, [("/base/deck/flute", "unknown-option")]),
        ({"base__deck__cover": 6.25}, [("/base/deck/cover", "")]),
        ({"base__deck__cover": 2.5, "base__deck__flute": "upper"}, [("/anchor/h_ef", "")]),
        ({"base__deck__offset": "1 lb"}, [("/base/deck/offset", "quantity")]),
        ({"base__deck__depth": 3}, [("/base/deck/depth", "unknown-field")]),
        ({"base__kind": "concrete"}, [("/base/deck", "contradiction")]),
        ({"base__thickness": GONE}, [("/base/thickness", "missing")]),
    ],
)
def test_a_deck_that_can_not_be_read(errors, changes, expected):
    found = errors(in_deck(**changes))
    assert [pointer for pointer, _ in found] == [f"#/item{place}" for place, _ in expected]
    assert all(code == known for (_, code), (_, known) in zip(found, expected, strict=True) if known)


def test_anchors_across_a_flute(result, errors):
    """Two anchors 2 in apart across a flute that runs along x: 1 in from the centre each, with an offset of .5: 1.5."""
    pair = [{"x": 0, "y": -1}, {"x": 0, "y": 1}]
    plate = {"attachment": {"plate": {"width_x": 4, "width_y": 6, "support": "free"}}}
    one = in_deck(anchor__layout=pair) | plate
    assert errors(one) == [("#/item/base/deck/direction", "missing")]
    found = result(change(one, {"base.deck.direction": "x", "base.deck.offset": 0.5}))
    values = {each["code"]: each.get("value") for each in found["findings"]}
    assert values["deck-offset"] == pytest.approx(1.5)
    along = result(change(one, {"base.deck.direction": "y", "base.deck.offset": 0.5}))
    assert "deck-offset" not in codes(along)
    assert "spacing-below-minimum" in codes(along)


def test_a_plate_bears_in_its_flute_only(result, errors):
    """Two anchors in a line along a flute, 12 in apart, and a moment across it: only the 4.5 in of the flute bear.

    A_se = .053 in2, E_s / E_c = 29e6 / (33 x 110^1.5 x sqrt(3000)) = 13.9. The pressed edge is Y deep: C = 2T - 500,
    lever C (4.5 / 2 - Y / 3) = 5000, 2T = 2 x 13.9 x .053 sigma (4.5 / 2 - Y) / Y, C = 8 sigma Y. At Y = .5145
    T is 1,452.8; as if all 12 in bore, Y = .7816, T = 685.6. All of it 1.4 times (1.4D).
    """
    pair = [{"x": -6, "y": 0}, {"x": 6, "y": 0}]
    load = {"kind": "forces", "components": [{"nature": "dead", "tension": 500, "moment_x": 5000}]}
    wide = {"attachment": {"plate": {"width_x": 16, "width_y": 12, "support": "concrete"}}}
    one = in_deck(hangs=load, anchor__layout=pair, base__deck__direction="x", base__deck__offset=0) | wide
    assert errors(one) == [("#/item/attachment/plate", "beyond-edge")]
    bears = result(change(one, {"attachment.plate.width_y": 4.5}))
    assert mode(bears, "pullout")["demand"] == pytest.approx(1.4 * 1452.8, abs=0.05)
    assert errors(change(one, {"attachment.plate.width_y": 4.5, "base.deck.offset": 0.1})) == [
        ("#/item/attachment/plate", "beyond-edge")
    ]
    assert result(change(one, {"attachment.plate.support": "free"}))["status"] == "failed"  # nothing turns back


def test_a_plate_over_one_anchor_in_a_flute_asks_its_direction(result, errors):
    plate = {"attachment": {"plate": {"width_x": 4, "width_y": 6, "support": "concrete"}}}
    one = in_deck(base__deck__offset=0) | plate
    assert errors(one) == [("#/item/base/deck/direction", "missing")]
    assert errors(change(one, {"base.deck.direction": "x"})) == [("#/item/attachment/plate", "beyond-edge")]
    assert result(change(one, {"base.deck.direction": "y"}))["status"] == "passed"
    assert result(change(one, {"attachment.plate.width_y": 4.5}))["status"] == "passed"
    assert errors(change(one, {"attachment.plate.width_x": 5})) == [("#/item/attachment/plate", "beyond-edge")]
    assert errors(in_deck() | plate) == [("#/item/attachment/plate", "beyond-edge")]  # 1 + 2 in from the middle


@pytest.mark.parametrize(
    ("kind", "reason", "question"),
    [
        ("steel", "base-of-steel", "base-steel-or-wood"),
        ("wood", "base-of-wood", "base-steel-or-wood"),
        ("unknown", "base-unknown", "base-unknown"),
    ],
)
def test_loads_and_rod_without_an_anchor(result, kind, reason, question):
    """Of the base nothing but its kind is needed, and no anchor; the loads are those of the same point in concrete."""
    found = result(item(base={"kind": kind}, anchor=GONE, seismic=GONE))
    concrete = result(item())
    assert (found["status"], found["reason"]["code"]) == ("refused", reason)
    assert "product" not in found
    assert found["demand"] == concrete["demand"]
    assert mode(found, "rod_allowable") == mode(concrete, "rod_allowable")
    assert asked(found) == [question]
    assert not {"cracked-assumed", "f-c-assumed", "overhead-assumed"} & set(found["assumptions"])


def test_one_batch_of_all_bases(client, checked):
    """Points without an anchor stand beside others, and are nobody's neighbours."""
    points = [item(), item(base={"kind": "steel"}, anchor=GONE, seismic=GONE), in_deck()]
    body = batch(*points)
    for each in body["items"]:
        each["at"] = {"level": "L2", "x": 0, "y": 0}
    body["items"][2]["at"]["level"] = "L3"
    answer = checked(client.post("/v1/hang-points", json=body))
    assert [each["status"] for each in answer["items"]] == ["passed", "refused", "passed"]
    assert "neighbours" not in answer["items"][0]


def test_an_item_that_names_no_base_of_a_deck_takes_none_from_the_defaults(client, checked):
    """Defaults of a deck stand behind a slab without harm."""
    deck = in_deck()
    body = {
        "units": "us",
        "defaults": {name: deck[name] for name in ("hangs", "anchor", "base", "seismic")},
        "items": [{"id": "A"}, {"id": "B", "base": {"kind": "concrete"}}],
    }
    answer = checked(client.post("/v1/hang-points", json=body))
    strengths = [mode(each, "pullout")["design_strength"] for each in answer["items"]]
    assert strengths[0] == pytest.approx(942.5)
    assert strengths[1] != pytest.approx(942.5)


@pytest.mark.parametrize(
    ("said", "status", "reason", "question", "assumed"),
    [
        ({}, "passed", None, False, True),
        ({"post_tensioned": "no"}, "passed", None, False, False),
        ({"post_tensioned": "unknown"}, "refused", "post-tensioned-not-scanned", True, False),
        ({"post_tensioned": "yes"}, "refused", "post-tensioned-not-scanned", True, False),
        ({"post_tensioned": "yes", "scanned": False}, "refused", "post-tensioned-not-scanned", True, False),
        ({"post_tensioned": "yes", "scanned": True, "scanned_by": "Invented Scans"}, "passed", None, True, False),
    ],
)
def test_post_tensioned(result, said, status, reason, question, assumed):
    """Reading 39: never passed without a scan; silence is listed."""
    one = item()
    found = result(one | {"base": one["base"] | said})
    assert found["status"] == status
    assert found.get("reason", {}).get("code") == reason
    assert ("post-tensioned" in asked(found)) is question
    assert ("not-post-tensioned-assumed" in found["assumptions"]) is assumed
    assert ("tendons-scanned" in codes(found)) is (said.get("scanned") is True)


@pytest.mark.parametrize(
    ("said", "place", "code"),
    [
        ({"scanned": True}, "scanned_by", "missing"),
        ({"post_tensioned": "no", "tendon_depth": 4}, "tendon_depth", "contradiction"),
        ({"post_tensioned": True}, "post_tensioned", "unknown-option"),
        ({"part": "roof"}, "part", "unknown-option"),
        ({"kind": "gypsum"}, "kind", "unknown-option"),
        ({"age_days": -1}, "age_days", None),
        ({"clear_cover": 0}, "clear_cover", None),
    ],
)
def test_what_can_not_be_said_of_a_member(errors, said, place, code):
    one = item()
    ((pointer, found),) = errors(one | {"base": one["base"] | said})
    assert pointer == f"#/item/base/{place}"
    assert code in (None, found)


def test_a_topping(result):
    found = result(item(base__part="topping"))
    assert found["reason"]["code"] == "topping-bond"
    assert asked(found) == ["topping-bond"]


def test_depth_of_the_hole(result):
    """The hole of 1/2 in, 3-1/4 in deep, is 4 in: to a tendon at 4 in, beyond a cover of 3 in, half of 8 in exactly."""
    scanned = {"base__post_tensioned": "yes", "base__scanned": True, "base__scanned_by": "Invented Scans"}
    found = result(item(**scanned, base__tendon_depth=4, base__clear_cover=3))
    assert found["status"] == "failed"
    assert {"drilled-to-tendon", "drilled-beyond-cover"} <= set(codes(found))
    assert "drilled-beyond-half" not in codes(found)
    assert "drilled-beyond-half" in codes(result(item(base__thickness=7.9)))
    assert "drilled-to-tendon" not in codes(result(item(**scanned, base__tendon_depth=4.1)))


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"base__existing": True, "base__strength": GONE}, "existing-strength-unknown"),
        ({"base__state": "uncracked", "base__state_decided_by": "an invented engineer"}, "uncracked-by-decision"),
        ({"base__age_days": 27}, "concrete-young"),
        ({"base__part": "beam"}, "beam-drilling"),
        ({"hangs__sprinkler": True, "hangs__contents": "water"}, "sprinkler-certification"),
        ({"seismic": {"category": "D", "tension_option": "overstrength"}}, "seismic-option"),
        ({"environment": {"fire_rating": 1}}, "fire-rating"),
        ({"environment": {"exposure": "chlorides"}}, "corrosive-exposure"),
    ],
)
def test_what_goes_to_an_engineer(result, changes, code):
    """And what just does not: the example itself."""
    found = result(item(**changes))
    assert code in asked(found)
    (entry,) = (each for each in found["to_engineer"] if each["code"] == code)
    assert entry["question"].startswith("Please ")
    assert asked(result(item())) == []
    assert asked(result(item(base__existing=True, base__age_days=28, base__part="slab"))) == []


def test_an_adhesive_overhead_goes_to_an_engineer(client, checked):
    from regression.answers import REQUESTS

    body = (REQUESTS / "adhesive_overhead.json").read_bytes()
    headers = {"Content-Type": "application/json"}
    answer = checked(
        client.post("/v1/hang-points" if b'"items"' in body else "/v1/hang-point", content=body, headers=headers)
    )
    assert any("adhesive-sustained-overhead" in asked(each) for each in answer["items"])


def test_triage_is_served(client):
    served = client.get("/v1/quantities").json()["triage"]
    assert len({each["code"] for each in served}) == len(served) > 10
    assert all(each["question"].endswith((".", ")")) and len(each["text"]) > 10 for each in served)


def test_a_pool(result):
    """Reading 40: zinc is refused; the question goes along."""
    found = result(item(environment={"exposure": "pool"}))
    assert found["reason"]["code"] == "pool-air"
    assert asked(found) == ["corrosive-exposure"]
    assert "dry-indoors-assumed" not in found["assumptions"]
    assert "dry-indoors-assumed" in result(item())["assumptions"]


def test_a_stainless_rod_in_a_zinc_anchor(result):
    """Common practice, no source: harmless while dry, the anchor is eaten where it is damp."""
    dry = result(item(environment={"exposure": "dry", "rod_metal": "stainless"}))
    assert (dry["status"], "dissimilar-metals" in codes(dry)) == ("passed", True)
    damp = result(item(environment={"exposure": "damp", "rod_metal": "stainless"}))
    assert damp["status"] == "failed"
    assert {"galvanic-couple", "exposure-corrosion"} <= set(codes(damp))


@pytest.mark.parametrize(
    ("environment", "place"),
    [
        ({"exposure": "space"}, "exposure"),
        ({"fire_rating": 5}, "fire_rating"),
        ({"attached_metal": "zinc"}, "attached_metal"),
        ({"vibration": "yes"}, "vibration"),
        ({"humidity": 1}, "humidity"),
    ],
)
def test_an_environment_that_can_not_be_read(errors, environment, place):
    ((pointer, _),) = errors(item(environment=environment))
    assert pointer == f"#/item/environment/{place}"


def test_as_csv(client):
    """Every new field is a column; yes and no of post_tensioned stay words."""
    head = "id,hangs.kind,hangs.weight,hangs.nature,family,anchor_size,h_ef,base.kind,base.density,base.thickness"
    head += (
        ",edge_x_minus,edge_x_plus,edge_y_minus,edge_y_plus,seismic_category,base.post_tensioned,environment.exposure"
    )
    row = "A,weight,300 lb,dead,wedge-expansion-zinc,1/2,3-1/4 in,concrete,normalweight,8 in,none,none,none,none,B"
    text = f"{head}\n{row},no,damp\n{row.replace('A,', 'B,', 1)},unknown,\n"
    found = client.post(
        "/v1/hang-points?units=us", content=text, headers={"Content-Type": "text/csv", "Accept": "application/json"}
    ).json()
    assert [each["status"] for each in found["items"]] == ["failed", "refused"]
    assert found["items"][1]["reason"]["code"] == "post-tensioned-not-scanned"


@pytest.mark.parametrize("face", ["soffit", "side", "top"])
@pytest.mark.parametrize("kind", ["pipe", "weight", "forces"])
def test_a_weight_pulls_out_of_a_soffit_only(send_one, kind, face):
    """Stated forces act as they are stated, in any face."""
    hangs = {"weight": {"kind": "weight", "weight": "90 lb", "nature": "dead"}, "forces": FORCES}
    own = item(base__face=face) if kind == "pipe" else item(base__face=face, hangs=hangs[kind])
    found = send_one({"units": "us", "item": own}, status=200)["items"][0]
    if kind == "forces" or face == "soffit":
        assert found["status"] != "refused"
    else:
        assert found["status"] == "refused"
        assert found["reason"]["code"] == "weight-does-not-pull"
