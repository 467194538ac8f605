"""Coordinates in side faces, by hand: one who looks at a wall that looks to x has y of the job on the right."""

import numpy as np
import pytest

from hangpoint.core.geometry.side_face import in_face, on_plan, one_way, planes

NAN = float("nan")


@pytest.mark.parametrize(
    ("facing", "place"),
    [(0, (2, 3, 1)), (90, (-1, 3, 2)), (180, (-2, 3, -1)), (270, (1, 3, -2)), (45, (0.5**0.5, 3, 4.5**0.5))],
)
def test_to_the_right_up_and_out(facing, place):
    columns = {name: np.array([value]) for name, value in (("x", 1.0), ("y", 2.0), ("z", 3.0))}
    found = in_face(facing=np.array([float(facing)]), **columns)
    assert [float(each[0]) for each in found] == pytest.approx(place)


@pytest.mark.parametrize("facing", [0, 33.7, 90, 200, -45])
def test_a_move_to_the_right_stays_in_the_plane(facing):
    x, y = (np.array([step]) for step in on_plan(facing=facing, right=7.0))
    right, up, out = in_face(facing=np.array([facing]), x=x, y=y, z=np.array([0.0]))
    assert [right[0], up[0], out[0]] == pytest.approx([7.0, 0.0, 0.0], abs=1e-12)


def test_directions_that_are_one():
    assert one_way(np.array([-90.0, 270.0, 359.999, 0.004, 360.0])).tolist() == [270.0, 270.0, 0.0, 0.0, 0.0]


def test_planes_are_connected_by_steps():
    """0, 0.5 and 1.0 by steps of a half; 1.6 is another, as is what looks elsewhere; what isn't known is in none."""
    code = planes(
        way=np.array([90.0, 90.0, 0.0, 90.0, NAN, 90.0]), out=np.array([1.0, 0.0, 0.5, 1.6, 0.0, 0.5]), apart=0.5
    ).tolist()
    assert code[0] == code[1] == code[5]
    assert code[4] == -1
    assert len({code[0], code[2], code[3], -1}) == 4
    assert planes(way=np.array([NAN]), out=np.array([0.0]), apart=0.5).tolist() == [-1]
    assert planes(way=np.empty(0), out=np.empty(0), apart=0.5).tolist() == []
