"""Hangers that stated loads push: the least tension in the strength cases, of what surely hangs there. Units: lbf.

Dead load holds down, as far as it is there by every model; what may be absent holds nothing down, and of what is stated
of it only what pushes counts. A rod that this leaves below zero would have to push.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.hanger_cases import CONTENTS, DEAD, EARTHQUAKE, LIVE, NATURES, Combined, least_pull
from hangpoint.core.hanger.items import Given
from hangpoint.core.quantity import Bools, Floats, Index

ROUNDING = 1e-9
"""Share of the largest load below which a push is none."""


@frozen
class Pushed:
    """``least`` (hangers,) tension without earthquake, ``shaken`` with it; where stated loads make each negative.

    The first two are 0 of hangers at which no load is stated that could push.
    """

    least: Floats
    shaken: Floats
    pushed: Bools
    pushed_shaken: Bools


def pushed(given: Given, at: Index, *, sure: Floats, tension: Floats, s_ds: Floats, strength: Combined) -> Pushed:
    """What stated loads leave of the tension of hangers.

    Args:
        given: the stated loads.
        at: (rows of ``given``,) the hanger of each.
        sure: (hangers,) dead load that hangs there by every model.
        tension: (hangers, natures) service loads, earthquake with the pull of a brace.
        s_ds: (hangers,) S_DS, 0 where there is no earthquake.
        strength: the strength cases.
    """
    count = len(sure)
    pushes = np.zeros((count, len(NATURES)))
    np.add.at(pushes, (at, given.nature), np.minimum(given.n, 0.0))
    least = np.minimum(tension, pushes)
    least[:, [CONTENTS, LIVE]] = pushes[:, [CONTENTS, LIVE]]
    dead = given.nature == DEAD
    least[:, DEAD] = sure
    np.add.at(least[:, DEAD], at[dead], given.n[dead])
    least[:, EARTHQUAKE] = 0.0
    shaken = least.copy()
    shaken[:, EARTHQUAKE] = -np.abs(tension[:, EARTHQUAKE])
    shakes = np.zeros(count, dtype=np.bool_)
    shakes[at[(given.nature == EARTHQUAKE) & (given.n != 0.0)]] = True
    pushes[:, EARTHQUAKE] = 0.0
    leans = np.any(pushes < 0.0, axis=1)
    axis = strength.axis.take(np.flatnonzero((leans | shakes)[strength.axis.point_of_case]))
    dust = -ROUNDING * np.abs(least).max(axis=1, initial=0.0)
    plain, both = (axis.over_points(least_pull(axis, tension=each, s_ds=s_ds)) for each in (least, shaken))
    return Pushed(least=plain, shaken=both, pushed=leans & (plain < dust), pushed_shaken=shakes & (both < dust))
