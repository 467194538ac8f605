"""The worst of each point over its load cases, against plain loops: even, uneven and very uneven numbers of cases."""

import numpy as np
import pytest

from hangpoint.core.case_axis import CaseAxis

SIZES = {
    "one": [1],
    "even": [2, 2, 2],
    "uneven": [1, 4, 2, 3],
    "very uneven": [1] * 30 + [40] + [1] * 30,
    "some without": [0, 3, 0, 1, 2, 0],
}


def axis_of(sizes):
    point = np.repeat(np.arange(len(sizes)), sizes)
    return CaseAxis.of(count=len(sizes), point_of_case=point, load_case=np.arange(len(point)))


@pytest.mark.parametrize("sizes", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("distinct", [3, 1000], ids=["ties", "no ties"])
def test_worst_of_each_point(sizes, distinct):
    axis = axis_of(sizes)
    values = np.random.default_rng(3).integers(0, distinct, (2, sum(sizes))).astype(np.float64)
    cases = [np.flatnonzero(axis.point_of_case == point) for point in range(len(sizes)) if sizes[point]]
    first = [[own[np.argmax(row[own])] for own in cases] for row in values]
    worst, case = axis.worst(values)
    np.testing.assert_array_equal(case, first)
    np.testing.assert_array_equal(worst, np.take_along_axis(values, case, axis=1))
    np.testing.assert_array_equal(axis.largest(values), worst)
    lone, lone_case = axis.worst(values[0])
    np.testing.assert_array_equal((lone, lone_case), (worst[0], case[0]))
    np.testing.assert_array_equal(axis.largest(values[0]), lone)


def test_a_few_points_with_many_cases_have_no_table():
    assert axis_of(SIZES["very uneven"]).table is None
    assert axis_of(SIZES["uneven"]).table.tolist() == [[0, 0, 0, 0], [1, 2, 3, 4], [5, 6, 6, 6], [7, 8, 9, 9]]


def test_no_cases():
    axis = axis_of([0, 0])
    worst, case = axis.worst(np.zeros((2, 0)))
    assert worst.shape == case.shape == axis.largest(np.zeros((2, 0))).shape == (2, 0)
    assert axis.places(case[0]).tolist() == [-1, -1]
