"""What is computed where: small checks at once, large ones in a thread, PDF files in turn and without a thread held."""

import asyncio
import json
import subprocess
from threading import Event, Lock

import pytest
from starlette.concurrency import run_in_threadpool

from api.bodies import SINGLE_JSON
from api.test_check_rows import given
from hangpoint.api import pdf_files
from hangpoint.api.pdf_files import AT_A_TIME, pdf_in_turn
from hangpoint.api.problems import ProblemError
from hangpoint.api.routes import hang_points
from hangpoint.report.pdf import document

SECONDS = 30
SHEET = "/v1/hang-point?format=pdf"


@pytest.fixture
def on_the_loop(monkeypatch):
    """Whether each single check was made on the event loop."""
    found = []

    def run(*arguments, **options):
        try:
            found.append(asyncio.get_running_loop() is not None)
        except RuntimeError:
            found.append(False)
        return own(*arguments, **options)

    own = hang_points.run_single
    monkeypatch.setattr(hang_points, "run_single", run)
    return found


def test_a_small_check_is_made_at_once_and_a_large_one_in_a_thread(client, on_the_loop):
    few = {"units": "us", "combinations": "given_factored", "item": given("A", 3, layout=None)}
    many = few | {"item": given("A", 20, layout=None)}
    long = many | {"item": many["item"] | {"tags": ["x" * 250] * 10}}
    bodies = (SINGLE_JSON, few, many, long, few | {"item": given("A", 3)})
    for body in bodies:
        assert client.post("/v1/hang-point", json=body).status_code == 200
    assert on_the_loop == [True, True, True, False, False]


def test_no_escape_hides_a_layout(client, on_the_loop):
    body = b'{"units": "us", "combinations": "given_factored", "item": %s}'
    hidden = json.dumps(given("A", 2)).replace('"layout"', '"\\u006cayout"').encode()
    assert client.post("/v1/hang-point", content=body % hidden, headers={"content-type": "application/json"}).json()[
        "summary"
    ]["total"]
    assert on_the_loop == [False]


def test_files_that_wait_for_their_turn_hold_no_thread(monkeypatch):
    go, lock, now, most = Event(), Lock(), [0], [0]

    def made(page, *, sheets):
        with lock:
            now[0] += 1
            most[0] = max(most[0], now[0])
        go.wait(SECONDS)
        with lock:
            now[0] -= 1
        return page.encode()

    monkeypatch.setattr(pdf_files, "pdf_file", made)

    async def scenario():
        async with asyncio.timeout(SECONDS):
            files = [asyncio.create_task(pdf_in_turn(f"{at}", sheets=1)) for at in range(60)]
            while now[0] < AT_A_TIME:
                await asyncio.sleep(0.005)
            assert await run_in_threadpool(lambda: "free") == "free"
            go.set()
            assert await asyncio.gather(*files) == [b"%d" % at for at in range(60)]
        assert most[0] == AT_A_TIME

    asyncio.run(scenario())


def test_a_file_does_not_wait_for_ever(monkeypatch):
    go = Event()
    monkeypatch.setattr(pdf_files, "pdf_file", lambda page, *, sheets: page[: go.wait(SECONDS)].encode())
    monkeypatch.setattr(pdf_files, "WAIT_SECONDS", 0.05)

    async def scenario():
        first = [asyncio.create_task(pdf_in_turn("", sheets=1)) for _ in range(AT_A_TIME)]
        await asyncio.sleep(0.01)
        with pytest.raises(ProblemError) as raised:
            await pdf_in_turn("", sheets=1)
        go.set()
        await asyncio.gather(*first)
        assert raised.value.slug == "overloaded"
        assert int(raised.value.headers["Retry-After"]) > 0
        assert await pdf_in_turn("", sheets=1) == b""

    asyncio.run(scenario())


def test_a_file_that_takes_too_long_is_a_problem(client, checked, monkeypatch):
    def late(*arguments, **options):
        raise subprocess.TimeoutExpired(arguments, options["timeout"])

    monkeypatch.setattr(document.subprocess, "run", late)
    response = client.post(SHEET, json=SINGLE_JSON)
    assert response.status_code == 503
    assert response.json()["type"] == "/problems/overloaded"
    assert int(response.headers["retry-after"]) > 0
    assert "60 s" in response.json()["detail"]


def test_the_typesetter_is_told_no_secrets(client, monkeypatch):
    seen = {}

    def run(*arguments, env, **options):
        seen.update(env)
        return own(*arguments, env=env, **options)

    own = subprocess.run
    monkeypatch.setenv("HANGPOINT_TOKENS", "a-secret")
    monkeypatch.setattr(document.subprocess, "run", run)
    assert client.post(SHEET, json=SINGLE_JSON).content.startswith(b"%PDF")
    assert "PATH" in seen
    assert not any(name.startswith("HANGPOINT") or "a-secret" in value for name, value in seen.items())


def test_cards_are_made_in_turn_too(client, monkeypatch):
    cards = {"units": "us", "items": [SINGLE_JSON["item"]]}
    assert client.post("/v1/installation-cards?format=pdf", json=cards).content.startswith(b"%PDF")
    monkeypatch.setattr(pdf_files, "MOST_SHEETS", 0)
    problem = client.post("/v1/installation-cards?format=pdf", json=cards).json()
    assert (problem["status"], problem["limit"], problem["received"]) == (413, 0, 1)
