"""``hangpoint rows``: a sheet of a workbook as the CSV that the other commands read."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from hangpoint.cli.options import Decimal
from hangpoint.cli.reading import read_file, read_sheet
from hangpoint.cli.refusal import refuse, refuse_ending, usable_settings


class Hidden(StrEnum):
    """Whether hidden cells are read."""

    READ = "read"
    SKIP = "skip"


def rows(
    file: Annotated[Path, typer.Argument(help="Workbook (XLSX).", show_default=False)],
    sheet: Annotated[str | None, typer.Option(help="Sheet to read; needed where several have values.")] = None,
    header: Annotated[int, typer.Option(min=1, help="Row of the titles; what stands above it is left out.")] = 1,
    hidden: Annotated[
        Hidden | None, typer.Option(help="Whether hidden rows and columns are read; needed where there are any.")
    ] = None,
    decimal: Annotated[
        Decimal, typer.Option(help="Decimal sign of texts in it; with the comma numbers have it too.")
    ] = Decimal.POINT,
    out: Annotated[Path | None, typer.Option(help="New file for the CSV; otherwise it is printed.")] = None,
) -> None:
    """Print a sheet of a workbook as CSV: the text of each cell, a line a row."""
    from hangpoint.api.files import WORKBOOKS

    if file.suffix.lower() not in WORKBOOKS:
        refuse_ending(file, " or ".join(WORKBOOKS))
    from hangpoint.api.workbooks.reading import WorkbookOptions

    options = WorkbookOptions(
        sheet=sheet,
        header=header,
        hidden=None if hidden is None else hidden.value,
        comma=decimal is Decimal.COMMA,
    )
    read = read_sheet(file, read_file(file, usable_settings().max_batch_bytes), options)
    if out is None:
        typer.echo(read.csv, nl=False)
        return
    try:
        with out.open("x", encoding="utf-8", newline="") as made:
            made.write(read.csv)
    except FileExistsError:
        refuse(f"{out}: the file is there already; name a new one.")
    except OSError as error:
        refuse(f"{out}: the file can't be written: {error.strerror}.")
    typer.echo(f"Written: {out}, {read.rows} rows of {read.sheet}")
