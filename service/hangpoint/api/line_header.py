"""The header of a stream of lines: what holds for every item after it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, cast

from pydantic import ValidationError

from hangpoint.api.bodies import Batch, plain_json
from hangpoint.api.body_errors import adapter_of, field_errors, slug_of
from hangpoint.api.csv_body import CsvOptions
from hangpoint.api.lines import Line
from hangpoint.api.load_standards import OF_QUERY, refuse_mixed
from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.schemas.stream import StreamHeader

_FIELDS = frozenset(StreamHeader.__annotations__)
_STATED_ONCE = ("units", "design_code", "combinations", "load_standard", "neighbours")


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """A batch without items: what holds for all of them, and the line that it stands on, 0 without a header."""

    batch: Batch
    line: int

    @property
    def as_whole(self) -> bool:
        """Whether the points are compared as neighbours, for which all of them have to be read first."""
        return self.batch.neighbours == "check"


def read_header(first: Line | None, options: CsvOptions, *, detail: str) -> Header:
    """The header of a stream by its first line, which is none if it has an id or no field of a header.

    Args:
        first: the first line, None of an empty stream.
        options: units, design code, combinations, load standard, neighbours and detail that the header may leave out.
        detail: used where neither states one.

    Raises:
        ProblemError: the line can't be read, the header is not valid or contradicts the options, no units.
    """
    if first is None:
        raise _refused("missing", "The stream is empty.", pointer("lines"), None)
    place = pointer("lines", first.number)
    stated: Mapping[str, Any] = {}
    if is_header := _is_header(first, place):
        stated = _valid(first, place)
    for name in _STATED_ONCE:
        own, other = stated.get(name), getattr(options, name)
        if own is not None and other is not None and own != other:
            detail = f"The header says {own} and the request {other}: state it once."
            raise _refused("contradiction", detail, f"{place}/{name}", first.number)
    merged = {name: stated.get(name) or getattr(options, name) for name in (*_STATED_ONCE, "detail")}
    if merged["units"] is None:
        what = 'The units of bare numbers are required: {"units": "us"} or {"units": "si"} as the first line.'
        raise _refused("missing", what, f"{place}/units", first.number)
    where = {"place": f"{place}/load_standard", "line": first.number} if "load_standard" in stated else OF_QUERY
    refuse_mixed(merged["design_code"], merged["load_standard"], **where)
    merged["detail"] = merged["detail"] or detail
    merged["neighbours"] = merged["neighbours"] or "off"
    batch = Batch(**merged, project=stated.get("project"), defaults=stated.get("defaults", {}), items=[])
    return Header(batch=batch, line=first.number if is_header else 0)


def states_header(members: Mapping[str, Any]) -> bool:
    """Whether an object says what a header says, and not what an item does."""
    return "id" not in members and not _FIELDS.isdisjoint(members)


def no_items(header: Header) -> ProblemError:
    """The problem of a stream that ends where its first item should be."""
    return _refused("missing", "The stream has no items.", pointer("lines", header.line + 1), None)


def _is_header(line: Line, place: str) -> bool:
    if line.too_long:
        error = FieldError(pointer=place, code="line-too-long", detail="The first line is too long.", line=line.number)
        raise ProblemError("too-large", f"The first line has {line.too_long} bytes.", errors=[error])
    try:
        raw = plain_json(line.text)
    except ProblemError as problem:
        detail = problem.detail.replace("The body", "The first line")
        raise ProblemError(
            "malformed",
            detail,
            errors=[FieldError(pointer=place, code="malformed", detail=detail, line=line.number)],
        ) from None
    if not isinstance(raw, dict):
        return False
    names = cast(dict[str, Any], raw)
    return not names or states_header(names)


def _valid(line: Line, place: str) -> Mapping[str, Any]:
    try:
        return cast(Mapping[str, Any], adapter_of(StreamHeader).validate_json(line.text))
    except ValidationError as error:
        errors = [
            replace(each, pointer=f"{place}{each.pointer.removeprefix('#')}", line=line.number)
            for each in field_errors(StreamHeader, error)
        ]
        raise _problem(errors) from None


def _refused(code: str, detail: str, place: str, line: int | None) -> ProblemError:
    return _problem([FieldError(pointer=place, code=code, detail=detail, line=line)])


def _problem(errors: Sequence[FieldError]) -> ProblemError:
    return ProblemError(slug_of(errors), f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
