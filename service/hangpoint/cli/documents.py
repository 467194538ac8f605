"""``hangpoint submittal``, ``hangpoint load-map`` and ``hangpoint rfis``: one document of the hang points of a file.

Exit codes: 0 the document was written, whatever the verdicts; 3 with ``--strict`` if any point is not passed; 2 if the
file can't be read or the document can't be made.
"""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from hangpoint.cli.options import (
    EXIT_NOT_PASSED,
    AnchorUse,
    CatalogueOption,
    CombinationsOption,
    DecimalOption,
    DefaultsOption,
    DelimiterOption,
    DesignCodeOption,
    EncodingOption,
    LoadStandardOption,
    NeighboursOption,
    NoteOption,
    ProjectOption,
    ProofRule,
    Sheets,
    StrictOption,
    UnitsOption,
)
from hangpoint.cli.reading import csv_options, read_kind, refuse_unheard
from hangpoint.cli.refusal import problem_text, refuse, refuse_ending, usable_catalogue, usable_settings
from hangpoint.cli.sheet_files import named

if TYPE_CHECKING:
    from hangpoint.api.csv_body import CsvOptions
    from hangpoint.api.resource import Resource

FileArgument = Annotated[Path, typer.Argument(help="CSV of hang points, or JSON, by its ending.", show_default=False)]
OutOption = Annotated[
    Path, typer.Option(help="File to write; .pdf, .html or .json says what it is.", show_default=False)
]


def submittal(
    file: FileArgument,
    out: OutOption,
    sheets: Annotated[
        Sheets | None,
        typer.Option(help="Points with calculation sheets; otherwise the worst of each product and base, and failing."),
    ] = None,
    only: Annotated[
        list[str] | None,
        typer.Option(help="Id of a point whose sheet is wanted instead, again for each, or @FILE with an id a line."),
    ] = None,
    test_rule: Annotated[
        ProofRule | None, typer.Option(help="Rule of proof tests; otherwise no plan of tests.")
    ] = None,
    test_use: Annotated[AnchorUse | None, typer.Option(help="What the anchors are used for, of a test rule.")] = None,
    units: UnitsOption = None,
    defaults: DefaultsOption = None,
    combinations: CombinationsOption = None,
    load_standard: LoadStandardOption = None,
    design_code: DesignCodeOption = None,
    neighbours: NeighboursOption = None,
    delimiter: DelimiterOption = None,
    decimal: DecimalOption = None,
    encoding: EncodingOption = None,
    note: NoteOption = None,
    project: ProjectOption = None,
    catalogue: CatalogueOption = None,
    strict: StrictOption = False,
) -> None:
    """Write a submittal: cover, schedule, load map, cards, sheets, open questions and tests in one document."""
    from hangpoint.api.resources.submittals import SUBMITTALS

    head = {"sheets": sheets, "only": sorted(named(only)) if only else None}
    head |= {"test_rule": test_rule, "test_use": test_use}
    of_rows = {"units": units, "combinations": combinations, "load_standard": load_standard, "design_code": design_code}
    of_csv = {"defaults": defaults, "delimiter": delimiter, "decimal": decimal}
    of_csv |= {"encoding": encoding, "note": note, "project": project, "neighbours": neighbours}
    answer = _write(SUBMITTALS, file, out, of_rows | of_csv, head=head, catalogue=catalogue)
    for sentence in answer["statement"]:
        typer.echo(sentence)
    _end(answer, out, strict=strict)


def _of_points(name: str, text: str, resource: Callable[[], "Resource"]) -> Callable[..., None]:
    """The command that writes the document of a resource that states nothing beside its points; ``text`` is its help.

    ``resource`` imports it, so that other commands don't.
    """

    def command(
        file: FileArgument,
        out: OutOption,
        units: UnitsOption = None,
        defaults: DefaultsOption = None,
        combinations: CombinationsOption = None,
        load_standard: LoadStandardOption = None,
        design_code: DesignCodeOption = None,
        neighbours: NeighboursOption = None,
        delimiter: DelimiterOption = None,
        decimal: DecimalOption = None,
        encoding: EncodingOption = None,
        note: NoteOption = None,
        project: ProjectOption = None,
        catalogue: CatalogueOption = None,
        strict: StrictOption = False,
    ) -> None:
        of_rows = {"units": units, "combinations": combinations}
        of_rows |= {"load_standard": load_standard, "design_code": design_code}
        of_csv = {"defaults": defaults, "delimiter": delimiter, "decimal": decimal}
        of_csv |= {"encoding": encoding, "note": note, "project": project, "neighbours": neighbours}
        answer = _write(resource(), file, out, of_rows | of_csv, head={}, catalogue=catalogue)
        for each in answer.get("rfis", ()):
            count = len(each["ids"])
            typer.echo(f"{each['number']}. {each['question']} ({count} point{'s' * (count != 1)})")
        _end(answer, out, strict=strict)

    command.__name__, command.__doc__ = name, text
    return command


def _load_maps() -> "Resource":
    from hangpoint.api.resources.load_maps import LOAD_MAPS

    return LOAD_MAPS


def _rfis() -> "Resource":
    from hangpoint.api.resources.rfis import RFIS

    return RFIS


load_map = _of_points(
    "load_map",
    "Write a load map: the loads of hang points on the structure, on a plan of every level and in tables.",
    _load_maps,
)
rfis = _of_points(
    "rfis", "Write requests for information: what to ask the engineer, and what the answers would change.", _rfis
)


def _end(answer: Mapping[str, Any], out: Path, *, strict: bool) -> None:
    summary = answer["summary"]
    counts = ", ".join(f"{summary[name]} {name}" for name in ("passed", "failed", "refused", "invalid"))
    typer.echo(f"{summary['total']} points: {counts}.\nWritten: {out}")
    if strict and summary["passed"] != summary["total"]:
        raise typer.Exit(EXIT_NOT_PASSED)


def _write(
    resource: "Resource",
    file: Path,
    out: Path,
    options: Mapping[str, Any],
    *,
    head: Mapping[str, Any],
    catalogue: Path | None,
) -> Mapping[str, Any]:
    """The answer of a resource, whose document was written.

    Args:
        resource: takes hang points as JSON and as CSV, and makes pages.
        file: of the points.
        out: the document, its form by its ending.
        options: of a CSV, None where nothing is stated.
        head: members of the request beside the points, None where nothing is stated.
        catalogue: families used instead of the built-in ones.
    """
    import orjson

    from hangpoint import __version__
    from hangpoint.api.media import CSV, JSON
    from hangpoint.api.metrics import Metrics
    from hangpoint.api.problems import ProblemError
    from hangpoint.api.state import State
    from hangpoint.report.folder import write_files

    ending = out.suffix.lower().removeprefix(".")
    if ending not in resource.forms:
        refuse(f"--out {out}: name a file that ends in {', '.join(f'.{word}' for word in resource.forms)}.")
    settings = usable_settings()
    body, kind = read_kind(file, settings.max_batch_bytes, options["decimal"])
    if kind.media_type not in (CSV, JSON) or kind.one is not None:
        refuse_ending(file, ".csv, .xlsx or .json, with many hang points")
    stated = {f"--{name.replace('_', '-')}": value for name, value in options.items()}
    refuse_unheard(kind, of_csv=stated, of_rows={})
    csv = csv_options(file, **options) if kind.media_type == CSV else None
    loaded = usable_catalogue(catalogue or settings.catalogue)
    metrics = Metrics(engine=__version__, catalogue=loaded.version)
    own = State(settings=settings, catalogue=loaded, metrics=metrics)
    head = {name: value for name, value in head.items() if value is not None}
    try:
        answer, beside = _answered(resource, body, csv, head, own)
        plain = orjson.loads(orjson.dumps(answer))
        content = _document(resource, ending, plain, beside)
    except ProblemError as problem:
        refuse(problem_text(file, problem))
    try:
        write_files(out.parent, {out.name: content})
    except OSError as error:
        refuse(f"{out}: the document can't be written: {error.strerror}.")
    return plain


def _answered(
    resource: "Resource", body: bytes, csv: "CsvOptions | None", head: Mapping[str, Any], own: Any
) -> "tuple[Mapping[str, Any], Any]":
    """What is stated beside the points of a JSON file by options stands in its place in the body."""
    import orjson

    from hangpoint.api.bodies import plain_json

    if csv is not None and resource.csv is not None:
        return resource.csv.run(body, csv, head, own)
    content: Any = plain_json(body) if head else None
    return resource.answered(orjson.dumps({**content, **head}) if isinstance(content, dict) else body, own)


def _document(resource: "Resource", ending: str, answer: Mapping[str, Any], beside: Any) -> bytes:
    import orjson

    from hangpoint.api.media import PDF
    from hangpoint.api.pdf_files import pdf_file

    form = next((each for each in resource.files if each.word == ending), None)
    if form is None:
        return orjson.dumps(answer, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)
    page = str(form.written(answer, beside))
    return pdf_file(page, sheets=form.count(answer)) if form.media == PDF else page.encode()
