"""A CSV as it came: its titles and cells, for whoever says what is wrong with one or hands it back."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from hangpoint.api.problems import FieldError, pointer

MERGED = 50
"""Rows above an empty cell in which one is looked for that may have been meant for it too."""
_UNDER = "An empty cell does not take what stands above it."
_MANY = 4
"""Empty cells under filled ones that are told at once."""
SHOWN = 40
"""Characters of a cell that an error repeats."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CsvSource:
    """The rows of a CSV, and by the path of each column that is read its title and its place in a row.

    ``unread`` are title and place of columns that are not read.
    """

    columns: Mapping[str, tuple[str, int]]
    unread: Sequence[tuple[str, int]] = ()
    rows: Sequence[Sequence[str]]

    def handed_back(self, count: int) -> list[tuple[str, Sequence[str | None]]]:
        """Columns that are not read: title and cells of so many rows, None for an empty one."""
        return [(title, [self._text(row, place) or None for row in range(count)]) for title, place in self.unread]

    def _text(self, row: int, place: int) -> str:
        cells = self.rows[row] if row < len(self.rows) else ()
        return cells[place].strip() if place < len(cells) else ""

    def gathered(self, errors: Sequence[FieldError], row: int) -> Sequence[FieldError]:
        """Errors of a row with all of its empty cells under filled ones as one, where they are many."""
        empty = [error for error in errors if error.detail.endswith(_UNDER)]
        if len(empty) < _MANY:
            return errors
        names = ", ".join(dict.fromkeys(str(error.column) for error in empty))
        detail = f"The row has nothing in {names}, where rows above have something. {_UNDER[:-1]}: fill these cells."
        first = FieldError(pointer=pointer("rows", row + 1), code="missing", detail=detail, line=empty[0].line)
        return [first, *(error for error in errors if error not in empty)]

    def _filled_above(self, row: int, place: int) -> bool:
        return any(self._text(above, place) for above in range(max(0, row - MERGED), row))

    def quoted(self, error: FieldError, row: int) -> FieldError:
        """An error of a row with the title of its column and the cell that it is of, as far as there are any."""
        inside = pointer("rows", row + 1, "")
        if row >= len(self.rows) or not error.pointer.startswith(inside):
            return error
        path, entry = error.pointer.removeprefix(inside), None
        if path not in self.columns and path.rpartition(".")[2].isdigit():
            path, _, last = path.rpartition(".")
            entry = int(last)
        if path not in self.columns:
            within = (each for each in self.columns if each.startswith(f"{path}."))
            path = next((each for each in within if self._text(row, self.columns[each][1])), path)
        if path not in self.columns:
            return error
        title, place = self.columns[path]
        cell = _entry(self._text(row, place), entry)
        if error.code == "missing" and not cell and self._filled_above(row, place):
            error = replace(error, detail=f"{error.detail} {_UNDER}")
        return replace(error, column=title, cell=_short(cell) if cell else None)


def _entry(text: str, entry: int | None) -> str:
    """A cell, or an entry of its list."""
    entries = text.split(";")
    return text if entry is None or entry >= len(entries) else entries[entry].strip()


def _short(text: str) -> str:
    return text if len(text) <= SHOWN else f"{text[: SHOWN - 1]}…"
