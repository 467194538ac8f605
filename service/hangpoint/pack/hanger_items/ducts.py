"""Lines of sheet metal duct: dimensions by shape, sheet by gauge or thickness, liner and wrap."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from hangpoint.core.hanger.items import DuctLines
from hangpoint.core.loads.duct import FLAT_OVAL, ROUND, SHAPES
from hangpoint.core.loads.pipe_sizes import MATERIALS
from hangpoint.core.loads.sheet import TABLES, gauges, sheet_weight, thickness_weight
from hangpoint.core.quantity import Bools, Codes, Floats, Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.pull import Rows, found_rows
from hangpoint.units import DENSITY, LAYER, LENGTH

REINFORCEMENT = 0.25
"""Share of the sheet's weight for seams, joints and stiffeners where none is stated."""

_SHAPE_CODES = {name: code for code, name in enumerate(SHAPES)}


def pack_ducts(rows: Rows, item: Index, notes: Notes) -> DuctLines:
    """Read lines of kind duct, of the items ``item``.

    Flaws: a dimension that the shape lacks or doesn't have, a flat oval higher than wide, a liner that fills the duct;
    gauge and thickness or neither, a gauge without its table or one that the table doesn't list, a table without a
    gauge; a quantity out of range.
    """
    shape = rows.codes("shape", _SHAPE_CODES)
    a, b = _dimensions(rows, shape)
    liner, wrap = rows.child("liner"), rows.child("wrap")
    t_liner, t_wrap = (layer.quantity("thickness", LAYER, fill=0.0) for layer in (liner, wrap))
    flaw_where(
        liner,
        2 * t_liner >= np.minimum(a, b),
        "thickness",
        "The liner is not less than half of the duct.",
        slug="impossible-geometry",
    )
    unsaid = liner.silent("thickness") | wrap.silent("thickness")
    notes.assume(LoadAssumption.NO_INSULATION, (t_liner == 0) & (t_wrap == 0) & unsaid, item)
    notes.assume(LoadAssumption.BARE_SHEET, stated(rows, "thickness"), item)
    notes.assume(LoadAssumption.REINFORCEMENT, rows.silent("reinforcement"), item)
    return DuctLines(
        line=np.array(rows.local, dtype=np.intp),
        shape=shape,
        a=a,
        b=b,
        q_sheet=_sheet(rows),
        reinforcement=rows.numbers("reinforcement", REINFORCEMENT),
        t_liner=t_liner,
        rho_liner=liner.quantity("density", DENSITY, fill=0.0),
        t_wrap=t_wrap,
        rho_wrap=wrap.quantity("density", DENSITY, fill=0.0),
    )


def _dimensions(rows: Rows, shape: Codes) -> tuple[Floats, Floats]:
    """Width and height, in; the diameter twice of a round duct."""
    is_round = shape == ROUND
    columns: dict[str, Floats] = {}
    for name, needed in (("width", ~is_round), ("height", ~is_round), ("diameter", is_round)):
        column = rows.quantity(name, LENGTH)
        places: list[int] = np.flatnonzero(needed == np.isnan(column)).tolist()
        for at in places:
            of_shape = SHAPES[int(shape[at])].replace("_", " ")
            if needed[at]:
                rows.flaw(at, name, f"A {of_shape} duct needs its {name}.", code="missing")
            else:
                rows.flaw(at, name, f"A {of_shape} duct has no {name}.", code="contradiction")
        columns[name] = np.where(np.isnan(column), np.inf, column)
    width, height = columns["width"], columns["height"]
    flaw_where(
        rows,
        (shape == FLAT_OVAL) & (width < height) & np.isfinite(height),
        "height",
        "The width of a flat oval duct is the larger one.",
        slug="impossible-geometry",
    )
    a, b = (np.where(is_round, columns["diameter"], one) for one in (width, height))
    return np.where(np.isfinite(a), a, 1.0), np.where(np.isfinite(b), b, 1.0)


def _sheet(rows: Rows) -> Floats:
    """Weight of the sheet, lb/ft2."""
    thickness = rows.quantity("thickness", LENGTH)
    by_thickness, by_gauge = ~np.isnan(thickness), stated(rows, "gauge")
    if not by_gauge.all() or by_thickness.any():
        _either(rows, by_thickness, by_gauge)
    keys = list(zip(rows.values("gauge_table"), rows.values("gauge"), strict=True))
    place, weights = found_rows(keys, _weight)
    unknown = (place == len(weights)) & by_gauge
    for at in np.flatnonzero(unknown).tolist():
        _explain_gauge(rows, at, *keys[at])
    by_table = np.array([*weights, 1.0])[place]
    steel = np.full(len(rows), MATERIALS["steel"])
    by_own = thickness_weight(t_sheet=np.nan_to_num(thickness, nan=1.0), rho_sheet=steel, q_coating=np.zeros(len(rows)))
    return np.where(by_thickness, by_own, by_table)


def _either(rows: Rows, by_thickness: Bools, by_gauge: Bools) -> None:
    flaw_where(
        rows,
        by_thickness & by_gauge,
        "thickness",
        "Give the gauge of the sheet with its table, or its thickness, not both.",
        code="contradiction",
    )
    flaw_where(
        rows,
        ~by_thickness & ~by_gauge,
        "gauge",
        "Give the gauge of the sheet with its table, or its thickness.",
        code="missing",
    )
    flaw_where(
        rows,
        stated(rows, "gauge_table") & ~by_gauge,
        "gauge_table",
        "A gauge table goes with a gauge.",
        code="contradiction",
    )


def _weight(key: tuple[str | None, int | None]) -> float | None:
    table, gauge = key
    return None if table is None or gauge is None else sheet_weight(table, gauge)


def _explain_gauge(rows: Rows, at: int, table: str | None, gauge: Any) -> None:
    if table is None:
        detail = "A gauge alone names more than one sheet: name its table."
        rows.flaw(at, "gauge_table", detail, code="missing", allowed=TABLES)
        return
    listed: Sequence[str] = [str(each) for each in gauges(table)]
    rows.flaw(at, "gauge", f"The table has no gauge {gauge}.", slug="unknown-option", allowed=listed)
