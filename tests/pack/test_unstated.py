"""What items leave unstated: columns of one value, the same alone and beside items that state more."""

import numpy as np
import pytest

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
    assert places(flags.bits == both) == [2]
    assert flags.said().keys() == {NotChecked.FIRE.value.code, NotChecked.PLATE.value.code}
