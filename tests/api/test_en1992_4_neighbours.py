"""Near points by EN 1992-4: alike ones against the scalar code over the fasteners of both, unlike ones by hand."""

import math
import random
from collections import Counter

import pytest

from api.en_bodies import EN, NONE, en_item
from core.en1992_4 import independent
from core.en1992_4.hang_points import CLASSES, MODES, anchor_of, columns, product

COUNT = 250
ON_ONE_PLATE = {"en_steel_shear", "en_steel_interaction"}
TOGETHER = {"en_combined_failure", "en_concrete_cone", "en_splitting", "en_blow_out", "en_pry_out", "en_concrete_edge"}


def pair(rng, at):
    """Two points with one fastener each, near each other and in one member; the loads are dead loads."""
    own = product(rng)
    own["embedment"]["en"].setdefault("c_cr_sp", 2.0 * own["embedment"]["h_ef"])
    h_ef = own["embedment"]["h_ef"]
    apart = round(h_ef * rng.uniform(0.6, 2.9), 0)
    angle = rng.choice([0.0, 0.5 * math.pi, rng.uniform(0, 2 * math.pi)])
    places = [(0.0, 0.0), (round(apart * math.cos(angle), 0), round(apart * math.sin(angle), 0))]
    away = [
        round(max(0.0, max((-1 if side % 2 == 0 else 1) * place[side // 2] for place in places)) + far, 0)
        for side, far in enumerate(h_ef * rng.uniform(0.25, rng.choice([0.6, 1.5, 5.0])) for _ in range(4))
    ]
    present = set(rng.sample(range(4), rng.choice([0, 1, 2, 3])))
    faces = [(-1 if side % 2 == 0 else 1) * (away[side] if side in present else math.inf) for side in range(4)]
    named, cracked = rng.choice(list(CLASSES)), rng.random() < 0.6
    thickness = round(h_ef * rng.uniform(1.5, 4.0), 0)
    sheared = rng.random() < 0.6
    loads = [
        {
            "tension": round(rng.uniform(0.5, 3.0), 3),
            "shear_x": round(rng.uniform(-2.0, 2.0), 3) if sheared else 0.0,
            "shear_y": round(rng.uniform(-2.0, 2.0), 3) if sheared else 0.0,
        }
        for _ in places
    ]
    anchor, condition = anchor_of(rng, own)
    items = []
    for name, (x, y), load in zip("ab", places, loads, strict=True):
        edges = [abs(face - (x, y)[side // 2]) for side, face in enumerate(faces)]
        items.append(
            {
                "id": f"{at}{name}",
                "at": {"level": f"L{at}", "x": f"{x} mm", "y": f"{y} mm"},
                "hangs": {"kind": "forces", "components": [{"nature": "dead", **load}]},
                "anchor": anchor,
                "base": {
                    "kind": "concrete",
                    "strength": {"class": named},
                    "density": "normalweight",
                    "state": "cracked" if cracked else "uncracked",
                    **({} if cracked else {"state_decided_by": "engineer"}),
                    "thickness": thickness,
                    "edges": {
                        side: "none" if math.isinf(far) else far
                        for side, far in zip(("x_minus", "x_plus", "y_minus", "y_plus"), edges, strict=True)
                    },
                },
            }
        )
    made = columns(own, strength_class=named, cracked=cracked, thickness=thickness, condition=condition)
    fixtures = [
        made
        | {"anchors": places, "edges": tuple(faces), "own_share": True, "k7": 1.0}
        | {"staying": [1.0, 1.0], "psi_2": 0.0}
        | {"n": [1e3 * dead * load["tension"] for load in loads]}
        | {f"v_{axis}": [1e3 * dead * load[f"shear_{axis}"] for load in loads] for axis in "xy"}
        for dead in (1.35, 1.0)
    ]
    return items, fixtures


@pytest.fixture(scope="module")
def pairs():
    rng = random.Random(1992)
    return [pair(rng, at) for at in range(COUNT)]


@pytest.fixture(scope="module")
def answered(pairs, send):
    body = {"units": "si", "design_code": "en1992_4", "detail": "modes", "neighbours": "check"}
    items = send({**body, "items": [item for items, _ in pairs for item in items]}, status=200)["items"]
    return [items[at : at + 2] for at in range(0, len(items), 2)]


def alone_of(fixture, at):
    """One fastener of a fixture."""
    return fixture | {name: [fixture[name][at]] for name in ("anchors", "n", "staying", "v_x", "v_y")}


def behind(fixture, side):
    """The farther of two fasteners in two rows at a face: what the nearer one brings stands in its cone, if near."""
    if math.isinf(fixture["edges"][side]):
        return []
    axis, sign = side // 2, 1 if side % 2 else -1
    loads = [fixture["v_x"], fixture["v_y"]]
    shears = [(max(0.0, sign * loads[axis][at]), abs(loads[1 - axis][at])) for at in (0, 1)]
    least = 1e-9 * max(independent.sizes(fixture))
    if not all(max(own) > least for own in shears):
        return []
    distance = {at: independent.distances(fixture, at)[side] for at in (0, 1)}
    rows = independent.rows_from_edge(distance, apart=6.0)
    if len(rows) == 1:
        return []
    (near,), (far,) = rows
    place = [anchor[1 - axis] for anchor in fixture["anchors"]]
    added = shears[near] if abs(place[near] - place[far]) < 3 * distance[far] else (0.0, 0.0)
    carried = [a + b for a, b in zip(shears[far], added, strict=True)]
    own = alone_of(fixture, far)
    found = independent.edge_strength(own, side, [0], {0: place[far]}, {0: carried})
    turned = independent.against(fixture, far, near, 1.5 * (fixture["h_ef"] + distance[far]))
    return [] if found is None else [((0.8 if turned else 1.0) * found[0] / independent.GAMMA_C, found[1])]


def worst_of(points, code):
    return max(
        (mode.get("utilisation", 0.0) for own in points for mode in own["modes"] if mode["mode"] == code), default=0.0
    )


def test_alike_points_hold_as_the_fasteners_of_both(pairs, answered):
    """The worst of both; to an edge each has its own shear, the one behind the other also that of the nearer one."""
    compared = Counter()
    for (items, fixtures), points in zip(pairs, answered, strict=True):
        rows = [independent.check(f) for f in fixtures]
        for code, name in MODES.items():
            wanted = max(independent.worst(found.get(name, [])) for found in rows)
            if code == "en_concrete_interaction":
                continue
            if code == "en_concrete_edge":
                wanted = max(wanted, *(independent.worst(behind(f, side)) for f in fixtures for side in range(4)))
            assert worst_of(points, code) == pytest.approx(wanted, rel=1e-9), (code, items)
            compared[code] += wanted > 0
    assert min(compared[code] for code in TOGETHER) > 10, compared


def test_interaction_has_the_largest_of_its_own_point(answered):
    """7.2.3 with the ratios of the point's own modes; of a group each fastener has the ratios of its sets."""
    seen = 0
    for points in answered:
        for own in points:
            used = {mode["mode"]: mode.get("utilisation", 0.0) for mode in own["modes"]}
            in_tension = ("pull_out", "combined_failure", "concrete_cone", "splitting", "blow_out")
            beta_n = max(used.get(f"en_{name}", 0.0) for name in in_tension)
            beta_v = max(used["en_pry_out"], used["en_concrete_edge"])
            if beta_n and beta_v:
                curve = min((beta_n**1.5 + beta_v**1.5) ** (2 / 3), (beta_n + beta_v) / 1.2)
                assert used["en_concrete_interaction"] == pytest.approx(max(curve, beta_n, beta_v), rel=1e-9)
                seen += 1
    assert seen > 100


def test_unlike_points_are_cut_at_the_boundary_between_them(send):
    """65 and 85 mm deep, 120 mm apart: cuts at 120 x 65/150 = 52 mm and 68 mm, by reading 30. No edges; bars wide."""
    deep = {65: "M12", 85: "M16"}
    items = [
        {
            "id": f"P{h_ef}",
            "at": {"level": "L1", "x": f"{x} mm", "y": "0 mm"},
            "hangs": {"kind": "forces", "components": [{"nature": "dead", "tension": 2.0}]},
            "anchor": {"family": "en-wedge-expansion-zinc", "size": deep[h_ef], "h_ef": h_ef},
            "base": {
                "kind": "concrete",
                "strength": {"class": "C25/30"},
                "density": "normalweight",
                "state": "cracked",
                "bar_spacing": "wide",
                "thickness": 250,
                "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
            },
        }
        for h_ef, x in ((65, 0), (85, 120))
    ]
    body = {"units": "si", "design_code": "en1992_4", "neighbours": "check", "items": items}
    for own, h_ef, cut in zip(send(body, status=200)["items"], (65, 85), (52.0, 68.0), strict=True):
        cone = next(mode for mode in own["modes"] if mode["mode"] == "en_concrete_cone")
        whole = 7.7 * 5 * h_ef**1.5 / 1.5 / 1000
        assert cone["design_strength"] == pytest.approx(whole * (1.5 * h_ef + cut) / (3 * h_ef), rel=1e-9)
        assert "mixed-group" in {finding["code"] for finding in own["findings"]}


@pytest.mark.parametrize(("apart", "found"), [(49.9, True), (50.1, False)])
def test_the_least_spacing_of_neighbours_is_that_of_the_product(send, apart, found):
    """s_min 50 mm of the data, d 16 mm: 6 d of another code, 96 mm, is no limit here."""
    own = {
        "units": "si",
        "principle": "torque_controlled_expansion",
        "basis": "en",
        "traits": {"tension_overhead": True, "sustained_tension": True},
        "size": {"size": "M16", "d_a": 16, "a_se": 157, "f_uta": 800, "f_ya": 640, "ductile": True},
        "embedment": {
            "h_ef": 85,
            "h_min": 150,
            "c_min": 60,
            "s_min": 50,
            "en": {"n_rk_p_cr": 25, "psi_c_exponent": 0.5, "gamma_inst": 1.0, "c_cr_sp": 170, "k8": 2.0},
        },
    }
    items = [
        en_item(id=name, at={"level": "L1", "x": f"{x} mm", "y": "0 mm"}, anchor={"product": own}, base__edges=NONE)
        for name, x in (("A", 0), ("B", apart))
    ]
    for each in send({**EN, "neighbours": "check", "items": items}, status=200)["items"]:
        findings = {finding["code"]: finding for finding in each["findings"]}
        assert ("neighbour-below-minimum-spacing" in findings) is found
        if found:
            assert findings["neighbour-below-minimum-spacing"]["limit"] == pytest.approx(50, rel=1e-12)
