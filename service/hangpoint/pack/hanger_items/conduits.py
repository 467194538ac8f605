"""Lines of electrical conduit: its weight from the table, its cables as stated or by fill."""

import numpy as np

from hangpoint.core.hanger.items import ConduitLines
from hangpoint.core.loads.conduit import RHO_FILL, ConduitSize, conduit_size, conduit_sizes
from hangpoint.core.quantity import Index
from hangpoint.core.vocabulary import LoadAssumption
from hangpoint.pack.hanger_items.notes import Notes, flaw_where, stated
from hangpoint.pack.pull import Rows, found_rows
from hangpoint.units import LINE_WEIGHT

_NEUTRAL = ConduitSize(1.0, 0.9, 1.0, "")


def pack_conduits(rows: Rows, item: Index, notes: Notes) -> ConduitLines:
    """Read lines of kind conduit, of the items ``item``.

    Flaws: a size that the type lacks; cables and a fill, or neither; a quantity out of range.
    """
    keys = list(zip(rows.values("type"), rows.values("size"), strict=True))
    place, found = found_rows(keys, lambda key: conduit_size(*key))
    for at in np.flatnonzero(place == len(found)).tolist():
        kind = keys[at][0]
        rows.flaw(
            at,
            "size",
            f"There is no {kind} of this size in the tables.",
            slug="unknown-option",
            allowed=conduit_sizes(kind),
        )
    sizes = [*found, _NEUTRAL]
    by_weight, by_fill = stated(rows, "cables"), stated(rows, "fill")
    flaw_where(rows, by_weight & by_fill, "fill", "Give cables or fill, not both.", code="contradiction")
    flaw_where(
        rows,
        ~by_weight & ~by_fill,
        "cables",
        "Give the weight of the cables, or the fill of the bore; an empty conduit has a fill of 0.",
        code="missing",
    )
    fill = rows.numbers("fill", 0.0)
    notes.assume(LoadAssumption.CABLES_BY_FILL, fill > 0, item)
    notes.masses(rows.values("cables"), LINE_WEIGHT, rows, item)
    return ConduitLines(
        line=np.array(rows.local, dtype=np.intp),
        w_conduit=np.array([size.weight for size in sizes])[place],
        d_i=np.array([size.inside_diameter for size in sizes])[place],
        fill=fill,
        rho_fill=np.full(len(rows), RHO_FILL),
        w_cables=rows.quantity("cables", LINE_WEIGHT, fill=0.0),
    )
