"""Loads on hangers on a terminal: a table of the hangers, what was seen, and what the numbers rest on."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from rich.console import Console
from rich.table import Table

from hangpoint.core.vocabulary import Severity, Status
from hangpoint.report.printable import plain_number, printable, told_apart
from hangpoint.report.reasons import percent, place_of
from hangpoint.report.terminal import MOST_LISTED, error_text
from hangpoint.report.terminal_texts import bullet, counted, more_text, styled

Result = Mapping[str, Any]

MOST_HANGERS = 200
"""Hangers that the table has, the first of the file."""
_FILE = "hangers.csv of --out DIR"
_FIGURES = 4
_ORDER = ("invalid", *Severity)


def print_loads(answer: Result, console: Console, *, source: str) -> None:
    """Print every hanger of an answer, the findings, assumptions and cautions.

    Args:
        answer: of a request for hanger loads.
        console: where to.
        source: name of the file.
    """
    console.print(styled(f"Hangers of {source}", "bold"))
    console.print(styled(f"{answer['load_standard']} | hangpoint {answer['engine_version']}"))
    _table(answer, console)
    _seen(answer, console)
    for title, name in (
        ("Assumptions taken where the request is silent", "assumptions"),
        ("Not checked", "not_checked"),
    ):
        console.print()
        console.print(styled(title, "bold"))
        for text in answer[name].values():
            console.print(bullet(text))
    summary = answer["summary"]
    console.print()
    console.print(
        styled(
            f"{counted(summary['total'], 'item')}, {counted(summary['hangers'], 'hanger')}: {summary['passed']} passed,"
            f" {summary['failed']} failed, {summary['invalid']} invalid",
            "bold",
        )
    )
    console.print()
    console.print(styled("Cautions", "bold"))
    for caution in answer["cautions"]:
        console.print(bullet(caution))


def _table(answer: Result, console: Console) -> None:
    force = answer["units"]["force"]
    table = Table(box=None, pad_edge=False)
    for name in ("Item", "Kind", "Hanger"):
        table.add_column(name)
    for name in (f"Service, {force}", f"Factored, {force}"):
        table.add_column(name, justify="right")
    table.add_column("Combination")
    table.add_column("Rod", justify="right")
    every = [(item, place, hanger) for item in answer["items"] for place, hanger in enumerate(item.get("hangers", ()))]
    for item, place, hanger in every[:MOST_HANGERS]:
        rod = hanger.get("rod")
        table.add_row(
            printable(item["id"]) if place == 0 else "",
            item["kind"] if place == 0 else "",
            str(hanger["hanger"]),
            _figure(hanger["service_tension"]),
            _figure(hanger["factored_tension"]),
            hanger["factored_case"],
            "" if rod is None else percent(rod["utilisation"]) if "utilisation" in rod else "by size",
        )
    console.print(table)
    if len(every) > MOST_HANGERS:
        console.print(styled(more_text(len(every) - MOST_HANGERS, _FILE)))


def _seen(answer: Result, console: Console) -> None:
    """What is wrong with items, and findings; of many the gravest."""
    lines = [line for item in answer["items"] for line in _lines_of(item, answer["units"])]
    if len(lines) > MOST_LISTED:
        lines.sort(key=lambda line: _ORDER.index(line[0]))
    for kind, text in lines[:MOST_LISTED]:
        style = {"invalid": "magenta", Severity.VIOLATION: "bold red"}.get(kind, "")
        console.print(styled(text, style))
    if len(lines) > MOST_LISTED:
        console.print(styled(more_text(len(lines) - MOST_LISTED, _FILE)))


def _lines_of(item: Result, units: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """What is said of an item, each with its severity."""
    if item["status"] == Status.INVALID:
        first = item["problem"]["errors"][0]
        yield "invalid", f"{item['id']}: invalid, {place_of(first)}: {error_text(first)}"
        return
    for finding in item["findings"]:
        where = next((f" {part} {finding[part]}" for part in ("hanger", "line", "tier") if part in finding), "")
        unit = units.get(finding.get("quantity"), "")
        figures = f"{_against(finding)} {unit}".rstrip() if "value" in finding else ""
        severity, text = finding["severity"], " ".join(finding[own] for own in ("text", "conditions") if own in finding)
        yield severity, f"{item['id']}{where}: {severity}, {text}{figures and f' ({figures})'}"


def _against(finding: Result) -> str:
    """The value of a finding, with its limit if it has one."""
    value, limit = finding["value"], finding.get("limit")
    if limit is None:
        return _figure(value)
    own, other = told_apart(value, limit, _FIGURES)
    return f"{Decimal(own):,f}, limit {Decimal(other):,f}"


def _figure(value: float) -> str:
    return f"{Decimal(plain_number(value, _FIGURES)):,f}"
