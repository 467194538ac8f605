"""The service with the routes that it is measured against, on one server.

``/echo`` is a plain route of the framework: models of every field that a request may have (`plain_model`), without
rules, the request sent back. ``/parsed`` reads and writes the JSON and does nothing else. ``/canned`` validates a
single check by the service's schema and sends an answer made before, both by the framework's own means;
``/canned-bytes`` does it by the service's means, bytes in and bytes out; ``/canned-judged`` does it as well, but finds
all that the service would call wrong with the body: what its kind requires, ranges, the product, what fits the member.
"""

import gc
import sys
from typing import Any, cast

import orjson
import uvicorn
from fastapi import FastAPI
from plain_models import plain_model
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.batch import read_block
from hangpoint.api.bodies import read_single
from hangpoint.api.body_errors import adapter_of
from hangpoint.api.body_limit import BodyLimit
from hangpoint.api.item_ids import item_ids
from hangpoint.api.routes.hang_points import BATCH_PATH
from hangpoint.api.schemas.request import BatchRequest, SingleRequest
from hangpoint.api.state import state
from hangpoint.app import create_app
from hangpoint.settings import Settings

Batch = plain_model(BatchRequest)


def measured_app() -> FastAPI:
    """The service and, beside it, what it is compared with, under the limit of a batch."""
    app = create_app(Settings(body_seconds=60))
    (limit,) = (each for each in app.user_middleware if each.cls is BodyLimit)
    limits = cast(dict[str, int], limit.kwargs["limits"])
    limits |= dict.fromkeys(("/echo", "/parsed", "/canned", "/canned-bytes", "/canned-judged"), limits[BATCH_PATH])
    canned: dict[str, Any] = {}

    @app.post("/echo")
    async def echo(batch: Batch) -> Batch:
        return batch

    @app.post("/parsed")
    async def parsed(request: Request) -> Response:
        return Response(orjson.dumps(orjson.loads(await request.body())), media_type="application/json")

    @app.put("/canned")
    async def keep(request: Request) -> Response:
        body = await request.body()
        canned["bytes"], canned["answer"] = body, orjson.loads(body)
        return Response(status_code=204)

    @app.post("/canned")
    async def answer(request: SingleRequest) -> dict[str, Any]:
        return canned["answer"]

    @app.post("/canned-bytes")
    async def answer_bytes(request: Request) -> Response:
        adapter_of(SingleRequest).validate_json(await request.body())
        return Response(canned["bytes"], media_type="application/json")

    @app.post("/canned-judged")
    async def answer_judged(request: Request) -> Response:
        batch, own = read_single(await request.body()), state(request)
        block = read_block(batch, range(1), item_ids(batch), own.catalogue)
        if block.invalid:
            return Response(status_code=422)
        return Response(canned["bytes"], media_type="application/json")

    return app


if __name__ == "__main__":
    measured = measured_app()
    # Without this the echo would pay for the catalogue at every full collection, which the service itself does not.
    gc.collect()
    gc.freeze()
    uvicorn.run(measured, host="127.0.0.1", port=int(sys.argv[1]), log_level="error", access_log=False)
