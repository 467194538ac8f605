"""Fire on points that go by EN 1992-4: what annex D asks for, what it has no resistance for, and what is seen of it.

From memory, as annex D is in `en1992_4.fire`. Readings of this project:

* between two classes R the longer one counts, and beyond R120 a point is refused;
* where the request doesn't say on how many sides the member is exposed and there is an edge, it is more than one;
* steel has the stresses of stainless steel where it is of A4 or better, those of carbon steel where it is of another or
  its data don't say;
* bonded fasteners are refused: annex D has no bond in fire, which is the product's own (from memory).
"""

from dataclasses import replace
from typing import Any

import numpy as np

from hangpoint.core.conversions import MM_PER_INCH
from hangpoint.core.en1992_4.fire import (
    CLASSES,
    class_of,
    critical_spacing,
    least_edge,
    steel_stress,
    table_diameter,
)
from hangpoint.core.geometry.projected_area import least_of_edges
from hangpoint.core.hang_point.fasteners import FastenerData, Fasteners
from hangpoint.core.hang_point.fires import ONE_SIDE, with_fires_beside
from hangpoint.core.hang_point.layout_findings import nearest_edges
from hangpoint.core.hang_point.points import NOT_GOVERNING, NOT_QUALIFIED, Points
from hangpoint.core.hang_point.surroundings import CARBON_STEEL, HIGH_ALLOY, STAINLESS_316
from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Finding, Refusal

LONGEST = CLASSES[-1]


def with_fires(points: Points, group: Index | None) -> Points:
    """The points, each in the longest fire of those of its ``group`` (points,)."""
    if points.fires is None or group is None:
        return points
    return replace(points, fires=with_fires_beside(points.fires, group))


def fire_columns(points: Points, own: FastenerData, *, point: Index, fire: Bools | None) -> dict[str, Any]:
    """The columns of `FastenerCases` that fire changes.

    Args:
        points: the batch.
        own: product data of the cases.
        point: (cases,) point of each.
        fire: (cases,) it acts; None where it nowhere does.
    """
    if fire is None or points.fires is None:
        never, none = np.zeros(len(point), dtype=np.bool_), np.zeros(len(point))
        return {"fire": never, "minutes": none, "sigma_fi": none, "as_cone": never}
    minutes = np.where(fire, points.fires.minutes[point], 0.0)
    return {
        "fire": fire,
        "minutes": minutes,
        "sigma_fi": _stress(own, stainless=_stainless(points)[point], minutes=minutes),
        "as_cone": fire & _has_no_pull_out(own),
        "s_cr_n": np.where(fire, critical_spacing(s_cr_n=own.s_cr_n, h_ef=own.h_ef), own.s_cr_n),
    }


def _stress(own: FastenerData, *, stainless: Bools, minutes: Floats) -> Floats:
    diameter = table_diameter(d_nom=own.d_nom, a_s=own.a_s)
    return steel_stress(diameter=diameter, h_ef=own.h_ef, stainless=stainless, minutes=minutes)


def _stainless(points: Points) -> Bools:
    return np.isin(points.environments.steel, (STAINLESS_316, HIGH_ALLOY))


def fire_refusals(points: Points, own: Fasteners) -> list[tuple[Refusal, Bools]]:
    """Reasons against points that are to withstand a fire, in order, (points,) each."""
    fires = points.fires
    if fires is None:
        return []
    burns = fires.minutes > 0
    stress = _stress(own, stainless=_stainless(points), minutes=np.minimum(fires.minutes, LONGEST))
    uncracked_only = ~own.headed & ~own.bonded & (own.n_rk_p_cr_state == NOT_QUALIFIED)
    return [
        (Refusal.EN_FIRE_LONG, fires.minutes > LONGEST),
        (Refusal.EN_FIRE_BONDED, own.known & burns & own.bonded),
        (Refusal.EN_FIRE_UNCRACKED, own.known & burns & uncracked_only),
        (Refusal.EN_FIRE_STEEL, own.known & burns & (stress == 0)),
    ]


def fire_findings(points: Points, *, checked: Bools) -> list[FindingColumn]:
    """What is seen of the points whose anchors are ``checked`` (points,)."""
    own, fires = points.fasteners, points.fires
    if own is None or fires is None:
        return []
    burns, none = (fires.minutes > 0) & checked, np.zeros(points.count)
    nearest = least_of_edges(nearest_edges(points))
    least = least_edge(h_ef=own.h_ef, one_side=fires.sides == ONE_SIDE) / MM_PER_INCH
    asked = 60 * fires.hours
    of_class = class_of(fires.hours)
    return [
        FindingColumn(Finding.FASTENER_FIRE, burns & (asked > 0), none, none),
        FindingColumn(Finding.FASTENER_FIRE_BESIDE, burns & (of_class < fires.minutes), none, none),
        FindingColumn(Finding.FASTENER_FIRE_CLASS, burns & below(asked, limit=of_class), none, none),
        FindingColumn(
            Finding.FASTENER_FIRE_EDGE,
            burns & below(nearest, limit=least),
            np.where(np.isfinite(nearest), nearest, 0.0),
            least,
        ),
        FindingColumn(Finding.FASTENER_FIRE_CARBON, burns & ~_stainless(points) & _unsure(points), none, none),
        FindingColumn(Finding.FASTENER_FIRE_PULL_OUT, burns & _has_no_pull_out(own), none, none),
    ]


def _has_no_pull_out(own: FastenerData) -> Bools:
    """Whether the data say that pull-out doesn't govern, and so have no figure that fire could leave a share of."""
    return ~own.headed & (own.n_rk_p_cr_state == NOT_GOVERNING)


def _unsure(points: Points) -> Bools:
    """(points,) whose steel isn't known to be carbon steel."""
    return points.environments.steel != CARBON_STEEL
