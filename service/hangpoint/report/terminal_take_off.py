"""A take-off on a terminal: pull list, bars, sums by level, and what it rests on."""

from collections.abc import Mapping
from typing import Any

from rich.console import Console
from rich.table import Table

from hangpoint.core.vocabulary import Status
from hangpoint.report.common_errors import CommonErrors
from hangpoint.report.reasons import place_of
from hangpoint.report.take_off_tables import name_of, pieces_text
from hangpoint.report.terminal import MOST_LISTED, error_text, print_common
from hangpoint.report.terminal_texts import bullet, counted, more_text, styled

Result = Mapping[str, Any]


def print_take_off(answer: Result, console: Console, *, source: str) -> None:
    """Print the lists of a take-off, its sums, assumptions and cautions.

    Args:
        answer: of a request for a take-off.
        console: where to.
        source: name of the file.
    """
    console.print(styled(f"Take-off of {source}", "bold"))
    console.print(styled(f"catalogue: {answer['catalogue']['version']} | hangpoint {answer['engine_version']}"))
    _invalid(answer, console)
    console.print()
    _pull_list(answer, console)
    _bars(answer, console)
    _sums(answer, console)
    for title, name in (
        ("Assumptions taken where the request is silent", "assumptions"),
        ("In no count", "not_counted"),
    ):
        console.print()
        console.print(styled(title, "bold"))
        for text in answer[name].values():
            console.print(bullet(text))
    summary = answer["summary"]
    console.print()
    console.print(
        styled(
            f"{counted(summary['total'], 'item')}: {summary['counted']} counted, {summary['invalid']} invalid", "bold"
        )
    )
    console.print()
    console.print(styled("Cautions", "bold"))
    for caution in answer["cautions"]:
        console.print(bullet(caution))


def _invalid(answer: Result, console: Console) -> None:
    invalid = [item for item in answer["items"] if item["status"] == Status.INVALID]
    common = CommonErrors(invalid)
    print_common(console, common)
    alone = [(item, errors) for item in invalid if (errors := common.others(item["problem"]["errors"]))]
    for item, (first, *others) in alone[:MOST_LISTED]:
        more = f" And {len(others)} more." if others else ""
        name = "(no id)" if item["id"] is None else item["id"]
        console.print(styled(f"{name}: invalid, {place_of(first)}: {error_text(first)}{more}", "magenta"))
    if len(alone) > MOST_LISTED:
        console.print(styled(more_text(len(alone) - MOST_LISTED, "pull_list.csv of --out DIR")))


def _pull_list(answer: Result, console: Console) -> None:
    table = Table(box=None, pad_edge=False, title="Pull list", title_justify="left", title_style="bold")
    for name in ("Net", "With waste", "Pack", "Packs"):
        table.add_column(name, justify="right")
    table.add_column("What", overflow="fold")
    for line in answer["pull_list"]:
        unit = "" if line["unit"] == "piece" else f" {line['unit']}"
        table.add_row(
            *(styled(f"{line[name]:,.6g}{unit}") for name in ("net", "gross", "pack")),
            styled(f"{line['packs']:,}"),
            styled(line["description"]),
        )
    console.print(table)


def _bars(answer: Result, console: Console) -> None:
    unit = answer["units"]["distance"]
    for own in answer["cut_list"]:
        bars = "bar" if own["bars"] == 1 else "bars"
        console.print()
        console.print(
            styled(
                f"{own['description']}: {own['bars']} {bars} of {own['stock_length']:g} {unit}, at least"
                f" {own['lower_bound']}; {own['waste_share']:.1%} of them is left"
            )
        )
        console.print(styled(f"  cut to {pieces_text(own['pieces'], unit)}"))


def _sums(answer: Result, console: Console) -> None:
    distance = answer["units"]["distance"]
    table = Table(box=None, pad_edge=False, title="By level", title_justify="left", title_style="bold")
    table.add_column("Level")
    for name in ("Points", "Anchors", "Rods", f"Drilled, {distance}", "Hours", "Cost index"):
        table.add_column(name, justify="right")
    sums = answer["totals"]
    rows = [(name_of(own["name"]), own) for own in sums["level"]] if len(sums["level"]) > 1 else []
    for name, own in (*rows, ("all", sums["overall"])):
        measures = ("points", "anchors", "rods", "drilled_length", "hours", "cost_index")
        table.add_row(
            styled(name), *(f"{own[key]:,.6g}" if key == "points" else f"{own[key]:,.5g}" for key in measures)
        )
    console.print()
    console.print(table)
