"""What a file of hang points is: by its ending, and by its content where the two don't agree or it may be either."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import PurePath
from typing import Any, cast

from pydantic_core import from_json

from hangpoint.api.bodies import plain_json
from hangpoint.api.media import CSV, JSON, NDJSON, XLSX
from hangpoint.api.problems import ProblemError
from hangpoint.pack.hanger_items.packed import KIND_CODES

_ONE = ("item", "group")
WORKBOOKS = (".xlsx", ".xlsm")
ENDINGS = {
    **dict.fromkeys((".csv", ".tsv", ".txt"), CSV),
    **dict.fromkeys(WORKBOOKS, XLSX),
    ".json": JSON,
    **dict.fromkeys((".ndjson", ".jsonl"), NDJSON),
}
"""What files are by their ending."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """Media type of a file; ``one`` says what a JSON of one check is of, `item` or `group`."""

    media_type: str
    one: str | None = None


def file_kind(name: str, content: bytes) -> FileKind | None:
    """What a file is, None where its ending is none of `ENDINGS`.

    A text that begins with a brace is no CSV. JSON is one object over one or many lines, and lines of JSON are an
    object a line, none of which holds items.
    """
    by_ending = ENDINGS.get(PurePath(name).suffix.lower())
    if by_ending is None:
        return None
    begin = content[:64].lstrip()
    if not begin.startswith(b"{"):
        return FileKind(media_type=by_ending)
    first, _, rest = content.lstrip().partition(b"\n")
    if _is_line(first) and (rest.strip() or by_ending == NDJSON):
        return FileKind(media_type=NDJSON)
    if by_ending == NDJSON and first.strip() != b"{" and not _is_object(first):
        return FileKind(media_type=NDJSON)
    return FileKind(media_type=JSON, one=_one(content))


def holds_hanger_loads(items: Sequence[Any]) -> bool:
    """Whether the items of a request are those of hanger loads, told by their kinds."""
    return all(
        isinstance(item, Mapping) and "hangs" not in item and cast(Mapping[str, Any], item).get("kind") in KIND_CODES
        for item in items
    )


def _is_line(text: bytes) -> bool:
    """Whether a line is an object that holds no items."""
    members = _members(text)
    return members is not None and members.keys().isdisjoint((*_ONE, "items"))


def _is_object(text: bytes) -> bool:
    return _members(text) is not None


def _members(text: bytes) -> dict[str, Any] | None:
    try:
        value = from_json(text)
    except ValueError:
        return None
    return cast(dict[str, Any], value) if isinstance(value, dict) else None


def _one(content: bytes) -> str | None:
    """The member of a request for one check that says what is checked."""
    named = [name for name in _ONE if f'"{name}"'.encode() in content]
    if not named:
        return None
    try:
        value = plain_json(content)
    except ProblemError:
        return None
    if not isinstance(value, dict) or "items" in value:
        return None
    return next((name for name in named if name in value), None)
