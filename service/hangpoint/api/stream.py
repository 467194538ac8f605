"""A stream of lines answered while it arrives: blocks are read, checked in a thread and sent, in order.

Most clients send a whole body before they read a byte of the answer. A service that waited for such a client to read
would be waited for by it, so the body is read on, within its limit, for as long as a block can't be sent.

Before the first block is sent a problem is a response of its own; after it, the last line.
"""

import asyncio
from collections import deque
from collections.abc import Awaitable
from contextlib import suppress

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from hangpoint.api.batch import BLOCK, Limits
from hangpoint.api.body_limit import too_large
from hangpoint.api.collector import collector_paused
from hangpoint.api.csv_body import CsvOptions
from hangpoint.api.line_batch import LineBatch
from hangpoint.api.line_header import Header, no_items, read_header
from hangpoint.api.lines import Line, LineSplitter
from hangpoint.api.media import NDJSON
from hangpoint.api.problems import ProblemError, problem_body
from hangpoint.api.request_log import note_items
from hangpoint.api.responses import NO_STORE, lines_response
from hangpoint.api.run import RunOptions, run_lines
from hangpoint.api.state import State
from hangpoint.report.lines import closing_line, json_lines, opening_line

_FEW = 64
"""Lines that are taken at a time where a whole stream is kept, so that it goes little beyond its limit."""

_FAREWELL_SECONDS = 1.0
"""Time for the last line of a stream that ran out of time."""


class LineSource:
    """Lines of a body as they arrive, and what arrives of it while something else is waited for."""

    def __init__(self, receive: Receive, splitter: LineSplitter) -> None:
        self._receive = receive
        self._splitter = splitter
        self._pieces: deque[bytes] = deque()
        self._lines: deque[Line] = deque()
        self._reading: asyncio.Task[None] | None = None
        self._complete = False
        self._ended = False
        self.received = 0

    async def lines(self, most: int) -> list[Line]:
        """The next lines, none at the end of the body.

        Raises:
            ProblemError: the body is over its limit, broken or late.
        """
        while len(self._lines) < most and not self._ended:
            if self._pieces:
                self._lines.extend(self._splitter.lines([self._pieces.popleft()]))
            elif self._complete:
                self._lines.extend(self._splitter.end())
                self._ended = True
            else:
                await self._read()
        return [self._lines.popleft() for _ in range(min(most, len(self._lines)))]

    def put_back(self, line: Line) -> None:
        """The line comes once more."""
        self._lines.appendleft(line)

    async def reading_on(self, sending: Awaitable[None]) -> None:
        """Wait for something to be sent, and take what arrives until then. What fails in reading is raised later."""
        sent = asyncio.ensure_future(sending)
        try:
            while not sent.done() and not self._complete:
                reading = self._begin_reading()
                await asyncio.wait((sent, reading), return_when=asyncio.FIRST_COMPLETED)
                if reading.done() and reading.exception() is not None:
                    break
                if reading.done():
                    self._reading = None
            await sent
        finally:
            sent.cancel()

    def close(self) -> None:
        """Read no more."""
        if self._reading is not None:
            self._reading.cancel()

    async def _read(self) -> None:
        await self._begin_reading()
        self._reading = None

    def _begin_reading(self) -> asyncio.Task[None]:
        if self._reading is None:
            self._reading = asyncio.create_task(self._read_message())
        return self._reading

    async def _read_message(self) -> None:
        message = await self._receive()
        piece: bytes = message.get("body", b"")
        if piece:
            self._pieces.append(piece)
            self.received += len(piece)
        self._complete = not message.get("more_body", False)


class LineAnswer(Response):
    """An answer whose first block is known and whose other blocks come as they are read."""

    media_type = NDJSON

    def __init__(self, batch: LineBatch, source: LineSource, first: bytes, *, until: float) -> None:
        """``until`` is the time of the event loop at which the exchange ends, whatever is left."""
        self.status_code = 200
        self.background = None
        self._batch = batch
        self._source = source
        self._first = first
        self._until = until
        self._sent = -1  # The opening line is no item.
        self.init_headers(NO_STORE)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Send every block and the last line."""
        try:
            async with asyncio.timeout_at(self._until):
                last = await self._send_blocks(scope, send)
                await send({"type": "http.response.body", "body": last})
        except TimeoutError:
            with suppress(TimeoutError):
                async with asyncio.timeout(_FAREWELL_SECONDS):
                    await send({"type": "http.response.body", "body": _broken(_too_late())})
        finally:
            self._source.close()

    async def _send_blocks(self, scope: Scope, send: Send) -> bytes:
        """Send every block; the last line, which says what follows from all of them, or why there are no more."""
        await self._source.reading_on(
            send({"type": "http.response.start", "status": self.status_code, "headers": self.raw_headers})
        )
        text = self._first
        try:
            while text:
                await self._source.reading_on(send({"type": "http.response.body", "body": text, "more_body": True}))
                self._sent += text.count(b"\n")
                note_items(scope, self._sent)
                text = await _next_block(self._batch, self._source)
            closing, withdrawn = self._batch.closing()
            return closing_line(closing, withdrawn)
        except ProblemError as problem:
            return _broken(problem)


async def answer_lines(request: Request, options: CsvOptions, own: State) -> Response:
    """Answer a stream of lines by lines; one whose points are compared as neighbours is read whole first.

    Raises:
        ProblemError: before the first block could be answered.
    """
    settings = own.settings
    until = asyncio.get_running_loop().time() + settings.stream_seconds
    source = LineSource(request.receive, LineSplitter(settings.max_line_bytes))
    try:
        async with asyncio.timeout_at(until):
            first = next(iter(await source.lines(1)), None)
            header = read_header(first, options, detail="modes")
            if not header.line and first is not None:
                source.put_back(first)
            if header.as_whole:
                return await _answer_whole(header, source, own)
            batch = LineBatch(
                header,
                catalogue=own.catalogue,
                limits=Limits(items=settings.max_stream_items, traces=settings.max_traces),
                max_line=settings.max_line_bytes,
            )
            text = await _next_block(batch, source)
    except TimeoutError:
        raise _too_late() from None
    if not text:
        raise no_items(header)
    return LineAnswer(batch, source, opening_line(batch.opening) + text, until=until)


async def _answer_whole(header: Header, source: LineSource, own: State) -> Response:
    """The lines of an answer that is whole, under the limits of a batch."""
    limit = own.settings.max_batch_bytes
    lines: list[Line] = []
    while some := await source.lines(_FEW):
        lines += some
        if source.received > limit:
            raise too_large(source.received, limit, "The body of lines whose neighbours are checked")
    return await run_in_threadpool(_whole, header, lines, own)


def _whole(header: Header, lines: list[Line], own: State) -> Response:
    with collector_paused():
        options = RunOptions(
            catalogue=own.catalogue,
            limits=own.limits,
            detail=header.batch.detail or "verdict",
            max_line=own.settings.max_line_bytes,
        )
        run = run_lines(header, lines, options)
        return lines_response(run.answer, held=run)


async def _next_block(batch: LineBatch, source: LineSource) -> bytes:
    lines = await source.lines(BLOCK)
    return await run_in_threadpool(_answer, batch, lines) if lines else b""


def _answer(batch: LineBatch, lines: list[Line]) -> bytes:
    with collector_paused():
        block = batch.read(lines)
        batch.compare([block])
        return b"".join(b"%b\n" % text for text in batch.answer(block))


def _too_late() -> ProblemError:
    detail = "The stream was not read and answered within the stream_seconds of GET /v1/limits; send it in parts."
    return ProblemError("timeout", detail)


def _broken(problem: ProblemError) -> bytes:
    body = problem_body(problem.slug, problem.detail, errors=problem.errors, members=problem.members)
    return json_lines([{"problem": body}])
