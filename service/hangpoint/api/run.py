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
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.product.catalogue import Catalogue

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
    traced: bool = False,
    only: frozenset[str] | None = None,
    max_line: int = MAX_LINE,
) -> Run:
    """Read a body and check every hang point of it.

    Args:
        body: the request, UTF-8.
        media_type: JSON, NDJSON or CSV.
        options: what a CSV can't say of itself, and a stream of lines may leave out; not used for JSON.
        catalogue: products by address.
        limits: most items and traces.
        detail: used where the request states none.
        stage: called with each of `STAGES` as it begins.
        wire: the answer is only written as JSON (see `answer_batch`).
        traced: every result has its trace, whatever the request says.
        only: ids of those that have it then, in place of all.
        max_line: most bytes of a line of NDJSON.

    Raises:
        ProblemError: the body can't be read, or is wrong outside its items.
    """
    options = options or CsvOptions()
    stage(STAGES[0])
    if media_type == NDJSON:
        return _run_lines(
            *(body, options),
            catalogue=catalogue,
            limits=limits,
            detail=detail,
            stage=stage,
            wire=wire,
            traced=traced,
            only=only,
            max_line=max_line,
        )
    batch = _traced(read_csv(body, options) if media_type == CSV else read_batch(body), traced, only)
    stage(STAGES[1])
    answer = answer_batch(batch, catalogue=catalogue, limits=limits, detail=detail, wire=wire)
    return Run(batch=batch, answer=answer)


def _traced(batch: Batch, traced: bool, only: frozenset[str] | None = None) -> Batch:
    return replace(batch, detail="trace", traced=only) if traced else batch


def _run_lines(
    body: bytes,
    options: CsvOptions,
    *,
    catalogue: Catalogue,
    limits: Limits,
    detail: str,
    stage: Callable[[str], None],
    wire: bool,
    traced: bool,
    only: frozenset[str] | None,
    max_line: int,
) -> Run:
    lines = _lines(body, max_line)
    first = next(lines, None)
    header = read_header(first, options, detail=detail)
    if not header.line and first is not None:
        lines = chain([first], lines)
    header = replace(header, batch=_traced(header.batch, traced, only))
    return run_lines(header, lines, catalogue=catalogue, limits=limits, max_line=max_line, stage=stage, wire=wire)


def run_lines(
    header: Header,
    lines: Iterable[Line],
    *,
    catalogue: Catalogue,
    limits: Limits,
    max_line: int,
    stage: Callable[[str], None] = _unheard,
    wire: bool = False,
) -> Run:
    """A stream of lines as a whole: all of it is read before any of it is answered.

    Args:
        header: of the stream.
        lines: those of its items.
        catalogue, limits, max_line, stage, wire: as `run_batch` takes them.

    Raises:
        ProblemError: no items, or more than the limit.
    """
    batch = LineBatch(header, catalogue=catalogue, limits=limits, max_line=max_line)
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
        answer=batch.opening | closing | {"load_cases": cases, "items": items_of(texts, wire=wire)},
    )


def _lines(body: bytes, most: int) -> Iterator[Line]:
    splitter = LineSplitter(most)
    yield from splitter.lines(body[at : at + PIECE] for at in range(0, len(body), PIECE))
    yield from splitter.end()


def run_single(
    body: bytes, *, catalogue: Catalogue, limits: Limits, detail: str, wire: bool = False, traced: bool = False
) -> Run:
    """Read and check one hang point (see `run_batch`).

    Raises:
        ProblemError: the body can't be read, or the point is invalid.
    """
    batch = _traced(read_single(body), traced)
    answer = answer_batch(batch, catalogue=catalogue, limits=limits, detail=detail, wire=wire)
    return Run(batch=batch, answer=valid_single(answer, {"#/items/0": "#/item"}))


def run_group(
    body: bytes, *, catalogue: Catalogue, limits: Limits, detail: str, wire: bool = False, traced: bool = False
) -> Run:
    """Read and check one group of anchors (see `run_batch`).

    Raises:
        ProblemError: the body can't be read, or the group is invalid.
    """
    batch = _traced(read_group(body), traced)
    answer = answer_batch(batch, catalogue=catalogue, limits=limits, detail=detail, wire=wire)
    return Run(batch=batch, answer=valid_single(answer, {"#/items/0/hangs": "#/group/loads", "#/items/0": "#/group"}))


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
        detail=error["detail"],
        allowed=tuple(error.get("allowed", ())),
    )
