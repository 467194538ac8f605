"""Which anchors act together in a failure mode."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.quantity import Floats, Index


@dataclass(frozen=True, kw_only=True)
class Grouping:
    """Groups of one mode family on the flat axis of anchors.

    ``group_of_anchor`` (anchors,), ``case_of_group`` (groups,) in rising order, ``anchor_count`` (groups,) and
    ``largest_spacing`` (groups,), the largest spacing of neighbouring rows in the group, 0 for one anchor.
    """

    group_of_anchor: Index
    case_of_group: Index
    anchor_count: Floats
    largest_spacing: Floats


def anchors_alone(*, case_of_anchor: Index) -> Grouping:
    """Every anchor is a group of one (ACI 318-19 Table 17.5.1.3.1 with no second anchor within its limit).

    Args:
        case_of_anchor: (anchors,) in rising order.
    """
    count = len(case_of_anchor)
    return Grouping(
        group_of_anchor=np.arange(count),
        case_of_group=case_of_anchor,
        anchor_count=np.ones(count),
        largest_spacing=np.zeros(count),
    )
