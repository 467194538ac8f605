"""The command line: serve, check a file of hang points, print the OpenAPI document or the nomenclature.

Exit codes of ``check``: 0 every point was answered, whatever the verdicts; 3 with ``--strict`` if any is not passed;
2 if the file can't be read or the answer can't be written. Everything heavy is imported by the command that uses it.
"""

import sys
from collections.abc import Callable, Generator
from contextlib import contextmanager
from enum import StrEnum
from ipaddress import ip_address
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NoReturn, cast

import typer

from hangpoint import __version__

if TYPE_CHECKING:
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.settings import Settings

EXIT_UNUSABLE = 2
EXIT_NOT_PASSED = 3

app = typer.Typer(
    help="Check what anchors in concrete hold.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)


class UnitSystem(StrEnum):
    """Unit system of bare numbers."""

    US = "us"
    SI = "si"


class DesignCode(StrEnum):
    """Design code."""

    ACI318_19 = "aci318_19"
    EN1992_4 = "en1992_4"


class Combinations(StrEnum):
    """How loads are combined."""

    STRENGTH = "strength"
    GIVEN_FACTORED = "given_factored"
    ALLOWABLE = "allowable"


class Detail(StrEnum):
    """How much of the calculation is written."""

    VERDICT = "verdict"
    MODES = "modes"
    TRACE = "trace"


class Delimiter(StrEnum):
    """What stands between the cells of a CSV."""

    COMMA = "comma"
    SEMICOLON = "semicolon"
    TAB = "tab"

    @property
    def sign(self) -> str:
        """The character."""
        return {"comma": ",", "semicolon": ";", "tab": "\t"}[self]


class Decimal(StrEnum):
    """Decimal sign of a CSV."""

    POINT = "."
    COMMA = ","


def main() -> None:
    """Entry point."""
    app()


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"hangpoint {__version__}")
        raise typer.Exit


@app.callback()
def _every_command(  # pyright: ignore[reportUnusedFunction]
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Check what anchors in concrete hold."""


@app.command()
def check(
    file: Annotated[Path, typer.Argument(help="CSV or JSON of hang points, by its ending.", show_default=False)],
    units: Annotated[UnitSystem | None, typer.Option(help="Units of bare numbers of a CSV, and of its answer.")] = None,
    defaults: Annotated[
        Path | None, typer.Option(help="JSON object with values for every row of a CSV that lacks its own.")
    ] = None,
    combinations: Annotated[Combinations | None, typer.Option(help="Of a CSV.")] = None,
    design_code: Annotated[DesignCode | None, typer.Option(help="Of a CSV.")] = None,
    detail: Annotated[Detail | None, typer.Option(help="How much answers.json holds; otherwise modes.")] = None,
    delimiter: Annotated[Delimiter | None, typer.Option(help="Of a CSV; otherwise read from its header.")] = None,
    decimal: Annotated[Decimal | None, typer.Option(help="Decimal sign of a CSV; otherwise the point.")] = None,
    catalogue: Annotated[
        Path | None, typer.Option(help="File or folder of families used instead of the built-in ones.")
    ] = None,
    strict: Annotated[bool, typer.Option("--strict", help="Exit with 3 if any point is not passed.")] = False,
    out: Annotated[Path | None, typer.Option(help="Folder for schedule.csv and answers.json.")] = None,
) -> None:
    """Check every hang point of a file and print a schedule of them."""
    from hangpoint.api.run import CSV, JSON, STAGES

    media = {".csv": CSV, ".tsv": CSV, ".txt": CSV, ".json": JSON}.get(file.suffix.lower())
    if media is None:
        _refuse(f"{file}: name a file that ends in .csv or .json; its ending says how it is read.")
    of_csv = {
        "--units": units,
        "--defaults": defaults,
        "--combinations": combinations,
        "--design-code": design_code,
        "--delimiter": delimiter,
        "--decimal": decimal,
    }
    stated = [name for name, value in of_csv.items() if value is not None]
    if media == JSON and stated:
        _refuse(f"{', '.join(stated)}: a JSON file says this itself; the option goes with a CSV.")
    if defaults is not None and units is None:
        _refuse("--defaults needs --units: say in which units its bare numbers are.")
    with _progress([*STAGES, *(["writing"] if out else [])]) as stage:
        answer = _answer(
            file,
            media,
            catalogue=catalogue,
            detail=detail or Detail.MODES,
            stage=stage,
            options=lambda: _csv_options(
                units=units,
                defaults=defaults,
                combinations=combinations,
                design_code=design_code,
                detail=detail,
                delimiter=delimiter,
                decimal=decimal,
            ),
        )
        if out is not None:
            stage("writing")
            _write(answer, out)
    _print(answer, str(file))
    if out is not None:
        typer.echo(f"\nWritten: {out / 'schedule.csv'} and {out / 'answers.json'}")
    if strict and answer["summary"]["passed"] != answer["summary"]["total"]:
        raise typer.Exit(EXIT_NOT_PASSED)


def _answer(
    file: Path,
    media: str,
    *,
    options: "Callable[[], CsvOptions]",
    catalogue: Path | None,
    detail: str,
    stage: Callable[[str], None],
) -> dict[str, Any]:
    from hangpoint.api.batch import Limits
    from hangpoint.api.problems import ProblemError
    from hangpoint.api.run import CSV, run_batch
    from hangpoint.core.errors import CatalogueError
    from hangpoint.product.catalogue import load_catalogue

    settings = _settings()
    body = _read(file, settings.max_batch_bytes)
    path = catalogue or settings.catalogue
    try:
        run = run_batch(
            body,
            media,
            options=options() if media == CSV else None,
            catalogue=load_catalogue(None if path is None else [path]),
            limits=Limits(items=settings.max_items, traces=settings.max_traces),
            detail=detail,
            stage=stage,
        )
    except CatalogueError as error:
        _refuse(str(error))
    except ProblemError as problem:
        _refuse(_problem_text(file, problem))
    return run.answer


def _csv_options(
    *,
    units: UnitSystem | None,
    defaults: Path | None,
    combinations: Combinations | None,
    design_code: DesignCode | None,
    detail: Detail | None,
    delimiter: Delimiter | None,
    decimal: Decimal | None,
) -> "CsvOptions":
    from hangpoint.api.bodies import plain_json
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.api.problems import ProblemError

    values: dict[str, Any] = {}
    if defaults is not None:
        try:
            stated = plain_json(_read(defaults))
        except ProblemError as problem:
            _refuse(_problem_text(defaults, problem))
        if not isinstance(stated, dict):
            _refuse(f"{defaults}: defaults are one JSON object with the fields of a hang point.")
        values = cast(dict[str, Any], stated)
    return CsvOptions(
        units=None if units is None else units.value,
        design_code=design_code,
        combinations=combinations,
        detail=detail,
        delimiter=None if delimiter is None else delimiter.sign,
        decimal_comma=decimal is Decimal.COMMA,
        defaults=values,
    )


def _read(file: Path, limit: int | None = None) -> bytes:
    try:
        size = file.stat().st_size
        if limit is not None and size > limit:
            _refuse(f"{file}: the file has {size} bytes; the limit is {limit}. Split it.")
        return file.read_bytes()
    except OSError as error:
        _refuse(f"{file}: the file can't be read: {error.strerror}.")


def _problem_text(file: Path, problem: Any) -> str:
    """A problem in words: what, where by line and column or pointer, and what would do."""
    from hangpoint.api.problems import MAX_ERRORS, PROBLEMS
    from hangpoint.report.terminal import error_text, place_of, printable

    lines = [f"{file}: {PROBLEMS[problem.slug].title.lower()}."]
    found = [error.as_json() for error in problem.errors]
    lines += [f"  {place_of(error)}: {error_text(error)}" for error in found[:MAX_ERRORS]]
    if len(found) > MAX_ERRORS:
        lines.append(f"  and {len(found) - MAX_ERRORS} more")
    if not found:
        lines.append(f"  {problem.detail}")
    return "\n".join(printable(line) for line in lines)


def _write(answer: dict[str, Any], folder: Path) -> None:
    from hangpoint.report.folder import write_answer

    try:
        write_answer(answer, folder)
    except OSError as error:
        _refuse(f"{folder}: the answer can't be written: {error.strerror}.")


@contextmanager
def _progress(stages: list[str]) -> Generator[Callable[[str], None]]:
    """A bar over the stages of a check on the error stream; nothing where that is no terminal."""
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

    console = Console(stderr=True)
    shown = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
    with Progress(*shown, console=console, disable=not console.is_terminal) as bar:
        task = bar.add_task(stages[0], total=len(stages))

        def stage(name: str) -> None:
            bar.update(task, description=name, completed=stages.index(name))

        yield stage
        bar.update(task, description="done", completed=len(stages))


def _print(answer: dict[str, Any], source: str) -> None:
    from rich.console import Console

    from hangpoint.report.terminal import print_answer

    print_answer(answer, Console(highlight=False), source=source)


@app.command()
def serve(
    host: Annotated[str | None, typer.Option(help="Address to listen on; otherwise HANGPOINT_HOST.")] = None,
    port: Annotated[int | None, typer.Option(min=1, max=65535, help="Otherwise HANGPOINT_PORT.")] = None,
) -> None:
    """Serve the API: on this machine only, unless HANGPOINT_ACCESS says who else may call."""
    settings = _settings()
    settings = settings.model_copy(update={"host": host or settings.host, "port": port or settings.port})
    _require_access(settings)
    import logging

    import uvicorn

    from hangpoint.app import create_app
    from hangpoint.core.errors import CatalogueError

    try:
        service = create_app(settings)
    except CatalogueError as error:
        _refuse(str(error))
    lines = logging.StreamHandler(sys.stdout)
    requests = logging.getLogger("hangpoint.requests")
    requests.addHandler(lines)
    requests.setLevel(logging.INFO)
    requests.propagate = False
    shown = f"[{settings.host}]" if ":" in settings.host else settings.host
    typer.echo(f"hangpoint {__version__} on http://{shown}:{settings.port}, documentation under /docs", err=True)
    uvicorn.run(
        service,
        host=settings.host,
        port=settings.port,
        log_config=None,
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=30,
    )


def _require_access(settings: "Settings") -> None:
    if settings.access == "tokens" and not [token for token in settings.tokens.split(",") if token.strip()]:
        _refuse("HANGPOINT_ACCESS=tokens needs HANGPOINT_TOKENS: set it to the tokens let in, separated by commas.")
    if settings.access == "loopback" and not _is_loopback(settings.host):
        _refuse(
            f"{settings.host} can be reached from other machines, and anybody there could call. Set"
            " HANGPOINT_ACCESS=tokens with HANGPOINT_TOKENS, or HANGPOINT_ACCESS=proxy if a proxy in front"
            " authenticates; or listen on 127.0.0.1."
        )


def _is_loopback(host: str) -> bool:
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


@app.command()
def openapi() -> None:
    """Print the OpenAPI document."""
    import orjson

    from hangpoint.app import create_app
    from hangpoint.settings import Settings

    document = create_app(Settings.model_construct()).openapi()
    options = orjson.OPT_INDENT_2 | orjson.OPT_SORT_KEYS
    typer.echo(orjson.dumps(document, option=options).decode())


@app.command()
def nomenclature() -> None:
    """Print every number of the calculation with its symbol, unit and clause, as a Markdown table."""
    from hangpoint.report.nomenclature import nomenclature as table

    typer.echo(table())


def _settings() -> "Settings":
    from pydantic import ValidationError

    from hangpoint.settings import read_settings

    try:
        return read_settings()
    except ValidationError as error:
        lines = [f"HANGPOINT_{'_'.join(map(str, each['loc'])).upper()}: {each['msg']}." for each in error.errors()]
        _refuse("\n".join(lines))


def _refuse(sentence: str) -> NoReturn:
    typer.echo(sentence, err=True)
    raise typer.Exit(EXIT_UNUSABLE)


if __name__ == "__main__":
    main()
