"""Rows of the tables in ``data``, and the range of nominal sizes that a row is for."""

import csv
from importlib.resources import files

from hangpoint.core.loads.pipe_sizes import nominal


def table_rows(name: str) -> list[dict[str, str]]:
    """Every row of a table by the names of its columns, in the order of the file."""
    text = files("hangpoint.core.hanger").joinpath("data", name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def size_range(row: dict[str, str]) -> tuple[float, float]:
    """First and last size of a row from its columns ``from`` and ``to``, in inches; blank is without an end."""
    return nominal(row["from"]) if row["from"] else 0.0, nominal(row["to"]) if row["to"] else float("inf")
