"""Layouts, plates and what can't stand: positions by hand, every flaw at its place.

The anchor is an invented headed bolt of 1/2 in, 4 in deep; lengths in inches unless a text says otherwise.
"""

import math

import numpy as np
import pytest
from pydantic import ValidationError

from api.bodies import change
from hangpoint.api.csv_columns import MAX_INNER_LIST, columns
from pack.packing import ADAPTER, codes, flawed, packed, sound

ITEM = {
    "id": "a",
    "hangs": {"kind": "weight", "weight": 400, "nature": "dead"},
    "anchor": {"family": "headed-bolt", "size": "1/2", "h_ef": 4},
    "base": {
        "kind": "concrete",
        "density": "normalweight",
        "thickness": 12,
        "edges": {"x_minus": 10, "x_plus": 20, "y_minus": "none", "y_plus": 30},
    },
    "seismic": {"category": "A"},
}
PLATE = {"width_x": 12, "width_y": 10}
FOUR = {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 8, "spacing_y": 6}
EDGES = "base.edges."


def item(**changes):
    """The item with the values at paths, written with two underscores for each dot."""
    return change(ITEM, {path.replace("__", "."): value for path, value in changes.items()})


def forces(*components, **places):
    return {"kind": "forces", "components": list(components), **places}


def test_without_a_layout_one_anchor_is_at_the_origin():
    made = sound(ITEM, ITEM).points
    assert made.layouts.point.tolist() == [0, 1]
    assert not made.layouts.x.any()
    assert not made.layouts.y.any()
    assert made.layouts.resists_x.all()
    assert made.layouts.resists_y.all()
    assert not made.plates.stated.any()
    assert not made.plates.contact.any()


def test_a_list_of_positions():
    layout = [{"x": 1, "y": "2 in"}, {"x": "-76.2 mm", "y": 4, "resists": "x"}]
    layout += [{"x": 5, "y": -6, "resists": "none"}, {"x": -5, "y": -6, "resists": "y"}]
    made = sound(ITEM, item(anchor__layout=layout), ITEM).points.layouts
    assert made.point.tolist() == [0, 1, 1, 1, 1, 2]
    np.testing.assert_allclose(made.x, [0, 1, -3, 5, -5, 0], rtol=1e-12)
    np.testing.assert_allclose(made.y, [0, 2, 4, -6, -6, 0], rtol=1e-12)
    assert made.resists_x.tolist() == [True, True, True, False, False, True]
    assert made.resists_y.tolist() == [True, True, False, False, True, True]


HALF = math.sqrt(1 / 2)
PATTERNS = [
    ({"pattern": "row", "count": 3, "spacing": 4}, [(-4, 0), (0, 0), (4, 0)]),
    ({"pattern": "row", "count": 2, "spacing": 5, "angle": 90}, [(0, -2.5), (0, 2.5)]),
    ({"pattern": "row", "count": 2, "spacing": 4, "angle": 45}, [(-2 * HALF, -2 * HALF), (2 * HALF, 2 * HALF)]),
    ({"pattern": "row", "count": 1}, [(0, 0)]),
    ({"pattern": "row", "count": 2, "spacing": 2, "center": {"y": 3}}, [(-1, 3), (1, 3)]),
    (FOUR, [(-4, -3), (4, -3), (-4, 3), (4, 3)]),
    (
        {"pattern": "rectangle", "columns": 3, "rows": 2, "spacing_x": 3, "spacing_y": 5, "center": {"x": 1, "y": 2}},
        [(-2, -0.5), (1, -0.5), (4, -0.5), (-2, 4.5), (1, 4.5), (4, 4.5)],
    ),
    ({"pattern": "rectangle", "columns": 1, "rows": 2, "spacing_y": 3}, [(0, -1.5), (0, 1.5)]),
    ({"pattern": "circle", "count": 4, "diameter": 10}, [(5, 0), (0, 5), (-5, 0), (0, -5)]),
    (
        {"pattern": "circle", "count": 3, "diameter": 8, "angle": 90, "center": {"x": 0.5}},
        [(0.5, 4), (0.5 - 2 * math.sqrt(3), -2), (0.5 + 2 * math.sqrt(3), -2)],
    ),
]


@pytest.mark.parametrize(("pattern", "expected"), PATTERNS)
def test_positions_of_a_pattern(pattern, expected):
    plate = {"width_x": 15, "width_y": 15}
    made = sound(item(anchor__layout=pattern, attachment__plate=plate)).points.layouts
    np.testing.assert_allclose(np.column_stack([made.x, made.y]), expected, rtol=0, atol=1e-11)
    assert made.resists_x.all()
    assert made.resists_y.all()


def test_a_pattern_in_millimetres():
    base = {f"{EDGES}{side}": 900.0 for side in ("x_minus", "x_plus", "y_plus")}
    one = change(
        item(anchor__layout={**FOUR, "spacing_x": 203.2, "spacing_y": "6 in"}), {**base, "base.thickness": 300}
    )
    made = sound(change(one, {"anchor.h_ef": "4 in", "hangs.weight": 2}), system="si").points.layouts
    np.testing.assert_allclose(made.x, [-4, 4, -4, 4], rtol=1e-12)
    np.testing.assert_allclose(made.y, [-3, -3, 3, 3], rtol=1e-12)


def test_lists_patterns_and_silent_items_in_one_batch():
    row = {"pattern": "row", "count": 2, "spacing": 6}
    layouts = [None, row, [{"x": 0, "y": 3}, {"x": 0, "y": -3}], FOUR, row]
    made = sound(*(ITEM if each is None else item(anchor__layout=each) for each in layouts)).points.layouts
    assert made.point.tolist() == [0, 1, 1, 2, 2, 3, 3, 3, 3, 4, 4]
    assert made.x.tolist() == [0, -3, 3, 0, 0, -4, 4, -4, 4, -3, 3]
    assert made.y.tolist() == [0, 0, 0, 3, -3, -3, -3, 3, 3, 0, 0]


def test_a_layout_replaces_that_of_the_defaults_as_a_whole():
    default = {"anchor": {"layout": FOUR}}
    own = item(anchor__layout={"pattern": "row", "count": 2, "spacing": 6})
    made = sound(ITEM, own, default=default).points.layouts
    assert made.point.tolist() == [0, 0, 0, 0, 1, 1]


@pytest.mark.parametrize(
    ("layout", "places"),
    [
        ({}, ["anchor/layout/pattern"]),
        ({"pattern": "hexagon"}, ["anchor/layout/pattern"]),
        ({"pattern": "row"}, ["anchor/layout/count"]),
        ({"pattern": "row", "count": 65, "spacing": 4}, ["anchor/layout/count"]),
        ({"pattern": "row", "count": 2, "spacing": "4 psi"}, ["anchor/layout/spacing"]),
        ({"pattern": "circle", "count": 2, "diameter": 3, "spacing": 1}, ["anchor/layout/spacing"]),
        ({"pattern": "circle", "count": 2, "diameter": 3, "center": {"z": 1}}, ["anchor/layout/center/z"]),
        ([], ["anchor/layout"]),
        ([{"x": 1}], ["anchor/layout/0/y"]),
        ([{"x": 1, "y": 1}, {"x": 1, "y": 2, "resists": "z"}], ["anchor/layout/1/resists"]),
        (3, ["anchor/layout"]),
    ],
)
def test_errors_of_the_schema_name_no_branch(layout, places):
    with pytest.raises(ValidationError) as caught:
        ADAPTER.validate_python(item(anchor__layout=layout))
    assert ["/".join(map(str, error["loc"])) for error in caught.value.errors()] == places


@pytest.mark.parametrize(
    ("layout", "place", "code"),
    [
        ({"pattern": "row", "count": 2}, "spacing", "missing"),
        ({"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_y": 4}, "spacing_x", "missing"),
        ({"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": 4}, "spacing_y", "missing"),
        (FOUR | {"columns": 13, "rows": 5}, "columns", "out-of-range"),
    ],
)
def test_a_pattern_that_is_not_whole(layout, place, code):
    assert flawed(item(anchor__layout=layout)) == [(f"anchor/layout/{place}", "validation", code)]


@pytest.mark.parametrize(
    ("layout", "place"),
    [
        ({"pattern": "row", "count": 2, "spacing": "2e6 in"}, "spacing"),
        ({"pattern": "circle", "count": 2, "diameter": "0 in"}, "diameter"),
        ({"pattern": "row", "count": 1, "center": {"x": "1 in", "y": "9e5 in"}}, "center/y"),
    ],
)
def test_a_length_of_a_pattern_out_of_range(layout, place):
    assert flawed(item(anchor__layout=layout)) == [(f"anchor/layout/{place}", "quantity", "quantity")]


IMPOSSIBLE = "impossible-geometry"


def test_anchors_in_each_other():
    """The bolt is 1/2 in thick: 0.49 in apart is too near, 0.5 in is not."""
    near = [{"x": 0, "y": 0}, {"x": 3, "y": 0}, {"x": 3, "y": 0.49}]
    assert flawed(item(anchor__layout=near)) == [("anchor/layout/2", IMPOSSIBLE, "coincident")]
    assert not flawed(item(anchor__layout=[*near[:2], {"x": 3, "y": 0.5}]))
    same = [{"x": 1, "y": 1}, {"x": 4, "y": 1}, {"x": 1, "y": 1}, {"x": 1, "y": 1}]
    assert sorted(flawed(item(anchor__layout=same))) == [
        ("anchor/layout/2", IMPOSSIBLE, "coincident"),
        ("anchor/layout/3", IMPOSSIBLE, "coincident"),
    ]
    ring = {"pattern": "circle", "count": 16, "diameter": 2}  # chords of 2 sin(11.25 deg) = 0.39 in
    assert flawed(item(anchor__layout=ring)) == [("anchor/layout", IMPOSSIBLE, "coincident")]


@pytest.mark.parametrize(
    ("x", "y", "edge"), [(-10, 0, "x_minus"), (20, 0, "x_plus"), (0, 30.5, "y_plus"), (-11, 0, "x_minus")]
)
def test_an_anchor_at_or_beyond_an_edge(x, y, edge):
    _, flaws = packed(item(anchor__layout=[{"x": 1, "y": 1}, {"x": x, "y": y}]))
    (flaw,) = flaws[0]
    assert (flaw.path, flaw.slug, flaw.code) == ("anchor/layout/1", IMPOSSIBLE, "beyond-edge")
    assert edge in flaw.detail


def test_anchors_just_inside_the_edges():
    corners = [{"x": x, "y": y} for x in (-9.999, 19.999) for y in (-5000, 29.999)]
    assert not flawed(item(anchor__layout=corners))


def test_an_anchor_outside_its_plate():
    layout = [{"x": -6, "y": 5}, {"x": 6, "y": -5}, {"x": 6.01, "y": 0}]
    one = item(anchor__layout=layout, attachment__plate=PLATE | {"support": "free"})
    assert flawed(one) == [("anchor/layout/2", IMPOSSIBLE, "outside-plate")]
    moved = change(one, {"attachment.plate.center": {"x": 0.01}})
    assert flawed(moved) == [("anchor/layout/0", IMPOSSIBLE, "outside-plate")]
    pattern = item(anchor__layout=FOUR, attachment__plate={"width_x": 12, "width_y": 5.9})
    assert flawed(pattern) == [("anchor/layout", IMPOSSIBLE, "outside-plate")]
    alone = item(attachment__plate=PLATE | {"center": {"x": "7 in"}})
    assert flawed(alone) == [("attachment/plate", IMPOSSIBLE, "outside-plate")]


def test_a_plate_past_an_edge():
    plate = {"width_x": 22, "width_y": 10}
    one = item(anchor__layout=FOUR, attachment__plate=plate)
    _, flaws = packed(one)
    assert [(flaw.path, flaw.code) for flaw in flaws[0]] == [("attachment/plate", "beyond-edge")]
    assert "x_minus" in flaws[0][0].detail
    assert not flawed(change(one, {"attachment.plate.support": "free"}))
    assert not flawed(change(one, {"attachment.plate.width_x": 20}))


def test_plates():
    grout = item(anchor__layout=FOUR, attachment__plate=PLATE | {"support": "grout", "center": {"x": 1, "y": "-1 in"}})
    free = item(anchor__layout=FOUR, attachment__plate=PLATE | {"support": "free"})
    silent = item(attachment__plate=PLATE)
    made = sound(ITEM, grout, free, silent)
    plates = made.points.plates
    assert plates.stated.tolist() == [False, True, True, True]
    assert plates.contact.tolist() == [False, True, False, True]
    assert plates.x0.tolist() == [0, -5, -6, -6]
    assert plates.x1.tolist() == [0, 7, 6, 6]
    assert plates.y0.tolist() == [0, -6, -5, -5]
    assert plates.y1.tolist() == [0, 4, 5, 5]
    assumed = ["plate-on-concrete-assumed" in each for each in codes(made)]
    assert assumed == [False, False, False, True]


@pytest.mark.parametrize("support", ["concrete", "grout"])
def test_a_plate_does_not_bear_across_a_gap(support):
    """Reading 22: what stands off pushes its anchors, unless it is said to bear, which can't be."""
    off = item(anchor__layout=FOUR, attachment__plate=PLATE, attachment__gap="1 in")
    made = sound(off)
    assert not made.points.plates.contact.any()
    assert made.points.fixings.gap.tolist() == [1]
    assert "plate-on-concrete-assumed" not in codes(made)[0]
    assert flawed(change(off, {"attachment.plate.support": support})) == [
        ("attachment/gap", "validation", "contradiction")
    ]
    assert not flawed(change(off, {"attachment.plate.support": "free"}))
    flush = item(anchor__layout=FOUR, attachment__plate=PLATE)
    assert sound(flush).points.plates.contact.all()
    assert not flawed(change(flush, {"attachment.plate.support": support}))
    assert sound(item(attachment__gap="1 in")).points.fixings.gap.tolist() == [1]


def test_a_plate_merges_with_that_of_the_defaults():
    default = {"attachment": {"plate": {"width_x": 12, "support": "free"}}}
    made = sound(item(attachment__plate__width_y=8), default=default).points.plates
    assert (made.x1.tolist(), made.y1.tolist(), made.contact.tolist()) == ([6], [4], [False])
    assert flawed(ITEM, default=default) == [("attachment/plate/width_y", "validation", "missing")]


@pytest.mark.parametrize("width", ["0 in", 0.0, -1.0])
def test_a_plate_without_width(width):
    one = item(attachment__plate=PLATE | {"width_x": width})
    if isinstance(width, str):
        assert flawed(one) == [("attachment/plate/width_x", "quantity", "quantity")]
    else:
        with pytest.raises(ValidationError, match="width_x"):
            ADAPTER.validate_python(one)


def test_a_flaw_elsewhere_keeps_neutral_numbers_from_being_judged():
    """Without its edge distance the point would have a neutral one, beyond which the anchor stands."""
    one = item(anchor__layout=[{"x": 15, "y": 0}, {"x": 12, "y": 0}])
    del one["base"]["edges"]["x_plus"]
    assert [path for path, _, _ in flawed(one)] == ["base/edges/x_plus"]


def test_a_flaw_of_a_default_is_told_there():
    default = {"anchor": {"layout": [{"x": 0, "y": 0}, {"x": 0, "y": 0}]}}
    _, flaws = packed(ITEM, default=default)
    assert [(flaw.path, flaw.from_defaults) for flaw in flaws[0]] == [("anchor/layout/1", True)]
    _, flaws = packed(item(anchor__layout=default["anchor"]["layout"]), default=default)
    assert [(flaw.path, flaw.from_defaults) for flaw in flaws[0]] == [("anchor/layout/1", False)]


DEAD = {"nature": "dead", "tension": 1000}
ONE_AT = [{"x": 1, "y": 0}]


@pytest.mark.parametrize(
    ("hangs", "layout", "place", "code"),
    [
        (forces(DEAD, DEAD | {"moment_x": 100}), None, "hangs/components/1/moment_x", IMPOSSIBLE),
        (forces(DEAD | {"moment_y": -100, "moment_x": 0}), None, "hangs/components/0/moment_y", IMPOSSIBLE),
        (forces(DEAD | {"torsion": 100}), None, "hangs/components/0/torsion", "contradiction"),
        (forces(DEAD, at={"x": 2}), None, "hangs/at", IMPOSSIBLE),
        (forces({"nature": "live", "shear_y": 5}, at={"z": 1}), None, "hangs/at", IMPOSSIBLE),
        (forces({"nature": "live", "shear_y": 5}, at={"x": 1}), None, "hangs/at", "contradiction"),
        (forces(DEAD), ONE_AT, "anchor/layout/0", IMPOSSIBLE),
        (ITEM["hangs"], ONE_AT, "anchor/layout/0", IMPOSSIBLE),
        (forces(DEAD), {"pattern": "row", "count": 1, "center": {"y": 1}}, "anchor/layout", IMPOSSIBLE),
    ],
)
def test_a_moment_on_one_anchor_without_a_plate(hangs, layout, place, code):
    one = change(ITEM, {"hangs": hangs, **({"anchor.layout": layout} if layout else {})})
    assert flawed(one) == [(place, IMPOSSIBLE, code)]
    two = change(one, {"anchor.layout": [{"x": -3, "y": 0}, {"x": 3, "y": 1}]})
    assert not flawed(two)
    on_plate = change(one, {"attachment.plate": PLATE})
    assert flawed(on_plate) == ([(place, IMPOSSIBLE, code)] if code == "contradiction" else [])
    free = change(on_plate, {"attachment.plate.support": "free"})
    assert flawed(free) == [(place, IMPOSSIBLE, code)]


def test_what_makes_no_moment_on_one_anchor():
    assert not flawed(item(hangs=forces(DEAD | {"moment_x": 0}, at={"z": 9})))
    assert not flawed(item(hangs=forces(DEAD, at={"x": "25.4 mm"}), anchor__layout=ONE_AT))
    assert not flawed(item(hangs=forces({"nature": "dead", "shear_x": 7}, at={"x": 5})))


def test_a_pipe_beside_its_anchor():
    run = {"spans": [10, 10], "support": 1}
    pipe = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water", "sprinkler": False}
    one = item(hangs=pipe | {"run": run}, anchor__layout=ONE_AT)
    assert flawed(one) == [("anchor/layout/0", IMPOSSIBLE, IMPOSSIBLE)]
    assert not flawed(change(one, {"attachment.plate": PLATE}))


GROUP = {
    "no-plate-assumed",
    "plate-on-concrete-assumed",
    "rigid-plate",
    "lightweight-modulus-assumed",
    "edges-from-layout-origin",
    "all-anchors-resist-shear",
    "group-area-by-union",
    "groups-and-their-parts",
    "edge-rows",
    "earthquake-reverses",
    "single-anchor-assumed",
}
SHEARED = forces(DEAD | {"shear_x": 100})
SLOTTED = [{"x": -3, "y": 0, "resists": "y"}, {"x": 3, "y": 0}]
OF_A_GROUP = {"no-plate-assumed", "rigid-plate", "edges-from-layout-origin", "group-area-by-union"} | {
    "groups-and-their-parts"
}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, {"single-anchor-assumed"}),
        ({"anchor__layout": [{"x": 0, "y": 0}]}, set()),
        ({"attachment__plate": PLATE}, {"single-anchor-assumed", "plate-on-concrete-assumed", "rigid-plate"}),
        ({"anchor__layout": FOUR}, OF_A_GROUP),
        ({"anchor__layout": FOUR, "base__density": "all_lightweight"}, OF_A_GROUP),
        (
            {"anchor__layout": FOUR, "base__density": "all_lightweight", "attachment__plate": PLATE},
            OF_A_GROUP - {"no-plate-assumed"} | {"plate-on-concrete-assumed", "lightweight-modulus-assumed"},
        ),
        ({"anchor__layout": FOUR, "options__group_area": "union"}, OF_A_GROUP - {"group-area-by-union"}),
        (
            {"anchor__layout": FOUR, "attachment__plate": PLATE | {"support": "grout"}},
            OF_A_GROUP - {"no-plate-assumed"},
        ),
        ({"anchor__layout": FOUR, "hangs": SHEARED}, OF_A_GROUP | {"all-anchors-resist-shear", "edge-rows"}),
        ({"anchor__layout": SLOTTED, "hangs": SHEARED}, OF_A_GROUP | {"edge-rows"}),
        (
            {"anchor__layout": FOUR, "hangs": forces({"nature": "live", "torsion": "1 kip*ft"})},
            OF_A_GROUP | {"all-anchors-resist-shear", "edge-rows"},
        ),
        (
            {"anchor__layout": FOUR, "hangs": SHEARED, "base__edges": dict.fromkeys(ITEM["base"]["edges"], "none")},
            OF_A_GROUP | {"all-anchors-resist-shear"},
        ),
    ],
)
def test_assumptions_of_groups(changes, expected):
    (found,) = codes(sound(item(**changes)))
    assert found & GROUP == expected


@pytest.mark.parametrize(
    ("hangs", "oblique"),
    [
        (SHEARED, False),
        (forces(DEAD | {"shear_x": 100}, at={"y": 1}), True),
        (forces(DEAD | {"torsion": 100}), True),
        (forces(DEAD | {"shear_x": 100, "shear_y": 1}), True),
    ],
)
def test_torsion_shears_a_group_along_both_axes(hangs, oblique):
    (found,) = codes(sound(item(anchor__layout=FOUR, hangs=hangs)))
    assert ("oblique-shear-as-vector" in found) == oblique


def test_columns_of_layouts_plates_and_load_cases():
    """A list and a pattern have columns of their own; quantities have their kind, words those of their list."""
    found = columns()
    kinds = {
        "anchor.layout.19.x": "offset",
        "anchor.layout.spacing": "length",
        "anchor.layout.spacing_x": "length",
        "anchor.layout.diameter": "length",
        "anchor.layout.center.y": "offset",
        "attachment.plate.width_x": "length",
        "attachment.plate.center.x": "offset",
        "hangs.at.z": "offset",
        "hangs.components.0.moment_x": "moment",
        "hangs.load_cases.19.components.1.torsion": "moment",
    }
    assert {path: found[path].kind.name for path in kinds} == kinds
    assert set(found["anchor.layout.pattern"].words) == {"row", "rectangle", "circle"}
    assert set(found["anchor.layout.0.resists"].words) == {"both", "x", "y", "none"}
    assert set(found["attachment.plate.support"].words) == {"concrete", "grout", "free"}
    assert set(found["options.group_area"].words) == {"union", "rectangle"}
    for name in ("count", "columns", "rows"):
        assert found[f"anchor.layout.{name}"].plain is int
    assert found["anchor.layout.angle"].plain is float
    assert found["hangs.load_cases.0.name"].plain is str
    assert f"hangs.load_cases.0.components.{MAX_INNER_LIST}.tension" not in found
