"""Items of a stream, a line each: validated, their ids compared, their errors named by line."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any, cast

from pydantic import TypeAdapter, ValidationError
from pydantic_core import from_json

from hangpoint.api.batch import CALCULATIONS, Limits
from hangpoint.api.bodies import row_errors
from hangpoint.api.line_header import states_header
from hangpoint.api.lines import Line
from hangpoint.api.problems import FieldError, pointer, too_many
from hangpoint.api.schemas.request import Item

_NAMED_AT_ONCE = 256 * 1024
"""Bytes of bad lines whose errors are named in one go: each may have thousands."""

_KEPT = 8 * 1024
"""Bytes of a bad line that is kept as object, which takes many times the memory of its text."""


@cache
def item_adapter() -> TypeAdapter[Item]:
    """Validator of a line."""
    return TypeAdapter(Item)


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Items from row ``start`` on, with the number of the line of each; errors by row."""

    start: int
    items: list[Any] = field(default_factory=list[Any])
    ids: list[Any] = field(default_factory=list[Any])
    lines: list[int] = field(default_factory=list[int])
    errors: dict[int, Sequence[FieldError]] = field(default_factory=dict[int, Sequence[FieldError]])

    @property
    def rows(self) -> range:
        """Rows of the items in the whole stream."""
        return range(self.start, self.start + len(self.items))

    @property
    def valid(self) -> dict[int, Any]:
        """Items without errors by row."""
        return {row: item for row, item in zip(self.rows, self.items, strict=True) if row not in self.errors}


def joined(blocks: Sequence[Block]) -> Block:
    """Blocks of a whole stream, in order, as one."""
    return Block(
        start=0,
        items=[item for block in blocks for item in block.items],
        ids=[point for block in blocks for point in block.ids],
        lines=[line for block in blocks for line in block.lines],
        errors={row: errors for block in blocks for row, errors in block.errors.items()},
    )


_BAD: Any = object()
"""In place of an item that is JSON but not valid, until its errors are named."""


class ItemReader:
    """Reads items block by block and knows the ids of all before."""

    def __init__(self, *, limits: Limits, detail: str, max_line: int) -> None:
        """``limits`` and ``detail`` of the whole stream; ``max_line`` is the limit by which its lines were cut."""
        self._limits = limits
        self._detail = detail
        self._max_line = max_line
        self._line_of_id: dict[str, int] = {}
        self._count = 0

    def read(self, lines: Sequence[Line]) -> Block:
        """The next items.

        Raises:
            ProblemError: more items, or more traces, than the limit.
        """
        block = Block(start=self._count)
        self._count += len(lines)
        for name, most, holds in (
            ("hang points", self._limits.items, True),
            (CALCULATIONS, self._limits.traces, self._detail == "trace"),
        ):
            if holds and self._count > most:
                raise too_many(name, self._count, most)
        bad: list[tuple[int, Line]] = []
        for at, line in enumerate(lines):
            item, error = self._item(line)
            if item is _BAD:
                bad.append((at, line))
            if error is not None:
                block.errors[block.start + at] = [error]
            block.items.append(item)
            block.ids.append(_id(item))
            block.lines.append(line.number)
        while bad:
            bad = self._name_errors(block, bad)
        self._name_duplicates(block)
        return block

    def _item(self, line: Line) -> tuple[Any, FieldError | None]:
        """A valid item, `_BAD`, or the text of a line that is no JSON (of one too long its hash) with its error."""
        place = pointer("lines", line.number)
        if line.too_long:
            detail = f"The line has {line.too_long} bytes; the limit is {self._max_line}."
            error = FieldError(pointer=place, code="line-too-long", detail=detail, line=line.number)
            return line.text.decode(), error
        try:
            return item_adapter().validate_json(line.text), None
        except ValidationError:
            pass
        try:
            from_json(line.text, allow_inf_nan=False)
        except ValueError as error:
            detail = f"The line is not JSON in UTF-8: {str(error).replace(' line 1 ', ' ')}."
            return line.text.decode(errors="replace"), FieldError(
                pointer=place, code="malformed", detail=detail, line=line.number
            )
        return _BAD, None

    def _name_errors(self, block: Block, bad: Sequence[tuple[int, Line]]) -> list[tuple[int, Line]]:
        """Put the first of the bad items in their places with their errors; the others are left for the next time."""
        size, some = 0, 0
        while some < len(bad) and size < _NAMED_AT_ONCE:
            size += len(bad[some][1].text)
            some += 1
        items = [from_json(line.text, allow_inf_nan=False) for _, line in bad[:some]]
        errors = row_errors(items)
        for order, (at, line) in enumerate(bad[:some]):
            item = items[order]
            block.ids[at] = _id(item)
            block.items[at] = item
            if isinstance(item, dict) and states_header(cast(dict[str, Any], item)):
                block.errors[block.start + at] = [_late_header(line.number)]
            elif order in errors:
                block.errors[block.start + at] = [_moved(error, order, line.number) for error in errors[order]]
            if order in errors:
                block.items[at] = item if len(line.text) <= _KEPT else line.text.decode()
        return list(bad[some:])

    def _name_duplicates(self, block: Block) -> None:
        """The first item with an id stands, every other is invalid."""
        for row, point, line in zip(block.rows, block.ids, block.lines, strict=True):
            if not isinstance(point, str):
                continue
            first = self._line_of_id.setdefault(point, line)
            if first != line:
                error = FieldError(
                    pointer=pointer("lines", line, "id"),
                    code="duplicate-id",
                    detail=f"The same id stands at {pointer('lines', first, 'id')}.",
                    line=line,
                )
                block.errors[row] = [error, *block.errors.get(row, ())]


def _id(item: Any) -> Any:
    return cast(dict[str, Any], item).get("id") if isinstance(item, dict) else None


def _late_header(line: int) -> FieldError:
    """The error of a header behind the first line, as files have that were put one behind the other."""
    detail = (
        "A header stands on the first line only. Nothing of this one holds: the lines after it are read by the first"
        " line, in its units and with its defaults. Send what this one is of as a stream of its own."
    )
    return FieldError(pointer=pointer("lines", line), code="late-header", detail=detail, line=line)


def _moved(error: FieldError, order: int, line: int) -> FieldError:
    """An error of an item that was read among others, at the line that it came from."""
    return replace(error, pointer=at_line(error.pointer, order, line), line=line)


def at_line(place: str, row: int, line: int) -> str:
    """A pointer into the item of a row as a pointer into its line."""
    return pointer("lines", line) + place.removeprefix(pointer("items", row))
