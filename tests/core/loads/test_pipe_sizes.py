"""Lookups of pipe sizes: what is named, what is refused."""

import pytest

from hangpoint.core.loads.pipe_sizes import (
    CONTENTS,
    MATERIALS,
    PipeSize,
    nominal,
    outside_diameter,
    pipe_size,
    schedules,
    sizes,
)


def test_a_size_and_its_schedule():
    assert pipe_size("steel", "4", "40") == PipeSize(4.5, 0.237, 4.0)
    assert pipe_size("steel", "1-1/4", "STD") == PipeSize(1.66, 0.14, 1.25)
    assert pipe_size("copper", "3/4", "L") == PipeSize(0.875, 0.045, 0.75)
    assert outside_diameter("stainless", "12") == 12.75


def test_unknown_names_have_no_pipe():
    assert pipe_size("brass", "4", "40") is None
    assert pipe_size("steel", "7", "40") is None
    assert pipe_size("steel", "4", "40S") is None
    assert pipe_size("copper", "5/8", "M") is None
    assert outside_diameter("copper", "14") is None
    assert sizes("brass") == ()
    assert schedules("steel", "7") == ()


@pytest.mark.parametrize("size", ["8", "10", "12"])
def test_schedule_10_is_refused_where_it_means_two_walls(size):
    assert pipe_size("steel", size, "10") is None
    assert "10" not in schedules("steel", size)
    assert "10-B36.10M" in schedules("steel", size)
    assert ("10-A795" in schedules("steel", size)) == (size != "12")


@pytest.mark.parametrize("size", ["1", "6", "14", "24"])
def test_schedule_10_is_named_where_it_means_one_wall(size):
    assert pipe_size("steel", size, "10") is not None
    assert not any(name.startswith("10-") for name in schedules("steel", size))


def test_every_material_has_sizes_in_rising_order():
    for material in MATERIALS:
        numbers = [nominal(size) for size in sizes(material)]
        assert numbers
        assert numbers == sorted(set(numbers))
        for size in sizes(material):
            for schedule in schedules(material, size):
                pipe = pipe_size(material, size, schedule)
                assert 0.0 < 2 * pipe.wall < pipe.outside_diameter


@pytest.mark.parametrize("text", ["", "four", "1/", "1.5", "1-1/2-1", "1-", "-4", "1-2", "1/0"])
def test_a_size_that_is_not_one(text):
    with pytest.raises(ValueError, match=r"."):
        nominal(text)


def test_nothing_weighs_nothing():
    assert CONTENTS["empty"] == 0.0
