"""Problem details (RFC 9457): the closed list of problems, and the one way to make them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from hangpoint.core.errors import HangpointError

MEDIA_TYPE = "application/problem+json"
MAX_ERRORS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class ProblemKind:
    """One kind of problem: its title and status never change; ``page`` is what its page says."""

    slug: str
    title: str
    status: int
    page: str


_KINDS = (
    ProblemKind(
        slug="malformed",
        title="The body can't be read",
        status=400,
        page="The body is empty, or it or a line of it is not JSON or CSV in UTF-8: a syntax error, a byte order"
        " mark in JSON, or bytes of another encoding; or it is not compressed as its Content-Encoding says. It"
        " was not checked. Send UTF-8 without a byte order mark, and let a library write the JSON.",
    ),
    ProblemKind(
        slug="validation",
        title="The request is not valid",
        status=422,
        page="A field is missing, unknown, of the wrong type or contradicts another. Each error names its place by a"
        " pointer into the request, says what is wrong, and where it helps what is allowed.",
    ),
    ProblemKind(
        slug="quantity",
        title="A quantity can't be used",
        status=422,
        page="A quantity has the wrong dimension, an unknown unit, or is out of range. Give a number in the unit of the"
        ' request\'s system or a text with its own unit: 3.5, "3-1/2 in", "5\'-6\\"", "90 mm".',
    ),
    ProblemKind(
        slug="unknown-product",
        title="The catalogue has no such product",
        status=422,
        page="Family, size and h_ef together name a product. The nearest ones are listed; GET /v1/families lists all.",
    ),
    ProblemKind(
        slug="unknown-option",
        title="There is no such option",
        status=422,
        page="A pipe size, schedule, rod size or rule that the tables don't hold. What they hold is listed.",
    ),
    ProblemKind(
        slug="duplicate-id",
        title="Two items have the same id",
        status=422,
        page="Every hang point of a batch has an id of its own, so that an answer can't be taken for another's.",
    ),
    ProblemKind(
        slug="too-many-items",
        title="Too many items",
        status=413,
        page="A batch has more hang points, or asks for more traces, anchors in load cases or cells of a workbook, than"
        " the limit; or a question would check more than it may. GET /v1/limits lists the limits; send the rest in"
        " another request, or ask for what the detail says.",
    ),
    ProblemKind(
        slug="too-large",
        title="The body is too large",
        status=413,
        page="The body has more bytes than the limit of this address, a compressed one inflated, or a line has more"
        " than the limit of lines. GET /v1/limits lists the limits.",
    ),
    ProblemKind(
        slug="unsupported-media",
        title="The media type is not supported",
        status=415,
        page="The Content-Type or Content-Encoding of the request is not one that this address reads. The Accept and"
        " Accept-Encoding headers of the answer list those that are.",
    ),
    ProblemKind(
        slug="not-acceptable",
        title="No acceptable form of the answer",
        status=406,
        page="The Accept header asks for a form that this address doesn't have. The detail lists those that it has.",
    ),
    ProblemKind(
        slug="impossible-geometry",
        title="The geometry is impossible",
        status=422,
        page="An embedment that reaches the far face of the member, a wall thicker than the pipe: nothing to check.",
    ),
    ProblemKind(
        slug="unauthorised",
        title="A token is needed",
        status=401,
        page="This service lets callers in by a bearer token, and the request has none that it knows. Ask the"
        " operator of the service for one.",
    ),
    ProblemKind(
        slug="overloaded",
        title="The service is busy",
        status=503,
        page="Too much is under way. Wait for the seconds of the Retry-After header and send the request again: checks"
        " change nothing, so sending twice is safe.",
    ),
    ProblemKind(
        slug="timeout",
        title="The body did not arrive in time",
        status=408,
        page="The body, or a part of a stream, did not come within the time limit. Send it again; checks change"
        " nothing.",
    ),
    ProblemKind(
        slug="internal",
        title="The service failed",
        status=500,
        page="A defect of the service, not of the request. Report the trace id of the answer.",
    ),
    ProblemKind(
        slug="not-found",
        title="There is no such address",
        status=404,
        page="The path is not one of this service. GET /openapi.json and the pages under /docs list them all.",
    ),
    ProblemKind(
        slug="method-not-allowed",
        title="The method is not allowed here",
        status=405,
        page="The address exists, but not with this method. The Allow header lists the methods that it has.",
    ),
)

PROBLEMS: Mapping[str, ProblemKind] = {kind.slug: kind for kind in _KINDS}
"""The closed list of problems by slug."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldError:
    """One place of the request and what is wrong with it; of a CSV with the title of the column and the cell."""

    pointer: str
    code: str
    detail: str
    allowed: tuple[str, ...] = ()
    line: int | None = None
    column: str | None = None
    cell: str | None = None

    def as_json(self) -> dict[str, Any]:
        """The error as it stands in a problem."""
        made: dict[str, Any] = {"pointer": self.pointer, "code": self.code, "detail": self.detail}
        if self.allowed:
            made["allowed"] = list(self.allowed)
        rest = {"line": self.line, "column": self.column, "cell": self.cell}
        made |= {name: value for name, value in rest.items() if value is not None}
        return made


@dataclass(eq=False)
class ProblemError(HangpointError):
    """A request that is answered by a problem: its kind, what is wrong, where, and members of its own."""

    slug: str
    detail: str
    errors: Sequence[FieldError] = ()
    members: Mapping[str, Any] = field(default_factory=dict[str, Any])
    headers: Mapping[str, str] = field(default_factory=dict[str, str])

    def __str__(self) -> str:
        return f"{self.slug}: {self.detail}"


def too_many(what: str, received: int, limit: int, *, instead: str = "", who: str = "batch") -> ProblemError:
    """The problem of a batch that asks for more than it may, or of ``who`` does; ``instead`` says what to do."""
    detail = f"The {who} asks for {received} {what}; the limit is {limit}."
    return ProblemError(
        "too-many-items",
        f"{detail} {instead}".rstrip(),
        members={"limit": limit, "received": received},
    )


def problem_body(
    slug: str,
    detail: str,
    *,
    errors: Sequence[FieldError] = (),
    members: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """The members of a problem; the list of errors is capped and counted."""
    kind = PROBLEMS[slug]
    body: dict[str, Any] = {
        "type": f"/problems/{slug}",
        "title": kind.title,
        "status": kind.status,
        "detail": detail,
    }
    if errors:
        body["errors"] = [error.as_json() for error in errors[:MAX_ERRORS]]
        body["error_count"] = len(errors)
    return body | dict(members or {})


def without_defaults(detail: str) -> str:
    """What is said of a place in a body that has no defaults."""
    return detail.replace(" here or in the defaults", "")


def pointer(*parts: str | int) -> str:
    """RFC 6901 pointer as a URI fragment."""
    escaped = (str(part).replace("~", "~0").replace("/", "~1") for part in parts)
    return "#" + "".join(f"/{part}" for part in escaped)
