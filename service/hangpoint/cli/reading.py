"""Files of hang points that commands read, and the options that say how a CSV is read."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import typer

from hangpoint.cli.options import (
    Combinations,
    Decimal,
    Delimiter,
    DesignCode,
    Detail,
    Encoding,
    LoadStandard,
    UnitSystem,
)
from hangpoint.cli.refusal import problem_text, refuse, refuse_ending

if TYPE_CHECKING:
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.api.files import FileKind
    from hangpoint.api.schemas.project import Project
    from hangpoint.api.workbooks.reading import SheetRows, WorkbookOptions


def read_kind(file: Path, limit: int, decimal: Decimal | None) -> "tuple[bytes, FileKind]":
    """The content of a file of hang points and what it is, or the end; a workbook is a CSV of its rows."""
    from hangpoint.api.files import ENDINGS, FileKind, file_kind
    from hangpoint.api.media import CSV, XLSX

    body = read_file(file, limit) if file.suffix.lower() in ENDINGS else b""
    kind = file_kind(file.name, body)
    if kind is None:
        refuse_ending(file, ".csv, .xlsx, .json or .ndjson")
    if kind.media_type == XLSX:
        return workbook_csv(file, body, decimal), FileKind(media_type=CSV)
    return body, kind


def workbook_csv(file: Path, body: bytes, decimal: Decimal | None) -> bytes:
    """The only sheet of a workbook as a CSV, or the end; what the sheet doesn't show is told on the error stream."""
    from hangpoint.api.workbooks.reading import WorkbookOptions

    choice = f"hangpoint rows {file} --sheet NAME --out FILE.csv writes a sheet as CSV; see its --help."
    return read_sheet(file, body, WorkbookOptions(comma=decimal is Decimal.COMMA), choice=choice).csv.encode()


def read_sheet(file: Path, body: bytes, options: "WorkbookOptions", *, choice: str = "") -> "SheetRows":
    """A sheet of a workbook, or the end; ``choice`` says where what is open can be stated."""
    from hangpoint.api.problems import ProblemError
    from hangpoint.api.workbooks.reading import read_workbook

    try:
        read = read_workbook(body, options)
    except ProblemError as problem:
        places = [error.pointer.replace("?", "--") for error in problem.errors]
        errors = [replace(error, pointer=own) for error, own in zip(problem.errors, places, strict=True)]
        text = problem_text(file, replace(problem, errors=errors))
        refuse(f"{text}\n  {choice}" if choice and any(own.startswith("--") for own in places) else text)
    for note in read.notes:
        typer.echo(f"{file}: {note}", err=True)
    return read


def refuse_unheard(kind: "FileKind", *, of_csv: Mapping[str, Any], of_rows: Mapping[str, Any]) -> None:
    """Refuse options that the file has no use for."""
    from hangpoint.api.media import CSV, NDJSON

    heard: Mapping[str, Any] = {CSV: {**of_csv, **of_rows}, NDJSON: of_rows}.get(kind.media_type, {})
    unheard = [name for name, value in {**of_csv, **of_rows}.items() if value is not None and name not in heard]
    if unheard:
        refuse(f"{', '.join(unheard)}: a JSON file says this itself; the option goes with a CSV.")


def csv_options(
    file: Path,
    *,
    units: UnitSystem | None,
    defaults: Path | None,
    combinations: Combinations | None,
    load_standard: LoadStandard | None,
    design_code: DesignCode | None,
    neighbours: bool | None,
    delimiter: Delimiter | None,
    decimal: Decimal | None,
    encoding: Encoding | None,
    project: Sequence[str] | None,
    note: Sequence[str] | None,
    detail: Detail | None = None,
) -> "CsvOptions":
    """The options of a CSV; a project is stated as NAME=TEXT."""
    from hangpoint.api.bodies import plain_json
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.api.csv_columns import bare_quantities
    from hangpoint.api.problems import ProblemError

    values: dict[str, Any] = {}
    if defaults is not None:
        try:
            stated = plain_json(read_file(defaults))
        except ProblemError as problem:
            refuse(problem_text(defaults, problem))
        if not isinstance(stated, dict):
            refuse(f"{defaults}: defaults are one JSON object with the fields of a hang point.")
        values = cast(dict[str, Any], stated)
        bare = [] if units is not None else bare_quantities(values)
        if bare:
            refuse(f"--defaults needs --units: say in which units {', '.join(bare)} of {defaults} are.")
    return CsvOptions(
        units=None if units is None else units.value,
        design_code=design_code,
        combinations=combinations,
        load_standard=load_standard,
        detail=detail,
        neighbours=None if neighbours is None else "check" if neighbours else "off",
        delimiter=None if delimiter is None else delimiter.sign,
        decimal_comma=None if decimal is None else decimal is Decimal.COMMA,
        encoding=None if encoding is None else encoding.value,
        defaults=values,
        project=_project(file, project or ()),
        notes=note or (),
    )


def _project(file: Path, stated: Sequence[str]) -> "Project | None":
    from hangpoint.api.problems import ProblemError
    from hangpoint.api.project import read_project

    texts = dict(each.split("=", 1) for each in stated if "=" in each)
    if len(texts) != len(stated):
        refuse("--project: write NAME=TEXT, each name once: --project name='Invented Clinic'.")
    try:
        return read_project(texts, "--project ")
    except ProblemError as problem:
        refuse(problem_text(file, problem))


def read_file(file: Path, limit: int | None = None) -> bytes:
    """The content of a file, or the end."""
    try:
        size = file.stat().st_size
        if limit is not None and size > limit:
            refuse(f"{file}: the file has {size} bytes; the limit is {limit}. Split it.")
        return file.read_bytes()
    except OSError as error:
        refuse(f"{file}: the file can't be read: {error.strerror}.")
