"""The header of a CSV: which column each title names, and what is wrong with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from hangpoint.api.csv_cells import Cell
from hangpoint.api.csv_columns import REQUIRED, column_path, columns, is_note, meanings, short_names
from hangpoint.api.problems import FieldError, ProblemError, pointer
from hangpoint.api.schemas.request import BatchRequest, Item, PartialItem
from hangpoint.api.schemas.take_offs import TakeOffItem
from hangpoint.pack.objects import value_at
from hangpoint.units import QuantityKind, unit_factor

MAX_COLUMNS = 400
LINES_ABOVE = 8
"""Lines above a header that are looked through where the first line is none."""
LEAST_TITLES = 3
"""Titles that are known in a line that may be the header."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvForm:
    """What the rows of a CSV are: typed dictionaries of an item, of defaults and of the request in JSON.

    ``required`` are columns that a file needs unless a default gives the value. ``wider`` is an item that has more
    columns, of another use of the same file: they are not read here.
    """

    item: Any = Item
    partial: Any = PartialItem
    request: Any = BatchRequest
    required: Sequence[str] = REQUIRED
    wider: Any = None


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


def read_header(header: Sequence[str], form: CsvForm, *, following: Sequence[Sequence[str]] = ()) -> Header:
    """The columns that a header names.

    Args:
        header: its titles.
        form: what the rows are.
        following: the next rows, where the header may stand in truth.

    Raises:
        ProblemError: no header, too many columns, or titles that name none, one twice, or have a unit that is none.
    """
    known = columns(form.item)
    errors: list[FieldError] = []
    plan: list[Column] = []
    unread: list[tuple[str, int]] = []
    seen: dict[str, int] = {}
    if not any(name.strip() for name in header):
        detail = "There is no header: begin the CSV with a line of titles of columns."
        raise ProblemError("validation", "The CSV has no header line.", errors=[header_error(detail, 1)])
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
        path = column_path(name, form.item)
        if path is None:
            if _is_unread(name, unit, form):
                unread.append((title.strip(), place - 1))
            else:
                errors.append(_unknown_column(name, place, form))
            continue
        cell = known[path]
        if path in seen:
            errors.append(header_error(f"Column {seen[path]} means the same place.", place, "duplicate-column"))
            continue
        if unit and (cell.kind is None or not _unit_known(cell.kind, unit)):
            accepted = tuple(cell.kind.units) if cell.kind else ()
            errors.append(
                header_error(f'The unit "{unit[:24]}" is not one of this column.', place, "quantity", accepted)
            )
            continue
        seen[path] = place
        plan.append(
            Column(place=place - 1, title=title.strip(), path=path, parts=tuple(path.split(".")), cell=cell, unit=unit)
        )
    if errors and not plan:
        errors = [*_header_below(following, form), *errors]
    if errors:
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return Header(columns=plan, unread=unread)


def _is_unread(name: str, unit: str, form: CsvForm) -> bool:
    """Whether a column is a note, which has no unit, or one of another use of the file."""
    if is_note(name) and not unit:
        return True
    return form.wider is not None and column_path(name, form.wider) is not None


def _header_below(following: Sequence[Sequence[str]], form: CsvForm) -> list[FieldError]:
    """That the header seems to stand in a later row, where one has titles of columns."""
    for place, cells in enumerate(following, start=1):
        known = [cell for cell in cells if column_path(title_parts(cell)[0], form.item) is not None]
        if len(known) >= LEAST_TITLES:
            detail = (
                f"None of the first line is a title of a column, and row {place} under it has {len(known)}: the header"
                " seems to stand there. Take out what stands above it."
            )
            return [header_error(detail, 1, "no-header")]
    return []


def title_parts(text: str) -> tuple[str, str]:
    """Name of a column and its unit in brackets, each empty where there is none."""
    opening, closing = "[]" if "[" in text else "()"
    name, _, rest = text.strip().partition(opening)
    return name.strip(), rest.strip().removesuffix(closing).strip()


def _unknown_column(name: str, place: int, form: CsvForm) -> FieldError:
    detail = f'There is no column "{name[:64]}".'
    meant = meanings(name, form.item)
    if meant:
        detail = f'The title "{name[:64]}" does not tell which column is meant: write {_or(meant)}.'
        return header_error(detail, place, "unknown-column", meant)
    known = (*columns(form.item), *short_names(form.item))
    near = tuple(get_close_matches(name[:64].casefold(), known, n=5, cutoff=0.5))
    if not near:
        detail += (
            " GET /v1/quantities lists all; of the command, hangpoint columns."
            f' Title a column of your own "note: {name[:64]}".'
        )
    return header_error(detail, place, "unknown-column", near)


def _or(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def _unit_known(kind: QuantityKind, unit: str) -> bool:
    return unit_factor(kind, unit) is not None


def header_error(detail: str, place: int, code: str = "missing", allowed: tuple[str, ...] = ()) -> FieldError:
    """What is wrong with the title at a place of the header, from 1."""
    return FieldError(pointer=pointer("header", place), code=code, detail=detail, allowed=allowed, line=1)


def require(plan: Sequence[Column], defaults: Mapping[str, Any], form: CsvForm) -> None:
    """Refuse a file without a column that it needs and no default gives.

    Raises:
        ProblemError: with each such column.
    """
    present = {column.path for column in plan}
    lacking = [path for path in form.required if path not in present and value_at(defaults, *path.split(".")) is None]
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
