"""Loads on hangers: what hangs is carried, mirrored and scaled items, a batch as its items alone, a lost hanger."""

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from core.hanger.item_columns import BODY_MODELS, NATURES, items_of
from core.hanger.random_items import random_items
from hangpoint.core.hanger.hangers import hanger_loads
from hangpoint.core.hanger.run_reaction import MODELS
from properties.strategies import QUICK, spans

DEAD, CONTENTS, LIVE = (NATURES.index(name) for name in ("dead", "contents", "live"))
WEIGHT = st.floats(1.0, 500.0)


def loads(*items):
    return hanger_loads(items_of(list(items)), load_standard="asce7_22")


def carried(got):
    return got.tension[:, [DEAD, CONTENTS, LIVE]]


@st.composite
def beams(draw, *, most, share):
    """Spans, overhangs to a share of the end spans, and loads as (place, weight, live)."""
    lengths = draw(spans(most))
    start, end = (draw(st.floats(0.0, share)) * lengths[at] for at in (0, -1))
    places = st.floats(0.0, 1.0).map(lambda part: -start + part * (start + sum(lengths) + end))
    points = draw(st.lists(st.tuples(places, WEIGHT, st.booleans()), max_size=3))
    return {"spans": list(lengths), "start": start, "end": end}, points


@st.composite
def runs(draw, *, share=0.4):
    run, points = draw(beams(most=8, share=share))
    line = {"kind": "stated", "w_stated": draw(st.floats(0.5, 100.0)), "w_filling": draw(st.floats(0.0, 50.0))}
    return {"kind": "run", "run": run, "lines": [line], "loads": points}


@st.composite
def trapezes(draw):
    """One or two bars on the same rods with a line each and other loads."""
    bar, points = draw(beams(most=3, share=0.4))
    tiers = [bar | {"w_bar": draw(st.floats(0.0, 5.0)), "loads": points}]
    tiers += [{"spans": bar["spans"], "w_bar": 1.9}] * draw(st.integers(0, 1))
    lines = [
        {
            "kind": "stated",
            "w_stated": draw(st.floats(0.5, 50.0)),
            "w_filling": draw(st.floats(0.0, 20.0)),
            "tier": tier,
            "at": draw(st.floats(0.0, 1.0)) * sum(bar["spans"]),
        }
        for tier in range(len(tiers))
    ]
    run = {"spans": [10.0, 10.0], "support": 1, "model": "tributary"}
    return {"kind": "trapeze", "run": run, "tiers": tiers, "lines": lines}


@st.composite
def bodies(draw):
    """Equipment on 3 to 6 rods around its middle, one to a sector."""
    count = draw(st.integers(3, 6))
    turns = [(i + draw(st.floats(0.1, 0.9))) * 2 * np.pi / count for i in range(count)]
    reach = [draw(st.floats(20.0, 40.0)) for _ in range(count)]
    rods = [(r * float(np.cos(t)), r * float(np.sin(t))) for r, t in zip(reach, turns, strict=True)]
    shares = np.array([draw(st.floats(0.2, 1.0)) for _ in range(count)])
    x_g, y_g = (shares @ np.array(rods) / shares.sum()).tolist()
    model = draw(st.sampled_from(BODY_MODELS))
    body = {"dead": draw(WEIGHT), "contents": draw(WEIGHT), "x_g": x_g, "y_g": y_g, "rods": rods, "model": model}
    return {"kind": "equipment", "equipment": body}


ITEMS = st.one_of(runs(), trapezes(), bodies())


def length_of(beam):
    return beam["start"] + sum(beam["spans"]) + beam["end"]


@QUICK
@given(runs())
def test_reactions_of_a_run_add_up_by_each_model(item):
    """Contents of one line are there along all of it or not, so only a live load counts on one side alone."""
    item = item | {"loads": [(place, weight, False) for place, weight, _ in item["loads"]]}
    line = item["lines"][0]
    hung = (line["w_stated"] + line["w_filling"]) * length_of(item["run"]) + sum(load[1] for load in item["loads"])
    np.testing.assert_allclose(loads(item).models.sum(axis=0), hung, rtol=1e-10)
    for model in MODELS[1:]:
        got = loads(item | {"run": item["run"] | {"model": model}})
        np.testing.assert_allclose(carried(got).sum(), hung, rtol=1e-10)


@QUICK
@given(trapezes())
def test_permanent_loads_of_a_trapeze_add_up(item):
    """Of two rods; of more the larger of two models counts at each. What may be absent adds up by the tributary one."""
    upper, *rest = item["tiers"]
    upper["loads"] = [(place, weight, False) for place, weight, _ in upper["loads"]]
    dead = upper["w_bar"] * length_of(upper) + 1.9 * sum(upper["spans"]) * len(rest)
    dead += sum(load[1] for load in upper["loads"]) + 10 * sum(line["w_stated"] for line in item["lines"])
    fluid = 10 * sum(line["w_filling"] for line in item["lines"])
    got = loads(item)
    np.testing.assert_allclose(got.models[:, 0].sum(), dead + fluid, rtol=1e-10)
    assert carried(got).sum() >= (dead + fluid) * (1 - 1e-10)
    if len(upper["spans"]) == 1:
        np.testing.assert_allclose(carried(got).sum(axis=0), [dead, fluid, 0], rtol=1e-10, atol=1e-9)
        np.testing.assert_allclose(got.models[:, 1:].sum(axis=0), dead + fluid, rtol=1e-10)


@QUICK
@given(bodies())
def test_reactions_of_equipment_add_up(item):
    """Equal springs carry the weight; any three and the larger of both no less."""
    body = item["equipment"]
    got = carried(loads(item)).sum(axis=0)
    if body["model"] == "equal_springs":
        np.testing.assert_allclose(got, [body["dead"], body["contents"], 0], rtol=1e-10)
    else:
        assert (got >= np.array([body["dead"], body["contents"], 0]) * (1 - 1e-10)).all()


def turned(beam):
    return beam | {"spans": beam["spans"][::-1], "start": beam.get("end", 0.0), "end": beam.get("start", 0.0)}


def backward(points, beam):
    return [(sum(beam["spans"]) - place, weight, live) for place, weight, live in points]


@QUICK
@given(item=runs(), model=st.sampled_from(MODELS), missing=st.one_of(st.none(), st.just("any"), st.integers(1, 7)))
def test_a_run_from_its_other_end(item, model, missing):
    count = len(item["run"]["spans"])
    if count == 1 or (isinstance(missing, int) and missing >= count):
        missing = None
    item = item | {"run": item["run"] | {"model": model, "missing": missing}}
    mirrored = turned(item["run"]) | {"missing": count - missing if isinstance(missing, int) else missing}
    there = item | {"run": mirrored, "loads": backward(item["loads"], item["run"])}
    both = carried(loads(item, there))
    np.testing.assert_allclose(both[: count + 1], both[count + 1 :][::-1], rtol=1e-9, atol=1e-8)


@QUICK
@given(trapezes())
def test_a_trapeze_from_its_other_side(item):
    tiers = [turned(tier) | {"loads": backward(tier.get("loads", ()), tier)} for tier in item["tiers"]]
    lines = [line | {"at": sum(tiers[0]["spans"]) - line["at"]} for line in item["lines"]]
    both = carried(loads(item, item | {"tiers": tiers, "lines": lines}))
    half = len(both) // 2
    np.testing.assert_allclose(both[:half], both[half:][::-1], rtol=1e-9, atol=1e-8)


@QUICK
@given(bodies())
def test_equipment_in_a_mirror(item):
    """Rods stay in their order, places change sides."""
    body = item["equipment"]
    flipped = body | {"x_g": -body["x_g"], "rods": [(-x, y) for x, y in body["rods"]]}
    both = carried(loads(item, item | {"equipment": flipped}))
    half = len(both) // 2
    np.testing.assert_allclose(both[:half], both[half:], rtol=1e-9, atol=1e-8)


def scaled(item, by):
    def points(several):
        return [(place, by * weight, live) for place, weight, live in several]

    more = {"lines": [line | {key: by * line[key] for key in ("w_stated", "w_filling")} for line in item["lines"]]}
    if "tiers" in item:
        tiers = [tier | {"w_bar": by * tier["w_bar"], "loads": points(tier.get("loads", ()))} for tier in item["tiers"]]
        return item | more | {"tiers": tiers}
    return item | more | {"loads": points(item["loads"])}


@QUICK
@given(item=st.one_of(runs(), trapezes()), by=st.floats(0.1, 10.0))
def test_loads_are_linear(item, by):
    one, other = loads(item), loads(scaled(item, by))
    scale = np.abs(carried(one)).max() * by
    np.testing.assert_allclose(by * carried(one), carried(other), rtol=1e-10, atol=1e-10 * scale)
    np.testing.assert_allclose(by * one.strength.worst, other.strength.worst, rtol=1e-10, atol=1e-10 * scale)


@QUICK
@given(item=bodies(), by=st.floats(0.1, 10.0))
def test_loads_of_equipment_are_linear(item, by):
    body = item["equipment"]
    heavier = body | {key: by * body[key] for key in ("dead", "contents")}
    one, other = loads(item), loads({"kind": "equipment", "equipment": heavier})
    np.testing.assert_allclose(by * carried(one), carried(other), rtol=1e-10, atol=1e-10)


@QUICK
@given(st.integers(0, 2**32 - 1))
def test_a_batch_is_its_items_one_by_one(seed):
    """Whatever else is in the batch, and however many spans, rods and loads others have."""
    items = random_items(12, seed=seed)
    batch, singles = loads(*items), [loads(item) for item in items]
    for name in ("tension", "shear", "models"):
        together = np.concatenate([getattr(each, name) for each in singles])
        np.testing.assert_allclose(getattr(batch, name), together, rtol=1e-13, atol=1e-12)
    for which in ("strength", "allowable"):
        for name in ("worst", "worst_shear"):
            together = np.concatenate([getattr(getattr(each, which), name) for each in singles])
            np.testing.assert_allclose(getattr(getattr(batch, which), name), together, rtol=1e-13, atol=1e-12)
    together = np.concatenate([each.rods.utilisation for each in singles])
    np.testing.assert_allclose(batch.rods.utilisation, together, rtol=1e-13, atol=1e-15)
    forces = [each.seismic.f_p for each in singles if each.seismic is not None]
    if forces:
        np.testing.assert_allclose(batch.seismic.f_p, np.concatenate(forces), rtol=1e-13)
    found = {(rows.finding, int(item), int(part), rows.name) for rows in batch.findings for item, part in pairs(rows)}
    apart = {
        (rows.finding, at, int(part), rows.name)
        for at, each in enumerate(singles)
        for rows in each.findings
        for _, part in pairs(rows)
    }
    assert found == apart


def pairs(rows):
    return zip(rows.item, rows.part, strict=True)


@QUICK
@given(item=runs(share=0.0), model=st.sampled_from(MODELS), data=st.data())
def test_a_missing_hanger_never_lowers_a_neighbour(item, model, data):
    """Where the lost hanger pulled by each model: without it that pull is a load on the beam between the two beside it.

    Of a point load two spans away it may push, so this is of the line alone.
    """
    count = len(item["run"]["spans"])
    assume(count > 1)
    item = item | {"run": item["run"] | {"model": model}, "loads": []}
    lost = data.draw(st.integers(1, count - 1))
    got = loads(item, item | {"run": item["run"] | {"missing": lost}}, item | {"run": item["run"] | {"missing": "any"}})
    whole, without, anyone = got.tension[:, : LIVE + 1].reshape(3, count + 1, -1)
    assume((got.models[lost] > 0).all())
    for beside in (lost - 1, lost + 1):
        assert (without[beside] >= whole[beside] * (1 - 1e-9) - 1e-9).all()
    assert (anyone >= np.maximum(whole, without) - 1e-9).all()
