"""Addresses of the form: the page and the files that it is made of."""

from importlib.resources import files

from fastapi import FastAPI
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.staticfiles import StaticFiles

PATH = "/form"
"""Of the page; its files are under it."""

_PACKAGE = files("hangpoint.web")
FILES = _PACKAGE.joinpath("files")

_HEADERS = {
    "Cache-Control": "no-cache",
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self'"
    " data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}
"""Inline styles are those of sheets, which open from the page and keep its policy."""


def add_form(app: FastAPI) -> None:
    """Serve the form."""

    async def page(_: Request) -> Response:
        return FileResponse(str(_PACKAGE.joinpath("form.html")), headers=_HEADERS)

    app.add_api_route(PATH, page, methods=["GET", "HEAD"], include_in_schema=False)
    app.mount(PATH, StaticFiles(directory=str(FILES)), name="form")
