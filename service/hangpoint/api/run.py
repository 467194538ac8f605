"""A batch from bytes to answer: `run_batch` is what the route and the command line both call."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import chain, islice
from typing import Any

import orjson

from hangpoint.api.batch import BLOCK, Limits, answer_batch, items_of
from hangpoint.api.bodies import Batch, read_batch, read_group, read_single
from hangpoint.api.coding import PIECE
from hangpoint.api.csv_body import CsvOptions, read_csv
from hangpoint.api.line_batch import LineBatch
from hangpoint.api.line_header import Header, no_items, read_header
from hangpoint.api.line_items import joined
from hangpoint.api.lines import MAX_LINE, Line, LineSplitter
from hangpoint.api.media import CSV, NDJSON
from hangpoint.api.problems import FieldError, ProblemError, without_defaults
from hangpoint.product.catalogue import Catalogue
from hangpoint.report.schedule import Beside

STAGES = ("reading the rows", "checking")
"""Stages of a batch, in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A batch that was run: the request as read and its answer."""

    batch: Batch
    answer: dict[str, Any]


def beside(run: Run, *, echo: bool = False) -> Beside:
    """What the schedule of a run has beside the answer: lines and notes of a CSV, with ``echo`` the items.

    Items are as they came; of JSON only those that have passed the schema, whose fields are therefore known and few. A
    text is the rest of a CSV behind a broken quote, and not repeated.
    """
    batch, source = run.batch, run.batch.source
    inputs: list[Any] = [
        {} if isinstance(item, str) or (source is None and row in batch.errors) else item
        for row, item in enumerate(batch.items)
    ]
    return Beside(
        lines=batch.lines,
        echo=inputs if echo else None,
        notes=() if source is None else source.handed_back(len(batch.items)),
    )


def _unheard(_: str) -> None:
    """Nobody wants to know the stage."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunOptions:
    """What a body is checked with.

    ``catalogue`` has the products by address, ``limits`` the most items and traces, ``max_line`` the most bytes of a
    line of NDJSON. ``detail`` is used where the request states none. ``wire``: the answer is only written as JSON (see
    `answer_batch`). ``traced``: every result has its trace, whatever the request says, or those of the ids ``only``.
    """

    catalogue: Catalogue
    limits: Limits
    detail: str
    wire: bool = False
    traced: bool = False
    only: frozenset[str] | None = None
    max_line: int = MAX_LINE


def run_batch(
    body: bytes,
    media_type: str,
    options: RunOptions,
    *,
    csv: CsvOptions | None = None,
    stage: Callable[[str], None] = _unheard,
) -> Run:
    """Read a body and check every hang point of it.

    Args:
        body: the request, UTF-8.
        media_type: JSON, NDJSON or CSV.
        options: what it is checked with.
        csv: what a CSV can't say of itself, and a stream of lines may leave out; not used for JSON.
        stage: called with each of `STAGES` as it begins.

    Raises:
        ProblemError: the body can't be read, or is wrong outside its items.
    """
    csv = csv or CsvOptions()
    stage(STAGES[0])
    if media_type == NDJSON:
        lines = _lines(body, options.max_line)
        first = next(lines, None)
        header = read_header(first, csv, detail=options.detail)
        if not header.line and first is not None:
            lines = chain([first], lines)
        return run_lines(replace(header, batch=_traced(header.batch, options)), lines, options, stage=stage)
    batch = read_csv(body, csv) if media_type == CSV else read_batch(body)
    stage(STAGES[1])
    return _answered(batch, options)


def _answered(batch: Batch, options: RunOptions) -> Run:
    batch = _traced(batch, options)
    answer = answer_batch(
        batch, catalogue=options.catalogue, limits=options.limits, detail=options.detail, wire=options.wire
    )
    return Run(batch=batch, answer=answer)


def _traced(batch: Batch, options: RunOptions) -> Batch:
    return replace(batch, detail="trace", traced=options.only) if options.traced else batch


def run_lines(
    header: Header, lines: Iterable[Line], options: RunOptions, *, stage: Callable[[str], None] = _unheard
) -> Run:
    """A stream of lines as a whole: all of it is read before any of it is answered.

    Args:
        header: of the stream.
        lines: those of its items.
        options, stage: as `run_batch` takes them.

    Raises:
        ProblemError: no items, or more than the limit.
    """
    batch = LineBatch(header, catalogue=options.catalogue, limits=options.limits, max_line=options.max_line)
    rest = iter(lines)
    blocks = [batch.read(some) for some in iter(lambda: list(islice(rest, BLOCK)), [])]
    if not blocks:
        raise no_items(header)
    stage(STAGES[1])
    batch.compare(blocks)
    whole = joined(blocks)
    texts = batch.answer_whole(whole)
    closing, _ = batch.closing()
    cases = batch.opening["load_cases"] | closing.get("load_cases", {})
    return Run(
        batch=replace(header.batch, items=whole.items, errors=whole.errors),
        answer=batch.opening | closing | {"load_cases": cases, "items": items_of(texts, wire=options.wire)},
    )


def _lines(body: bytes, most: int) -> Iterator[Line]:
    splitter = LineSplitter(most)
    yield from splitter.lines(body[at : at + PIECE] for at in range(0, len(body), PIECE))
    yield from splitter.end()


def run_single(body: bytes, options: RunOptions) -> Run:
    """Read and check one hang point (see `run_batch`).

    Raises:
        ProblemError: the body can't be read, or the point is invalid.
    """
    return _one(read_single(body), options, {"#/items/0": "#/item"})


def run_group(body: bytes, options: RunOptions) -> Run:
    """Read and check one group of anchors (see `run_batch`).

    Raises:
        ProblemError: the body can't be read, or the group is invalid.
    """
    return _one(read_group(body), options, {"#/items/0/hangs": "#/group/loads", "#/items/0": "#/group"})


def _one(batch: Batch, options: RunOptions, places: Mapping[str, str]) -> Run:
    run = _answered(batch, options)
    return replace(run, answer=valid_single(run.answer, places))


def valid_single(answer: dict[str, Any], places: Mapping[str, str]) -> dict[str, Any]:
    """The answer to one check. ``places`` are those of the item in the body, the innermost first."""
    if answer["summary"]["invalid"]:
        first = orjson.loads(orjson.dumps(answer["items"]))[0]
        problem = first["problem"]
        errors = [_single_error(error, places) for error in problem["errors"]]
        raise ProblemError(
            str(problem["type"]).removeprefix("/problems/"),
            f"{errors[0].pointer}: {errors[0].detail}",
            errors=errors,
        )
    return answer


def _single_error(error: dict[str, Any], places: Mapping[str, str]) -> FieldError:
    place = str(error["pointer"])
    inside = next(each for each in places if f"{place}/".startswith(f"{each}/"))
    return FieldError(
        pointer=places[inside] + place.removeprefix(inside),
        code=error["code"],
        detail=without_defaults(error["detail"]),
        allowed=tuple(error.get("allowed", ())),
    )
