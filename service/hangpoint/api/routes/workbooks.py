"""A workbook as rows, for whoever has no CSV."""

from collections.abc import Mapping
from typing import Any, cast, get_args

from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.media import CSV, JSON, XLSX, answer_form, body_media_type
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.query import check_query, read_query
from hangpoint.api.responses import file_response, json_response
from hangpoint.api.schemas.workbooks import Hidden, WorkbookRows
from hangpoint.api.workbooks.reading import WorkbookOptions, read_workbook

router = APIRouter(tags=["workbooks"])

PATH = "/v1/workbook-rows"
FORMS = {"json": JSON, "csv": CSV}
"""Forms of the answer by their word in ``?format=``."""
_TEXTS = ("sheet", "header")
QUERY: Mapping[str, tuple[str, dict[str, Any]]] = {
    "format": ("Form of the answer, in place of Accept.", {"type": "string", "enum": list(FORMS)}),
    "sheet": ("Name of the sheet to read; needed where several have values.", {"type": "string"}),
    "header": ("Row of the titles, from 1; what stands above it is left out.", {"type": "integer", "minimum": 1}),
    "hidden": (
        "Whether hidden rows and columns are read; needed where there are any.",
        {"type": "string", "enum": list(get_args(Hidden))},
    ),
    "decimal": (
        "Decimal sign of texts in it. With the comma numbers have it too, and semicolons stand between cells.",
        {"type": "string", "enum": [".", ","]},
    ),
}
"""Text and schema of each name that the query may have."""


@router.post(PATH, operation_id="readWorkbook", summary="Rows of a workbook as CSV")
async def read_workbook_rows(request: Request) -> Response:
    """A sheet of a workbook (XLSX) as the CSV that the other addresses read; nothing is checked.

    A line of the CSV is a row of the sheet, so that an error's `line` is the row to mend. A cell has the text that is
    seen, with all of its figures: what a number format writes beside a number, as a unit, is part of it. Merged cells
    have their value each. Nothing hidden is read or skipped unasked, and a formula whose value the file doesn't hold
    is an error. `notes` say what was done that the sheet doesn't show.
    """
    body_media_type(request.headers.get("content-type", ""), (XLSX,))
    query = read_query(request.query_params.multi_items())
    check_query(query, ("format", "hidden", "decimal"), formats=tuple(FORMS), texts=_TEXTS)
    form = answer_form(query.get("format"), ",".join(request.headers.getlist("accept")), JSON, known=FORMS)
    options = _options(query)
    body = await request.body()
    read = await run_in_threadpool(read_workbook, body, options)
    if form == CSV:
        return file_response(read.csv, f"{CSV}; charset=utf-8", "rows.csv")
    answer: WorkbookRows = {
        "sheet": read.sheet,
        "sheets": list(read.sheets),
        "rows": read.rows,
        "notes": list(read.notes),
        "csv": read.csv,
    }
    return json_response(answer)


def _options(query: Mapping[str, str]) -> WorkbookOptions:
    header = query.get("header", "1")
    if not (header.isascii() and header.isdecimal() and 1 <= len(header) <= 7):
        error = FieldError(pointer="?header", code="int_parsing", detail="The row of the titles, a number from 1.")
        raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])
    return WorkbookOptions(
        sheet=query.get("sheet"),
        header=int(header),
        hidden=cast(Hidden | None, query.get("hidden")),
        comma=query.get("decimal") == ",",
    )


def complete(operation: dict[str, Any], *, ref: str) -> None:
    """Put query, body and answer into the operation of the document; ``ref`` is a template of references."""
    operation["parameters"] = [
        {"name": name, "in": "query", "required": False, "description": text, "schema": schema}
        for name, (text, schema) in QUERY.items()
    ]
    body = {"type": "string", "format": "binary", "description": "A workbook."}
    operation["requestBody"] = {"required": True, "content": {XLSX: {"schema": body}}}
    operation["responses"]["200"] = {
        "description": "The rows.",
        "content": {
            JSON: {"schema": {"$ref": ref.format(model=WorkbookRows.__name__)}},
            CSV: {"schema": {"type": "string"}},
        },
    }
