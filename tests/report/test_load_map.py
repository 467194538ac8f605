"""Printed load maps: tiles hold every point once, every number of a table is on its drawing once, and can be read."""

import itertools
import re
from html import unescape

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from api.bodies import SLAB
from hangpoint.app import create_app
from hangpoint.report.load_map.labels import NEAR, labels
from hangpoint.report.load_map.tiles import MOST, split

PATH = "/v1/load-maps"
FRAME = (50.0, 18.0, 680.0, 420.0)
places = st.floats(-1000, 1000, allow_nan=False).map(lambda place: round(place, 1))


@given(st.lists(st.tuples(places, places), min_size=1, max_size=400), st.integers(1, 60))
@settings(max_examples=60, deadline=None)
def test_tiles_hold_every_point_exactly_once(spots, most):
    points = [{"number": at, "x": x, "y": y} for at, (x, y) in enumerate(spots, 1)]
    tiles = split(points, most)
    assert sorted(point["number"] for tile in tiles for point in tile) == list(range(1, len(points) + 1))
    assert all(1 <= len(tile) <= most for tile in tiles)
    assert all([point["number"] for point in tile] == sorted(point["number"] for point in tile) for tile in tiles)


def test_a_long_level_is_cut_across_its_longer_side():
    """120 points in two rows along x: the two halves are beside each other, none over the other."""
    points = [{"number": at + 1, "x": at // 2, "y": at % 2} for at in range(120)]
    left, right = split(points)
    assert len(left) == len(right) == MOST
    assert max(point["x"] for point in left) < min(point["x"] for point in right)


def test_points_at_one_place_are_split_too():
    assert [len(tile) for tile in split([{"number": at, "x": 1.0, "y": 1.0} for at in range(100)])] == [50, 50]


spots = st.tuples(st.floats(FRAME[0] + 36, FRAME[2] - 36), st.floats(FRAME[1] + 36, FRAME[3] - 36))


@given(st.lists(spots, min_size=1, max_size=MOST))
@settings(max_examples=60, deadline=None)
def test_every_number_is_on_one_label(found):
    made = labels(list(range(1, len(found) + 1)), found, 5.0, FRAME)
    numbers = [int(each) for label in made for line in label.lines for each in re.findall(r"\d+", line)]
    assert sorted(numbers) == list(range(1, len(found) + 1))


@pytest.mark.parametrize("step", [0.0, 5.0, 9.0, 14.0, 40.0])
def test_labels_of_a_line_of_points_do_not_cover_each_other(step):
    """60 points in a row, whatever their distance: no label over another, over a marker, or out of the frame."""
    row = [(90.0 + step * at % 550, 200.0 + 60 * (step * at // 550)) for at in range(MOST)]
    made = labels(list(range(101, 101 + MOST)), row, 5.0, FRAME)
    boxes = [label.box for label in made]
    assert not [pair for pair in itertools.combinations(boxes, 2) if overlap(*pair)]
    markers = [(x - 5, y - 5, x + 5, y + 5) for x, y in row]
    assert not [pair for pair in itertools.product(boxes, markers) if overlap(*pair)]
    assert all(box[0] >= FRAME[0] and box[2] <= FRAME[2] and box[3] <= FRAME[3] for box in boxes)
    assert (len(made) < MOST) == (step < NEAR)


def overlap(one, other):
    return one[0] < other[2] and one[2] > other[0] and one[1] < other[3] and one[3] > other[1]


@pytest.fixture(scope="module")
def shown():
    """The page of some items."""
    with TestClient(create_app()) as client:

        def get(items, **top):
            body = {"units": "us", "neighbours": "off", "defaults": SLAB, **top, "items": items}
            response = client.post(f"{PATH}?format=html", json=body)
            assert response.status_code == 200, response.text[:300]
            return response.text

        yield get


def item(name, x=None, y=None, load=100, **more):
    at = {axis: place for axis, place in (("x", x), ("y", y)) if place is not None}
    hangs = {"kind": "forces", "components": [{"nature": "dead", "tension": load}]}
    return {"id": name, "at": {**at, **more.pop("at", {})}, "hangs": hangs, **more}


def articles(page):
    return re.findall(r"<article.*?</article>", page, re.DOTALL)


def drawn(article):
    lines = re.findall(r'<text class="number"[^>]*>([^<]*)</text>', article)
    return [int(each) for line in lines for each in re.findall(r"\d+", line)]


def listed(article):
    """Numbers of the first table of a sheet."""
    table = re.search(r"<table class=\"points\">.*?</table>", article, re.DOTALL)
    return [int(each) for each in re.findall(r'<tr><td class="number">(\d+)</td>', table[0])]


def test_every_number_of_a_table_is_on_its_drawing_once(shown):
    """200 points on two levels, of which some share a place, and two are not placed."""
    items = [item(f"P{at}", at % 19, at % 7, at={"level": f"L{at // 150}"}) for at in range(200)]
    items += [item("Q1"), item("Q2", 4)]
    *sheets, _ = articles(shown(items))
    plans = [sheet for sheet in sheets if "<svg" in sheet]
    for sheet in plans:
        assert sorted(drawn(sheet)) == sorted(listed(sheet))
        assert len(drawn(sheet)) <= MOST
    assert sorted(number for sheet in plans for number in drawn(sheet)) == list(range(1, 201))
    (alone,) = (sheet for sheet in sheets if "<svg" not in sheet)
    assert "Not placed" in alone
    assert listed(alone) == [201, 202]
    assert sum("key plan" in sheet for sheet in sheets) == 3, "150 points of the one level stand on three sheets"


def test_statuses_have_shapes_of_their_own(shown):
    refused = {"family": "drop-in-zinc", "size": "3/8", "h_ef": 1.625}
    page = shown([item("A", 0, 0), item("B", 5, 5, load=9000), item("C", 9, 0, anchor=refused)])
    first = articles(page)[0]
    for shape, word in (("circle", "passed"), ("rect", "failed"), ("polygon", "refused")):
        assert len(re.findall(rf'<{shape} class="{word}"', first)) == 2, "the marker, and the legend"
        assert f">{word}</text>" in first


def test_texts_of_a_user_are_text(shown):
    bad = '<script>alert("1")</script>&'
    page = shown([item(bad, 1, 1, at={"level": bad}, base={"member": bad}), item("B", 2, 2, base={"member": "M"})])
    assert "<script" not in page
    assert bad in unescape(page)


def test_sums_are_under_the_last_sheet_of_a_level(shown):
    """100 points of 100 lb and one that lifts with 40 lb."""
    *sheets, basis = articles(shown([*(item(f"P{at}", at, 0) for at in range(100)), item("Q", 1, 1, load=-40)]))
    assert len(sheets) == 2
    assert "Sums of service loads" not in sheets[0]
    assert "service loads, unfactored: 101 points" in sheets[1]
    total = re.search(r"On the structure, all members</td>(.*?)</tr>", sheets[1])[1]
    assert re.findall(r">([^<>]+)<", total) == ["10000.0", "−40.0"]
    for said in ("What the loads are", "Assumptions", "Not checked", "Cautions"):
        assert said in basis


def test_invented_data_and_the_project_are_on_every_sheet(shown):
    page = shown(
        [item("A", 1, 1), item("B", 1, 1, at={"level": "L3"})], project={"name": "Clinic", "date": "2026-03-02"}
    )
    sheets = articles(page)
    assert len(sheets) == 3
    for sheet in sheets:
        assert sheet.startswith('<article class="invented" data-foot="')
        assert "Clinic" in sheet
        assert "2026-03-02" in sheet
    assert page.count("\\0000b7\\000020invented\\000020data") == 3


def test_invalid_items_are_named_with_what_is_wrong(shown):
    page = shown([item("A", 1, 1), item("WRONG-ONE", 1, 1, base={"thickness": "1 in"})])
    assert "WRONG-ONE (No. 2): #/defaults/anchor/h_ef: The embedment reaches" in articles(page)[-1]
    only = articles(shown([item("WRONG-ONE", 1, 1, base={"thickness": "1 in"})]))
    assert len(only) == 1


def test_limits_of_the_structural_notes_stand_on_the_last_sheet(shown):
    """Two points of 100 lb where the notes allow 150 lb."""
    limits = [{"id": "NOTE 7", "most_total": 150}]
    basis = articles(shown([item("A", 1, 1), item("B", 2, 2)], structural_limits=limits))[-1]
    assert "NOTE 7: exceeded, 200.0 lbf in total." in basis


def test_factored_loads_alone_have_no_column_of_service_loads(shown):
    sheet, basis = articles(shown([item("A", 1, 1, load=900)], combinations="given_factored"))
    assert "factored loads as given; service loads are not known" in sheet
    assert '<th class="number">dead</th>' not in sheet
    assert "No sums: the request states factored loads only." in sheet
    assert "states factored loads only" in basis


def test_si_pages_are_a4_with_metres(shown):
    page = shown([item("A", "1 m", "2 m", load="1 kN")], units="si")
    assert 'class="a4"' in page
    assert "x [m]" in page
    assert "Coordinates in m, loads in kN." in page


@pytest.mark.parametrize(("x", "y"), [(0, 0), (99999.25, -99999.75), (0.001, 1e-7)])
def test_a_lone_point_anywhere_is_in_the_middle(shown, x, y):
    svg = re.search(r"<svg.*?</svg>", articles(shown([item("A", x, y)]))[0], re.DOTALL)[0]
    left, top, width, height = map(
        float, re.search(r'class="frame" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"', svg).groups()
    )
    marker = re.search(r'class="passed" cx="([\d.]+)" cy="([\d.]+)"', svg)
    assert float(marker[1]) == pytest.approx(left + width / 2, abs=0.11)
    assert float(marker[2]) == pytest.approx(top + height / 2, abs=0.11)
    assert "nan" not in svg
