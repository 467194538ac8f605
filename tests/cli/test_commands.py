"""`hangpoint serve`, `openapi`, `nomenclature` and `--version`; the generated part of the contributors' guide."""

import json
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest
from typer.testing import CliRunner

import hangpoint
from hangpoint.app import create_app
from hangpoint.cli import app
from hangpoint.settings import misspelt

ROOT = Path(__file__).parents[2]
BEGIN, END = "<!-- nomenclature: begin -->", "<!-- nomenclature: end -->"
SECONDS = 20
EVERYWHERE = "0.0.0.0"  # noqa: S104


@pytest.fixture
def environment(monkeypatch):
    for name in ("HOST", "PORT", "ACCESS", "TOKENS", "ORIGINS"):
        monkeypatch.delenv(f"HANGPOINT_{name}", raising=False)
    return monkeypatch


def run(*arguments):
    return CliRunner().invoke(app, arguments)


def test_version():
    assert run("--version").stdout == f"hangpoint {hangpoint.__version__}\n"


def test_without_a_command_it_shows_the_commands():
    text = run().output
    assert all(
        command in text for command in ("serve", "health", "check", "columns", "families", "openapi", "nomenclature")
    )


def test_openapi_is_the_document_of_the_service():
    assert json.loads(run("openapi").stdout) == create_app().openapi()


def test_nomenclature_of_the_contributors_guide_is_current():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    committed = text.partition(BEGIN)[2].partition(END)[0].strip()
    assert committed == run("nomenclature").stdout.strip()
    assert committed.count("\n") > 100


def test_names_that_others_set_are_left_alone():
    others = ("HANGPOINT_SERVICE_HOST", "HANGPOINT_SERVICE_PORT", "HANGPOINT_PORT_8000_TCP", "HANGPOINT_HOME", "PATH")
    assert misspelt(dict.fromkeys((*others, "HANGPOINT_PORT", "hangpoint_host"), "x")) == {}


@pytest.mark.parametrize(
    ("variables", "arguments", "said"),
    [
        ({}, ["--host", EVERYWHERE], "HANGPOINT_ACCESS=tokens"),
        ({}, ["--host", "::"], "HANGPOINT_ACCESS=proxy"),
        ({}, ["--host", "198.51.100.7"], "listen on 127.0.0.1"),
        ({"HANGPOINT_HOST": EVERYWHERE}, [], "HANGPOINT_ACCESS=tokens"),
        ({"HANGPOINT_ACCESS": "tokens"}, ["--host", EVERYWHERE], "HANGPOINT_TOKENS"),
        ({"HANGPOINT_ACCESS": "tokens", "HANGPOINT_TOKENS": " , "}, [], "HANGPOINT_TOKENS"),
        ({"HANGPOINT_ACCESS": "anybody"}, [], "HANGPOINT_ACCESS"),
        ({"HANGPOINT_TOKENS": "abc"}, [], "HANGPOINT_TOKENS are set, and HANGPOINT_ACCESS=loopback asks for none"),
        ({"HANGPOINT_TOKENS": "abc", "HANGPOINT_ACCESS": "proxy"}, [], "HANGPOINT_ACCESS=proxy asks for none"),
        ({"HANGPOINT_ORIGINS": "*"}, [], "HANGPOINT_ORIGINS: '*' is no origin"),
        ({"HANGPOINT_ORIGINS": "https://a.example, https://b.example/"}, [], "'https://b.example/' is no origin"),
        ({"HANGPOINT_CATALOGUE": "/nowhere"}, [], "there is no such file or folder"),
        ({"HANGPOINT_CATALOG": "/nowhere"}, [], "HANGPOINT_CATALOG is no setting; HANGPOINT_CATALOGUE is"),
        ({"HANGPOINT_MAX_ITMES": "5"}, [], "HANGPOINT_MAX_ITMES is no setting; HANGPOINT_MAX_ITEMS is"),
    ],
)
def test_serve_says_what_to_set(environment, variables, arguments, said):
    for name, value in variables.items():
        environment.setenv(name, value)
    result = run("serve", *arguments)
    assert result.exit_code == 2
    assert said in result.stderr


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def test_serve_answers_on_loopback_and_logs_a_line_a_request(environment):
    port = free_port()
    command = [sys.executable, "-m", "hangpoint.cli", "serve", "--port", str(port)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
        try:
            body = fetch(f"http://127.0.0.1:{port}/livez")
        finally:
            server.terminate()
            out, err = server.communicate(timeout=SECONDS)
    assert body == b'{"status":"live"}'
    (line,) = map(json.loads, out.splitlines())
    assert line["method"] == "GET"
    assert line["route"] == "/livez"
    assert line["status"] == 200
    assert f"127.0.0.1:{port}" in err


def test_a_port_in_use_is_said_and_no_address_printed(environment):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        command = [sys.executable, "-m", "hangpoint.cli", "serve", "--port", str(port)]
        ended = subprocess.run(command, capture_output=True, text=True, timeout=SECONDS, check=False)
    assert ended.returncode == 2
    assert "already in use" in ended.stderr
    assert f"127.0.0.1:{port} can't be listened on: if another service has the port" in ended.stderr
    assert "--port or HANGPOINT_PORT" in ended.stderr
    assert "http://" not in ended.stderr


def test_health_asks_a_service_on_this_machine(environment):
    port = free_port()
    environment.setenv("HANGPOINT_PORT", str(port))
    environment.setenv("HANGPOINT_HOST", EVERYWHERE)
    environment.setenv("HANGPOINT_ACCESS", "tokens")
    environment.setenv("HANGPOINT_TOKENS", "abc")
    environment.setenv("http_proxy", "http://127.0.0.1:1")
    asleep = run("health")
    assert (asleep.exit_code, asleep.stdout) == (1, "")
    assert asleep.stderr.startswith("no answer: ")
    command = [sys.executable, "-m", "hangpoint.cli", "serve"]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as server:
        try:
            environment.delenv("http_proxy")
            fetch(f"http://127.0.0.1:{port}/livez")
            awake = run("health")
        finally:
            server.terminate()
    assert awake.exit_code == 0, awake.stderr
    assert json.loads(awake.stdout)["status"] == "ready"


def test_health_of_a_service_that_is_not_ready(environment):
    with socket.create_server(("127.0.0.1", 0)) as listener:
        environment.setenv("HANGPOINT_PORT", str(listener.getsockname()[1]))

        def answer():
            connection, _ = listener.accept()
            with connection:
                connection.recv(1000)
                connection.sendall(b"HTTP/1.1 503 Service Unavailable\r\nContent-Length: 4\r\n\r\nbusy")

        waiter = threading.Thread(target=answer)
        waiter.start()
        result = run("health")
        waiter.join()
    assert (result.exit_code, result.stdout, result.stderr) == (1, "", "busy\n")


def fetch(address):
    until = time.monotonic() + SECONDS
    while True:
        try:
            with urlopen(address, timeout=SECONDS) as response:  # noqa: S310
                return response.read()
        except URLError:
            if time.monotonic() > until:
                raise
            time.sleep(0.05)


def test_lock_has_hashes_and_no_address():
    text = (ROOT / "service" / "requirements.lock").read_text(encoding="utf-8")
    assert "://" not in text
    assert "index" not in text
    pins = [line for line in text.splitlines() if "==" in line and not line.startswith("#")]
    assert len(pins) > 20
    assert all(line.endswith("\\") for line in pins), "every pin is followed by its hashes"


@pytest.mark.parametrize(
    ("settings", "seconds"),
    [({}, 600), ({"stream_seconds": 3600}, 3600), ({"stream_seconds": 1, "body_seconds": 300}, 300 + 20 + 60)],
)
def test_a_service_that_stops_waits_for_the_longest_request(monkeypatch, settings, seconds):
    """A stream, or a body that has come late, a wait for the typesetter and its work."""
    import uvicorn

    asked = {}
    monkeypatch.setattr(uvicorn.Config, "bind_socket", lambda _: None)
    monkeypatch.setattr(
        uvicorn.Server, "run", lambda server, **_: asked.update(seconds=server.config.timeout_graceful_shutdown)
    )
    for name, value in settings.items():
        monkeypatch.setenv(f"HANGPOINT_{name.upper()}", str(value))
    assert run("serve").exit_code == 0
    assert asked["seconds"] > seconds
