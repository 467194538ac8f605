"""Weight per foot of every line, by nature, with the record that it comes from. Units: lbf/ft."""

from dataclasses import fields
from typing import Any

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.hanger.items import Items
from hangpoint.core.loads.cable_tray import tray_weight
from hangpoint.core.loads.conduit import conduit_weight
from hangpoint.core.loads.duct import duct_weight
from hangpoint.core.loads.line import line_weight
from hangpoint.core.loads.pipe import pipe_weight
from hangpoint.core.quantity import Bools, Floats, Index, Record


@frozen
class LineWeights:
    """Weights of one line each, (lines,), not times its number, and the records, each with the line of every row.

    ``test`` is what stands in the line during a test: the test fluid, in a line that isn't tested its contents.
    ``live`` is the static load of a tray per foot of the span that it is stated for, ``p_static`` that load in lbf and
    ``l_span`` that span in ft, 1 where there is none.
    """

    dead: Floats
    fluid: Floats
    live: Floats
    p_static: Floats
    l_span: Floats
    test: Floats
    tested: Bools
    records: list[tuple[Record, Index]]


def line_weights(items: Items) -> LineWeights:
    """Weights of all lines, kind by kind."""
    count = len(items.lines.item)
    dead, fluid, live, test, p_static = (np.zeros(count) for _ in range(5))
    l_span = np.ones(count)
    records: list[tuple[Record, Index]] = []
    if len(items.pipes.line):
        at, pipe = items.pipes.line, pipe_weight(**_arguments(items.pipes, "nominal"))
        dead[at], fluid[at], test[at] = pipe.w_dead, pipe.w_fluid, pipe.w_test
        records.append((pipe, at))
    if len(items.ducts.line):
        at, duct = items.ducts.line, duct_weight(**_arguments(items.ducts))
        dead[at] = duct.w_dead
        records.append((duct, at))
    if len(items.conduits.line):
        at, conduit = items.conduits.line, conduit_weight(**_arguments(items.conduits))
        dead[at] = conduit.w_dead
        records.append((conduit, at))
    if len(items.trays.line):
        at, tray = items.trays.line, tray_weight(**_arguments(items.trays))
        dead[at], live[at] = tray.w_dead, tray.w_static
        p_static[at], l_span[at] = tray.p_static, tray.l_span
        records.append((tray, at))
    if len(items.stated.line):
        at, stated = items.stated.line, line_weight(**_arguments(items.stated))
        dead[at], fluid[at] = stated.w_dead, stated.w_fluid
        records.append((stated, at))
    tested = test > 0
    return LineWeights(
        dead=dead,
        fluid=fluid,
        live=live,
        p_static=p_static,
        l_span=l_span,
        test=np.where(tested, test, fluid),
        tested=tested,
        records=records,
    )


def _arguments(table: Any, *without: str) -> dict[str, Any]:
    """The columns of a table of lines that its weight function takes."""
    return {each.name: getattr(table, each.name) for each in fields(table) if each.name not in ("line", *without)}
