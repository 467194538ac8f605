"""Checks of one hang point, of one group of anchors, or of a batch of points in every form of it and of its answer."""

from collections.abc import Callable
from dataclasses import dataclass

from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.body_limit import deadline, too_large
from hangpoint.api.calculations import calculation_sheets
from hangpoint.api.collector import CollectorPause
from hangpoint.api.csv_body import CsvOptions
from hangpoint.api.media import CSV, HTML, JSON, NDJSON, PDF, SHEETS, XLSX, answer_form, body_media_type, with_charset
from hangpoint.api.pdf_files import pdf_in_turn
from hangpoint.api.problems import FieldError, ProblemError, too_many
from hangpoint.api.query import check_query, read_query
from hangpoint.api.request_log import note_items
from hangpoint.api.responses import file_response, json_response, lines_response
from hangpoint.api.run import Run, RunOptions, beside, run_batch, run_group, run_single
from hangpoint.api.state import State, state
from hangpoint.api.stream import answer_lines
from hangpoint.report.schedule import Beside, schedule_csv, schedule_table
from hangpoint.report.workbook import MAX_CELLS, schedule_workbook

router = APIRouter(tags=["hang points"])

SINGLE_PATH = "/v1/hang-point"
GROUP_PATH = "/v1/anchor-group"
BATCH_PATH = "/v1/hang-points"
SMALL_BYTES = 4096
FORMS_OF_ONE = {"json": JSON, "html": HTML, "pdf": PDF}
"""Forms of the answer to one check by their word in ``?format=``."""
_OF_BODY = ("units", "design_code", "combinations", "load_standard")
"""Members of a body of JSON that with rows or lines stand in the query."""


@router.post(SINGLE_PATH, operation_id="checkHangPoint", summary="Check one hang point")
async def check_hang_point(request: Request) -> Response:
    """Whether the anchor at one hang point holds, link by link, with the trace of the calculation.

    The answer is a batch of one. An anchor that doesn't hold is an answer (status `failed`), not an error; so is a
    point outside what the code or the product data cover (`refused`). Sending the same request twice is safe.
    """
    return await _one(request, run_single)


@router.post(GROUP_PATH, operation_id="checkAnchorGroup", summary="Check one group of anchors")
async def check_anchor_group(request: Request) -> Response:
    """Whether a group of anchors holds its loads, for those who have no hang point: a base plate, a bracket, a frame.

    The loads are those of a hang point of kind `forces`: tension, shear and moments by nature, or factored, in one or
    several named load cases. The answer is that to one hang point, with the trace of the calculation; where something
    is wrong with the body, its pointers are those of `group`.
    """
    return await _one(request, run_group)


async def _one(request: Request, run: Callable[[bytes, RunOptions], Run]) -> Response:
    body_media_type(request.headers.get("content-type", ""), (JSON,))
    query, own = read_query(request.query_params.multi_items()), state(request)
    check_query(query, ("format",), formats=tuple(FORMS_OF_ONE), members=("detail", *_OF_BODY))
    form = answer_form(query.get("format"), ",".join(request.headers.getlist("accept")), JSON, known=FORMS_OF_ONE)
    body = await request.body()
    sheets = form in SHEETS
    options = RunOptions(catalogue=own.catalogue, limits=own.limits, detail="trace", wire=not sheets, traced=sheets)
    if sheets:
        response = await _shown(await run_in_threadpool(lambda: _sheets(run(body, options), own)), form)
    elif is_small(body):
        response = json_response(run(body, options).answer)
    else:
        response = await run_in_threadpool(lambda: json_response(run(body, options).answer))
    note_items(request.scope, 1)
    return response


def is_small(body: bytes) -> bool:
    """Whether a check is sure to take a few milliseconds, so that it may hold up the event loop.

    It has one anchor, whose layout no escape hides, and too few bytes for many load cases.
    """
    return len(body) <= SMALL_BYTES and b'"layout"' not in body and b"\\u" not in body


@dataclass(frozen=True, slots=True)
class _Sheets:
    """A page with a number of sheets."""

    page: str
    count: int


def _sheets(run: Run, own: State) -> _Sheets:
    return _Sheets(
        page=calculation_sheets(run, own.catalogue),
        count=len(run.answer["items"] if run.batch.traced is None else run.batch.traced),
    )


async def _shown(sheets: _Sheets, form: str) -> Response:
    if form == PDF:
        made = await pdf_in_turn(sheets.page, sheets=sheets.count)
        return file_response(made, PDF, "calculation.pdf", shown=True)
    return file_response(sheets.page, f"{HTML}; charset=utf-8", "calculation.html", shown=True)


@router.post(BATCH_PATH, operation_id="checkHangPoints", summary="Check many hang points")
async def check_hang_points(request: Request) -> Response:
    """Hundreds of hang points in one request: a result or a problem for each, in order, and a summary.

    One bad item never costs the others. The body is JSON, lines of JSON (`application/x-ndjson`) or CSV with dotted
    columns, as it is or compressed by gzip or zstd. The answer is JSON, lines of JSON, CSV, a workbook, or
    calculation sheets as HTML or PDF, by `Accept` or `?format=`; otherwise it is what the body is. Sending the same
    request twice is safe.

    **Neighbours.** Points that state their coordinates and a member or a level are compared with each other: those
    whose anchors share concrete are checked together, and each result names its `neighbours`. `neighbours` of the body
    or the query turns this `off`. For lines it is off unless asked for; then the stream is read whole, within the
    limits of a batch, before it is answered.

    **Lines.** The first line is a header without an id: `units`, and if wanted `design_code`, `combinations`,
    `load_standard`, `detail`, `neighbours`, `defaults`; each other line is one item. Blank lines are skipped.
    Answered by lines, a stream may be long: blocks of 1,000 are read, checked and sent in turn. The first line of the
    answer is a `StreamStart`, then comes a result a line, the last line is a `StreamEnd` with the summary, or a
    `StreamBreak` with the problem that ended it. **An answer without its `StreamEnd` is incomplete**, and nothing of
    it may be used. A bad line, or one that repeats an id, is an `invalid` result; what is wrong with the header, or
    found before the first block is sent, is a problem response. Results that no longer stand, because a later line
    states their member differently, are replaced by those under `withdrawn` in the `StreamEnd`.
    """
    stated = request.headers.get("content-type", "")
    media = body_media_type(stated, (JSON, NDJSON, CSV))
    query = read_query(request.query_params.multi_items())
    if media == CSV:
        query = with_charset(query, stated)
    form = answer_form(query.get("format"), ",".join(request.headers.getlist("accept")), media)
    only = _chosen(query.pop("only", None), form)
    _check_query(query, media, form)
    options = CsvOptions() if media == JSON else CsvOptions.from_query(query)
    own = state(request)
    if media == NDJSON and form == NDJSON:
        return await answer_lines(request, options, own)
    body = await (_whole(request, own) if media == NDJSON else request.body())
    made = await run_in_threadpool(_batch, request, body, media, form, query, only)
    return await _shown(made, form) if isinstance(made, _Sheets) else made


async def _whole(request: Request, own: State) -> bytes:
    """The body of a stream that is answered as a whole, under the limit of a batch."""
    limit = own.settings.max_batch_bytes
    parts: list[bytes] = []
    size = 0
    async with deadline(own.settings.body_seconds):
        async for part in request.stream():
            size += len(part)
            if size > limit:
                raise too_large(size, limit, "The body of an answer that is no stream of lines")
            parts.append(part)
    return b"".join(parts)


def _chosen(text: str | None, form: str) -> frozenset[str] | None:
    """Ids of the items whose sheets are wanted, None for all."""
    if text is None:
        return None
    ids = frozenset(each.strip() for each in text.split(",") if each.strip())
    if form not in SHEETS or not ids:
        detail = "Name ids with commas between them." if form in SHEETS else "Of sheets only: format=html or pdf."
        error = FieldError(pointer="?only", code="contradiction", detail=detail)
        raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])
    return ids


def _batch(
    request: Request, body: bytes, media: str, form: str, query: dict[str, str], only: frozenset[str] | None
) -> Response | _Sheets:
    own = state(request)
    options = RunOptions(
        catalogue=own.catalogue,
        limits=own.limits,
        detail=query.get("detail") or ("verdict" if form in (CSV, XLSX) else "modes"),
        wire=form == JSON,
        traced=form in SHEETS,
        only=only,
        max_line=own.settings.max_line_bytes,
    )
    pause = CollectorPause()
    try:
        run = run_batch(body, media, options, csv=None if media == JSON else CsvOptions.from_query(query))
        note_items(request.scope, len(run.answer["items"]))
        return _formed(run, form, own, pause, echo=query.get("echo") == "true")
    except BaseException:
        pause.end()  # a traceback may hold it
        raise


def _formed(run: Run, form: str, own: State, pause: CollectorPause, *, echo: bool) -> Response | _Sheets:
    """A run in the form of its answer; the collector rests until JSON or lines were sent."""
    if form == JSON:
        return json_response(run.answer, held=(run, pause))
    if form == NDJSON:
        return lines_response(run.answer, held=(run, pause))
    if form in SHEETS:
        return _sheets(run, own)
    more = beside(run, echo=echo)
    if form == CSV:
        return file_response(schedule_csv(run.answer, more), f"{CSV}; charset=utf-8", "schedule.csv")
    return file_response(_workbook(run, more), XLSX, "schedule.xlsx")


def _workbook(run: Run, more: Beside) -> bytes:
    table = schedule_table(run.answer, more)
    if table.filled > MAX_CELLS:
        raise too_many("cells of a workbook", table.filled, MAX_CELLS)
    return schedule_workbook(run.answer, table)


def _check_query(query: dict[str, str], media: str, form: str) -> None:
    """Refuse a query that would not be honoured; what a CSV adds to it is checked with its options."""
    of_all = ("format", "detail", "echo")
    if media == JSON:
        check_query(query, of_all, members=(*_OF_BODY, "neighbours"), of_csv=True)
    if media == NDJSON:
        check_query(query, (*of_all, *_OF_BODY, "neighbours"), of_csv=True)
    if form in (JSON, NDJSON, *SHEETS) and query.get("echo") == "true":
        detail = "Inputs are repeated in a CSV or a workbook only."
        error = FieldError(pointer="?echo", code="contradiction", detail=detail)
        raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])
