"""Forces handed on between anchors along a line: the lever of statics, by hand."""

import numpy as np
import pytest

from hangpoint.core.geometry.handed_on import handed_on


@pytest.mark.parametrize(
    ("from_", "takers", "shares"),
    [
        (1.0, [0.0, 4.0], [0.75, 0.25]),
        (4.0, [0.0, 4.0], [0.0, 1.0]),
        (-3.0, [0.0, 4.0], [1.0, 0.0]),
        (9.0, [0.0, 4.0], [0.0, 1.0]),
        (3.0, [8.0, 0.0, 4.0], [0.0, 0.25, 0.75]),
        (2.0, [2.0, 2.0], [0.5, 0.5]),
        (2.0, [5.0], [1.0]),
        (2.0, [1.0, 1.0, 3.5], [0.3, 0.3, 0.4]),
        (2.0, [0.0, 4.0, 4.0], [0.5, 0.25, 0.25]),
        (6.0, [0.0, 4.0, 4.0], [0.0, 0.5, 0.5]),
    ],
)
def test_the_lever(from_, takers, shares):
    place = np.array([[from_, *takers]])
    holds = np.zeros((1, place.shape[1], place.shape[1]), dtype=np.bool_)
    holds[0, 1:, 0] = True
    share = handed_on(place=place, holds=holds)
    assert share[0, 1:, 0] == pytest.approx(shares)
    assert not share[0, 0].any()
    assert not share[0, :, 1:].any()
