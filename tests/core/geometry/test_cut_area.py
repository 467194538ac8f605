"""Areas of single anchors cut at boundaries, against polygons clipped by ``shapely`` and by hand."""

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon, box
from shapely.ops import split

from hangpoint.core.geometry import buckets
from hangpoint.core.geometry.cut_area import cut_area
from hangpoint.core.geometry.projected_area import projected_area

FREE = np.full((1, 4), np.inf)
FAR = 1e3


def cut_anchors(count, most, seed):
    """Random anchors with up to ``most`` boundaries each, a quarter of these along an axis or behind the anchor."""
    rng = np.random.default_rng(seed)
    reach = np.exp(rng.uniform(0, 3, count))
    c_a = reach[:, None] * np.exp(rng.uniform(np.log(0.05), np.log(4), (count, 4)))
    c_a = np.where(rng.random((count, 4)) < 0.4, np.inf, c_a)
    cut_row = rng.permutation(np.repeat(np.arange(count), rng.integers(0, most + 1, count)))
    angle = rng.uniform(0, 2 * np.pi, len(cut_row))
    along = rng.random(len(cut_row)) < 0.25
    angle[along] = np.round(angle[along] / (np.pi / 2)) * (np.pi / 2)
    distance = reach[cut_row] * rng.uniform(0.02, 1.6, len(cut_row))
    behind = rng.random(len(cut_row)) < 0.04
    distance[behind] *= -0.5
    return {
        "reach": reach,
        "c_a": c_a,
        "cut_row": cut_row,
        "normal_x": np.cos(angle),
        "normal_y": np.sin(angle),
        "distance": distance,
    }


def kept_side(nx, ny, d):
    """The half-plane p . n <= d as far as it matters."""
    corners = [(d, FAR), (d - 2 * FAR, FAR), (d - 2 * FAR, -FAR), (d, -FAR)]
    return Polygon([(u * nx - v * ny, u * ny + v * nx) for u, v in corners])


def polygons(made):
    """What remains of each square, by ``shapely``."""
    for row, (r, edges) in enumerate(zip(made["reach"], made["c_a"], strict=True)):
        x_minus, x_plus, y_minus, y_plus = np.minimum(edges, r)
        surface = box(-x_minus, -y_minus, x_plus, y_plus)
        for cut in np.flatnonzero(made["cut_row"] == row):
            side = kept_side(*(made[name][cut] for name in ("normal_x", "normal_y", "distance")))
            surface = surface.intersection(side)
        yield surface


@pytest.mark.parametrize(("most", "seed"), [(2, 301), (7, 302), (20, 303)])
def test_cut_squares_against_polygons(most, seed):
    """``shapely``: 1,000 random squares, each intersected with its half-planes; equal to 1e-12 of the square."""
    made = cut_anchors(1000, most, seed)
    whole = projected_area(reach=made["reach"], c_a=made["c_a"])
    computed = cut_area(**made)
    expected = np.array([each.area for each in polygons(made)])
    np.testing.assert_array_less(np.abs(computed - expected), 1e-12 * 4 * made["reach"] ** 2)
    assert np.sum(computed < 0.99 * whole) > 400
    assert np.sum(computed == whole) > 20
    assert np.sum(expected == 0) > 0
    assert (computed <= whole).all()
    assert (computed >= 0).all()


def test_many_rows_in_blocks(monkeypatch):
    made = cut_anchors(300, 9, 7)
    whole = cut_area(**made)
    monkeypatch.setattr(buckets, "BLOCK", 500)
    np.testing.assert_array_equal(cut_area(**made), whole)


def test_without_boundaries_that_of_the_anchor_alone():
    """Exactly `projected_area`, whose test has its own polygons; so it is where the boundaries don't reach."""
    made = cut_anchors(200, 3, 9)
    whole = projected_area(reach=made["reach"], c_a=made["c_a"])
    none = np.zeros(0)
    bare = {"cut_row": none.astype(np.intp), "normal_x": none, "normal_y": none, "distance": none}
    np.testing.assert_array_equal(cut_area(**made | bare), whole)
    beyond = made | {"distance": 1.5 * made["reach"][made["cut_row"]]}
    np.testing.assert_array_equal(cut_area(**beyond), whole)
    np.testing.assert_array_equal(cut_area(**made | {"distance": np.full(len(made["cut_row"]), np.inf)}), whole)


def one(nx, ny, d, reach=6.0, c_a=FREE):
    several = np.atleast_1d(nx)
    area = cut_area(
        reach=np.array([reach]),
        c_a=np.asarray(c_a, dtype=float),
        cut_row=np.zeros(len(several), dtype=np.intp),
        normal_x=several,
        normal_y=np.atleast_1d(ny),
        distance=np.atleast_1d(np.asarray(d, dtype=float)),
    )
    return area[0]


HALF = np.sqrt(0.5)


@pytest.mark.parametrize(
    ("nx", "ny", "d", "expected"),
    [
        (1.0, 0.0, 4.0, 10 * 12),  # neighbour at 8 in along x: half way
        (0.0, -1.0, 0.0, 72.0),  # boundary through the anchor
        (1.0, 0.0, -2.0, 4 * 12),  # behind it
        (1.0, 0.0, -6.0, 0.0),  # at the far side: nothing remains
        (-1.0, 0.0, -7.0, 0.0),
        (HALF, HALF, 0.0, 72.0),  # the diagonal
        (HALF, HALF, 6 * np.sqrt(2), 144.0),  # touches the corner
        (HALF, HALF, 9 * HALF, 144 - 4.5),  # x + y <= 9: a corner with legs 3
        (0.6, 0.8, 5.0, 144 - 0.5 * (6 - 1 / 3) * (6 - 1.75)),  # y = 6.25 - 0.75 x meets y = 6 at 1/3, x = 6 at 1.75
    ],
)
def test_one_boundary_by_hand(nx, ny, d, expected):
    """A square 12 x 12 in with reach 6 in."""
    assert one(nx, ny, d) == pytest.approx(expected, rel=1e-13, abs=1e-12)


def test_several_boundaries_by_hand():
    """x + y <= 9, |x - y| <= 9 on each corner: 144 - 4 x 4.5; two parallel ones; two that leave nothing between."""
    assert one([HALF, HALF, -HALF, -HALF], [HALF, -HALF, HALF, -HALF], [9 * HALF] * 4) == pytest.approx(126, rel=1e-13)
    assert one([1.0, 1.0, -1.0], [0.0, 0.0, 0.0], [5.0, 2.0, 3.0]) == pytest.approx(5 * 12, rel=1e-13)
    assert one([1.0, -1.0], [0.0, 0.0], [-1.0, -1.0]) == 0.0
    assert one([1.0, 0.0, HALF], [0.0, 1.0, HALF], [-7.0, -7.0, 1.0]) == 0.0


def test_an_edge_and_a_boundary_by_hand():
    """Edges at 2 (x_minus) and 3 in (y_plus), reach 6; a boundary at 4 along x: (2 + 4) x (6 + 3)."""
    assert one(1.0, 0.0, 4.0, c_a=[[2.0, np.inf, np.inf, 3.0]]) == pytest.approx(54.0, rel=1e-14)
    assert one(-1.0, 0.0, 2.0, c_a=[[2.0, np.inf, np.inf, 3.0]]) == pytest.approx(72.0, rel=1e-14)


def test_two_anchors_share_what_they_cover():
    """Two equal anchors cut half way cover as much as the union of their squares where one lies along an axis."""
    for s in (1.0, 5.0, 11.9):
        both = one(1.0, 0.0, s / 2) + one(-1.0, 0.0, s / 2)
        assert both == pytest.approx((12 + s) * 12, rel=1e-13)


def test_the_parts_of_a_boundary_make_the_square():
    """What a boundary keeps and what the opposite one keeps are the whole, and each is a part by ``shapely``."""
    rng = np.random.default_rng(5)
    for angle, d in zip(rng.uniform(0, 2 * np.pi, 50), rng.uniform(-4, 4, 50), strict=True):
        n = np.array([np.cos(angle), np.sin(angle)])
        kept, lost = one(*n, d), one(*-n, -d)
        assert kept + lost == pytest.approx(144.0, rel=1e-13)
        along = np.array([-n[1], n[0]])
        parts = split(box(-6, -6, 6, 6), LineString([d * n - 20 * along, d * n + 20 * along])).geoms
        assert sorted(part.area for part in parts) == pytest.approx(sorted((kept, lost)), rel=1e-11)


def test_axes_and_order_change_nothing():
    made = cut_anchors(400, 6, 21)
    area = cut_area(**made)
    mirrored = made | {"c_a": made["c_a"][:, [1, 0, 2, 3]], "normal_x": -made["normal_x"]}
    swapped = made | {
        "c_a": made["c_a"][:, [2, 3, 0, 1]],
        "normal_x": made["normal_y"],
        "normal_y": made["normal_x"],
    }
    order = np.random.default_rng(3).permutation(len(made["cut_row"]))
    shuffled = made | {name: made[name][order] for name in ("cut_row", "normal_x", "normal_y", "distance")}
    for moved in (mirrored, swapped, shuffled):
        np.testing.assert_array_less(np.abs(cut_area(**moved) - area), 1e-12 * 4 * made["reach"] ** 2)
    assert len(np.unique(area)) > 300


def test_no_rows():
    none = np.zeros(0)
    rows = none.astype(np.intp)
    area = cut_area(reach=none, c_a=np.zeros((0, 4)), cut_row=rows, normal_x=none, normal_y=none, distance=none)
    assert area.shape == (0,)
