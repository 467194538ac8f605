"""The service with the routes that it is measured against, on one server.

``/echo`` is a plain route of the framework: models of the same fields, no validators of its own, the request sent
back. ``/parsed`` reads and writes the JSON and does nothing else. ``/canned`` validates a single check by the
service's schema and sends an answer made before, both by the framework's own means; ``/canned-bytes`` does it by the
service's means, bytes in and bytes out.
"""

import sys
from typing import Any, Literal

import orjson
import uvicorn
from fastapi import FastAPI
from pydantic import BaseModel
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.bodies import single_adapter
from hangpoint.api.schemas.request import SingleRequest
from hangpoint.app import create_app
from hangpoint.settings import Settings

Quantity = float | str


class At(BaseModel):
    level: str
    x: Quantity
    y: Quantity


class Run(BaseModel):
    spans: list[Quantity]
    support: int


class Hangs(BaseModel):
    kind: Literal["pipe"]
    material: str
    size: str
    schedule: str
    contents: str
    sprinkler: bool
    run: Run


class Rod(BaseModel):
    size: str


class Anchor(BaseModel):
    family: str
    size: str
    h_ef: Quantity


class Strength(BaseModel):
    f_c: Quantity


class Edges(BaseModel):
    x_minus: Quantity
    x_plus: Quantity
    y_minus: Quantity
    y_plus: Quantity


class Base(BaseModel):
    kind: Literal["concrete"]
    strength: Strength
    density: str
    state: str
    thickness: Quantity
    edges: Edges


class Seismic(BaseModel):
    category: str


class Item(BaseModel):
    id: str
    at: At
    trade: str
    hangs: Hangs
    rod: Rod
    anchor: Anchor
    base: Base
    seismic: Seismic


class Batch(BaseModel):
    units: str
    detail: str
    items: list[Item]


def measured_app() -> FastAPI:
    """The service and, beside it, what it is compared with."""
    app = create_app(Settings(body_seconds=60))
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
        single_adapter().validate_json(await request.body())
        return Response(canned["bytes"], media_type="application/json")

    return app


if __name__ == "__main__":
    # The limit of bytes of an unlisted path is small; these routes are measured with the limit of a batch.
    from hangpoint import app as assembly

    assembly.SMALL_BODY = 64 * 1024 * 1024
    uvicorn.run(measured_app(), host="127.0.0.1", port=int(sys.argv[1]), log_level="error", access_log=False)
