"""The result of a proof test: was the load reached and held, did the anchor move, and what follows for its crew's day.

A gauge is read to a thousandth. After a failure every anchor of that crew and day is tested until twenty in a row pass
(from memory). Units: lbf, s, in.
"""

from collections.abc import Sequence
from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Floats, Record, formula, given, record


@record
class ProofResult(Record):
    """What one test shows. A load not reached without any movement is no result, nor is a displacement that was not
    measured where it has a limit: the test is repeated."""

    TITLE: ClassVar[str] = "Result of a proof test"
    AXIS: ClassVar[Axis] = Axis.ANCHOR

    test_load: Annotated[Floats, given("test load", "lbf")]
    applied: Annotated[Floats, given("load applied", "lbf")]
    reached: Annotated[Bools, formula("load reached", "", "applied >= 0.999*test_load", clause="named rule")]
    hold: Annotated[Floats, given("hold of the rule", "s")]
    held_for: Annotated[Floats, given("time held", "s")]
    held: Annotated[Bools, formula("held", "", "held_for >= hold", clause="named rule")]
    moved: Annotated[Bools, given("movement seen")]
    displacement: Annotated[Floats, given("displacement, 0 where not measured", "in")]
    limit: Annotated[Floats, given("limit of the displacement", "in", infinite="none stated")]
    compared: Annotated[Bools, given("displacement measured, or no limit stated")]
    beyond: Annotated[Bools, formula("displacement beyond", "", "displacement > limit", clause="request")]
    failed: Annotated[Bools, formula("failed", "", "moved + beyond > 0", clause="named rule")]
    passed: Annotated[
        Bools, formula("passed", "", "reached*held*compared*where(failed, 0, 1) == 1", clause="named rule")
    ]
    most: Annotated[Floats, given("most that the steel may take", "lbf", infinite="not stated")]
    overloaded: Annotated[Bools, formula("overloaded", "", "applied > 1.001*most", clause="CBC 2022 1910A.5")]


def proof_result(
    *,
    test_load: Floats,
    applied: Floats,
    hold: Floats,
    held_for: Floats,
    moved: Bools,
    displacement: Floats,
    measured: Bools,
    limit: Floats,
    most: Floats,
) -> ProofResult:
    """Result of each test, every array of shape (n,); ``limit`` and ``most`` are infinite where nobody states them.

    ``displacement`` is read where it was ``measured``.
    """
    reached, held = applied >= 0.999 * test_load, held_for >= hold
    displacement = np.where(measured, displacement, 0.0)
    beyond, compared = displacement > limit, measured | np.isinf(limit)
    failed = moved | beyond
    return ProofResult(
        test_load=test_load,
        applied=applied,
        reached=reached,
        hold=hold,
        held_for=held_for,
        held=held,
        moved=moved,
        displacement=displacement,
        limit=limit,
        compared=compared,
        beyond=beyond,
        failed=failed,
        passed=reached & held & compared & ~failed,
        most=most,
        overloaded=applied > 1.001 * most,
    )


def passes_in_a_row(outcomes: Sequence[str]) -> int:
    """Tests passed at the end of a series since the last failure, in the order in which they were made.

    A test without a result neither counts nor breaks the row.
    """
    count = 0
    for outcome in outcomes:
        if outcome == "failed":
            count = 0
        elif outcome == "passed":
            count += 1
    return count
