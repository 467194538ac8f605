"""``hangpoint check``: a file of hang points, checked, printed, and written where that is asked.

Exit codes: 0 every point was answered, whatever the verdicts; 3 with ``--strict`` if any is not passed; 2 if the file
can't be read or the answer can't be written.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from hangpoint.cli.options import (
    EXIT_NOT_PASSED,
    CatalogueOption,
    CombinationsOption,
    DecimalOption,
    DefaultsOption,
    DelimiterOption,
    DesignCodeOption,
    Detail,
    EncodingOption,
    Format,
    LoadStandardOption,
    NeighboursOption,
    NoteOption,
    ProjectOption,
    StrictOption,
    UnitsOption,
)
from hangpoint.cli.progress import progress
from hangpoint.cli.reading import csv_options, read_kind, refuse_unheard
from hangpoint.cli.refusal import problem_text, refuse, usable_catalogue, usable_settings
from hangpoint.cli.sheet_files import HTML_NAMES, PDF_NAMES, SheetFiles, SheetWish, named, sheet_files
from hangpoint.core.vocabulary.words import Status
from hangpoint.report.printable import printable

if TYPE_CHECKING:
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.api.files import FileKind
    from hangpoint.api.run import Run, RunOptions


_WRITTEN = (Format.CSV, Format.JSON)
"""What is written where no format is named."""
_ERRORS = "errors.csv"
"""Every error of invalid points, where there are any."""
_SHEETS = {Format.HTML, Format.PDF}


def check(
    file: Annotated[
        Path,
        typer.Argument(help="CSV, XLSX, JSON or lines of JSON, by its ending and content.", show_default=False),
    ],
    units: UnitsOption = None,
    defaults: DefaultsOption = None,
    combinations: CombinationsOption = None,
    load_standard: LoadStandardOption = None,
    design_code: DesignCodeOption = None,
    detail: Annotated[Detail | None, typer.Option(help="How much answers.json holds; otherwise modes.")] = None,
    neighbours: NeighboursOption = None,
    delimiter: DelimiterOption = None,
    decimal: DecimalOption = None,
    encoding: EncodingOption = None,
    note: NoteOption = None,
    project: ProjectOption = None,
    catalogue: CatalogueOption = None,
    strict: StrictOption = False,
    out: Annotated[
        Path | None, typer.Option(help="Folder for schedule, answers, and errors of invalid points.")
    ] = None,
    formats: Annotated[
        list[Format] | None,
        typer.Option("--format", help="What is written with --out, again for each; otherwise csv and json."),
    ] = None,
    echo: Annotated[
        bool,
        typer.Option("--echo", help="Repeat in the schedule what was stated of each point, as input.PATH."),
    ] = False,
    only: Annotated[
        list[str] | None,
        typer.Option(
            help="Id of a hang point whose calculation sheet is wanted, again for each, or @FILE with an id a line;"
            " otherwise all."
        ),
    ] = None,
    only_status: Annotated[
        list[Status] | None,
        typer.Option(help="Calculation sheets of points with this status only, again for each."),
    ] = None,
) -> None:
    """Check every hang point of a file and print a schedule of them."""
    _refuse_options(out=out, formats=formats, echo=echo, only=only, only_status=only_status)
    settings = usable_settings()
    body, kind = read_kind(file, settings.max_batch_bytes, decimal)
    of_csv = {"--defaults": defaults, "--delimiter": delimiter, "--decimal": decimal}
    of_csv |= {"--encoding": encoding, "--note": note, "--project": project}
    of_rows = {
        "--units": units,
        "--combinations": combinations,
        "--load-standard": load_standard,
        "--design-code": design_code,
        "--neighbours" if neighbours else "--no-neighbours": neighbours,
    }
    refuse_unheard(kind, of_csv=of_csv, of_rows=of_rows)
    _refuse_choice_of_one(kind, only=only, only_status=only_status)
    csv = csv_options(
        file,
        units=units,
        defaults=defaults,
        combinations=combinations,
        load_standard=load_standard,
        design_code=design_code,
        detail=detail,
        neighbours=neighbours,
        delimiter=delimiter,
        decimal=decimal,
        encoding=encoding,
        project=project,
        note=note,
    )
    from hangpoint.api.batch import Limits
    from hangpoint.api.run import STAGES, RunOptions

    wish = SheetWish(
        html=Format.HTML in (formats or ()),
        pdf=Format.PDF in (formats or ()),
        only=named(only) if only else None,
        statuses=frozenset(map(str, only_status or ())),
    )
    written: list[Path] = []
    sheets = SheetFiles()
    with progress([*STAGES, *(["writing"] if out else [])]) as stage:
        options = RunOptions(
            catalogue=usable_catalogue(catalogue or settings.catalogue),
            limits=Limits(items=settings.max_items, traces=settings.max_items),
            detail=detail or Detail.MODES,
            traced=wish.any and kind.one is not None,
            max_line=settings.max_line_bytes,
        )
        run = _run(file, body, kind, options, csv=csv, stage=stage)
        if out is not None:
            stage("writing")
            if wish.any:
                sheets = _sheets(file, body, kind, options, csv=csv, run=run, wish=wish)
                run = sheets.run or run
            written = _write(run, out, formats or _WRITTEN, sheets, echo=echo)
    _print(run, str(file), written)
    if wish.any:
        _say_of_sheets(sheets)
    if strict and run.answer["summary"]["passed"] != run.answer["summary"]["total"]:
        raise typer.Exit(EXIT_NOT_PASSED)


def _refuse_options(
    *,
    out: Path | None,
    formats: Sequence[Format] | None,
    echo: bool,
    only: Sequence[str] | None,
    only_status: Sequence[Status] | None,
) -> None:
    """Refuse options that would not be heard."""
    if formats and out is None:
        refuse("--format needs --out: name the folder to write to.")
    if echo and (out is None or {Format.CSV, Format.XLSX}.isdisjoint(formats or _WRITTEN)):
        refuse("--echo needs --out and a schedule, csv or xlsx: it says what stands in it.")
    if (only or only_status) and _SHEETS.isdisjoint(formats or ()):
        name = "--only" if only else "--only-status"
        refuse(f"{name} needs --format html or pdf: it says whose calculation sheets are written.")


def _say_of_sheets(sheets: SheetFiles) -> None:
    """Say which calculation sheets were not written."""
    if sheets.too_long:
        refuse(
            f"Too long for a PDF, so not written: the sheets of {printable(', '.join(sheets.too_long))}. Write them"
            " with --only and --format html, which takes any length, and print them from a browser."
        )
    if not sheets.files:
        typer.echo("No calculation sheets: no point is wanted that has the status.")


def _refuse_choice_of_one(
    kind: "FileKind", *, only: Sequence[str] | None, only_status: Sequence[Status] | None
) -> None:
    if (only or only_status) and kind.one is not None:
        refuse(f"{'--only' if only else '--only-status'}: a file of one check has one sheet; leave the option out.")


def _run(
    file: Path,
    body: bytes,
    kind: "FileKind",
    options: "RunOptions",
    *,
    csv: "CsvOptions",
    stage: Callable[[str], None],
) -> "Run":
    from hangpoint.api.files import holds_hanger_loads
    from hangpoint.api.problems import ProblemError
    from hangpoint.api.run import run_batch, run_group, run_single

    try:
        if kind.one is None:
            run = run_batch(body, kind.media_type, options, csv=csv, stage=stage)
            if holds_hanger_loads(run.batch.items):
                refuse(
                    f"{file}: its items are hanger loads, what hangs and not hang points. Run hangpoint loads {file}"
                    " --out DIR, and check the hang_points.json that it writes."
                )
            return run
        return (run_single if kind.one == "item" else run_group)(body, options)
    except ProblemError as problem:
        refuse(problem_text(file, problem))


def _sheets(
    file: Path,
    body: bytes,
    kind: "FileKind",
    options: "RunOptions",
    *,
    csv: "CsvOptions",
    run: "Run",
    wish: SheetWish,
) -> SheetFiles:
    """The calculation sheets that are wanted; points are checked once more for theirs, some at a time."""
    from hangpoint.api.problems import ProblemError

    def again(ids: frozenset[str] | None) -> "Run":
        if kind.one is not None:
            return run
        return _run(file, body, kind, replace(options, traced=True, only=ids), csv=csv, stage=lambda _: None)

    try:
        return sheet_files(run, wish, again, options.catalogue)
    except ProblemError as problem:
        refuse(problem_text(file, problem))


def _write(run: "Run", folder: Path, formats: Sequence[Format], sheets: SheetFiles, *, echo: bool) -> list[Path]:
    """What was written; what an earlier run wrote of the same kinds and this one did not is removed."""
    from hangpoint.api.run import beside
    from hangpoint.report.error_table import errors_csv
    from hangpoint.report.folder import answer_files, remove_files, write_files

    files = answer_files(run.answer, [form for form in formats if form not in _SHEETS], beside(run, echo=echo))
    errors = errors_csv(run.answer)
    if errors is not None:
        files[_ERRORS] = errors.encode()
    old = [_ERRORS]
    for form, names in ((Format.HTML, HTML_NAMES), (Format.PDF, PDF_NAMES)):
        old += names if form in formats else ()
    try:
        written = write_files(folder, files | sheets.files)
        remove_files(folder, old, but=written)
    except OSError as error:
        refuse(f"{folder}: the answer can't be written: {error.strerror}.")
    return written


def _print(run: "Run", file: str, written: Sequence[Path]) -> None:
    from rich.console import Console

    from hangpoint.report.folder import FILES
    from hangpoint.report.terminal import print_answer

    source, names = run.batch.source, {each.name: str(each) for each in written}
    print_answer(
        run.answer,
        Console(highlight=False),
        source=file,
        unread=[] if source is None else [title for title, _ in source.unread],
        errors=names.get(_ERRORS, ""),
        schedule=next((names[name] for name, _ in FILES.values() if name in names), ""),
    )
    if written:
        typer.echo(f"\nWritten: {', '.join(map(str, written))}")
