"""A batch from bytes to answer: `run_batch` is what the route and the command line both call."""

import gc
from collections.abc import Callable, Generator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from hangpoint.api.batch import Limits, answer_batch
from hangpoint.api.bodies import Batch, read_batch
from hangpoint.api.csv_body import CsvOptions, read_csv
from hangpoint.product.catalogue import Catalogue

JSON = "application/json"
CSV = "text/csv"

STAGES = ("reading the rows", "checking")
"""Stages of a batch, in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A batch that was run: the request as read and its answer."""

    batch: Batch
    answer: dict[str, Any]


def _unheard(_: str) -> None:
    """Nobody wants to know the stage."""


def run_batch(
    body: bytes,
    media_type: str,
    *,
    options: CsvOptions | None = None,
    catalogue: Catalogue,
    limits: Limits,
    detail: str,
    stage: Callable[[str], None] = _unheard,
    wire: bool = False,
) -> Run:
    """Read a body and check every hang point of it.

    Args:
        body: the request, UTF-8.
        media_type: `JSON` or `CSV`.
        options: what a CSV can't say of itself; not used for JSON.
        catalogue: products by address.
        limits: most items and traces.
        detail: used where the request states none.
        stage: called with each of `STAGES` as it begins.
        wire: the answer is only written as JSON (see `answer_batch`).

    Raises:
        ProblemError: the body can't be read, or is wrong outside its items.
    """
    stage(STAGES[0])
    batch = read_batch(body) if media_type == JSON else read_csv(body, options or CsvOptions())
    stage(STAGES[1])
    answer = answer_batch(batch, catalogue=catalogue, limits=limits, detail=detail, wire=wire)
    return Run(batch=batch, answer=answer)


@contextmanager
def collector_paused() -> Generator[None]:
    """Without the cyclic collector: a batch makes many containers and no cycles (a third of the time at 10,000)."""
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()
