"""The OpenAPI document: the routes of the framework, with bodies and answers from the adapters that validate them."""

from collections.abc import Callable, Iterator, Mapping, Sequence, Set
from typing import Any, cast

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic import TypeAdapter

from hangpoint import __version__
from hangpoint.api.body_errors import adapter_of
from hangpoint.api.examples import BATCH_CSV, BATCH_JSON, BATCH_LINES, GROUP_JSON, SINGLE_JSON
from hangpoint.api.media import CSV, FORMATS, HTML, JSON, NDJSON, PDF, XLSX
from hangpoint.api.named_schemas import REF, describe_defaults, name_forms_of_items, name_word_lists
from hangpoint.api.problems import MEDIA_TYPE, PROBLEMS
from hangpoint.api.resources import RESOURCES
from hangpoint.api.routes import workbooks
from hangpoint.api.routes.hang_points import BATCH_PATH, FORMS_OF_ONE, GROUP_PATH, SINGLE_PATH
from hangpoint.api.schemas import served, served_lists
from hangpoint.api.schemas.answer import Answer
from hangpoint.api.schemas.answer_texts import answer_text
from hangpoint.api.schemas.group import GroupRequest
from hangpoint.api.schemas.problem import Problem
from hangpoint.api.schemas.request import BatchRequest, SingleRequest
from hangpoint.api.schemas.resource_texts import request_text
from hangpoint.api.schemas.stream import StreamBreak, StreamEnd, StreamHeader, StreamStart
from hangpoint.api.schemas.workbooks import WorkbookRows
from hangpoint.product.family import Family

DESCRIPTION = """\
Whether the anchors at hundreds of hang points hold what hangs from them. Checks are pure: nothing is stored, and the
same request can be sent again. An anchor that does not hold is an answer with status `failed`, never an HTTP error.

**This service is an aid, not a design.** A licensed design professional, the local code and the product's current
evaluation data and instructions decide. The built-in product families are invented.
"""
CSV_TEXT = (
    "Columns: GET /v1/columns. Titles and words of closed lists are read without regard to case. A query"
    " `default.COLUMN=CELL`, each column once, is the cell of every row that lacks its own; `project.name=TEXT` and the"
    " other members of a project name the job."
)
LINES_TEXT = "Lines of JSON in UTF-8: a StreamHeader, then an Item a line. LF or CRLF; blank lines are skipped."
ANSWER_LINES_TEXT = (
    "Lines of JSON: a StreamStart, then a CheckedResult or InvalidResult a line, last a StreamEnd. With a StreamBreak"
    " as the last line, or without either, it is incomplete."
)
SHEETS_TEXT = "Calculation sheets to print, one a hang point, each with its calculation."
_PRINTED = {SINGLE_PATH, GROUP_PATH, BATCH_PATH, *(each.path for each in RESOURCES if "pdf" in each.forms)}
"""Where an answer can be a PDF."""
_TEXT_QUERY = {
    "format": list(FORMATS),
    "echo": ["true", "false"],
    "units": ["us", "si"],
    "design_code": ["aci318_19", "en1992_4"],
    "combinations": ["strength", "given_factored", "allowable"],
    "load_standard": ["asce7_16", "asce7_22", "en1990"],
    "detail": ["verdict", "modes", "trace"],
    "neighbours": ["check", "off"],
    "only": [],
    "delimiter": ["comma", "semicolon", "tab"],
    "decimal": [".", ","],
    "encoding": ["utf-8", "windows-1252"],
    "notes": [],
}
_QUERY_TEXT = {
    "format": "Form of the answer, in place of Accept.",
    "echo": "Repeat the inputs; in a CSV or a workbook only.",
    "units": "Unit system of bare numbers of a CSV and of its answer. JSON and a header of lines state their own.",
    "design_code": "Of a CSV. JSON and a header of lines state their own.",
    "combinations": "Of a CSV. JSON and a header of lines state their own.",
    "load_standard": "Standard whose combinations hold. Of a CSV; JSON and a header of lines state their own.",
    "detail": "How much the answer says, where the body states none.",
    "neighbours": "Of a CSV, check where not stated, and of lines, off where not stated. JSON states its own.",
    "only": "With format=html or pdf: ids of those whose sheets are wanted, with commas between them; all are checked.",
    "delimiter": "Of a CSV; otherwise the commonest one of its header.",
    "decimal": "Decimal sign of quantities and numbers of a CSV; other texts stay as they are.",
    "encoding": "Of a CSV; otherwise that of its Content-Type, or UTF-8. None is guessed.",
    "notes": "Of a CSV, titles of columns that are not read but handed back, with commas between them.",
}

_TAGS = {
    "hang points": "Checks.",
    "hanger loads": "What hangs, brought to rods and anchors.",
    "base interviews": "What to ask of a base before anything is checked.",
    "fixtures": "Brackets, equipment and posts: loads brought to their anchors.",
    "choosing": "Products for a point, for a whole job, and in place of others.",
    "site": "Setting, testing and judging anchors on site.",
    "reverse questions": "What would pass: limits, remedies, other places, what-ifs.",
    "take-offs": "What a job needs, and what was set.",
    "workbooks": "Workbooks as rows to send.",
    "catalogue": "What checks stand on.",
    "operations": "Health, versions, problem pages.",
}
"""What each group of addresses is for."""

_SERVED: dict[str, Any] = {
    "/": served.Start,
    "/livez": served.Live,
    "/readyz": served.Ready,
    "/version": served.Versions,
    "/v1/columns": served.Columns,
    "/v1/families": served.FamilyList,
    "/v1/families/{family}": Family,
    "/v1/limits": served.Limits,
    "/v1/quantities": served_lists.Quantities,
    "/v1/troubles": served.Troubles,
}
"""What is read by GET at each address but that of a schema."""


def openapi_document(app: FastAPI) -> Callable[[], dict[str, Any]]:
    """Maker of the document of an application; the document is made once."""
    made: dict[str, Any] = {}

    def document() -> dict[str, Any]:
        if not made:
            made.update(_document(app))
        return made

    return document


def _document(app: FastAPI) -> dict[str, Any]:
    document = get_openapi(
        title="hangpoint",
        version=__version__,
        description=DESCRIPTION,
        routes=app.routes,
        tags=[{"name": name, "description": text} for name, text in _TAGS.items()],
        servers=[{"url": "/", "description": "This service"}],
        license_info={"name": "All rights reserved"},
    )
    schemas: dict[str, Any] = {}
    own = (SingleRequest, GroupRequest, BatchRequest, StreamHeader)
    for request in (*own, *(each.request for each in RESOURCES)):
        _add(schemas, adapter_of(request), "validation")
    asked = frozenset(schemas)
    own_answers = (Answer, Problem, StreamStart, StreamEnd, StreamBreak, WorkbookRows)
    for answer in (*own_answers, *(each.answer for each in RESOURCES)):
        _add(schemas, TypeAdapter(answer), "serialization")
    for kind in _SERVED.values():
        _add(schemas, TypeAdapter(kind), "validation")
    _describe_fields(schemas, asked)
    _list_words(schemas)
    describe_defaults(schemas)
    name_forms_of_items(schemas)
    document["components"] = {"schemas": dict(sorted(schemas.items()))}
    paths = cast(dict[str, dict[str, Any]], document["paths"])
    for path, operations in paths.items():
        for method, operation in operations.items():
            _complete(path, method, operation)
    single, group, batch = (paths[path]["post"] for path in (SINGLE_PATH, GROUP_PATH, BATCH_PATH))
    single["requestBody"] = _body({JSON: _media("SingleRequest", SINGLE_JSON)})
    group["requestBody"] = _body({JSON: _media("GroupRequest", GROUP_JSON)})
    batch["requestBody"] = _body(
        {
            JSON: _media("BatchRequest", BATCH_JSON),
            NDJSON: {"schema": {"type": "string", "description": LINES_TEXT}, "example": BATCH_LINES},
            CSV: {"schema": {"type": "string", "description": CSV_TEXT}, "example": BATCH_CSV},
        }
    )
    batch["parameters"] = list(_parameters(_TEXT_QUERY))
    for one in (single, group):
        one["parameters"] = list(_parameters({"format": list(FORMS_OF_ONE)}))
    for operation in (single, group, batch):
        operation["responses"]["200"] = {
            "description": "A result or a problem for every hang point.",
            "content": {
                JSON: {"schema": {"$ref": REF.format(model="Answer")}},
                HTML: {"schema": {"type": "string", "description": SHEETS_TEXT}},
                PDF: {"schema": {"type": "string", "format": "binary", "description": SHEETS_TEXT}},
            },
        }
    batch["responses"]["200"]["content"] |= {
        NDJSON: {"schema": {"type": "string", "description": ANSWER_LINES_TEXT}},
        CSV: {"schema": {"type": "string"}},
        XLSX: {"schema": {"type": "string", "format": "binary"}},
    }
    for resource in RESOURCES:
        resource.complete(paths[resource.path]["post"], ref=REF, parameter=_QUERY_TEXT["format"])
    workbooks.complete(paths[workbooks.PATH]["post"], ref=REF)
    name_word_lists(document)
    return document


def _add(schemas: dict[str, Any], adapter: TypeAdapter[Any], mode: Any) -> None:
    schema = adapter.json_schema(ref_template=REF, mode=mode)
    schemas.update(schema.pop("$defs", {}))
    schemas[schema["title"]] = schema


def _list_words(schema: Any) -> None:
    """A word that is one of several forms as a list of one word: makers of clients don't read it as a constant."""
    if isinstance(schema, list):
        for each in cast(list[Any], schema):
            _list_words(each)
    if isinstance(schema, dict):
        members = cast(dict[str, Any], schema)
        for form in (*members.get("anyOf", ()), *members.get("oneOf", ())):
            if "const" in form:
                form["enum"] = [form.pop("const")]
        for each in members.values():
            _list_words(each)


def _describe_fields(schemas: dict[str, Any], asked: Set[str]) -> None:
    """Give fields their sentences as far as they have none; ``asked`` are the names of objects of requests."""
    for name, schema in schemas.items():
        for field, own in schema.get("properties", {}).items():
            text = request_text(name, field) if name in asked else answer_text(name, field)
            if text:
                own.setdefault("description", text)


def _complete(path: str, method: str, operation: dict[str, Any]) -> None:
    """Answers and problems of one operation."""
    posts = method == "post"
    slugs = ["internal"]
    if posts:
        slugs += [
            "malformed",
            "not-acceptable",
            "timeout",
            "too-large",
            "unsupported-media",
            "validation",
        ]
        if path in _PRINTED:
            slugs.append("overloaded")
    elif "{" in path:
        slugs.append("not-found")
    elif path == "/readyz":
        slugs.append("overloaded")
    responses: dict[str, Any] = {}
    if not posts:
        responses["200"] = _ok(path)
        responses["4XX"] = _problem("The request can't be answered.")
        if path.startswith("/v1/"):
            responses["304"] = {"description": "Not modified since the ETag of If-None-Match."}
    for slug in slugs:
        kind = PROBLEMS[slug]
        responses[str(kind.status)] = _problem(kind.title)
    operation["responses"] = dict(sorted(responses.items()))


def _ok(path: str) -> dict[str, Any]:
    if path.startswith("/problems/"):
        return {"description": "A page.", "content": {"text/html": {"schema": {"type": "string"}}}}
    if path == "/metrics":
        return {"description": "Counters.", "content": {"text/plain": {"schema": {"type": "string"}}}}
    schema: dict[str, Any] = {"type": "object", "description": "A JSON Schema, draft 2020-12."}
    if path in _SERVED:
        schema = {"$ref": REF.format(model=_SERVED[path].__name__)}
    return {"description": "As described.", "content": {JSON: {"schema": schema}}}


def _problem(text: str) -> dict[str, Any]:
    return {"description": text, "content": {MEDIA_TYPE: {"schema": {"$ref": REF.format(model="Problem")}}}}


def _media(model: str, example: Any) -> dict[str, Any]:
    return {"schema": {"$ref": REF.format(model=model)}, "example": example}


def _body(content: Mapping[str, Any]) -> dict[str, Any]:
    return {"required": True, "content": dict(content)}


def _parameters(query: Mapping[str, Sequence[str]]) -> Iterator[dict[str, Any]]:
    for name, words in query.items():
        yield {
            "name": name,
            "in": "query",
            "required": False,
            "description": _QUERY_TEXT[name],
            "schema": {"type": "string"} | ({"enum": list(words)} if words else {}),
        }
