"""What `frozen` makes of a class."""

import pytest

from hangpoint.core.frozen import frozen


@frozen
class Point:
    x: float
    y: float = 2.0


def test_fields_go_by_name():
    assert (Point(x=1.0).x, Point(x=1.0).y) == (1.0, 2.0)
    for wrong in ({}, {"x": 1.0, "z": 3.0}):
        with pytest.raises(TypeError):
            Point(**wrong)
    with pytest.raises(TypeError):
        Point(1.0)


def test_compared_by_identity():
    point = Point(x=1.0)
    assert point == point
    assert point != Point(x=1.0)
    assert len({point, Point(x=1.0)}) == 2
