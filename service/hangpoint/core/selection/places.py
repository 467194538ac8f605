"""Candidates that ask for what a point does not state: distances that their tables limit, f'm, another rod's rule."""

from dataclasses import replace

import numpy as np

from hangpoint.core.hang_point.allowables import CHAPTER_17, Allowables
from hangpoint.core.hang_point.points import Points
from hangpoint.core.hang_point.rods import RULE_NAMES
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.selection.candidates import Offer
from hangpoint.core.selection.traits import TraitColumn
from hangpoint.core.vocabulary import Rejection

_TENSILE_STRENGTH = RULE_NAMES.index("tensile_strength")
_NOTHING = np.zeros(1)
LIMITS = {"joint": "joint_least", "face_shell": "shell_least", "cover": "cover_least", "strand": "strand_least"}
"""Distances of `Allowables` and the limits of the tables that ask for them."""
_NOT_STATED = {
    "joint": Rejection.JOINT_NOT_STATED,
    "face_shell": Rejection.FACE_SHELL_NOT_STATED,
    "cover": Rejection.COVER_NOT_STATED,
    "strand": Rejection.STRAND_NOT_STATED,
}


def place_columns(points: Points, offer: Offer, *, condition: Index) -> list[TraitColumn]:
    """Rejections over situations and candidates where a place goes by tables or by bolts in masonry.

    Args:
        points: situations.
        offer: strengths of the candidates.
        condition: (situations,) of each.
    """
    own = points.allowables
    if own is None:
        return []
    row = condition[:, None] * offer.count + np.arange(offer.count)
    bolt = offer.bolt[row]
    by_strength = bolt & own.by_strength[:, None]
    factored_rod = (own.method != CHAPTER_17) & (points.rods.rule == _TENSILE_STRENGTH)
    holds = {
        **{
            rejection: _unstated(getattr(own, name), getattr(offer.tables, LIMITS[name]), row)
            for name, rejection in _NOT_STATED.items()
        },
        Rejection.F_M_NOT_STATED: bolt & _silent(own),
        Rejection.ROD_RULE: factored_rod[:, None] & ~by_strength,
    }
    return [
        TraitColumn(rejection=rejection, holds=each, value=_NOTHING, limit=_NOTHING)
        for rejection, each in holds.items()
    ]


def _unstated(stated: Floats, least: Floats, row: Index) -> Bools:
    """(situations, candidates) whose table limits a distance that the situation doesn't state."""
    return np.isnan(stated)[:, None] & (least.max(axis=1) > 0)[row]


def _silent(own: Allowables) -> Bools:
    return np.isnan(own.f_base)[:, None]


def endless(own: Allowables) -> Allowables:
    """With the distances that are not stated beyond every limit."""
    distances = {name: getattr(own, name) for name in LIMITS}
    return replace(own, **{name: np.where(np.isnan(each), np.inf, each) for name, each in distances.items()})


def with_distances(points: Points) -> Points:
    """The points as if what they don't state were beyond every limit of a table."""
    return points if points.allowables is None else replace(points, allowables=endless(points.allowables))


def least_distances(
    points: Points, offer: Offer, at: int, condition: int, candidate: int
) -> tuple[tuple[str, float], ...]:
    """What a point would have to state for a candidate, and the limit of its tables, in."""
    own, row = points.allowables, condition * offer.count + candidate
    if own is None:
        return ()
    limits = {name: float(getattr(offer.tables, limit)[row].max()) for name, limit in LIMITS.items()}
    return tuple((name, least) for name, least in limits.items() if least > 0 and np.isnan(getattr(own, name)[at]))
