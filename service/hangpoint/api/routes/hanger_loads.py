"""Loads on hangers: runs, risers, trapezes and equipment to rod and anchor forces."""

import orjson
from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.csv_body import check_query
from hangpoint.api.hanger_batch import run_hanger_loads
from hangpoint.api.media import CSV, JSON, answer_form, body_media_type
from hangpoint.api.responses import file_response, json_response
from hangpoint.api.state import state
from hangpoint.report.hanger_schedule import hanger_csv

router = APIRouter(tags=["hanger loads"])

PATH = "/v1/hanger-loads"
FORMS = {"json": JSON, "csv": CSV}
"""Forms of the answer by their word in ``?format=``."""


@router.post(PATH, operation_id="computeHangerLoads", summary="Loads on hangers of what hangs")
async def compute_hanger_loads(request: Request) -> Response:
    """What hangs, brought to its hangers: weight of every line, reactions, rods, spacing, earthquake.

    Items are runs of one line, risers, trapezes of several lines and tiers, and equipment on rods; units may be mixed,
    and one bad item never costs the others. Each result has the load of every hanger by nature and by model, the
    largest by the strength and the allowable-stress combinations, and `hang_points` that go as they are into the
    `items` of a check of hang points, whose `defaults` then give anchor and base. A trapeze makes a hang point a rod.
    As CSV the answer is a schedule, one row a hanger.
    """
    body_media_type(request.headers.get("content-type", ""), (JSON,))
    query = request.query_params
    check_query(query, ("format",))
    form = answer_form(query.get("format"), ",".join(request.headers.getlist("accept")), JSON, known=FORMS)
    answer = await run_in_threadpool(run_hanger_loads, await request.body(), limits=state(request).limits)
    if form == CSV:
        return file_response(hanger_csv(orjson.loads(orjson.dumps(answer))), CSV, "hangers.csv")
    return json_response(answer)
