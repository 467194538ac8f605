"""A CSV of hang points as a batch: one row an item, read by the columns of `csv_columns` (RFC 4180)."""

import re
from collections.abc import Generator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import Any, cast

from hangpoint.api.bodies import MAX_ERRORS_OF_ITEM, Batch, read_defaults, row_errors
from hangpoint.api.body_errors import fields_by_parent
from hangpoint.api.csv_cells import CellError
from hangpoint.api.csv_columns import column_path, columns
from hangpoint.api.csv_decimal import may_be_comma
from hangpoint.api.csv_header import (
    HANG_POINTS,
    LEAST_TITLES,
    LINES_ABOVE,
    Column,
    CsvForm,
    Header,
    header_error,
    read_header,
    require,
    titles_known,
)
from hangpoint.api.csv_idle import IdleCells
from hangpoint.api.csv_items import RowReader, cell_error
from hangpoint.api.csv_no_points import RowForm, filled_twice
from hangpoint.api.csv_places import Gaps, column_at, put, with_lists
from hangpoint.api.csv_rest import rests_of
from hangpoint.api.csv_rows import CsvRows, read_rows
from hangpoint.api.csv_source import CsvSource
from hangpoint.api.csv_text import Encoding, csv_text
from hangpoint.api.csv_titles import offers
from hangpoint.api.load_standards import OF_QUERY, refuse_mixed
from hangpoint.api.problems import FieldError, ProblemError, pointer, too_many
from hangpoint.api.project import read_project
from hangpoint.api.query import DELIMITERS, WORDS, check_query
from hangpoint.api.schemas.project import Project
from hangpoint.api.schemas.words import MAX_ITEMS
from hangpoint.pack.objects import value_at
from hangpoint.units import System

_LINE = re.compile(r"[^\r\n]+")
DEFAULT, PROJECT = "default.", "project."
"""What names of a query begin with that give cells to all rows, and texts of the project."""
NOTES = "notes"
_NO_GAPS: Gaps = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvOptions:
    """What a CSV can't say of itself: from the query of the request, or the options of the command line.

    A stream of lines takes the first six from here where its header leaves them out.
    """

    units: System | None = None
    design_code: str | None = None
    combinations: str | None = None
    load_standard: str | None = None
    detail: str | None = None
    neighbours: str | None = None
    delimiter: str | None = None
    decimal_comma: bool | None = None
    """Whether the comma is the decimal sign; None where nobody says."""
    encoding: Encoding | None = None
    cell_defaults: Mapping[str, str] = field(default_factory=dict[str, str])
    defaults: Mapping[str, Any] = field(default_factory=dict[str, Any])
    project: Project | None = None
    notes: Sequence[str] = ()
    """Titles of columns that are not read but handed back, beside those that are titled as notes."""

    @classmethod
    def from_query(cls, query: Mapping[str, str]) -> "CsvOptions":
        """Options of a query; ``default.PATH`` gives a default for a column, ``project.NAME`` a text of the project.

        ``notes`` are titles with commas between them.

        Raises:
            ProblemError: an unknown name or value.
        """
        check_query(query, (*WORDS,), prefixes=(DEFAULT, PROJECT), texts=(NOTES,))
        return replace(
            cls.of_rows(query),
            project=read_project(under(PROJECT, query), f"?{PROJECT}"),
            design_code=query.get("design_code"),
            combinations=query.get("combinations"),
            load_standard=query.get("load_standard"),
            detail=query.get("detail"),
            neighbours=query.get("neighbours"),
        )

    @classmethod
    def of_rows(cls, query: Mapping[str, str]) -> "CsvOptions":
        """Options of a query that has been checked, which say how rows of any kind are read."""
        delimiter = query.get("delimiter")
        return cls(
            units=cast(System | None, query.get("units")),
            delimiter=None if delimiter is None else DELIMITERS[delimiter],
            decimal_comma=query["decimal"] == "," if "decimal" in query else None,
            encoding=cast(Encoding | None, query.get("encoding")),
            cell_defaults=under(DEFAULT, query),
            notes=query.get(NOTES, "").split(","),
        )


def under(prefix: str, query: Mapping[str, str]) -> dict[str, str]:
    """What a query states by names that begin so, by the rest of these."""
    return {name.removeprefix(prefix): text for name, text in query.items() if name.startswith(prefix)}


def read_csv(body: bytes, options: CsvOptions, form: CsvForm = HANG_POINTS) -> Batch:
    """A CSV as a batch; a row that can't be read is an item with an error, and the others go on.

    Raises:
        ProblemError: not in its encoding, no rows, an unknown or doubled column, a required one missing, a bad default,
            a load standard that doesn't go with the design code.
    """
    refuse_mixed(options.design_code, options.load_standard, **OF_QUERY)
    text = csv_text(body, options.encoding)
    delimiter = options.delimiter or _delimiter(text, form)
    table = read_rows(text, delimiter, most=MAX_ITEMS)
    if table.count > MAX_ITEMS:
        raise too_many(f"{form.what}s", table.count, MAX_ITEMS)
    below = [cells for _, cells in table.rows[:LINES_ABOVE]]
    with _header_on(table.header_line):
        header = read_header(table.header, form, following=below, notes=options.notes)
        defaults = _defaults(options, form)
        require(header.columns, defaults, form, design_code=options.design_code)
        if not table.count:
            raise ProblemError(
                "validation",
                "The CSV has a header but no rows.",
                errors=[header_error(f"There are no rows under the header: send one a {form.what}.", 1)],
            )
    if options.decimal_comma is None and not may_be_comma(delimiter, header.columns, table.rows, options.units):
        options = replace(options, decimal_comma=False)
    return _batch(table, header, defaults, options, form)


@contextmanager
def _header_on(line: int) -> Generator[None]:
    """Let errors of the header name the line that it stands on, under blank ones."""
    try:
        yield
    except ProblemError as problem:
        errors = [replace(error, line=line) if error.line == 1 else error for error in problem.errors]
        raise ProblemError(problem.slug, problem.detail, errors=errors, members=problem.members) from None


def _delimiter(text: str, form: CsvForm) -> str:
    """The commonest sign of the line that has titles of columns, or else of the first that has any sign.

    A title of the file may stand above the header, with signs of its own.
    """
    signs: list[str] = []
    for line in islice(_LINE.finditer(text), 1 + LINES_ABOVE):
        sign = max((",", ";", "\t"), key=line[0].count)
        if sign in line[0]:
            signs.append(sign)
            if titles_known(line[0].replace('"', "").split(sign), form) >= LEAST_TITLES:
                return sign
    return signs[0] if signs else ","


def _defaults(options: CsvOptions, form: CsvForm) -> dict[str, Any]:
    known = columns(form.item)
    made: dict[str, Any] = {**options.defaults}
    seen: dict[str, str] = {}
    for name, text in options.cell_defaults.items():
        path = column_path(name, form.item)
        try:
            if path is None:
                near = offers(name, "", form.item)
                raise CellError("unknown-column", "There is no such column.", near)
            if path == "id":
                raise CellError("unknown-column", "An id has no default: each row states its own.")
            if path in seen:
                raise CellError("repeated", f"It means the same place as ?default.{seen[path][:64]}: state one.")
            value = known[path].value(text.strip(), unit="", system=options.units, comma=bool(options.decimal_comma))
        except CellError as error:
            own = cell_error(f"?default.{name[:64]}", error)
            raise ProblemError("validation", f"{own.pointer}: {own.detail}", errors=[own]) from None
        seen[path] = name
        *parents, name_there = path.split(".")
        put(made, parents, name_there, value)
    made, _ = with_lists(made)
    if made:
        read_defaults(made, form.partial, form.request)
    return made


def _readers(
    plans: Sequence[Sequence[Column]], defaults: Mapping[str, Any], options: CsvOptions, form: CsvForm
) -> list[RowReader]:
    """Readers of rows, of all columns of the first of some plans, and of fewer."""
    stated = {name: str(kind) for name in ("hangs", "base") if (kind := value_at(defaults, name, "kind")) is not None}
    idle = IdleCells(plans[0], fields_by_parent(form.request), stated)
    return [
        RowReader(
            each,
            system=options.units,
            comma=options.decimal_comma,
            idle=idle,
            kind=stated.get("hangs"),
            guarded=form.guarded,
        )
        for each in plans
    ]


def _batch(table: CsvRows, header: Header, defaults: Mapping[str, Any], options: CsvOptions, form: CsvForm) -> Batch:
    items: list[Any] = []
    lines = [line for line, _ in table.rows]
    cells_wrong: dict[int, list[FieldError]] = {}
    rows_wrong: dict[int, FieldError] = {}
    gaps: dict[int, Gaps] = {}
    plan = header.columns
    source = CsvSource(
        columns={column.path: (column.title, column.place) for column in plan},
        unread=header.unread,
        rows=[cells for _, cells in table.rows],
    )
    identity = [column for column in plan if column.path == "id"]
    form_of_rows = RowForm(
        titles=[title.strip() for title in table.header],
        identity=identity,
        delimiter=table.delimiter,
        what=form.what,
        alone=not defaults,
        fuller=any(filled_twice(cells) for _, cells in table.rows),
    )
    whole, by_id, nothing = _readers((plan, identity, ()), defaults, options, form)
    for row, (line, cells) in enumerate(table.rows):
        none = form_of_rows.no_point(cells, row, line)
        wrong = none or form_of_rows.unread(cells, row, line)
        if wrong:
            rows_wrong[row] = wrong
        reader = nothing if none else by_id if wrong else whole
        item, own_gaps, errors = reader.item(cells, row, line)
        items.append(item)
        if own_gaps:
            gaps[row] = own_gaps
        if errors:
            cells_wrong[row] = errors
    by_schema = row_errors(items, form.item, form.request)
    if table.rest is not None:
        rows_wrong[len(items)] = FieldError(
            pointer=pointer("rows", len(items) + 1),
            code="broken-quote",
            detail=table.rest.detail,
            line=table.rest.line,
        )
        items.append(table.rest.text)
        lines.append(table.rest.line)
    errors_of_rows: dict[int, Sequence[FieldError]] = {
        row: [
            source.quoted(error, row)
            for error in _row_errors(
                cells_wrong.get(row, []), by_schema.get(row, []), gaps.get(row, _NO_GAPS), row, lines[row]
            )
        ]
        for row in sorted({*cells_wrong, *by_schema})
    }
    even = {row: errors for row, errors in errors_of_rows.items() if row not in rows_wrong and row not in gaps}
    return Batch(
        units=options.units or "us",
        project=options.project,
        design_code=options.design_code,
        combinations=options.combinations,
        load_standard=options.load_standard,
        detail=options.detail,
        neighbours=options.neighbours,
        defaults=defaults,
        items=items,
        errors=errors_of_rows | {row: [error] for row, error in rows_wrong.items()},
        lines=lines,
        gaps=gaps,
        source=source,
        rest=rests_of(items, even, lambda rests: row_errors(rests, form.item, form.request).keys()),
    )


def _row_errors(
    own: Sequence[FieldError], by_schema: Sequence[FieldError], gaps: Gaps, row: int, line: int
) -> Sequence[FieldError]:
    """Errors of the cells of a row, each place once."""
    places = tuple(f"{error.pointer}." for error in own)
    moved = [_moved(error, gaps, row, line) for error in by_schema]
    return [*own, *(error for error in moved if not f"{error.pointer}.".startswith(places))][:MAX_ERRORS_OF_ITEM]


def _moved(error: FieldError, gaps: Gaps, row: int, line: int) -> FieldError:
    """An error of an item at the row of the CSV that it came from."""
    path = error.pointer.removeprefix(f"#/items/{row}").removeprefix("/")
    place = pointer("rows", row + 1, column_at(path, gaps)) if path else pointer("rows", row + 1)
    detail = error.detail.replace("; remove it.", "; leave the cell empty.")
    return FieldError(pointer=place, code=error.code, detail=detail, allowed=error.allowed, line=line)
