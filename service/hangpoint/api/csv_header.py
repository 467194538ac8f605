"""The header of a CSV: which column each title names, and what is wrong with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hangpoint.api.csv_cells import Cell
from hangpoint.api.csv_columns import OF_CHAPTER_17, REQUIRED, column_path, columns, is_note
from hangpoint.api.csv_titles import offers, project_member
from hangpoint.api.load_standards import EN1992_4
from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.schemas.request import BatchRequest, Item, PartialItem
from hangpoint.api.schemas.take_offs import TakeOffItem
from hangpoint.pack.objects import value_at
from hangpoint.pack.trade_texts import rod_text, size_text, unit_text
from hangpoint.units import LENGTH, QuantityKind, unit_factor

MAX_COLUMNS = 400
LINES_ABOVE = 8
"""Lines above a header that are looked through where the first line is none."""
LEAST_TITLES = 3
"""Titles that are known in a line that may be the header."""
_DEPTH, _SPANS = "anchor.h_ef", "hangs.run.spans"
_SECONDS, _SECOND = "_seconds", ("s", "sec", "second", "seconds")
"""How columns end that are numbers of seconds, and how the unit is written."""
_SIZES = (size_text, rod_text)
"""Readers of nominal sizes, which are named by inches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvForm:
    """What the rows of a CSV are: typed dictionaries of an item, of defaults and of the request in JSON.

    ``required`` are columns that a file needs unless a default gives the value. ``wider`` is an item that has more
    columns, of another use of the same file: they are not read here, nor are those that are ``made`` by what writes
    such files. ``guarded``: the service writes such files itself, with an apostrophe before what a spreadsheet would
    take for a formula. ``what`` a row is, and ``listed`` where its columns are, go into messages.
    """

    item: Any = Item
    partial: Any = PartialItem
    request: Any = BatchRequest
    required: Sequence[str] = REQUIRED
    wider: Any = None
    made: Sequence[str] = ()
    guarded: bool = False
    what: str = "hang point"
    listed: str = "GET /v1/quantities lists all; of the command, hangpoint columns."


HANG_POINTS = CsvForm(wider=TakeOffItem)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that is read: its place in a row, the path of its place in an item, and the unit of its title."""

    place: int
    title: str
    path: str
    parts: tuple[str, ...]
    cell: Cell
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """The columns that are read, and by title and place those that are not but handed back."""

    columns: Sequence[Column]
    unread: Sequence[tuple[str, int]]


def read_header(
    header: Sequence[str], form: CsvForm, *, following: Sequence[Sequence[str]] = (), notes: Sequence[str] = ()
) -> Header:
    """The columns that a header names.

    Args:
        header: its titles.
        form: what the rows are.
        following: the next rows, where the header may stand in truth.
        notes: titles that are taken as notes, if they name no column.

    Raises:
        ProblemError: no header, too many columns, or titles that name none, one twice, or have a unit that is none; a
            note that names a column.
    """
    known = columns(form.item)
    errors: list[FieldError] = []
    plan: list[Column] = []
    unread: list[tuple[str, int]] = []
    seen: dict[str, int] = {}
    own = {each.strip().casefold() for each in notes}
    if not any(name.strip() for name in header):
        detail = "There is no header: begin the CSV with a line of titles of columns."
        below = _header_below(following, form, 0)
        raise ProblemError("validation", "The CSV has no header line.", errors=below or [header_error(detail, 1)])
    if len(header) == 1 and "|" in header[0]:
        detail = "The titles have | between them: put commas, semicolons or tabs between the cells of a CSV."
        raise ProblemError("validation", detail, errors=[header_error(detail, 1)])
    if len(header) > MAX_COLUMNS:
        raise ProblemError(
            "validation",
            f"The CSV has {len(header)} columns; the limit is {MAX_COLUMNS}.",
            members={"limit": MAX_COLUMNS, "received": len(header)},
        )
    for place, title in enumerate(header, start=1):
        name, unit = title_parts(title)
        if not name:
            continue
        path, is_own = column_path(name, form.item), title.strip().casefold() in own
        if is_own and path is not None:
            detail = f"This column is read as {path}, so it is no note: title it otherwise."
            errors.append(header_error(detail, place, "contradiction"))
            continue
        if path is None:
            if is_own or _is_unread(name, unit, form):
                unread.append((title.strip(), place - 1))
            else:
                errors.append(_unknown_column(name, unit, place, form))
            continue
        cell = known[path]
        if cell.reader in _SIZES and unit_factor(LENGTH, unit) == unit_factor(LENGTH, "in"):
            unit = ""
        if path in seen:
            errors.append(header_error(f"Column {seen[path]} means the same place.", place, "duplicate-column"))
            continue
        if path.endswith(_SECONDS) and unit.casefold() in _SECOND:
            unit = ""
        if unit and cell.kind is not None:
            unit = unit_text(unit, cell.kind.name)
        if unit and (cell.kind is None or not _unit_known(cell.kind, unit)):
            errors.append(_wrong_unit(unit[:24], cell, place))
            continue
        seen[path] = place
        plan.append(
            Column(place=place - 1, title=title.strip(), path=path, parts=tuple(path.split(".")), cell=cell, unit=unit)
        )
    if errors:
        below = _header_below(following, form, len(plan)) or _words_below(header, following, form, len(plan))
        errors = below or [*_joined_lines(errors, following), *errors]
    if errors:
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return Header(columns=plan, unread=unread)


def _is_unread(name: str, unit: str, form: CsvForm) -> bool:
    """Whether a column is a note, which has no unit, or one of another use of the file."""
    if (is_note(name) and not unit) or name.casefold() in form.made:
        return True
    return form.wider is not None and column_path(name, form.wider) is not None


def _header_below(following: Sequence[Sequence[str]], form: CsvForm, found: int) -> list[FieldError]:
    """That the header seems to stand in a later row, where one has more titles of columns than were found."""
    for place, cells in enumerate(following, start=1):
        known = titles_known(cells, form)
        if known >= max(LEAST_TITLES, found + 1):
            detail = (
                f"The first line has {found or 'no'} titles of columns, and row {place} under it has {known}: the"
                " header seems to stand there. Take out what stands above it, or name its row where a workbook is read"
                " (header=, of hangpoint rows, --header)."
            )
            return [header_error(detail, 1, "no-header")]
    return []


def _words_below(
    header: Sequence[str], following: Sequence[Sequence[str]], form: CsvForm, found: int
) -> list[FieldError]:
    """That titles in words of the trade seem to stand in a later row, where the first line is the name of a file."""
    if found or _titles_like(header, form) >= LEAST_TITLES:
        return []
    for place, cells in enumerate(following, start=1):
        alike = _titles_like(cells, form)
        if alike >= LEAST_TITLES:
            detail = (
                f"The first line has no titles of columns, and row {place} under it has {alike} cells that may be meant"
                " for some: take out what stands above, and have one line of titles."
            )
            return [header_error(detail, 1, "no-header")]
    return []


def _titles_like(cells: Sequence[str], form: CsvForm) -> int:
    """How many of some cells are titles of columns, or may be meant for one."""
    parts = (title_parts(cell) for cell in cells)
    return sum(bool(name and offers(name, unit, form.item, form.wider)) for name, unit in parts)


def _joined_lines(errors: Sequence[FieldError], following: Sequence[Sequence[str]]) -> list[FieldError]:
    """That a file of one line with titles that name no column may have had more lines."""
    if following or not any(error.code == "unknown-column" for error in errors):
        return []
    detail = "All of the CSV is one line. If it had more, they were joined: by curl --data, not by --data-binary."
    return [header_error(detail, 1)]


def titles_known(cells: Sequence[str], form: CsvForm) -> int:
    """How many of some cells are titles of columns."""
    return sum(column_path(title_parts(cell)[0], form.item) is not None for cell in cells)


def title_parts(text: str) -> tuple[str, str]:
    """Name of a column and its unit in brackets, each empty where there is none."""
    opening, closing = "[]" if "[" in text else "()"
    name, _, rest = text.strip().partition(opening)
    return name.strip(), rest.strip().removesuffix(closing).strip()


def _unknown_column(name: str, unit: str, place: int, form: CsvForm) -> FieldError:
    shown = name[:64]
    own = f'Title a column of your own "note: {shown}", or name it in ?notes=, of the command --note.'
    member = project_member(name)
    if member is not None:
        detail = (
            f'There is no column "{shown}": the job is named by ?project.{member}=, of the command --project'
            f" {member}=. {own}"
        )
        return header_error(detail, place, "unknown-column")
    near = offers(name, unit, form.item, form.wider)
    if not near:
        detail = f'There is no column "{shown}". {form.listed} {own}'
        return header_error(detail, place, "unknown-column")
    detail = f'There is no column "{shown}": write the one that is meant. {own}'
    if near == (_DEPTH,):
        detail += f" {_DEPTH} is the effective embedment depth, which is less than the nominal one."
    if _SPANS in near:
        detail += f" In {_SPANS} a hanger with pipe on both sides has both spans, 10;10, and the place 1 in its run."
    return header_error(detail, place, "unknown-column", near)


def _wrong_unit(unit: str, cell: Cell, place: int) -> FieldError:
    if cell.kind is None:
        return header_error(f'This column has no unit: take "{unit}" out of its title.', place, "quantity")
    detail = f'The unit "{unit}" is not one of this column.'
    return header_error(detail, place, "quantity", tuple(cell.kind.units))


def _unit_known(kind: QuantityKind, unit: str) -> bool:
    return unit_factor(kind, unit) is not None


def header_error(detail: str, place: int, code: str = "missing", allowed: tuple[str, ...] = ()) -> FieldError:
    """What is wrong with the title at a place of the header, from 1."""
    return FieldError(pointer=pointer("header", place), code=code, detail=detail, allowed=allowed, line=1)


def require(
    plan: Sequence[Column], defaults: Mapping[str, Any], form: CsvForm, *, design_code: str | None = None
) -> None:
    """Refuse a file without a column that it needs and no default gives.

    Args:
        plan: the columns that are read.
        defaults: of the file.
        form: what the rows are.
        design_code: of the request, if it states one.

    Raises:
        ProblemError: with each such column.
    """
    present = {column.path for column in plan}
    needless = OF_CHAPTER_17 if design_code == EN1992_4 else frozenset[str]()
    required = [path for path in form.required if path not in present and path not in needless]
    lacking = [path for path in required if value_at(defaults, *path.split(".")) is None]
    if lacking:
        errors = [
            FieldError(
                pointer=pointer("header"),
                code="missing",
                detail=_lacking(path),
                line=1,
            )
            for path in lacking
        ]
        raise ProblemError("validation", f"The CSV lacks {', '.join(lacking)}; no default gives it.", errors=errors)


def _lacking(path: str) -> str:
    detail = f"The column {path} is missing, and no default gives it: add it"
    return f"{detail}." if path == "id" else f"{detail}, or ?default.{path}= for all rows; of the command, --defaults."
