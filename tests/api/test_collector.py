"""The cyclic collector is off while any batch is under way, and as it was after the last of them."""

import gc
import time
from threading import Thread, get_ident

import pytest

from hangpoint.api import collector
from hangpoint.api.collector import collector_paused

LONGER_THAN_ANY = 5.0


@pytest.fixture(autouse=True)
def _enabled():
    assert gc.isenabled()
    yield
    gc.enable()


def test_it_is_off_until_the_last_batch_is_done():
    first, second = collector_paused(), collector_paused()
    first.__enter__()
    second.__enter__()
    first.__exit__(None, None, None)
    assert not gc.isenabled()
    second.__exit__(None, None, None)
    assert gc.isenabled()


def test_a_batch_that_ends_while_another_begins(monkeypatch):
    """The first ends between the look of the second at the collector and its turning it off."""
    first = collector_paused()
    first.__enter__()
    enabled, own = gc.isenabled, get_ident()

    def looked():
        found = enabled()
        if get_ident() == own:
            ending = Thread(target=first.__exit__, args=(None, None, None))
            ending.start()
            ending.join(LONGER_THAN_ANY)
        return found

    monkeypatch.setattr(collector.gc, "isenabled", looked)
    with collector_paused():
        monkeypatch.undo()
        assert not gc.isenabled()
    if not gc.isenabled():
        first.__exit__(None, None, None)
    assert gc.isenabled()


def test_who_turned_it_off_finds_it_off():
    gc.disable()
    with collector_paused():
        assert not gc.isenabled()
    assert not gc.isenabled()


def test_a_batch_that_fails_turns_it_on_again():
    with pytest.raises(RuntimeError), collector_paused():
        raise RuntimeError
    assert gc.isenabled()


@pytest.mark.parametrize(("seconds", "collected"), [(29.0, 0), (31.0, 1)])
def test_batches_that_always_overlap_are_collected_between(monkeypatch, seconds, collected):
    now, runs = [100.0], []
    monkeypatch.setattr(collector, "monotonic", lambda: now[0])
    monkeypatch.setattr(collector.gc, "collect", lambda: runs.append(now[0]))
    current = collector_paused()
    current.__enter__()
    now[0] += seconds
    for _ in range(3):
        following = collector_paused()
        following.__enter__()
        current.__exit__(None, None, None)
        assert not gc.isenabled()
        current = following
    current.__exit__(None, None, None)
    assert len(runs) == collected
    assert gc.isenabled()


def test_it_is_off_as_long_as_somebody_holds_a_pause():
    pause = collector.CollectorPause()
    held = [pause]
    del pause
    assert not gc.isenabled()
    held.clear()
    assert gc.isenabled()


def test_a_pause_ends_once():
    pause, other = collector.CollectorPause(), collector.CollectorPause()
    pause.end()
    pause.end()
    del pause
    assert not gc.isenabled()
    other.end()
    assert gc.isenabled()


@pytest.mark.parametrize("form", ["json", "ndjson", "csv", "html"])
def test_a_batch_leaves_it_on(client, form):
    body = {"units": "us", "items": [{"id": "A"}]}
    response = client.post(f"/v1/hang-points?format={form}", json=body)
    assert response.status_code == 200
    assert _is_on_again()


def test_a_batch_that_is_refused_leaves_it_on(client):
    """Whoever keeps the error keeps its traceback, and with it what the batch was made of."""
    body = {"units": "us", "items": [{"id": "A"}, {"id": "A"}]}
    assert client.post("/v1/hang-points", json=body).status_code == 422
    assert _is_on_again()


def _is_on_again():
    """Whether the collector runs soon: the server lets go of an answer a moment after the client has it."""
    ends = time.monotonic() + LONGER_THAN_ANY
    while not gc.isenabled() and time.monotonic() < ends:
        time.sleep(0.001)
    return gc.isenabled()
