"""Candidates that a situation rejects before anything is computed: wishes of the request, and plain geometry."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.layout_findings import least_spacing
from hangpoint.core.hang_point.points import NO_ROD, Points
from hangpoint.core.hang_point.surroundings import SILENT, UPPER
from hangpoint.core.quantity import Bools, Codes, Floats
from hangpoint.core.selection.candidates import NO_TOOL, OUTDOOR, Candidates, Wishes
from hangpoint.core.vocabulary import Objective, Rejection, position

ACCEPTED = -1
_ROUNDING = 1e-9
_THREAD_TOLERANCE = 1e-6
"""in; M8 and 5/16 in differ by 0.0025, M16 and 5/8 in by 0.005."""


@frozen
class TraitColumn:
    """One rejection over situations and candidates; ``holds``, ``value`` and ``limit`` broadcast to both axes."""

    rejection: Rejection
    holds: Bools
    value: Floats
    limit: Floats


def trait_columns(points: Points, candidates: Candidates, wishes: Wishes, *, fits: Bools) -> list[TraitColumn]:
    """Every rejection that needs no check, in the order of the closed list.

    Args:
        points: situations.
        candidates: products on offer.
        wishes: of the request.
        fits: (situations, candidates) of `Offer`, in the condition of each situation.
    """
    own, want = candidates, wishes
    rod_d = np.where(points.rods.rule == NO_ROD, 0.0, points.rods.d)[:, None]
    thickness = points.bases.thickness[:, None]
    depth = _depth(points)[:, None]
    exposure, vibration = _environment(points, want)
    spacing = least_spacing(points)[:, None]
    matched, has_rod = want.match_thread, rod_d > 0
    no = np.zeros(len(own.family), dtype=np.bool_)
    at_hand = np.append(want.tools, True)[np.where(own.tool == NO_TOOL, len(want.tools), own.tool)]
    differs = np.abs(rod_d - own.thread_d) > _THREAD_TOLERANCE
    return [
        _plain(Rejection.NOT_STOCKED, ~want.stocked[own.family]),
        _plain(Rejection.CAST_IN, own.cast_in if want.post_installed is True else no),
        _plain(Rejection.POST_INSTALLED, ~own.cast_in if want.post_installed is False else no),
        _plain(Rejection.NO_OBJECTIVE, ~np.isfinite(_stated(own, want.objective))),
        _plain(Rejection.TOOL, ~at_hand),
        _plain(Rejection.TRAINING, own.training & (not want.trained)),
        _plain(Rejection.EXPOSURE, own.exposure < exposure[:, None]),
        _plain(Rejection.VIBRATION, ~own.holds_again & vibration[:, None]),
        _plain(Rejection.NOT_REMOVABLE, ~own.removable & want.removable),
        _plain(Rejection.NOT_FLUSH, ~own.flush if want.flush is True else no),
        _plain(Rejection.NOT_STUD, own.flush if want.flush is False else no),
        _plain(Rejection.NO_INTERNAL_THREAD, ~own.internally_threaded if want.internally_threaded is True else no),
        _plain(Rejection.INTERNAL_THREAD, own.internally_threaded if want.internally_threaded is False else no),
        _plain(Rejection.NO_ROD_THREAD, has_rod & (own.thread_d == 0) & matched),
        _column(Rejection.OTHER_THREAD, has_rod & (own.thread_d > 0) & differs & matched, own.thread_d, rod_d),
        _above(Rejection.HOLE_SHARE, own.hole_depth, want.hole_share * thickness),
        _above(Rejection.HOLE_DEPTH, own.hole_depth, np.array([want.deepest_hole])),
        _column(Rejection.EMBEDMENT_THROUGH, own.h_ef >= depth * (1 - _ROUNDING), own.h_ef, depth),
        _column(Rejection.HOLE_THROUGH, own.hole_depth >= depth * (1 - _ROUNDING), own.hole_depth, depth),
        _column(Rejection.ANCHORS_COINCIDE, spacing < own.d_a * (1 - _ROUNDING), spacing, own.d_a),
        _plain(Rejection.NO_CONDITION, ~fits),
    ]


def _depth(points: Points) -> Floats:
    """(situations,) what is there to drill into: the member, above an upper flute the fill, in."""
    decks, thickness = points.decks, points.bases.thickness
    above = decks.in_deck & (decks.flute == UPPER)
    return np.where(above, np.minimum(thickness, decks.cover), thickness)


def _environment(points: Points, want: Wishes) -> tuple[Codes, Bools]:
    """Exposure and vibration of each situation: the harder of what is wanted and what its environment states.

    Exposures beyond `OUTDOOR` are judged by the chain alone, from steel and coating.
    """
    around = points.environments
    own = np.where(around.exposure <= OUTDOOR, around.exposure, SILENT)
    return np.maximum(own, want.exposure).astype(np.int8), around.vibration | want.vibration


def first_rejection(columns: Sequence[TraitColumn], shape: tuple[int, int]) -> NDArray[np.int8]:
    """The first rejection of every situation and candidate by its place in the closed list, `ACCEPTED` without one."""
    found = np.full(shape, ACCEPTED, dtype=np.int8)
    for column in reversed(columns):
        found[np.broadcast_to(column.holds, shape)] = position(column.rejection)
    return found


def _stated(candidates: Candidates, objective: Objective) -> Floats:
    by_objective = {Objective.COST_INDEX: candidates.cost_index, Objective.MINUTES: candidates.minutes}
    return by_objective.get(objective, np.zeros(len(candidates.family)))


_NOTHING = np.zeros(1)


def _plain(rejection: Rejection, holds: Bools) -> TraitColumn:
    return TraitColumn(rejection=rejection, holds=holds, value=_NOTHING, limit=_NOTHING)


def _column(rejection: Rejection, holds: Bools, value: Floats, limit: Floats) -> TraitColumn:
    return TraitColumn(rejection=rejection, holds=holds, value=value, limit=limit)


def _above(rejection: Rejection, value: Floats, limit: Floats) -> TraitColumn:
    return _column(rejection, value > limit * (1 + _ROUNDING), value, limit)
