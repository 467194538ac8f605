"""A job planned within its limits, and what each further kind of product would save."""

from collections.abc import Sequence
from dataclasses import replace
from time import monotonic

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.selection.candidates import Candidates, Wishes
from hangpoint.core.selection.choice import measure, order
from hangpoint.core.selection.job import NO_HOLE, Limits, Plan, fewest, plan

_ROUNDING = 1e-12
SAME_BIT = 1e-3
"""in; holes that differ by less are drilled with one bit."""


@frozen
class CurvePoint:
    """The least sum of the objective with at most so many products."""

    products: int
    cost: float
    gap: float


@frozen
class JobPlan:
    """A plan of a job; None where the limits allow none, or the time did not suffice.

    ``fewest`` products hold all points that can be held, None if the other limits forbid it. ``curve`` goes from those
    on, as far as a further product saves something. ``timed_out``: time ran out before the last solution.
    """

    plan: Plan | None
    fewest: int | None
    curve: Sequence[CurvePoint]
    timed_out: bool


def plan_job(
    holds: Bools,
    *,
    anchors: Floats,
    candidates: Candidates,
    wishes: Wishes,
    limits: Limits,
    most: int,
    seconds: float,
) -> JobPlan:
    """Plan a job, and the same with one product, two, and so on.

    Args:
        holds: (points, candidates).
        anchors: (points,) of each point.
        candidates: products.
        wishes: with the objective, which is not the reserve.
        limits: on what is used.
        most: products that the curve ends at.
        seconds: time limit of all solutions together.
    """
    question = _Question(
        holds=holds, anchors=anchors, candidates=candidates, wishes=wishes, until=monotonic() + seconds
    )
    try:
        return _planned(question, limits, most)
    except TimeoutError:
        return JobPlan(plan=None, fewest=None, curve=(), timed_out=True)


def _planned(question: "_Question", limits: Limits, most: int) -> JobPlan:
    least = question.least_number(limits)
    if least is None:
        return JobPlan(plan=None, fewest=None, curve=(), timed_out=False)
    whole = question.planned(limits)
    free = question.planned(replace(limits, products=None))
    curve: list[CurvePoint] = []
    for products in range(max(least, 1), most + 1):
        own = question.planned(replace(limits, products=products))
        if own is not None:
            curve.append(CurvePoint(products=products, cost=own.cost, gap=own.gap))
            if free is not None and own.cost <= free.cost * (1 + _ROUNDING):
                break
    return JobPlan(plan=whole, fewest=least, curve=curve, timed_out=False)


@frozen
class _Question:
    """What every solution has alike."""

    holds: Bools
    anchors: Floats
    candidates: Candidates
    wishes: Wishes
    until: float

    @property
    def seconds(self) -> float:
        """The time that is left."""
        left = self.until - monotonic()
        if left <= 0:
            raise TimeoutError("no time is left for another solution")
        return left

    def planned(self, limits: Limits) -> Plan | None:
        """A plan within the limits."""
        return plan(
            self.holds,
            anchors=self.anchors,
            cost=measure(self.candidates, self.wishes.objective),
            order=order(self.candidates, self.wishes.objective),
            bit=bits(self.candidates.hole_diameter),
            family=self.candidates.family,
            limits=limits,
            seconds=self.seconds,
        )

    def least_number(self, limits: Limits) -> int | None:
        """The least number of products."""
        return fewest(
            self.holds,
            order=order(self.candidates, self.wishes.objective),
            bit=bits(self.candidates.hole_diameter),
            family=self.candidates.family,
            limits=limits,
            seconds=self.seconds,
        )


def bits(hole_diameter: Floats) -> Index:
    """A code for each diameter of a bit, `NO_HOLE` where nothing is drilled."""
    code = np.round(hole_diameter / SAME_BIT).astype(np.intp)
    return np.where(hole_diameter > 0, code, NO_HOLE)
