"""Earthquake on points that go by EN 1992-4: what 9.2 and annex C ask for, and what is seen of it.

Readings of this project:

* the American S_DS and seismic design categories make no load here: A_Ed is stated, in whatever direction it acts;
* an option of 9.2 is stated. Capacity design and elastic design ask for the same resistances and differ in the load,
  which is the caller's; ductile failure of the fastener asks for more than is built;
* the performance category is the stated one, else that of Table C.1 where a_g S and the class of importance are
  stated, C1 where it asks for none, else C2; a stated one below that of the table is a violation;
* a point in the same concrete as one under earthquake is checked beside it as under earthquake, and so needs the same
  qualification: in the category of that one, unless it states its own.
"""

from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.fasteners import (
    C1,
    C2,
    CAPACITY_DESIGN,
    DUCTILE_FAILURE,
    ELASTIC_DESIGN,
    NO_CATEGORY,
    Fasteners,
)
from hangpoint.core.hang_point.points import NO_OPTION, Points
from hangpoint.core.outcome import FindingColumn
from hangpoint.core.quantity import Bools, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Finding, Refusal


@frozen
class FastenersShaken:
    """(points,) each: ``stated`` at the point, ``acts`` in any of its cases, with a neighbour's, ``sheared`` in one."""

    stated: Bools
    acts: Bools
    sheared: Bools


def with_categories_beside(points: Points, shaken: FastenersShaken | None, group: Index | None) -> Points:
    """The points, those without category and earthquake of their own with the strictest category beside them.

    ``group`` (points,) is one number for points that share concrete, None where none do.
    """
    own = points.fasteners
    if own is None or shaken is None or group is None or not some(shaken.stated):
        return points
    strictest = np.full(points.count, C1 - 1)
    np.maximum.at(strictest, group[shaken.stated], own.category[shaken.stated])
    silent = ~own.category_stated & ~own.by_table & ~shaken.stated & (strictest[group] >= C1)
    category = np.where(silent, strictest[group], own.category).astype(np.int8)
    return replace(points, fasteners=replace(own, category=category))


def earthquake_refusals(fasteners: Fasteners, shaken: FastenersShaken) -> list[tuple[Refusal, Bools]]:
    """Reasons against points under earthquake, in order, (points,) each."""
    own, option = fasteners, fasteners.design_option
    qualified, for_shear = own.of_category("n_rk_s_{}") > 0, own.of_category("v0_rk_s_{}") > 0
    qualified &= ~own.bonded | (own.of_category("tau_{}") > 0)
    return [
        (Refusal.EN_SEISMIC_OPTION, shaken.stated & (option == NO_OPTION)),
        (Refusal.EN_DUCTILE_FAILURE, shaken.stated & (option == DUCTILE_FAILURE)),
        (Refusal.EN_NOT_SEISMIC, own.known & shaken.acts & ~qualified),
        (Refusal.EN_NOT_SEISMIC_SHEAR, own.known & shaken.sheared & ~for_shear),
    ]


def fastener_earthquake_findings(
    points: Points, shaken: FastenersShaken | None, *, checked: Bools
) -> list[FindingColumn]:
    """What is seen of the points whose anchors are ``checked`` (points,)."""
    own = points.fasteners
    if own is None or shaken is None or not some(shaken.acts & checked):
        return []
    acts, stated = shaken.acts & checked, shaken.stated & checked
    option, none = own.design_option, np.zeros(points.count)
    found = [
        (Finding.FASTENER_C2_TAKEN, stated & ~own.category_stated & ~own.by_table),
        (Finding.FASTENER_CATEGORY_BY_TABLE, stated & own.by_table & (own.table_category >= C1)),
        (Finding.FASTENER_CATEGORY_WEAK, stated & (own.category < own.table_category)),
        (Finding.FASTENER_VERY_LOW, stated & (own.table_category == NO_CATEGORY)),
        (Finding.FASTENER_ELASTIC_DESIGN, stated & (option == ELASTIC_DESIGN)),
        (Finding.FASTENER_CAPACITY_DESIGN, stated & (option == CAPACITY_DESIGN)),
        (Finding.FASTENER_SHAKEN_BESIDE, acts & ~shaken.stated),
        (Finding.FASTENER_CRACKED_BY_EARTHQUAKE, acts & ~points.bases.cracked),
        (Finding.FASTENER_DISPLACEMENT, acts & (own.category == C2)),
    ]
    return [FindingColumn(finding, holds, none, none) for finding, holds in found]
