"""Checks of hang points: one, or a batch of them in JSON or CSV."""

from typing import Any

import orjson
from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.batch import answer_batch
from hangpoint.api.bodies import Batch, read_single
from hangpoint.api.csv_body import CsvOptions, check_query
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.responses import json_response
from hangpoint.api.run import CSV, JSON, collector_paused, run_batch
from hangpoint.api.state import State, state
from hangpoint.report.schedule import schedule_csv

router = APIRouter(tags=["hang points"])

SINGLE_PATH = "/v1/hang-point"
BATCH_PATH = "/v1/hang-points"


@router.post(SINGLE_PATH, operation_id="checkHangPoint", summary="Check one hang point")
async def check_hang_point(request: Request) -> Response:
    """Whether the anchor at one hang point holds, link by link, with the trace of the calculation.

    The answer is a batch of one. An anchor that doesn't hold is an answer (status `failed`), not an error; so is a
    point outside what the code or the product data cover (`refused`). Sending the same request twice is safe.
    """
    _media_type(request, (JSON,))
    check_query(request.query_params, ())
    body = await request.body()
    own = state(request)
    return json_response(_single(body, own))


@router.post(BATCH_PATH, operation_id="checkHangPoints", summary="Check many hang points")
async def check_hang_points(request: Request) -> Response:
    """Hundreds of hang points in one request: a result or a problem for each, in order, and a summary.

    One bad item never costs the others. JSON, or CSV with dotted columns; the answer is JSON, or CSV by `Accept:
    text/csv` or `?format=csv`. Sending the same request twice is safe.
    """
    media = _media_type(request, (JSON, CSV))
    form = _form(request, media)
    _check_query(request, media, form)
    body = await request.body()
    own = state(request)
    return await run_in_threadpool(_batch, body, media, form, dict(request.query_params), own)


def _single(body: bytes, own: State) -> dict[str, Any]:
    answer = answer_batch(read_single(body), catalogue=own.catalogue, limits=own.limits, detail="trace", wire=True)
    if answer["summary"]["invalid"]:
        first = orjson.loads(orjson.dumps(answer["items"]))[0]
        problem = first["problem"]
        errors = [_single_error(error) for error in problem["errors"]]
        raise ProblemError(
            str(problem["type"]).removeprefix("/problems/"),
            f"{errors[0].pointer}: {errors[0].detail}",
            errors=errors,
        )
    return answer


def _single_error(error: dict[str, Any]) -> FieldError:
    return FieldError(
        pointer=str(error["pointer"]).replace("#/items/0", "#/item", 1),
        code=error["code"],
        detail=error["detail"],
        allowed=tuple(error.get("allowed", ())),
    )


def _batch(body: bytes, media: str, form: str, query: dict[str, str], own: State) -> Response:
    options = CsvOptions.from_query(query) if media == CSV else None
    detail = query.get("detail") or ("verdict" if form == CSV else "modes")
    with collector_paused():
        run = run_batch(
            body,
            media,
            options=options,
            catalogue=own.catalogue,
            limits=own.limits,
            detail=detail,
            wire=form == JSON,
        )
        if form == JSON:
            return json_response(run.answer, held=run)
        echo = _inputs(run.batch, media) if query.get("echo") == "true" else None
        headers = {"Cache-Control": "no-store", "Content-Disposition": 'attachment; filename="schedule.csv"'}
        return Response(schedule_csv(run.answer, echo=echo), media_type="text/csv; charset=utf-8", headers=headers)


def _inputs(batch: Batch, media: str) -> list[Any]:
    """Items to repeat. Of JSON only those that have passed the schema, whose fields are therefore known and few.

    A text is the rest of a CSV behind a broken quote, and not repeated.
    """
    return [
        {} if isinstance(item, str) or (media == JSON and row in batch.errors) else item
        for row, item in enumerate(batch.items)
    ]


def _media_type(request: Request, known: tuple[str, ...]) -> str:
    stated = request.headers.get("content-type", "")
    media, _, parameters = stated.partition(";")
    media = media.strip().lower()
    charset = parameters.lower().replace(" ", "").partition("charset=")[2].strip('"')
    encoding = request.headers.get("content-encoding", "identity").lower()
    if encoding != "identity":
        raise ProblemError(
            "unsupported-media", f"Content-Encoding {encoding} is not read.", headers={"Accept-Encoding": "identity"}
        )
    if media not in known or charset not in ("", "utf-8", "utf8"):
        raise ProblemError(
            "unsupported-media",
            f"{f'Content-Type {stated[:80]}' if stated else 'A body without Content-Type'} is not read here; send UTF-8"
            f" with the header {' or '.join(f'Content-Type: {each}' for each in known)}.",
            headers={"Accept": ", ".join(known)},
        )
    return media


def _check_query(request: Request, media: str, form: str) -> None:
    """Refuse a query that would not be honoured; what a CSV adds to it is checked with its options."""
    if media == JSON:
        check_query(request.query_params, ("format", "detail", "echo"))
    if form == JSON and request.query_params.get("echo") == "true":
        error = FieldError(pointer="?echo", code="contradiction", detail="Inputs are repeated in a CSV answer only.")
        raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])


def _form(request: Request, media: str) -> str:
    """Form of the answer: by ``?format=``, else by Accept, else the one of the request."""
    chosen = request.query_params.get("format")
    if chosen is not None:
        if chosen not in ("json", "csv"):
            raise ProblemError("not-acceptable", f"There is no format {chosen[:20]}; there are json and csv.")
        return JSON if chosen == "json" else CSV
    accepted = [each.partition(";")[0].strip().lower() for each in request.headers.get("accept", "*/*").split(",")]
    for each in accepted:
        if each in (JSON, CSV):
            return each
        if each in ("*/*", ""):
            return media
        if each == "application/*":
            return JSON
        if each == "text/*":
            return CSV
    raise ProblemError("not-acceptable", f"The answer can be {JSON} or {CSV}; Accept asks for neither.")
