"""Equipment on rods, in core units; what can't be at its place. Bodies are invented."""

import pytest

from pack.hanger_items.builders import (
    EQUIPMENT,
    KG,
    KN,
    MM,
    RUN,
    assumed,
    close,
    columns,
    flaws_of,
    only_flaw,
)


def places(*pairs):
    return [{"x": x, "y": y} for x, y in pairs]


def test_bodies_and_rods():
    first = EQUIPMENT | {"weight": "900 kg", "contents": 400, "impact": 1.5, "model": "any_three"}
    second = EQUIPMENT | {"rods_at": places((0, 0), (30, 5)), "centre_of_gravity": {"x": 12, "y": 2}}
    items = columns(first, RUN, second)
    bodies, rods = items.equipment, items.equipment_rods
    assert bodies.item.tolist() == [0, 2]
    close(bodies.dead, 900 * KG - 400, 1000)
    close(bodies.contents, 400, 0)
    close(bodies.x_g, 24, 12)
    close(bodies.y_g, 18, 2)
    assert bodies.model.tolist() == [2, 0]
    close(items.impact, 1.5, 1, 1)
    assert rods.body.tolist() == [0, 0, 0, 0, 1, 1]
    close(rods.x, 0, 48, 48, 0, 0, 30)
    close(rods.y, 0, 0, 36, 36, 0, 5)


def test_in_si():
    item = EQUIPMENT | {"weight": 8.0, "contents": 1.0, "rods_at": places((0.0, 0.0), (900.0, 250.0), (-50.0, 10.0))}
    items = columns(item | {"centre_of_gravity": {"x": 300.0, "y": 90.0}}, system="si")
    close([items.equipment.dead[0], items.equipment.contents[0]], 7 * KN, KN)
    close(items.equipment_rods.x, 0, 900 * MM, -50 * MM)
    close(items.equipment_rods.y, 0, 250 * MM, 10 * MM)
    close([items.equipment.x_g[0], items.equipment.y_g[0]], 300 * MM, 90 * MM)


def test_contents_may_be_all_of_it():
    close(columns(EQUIPMENT | {"contents": 1000}).equipment.dead, 0)


FLAWS = [
    ({"contents": 1001}, "contents", "validation", "contradiction"),
    ({"weight": 0}, "weight", "quantity", "quantity"),
    ({"rods_at": places((0, 0), (9, 9), (0, 0))}, "rods_at/2", "impossible-geometry", "impossible-geometry"),
    ({"rods_at": places((0, 0), (9, "9000 ft"))}, "rods_at/1/y", "quantity", "quantity"),
    ({"centre_of_gravity": {"x": 0, "y": "9000 ft"}}, "centre_of_gravity/y", "quantity", "quantity"),
]


@pytest.mark.parametrize(("change", "place", "slug", "code"), FLAWS)
def test_a_flaw_of_a_body(change, place, slug, code):
    assert flaws_of(EQUIPMENT | change) == [(place, slug, code)]


def test_every_rod_at_the_place_of_another_is_told_once():
    assert [path for path, *_ in flaws_of(EQUIPMENT | {"rods_at": places(*[(5, 5)] * 4)})] == [
        "rods_at/1",
        "rods_at/2",
        "rods_at/3",
    ]
    assert "Rods 1 and 3" in only_flaw(EQUIPMENT | {"rods_at": places((0, 0), (5, 5), (9, 0), (5, 5))}).detail


def test_bodies_do_not_stand_in_each_others_way():
    """Rods of two bodies have the same coordinates, each from an origin of its own."""
    assert columns(EQUIPMENT, EQUIPMENT | {"id": "second"}).count == 2


def test_what_is_assumed_of_bodies():
    found = assumed(EQUIPMENT, EQUIPMENT | {"model": "larger", "contents": 1}, EQUIPMENT | {"weight": "1 kg"})
    codes = {
        "larger-body-model": [0, 2],
        "contents-factored-as-dead": [1],
        "mass-by-standard-gravity": [2],
    }
    assert {code: [at for at, each in enumerate(found) if code in each] for code in codes} == codes
