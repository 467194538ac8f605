"""Bodies of requests: bytes in, validated items out, and what is wrong with each of the others.

One adapter a body is both validator and source of the OpenAPI document. Validation goes through every item and names
every error, so the items without one are known to be good: they are taken from the plain JSON and not validated again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import from_json

from hangpoint.api.body_errors import adapter_of, details, field_error, field_errors, slug_of
from hangpoint.api.problems import FieldError, ProblemError, too_many
from hangpoint.api.schemas.group import GroupRequest
from hangpoint.api.schemas.request import BatchRequest, Item, PartialItem, SingleRequest
from hangpoint.api.schemas.words import MAX_ITEMS

MAX_ERRORS_OF_ITEM = 20
MAX_SUGGESTIONS = 500
"""Unknown fields of a batch that the nearest names are looked up for; the others get the whole list."""

UNNAMED_GROUP = "group"
"""Id of a group that states none."""


@dataclass(slots=True, kw_only=True)
class Batch:
    """A request that has been read: ``items`` as they came, ``errors`` of those that are not valid, by row."""

    units: Any
    design_code: Any = None
    combinations: Any = None
    load_standard: Any = None
    detail: Any = None
    neighbours: Any = None
    defaults: Mapping[str, Any] = field(default_factory=dict[str, Any])
    items: Sequence[Any]
    errors: Mapping[int, Sequence[FieldError]] = field(default_factory=dict[int, Sequence[FieldError]])
    lines: Sequence[int] = ()


_Read = TypeVar("_Read", bound=Batch)


def read_batch(body: bytes) -> Batch:
    """A batch of hang points in JSON.

    Raises:
        ProblemError: not JSON, or wrong outside the items.
    """
    return read_items(BatchRequest, body, what="hang points")


def read_items(request: Any, body: bytes, *, what: str = "items", made: type[_Read] = Batch) -> _Read:
    """A request of ``items`` in JSON: errors inside an item are its own.

    Args:
        request: its typed dictionary, whose fields are those of ``made``.
        body: as it came.
        made: a `Batch`, or one with more fields.
        what: its items are, in a message.

    Raises:
        ProblemError: not JSON, or wrong outside the items.
    """
    try:
        return made(**adapter_of(request).validate_json(body))
    except ValidationError as error:
        raw = plain_json(body)
        outside, by_row = _sort_errors(request, error, "items")
        if outside and outside[0].code == "too_long" and outside[0].pointer == "#/items":
            raise too_many(what, len(raw["items"]), MAX_ITEMS) from None
        if outside:
            raise ProblemError(slug_of(outside), _count_text(outside), errors=outside) from None
        names = tuple(request.__annotations__)
        return made(**{name: raw[name] for name in names if name in raw}, errors=by_row)


def read_whole(request: Any, body: bytes) -> dict[str, Any]:
    """A request in JSON that is answered as a whole: any error ends it.

    Args:
        request: its typed dictionary.
        body: as it came.

    Raises:
        ProblemError: not JSON, or not valid.
    """
    try:
        return {**adapter_of(request).validate_json(body)}
    except ValidationError as error:
        plain_json(body)
        errors = field_errors(request, error)
        raise ProblemError(slug_of(errors), _count_text(errors), errors=errors) from None


def read_single(body: bytes) -> Batch:
    """A single check as a batch of one.

    Raises:
        ProblemError: not JSON, or not valid.
    """
    request = read_whole(SingleRequest, body)
    item = request.pop("item")
    return Batch(items=[item], neighbours="off", **request)


def read_group(body: bytes) -> Batch:
    """The check of a group as a batch of one point, from which its loads hang as forces.

    Raises:
        ProblemError: not JSON, or not valid.
    """
    request = read_whole(GroupRequest, body)
    group: dict[str, Any] = {"id": UNNAMED_GROUP, **request.pop("group")}
    hangs = {"kind": "forces", **group.pop("loads")}
    return Batch(items=[{**group, "hangs": hangs}], neighbours="off", **request)


def row_errors(items: Sequence[Any]) -> Mapping[int, Sequence[FieldError]]:
    """Errors by row of hang points that did not come as one JSON body."""
    try:
        adapter_of(list[Item]).validate_python(items)
    except ValidationError as error:
        return _by_row(BatchRequest, ((each["loc"], each) for each in details(error)), prefix=("items",))
    return {}


def read_defaults(defaults: Mapping[str, Any]) -> None:
    """Check defaults that did not come with a JSON body.

    Raises:
        ProblemError: the defaults are not valid.
    """
    try:
        adapter_of(PartialItem).validate_python(defaults)
    except ValidationError as error:
        errors = [field_error(BatchRequest, ("defaults", *each["loc"]), each) for each in details(error)]
        raise ProblemError(slug_of(errors), _count_text(errors), errors=errors) from None


def plain_json(body: bytes) -> Any:
    """The body as plain JSON.

    Raises:
        ProblemError: it is not JSON in UTF-8 without a byte order mark.
    """
    if body.startswith(b"\xef\xbb\xbf"):
        raise ProblemError("malformed", "The body begins with a byte order mark; send JSON in UTF-8 without one.")
    try:
        return from_json(body, allow_inf_nan=False)
    except ValueError as error:
        raise ProblemError("malformed", f"The body is not JSON in UTF-8: {error}.") from None


def _sort_errors(
    body: Any, error: ValidationError, name: str
) -> tuple[list[FieldError], Mapping[int, Sequence[FieldError]]]:
    outside: list[FieldError] = []
    inside: list[tuple[Sequence[Any], Any]] = []
    for each in details(error):
        loc = each["loc"]
        if len(loc) > 1 and loc[0] == name and isinstance(loc[1], int):
            inside.append((loc[1:], each))
        else:
            outside.append(field_error(body, loc, each))
    return outside, _by_row(body, inside, prefix=(name,))


def _by_row(body: Any, errors: Any, *, prefix: Sequence[str]) -> Mapping[int, Sequence[FieldError]]:
    rows: dict[int, list[FieldError]] = {}
    for count, (loc, each) in enumerate(errors):
        own = rows.setdefault(loc[0], [])
        if len(own) < MAX_ERRORS_OF_ITEM:
            own.append(field_error(body, (*prefix, *loc), each, nearest=count < MAX_SUGGESTIONS))
    return rows


def _count_text(errors: Sequence[FieldError]) -> str:
    first = errors[0]
    more = f" and {len(errors) - 1} more" if len(errors) > 1 else ""
    return f"{first.pointer}: {first.detail}{more}"
