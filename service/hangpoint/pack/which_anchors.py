"""Which anchors a row of a mode is about, by their numbers in the layout of their point."""

from collections.abc import Sequence

import numpy as np
import orjson

from hangpoint.core.hang_point.points import MOST_ANCHORS
from hangpoint.core.hang_point.verdict import PointMode, Verdicts
from hangpoint.core.quantity import Bools, Index
from hangpoint.pack.json_text import ABSENT

_ALONE = [orjson.dumps([number]) for number in range(MOST_ANCHORS)]
"""The list of one anchor by its number."""


def several_anchors(verdicts: Verdicts) -> Bools:
    """(points,) that have more than one anchor, or share their concrete with another point, in a checked case."""
    anchors, found = verdicts.anchors, np.zeros(verdicts.count, dtype=np.bool_)
    if not anchors.single:
        shared = np.full(anchors.case_count, anchors.joint is not None)
        found[verdicts.axis.point_of_case[(anchors.count > 1) | shared]] = True
    return found


def group_and_anchor(mode: PointMode, verdicts: Verdicts) -> tuple[Index, Index]:
    """Number of the governing set among those of its load case, and its first anchor of the point, (points,) each."""
    none = np.zeros(verdicts.count, dtype=np.intp)
    outcome, anchors = mode.outcome, verdicts.anchors
    if anchors.single or outcome is None or not mode.applies.any():
        return none, none
    row = np.maximum(mode.row, 0)
    if outcome.anchor_of_row is not None:
        return none, np.where(mode.applies, anchors.number[outcome.anchor_of_row[row]], 0)
    if outcome.sets is None:
        return none, none
    sets = outcome.sets
    own = anchors.case[sets.member_anchor] == sets.case_of_group[sets.member_group]
    number = np.where(own, anchors.number[sets.member_anchor], np.iinfo(np.intp).max)
    first = np.minimum.reduceat(number, np.searchsorted(sets.member_group, np.arange(len(sets.case_of_group))))
    return np.where(mode.applies, sets.places()[row], 0), np.where(mode.applies, first[row], 0)


def anchor_lists(mode: PointMode, verdicts: Verdicts, several: Bools) -> list[bytes]:
    """The anchors of the governing row of each point with several of them, as JSON, `ABSENT` elsewhere.

    Args:
        mode: over the points.
        verdicts: of the same points.
        several: (points,) of `several_anchors`.
    """
    texts = [ABSENT] * verdicts.count
    at = np.flatnonzero(several & mode.applies)
    if len(at) and mode.outcome is not None:
        for point, own in zip(at.tolist(), own_anchors(mode, mode.row[at], verdicts), strict=True):
            if own:
                texts[point] = _ALONE[own[0]] if len(own) == 1 else orjson.dumps(own)
    return texts


def own_anchors(mode: PointMode, rows: Index, verdicts: Verdicts) -> Sequence[list[int]]:
    """Numbers of the anchors of some rows of a mode that belong to the point of the row; none if it is about all."""
    outcome, anchors = mode.outcome, verdicts.anchors
    if outcome is None:
        return [[] for _ in range(len(rows))]
    if outcome.anchor_of_row is not None:
        lone: list[int] = anchors.number[outcome.anchor_of_row[rows]].tolist()
        return [[number] for number in lone]
    sets = outcome.sets
    if sets is None:
        return [[] for _ in range(len(rows))]
    if len(anchors.case) == anchors.case_count:
        only: list[int] = anchors.number[sets.case_of_group[rows]].tolist()
        return [[number] for number in only]
    own = anchors.case[sets.member_anchor] == sets.case_of_group[sets.member_group]
    numbers: list[int] = anchors.number[sets.member_anchor].tolist()
    held: list[bool] = own.tolist()
    first: list[int] = np.searchsorted(sets.member_group, rows).tolist()
    last: list[int] = np.searchsorted(sets.member_group, rows + 1).tolist()
    return [[numbers[at] for at in range(start, end) if held[at]] for start, end in zip(first, last, strict=True)]


def other_points(mode: PointMode, rows: Index, verdicts: Verdicts) -> Sequence[list[int]]:
    """The other points whose anchors some rows of a mode hold as well, by their place in the batch."""
    outcome, anchors = mode.outcome, verdicts.anchors
    if outcome is None or outcome.sets is None or anchors.joint is None:
        return [[] for _ in range(len(rows))]
    found: list[list[int]] = []
    for row in rows.tolist():
        points = verdicts.axis.point_of_case[anchors.case[outcome.sets.members(row)]]
        own = verdicts.axis.point_of_case[outcome.sets.case_of_group[row]]
        found.append(np.unique(points[points != own]).tolist())
    return found


def all_rows(mode: PointMode, at: int, verdicts: Verdicts) -> Index:
    """The rows of a mode of one point in its governing load case."""
    outcome = mode.outcome
    if outcome is None or outcome.case_of_row is None:
        return mode.row[at : at + 1]
    case = outcome.case_of_row[mode.row[at]]
    first, last = np.searchsorted(outcome.case_of_row, [case, case + 1])
    return np.arange(int(first), int(last))
