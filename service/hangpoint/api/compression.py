"""ASGI middleware: large answers to a POST compressed by gzip, where the caller asks for it.

What is read by GET keeps its strong ETag, which goes with one form of the bytes.
"""

import re

from starlette.middleware.gzip import DEFAULT_EXCLUDED_CONTENT_TYPES, GZipMiddleware
from starlette.types import ASGIApp, Receive, Scope, Send

from hangpoint.api.media import XLSX

SMALLEST = 32 * 1024
"""Bytes of an answer that is worth it; streams are compressed block by block, whatever their length."""

_LEVEL = 1
"""The fastest: the tenth of an answer's size is had by it already."""

_REFUSED = re.compile(r"(?:^|[\s,])gzip\s*;\s*q=0(?:\.0*)?\s*(?:,|$)")


class Compression:
    """Hand requests on, by way of the framework's compression where it has something to do."""

    def __init__(self, app: ASGIApp) -> None:
        excluded = (*DEFAULT_EXCLUDED_CONTENT_TYPES, XLSX)
        self._plain = app
        self._gzip = GZipMiddleware(app, SMALLEST, _LEVEL, exclude_content_types=excluded)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        asked = scope["type"] == "http" and scope["method"] == "POST" and _asked(scope)
        await (self._gzip if asked else self._plain)(scope, receive, send)


def _asked(scope: Scope) -> bool:
    stated = b",".join(value for name, value in scope["headers"] if name == b"accept-encoding")
    text = stated.decode("latin-1").lower()
    return "gzip" in text and _REFUSED.search(text) is None
