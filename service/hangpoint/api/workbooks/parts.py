"""The parts of a workbook file: its sheets, and what of a sheet a table of cells doesn't tell (ECMA-376 parts 1 and 2).

A file comes from anybody, so it is held to sizes before a library reads it whole.
"""

import posixpath
import re
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from xml.etree.ElementTree import Element, ParseError
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile

from defusedxml.ElementTree import iterparse

from hangpoint.api.problems import ProblemError

MOST_BYTES = 64 * 1024 * 1024
"""Bytes of all parts of a workbook, inflated."""
MOST_CELLS = 200_000
"""Cells of a sheet, those of merged areas counted too."""
MOST_ROWS = 50_000
"""Rows of a sheet down to the last cell."""
MOST_TAGS = 1_500_000
"""Tags of the sheets and their texts, elements that begin and end."""
MOST_OTHER_TAGS = 200_000
"""Tags of all other parts: formats, names, pictures."""
MOST_COLUMN_ENTRIES = 16_384
"""Entries of a sheet about its columns, which are no more."""
MOST_FORMAT = 1024
"""Characters of a number format."""
DAMAGED = (
    *(ArithmeticError, AttributeError, BadZipFile, EOFError, LookupError, NotImplementedError, OSError, ParseError),
    *(RuntimeError, TypeError, ValueError, zlib.error),
)
"""What is raised on a file that isn't whole, by the libraries too."""
_OLD = b"\xd0\xcf\x11\xe0"
_WORKBOOK = "xl/workbook.xml"
_RELATIONS = "xl/_rels/workbook.xml.rels"
_STYLES = "xl/styles.xml"
_TEXTS = ("xl/worksheets/", "xl/sharedStrings")
_REFERENCE = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]{1,7})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A worksheet: its name, the path of its part, and whether a person sees it."""

    name: str
    part: str
    visible: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A rectangle of cells, rows and columns from 1, the last ones included."""

    top: int
    left: int
    bottom: int
    right: int

    @property
    def size(self) -> int:
        """Its cells."""
        return (self.bottom - self.top + 1) * (self.right - self.left + 1)


@dataclass(slots=True, kw_only=True)
class Layout:
    """What a sheet has beside values.

    ``rows`` and ``columns`` reach to the last cell with a value. ``unvalued`` are cells with a formula and no value,
    ``zeros`` with one and 0. What has no width or height is hidden.
    """

    rows: int = 0
    columns: int = 0
    hidden_rows: list[int] = field(default_factory=list[int])
    hidden_columns: list[tuple[int, int]] = field(default_factory=list[tuple[int, int]])
    merged: list[Area] = field(default_factory=list[Area])
    unvalued: list[str] = field(default_factory=list[str])
    zeros: list[str] = field(default_factory=list[str])


def opened(body: bytes) -> ZipFile:
    """The parts of a workbook.

    Raises:
        ProblemError: no workbook, or one that is too large or has what the standard forbids.
    """
    if body.startswith(_OLD):
        raise _unread("is an old workbook (XLS), or one under a password: save it as XLSX without a password")
    try:
        archive = ZipFile(BytesIO(body))
        names = set(archive.namelist())
        if not {_WORKBOOK, _RELATIONS} <= names:
            other = "content.xml" in names
            raise _unread(
                f"is {'a workbook of another kind (ODS)' if other else 'an archive and no workbook'}: save it as XLSX"
            )
        size = sum(each.file_size for each in archive.infolist())
        if size > MOST_BYTES:
            detail = f"The workbook has {size} bytes inflated; the limit is {MOST_BYTES}."
            raise ProblemError("too-large", detail, members={"limit": MOST_BYTES, "received": size})
        _refuse_unusual(archive)
    except DAMAGED as error:
        raise _unread("is damaged or no workbook (XLSX)") from error
    return archive


def _refuse_unusual(archive: ZipFile) -> None:
    """Refuse what the standard of such archives doesn't know, and what would cost a library too much."""
    parts = archive.infolist()
    if len({each.filename for each in parts}) < len(parts):
        raise _unread("is damaged: a part stands twice in it")
    if any(each.compress_type not in (ZIP_STORED, ZIP_DEFLATED) for each in parts):
        raise _unread("is compressed as XLSX is not")
    of_sheets = of_others = 0
    for each in parts:
        with archive.open(each) as part:
            tags = sum(chunk.count(b"<") for chunk in iter(lambda: part.read(1 << 20), b""))
        if each.filename.startswith(_TEXTS):
            of_sheets += tags
        else:
            of_others += tags
    for tags, limit in ((of_sheets, MOST_TAGS), (of_others, MOST_OTHER_TAGS)):
        if tags > limit:
            raise _too_many("tags", tags, limit, whose="The workbook")
    of_workbook = _elements(archive, _RELATIONS, "Relationship")
    if any(own.get("Type", "").endswith("/styles") and _path(own) != _STYLES for own in of_workbook):
        raise _unread("has its number formats where they aren't looked for: save it in a spreadsheet program")
    if _STYLES in archive.namelist():
        formats = (own.get("formatCode", "") for own in _elements(archive, _STYLES, "numFmt"))
        longest = max(map(len, formats), default=0)
        if longest > MOST_FORMAT:
            raise _too_many("characters in a number format", longest, MOST_FORMAT, whose="The workbook")


def _path(relation: Element) -> str:
    """The path of the part that a relation of the workbook names."""
    path = posixpath.normpath(posixpath.join("xl", relation.get("Target", ""))).lstrip("/")
    return path.removeprefix("xl/") if path.startswith("xl/xl/") else path


def computed_anew(archive: ZipFile) -> bool:
    """Whether the values of formulas are to be computed when it is opened, as programs ask that computed none."""
    return any(_true(own.get("fullCalcOnLoad")) for own in _elements(archive, _WORKBOOK, "calcPr"))


def sheets_of(archive: ZipFile) -> list[Sheet]:
    """The worksheets of a workbook, in order.

    Raises:
        ProblemError: the workbook is damaged.
    """
    paths = {
        own.get("Id", ""): _path(own)
        for own in _elements(archive, _RELATIONS, "Relationship")
        if own.get("Type", "").endswith("/worksheet")
    }
    found: list[Sheet] = []
    for own in _elements(archive, _WORKBOOK, "sheet"):
        key = next((value for name, value in own.items() if name.endswith("}id")), "")
        if key in paths and paths[key] in archive.namelist():
            visible = own.get("state", "visible") == "visible"
            found.append(Sheet(name=own.get("name", ""), part=paths[key], visible=visible))
    if len({each.name.casefold() for each in found}) < len(found):
        raise _unread("is damaged: two of its sheets have one name")
    return found


def layout_of(archive: ZipFile, sheet: Sheet) -> Layout:
    """What a sheet has beside values.

    Raises:
        ProblemError: it is damaged, or has too many cells or rows.
    """
    made = Layout()
    cells = row = column = last = 0
    filled = False
    for event, own in _parsed(archive, sheet.part, starts=True):
        kind = _local(own.tag)
        if event == "start":
            if kind == "row":
                row, column, filled = _whole(own.get("r"), row + 1), 0, False
                last = _after(row, last)
        elif kind == "c":
            cells += 1
            place, next_column = _place(own.get("r"), row, column + 1)
            if place != row:
                raise _unread("is damaged: a cell stands in another row than its own")
            column = _after(next_column, column)
            filled = _noted(own, row, column, made) or filled
        elif kind == "row":
            if filled and _hidden(own, "ht"):
                made.hidden_rows.append(row)
            own.clear()
        elif kind == "col" and _hidden(own, "width"):
            made.hidden_columns.append((_whole(own.get("min"), 1), _whole(own.get("max"), 1)))
            if len(made.hidden_columns) > MOST_COLUMN_ENTRIES:
                raise _too_many("entries about columns", len(made.hidden_columns), MOST_COLUMN_ENTRIES)
        elif kind == "mergeCell":
            made.merged.append(_area(own.get("ref", "")))
            cells += made.merged[-1].size
        if cells > MOST_CELLS:
            raise _too_many("cells", cells, MOST_CELLS)
        if made.rows > MOST_ROWS:
            raise _too_many("rows", made.rows, MOST_ROWS)
    return made


def _noted(own: Element, row: int, column: int, made: Layout) -> bool:
    """Take note of a cell; whether it has a value."""
    tags = {_local(each.tag): each for each in own}
    valued = "is" in tags or ("v" in tags and bool(tags["v"].text))
    if "f" in tags and not valued and own.get("t") != "str":
        made.unvalued.append(name_of(row, column))
    if "f" in tags and valued and tags["v"].text == "0" and own.get("t", "n") == "n":
        made.zeros.append(name_of(row, column))
    if valued:
        made.rows, made.columns = max(made.rows, row), max(made.columns, column)
    return valued


def name_of(row: int, column: int) -> str:
    """The name of a cell, as B7."""
    return f"{letters_of(column)}{row}"


def letters_of(column: int) -> str:
    """The letters of a column, from 1."""
    text = ""
    while column:
        column, place = divmod(column - 1, 26)
        text = chr(ord("A") + place) + text
    return text


def _place(reference: str | None, row: int, column: int) -> tuple[int, int]:
    """Row and column of a cell by its name; of one without a name as they are counted."""
    if reference is None:
        return row, column
    found = _REFERENCE.fullmatch(reference)
    if found is None:
        raise _unread("is damaged")
    number = 0
    for letter in found[1]:
        number = number * 26 + ord(letter) - ord("A") + 1
    return int(found[2]), number


def _area(reference: str) -> Area:
    first, _, last = reference.partition(":")
    top, left = _place(first, 0, 0)
    bottom, right = _place(last or first, 0, 0)
    return Area(top=min(top, bottom), left=min(left, right), bottom=max(top, bottom), right=max(left, right))


def _whole(text: str | None, absent: int) -> int:
    if text is None:
        return absent
    if not text.isdecimal():
        raise _unread("is damaged")
    return int(text)


def _after(place: int, last: int) -> int:
    """A row or column that comes after the last one; libraries drop one that doesn't."""
    if place <= last:
        raise _unread("is damaged: rows or cells are not in order")
    return place


def _hidden(own: Element, size: str) -> bool:
    """Whether a row or column is hidden, or has no height or width."""
    return _true(own.get("hidden")) or float(own.get(size, "1")) == 0


def _true(text: str | None) -> bool:
    return text in ("1", "true")


def _elements(archive: ZipFile, name: str, tag: str) -> list[Element]:
    return [own for _, own in _parsed(archive, name) if _local(own.tag) == tag]


def _parsed(archive: ZipFile, name: str, *, starts: bool = False) -> Iterator[tuple[str, Element]]:
    """The elements of a part at their ends, with ``starts`` at their beginnings too."""
    try:
        with archive.open(name) as part:
            yield from iterparse(part, ("start", "end") if starts else ("end",))
    except DAMAGED as error:
        raise _unread("is damaged, or has what XLSX forbids") from error


def _local(tag: str) -> str:
    return tag.rpartition("}")[2]


def _unread(what: str) -> ProblemError:
    return ProblemError("malformed", f"The body {what}.")


def _too_many(what: str, received: int, limit: int, *, whose: str = "A sheet of the workbook") -> ProblemError:
    detail = f"{whose} has {received} {what}; the limit is {limit}. Divide it, or send it as CSV."
    return ProblemError("too-many-items", detail, members={"limit": limit, "received": received})
