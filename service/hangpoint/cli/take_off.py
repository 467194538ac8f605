"""`hangpoint take-off`: what the hang points of a file need, printed as a pull list and written where asked."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from hangpoint.cli.options import Decimal, Delimiter, Encoding, UnitSystem
from hangpoint.cli.reading import read_file, workbook_csv
from hangpoint.cli.refusal import problem_text, refuse, refuse_ending, usable_catalogue, usable_settings

if TYPE_CHECKING:
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.settings import Settings

EXIT_NOT_COUNTED = 3
_CSV = (".csv", ".tsv", ".txt")
"""Endings of a CSV."""


def take_off(
    file: Annotated[
        Path, typer.Argument(help="CSV or XLSX of hang points, or JSON, by its ending.", show_default=False)
    ],
    units: Annotated[UnitSystem | None, typer.Option(help="Units of bare numbers of a CSV, and of its answer.")] = None,
    defaults: Annotated[
        Path | None,
        typer.Option(help="JSON object with values for every row of a CSV that lacks its own, as rod.length."),
    ] = None,
    rates: Annotated[
        Path | None, typer.Option(help="JSON object with waste, stock and crews of a CSV, as a request has them.")
    ] = None,
    delimiter: Annotated[Delimiter | None, typer.Option(help="Of a CSV; otherwise read from its header.")] = None,
    decimal: Annotated[Decimal | None, typer.Option(help="Decimal sign of a CSV; otherwise the point.")] = None,
    encoding: Annotated[Encoding | None, typer.Option(help="Of a CSV; otherwise UTF-8. None is guessed.")] = None,
    note: Annotated[
        list[str] | None, typer.Option(help="Title of a column of a CSV that is not read, again for each.")
    ] = None,
    catalogue: Annotated[
        Path | None, typer.Option(help="File or folder of families used instead of the built-in ones.")
    ] = None,
    strict: Annotated[bool, typer.Option("--strict", help="Exit with 3 if any item is invalid.")] = False,
    out: Annotated[Path | None, typer.Option(help="Folder for pull_list.csv, take_off.xlsx and take_off.json.")] = None,
) -> None:
    """Count what hang points need: anchors, rods, hardware, bits, tools, hours; and print a pull list."""
    from rich.console import Console

    from hangpoint.api.files import WORKBOOKS
    from hangpoint.report.terminal_take_off import print_take_off

    settings = usable_settings()
    body = read_file(file, settings.max_batch_bytes)
    ending = file.suffix.lower()
    if ending in WORKBOOKS:
        body, ending = workbook_csv(file, body, decimal), ".csv"
    is_csv = ending in _CSV
    if not is_csv and ending != ".json" and not body.lstrip().startswith(b"{"):
        refuse_ending(file, ".csv, .xlsx or .json")
    stated: dict[str, Any] = {"--units": units, "--defaults": defaults, "--rates": rates, "--delimiter": delimiter}
    stated |= {"--decimal": decimal, "--encoding": encoding, "--note": note}
    unheard = [name for name, value in stated.items() if value is not None and not is_csv]
    if unheard:
        refuse(f"{', '.join(unheard)}: a JSON file says this itself; the option goes with a CSV.")
    if rates is not None and units is None:
        refuse("--rates needs --units: they say what its bare numbers are.")
    options = None
    if is_csv:
        values = {} if defaults is None else _object(defaults)
        _refuse_bare(values, units)
        options = _options(units, delimiter, decimal, encoding, values, note or ())
    answer = _answer(file, body, options, {} if rates is None else _rates(rates), settings, catalogue)
    written = [] if out is None else _write(answer, out)
    print_take_off(answer, Console(highlight=False), source=str(file))
    if written:
        typer.echo(f"\nWritten: {', '.join(map(str, written))}")
    if strict and answer["summary"]["invalid"]:
        raise typer.Exit(EXIT_NOT_COUNTED)


def _refuse_bare(values: dict[str, Any], units: UnitSystem | None) -> None:
    from hangpoint.api.csv_columns import bare_quantities
    from hangpoint.api.schemas.take_offs import TakeOffItem

    bare = [] if units is not None else bare_quantities(values, TakeOffItem)
    if bare:
        refuse(f"--defaults needs --units: say in which units {', '.join(bare)} are.")


def _options(
    units: UnitSystem | None,
    delimiter: Delimiter | None,
    decimal: Decimal | None,
    encoding: Encoding | None,
    defaults: dict[str, Any],
    notes: Sequence[str],
) -> "CsvOptions":
    from hangpoint.api.csv_body import CsvOptions

    return CsvOptions(
        units=None if units is None else units.value,
        delimiter=None if delimiter is None else delimiter.sign,
        decimal_comma=None if decimal is None else decimal is Decimal.COMMA,
        encoding=None if encoding is None else encoding.value,
        defaults=defaults,
        notes=notes,
    )


def _object(file: Path) -> dict[str, Any]:
    import orjson

    try:
        stated = orjson.loads(file.read_bytes())
    except (OSError, ValueError) as error:
        refuse(f"{file}: {error}.")
    if not isinstance(stated, dict):
        refuse(f"{file}: a JSON object is wanted.")
    return stated  # pyright: ignore[reportUnknownVariableType]


def _rates(file: Path) -> dict[str, Any]:
    """Waste, stock and crews, checked as those of a request."""
    from pydantic import ValidationError

    from hangpoint.api.body_errors import adapter_of, field_errors
    from hangpoint.api.schemas.take_offs import TakeOffRates
    from hangpoint.report.reasons import place_of
    from hangpoint.report.terminal import error_text

    try:
        return {**adapter_of(TakeOffRates).validate_python(_object(file))}
    except ValidationError as error:
        first = field_errors(TakeOffRates, error)[0].as_json()
        refuse(f"{file}: {place_of(first)}: {error_text(first)}")


def _answer(
    file: Path,
    body: bytes,
    options: "CsvOptions | None",
    rates: dict[str, Any],
    settings: "Settings",
    catalogue: Path | None,
) -> dict[str, Any]:
    import orjson

    from hangpoint.api.batch import Limits
    from hangpoint.api.problems import ProblemError
    from hangpoint.api.take_off_batch import run_take_off, run_take_off_csv

    loaded = usable_catalogue(catalogue or settings.catalogue)
    limits = Limits(items=settings.max_items, traces=settings.max_traces)
    try:
        if options is None:
            answer = run_take_off(body, catalogue=loaded, limits=limits)
        else:
            answer = run_take_off_csv(body, options, rates, catalogue=loaded, limits=limits)
    except ProblemError as problem:
        refuse(problem_text(file, problem))
    return orjson.loads(orjson.dumps(answer))


def _write(answer: dict[str, Any], out: Path) -> list[Path]:
    import orjson

    from hangpoint.report.folder import write_files
    from hangpoint.report.take_off_tables import pull_csv
    from hangpoint.report.take_off_workbook import take_off_workbook

    files = {
        "pull_list.csv": pull_csv(answer).encode(),
        "take_off.xlsx": take_off_workbook(answer),
        "take_off.json": orjson.dumps(answer, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE),
    }
    try:
        return write_files(out, files)
    except OSError as error:
        refuse(f"{out}: {error.strerror}.")
