"""Candidates that ask for what a point does not state: distances that their tables limit, f'm, another rod's rule."""

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
        Rejection.JOINT_NOT_STATED: _unstated(own.joint, offer.tables.joint_least, row),
        Rejection.FACE_SHELL_NOT_STATED: _unstated(own.face_shell, offer.tables.shell_least, row),
        Rejection.COVER_NOT_STATED: _unstated(own.cover, offer.tables.cover_least, row),
        Rejection.STRAND_NOT_STATED: _unstated(own.strand, offer.tables.strand_least, row),
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
