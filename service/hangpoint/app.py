"""The application, assembled: settings, catalogue, routes, problems, limits, documentation; assembly only."""

from difflib import get_close_matches
from importlib.resources import files
from typing import cast

from fastapi import FastAPI
from fastapi.openapi.docs import get_swagger_ui_html
from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.middleware.cors import CORSMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.staticfiles import StaticFiles

from hangpoint import __version__
from hangpoint.api.access import TokenAccess
from hangpoint.api.body_limit import BodyLimit, Receive, Scope, Send, StreamLimit
from hangpoint.api.compression import Compression
from hangpoint.api.defects import Defects
from hangpoint.api.media import NDJSON
from hangpoint.api.metrics import Metrics
from hangpoint.api.openapi import openapi_document
from hangpoint.api.origins import origin_rules
from hangpoint.api.problems import ProblemError
from hangpoint.api.request_log import RequestLog
from hangpoint.api.resources import RESOURCES
from hangpoint.api.responses import problem_response
from hangpoint.api.routes import catalogue, hang_points, operations, troubles, workbooks
from hangpoint.api.state import State
from hangpoint.product.catalogue import load_catalogue
from hangpoint.settings import Settings, read_settings
from hangpoint.web.page import add_form

_BY_STATUS = {404: "not-found", 405: "method-not-allowed"}
_OTHERS = (workbooks.router, catalogue.router, troubles.router, operations.router)
_ROUTERS = (hang_points.router, *_OTHERS)
_PATHS = (
    *(each.path for each in RESOURCES),
    *(str(getattr(route, "path", "")) for router in _ROUTERS for route in router.routes),
)
"""Addresses that one which is none is compared with."""


def create_app(settings: Settings | None = None) -> FastAPI:
    """The service as an ASGI application.

    Raises:
        CatalogueError: the operator's catalogue can't be loaded.
    """
    settings = settings or read_settings()
    app = FastAPI(title="hangpoint", version=__version__, docs_url=None, redoc_url=None, redirect_slashes=False)
    paths = None if settings.catalogue is None else [settings.catalogue]
    loaded = load_catalogue(paths)
    metrics = Metrics(engine=__version__, catalogue=loaded.version)
    app.state.hangpoint = State(settings=settings, catalogue=loaded, metrics=metrics)
    computing = [resource.router() for resource in RESOURCES]
    for router in (hang_points.router, *computing, *_OTHERS):
        app.include_router(router)
    _add_documentation(app)
    add_form(app)
    app.openapi = openapi_document(app)
    app.add_exception_handler(ProblemError, _on_problem)
    app.add_exception_handler(HTTPException, _on_http)
    app.add_middleware(Compression)
    app.add_middleware(
        BodyLimit,
        limits={
            hang_points.SINGLE_PATH: settings.max_single_bytes,
            hang_points.GROUP_PATH: settings.max_single_bytes,
            hang_points.BATCH_PATH: settings.max_batch_bytes,
            workbooks.PATH: settings.max_batch_bytes,
            **{each.path: settings.max_single_bytes if each.single else settings.max_batch_bytes for each in RESOURCES},
        },
        stream=StreamLimit(path=hang_points.BATCH_PATH, media_type=NDJSON, size=settings.max_stream_bytes),
        seconds=settings.body_seconds,
        answer=_answer,
    )
    if settings.access == "tokens":
        app.add_middleware(TokenAccess, tokens=settings.bearer_tokens, answer=_answer)
    app.add_middleware(Defects)
    if settings.web_origins:
        app.add_middleware(CORSMiddleware, **origin_rules(settings.web_origins))
    app.add_middleware(RequestLog, metrics=metrics)
    return app


def _add_documentation(app: FastAPI) -> None:
    assets = str(files("fastapi_offline").joinpath("static"))
    app.mount("/static", StaticFiles(directory=assets), name="static")

    async def documentation(_: Request) -> Response:
        return get_swagger_ui_html(
            openapi_url="/openapi.json",
            title="hangpoint: API documentation",
            swagger_js_url="/static/swagger-ui-bundle.js",
            swagger_css_url="/static/swagger-ui.css",
            swagger_favicon_url="/static/favicon.png",
        )

    app.add_api_route("/docs", documentation, methods=["GET", "HEAD"], include_in_schema=False)


async def _answer(problem: ProblemError, scope: Scope, receive: Receive, send: Send) -> None:
    await problem_response(Request(scope), problem)(scope, receive, send)


async def _on_problem(request: Request, error: Exception) -> Response:
    return problem_response(request, cast(ProblemError, error))


async def _on_http(request: Request, error: Exception) -> Response:
    own = cast(HTTPException, error)
    slug = _BY_STATUS.get(own.status_code, "malformed")
    headers = Headers(own.headers)
    said = {
        "not-found": "There is no such address. GET /openapi.json lists all, and none ends in a slash."
        + "".join(f" The nearest is {near}." for near in _near(request)),
        "method-not-allowed": f"The methods of this address are {headers.get('allow')}.",
    }.get(slug, own.detail)
    detail = f"{request.method} {request.url.path[:200]}: {said}"
    return problem_response(request, ProblemError(slug, detail, headers=dict(own.headers or {})))


def _near(request: Request) -> list[str]:
    """The address that is spelt nearest, if one is near."""
    asked = request.url.path[:200].casefold().replace("_", "-").rstrip("/")
    return get_close_matches(asked, [path for path in _PATHS if "{" not in path], n=1, cutoff=0.8)
