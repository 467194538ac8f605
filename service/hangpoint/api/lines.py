"""A text of lines as it arrives: each line with its number. A line that is too long is measured and not kept."""

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

MAX_LINE = 64 * 1024
"""Bytes of a line without its end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line that isn't blank.

    ``text`` has its bytes without the newline. Of a line that is ``too_long`` by its count of bytes it has the SHA-256
    in their place.
    """

    number: int
    text: bytes
    too_long: int = 0


class LineSplitter:
    """Cuts pieces of a text into lines. LF and CRLF end a line, and so does the end of the text."""

    def __init__(self, most: int = MAX_LINE) -> None:
        """``most``: bytes of a line that is kept."""
        self.most = most
        self._number = 0
        self._parts: list[bytes] = []
        self._length = 0
        self._digest = hashlib.sha256()

    def lines(self, pieces: Iterable[bytes]) -> Iterator[Line]:
        """Lines that end in these pieces."""
        for piece in pieces:
            *ended, rest = piece.split(b"\n")
            for part in ended:
                self._add(part)
                line = self._take()
                if line is not None:
                    yield line
            if rest:
                self._add(rest)

    def end(self) -> Iterator[Line]:
        """The line that ends with the text, where one does."""
        line = self._take()
        if line is not None:
            yield line

    def _add(self, part: bytes) -> None:
        kept = self._length <= self.most
        self._length += len(part)
        if self._length <= self.most:
            self._parts.append(part)
        elif kept:
            self._digest = hashlib.sha256(b"".join([*self._parts, part]))
            self._parts.clear()
        else:
            self._digest.update(part)

    def _take(self) -> Line | None:
        text, length = b"".join(self._parts), self._length
        self._number += 1
        self._parts.clear()
        self._length = 0
        if length > self.most:
            return Line(number=self._number, text=self._digest.hexdigest().encode(), too_long=length)
        return Line(number=self._number, text=text) if text.strip() else None
