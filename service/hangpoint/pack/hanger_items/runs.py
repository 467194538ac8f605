"""Runs between hangers: those of run items, and what runs over a trapeze."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import ANY_HANGER, NO_HANGER, TRAPEZE, PointLoads, Runs
from hangpoint.core.hanger.run_reaction import MODELS
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption, LoadNotChecked
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.hanger_items.point_loads import point_loads
from hangpoint.pack.pull import Rows
from hangpoint.pack.spans import LEAST_SPAN, TOO_SHORT, span_table
from hangpoint.units import DISTANCE

_MODEL_CODES = {name: code for code, name in enumerate(MODELS)}
_LARGER, _TRIBUTARY = _MODEL_CODES["larger"], _MODEL_CODES["tributary"]
_MIDDLE = 1
"""The hanger between two equal spans."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedRuns:
    """Runs with the loads on them, and the spacing rules that each names, None where it names none."""

    runs: Runs
    loads: PointLoads
    rules: Sequence[Sequence[str] | None]


def pack_runs(items: Rows, kind: Codes, notes: Notes) -> PackedRuns:
    """Read ``run`` of items of kind run and trapeze; ``kind`` (rows,) says which.

    Flaws: of a trapeze a spacing beside spans or a support, or neither, another model than the tributary one for it,
    spans without the support, a support that there isn't; of a run a missing hanger at an end or beyond; a span below
    `LEAST_SPAN`, a load beyond an end, a quantity out of range.
    """
    run = items.child("run")
    item = np.asarray(items.local, dtype=np.intp)
    on_trapeze = kind == TRAPEZE
    spacing = _spacing(run, on_trapeze, item, notes)
    lists: Sequence[Sequence[Any]] = [value or () for value in run.values("spans")]
    spans, span_count = span_table(run, "spans", lists)
    one = ~np.isnan(spacing) & (span_count == 0)
    if one.any():
        spans = np.pad(spans, ((0, 0), (0, max(2 - spans.shape[1], 0))))
        spans[one, :2] = np.maximum(spacing, LEAST_SPAN)[one, None]
        span_count = np.where(one, 2, span_count)
    start, end = (run.quantity(name, DISTANCE, fill=0.0) for name in ("start_overhang", "end_overhang"))
    missing = _missing(run, span_count)
    notes.leave_unchecked(LoadNotChecked.LOSS_OF_HANGER, missing == NO_HANGER, item)
    notes.assume(LoadAssumption.STRAIGHT_RUN, np.ones(len(item), dtype=np.bool_), item)
    notes.assume(LoadAssumption.LARGER_MODEL, run.silent("model") & ~one, item)
    loads = point_loads(
        run,
        "point_loads",
        item,
        notes,
        low=-start,
        high=spans.sum(axis=1) + end,
        what="The load on the run",
    )
    return PackedRuns(
        runs=Runs(
            item=item,
            spans=spans,
            span_count=span_count,
            start=start,
            end=end,
            support=np.where(one, _MIDDLE, _support(run, on_trapeze & ~one, span_count)),
            missing=missing,
            model=np.where(one, _TRIBUTARY, run.codes("model", _MODEL_CODES, absent=_LARGER)).astype(np.int8),
        ),
        loads=loads,
        rules=run.values("spacing_rules"),
    )


def _spacing(run: Rows, on_trapeze: Bools, item: Index, notes: Notes) -> Floats:
    """The one spacing of a trapeze, ft, nan where none is stated."""
    spacing = run.quantity("spacing", DISTANCE)
    one = ~np.isnan(spacing)
    by_spans = stated(run, "spans") | stated(run, "support")
    detail = "Give one spacing, or spans with the support that this trapeze is, not both."
    flaw_where(run, one & by_spans, "spacing", detail, code="contradiction")
    detail = "Give the spacing of trapezes, or spans with the support that this one is."
    flaw_where(run, on_trapeze & ~one & ~by_spans, "spacing", detail, code="missing")
    detail = "Spans are required with the index of the support."
    flaw_where(run, on_trapeze & ~one & by_spans & run.silent("spans"), "spans", detail, code="missing")
    flaw_where(run, spacing < LEAST_SPAN, "spacing", TOO_SHORT, slug="quantity")
    other = [name not in (None, "tributary") for name in run.values("model")]
    detail = "One spacing is taken by the tributary model; for another give spans and support."
    flaw_where(
        run, one & np.array(other, dtype=np.bool_), "model", detail, code="contradiction", allowed=("tributary",)
    )
    notes.assume(LoadAssumption.ONE_SPACING, one, item)
    return spacing


def _support(run: Rows, needed: Bools, span_count: Index) -> Index:
    """The hanger that each trapeze is; 0 where it isn't ``needed``."""
    support = run.numbers("support", np.nan)
    needed = needed & (span_count > 0)
    detail = "The index of the support that this trapeze is, from 0."
    flaw_where(run, needed & np.isnan(support), "support", detail, code="missing")
    for at in np.flatnonzero(needed & (support > span_count)).tolist():
        run.flaw(at, "support", f"The run has supports 0 to {span_count[at]}.", code="out-of-range")
    return np.where(needed, np.minimum(np.nan_to_num(support), span_count), 0).astype(np.intp)


def _missing(run: Rows, span_count: Index) -> Index:
    """The hanger that is lost, `NO_HANGER` or `ANY_HANGER`."""
    missing = np.full(len(run), NO_HANGER, dtype=np.intp)
    if not run.gives("missing_hanger"):
        return missing
    for at, value in enumerate(run.values("missing_hanger")):
        if value is None:
            continue
        last = int(span_count[at]) - 1
        if last < 1:
            detail = "No hanger stands between two others in a run of one span: none can be missing."
            run.flaw(at, "missing_hanger", detail, code="contradiction")
        elif value != "any" and not 1 <= value <= last:
            between = "hanger 1 stands" if last == 1 else f"hangers 1 to {last} stand"
            detail = f"The missing hanger is one between two others: {between} there."
            run.flaw(at, "missing_hanger", detail, code="contradiction", allowed=(*map(str, range(1, last + 1)), "any"))
        else:
            missing[at] = ANY_HANGER if value == "any" else value
    return missing
