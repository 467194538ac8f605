"""The command line of catalogues: what is wrong with family files, and their schema.

Exit codes of ``check``: 0 every family can be used; 2 one can't, or a file can't be read.
"""

from pathlib import Path
from typing import Annotated

import typer

EXIT_UNUSABLE = 2

app = typer.Typer(
    help="Check family files of your own, or print their schema.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)


@app.command()
def check(
    files: Annotated[list[Path], typer.Argument(help="Family files, or folders of them (*.json).", show_default=False)],
) -> None:
    """Tell everything that is wrong with family files: file, place, reason, one line each, on the error stream."""
    from hangpoint.product.check import defects
    from hangpoint.report.printable import printable

    found = defects(files)
    for defect in found:
        typer.echo(printable(f"{defect.file}: {defect.pointer}: {defect.reason}"), err=True)
    if found:
        raise typer.Exit(EXIT_UNUSABLE)
    typer.echo("Every family can be used.")


@app.command()
def schema() -> None:
    """Print the JSON Schema (draft 2020-12) of a family file."""
    import json

    from hangpoint.product.family import family_json_schema

    typer.echo(json.dumps(family_json_schema(), indent=2, ensure_ascii=False))
