"""Loads that nobody stated: the answer says that it leaves them unchecked. Anchors, members and loads are invented.

ASCE 7 13.1 asks earthquake of what hangs from category C on (from memory); a person on a pipe is common practice.
"""

import pytest

from pack.packing import sound

POINT = {
    "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "thickness": 8.0,
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
}
PIPE = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water", "sprinkler": False}
RUN = {"spans": [10.0, 10.0], "support": 1}
QUAKE = {"nature": "earthquake", "tension": 50.0}


def weight(nature="dead"):
    return {"kind": "weight", "weight": 300, "nature": nature}


def pipe(*point_loads, **more):
    return PIPE | {"run": RUN | {"point_loads": list(point_loads)}} | more


def forces(*more):
    return {"kind": "forces", "components": [{"nature": "dead", "tension": 300.0}, *more]}


def said(hangs, **seismic):
    own = {"earthquake", "unbraced", "erection-load", "sideways-force"}
    made = sound(POINT | {"id": "A", "hangs": hangs, "seismic": {"category": "A"} | seismic})
    return own & set(made.not_checked.codes(made.not_checked.of_point(0)))


@pytest.mark.parametrize(
    ("hangs", "told"),
    [
        (weight(), True),
        (weight("contents"), True),
        (weight("live"), False),
        (pipe(), True),
        (pipe({"at": 4.0, "weight": 60.0, "nature": "dead"}), True),
        (pipe({"at": 4.0, "weight": 250.0, "nature": "live"}), False),
        (pipe(sprinkler=True), False),  # has 250 lb
        (forces(), False),  # states its loads by nature
    ],
)
def test_no_person_on_what_hangs(hangs, told):
    assert ("erection-load" in said(hangs)) is told


@pytest.mark.parametrize(("hangs", "told"), [(weight(), True), (pipe(), True), (forces(), False)])
def test_no_force_across_the_rod(hangs, told):
    """By statics a rod 5 degrees out of plumb pushes its anchor with tan 5 = 8.7 % of its load; forces state theirs."""
    assert ("sideways-force" in said(hangs)) is told


@pytest.mark.parametrize(
    ("category", "seismic", "hangs", "told"),
    [
        ("B", {}, forces(), set()),
        ("C", {}, forces(), {"earthquake"}),
        ("F", {}, weight("live"), {"earthquake"}),
        ("D", {"s_ds": 0.8}, forces(), {"unbraced"}),
        ("D", {"s_ds": 0}, forces(), {"unbraced"}),
        ("D", {"s_ds": 0.8}, forces(QUAKE), set()),
    ],
)
def test_no_earthquake_on_what_hangs(category, seismic, hangs, told):
    assert said(hangs, category=category, **seismic) - {"sideways-force"} == told


def test_factored_loads_have_a_share_that_is_assumed():
    item = POINT | {"id": "A", "hangs": forces(), "seismic": {"category": "D"}}
    made = sound(item, factored=True)
    bits = made.not_checked.of_point(0)
    assert not {"earthquake", "unbraced"} & set(made.not_checked.codes(bits))
    assert "no-earthquake-share-assumed" in made.assumptions.codes(made.assumptions.of_point(0))


@pytest.mark.parametrize(
    ("hangs", "told"),
    [
        (weight("contents"), True),
        (weight("dead"), False),
        (forces({"nature": "contents", "tension": 20.0}), True),
        (forces({"nature": "contents", "tension": 0.0, "shear_x": 20.0}), True),
        (forces({"nature": "live", "tension": 20.0}), False),
        (forces(), False),
        (pipe(), True),
        (pipe(contents="empty"), False),
    ],
)
def test_that_contents_have_the_factor_of_dead_load_is_said_of_all_that_have_any(hangs, told):
    """Common practice: what a pipe or a tank holds stays as long as the pipe does."""
    made = sound(POINT | {"id": "A", "hangs": hangs, "seismic": {"category": "A"}})
    assert ("contents-factored-as-dead" in made.assumptions.codes(made.assumptions.of_point(0))) is told
