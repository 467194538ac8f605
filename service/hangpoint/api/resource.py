"""A resource that computes an answer from a body of JSON: its route, and what the OpenAPI document says of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import orjson
from fastapi import APIRouter
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from hangpoint.api.csv_resource import Answered, CsvBody
from hangpoint.api.media import CSV, HTML, JSON, PDF, XLSX, answer_form, body_media_type, with_charset
from hangpoint.api.pdf_files import MOST_PAGE_SHEETS, pdf_in_turn
from hangpoint.api.problems import too_many
from hangpoint.api.query import check_query, read_query
from hangpoint.api.request_log import note_items
from hangpoint.api.responses import file_response, json_response
from hangpoint.api.state import State, state


@dataclass(frozen=True, slots=True, kw_only=True)
class FileForm:
    """The answer as a file: its word in ``?format=``, media type, name, and what makes it of the answer as JSON.

    What writes a file takes what the answer comes with too, as the columns of a CSV that are handed back. What writes a
    PDF makes the page that is typeset. ``sheets`` counts the sheets of a page and of a PDF, where they are limited.
    """

    word: str
    media: str
    name: str
    write: Callable[..., str | bytes]
    sheets: Callable[[Any], int] | None = None

    async def made(self, answer: Any, beside: Any = ()) -> str | bytes:
        """The file; ``beside`` is what the answer comes with."""
        written = await run_in_threadpool(self.written, answer, beside)
        return await pdf_in_turn(str(written), sheets=self.count(answer)) if self.media == PDF else written

    def written(self, answer: Any, beside: Any = ()) -> str | bytes:
        """What is written; of a PDF the page that is typeset.

        Raises:
            ProblemError: a page has too many sheets.
        """
        sheets = self.count(answer)
        if self.media == HTML and sheets > MOST_PAGE_SHEETS:
            raise too_many("sheets", sheets, MOST_PAGE_SHEETS)
        return self.write(answer, *((beside,) if beside else ()))

    def count(self, answer: Any) -> int:
        """The sheets of the file that are limited."""
        return 0 if self.sheets is None else self.sheets(answer)

    def schema(self) -> dict[str, Any]:
        """Of the file, for the document."""
        return {"type": "string", "format": "binary"} if self.media in (PDF, XLSX) else {"type": "string"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Resource:
    """One resource.

    ``request`` and ``answer`` are typed dictionaries; ``description`` is for the document. ``run`` takes the body and
    the state of the application, and raises `ProblemError` where there is no answer; with the answer may come what its
    files need beside it. ``single``: the body is held to
    the limit of a single check, not of a batch. ``by_item``: an item that is bad costs the others nothing.
    """

    path: str
    operation_id: str
    tag: str
    summary: str
    description: str
    request: Any
    answer: Any
    answer_text: str
    example: Mapping[str, Any]
    run: Callable[[bytes, State], Mapping[str, Any] | Answered]
    files: tuple[FileForm, ...] = field(default=())
    single: bool = False
    by_item: bool = False
    csv: CsvBody | None = None
    """What it takes as CSV, if it does."""

    @property
    def forms(self) -> dict[str, str]:
        """Media types of the answer by their word, JSON first."""
        return {"json": JSON} | {each.word: each.media for each in self.files}

    def router(self) -> APIRouter:
        """The route of the resource."""
        router = APIRouter(tags=[self.tag])
        router.add_api_route(
            self.path,
            self._respond,
            methods=["POST"],
            operation_id=self.operation_id,
            summary=self.summary,
            description=self.description,
        )
        return router

    async def _respond(self, request: Request) -> Response:
        known = (JSON,) if self.csv is None else (JSON, CSV)
        stated = request.headers.get("content-type", "")
        media = body_media_type(stated, known)
        query = read_query(request.query_params.multi_items())
        if media == CSV:
            query = with_charset(query, stated)
        if media == JSON:
            own = ("format",) if self.files else ()
            check_query(query, own, formats=tuple(self.forms), of_csv=self.csv is not None)
        accept = ",".join(request.headers.getlist("accept"))
        form = answer_form(query.get("format"), accept, media, known=self.forms)
        body = await request.body()
        answer, beside = await run_in_threadpool(self._answer, body, media, query, state(request))
        if self.by_item:
            note_items(request.scope, len(answer["items"]))
        for each in self.files:
            if form == each.media:
                plain = orjson.loads(orjson.dumps(answer))
                text = await each.made(plain, beside)
                media = f"{each.media}; charset=utf-8" if each.media in (CSV, HTML) else each.media
                return file_response(text, media, each.name, shown=each.media in (HTML, PDF))
        return json_response(answer)

    def _answer(self, body: bytes, media: str, query: Mapping[str, str], own: State) -> Answered:
        if self.csv is None or media == JSON:
            return self.answered(body, own)
        return self.csv.answer(body, query, own, formats=tuple(self.forms))

    def answered(self, body: bytes, own: State) -> Answered:
        """The answer to a body of JSON, and what its files need beside it.

        Raises:
            ProblemError: there is none.
        """
        made = self.run(body, own)
        return made if isinstance(made, tuple) else (made, ())

    def complete(self, operation: dict[str, Any], *, ref: str, parameter: str) -> None:
        """Put body and answer into the operation of the document.

        Args:
            operation: as the framework made it, its problems added.
            ref: template of a reference to a schema.
            parameter: description of ``?format=``.
        """
        schema = {"$ref": ref.format(model=self.request.__name__)}
        taken: dict[str, Any] = {JSON: {"schema": schema, "example": dict(self.example)}}
        if self.csv is not None:
            rows = {"type": "string", "description": self.csv.text}
            taken[CSV] = {"schema": rows, "example": self.csv.example}
        operation["requestBody"] = {"required": True, "content": taken}
        content: dict[str, Any] = {JSON: {"schema": {"$ref": ref.format(model=self.answer.__name__)}}}
        content |= {each.media: {"schema": each.schema()} for each in self.files}
        operation["responses"]["200"] = {"description": self.answer_text, "content": content}
        if self.files:
            operation["parameters"] = [
                {
                    "name": "format",
                    "in": "query",
                    "required": False,
                    "description": parameter,
                    "schema": {"type": "string", "enum": list(self.forms)},
                },
                *(() if self.csv is None else self.csv.parameters(self.request)),
            ]
