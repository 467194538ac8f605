"""An answer as text for a terminal: what does not hold first, then the most used of what does, then what it rests on.

Words carry everything; colours only repeat them. It fits 80 columns and needs no terminal.
"""

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from hangpoint.core.vocabulary import MODE_TEXTS, Severity, Status
from hangpoint.report.common_errors import MANY, CommonErrors
from hangpoint.report.printable import plain_number, printable, told_apart
from hangpoint.report.reasons import first_named, once_text, place_of, what_is_wrong
from hangpoint.report.schedule import MEANINGS, near_ids
from hangpoint.report.terminal_texts import MOST_NAMED, bullet, counted, more_text, once_for_all, ratio, styled

Result = Mapping[str, Any]
Cells = tuple[Text, ...]

MOST_PASSED = 10
"""Passed points that are listed, the most used ones."""
MOST_LISTED = 50
"""Points of each other status that are listed, failed ones by how much they are used: a screen or two. Files have all,
in their own order."""

WIDE = 110
"""Columns of a terminal from which products have a column of their own."""

WIDEST = 40
MOST_ERRORS = 3
MOST_NEAR = 5
_STYLES = {Status.PASSED: "green", Status.FAILED: "bold red", Status.REFUSED: "yellow", Status.INVALID: "magenta"}
_SEVERITY_STYLES = {Severity.VIOLATION: "bold red", Severity.CAUTION: "yellow", Severity.NOTE: ""}
_COLUMN_OF_REASONS = {
    Status.FAILED: "What is wrong",
    Status.REFUSED: "Why it was not checked",
    Status.INVALID: "What is wrong",
}


def print_answer(
    answer: Result,
    console: Console,
    *,
    source: str,
    unread: Sequence[str] = (),
    errors: str = "",
    schedule: str = "",
) -> None:
    """Print the schedule of an answer, what it rests on, and its summary.

    Args:
        answer: of a batch.
        console: where to.
        source: name of the file that was checked.
        unread: titles of its columns that were not read.
        errors: name of the file that has every error, if one was written.
        schedule: name of the file that has every point, if one was written.
    """
    items: Sequence[Result] = answer["items"]
    console.print(styled(f"Hang points of {source}", "bold"))
    catalogue = answer["catalogue"]["version"]
    parts = [answer["design_code"]["edition"], f"combinations: {answer['combinations']}", f"catalogue: {catalogue}"]
    for line in _lines([*parts, f"hangpoint {answer['engine_version']}"], console.width):
        console.print(styled(line))
    if unread:
        console.print(styled(f"Columns not read, handed back at the end of the schedule: {', '.join(unread)}"))
    if once := once_text(unread):
        console.print(styled(once))
    common = CommonErrors(items)
    _not_passed(console, items, answer["units"], common, schedule or "--out DIR writes schedule.csv, which")
    _errors(console, items, errors, common)
    _passed(console, [item for item in items if item["status"] == Status.PASSED])
    _findings(console, items, answer["units"])
    _uncracked(console, items)
    _structural_limits(console, answer.get("structural_limits", ()), answer["units"])
    _questions(console, items)
    _sentences(console, "Assumptions taken where the request is silent", answer["assumptions"], items, "assumptions")
    _sentences(console, "Not checked", answer["not_checked"], items, "not_checked")
    _summary(console, answer["summary"], sum(bool(near_ids(item)) for item in items))
    console.print()
    console.print(styled("Cautions", "bold"))
    for caution in answer["cautions"]:
        console.print(bullet(caution))


def _lines(parts: Sequence[str], width: int) -> list[str]:
    """Parts with a sign between them, as many on a line as it takes."""
    lines: list[str] = []
    for part in parts:
        if lines and len(f"{lines[-1]} | {part}") <= width:
            lines[-1] += f" | {part}"
        else:
            lines.append(part)
    return lines


def error_text(error: Result) -> str:
    """What is wrong with what, and the nearest names or the words allowed."""
    return what_is_wrong(error, most=MOST_NEAR)


def _heading(console: Console, status: Status, count: int) -> None:
    console.print()
    meaning = f"  {MEANINGS[status]}" if count else ""
    console.print(Text.assemble((f"{str(status).upper()} {count}", _STYLES[status]), meaning))


def _not_passed(
    console: Console, items: Sequence[Result], units: Mapping[str, str], common: CommonErrors, file: str
) -> None:
    cells: Mapping[Status, Callable[[Result], Cells | None]] = {
        Status.FAILED: lambda item: _failed(item, units),
        Status.REFUSED: _refused,
        Status.INVALID: lambda item: _invalid(item, common),
    }
    for status, row in cells.items():
        found = [row(item) for item in sorted((item for item in items if item["status"] == status), key=_used)]
        _heading(console, status, len(found))
        if status is Status.INVALID:
            print_common(console, common)
        every = [each for each in found if each is not None]
        own = once_for_all(every[:MOST_LISTED], MANY)
        if not own:
            continue
        titles = ["Point", "Where" if status is Status.INVALID else "Product", _COLUMN_OF_REASONS[status]]
        if console.width < WIDE:
            titles.pop(1)
            own = [(point, Text("\n").join([where, *reasons])) for point, where, *reasons in own]
        else:
            own = [(point, where, Text("\n").join(reasons)) for point, where, *reasons in own]
        console.print(_table(titles, own))
        if len(every) > MOST_LISTED:
            console.print(styled(more_text(len(every) - MOST_LISTED, file)))


def _used(item: Result) -> float:
    """Key that has the most used first; those of which nothing is computed stay in the order of the file."""
    return -item.get("governing", {}).get("utilisation", 0.0)


def print_common(console: Console, common: CommonErrors) -> None:
    """What is wrong with many points alike; the table has the rest."""
    for each in common.told():
        where = f"{', '.join(each.fields)} " if each.fields else ""
        points = f"{len(each.points)} points ({first_named(each.points, MOST_NAMED)})"
        console.print(bullet(f"{where}at {points}: {error_text(each.error)}"))


def _errors(console: Console, items: Sequence[Result], file: str, common: CommonErrors) -> None:
    """Where the errors stand that are not listed."""
    counts = [len(item["problem"]["errors"]) for item in items if item["status"] == Status.INVALID]
    if common or any(count > MOST_ERRORS for count in counts):
        where = f"{file} has each" if file else "--out DIR writes each to errors.csv"
        console.print(styled(f"{sum(counts)} errors in all: {where}."))


def _table(titles: Sequence[str], rows: Sequence[Sequence[Text]], *, right: Sequence[int] = ()) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold", expand=True)
    last = len(titles) - 1
    for place, title in enumerate(titles):
        table.add_column(
            title,
            justify="right" if place in right else "left",
            overflow="fold",
            ratio=1 if place == last else None,
            max_width=None if place == last else WIDEST,
        )
    for row in rows:
        table.add_row(*row)
    return table


def _product(item: Result) -> Text:
    return styled(item["product"]["address"] if "product" in item else "no anchor", "dim")


def _failed(item: Result, units: Mapping[str, str]) -> Cells:
    wrong: list[str] = []
    governing: Result = item.get("governing", {})
    if governing and governing["utilisation"] > 1:
        edge = f", edge {governing['edge']}" if "edge" in governing else ""
        wrong.append(
            f"{MODE_TEXTS[governing['mode']].capitalize()}: utilisation {ratio(governing['utilisation'])}"
            f" (load case {governing['load_case']}{edge}{_anchors(governing)})."
        )
    violations = [finding for finding in item["findings"] if finding["severity"] == Severity.VIOLATION]
    wrong += [_violation(found, units) for found in violations]
    return (styled(item["id"]), _product(item), *(styled(each) for each in (*wrong, *_near(item))))


def _anchors(governing: Result) -> str:
    """Which anchors a mode is about, where the point has several or shares its concrete."""
    own = [str(each) for each in governing.get("anchors", ())]
    return f", {'anchor' if len(own) == 1 else 'anchors'} {', '.join(own)}" if own else ""


def _near(item: Result) -> Iterator[str]:
    """The points near a point, and what it would be without them."""
    if near := near_ids(item):
        alone = ratio(item["neighbours"]["alone"]["utilisation"])
        yield f"near {first_named(near, MOST_NAMED)}; alone {alone}"


def _violation(finding: Result, units: Mapping[str, str]) -> str:
    values = _values(finding, units)
    return f"{finding['text'].removesuffix('.')} ({values}; {finding['clause']})." if values else finding["text"]


def _values(finding: Result, units: Mapping[str, str]) -> str:
    """What a finding is about and its limit, where it has them."""
    unit = units.get(finding.get("quantity", ""), "")
    told = {key: plain_number(finding[key], 4) for key in ("value", "limit") if key in finding}
    if len(told) > 1:
        told["value"], told["limit"] = told_apart(finding["value"], finding["limit"], 4)
    names = {"value": "is", "limit": "limit"}
    return ", ".join(f"{names[key]} {figure} {unit}".rstrip() for key, figure in told.items())


def _refused(item: Result) -> Cells:
    reason: Result = item["reason"]
    clause = f" ({reason['clause']})" if reason["clause"] else ""
    return (styled(item["id"]), _product(item), styled(f"{reason['text']}{clause}"))


def _invalid(item: Result, common: CommonErrors) -> Cells | None:
    """What is wrong with a point and not with many others; None where nothing is."""
    every: Sequence[Result] = item["problem"]["errors"]
    errors = common.others(every)
    if not errors:
        return None
    lone = len(every) == 1
    row = f"line {errors[0]['line']}" if "line" in errors[0] else place_of(errors[0])
    where = place_of(errors[0]) if lone else row
    texts = [error_text(error) if lone else f"{place_of(error)}: {error_text(error)}" for error in errors[:MOST_ERRORS]]
    more = [f"and {len(errors) - MOST_ERRORS} more"] if len(errors) > MOST_ERRORS else []
    more += [f"and {len(every) - len(errors)} of those above"] if len(errors) < len(every) else []
    name = item["id"] if item["id"] is not None else "(no id)"
    return (styled(name), styled(where, "dim"), *(styled(each) for each in (*texts, *more)))


def _passed(console: Console, passed: Sequence[Result]) -> None:
    _heading(console, Status.PASSED, len(passed))
    if not passed:
        return
    most = sorted(((*_lead(item), item) for item in passed), key=lambda lead: -lead[0])[:MOST_PASSED]
    rows = [
        [
            styled(item["id"]),
            styled(ratio(used)),
            Text("\n").join([_product(item), *map(styled, (text, *_near(item))), *_decided(item)]),
        ]
        for used, text, item in most
    ]
    console.print(_table(["Point", "Used", "Product, and what is used most"], rows, right=(1,)))
    if len(passed) > len(most):
        console.print(styled(f"and {len(passed) - len(most)} more, none of them used more"))


def _lead(item: Result) -> tuple[float, str]:
    """What is used most."""
    lead: Result = item["governing"]
    return lead["utilisation"], f"{MODE_TEXTS[lead['mode']]} ({lead['load_case']}{_anchors(lead)})"


def _decided(item: Result) -> list[Text]:
    """Whose word uncracked concrete rests on; nothing where the concrete is cracked."""
    return [styled(f"uncracked, decided by {item['state_decided_by']}")] if "state_decided_by" in item else []


def _uncracked(console: Console, items: Sequence[Result]) -> None:
    """Every decider, also of points that are not listed."""
    points: dict[str, list[str]] = {}
    for item in items:
        if "state_decided_by" in item:
            points.setdefault(item["state_decided_by"], []).append(str(item["id"]))
    if not points:
        return
    console.print()
    console.print(styled("Concrete taken as uncracked, and who decided it", "bold"))
    for who, own in points.items():
        console.print(bullet(f"{who}: {first_named(own, MOST_NAMED)}"))


def _findings(console: Console, items: Sequence[Result], units: Mapping[str, str]) -> None:
    """Each finding once, with its points; the first of them with their values."""
    seen: dict[str, tuple[Result, list[str]]] = {}
    for item in items:
        for finding in item.get("findings", ()):
            points = seen.setdefault(finding["code"], (finding, []))[1]
            values = _values(finding, units) if len(points) < MOST_NAMED else ""
            points.append(f"{item['id']} ({values})" if values else str(item["id"]))
    if not seen:
        return
    console.print()
    console.print(styled("Findings", "bold"))
    order = list(Severity)
    for finding, points in sorted(seen.values(), key=lambda each: order.index(each[0]["severity"])):
        severity = Severity(finding["severity"])
        line = Text.assemble(
            (f"{severity} x {len(points)}", _SEVERITY_STYLES[severity]),
            printable(f"  {finding['text']} ({finding['clause']}) At {first_named(points, MOST_NAMED)}."),
        )
        console.print(Padding(line, (0, 0, 0, 2)))


def _structural_limits(console: Console, limits: Sequence[Result], units: Mapping[str, str]) -> None:
    if not limits:
        return
    console.print()
    console.print(styled("Limits of the structural notes", "bold"))
    for limit in limits:
        above = f"; above it {first_named(limit['exceeding'], MOST_NAMED)}" if limit["exceeding"] else ""
        total = f"{plain_number(limit['total'], 4)} {units['force']}"
        text = f"{limit['id']}: {limit['status']}, {total} at {len(limit['points'])} points"
        console.print(bullet(f"{text}{above}. {limit['text']}"))


def _questions(console: Console, items: Sequence[Result]) -> None:
    """What to ask the engineer, each question once with its points."""
    asked: dict[str, list[str]] = {}
    for item in items:
        for each in item.get("to_engineer", ()):
            asked.setdefault(each["question"], []).append(str(item["id"]))
    if not asked:
        return
    console.print()
    console.print(styled("To the engineer", "bold"))
    for question, points in asked.items():
        console.print(bullet(f"{question} At {first_named(points, MOST_NAMED)}."))


def _sentences(console: Console, title: str, texts: Mapping[str, str], items: Sequence[Result], member: str) -> None:
    if not texts:
        return
    console.print()
    console.print(styled(title, "bold"))
    points: dict[str, list[str]] = defaultdict(list)
    for item in items:
        for code in item.get(member, ()):
            points[code].append(str(item["id"]))
    for code, text in texts.items():
        own = points[code]
        many = counted(len(own), "point") if own else "the whole request"
        named = f": {', '.join(own)}" if 0 < len(own) <= MOST_NAMED < len(items) else ""
        console.print(bullet(f"{text} [{many}{named}]"))


def _summary(console: Console, summary: Result, near: int) -> None:
    console.print()
    console.print(styled("Summary", "bold"))
    for part in _counts(summary):
        console.print(Padding(part, (0, 0, 0, 2)))
    if near:
        console.print(Padding(styled(f"{near:6}  checked with neighbours"), (0, 0, 0, 2)))
    if summary["governing"]:
        most = sorted(summary["governing"].items(), key=lambda pair: -pair[1])
        console.print(Padding(styled("What governs the checked points:"), (0, 0, 0, 2)))
        for code, count in most:
            console.print(Padding(styled(f"{count:6}  {MODE_TEXTS[code]}"), (0, 0, 0, 2)))


def _counts(summary: Result) -> Iterator[Text]:
    yield styled(f"{summary['total']:6}  hang points")
    for status in Status:
        more = (
            f", {summary['passed_on_assumptions']} of them on assumptions"
            if status is Status.PASSED and summary["passed_on_assumptions"]
            else ""
        )
        yield Text.assemble(f"{summary[status]:6}  ", (str(status), _STYLES[status]), more)
