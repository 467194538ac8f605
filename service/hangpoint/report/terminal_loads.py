"""Loads on hangers on a terminal: a table of the hangers, what was seen, and what the numbers rest on."""

from collections.abc import Mapping
from typing import Any

from rich.console import Console
from rich.table import Table

from hangpoint.core.vocabulary import Status
from hangpoint.report.printable import printable
from hangpoint.report.reasons import place_of
from hangpoint.report.terminal import bullet, error_text, styled

Result = Mapping[str, Any]


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
            f"{summary['total']} items, {summary['hangers']} hangers: {summary['passed']} passed, {summary['failed']}"
            f" failed, {summary['invalid']} invalid",
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
    for item in answer["items"]:
        for place, hanger in enumerate(item.get("hangers", ())):
            rod = hanger.get("rod")
            table.add_row(
                printable(item["id"]) if place == 0 else "",
                item["kind"] if place == 0 else "",
                str(hanger["hanger"]),
                f"{hanger['service_tension']:,.4g}",
                f"{hanger['factored_tension']:,.4g}",
                hanger["factored_case"],
                "" if rod is None else f"{rod['utilisation']:.0%}" if "utilisation" in rod else "by size",
            )
    console.print(table)


def _seen(answer: Result, console: Console) -> None:
    for item in answer["items"]:
        if item["status"] == Status.INVALID:
            first = item["problem"]["errors"][0]
            console.print(styled(f"{item['id']}: invalid, {place_of(first)}: {error_text(first)}", "magenta"))
            continue
        for finding in item["findings"]:
            where = next((f" {part} {finding[part]}" for part in ("hanger", "line", "tier") if part in finding), "")
            limit = f", limit {finding['limit']:,.4g}" if "limit" in finding else ""
            unit = answer["units"].get(finding.get("quantity"), "")
            figures = f"{finding['value']:,.4g}{limit} {unit}".rstrip() if "value" in finding else ""
            text = " ".join(finding[name] for name in ("text", "conditions") if name in finding)
            style = "bold red" if finding["severity"] == "violation" else ""
            console.print(
                styled(f"{item['id']}{where}: {finding['severity']}, {text}{figures and f' ({figures})'}", style)
            )
