"""An answer as lines of JSON (NDJSON): what holds for all results first, a result a line, the counts last."""

from collections.abc import Iterable, Mapping
from typing import Any

import orjson

OPENING = (
    "engine_version",
    "design_code",
    "combinations",
    "load_standard",
    "catalogue",
    "units",
    "load_cases",
    "cautions",
)
"""Members of an answer that its first line has, beside a ``project``: what is known before any result."""

CLOSING = ("request_digest", "summary", "assumptions", "not_checked")
"""Members of an answer that its last line has, beside ``withdrawn``."""


def opening_line(answer: Mapping[str, Any]) -> bytes:
    """First line of an answer."""
    return json_lines([{name: answer[name] for name in (*OPENING, "project") if name in answer}])


def closing_line(answer: Mapping[str, Any], withdrawn: Iterable[Mapping[str, Any]] = ()) -> bytes:
    """Last line of an answer; ``withdrawn`` are results in place of others that were sent before."""
    return json_lines([{name: answer[name] for name in CLOSING} | {"withdrawn": list(withdrawn)}])


def answer_lines(answer: Mapping[str, Any]) -> bytes:
    """Every line of an answer."""
    return opening_line(answer) + json_lines(answer["items"]) + closing_line(answer)


def json_lines(objects: Iterable[Any]) -> bytes:
    """Objects as JSON, a line each."""
    return b"".join(orjson.dumps(each, option=orjson.OPT_APPEND_NEWLINE) for each in objects)
