"""Tension and shear at the hang points in every load case. Units: lbf."""

import numpy as np

from hangpoint.core.hang_point.cases import LoadCases
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear, anchor_demand, anchor_shear
from hangpoint.core.hang_point.points import Points
from hangpoint.core.hang_point.weights import ServiceLoads


def case_demand(points: Points, loads: ServiceLoads, cases: LoadCases) -> AnchorDemand:
    """Tension at the hang point in every case."""
    owner = cases.axis.point_of_case
    return anchor_demand(
        n_dead=loads.dead[owner],
        n_contents=loads.contents[owner],
        n_live=loads.live[owner],
        n_sprinkler=loads.sprinkler[owner],
        n_factored=cases.given.n,
        n_factored_e=cases.given.n_e,
        n_further=cases.further.load[:, 0],
        n_further_s=cases.further.stays[:, 0],
        n_further_e=cases.further.quake[:, 0],
        sustained_fraction=cases.given.sustained_fraction,
        as_combined=cases.as_combined,
        load_case=cases.acts,
        gamma=cases.gamma,
    )


def case_shear(points: Points, cases: LoadCases) -> AnchorShear:
    """Shear at the hang point in every case."""
    hangs, owner = points.hangs, cases.axis.point_of_case
    return anchor_shear(
        v_dead=hangs.v_dead[owner],
        v_contents=hangs.v_contents[owner],
        v_live=hangs.v_live[owner],
        v_factored=cases.given.v,
        v_further=cases.further.load[:, 1:3],
        v_further_e=cases.further.quake[:, 1:3],
        as_combined=cases.as_combined,
        vertical_contents=np.where(
            cases.as_combined | (cases.gamma.contents == 0), 0.0, cases.gamma.vertical * 0.2 * hangs.s_ds[owner]
        ),
        gamma=cases.gamma,
    )
