"""Changes that a choice tries, by hand."""

import numpy as np
import pytest

from hangpoint.core.selection.changes import away_from_edges

INF = np.inf


@pytest.mark.parametrize(
    ("edges", "distance", "moved"),
    [
        ((2.0, INF, INF, INF), 3.0, (3.0, INF, INF, INF)),
        ((INF, INF, 10.0, 2.0), 3.0, (INF, INF, 9.0, 3.0)),
        ((1.5, 10.5, INF, INF), 3.0, (3.0, 9.0, INF, INF)),
        ((1.5, 4.5, INF, INF), 3.0, (3.0, 3.0, INF, INF)),
        ((1.5, 1.5, INF, INF), 3.0, (1.5, 1.5, INF, INF)),
        ((2.0, INF, 1.5, 1.5), 3.0, (2.0, INF, 1.5, 1.5)),
        ((4.0, 5.0, 6.0, 7.0), 3.0, (4.0, 5.0, 6.0, 7.0)),
    ],
)
def test_a_move_between_two_edges(edges, distance, moved):
    """Of a beam of 3 in no place is 3 in from both sides: the point stays; of one of 6 in the middle is."""
    assert away_from_edges(np.array([edges]), distance)[0].tolist() == list(moved)
