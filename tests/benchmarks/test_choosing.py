"""Speed of choosing: 500 hang points x all products and embedments, checked and optimised: ``pytest -m benchmark -s``.

Processor time of one core; the machine may be shared. The single checks are a sample of the same pairs, each a request
of its own, and their statuses must be those of the choice; the ratio is their time by that of the choice.
"""

import json
import random
import statistics
import time

import pytest

from benchmarks import job
from benchmarks.conftest import report
from hangpoint.api.batch import Limits
from hangpoint.api.bodies import read_items
from hangpoint.api.problems import ProblemError
from hangpoint.api.run import RunOptions, run_single
from hangpoint.api.schemas.job_selections import JobSelectionsRequest
from hangpoint.api.selection.job import run_job_selections
from hangpoint.api.selection.opened import OpenBatch, open_batch
from hangpoint.product.catalogue import load_catalogue

pytestmark = pytest.mark.benchmark

POINTS = 500
SAMPLE = 200
ROUNDS = 7
WANT = {"rod_thread": "any", "placing": "either", "trained": True, "reserve": 0.0}
"""Nothing is wished away: every product that no refusal stands against is checked at every point."""


def request():
    items = job.request(POINTS)["items"]
    for item in items:
        del item["anchor"]
    return {"units": "us", "want": WANT, "limits": {"products": 3}, "items": items}


def processor_time(call):
    started = time.process_time()
    made = call()
    return time.process_time() - started, made


def test_choosing_500():
    catalogue = load_catalogue()
    body = json.dumps(request()).encode()
    run_job_selections(body, catalogue=catalogue)
    times, answers = zip(
        *(processor_time(lambda: run_job_selections(body, catalogue=catalogue)) for _ in range(ROUNDS)), strict=True
    )
    seconds, summary = statistics.median(times), answers[0]["summary"]
    pairs = POINTS * len(catalogue.addresses)
    print(f"{pairs} pairs, {summary['checks']} of them checked, {summary['situations']} situations")
    assert summary["held"] == POINTS
    assert answers[0]["plan"]["gap"] == 0
    single = _single_checks(body, catalogue, pairs)
    report("choose_500_vs_single_checks", single / seconds)
    assert report("choose_500_seconds", seconds) < 1.0


def _single_checks(body, catalogue, pairs):
    """Processor time of as many single checks as there are pairs, from a sample; the verdicts of both agree."""
    opened = open_batch(read_items(JobSelectionsRequest, body, batch=OpenBatch), catalogue)
    choice, draw = opened.chosen.choice, random.Random(8)
    spent = 0.0
    for _ in range(SAMPLE):
        at, candidate = draw.randrange(POINTS), draw.randrange(len(catalogue.addresses))
        one = json.dumps({"units": "us", "item": opened.named(at, candidate)}).encode()
        own, passed = processor_time(lambda one=one: _passes(one, catalogue))
        spent += own
        assert passed == choice.holds[opened.situation[at], candidate]
    return spent / SAMPLE * pairs


def _passes(body, catalogue):
    """Whether a single check passes; an anchor through the member is a problem, not a verdict."""
    try:
        answer = run_single(body, RunOptions(catalogue=catalogue, limits=Limits(), detail="verdict")).answer
    except ProblemError as error:
        if error.slug != "impossible-geometry":
            raise
        return False
    return answer["items"][0]["status"] == "passed"
