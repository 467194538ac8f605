"""A stream of lines while it runs: order of reading and sending, clients that read late, time, memory, ends."""

import asyncio
import contextlib
import gzip
import http.client
import json
import logging
import re
import socket
import subprocess
import sys
import threading
import time

import pytest

from api.bodies import SINGLE_JSON, item
from hangpoint.api.media import NDJSON
from hangpoint.api.routes.hang_points import BATCH_PATH
from hangpoint.app import create_app
from hangpoint.settings import Settings

DEFAULTS = {name: part for name, part in SINGLE_JSON["item"].items() if name != "id"}
HEADER = json.dumps({"units": "us", "detail": "verdict", "defaults": DEFAULTS}).encode() + b"\n"
SECONDS = 30


def lines(start, stop):
    return b"".join(b'{"id": "P%d", "trade": "%s"}\n' % (at, b"x" * 200) for at in range(start, stop))


class Exchange:
    """One connection to the bare application: the test hands in the body and decides when a message can be sent."""

    def __init__(self, **limits):
        self.app = create_app(Settings(**limits))
        self.sent = []
        self.arriving = asyncio.Queue()
        self.read = 0
        self.may_send = asyncio.Event()
        self.may_send.set()

    async def receive(self):
        message = await self.arriving.get()
        self.read += 1
        return message

    async def send(self, message):
        await self.may_send.wait()
        self.sent.append(message)

    def arrive(self, body, *, more=True):
        self.arriving.put_nowait({"type": "http.request", "body": body, "more_body": more})

    def begin(self, coding=None):
        headers = [(b"content-type", NDJSON.encode())]
        scope = {
            "type": "http",
            "asgi": {"version": "3.0"},
            "http_version": "1.1",
            "method": "POST",
            "scheme": "http",
            "path": BATCH_PATH,
            "raw_path": BATCH_PATH.encode(),
            "root_path": "",
            "query_string": b"",
            "headers": headers + ([(b"content-encoding", coding)] if coding else []),
            "client": ("127.0.0.1", 1),
            "server": ("127.0.0.1", 80),
        }
        return asyncio.create_task(self.app(scope, self.receive, self.send))

    async def until(self, holds):
        async with asyncio.timeout(SECONDS):
            while not holds():
                await asyncio.sleep(0.005)

    @property
    def metrics(self):
        return self.app.state.hangpoint.metrics.text().decode()

    @property
    def status(self):
        return self.sent[0]["status"]

    @property
    def lines(self):
        text = b"".join(message.get("body", b"") for message in self.sent[1:])
        return [json.loads(line) for line in text.splitlines()]

    @property
    def complete(self):
        return not self.sent[-1].get("more_body", False)


def run(scenario):
    async def bounded():
        async with asyncio.timeout(SECONDS):
            await scenario()

    asyncio.run(bounded())


def test_a_block_is_answered_before_the_rest_has_come():
    async def scenario():
        exchange = Exchange()
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1000))
        await exchange.until(lambda: len(exchange.sent) == 2)
        assert [each["id"] for each in exchange.lines[1:]] == [f"P{at}" for at in range(1000)]
        exchange.arrive(lines(1000, 2000))
        await exchange.until(lambda: len(exchange.sent) == 3)
        exchange.arrive(lines(2000, 2001), more=False)
        await running
        assert exchange.complete
        assert exchange.lines[-1]["summary"]["total"] == 2001
        assert [each["index"] for each in exchange.lines[1:-1]] == list(range(2001))

    run(scenario)


def test_a_client_that_sends_all_before_it_reads_is_not_waited_for():
    """Nothing can be sent until the whole body was taken: who waited for the one would wait for ever."""

    async def scenario():
        exchange = Exchange()
        exchange.may_send.clear()
        parts = 40
        running = exchange.begin()
        exchange.arrive(HEADER)
        for part in range(parts):
            exchange.arrive(lines(100 * part, 100 * part + 100), more=part < parts - 1)
        await exchange.until(lambda: exchange.read == 1 + parts)
        assert exchange.sent == []
        exchange.may_send.set()
        await running
        assert [each["id"] for each in exchange.lines[1:-1]] == [f"P{at}" for at in range(100 * parts)]
        assert exchange.complete

    run(scenario)


def test_nothing_more_is_read_than_can_be_answered():
    """While the client takes what is sent, the body is read a block at a time."""

    async def scenario():
        exchange = Exchange()
        running = exchange.begin()
        exchange.arrive(HEADER)
        for part in range(50):
            exchange.arrive(lines(1000 * part, 1000 * part + 1000), more=part < 49)
        await exchange.until(lambda: len(exchange.sent) >= 2)
        assert exchange.read <= 5
        await running
        assert exchange.lines[-1]["summary"]["total"] == 50_000

    run(scenario)


@pytest.mark.parametrize("first", [b"", HEADER, HEADER + lines(0, 999)])
def test_a_body_that_stops_before_the_first_block_is_a_problem(first):
    async def scenario():
        exchange = Exchange(body_seconds=0.3)
        running = exchange.begin()
        exchange.arrive(first)
        await running
        assert exchange.status == 408
        assert exchange.lines[0]["type"] == "/problems/timeout"

    run(scenario)


def test_a_body_that_stops_later_ends_the_stream():
    async def scenario():
        exchange = Exchange(body_seconds=0.3)
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1500))
        await running
        assert (exchange.status, exchange.complete) == (200, True)
        assert len(exchange.lines) == 1 + 1000 + 1
        assert exchange.lines[-1]["problem"]["type"] == "/problems/timeout"

    run(scenario)


def test_a_connection_that_closes_ends_the_stream():
    async def scenario():
        exchange = Exchange()
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1500))
        exchange.arriving.put_nowait({"type": "http.disconnect"})
        await running
        assert "summary" not in exchange.lines[-1]

    run(scenario)


def test_a_coding_that_breaks_later_ends_the_stream():
    async def scenario():
        exchange = Exchange()
        running = exchange.begin(b"gzip")
        packed = gzip.compress(HEADER + lines(0, 1500))
        exchange.arrive(packed)
        exchange.arrive(b"no gzip", more=False)
        await running
        assert (exchange.status, exchange.complete) == (200, True)
        assert exchange.lines[-1]["problem"]["type"] == "/problems/malformed"

    run(scenario)


def test_a_body_that_drips_is_cut_off_by_the_time_of_the_whole():
    """Each part is in time, the stream is not; before the first block, and after it."""

    async def scenario():
        for begun, status in ((b"", 408), (lines(0, 1000), 200)):
            exchange = Exchange(body_seconds=5, stream_seconds=1)
            running = exchange.begin()
            exchange.arrive(HEADER + begun)
            started = time.monotonic()
            while not running.done():
                exchange.arrive(b" ")
                await asyncio.sleep(0.05)
            await running
            assert 0.8 < time.monotonic() - started < 5
            assert exchange.status == status
            problem = exchange.lines[-1] if status == 408 else exchange.lines[-1]["problem"]
            assert problem["type"] == "/problems/timeout"
            assert "stream_seconds" in problem["detail"]

    run(scenario)


def test_a_client_that_never_reads_is_let_go():
    async def scenario():
        exchange = Exchange(stream_seconds=0.5)
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1000))
        await exchange.until(lambda: len(exchange.sent) == 2)
        exchange.may_send.clear()
        exchange.arrive(lines(1000, 2000), more=False)
        await running
        assert not exchange.complete

    run(scenario)


def test_a_defect_after_the_first_block_leaves_the_answer_without_its_end(monkeypatch):
    async def scenario():
        exchange = Exchange()
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1000))
        await exchange.until(lambda: len(exchange.sent) == 2)
        monkeypatch.setattr("hangpoint.api.line_batch.LineBatch.answer", lambda *_: 1 / 0)
        exchange.arrive(lines(1000, 2000), more=False)
        with pytest.raises(ZeroDivisionError):
            await running
        assert not exchange.complete

    run(scenario)


@pytest.fixture(scope="module")
def server():
    """The service as a process: its port, and its memory at most so far in MiB."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = [sys.executable, "-m", "hangpoint.cli", "serve", "--port", str(port)]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as process:
        try:
            until = time.monotonic() + SECONDS
            while True:
                with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
                    break
                assert time.monotonic() < until
                time.sleep(0.05)
            yield port, lambda: peak(process.pid)
        finally:
            process.terminate()


def peak(process):
    with open(f"/proc/{process}/status", encoding="ascii") as status:
        return next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024


def request_of(*parts):
    """A request whose body comes in chunks."""
    head = f"POST {BATCH_PATH} HTTP/1.1\r\nHost: x\r\nContent-Type: {NDJSON}\r\nTransfer-Encoding: chunked\r\n\r\n"
    yield head.encode()
    for part in parts:
        yield b"%x\r\n%b\r\n" % (len(part), part)
    yield b"0\r\n\r\n"


def answer_of(connection):
    response = http.client.HTTPResponse(connection)
    response.begin()
    assert response.status == 200
    return response


def last_line(response):
    """The count of lines and the last of them, none kept."""
    count, last = 0, b""
    for line in response:
        count, last = count + 1, line
    return count, json.loads(last)


def test_a_client_of_the_usual_kind_over_a_real_connection(server):
    """Sends some ten megabytes, and reads when all of it is sent: more than the buffers of a connection hold."""
    port, _ = server
    count = 40_000
    with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as connection:
        blocks = (lines(at, at + 1000) for at in range(0, count, 1000))
        for part in request_of(HEADER, *blocks):
            connection.sendall(part)
        seen, last = last_line(answer_of(connection))
    assert (seen, last["summary"]["total"]) == (count + 2, count)


def test_memory_does_not_grow_with_the_stream(server):
    """A client that reads while it sends, as much again as before: the service takes no more for it."""
    port, memory = server

    def exchange(count):
        with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as connection:
            blocks = (lines(at, at + 1000) for at in range(0, count, 1000))
            sender = threading.Thread(target=lambda: [connection.sendall(part) for part in request_of(HEADER, *blocks)])
            sender.start()
            seen, last = last_line(answer_of(connection))
            sender.join()
        assert (seen, last["summary"]["total"]) == (count + 2, count)

    exchange(5000)
    before = memory()
    exchange(60_000)
    assert memory() - before < 60


def test_an_end_of_the_connection_costs_the_service_nothing(server):
    port, _ = server
    with socket.create_connection(("127.0.0.1", port), timeout=SECONDS) as connection:
        for part, _at in zip(request_of(HEADER, *[lines(0, 1000)] * 5), range(4), strict=False):
            connection.sendall(part)
    again = http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)
    again.request("GET", "/livez")
    assert again.getresponse().status == 200
    again.close()


def test_the_line_of_the_log_counts_what_was_streamed(client, caplog):
    caplog.set_level(logging.INFO, "hangpoint.requests")
    text = HEADER + lines(0, 1500)
    response = client.post(BATCH_PATH, content=text, headers={"content-type": NDJSON, "accept-encoding": "identity"})
    (line,) = [json.loads(each.getMessage()) for each in caplog.records if each.name == "hangpoint.requests"]
    assert (line["route"], line["status"], line["bytes_out"]) == (BATCH_PATH, 200, len(response.content))
    assert item()["id"] not in caplog.text


def noted(exchange, caplog):
    own = [json.loads(each.message) for each in caplog.records if each.name == "hangpoint.requests"]
    counted = re.search(r'hangpoint_items_total\{route="/v1/hang-points"\} (\S+)', exchange.metrics)
    return own[-1].get("items"), float(counted[1])


def test_items_of_a_stream_that_breaks_off_are_counted(caplog):
    """Two blocks were sent when the third is over the limit of items."""
    caplog.set_level(logging.INFO, logger="hangpoint.requests")

    async def scenario():
        exchange = Exchange(max_stream_items=2500)
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 2501), more=False)
        await running
        assert exchange.lines[-1]["problem"]["type"] == "/problems/too-many-items"
        assert noted(exchange, caplog) == (2000, 2000.0)

    run(scenario)


def test_items_of_a_stream_whose_caller_goes_are_counted(caplog):
    caplog.set_level(logging.INFO, logger="hangpoint.requests")

    async def scenario():
        exchange = Exchange()
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1000))
        await exchange.until(lambda: len(exchange.sent) == 2)
        running.cancel()
        with contextlib.suppress(asyncio.CancelledError):
            await running
        assert noted(exchange, caplog) == (1000, 1000.0)

    run(scenario)


def test_items_of_a_whole_stream_are_counted(caplog):
    caplog.set_level(logging.INFO, logger="hangpoint.requests")

    async def scenario():
        exchange = Exchange()
        running = exchange.begin()
        exchange.arrive(HEADER + lines(0, 1001), more=False)
        await running
        assert noted(exchange, caplog) == (1001, 1001.0)

    run(scenario)
