"""Bars of trapezes with a stated section: bending and deflection under service loads. Units: ft, in, lbf, psi."""

from dataclasses import fields, replace

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.beams import Loads
from hangpoint.core.hanger.items import Items
from hangpoint.core.loads.combinations import ALLOWABLE_CASES
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.statics.bar_forces import BarForces, bar_forces, taken, with_rows, worse
from hangpoint.core.statics.continuous_run import point_reactions, uniform_reactions
from hangpoint.core.statics.trapeze_bar import TrapezeBar, trapeze_bar

_WITH_VERTICAL = tuple(case for case in ALLOWABLE_CASES if case.vertical > 0 and not any(case.transient()))
"""Combinations with E_v that add to what hangs on a bar; snow, wind and thermal loads are stated at hangers alone."""


@frozen
class _Geometry:
    """Bars that are checked, a row each, as `bar_forces` takes them."""

    spans: Floats
    span_count: Index
    start: Floats
    end: Floats
    w: Floats
    e_i: Floats

    def take(self, rows: Index) -> "_Geometry":
        return _Geometry(**{each.name: getattr(self, each.name)[rows] for each in fields(self)})


@frozen
class _OnBars:
    """Loads on the bars that are checked, lbf: the row of their bar, ft from its first rod, what may be absent.

    ``part`` is where on the bar: 0 before the first rod, 1 in the first span, and so on to beyond the last rod.
    """

    bar: Index
    position: Floats
    permanent: Floats
    variable: Floats
    part: Index


@frozen
class _Beams:
    """Bars as continuous beams, with the loads that may stand on them.

    ``uniform`` (bars, supports) are the reactions to 1 lbf/ft, ``share`` (loads, supports) those to 1 lbf of each load;
    ``bar`` and ``position`` (loads,) as of `_OnBars`.
    """

    geometry: _Geometry
    uniform: Floats
    bar: Index
    position: Floats
    share: Floats

    @classmethod
    def of(cls, geometry: _Geometry, on: _OnBars) -> "_Beams":
        spans, span_count, start, end = geometry.spans, geometry.span_count, geometry.start, geometry.end
        return cls(
            geometry=geometry,
            uniform=uniform_reactions(spans=spans, span_count=span_count, start=start, end=end).continuous,
            bar=on.bar,
            position=on.position,
            share=point_reactions(
                spans=spans[on.bar],
                span_count=span_count[on.bar],
                start=start[on.bar],
                end=end[on.bar],
                position=on.position,
            ).continuous,
        )

    def take(self, rows: Index, loads: Index, bar: Index) -> "_Beams":
        """Some of the bars with the ``loads`` on them, of which ``bar`` is the bar of each among those."""
        return _Beams(
            geometry=self.geometry.take(rows),
            uniform=self.uniform[rows],
            bar=bar,
            position=self.position[loads],
            share=self.share[loads],
        )

    def forces(self, weight: Floats, *, deflects: bool) -> BarForces:
        """Forces under the weight of the bars and ``weight`` (loads,) of the loads, lbf."""
        geometry = self.geometry
        reactions = geometry.w[:, None] * self.uniform
        np.add.at(reactions, self.bar, weight[:, None] * self.share)
        return bar_forces(
            spans=geometry.spans,
            span_count=geometry.span_count,
            start=geometry.start,
            end=geometry.end,
            reactions=reactions,
            w=geometry.w,
            e_i=geometry.e_i,
            load_bar=self.bar,
            load_position=self.position,
            load_weight=weight,
            deflects=deflects,
        )


def _enveloped(geometry: _Geometry, on: _OnBars, *, deflects: bool = True) -> BarForces:
    """The worst of all that the variable loads may be: in each part of the bar they are there or not, all of them."""
    count = len(geometry.w)
    bit = np.left_shift(1, on.part)
    held = np.zeros(count, dtype=np.intp)
    varies = on.variable > 0
    np.bitwise_or.at(held, on.bar[varies], bit[varies])
    beams = _Beams.of(geometry, on)
    forces = beams.forces(on.permanent, deflects=deflects)
    for there in range(1, int(held.max(initial=0)) + 1):
        rows = np.flatnonzero((there & ~held) == 0)
        if len(rows):
            some, own = _on(rows, on.bar, count)
            weight = on.permanent[some] + np.where(bit[some] & there, on.variable[some], 0.0)
            bent = beams.take(rows, some, own).forces(weight, deflects=deflects)
            forces = with_rows(forces, rows, worse(bent, taken(forces, rows)))
    return forces


def _shaken(forces: BarForces, geometry: _Geometry, loads: Loads, at: Index, on: _OnBars, s_ds: Floats) -> BarForces:
    """The forces with those of the allowable-stress combinations with E_v, of bars whose ``s_ds`` is above 0.

    ``at`` are the rows of ``loads`` that are ``on`` the bars. Deflections stay those under service loads.
    """
    shaken = np.flatnonzero(s_ds > 0)
    rows, own = _on(shaken, on.bar, len(s_ds))
    static, geometry, at = taken(forces, shaken), geometry.take(shaken), at[rows]
    most = static
    for case in _WITH_VERTICAL:
        factor = case.dead + 0.2 * s_ds[shaken] * case.vertical
        of_load = factor[own]
        with_case = _OnBars(
            bar=own,
            position=on.position[rows],
            permanent=of_load * loads.dead[at],
            variable=of_load * (loads.fluid + loads.kept)[at] + case.live * loads.live[at],
            part=on.part[rows],
        )
        most = worse(most, _enveloped(replace(geometry, w=factor * geometry.w), with_case, deflects=False))
    stressed = replace(
        most,
        deflection=static.deflection,
        deflection_start=static.deflection_start,
        deflection_end=static.deflection_end,
    )
    return with_rows(forces, shaken, stressed)


def _on(bars: Index, bar: Index, count: int) -> tuple[Index, Index]:
    """The loads on some of so many bars, and their bars among these."""
    own = np.full(count, -1, dtype=np.intp)
    own[bars] = np.arange(len(bars))
    rows = np.flatnonzero(own[bar] >= 0)
    return rows, own[bar[rows]]


def checked_bars(items: Items, loads: Loads) -> tuple[TrapezeBar | None, Index]:
    """The bars whose section is stated, and which tiers they are, under service loads.

    A test counts in place of contents where it is heavier. Where S_DS is stated, stresses are also those of the
    combinations of allowable-stress design with the vertical effect of earthquake, as of the rods.

    Contents, live load and what is kept free may be absent: in each part of the bar (a span or an overhanging end) they
    are there or not, whichever of all these is worse.
    """
    which = np.flatnonzero(items.tiers.checked)
    if not len(which):
        return None, which
    tiers = items.tiers
    place = np.full(len(tiers.item), -1, dtype=np.intp)
    place[which] = np.arange(len(which))
    at = np.flatnonzero(place[loads.beam] >= 0)
    bar, position = place[loads.beam[at]], loads.position[at]
    geometry = _Geometry(
        spans=tiers.spans[which],
        span_count=tiers.span_count[which],
        start=tiers.start[which],
        end=tiers.end[which],
        w=tiers.w_bar[which],
        e_i=tiers.e[which] * tiers.i_x[which],
    )
    ends = np.cumsum(geometry.spans[bar], axis=1)
    beyond = np.sum((position[:, None] > ends) & (geometry.spans[bar] > 0.0), axis=1)
    on = _OnBars(
        bar=bar,
        position=position,
        permanent=loads.dead[at],
        variable=(np.maximum(loads.fluid, loads.test) + loads.live + loads.kept)[at],
        part=((position > 0.0) + beyond).astype(np.intp),
    )
    forces = _enveloped(geometry, on)
    s_ds = np.zeros(items.count)
    s_ds[items.seismic.item] = items.seismic.s_ds
    if s_ds[tiers.item[which]].any():
        forces = _shaken(forces, geometry, loads, at, on, s_ds[tiers.item[which]])
    bars = trapeze_bar(
        forces=forces,
        spans=geometry.spans,
        span_count=geometry.span_count,
        start=geometry.start,
        end=geometry.end,
        w=geometry.w,
        s_x=tiers.s_x[which],
        i_x=tiers.i_x[which],
        e=tiers.e[which],
        f_b=tiers.f_b[which],
        limit=tiers.limit[which],
    )
    return bars, which
