"""Requests that choose products, of an invented building, for the tests of all that choose."""

import copy
import random

import pytest

SELECTIONS, JOBS, SUBSTITUTIONS = "/v1/selections", "/v1/job-selections", "/v1/substitutions"
EDGES = {"x_minus": "none", "x_plus": "none", "y_minus": "none", "y_plus": "none"}
BASE = {
    "kind": "concrete",
    "strength": {"f_c": "4000 psi"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "8 in",
    "edges": EDGES,
    "face": "soffit",
}
WANT = {
    "objective": "cost_index",
    "reserve": 0.1,
    "placing": "post_installed",
    "rod_thread": "any",
    "trained": True,
    "exposure": "dry",
    "vibration": False,
}
UNCRACKED = {"state": "uncracked", "state_decided_by": "engineer of record"}


def base(edge=None, **changed):
    """The base of a point, with one edge."""
    made = copy.deepcopy(BASE)
    if edge is not None:
        made["edges"]["x_plus"] = edge
    return made | changed


def weight(pounds, nature="dead"):
    return {"kind": "weight", "weight": f"{pounds} lb", "nature": nature}


def pull(pounds, nature="dead"):
    """What a weight is under a soffit, of a face that it would act along."""
    return {"kind": "forces", "components": [{"nature": nature, "tension": f"{pounds} lbf"}]}


def point(name="A", pounds=300, *, on=None, category="A", **more):
    """A hang point without a product: a weight under a soffit, the same pull out of a wall."""
    on = on or base()
    return {
        "id": name,
        "hangs": weight(pounds) if on["face"] == "soffit" else pull(pounds),
        "base": on,
        "seismic": {"category": category},
        **more,
    }


def request(*items, want=None, **top):
    return {"units": "us", "want": {**WANT, **(want or {})}, "items": list(items), **top}


def named(item, anchor):
    """The point with a product, its layout and conditions kept."""
    return {**item, "anchor": {**item.get("anchor", {}), **anchor}}


def anchor_of(address):
    """How a hang point names a product: those of metric families in mm."""
    family, rest = address.split("/", 1)
    size, h_ef = rest.rsplit("/", 1)
    unit = "mm" if family.endswith("metric") or family.startswith("en-") else "in"
    return {"family": family, "size": size, "h_ef": f"{h_ef} {unit}"}


def reasons(result):
    """Reason of every rejected candidate by its address."""
    return {product: own["reason"] for own in result["rejected"] for product in own["products"]}


def of_family(found, family):
    """What is said of the products of a family."""
    return {address: own for address, own in found.items() if address.startswith(f"{family}/")}


def utilisation(result):
    """Of anchor and base: the rod is the point's own."""
    links = [own.get("utilisation", 0) for own in result["links"] if own["link"] in ("anchor", "base")]
    return max(links)


def checked_alone(client, item, addresses, **top):
    """Results of a point with each of some products, or the bodies of their problems: of points without neighbours in
    one batch, the first and the last also by a request of its own, which has the same result."""
    if not addresses:
        return []
    top = {"units": "us", "detail": "modes", **top}
    points = [named(item, anchor_of(address)) for address in addresses]
    several = [{**own, "id": str(at)} for at, own in enumerate(points)]
    answer = client.post("/v1/hang-points", json={**top, "neighbours": "off", "items": several}).json()
    results = [own["problem"] if own["status"] == "invalid" else own for own in answer["items"]]
    for own, result in ((points[0], results[0]), (points[-1], results[-1])):
        response = client.post("/v1/hang-point", json={**top, "item": own})
        if response.status_code == 422:
            alone = response.json()
            assert alone["type"] == result["type"]
            assert [each["code"] for each in alone["errors"]] == [each["code"] for each in result["errors"]]
        else:
            (alone,) = response.json()["items"]
            for name in ("status", "links", "findings", "modes", "reason"):
                assert alone.get(name) == result.get(name)
    return results


NOT_STATED = {
    "joint-distance-not-stated": "/base/masonry/joint_distance",
    "face-shell-not-stated": "/base/masonry/face_shell",
    "cover-not-stated": "/base/hollow_core/cover",
    "strand-distance-not-stated": "/base/hollow_core/strand_distance",
    "masonry-strength-not-stated": "/base/masonry/f_m",
}
"""Rejections of candidates that ask for what a point doesn't state, and where a single check wants it."""


TOLD_FIRST = {"not-for-tension-overhead": "no-table-in-direction"}
"""A choice tells first what no load has a part in; where both hold a single check tells the other."""


def agree_with_single_checks(result, check, *, seed=0, sample=60):
    """Winners pass by themselves with the same utilisation; refused, violated and overloaded ones don't pass.

    Args:
        result: of one point, all that hold it ranked.
        check: from addresses to the results of their single checks, or the bodies of their problems.
        seed, sample: of the rejected candidates that are checked.

    Returns:
        The kinds and codes of the reasons that were met.
    """
    found, met = reasons(result), set()
    assert len(found) + result["counts"]["held"] == result["counts"]["candidates"]
    ranked = result["ranked"]
    for own, checked in zip(ranked, check([own["product"] for own in ranked]), strict=True):
        assert checked["status"] == "passed", own
        assert utilisation(checked) == pytest.approx(own["utilisation"], rel=1e-12)
        assert own["utilisation"] <= 0.9 + 1e-9
    drawn = random.Random(seed).sample(sorted(found.items()), min(sample, len(found)))
    for (_, reason), checked in zip(drawn, check([address for address, _ in drawn]), strict=True):
        _agrees(reason, checked)
        met |= {reason["kind"], reason["code"]}
    return met


def _agrees(reason, checked):
    code, problem = reason["code"], "errors" in checked
    impossible = problem and checked["type"] == "/problems/impossible-geometry"
    if code in NOT_STATED:
        places = [own["pointer"] for own in checked["errors"]]
        assert impossible or any(place.endswith(NOT_STATED[code]) for place in places)
    elif reason["kind"] == "refusal":
        assert impossible or checked["reason"]["code"] in (code, TOLD_FIRST.get(code))
    elif reason["kind"] == "violation":
        assert checked["status"] == "failed"
        assert code in [own["code"] for own in checked["findings"]]
    elif code == "utilisation-above-one":
        assert checked["status"] == "failed"
        assert utilisation(checked) == pytest.approx(reason["value"], rel=1e-9)
    elif code == "reserve-not-kept":
        assert checked["status"] == "passed"
        assert 0.9 < utilisation(checked) <= 1
    elif code in ("embedment-through-member", "hole-through-member"):
        assert impossible or checked["status"] != "passed"
    else:
        assert code != "nothing-checked"
