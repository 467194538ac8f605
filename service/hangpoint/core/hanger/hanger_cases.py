"""Load combinations at the hangers: largest tension and shear, strength and allowable stress. Units: lbf."""

import numpy as np

from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.loads.combinations import (
    ALLOWABLE_CASES,
    CASES,
    TRANSIENT,
    Factors,
    Present,
    allowable_factors,
    factors,
    lay_out,
)
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.vocabulary import Nature

NATURES: tuple[str, ...] = tuple(nature.value for nature in Nature)
"""Natures of load in the order of the columns of service loads."""

DEAD, CONTENTS, LIVE, THERMAL, EARTHQUAKE, SPRINKLER_RULE = (
    NATURES.index(name) for name in ("dead", "contents", "live", "thermal", "earthquake", "sprinkler_rule")
)
_TRANSIENT = [NATURES.index(name) for name in TRANSIENT]


def _by_nature(gamma: Factors) -> Floats:
    """Factors of cases by nature, (cases, natures)."""
    table = np.zeros((len(gamma.dead), len(NATURES)))
    table[:, DEAD], table[:, CONTENTS], table[:, LIVE] = gamma.dead, gamma.contents, gamma.live
    table[:, _TRANSIENT], table[:, EARTHQUAKE] = gamma.transient, gamma.earthquake
    return table


_FACTORS, _ALLOWABLE = factors(np.arange(len(CASES))), allowable_factors(np.arange(len(ALLOWABLE_CASES)))
_TABLE, _ALLOWABLE_TABLE = _by_nature(_FACTORS), _by_nature(_ALLOWABLE)


def _weights(case: Index, s_ds: Floats, *, allowable: bool) -> Floats:
    """Factors of cases by nature with the vertical effect of earthquake, (cases, natures); ``s_ds`` (cases,)."""
    gamma, table = (_ALLOWABLE, _ALLOWABLE_TABLE) if allowable else (_FACTORS, _TABLE)
    weights = table.take(case, axis=0)
    vertical = 0.2 * s_ds * gamma.vertical[case]
    weights[:, DEAD] += vertical
    weights[:, CONTENTS] += np.where(gamma.contents[case] > 0, vertical, 0.0)
    return weights


@frozen
class Combined:
    """Cases of all hangers and the worst of each.

    ``tension`` and ``shear`` (cases,); ``worst`` and ``worst_shear`` (hangers,) are the largest, ``case`` and
    ``shear_case`` the cases of the table that they stand in. ``shear_way`` (hangers, 2) is the direction of the stated
    shears in the latter, along x where there is none, ``shear_turned`` (hangers,) whether earthquake is reversed there.
    """

    axis: CaseAxis
    tension: Floats
    shear: Floats
    worst: Floats
    case: Index
    worst_shear: Floats
    shear_case: Index
    shear_way: Floats
    shear_turned: Bools


def combine(
    *,
    tension: Floats,
    shear: Floats,
    tan_alpha: Floats,
    s_ds: Floats,
    load_standard: str,
    allowable: bool = False,
) -> Combined:
    """Combine the service loads of hangers.

    What may be absent can't relieve a hanger: contents and live load count only where they pull; earthquake pulls. Its
    vertical part is a share of dead load and contents, of their tension and of their shear, and acts wherever S_DS is
    stated. Shear is the larger of that with and without contents.

    Args:
        tension: (hangers, natures) in the order of `NATURES`.
        shear: (hangers, natures, 2) along x and y.
        tan_alpha: (hangers,) of the angle of the rod: its lean adds to the shear, whichever way it is.
        s_ds: (hangers,) S_DS, 0 where there is no earthquake.
        load_standard: edition of the load standard.
        allowable: combinations of allowable-stress design instead of strength design.
    """
    present = (tension != 0.0) | (shear[:, :, 0] != 0.0) | (shear[:, :, 1] != 0.0)
    never = np.zeros(len(tension), dtype=np.bool_)
    bits = Present(
        live=present[:, LIVE],
        earthquake=present[:, EARTHQUAKE] | (s_ds > 0.0),
        sprinkler=never,
        emptied=never,
        **{name: present[:, place] for name, place in zip(TRANSIENT, _TRANSIENT, strict=True)},
    ).bits()
    point, case = lay_out(bits, load_standard, allowable=allowable)
    gamma = _ALLOWABLE if allowable else _FACTORS
    weights = _weights(case, s_ds[point], allowable=allowable)
    own = tension.copy()
    own[:, [CONTENTS, LIVE]] = np.maximum(own[:, [CONTENTS, LIVE]], 0.0)
    own[:, EARTHQUAKE] = np.abs(own[:, EARTHQUAKE])
    pull = np.einsum("cn,cn->c", weights, own.take(point, axis=0))
    weights[:, EARTHQUAKE] *= np.where(gamma.turned[case], -1.0, 1.0)
    stated = np.zeros((len(case), 2))
    sheared = np.flatnonzero(np.any(shear != 0.0, axis=(1, 2))[point])
    if len(sheared):
        empty = weights[sheared]
        empty[:, CONTENTS] = 0.0
        own_shear = shear[point[sheared]]
        filled, empty = (np.einsum("cn,cna->ca", each, own_shear) for each in (weights[sheared], empty))
        stated[sheared] = np.where((np.hypot(*filled.T) >= np.hypot(*empty.T))[:, None], filled, empty)
    slide = np.hypot(*stated.T) + np.abs(pull) * tan_alpha[point]
    axis = CaseAxis.of(count=len(tension), point_of_case=point, load_case=case)
    (worst, worst_shear), (at, at_shear) = axis.worst(np.stack((pull, slide)))
    case_of_shear = case[at_shear] if len(case) else at_shear
    return Combined(
        axis=axis,
        tension=pull,
        shear=slide,
        worst=worst,
        case=case[at] if len(case) else at,
        worst_shear=worst_shear,
        shear_case=case_of_shear,
        shear_turned=gamma.turned[case_of_shear],
        shear_way=_unit(stated[at_shear] if len(case) else np.zeros((0, 2))),
    )


def _unit(vectors: Floats) -> Floats:
    """Directions of vectors (rows, 2), along x of one without length."""
    length = np.hypot(*vectors.T)
    return np.where((length > 0.0)[:, None], vectors / np.where(length > 0.0, length, 1.0)[:, None], [1.0, 0.0])


def least_pull(axis: CaseAxis, *, tension: Floats, s_ds: Floats) -> Floats:
    """The least tension of hangers in their strength cases, (hangers with cases,).

    Args:
        axis: the strength cases of the hangers that are looked at.
        tension: (hangers, natures) the least that each nature may be.
        s_ds: (hangers,) S_DS, 0 where there is no earthquake.
    """
    point = axis.point_of_case
    weights = _weights(axis.load_case, s_ds[point], allowable=False)
    return -axis.largest(-np.einsum("cn,cn->c", weights, tension.take(point, axis=0)))
