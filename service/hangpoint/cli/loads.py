"""`hangpoint loads`: what hangs in a file, brought to its hangers; the hang points go on to `hangpoint check`."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from hangpoint.cli.options import EXIT_NOT_PASSED
from hangpoint.cli.refusal import problem_text, refuse, usable_settings

if TYPE_CHECKING:
    from hangpoint.settings import Settings


def loads(
    file: Annotated[Path, typer.Argument(help="Request for hanger loads, in JSON.", show_default=False)],
    defaults: Annotated[
        Path | None,
        typer.Option(help="JSON object with anchor, base and what else every hang point has, for hang_points.json."),
    ] = None,
    strict: Annotated[bool, typer.Option("--strict", help="Exit with 3 if any item is not passed.")] = False,
    out: Annotated[Path | None, typer.Option(help="Folder for hangers.csv, loads.json and hang_points.json.")] = None,
) -> None:
    """Bring what hangs to its hangers and print a schedule of them."""
    from rich.console import Console

    from hangpoint.report.terminal_loads import print_loads

    if defaults is not None and out is None:
        refuse("--defaults needs --out: they go into hang_points.json.")
    answer, units = _answer(file, usable_settings())
    written = [] if out is None else _write(answer, units, out, None if defaults is None else _object(defaults))
    print_loads(answer, Console(), source=str(file))
    if written:
        typer.echo(f"\nWritten: {', '.join(map(str, written))}")
    if strict and answer["summary"]["passed"] != answer["summary"]["total"]:
        raise typer.Exit(EXIT_NOT_PASSED)


def _answer(file: Path, settings: "Settings") -> tuple[dict[str, Any], str]:
    import orjson

    from hangpoint.api.batch import Limits
    from hangpoint.api.hanger_batch import run_hanger_loads
    from hangpoint.api.problems import ProblemError

    try:
        body = file.read_bytes()
    except OSError as error:
        refuse(f"{file}: {error.strerror}.")
    if not body.lstrip().startswith(b"{"):
        refuse(
            f"{file}: hanger loads are read from a request in JSON, which begins with a brace. Check a CSV of hang"
            " points by hangpoint check."
        )
    if len(body) > settings.max_batch_bytes:
        refuse(f"{file}: {len(body)} bytes, at most {settings.max_batch_bytes} are read.")
    try:
        answer = run_hanger_loads(body, limits=Limits(items=settings.max_items, traces=settings.max_traces))
    except ProblemError as problem:
        refuse(problem_text(file, problem))
    return orjson.loads(orjson.dumps(answer)), orjson.loads(body)["units"]


def _object(file: Path) -> dict[str, Any]:
    import orjson

    try:
        stated = orjson.loads(file.read_bytes())
    except (OSError, ValueError) as error:
        refuse(f"{file}: {error}.")
    if not isinstance(stated, dict):
        refuse(f"{file}: defaults are one JSON object with the fields of a hang point.")
    return stated  # pyright: ignore[reportUnknownVariableType]


def _write(answer: dict[str, Any], units: str, out: Path, defaults: dict[str, Any] | None) -> list[Path]:
    import orjson

    from hangpoint.report.folder import write_files
    from hangpoint.report.hanger_schedule import hang_point_request, hanger_csv

    options = orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE
    request = hang_point_request(answer, units=units, defaults=defaults)
    try:
        return write_files(
            out,
            {
                "hangers.csv": hanger_csv(answer).encode(),
                "loads.json": orjson.dumps(answer, option=options),
                "hang_points.json": orjson.dumps(request, option=options),
            },
        )
    except OSError as error:
        refuse(f"{out}: {error.strerror}.")
