"""Loads that nobody stated of a point and that may come: what its answer says it leaves unchecked."""

import numpy as np

from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.hang_point.points import FORCES, Bases
from hangpoint.core.vocabulary import NotChecked
from hangpoint.pack.flags import Flags
from hangpoint.pack.hangs import PackedHangs
from hangpoint.pack.pull import Rows


def unstated_loads(items: Rows, hangs: PackedHangs, bases: Bases, *, factored: bool, not_checked: Flags) -> None:
    """Say where no person or erection load is stated, no force across the rod, no earthquake in category C to F.

    Args:
        items: the points.
        hangs: their loads.
        bases: with their seismic design categories; 0 where none is asked for.
        factored: direct forces are factored loads, whose share of earthquake is assumed where it isn't stated.
        not_checked: takes it.
    """
    own = hangs.hangs
    live = own.live != 0
    live[hangs.runs.point[hangs.loads.run[hangs.loads.live]]] = True
    not_checked.set(NotChecked.ERECTION, (own.kind != FORCES) & ~live & ~own.sprinkler)
    not_checked.set(NotChecked.SIDEWAYS, own.kind != FORCES)
    if factored:
        return
    silent = items.child("seismic").silent("s_ds")
    still = (bases.category >= SEISMIC_FROM) & ~np.any(own.earthquake, axis=1)
    not_checked.set(NotChecked.EARTHQUAKE, still & silent)
    not_checked.set(NotChecked.BRACING, still & ~silent)
