"""Resultant of the tension in groups of anchors, and its distance from their centroid (e'_N).

ACI 318-19 17.6.2.3; EN 1992-4 6.2.1. Only anchors in tension count, those above 1e-9 of the largest of their group
(reading 8); the centroid is theirs, each anchor counting once (reading 22). Units: in, lbf.
"""

from typing import Annotated, ClassVar

import numpy as np

from hangpoint.core.clauses import ECCENTRICITY, ELASTIC
from hangpoint.core.quantity import Axis, Bools, Floats, Index, Record, formula, procedure, record

LEAST_SHARE = 1e-9


@record
class TensionResultant(Record):
    """Tension of one group of anchors and where it acts."""

    TITLE: ClassVar[str] = "tension resultant"
    AXIS: ClassVar[Axis] = Axis.GROUP

    tensioned_count: Annotated[Floats, procedure("n_t", "", "tensioned_anchors", clause="reading 8")]
    tensioned: Annotated[Bools, formula("any anchor in tension", "", "tensioned_count > 0", clause="reading 8")]
    t: Annotated[Floats, procedure("T", "lbf", "tension_resultant", clause=ELASTIC)]
    x_t: Annotated[Floats, procedure("x_T", "in", "tension_resultant", clause=ELASTIC, when="tensioned")]
    y_t: Annotated[Floats, procedure("y_T", "in", "tension_resultant", clause=ELASTIC, when="tensioned")]
    x_g: Annotated[Floats, procedure("x_g", "in", "tensioned_anchors", clause="reading 22", when="tensioned")]
    y_g: Annotated[Floats, procedure("y_g", "in", "tensioned_anchors", clause="reading 22", when="tensioned")]
    e_n_x: Annotated[
        Floats, formula("e'_N,x", "in", "max(x_t - x_g, x_g - x_t)", clause=ECCENTRICITY, when="tensioned")
    ]
    e_n_y: Annotated[
        Floats, formula("e'_N,y", "in", "max(y_t - y_g, y_g - y_t)", clause=ECCENTRICITY, when="tensioned")
    ]


def resultant(*, force: Floats, x: Floats, y: Floats, row: Index, count: int) -> tuple[Floats, Floats, Floats]:
    """Sum of forces of one sense and the place where it acts, in each of so many rows: (sum, x, y), each (count,).

    Args:
        force, x, y, row: (forces,) forces at or above zero, their places, and the row each belongs to.
        count: rows.

    Returns:
        The place is 0, 0 in a row without force.
    """
    total: Floats = np.bincount(row, force, count).astype(np.float64)
    divisor = np.where(total > 0.0, total, 1.0)
    return total, np.bincount(row, force * x, count) / divisor, np.bincount(row, force * y, count) / divisor


def tension_resultant(
    *, tension: Floats, x: Floats, y: Floats, group_of_anchor: Index, group_count: int
) -> TensionResultant:
    """Resultant of the anchors in tension of each group.

    Args:
        tension: (anchors,) lbf; below zero for an anchor in compression, infinite for one of a plate without
            equilibrium, whose group then has infinite tension and no eccentricity.
        x, y: (anchors,) in.
        group_of_anchor: (anchors,).
        group_count: number of groups.
    """
    largest = np.zeros(group_count)
    np.maximum.at(largest, group_of_anchor, tension)
    finite = np.isfinite(largest)
    bounded = finite[group_of_anchor]
    limit = LEAST_SHARE * np.where(finite, largest, 0.0)
    ones = np.where(tension > limit[group_of_anchor], 1.0, 0.0)
    force = ones * np.where(bounded, tension, 1.0)
    t, x_t, y_t = resultant(force=force, x=x, y=y, row=group_of_anchor, count=group_count)
    tensioned_count, x_g, y_g = resultant(force=ones, x=x, y=y, row=group_of_anchor, count=group_count)
    return TensionResultant(
        tensioned_count=tensioned_count,
        tensioned=tensioned_count > 0.0,
        t=np.where(finite, t, np.inf),
        x_t=x_t,
        y_t=y_t,
        x_g=x_g,
        y_g=y_g,
        e_n_x=np.abs(x_t - x_g),
        e_n_y=np.abs(y_t - y_g),
    )
