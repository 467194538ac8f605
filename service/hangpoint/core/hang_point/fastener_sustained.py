"""What lasts of the loads of points that go by EN 1992-4, for psi_sus of bonded fasteners (7.2.1.6).

Sustained actions are the permanent ones and the permanent part of variable ones, psi_2 of each (from memory): of
contents all is taken, of imposed load 0.8, of snow 0.2, as beside earthquake. What a group of fasteners has of each
nature isn't known: where imposed load acts in a load case, 0.8 of all that is neither dead load nor contents is taken,
where snow acts without it 0.2 (reading 47). Of loads as given the stated share lasts.
"""

import numpy as np

from hangpoint.core.hang_point.cases import LoadCases
from hangpoint.core.hang_point.demand import AnchorDemand
from hangpoint.core.hang_point.points import Points
from hangpoint.core.loads.combination_tables import TRANSIENT
from hangpoint.core.loads.combination_tables_en import PSI_2
from hangpoint.core.quantity import Bools, Floats

_SNOW = TRANSIENT.index("snow")


def psi_2_of_cases(points: Points, cases: LoadCases, demand: AnchorDemand) -> Floats:
    """(cases,) the largest psi_2 of the variable loads that act in each; ``demand`` has a row for each of them."""
    owner, hangs, gamma = cases.axis.point_of_case, points.hangs, cases.gamma
    aside: Bools = np.any(hangs.v_live, axis=1) | np.any(hangs.m_live, axis=1)
    live = (gamma.live > 0) & ((demand.n_live != 0) | aside[owner])
    snowed: Bools = np.any(hangs.transient[:, :, _SNOW], axis=1)
    snow = (gamma.transient[:, _SNOW] > 0) & snowed[owner]
    return np.where(live, PSI_2["live"], np.where(snow, PSI_2["snow"], 0.0))
