"""Bars of trapezes: rods, lines and loads by place, sections by their dimensions.

Sections are compared with shapes cut by an open geometry library (shapely), whose area and second moment follow from
its corners by the polygon formulas; arcs of 512 chords a quarter leave 1e-5. Struts are invented.
"""

import numpy as np
import pytest
from shapely.geometry import box

from pack.hanger_items.builders import (
    DUCT,
    EQUIPMENT,
    KG_M,
    KN,
    MM,
    MPA,
    PIPE,
    RUN,
    STATED,
    TRAPEZE,
    M,
    assumed,
    close,
    columns,
    flaws_of,
    unchecked,
)

CHANNEL = {"width": 1.625, "height": 1.625, "thickness": 0.105}
CHECKED = {"section": CHANNEL, "allowable_stress": 25_000}


def trapeze(*tiers, **other):
    return TRAPEZE | {"tiers": list(tiers)} | other


def tier(bar=None, **other):
    return {"bar": bar or {"weight": 2}} | other


def test_rods_and_tiers():
    first = trapeze(tier(), tier({"weight": 3, "start_overhang": 0.5, "end_overhang": 1}), rods_at=[0, 3, 5])
    second = trapeze(tier({"weight": "2 kg/m"}), rods_at=["0 ft", "48 in"])
    tiers = columns(RUN, first, EQUIPMENT, second).tiers
    assert tiers.item.tolist() == [1, 1, 3]
    assert tiers.spans.tolist() == [[3, 2], [3, 2], [4, 0]]
    assert tiers.span_count.tolist() == [2, 2, 1]
    close(tiers.start, 0, 0.5, 0)
    close(tiers.end, 0, 1, 0)
    close(tiers.w_bar, 2, 3, 2 * KG_M)
    assert not tiers.checked.any()


def test_lines_and_loads_by_tier():
    item = trapeze(
        tier(lines=[{"at": 1, "line": PIPE}, {"at": 3.5, "line": DUCT}], loads=[{"at": 2, "weight": 30}]),
        tier(
            {"weight": 2, "start_overhang": 1, "end_overhang": 1},
            lines=[{"at": -0.75, "line": STATED}],
            loads=[{"at": 5, "weight": 9, "number": 2, "nature": "live"}, {"at": -1, "weight": 4}],
        ),
    )
    items = columns(item, trapeze(tier(loads=[{"at": 4, "weight": 1}])))
    assert items.lines.tier.tolist() == [0, 0, 1]
    close(items.lines.at, 1, 3.5, -0.75)
    loads = items.bar_loads
    assert loads.row.tolist() == [0, 1, 1, 2]
    close(loads.position, 2, 5, -1, 4)
    close(loads.weight, 30, 18, 4, 1)
    assert loads.live.tolist() == [False, True, False, False]


def test_a_trapeze_in_si():
    item = trapeze(
        tier(
            {"weight": 3.0, "end_overhang": 0.2},
            lines=[{"at": 1.3, "line": STATED}],
            loads=[{"at": 0.5, "weight": 0.4}],
        ),
        rods_at=[0.0, 1.2],
        run={"spacing": 2.5},
        spare=0.2,
    )
    items = columns(item, system="si")
    close(items.tiers.spans, [1.2 * M])
    close([items.tiers.w_bar[0], items.tiers.end[0]], 3 * KG_M, 0.2 * M)
    close([items.lines.at[0], items.bar_loads.position[0], items.bar_loads.weight[0]], 1.3 * M, 0.5 * M, 0.4 * KN)
    close(items.spare, 0.2)


def shapes(b, h, t, lip, slot, corner):
    """A channel with its back down, corners of the inner radius ``corner``: shape with the slot, and without."""

    def rounded(x0, y0, x1, y1, r):
        return box(x0 + r, y0 + r, x1 - r, y1 - r).buffer(r, quad_segs=512) if r else box(x0, y0, x1, y1)

    top = h if lip > t else 2 * h
    outer = rounded(0, 0, b, top, corner and corner + t)
    inner = rounded(t, t, b - t, top - t, corner)
    whole = outer.difference(inner).difference(box(lip, h / 2, b - lip, 2 * h)).intersection(box(0, 0, b, h))
    return whole.difference(box((b - slot) / 2, -1, (b + slot) / 2, 2 * t)), whole


def second_moment(polygon):
    """About the axis through the centroid parallel to x, of a shape of one or more rings without holes."""
    parts = polygon.geoms if polygon.geom_type == "MultiPolygon" else [polygon]
    total = 0.0
    for part in parts:
        x, y = (np.array(column) for column in part.exterior.coords.xy)
        cross = x[:-1] * y[1:] - x[1:] * y[:-1]
        total += abs((cross * (y[:-1] ** 2 + y[:-1] * y[1:] + y[1:] ** 2)).sum()) / 12
    return total - polygon.area * polygon.centroid.y**2


@pytest.mark.parametrize(
    ("section", "b", "h", "t", "lip", "slot"),
    [
        (CHANNEL, 1.625, 1.625, 0.105, 0.105, 0),
        (CHANNEL | {"lip": 0.375}, 1.625, 1.625, 0.105, 0.375, 0),
        (CHANNEL | {"lip": "3/8 in", "slot": "9/16 in"}, 1.625, 1.625, 0.105, 0.375, 0.5625),
        ({"width": 1.625, "height": 3.25, "thickness": 0.105, "lip": 0.375}, 1.625, 3.25, 0.105, 0.375, 0),
        (
            {"width": "41 mm", "height": "21 mm", "thickness": "2.5 mm", "lip": "8 mm"},
            *(x * MM for x in (41, 21, 2.5, 8, 0)),
        ),
        (
            {"width": "41 mm", "height": "21 mm", "thickness": "2.5 mm", "lip": "2.5 mm"},
            *(x * MM for x in (41, 21, 2.5, 2.5, 0)),
        ),
    ],
)
def test_a_section(section, b, h, t, lip, slot):
    """Strength with an inner radius of one wall, weight with sharp corners and without the slots, steel 490 lb/ft3."""
    tiers = columns(trapeze(tier({"section": section, "allowable_stress": 25_000}))).tiers
    strong, _ = shapes(b, h, t, lip, slot, t)
    _, heavy = shapes(b, h, t, lip, slot, 0)
    i_x = second_moment(strong)
    y = strong.centroid.y
    np.testing.assert_allclose(tiers.i_x, i_x, rtol=2e-5)
    np.testing.assert_allclose(tiers.s_x, i_x / max(y, h - y), rtol=2e-5)
    np.testing.assert_allclose(tiers.w_bar, heavy.area * 490 / 144, rtol=1e-9)
    assert tiers.checked.tolist() == [True]


def test_the_weight_of_a_strut_by_hand():
    """b t + 2 (h - 2 t) t + 2 d_lip t = 0.170625 + 0.29715 + 0.07875 = 0.546525 in2, times 490/144: 1.8597 lb/ft.

    A strut of this size weighs 1.9 lb/ft with the returns of its lips (from memory).
    """
    tiers = columns(trapeze(tier({"section": CHANNEL | {"lip": 0.375}, "allowable_stress": 25_000}))).tiers
    close(tiers.w_bar, 0.546525 * 490 / 144)


def test_two_back_to_back():
    """Twice the weight, and I about the common back: 2 (I_1 + A_1 y_1^2), over the height."""
    tiers = columns(trapeze(tier({"section": CHANNEL | {"back_to_back": True}, "allowable_stress": 25_000}))).tiers
    strong, heavy = shapes(1.625, 1.625, 0.105, 0.105, 0, 0.105)[0], shapes(1.625, 1.625, 0.105, 0.105, 0, 0)[1]
    i_x = 2 * (second_moment(strong) + strong.area * strong.centroid.y**2)
    np.testing.assert_allclose(tiers.i_x, i_x, rtol=2e-5)
    np.testing.assert_allclose(tiers.s_x, i_x / 1.625, rtol=2e-5)
    np.testing.assert_allclose(tiers.w_bar, 2 * heavy.area * 490 / 144, rtol=1e-9)


def test_stress_and_stiffness():
    own = CHECKED | {"allowable_stress": 150.0, "modulus": "200000 MPa", "deflection_limit": 360.0}
    section = {"width": 41.0, "height": 41.0, "thickness": 2.5}
    tiers = columns(trapeze(tier({"weight": 3}), tier(own | {"section": section})), system="si").tiers
    assert tiers.checked.tolist() == [False, True]
    close(tiers.f_b[1], 150 * MPA)
    close(tiers.e[1], 200_000 * MPA)
    close(tiers.limit, 240, 360)
    assert (tiers.s_x[0], tiers.i_x[0]) == (1, 1)
    silent = columns(trapeze(tier(CHECKED))).tiers
    close([silent.e[0], silent.limit[0], silent.f_b[0]], 29e6, 240, 25_000)


SLUG = "impossible-geometry"
FLAWS = [
    (trapeze(tier(), rods_at=[1, 4]), "rods_at/0", SLUG, SLUG),
    (trapeze(tier(), rods_at=[0, 4, 4]), "rods_at/2", SLUG, SLUG),
    (trapeze(tier(), rods_at=[0, 4, 3]), "rods_at/2", SLUG, SLUG),
    (trapeze(tier(), rods_at=[0, "20000 ft"]), "rods_at/1", "quantity", "quantity"),
    (trapeze(tier(), tier({"start_overhang": 1})), "tiers/1/bar/weight", "validation", "missing"),
    (trapeze(tier(CHECKED | {"weight": 2})), "tiers/0/bar/section", "validation", "contradiction"),
    (trapeze(tier({"section": CHANNEL})), "tiers/0/bar/allowable_stress", "validation", "missing"),
    *(
        (trapeze(tier({"weight": 2, name: value})), f"tiers/0/bar/{name}", "validation", "contradiction")
        for name, value in (("allowable_stress", 1e4), ("modulus", 29e6), ("deflection_limit", 240.0))
    ),
    (trapeze(tier(CHECKED | {"modulus": 30_000})), "tiers/0/bar/modulus", "quantity", "quantity"),
    (trapeze(tier({"weight": 2, "end_overhang": "9e4 ft"})), "tiers/0/bar/end_overhang", "quantity", "quantity"),
    *(
        (trapeze(tier(CHECKED | {"section": CHANNEL | change})), f"tiers/0/bar/section/{name}", SLUG, SLUG)
        for name, change in (
            ("thickness", {"thickness": 0.41}),
            ("thickness", {"height": 0.4}),
            ("lip", {"lip": 0.05}),
            ("lip", {"lip": 0.2}),
            ("lip", {"lip": 0.82}),
            ("slot", {"slot": 1.21}),
        )
    ),
    (
        trapeze(tier(CHECKED | {"section": CHANNEL | {"width": 1e6}})),
        "tiers/0/bar/section/width",
        "quantity",
        "quantity",
    ),
    *(
        (trapeze(tier(), tier(**entry)), f"tiers/1/{name}/0/at", "validation", "out-of-range")
        for name, entry in (
            ("lines", {"lines": [{"at": 4.1, "line": PIPE}]}),
            ("lines", {"lines": [{"at": -0.1, "line": PIPE}]}),
            ("loads", {"loads": [{"at": 4.1, "weight": 1}]}),
            ("lines", {"bar": {"weight": 1, "end_overhang": 1}, "lines": [{"at": 5.1, "line": PIPE}]}),
        )
    ),
]


@pytest.mark.parametrize("inch", [1e-300, 1e-8])
def test_a_section_out_of_range_is_not_computed(inch):
    """Its area is 0 over 0. That the dimensions are out of range is all that is told."""
    section = {"width": inch, "height": inch, "thickness": inch * 1e-8, "inner_radius": inch * 1e-8}
    flaws = flaws_of(trapeze(tier(CHECKED | {"section": section})))
    assert {(slug, code) for _, slug, code in flaws} == {("quantity", "quantity")}


@pytest.mark.parametrize(("item", "place", "slug", "code"), FLAWS)
def test_a_flaw_of_a_bar(item, place, slug, code):
    assert flaws_of(item) == [(place, slug, code)]


def test_what_is_assumed_and_unchecked_of_bars():
    items = [
        trapeze(tier()),
        trapeze(tier(CHECKED)),
        trapeze(tier(CHECKED | {"modulus": 29e6, "deflection_limit": 240.0}), spare=0.0),
        trapeze(tier(CHECKED), tier(loads=[{"at": 1, "weight": "3 kg"}])),
        RUN,
    ]
    found, left = assumed(*items), unchecked(*items)
    codes = {
        "bar-by-statics": [0, 1, 2, 3],
        "bar-modulus-assumed": [1, 3],
        "bar-deflection-limit-assumed": [1, 3],
        "no-spare-assumed": [0, 1, 3],
        "point-load-dead-assumed": [3],
        "mass-by-standard-gravity": [3],
    }
    assert {code: [at for at, each in enumerate(found) if code in each] for code in codes} == codes
    assert ["trapeze-bar" in each for each in left] == [True, False, False, True, False]


@pytest.mark.parametrize(
    ("lines", "loads", "shared"),
    [
        ([{"sprinkler": True}, {}], [], True),
        ([{"sprinkler": True}, {"sprinkler": True}], [], True),
        ([{"sprinkler": True, "number": 2}], [], True),
        ([{"sprinkler": True}], [], False),
        ([{"sprinkler": True}], [{"at": 2, "weight": 200}], True),
        ([{}, {}], [{"at": 2, "weight": 200}], False),
    ],
)
def test_a_shared_support(lines, loads, shared):
    item = trapeze(tier(lines=[{"at": 1, "line": PIPE | line} for line in lines], loads=loads))
    assert [("shared-support-option-1" in each) for each in assumed(RUN, item)] == [False, shared]
