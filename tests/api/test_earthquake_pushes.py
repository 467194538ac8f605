"""Earthquake that pulls a hanger in one sense pushes it in the other: what is said where it outweighs the load.

Expected numbers by hand from the combinations of ASCE 7 2.3.6 and EN 1990 (6.12b): 100 lb of dead load with S_DS 0.5
leave 0.9 x 100 - 0.2 x 0.5 x 100 = 80 lb; by EN 1990 dead load has its own value.
"""

import pytest

from api.bodies import GONE, change

HANGER = {
    "id": "H",
    "hangs": {
        "kind": "forces",
        "components": [{"nature": "dead", "tension": 100}, {"nature": "earthquake", "tension": 300}],
    },
    "rod": {"size": "3/8"},
    "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "thickness": 8,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
    "seismic": {"category": "C", "s_ds": 0.5, "tension_option": "overstrength", "shear_option": "overstrength"},
}
EARTHQUAKE = "hangs.components.1.tension"


@pytest.fixture
def push(send):
    """The push that is said of a point, None where none is."""

    def of(item, **top):
        (result,) = send({"units": "us", **top, "items": [item]}, status=200)["items"]
        assert result["status"] == "passed", result
        found = {each["code"]: each["value"] for each in result["findings"] if each["code"] == "earthquake-pushes"}
        return found.get("earthquake-pushes")

    return of


@pytest.mark.parametrize(("earthquake", "value"), [(300, 220), (-300, 220), (81, 1), (79, None)])
def test_strength_design(push, earthquake, value):
    assert push(change(HANGER, {EARTHQUAKE: earthquake})) == pytest.approx(value)


def test_factored_loads_as_given(push):
    item = change(HANGER, {"hangs.sustained_fraction": 0.3, "hangs.components.0.tension": 180, EARTHQUAKE: 420})
    assert push(item, combinations="given_factored") == pytest.approx(420 - 180)


def test_by_the_european_code(push):
    item = change(
        HANGER,
        {
            "hangs.components": [{"nature": "dead", "tension": "1 kN"}, {"nature": "earthquake", "tension": "1.5 kN"}],
            "rod": GONE,
            "anchor": {"family": "en-wedge-expansion-zinc", "size": "M12", "h_ef": "65 mm"},
            "base.strength": {"class": "C25/30"},
            "base.thickness": "200 mm",
            "seismic": {"design_option": "elastic_design", "performance_category": "C1"},
        },
    )
    assert push(item, design_code="en1992_4", units="si") == pytest.approx(0.5)


def test_a_plate_that_bears_takes_it(push):
    plate = {"width_x": 8, "width_y": 8}
    fixed = change(HANGER, {"attachment": {"plate": plate, "thickness": 1}})
    assert push(fixed) == pytest.approx(220)
    assert push(change(fixed, {"rod": GONE})) is None
    assert push(change(fixed, {"rod": GONE, "attachment.plate.support": "free"})) == pytest.approx(220)
