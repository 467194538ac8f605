"""The command line: check a file of hang points, compute hanger loads, serve, ask for readiness, print documents.

Everything heavy is imported by the command that uses it.
"""

from typing import Annotated

import typer

from hangpoint import __version__
from hangpoint.cli.check import check
from hangpoint.cli.documents import load_map, rfis, submittal
from hangpoint.cli.lists import columns, families
from hangpoint.cli.loads import loads
from hangpoint.cli.rows import rows
from hangpoint.cli.serve import health, serve
from hangpoint.cli.take_off import take_off
from hangpoint.cli_catalogue import app as catalogue_app

app = typer.Typer(
    help="Check what hang points and their anchors hold.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
app.add_typer(catalogue_app, name="catalogue")
for command in (check, submittal, load_map, rfis, loads, take_off, columns, rows, families, serve, health):
    app.command()(command)


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
    """Check what hang points and their anchors hold."""


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
