"""The load cases of a batch: which point and combination each is of, its factors, and the load given in it."""

from dataclasses import fields, replace

import numpy as np

from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.absent import absent_loads, patterns_of
from hangpoint.core.hang_point.allowables import MASONRY_BOLT, TABLE
from hangpoint.core.hang_point.fires import burning
from hangpoint.core.hang_point.further_loads import FurtherLoads, Service, further_loads, lever
from hangpoint.core.hang_point.given_cases import WAYS, given_rows, same_way
from hangpoint.core.hang_point.points import FORCES, Basis, GivenLoads, Points
from hangpoint.core.hang_point.turning import AS_STATED, Otherwise, senses, turning_of_group
from hangpoint.core.hang_point.weights import ServiceLoads, service_loads
from hangpoint.core.loads.combinations import (
    CASES,
    EVERYTHING,
    GIVEN,
    IN_FIRE,
    PLAIN,
    TRANSIENT,
    Factors,
    Present,
    acting,
    cases_of,
    factors,
    lay_out,
)
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some


@frozen
class LoadCases:
    """Cases of all points on their axis.

    ``acts`` (cases,) is the load case whose factors ``gamma`` are: another than its own where a point has it only for
    its neighbours. ``given`` has a row a case, zeros where loads come by nature, and ``further`` what transient loads
    and earthquake add, the earthquake of given loads among them. ``as_combined`` (cases,): contents also relieve, see
    `demand`. ``earthquake`` (cases,): it acts on the point, or on one of its neighbours; ``fire`` the same, None where
    there is none. ``borrowed`` and ``lost`` (points,) are those of `GivenRows`.
    """

    axis: CaseAxis
    gamma: Factors
    acts: Index
    given: GivenLoads
    further: FurtherLoads
    as_combined: Bools
    earthquake: Bools
    borrowed: Bools
    lost: Bools
    fire: Bools | None = None


_ROUNDING = 1e-9
"""in: a load that is no farther from the centre of the anchors acts there."""
_SHAKEN = factors(np.arange(GIVEN)).earthquake != 0
_BURNING = np.array([case.fire for case in CASES])
_BY_NATURE = tuple(case.name for case in CASES[:GIVEN])


def case_names(given_names: tuple[str, ...]) -> tuple[str, ...]:
    """Names of the load cases by the index that `CaseAxis.load_case` holds."""
    return _BY_NATURE + tuple(
        name for own in given_names for name in (own, f"{own}, earthquake reversed", f"{own}, fire")
    )


def fixtures(points: Points) -> Bools:
    """(points,) with a plate, several anchors, or one that is off the origin of its layout."""
    layouts = points.layouts
    if len(layouts.point) == points.count and not (some(layouts.x) or some(layouts.y)):
        return points.plates.stated
    off = np.zeros(points.count, dtype=np.bool_)
    off[layouts.point[(layouts.x != 0) | (layouts.y != 0)]] = True
    return points.plates.stated | off | (np.bincount(layouts.point, minlength=points.count) > 1)


def by_service(points: Points) -> Bools | None:
    """(points,) that go by allowable loads, and so by the combinations of allowable-stress design; None where none."""
    own = points.allowables
    if own is None:
        return None
    return (own.method == TABLE) | ((own.method == MASONRY_BOLT) & ~own.by_strength)


def lay_out_cases(
    points: Points,
    loads: ServiceLoads,
    *,
    fixture: Bools,
    basis: Basis,
    group: Index | None = None,
    other: Otherwise = AS_STATED,
) -> LoadCases:
    """The cases of every point.

    Points that share concrete are checked in the same combinations (reading 30). So a point has every load case that
    any of its group has; where it is not its own, it carries there what else it may: of loads by nature those of
    1.2D+1.6L for the rule of sprinkler lines and its contents for a case without them, of given loads its largest
    tension. Earthquake acts on all of them the same way, and then the other.

    Args:
        points: the batch.
        loads: service loads of the points; contents of a pipe may push at one of its supports.
        fixture: (points,) of `fixtures`.
        basis: what holds for the whole request.
        group: (points,) one number for points that share concrete, None where none do.
        other: otherwise than so. Where earthquake alone is turned, points with cases of it have no others.
    """
    if basis.factored:
        return _given(points, fixture, group, other.turned)
    if group is not None:
        off = off_centre(points, fixture)
        quake = _one_way(points.hangs.earthquake, off, group, other.turned)
        points = replace(points, hangs=replace(points.hangs, earthquake=quake))
    own = _present(points, loads, fixture)
    bits = own.bits()
    shared = bits if group is None else _shared(own, group).bits()
    point_of_case, load_case = lay_out(shared, basis.load_standard)
    if other.turned is not None and not other.as_they_are:
        point_of_case, load_case = _shaken(point_of_case, load_case, points.count)
    acts = acting(load_case, bits[point_of_case])
    gamma, as_combined = factors(acts), (fixture | other.as_they_are)[point_of_case]
    never = np.zeros(points.count, dtype=np.bool_)
    return LoadCases(
        axis=CaseAxis.of(count=points.count, point_of_case=point_of_case, load_case=load_case),
        gamma=gamma,
        acts=acts,
        given=GivenLoads.none(point_of_case),
        further=further_of(points, loads, gamma, point_of_case, as_combined),
        as_combined=as_combined,
        earthquake=_SHAKEN[load_case],
        borrowed=never,
        lost=never,
        fire=None if points.fires is None else _BURNING[load_case],
    )


def _shaken(point_of_case: Index, load_case: Index, count: int) -> tuple[Index, Index]:
    """The cases of earthquake, and all of the points that have none."""
    shaken = _SHAKEN[load_case]
    has = np.bincount(point_of_case[shaken], minlength=count) > 0
    keep = shaken | ~has[point_of_case]
    return point_of_case[keep], load_case[keep]


def off_centre(points: Points, fixture: Bools) -> Floats:
    """(points, 2) place of the loads from the centre of the anchors of layouts, in; 0 of lone anchors."""
    of, at = points.layouts.point, points.hangs.at[:, :2]
    size = np.maximum(np.bincount(of, minlength=points.count), 1)
    centre = [np.bincount(of, place, points.count) / size for place in (points.layouts.x, points.layouts.y)]
    off = at - np.stack(centre, axis=1)
    return np.where(fixture[:, None] & (np.abs(off) > _ROUNDING), off, 0.0)


def turning(points: Points, basis: Basis) -> Bools:
    """(points,) with shear of earthquake, or moments of it about the centre of the anchors, which act either way."""
    off = off_centre(points, fixtures(points))
    if not basis.factored:
        quake = points.hangs.earthquake
        return quake[:, 1:3].any(axis=1) | _about(quake[:, 3:], quake[:, 0], off)
    own, found = points.given, np.zeros(points.count, dtype=np.bool_)
    found[own.point[own.v_e.any(axis=1) | _about(own.m_e, own.n_e, off[own.point])]] = True
    return found


def _about(moments: Floats, tension: Floats, off: Floats) -> Bools:
    """(rows,) whether moments and a tension off the centre turn about it."""
    turns: Bools = np.any(moments + lever(off=off, n=tension), axis=1)
    return turns


def _one_way(earthquake: Floats, off: Floats, group: Index, turned: Floats | None) -> Floats:
    """Earthquake (points, 6) that acts on the points of each group the same way, but where it is turned."""
    way = same_way(earthquake[:, 1:3], group)
    way = (way if turned is None else way * turned)[:, None]
    arm = lever(off=off, n=earthquake[:, 0])
    moments = way * (earthquake[:, 3:] + arm) - arm
    return np.concatenate((earthquake[:, :1], way * earthquake[:, 1:3], moments), axis=1)


def _given(points: Points, fixture: Bools, group: Index | None, turned: Floats | None) -> LoadCases:
    off = off_centre(points, fixture)
    fire = burning(points.fires, group)
    rows = given_rows(points.given, fixture=fixture, off=off, group=group, turned=turned, fire=fire)
    own, count = rows.given, len(rows.given.point)
    gamma = replace(factors(rows.load_case), turned=rows.turned)
    quake = np.column_stack((own.n_e, own.v_e, own.m_e))
    acts: Bools = np.any(quake != 0, axis=1)
    shaken = np.flatnonzero(acts)
    further = FurtherLoads.none(count)
    if len(shaken):
        none = np.zeros((len(shaken), 6, len(TRANSIENT)))
        of_case = replace(gamma.take(shaken), earthquake=np.ones(len(shaken)))
        service = Service(
            transient=none,
            earthquake=quake[shaken],
            permanent=np.zeros((len(shaken), 6)),
            off=off[own.point[shaken]],
        )
        further = further_loads(cases=shaken, count=count, gamma=of_case, service=service, s_ds=np.zeros(len(shaken)))
    return LoadCases(
        axis=CaseAxis.of(count=points.count, point_of_case=own.point, load_case=rows.load_case),
        gamma=gamma,
        acts=rows.load_case,
        given=own,
        further=further,
        as_combined=fixture[own.point],
        earthquake=_shaken_together(acts, own.point, rows.load_case, group),
        borrowed=rows.borrowed,
        lost=rows.lost,
        fire=None if fire is None else rows.fire,
    )


def _shaken_together(shaken: Bools, point: Index, load_case: Index, group: Index | None) -> Bools:
    """(cases,) that are ``shaken`` (cases,), and those of points in the same concrete in the same load case."""
    if group is None:
        return shaken
    key = group[point] * (int(load_case.max(initial=0)) + 1) + load_case
    return np.isin(key, key[shaken])


def most_cases(points: Points, basis: Basis) -> int:
    """What no point's number of load cases is above, from a glance at the columns."""
    if basis.factored:
        return (2 if points.fires is None else WAYS) * max(len(points.given_names), 1)
    hangs = points.hangs
    plain = not (hangs.transient.any() or hangs.earthquake.any() or hangs.s_ds.any())
    bits = (PLAIN if plain else EVERYTHING) | (0 if points.fires is None else IN_FIRE)
    return len(cases_of(bits, basis.load_standard))


def case_counts(points: Points, basis: Basis, group: Index | None = None) -> Index:
    """Load cases that each point has by itself, or with those of its group, (points,); reversed ones are not counted.

    Args:
        points: the batch.
        basis: what holds for the whole request.
        group: (points,) as `lay_out_cases` takes it.
    """
    return _counts(points, basis, group)[0]


def _counts(points: Points, basis: Basis, group: Index | None) -> tuple[Index, Index]:
    """Load cases of each point, and those in which earthquake is turned, (points,)."""
    if basis.factored:
        given, fire = _given_counts(points, group), burning(points.fires, group)
        return given if fire is None else given * (1 + fire), given
    own = _present(points, service_loads(points, factored=False), fixtures(points))
    bits = (own if group is None else _shared(own, group)).bits()
    kinds, kind = np.unique(bits, return_inverse=True)
    own_kinds: list[int] = kinds.tolist()
    cases = [list(cases_of(each, basis.load_standard)) for each in own_kinds]
    kind = kind.reshape(len(bits))
    every = np.array([len(each) for each in cases], dtype=np.intp)
    return every[kind], np.array([np.count_nonzero(_SHAKEN[each]) for each in cases], dtype=np.intp)[kind]


def case_rows(points: Points, basis: Basis, group: Index | None = None) -> Index:
    """Anchors of each point times its load cases; arguments and shape as of `case_counts`."""
    return np.bincount(points.layouts.point, minlength=points.count) * case_counts(points, basis, group)


def row_counts(points: Points, basis: Basis, group: Index | None = None) -> Index:
    """The rows that a check of each point computes: its anchors times its load cases, for all ways of its loads.

    Ways are those of `Points.apart`, senses those of earthquake of points that share concrete, and patterns those of
    what may be absent at some of them; arguments and shape as of `case_counts`.
    """
    anchors = np.bincount(points.layouts.point, minlength=points.count)
    cases, shaken = _counts(points, basis, group)
    rows = anchors * cases
    if group is not None:
        turn = turning_of_group(turning(points, basis), group)
        patterns = 0
        if not basis.factored:
            patterns = patterns_of(absent_loads(points, group), group=group, rows=rows, movers=turn).copies
        rows = rows * (1 + patterns) + anchors * shaken * (senses(turn) - 1)
    if points.apart is None:
        return rows
    if group is not None:  # all of them are checked in every way that any has
        return rows * (1 + len(np.unique(points.apart.way)))
    return rows * (1 + np.bincount(points.apart.point, minlength=points.count))


def _given_counts(points: Points, group: Index | None) -> Index:
    point, count = points.given.point, points.count
    if group is None:
        return np.bincount(point, minlength=count)
    names = len(points.given_names)
    distinct = np.unique(group[point] * names + points.given.name)
    return np.bincount(distinct // max(names, 1), minlength=count)[group]


def _shared(own: Present, group: Index) -> Present:
    """What any point of the group of each carries."""
    carried = [each.name for each in fields(own) if each.name not in ("service", "fire")]
    fire = None if own.fire is None else any_of_group(own.fire, group)
    shared = {name: any_of_group(getattr(own, name), group) for name in carried}
    return Present(**shared, service=own.service, fire=fire)


def _present(points: Points, loads: ServiceLoads, fixture: Bools) -> Present:
    """What each point carries beyond dead load and contents, and where the combinations hold without contents."""
    hangs, never = points.hangs, np.zeros(points.count, dtype=np.bool_)
    emptied = earthquake = never
    transient: dict[str, Bools] = dict.fromkeys(TRANSIENT, never)
    if some(fixture):
        pushed = ((hangs.contents != 0) & (hangs.kind == FORCES)) | (loads.contents < 0)
        emptied = fixture & (pushed | hangs.v_contents.any(axis=1) | hangs.m_contents.any(axis=1))
    if loads.others is not None:
        earthquake = hangs.earthquake.any(axis=1) | (hangs.s_ds > 0)
        transient = dict(zip(TRANSIENT, np.any(loads.transient, axis=1).T, strict=True))
    live = loads.live != 0
    for aside in (hangs.v_live, hangs.m_live):
        if some(aside):
            live |= aside.any(axis=1)
    return Present(
        live=live,
        earthquake=earthquake,
        sprinkler=hangs.sprinkler,
        emptied=emptied,
        service=by_service(points),
        fire=burning(points.fires, None),
        **transient,
    )


def further_of(
    points: Points, loads: ServiceLoads, gamma: Factors, point_of_case: Index, as_combined: Bools
) -> FurtherLoads:
    """Transient loads and earthquake of every case: of those in which their factors are not all zero.

    E_v of contents in the shear of a lone anchor is left to `anchor_shear`, where the contents come and go.
    """
    hangs, count = points.hangs, len(point_of_case)
    if loads.others is None:
        return FurtherLoads.none(count)
    acts = gamma.transient.any(axis=1) | (gamma.earthquake != 0)
    rows = np.flatnonzero(loads.others[point_of_case] & acts)
    own, gamma = point_of_case[rows], gamma.take(rows)
    contents = np.concatenate((loads.contents[:, None], hangs.v_contents, hangs.m_contents), axis=1)[own]
    lone = ~as_combined[rows]
    contents[lone, 0] = np.maximum(contents[lone, 0], 0.0)
    contents[lone, 1:3] = 0.0
    dead = np.concatenate((loads.dead[:, None], hangs.v_dead, hangs.m_dead), axis=1)[own]
    service = Service(
        transient=loads.transient[own],
        earthquake=hangs.earthquake[own],
        permanent=dead + np.where(gamma.contents[:, None] > 0, contents, 0.0),
        off=off_centre(points, fixtures(points))[own],
    )
    return further_loads(cases=rows, count=count, gamma=gamma, service=service, s_ds=hangs.s_ds[own])


def any_of_group(holds: Bools, group: Index) -> Bools:
    """Whether it holds for any point of the group of each, (points,) to (points,)."""
    found = np.zeros(len(holds), dtype=np.bool_)
    found[group[holds]] = True
    return found[group]
