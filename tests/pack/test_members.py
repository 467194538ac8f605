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


def said(*bases, system="us", counts=None):
    objects = [{"id": f"A-{at}", "base": {"kind": "concrete", "member": "S1", **base}} for at, base in enumerate(bases)]
    flaws = member_flaws(objects, default={}, index=range(len(objects)), system=system, counts=counts)
    (detail,) = {flaw.detail for found in flaws.by_row.values() for flaw in found}
    return detail


def test_the_values_and_who_states_them_are_named():
    detail = said({"thickness": 8.0}, {"thickness": "203.2 mm"}, {}, {"thickness": 9.0}, {"thickness": "8 in"})
    assert "different thicknesses of it: 8 in at A-0 and 2 more, 9 in at A-3. Correct" in detail


def test_values_are_in_the_units_of_the_request():
    assert ": 8 in at A-0, 7.87402 in at A-1." in said({"thickness": "8 in"}, {"thickness": "200 mm"})
    assert ": 203.2 mm at A-0, 200 mm at A-1." in said({"thickness": "8 in"}, {"thickness": 200}, system="si")
    strengths = ({"strength": {"f_c": "4 ksi"}}, {"strength": {"f_c": 3000.0}})
    assert "different strengths of it: 4000 psi at A-0, 3000 psi at A-1." in said(*strengths)


def test_points_that_stand_for_several_count_so_and_many_values_are_counted():
    bases = [{"thickness": float(each)} for each in range(8, 14)]
    assert "8 in at A-0 and 4 more, 9 in at A-1" in said(*bases, counts=[5, 1, 1, 1, 1, 1])
    assert "11 in at A-3, 2 other values. Correct" in said(*bases)


def test_the_same_in_other_units_agrees():
    assert flawed({"member": "S1", "thickness": 8.0}, {"member": "S1", "thickness": "203.2 mm"}) == {}


def test_defaults_count():
    default = {"base": {"kind": "concrete", "member": "S1", "thickness": 8.0}}
    assert flawed({}, {}, default=default) == {}
    assert flawed({}, {"thickness": 6.0}, default=default) == {0: ["base/thickness"], 1: ["base/thickness"]}


def test_without_a_member_nothing_is_compared():
    assert flawed({"thickness": 8.0}, {"thickness": 6.0}) == {}
