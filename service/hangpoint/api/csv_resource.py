"""A CSV as the body of a resource: one row an item, and in the query what a body of JSON states beside its items."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, get_args

from pydantic import ValidationError

from hangpoint.api.body_errors import adapter_of, field_errors
from hangpoint.api.csv_body import DEFAULT, NOTES, PROJECT, CsvOptions, under
from hangpoint.api.csv_cells import CellError
from hangpoint.api.csv_columns import columns
from hangpoint.api.csv_text import Encoding
from hangpoint.api.problems import FieldError, ProblemError
from hangpoint.api.project import read_project
from hangpoint.api.query import check_query
from hangpoint.api.schemas.resource_texts import request_text
from hangpoint.api.state import State

OF_ROWS: Mapping[str, Sequence[str]] = {
    "units": ("us", "si"),
    "delimiter": ("comma", "semicolon", "tab"),
    "decimal": (".", ","),
    "encoding": get_args(Encoding),
    NOTES: (),
}
"""Names of a query that say how a CSV is to be read, with the words that each may have."""

Beside = Sequence[tuple[str, Sequence[str | None]]]
"""Columns of a CSV that were not read and are handed back: title and cells."""
Answered = tuple[Mapping[str, Any], Any]
"""An answer, and what its files need beside it: `Beside`, or a resource's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvBody:
    """What a resource takes as CSV.

    ``head`` is the typed dictionary of what the query states by the names of a body of JSON. ``run`` takes the body,
    its options, what the query states and the state of the application. ``text`` and ``example`` are for the document.
    ``project``: the query may have the texts of a project, ``project.NAME``.
    """

    head: Any
    run: Callable[[bytes, CsvOptions, Mapping[str, Any], State], Answered]
    text: str
    example: str
    project: bool = False

    def answer(self, body: bytes, query: Mapping[str, str], state: State, *, formats: Sequence[str]) -> Answered:
        """The answer to a body, and what its files need beside it.

        Raises:
            ProblemError: an unknown name or value in the query, or the body can't be read.
        """
        own = tuple(self.head.__annotations__)
        known = ("format", *(name for name, words in OF_ROWS.items() if words))
        prefixes = (DEFAULT, PROJECT) if self.project else (DEFAULT,)
        check_query(query, known, prefixes=prefixes, formats=formats, texts=(NOTES, *own))
        options = CsvOptions.of_rows(query)
        if self.project:
            options = replace(options, project=read_project(under(PROJECT, query), f"?{PROJECT}"))
        return self.run(body, options, read_head(self.head, query, options), state)

    def parameters(self, request: Any) -> list[dict[str, Any]]:
        """What the query of a CSV may have, for the document; ``request`` is the typed dictionary of a body of JSON."""
        made = [
            _parameter(name, f"Of a CSV. {request_text(request.__name__, name)}", cell.words.values())
            for name, cell in columns(self.head).items()
        ]
        return [*made, *(_parameter(name, _TEXTS[name], words) for name, words in OF_ROWS.items())]


_TEXTS: Mapping[str, str] = {
    "units": "Unit system of bare numbers of a CSV and of its answer.",
    "delimiter": "Of a CSV; otherwise the commonest one of its header.",
    "decimal": "Decimal sign of quantities and numbers of a CSV.",
    "encoding": "Of a CSV; otherwise that of its Content-Type, or UTF-8. None is guessed.",
    NOTES: "Titles of columns of a CSV that are not read but handed back, with commas between them.",
}


def _parameter(name: str, text: str, words: Any) -> dict[str, Any]:
    listed = list(dict.fromkeys(words))
    schema: dict[str, Any] = {"type": "string"} | ({"enum": listed} if listed else {})
    return {"name": name, "in": "query", "required": False, "description": text, "schema": schema}


def read_head(head: Any, query: Mapping[str, str], options: CsvOptions) -> Mapping[str, Any]:
    """What a query states beside the rows, read as cells are.

    Raises:
        ProblemError: something is missing, or can't be read.
    """
    stated: dict[str, Any] = {}
    for name, cell in columns(head).items():
        if name not in query:
            continue
        try:
            stated[name] = cell.value(
                query[name].strip(), unit="", system=options.units, comma=bool(options.decimal_comma)
            )
        except CellError as error:
            own = FieldError(pointer=f"?{name}", code=error.code, detail=error.detail, allowed=error.allowed)
            raise ProblemError("validation", f"{own.pointer}: {own.detail}", errors=[own]) from None
    try:
        return adapter_of(head).validate_python(stated)
    except ValidationError as error:
        errors = [
            FieldError(
                pointer=f"?{each.pointer.removeprefix('#/')}",
                code=each.code,
                detail=f"{each.detail} With a CSV it stands in the query." if each.code == "missing" else each.detail,
                allowed=each.allowed,
            )
            for each in field_errors(head, error)
        ]
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors) from None
