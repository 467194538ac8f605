"""Lines of cable tray: its own weight, its load class or a list of cables, a concentrated load."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import TrayLines
from hangpoint.core.loads.cable_tray import TRAY_CLASSES
from hangpoint.core.quantity import Floats, Index
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.pull import Rows, owners
from hangpoint.pack.spans import LEAST_SPAN, TOO_SHORT
from hangpoint.units import DISTANCE, FORCE, LINE_WEIGHT

_NEUTRAL_SPAN = 1.0


def pack_trays(rows: Rows, item: Index, notes: Notes) -> TrayLines:
    """Read lines of kind tray, of the items ``item``.

    Flaws: a load class and cables, or neither; no weight of its own; a static load that is negative or
    has no span; a quantity out of range.
    """
    by_class, by_list = stated(rows, "load_class"), stated(rows, "cables")
    flaw_where(rows, by_class & by_list, "cables", "Give load_class or cables, not both.", code="contradiction")
    flaw_where(
        rows,
        ~by_class & ~by_list,
        "load_class",
        "Give the load class of the tray, or the list of its cables.",
        code="missing",
        allowed=tuple(TRAY_CLASSES),
    )
    w_tray = rows.quantity("self_weight", LINE_WEIGHT, fill=1.0)
    detail = "The tray's own weight is more than 0: no load class and no list of cables has it."
    flaw_where(rows, w_tray <= 0, "self_weight", detail, slug="quantity")
    notes.masses(rows.values("self_weight"), LINE_WEIGHT, rows, item)
    p_static, l_span = _static(rows)
    return TrayLines(
        line=np.array(rows.local, dtype=np.intp),
        w_tray=w_tray,
        w_class=np.array(
            [0.0 if name is None else TRAY_CLASSES[name].load for name in rows.values("load_class")], dtype=np.float64
        ),
        w_cables=_cables(rows, item, notes),
        p_static=p_static,
        l_span=l_span,
    )


def _cables(rows: Rows, item: Index, notes: Notes) -> Floats:
    """Sum of the cables of each tray, lb/ft."""
    lists: Sequence[Sequence[Any]] = [several or () for several in rows.values("cables")]
    owner = owners(lists)
    notes.masses([cable for several in lists for cable in several], LINE_WEIGHT, rows, item[owner])
    weights = rows.listed("cables", lists, LINE_WEIGHT)
    return np.bincount(owner, weights=weights, minlength=len(rows)).astype(np.float64)


def _static(rows: Rows) -> tuple[Floats, Floats]:
    """Concentrated load, lbf, and the span it stands on, ft; 0 and 1 where there is none."""
    p_static, l_span = rows.quantity("static_load", FORCE), rows.quantity("span", DISTANCE)
    loaded, spanned = ~np.isnan(p_static), ~np.isnan(l_span)
    flaw_where(rows, p_static < 0, "static_load", "The static load is at least 0.", slug="quantity")
    flaw_where(rows, loaded & ~spanned, "span", "A static load needs the span of the tray.", code="missing")
    flaw_where(rows, l_span < LEAST_SPAN, "span", TOO_SHORT, slug="quantity")
    return np.nan_to_num(p_static), np.where(loaded & (l_span >= LEAST_SPAN), l_span, _NEUTRAL_SPAN)
