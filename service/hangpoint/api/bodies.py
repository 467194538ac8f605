"""Bodies of requests: bytes in, validated items out, and what is wrong with each of the others.

One adapter a body is both validator and source of the OpenAPI document. Items that a first look accepts (`sifting`) are
taken from the plain JSON, the others are validated as they came. Validation goes through every item and names every
error, so those without one are known to be good: they are not validated again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import from_json

from hangpoint.api.body_errors import adapter_of, details, field_error, field_errors, slug_of, telling_first
from hangpoint.api.csv_places import Gaps
from hangpoint.api.csv_rest import Rest
from hangpoint.api.csv_source import CsvSource
from hangpoint.api.load_standards import EN1992_4, load_standard_of, refuse_mixed
from hangpoint.api.problems import FieldError, ProblemError, too_many
from hangpoint.api.schemas.group import GroupRequest
from hangpoint.api.schemas.request import BatchRequest, Item, PartialItem, SingleRequest
from hangpoint.api.schemas.words import MAX_ITEMS
from hangpoint.api.sifting import Sifted, part_of, sieve_of
from hangpoint.pack.objects import Objects

BLOCK = 1000
"""Rows that are checked at once: enough for arrays to pay, few enough to stay in the processor's cache."""

MAX_ERRORS_OF_ITEM = 20
MAX_SUGGESTIONS = 500
"""Unknown fields of a batch that the nearest names are looked up for; the others get the whole list."""

UNNAMED_GROUP = "group"
"""Id of a group that states none."""


@dataclass(slots=True, kw_only=True)
class Batch:
    """A request that has been read: ``items`` as they came, ``errors`` of those that are not valid, by row."""

    units: Any
    project: Any = None
    design_code: Any = None
    combinations: Any = None
    load_standard: Any = None
    detail: Any = None
    neighbours: Any = None
    structural_limits: Sequence[Mapping[str, Any]] = ()
    defaults: Mapping[str, Any] = field(default_factory=dict[str, Any])
    items: Sequence[Any]
    errors: Mapping[int, Sequence[FieldError]] = field(default_factory=dict[int, Sequence[FieldError]])
    lines: Sequence[int] = ()
    gaps: Mapping[int, Gaps] = field(default_factory=dict[int, Gaps])
    """Of rows of a CSV with empty places in their lists."""
    source: CsvSource | None = None
    """The cells of a CSV."""
    rest: Mapping[int, Rest] = field(default_factory=dict[int, Rest])
    """Of rows of a CSV with wrong cells what is right in them."""
    traced: frozenset[str] | None = None
    """Ids of the items that have a trace where ``detail`` asks for traces; None for all."""
    others: Mapping[str, Any] = field(default_factory=dict[str, Any])
    """What a request of another resource states beside its items."""
    columns: Sequence[Objects] = ()
    """Items that were turned into columns already, in blocks of rows."""

    def __post_init__(self) -> None:
        """Refuse a load standard that doesn't go with the design code.

        Raises:
            ProblemError: they contradict each other.
        """
        refuse_mixed(self.design_code, self.load_standard)

    @property
    def by_en(self) -> bool:
        """The points go by EN 1992-4."""
        return self.design_code == EN1992_4

    @property
    def combined_by(self) -> str:
        """The load standard that holds, stated or not."""
        return load_standard_of(self.design_code, self.load_standard)

    @property
    def echoed(self) -> dict[str, Any]:
        """What the answer repeats."""
        unread = [] if self.source is None else [title for title, _ in self.source.unread]
        return {
            **({} if self.project is None else {"project": self.project}),
            **({"columns_not_read": unread} if unread else {}),
        }

    def not_in_columns(self) -> Sequence[int]:
        """The rows of the other items."""
        if sum(map(len, self.columns)) == len(self.items):
            return []
        known = {row for objects in self.columns for row in objects.rows}
        return [row for row in range(len(self.items)) if row not in known]

    def objects(self, rows: Sequence[int]) -> Objects:
        """The items of some rows."""
        for objects in self.columns:
            if len(rows) and objects.rows[0] <= rows[0] <= objects.rows[-1]:
                places = objects.places(rows)
                if places is not None:
                    return objects.taken(places)
        return Objects([self.items[row] for row in rows])


_Read = TypeVar("_Read", bound=Batch)


def read_batch(body: bytes) -> Batch:
    """A batch of hang points in JSON.

    Raises:
        ProblemError: not JSON, or wrong outside the items.
    """
    return read_items(BatchRequest, body, what="hang points", batch=Batch, block=BLOCK)


def read_items(
    request: Any, body: bytes, *, what: str = "items", batch: type[_Read] = Batch, block: int = MAX_ITEMS
) -> _Read:
    """A request of ``items`` in JSON: errors inside an item are its own.

    Args:
        request: its typed dictionary; what ``batch`` has no field for is among its ``others``.
        body: as it came.
        what: its items are, in a message.
        batch: class of what is read.
        block: items that are packed together.

    Raises:
        ProblemError: not JSON, or wrong outside the items.
    """
    sieve = sieve_of(request)
    sifted = None if sieve is None else sieve.sift(body, block=block)
    errors = None if sifted is None else _errors_left(request, body, sifted)
    if sifted is None or errors is None:
        content, errors = _validated(request, body, what=what)
        return _batch(batch, content, errors=errors)
    return _batch(batch, sifted.content, errors=errors, columns=sifted.columns)


def _errors_left(request: Any, body: bytes, sifted: Sifted) -> Mapping[int, Sequence[FieldError]] | None:
    """Errors of the items that the first look has left, by row; an item without an error is put in its place.

    None if they can't be taken out of the body, or if the validator finds something wrong outside of them.
    """
    if not sifted.left:
        return {}
    items, part = sifted.content["items"], part_of(body, sifted)
    if part is None:
        return None
    try:
        valid = adapter_of(request).validate_json(part)["items"]
    except ValidationError as error:
        outside, by_row = _sort_errors(request, error, "items", rows=sifted.left)
        return None if outside else by_row
    for row, item in zip(sifted.left, valid, strict=True):
        items[row] = item
    return {}


def _validated(request: Any, body: bytes, *, what: str) -> tuple[Mapping[str, Any], Mapping[int, Sequence[FieldError]]]:
    """A body and the errors of its items by row, all by the validator."""
    try:
        return adapter_of(request).validate_json(body), {}
    except ValidationError as error:
        raw = plain_json(body)
        outside, by_row = _sort_errors(request, error, "items")
        if outside and outside[0].code == "too_long" and outside[0].pointer == "#/items":
            raise too_many(what, len(raw["items"]), _most_items(error)) from None
        if outside:
            raise ProblemError(slug_of(outside), _count_text(outside), errors=outside) from None
        names = tuple(request.__annotations__)
        return {name: raw[name] for name in names if name in raw}, by_row


def _most_items(error: ValidationError) -> int:
    """The items that a body with too many may have."""
    own = (each for each in details(error) if each["type"] == "too_long" and tuple(each["loc"]) == ("items",))
    return next(own)["ctx"]["max_length"]


def _batch(kind: type[_Read], content: Mapping[str, Any], **more: Any) -> _Read:
    known = {each.name for each in fields(kind)}
    own = {name: value for name, value in content.items() if name in known}
    others = {name: value for name, value in content.items() if name not in known}
    return kind(**own, **more, others=others)


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


def row_errors(
    items: Sequence[Any], item: Any = Item, request: Any = BatchRequest
) -> Mapping[int, Sequence[FieldError]]:
    """Errors by row of items that did not come as one JSON body: hang points, or others of a request."""
    try:
        adapter_of(list[item]).validate_python(items)
    except ValidationError as error:
        return _by_row(request, ((each["loc"], each) for each in details(error)), prefix=("items",))
    return {}


def read_defaults(defaults: Mapping[str, Any], partial: Any = PartialItem, request: Any = BatchRequest) -> None:
    """Check defaults that did not come with a JSON body: of hang points, or of other items of a request.

    Raises:
        ProblemError: the defaults are not valid.
    """
    try:
        adapter_of(partial).validate_python(defaults)
    except ValidationError as error:
        errors = [field_error(request, ("defaults", *each["loc"]), each) for each in details(error)]
        raise ProblemError(slug_of(errors), _count_text(errors), errors=errors) from None


def plain_json(body: bytes) -> Any:
    """The body as plain JSON.

    Raises:
        ProblemError: it is empty, or not JSON in UTF-8 without a byte order mark.
    """
    if not body.strip():
        raise ProblemError("malformed", "The body is empty: send the request as JSON in UTF-8.")
    if body.startswith(b"\xef\xbb\xbf"):
        raise ProblemError("malformed", "The body begins with a byte order mark; send JSON in UTF-8 without one.")
    try:
        return from_json(body, allow_inf_nan=False)
    except ValueError as error:
        raise ProblemError("malformed", f"The body is not JSON in UTF-8: {error}.") from None


def _sort_errors(
    body: Any, error: ValidationError, name: str, *, rows: Sequence[int] | None = None
) -> tuple[list[FieldError], Mapping[int, Sequence[FieldError]]]:
    """Errors outside of the items, and those of each item; ``rows`` are those of the items if not all are there."""
    outside: list[FieldError] = []
    inside: list[tuple[Sequence[Any], Any]] = []
    for each in details(error):
        loc: tuple[Any, ...] = each["loc"]
        if len(loc) > 1 and loc[0] == name and isinstance(loc[1], int):
            row = loc[1] if rows is None else rows[loc[1]]
            inside.append(((row, *loc[2:]), each))
        else:
            outside.append(field_error(body, loc, each))
    return telling_first(outside), _by_row(body, inside, prefix=(name,))


def _by_row(body: Any, errors: Any, *, prefix: Sequence[str]) -> Mapping[int, Sequence[FieldError]]:
    rows: dict[int, list[FieldError]] = {}
    for count, (loc, each) in enumerate(errors):
        own = rows.setdefault(loc[0], [])
        if len(own) < MAX_ERRORS_OF_ITEM:
            own.append(field_error(body, (*prefix, *loc), each, nearest=count < MAX_SUGGESTIONS))
    return rows


def _count_text(errors: Sequence[FieldError]) -> str:
    first = errors[0]
    more = f" And {len(errors) - 1} more." if len(errors) > 1 else ""
    return f"{first.pointer}: {first.detail}{more}"
