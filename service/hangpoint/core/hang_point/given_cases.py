"""Load cases of factored loads as given: with the earthquake reversed, in fire, and of points that share concrete."""

from dataclasses import replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.further_loads import lever
from hangpoint.core.hang_point.points import GivenLoads
from hangpoint.core.loads.combinations import GIVEN
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some

_ROUNDING = 1e-9
AS_NAMED, REVERSED, IN_FIRE = range(3)
"""Ways in which a load case of a name is taken."""
WAYS = 3


def given_case(name: Index, way: Index) -> Index:
    """The index of the load case of each name in each way."""
    return GIVEN + WAYS * name + way


def way_of(load_case: Index) -> Index:
    """In which way each load case as given is taken."""
    return (load_case - GIVEN) % WAYS


@frozen
class GivenRows:
    """Loads of all cases, a row a case, rising by point and case.

    ``load_case`` is the index of the case, ``turned`` (cases,) says that its earthquake acts the other way, ``fire``
    (cases,) that it is one of fire, where earthquake doesn't act.
    ``borrowed`` (points,) has a case of a neighbour that it doesn't state, with another load of its own in it;
    ``lost`` (points,) has in a further case other shear or other moments than that load.
    """

    given: GivenLoads
    load_case: Index
    turned: Bools
    fire: Bools
    borrowed: Bools
    lost: Bools


def given_rows(
    given: GivenLoads,
    *,
    fixture: Bools,
    off: Floats,
    group: Index | None,
    turned: Floats | None = None,
    fire: Bools | None = None,
) -> GivenRows:
    """The cases that loads as given make.

    Shear of earthquake, and its moments about the centre of the anchors, are also taken the other way, in a case of
    their own; not where a lone anchor is none the worse for it. Points that share concrete have all cases of their
    group. In one that a point does not state by name it carries the load of its largest tension, and in a reversed one
    that of the name; reversed as all of them.

    Args:
        given: as the request gives them.
        fixture: (points,) several anchors, or a plate.
        off: (points, 2) place of the loads from the centre of the anchors, in.
        group: (points,) one number for points that share concrete, None where none do.
        turned: (points,) of `lay_out_cases`.
        fire: (points,) that are to withstand a fire: each of their cases is one of fire as well; None where none are.
    """
    never = np.zeros(len(fixture), dtype=np.bool_)
    row, way = _with_reversed(given, fixture if group is None else fixture | _several(group), off)
    if fire is not None:
        row, way = _with_fire(given, row, way, fire)
    load_case = given_case(given.name[row], way)
    if group is None:
        return _rows(given.take(row), load_case, borrowed=never, lost=never)
    lacking, case = _lacking(given.point[row], load_case, group)
    named, stated = _stated(given, lacking, (case - GIVEN) // WAYS)
    instead = np.where(stated, named, _of_largest_tension(given, len(fixture))[lacking])
    row = np.concatenate((row, instead))
    load_case = np.concatenate((load_case, case))
    order = np.lexsort((load_case, given.point[row]))
    row, load_case = row[order], load_case[order]
    own = given.take(row)
    key = group[own.point] * (int(load_case.max(initial=0)) + 1) + load_case
    way = same_way(own.v_e, key)
    way = (way if turned is None else way * turned[own.point])[:, None]
    arm = lever(off=off[own.point], n=own.n_e)
    borrowed = never.copy()
    borrowed[lacking[~stated]] = True
    own = replace(own, v_e=own.v_e * way, m_e=way * (own.m_e + arm) - arm)
    return _rows(own, load_case, borrowed=borrowed, lost=borrowed & _varies(given, len(fixture)))


def _rows(own: GivenLoads, load_case: Index, *, borrowed: Bools, lost: Bools) -> GivenRows:
    way = way_of(load_case)
    fire = way == IN_FIRE
    if some(fire):
        still = np.where(fire, 0.0, 1.0)
        own = replace(own, n_e=still * own.n_e, v_e=still[:, None] * own.v_e, m_e=still[:, None] * own.m_e)
    return GivenRows(given=own, load_case=load_case, turned=way == REVERSED, fire=fire, borrowed=borrowed, lost=lost)


def same_way(v_e: Floats, key: Index) -> Floats:
    """1 or -1 (rows,), by which the vectors (rows, 2) of each key point the same way as the longest of them.

    Those at right angles to it point the same way as the longest of their own. Of equal ones the first counts.
    """
    sign = np.ones(len(v_e))
    left: Bools = (v_e[:, 0] != 0) | (v_e[:, 1] != 0)
    length = np.hypot(v_e[:, 0], v_e[:, 1])
    shorter: Floats = -np.round(length / max(float(length.max(initial=0)), 1e-300), 9)
    longest_first: Index = np.argsort(shorter, kind="stable")
    for _ in range(2):
        rows = longest_first[left[longest_first]]
        if not len(rows):
            return sign
        _, first, of = np.unique(key[rows], return_index=True, return_inverse=True)
        reference = v_e[rows[first]][of]
        along = (v_e[rows] * reference).sum(axis=1)
        across = np.abs(along) <= _ROUNDING * np.hypot(*v_e[rows].T) * np.hypot(*reference.T)
        sign[rows[(along < 0) & ~across]] = -1.0
        left = np.zeros(len(v_e), dtype=np.bool_)
        left[rows[across]] = True
    return sign


def _several(group: Index) -> Bools:
    return (np.bincount(group, minlength=len(group)) > 1)[group]


def _with_reversed(given: GivenLoads, anyhow: Bools, off: Floats) -> tuple[Index, Index]:
    """Rows with those that are reversed after their own, and the way of each."""
    before, after = given.v + given.v_e, given.v - given.v_e
    less = (after * before >= 0) & (np.abs(after) <= np.abs(before))
    about = given.m_e + lever(off=off[given.point], n=given.n_e)
    turns = anyhow[given.point] & (given.v_e.any(axis=1) | about.any(axis=1))
    turns |= ~less.all(axis=1)
    row: Index = np.repeat(np.arange(len(given.point)), 1 + turns.astype(np.intp))
    return row, np.where(np.diff(row, prepend=-1) == 0, REVERSED, AS_NAMED)


def _with_fire(given: GivenLoads, row: Index, way: Index, fire: Bools) -> tuple[Index, Index]:
    """Rows with those of fire after their own, and the way of each."""
    burning = np.flatnonzero(fire[given.point])
    row = np.concatenate((row, burning))
    way = np.concatenate((way, np.full(len(burning), IN_FIRE)))
    order = np.lexsort((way, row))
    return row[order], way[order]


def _lacking(point: Index, load_case: Index, group: Index) -> tuple[Index, Index]:
    """Points and the cases of their group that they don't have."""
    wanted = np.unique(np.stack((group[point], load_case), axis=1), axis=0)
    members = np.argsort(group, kind="stable")
    size, first = np.bincount(group, minlength=len(group)), np.searchsorted(group[members], wanted[:, 0])
    length = size[wanted[:, 0]]
    within = np.arange(int(length.sum())) - np.repeat(np.cumsum(length) - length, length)
    each, case = members[np.repeat(first, length) + within], np.repeat(wanted[:, 1], length)
    cases = int(case.max(initial=0)) + 1
    lacking = ~np.isin(each * cases + case, point * cases + load_case)
    return each[lacking], case[lacking]


def _stated(given: GivenLoads, point: Index, name: Index) -> tuple[Index, Bools]:
    """The row of a point and a name, and whether it has one."""
    names = max(int(given.name.max(initial=0)), int(name.max(initial=0))) + 1
    key, sought = given.point * names + given.name, point * names + name
    order = np.argsort(key, kind="stable")
    place = np.minimum(np.searchsorted(key[order], sought), len(key) - 1)
    return order[place], key[order][place] == sought


def _of_largest_tension(given: GivenLoads, count: int) -> Index:
    """(points,) row with the largest tension of each."""
    rising = np.lexsort((given.n + np.abs(given.n_e), given.point))
    largest = np.zeros(count, dtype=np.intp)
    largest[given.point[rising]] = rising
    return largest


def _varies(given: GivenLoads, count: int) -> Bools:
    """(points,) whose shear or moments are others in one case than in that of its largest tension."""
    acts = np.concatenate((given.v, given.v_e, given.m, given.m_e), axis=1)
    own = acts[_of_largest_tension(given, count)[given.point]]
    differs = np.any(np.abs(acts - own) > _ROUNDING * np.maximum(np.abs(acts), np.abs(own)), axis=1)
    found = np.zeros(count, dtype=np.bool_)
    found[given.point[differs]] = True
    return found
