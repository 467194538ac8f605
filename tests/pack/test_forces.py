"""Direct forces with moments and load cases: each in its row and column, in the core unit; every flaw at its place.

Moments by hand: 1 kN*m = 8850.7458 lbf*in, 1 kip*ft = 12,000 lbf*in. Anchors, members and loads are invented.
"""

import numpy as np
import pytest
from pydantic import TypeAdapter, ValidationError

from api.bodies import GONE, change
from hangpoint.api.schemas.request import BatchRequest
from hangpoint.core.hang_point.earthquake_share import earthquake_shares
from hangpoint.pack.digest import RequestDigest
from hangpoint.pack.flaws import Flaws
from hangpoint.pack.forces import moments_about
from hangpoint.pack.points import pack_points
from pack import packing
from pack.packing import codes

BASE = {
    "id": "a",
    "anchor": {
        "family": "headed-bolt",
        "size": "1/2",
        "h_ef": "4 in",
        "layout": {"pattern": "rectangle", "columns": 2, "rows": 2, "spacing_x": "8 in", "spacing_y": "6 in"},
    },
    "base": {
        "kind": "concrete",
        "density": "normalweight",
        "thickness": "12 in",
        "edges": dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none"),
    },
    "seismic": {"category": "A"},
}
WEIGHT = {"kind": "weight", "weight": 400, "nature": "dead"}
DEAD = {"nature": "dead", "tension": 1000}
QUAKE = {"nature": "earthquake"}


def items_of(hangs):
    return [BASE | {"id": f"P{at}", "hangs": each} for at, each in enumerate(hangs)]


def sound(*hangs, factored=True, **options):
    return packing.sound(*items_of(hangs), factored=factored, **options)


def flawed(hangs, *, factored=True, **options):
    return packing.flawed(*items_of([hangs]), factored=factored, **options)


def forces(*components, **places):
    return {"kind": "forces", "components": list(components), **places}


def cases(*several, **places):
    return {"kind": "forces", "load_cases": list(several), **places}


def case(name, *components, **places):
    return {"name": name, "components": list(components), **places}


def test_service_moments_by_nature():
    mixed = forces(
        DEAD | {"moment_x": 100, "torsion": "1 kip*ft"},
        {"nature": "dead", "moment_x": -30, "moment_y": "-2 ft-lb"},
        {"nature": "contents", "moment_y": 7},
        {"nature": "live", "torsion": "2 kN*m"},
        {"nature": "snow", "moment_x": 99},
        at={"x": "1 ft", "z": -3},
    )
    made = sound(WEIGHT, mixed, factored=False).points
    np.testing.assert_allclose(made.hangs.m_dead, [[0, 0, 0], [70, -24, 12_000]], rtol=1e-12)
    np.testing.assert_allclose(made.hangs.m_contents, [[0, 0, 0], [0, 7, 0]], rtol=1e-12)
    np.testing.assert_allclose(made.hangs.m_live, [[0, 0, 0], [0, 0, 17701.4916]], rtol=1e-8)
    assert made.hangs.at.tolist() == [[0, 0, 0], [12, 0, -3]]
    assert np.argwhere(made.hangs.transient).tolist() == [[1, 3, 1]]
    assert made.hangs.transient[1, 3, 1] == 99
    assert (len(made.given.point), made.given_names) == (0, ("as given",))


def test_bare_moments_are_in_the_unit_of_the_system():
    one = forces({"nature": "live", "moment_x": 1, "moment_y": -1.5}, at={"y": 25.4})
    made = sound(one, system="si", factored=False).points.hangs
    np.testing.assert_allclose(made.m_live, [[8850.7458, -13276.1187, 0]], rtol=1e-8)
    np.testing.assert_allclose(made.at, [[0, 1, 0]], rtol=1e-12)


def test_rows_of_load_cases():
    first = cases(
        case("1.2D+1.6L", DEAD, {"nature": "live", "tension": 60, "shear_x": 5, "moment_y": 11}),
        case("0.9D+W", {"nature": "wind", "tension": -20, "shear_y": -7, "torsion": 13}),
    )
    second = forces({"nature": "dead", "tension": 3, "moment_x": 17})
    third = cases(case("0.9D+W", {"nature": "dead", "tension": 4}), case("as given", {"nature": "dead", "tension": 6}))
    made = sound(WEIGHT, first, second, third).points
    given = made.given
    assert made.given_names == ("as given", "1.2D+1.6L", "0.9D+W")
    assert given.point.tolist() == [0, 1, 1, 2, 3, 3]
    assert given.name.tolist() == [0, 1, 2, 0, 2, 0]
    assert given.n.tolist() == [0, 1060, -20, 3, 4, 6]
    assert given.v.tolist() == [[0, 0], [5, 0], [0, -7], [0, 0], [0, 0], [0, 0]]
    assert given.m.tolist() == [[0, 0, 0], [0, 11, 0], [0, 0, 13], [17, 0, 0], [0, 0, 0], [0, 0, 0]]
    assert not made.hangs.dead[1:].any()
    assert not made.hangs.m_dead.any()


def test_shares_of_load_cases():
    """A case's own share, else that of the point, else all sustained and no earthquake."""
    stated = cases(
        case("A", DEAD, sustained_fraction=0.3, earthquake_fraction=0.6),
        case("B", DEAD),
        sustained_fraction=0.8,
        earthquake_fraction=0.1,
    )
    silent = cases(case("A", DEAD, sustained_fraction=0.5), case("B", DEAD | QUAKE))
    made = sound(stated, silent)
    given = made.points.given
    assert given.sustained_fraction.tolist() == [0.3, 0.8, 0.5, 1.0]
    assert given.n_e.tolist() == [600, 100, 0, 1000]
    assert given.n.tolist() == [400, 900, 1000, 0]
    first, second = codes(made)
    assert not {"sustained-assumed", "no-earthquake-share-assumed"} & first
    assert {"sustained-assumed", "no-earthquake-share-assumed"} <= second


@pytest.mark.parametrize(
    ("components", "share"),
    [
        ([DEAD, QUAKE | {"tension": 3000}], 0.75),
        ([{"nature": "dead", "moment_x": 30}, QUAKE | {"moment_y": 40}], 1),  # all of what turns about y
        ([DEAD | {"moment_x": 30, "moment_y": 60}, QUAKE | {"moment_y": 40}], 0.4),
        ([DEAD | {"moment_x": 30, "torsion": 1e6}, QUAKE | {"moment_x": 10}], 0.25),  # torsion pulls no anchor
        ([DEAD | {"moment_x": 30}, QUAKE | {"torsion": 40}], 0),
        ([DEAD | {"moment_x": 30}, QUAKE | {"moment_x": 10, "tension": 3000}], 0.75),
        ([DEAD | {"moment_x": 30}, QUAKE | {"shear_x": 10}], 0),
    ],
)
def test_share_of_earthquake_by_nature(components, share):
    """The largest of the shares of the tension and of the moments about x and y, by hand."""
    assert shares_of(cases(case("E", *components)))[0] == pytest.approx([share], rel=1e-12)


def shares_of(hangs):
    """Shares of earthquake in tension and in shear of loads as they act about the origin."""
    made = sound(hangs).points
    (n, v, m), (n_e, v_e, m_e) = made.given.parts()
    arm = made.hangs.at[made.given.point]
    return earthquake_shares(
        n=n + n_e,
        v=v + v_e,
        m=moments_about(arm, n=n + n_e, v=v + v_e, m=m + m_e),
        n_e=n_e,
        v_e=v_e,
        m_e=moments_about(arm, n=n_e, v=v_e, m=m_e),
    )


def test_shear_away_from_the_concrete_makes_a_moment():
    """10 lbf of earthquake 3 in out of the base about y, beside a moment of 90 lbf*in about it: 30 of 120."""
    one = forces({"nature": "dead", "moment_y": 90, "moment_x": 40}, QUAKE | {"shear_x": 10}, at={"z": 3})
    share, share_v = shares_of(one)
    assert share == pytest.approx([0.25], rel=1e-12)
    assert share_v.tolist() == [1]


def test_torsion_of_an_earthquake_is_shear_of_it():
    """By hand: 300 of 400 lbf*in of torsion, beside 10 of 100 lbf of shear; 17.10.6.1 goes by the larger."""
    dead, quake = DEAD | {"shear_x": 90, "torsion": 100}, QUAKE | {"shear_x": 10, "torsion": 300}
    assert shares_of(cases(case("E", dead, quake)))[1] == pytest.approx([0.75], rel=1e-12)


def test_moments_about_a_place():
    """By hand, right-handed: tension at +y pulls about +x, tension at +x about -y, shear y at +x about +z."""
    arm = np.array([[0.0, 2, 0], [2, 0, 0], [2, 0, 0], [0, 0, 5], [0, 0, 5]])
    n = np.array([3.0, 3, 0, 0, 0])
    v = np.array([[0.0, 0], [0, 0], [0, 7], [1, 0], [0, 1]])
    expected = [[6, 0, 0], [0, -6, 0], [0, 0, 14], [0, 5, 0], [-5, 0, 0]]
    assert moments_about(arm, n=n, v=v, m=np.zeros((5, 3))).tolist() == expected


def test_earthquake_of_a_load_as_given():
    """What earthquake makes of tension, shear and moments, apart from the rest: of components, or a share of all."""
    parts = ({"tension": 500, "shear_x": 2500, "moment_y": 7}, {"tension": -400, "shear_y": 3000, "torsion": 11})
    made = sound(forces({"nature": "dead"} | parts[0], QUAKE | parts[1]), forces(DEAD, earthquake_fraction=0.25))
    given = made.points.given
    assert given.n.tolist() == [500, 750]
    assert given.n_e.tolist() == [-400, 250]
    assert (given.v.tolist(), given.v_e.tolist()) == ([[2500, 0], [0, 0]], [[0, 3000], [0, 0]])
    assert (given.m.tolist(), given.m_e.tolist()) == ([[0, 7, 0], [0, 0, 0]], [[0, 0, 11], [0, 0, 0]])
    first, second = codes(made)
    assert ("earthquake-pulls" in first, "earthquake-pulls" in second) == (True, False)


def test_earthquakes_of_a_point_against_each_other_are_told():
    (one,) = codes(sound(forces(DEAD, QUAKE | {"shear_x": 400}, QUAKE | {"shear_x": -300})))
    (other,) = codes(sound(forces(DEAD, QUAKE | {"shear_x": 400}, QUAKE | {"shear_y": -300})))
    assert ("one-nature-together" in one, "one-nature-together" in other) == (True, False)


@pytest.mark.parametrize(
    ("hangs", "flagged"),
    [
        (forces(DEAD | {"shear_x": 1}, earthquake_fraction=0.51), True),
        (forces(DEAD | {"shear_x": 1}, earthquake_fraction=0.5), True),
        (forces(DEAD | {"shear_x": 1}), False),
        (forces(DEAD, earthquake_fraction=1.0), False),
        (forces({"nature": "dead", "moment_y": 1}, earthquake_fraction=0.9), True),
        (cases(case("A", DEAD), case("B", DEAD, QUAKE | {"shear_y": 5})), True),
    ],
)
def test_earthquake_reverses_wherever_there_is_shear_or_a_moment(hangs, flagged):
    (found,) = codes(sound(hangs))
    assert ("earthquake-reverses" in found) == flagged


A, B = case("A", DEAD), case("B", DEAD)


@pytest.mark.parametrize(
    ("hangs", "factored", "expected"),
    [
        ({"kind": "forces"}, True, [("hangs/components", "validation", "missing")]),
        ({"kind": "forces"}, False, [("hangs/components", "validation", "missing")]),
        (cases(A) | forces(DEAD), True, [("hangs/load_cases", "validation", "contradiction")]),
        (cases(A), False, [("hangs/load_cases", "validation", "contradiction")]),
        (cases(A, B, B, A), True, [(f"hangs/load_cases/{at}/name", "validation", "duplicate-name") for at in (2, 3)]),
        (
            cases(A, case("B", QUAKE | {"tension": 1}, earthquake_fraction=0.5)),
            True,
            [("hangs/load_cases/1/earthquake_fraction", "validation", "contradiction")],
        ),
        (
            cases(A, case("B", DEAD, earthquake_fraction=0.5), sustained_fraction=0.6),
            True,
            [("hangs/load_cases/1/earthquake_fraction", "validation", "contradiction")],
        ),
        (
            forces(DEAD) | {"sustained_fraction": 0.7, "earthquake_fraction": 0.31},
            True,
            [("hangs/earthquake_fraction", "validation", "contradiction")],
        ),
        (forces(DEAD) | {"sustained_fraction": 0.7, "earthquake_fraction": 0.3}, True, []),
        (
            cases(A, case("B", QUAKE | {"tension": 1}), earthquake_fraction=0.5),
            True,
            [("hangs/earthquake_fraction", "validation", "contradiction")],
        ),
        (forces(DEAD, sustained_fraction=0.5), False, [("hangs/sustained_fraction", "validation", "validation")]),
        (
            cases(A, case("B", DEAD, DEAD | {"moment_x": "9e6 kip*ft"})),
            True,
            [("hangs/load_cases/1/components/1/moment_x", "quantity", "quantity")],
        ),
        (
            forces(DEAD, {"nature": "live", "shear_y": "1e6 kip"}),
            True,
            [("hangs/components/1/shear_y", "quantity", "quantity")],
        ),
        (forces(DEAD, at={"z": "1e5 ft"}), True, [("hangs/at/z", "quantity", "quantity")]),
    ],
)
def test_flaws(hangs, factored, expected):
    assert flawed(hangs, factored=factored) == expected


def test_flaws_of_a_later_item_have_its_row():
    _, flaws = packing.packed(
        *items_of((WEIGHT, forces(DEAD), cases(A, case("B", DEAD | {"torsion": "9e6 kip*ft"})), cases(A, A))),
        factored=True,
    )
    assert {row: [flaw.path for flaw in found] for row, found in flaws.items()} == {
        2: ["hangs/load_cases/1/components/0/torsion"],
        3: ["hangs/load_cases/1/name"],
    }


def test_a_moment_on_one_anchor_in_a_load_case():
    items = [
        change(BASE, {"anchor.layout": GONE}) | {"hangs": each}
        for each in (cases(A, case("B", DEAD, {"nature": "live", "moment_y": 5})), cases(A, B))
    ]
    flaws = Flaws()
    options = {"default": {}, "index": range(2), "system": "us", "catalogue": packing.CATALOGUE, "factored": True}
    pack_points(items, flaws=flaws, **options)
    assert {row: [flaw.path for flaw in found] for row, found in flaws.by_row.items()} == {
        0: ["hangs/load_cases/1/components/1/moment_y"]
    }


def test_load_cases_of_an_item_stand_in_place_of_components_of_the_defaults():
    made = sound(cases(A, B), {"kind": "forces"}, default={"hangs": forces({"nature": "live", "tension": 7})}).points
    assert made.given.point.tolist() == [0, 0, 1]
    assert made.given.n.tolist() == [1000, 1000, 7]
    made = sound(forces(DEAD), {"kind": "forces"}, default={"hangs": cases(A, B)}).points
    assert made.given.point.tolist() == [0, 1, 1]


@pytest.mark.parametrize(
    ("hangs", "place"),
    [
        (cases(case("", DEAD)), "hangs.forces.load_cases.0.name"),
        (cases(case("A")), "hangs.forces.load_cases.0.components"),
        (cases(), "hangs.forces.load_cases"),
        (cases(*(case(str(at), DEAD) for at in range(21))), "hangs.forces.load_cases"),
        (forces(DEAD | {"moment_z": 1}), "hangs.forces.components.0.moment_z"),
        (forces(DEAD | {"moment_x": "3 psi"}), "hangs.forces.components.0.moment_x"),
        (forces(DEAD, at={"level": "L1"}), "hangs.forces.at.level"),
    ],
)
def test_errors_of_the_schema(hangs, place):
    with pytest.raises(ValidationError) as caught:
        packing.ADAPTER.validate_python({"id": "a", "hangs": hangs})
    assert [".".join(map(str, error["loc"])) for error in caught.value.errors()] == [place]


def test_a_batch_says_whether_neighbours_are_checked():
    adapter = TypeAdapter(BatchRequest)
    for word in ("check", "off"):
        assert adapter.validate_python({"units": "us", "neighbours": word, "items": [{"id": "a"}]})
    with pytest.raises(ValidationError, match="neighbours"):
        adapter.validate_python({"units": "us", "neighbours": "on", "items": [{"id": "a"}]})


def test_what_a_digest_tells_apart():
    """Every new place of a request changes it; the same in other words doesn't."""

    def digest(hangs, **changes):
        flaws = Flaws()
        one = change(BASE | {"hangs": hangs}, {path.replace("__", "."): each for path, each in changes.items()})
        made = pack_points(
            [one], default={}, index=[0], system="us", catalogue=packing.CATALOGUE, factored=True, flaws=flaws
        )
        assert not flaws.by_row
        total = RequestDigest(("1", "code"))
        total.add(made, (), default={})
        return total.hexdigest()

    plate = {"width_x": 12, "width_y": 12}
    spots = [{"x": x, "y": y} for y in (-3, 3) for x in (-4, 4)]
    start = digest(forces(DEAD))
    different = [
        start,
        digest(forces(DEAD | {"moment_x": 1})),
        digest(forces(DEAD, at={"x": 1})),
        digest(cases(A)),
        digest(cases(B)),
        digest(forces(DEAD), anchor__layout__spacing_x="9 in"),
        digest(forces(DEAD), anchor__layout=[*spots[:3], spots[3] | {"resists": "x"}]),
        digest(forces(DEAD), attachment__plate=plate),
        digest(forces(DEAD), attachment__plate=plate | {"support": "free"}),
        digest(forces(DEAD), attachment__gap=1.0),
        digest(forces(DEAD), options__group_area="rectangle"),
    ]
    assert len(set(different)) == len(different)
    assert digest(forces(DEAD | {"moment_x": "1 lbf*in"})) == different[1]
    assert digest(forces(DEAD), anchor__layout=spots) == start


@pytest.mark.parametrize(
    ("components", "told"),
    [
        ([{"nature": "contents", "tension": 69}, {"nature": "contents", "tension": -60}], True),
        ([{"nature": "live", "moment_x": 10}, {"nature": "live", "moment_x": -4}], True),
        ([{"nature": "live", "tension": 10}, {"nature": "live", "tension": 4}], False),
        ([{"nature": "wind", "tension": 10}, {"nature": "wind", "tension": -4}], True),
        ([{"nature": "snow", "tension": 10}, {"nature": "snow", "tension": -4}], True),
        ([{"nature": "wind", "shear_x": 10}, {"nature": "wind", "shear_x": 4}], False),
        ([{"nature": "dead", "tension": -4}], False),
        ([{"nature": "live", "tension": 10}, {"nature": "contents", "tension": -4}], False),
    ],
)
def test_loads_of_one_nature_against_each_other_are_told(components, told):
    loads = [DEAD, *components]
    (found,) = codes(sound(forces(*loads), factored=False))
    assert ("one-nature-together" in found) == told
