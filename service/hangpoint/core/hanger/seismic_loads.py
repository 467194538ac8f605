"""Component seismic force of items, what a brace makes of it at hangers and anchors, exemptions that may be claimed.

W_p is the operating weight between braces, of equipment all of it (reading 35): of a run its lines and every point load
on it but live ones, of a trapeze its lines and, as often as its spacing goes into that of the braces and once at least,
its bars and the loads on them but live ones. Of a line without a brace it is the weight of a foot, for information.
Units: lbf, ft, degrees.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.exemptions import BracingExemptions, bracing_exemptions
from hangpoint.core.hanger.items import EQUIPMENT, RISER, RUN, TRAPEZE, Items, PointLoads, Seismic
from hangpoint.core.hanger.line_weights import LineWeights
from hangpoint.core.loads.seismic_component import (
    ComponentForce16,
    ComponentForce22,
    component_force_16,
    component_force_22,
)
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.statics.brace import BraceForce, brace_force
from hangpoint.core.statics.rod_in_compression import RodInCompression, rod_in_compression

NO_CATEGORY = -1
FEET_OF_UNBRACED = 1.0


@frozen
class SeismicLoads:
    """Rows as in `items.Seismic`, forces in lbf.

    ``older`` and ``newer`` are the records of both editions with the rows that they have; ``brace`` that of the braced
    rows in ``braced`` at F_p, ``anchor`` at Omega_0 F_p, ``rod`` that of the rods in ``pushed``, which are stated and
    pushed by the brace. ``exemptions`` are of the rows ``judged``, whose category is
    stated and where no sprinkler line hangs.
    """

    w_p: Floats
    f_p: Floats
    f_p_anchorage: Floats
    omega_0: Floats
    e_v: Floats
    fraction: Floats
    governs: Index
    older: tuple[ComponentForce16, Index] | None
    newer: tuple[ComponentForce22, Index] | None
    braced: Index
    brace: BraceForce | None
    anchor: BraceForce | None
    pushed: Index
    rod: RodInCompression | None
    judged: Index
    exemptions: BracingExemptions | None


def seismic_loads(
    items: Items, weights: LineWeights, *, n_sure: Floats, largest_load: Floats, stated: Floats, stated_most: Floats
) -> SeismicLoads | None:
    """Seismic forces of the items that state them.

    Args:
        items, weights: the batch and the weights of its lines.
        n_sure: (items,) what surely holds the rod of each item down that is held least, at strength level beside the
            brace, lbf; negative where stated loads push it.
        largest_load: (items,) the largest service load of a rod, of a trapeze the sum over its rods, lbf.
        stated, stated_most: (items,) dead load and contents stated at the hangers, all and the most at one, lbf: in no
            W_p, but against exemptions.
    """
    own = items.seismic
    if not len(own.item):
        return None
    w_foot = _per_foot(items, weights)
    body = np.zeros(items.count)
    body[items.equipment.item] = items.equipment.dead + items.equipment.contents
    length = np.where(own.braced, own.l_brace, FEET_OF_UNBRACED)
    lines = w_foot[own.item] * length + np.where(own.braced, _beside_lines(items, own), 0.0)
    w_p = np.where(items.kind[own.item] == EQUIPMENT, body[own.item], lines)
    older, newer = component_forces(own, w_p)
    count = len(own.item)
    columns = {name: np.zeros(count) for name in ("f_p", "f_p_anchorage", "e_v", "fraction", "governs")}
    for made in (older, newer):
        if made is not None:
            record, rows = made
            for name, column in columns.items():
                column[rows] = getattr(record, name)
    braced = np.flatnonzero(own.braced)
    tan_alpha = np.tan(np.radians(items.rods.angle[own.item[braced]]))
    brace, anchor = (
        brace_force(
            f_p=force[braced],
            braces=own.braces[braced],
            theta_v=own.theta_v[braced],
            n_sure=n_sure[own.item[braced]],
            tan_alpha=tan_alpha,
        )
        if len(braced)
        else None
        for force in (columns["f_p"], columns["f_p_anchorage"])
    )
    pushed, rod = _pushed_rods(items, braced, brace)
    sprinkler = np.zeros(items.count, dtype=np.bool_)
    sprinkler[items.lines.item[items.lines.sprinkler]] = True
    judged = np.flatnonzero((own.category != NO_CATEGORY) & ~sprinkler[own.item])
    beside, most = stated + _on_runs(items) + _on_bars(items), np.maximum(stated_most, _at_one_place(items))
    reach = _reach(items)
    return SeismicLoads(
        w_p=w_p,
        f_p=columns["f_p"],
        f_p_anchorage=columns["f_p_anchorage"],
        omega_0=np.where(own.newer, own.omega_0p, own.omega_0),
        e_v=columns["e_v"],
        fraction=columns["fraction"],
        governs=columns["governs"].astype(np.intp),
        older=older,
        newer=newer,
        braced=braced,
        brace=brace,
        anchor=anchor,
        pushed=pushed,
        rod=rod,
        judged=judged,
        exemptions=_exemptions(items, judged, w_foot + beside / reach, most, largest_load) if len(judged) else None,
    )


def _pushed_rods(items: Items, braced: Index, brace: BraceForce | None) -> tuple[Index, RodInCompression | None]:
    """The rows whose rod is stated and pushed by the brace, with their record."""
    if brace is None:
        return braced[:0], None
    rods, item = items.rods, items.seismic.item[braced]
    own = np.flatnonzero((brace.c_rod > 0) & (rods.d[item] > 0))
    if not len(own):
        return braced[:0], None
    columns = {name: getattr(rods, name)[item[own]] for name in ("d", "pitch", "k_root", "l_free")}
    return braced[own], rod_in_compression(c_rod=brace.c_rod[own], **columns)


def _beside_lines(items: Items, own: Seismic) -> Floats:
    """Weight between braces beside that of the lines: point loads on runs, bars and what is on them."""
    tiers = items.tiers
    bars = tiers.w_bar * (tiers.spans.sum(axis=1) + tiers.start + tiers.end)
    trapeze = _summed(tiers.item, bars, items.count) + _on_bars(items)
    return _on_runs(items)[own.item] + trapeze[own.item] * np.maximum(own.l_brace / _reach(items)[own.item], 1.0)


def _on_runs(items: Items) -> Floats:
    """Weight of the point loads on the run of each item, (items,) lbf."""
    return _summed(items.runs.item[items.run_loads.row], _operating(items.run_loads), items.count)


def _on_bars(items: Items) -> Floats:
    """Weight of the loads on the bars of each item and of what is kept free beside them, (items,) lbf."""
    on_bars = _summed(items.tiers.item[items.bar_loads.row], _operating(items.bar_loads), items.count)
    return on_bars * (1.0 + items.spare)


def _at_one_place(items: Items) -> Floats:
    """The largest of the loads on the run and the bars of each item, (items,) lbf."""
    found = np.zeros(items.count)
    np.maximum.at(found, items.runs.item[items.run_loads.row], _operating(items.run_loads))
    np.maximum.at(found, items.tiers.item[items.bar_loads.row], _operating(items.bar_loads))
    return found


def _reach(items: Items) -> Floats:
    """Length of line of each item: all of a run or riser, of a trapeze what comes to it, 1 elsewhere; (items,) ft."""
    runs = items.runs
    framed = np.zeros((len(runs.item), runs.spans.shape[1] + 2))
    framed[:, 1:-1] = runs.spans
    at = np.arange(len(runs.item))
    spacing = (framed[at, runs.support] + framed[at, runs.support + 1]) / 2.0
    reach = np.ones(items.count)
    reach[runs.item] = np.where(items.kind[runs.item] == RUN, runs.spans.sum(axis=1) + runs.start + runs.end, spacing)
    reach[items.risers.item] = items.risers.length
    return reach


def _operating(loads: PointLoads) -> Floats:
    return np.where(loads.live, 0.0, loads.weight)


def _summed(item: Index, values: Floats, count: int) -> Floats:
    return np.asarray(np.bincount(item, weights=values, minlength=count), dtype=np.float64)


def _per_foot(items: Items, weights: LineWeights) -> Floats:
    """Operating weight of all lines of each item and of what is kept free beside them per foot, (items,) lbf/ft."""
    lines = _summed(items.lines.item, (weights.dead + weights.fluid) * items.lines.number, items.count)
    return lines * (1.0 + items.spare)


def component_forces(
    own: Seismic, w_p: Floats
) -> tuple[tuple[ComponentForce16, Index] | None, tuple[ComponentForce22, Index] | None]:
    """Records of both editions with the rows of ``own`` that they have; ``w_p`` (rows,) in lbf."""
    rows, later = np.flatnonzero(~own.newer), np.flatnonzero(own.newer)
    older = newer = None
    if len(rows):
        record = component_force_16(
            w_p=w_p[rows],
            s_ds=own.s_ds[rows],
            i_p=own.i_p[rows],
            a_p=own.a_p[rows],
            r_p=own.r_p[rows],
            omega_0=own.omega_0[rows],
            z=own.z[rows],
            h=own.h[rows],
            isolator_gap=own.isolator_gap[rows],
        )
        older = (record, rows)
    if len(later):
        record_22 = component_force_22(
            w_p=w_p[later],
            s_ds=own.s_ds[later],
            i_p=own.i_p[later],
            c_ar=own.c_ar[later],
            r_po=own.r_po[later],
            omega_0p=own.omega_0p[later],
            at_grade=own.at_grade[later],
            z=own.z[later],
            h=own.h[later],
            period_known=own.period_known[later],
            t_a=own.t_a[later],
            system_known=own.system_known[later],
            r=own.r[later],
            i_e=own.i_e[later],
            omega_0=own.omega_building[later],
            isolator_gap=own.isolator_gap[later],
        )
        newer = (record_22, later)
    return older, newer


def _exemptions(
    items: Items, judged: Index, w_line: Floats, p_place: Floats, largest_load: Floats
) -> BracingExemptions:
    """``w_line``, ``p_place`` and ``largest_load`` (items,) as arguments of `bracing_exemptions`."""
    own, item = items.seismic, items.seismic.item[judged]
    nominal, area = np.zeros(items.count), np.zeros(items.count)
    np.maximum.at(nominal, items.lines.item[items.pipes.line], items.pipes.nominal)
    ducts = items.ducts
    height = np.where(ducts.b > 0, ducts.b, ducts.a)
    np.maximum.at(area, items.lines.item[ducts.line], ducts.a * height / 144.0)
    only_pipes = _only(items, items.pipes.line)
    length = np.where(items.kind[item] == RISER, 0.0, items.rods.l_rod[item])
    return bracing_exemptions(
        category=own.category[judged],
        i_p=own.i_p[judged],
        ceiling=own.ceiling[judged],
        distributes=own.distributes[judged],
        w_line=w_line[item],
        p_place=p_place[item],
        hanger_length=np.where(length > 0, 12.0 * length, 1e6),
        bending_free=own.bending_free[judged],
        on_trapeze=items.kind[item] == TRAPEZE,
        d_rod=items.rods.d[item],
        p_hanger=largest_load[item],
        duct_area=np.where(_only(items, ducts.line)[item], area[item], 0.0),
        nominal=np.where(only_pipes[item], nominal[item], 0.0),
        r_p=np.where(own.newer[judged], 0.0, own.r_p[judged]),
    )


def _only(items: Items, line: Index) -> Bools:
    """(items,) whether all lines of an item are among these."""
    every = np.bincount(items.lines.item, minlength=items.count)
    return (every > 0) & (np.bincount(items.lines.item[line], minlength=items.count) == every)
