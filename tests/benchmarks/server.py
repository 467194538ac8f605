"""The service with the routes that it is measured against, on one server.

``/echo`` is a plain route of the framework: models of every field that a request may have, no validators of its own,
the request sent back. ``/parsed`` reads and writes the JSON and does nothing else. ``/canned`` validates a single check
by the service's schema and sends an answer made before, both by the framework's own means; ``/canned-bytes`` does it
by the service's means, bytes in and bytes out.
"""

import gc
import sys
from typing import Annotated, Any, Literal

import orjson
import uvicorn
from fastapi import FastAPI
from pydantic import BaseModel, Field
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.body_errors import adapter_of
from hangpoint.api.schemas.request import SingleRequest
from hangpoint.app import create_app
from hangpoint.settings import Settings

Quantity = float | str
Nature = Literal["dead", "contents", "live"]


class At(BaseModel):
    level: str | None = None
    x: Quantity | None = None
    y: Quantity | None = None
    z: Quantity | None = None


class Component(BaseModel):
    nature: str
    tension: Quantity | None = None
    shear_x: Quantity | None = None
    shear_y: Quantity | None = None
    moment_x: Quantity | None = None
    moment_y: Quantity | None = None
    torsion: Quantity | None = None


class LoadCase(BaseModel):
    name: str
    components: list[Component]
    sustained_fraction: float | None = None
    earthquake_fraction: float | None = None


class Place(BaseModel):
    x: Quantity | None = None
    y: Quantity | None = None
    z: Quantity | None = None


class ForcesHangs(BaseModel):
    kind: Literal["forces"]
    components: list[Component] | None = None
    load_cases: list[LoadCase] | None = None
    at: Place | None = None
    sustained_fraction: float | None = None
    earthquake_fraction: float | None = None


class WeightHangs(BaseModel):
    kind: Literal["weight"]
    weight: Quantity | None = None
    nature: Nature | None = None


class Insulation(BaseModel):
    thickness: Quantity | None = None
    density: Quantity | None = None


class PointLoad(BaseModel):
    at: Quantity
    weight: Quantity
    nature: Nature | None = None


class Run(BaseModel):
    spans: list[Quantity] | None = None
    support: int | None = None
    model: Literal["larger", "tributary", "continuous"] | None = None
    point_loads: list[PointLoad] | None = None
    missing_support: int | None = None
    spacing_rule: str | None = None


class PipeHangs(BaseModel):
    kind: Literal["pipe"]
    material: Literal["steel", "stainless", "copper"] | None = None
    size: str | None = None
    schedule: str | None = None
    wall: Quantity | None = None
    contents: str | None = None
    sprinkler: bool | None = None
    insulation: Insulation | None = None
    allowance: float | None = None
    run: Run | None = None


class Rod(BaseModel):
    size: str | None = None
    material: str | None = None
    f_u: Quantity | None = None
    rule: str | None = None


class AnchorPosition(BaseModel):
    x: Quantity
    y: Quantity
    resists: Literal["both", "x", "y", "none"] | None = None


class Pattern(BaseModel):
    pattern: Literal["row", "rectangle", "circle"]
    count: int | None = None
    columns: int | None = None
    rows: int | None = None
    spacing: Quantity | None = None
    spacing_x: Quantity | None = None
    spacing_y: Quantity | None = None
    diameter: Quantity | None = None
    angle: float | None = None
    center: Place | None = None


class Adhesive(BaseModel):
    temperature: str | None = None
    hole: Literal["dry", "water_saturated"] | None = None
    concrete_age: float | None = None
    certified_installer: bool | None = None
    continuous_inspection: bool | None = None


class Plate(BaseModel):
    width_x: Quantity | None = None
    width_y: Quantity | None = None
    center: Place | None = None
    support: Literal["concrete", "grout", "free"] | None = None


class Attachment(BaseModel):
    welded: bool | None = None
    thickness: Quantity | None = None
    grout_pad: bool | None = None
    gap: Quantity | None = None
    plate: Plate | None = None


class Options(BaseModel):
    oblique_shear: Literal["vector", "separate", "linear"] | None = None
    interaction: Literal["trilinear", "power_5_3"] | None = None
    group_area: Literal["union", "rectangle"] | None = None


class Reinforcement(BaseModel):
    area: Quantity
    f_y: Quantity


class AnchorReinforcement(BaseModel):
    tension: Reinforcement | None = None
    shear: Reinforcement | None = None


class Anchor(BaseModel):
    family: str | None = None
    size: str | None = None
    h_ef: Quantity | None = None
    product: dict[str, Any] | None = None
    layout: list[AnchorPosition] | Pattern | None = None
    adhesive: Adhesive | None = None


class Strength(BaseModel):
    f_c: Quantity | None = None
    strength_class: str | None = Field(None, alias="class")


class Edges(BaseModel):
    x_minus: Quantity | None = None
    x_plus: Quantity | None = None
    y_minus: Quantity | None = None
    y_plus: Quantity | None = None


class Base(BaseModel):
    kind: Literal["concrete"]
    strength: Strength | None = None
    density: Literal["normalweight", "sand_lightweight", "all_lightweight"] | None = None
    lambda_: float | None = Field(None, alias="lambda")
    state: Literal["cracked", "uncracked"] | None = None
    state_decided_by: str | None = None
    thickness: Quantity | None = None
    member: str | None = None
    edges: Edges | None = None
    supplementary: bool | None = None
    edge_reinforcement: Literal["none", "edge_bar", "edge_bar_and_stirrups"] | None = None
    anchor_reinforcement: AnchorReinforcement | None = None
    face: Literal["soffit", "side", "top"] | None = None


class Seismic(BaseModel):
    category: Literal["A", "B", "C", "D", "E", "F"] | None = None
    tension_option: str | None = None
    shear_option: str | None = None
    stretch_length: Quantity | None = None
    upset_threads: bool | None = None


class PartialItem(BaseModel):
    at: At | None = None
    trade: str | None = None
    tags: list[str] | None = None
    hangs: Annotated[ForcesHangs | WeightHangs | PipeHangs, Field(discriminator="kind")] | None = None
    rod: Rod | None = None
    anchor: Anchor | None = None
    base: Base | None = None
    attachment: Attachment | None = None
    seismic: Seismic | None = None
    options: Options | None = None


class Item(PartialItem):
    id: str


class Batch(BaseModel):
    units: Literal["us", "si"]
    design_code: str | None = None
    combinations: str | None = None
    detail: str | None = None
    neighbours: str | None = None
    defaults: PartialItem | None = None
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
        adapter_of(SingleRequest).validate_json(await request.body())
        return Response(canned["bytes"], media_type="application/json")

    return app


if __name__ == "__main__":
    # The limit of bytes of an unlisted path is small; these routes are measured with the limit of a batch.
    from hangpoint import app as assembly

    assembly.SMALL_BODY = 64 * 1024 * 1024
    measured = measured_app()
    # Without this the echo would pay for the catalogue at every full collection, which the service itself does not.
    gc.collect()
    gc.freeze()
    uvicorn.run(measured, host="127.0.0.1", port=int(sys.argv[1]), log_level="error", access_log=False)
