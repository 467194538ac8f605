"""A CSV of hang points as a batch: one row an item, read by the columns of `csv_columns` (RFC 4180, UTF-8)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Any, cast, get_args

from hangpoint.api.bodies import MAX_ERRORS_OF_ITEM, Batch, read_defaults, row_errors
from hangpoint.api.csv_columns import REQUIRED, Cell, CellError, column_path, columns, short_names
from hangpoint.api.csv_rows import MAX_CELL, CsvRows, read_rows
from hangpoint.api.media import FORMATS
from hangpoint.api.problems import FieldError, ProblemError, pointer, too_many
from hangpoint.api.schemas.request import BatchRequest, Item, PartialItem
from hangpoint.api.schemas.take_offs import TakeOffItem
from hangpoint.api.schemas.words import (
    MAX_ITEMS,
    Combinations,
    DesignCode,
    Detail,
    LoadStandard,
    Neighbours,
    UnitSystem,
)
from hangpoint.units import QuantityKind, System, unit_factor

MAX_COLUMNS = 400
_DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", ",": ",", ";": ";", "\t": "\t"}
_WORDS: Mapping[str, tuple[str, ...]] = {
    "units": get_args(UnitSystem),
    "design_code": get_args(DesignCode),
    "combinations": get_args(Combinations),
    "load_standard": get_args(LoadStandard),
    "detail": get_args(Detail),
    "neighbours": get_args(Neighbours),
    "echo": ("true", "false"),
    "format": tuple(FORMATS),
    "decimal": (".", ","),
    "delimiter": tuple(_DELIMITERS),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvForm:
    """What the rows of a CSV are: typed dictionaries of an item, of defaults and of the request in JSON.

    ``required`` are columns that a file needs unless a default gives the value. ``wider`` is an item that has more
    columns, and ``wider_use`` what it is for: said of such a column where it can't be used.
    """

    item: Any = Item
    partial: Any = PartialItem
    request: Any = BatchRequest
    required: Sequence[str] = REQUIRED
    wider: Any = None
    wider_use: str = ""


HANG_POINTS = CsvForm(wider=TakeOffItem, wider_use="a take-off")


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
    decimal_comma: bool = False
    cell_defaults: Mapping[str, str] = field(default_factory=dict[str, str])
    defaults: Mapping[str, Any] = field(default_factory=dict[str, Any])

    @classmethod
    def from_query(cls, query: Mapping[str, str]) -> "CsvOptions":
        """Options of a query; ``default.PATH`` gives a default for a column.

        Raises:
            ProblemError: an unknown name or value.
        """
        check_query(query, (*_WORDS,), defaults=True)
        delimiter = query.get("delimiter")
        return cls(
            units=cast(System | None, query.get("units")),
            delimiter=None if delimiter is None else _DELIMITERS[delimiter],
            decimal_comma=query.get("decimal") == ",",
            cell_defaults={
                name.removeprefix("default."): text for name, text in query.items() if name.startswith("default.")
            },
            design_code=query.get("design_code"),
            combinations=query.get("combinations"),
            load_standard=query.get("load_standard"),
            detail=query.get("detail"),
            neighbours=query.get("neighbours"),
        )


def check_query(
    query: Mapping[str, str], known: Sequence[str], *, defaults: bool = False, formats: Sequence[str] = ()
) -> None:
    """Refuse names and words of a query that this address doesn't have; it may have ``formats`` more than others.

    Raises:
        ProblemError: with the place ``?name``.
    """
    errors: list[FieldError] = []
    for name, value in query.items():
        if defaults and name.startswith("default."):
            continue
        if name not in known:
            near = tuple(get_close_matches(name[:64], known, n=3, cutoff=0.4)) or tuple(known)
            errors.append(FieldError(pointer=f"?{name[:64]}", code="unknown-field", detail="Unknown.", allowed=near))
        elif value not in (allowed := (*_WORDS[name], *formats) if name == "format" else _WORDS[name]):
            errors.append(FieldError(pointer=f"?{name}", code="unknown-option", detail="Not a value.", allowed=allowed))
    if errors:
        raise ProblemError("validation", f"The query has {errors[0].pointer}, which is not known here.", errors=errors)


def read_csv(body: bytes, options: CsvOptions, form: CsvForm = HANG_POINTS) -> Batch:
    """A CSV as a batch; a row that can't be read is an item with an error, and the others go on.

    Raises:
        ProblemError: not UTF-8, no rows, an unknown or doubled column, a required column missing, a bad default.
    """
    text = _text(body)
    table = read_rows(text, options.delimiter or _delimiter(text), most=MAX_ITEMS)
    if table.count > MAX_ITEMS:
        raise too_many("hang points", table.count, MAX_ITEMS)
    plan = _plan(table.header, form)
    defaults = _defaults(options, form)
    _require(plan, defaults, form)
    if not table.count:
        raise ProblemError("validation", "The CSV has a header but no rows.", errors=[_header_error("no rows", 1)])
    return _batch(table, plan, defaults, options, form)


def _text(body: bytes) -> str:
    if body.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise ProblemError("unsupported-media", "The CSV is in UTF-16; send UTF-8.", headers={"Accept": "text/csv"})
    if b"\x00" in body:
        raise ProblemError("malformed", "The CSV has a zero byte; send UTF-8 text.")
    try:
        return body.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise ProblemError("malformed", f"The CSV is not UTF-8: byte {error.start} can't be read.") from None


def _delimiter(text: str) -> str:
    header = text.partition("\n")[0]
    return max((",", ";", "\t"), key=header.count)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Column:
    place: int
    path: str
    parts: tuple[str, ...]
    cell: Cell
    unit: str


def _plan(header: Sequence[str], form: CsvForm) -> list[_Column]:
    known = columns(form.item)
    errors: list[FieldError] = []
    plan: list[_Column] = []
    seen: dict[str, int] = {}
    if not any(name.strip() for name in header):
        raise ProblemError("validation", "The CSV has no header line.", errors=[_header_error("no header", 1)])
    if len(header) > MAX_COLUMNS:
        raise ProblemError("validation", f"The CSV has {len(header)} columns; the limit is {MAX_COLUMNS}.")
    for place, title in enumerate(header, start=1):
        name, _, rest = title.strip().partition("[")
        name, unit = name.strip(), rest.strip().removesuffix("]").strip()
        if not name:
            continue
        path = column_path(name, form.item)
        if path is None:
            errors.append(_unknown_column(name, place, form))
            continue
        cell = known[path]
        if path in seen:
            errors.append(_header_error(f"Column {seen[path]} means the same place.", place, "duplicate-column"))
            continue
        if unit and (cell.kind is None or not _unit_known(cell.kind, unit)):
            accepted = tuple(cell.kind.units) if cell.kind else ()
            errors.append(
                _header_error(f'The unit "{unit[:24]}" is not one of this column.', place, "quantity", accepted)
            )
            continue
        seen[path] = place
        plan.append(_Column(place=place - 1, path=path, parts=tuple(path.split(".")), cell=cell, unit=unit))
    if errors:
        raise ProblemError("validation", f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return plan


def _unknown_column(name: str, place: int, form: CsvForm) -> FieldError:
    detail = f'There is no column "{name[:64]}".'
    if form.wider is not None and column_path(name, form.wider) is not None:
        return _header_error(f"{detail} It is one of {form.wider_use}: leave it out here.", place, "unknown-column")
    known = (*columns(form.item), *short_names(form.item))
    near = tuple(get_close_matches(name[:64].casefold(), known, n=5, cutoff=0.5))
    return _header_error(detail, place, "unknown-column", near)


def _unit_known(kind: QuantityKind, unit: str) -> bool:
    return unit_factor(kind, unit) is not None


def _header_error(detail: str, place: int, code: str = "missing", allowed: tuple[str, ...] = ()) -> FieldError:
    return FieldError(pointer=pointer("header", place), code=code, detail=detail, allowed=allowed, line=1)


def _defaults(options: CsvOptions, form: CsvForm) -> dict[str, Any]:
    known = columns(form.item)
    made: dict[str, Any] = {**options.defaults}
    for name, text in options.cell_defaults.items():
        path = column_path(name, form.item)
        if path is None or path == "id":
            near = tuple(get_close_matches(name[:64].casefold(), known, n=5, cutoff=0.5))
            error = FieldError(
                pointer=f"?default.{name[:64]}", code="unknown-column", detail="There is no such place.", allowed=near
            )
            raise ProblemError("validation", f"{error.pointer}: {error.detail}", errors=[error])
        try:
            value = known[path].value(text.strip(), unit="", system=options.units, comma=options.decimal_comma)
        except CellError as error:
            own = _cell_error(f"?default.{name[:64]}", error)
            raise ProblemError("validation", f"{own.pointer}: {own.detail}", errors=[own]) from None
        _put(made, path.split("."), value)
    made = _lists(made)
    if made:
        read_defaults(made, form.partial, form.request)
    return made


def _require(plan: Sequence[_Column], defaults: Mapping[str, Any], form: CsvForm) -> None:
    present = {column.path for column in plan}
    lacking = [path for path in form.required if path not in present and _look_up(defaults, path.split(".")) is None]
    if lacking:
        errors = [
            FieldError(pointer=pointer("header"), code="missing", detail=f"The column {path} is missing.", line=1)
            for path in lacking
        ]
        raise ProblemError("validation", f"The CSV lacks {', '.join(lacking)}; no default gives it.", errors=errors)


def _batch(
    table: CsvRows, plan: Sequence[_Column], defaults: Mapping[str, Any], options: CsvOptions, form: CsvForm
) -> Batch:
    items: list[Any] = []
    lines = [line for line, _ in table.rows]
    cells_wrong: dict[int, list[FieldError]] = {}
    rows_wrong: dict[int, FieldError] = {}
    identity = [column for column in plan if column.path == "id"]
    kind = defaults.get("hangs", {}).get("kind")
    for row, (line, cells) in enumerate(table.rows):
        wrong = _row_error(cells, len(table.header), row, line)
        if wrong:
            rows_wrong[row] = wrong
        item, errors = _item(cells, identity if wrong else plan, kind, options, row, line)
        items.append(item)
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
        row: _row_errors(cells_wrong.get(row, []), by_schema.get(row, []), row, lines[row])
        for row in sorted({*cells_wrong, *by_schema})
    }
    return Batch(
        units=options.units or "us",
        design_code=options.design_code,
        combinations=options.combinations,
        load_standard=options.load_standard,
        detail=options.detail,
        neighbours=options.neighbours,
        defaults=defaults,
        items=items,
        errors=errors_of_rows | {row: [error] for row, error in rows_wrong.items()},
        lines=lines,
    )


def _row_error(cells: Sequence[str], width: int, row: int, line: int) -> FieldError | None:
    """Why nothing but the id of a row is read."""
    if any(cell.strip() for cell in cells[width:]):
        code = "row-too-long"
        detail = f"The row has {len(cells)} cells and the header {width}: quote a cell that holds the delimiter."
    elif max(map(len, cells)) > MAX_CELL:
        code, detail = "cell-too-long", f"The row has a cell of more than {MAX_CELL} characters."
    else:
        return None
    return FieldError(pointer=pointer("rows", row + 1), code=code, detail=detail, line=line)


def _row_errors(
    own: Sequence[FieldError], by_schema: Sequence[FieldError], row: int, line: int
) -> Sequence[FieldError]:
    """Errors of the cells of a row, each place once."""
    places = tuple(f"{error.pointer}." for error in own)
    moved = [_moved(error, row, line) for error in by_schema]
    return [*own, *(error for error in moved if not f"{error.pointer}.".startswith(places))][:MAX_ERRORS_OF_ITEM]


def _item(
    cells: Sequence[str], plan: Sequence[_Column], kind: str | None, options: CsvOptions, row: int, line: int
) -> tuple[dict[str, Any], list[FieldError]]:
    """A row as an item, and what is wrong with its cells. ``kind`` is that of ``hangs`` where the row names none."""
    item: dict[str, Any] = {}
    errors: list[FieldError] = []
    nested = False
    for column in plan:
        text = cells[column.place].strip() if column.place < len(cells) else ""
        if not text:
            continue
        try:
            value = column.cell.value(text, unit=column.unit, system=options.units, comma=options.decimal_comma)
        except CellError as error:
            errors.append(_cell_error(pointer("rows", row + 1, column.path), error, line))
            value = text
        nested = _put(item, column.parts, value) or nested
    if kind is not None and "hangs" in item:
        item["hangs"].setdefault("kind", kind)
    return (_lists(item) if nested else item), errors


def _cell_error(place: str, error: CellError, line: int | None = None) -> FieldError:
    return FieldError(pointer=place, code=error.code, detail=error.detail, allowed=error.allowed, line=line)


def _put(item: dict[str, Any], parts: Sequence[str], value: Any) -> bool:
    """Set a nested value; True where the path has a place in a list."""
    place = item
    for part in parts[:-1]:
        place = place.setdefault(part, {})
    place[parts[-1]] = value
    return any(part.isdigit() for part in parts)


def _lists(value: Any) -> Any:
    """Objects whose keys are places become lists, in the order of the places."""
    if not isinstance(value, dict):
        return value
    members = cast(dict[str, Any], value)
    if members and all(key.isdigit() for key in members):
        return [_lists(members[key]) for key in sorted(members, key=int)]
    return {key: _lists(inner) for key, inner in members.items()}


def _look_up(value: Any, parts: Sequence[str]) -> Any:
    for part in parts:
        if not isinstance(value, Mapping):
            return None
        value = cast(Mapping[str, Any], value).get(part)
    return value


def _moved(error: FieldError, row: int, line: int) -> FieldError:
    """An error of an item at the row of the CSV that it came from."""
    path = error.pointer.removeprefix(f"#/items/{row}").removeprefix("/").replace("/", ".")
    place = pointer("rows", row + 1, path) if path else pointer("rows", row + 1)
    return FieldError(pointer=place, code=error.code, detail=error.detail, allowed=error.allowed, line=line)
