"""The products of a job: each passes its check, the plan is that of brute force, limits hold. Invented building."""

import itertools
import random

import pytest

from api.choosing_bodies import JOBS, SELECTIONS, anchor_of, base, named, point, reasons, request

POINTS = "/v1/hang-points"
FAMILIES = ["wedge-expansion-zinc", "large-screw-hex-zinc", "sleeve-expansion-heavy-zinc", "wedge-expansion-stainless"]


@pytest.fixture(scope="module")
def ask(client, validator):
    def send(body):
        response = client.post(JOBS, json=body)
        assert response.status_code == 200, response.text[:600]
        answer = response.json()
        validator("JobSelectionsAnswer").validate(answer)
        return answer

    return send


@pytest.fixture(scope="module")
def offered(client):
    """Cost of every product that holds a point, by the resource that chooses for one point."""

    def of(item, want):
        result = client.post(SELECTIONS, json=request(item, want=want, most=50)).json()["items"][0]
        assert len(reasons(result)) + len(result["ranked"]) == result["counts"]["candidates"], "50 ranked are not all"
        return {own["product"]: own for own in result["ranked"]}

    return of


def job(seed, count=9):
    draw = random.Random(seed)
    items = []
    for at in range(count):
        edge = draw.choice([None, None, "2 in", "3 in", "5 in"])
        items.append(point(f"P{at}", pounds=draw.choice([150, 400, 900, 1600, 2600]), on=base(edge)))
    return items


def cheapest(costs, most):
    """Least cost over all sets of at most so many products; None where none holds all."""
    products = sorted({name for own in costs for name in own})
    best = None
    for chosen in itertools.combinations(products, most):
        sums = [min((own[name] for name in chosen if name in own), default=None) for own in costs]
        if None not in sums:
            best = sum(sums) if best is None else min(best, sum(sums))
    return best


@pytest.mark.parametrize("seed", range(4))
def test_the_plan_is_that_of_brute_force(ask, offered, seed):
    """Over every pair of products, from what each point is offered alone."""
    items, want = job(seed), {"families": FAMILIES}
    found = [offered(item, want) for item in items]
    costs = [{name: own["cost_index"] for name, own in each.items()} for each in found if each]
    for most in (1, 2):
        plan = ask(request(*items, want=want, limits={"products": most}))["plan"]
        best = cheapest(costs, most)
        if best is None:
            assert plan["status"] == "limits_too_tight"
            assert plan["fewest_products"] > most
        else:
            assert plan["total"] == pytest.approx(best, rel=1e-9)
            assert plan["gap"] == 0


def test_every_point_passes_with_its_product(ask, client):
    items = job(11, count=40)
    answer = ask(request(*items, limits={"products": 3}))
    chosen = [own for own in answer["items"] if own["status"] == "held"]
    assert len(chosen) > 30
    by_id = {item["id"]: item for item in items}
    body = {"units": "us", "items": [named(by_id[own["id"]], anchor_of(own["product"])) for own in chosen]}
    checked = client.post(POINTS, json=body).json()
    assert checked["summary"]["passed"] == len(chosen) == answer["recheck"]["summary"]["passed"]
    assert answer["recheck"]["not_passed"] == []
    for own, result in zip(chosen, checked["items"], strict=True):
        assert own["recheck"]["utilisation"] == result["governing"]["utilisation"]
        assert own["utilisation"] <= 0.9 + 1e-9


@pytest.mark.parametrize("objective", ["cost_index", "minutes", "drilled_depth"])
def test_totals_are_the_sums_of_the_products(ask, objective):
    plan = ask(request(*job(3, count=20), want={"objective": objective}, limits={"products": 4}))["plan"]
    assert plan["total"] == pytest.approx(plan["totals"][objective], rel=1e-9)
    for name in ("points", "anchors", "cost_index", "minutes", "drilled_depth"):
        assert sum(own[name] for own in plan["products"]) == pytest.approx(plan["totals"][name], rel=1e-9)


def test_limits_hold(ask):
    items = [point(f"P{at}", pounds=60 * at) for at in range(1, 26)]
    for limits in ({"products": 2}, {"bits": 1}, {"families": 1}, {"products": 3, "bits": 2, "families": 2}):
        plan = ask(request(*items, limits=limits))["plan"]
        assert plan["status"] == "planned"
        assert len(plan["products"]) <= limits.get("products", 20)
        assert len(plan["bits"]) <= limits.get("bits", 20)
        assert len({own["anchor"]["family"] for own in plan["products"]}) <= limits.get("families", 20)


def test_the_curve_never_rises_and_ends_where_nothing_is_saved(ask):
    items = job(7, count=30)
    plan = ask(request(*items, most_products=8))["plan"]
    totals = [own["total"] for own in plan["curve"]]
    assert len(totals) > 2
    assert totals == sorted(totals, reverse=True)
    assert totals[-1] == pytest.approx(plan["total"], rel=1e-9)
    for before, own in itertools.pairwise(plan["curve"]):
        assert own["saves"] == pytest.approx(before["total"] - own["total"], abs=1e-9)
        single = ask(request(*items, limits={"products": own["products"]}))["plan"]
        assert single["total"] == pytest.approx(own["total"], rel=1e-9)
    assert plan["curve"][0]["products"] == plan["fewest_products"]


def test_a_further_family_never_makes_the_job_dearer(ask):
    items, totals = job(2, count=15), []
    for most in range(1, len(FAMILIES) + 1):
        answer = ask(request(*items, want={"families": FAMILIES[:most]}, limits={"products": 3}))
        held = {own["id"] for own in answer["items"] if own["status"] == "held"}
        totals.append((held, answer["plan"].get("total")))
    for (before, sooner), (after, later) in itertools.pairwise(totals):
        assert before <= after
        if before == after and sooner is not None:
            assert later <= sooner + 1e-9


def test_a_point_that_nothing_holds_is_told_and_costs_the_others_nothing(ask):
    items = [*job(1, count=5), point("TANK", pounds=90000)]
    answer = ask(request(*items))
    tank = answer["items"][-1]
    assert tank["status"] == "not_held"
    assert tank["nearest"]["changes"]
    assert answer["plan"]["totals"]["points"] == answer["summary"]["held"] == 5


def test_nothing_holds_anything(ask):
    answer = ask(request(point("TANK", pounds=900000)))
    assert answer["plan"]["status"] == "nothing_held"
    assert "recheck" not in answer
    assert answer["plan"]["products"] == []


def test_limits_that_are_too_tight(ask):
    """Only screws hold near the edge and only wedges of the other family hold the rest: one product can't."""
    near = point("near", pounds=100, on=base("1-3/4 in"))
    heavy = point("heavy", pounds=4200)
    want = {"families": ["large-screw-hex-zinc", "wedge-expansion-zinc"]}
    answer = ask(request(near, heavy, want=want, limits={"products": 1}))
    assert answer["plan"]["status"] == "limits_too_tight"
    assert answer["plan"]["fewest_products"] == 2
    assert {own["status"] for own in answer["items"]} == {"not_planned"}
    assert answer["summary"]["not_planned"] == 2
    assert [own["products"] for own in answer["plan"]["curve"]] == [2]


@pytest.mark.parametrize(("most", "status"), [(1, "limits_too_tight"), (2, "planned")])
def test_the_curve_is_in_the_unit_of_the_request(ask, most, status):
    """Drilled depth in in or in mm, with a plan and without one: 25.4 mm are 1 in. A cost index has no unit."""
    items = [point("near", pounds=100, on=base("1-3/4 in")), point("heavy", pounds=4200)]
    want = {"families": ["large-screw-hex-zinc", "wedge-expansion-zinc"]}

    def plan(units, objective):
        body = request(*items, want=want | {"objective": objective}, limits={"products": most}, units=units)
        answer = ask(body)["plan"]
        assert answer["status"] == status
        return answer

    inches, millimetres = (plan(units, "drilled_depth") for units in ("us", "si"))
    assert len(inches["curve"]) > 0
    for name in ("total", "saves"):
        shown, metric = ([own[name] for own in each["curve"] if name in own] for each in (inches, millimetres))
        assert metric == pytest.approx([25.4 * each for each in shown], rel=1e-9)
    if most == 2:
        assert inches["curve"][0]["total"] == pytest.approx(inches["total"], rel=1e-9)
        assert millimetres["curve"][0]["total"] == pytest.approx(millimetres["totals"]["drilled_depth"], rel=1e-9)
    assert plan("si", "cost_index")["curve"] == plan("us", "cost_index")["curve"]


def pair_of(pounds, inches):
    """Two points of one level, so far apart."""
    return [point(f"N{at}", pounds=pounds, at={"level": "L1", "x": f"{at * inches} in", "y": 0}) for at in range(2)]


def test_neighbours_are_checked_again(ask):
    """Two points 2 in apart, nearer than any product may be that holds them, are each held alone; what becomes of them
    together is told."""
    items = pair_of(2300, 2)
    apart = ask(request(*items, neighbours="off"))
    together = ask(request(*items))
    assert apart["recheck"]["not_passed"] == []
    assert [own["recheck"]["near"] for own in together["items"]] == [["N1"], ["N0"]]
    assert together["items"][0]["recheck"]["utilisation"] > apart["items"][0]["recheck"]["utilisation"]
    assert together["recheck"]["not_passed"] == ["N0", "N1"]
    assert together["recheck"]["planned_anew"] == []
    assert together["plan"] == apart["plan"]


def keeps(result, most):
    """Passed, anchor and base used to no more than so much."""
    used = [own["utilisation"] for own in result["modes"] if own["applies"] and not own["mode"].startswith("rod_")]
    return result["status"] == "passed" and max(used) <= most


@pytest.mark.parametrize(("pounds", "inches"), [(2300, 4), (2000, 5), (2600, 6), (1750, 3)])
def test_a_pair_that_fails_together_is_planned_anew_as_brute_force_does(ask, offered, client, pounds, inches):
    """Every two products that hold the points alone, each pair in a level of its own of one check."""
    items = pair_of(pounds, inches)
    alone, together = ask(request(*items, neighbours="off")), ask(request(*items))
    offers = offered(items[0], request()["want"])
    pairs = list(itertools.product(offers.values(), repeat=2))
    tried = [
        {**item, "id": f"{at}-{item['id']}", "at": {**item["at"], "level": f"L{at}"}, "anchor": own["anchor"]}
        for at, pair in enumerate(pairs)
        for item, own in zip(items, pair, strict=True)
    ]
    results = client.post(POINTS, json={"units": "us", "detail": "modes", "items": tried}).json()["items"]
    costs = [
        sum(own["cost_index"] for own in pair)
        for pair, *both in zip(pairs, results[::2], results[1::2], strict=True)
        if all(keeps(result, 1 - together["reserve"]) for result in both)
    ]
    assert together["plan"]["total"] == pytest.approx(min(costs), rel=1e-9)
    assert together["plan"]["total"] > alone["plan"]["total"]
    recheck = together["recheck"]
    assert recheck["planned_anew"] == ["N0", "N1"]
    assert recheck["not_passed"] == recheck["reserve_not_kept"] == []
    assert "have another product than the least would be" in recheck["text"]
    assert "2 points" in together["plan"]["text"]
    assert "not every mix of them was tried" in together["plan"]["text"]


def test_only_points_near_others_are_planned_anew(ask):
    """Beside a pair 4 in apart a point alone keeps its product; two products are allowed, then one for all."""
    far = point("F", pounds=2300, at={"level": "L1", "x": 90, "y": 0})
    items = [*pair_of(2300, 4), far]
    answer = ask(request(*items))
    assert answer["recheck"]["planned_anew"] == ["N0", "N1"]
    first, second, lone = (own["product"] for own in answer["items"])
    assert first == second != lone
    one = ask({**request(*items), "limits": {"products": 1}})
    assert {own["product"] for own in one["items"]} == {first}
    assert one["recheck"]["not_passed"] == []


def test_the_reserve_is_wanted_beside_neighbours_too(ask):
    """Two points of 650 lb 2.5 in apart, alone within three quarters of their strength: by the check of both together
    they use more than that and pass. With no reserve wanted nothing is said."""
    items = [
        {**point(f"N{at}", pounds=650), "at": {"level": "L1", "x": f"{2.5 * at} in", "y": 0}, "rod": {"size": "3/8"}}
        for at in range(2)
    ]
    want = {"reserve": 0.25, "families": ["wedge-expansion-zinc"], "deepest_hole": 2.5}
    answer = ask({"units": "us", "want": want, "items": items})
    assert answer["recheck"]["not_passed"] == []
    assert answer["recheck"]["reserve_not_kept"] == ["N0", "N1"]
    assert "keep the wanted reserve alone but not together" in answer["recheck"]["text"]
    for own in answer["items"]:
        assert own["utilisation"] <= 0.75 < own["recheck"]["utilisation"] <= 1
        assert own["recheck"]["reserve_kept"] is False
    far = ask({"units": "us", "want": want, "items": [items[0], {**items[1], "at": {"level": "L1", "x": 9, "y": 0}}]})
    assert far["recheck"]["reserve_not_kept"] == []
    assert [own["recheck"]["reserve_kept"] for own in far["items"]] == [True, True]


@pytest.mark.parametrize(("contents", "kept"), [(6500, True), (7000, False)])
def test_the_reserve_is_wanted_of_loads_in_every_pattern(ask, contents, kept):
    """Headed bolts 3/4 in, h_ef 6 in, f'c 4,000 psi, 12 in apart along x and along y: N_b = 24 sqrt(4,000) 6^1.5, phi
    0.70, on two squares of 18 in that share 6 in by 6 in. Beside an empty one, psi_ec,N along both axes, a full one is
    used to 0.87 and 0.93; both full to 0.62 and 0.67, by which the reserve was said to be kept."""
    hangs = [{"nature": "dead", "tension": 100}, {"nature": "contents", "tension": contents}]
    items = [
        {**point(f"N{at}", hangs={"kind": "forces", "components": hangs}), "at": {"level": "L1", "x": at, "y": at}}
        for at in range(2)
    ]
    answer = ask(request(*items, want={"families": ["headed-bolt"], "placing": "cast_in"}))
    full, empty = 1.4 * (100 + contents), 140
    both = 0.7 * 24 * 4000**0.5 * 6**1.5 * (2 * 18**2 - 6**2) / 18**2
    pattern = (full + empty) / both * (1 + 6 * (full - empty) / (full + empty) / 9) ** 2
    assert (pattern <= 0.9) is kept
    assert [own["product"] for own in answer["items"]] == ["headed-bolt/3/4/6"] * 2
    assert [own["recheck"]["reserve_kept"] for own in answer["items"]] == [kept] * 2
    assert answer["recheck"]["reserve_not_kept"] == ([] if kept else ["N0", "N1"])
    assert answer["recheck"]["not_passed"] == []


def test_equal_points_are_one_situation(ask):
    answer = ask(request(*(point(f"P{at}", pounds=300) for at in range(50)), point("Q", pounds=301)))
    assert answer["summary"]["situations"] == 2
    assert len({own["product"] for own in answer["items"]}) == 1


def test_one_bad_point_costs_only_itself(ask):
    bad = {**point("B"), "hangs": {"kind": "weight", "weight": "3 ft", "nature": "dead"}}
    answer = ask(request(point("A"), bad, point("C")))
    assert [own["status"] for own in answer["items"]] == ["held", "invalid", "held"]
    assert answer["summary"]["invalid"] == 1


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        (request(point(), limits={"products": 0}), "#/limits/products"),
        (request(point(), limits={"products": 2.5}), "#/limits/products"),
        (request(point(), limits={"colours": 2}), "#/limits/colours"),
        (request(point(), want={"objective": "reserve"}), "#/want/objective"),
        (request(point(), most_products=21), "#/most_products"),
        (request(point(), neighbours="maybe"), "#/neighbours"),
        (request(point(), want={"families": ["x"]}), "#/want/families/0"),
    ],
)
def test_a_bad_request_names_its_place(client, validator, body, pointer):
    response = client.post(JOBS, json=body)
    assert response.status_code == 422
    validator("Problem").validate(response.json())
    assert response.json()["errors"][0]["pointer"] == pointer


def test_a_planned_point_has_the_cautions_of_its_check(client, ask):
    """A scanned post-tensioned slab: what the check of the point says beside its numbers."""
    scanned = base(post_tensioned="yes", scanned=True, scanned_by="X")
    (held,) = ask(request(point("P", pounds=150, on=scanned)))["items"]
    item = named(point("P", pounds=150, on=scanned), anchor_of(held["product"]))
    (check,) = client.post(POINTS, json={"units": "us", "items": [item]}).json()["items"]
    assert held["cautions"] == [each["code"] for each in check["findings"] if each["severity"] == "caution"]
    assert "tendons-scanned" in held["cautions"]
    assert held["to_engineer"] == [each["code"] for each in check["to_engineer"]]
