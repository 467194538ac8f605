"""Assumptions taken and checks left out, as bits: one for each member of a closed list."""

from collections.abc import Sequence
from enum import Enum
from functools import cache, lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.quantity import Bools, Index
from hangpoint.core.rows import some
from hangpoint.core.vocabulary import (
    Assumption,
    FixtureAssumption,
    FixtureNotChecked,
    LoadAssumption,
    LoadNotChecked,
    NotChecked,
    position,
)

WORD = 64
"""Flags in a word."""
Vocabulary = (
    type[Assumption]
    | type[NotChecked]
    | type[LoadAssumption]
    | type[LoadNotChecked]
    | type[FixtureAssumption]
    | type[FixtureNotChecked]
)


Marks = tuple[tuple[int, np.uint64], ...]
"""Some flags of a closed list: words, and the bits of each."""


def bits_of(*members: Enum) -> Marks:
    """The bits of some members of one closed list."""
    bits = sum(1 << position(member) for member in members)
    words = range(-(-bits.bit_length() // WORD))
    parts = ((word, bits >> word * WORD & (1 << WORD) - 1) for word in words)
    return tuple((word, np.uint64(part)) for word, part in parts if part)


_bit = cache(bits_of)
_REMEMBERED = 4096
"""Sets of flags whose codes are kept: callers can make as many as they like."""
READING_0 = bits_of(*(each for each in Assumption if each.value.clause == "reading 0"))
"""The defaults for what a request leaves blank; the other assumptions say how something was read."""


def _marks(flags: Enum | Marks) -> Marks:
    return _bit(flags) if isinstance(flags, Enum) else flags


class Flags:
    """Bits of one closed list for every point of a batch, in as many ``words`` (words, points) as the list takes."""

    def __init__(self, vocabulary: Vocabulary, count: int) -> None:
        self.vocabulary = vocabulary
        self._count = count
        self.words: NDArray[np.uint64] = np.zeros((-(-len(vocabulary) // WORD), count), dtype=np.uint64)

    @classmethod
    def joined(cls, vocabulary: Vocabulary, parts: Sequence[tuple["Flags", Index]]) -> "Flags":
        """The flags of some points of several batches, one after the other."""
        found = cls(vocabulary, sum(len(rows) for _, rows in parts))
        found.words = np.concatenate([flags.words[:, rows] for flags, rows in parts], axis=1)
        return found

    def exchange(self, member: Enum, other: Enum) -> None:
        """Raise the other flag wherever one is raised, in its place."""
        holds = self.any_of(member)
        self.clear(member, holds)
        self.set(other, holds)

    def set(
        self,
        raised: Enum | Marks,
        holds: Bools | Sequence[bool] | None = None,
        rows: Sequence[int] | Index | None = None,
    ) -> None:
        """Raise a flag, or those of `bits_of`, for all points or those in ``rows``, rising; of them where ``holds``."""
        own = None if rows is None or len(rows) == self._count else np.asarray(rows, dtype=np.intp)
        at: Any = slice(None) if own is None else own
        if holds is not None:
            mask = np.asarray(holds, dtype=np.bool_)
            number = np.count_nonzero(mask)
            if not number:
                return
            if number < self._count:
                at = mask if own is None else own[mask]
        for word, bits in _marks(raised):
            self.words[word][at] |= bits

    def clear(self, lowered: Enum | Marks, holds: Bools | None = None) -> None:
        """Lower a flag, or those of `bits_of`, for all points or where ``holds``."""
        if holds is None or np.count_nonzero(holds):
            for word, bits in _marks(lowered):
                self.words[word][slice(None) if holds is None else holds] &= ~bits

    def any_of(self, flags: Enum | Marks) -> Bools:
        """(points,) Whether a flag, or any of those of `bits_of`, is raised."""
        found = np.zeros(self._count, dtype=np.bool_)
        for word, bits in _marks(flags):
            found |= self.words[word] & bits > 0
        return found

    def of_points(self) -> list[int]:
        """The bits of each point as one integer."""
        first: list[int] = self.words[0].tolist()
        if not some(self.words[1:]):
            return first
        return [_whole(words) for words in self.words.T.tolist()]

    def of_point(self, point: int) -> int:
        """The bits of one point."""
        return _whole(self.words[:, point].tolist())

    def of_any(self) -> int:
        """The bits that any point has, as one integer."""
        return _whole(np.bitwise_or.reduce(self.words, axis=1).tolist())

    def codes(self, bits: int) -> tuple[str, ...]:
        """The codes of some bits, in the order of the closed list."""
        return codes_of(self.vocabulary, bits)

    def said(self) -> dict[str, str]:
        """Code and text of every flag that any point has, in the order of the closed list."""
        texts = {member.value.code: member.value.text for member in self.vocabulary}
        return {code: texts[code] for code in self.codes(self.of_any())}


def _whole(words: Sequence[int]) -> int:
    """Words as one integer."""
    return sum(word << place * WORD for place, word in enumerate(words))


@lru_cache(maxsize=_REMEMBERED)
def codes_of(vocabulary: Vocabulary, bits: int) -> tuple[str, ...]:
    """The codes whose bits are set."""
    return tuple(member.value.code for member in vocabulary if bits >> position(member) & 1)
