"""Weight of sheet metal by a named gauge table, or by its thickness.

Gauge numbers are those of the Manufacturers' Standard Gauge, even numbers 10 to 30, as Fan Engineering (Howden Buffalo,
1999), appendix E, table E.1, prints their weights; 30 gauge is 0.500 lb/ft2 and the same zinc, which the metric list of
ASTM A525 weights confirms. Units: in, lb/ft2. Nothing is interpolated: a gauge that isn't listed has
no weight.

A gauge alone is ambiguous, therefore a table is named:

* "uncoated" and "galvanised" of the same gauge differ by 2.5 oz/ft2 (0.15625 lb/ft2) of zinc. Sheet with the G60 or G90
  coating carries 0.6 or 0.9 oz/ft2 (from memory), so the galvanised column is on the heavy side today;
* "28 gauge" is 0.0149 in uncoated and 0.0187 in galvanised, and popular lists mix the two;
* the table's weights are 41.82 lb/ft2 for an inch of decimal thickness, 2.5 % more than steel of 489.6 lb/ft3 weighs
  (40.80), since sheet was rolled thicker in the middle. A stated thickness is weighed as steel of 490 lb/ft3, 40.83.

So a galvanised sheet by its stated thickness comes out some 2 % lighter than by its gauge; the caller says which it is.
"""

import csv
from functools import cache
from importlib.resources import files

from hangpoint.core.quantity import Floats

TABLES = ("uncoated", "galvanised")
"""Names of the gauge tables."""


@cache
def _table(name: str) -> dict[int, float]:
    if name not in TABLES:
        return {}
    text = files("hangpoint.core.loads").joinpath("data", "sheet.csv").read_text(encoding="utf-8")
    return {int(line["gauge"]): float(line[name]) for line in csv.DictReader(text.splitlines())}


def gauges(table: str) -> tuple[int, ...]:
    """Gauges that a table lists, thickest first; empty for an unknown table."""
    return tuple(_table(table))


def sheet_weight(table: str, gauge: int) -> float | None:
    """Weight of a sheet in lb/ft2 by gauge, or None where the named table doesn't list it."""
    return _table(table).get(gauge)


def thickness_weight(*, t_sheet: Floats, rho_sheet: Floats, q_coating: Floats) -> Floats:
    """Weight of sheets in lbf/ft2 by thickness, arrays of shape (n,).

    ``t_sheet`` is the thickness without coating in inches, ``rho_sheet`` in lbf/ft3 (490 for steel), ``q_coating`` the
    coating of both faces together in lbf/ft2, zero where none is stated.
    """
    return t_sheet * rho_sheet / 12.0 + q_coating
