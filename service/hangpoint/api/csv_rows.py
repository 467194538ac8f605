"""The rows of a CSV text (RFC 4180), each with the line on which it begins, up to a broken quote.

Behind a quote that is not closed no cell has a certain place, so the rest of the text is handed back whole, and what
came before it stands.
"""

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from hangpoint.api.problems import ProblemError

MAX_CELL = 4096
"""Characters of a cell."""

csv.field_size_limit(1 << 30)  # Bodies have a limit of their own; a cell over MAX_CELL costs its row only.


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """What can't be read: ``text`` from the beginning of a row, and ``detail`` why; its quote opens on ``line``."""

    text: str
    line: int
    detail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvRows:
    """A CSV as cells: the rows that aren't blank, with their lines, as many as were asked for; ``count`` is of all.

    The header is the first line that isn't blank, ``header_line``.
    """

    delimiter: str
    header: Sequence[str]
    header_line: int
    rows: Sequence[tuple[int, list[str]]]
    count: int
    rest: Rest | None


def read_rows(text: str, delimiter: str, *, most: int) -> CsvRows:
    """Split a text into cells.

    Raises:
        ProblemError: the header has a broken quote.
    """
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    header, header_line = [""], 1
    line = 1
    try:
        for header in reader:
            header_line = line
            if any(cell.strip() for cell in header):
                break
            line = reader.line_num + 1
    except csv.Error:
        raise ProblemError("malformed", f"The header can't be read. {_rest(text, line, delimiter).detail}") from None
    rows: list[tuple[int, list[str]]] = []
    count, line = 0, reader.line_num + 1
    rest = None
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                count += 1
                if count <= most:
                    rows.append((line, row))
            line = reader.line_num + 1
    except csv.Error:
        count += 1
        rest = _rest(text, line, delimiter)
    return CsvRows(delimiter=delimiter, header=header, header_line=header_line, rows=rows, count=count, rest=rest)


def _rest(text: str, line: int, delimiter: str) -> Rest:
    """The text from the row that begins on this line, which has a broken quote."""
    lengths = [len(each) for each in io.StringIO(text, newline="")]
    start = sum(lengths[: line - 1])
    quote, closed = _broken_quote(text, start, delimiter)
    opened, reached = line, start + lengths[line - 1]
    while reached <= quote:
        reached += lengths[opened]
        opened += 1
    what = f"The quoted cell that begins on line {opened} is not closed"
    if closed:
        what += ", or has other text behind its closing quote; a quote inside a cell is written twice"
    unread = f"Line {line} was" if line == len(lengths) else f"Lines {line} to {len(lengths)} were"
    detail = f"{what}. {unread} not read."
    return Rest(text=text[start:], line=opened, detail=detail)


def _broken_quote(text: str, start: int, delimiter: str) -> tuple[int, bool]:
    """Where the first cell opens whose quote is broken, and whether it is closed."""
    ends = ("", delimiter, "\n", "\r")
    at = text.find('"', start)
    while at >= 0:
        after = at + 1
        if at == start or text[at - 1] in ends:
            end = _closing_quote(text, at + 1)
            if end < 0 or text[end + 1 : end + 2] not in ends:
                return at, end >= 0
            after = end + 1
        at = text.find('"', after)
    return start, False


def _closing_quote(text: str, at: int) -> int:
    """Place of the quote that closes a cell, -1 without one; a doubled quote stands for itself."""
    while (at := text.find('"', at)) >= 0:
        if text[at + 1 : at + 2] != '"':
            return at
        at += 2
    return -1
