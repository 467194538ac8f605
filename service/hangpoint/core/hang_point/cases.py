"""The load cases of a batch: which point and combination each is of, its factors, and the load given in it."""

from dataclasses import dataclass

import numpy as np

from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.hang_point.points import FORCES, GivenLoads, Points
from hangpoint.core.loads.combinations import (
    CASES,
    DEAD_LIVE,
    GIVEN,
    SPRINKLER,
    Factors,
    factors,
    service_cases,
    with_contents,
)
from hangpoint.core.quantity import Bools, Floats, Index

HALF = 0.5
"""Earthquake share above which the reversed earthquake part turns the load of a lone anchor around."""


@dataclass(frozen=True, kw_only=True)
class LoadCases:
    """Cases of all points on their axis.

    ``acts`` (cases,) is the load case whose factors ``gamma`` are: another than its own where a point has it only for
    its neighbours. ``given`` has a row a case, zeros where loads come by nature. ``turned`` (cases,): the earthquake
    part of the shear and the moments acts the other way. ``as_combined`` (cases,): contents also relieve, see `demand`.
    """

    axis: CaseAxis
    gamma: Factors
    acts: Index
    given: GivenLoads
    turned: Bools
    as_combined: Bools


def case_names(given_names: tuple[str, ...]) -> tuple[str, ...]:
    """Names of the load cases by the index that `CaseAxis.load_case` holds."""
    by_nature = tuple(case.value.name for case in CASES[:GIVEN])
    return by_nature + tuple(name for own in given_names for name in (own, f"{own}, earthquake reversed"))


def fixtures(points: Points) -> Bools:
    """(points,) with a plate, several anchors, or one that is off the origin of its layout."""
    layouts = points.layouts
    if len(layouts.point) == points.count and not (layouts.x.any() or layouts.y.any()):
        return points.plates.stated
    off = np.zeros(points.count, dtype=np.bool_)
    off[layouts.point[(layouts.x != 0) | (layouts.y != 0)]] = True
    return points.plates.stated | off | (np.bincount(layouts.point, minlength=points.count) > 1)


def lay_out_cases(
    points: Points, *, fixture: Bools, contents: Floats, factored: bool, group: Index | None = None
) -> LoadCases:
    """The cases of every point.

    Points that share concrete are checked in the same combinations (reading 30). So a point has every load case that
    any of its group has; where it is not its own, it carries there what else it may: of loads by nature those of
    1.2D+1.6L for the rule of sprinkler lines and its contents for a case without them, of given loads its largest
    tension.

    Args:
        points: the batch.
        fixture: (points,) of `fixtures`.
        contents: (points,) service tension of all contents, lbf; those of a pipe may push at one of its supports.
        factored: the request gives factored loads.
        group: (points,) one number for points that share concrete, None where none do.
    """
    if factored:
        return _given(points, fixture, group)
    hangs = points.hangs
    direct = ((hangs.contents != 0) & (hangs.kind == FORCES)) | (contents < 0)
    moved = direct | hangs.v_contents.any(axis=1) | hangs.m_contents.any(axis=1)
    emptied = fixture & moved
    point_of_case, load_case = service_cases(
        sprinkler=_any_of_group(hangs.sprinkler, group), emptied=_any_of_group(emptied, group)
    )
    acts = np.where(load_case == SPRINKLER, np.where(hangs.sprinkler[point_of_case], SPRINKLER, DEAD_LIVE), load_case)
    acts = np.where(emptied[point_of_case], acts, with_contents(acts))
    count = len(point_of_case)
    none, never = np.zeros(count), np.zeros(count, dtype=np.bool_)
    return LoadCases(
        axis=CaseAxis.of(count=points.count, point_of_case=point_of_case, load_case=load_case),
        gamma=factors(acts),
        acts=acts,
        given=GivenLoads(
            point=point_of_case,
            name=np.zeros(count, dtype=np.intp),
            n=none,
            v=np.zeros((count, 2)),
            m=np.zeros((count, 3)),
            sustained_fraction=none,
            earthquake_fraction=none,
            earthquake_fraction_v=none,
        ),
        turned=never,
        as_combined=fixture[point_of_case],
    )


def _given(points: Points, fixture: Bools, group: Index | None) -> LoadCases:
    given = points.given
    # A lone anchor is none the worse for a reversed load that is less; of several, one may lose what relieved it.
    above = np.where(fixture[given.point], 0.0, HALF)
    turns = (given.earthquake_fraction_v > above) & given.v.any(axis=1)
    turns |= (given.earthquake_fraction > above) & given.m.any(axis=1)
    row: Index = np.repeat(np.arange(len(given.point)), 1 + turns.astype(np.intp))
    turned = np.diff(row, prepend=-1) == 0
    load_case = GIVEN + 2 * given.name[row] + turned
    if group is not None:
        row, load_case, turned = _of_group(points, group, row, load_case, turned)
    own = given.take(row)
    return LoadCases(
        axis=CaseAxis.of(count=points.count, point_of_case=own.point, load_case=load_case),
        gamma=factors(load_case),
        acts=load_case,
        given=own,
        turned=turned,
        as_combined=fixture[own.point],
    )


def _of_group(points: Points, group: Index, row: Index, load_case: Index, turned: Bools) -> tuple[Index, Index, Bools]:
    """The rows with those added that make the cases of each point all that its group has."""
    point = points.given.point[row]
    most = np.lexsort((points.given.n, points.given.point))
    largest = np.zeros(points.count, dtype=np.intp)
    largest[points.given.point[most]] = most
    wanted = np.unique(np.stack((group[point], load_case), axis=1), axis=0)
    members = np.argsort(group, kind="stable")
    size, first = np.bincount(group, minlength=points.count), np.searchsorted(group[members], wanted[:, 0])
    length = size[wanted[:, 0]]
    within = np.arange(int(length.sum())) - np.repeat(np.cumsum(length) - length, length)
    each = members[np.repeat(first, length) + within]
    case = np.repeat(wanted[:, 1], length)
    key, own = each * (int(case.max(initial=0)) + 1) + case, point * (int(case.max(initial=0)) + 1) + load_case
    lacking = np.flatnonzero(~np.isin(key, own))
    row = np.concatenate((row, largest[each[lacking]]))
    load_case = np.concatenate((load_case, case[lacking]))
    turned = np.concatenate((turned, np.zeros(len(lacking), dtype=np.bool_)))
    order = np.lexsort((load_case, points.given.point[row]))
    return row[order], load_case[order], turned[order]


def _any_of_group(holds: Bools, group: Index | None) -> Bools:
    """Whether it holds for any point of the group of each, (points,) to (points,)."""
    if group is None:
        return holds
    found = np.zeros(len(holds), dtype=np.bool_)
    found[group[holds]] = True
    return found[group]
