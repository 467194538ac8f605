"""Hang points as a stream of lines of JSON (NDJSON), a header and an item a line: compared and answered block by block.

A line that can't be read, or repeats an id, is one invalid result. What is wrong with the header, or over a limit, is
a problem of the whole.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import orjson

from hangpoint import __version__
from hangpoint.api.batch import Limits, all_results, answer_batch, block_results
from hangpoint.api.line_header import Header
from hangpoint.api.line_items import Block, ItemReader, at_line
from hangpoint.api.line_members import Members, Sent
from hangpoint.api.lines import Line
from hangpoint.api.problems import FieldError, pointer, problem_body
from hangpoint.api.tally import Tally
from hangpoint.core.vocabulary import Status
from hangpoint.pack.flaws import Flaw
from hangpoint.product.catalogue import Catalogue

_SLUGS = {"malformed": "malformed", "line-too-long": "too-large", "duplicate-id": "duplicate-id"}
"""Kinds of problem of a line beside those of an item, by the code of the first error."""

_INVALID = b'"status":"invalid"'


class LineBatch:
    """A batch whose items come block by block: read each, compare it, answer it.

    Blocks are answered in the order in which they were read; several may be compared at once. Or all are read and
    compared before the whole is answered.
    """

    def __init__(self, header: Header, *, catalogue: Catalogue, limits: Limits, max_line: int) -> None:
        """Begin with a header; ``limits`` are those of the whole, ``max_line`` that by which lines were cut."""
        head = header.batch
        self._head = head
        self._header_line = header.line
        self._catalogue = catalogue
        self.opening = answer_batch(head, catalogue=catalogue, limits=limits, detail=head.detail)
        self._tally = Tally(
            (
                __version__,
                self.opening["design_code"]["id"],
                self.opening["combinations"],
                self.opening["load_standard"],
                catalogue.hash,
                head.units,
                head.detail,
                head.neighbours,
            ),
            default=head.defaults,
        )
        few = head.traced is not None  # Traces of chosen items were counted with the opening.
        self._items = ItemReader(limits=limits, detail="modes" if few else head.detail, max_line=max_line)
        self._members = Members(head)
        self._withdrawn: list[tuple[Sent, dict[str, Any]]] = []

    def read(self, lines: Sequence[Line]) -> Block:
        """The next items (see `ItemReader.read`)."""
        return self._items.read(lines)

    def compare(self, blocks: Sequence[Block]) -> None:
        """Make points invalid whose member another point states differently, of these blocks or an earlier one."""
        found = self._members.compare({row: item for block in blocks for row, item in block.valid.items()})
        for block in blocks:
            for row, line in zip(block.rows, block.lines, strict=True):
                if row in found.by_row:
                    block.errors[row] = self._flaw_errors(found.by_row[row], line)
        self._withdrawn += [
            (sent, _invalid(sent.id, sent.row, self._flaw_errors(flaws, sent.line))) for sent, flaws in found.sent
        ]

    def answer(self, block: Block) -> list[bytes]:
        """A result an item, in order, as JSON."""
        texts = block_results(
            replace(self._head, items=_Rows(block.start, block.items), errors=block.errors),
            block.rows,
            _Rows(block.start, block.ids),
            catalogue=self._catalogue,
            detail=self._head.detail,
            tally=self._tally,
        )
        for row, line, item, text in zip(block.rows, block.lines, block.items, texts, strict=True):
            if _INVALID not in text:
                self._members.note_sent(row, line, item, text)
        return self._at_lines(block, texts)

    def answer_whole(self, block: Block) -> list[bytes]:
        """The same of all items as one block: neighbours are checked together where that is asked."""
        texts = all_results(
            replace(self._head, items=block.items, errors=block.errors),
            block.ids,
            catalogue=self._catalogue,
            detail=self._head.detail,
            tally=self._tally,
        )
        return self._at_lines(block, texts)

    def closing(self) -> tuple[dict[str, Any], list[dict[str, Any]]]:
        """What is known after the last result, and results in place of others that were sent before."""
        made = self._tally.as_json(())
        more = {name: case for name, case in self._tally.load_cases.items() if name not in self.opening["load_cases"]}
        if more:
            made["load_cases"] = more
        made["assumptions"] |= self.opening["assumptions"]
        for sent, _ in self._withdrawn:
            _count_as_invalid(made["summary"], sent)
        return made, [result for _, result in self._withdrawn]

    def _flaw_errors(self, flaws: Sequence[Flaw], line: int) -> list[FieldError]:
        return [
            FieldError(
                pointer=pointer("lines", line, *flaw.path.split("/")),
                code=flaw.code,
                detail=flaw.detail,
                allowed=flaw.allowed,
                line=line,
            )
            for flaw in flaws
        ]

    def _at_lines(self, block: Block, texts: Sequence[bytes]) -> list[bytes]:
        return [
            orjson.dumps(self._at_line(orjson.loads(text), row, line)) if _INVALID in text else text
            for row, line, text in zip(block.rows, block.lines, texts, strict=True)
        ]

    def _at_line(self, result: dict[str, Any], row: int, line: int) -> dict[str, Any]:
        """An invalid result whose errors name their line; one of a default is in the header."""
        errors: list[FieldError] = []
        for error in result["problem"]["errors"]:
            place = str(error["pointer"])
            in_defaults = place.startswith(pointer("defaults"))
            of = self._header_line if in_defaults else line
            if in_defaults:
                place = pointer("lines", of) + place.removeprefix("#")
            elif place.startswith(pointer("items")):
                place = at_line(place, row, line)
            errors.append(
                FieldError(
                    pointer=place,
                    code=error["code"],
                    detail=error["detail"],
                    allowed=tuple(error.get("allowed", ())),
                    line=of,
                )
            )
        slug = _SLUGS.get(errors[0].code, str(result["problem"]["type"]).removeprefix("/problems/"))
        return _invalid(result["id"], row, errors, slug)


class _Rows(Sequence[Any]):
    """Entries of a block by their row in the whole stream."""

    def __init__(self, start: int, entries: Sequence[Any]) -> None:
        self._start = start
        self._entries = entries

    def __getitem__(self, row: Any) -> Any:
        return self._entries[row - self._start]

    def __len__(self) -> int:
        return self._start + len(self._entries)


def _invalid(point: Any, row: int, errors: Sequence[FieldError], slug: str = "validation") -> dict[str, Any]:
    problem = problem_body(slug, f"{errors[0].pointer}: {errors[0].detail}", errors=errors)
    return {"id": point, "index": row, "status": Status.INVALID, "problem": problem}


def _count_as_invalid(summary: dict[str, Any], sent: Sent) -> None:
    summary[sent.status] -= 1
    summary["invalid"] += 1
    if sent.status == Status.PASSED and sent.on_assumptions:
        summary["passed_on_assumptions"] -= 1
    if sent.mode is not None and sent.status != Status.REFUSED:
        summary["governing"][sent.mode] -= 1
        if not summary["governing"][sent.mode]:
            del summary["governing"][sent.mode]
