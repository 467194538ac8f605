"""Speed of batches and single checks as ratios measured in one run: ``pytest -m benchmark -s``.

Each bound is the one the project set itself; a ratio is printed whether or not it holds.
"""

import json

import orjson
import pytest

from benchmarks import job, scalar_loop
from benchmarks.conftest import Server, medians, report

pytestmark = pytest.mark.benchmark

ROUNDS = 25


BOUNDS = {"batch_1000_vs_echo": 0.8, "batch_1000_verdict_vs_echo": 0.6, "batch_1000_1pct_bad_vs_echo": 1.0}
SAME_BODY = {"": "check", "_without_neighbours": "off"}
"""How points near each other are looked at, by what that adds to a figure's name."""


def test_batch_against_echo(server: Server) -> None:
    """The bounds hold the batch as it is by default; each point by itself, as the bounds were first set, is printed."""
    calls = {"echo": server.call("/echo", job.body(1000)), "parsed": server.call("/parsed", job.body(1000))}
    for added, neighbours in SAME_BODY.items():
        bodies = (
            job.body(1000, neighbours=neighbours),
            job.body(1000, detail="verdict", neighbours=neighbours),
            job.body(1000, bad=0.01, neighbours=neighbours),
        )
        calls |= {name + added: server.call("/v1/hang-points", own) for name, own in zip(BOUNDS, bodies, strict=True)}
    took = medians(calls, rounds=ROUNDS)
    print({name: f"{seconds * 1000:.1f} ms" for name, seconds in took.items()})
    report("batch_1000_vs_orjson", took["batch_1000_vs_echo"] / took["parsed"])
    ratios = {name: report(name, took[name] / took["echo"]) for name in took if name.startswith("batch_")}
    assert {name for name, bound in BOUNDS.items() if ratios[name] > bound} == set()


def test_batch_against_scalar_loop(server: Server) -> None:
    """The loop looks at one point after the other, so neighbours are left out on both sides."""
    body = job.body(1000, neighbours="off")
    took = medians(
        {
            "modes": server.call("/v1/hang-points", body),
            "scalar": lambda: orjson.dumps(scalar_loop.answer(orjson.loads(body))),
        },
        rounds=10,
    )
    assert report("batch_1000_vs_scalar", took["modes"] / took["scalar"]) < 1


def test_scalar_loop_agrees(server: Server) -> None:
    body = job.body(1000, neighbours="off")
    ours = json.loads(server.send("/v1/hang-points", body))["items"]
    theirs = scalar_loop.answer(json.loads(body))["items"]
    assert len(ours) == len(theirs) == 1000
    for own, other in zip(ours, theirs, strict=True):
        assert own.keys() == other.keys()
        assert own["status"] == other["status"]
        for name in ("dead", "contents", "factored_tension", "sustained_tension"):
            assert own["demand"][name] == pytest.approx(other["demand"][name], rel=1e-12)
        assert own["governing"]["mode"] == other["governing"]["mode"]
        assert own["governing"]["utilisation"] == pytest.approx(other["governing"]["utilisation"], rel=1e-12)
        assert [mode["mode"] for mode in own["modes"]] == [mode["mode"] for mode in other["modes"]]
        for mode, twin in zip(own["modes"], other["modes"], strict=True):
            assert mode.keys() == twin.keys()
            if mode["applies"]:
                for name in ("design_strength", "demand", "utilisation"):
                    assert mode[name] == pytest.approx(twin[name], rel=1e-12)
        assert [each["code"] for each in own["findings"]] == [each["code"] for each in other["findings"]]


def test_growth(server: Server) -> None:
    """The building stays the same: ten times the points are ten times as dense, so that many are near each other."""
    small, large = job.body(1000), job.body(10_000)
    lone, many = job.body(1000, neighbours="off"), job.body(10_000, neighbours="off")
    took = medians(
        {
            "1k": server.call("/v1/hang-points", small),
            "10k": server.call("/v1/hang-points", large),
            "1k off": server.call("/v1/hang-points", lone),
            "10k off": server.call("/v1/hang-points", many),
        },
        rounds=5,
    )
    report("growth_10k_vs_1k_without_neighbours", took["10k off"] / took["1k off"])
    assert report("growth_10k_vs_1k", took["10k"] / took["1k"]) <= 11


def test_single_against_canned(server: Server) -> None:
    item = job.request(1)["items"][0]
    body = json.dumps({"units": "us", "item": item}).encode()
    server.send("/canned", server.send("/v1/hang-point", body), "PUT")
    took = medians(
        {
            "single": server.call("/v1/hang-point", body),
            "canned": server.call("/canned", body),
            "bytes": server.call("/canned-bytes", body),
            "judged": server.call("/canned-judged", body),
        },
        rounds=300,
    )
    print({name: f"{seconds * 1000:.2f} ms" for name, seconds in took.items()})
    report("single_vs_canned_bytes", took["single"] / took["bytes"])
    report("single_vs_canned_judged", took["single"] / took["judged"])
    assert report("single_vs_canned", took["single"] / took["canned"]) <= 2
