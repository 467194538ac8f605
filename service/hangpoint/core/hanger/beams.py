"""Straight beams on hangers or rods with all their supports: runs of lines, also with one hanger lost, and bars.

Units: ft, lbf, lbf/ft. Loads are by nature: dead, contents, live, test fluid.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.run_reaction import ByModel, RunReaction, by_model, reaction
from hangpoint.core.quantity import Codes, Floats, Index
from hangpoint.core.statics.continuous_run import (
    point_reactions,
    span_reactions,
    uniform_reactions,
    without_support,
)

NO_SUPPORT = -1


@frozen
class Beams:
    """Beams with their uniform loads, a row each; ``spans`` (beams, S) zero padded. ``missing`` is a support that isn't
    there or `NO_SUPPORT`.
    """

    spans: Floats
    span_count: Index
    start: Floats
    end: Floats
    missing: Index
    w_dead: Floats
    w_fluid: Floats
    w_test: Floats
    model: Codes


@frozen
class Loads:
    """Point loads, a row each: the beam, the place from its first support, and the weight by nature.

    ``kept`` is dead load that is kept free for later and may be absent, ``sure`` what of ``dead`` is surely there.
    """

    beam: Index
    position: Floats
    dead: Floats
    kept: Floats
    sure: Floats
    fluid: Floats
    live: Floats
    test: Floats


@frozen
class StaticLoads:
    """Static loads of trays, a row each: the beam, the load in lbf, and the span in ft that it is stated for.

    One stands on every span, as 2 P over the stated span or over its own length where that is shorter, and one at the
    tip of every overhang.
    """

    beam: Index
    p: Floats
    span: Floats


@frozen
class Supports:
    """Reactions of all supports on one flat axis: beam, number of the support as the request counts, record.

    ``lift`` (supports,) is the least reaction by the hinged and by the continuous beam, (supports, 2), of what is
    surely there where it holds down, and of all that may be there where it lifts.
    """

    beam: Index
    support: Index
    reaction: RunReaction
    lift: Floats


def supports_of(beams: Beams, loads: Loads, statics: StaticLoads | None = None) -> Supports:
    """Reactions of every support of every beam under its own weights, point loads and the static loads of trays."""
    none = np.zeros(len(beams.start), dtype=np.intp)
    spans, span_count, _ = without_support(
        spans=beams.spans, span_count=beams.span_count, support=none, missing=beams.missing
    )
    width = spans.shape[1] + 1
    lengths = by_model(uniform_reactions(spans=spans, span_count=span_count, start=beams.start, end=beams.end))
    there = np.arange(width, dtype=np.intp) <= span_count[:, None]
    beam, place = np.nonzero(there)
    length = lengths[there]
    parts = _point_loads(loads, spans, span_count, beams, width)
    dead, fluid, live, test, least = (part[there] for part in parts)
    stands, lifts = (part[there] for part in _static_loads(statics, spans, span_count, beams, width))
    found = reaction(
        w_dead=beams.w_dead[beam],
        w_fluid=beams.w_fluid[beam],
        w_test=beams.w_test[beam],
        length=length,
        loads=ByModel(
            p_dead=dead,
            p_fluid=fluid,
            p_live=live + stands,
            p_test=test,
        ),
        model=beams.model[beam],
    )
    empties = beams.w_fluid[beam, None] * np.minimum(length, 0.0)
    least = beams.w_dead[beam, None] * length + empties + lifts + least
    lost = beams.missing[beam]
    return Supports(
        beam=beam,
        support=place + ((lost != NO_SUPPORT) & (place >= lost)),
        reaction=found,
        lift=least[:, 1:],
    )


def _point_loads(loads: Loads, spans: Floats, span_count: Index, beams: Beams, width: int) -> list[Floats]:
    """Sums over the loads of each beam at each support, (beams, S + 1, models).

    Dead load with its sign; what is kept free, contents, live load and test fluid where they add, because each line and
    each load may be absent by itself. Last the least: what is surely there where it adds, and all where it takes away.
    """
    count = len(span_count)
    if not len(loads.beam):
        return [np.zeros((count, width, 3))] * 5
    share = by_model(
        point_reactions(
            spans=spans[loads.beam],
            span_count=span_count[loads.beam],
            start=beams.start[loads.beam],
            end=beams.end[loads.beam],
            position=loads.position,
        )
    )
    adds, lifts = np.maximum(share, 0.0), np.minimum(share, 0.0)
    dead, kept, sure, fluid, live, test = (
        each[:, None, None] for each in (loads.dead, loads.kept, loads.sure, loads.fluid, loads.live, loads.test)
    )
    parts = (
        dead * share + kept * adds,
        fluid * adds,
        live * adds,
        test * adds,
        sure * adds + (dead + kept + fluid + live) * lifts,
    )
    return [_summed(loads.beam, part, count) for part in parts]


def _static_loads(
    statics: StaticLoads | None, spans: Floats, span_count: Index, beams: Beams, width: int
) -> tuple[Floats, Floats]:
    """What static loads add at each support and what they take away, (beams, S + 1, models).

    Those on spans act together, those at tips each by itself.
    """
    count = len(span_count)
    if statics is None or not len(statics.beam):
        return np.zeros((count, width, 3)), np.zeros((count, width, 3))
    beam, own = statics.beam, spans[statics.beam]
    shorter = np.where(own > 0.0, np.minimum(own, statics.span[:, None]), np.inf)
    w = 2.0 * statics.p[:, None] / shorter
    parts = [(beam, by_model(span_reactions(spans=own, span_count=span_count[beam], w=w)))]
    whole = spans.sum(axis=1)
    for reach, tip in ((beams.start, -beams.start), (beams.end, whole + beams.end)):
        rows = np.flatnonzero(reach[beam] > 0.0)
        at = beam[rows]
        share = by_model(
            point_reactions(
                spans=spans[at],
                span_count=span_count[at],
                start=beams.start[at],
                end=beams.end[at],
                position=tip[at],
            )
        )
        parts.append((at, statics.p[rows, None, None] * share))
    adds, lifts = (
        sum((_summed(at, clipped(part, 0.0), count) for at, part in parts), np.zeros((count, width, 3)))
        for clipped in (np.maximum, np.minimum)
    )
    return adds, lifts


def _summed(beam: Index, values: Floats, count: int) -> Floats:
    """Sums of the values (loads, ...) of each beam."""
    cells = int(np.prod(values.shape[1:]))
    flat = (beam[:, None] * cells + np.arange(cells)).ravel()
    found = np.asarray(np.bincount(flat, weights=values.ravel(), minlength=count * cells), dtype=np.float64)
    return found.reshape(count, *values.shape[1:])
