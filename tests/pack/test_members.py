"""Points of one member have to agree on it."""

from hangpoint.pack.members import member_flaws


def flawed(*bases, default=None):
    objects = [{"id": str(at), "base": {"kind": "concrete", **base}} for at, base in enumerate(bases)]
    flaws = member_flaws(objects, default=default or {}, index=range(len(objects)), system="us")
    return {row: [flaw.path for flaw in found] for row, found in flaws.by_row.items()}


def test_different_thickness_is_wrong_for_all_points_of_the_member():
    slab = {"member": "S1", "strength": {"f_c": 4000.0}}
    bases = [slab | {"thickness": 8.0}, slab | {"thickness": "10 in"}, {"member": "S2", "thickness": 9.0}]
    assert flawed(*bases) == {0: ["base/thickness"], 1: ["base/thickness"]}


def test_different_strength_is_wrong():
    bases = [{"member": "S1", "thickness": 8.0, "strength": {"f_c": f_c}} for f_c in (4000.0, "3 ksi", "4 ksi")]
    assert flawed(*bases) == {row: ["base/strength/f_c"] for row in range(3)}


def test_the_same_in_other_units_agrees():
    assert flawed({"member": "S1", "thickness": 8.0}, {"member": "S1", "thickness": "203.2 mm"}) == {}


def test_defaults_count():
    default = {"base": {"kind": "concrete", "member": "S1", "thickness": 8.0}}
    assert flawed({}, {}, default=default) == {}
    assert flawed({}, {"thickness": 6.0}, default=default) == {0: ["base/thickness"], 1: ["base/thickness"]}


def test_without_a_member_nothing_is_compared():
    assert flawed({"thickness": 8.0}, {"thickness": 6.0}) == {}
