"""The share of every anchor in the load of its hang point (17.2.1, 17.5.1). Units: in, lbf, lbf*in, psi.

A lone anchor at the origin of its layout takes the whole load. Any other layout shares it under a rigid plate: with
contact the concrete takes compression and the anchors tension; without, also where no plate is stated, the anchors
alone pull and push (reading 22). Shear and torsion go by an elastic bolt group.
"""

from dataclasses import dataclass, field, replace

import numpy as np

from hangpoint.core.aci318_19.seismic import SEISMIC_FROM
from hangpoint.core.anchor_sets.anchors import LEAST_SHARE, Anchors
from hangpoint.core.frozen import frozen
from hangpoint.core.hang_point.case_plates import CasePlates
from hangpoint.core.hang_point.cases import LoadCases, fixtures, off_centre
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.earthquake_share import LOADED, MOST_LOADED, earthquake_shares, shares_of_anchors
from hangpoint.core.hang_point.further_loads import lever
from hangpoint.core.hang_point.layout_load import LayoutLoad, layout_load
from hangpoint.core.hang_point.points import Points
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.rows import some
from hangpoint.core.statics.bolt_group_shear import GroupShear, bolt_group_shear
from hangpoint.core.statics.rigid_plate import RigidPlate


@frozen
class Layout:
    """Layouts that are not one anchor at the origin, solved: ``cases`` are theirs, records have a row for each.

    The anchors of the records are in the order of ``anchors``, their place on the axis of all anchors, and
    ``case_of_anchor``, the row of their layout.
    """

    cases: Index
    anchors: Index
    load: LayoutLoad
    plate: RigidPlate
    sustained_load: LayoutLoad | None
    sustained_plate: RigidPlate | None
    shear: GroupShear
    case_of_anchor: Index

    def spans(self) -> tuple[Index, Index]:
        """The first anchor of each layout in the records, and how many it has, (layouts,) each."""
        size = np.bincount(self.case_of_anchor, minlength=len(self.cases))
        return np.cumsum(size) - size, size


@frozen
class Distribution:
    """Anchors of all cases with their load.

    ``balanced`` (cases,) is False where nothing holds the load. ``pushed`` (cases,) is the largest compression of an
    anchor without contact, ``pressed`` (cases,) that of the concrete under a plate, lbf. ``n_total`` and ``v_total``
    (cases,) are sums over the anchors, of which ``n_earthquake`` and ``v_earthquake`` are earthquake.
    """

    anchors: Anchors
    layout: Layout | None
    balanced: Bools
    pushed: Floats
    pressed: Floats
    n_total: Floats
    n_earthquake: Floats
    v_total: Floats
    v_earthquake: Floats

    def take(self, cases: Index) -> "Distribution":
        """That of some cases; the layouts stay as they are, with the numbers of all cases."""
        return replace(
            self,
            anchors=self.anchors.take(cases),
            balanced=self.balanced[cases],
            pushed=self.pushed[cases],
            pressed=self.pressed[cases],
            n_total=self.n_total[cases],
            n_earthquake=self.n_earthquake[cases],
            v_total=self.v_total[cases],
            v_earthquake=self.v_earthquake[cases],
        )


def distribute(
    points: Points, cases: LoadCases, *, fixture: Bools, demand: AnchorDemand, shear: AnchorShear
) -> Distribution:
    """Share the load of every case among its anchors.

    Args:
        points: the batch.
        cases: of all points.
        fixture: (points,) of `cases.fixtures`.
        demand, shear: a row a case.
    """
    owner = cases.axis.point_of_case
    case_count = len(owner)
    if not some(fixture):
        anchors = Anchors(
            case=np.arange(case_count),
            number=np.zeros(case_count, dtype=np.intp),
            x=np.zeros(case_count),
            y=np.zeros(case_count),
            c_a=points.bases.c_a[owner],
            n_ua=np.maximum(demand.n_ua, 0.0),
            n_ua_s=np.maximum(demand.n_ua_s, 0.0),
            v_x=shear.v_ua_x,
            v_y=shear.v_ua_y,
            case_count=case_count,
        )
        return Distribution(
            anchors=anchors,
            layout=None,
            balanced=np.ones(case_count, dtype=np.bool_),
            pushed=np.zeros(case_count),
            pressed=np.zeros(case_count),
            n_total=demand.n_ua,
            n_earthquake=demand.n_further_e,
            v_total=shear.v_ua,
            v_earthquake=shear.v_ua_e,
        )
    return _shared(points, cases, fixture=fixture, demand=demand, shear=shear)


@dataclass(kw_only=True)
class _Axis:
    """Layouts of the points spread over their cases: the flat axis of all anchors, before they are loaded."""

    case: Index
    number: Index
    x: Floats
    y: Floats
    resists_x: Bools
    resists_y: Bools
    c_a: Floats
    tension: Floats = field(init=False)
    sustained: Floats = field(init=False)
    v_x: Floats = field(init=False)
    v_y: Floats = field(init=False)


def _axis(points: Points, owner: Index, demand: AnchorDemand, shear: AnchorShear) -> _Axis:
    layouts = points.layouts
    per_point = np.bincount(layouts.point, minlength=points.count)
    size = per_point[owner]
    case = np.repeat(np.arange(len(owner)), size)
    number = np.arange(len(case)) - np.repeat(np.cumsum(size) - size, size)
    at = layouts.take((np.cumsum(per_point) - per_point)[owner][case] + number)
    axis = _Axis(
        case=case,
        number=number,
        x=at.x,
        y=at.y,
        resists_x=at.resists_x,
        resists_y=at.resists_y,
        c_a=points.bases.c_a[at.point] + np.stack((at.x, -at.x, at.y, -at.y), axis=1),
    )
    axis.tension = np.maximum(demand.n_ua, 0.0)[case]
    axis.sustained = np.maximum(demand.n_ua_s, 0.0)[case]
    axis.v_x, axis.v_y = shear.v_ua_x[case], shear.v_ua_y[case]
    return axis


def _shared(
    points: Points, cases: LoadCases, *, fixture: Bools, demand: AnchorDemand, shear: AnchorShear
) -> Distribution:
    owner = cases.axis.point_of_case
    case_count = len(owner)
    axis = _axis(points, owner, demand, shear)
    rows = np.flatnonzero(fixture[owner])
    layout = _solve(points, cases, axis, rows, demand=demand.take(rows), shear=shear.take(rows))
    at, plate = layout.anchors, layout.plate
    held = np.ones(case_count, dtype=np.bool_)
    held[rows] = plate.balance.in_equilibrium & layout.shear.group.resisted
    pulls = held[axis.case[at]]
    tension = np.where(pulls, plate.anchors.tension, 0.0)
    pushed = np.zeros(case_count)
    np.maximum.at(pushed, axis.case[at], _without_dust(-tension, axis.case[at], case_count))
    axis.tension[at] = np.maximum(_without_dust(tension, axis.case[at], case_count), 0.0)
    axis.sustained[at] = 0.0
    if layout.sustained_plate is not None:
        stays = np.where(pulls, layout.sustained_plate.anchors.tension, 0.0)
        axis.sustained[at] = np.where(np.isfinite(stays), np.maximum(stays, 0.0), 0.0)
    axis.v_x[at] = np.where(pulls, layout.shear.anchors.v_a_x, 0.0)
    axis.v_y[at] = np.where(pulls, layout.shear.anchors.v_a_y, 0.0)
    anchors = Anchors(
        case=axis.case,
        number=axis.number,
        x=axis.x,
        y=axis.y,
        c_a=axis.c_a,
        n_ua=axis.tension,
        n_ua_s=axis.sustained,
        v_x=axis.v_x,
        v_y=axis.v_y,
        case_count=case_count,
    )
    pressed = np.zeros(case_count)
    pressed[rows] = plate.balance.c
    shared = fixture[owner]
    share, share_v = _earthquake_shares(points, cases, axis, layout, shear=shear)
    pull, slide = anchors.total(anchors.n_ua), anchors.total(anchors.v)
    return Distribution(
        anchors=anchors,
        layout=layout,
        balanced=held,
        pushed=pushed,
        pressed=pressed,
        n_total=np.where(shared, pull, demand.n_ua),
        n_earthquake=np.where(shared, pull * share, demand.n_further_e),
        v_total=np.where(shared, slide, shear.v_ua),
        v_earthquake=np.where(shared, slide * share_v, shear.v_ua_e),
    )


def _earthquake_shares(
    points: Points, cases: LoadCases, axis: _Axis, layout: Layout, *, shear: AnchorShear
) -> tuple[Floats, Floats]:
    """Shares of earthquake in the tension and the shear of layouts, (cases,) each."""
    quake, rows = cases.further.quake, layout.cases
    share, share_v = np.zeros((2, len(quake)))
    if not some(quake[rows]):
        return share, share_v
    load, own = layout.load, quake[rows]
    arm = points.hangs.at[cases.axis.point_of_case[rows]]
    v = np.stack((shear.v_ua_x[rows], shear.v_ua_y[rows]), axis=1)
    m_e = own[:, 3:] + np.cross(arm, own[:, [1, 2, 0]])
    found, found_v = earthquake_shares(
        n=load.n,
        v=v,
        m=np.stack((load.m_x, load.m_y, load.m_z), axis=1) + _to_centre(axis, layout, load.n, v),
        n_e=own[:, 0],
        v_e=own[:, 1:3],
        m_e=m_e + _to_centre(axis, layout, own[:, 0], own[:, 1:3]),
    )
    share[rows], share_v[rows] = found, found_v
    shaken = rows[own.any(axis=1) & (points.bases.category[cases.axis.point_of_case[rows]] >= SEISMIC_FROM)]
    if len(shaken):
        by_anchor = _shares_of_anchors(points, cases, axis, layout, shaken, m_e=m_e)
        for least, most in zip((share, share_v), by_anchor, strict=True):
            least[shaken] = np.where(most > least[shaken] + LEAST_SHARE, most, least[shaken])
    return share, share_v


def _to_centre(axis: _Axis, layout: Layout, n: Floats, v: Floats) -> Floats:
    """Moments (layouts, 3) that forces at the origin of each layout have about the centre of its anchors."""
    size = np.bincount(layout.case_of_anchor, minlength=len(layout.cases))
    x, y = (np.bincount(layout.case_of_anchor, place[layout.anchors], len(size)) / size for place in (axis.x, axis.y))
    return np.cross(np.stack((-x, -y, np.zeros(len(x))), axis=1), np.column_stack((v, n)))


def _shares_of_anchors(
    points: Points, cases: LoadCases, axis: _Axis, layout: Layout, shaken: Index, *, m_e: Floats
) -> tuple[Floats, Floats]:
    """Shares of earthquake at single anchors, the largest of each case in tension and in shear, (shaken cases,) each.

    In tension earthquake brings what is there with it and not without it. ``m_e`` is that of all layouts.
    """
    count = len(shaken)
    which = np.searchsorted(layout.cases, shaken)
    row = np.full(len(layout.cases), -1, dtype=np.intp)
    row[which] = np.arange(count)
    own = np.flatnonzero(row[layout.case_of_anchor] >= 0)
    case, at = row[layout.case_of_anchor[own]], layout.anchors[own]
    quake, m_e, load = cases.further.quake[shaken], m_e[which], layout.load.take(which)
    solver = CasePlates(points, cases.axis.point_of_case[shaken], x=axis.x[at], y=axis.y[at], case=case)
    rest = solver.balance(replace(load, n=load.n - quake[:, 0], m_x=load.m_x - m_e[:, 0], m_y=load.m_y - m_e[:, 1]))
    without = np.where(rest.balance.in_equilibrium[case], rest.anchors.tension, 0.0)
    moved = _group(axis, at, case, v_x=quake[:, 1], v_y=quake[:, 2], m_z=m_e[:, 2])
    part_v = np.hypot(moved.anchors.v_a_x, moved.anchors.v_a_y)
    whole, whole_v = axis.tension[at], np.hypot(axis.v_x[at], axis.v_y[at])
    part = np.maximum(whole - np.maximum(without, 0.0), 0.0)
    return (
        shares_of_anchors(part=part, whole=whole, case=case, count=count, least=LOADED),
        shares_of_anchors(part=part_v, whole=whole_v, case=case, count=count, least=MOST_LOADED),
    )


def _without_dust(force: Floats, case: Index, count: int) -> Floats:
    """Forces without those that rounding leaves where there is none, as a share of the largest of the case."""
    largest = np.zeros(count)
    np.maximum.at(largest, case, np.abs(force))
    return np.where(np.abs(force) > LEAST_SHARE * largest[case], force, 0.0)


def _solve(
    points: Points, cases: LoadCases, axis: _Axis, rows: Index, *, demand: AnchorDemand, shear: AnchorShear
) -> Layout:
    """Plate and bolt group of the given cases; ``demand`` and ``shear`` are theirs."""
    owner = cases.axis.point_of_case[rows]
    place = np.full(len(cases.axis.point_of_case), -1, dtype=np.intp)
    place[rows] = np.arange(len(rows))
    at = np.flatnonzero(place[axis.case] >= 0)
    case = place[axis.case[at]]
    load = _load(points, cases, rows, demand=demand, shear=shear, sustained=False)
    solver = CasePlates(points, owner, x=axis.x[at], y=axis.y[at], case=case)
    stays = None
    product = points.products
    by_bond = product.adhesive | (product.bonded & product.european)
    if some(by_bond[owner]):
        stays = _load(points, cases, rows, demand=demand, shear=shear, sustained=True)
    return Layout(
        cases=rows,
        anchors=at,
        load=load,
        plate=solver.balance(load),
        sustained_load=stays,
        sustained_plate=None if stays is None else solver.balance(stays).as_sustained(),
        shear=_group(axis, at, case, v_x=load.v_x, v_y=load.v_y, m_z=load.m_z),
        case_of_anchor=case,
    )


def _group(axis: _Axis, at: Index, case: Index, *, v_x: Floats, v_y: Floats, m_z: Floats) -> GroupShear:
    """Shear of the anchors ``at`` some places of the axis; forces and torsion (cases,) are about the origin."""
    zero = np.zeros(len(v_x))
    return bolt_group_shear(
        v_x=v_x,
        v_y=v_y,
        x_v=zero,
        y_v=zero,
        m_z=m_z,
        x=axis.x[at],
        y=axis.y[at],
        resists_x=axis.resists_x[at],
        resists_y=axis.resists_y[at],
        case_of_anchor=case,
    )


def _load(
    points: Points, cases: LoadCases, rows: Index, *, demand: AnchorDemand, shear: AnchorShear, sustained: bool
) -> LayoutLoad:
    """Load of the given cases about the origin of their layouts: all of it, or the part that stays."""
    hangs, given = points.hangs.take(cases.axis.point_of_case[rows]), cases.given.take(rows)
    gamma, further = cases.gamma.take(rows), cases.further
    n, v_x, v_y = demand.n_ua, shear.v_ua_x, shear.v_ua_y
    m_given, gamma_given = given.m, np.ones(len(rows))
    if sustained:
        v = gamma.dead[:, None] * hangs.v_dead + gamma.contents[:, None] * hangs.v_contents
        turn = np.where(gamma.turned, -1.0, 1.0)[:, None]
        as_given = given.sustained_fraction[:, None] * (given.v + turn * given.v_e)
        v_x, v_y = (v + as_given + further.stays[rows, 1:3]).T.copy()
        off = off_centre(points, fixtures(points))[cases.axis.point_of_case[rows]]
        about = given.m_e + lever(off=off, n=given.n_e)
        m_given = given.m + turn * about - lever(off=off, n=np.abs(given.n_e))
        n, gamma_given = demand.n_ua_s, given.sustained_fraction
    return layout_load(
        n=n,
        v_x=v_x,
        v_y=v_y,
        at=hangs.at,
        m_dead=hangs.m_dead,
        m_contents=hangs.m_contents,
        m_live=hangs.m_live,
        m_factored=m_given,
        m_further=(further.stays if sustained else further.load)[rows, 3:],
        gamma=gamma,
        gamma_given=gamma_given,
        sustained=sustained,
    )
