"""One server for all benchmarks, and the way to time requests to it: in turn, so that a slow machine slows both."""

import http.client
import socket
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

PAUSE = 0.01
Call = Callable[[], bytes]


class Server:
    """A keep-alive connection to the server."""

    def __init__(self, port: int) -> None:
        self.connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)

    def send(self, path: str, body: bytes, method: str = "POST") -> bytes:
        self.connection.request(method, path, body, {"Content-Type": "application/json"})
        response = self.connection.getresponse()
        answer = response.read()
        assert response.status in (200, 204), answer[:300]
        return answer

    def call(self, path: str, body: bytes) -> Call:
        return lambda: self.send(path, body)


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    process = subprocess.Popen([sys.executable, str(Path(__file__).with_name("server.py")), str(port)])
    try:
        for _ in range(200):
            try:
                socket.create_connection(("127.0.0.1", port), timeout=1).close()
                break
            except OSError:
                time.sleep(0.05)
        connected = Server(port)
        yield connected
        connected.connection.close()
    finally:
        process.terminate()
        process.wait(10)


def medians(calls: dict[str, Call], *, rounds: int) -> dict[str, float]:
    """Median seconds of each call, the calls taken in turn after a warm-up, each with the server at rest."""
    times: dict[str, list[float]] = {name: [] for name in calls}
    for turn in range(rounds + 3):
        for name, call in calls.items():
            time.sleep(PAUSE)
            started = time.perf_counter()
            call()
            if turn >= 3:
                times[name].append(time.perf_counter() - started)
    return {name: statistics.median(each) for name, each in times.items()}


def report(name: str, value: float) -> float:
    """Print one figure."""
    print(f"ratio {name} {value:.3f}")
    return value
