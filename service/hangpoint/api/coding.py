"""Content codings of bodies: gzip (RFC 1952) and zstd (RFC 8878), inflated piece by piece, never whole.

Whoever reads counts the pieces, so that a limit of bytes holds while a body inflates.
"""

import sys
import zlib
from collections.abc import Callable, Iterator
from typing import Protocol

from hangpoint.api.problems import ProblemError

if sys.version_info >= (3, 14):
    from compression import zstd
else:
    from backports import zstd

PIECE = 256 * 1024
"""Bytes that a piece has at most."""

_FED = 64 * 1024
"""Bytes that are inflated in one go: what is left over is copied with every piece."""

MAX_STREAMS = 1000
"""Compressed streams that may follow one another in a body."""

_WINDOW_LOG = 23
"""Window of zstd of at most 8 MiB, which RFC 9659 asks for: memory, whatever the length of the body."""
_GZIP_WBITS = 16 + zlib.MAX_WBITS


class _Stream(Protocol):
    """One compressed stream: what inflates so far, at most `PIECE` bytes a call."""

    @property
    def eof(self) -> bool: ...
    @property
    def unused_data(self) -> bytes: ...
    def next(self, data: bytes) -> bytes: ...
    def waiting(self) -> bool: ...


class _Gzip:
    def __init__(self) -> None:
        self._stream = zlib.decompressobj(_GZIP_WBITS)
        self._full = False

    @property
    def eof(self) -> bool:
        return self._stream.eof

    @property
    def unused_data(self) -> bytes:
        return self._stream.unused_data

    def next(self, data: bytes) -> bytes:
        made = self._stream.decompress(self._stream.unconsumed_tail + data, PIECE)
        self._full = len(made) == PIECE
        return made

    def waiting(self) -> bool:
        """Whether nothing more comes without more data; a full piece may have left something inside."""
        return not self._full and not self._stream.unconsumed_tail


class _Zstd:
    def __init__(self) -> None:
        self._stream = zstd.ZstdDecompressor(options={zstd.DecompressionParameter.window_log_max: _WINDOW_LOG})

    @property
    def eof(self) -> bool:
        return self._stream.eof

    @property
    def unused_data(self) -> bytes:
        return self._stream.unused_data

    def next(self, data: bytes) -> bytes:
        return self._stream.decompress(data, PIECE)

    def waiting(self) -> bool:
        return self._stream.needs_input


_CODINGS: dict[str, Callable[[], _Stream]] = {"gzip": _Gzip, "x-gzip": _Gzip, "zstd": _Zstd}
ACCEPTED = "gzip, zstd"
"""Value of Accept-Encoding."""


class Inflation:
    """A body in one coding, or in none (``identity``).

    Raises:
        ProblemError: the coding is not read, or the body is not in it.
    """

    def __init__(self, coding: str) -> None:
        self.coding = coding.strip().lower() or "identity"
        self._make = _CODINGS.get(self.coding)
        self._stream: _Stream | None = None
        self._count = 0
        if self._make is None and self.coding != "identity":
            raise ProblemError(
                "unsupported-media",
                f"Content-Encoding {coding[:40]} is not read; send the body as it is, or one of {ACCEPTED}.",
                headers={"Accept-Encoding": ACCEPTED},
            )

    def pieces(self, data: bytes) -> Iterator[bytes]:
        """What the next bytes of the body inflate to, none of it empty."""
        if self._make is None:
            yield from (data[at : at + PIECE] for at in range(0, len(data), PIECE))
            return
        for at in range(0, len(data), _FED):
            yield from self._inflated(self._make, data[at : at + _FED])

    def end(self) -> None:
        """The body is complete: so must be its last stream."""
        if self._stream is not None and not self._stream.eof:
            raise self._broken("it ends before its end")

    def _inflated(self, make: Callable[[], _Stream], data: bytes) -> Iterator[bytes]:
        while data:
            if self._stream is None or self._stream.eof:
                self._stream = self._begin(make)
            stream = self._stream
            piece = self._next(stream, data)
            while piece:
                yield piece
                piece = b"" if stream.eof or stream.waiting() else self._next(stream, b"")
            data = stream.unused_data if stream.eof else b""

    def _begin(self, make: Callable[[], _Stream]) -> _Stream:
        self._count += 1
        if self._count > MAX_STREAMS:
            raise self._broken(f"it has more than {MAX_STREAMS} streams")
        return make()

    def _next(self, stream: _Stream, data: bytes) -> bytes:
        try:
            return stream.next(data)
        except (zlib.error, zstd.ZstdError) as error:
            raise self._broken(str(error)) from None

    def _broken(self, why: str) -> ProblemError:
        return ProblemError("malformed", f"The body is not {self.coding} as its Content-Encoding says: {why}.")
