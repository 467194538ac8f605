"""ASGI middleware: a body arrives whole, within its limit of bytes and its time, before the framework sees it.

A server that waits for the rest of a body waits for ever, and a framework that reads it reads all of it; here both
end in a problem. What is not limited here: slow headers, which need a proxy in front.
"""

import asyncio
from collections.abc import Awaitable, Callable, Mapping, MutableMapping
from typing import Any

from hangpoint.api.problems import ProblemError

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]
Answer = Callable[[ProblemError, Scope, Receive, Send], Awaitable[None]]


class BodyLimit:
    """Read the body of each request under a limit and a deadline, then hand it on as one message."""

    def __init__(self, app: App, *, limits: Mapping[str, int], otherwise: int, seconds: float, answer: Answer) -> None:
        """Limits in bytes by path, ``otherwise`` for every other path; ``answer`` sends a problem."""
        self._app = app
        self._limits = limits
        self._otherwise = otherwise
        self._seconds = seconds
        self._answer = answer

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        limit = self._limits.get(scope["path"], self._otherwise)
        try:
            async with asyncio.timeout(self._seconds):
                body = await _read(receive, limit, _declared(scope))
        except TimeoutError:
            problem = ProblemError("timeout", f"The body was not complete within {self._seconds:g} seconds.")
            await self._answer(problem, scope, receive, send)
            return
        except ProblemError as problem:
            await self._answer(problem, scope, receive, send)
            return
        handed_over = False

        async def receive_whole() -> Message:
            nonlocal handed_over
            if handed_over:
                return await receive()
            handed_over = True
            return {"type": "http.request", "body": body, "more_body": False}

        await self._app(scope, receive_whole, send)


def _declared(scope: Scope) -> int:
    for name, value in scope["headers"]:
        if name == b"content-length" and value.isdigit() and len(value) < 20:
            return int(value)
    return 0


async def _read(receive: Receive, limit: int, declared: int) -> bytes:
    if declared > limit:
        raise _too_large(limit, declared)
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise ProblemError("timeout", "The connection closed before the body was complete.")
        part = message.get("body", b"")
        size += len(part)
        if size > limit:
            raise _too_large(limit, size)
        parts.append(part)
        if not message.get("more_body", False):
            return b"".join(parts)


def _too_large(limit: int, received: int) -> ProblemError:
    return ProblemError(
        "too-large",
        f"The body has {received} bytes or more; the limit of this address is {limit}.",
        members={"limit": limit, "received": received},
    )
