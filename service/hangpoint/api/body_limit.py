"""ASGI middleware: a body arrives within its limit of bytes and its time, and inflated, before the framework sees it.

A server that waits for the rest of a body waits for ever, and a framework that reads it reads all of it; here both
end in a problem. The limit counts what a compressed body inflates to. A body comes whole, but for streams of lines,
which are handed on piece by piece under the same rules. At every other address nobody asks for a body and none is
read: what is wrong there, the path or the method, is said by the framework. What is not limited here: slow headers,
which need a proxy in front.
"""

import asyncio
from collections.abc import AsyncGenerator, AsyncIterator, Awaitable, Callable, Mapping, MutableMapping
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import Any

from hangpoint.api.coding import Inflation
from hangpoint.api.problems import ProblemError

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]
Answer = Callable[[ProblemError, Scope, Receive, Send], Awaitable[None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class StreamLimit:
    """Bodies of one media type at one path that are handed on as they arrive, and their limit of bytes."""

    path: str
    media_type: str
    size: int


class BodyLimit:
    """Read the body of each request under a limit and a deadline, then hand it on."""

    def __init__(
        self,
        app: App,
        *,
        limits: Mapping[str, int],
        stream: StreamLimit,
        seconds: float,
        answer: Answer,
    ) -> None:
        """Set limits.

        Args:
            app: what is behind.
            limits: bytes of a body by path, of every path that has one.
            stream: bodies that are not read whole.
            seconds: time for a whole body, and for each part of a stream.
            answer: sends a problem.
        """
        self._app = app
        self._limits = limits
        self._stream = stream
        self._seconds = seconds
        self._answer = answer

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one connection."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        streamed = self._is_streamed(scope)
        limit = self._stream.size if streamed else self._limits.get(scope["path"])
        if limit is None:
            await self._app(scope, _once(b"", receive), send)
            return
        try:
            body = _Body(receive, Inflation(_header(scope, b"content-encoding")), limit)
            body.refuse_declared(scope)
            handed_on = _piecewise(body, self._seconds) if streamed else await _at_once(body, self._seconds, receive)
        except ProblemError as problem:
            await self._answer(problem, scope, receive, send)
            return
        await self._app(scope, handed_on, send)

    def _is_streamed(self, scope: Scope) -> bool:
        media = _header(scope, b"content-type").partition(";")[0].strip().lower()
        return scope["path"] == self._stream.path and media == self._stream.media_type


class _Body:
    """A body as it arrives, inflated and counted."""

    def __init__(self, receive: Receive, inflation: Inflation, limit: int) -> None:
        self._receive = receive
        self._inflation = inflation
        self._limit = limit

    def refuse_declared(self, scope: Scope) -> None:
        length = _header(scope, b"content-length")
        if length.isdigit() and len(length) < 20 and int(length) > self._limit:
            raise self._too_large(int(length))

    async def pieces(self) -> AsyncIterator[bytes]:
        arrived = inflated = 0
        while True:
            message = await self._receive()
            if message["type"] == "http.disconnect":
                raise ProblemError("timeout", "The connection closed before the body was complete.")
            data = message.get("body", b"")
            arrived += len(data)
            if arrived > self._limit:
                raise self._too_large(arrived)
            for piece in self._inflation.pieces(data):
                inflated += len(piece)
                if inflated > self._limit:
                    raise self._too_large(inflated)
                yield piece
                if self._inflation.coding != "identity":
                    await asyncio.sleep(0)  # A small message may inflate to much: others have their turn.
            if not message.get("more_body", False):
                self._inflation.end()
                return

    def _too_large(self, received: int) -> ProblemError:
        what = (
            "The body" if self._inflation.coding == "identity" else f"The body, inflated by {self._inflation.coding},"
        )
        return too_large(received, self._limit, what)


def too_large(received: int, limit: int, what: str = "The body") -> ProblemError:
    """The problem of a body over its limit."""
    return ProblemError(
        "too-large",
        f"{what} has {received} bytes or more; the limit of this address is {limit}.",
        members={"limit": limit, "received": received},
    )


async def _at_once(body: _Body, seconds: float, receive: Receive) -> Receive:
    async with deadline(seconds):
        whole = b"".join([piece async for piece in body.pieces()])
    return _once(whole, receive)


def _once(whole: bytes, receive: Receive) -> Receive:
    handed_over = False

    async def receive_whole() -> Message:
        nonlocal handed_over
        if handed_over:
            return await receive()
        handed_over = True
        return {"type": "http.request", "body": whole, "more_body": False}

    return receive_whole


def _piecewise(body: _Body, seconds: float) -> Receive:
    pieces = body.pieces()

    async def receive_piece() -> Message:
        async with deadline(seconds):
            piece = await anext(pieces, b"")
        return {"type": "http.request", "body": piece, "more_body": bool(piece)}

    return receive_piece


@asynccontextmanager
async def deadline(seconds: float) -> AsyncGenerator[None]:
    """Time for a body.

    Raises:
        ProblemError: it is over.
    """
    try:
        async with asyncio.timeout(seconds):
            yield
    except TimeoutError:
        raise ProblemError("timeout", f"The body was not complete within {seconds:g} seconds.") from None


def _header(scope: Scope, name: bytes) -> str:
    """A header; one that is stated in parts is a list (RFC 9110)."""
    return ", ".join(value.decode("latin-1") for key, value in scope["headers"] if key == name)
