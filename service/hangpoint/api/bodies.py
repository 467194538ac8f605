"""Bodies of requests: bytes in, validated items out, and what is wrong with each of the others.

One adapter a body is both validator and source of the OpenAPI document. Validation goes through every item and names
every error, so the items without one are known to be good: they are taken from the plain JSON and not validated again.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache
from typing import Any, get_args, get_type_hints

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic_core import from_json
from typing_extensions import is_typeddict

from hangpoint.api.problems import FieldError, ProblemError, pointer, too_many
from hangpoint.api.schemas.group import Group, GroupRequest
from hangpoint.api.schemas.hanger_loads import HangerLoadsRequest, LoadItem, Shared
from hangpoint.api.schemas.request import BatchRequest, Item, PartialItem, SingleRequest
from hangpoint.api.schemas.words import MAX_ITEMS
from hangpoint.product.family import BRANCHES

MAX_ERRORS_OF_ITEM = 20
MAX_SUGGESTIONS = 500
"""Unknown fields of a batch that the nearest names are looked up for; the others get the whole list."""
UNION_TAGS = {
    "hangs": frozenset({"forces", "weight", "pipe"}),
    "line": frozenset({"pipe", "duct", "conduit", "tray", "line"}),
    "items": frozenset({"run", "riser", "trapeze", "equipment"}),
}
"""Kinds of the unions by the name they stand under; those of `items` under their number."""

UNNAMED_GROUP = "group"
"""Id of a group that states none."""
_QUOTED = re.compile("'([^']*)'")


@cache
def batch_adapter() -> TypeAdapter[BatchRequest]:
    """Validator of a batch in JSON."""
    return TypeAdapter(BatchRequest)


@cache
def single_adapter() -> TypeAdapter[SingleRequest]:
    """Validator of a single check."""
    return TypeAdapter(SingleRequest)


@cache
def group_adapter() -> TypeAdapter[GroupRequest]:
    """Validator of the check of a group."""
    return TypeAdapter(GroupRequest)


@cache
def hanger_loads_adapter() -> TypeAdapter[HangerLoadsRequest]:
    """Validator of what hangs."""
    return TypeAdapter(HangerLoadsRequest)


@cache
def items_adapter() -> TypeAdapter[list[Item]]:
    """Validator of items that come as rows of CSV."""
    return TypeAdapter(list[Item])


@cache
def defaults_adapter() -> TypeAdapter[PartialItem]:
    """Validator of defaults that come as a query or a file."""
    return TypeAdapter(PartialItem)


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


def read_batch(body: bytes) -> Batch:
    """A batch of hang points in JSON.

    Raises:
        ProblemError: not JSON, or wrong outside the items.
    """
    return _read(body, batch_adapter(), tuple(BatchRequest.__annotations__), "hang points")


def read_hanger_loads(body: bytes) -> Batch:
    """A batch of what hangs in JSON.

    Raises:
        ProblemError: not JSON, or wrong outside the items.
    """
    return _read(body, hanger_loads_adapter(), tuple(HangerLoadsRequest.__annotations__), "items")


def _read(body: bytes, adapter: TypeAdapter[Any], names: Sequence[str], what: str) -> Batch:
    try:
        request: dict[str, Any] = {**adapter.validate_json(body)}
    except ValidationError as error:
        raw = plain_json(body)
        outside, by_row = _sort_errors(error, "items")
        if outside and outside[0].code == "too_long" and outside[0].pointer == "#/items":
            raise too_many(what, len(raw["items"]), MAX_ITEMS) from None
        if outside:
            raise ProblemError(_slug(outside), _count_text(outside), errors=outside) from None
        return Batch(**{name: raw[name] for name in names if name in raw}, errors=by_row)
    return Batch(**request)


def read_single(body: bytes) -> Batch:
    """A single check as a batch of one.

    Raises:
        ProblemError: not JSON, or not valid.
    """
    request = _valid(single_adapter(), body)
    item = request.pop("item")
    return Batch(items=[item], neighbours="off", **request)


def read_group(body: bytes) -> Batch:
    """The check of a group as a batch of one point, from which its loads hang as forces.

    Raises:
        ProblemError: not JSON, or not valid.
    """
    request = _valid(group_adapter(), body)
    group: dict[str, Any] = {"id": UNNAMED_GROUP, **request.pop("group")}
    hangs = {"kind": "forces", **group.pop("loads")}
    return Batch(items=[{**group, "hangs": hangs}], neighbours="off", **request)


def _valid(adapter: TypeAdapter[Any], body: bytes) -> dict[str, Any]:
    try:
        return {**adapter.validate_json(body)}
    except ValidationError as error:
        plain_json(body)
        errors = field_errors(error)
        raise ProblemError(_slug(errors), _count_text(errors), errors=errors) from None


def read_items(items: Sequence[Any]) -> Mapping[int, Sequence[FieldError]]:
    """Errors by row of items that did not come as one JSON body."""
    try:
        items_adapter().validate_python(items)
    except ValidationError as error:
        return _by_row(((each["loc"], each) for each in _details(error)), prefix=("items",))
    return {}


def read_defaults(defaults: Mapping[str, Any]) -> None:
    """Check defaults that did not come with a JSON body.

    Raises:
        ProblemError: the defaults are not valid.
    """
    try:
        defaults_adapter().validate_python(defaults)
    except ValidationError as error:
        errors = [_field_error(("defaults", *each["loc"]), each) for each in _details(error)]
        raise ProblemError(_slug(errors), _count_text(errors), errors=errors) from None


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


def field_errors(error: ValidationError) -> list[FieldError]:
    """Every error of a validation with its pointer."""
    return [_field_error(each["loc"], each) for each in _details(error)]


def _details(error: ValidationError) -> list[Any]:
    """Every error, with what was validated under ``of``."""
    return [{**each, "of": error.title} for each in error.errors(include_url=False, include_input=False)]


def _sort_errors(error: ValidationError, name: str) -> tuple[list[FieldError], Mapping[int, Sequence[FieldError]]]:
    outside: list[FieldError] = []
    inside: list[tuple[Sequence[Any], Any]] = []
    for each in _details(error):
        loc = each["loc"]
        if len(loc) > 1 and loc[0] == name and isinstance(loc[1], int):
            inside.append((loc[1:], each))
        else:
            outside.append(_field_error(loc, each))
    return outside, _by_row(inside, prefix=(name,))


def _by_row(errors: Any, *, prefix: Sequence[str]) -> Mapping[int, Sequence[FieldError]]:
    rows: dict[int, list[FieldError]] = {}
    for count, (loc, each) in enumerate(errors):
        own = rows.setdefault(loc[0], [])
        if len(own) < MAX_ERRORS_OF_ITEM:
            own.append(_field_error((*prefix, *loc), each, nearest=count < MAX_SUGGESTIONS))
    return rows


def _is_branch(loc: Sequence[Any], at: int, *, loads: bool) -> bool:
    """Whether a part of a place names the branch of a union and not a place in the request.

    Only the items of hanger ``loads`` are a union themselves.
    """
    part, before = loc[at], loc[at - 1] if at else None
    if loads and at == 2 and isinstance(before, int):
        before = loc[0]
    return part in UNION_TAGS.get(str(before), ()) or (part in BRANCHES and str(before).startswith("n_p_"))


def _field_error(loc: Sequence[Any], error: Any, *, nearest: bool = True) -> FieldError:
    kind = error["type"]
    loads = error["of"] == HangerLoadsRequest.__name__
    places = [part for at, part in enumerate(loc) if not _is_branch(loc, at, loads=loads)]
    code, detail, allowed = kind, f"{error['msg']}.".replace("..", "."), ()
    if kind == "extra_forbidden":
        code, detail = "unknown-field", "There is no such field here."
        allowed = _nearest_field(str(places[-1]), places[:-1], nearest, loads)
    elif kind == "missing":
        detail = "This field is required."
    elif kind == "union_tag_not_found":
        code, detail = "missing", "The kind is required."
        places = [*places, "kind"]
    elif kind == "union_tag_invalid":
        code, detail = "unknown-option", "There is no such kind."
        tags = UNION_TAGS[next(str(part) for part in reversed(places) if part in UNION_TAGS)]
        places, allowed = [*places, "kind"], tuple(sorted(tags))
    elif kind == "literal_error":
        code, allowed = "unknown-option", tuple(_QUOTED.findall(error["ctx"]["expected"]))
    elif kind == "product":
        places = [*places, *error["ctx"]["path"]]
    return FieldError(pointer=pointer(*places), code=code, detail=detail, allowed=allowed)


@cache
def _fields_by_parent(loads: bool) -> Mapping[str, tuple[str, ...]]:
    """Names of the fields under each name, over all kinds of hang points, or of what hangs where ``loads``."""
    found: dict[str, set[str]] = {}
    todo: list[tuple[str, Any]] = [("", BatchRequest), ("", SingleRequest), ("items", Item), ("item", Item)]
    todo += [("defaults", PartialItem), ("", GroupRequest), ("group", Group)]
    if loads:
        todo = [("", HangerLoadsRequest), ("items", LoadItem), ("defaults", Shared)]
    seen: set[tuple[str, int]] = set()
    while todo:
        name, kind = todo.pop()
        if is_typeddict(kind) or (isinstance(kind, type) and issubclass(kind, BaseModel)):
            if (name, id(kind)) in seen:
                continue
            seen.add((name, id(kind)))
            for child, hint in _hints(kind).items():
                found.setdefault(name, set()).add(child)
                todo.append((child, hint))
        else:
            todo.extend((name, part) for part in get_args(kind))
    return {name: tuple(sorted(fields)) for name, fields in found.items()}


def _hints(kind: Any) -> dict[str, Any]:
    if is_typeddict(kind):
        return get_type_hints(kind, include_extras=True)
    return {name: part.annotation for name, part in kind.model_fields.items()}


def _nearest_field(name: str, parents: Sequence[Any], nearest: bool, loads: bool) -> tuple[str, ...]:
    parent = next((str(part) for part in reversed(parents) if isinstance(part, str)), "")
    known = _fields_by_parent(loads).get(parent, ())
    if not nearest:
        return known
    return tuple(get_close_matches(name[:64], known, n=3, cutoff=0.5)) or known


def _slug(errors: Sequence[FieldError]) -> str:
    if errors and all(error.code == "quantity" for error in errors):
        return "quantity"
    return "validation"


def _count_text(errors: Sequence[FieldError]) -> str:
    first = errors[0]
    more = f" and {len(errors) - 1} more" if len(errors) > 1 else ""
    return f"{first.pointer}: {first.detail}{more}"
