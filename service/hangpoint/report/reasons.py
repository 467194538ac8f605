"""Why a point does not hold, was not checked or was not understood, in sentences."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from hangpoint.core.hang_point.verdict import EXCEEDED
from hangpoint.core.vocabulary import MODE_TEXTS, Severity
from hangpoint.report.calculation.mathml import number
from hangpoint.report.printable import told_apart

Result = Mapping[str, Any]

MOST_WORDS = 8
"""Words of a closed list that a problem names."""
FEW_LEFT = 3
"""Words that are named all the same, where no more than these are left."""


def finding_text(found: Result, units: Mapping[str, str]) -> str:
    """A finding with its value, its limit and its clause."""
    return " ".join((found["text"] + _against(found, units), *bracketed(found["clause"])))


def _against(found: Result, units: Mapping[str, str]) -> str:
    if "value" not in found:
        return ""
    unit = units.get(found.get("quantity", ""), "")
    value, limit = number(found["value"]), ""
    if math.isfinite(found.get("limit", math.nan)):
        most = number(found["limit"])
        if value == most:
            value, most = told_apart(found["value"], found["limit"], 5)
        limit = f", limit {most} {unit}"
    return f" Here {value} {unit}{limit}.".replace(" .", ".").replace(" ,", ",")


def bracketed(clause: str) -> Iterator[str]:
    """A clause in brackets, if there is one."""
    if clause:
        yield f"({clause})"


def violations(result: Result, units: Mapping[str, str]) -> list[str]:
    """What does not hold without being a strength."""
    found = result.get("findings", ())
    return [finding_text(each, units) for each in found if each["severity"] == Severity.VIOLATION]


def refusal(result: Result) -> Iterator[str]:
    """Why a point was not checked, if it was not."""
    if "reason" in result:
        yield " ".join((result["reason"]["text"], *bracketed(result["reason"]["clause"])))


def invalid_texts(items: Iterable[Result]) -> list[str]:
    """What is wrong with each of the items that were not understood, a text an error."""
    return [
        f"{each['id'] or 'item without an id'} (No. {each['index'] + 1}): {text}"
        for each in items
        if "problem" in each
        for text in error_texts(each)
    ]


def error_texts(result: Result) -> list[str]:
    """What is wrong with a point that was not understood, where, and what may stand there."""
    problem: Result = result.get("problem", {})
    errors = problem.get("errors", ())
    texts = [f"{place_of(each)}: {what_is_wrong(each)}" for each in errors]
    left = problem.get("error_count", 0) - len(errors)
    return [*texts, f"And {left} more errors."] if left > 0 else texts


def what_is_wrong(error: Result, *, most: int = MOST_WORDS) -> str:
    """The cell that an error is of, what is wrong, and the first of those that may stand in its place."""
    cell = error.get("cell")
    quoted = "" if cell is None else f'"{cell}": '
    return f"{quoted}{error['detail']}{allowed_text(error.get('allowed', ()), most)}"


def place_of(error: Result) -> str:
    """Where an error stands: line and column of a CSV, line and field of lines of JSON, else the pointer."""
    pointer = str(error["pointer"])
    line = error.get("line")
    if line is None:
        return pointer
    whole, *parts = pointer.removeprefix("#/").split("/")
    if whole == "defaults":
        return f"defaults, field {'.'.join(parts)}"
    if "column" in error:
        return f'line {line}, column "{error["column"]}"'
    field = parts[1:]
    if not field:
        return f"line {line}"
    return f"line {line}, field {'.'.join(field)}" if whole == "lines" else f"line {line}, column {field[0]}"


def allowed_text(words: Sequence[str], most: int = MOST_WORDS) -> str:
    """The first of those that may stand in a place."""
    return f" Possible: {some_words(words, most)}." if words else ""


def first_named(names: Sequence[str], most: int) -> str:
    """The first of some names, and how many more there are."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more


def some_words(words: Sequence[str], most: int = MOST_WORDS) -> str:
    """The first of some words, and how many more there are."""
    named = words[:most] if len(words) > most + FEW_LEFT else words
    more = f" and {len(words) - len(named)} more" if len(words) > len(named) else ""
    return ", ".join(map(str, named)) + more


def why(result: Result, units: Mapping[str, str]) -> str | None:
    """Why a point is not passed, violations first; None where it is."""
    texts = [*error_texts(result), *refusal(result), *violations(result, units)]
    governing = result.get("governing", {})
    if governing.get("utilisation", 0.0) > 1:
        texts.append(f"{percent(governing['utilisation'])} used: {of_mode(governing)}.")
    return " ".join(texts) or None


def percent(utilisation: float) -> str:
    """A utilisation in percent; what is above 1 never reads as 100 %."""
    return f"{math.ceil(utilisation * 1000 - 1e-9) / 10:.1f}%" if utilisation > EXCEEDED else f"{utilisation:.1%}"


def of_mode(mode: Result) -> str:
    """A mode with its load case."""
    return f"{MODE_TEXTS.get(mode['mode'], mode['mode'])} ({mode['load_case']})"


def once_text(unread: Iterable[str]) -> str:
    """That rows of a CSV with a quantity are one point each, where such a column was not read; or empty."""
    if any(title.strip().casefold() == "quantity" for title in unread):
        return "Each row is one point, whatever its quantity: a take-off reads that column, a check does not."
    return ""
