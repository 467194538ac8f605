"""Where the points of a batch are, for a search for neighbours. Lengths by hand: 1 ft = 12 in, 1 m = 1000/25.4 in."""

import numpy as np
import pytest

from api.bodies import INLINE, change, item
from hangpoint.pack.places import in_planes, places
from hangpoint.product.inline import InlineProduct
from pack.packing import CATALOGUE, sound

BOLT = {"family": "headed-bolt", "size": "1/2", "h_ef": 4.0}
POINT = change(item(), {"at": {"level": "2", "x": 10.0, "y": "3 ft 6 in"}, "anchor": BOLT})
METRIC = {"family": "undercut-stainless-metric", "size": "M10", "h_ef": 80}


def pack(*items, **request):
    return places([sound(*items, **request)])


def changed(**changes):
    return change(POINT, {path.replace("__", "."): value for path, value in changes.items()})


def without(item, *names):
    return {name: part for name, part in item.items() if name not in names}


def test_one_point():
    found = pack(POINT)
    assert len(found) == 1
    assert found.local.tolist() == [0]
    assert found.by_level.tolist() == [True]
    assert found.x.tolist() == pytest.approx([120.0])
    assert found.y.tolist() == pytest.approx([42.0])
    assert found.h_ef.tolist() == [4.0]
    assert found.anchors.tolist() == [1]
    assert found.extent.tolist() == [0.0]
    assert found.family.tolist() == [sorted(CATALOGUE.families).index("headed-bolt")]


def test_metres():
    found = pack(changed(at={"level": "2", "x": "3 m", "y": "-0.5 m"}, anchor=METRIC | {"h_ef": "80 mm"}))
    np.testing.assert_allclose(found.x, 3000 / 25.4, rtol=1e-13)
    np.testing.assert_allclose(found.y, -500 / 25.4, rtol=1e-13)
    np.testing.assert_allclose(found.h_ef, 80 / 25.4, rtol=1e-13)


def test_nobody_says_where_he_is():
    assert pack(*[without(POINT, "at")] * 3) is None
    assert places([]) is None


def test_who_is_searched():
    """Points 0 and 5 to 7 state a place in the plan, 9 one in a side face; the others lack something.

    Point 9 looks to 180 degrees: right of who looks at it is -y. Point 10 lacks z, so that 4 and 10 are in no plane.
    """
    found = pack(
        POINT,
        changed(at={"level": "2", "x": 1.0}),
        changed(at={"level": "2", "y": 1.0}),
        changed(at={"x": 1.0, "y": 1.0}),
        changed(base__face="side"),
        changed(base__face="soffit"),
        changed(base__face="top"),
        changed(base__member="S1", at={"x": 1.0, "y": 2.0}),
        without(POINT, "at"),
        changed(base__face="side", base__facing=180, at={"level": "2", "x": 1.0, "y": 2.0, "z": 3.0}),
        changed(base__face="side", base__facing=180),
    )
    assert found.local.tolist() == [0, 4, 5, 6, 7, 9, 10]
    flat = in_planes(found)
    assert flat.local.tolist() == [0, 5, 6, 7, 9]
    assert flat.by_level.tolist() == [True, True, True, False, True]
    assert [flat.x[-1], flat.y[-1]] == pytest.approx([-24, 36])
    assert len({*flat.member.tolist()}) == 4


def test_blocks_have_one_code_a_member():
    """The members of several blocks are compared; a block without places is left out."""
    here, there = changed(base__member="S1"), changed(base__member="S2")
    found = places([sound(here, there), sound(without(POINT, "at")), sound(there)])
    assert found.block.tolist() == [0, 0, 2]
    assert found.local.tolist() == [0, 1, 0]
    assert found.member.tolist()[1] == found.member.tolist()[2] != found.member.tolist()[0]


def test_members_before_levels_and_faces_apart():
    """One code a member, or a level where none is named; a level named as a member is another, and so is the top."""
    found = pack(
        changed(at__level="A"),
        changed(at__level="B"),
        changed(at__level="A", base__face="soffit"),
        changed(at__level="B", base__member="A"),
        changed(at__level="A", base__member="A"),
        changed(at__level="A", base__face="top"),
    )
    code = found.member.tolist()
    assert code[0] == code[2]
    assert code[3] == code[4]
    assert len(set(code)) == 4
    assert min(code) >= 0
    assert found.by_level.tolist() == [True, True, True, False, False, True]


def test_products_inline():
    """Two items with data of their own, two families; a product of the defaults is one family for all."""
    own = without(POINT, "anchor")
    stated = own | {"anchor": {"product": InlineProduct.model_validate(INLINE)}}
    again = own | {"anchor": {"product": InlineProduct.model_validate(INLINE)}}
    found = pack(stated, POINT, again)
    assert found.h_ef.tolist() == [2.0, 4.0, 2.0]
    assert found.family[1] >= 0
    assert found.family[0] == found.family[2] < 0
    other = own | {"anchor": {"product": InlineProduct.model_validate(INLINE | {"name": "Another"})}}
    assert len({*pack(stated, POINT, other).family.tolist()}) == 3
    by_default = pack(own, POINT, own, default={"anchor": {"product": InlineProduct.model_validate(INLINE)}})
    assert by_default.family[0] == by_default.family[2] < 0
    assert by_default.family[1] >= 0


@pytest.mark.parametrize(
    ("layout", "anchors", "extent"),
    [
        ([{"x": 3.0, "y": 0.0}, {"x": "-6 in", "y": 8.0}, {"x": 0.0, "y": 0.0}], 3, 10.0),
        ({"pattern": "row", "count": 5, "spacing": 3.0, "angle": 30}, 5, 6.0),
        ({"pattern": "row", "count": 3, "spacing": 4.0, "angle": 90, "center": {"x": 3.0, "y": 0.0}}, 3, 5.0),
        ({"pattern": "rectangle", "columns": 3, "rows": 2, "spacing_x": 3.0, "spacing_y": 8.0}, 6, 5.0),
        ({"pattern": "circle", "count": 8, "diameter": 9.0}, 8, 4.5),
        ({"pattern": "circle", "count": 2, "diameter": 6.0, "angle": 90, "center": {"x": 4.0, "y": 0.0}}, 2, 5.0),
    ],
)
def test_layouts(layout, anchors, extent):
    """By hand: sides 3, 4, 5 and 6, 8, 10; half of 4 x 3; half of 9; hypot(3, 4) of a row across its offset."""
    found = pack(POINT, changed(anchor__layout=layout), POINT | {"anchor": BOLT | {"layout": layout}})
    assert found.anchors.tolist() == [1, anchors, anchors]
    assert found.extent.tolist() == pytest.approx([0.0, extent, extent], rel=1e-12)
    by_default = pack(POINT, default={"anchor": {"layout": layout}})
    assert (by_default.anchors[0], by_default.extent[0]) == (anchors, pytest.approx(extent, rel=1e-12))


def test_reach_of_a_sheared_point():
    """By hand: an edge at 30 in (within 10 h_ef = 40) and shear: 1.5 x 30 = 45 in, 39 more than 1.5 h_ef = 6.

    Beyond, at 41 in, with 8 in of concrete: 30 x 4 sqrt(4 / 8) / 2 = 42.426 in.
    """
    sheared = {"kind": "forces", "components": [{"nature": "dead", "tension": 10.0, "shear_x": 5.0}]}
    found = pack(
        changed(hangs=sheared, base__edges__x_plus=30.0),
        changed(hangs=sheared, base__edges__x_plus=41.0),
        changed(base__edges__x_plus=30.0),
    )
    assert found.extent[0] == pytest.approx(39.0, rel=1e-12)
    assert found.extent[1] == pytest.approx(36.4264, abs=1e-4)
    assert found.extent[2] == 0.0
