"""The seismic performance category by Table C.1 of EN 1992-4, over the API.

The table is written out here from a digest of the provisions; the points are invented.
"""

import pytest

from api.en_bodies import EN, NONE, WEDGE, en_item
from hangpoint.core.en1992_4.table_c1 import table_category

DEEP = {**WEDGE, "h_ef": 85}
DEAD, QUAKE = {"nature": "dead", "tension": 1.0}, {"nature": "earthquake", "tension": 1.0}
SHAKEN = en_item(hangs={"kind": "forces", "components": [DEAD, QUAKE]}, anchor=DEEP, base__edges=NONE)
TABLE = {
    # class: (non-structural, structural) up to 0.10 g, and beyond it
    "I": (("C1", "C1"), ("C1", "C1")),
    "II": (("C1", "C2"), ("C2", "C2")),
    "III": (("C1", "C2"), ("C2", "C2")),
    "IV": (("C2", "C2"), ("C2", "C2")),
}
ROWS = [
    (a_g_s, name, connection, TABLE[name][a_g_s > 0.10][connection == "structural"])
    for a_g_s in (0.051, 0.10, 0.101, 0.4)
    for name in TABLE
    for connection in ("structural", "non_structural")
]


@pytest.fixture
def ask(send):
    def of(**seismic):
        item = {**SHAKEN, "seismic": {"design_option": "elastic_design", **seismic}}
        return send({**EN, "items": [item], "detail": "modes"})["items"][0]

    return of


def codes(result):
    return {own["code"] for own in result["findings"]}


def pull_out(result):
    (mode,) = [own for own in result["modes"] if own["mode"] == "en_pull_out"]
    return mode["design_strength"]


@pytest.fixture
def held(ask):
    return {category: pull_out(ask(performance_category=category)) for category in ("C1", "C2")}


def test_every_row_of_the_table(ask, held):
    assert held["C1"] > held["C2"]
    for a_g_s, name, connection, category in ROWS:
        result = ask(a_g_s=a_g_s, importance_class=name, connection=connection)
        assert pull_out(result) == held[category], (a_g_s, name, connection)
        assert "performance-category-by-table" in codes(result)
        assert not codes(result) & {"performance-category-c2-taken", "performance-category-below-table"}
        assert "structural-connection-assumed" not in result["assumptions"]
        assert ("displacement-not-checked" in codes(result)) is (category == "C2")


def test_silent_is_structural_and_said(ask, held):
    result = ask(a_g_s=0.08, importance_class="II")
    assert pull_out(result) == held["C2"]
    assert "structural-connection-assumed" in result["assumptions"]


@pytest.mark.parametrize(("a_g_s", "name", "connection", "category"), ROWS)
def test_a_stated_category_is_held_against_it(ask, held, a_g_s, name, connection, category):
    for stated in ("C1", "C2"):
        result = ask(a_g_s=a_g_s, importance_class=name, connection=connection, performance_category=stated)
        weak = stated < category
        assert ("performance-category-below-table" in codes(result)) is weak
        assert pull_out(result) == held[stated]
        assert result["status"] == ("failed" if weak else "passed")


def test_where_none_is_asked_for_a_stated_load_still_counts(ask, held):
    for name in TABLE:
        result = ask(a_g_s=0.05, importance_class=name)
        assert pull_out(result) == held["C1"]
        assert "very-low-seismicity" in codes(result)
        assert "performance-category-by-table" not in codes(result)
    assert pull_out(ask(a_g_s=0.05, importance_class="I", performance_category="C2")) == held["C2"]


def test_silent_of_both_stays_c2(ask, held):
    result = ask()
    assert pull_out(result) == held["C2"]
    assert "performance-category-c2-taken" in codes(result)


@pytest.mark.parametrize(
    ("seismic", "place"),
    [
        ({"a_g_s": 0.1}, "importance_class"),
        ({"importance_class": "II"}, "a_g_s"),
        ({"connection": "structural", "performance_category": "C1"}, "a_g_s"),
        ({"a_g_s": 0.1, "importance_class": "V"}, "importance_class"),
        ({"a_g_s": -0.1, "importance_class": "I"}, "a_g_s"),
    ],
)
def test_half_of_it_is_invalid(ask, seismic, place):
    result = ask(**seismic)
    assert result["status"] == "invalid"
    assert result["problem"]["errors"][0]["pointer"] == f"#/items/0/seismic/{place}"


def test_another_code_doesn_t_read_it(send):
    item = en_item(base__strength={"f_c": 25}, seismic={"category": "A", "a_g_s": 0.1, "importance_class": "II"})
    result = send({**EN, "design_code": "aci318_19", "items": [item]})["items"][0]
    assert {"#/items/0/seismic/a_g_s", "#/items/0/seismic/importance_class"} <= {
        own["pointer"] for own in result["problem"]["errors"]
    }


def test_the_shape_of_the_columns():
    import numpy as np

    found = table_category(
        a_g_s=np.array([0.0, 0.06, 0.2]),
        importance_class=np.array([3, 0, 1]),
        structural=np.array([True, True, False]),
    )
    assert found.tolist() == [-1, 0, 1]
