"""Records of the trace beside the modes: loads, the layout and its anchors, the concrete, what pryout rests on."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hangpoint.core.anchor_sets.anchors import Anchors
from hangpoint.core.case_axis import CaseAxis
from hangpoint.core.hang_point.anchor_checks import AnchorChecks
from hangpoint.core.hang_point.demand import AnchorDemand, AnchorShear
from hangpoint.core.hang_point.distribution import Distribution, Layout
from hangpoint.core.hang_point.fastener_forces import fastener_shear, fastener_tension
from hangpoint.core.hang_point.further_loads import FurtherLoads
from hangpoint.core.hang_point.verdict import NONE, PointMode, Section
from hangpoint.core.quantity import Floats, Index, Record
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import Link, Mode


def check_sections(
    cases: Index,
    axis: CaseAxis,
    *,
    peak: Floats,
    demand: AnchorDemand,
    shear: AnchorShear,
    load: Distribution,
    further: FurtherLoads,
    anchor: AnchorChecks,
    anchors: Anchors,
    modes: Sequence[PointMode],
) -> list[Section]:
    """Sections of each point: its loads in the case with the largest utilisation of its anchors, then in each other
    case in which one of the modes is worst.

    Args:
        cases: (checked cases,) their place among all cases.
        axis: of the checked cases.
        peak: (checked cases,) that utilisation.
        demand, shear, load, further: of all cases.
        anchor, anchors: of the checked cases.
        modes: of the anchors, over the points.
    """
    first = axis.places(axis.worst(peak)[1])
    loads: list[Section] = []
    for row in (first, *_other_cases(first, modes)):
        at = np.where(row >= 0, cases[np.maximum(row, 0)], NONE) if len(cases) else row
        slid = (at >= 0) & (shear.v_ua[at] > 0) if len(shear.v_ua) else at >= 0
        load_case = axis.load_case[np.maximum(row, 0)] if len(cases) else None
        own = [
            *_further_sections(further, at),
            Section(record=demand, row=at, link=Link.ANCHOR),
            Section(record=shear, row=np.where(slid, at, NONE), link=Link.ANCHOR),
            *_layout_sections(load.layout, at),
            *(_newton_sections(anchors, row) if anchor.fasteners is not None else ()),
        ]
        loads += [replace(section, load_case=load_case) for section in own]
    return [
        *loads,
        _concrete(anchor, first),
        *_behind_pryout(anchor, modes),
    ]


def _concrete(anchor: AnchorChecks, first: Index) -> Section:
    """The concrete and the factors on it in the ``first`` case of each point."""
    if anchor.fasteners is not None:
        return Section(record=anchor.fasteners.factors, row=first, link=Link.ANCHOR)
    return Section(record=anchor.code.basis, row=anchor.code_rows(first), link=Link.ANCHOR)


def _other_cases(first: Index, modes: Sequence[PointMode]) -> list[Index]:
    """The cases of each point but the ``first`` in which a mode is worst: columns of one a point, or `NONE`."""
    own = [np.where(mode.applies, mode.case, NONE) for mode in modes if mode.case is not None]
    table = np.array(own, dtype=np.intp).reshape(len(own), len(first))
    other = (table != first) & (table >= 0)
    if not some(other):
        return []
    beyond = int(table.max()) + 1
    table = np.sort(np.where(other, table, beyond), axis=0)
    table[1:][table[1:] == table[:-1]] = beyond
    table = np.sort(table, axis=0)
    return [np.where(row < beyond, row, NONE) for row in table if some(row < beyond)]


def _further_sections(further: FurtherLoads, at: Index) -> list[Section]:
    """Each component of transient loads and earthquake that isn't zero."""
    if not len(further.cases):
        return []
    row = np.where(at >= 0, _places(further.cases, at), NONE)
    made: list[Section] = []
    for half, record in enumerate((further.forces, further.moments)):
        if record is None:
            continue
        for component in range(3):
            acts = (row >= 0) & (further.load[at, 3 * half + component] != 0)
            place = np.where(acts, component * len(further.cases) + row, NONE)
            made.append(Section(record=record, row=place, link=Link.ANCHOR))
    return made


def _layout_sections(layout: Layout | None, at: Index) -> list[Section]:
    """Load, plate and bolt group of each layout, and each of its anchors."""
    if layout is None:
        return []
    row = np.where(at >= 0, _places(layout.cases, at), NONE)
    made = [
        Section(record=record, row=row, link=Link.ANCHOR)
        for record in (layout.load, layout.plate.balance, layout.shear.group)
    ]
    per_anchor: list[Record] = [layout.plate.anchors, layout.shear.anchors]
    if layout.sustained_load is not None and layout.sustained_plate is not None:
        made += [
            Section(record=record, row=row, link=Link.ANCHOR)
            for record in (layout.sustained_load, layout.sustained_plate.balance)
        ]
        per_anchor.append(layout.sustained_plate.anchors)
    first, size = layout.spans()
    for record in per_anchor:
        for number in range(int(size.max(initial=0))):
            has = (row >= 0) & (number < size[row])
            made.append(
                Section(record=record, row=np.where(has, first[row] + number, NONE), link=Link.ANCHOR, anchor=number)
            )
    return made


def _newton_sections(anchors: Anchors, row: Index) -> list[Section]:
    """What each fastener that is loaded has in N in the cases of ``row``, one a point, or `NONE`."""
    if not anchors.case_count:
        return []
    first, own = np.cumsum(anchors.count) - anchors.count, np.maximum(row, 0)
    made: list[Section] = []
    for record, load in ((fastener_tension(anchors.n_ua), anchors.n_ua), (fastener_shear(anchors.v), anchors.v)):
        for number in range(int(anchors.count[own].max(initial=0))):
            has = (row >= 0) & (number < anchors.count[own])
            place = np.where(has, first[own] + number, 0)
            place = np.where(has & (load[place] > 0), place, NONE)
            made.append(Section(record=record, row=place, link=Link.ANCHOR, anchor=number))
    return made


def _places(rising: Index, values: Index) -> Index:
    """Place of each value in a rising column, -1 where it isn't in it."""
    if not len(rising):
        return np.full(len(values), NONE, dtype=np.intp)
    place = np.minimum(np.searchsorted(rising, values), len(rising) - 1)
    return np.where(rising[place] == values, place, NONE)


def _behind_pryout(anchor: AnchorChecks, modes: Sequence[PointMode]) -> list[Section]:
    """The strength in tension of the anchors whose pryout governs."""
    by_code, behind = Mode.PRYOUT, anchor.code.behind_pryout
    if anchor.fasteners is not None:
        by_code, behind = Mode.EN_PRY_OUT, anchor.fasteners.behind_pry_out
    pried = next((mode for mode in modes if mode.mode is by_code and mode.record is not None), None)
    if pried is None:
        return []
    return [
        Section(record=record, row=np.where(pried.applies, row[pried.row], NONE), link=Link.BASE)
        for record, row in behind
    ]
