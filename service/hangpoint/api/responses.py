"""Answers on the wire: JSON, lines, files and problems with their headers."""

import hashlib
import secrets
from collections.abc import Mapping
from typing import Any

import orjson
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.media import JSON, NDJSON
from hangpoint.api.problems import MEDIA_TYPE, PROBLEMS, ProblemError, problem_body
from hangpoint.report.lines import answer_lines

NO_STORE = {"Cache-Control": "no-store"}
CATALOGUE_SECONDS = 300
_TRACE_ID = "hangpoint.trace_id"


def json_response(content: Any, *, held: Any = None) -> Response:
    """A computed answer in JSON, not to be stored.

    ``held`` is kept until the response was sent: freeing what a large batch was made of takes as long as checking it,
    and need not keep the caller waiting.
    """
    return _holding(Response(orjson.dumps(content), media_type=JSON, headers=NO_STORE), held)


def lines_response(answer: Mapping[str, Any], *, held: Any = None) -> Response:
    """An answer that is whole, as lines of JSON (``held`` as above)."""
    return _holding(Response(answer_lines(answer), media_type=NDJSON, headers=NO_STORE), held)


def file_response(content: str | bytes, media_type: str, name: str, *, shown: bool = False) -> Response:
    """A computed answer as a file under a name of ours, to be kept or to be ``shown`` as a page."""
    headers = {**NO_STORE, "Content-Disposition": f'{"inline" if shown else "attachment"}; filename="{name}"'}
    return Response(content, media_type=media_type, headers=headers)


def _holding(response: Response, held: Any) -> Response:
    response.held = held  # pyright: ignore[reportAttributeAccessIssue]
    return response


def cached_response(request: Request, content: Any) -> Response:
    """An answer that changes with the catalogue only: strong ETag, and 304 where the caller has it."""
    body = orjson.dumps(content)
    tag = f'"{hashlib.sha256(body).hexdigest()[:32]}"'
    headers = {"ETag": tag, "Cache-Control": f"public, max-age={CATALOGUE_SECONDS}"}
    known = [each.strip().removeprefix("W/") for each in request.headers.get("if-none-match", "").split(",")]
    if tag in known or "*" in known:
        return Response(status_code=304, headers=headers)
    return Response(body, media_type=JSON, headers=headers)


def trace_id(request: Request) -> str:
    """Trace id of a request, the same however often it is asked: of its W3C ``traceparent`` header, or a new one."""
    known: str | None = request.scope.get(_TRACE_ID)
    if known is None:
        parts = request.headers.get("traceparent", "").split("-")
        known = parts[1] if len(parts) == 4 and _is_trace_id(parts[1]) else secrets.token_hex(16)
        request.scope[_TRACE_ID] = known
    return known


def _is_trace_id(text: str) -> bool:
    return len(text) == 32 and set(text) <= set("0123456789abcdef") and set(text) != {"0"}


def problem_response(request: Request, problem: ProblemError) -> Response:
    """A problem as answer, with the path it concerns and the trace id (its header is that of every response)."""
    body = problem_body(problem.slug, problem.detail, errors=problem.errors, members=problem.members) | {
        "instance": request.url.path,
        "trace_id": trace_id(request),
    }
    headers = {**NO_STORE, **problem.headers}
    return Response(
        orjson.dumps(body), status_code=PROBLEMS[problem.slug].status, media_type=MEDIA_TYPE, headers=headers
    )
