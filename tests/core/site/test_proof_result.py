"""Results of tests by hand, and the row of passes after a failure."""

import numpy as np
import pytest

from hangpoint.core.site.proof_result import passes_in_a_row, proof_result


@pytest.mark.parametrize(
    ("applied", "held_for", "moved", "displacement", "passed", "failed", "overloaded"),
    [
        (1875, 15, False, 0, True, False, False),
        (1874, 15, False, 0, True, False, False),  # within a thousandth of 1875 (1873.1)
        (1873, 15, False, 0, False, False, False),
        (1875, 14, False, 0, False, False, False),
        (1875, 15, True, 0, False, True, False),
        (600, 0, True, 0, False, True, False),
        (1875, 15, False, 0.11, False, True, False),
        (1875, 15, False, 0.1, True, False, False),
        (3700, 15, False, 0, True, False, True),  # above 3604, the most of the steel
        (1875, 15, False, None, False, False, False),  # nobody measured what has a limit
        (1875, 15, True, None, False, True, False),
    ],
)
def test_one_test(applied, held_for, moved, displacement, passed, failed, overloaded):
    numbers = {
        "applied": applied,
        "held_for": held_for,
        "displacement": np.nan if displacement is None else displacement,
    }
    fixed = {"test_load": 1875, "hold": 15, "limit": 0.1, "most": 3604}
    made = proof_result(
        **{key: np.array([value], dtype=float) for key, value in (numbers | fixed).items()},
        moved=np.array([moved]),
        measured=np.array([displacement is not None]),
    )
    assert (made.passed[0], made.failed[0], made.overloaded[0]) == (passed, failed, overloaded)


def test_passes_in_a_row():
    assert passes_in_a_row(["passed", "failed", "passed", "repeat", "open", "passed"]) == 2
    assert passes_in_a_row(["passed", "failed"]) == 0
    assert passes_in_a_row(["failed"] + ["passed"] * 20) == 20
