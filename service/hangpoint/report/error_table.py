"""Every error of an answer's invalid hang points as CSV, a row an error: where it stands, and what to write."""

from collections.abc import Iterator, Mapping
from typing import Any

from hangpoint.core.vocabulary import Status
from hangpoint.report.schedule import Table, table_csv

Result = Mapping[str, Any]

ERROR_COLUMNS = ("line", "column", "id", "cell", "what", "possible", "pointer")
"""Line and title as they stand in the file, id of the hang point, the cell, what is wrong with it, what may stand
there, and the place in the request."""


def errors_csv(answer: Result) -> str | None:
    """The table; None where nothing is wrong."""
    rows = [row for item in answer["items"] if item["status"] == Status.INVALID for row in _rows(item)]
    return table_csv(Table(titles=ERROR_COLUMNS, names=ERROR_COLUMNS, rows=rows)) if rows else None


def _rows(item: Result) -> Iterator[list[Any]]:
    for error in item["problem"]["errors"]:
        possible = ", ".join(map(str, error.get("allowed", ()))) or None
        cells = (error.get("line"), error.get("column"), item["id"], error.get("cell"))
        yield [*cells, error["detail"], possible, error["pointer"]]
