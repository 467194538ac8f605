"""Bars of trapezes with a stated section: bending and deflection under service loads. Units: ft, in, lbf, psi."""

from dataclasses import fields

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.beams import Loads
from hangpoint.core.hanger.items import Items
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.statics.bar_forces import BarForces, bar_forces, taken, with_rows, worse
from hangpoint.core.statics.continuous_run import point_reactions, uniform_reactions
from hangpoint.core.statics.trapeze_bar import TrapezeBar, trapeze_bar


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


def _bent(geometry: _Geometry, bar: Index, position: Floats, weight: Floats) -> BarForces:
    """Forces of the bars as continuous beams under their own weight and the loads on them."""
    spans, span_count, start, end = geometry.spans, geometry.span_count, geometry.start, geometry.end
    uniform = uniform_reactions(spans=spans, span_count=span_count, start=start, end=end).continuous
    share = point_reactions(
        spans=spans[bar], span_count=span_count[bar], start=start[bar], end=end[bar], position=position
    ).continuous
    reactions = geometry.w[:, None] * uniform
    np.add.at(reactions, bar, weight[:, None] * share)
    return bar_forces(
        spans=spans,
        span_count=span_count,
        start=start,
        end=end,
        reactions=reactions,
        w=geometry.w,
        e_i=geometry.e_i,
        load_bar=bar,
        load_position=position,
        load_weight=weight,
    )


def _any_bar(bar: Index, holds: Bools, count: int) -> Bools:
    return np.bincount(bar[holds], minlength=count) > 0


def checked_bars(items: Items, loads: Loads) -> tuple[TrapezeBar | None, Index]:
    """The bars whose section is stated, and which tiers they are, under service loads.

    A test counts in place of contents where it is heavier.

    Contents and live load may be absent: they are everywhere, nowhere, or in every second part of the bar (a span or an
    overhanging end), whichever is worse.
    """
    which = np.flatnonzero(items.tiers.checked)
    if not len(which):
        return None, which
    tiers = items.tiers
    place = np.full(len(tiers.item), -1, dtype=np.intp)
    place[which] = np.arange(len(which))
    on = np.flatnonzero(place[loads.beam] >= 0)
    bar, position = place[loads.beam[on]], loads.position[on]
    permanent = loads.dead[on]
    variable = (np.maximum(loads.fluid, loads.test) + loads.live)[on]
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
    odd = ((position > 0.0) + beyond) % 2 == 1
    everywhere, nowhere = (_bent(geometry, bar, position, weight) for weight in (permanent + variable, permanent))
    forces = worse(everywhere, nowhere)
    mixed = np.flatnonzero(
        _any_bar(bar, odd & (variable > 0), len(which)) & _any_bar(bar, ~odd & (variable > 0), len(which))
    )
    if len(mixed):
        own = np.full(len(which), -1, dtype=np.intp)
        own[mixed] = np.arange(len(mixed))
        some = np.flatnonzero(own[bar] >= 0)
        second = [
            _bent(
                geometry.take(mixed),
                own[bar[some]],
                position[some],
                (permanent + np.where(odd == which_half, variable, 0.0))[some],
            )
            for which_half in (True, False)
        ]
        forces = with_rows(forces, mixed, worse(worse(*second), taken(forces, mixed)))
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
