"""ASGI middleware: the trace id of every response, and one line of JSON a request; never a body.

A line has time, trace id, method, route, status, duration, bytes sent and, of what has items, their number; the same
goes into the metrics. The trace id is the one of the request's ``traceparent`` header, else a new one; it goes out as
``X-Trace-Id``. No browser guesses the type of a response.
"""

import logging
import time
from datetime import UTC, datetime

import orjson
from starlette.datastructures import MutableHeaders
from starlette.requests import Request

from hangpoint.api.body_limit import App, Message, Receive, Scope, Send
from hangpoint.api.metrics import Metrics
from hangpoint.api.responses import trace_id

log = logging.getLogger("hangpoint.requests")
HEADER = "X-Trace-Id"
_ITEMS = "hangpoint.items"


class RequestLog:
    """Name every response by its trace id and write a line when it has been sent."""

    def __init__(self, app: App, *, metrics: Metrics) -> None:
        self._app = app
        self._metrics = metrics

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        started = time.perf_counter()
        identity = trace_id(Request(scope))
        status, size = 0, 0
        self._metrics.begin()

        async def send_and_note(message: Message) -> None:
            nonlocal status, size
            if message["type"] == "http.response.start":
                status = message["status"]
                headers = MutableHeaders(scope=message)
                headers[HEADER] = identity
                headers["X-Content-Type-Options"] = "nosniff"
            else:
                size += len(message.get("body", b""))
            await send(message)

        try:
            await self._app(scope, receive, send_and_note)
        finally:
            seconds, route, items = time.perf_counter() - started, _route(scope), scope.get(_ITEMS, 0)
            self._metrics.end(scope["method"], route, status, seconds=seconds, items=items)
            if log.isEnabledFor(logging.INFO):
                log.info(_line(scope, identity, status, seconds, size))


def note_items(scope: Scope, count: int) -> None:
    """Say how many items the answer to a request has."""
    scope[_ITEMS] = count


def _route(scope: Scope) -> str | None:
    return getattr(scope.get("route"), "path", None)


def _line(scope: Scope, identity: str, status: int, seconds: float, size: int) -> str:
    return orjson.dumps(
        {
            "time": datetime.now(UTC).isoformat(timespec="milliseconds"),
            "level": "info",
            "trace_id": identity,
            "method": scope["method"],
            "route": _route(scope),
            "status": status or None,
            "milliseconds": round(seconds * 1000, 3),
            "bytes_out": 0 if scope["method"] == "HEAD" else size,
            **({"items": scope[_ITEMS]} if _ITEMS in scope else {}),
        }
    ).decode()
