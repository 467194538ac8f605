"""Points that once passed and must not: each is a way to hang more than holds. Figures by hand beside each."""

import pytest

from api.bodies import INLINE, change, single

WEDGE = {"family": "wedge-expansion-zinc", "size": "3/8", "h_ef": 2.5}
SPRINKLER = {
    "kind": "pipe",
    "material": "steel",
    "size": "4",
    "schedule": "40",
    "contents": "water",
    "sprinkler": True,
    "run": {"spans": [15, 15], "support": 1},
}


def codes(result):
    return {finding["code"] for finding in result["findings"]}


def result_of(send_one, body):
    return send_one(body, status=200)["items"][0]


def factored(*components, **hangs):
    listed = [{"nature": nature, "tension": tension} for nature, tension in components]
    body = single(hangs={"kind": "forces", "components": listed, **hangs}, anchor=WEDGE, seismic__category="D")
    return body | {"combinations": "given_factored"}


def test_seismic_pullout_strength_counts_under_gravity(send_one):
    """Undercut M12/100: N_p,eq 22 kN, phi 0.65: 0.65 x 22,000 N / 4.448 = 3,215 lb; 1.4 x 2,900 lb is 1.26 of it.
    N_p,cr does not govern, so without 17.10.3 the point would pass by breakout.
    """
    anchor = {"family": "undercut-stainless-metric", "size": "M12", "h_ef": "100 mm"}
    weight = {"kind": "weight", "weight": 2900, "nature": "dead"}
    body = single(hangs=weight, anchor=anchor, rod__size="M12", base__strength={"f_c": 2500}, seismic__category="C")
    body["item"]["base"]["edges"] = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
    result = result_of(send_one, body)
    mode = next(each for each in result["modes"] if each["mode"] == "pullout")
    assert mode["design_strength"] == pytest.approx(3215, abs=1)
    assert mode["utilisation"] == pytest.approx(1.26, abs=0.005)
    assert result["status"] == "failed"
    assert "pullout-by-seismic-tests" in result["assumptions"]


def test_components_of_nature_earthquake_are_the_share(send_one):
    """900 of 1,000 lb is 90 %, above the 20 % of 17.10.5.1; 150 of 1,000 is below."""
    shaken = result_of(send_one, factored(("dead", 100), ("earthquake", 900)))
    assert (shaken["status"], shaken["reason"]["code"]) == ("refused", "seismic-tension-option")
    still = result_of(send_one, factored(("dead", 850), ("earthquake", 150)))
    assert still["status"] != "refused"
    assert "no-earthquake-share-assumed" not in still["assumptions"]


def test_a_share_beside_such_components_is_a_contradiction(send_one):
    problem = send_one(factored(("dead", 100), ("earthquake", 900), earthquake_fraction=0.1), status=422)
    assert problem["errors"][0]["pointer"] == "#/item/hangs/earthquake_fraction"
    assert problem["errors"][0]["code"] == "contradiction"


def test_live_load_that_lifts_does_not_relieve_the_rod(send_one):
    """1,000 lb dead alone on a 3/8 rod of 726 lb: 1.38."""
    components = [{"nature": "dead", "tension": 1000}, {"nature": "live", "tension": -500}]
    body = single(hangs={"kind": "forces", "components": components}, anchor=WEDGE, rod={"size": "3/8"})
    result = result_of(send_one, body)
    assert result["modes"][0]["demand"] == 1000
    assert result["status"] == "failed"


def test_the_size_table_is_for_sprinkler_lines(send_one):
    line = change(SPRINKLER, {"sprinkler": False})
    body = single(hangs=line, rod={"size": "3/8", "rule": "sprinkler_size_table"})
    problem = send_one(body, status=422)
    assert problem["errors"][0]["pointer"] == "#/item/rod/rule"
    assert "sp58_allowable" in problem["errors"][0]["allowed"]


def test_a_sprinkler_rod_with_point_loads_is_checked_by_its_load(send_one):
    """2,000 lb on the hanger: several times the 726 lb of a 3/8 rod."""
    loaded = change(SPRINKLER, {"run.point_loads": [{"at": 15, "weight": 2000, "nature": "dead"}]})
    result = result_of(send_one, single(hangs=loaded, rod={"size": "3/8"}))
    assert result["modes"][0]["applies"]
    assert result["modes"][0]["utilisation"] > 2.7
    assert result["status"] == "failed"


@pytest.mark.parametrize("rule", [{}, {"rule": "sprinkler_size_table"}], ids=["no rule named", "the table named"])
def test_a_sprinkler_rod_at_wide_spacing_is_checked_by_its_load(send_one, rule):
    """NPS 8 schedule 40, filled, weighs 50.27 lb/ft (28.58 of pipe, 21.69 of water: tables), so 40 ft and 250 lb are
    2,261 lb on a hanger; a 1/2 in rod, which the size table asks for, is allowed 1,350 lb (printed with SP-58).
    """
    line = {"kind": "pipe", "material": "steel", "size": "8", "schedule": "40", "contents": "water", "sprinkler": True}
    run = {"spans": [40, 40], "support": 1, "model": "tributary"}
    result = result_of(send_one, single(hangs=line | {"run": run}, rod={"size": "1/2"} | rule))
    (rod,) = (each for each in result["links"] if each["link"] == "rod")
    assert rod["utilisation"] == pytest.approx(2261 / 1350, rel=5e-3)
    assert result["rod_rule"] == "sp58_allowable"
    assert "rod-below-size-table" not in codes(result)
    assert result["status"] == "failed"


def test_a_stated_sprinkler_rule_is_on_the_rod(send_one):
    """1,000 lb are 5 x 150 + 250: 150 lb and 250 lb hang on the rod, whose 3/8 in are allowed 730 lb (printed with
    SP-58, to 10 lb). Five times the weight goes with the size table and is named; a strength meets all of it.
    """
    stated = [{"nature": "sprinkler_rule", "tension": 1000}]
    body = single(hangs={"kind": "forces", "components": stated}, anchor=WEDGE, rod={"size": "3/8"})
    result = result_of(send_one, body)
    assert result["modes"][0]["demand"] == pytest.approx(400)
    assert result["modes"][0]["utilisation"] == pytest.approx(400 / 730, rel=1e-2)
    assert "rod-under-sprinkler-rule" in result["not_checked"]
    strength = change(body, {"item.rod.rule": "tensile_strength"})
    result = result_of(send_one, strength)
    assert result["modes"][1]["demand"] == pytest.approx(1000)
    assert "rod-under-sprinkler-rule" not in result["not_checked"]


def test_what_is_stated_beside_the_sprinkler_rule_is_not_counted_twice(send_one):
    """150 lb of dead load and 250 lb of live load are what the rule of 1,000 lb counts; 300 lb more are more."""
    parts = {"dead": 150, "live": 250, "sprinkler_rule": 1000}
    for more in (0, 300):
        components = [{"nature": name, "tension": load + more * (name == "dead")} for name, load in parts.items()]
        body = single(hangs={"kind": "forces", "components": components}, anchor=WEDGE, rod={"size": "3/8"})
        assert result_of(send_one, body)["modes"][0]["demand"] == pytest.approx(400 + more)


def test_contents_of_a_point_load_are_contents(send_one):
    """60 lb over the hanger are there whole by every model, beside what the same line brings without them."""
    loaded = change(SPRINKLER, {"run.point_loads": [{"at": 15, "weight": 60, "nature": "contents"}]})
    with_it, without = (result_of(send_one, single(hangs=each))["demand"] for each in (loaded, SPRINKLER))
    assert with_it["contents"] - without["contents"] == pytest.approx(60)
    assert with_it["dead"] == without["dead"]


@pytest.mark.parametrize("rule", ["tensile_strength", "sp58_allowable", "sprinkler_size_table"])
def test_the_size_table_holds_whatever_rule_is_named(send_one, rule):
    """NPS 4 asks for 3/8 in (from memory); a rod of 1/4 in is a violation by every rule."""
    result = result_of(send_one, single(hangs=SPRINKLER, rod={"size": "1/4", "rule": rule}))
    assert "rod-below-size-table" in codes(result)
    assert result["status"] == "failed"


def test_a_product_inline_has_the_edges_of_the_code(send_one):
    """Torque-controlled, d_a 3/8 in: 8 x 3/8 = 3 in of 17.9.2(b); stated 0.5 in without tests, placed at 0.6 in."""
    product = change(INLINE, {"embedment.c_min": 0.5})
    body = single(anchor={"product": product}, base__edges__x_plus=0.6)
    assert "edge-below-code" in codes(result_of(send_one, body))
    tested = change(product, {"embedment.spacing_tested": True})
    result = result_of(send_one, single(anchor={"product": tested}, base__edges__x_plus=0.6))
    assert "edge-below-code" not in codes(result)


def test_a_cast_in_bolt_that_is_torqued_has_the_edge_of_the_code(send_one):
    """Headed bolt, d_a 3/4 in, c_min 1.5 in without tests, 3 in from an edge: 6 x 3/4 = 4.5 in once it is torqued, the
    cover otherwise (Table 17.9.2(a), from memory).
    """
    bolt = {
        "units": "us",
        "principle": "headed_cast_in",
        "basis": "cast_in",
        "traits": {"tension_overhead": True, "sustained_tension": True},
        "size": {
            "size": "3/4",
            "d_a": 0.75,
            "a_se": 0.334,
            "f_uta": 58_000,
            "f_ya": 36_000,
            "ductile": True,
            "head": {"a_brg": 0.9},
        },
        "embedment": {"h_ef": 5, "h_min": 7, "c_min": 1.5, "s_min": 4.5, "torque": 60},
    }
    not_held = ({"embedment.torque": None}, {"embedment.spacing_tested": True})
    for changes, edge in (({}, 4.5), *((each, None) for each in not_held)):
        body = single(anchor={"product": change(bolt, changes)}, base__edges__x_plus=3, base__thickness=8)
        found = {each["code"]: each["limit"] for each in result_of(send_one, body)["findings"] if "limit" in each}
        assert found.get("edge-below-code") == edge
    body = single(anchor={"product": bolt}, base__edges__x_plus=4.5, base__thickness=8)
    assert "edge-below-code" not in codes(result_of(send_one, body))


def test_tiny_numbers_cost_nothing_else(send):
    """No number of a request makes a division by nothing; the good point beside it is answered."""
    good, tiny, edges = (single()["item"] for _ in range(3))
    tiny["base"]["strength"] = {"f_c": 5e-324}
    edges["base"]["edges"] = dict.fromkeys(("x_minus", "x_plus", "y_minus"), 1e-170) | {"y_plus": "none"}
    items = [each | {"id": str(at)} for at, each in enumerate((good, tiny, edges))]
    answer = send({"units": "us", "items": items}, status=200)
    assert [item["status"] for item in answer["items"]] == ["passed", "invalid", "invalid"]


def test_a_product_not_for_tension_that_stays_is_refused(send_one):
    product = change(INLINE, {"traits.sustained_tension": False})
    result = result_of(send_one, single(anchor={"product": product}))
    assert result["reason"]["code"] == "not-for-sustained-tension"


def test_points_of_one_member_agree_on_it(send):
    one, other = single(base__member="S1")["item"], single(base__member="S1", base__thickness="10 in")["item"]
    answer = send({"units": "us", "items": [one | {"id": "a"}, other | {"id": "b"}]}, status=200)
    assert [item["status"] for item in answer["items"]] == ["invalid", "invalid"]
    assert answer["items"][0]["problem"]["errors"][0]["pointer"] == "#/items/0/base/thickness"


def test_a_mass_for_a_weight_is_told(send_one):
    weight = {"kind": "weight", "weight": "100 kg", "nature": "dead"}
    result = result_of(send_one, single(hangs=weight))
    assert "mass-by-standard-gravity" in result["assumptions"]
    assert result["demand"]["dead"] == pytest.approx(220.46, abs=0.01)


@pytest.mark.parametrize(("edition", "expected"), [("asce7_16", 300 + 900), ("asce7_22", 300 + 0.7 * 900)])
def test_a_rod_goes_by_the_snow_of_the_named_edition(send_one, edition, expected):
    """Allowable-stress design, 2.4.1: D + S in ASCE 7-16, D + 0.7 S in 7-22, whose snow is at strength level."""
    loads = [{"nature": "dead", "tension": 300}, {"nature": "snow", "tension": 900}]
    rule = {"size": "3/8", "rule": "sp58_allowable"}
    body = single(hangs={"kind": "forces", "components": loads}, anchor=WEDGE, rod=rule)
    modes = result_of(send_one, body | {"load_standard": edition})["modes"]
    (rod,) = (mode for mode in modes if mode["mode"] == "rod_allowable")
    assert rod["demand"] == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("rule", "said"), [("b31_1_water", True), ("sp58_water", False)])
def test_a_spacing_rule_that_wants_no_point_loads(send_one, rule, said):
    """ASME B31.1-2016, table 121.5: not where there are concentrated loads."""
    steel = change(SPRINKLER, {"sprinkler": False, "schedule": "40", "run.spacing_rule": rule})
    loaded = change(steel, {"run.point_loads": [{"at": 15, "weight": 60}]})
    assert ("spacing-rule-with-point-load" in codes(result_of(send_one, single(hangs=loaded)))) == said
    assert "spacing-rule-with-point-load" not in codes(result_of(send_one, single(hangs=steel)))


@pytest.mark.parametrize(("stated", "grows"), [(None, 4000 / 2500), (2500, 4000 / 2500), (3000, 4000 / 3000)])
def test_the_concrete_that_a_pullout_strength_is_of_is_asked_for(send_one, stated, grows):
    """N_p of 1,500 lb grows by (f'c / f_c,ref)^0.5: in 4,000 psi 1,897 lb if it is of 2,500 psi and 1,732 of 3,000."""
    product = change(INLINE, {"embedment.f_c_ref": stated} if stated else {})
    result = result_of(send_one, single(anchor={"product": product}, base__strength={"f_c": 4000}))
    assert ("f-c-ref-assumed" in result["assumptions"]) is (stated is None)
    pullout = next(mode for mode in result["modes"] if mode["mode"] == "pullout")
    assert pullout["design_strength"] == pytest.approx(0.65 * 1500 * grows**0.5, rel=1e-9)
