"""A problem as it is sent: of a whole request, or of one item in an answer."""

from typing import NotRequired

from pydantic import ConfigDict, with_config
from typing_extensions import TypedDict

from hangpoint.api.schemas.codes import ProblemType

CLOSED = ConfigDict(extra="forbid", allow_inf_nan=False)


@with_config(CLOSED)
class FieldProblem(TypedDict):
    """One place of the request and what is wrong with it.

    ``pointer`` is a JSON pointer as a URI fragment (RFC 6901): into the body (`#/items/3/base/thickness`), from a CSV
    to a row from 1 and a column (`#/rows/4/base.thickness`), from lines to a line from 1 (`#/lines/5/base/thickness`),
    or the name of a query (`?units`). ``line`` is that of a CSV or of lines, from 1, as an editor counts. ``column``
    is the title of a column of a CSV as it stands in the file, ``cell`` what stands in it, its first 40 characters.
    ``allowed`` is what may stand there; where a name is unknown, the names that are nearest to it.
    """

    pointer: str
    code: str
    detail: str
    allowed: NotRequired[list[str]]
    line: NotRequired[int]
    column: NotRequired[str]
    cell: NotRequired[str]


class Problem(TypedDict):
    """Problem details (RFC 9457). ``instance`` and ``trace_id`` stand where it is a response of its own.

    ``limit`` and ``received`` stand where a limit is exceeded. ``error_count`` counts all errors, and ``errors`` has as
    many of them as GET /v1/limits says.
    """

    type: ProblemType
    title: str
    status: int
    detail: str
    instance: NotRequired[str]
    trace_id: NotRequired[str]
    errors: NotRequired[list[FieldProblem]]
    error_count: NotRequired[int]
    limit: NotRequired[int]
    received: NotRequired[int]
