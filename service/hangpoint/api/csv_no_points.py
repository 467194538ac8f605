"""Rows of a CSV that are no hang points: totals, headings, the header once more; and rows that can't be read whole."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from hangpoint.api.csv_header import Column, title_parts
from hangpoint.api.csv_rows import MAX_CELL
from hangpoint.api.problems import FieldError, pointer

_TOTAL = r"(?:(?:grand|sub|over-?all)[ -]?)?totals?"
_TOTALS = re.compile(
    rf"{_TOTAL}(?: .*)?:?|.* {_TOTAL}:?|sum(?: of .*| (?:weights?|loads?|points|hangers|anchors|quantity|qty))?:?",
    re.IGNORECASE,
)
_HEADING = re.compile(
    r"(?:levels?|lvl|floors?|area|zone|room|wing|building|bldg|phase|sector|stor(?:e?y|eys)|section|part|roof|basement)\b.*"
    r"|.* (?:floor|level|wing|area|zone)|[^0-9]{4,}",
    re.IGNORECASE,
)
"""Names of a part of a job, or without any figure: hardly of one point."""
_DIGIT = re.compile(r"\d")
_LINE_END = re.compile(r"\r\n|\r|\n")
_FEW = 2
"""Cells of a row without an id that is rather what is left of a sum."""
_LEAST_COLUMNS = 3
"""Columns of a file in which as many delimiters within a cell are those of a row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowForm:
    """What the rows of a file have to be like.

    ``titles`` are those of the header, ``identity`` the columns of an id, ``what`` a row is. ``alone``: no default
    stands behind a row. ``fuller``: some row has more than one cell.
    """

    titles: Sequence[str]
    identity: Sequence[Column]
    delimiter: str
    what: str
    alone: bool
    fuller: bool

    def unread(self, cells: Sequence[str], row: int, line: int) -> FieldError | None:
        """Why nothing but the id of a row is read."""
        width = len(self.titles)
        untitled = (place for place, title in enumerate(self.titles) if not title_parts(title)[0])
        if swallowed := self._swallowed(cells, line):
            code, detail = "broken-quote", swallowed
        elif any(cell.strip() for cell in cells[width:]):
            code = "row-too-long"
            detail = f"The row has {len(cells)} cells and the header {width}: quote a cell that holds the delimiter."
        elif max(map(len, cells)) > MAX_CELL:
            code, detail = "cell-too-long", f"The row has a cell of more than {MAX_CELL} characters."
        elif stray := [place + 1 for place in untitled if place < len(cells) and cells[place].strip()]:
            code = "cell-without-title"
            detail = f"Column {stray[0]} has a cell here and no title: name the column, or leave its cells empty."
        else:
            return None
        return FieldError(pointer=pointer("rows", row + 1), code=code, detail=detail, line=line)

    def _swallowed(self, cells: Sequence[str], line: int) -> str:
        """That a cell has line ends and all the delimiters of a row in it, as between two marks of ditto; or empty."""
        least = sum(map(bool, self.titles)) - 1
        if least + 1 < _LEAST_COLUMNS:
            return ""
        for cell in cells:
            ends = len(_LINE_END.findall(cell)) if cell.count(self.delimiter) >= least else 0
            if ends:
                return (
                    "A quote that begins a cell is closed on another line, by one that begins a cell there:"
                    f" lines {line} to {line + ends} are read as one row. Write what stands above in place of a mark"
                    " for it, and a quote inside a cell twice."
                )
        return ""

    def no_point(self, cells: Sequence[str], row: int, line: int) -> FieldError | None:
        """That a row is no hang point: the titles once more, as pages have them, a line of units, totals or a heading.

        Its id isn't read: several such rows would be one id that stands twice.
        """
        names = [cells[each.place].strip() for each in self.identity if each.place < len(cells)]
        found = self._header_again(cells, names) or self._heading(cells, names) or self._totals(cells, names)
        if found is None:
            return None
        return FieldError(pointer=pointer("rows", row + 1), code=found[0], detail=found[1], line=line)

    def _header_again(self, cells: Sequence[str], names: Sequence[str]) -> tuple[str, str] | None:
        titles = self.titles
        if _one(cells[0]) == _one(titles[0]) and list(map(_one, cells)) == list(map(_one, titles)):
            return "header-again", "The row has the titles of the header once more: take it out."
        if any(names) or any(map(_DIGIT.search, cells)) or _total_in(cells) is not None:
            return None
        return (
            "header-again",
            "The row has no id and no number, as a line of units or titles: put units into the titles, as h_ef [in].",
        )

    def _heading(self, cells: Sequence[str], names: Sequence[str]) -> tuple[str, str] | None:
        if not any(names) or _filled(cells) != 1 or len(self.identity) >= len(self.titles) - 1:
            return None
        if _total_in(names) is not None or not (self.alone or (self.fuller and _HEADING.fullmatch("".join(names)))):
            return None
        detail = (
            "The row has a name and nothing else, as a heading: take it out, or fill its cells; an empty cell does not"
        )
        return "heading", f"{detail} take what stands above it."

    def _totals(self, cells: Sequence[str], names: Sequence[str]) -> tuple[str, str] | None:
        total = _total_in(names if any(names) else cells)
        if total is not None:
            detail = f'The row "{total}" seems to be a line of totals: take it out, or give the {self.what}'
            return "line-of-totals", f"{detail} another id." if any(names) else f"{detail} an id."
        if any(names) or _filled(cells) > _FEW:
            return None
        return (
            "line-of-totals",
            f"The row has no id and hardly a cell, as a line of totals: take it out, or give the {self.what} an id.",
        )


def filled_twice(cells: Sequence[str]) -> bool:
    """Whether a row has more than one cell."""
    return _filled(cells) > 1


def _filled(cells: Sequence[str]) -> int:
    return sum(map(bool, map(str.strip, cells)))


def _total_in(cells: Sequence[str]) -> str | None:
    return next((text for text in map(str.strip, cells) if _TOTALS.fullmatch(text)), None)


def _one(title: str) -> str:
    """A title whatever its case and spaces."""
    return " ".join(title.casefold().split())
