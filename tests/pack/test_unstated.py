"""What items leave unstated: columns of one value, the same alone and beside items that state more."""

from enum import Enum
from types import SimpleNamespace

import numpy as np
import pytest

from hangpoint.core import vocabulary
from hangpoint.core.vocabulary import NotChecked
from hangpoint.pack.flags import Flags, bits_of
from hangpoint.pack.pull import filled, places
from pack.packing import sound

EDGES = {"x_minus": "none", "x_plus": 12.0, "y_minus": "10 in", "y_plus": "none"}
BASE = {"kind": "concrete", "strength": {"f_c": 4000}, "density": "normalweight", "thickness": 8.0, "edges": EDGES}
POINT = {
    "anchor": {"family": "wedge-expansion-zinc", "size": "1/2", "h_ef": 3.25},
    "base": BASE,
    "seismic": {"category": "A"},
}
RUN = {"spans": [10.0, "8 ft"], "support": 1}
PIPE = {"kind": "pipe", "material": "steel", "size": "4", "schedule": "40", "contents": "water", "sprinkler": False}
FORCES = {"kind": "forces", "components": [{"nature": "dead", "tension": 400.0}]}
BARE = {"id": "bare", **POINT, "hangs": FORCES}
FULL = {
    "id": "full",
    **POINT,
    "hangs": {**PIPE, "insulation": {"thickness": 1.0, "density": 5.0}, "run": {**RUN, "model": "tributary"}},
    "rod": {"size": "1/2", "material": "a36"},
    "base": {**BASE, "state": "cracked", "age_days": 40.0, "face": "soffit", "supplementary": True},
    "environment": {"exposure": "damp"},
    "attachment": {"gap": 0.5},
    "options": {"interaction": "power_5_3"},
}
TABLES = ("hangs", "rods", "bases", "fixings", "bonds", "products", "decks", "surroundings", "environments", "plates")


@pytest.mark.parametrize("table", TABLES)
def test_an_item_is_packed_alone_as_beside_one_that_states_more(table):
    together = getattr(sound(BARE, FULL).points, table)
    for row, item in enumerate((BARE, FULL)):
        alone = getattr(sound(item).points, table)
        for name in together.names():
            own, beside = getattr(alone, name), getattr(together, name)
            assert own.dtype == beside.dtype, name
            np.testing.assert_array_equal(own[0], beside[row], err_msg=name)


@pytest.mark.parametrize("table", ["runs", "loads"])
def test_points_without_pipes_have_columns_of_the_same_types(table):
    loaded = {**RUN, "point_loads": [{"at": 3.0, "weight": 20.0, "nature": "dead"}]}
    none = getattr(sound(BARE).points, table)
    some = getattr(sound({**FULL, "hangs": {**PIPE, "run": loaded}}).points, table)
    for name in some.names():
        own, other = getattr(none, name), getattr(some, name)
        assert (len(own), own.dtype, own.ndim) == (0, other.dtype, other.ndim), name


def test_a_shared_column_cannot_be_written_to():
    column = filled(3, 0.5)
    with pytest.raises(ValueError, match="read-only"):
        column[0] = 1.0


def test_flags_of_several_members_are_raised_and_lowered_together():
    flags = Flags(NotChecked, 3)
    both = bits_of(NotChecked.FIRE, NotChecked.PLATE)
    flags.set(both, rows=[0, 2])
    flags.clear(both, np.array([True, False, False]))
    assert places(flags.any_of(both)) == [2]
    assert flags.said().keys() == {NotChecked.FIRE.value.code, NotChecked.PLATE.value.code}


def test_a_list_of_more_flags_than_a_word_has(monkeypatch):
    """The first and the last flag of a word, and those of the next, are told apart in every use."""
    listed = Enum("Many", {f"M{at}": SimpleNamespace(code=f"m-{at}", text=f"Text {at}.") for at in range(130)})
    many = list(listed)
    monkeypatch.setattr(vocabulary, "_POSITIONS", {member: place for place, member in enumerate(many)})
    flags = Flags(listed, 4)
    wide = bits_of(many[0], many[63], many[64], many[129])
    flags.set(wide, np.array([True, False, True, False]))
    flags.set(many[128], rows=[3])
    flags.exchange(many[63], many[65])
    flags.clear(bits_of(many[0], many[129]), np.array([False, False, True, False]))
    assert [flags.codes(bits) for bits in flags.of_points()] == [
        ("m-0", "m-64", "m-65", "m-129"),
        (),
        ("m-64", "m-65"),
        ("m-128",),
    ]
    assert flags.codes(flags.of_point(0)) == ("m-0", "m-64", "m-65", "m-129")
    assert places(flags.any_of(wide)) == [0, 2]
    assert list(flags.said()) == ["m-0", "m-64", "m-65", "m-128", "m-129"]
    joined = Flags.joined(listed, [(flags, np.array([3])), (flags, np.array([0, 2]))])
    assert [joined.of_point(at) for at in range(3)] == [flags.of_point(at) for at in (3, 0, 2)]
