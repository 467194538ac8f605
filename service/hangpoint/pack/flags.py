"""Assumptions taken and checks left out, as bits of one integer a point."""

from collections.abc import Sequence
from enum import Enum
from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray

from hangpoint.core.quantity import Bools, Index
from hangpoint.core.vocabulary import (
    Assumption,
    FixtureAssumption,
    FixtureNotChecked,
    LoadAssumption,
    LoadNotChecked,
    NotChecked,
    position,
)

Bits = NDArray[np.uint64]
Vocabulary = (
    type[Assumption]
    | type[NotChecked]
    | type[LoadAssumption]
    | type[LoadNotChecked]
    | type[FixtureAssumption]
    | type[FixtureNotChecked]
)


def bits_of(*members: Enum) -> np.uint64:
    """The bits of some members of one closed list."""
    return np.uint64(sum(1 << position(member) for member in members))


_bit = cache(bits_of)
_REMEMBERED = 4096
"""Sets of flags whose codes are kept: callers can make as many as they like."""
READING_0 = bits_of(*(each for each in Assumption if each.value.clause == "reading 0"))
"""The defaults for what a request leaves blank; the other assumptions say how something was read."""


def _bits(flags: Enum | np.uint64) -> np.uint64:
    return _bit(flags) if isinstance(flags, Enum) else flags


class Flags:
    """Bits of one closed list for every point of a batch."""

    def __init__(self, vocabulary: Vocabulary, count: int) -> None:
        self.vocabulary = vocabulary
        self._count = count
        self.bits: Bits = np.zeros(count, dtype=np.uint64)

    @classmethod
    def joined(cls, vocabulary: Vocabulary, parts: Sequence[tuple["Flags", Index]]) -> "Flags":
        """The flags of some points of several batches, one after the other."""
        found = cls(vocabulary, sum(len(rows) for _, rows in parts))
        found.bits = np.concatenate([flags.bits[rows] for flags, rows in parts])
        return found

    def exchange(self, member: Enum, other: Enum) -> None:
        """Raise the other flag wherever one is raised, in its place."""
        holds = self.bits & _bit(member) > 0
        self.bits[holds] ^= _bit(member) | _bit(other)

    def set(
        self,
        raised: Enum | np.uint64,
        holds: Bools | Sequence[bool] | None = None,
        rows: Sequence[int] | Index | None = None,
    ) -> None:
        """Raise a flag, or those of `bits_of`, for all points or those in ``rows``, rising; of them where ``holds``."""
        bits = _bits(raised)
        own = None if rows is None or len(rows) == self._count else np.asarray(rows, dtype=np.intp)
        if holds is None:
            self.bits[slice(None) if own is None else own] |= bits
            return
        mask = np.asarray(holds, dtype=np.bool_)
        number = np.count_nonzero(mask)
        if number == self._count:
            self.bits |= bits
        elif number:
            self.bits[mask if own is None else own[mask]] |= bits

    def clear(self, lowered: Enum | np.uint64, holds: Bools) -> None:
        """Lower a flag, or those of `bits_of`, where ``holds``."""
        if np.count_nonzero(holds):
            self.bits[holds] &= ~_bits(lowered)

    def codes(self, bits: int) -> tuple[str, ...]:
        """The codes of some bits, in the order of the closed list."""
        return codes_of(self.vocabulary, bits)

    def said(self) -> dict[str, str]:
        """Code and text of every flag that any point has, in the order of the closed list."""
        bits = int(np.bitwise_or.reduce(self.bits)) if len(self.bits) else 0
        texts = {member.value.code: member.value.text for member in self.vocabulary}
        return {code: texts[code] for code in self.codes(bits)}


@lru_cache(maxsize=_REMEMBERED)
def codes_of(vocabulary: Vocabulary, bits: int) -> tuple[str, ...]:
    """The codes whose bits are set."""
    return tuple(member.value.code for member in vocabulary if bits >> position(member) & 1)
