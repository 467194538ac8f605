"""Whether the service lives, is ready, and what it is made of; the pages that explain its problems."""

import sys
from html import escape
from importlib.metadata import version

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from hangpoint import __version__
from hangpoint.api.media import HTML
from hangpoint.api.metrics import MEDIA_TYPE as METRICS
from hangpoint.api.problems import PROBLEMS, ProblemError
from hangpoint.api.responses import NO_STORE, json_response
from hangpoint.api.routes.reading import readable
from hangpoint.api.self_check import published_example_holds
from hangpoint.api.state import state

router = APIRouter(tags=["operations"])
FORM = "/form"
"""Address of the form, which stands beside this part."""
_LIBRARIES = ("fastapi", "numpy", "orjson", "pint", "pydantic", "starlette", "uvicorn")


@readable(
    router,
    "/",
    operation_id="showStart",
    summary="Where to begin",
    responses={307: {"description": "To the form: the caller asks for a page."}},
)
async def show_start(request: Request) -> Response:
    """What this service is, and where its form, its documentation and its checks are. A browser goes to the form."""
    if HTML in request.headers.get("accept", ""):
        return RedirectResponse(FORM, headers={"Vary": "Accept"})
    return json_response(
        {
            "service": "hangpoint",
            "engine_version": __version__,
            "text": "Checks what hang points and their anchors hold. Send hang points by POST; see the documentation.",
            "links": {
                "documentation": "/docs",
                "openapi": "/openapi.json",
                "form": FORM,
                "check_one": "/v1/hang-point",
                "check_many": "/v1/hang-points",
            },
        }
    )


@readable(router, "/livez", operation_id="live", summary="The process answers")
async def live() -> Response:
    """Always `{"status": "live"}`; never depends on load."""
    return json_response({"status": "live"})


@readable(router, "/readyz", operation_id="ready", summary="The service can answer checks")
async def ready(request: Request) -> Response:
    """Ready once the catalogue is loaded and a published worked example comes out as published; else 503."""
    products = len(state(request).catalogue.addresses)
    if not products or not published_example_holds():
        raise ProblemError(
            "overloaded", "The service is not ready: its own check does not hold.", headers={"Retry-After": "30"}
        )
    return json_response({"status": "ready", "products": products})


@readable(router, "/version", operation_id="showVersion", summary="Versions")
async def show_version(request: Request) -> Response:
    """Version of the engine, the catalogue and every library under them."""
    catalogue = state(request).catalogue
    return json_response(
        {
            "engine_version": __version__,
            "catalogue": {"version": catalogue.version, "hash": catalogue.hash},
            "python": sys.version.split()[0],
            "libraries": {name: version(name) for name in _LIBRARIES},
        }
    )


@readable(router, "/metrics", operation_id="showMetrics", summary="Counters of this process")
async def show_metrics(request: Request) -> Response:
    """Requests by method, route and status, their seconds, items answered, and what the process takes.

    In the text format of Prometheus, since the process began. No body, id or address of a caller is in it.
    """
    return Response(state(request).metrics.text(), headers={**NO_STORE, "Content-Type": METRICS})


@readable(
    router,
    "/problems/{slug}",
    operation_id="showProblem",
    summary="What a problem means",
    response_class=HTMLResponse,
)
async def show_problem(slug: str) -> Response:
    """The page behind the `type` of a problem."""
    kind = PROBLEMS.get(slug)
    if kind is None:
        raise ProblemError("not-found", f"There is no such problem; there are {', '.join(PROBLEMS)}.")
    return HTMLResponse(
        "<!doctype html><html lang=en><meta charset=utf-8>"
        "<meta name=viewport content='width=device-width'>"
        f"<title>{escape(kind.title)}</title>"
        "<style>body{font:1rem/1.5 system-ui,sans-serif;max-width:40rem;margin:3rem auto;padding:0 1rem}</style>"
        f"<h1>{escape(kind.title)}</h1><p>Problem <code>{escape(kind.slug)}</code>, HTTP status {kind.status}.</p>"
        f"<p>{escape(kind.page)}</p><p><a href='/docs'>Documentation</a></p></html>"
    )
