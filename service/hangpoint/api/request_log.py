"""ASGI middleware: one line of JSON a request, with time, route, status, duration and sizes; never a body."""

import logging
import time
from datetime import UTC, datetime

import orjson

from hangpoint.api.body_limit import App, Message, Receive, Scope, Send

log = logging.getLogger("hangpoint.requests")


class RequestLog:
    """Write a line when the answer of a request begins."""

    def __init__(self, app: App) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        if scope["type"] != "http" or not log.isEnabledFor(logging.INFO):
            await self._app(scope, receive, send)
            return
        started = time.perf_counter()

        async def send_and_note(message: Message) -> None:
            if message["type"] == "http.response.start":
                log.info(_line(scope, message, time.perf_counter() - started))
            await send(message)

        await self._app(scope, receive, send_and_note)


def _line(scope: Scope, message: Message, seconds: float) -> str:
    headers = {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in message.get("headers", ())}
    return orjson.dumps(
        {
            "time": datetime.now(UTC).isoformat(timespec="milliseconds"),
            "level": "info",
            "trace_id": headers.get("x-trace-id"),
            "method": scope["method"],
            "route": getattr(scope.get("route"), "path", None),
            "status": message["status"],
            "milliseconds": round(seconds * 1000, 3),
            "bytes_out": headers.get("content-length"),
        }
    ).decode()
