"""The nomenclature: every number of every record of the core, with its symbol, unit and clause, as Markdown."""

import importlib
import pkgutil

import hangpoint.core
from hangpoint.core.quantity import Record, StrengthRecord, columns

HEADING = ("name", "symbol", "unit", "clause", "stands in")


def record_classes() -> list[type[Record]]:
    """Every record that any module of the core defines, by name."""
    for found in pkgutil.walk_packages(hangpoint.core.__path__, "hangpoint.core."):
        importlib.import_module(found.name)
    waiting: list[type[Record]] = [Record]
    classes: list[type[Record]] = []
    while waiting:
        for child in waiting.pop().__subclasses__():
            waiting.append(child)
            if child is not StrengthRecord and child.__module__.startswith("hangpoint.core."):
                classes.append(child)
    return sorted(classes, key=lambda each: each.__name__)


def nomenclature() -> str:
    """The table, one row for each name with one symbol and unit, sorted by name; it ends without a line end."""
    rows: dict[tuple[str, str, str], tuple[dict[str, None], dict[str, None]]] = {}
    for kind in record_classes():
        for name, q in columns(kind).items():
            clauses, records = rows.setdefault((name, q.symbol, q.unit), ({}, {}))
            if q.clause:
                clauses[q.clause] = None
            records[kind.__name__] = None
    lines = [f"| {' | '.join(HEADING)} |", f"|{' --- |' * len(HEADING)}"]
    for (name, symbol, unit), (clauses, records) in sorted(rows.items()):
        cells = (f"`{name}`", symbol, unit.replace("**", "") or "-", ", ".join(clauses) or "-", ", ".join(records))
        lines.append(f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |")
    return "\n".join(lines)
