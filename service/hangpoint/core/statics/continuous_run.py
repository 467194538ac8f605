"""Reactions of a straight run on simple supports, by two models.

*Tributary*: the run is hinged at every support, so each takes half of the spans beside it and the lever rule's share
of a point load. *Continuous*: a prismatic beam over unyielding supports, by the theorem of three moments (Clapeyron),
solved by elimination for all rows at once. Hangers stand at the supports; both ends of the run are supports.

Units: ft; reactions are per unit of load, so uniform ones come in ft (reaction divided by w) and those of a point
load as its share. Spans are padded with zeros to a common width: ``spans`` (n, S), ``span_count`` (n,) from 1 to S,
``support`` (n,) from 0 to ``span_count``. Spans within the count are above zero; the caller excludes the rest.

Limits: grooved and threaded joints do not carry moment from pipe to pipe and hangers are set by hand to grade, so
neither model is exact; support settlement, overhanging ends and bends are not covered. A continuous reaction may be
negative (the beam lifts off) where a short span ends beside a long one.
"""

import numpy as np

from hangpoint.core.quantity import Floats, Index


def _column(values: Floats, at: Index) -> Floats:
    return values[np.arange(len(at)), at]


def _framed(values: Floats) -> Floats:
    """The columns with one of zeros on either side."""
    framed = np.zeros((values.shape[0], values.shape[1] + 2))
    framed[:, 1:-1] = values
    return framed


def _beside(spans: Floats, support: Index) -> tuple[Floats, Floats]:
    """Lengths of the spans left and right of a support, zero beyond the ends."""
    framed = _framed(spans)
    return _column(framed, support), _column(framed, support + 1)


def _support_moments(spans: Floats, span_count: Index, load: Floats) -> Floats:
    """Moments at supports 0 to S, sagging positive, (n, S + 1).

    Solves M_{j-1} L_j + 2 M_j (L_j + L_{j+1}) + M_{j+1} L_{j+1} = -load_j at the supports between two spans, ``load``
    of shape (n, S - 1). Supports beyond the count and both ends carry none.
    """
    n, width = spans.shape
    moments = np.zeros((n, width + 1))
    if width < 2:
        return moments
    inner = np.arange(1, width, dtype=np.intp)[None, :] < span_count[:, None]
    lower = np.where(inner, spans[:, :-1], 0.0)
    upper = np.where(inner, spans[:, 1:], 0.0)
    diagonal = np.where(inner, 2.0 * (lower + upper), 1.0)
    rhs = np.where(inner, -load, 0.0)
    for j in range(1, width - 1):
        factor = lower[:, j] / diagonal[:, j - 1]
        diagonal[:, j] -= factor * upper[:, j - 1]
        rhs[:, j] -= factor * rhs[:, j - 1]
    for j in range(width - 2, -1, -1):
        moments[:, j + 1] = (rhs[:, j] - upper[:, j] * moments[:, j + 2]) / diagonal[:, j]
    return moments


def _moment_reaction(spans: Floats, support: Index, moments: Floats) -> Floats:
    """What the support moments add to the reaction of hinged spans, at one support a row."""
    left, right = _beside(spans, support)
    framed = _framed(moments)
    before, here, after = (_column(framed, support + shift) for shift in range(3))
    from_left = np.where(left > 0.0, (before - here) / np.where(left > 0.0, left, 1.0), 0.0)
    from_right = np.where(right > 0.0, (after - here) / np.where(right > 0.0, right, 1.0), 0.0)
    return from_left + from_right


def uniform_reaction(*, spans: Floats, span_count: Index, support: Index) -> tuple[Floats, Floats]:
    """Reaction of a support to a uniform load, divided by that load, in ft: (l_tributary, l_continuous), each (n,).

    Source: theorem of three moments; for hinged spans half of each span beside the support.
    """
    left, right = _beside(spans, support)
    l_tributary = (left + right) / 2.0
    load = (spans[:, :-1] ** 3 + spans[:, 1:] ** 3) / 4.0
    moments = _support_moments(spans, span_count, load)
    return l_tributary, l_tributary + _moment_reaction(spans, support, moments)


def point_reaction(*, spans: Floats, span_count: Index, support: Index, position: Floats) -> tuple[Floats, Floats]:
    """Shares of a point load that a support takes, one row a load: (tributary, continuous), each (n,).

    ``position`` (n,) in ft from support 0; the caller excludes positions off the run, which are taken at its ends.
    Source: lever rule between the two supports beside the load; theorem of three moments.
    """
    n, width = spans.shape
    if n == 0:
        return np.zeros(0), np.zeros(0)
    ends = np.cumsum(spans, axis=1)
    within = np.arange(width, dtype=np.intp)[None, :] < span_count[:, None] - 1
    span = np.sum((position[:, None] > ends) & within, axis=1)
    length = _column(spans, span)
    a = np.clip(position - (_column(ends, span) - length), 0.0, length)
    b = length - a
    tributary = np.where(support == span, b / length, np.where(support == span + 1, a / length, 0.0))

    load = np.zeros((n, width + 1))
    rows = np.arange(n, dtype=np.intp)
    load[rows, span] = b * (length**2 - b**2) / length
    load[rows, span + 1] = a * (length**2 - a**2) / length
    moments = _support_moments(spans, span_count, load[:, 1:-1])
    return tributary, tributary + _moment_reaction(spans, support, moments)


def without_support(*, spans: Floats, span_count: Index, support: Index, missing: Index) -> tuple[Floats, Index, Index]:
    """The run without one of its supports: (spans, span_count, support) of the same shapes, renumbered.

    ``missing`` (n,) is a support between two spans, which then become one, or -1 for a row that stays as it is. The
    caller excludes a missing support at an end of the run and one that is ``support`` itself. Positions along the run
    stay what they were.
    """
    merged = missing >= 0
    if not merged.any():
        return spans, span_count, support
    columns = np.arange(spans.shape[1], dtype=np.intp)[None, :]
    shifted = columns + ((columns >= missing[:, None]) & merged[:, None])
    rest = np.take_along_axis(_framed(spans)[:, 1:], shifted, axis=1)
    lost = np.where(merged, _column(spans, np.maximum(missing, 0)), 0.0)
    joined = np.where((columns == missing[:, None] - 1) & merged[:, None], rest + lost[:, None], rest)
    return joined, span_count - merged, support - (merged & (support > missing))
