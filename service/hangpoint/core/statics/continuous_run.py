"""Reactions of a straight beam on simple supports, at all supports at once, by three models: runs and trapeze bars.

*Tributary*: each support takes half of each span beside it, an end support its whole overhang as well, and the lever
rule's share of a point load; one on an overhang is wholly the end support's. *Hinged*: simple spans with a hinge at
each support between two, an overhang in one piece with its end span, by statics. Without overhangs the two are the
same. *Continuous*: a prismatic beam over unyielding supports, by the theorem of three moments (Clapeyron) with the
overhangs' moments at the ends, solved by elimination for all rows at once.

Units: ft; reactions are per unit of load, so uniform ones come in ft (reaction divided by w) and those of a point
load as its share. Spans are padded with zeros to a common width: ``spans`` (n, S) with ``span_count`` (n,) from 1 to
S; supports 0 to ``span_count`` stand at the ends of the spans; ``start`` and ``end`` (n,) >= 0 are the overhangs before
support 0 and after the last. Spans within the count are above zero; the caller excludes the rest.

Limits: grooved and threaded joints do not carry moment from pipe to pipe and hangers are set by hand to grade, so
no model is exact; the tributary one is out of moment equilibrium where there are overhangs. Settlement of supports and
bends of the run are not covered. A reaction may be negative, by the hinged model at the support next to an overhang,
by the continuous one also where a short span ends beside a long one: the beam lifts off there.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Floats, Index
from hangpoint.core.rows import some


@frozen
class Reactions:
    """Reactions per unit of load by each model, (rows, S + 1), 0 beyond the last support of a row."""

    tributary: Floats
    hinged: Floats
    continuous: Floats


def _support_moments(spans: Floats, span_count: Index, load: Floats, ends: Floats) -> Floats:
    """Moments at supports 0 to S, sagging positive, (S + 1, n).

    Solves M_{j-1} L_j + 2 M_j (L_j + L_{j+1}) + M_{j+1} L_{j+1} = -load_j at the supports between two spans. ``spans``
    is (S, n), ``load`` (S - 1, n); ``ends`` (S + 1, n) has the moments of the end supports, which are known, and 0
    elsewhere.
    """
    moments = ends.copy()
    width = len(spans)
    if width == 1:
        return moments
    inner = np.arange(1, width, dtype=np.intp)[:, None] < span_count
    lower = np.where(inner, spans[:-1], 0.0)
    upper = np.where(inner, spans[1:], 0.0)
    diagonal = np.where(inner, 2.0 * (lower + upper), 1.0)
    rhs = np.where(inner, -load, ends[1:-1])
    rhs[:1] -= lower[:1] * ends[:1]
    for j in range(1, width - 1):
        factor = lower[j] / diagonal[j - 1]
        diagonal[j] -= factor * upper[j - 1]
        rhs[j] -= factor * rhs[j - 1]
    for j in range(width - 2, -1, -1):
        moments[j + 1] = (rhs[j] - upper[j] * moments[j + 2]) / diagonal[j]
    return moments


def _by_models(spans: Floats, span_count: Index, tributary: Floats, load: Floats, ends: Floats) -> Reactions:
    """The three models from the reactions without moments at the supports; arrays are (supports, n)."""
    lengths = np.where(spans > 0.0, spans, np.inf)

    def with_moments(moments: Floats) -> Floats:
        shear = (moments[1:] - moments[:-1]) / lengths
        added = np.zeros(moments.shape)
        added[:-1] = shear
        added[1:] -= shear
        return tributary + added

    return Reactions(
        tributary=tributary.T,
        hinged=(with_moments(ends) if some(ends) else tributary).T,
        continuous=with_moments(_support_moments(spans, span_count, load, ends)).T,
    )


def uniform_reactions(*, spans: Floats, span_count: Index, start: Floats, end: Floats) -> Reactions:
    """Reactions to a uniform load over the whole length, overhangs included, divided by that load: ft, (n, S + 1).

    ``spans`` (n, S), ``span_count``, ``start``, ``end`` (n,): see the module. An overhang c beside an end span L gives
    by the hinged model L/2 + c + c**2/(2 L) at the end support and takes c**2/(2 L) from the next.
    Source: statics; theorem of three moments.
    """
    rows = np.arange(len(spans), dtype=np.intp)
    spans = np.ascontiguousarray(spans.T)
    tributary = np.zeros((len(spans) + 1, len(rows)))
    tributary[:-1] = spans / 2.0
    tributary[1:] += spans / 2.0
    ends = np.zeros(tributary.shape)
    if some(start) or some(end):
        tributary[0] += start
        tributary[span_count, rows] += end
        ends[0] = -(start**2) / 2.0
        ends[span_count, rows] = -(end**2) / 2.0
    cubes = spans**3
    return _by_models(spans, span_count, tributary, (cubes[:-1] + cubes[1:]) / 4.0, ends)


def span_reactions(*, spans: Floats, span_count: Index, w: Floats) -> Reactions:
    """Reactions to loads that are uniform on each span and other ones on other spans, lbf, (n, S + 1).

    ``spans`` (n, S) and ``span_count`` (n,): see the module; ``w`` (n, S) in lbf/ft. Nothing is on overhangs. Source:
    statics; theorem of three moments.
    """
    spans, w = np.ascontiguousarray(spans.T), np.ascontiguousarray(w.T)
    tributary = np.zeros((len(spans) + 1, spans.shape[1]))
    tributary[:-1] = w * spans / 2.0
    tributary[1:] += w * spans / 2.0
    cubes = w * spans**3
    return _by_models(spans, span_count, tributary, (cubes[:-1] + cubes[1:]) / 4.0, np.zeros_like(tributary))


def point_reactions(*, spans: Floats, span_count: Index, start: Floats, end: Floats, position: Floats) -> Reactions:
    """Shares of a point load that each support takes, one row a load: (m, S + 1).

    ``spans`` (m, S), ``span_count``, ``start``, ``end`` (m,) are those of the load's beam; ``position`` (m,) in ft from
    support 0, negative on the overhang before it. The caller excludes positions off the beam, which are taken at its
    tips. Source: lever rule between the two supports beside the load; statics; theorem of three moments.
    """
    if not len(position):
        none = np.zeros((0, spans.shape[1] + 1))
        return Reactions(tributary=none, hinged=none, continuous=none)
    rows = np.arange(len(spans), dtype=np.intp)
    spans = np.ascontiguousarray(spans.T)
    at = np.cumsum(spans, axis=0)
    within = np.arange(len(spans), dtype=np.intp)[:, None] < span_count - 1
    span = np.sum((position > at) & within, axis=0)
    length = spans[span, rows]
    from_left = position - (at[span, rows] - length)
    a = np.clip(from_left, 0.0, length)
    b = length - a
    tributary = np.zeros((len(spans) + 1, len(rows)))
    tributary[span, rows] = b / length
    tributary[span + 1, rows] = a / length
    load = np.zeros_like(tributary)
    square = length**2
    load[span, rows] = b * (square - b**2) / length
    load[span + 1, rows] = a * (square - a**2) / length
    ends = np.zeros_like(tributary)
    ends[0] = -np.clip(-position, 0.0, start)
    ends[span_count, rows] = -np.clip(from_left - length, 0.0, end)
    return _by_models(spans, span_count, tributary, load[1:-1], ends)


def without_support(*, spans: Floats, span_count: Index, support: Index, missing: Index) -> tuple[Floats, Index, Index]:
    """The run without one of its supports: (spans, span_count, support) of the same shapes, renumbered.

    ``missing`` (n,) is a support between two spans, which then become one, or -1 for a row that stays as it is. The
    caller excludes a missing support at an end of the run and one that is ``support`` itself. Positions along the run
    and overhangs stay what they were.
    """
    merged = missing >= 0
    if not some(merged):
        return spans, span_count, support
    columns = np.arange(spans.shape[1], dtype=np.intp)[None, :]
    shifted = columns + ((columns >= missing[:, None]) & merged[:, None])
    rest = np.take_along_axis(np.pad(spans, ((0, 0), (0, 1))), shifted, axis=1)
    lost = np.where(merged, spans[np.arange(len(spans)), np.maximum(missing, 0)], 0.0)
    joined = np.where((columns == missing[:, None] - 1) & merged[:, None], rest + lost[:, None], rest)
    return joined, span_count - merged, support - (merged & (support > missing))
