"""What sets of anchors have of the columns of their cases and anchors."""

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors, Sets
from hangpoint.core.anchor_sets.edge_rows import EdgeSets
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.statics.tension_resultant import tension_resultant


def least_of(values: Floats, anchors: Anchors, sets: Sets | EdgeSets) -> Floats:
    """The least of a column of cases among the anchors of each set: those of several points may differ (reading 30)."""
    if anchors.joint is None or sets.membership is None:
        return values[sets.case]
    return sets.membership.least(values[anchors.case])


def largest_of(values: Floats, anchors: Anchors, sets: Sets | EdgeSets) -> Floats:
    """The largest of them."""
    return -least_of(-values, anchors, sets)


def all_of(holds: Bools, anchors: Anchors, sets: Sets | EdgeSets) -> Bools:
    """Whether it holds for the case (cases,) of every anchor of each set."""
    return least_of(holds.astype(np.float64), anchors, sets) == 1


def least_stated(values: Floats, anchors: Anchors, sets: Sets) -> Floats:
    """The same of a coefficient that is 0 where the product has none, which takes nothing from those that have one."""
    own = values[sets.case]
    return np.where(own > 0, least_of(np.where(values > 0, values, np.inf), anchors, sets), own)


def eccentricity(anchors: Anchors, sets: Sets, tension: Floats | None) -> tuple[Floats, Floats]:
    """Distance of the resultant of the tension (anchors,) from the centroid of each set along x and y, (sets,) each."""
    count = len(sets.case)
    if sets.membership is None or tension is None:
        return np.zeros(count), np.zeros(count)
    member = sets.membership.member_anchor
    acts = tension_resultant(
        tension=tension[member],
        x=anchors.x[member],
        y=anchors.y[member],
        group_of_anchor=sets.membership.member_group,
        group_count=count,
    )
    return acts.e_n_x, acts.e_n_y
